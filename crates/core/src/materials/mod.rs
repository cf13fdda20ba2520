//! What a row takes: trees with their lengths, wires, posts, ties and sleeves, and what its wires bear.
//!
//! It is told for the finished wall, all of it: its places for trees, its wires up to the wall's height, its uprights. Posts are counted,
//! never designed: they, anchors and wind need the local codes and a qualified person.

mod delivered;
mod price;
mod trees;
pub mod wire;

pub use delivered::{Delivered, Placed, just_planted, listed, place, recorded};
pub use price::{Item, Prices};
pub use trees::{Stock, stocks};

use crate::arrange::Arrange;
use crate::plan::Plan;
use crate::range::Range;
use crate::row::{Covering, Limit, Targets, Trellis};
use crate::units::Mm;
use wire::{GRAVITY, Loaded, SETTING, Wire};

/// From post to post where a row has none, mm (from memory; 6 to 12 m are usual).
const POST_EVERY: f64 = 7_000.0;
/// Steps of length in which trees are ordered, mm (common practice, no source).
const ORDERED_BY: f64 = 100.0;
/// What a coil weighs, kg (from memory).
pub const COIL: f64 = 25.0;

/// What is asked beside the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// Trees to spare, a share of the places (from memory).
    pub spare_share: f64,
    /// The wire.
    pub wire: Wire,
    /// Wire at each end of a wire for tying off, mm (from memory).
    pub end: f64,
    /// From tie to tie along laid wood, mm (from memory).
    pub tie_every: f64,
    /// Crop that the wires bear, t/ha.
    pub crop: f64,
}

impl Ask {
    /// Shares to spare that can be asked for.
    pub const SPARE: Range = (0.0, 1.0);
    /// Crops that wires can be asked to bear, t/ha.
    pub const CROP: Range = (0.0, 200.0);
}

impl Default for Ask {
    fn default() -> Self {
        Self {
            spare_share: 0.05,
            wire: Wire::default(),
            end: 1_000.0,
            tie_every: crate::crew::TIE_EVERY,
            crop: 20.0,
        }
    }
}

/// What a row takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Needs {
    /// The stock of each place for a tree.
    pub stocks: Vec<Stock>,
    /// How many trees to spare.
    pub spares: usize,
    /// The wires of the finished wall, from the lowest up.
    pub wires: Vec<WireNeed>,
    /// Posts: those of the row, or as many as are usual.
    pub posts: usize,
    /// The row has none: they are reckoned.
    pub posts_assumed: bool,
    /// From post to post at the most, mm.
    pub span: f64,
    /// Ties of the finished wall.
    pub ties: usize,
    /// Ties on bare wire, each of which takes a sleeve.
    pub sleeves: usize,
    /// The crop on a metre of row, kg.
    pub crop_per_metre: f64,
    /// The cordon wire, did it bear all of the crop.
    pub worst: Loaded,
}

/// Trees that are ordered alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ordered {
    /// How long each is above the ground at the least, mm; with two leaders each of these above their fork.
    pub length: f64,
    /// They come unheaded, with intact buds.
    pub unheaded: bool,
    /// How many, those to spare left out.
    pub count: usize,
}

/// A wire of the finished wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireNeed {
    /// Its height.
    pub height: Mm,
    /// Its kind.
    pub covering: Covering,
    /// Whether it is still to be stretched.
    pub is_new: bool,
    /// Its length with both ends, mm.
    pub length: f64,
    /// Crop on a metre of it, kg: of the wall from half-way to the wire below to half-way to the one above.
    pub crop_per_metre: f64,
    /// The wire under that crop and its own weight.
    pub loaded: Loaded,
}

/// What the row of a plan takes under a scheme.
pub fn needs(plan: &Plan, scheme: usize, ask: &Ask) -> Needs {
    let row = &*plan.found;
    let targets = plan.limits(scheme);
    let stocks = stocks(row, &targets);
    let length = (row.to - row.from).f();
    let posts = &row.trellis.posts;
    let (first, last) = (posts.first(), posts.last());
    let stretched = match (first, last) {
        (Some(a), Some(b)) if posts.len() > 1 => (*b - *a).f(),
        _ => length,
    };
    let bays = libm::ceil(stretched / POST_EVERY).max(1.0);
    let span = match posts.len() {
        0 | 1 => stretched / bays,
        _ => posts
            .windows(2)
            .map(|w| (w[1] - w[0]).f())
            .fold(0.0, f64::max),
    };
    let spacing = plan
        .site
        .row_spacing
        .map_or(targets.get(Limit::RowSpacing), Mm::f);
    let crop_per_metre = crate::fruit::kg_per_metre(ask.crop, spacing);
    let wall = finished(&row.trellis, &targets);
    let own = ask.wire.kg_per_metre();
    let under = |kg: f64| {
        ask.wire
            .loaded(SETTING, span / 1000.0, (kg + own) * GRAVITY)
    };
    let wires: Vec<WireNeed> = wall
        .iter()
        .enumerate()
        .map(|(i, (height, covering))| {
            let crop = crop_per_metre * share(&wall, i, row.trellis.wall_height.f());
            WireNeed {
                height: *height,
                covering: *covering,
                is_new: i >= row.trellis.wires.len(),
                length: stretched + 2.0 * ask.end,
                crop_per_metre: crop,
                loaded: under(crop),
            }
        })
        .collect();
    let (ties, sleeves) = ties(&stocks, &wall, &targets, ask);
    Needs {
        spares: libm::ceil(stocks.len() as f64 * ask.spare_share) as usize,
        stocks,
        posts: match posts.len() {
            0 | 1 => bays as usize + 1,
            n => n,
        },
        posts_assumed: posts.len() < 2,
        span,
        ties,
        sleeves,
        crop_per_metre,
        worst: under(crop_per_metre),
        wires,
    }
}

impl Needs {
    /// Length of all wires of a kind, mm; `new` counts those alone that are still to be stretched.
    pub fn wire(&self, covering: Covering, new: bool) -> f64 {
        let wires = self
            .wires
            .iter()
            .filter(|w| w.covering == covering && (w.is_new || !new));
        wires.map(|w| w.length).sum()
    }

    /// The trees of all places by the length in which they are ordered, the longest first. Those to spare are of the first.
    pub fn ordered(&self) -> Vec<Ordered> {
        let step = |s: &Stock| libm::ceil(s.length / ORDERED_BY - 1e-9) as i64;
        let mut keys: Vec<(i64, bool)> = self
            .stocks
            .iter()
            .map(|s| (-step(s), !s.unheaded()))
            .collect();
        keys.arrange();
        let alike = keys.chunk_by(|a, b| a == b).map(|same| Ordered {
            length: -same[0].0 as f64 * ORDERED_BY,
            unheaded: !same[0].1,
            count: same.len(),
        });
        alike.collect()
    }

    /// Trees to order: as many as there are places, and those to spare.
    pub fn trees(&self) -> usize {
        self.stocks.len() + self.spares
    }
}

/// The wires of the finished wall: those that there are, then of the top one's kind as far apart as wires are to stand, up to the
/// wall's height.
fn finished(trellis: &Trellis, targets: &Targets) -> Vec<(Mm, Covering)> {
    let mut out: Vec<(Mm, Covering)> = trellis
        .wires
        .iter()
        .map(|w| (w.height, w.covering))
        .collect();
    while let Some((height, covering)) = out.last().copied()
        && out.len() < Trellis::MAX_WIRES
    {
        let next = Mm::round(height.f() + targets.get(Limit::WireSpacing));
        if next > trellis.wall_height {
            break;
        }
        out.push((next, covering));
    }
    out
}

/// The share of the wall over the cordon that hangs on a wire.
fn share(wires: &[(Mm, Covering)], i: usize, top: f64) -> f64 {
    let height = |i: usize| wires[i].0.f();
    let bottom = height(0);
    let top = top.max(height(wires.len() - 1));
    if top <= bottom {
        return 1.0;
    }
    let low = match i {
        0 => bottom,
        _ => (height(i - 1) + height(i)) / 2.0,
    };
    let high = match wires.get(i + 1) {
        Some(next) => (height(i) + next.0.f()) / 2.0,
        None => top,
    };
    (high - low) / (top - bottom)
}

/// Ties of the finished wall: along all laid wood, and each upright at each wire over the cordon. The second are those on bare wire.
fn ties(
    stocks: &[Stock],
    wires: &[(Mm, Covering)],
    targets: &Targets,
    ask: &Ask,
) -> (usize, usize) {
    let bare = |w: &&(Mm, Covering)| w.1 == Covering::Bare;
    let over = wires.get(1..).unwrap_or_default();
    let (mut all, mut on_bare) = (0, 0);
    for stock in stocks {
        let laid = stock.laid.max(0.0);
        let along = libm::ceil(laid / ask.tie_every) as usize;
        let uprights = libm::floor(laid / targets.get(Limit::UprightSpacing)) as usize;
        all += along + uprights * over.len();
        on_bare += uprights * over.iter().filter(bare).count();
        on_bare += along * wires.iter().take(1).filter(bare).count();
    }
    (all, on_bare)
}
