//! What the rules look at: the row, and all that is worked out from it once for every rule.

use super::heights::Heights;
use super::near::{MARGIN, Near};
use super::{Context, Finding, Part, Severity};
use crate::arrange::Arrange;
use crate::cover::{Cover, Laid, Place, Span, cover_of, laid_of, places_of};
use crate::plan::VoidWork;
use crate::pose::{Course, Geometry, Posed, PosedRow, layout};
use crate::renewal::{Renewal, Share, Upright, Winter};
use crate::row::{Limit, Moment, Pose, Shoot, ShootId, Targets, Toward, Tree, TreeId};
use crate::said::Arg;
use crate::terms::Terms;
use crate::work::{Work, apply_to_tree};
use std::cell::OnceCell;
use std::sync::Arc;

/// Differences below this, in the unit of what is measured, are none: what stands exactly at its limit passes.
const NOTHING: f64 = 1e-6;

/// Whether `measured` is more than is allowed.
pub(super) fn over(measured: f64, allowed: f64) -> bool {
    measured > allowed + NOTHING
}

/// Whether `measured` is less than is asked for.
pub(super) fn under(measured: f64, asked: f64) -> bool {
    measured < asked - NOTHING
}

/// A distance in words: of a short one every millimetre counts, of a long one every centimetre.
pub(crate) fn distance(mm: f64) -> Arg {
    if mm < 1000.0 {
        Arg::Thickness(mm)
    } else {
        Arg::Length(mm)
    }
}

/// What is known of one place among the uprights.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Standing {
    /// Whether a grown upright stands there, on the row's own cordon from its top, of its age's size and not too old.
    pub well: bool,
    /// Whether it is to be cut for its renewal this winter.
    pub due: bool,
    /// Whether it goes, since better ones stand too near.
    pub goes: bool,
}

/// One winter's renewal of one tree.
pub(super) struct Due {
    /// Its uprights and stubs from left to right, each as old as it was before this winter's cut.
    pub wood: Vec<(ShootId, Upright)>,
    pub winter: Winter,
    /// Of each of the wood whether a gap or a stub is beside it; nothing while it is merely judged.
    pub beside: Vec<bool>,
    /// How many uprights more are taken off this winter.
    pub gone: usize,
    /// Whether it lacks uprights.
    pub few: bool,
}

/// One way to lay wood into a bare stretch, tried.
pub(super) struct Way {
    pub key: &'static str,
    pub tree: TreeId,
    pub shoot: Arg,
    pub work: Vec<Work>,
    /// The tree's laid wood once the work is done.
    pub laid: Vec<Laid>,
    /// What of the stretch stays bare, mm.
    pub leaves: f64,
    /// What speaks against it, as mm of wire.
    pub cost: f64,
    /// What of it the work costs by itself.
    pub by_itself: f64,
    /// Whether it takes a trained upright from its place: one that crowds another has none.
    pub costs_upright: bool,
}

/// A tree with its shoots' courses, in the order of its shoots.
pub(super) struct SeenTree<'a> {
    /// Whether only what is wrong is asked for, and not told.
    judging: bool,
    pub tree: &'a Tree,
    posed: &'a Posed,
    pub courses: &'a [Course],
    /// Where its grown uprights on the cordon stand among its shoots.
    grown: &'a [usize],
    targets: &'a Targets,
    /// Those that stand beside another of their stub, which is the one that is kept, once they are asked for.
    spare: OnceCell<Vec<ShootId>>,
    /// Length of wire that it covers, once or more, mm, once it is asked for.
    pub length: OnceCell<f64>,
    /// Its well-placed uprights, once they are asked for.
    pub well: OnceCell<Vec<ShootId>>,
}

impl SeenTree<'_> {
    /// Its grown uprights on the cordon.
    pub fn uprights(&self) -> impl Iterator<Item = (&Shoot, &Course)> {
        self.grown
            .iter()
            .map(|i| (&self.tree.shoots[*i], &self.courses[*i]))
    }

    /// The tree as the crew finds it, before the moment's work.
    pub fn found(&self) -> &Tree {
        self.posed.before().tree()
    }

    /// Whether an upright is one that comes off, since another of its stub is kept.
    pub fn is_spare(&self, shoot: ShootId) -> bool {
        let spare = || self.tree.spare_returns(self.targets);
        self.spare.get_or_init(spare).contains(&shoot)
    }

    /// Whether it has wood laid that way; of a tree with nothing laid, whether it was planted to go that way.
    pub fn goes(&self, way: Toward) -> bool {
        let mut any = false;
        for shoot in &self.tree.shoots {
            if let Pose::Laid { toward, .. } = shoot.pose {
                if toward == way {
                    return true;
                }
                any = true;
            }
        }
        !any && self.tree.planted.toward == way
    }

    /// A finding about the tree as a whole, where its cordon is.
    pub fn finding(
        &self,
        c: &Seen<'_>,
        rule: &'static str,
        severity: Severity,
        limit: Limit,
        measured: f64,
    ) -> Finding {
        let span = c.reach(self);
        Finding {
            rule,
            severity,
            x: span.from,
            z: c.g.wire,
            width: span.length(),
            subjects: vec![Part {
                tree: self.tree.id,
                shoot: None,
            }],
            measured,
            allowed: c.limit(limit),
            limit,
            args: vec![("tree", self.number())],
            remedies: Vec::new(),
        }
    }

    /// Whether the work of this moment lays or bends a shoot that was found otherwise: that can still be taken back.
    pub fn is_bent_now(&self, shoot: &Shoot) -> bool {
        let was = self.posed.before().tree().shoot(shoot.id);
        was.is_none_or(|was| was.pose != shoot.pose)
    }

    /// Those of `ids` that grow from no other of them: what is cut may take with it what grows from it.
    pub fn outermost(&self, ids: &[ShootId]) -> Vec<ShootId> {
        let inner = |id: &ShootId| {
            let shoot = self.tree.shoot(*id);
            shoot.is_some_and(|s| ids.iter().any(|other| self.tree.grows_from(s, *other)))
        };
        ids.iter().copied().filter(|id| !inner(id)).collect()
    }

    /// A part of it, as findings name their subjects.
    pub fn part(&self, shoot: ShootId) -> Part {
        Part {
            tree: self.tree.id,
            shoot: Some(shoot),
        }
    }

    /// Its number in words.
    pub fn number(&self) -> Arg {
        Arg::Count(self.tree.id.0.into())
    }

    pub fn pairs(&self) -> impl Iterator<Item = (&Shoot, &Course)> {
        self.tree.shoots.iter().zip(self.courses)
    }

    /// The same on its tree alone.
    pub fn on_tree(&self, shoot: ShootId) -> Arg {
        match self.posed.name(shoot) {
            Some(name) => name.on_tree().into(),
            None => Arg::Text(shoot.to_string()),
        }
    }

    /// A part's name in words; none where nothing is told.
    pub fn name(&self, shoot: ShootId) -> Arg {
        if self.judging {
            return Arg::Count(0);
        }
        match self.posed.name(shoot) {
            Some(name) => Arg::from(name),
            None => Arg::Text(shoot.to_string()),
        }
    }
}

/// The row as the rules see it.
pub(super) struct Seen<'a> {
    pub row: &'a PosedRow,
    pub moment: Moment,
    pub terms: &'a Terms,
    pub targets: &'a Targets,
    pub void: &'a [VoidWork],
    pub g: Geometry,
    pub trees: Vec<SeenTree<'a>>,
    pub cover: Cover,
    /// The uprights' places from left to right.
    pub places: Vec<Place>,
    /// In the same order, where the tree of each stands in `trees`, and its shoot in that.
    stand_in: Vec<(usize, usize)>,
    /// Of each of `trees`, which places are its own, from left to right.
    places_of: Vec<usize>,
    /// Where those of each tree begin in `places_of`; the end of the last beside them.
    places_from: Vec<usize>,
    /// The share and the age limit of renewal.
    pub renewal: Renewal,
    /// Each tree's place in `trees`, by its number.
    index: Vec<(TreeId, usize)>,
    /// Where each tree's laid wood stands in `cover.laid`, in the order of `trees`.
    laid_from: Vec<std::ops::Range<usize>>,
    /// Laid wood by its left end, and the longest of it: what lies near a place is found without a walk of the row.
    by_left: Vec<Laid>,
    longest: f64,
    /// What of the row is judged.
    pub near: Near,
    /// How far from its foot a tree's wood can be laid, mm: no remedy lays more than three lengths end to end.
    pub far: f64,
    /// The cells of the wire that are looked through.
    pub through: std::ops::Range<usize>,
    /// How high the uprights reach, once it is asked for.
    pub heights: OnceCell<Heights>,
    /// Whether only what is wrong is asked for, and no remedy.
    pub judging: bool,
    /// What is known of each place, once it is asked for.
    pub standing: OnceCell<Vec<Standing>>,
    /// This winter's renewal of each tree, once it is asked for.
    pub dues: OnceCell<Vec<Option<Due>>>,
    /// The ways to fill each of the cover's bare stretches, once they are asked for.
    pub ways: Vec<OnceCell<Vec<Way>>>,
}

/// How far from their feet trees can reach, mm.
pub(super) fn far(posed: &[Arc<Posed>]) -> f64 {
    posed.iter().map(|p| p.far()).fold(0.0, f64::max) + MARGIN
}

impl<'a> Seen<'a> {
    pub fn new(c: &Context<'a>) -> Self {
        let g = c.row.geometry();
        let trees: Vec<SeenTree<'a>> = c
            .row
            .posed()
            .iter()
            .map(|posed| SeenTree {
                tree: posed.tree(),
                posed,
                courses: posed.courses(),
                grown: posed.uprights(),
                targets: c.targets,
                spare: OnceCell::new(),
                length: OnceCell::new(),
                well: OnceCell::new(),
                judging: false,
            })
            .collect();
        let mut laid: Vec<Laid> = Vec::new();
        let mut laid_from = Vec::with_capacity(trees.len());
        for t in &trees {
            let first = laid.len();
            laid.extend(laid_of(t.tree, t.courses, g, c.targets));
            laid_from.push(first..laid.len());
        }
        let mut index: Vec<(TreeId, usize)> = trees
            .iter()
            .enumerate()
            .map(|(i, t)| (t.tree.id, i))
            .collect();
        index.arrange();
        let mut standing: Vec<(Place, (usize, usize))> = Vec::new();
        for (i, posed) in c.row.posed().iter().enumerate() {
            let shoots = posed.places().iter().map(|(shoot, _)| (i, *shoot));
            standing.extend(places_of(posed).zip(shoots));
        }
        standing.arrange_by(|a, b| a.0.along_the_row(&b.0));
        let mut places_from = vec![0; trees.len() + 1];
        for (_, (tree, _)) in &standing {
            places_from[tree + 1] += 1;
        }
        for tree in 0..trees.len() {
            places_from[tree + 1] += places_from[tree];
        }
        let mut next = places_from.clone();
        let mut places_of = vec![0; standing.len()];
        for (at, (_, (tree, _))) in standing.iter().enumerate() {
            places_of[next[*tree]] = at;
            next[*tree] += 1;
        }
        let (places, stand_in) = standing.into_iter().unzip();
        let mut by_left = laid.clone();
        by_left.arrange_by(|a, b| a.span.from.total_cmp(&b.span.from));
        let longest = laid.iter().map(|l| l.span.length()).fold(0.0, f64::max);
        let whole = Span {
            from: c.row.from.f(),
            to: c.row.to.f(),
        };
        let cover = cover_of(laid, whole);
        Self {
            row: c.row,
            moment: c.moment,
            terms: c.terms,
            targets: c.targets,
            void: c.void,
            g,
            index,
            laid_from,
            ways: cover.gaps.iter().map(|_| OnceCell::new()).collect(),
            cover,
            places,
            stand_in,
            places_of,
            places_from,
            renewal: Renewal {
                share: Share::near(c.targets.get(Limit::RenewalShare)),
                age_limit: c.targets.get(Limit::WoodAgeMax) as u8,
            },
            by_left,
            longest,
            near: Near::all(trees.len()),
            far: far(c.row.posed()),
            trees,
            through: 0..usize::MAX,
            heights: OnceCell::new(),
            judging: false,
            standing: OnceCell::new(),
            dues: OnceCell::new(),
        }
    }

    /// A row of which only what is wrong is asked for: no remedy, and no name in the words.
    pub fn to_judge(c: &Context<'a>) -> Self {
        let mut out = Self::new(c);
        out.judging = true;
        for tree in &mut out.trees {
            tree.judging = true;
        }
        out
    }

    /// A limit's value.
    pub fn limit(&self, limit: Limit) -> f64 {
        self.targets.get(limit)
    }

    /// Where a tree stands in `trees`.
    pub fn tree_index(&self, id: TreeId) -> Option<usize> {
        let at = self.index.binary_search_by_key(&id, |(tree, _)| *tree);
        Some(self.index[at.ok()?].1)
    }

    /// A tree by its number.
    pub fn tree(&self, id: TreeId) -> Option<&SeenTree<'a>> {
        self.tree_index(id).map(|i| &self.trees[i])
    }

    /// A part's name in words.
    pub fn name(&self, tree: TreeId, shoot: ShootId) -> Arg {
        self.tree(tree)
            .map_or(Arg::Text(String::new()), |t| t.name(shoot))
    }

    /// How far what was measured may go before a rule speaks.
    pub fn let_pass(&self, limit: Limit) -> f64 {
        self.targets.let_pass(limit)
    }

    /// The stretch of wire that is to be filled.
    pub fn whole(&self) -> Span {
        Span {
            from: self.row.from.f(),
            to: self.row.to.f(),
        }
    }

    /// The bare stretches that are longer than is let pass.
    pub fn flagged_gaps(&self) -> impl Iterator<Item = &crate::cover::Stretch> {
        let most = self.let_pass(Limit::GapMax);
        self.cover
            .gaps
            .iter()
            .filter(move |gap| over(gap.span.length(), most))
    }

    /// How far two places are apart, less the flagged bare stretches between them, which are findings of their own;
    /// and those stretches, from left to right.
    pub fn apart(&self, left: f64, right: f64) -> (f64, Vec<Span>) {
        self.cover.apart(left, right, self.let_pass(Limit::GapMax))
    }

    /// The tree after `works` on it, done in the order of their subjects as a season does them.
    pub fn after(&self, tree: &Tree, works: &[Work]) -> Option<Tree> {
        let mut order: Vec<&Work> = works.iter().collect();
        order.arrange_by_key(|w| w.subject());
        let mut out = tree.clone();
        for work in order {
            out = apply_to_tree(&out, self.moment, self.terms, work).ok()?;
        }
        Some(out)
    }

    /// Those of `works` on a tree that can be done one after the other.
    pub fn doable(&self, tree: &Tree, works: impl Iterator<Item = Work>) -> Vec<Work> {
        let mut now = tree.clone();
        works
            .filter(|work| match self.after(&now, std::slice::from_ref(work)) {
                Some(after) => {
                    now = after;
                    true
                }
                None => false,
            })
            .collect()
    }

    /// A tree's laid wood as it is.
    pub fn laid_now(&self, tree: TreeId) -> &[Laid] {
        self.tree_index(tree)
            .map_or(&[], |i| &self.cover.laid[self.laid_from[i].clone()])
    }

    /// The laid wood of one shoot as it is.
    pub fn laid_at(&self, tree: TreeId, shoot: ShootId) -> Option<&Laid> {
        self.laid_now(tree).iter().find(|l| l.shoot == shoot)
    }

    /// From the left end of a tree's laid wood to its right end; of a tree without, its foot.
    pub fn reach(&self, seen: &SeenTree<'_>) -> Span {
        let laid = self.laid_now(seen.tree.id);
        laid.iter()
            .map(|l| l.span)
            .reduce(|a, b| Span {
                from: a.from.min(b.from),
                to: a.to.max(b.to),
            })
            .unwrap_or(Span {
                from: seen.tree.foot.f(),
                to: seen.tree.foot.f(),
            })
    }

    /// The laid wood that covers the place `x`.
    pub fn laid_over(&self, x: f64) -> impl Iterator<Item = &Laid> {
        self.laid_within(Span { from: x, to: x })
    }

    /// The laid wood that reaches into `window`, by its left end.
    pub fn laid_within(&self, window: Span) -> impl Iterator<Item = &Laid> {
        let first = self
            .by_left
            .partition_point(|l| l.span.from < window.from - self.longest);
        self.by_left[first..]
            .iter()
            .take_while(move |l| l.span.from <= window.to)
            .filter(move |l| l.span.to >= window.from)
    }

    /// The laid wood of a tree that was worked on.
    pub fn laid(&self, tree: &Tree) -> Vec<Laid> {
        laid_of(tree, &layout(tree, self.g), self.g, self.targets)
    }

    /// The cover of the part of the row within `window`; a tree named in `instead` counts with the wood given there.
    pub fn cover_within(&self, window: Span, instead: &[(TreeId, Vec<Laid>)]) -> Cover {
        let whole = self.whole();
        let window = window.within(whole);
        let laid = self
            .laid_within(window)
            .filter(|l| instead.iter().all(|(id, _)| *id != l.tree))
            .chain(instead.iter().flat_map(|(_, laid)| laid))
            .copied()
            .collect();
        cover_of(laid, window)
    }

    /// Of the tree at `tree` in `trees`, which of the row's places are its own, from left to right.
    pub fn places_of(&self, tree: usize) -> &[usize] {
        &self.places_of[self.places_from[tree]..self.places_from[tree + 1]]
    }

    /// Where the tree of the place at `i` stands in `trees`.
    pub fn tree_index_at(&self, i: usize) -> usize {
        self.stand_in[i].0
    }

    /// The tree of the place at `i`.
    pub fn tree_at(&self, i: usize) -> &SeenTree<'a> {
        &self.trees[self.tree_index_at(i)]
    }

    /// What stands at the place at `i`.
    pub fn shoot_at(&self, i: usize) -> Option<&Shoot> {
        let (tree, shoot) = self.stand_in.get(i)?;
        self.trees[*tree].tree.shoots.get(*shoot)
    }
}
