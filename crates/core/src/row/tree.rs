//! A tree: where it was planted, and its shoots.

use super::ids::{ShootId, TreeId};
use super::shoot::{Kind, Pose, Shoot, Toward};
use crate::arrange::Arrange;
use crate::range;
use crate::said::{Arg, Said};
use crate::sorted::Map;
use crate::units::{Deg, Mm};

/// How the stock was set in the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Planted {
    /// Angle of the stem from the ground, 10 to 90°.
    pub angle: Deg,
    /// The way it leans; of a stem at 90°, the way it is meant to go.
    pub toward: Toward,
}

impl Planted {
    /// The stem's heading in degrees from the level, counted from the right over the top.
    pub fn heading(self) -> f64 {
        match self.toward {
            Toward::Right => self.angle.degrees(),
            Toward::Left => 180.0 - self.angle.degrees(),
        }
    }
}

/// So many seasons after it grew stock is laid at the latest, which bends once it is old no more. Common practice, no source.
const LAID_BY: u8 = 2;

/// A tree. Every parent stands before its children in `shoots`; the stem is first. A lost tree has none.
#[derive(Clone, Debug, PartialEq)]
pub struct Tree {
    /// Its number.
    pub id: TreeId,
    /// Place of the foot along the row.
    pub foot: Mm,
    /// How it was planted.
    pub planted: Planted,
    /// Stem first, parents before children. Empty: the tree is dead or missing.
    pub shoots: Vec<Shoot>,
    /// How strongly it grows, where that differs from the row.
    pub vigour: Option<Vigour>,
    /// The tree of a sample that it was filled in from: nobody has measured it.
    pub like: Option<TreeId>,
    /// It is marked as diseased: it is worked on last, with tools disinfected before it and after it.
    pub diseased: bool,
    /// What the person who measured it wrote down.
    pub note: String,
}

/// How strongly a tree grows, by its stock and ground.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Vigour {
    /// First-season uprights reach some 0.45 m.
    Weak,
    /// Some 0.8 m.
    #[default]
    Medium,
    /// Some 1.2 m.
    Strong,
}

/// How near the end of a stem its leaders fork, mm.
const FORK: f64 = 20.0;

impl Tree {
    /// Most shoots on one tree.
    pub const MAX_SHOOTS: usize = 2_000;

    /// An empty place.
    pub fn lost(id: TreeId, foot: Mm, planted: Planted) -> Self {
        Self {
            id,
            foot,
            planted,
            shoots: Vec::new(),
            vigour: None,
            like: None,
            diseased: false,
            note: String::new(),
        }
    }

    /// Its grown uprights.
    pub fn uprights(&self) -> impl Iterator<Item = &Shoot> {
        self.shoots.iter().filter(|s| s.kind() == Kind::Upright)
    }

    /// Whether the place is empty: the tree dead, missing or taken out.
    pub fn is_lost(&self) -> bool {
        self.shoots.is_empty()
    }

    /// The stem of stock that still stands: nothing of the tree is laid yet.
    pub fn standing_stem(&self) -> Option<&Shoot> {
        let laid = self.shoots.iter().any(|s| s.pose.is_laid());
        self.shoots.first().filter(|_| !laid)
    }

    /// Whether it is stock that still stands and waits to be laid, before the growth of `leaf`: a stem that is too old for it waits no
    /// more.
    pub fn waits_as_stock(&self, leaf: u8) -> bool {
        let young = |stem: &Shoot| {
            stem.born()
                .is_none_or(|born| leaf.saturating_sub(born) <= LAID_BY)
        };
        self.standing_stem().is_some_and(young)
    }

    /// The two leaders of stock that forks, while they still stand: from the end of the stem, leaning apart, the left one
    /// first.
    pub fn standing_leaders(&self) -> Option<[&Shoot; 2]> {
        let stem = self.standing_stem()?;
        let lean = |s: &Shoot| match s.pose {
            Pose::Upright { lean } => Some(lean.degrees()),
            _ => None,
        };
        let end = stem.length() - FORK;
        let forks = |s: &&Shoot| s.parent == Some(stem.id) && s.at >= end && lean(s).is_some();
        let mut all = self.shoots.iter().filter(forks);
        let (a, b) = (all.next()?, all.next()?);
        match lean(a)?.total_cmp(&lean(b)?) {
            _ if all.next().is_some() => None,
            std::cmp::Ordering::Less => Some([a, b]),
            std::cmp::Ordering::Greater => Some([b, a]),
            std::cmp::Ordering::Equal => None,
        }
    }

    /// Whether buds are kept and rubbed out on a shoot: on laid wood, and on the stem and the leaders of stock that is still to
    /// be laid, for bud work comes first.
    pub fn takes_bud_work(&self, shoot: &Shoot) -> bool {
        let stem = || self.standing_stem().is_some_and(|stem| stem.id == shoot.id);
        let leads = |two: [&Shoot; 2]| two.iter().any(|s| s.id == shoot.id);
        shoot.pose.is_laid() || stem() || self.standing_leaders().is_some_and(leads)
    }

    /// The shoot of that id.
    pub fn shoot(&self, id: ShootId) -> Option<&Shoot> {
        self.index(id).map(|at| &self.shoots[at])
    }

    /// The place of a shoot in `shoots`.
    pub fn index(&self, id: ShootId) -> Option<usize> {
        // A found shoot mostly stands where its number says.
        let there = usize::try_from(id.number()).unwrap_or(usize::MAX);
        if self.shoots.get(there).is_some_and(|s| s.id == id) {
            return Some(there);
        }
        self.shoots.iter().position(|s| s.id == id)
    }

    /// Where the parent of each shoot stands in `shoots`; `None` for the stem.
    pub fn parents(&self) -> Vec<Option<usize>> {
        let mut by_id: Vec<usize> = Vec::new();
        let mut place = |id: ShootId| {
            // Most shoots stand on the stem.
            if self.shoots.first().is_some_and(|stem| stem.id == id) {
                return Some(0);
            }
            if by_id.is_empty() {
                by_id.extend(0..self.shoots.len());
                by_id.arrange_by_key(|i| self.shoots[*i].id);
            }
            let at = by_id.binary_search_by_key(&id, |i| self.shoots[*i].id);
            at.ok().map(|at| by_id[at])
        };
        self.shoots.iter().map(|s| place(s.parent?)).collect()
    }

    /// Whether a shoot grows from `other`, or from what grows from it.
    pub fn grows_from(&self, shoot: &Shoot, other: ShootId) -> bool {
        // Parents stand before their children, so the way down ends at the stem.
        std::iter::successors(shoot.parent, |p| self.shoot(*p)?.parent).any(|p| p == other)
    }

    /// Takes away every shoot for which `goes` says so, with all that grows from it.
    pub fn remove_with_descendants(&mut self, goes: impl Fn(&Shoot) -> bool) {
        let mut gone: Vec<ShootId> = Vec::new();
        self.shoots.retain(|s| {
            // Parents come first, so one walk is enough.
            let out = goes(s) || s.parent.is_some_and(|p| gone.contains(&p));
            if out {
                gone.push(s.id);
            }
            !out
        });
    }

    /// What breaks the rules that every tree keeps; `None` when all hold. Used by tests and readers.
    pub fn broken_rule(&self) -> Option<Said> {
        let mut seen: Map<ShootId, f64> = Map::new();
        for (i, s) in self.shoots.iter().enumerate() {
            let here = |what| {
                let args = vec![
                    ("tree", Arg::Count(self.id.0.into())),
                    ("shoot", Arg::Text(s.id.to_string())),
                    ("what", Arg::key(what)),
                ];
                Some(Said::new("rule-of-shoot", args))
            };
            if seen.contains_key(&s.id) {
                return here("rule-id-twice");
            }
            match s.parent {
                None if i > 0 => return here("rule-second-stem"),
                Some(_) if i == 0 => return here("rule-stem-parent"),
                Some(p) => match seen.get(&p) {
                    None => return here("rule-parent-missing"),
                    Some(length) if s.at < 0.0 || s.at > length + 0.5 => {
                        return here("rule-off-parent");
                    }
                    Some(_) => {}
                },
                None => {}
            }
            let fine = s.at.is_finite()
                && range::has(range::DIAMETER, s.diameter)
                && s.units
                    .iter()
                    .all(|u| u.kept > 0.0 && u.kept <= u.grown && u.grown.is_finite())
                && s.units.windows(2).all(|w| w[0].leaf <= w[1].leaf)
                && s.length() <= Shoot::MAX_LENGTH
                && s.bend_radius
                    .is_none_or(|r| range::has(range::BEND_RADIUS, r));
            if !fine {
                return here("rule-out-of-range");
            }
            seen.insert(s.id, s.length());
        }
        None
    }
}
