//! Lines put together to trees: what grows from what, and where on it.

use super::column::Column;
use super::counts::Counts;
use super::fit::{at, foot, pose};
use super::lines::{Line, Says, found_leaf};
use super::meant::Slip;
use super::order::ordered;
use super::pieces::{Held, LineKind, Parent, Place, in_range};
use super::{Given, Tell};
use crate::arrange::Arrange;
use crate::arrange::Gather;
use crate::plan::Plan;
use crate::pose::{Course, Geometry, Name, course_of};
use crate::range;
use crate::refusal::Refusal;
use crate::row::{
    Face, GrowthUnit, Kind, Planted, Pose, Shoot, ShootId, Targets, Toward, Tree, TreeId,
};
use crate::said::{Arg, Quantity, Said};
use crate::sorted::Set;
use crate::units::Deg;
use crate::usual;
use crate::walk::{misplaced, unlikely};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Most laid shoots on one tree.
const MAX_LAID: usize = 20;
/// How much longer than its way to the wire a stem must be to be taken as laid, mm.
const LAID_FROM: f64 = 50.0;
/// Steepest planting angle of a stem that is taken as laid, degrees.
const LAID_ANGLE: f64 = 80.0;

/// How near to a tree's foot a second first line of it stands, mm.
const SAME_FOOT: f64 = 30.0;
/// What is written to the centimetre may be off by so much, mm.
const ROUNDING: f64 = 5.0;

/// What the lines make.
pub(super) struct Built {
    pub trees: Vec<Arc<Tree>>,
    pub leaf: u8,
    pub taken: usize,
    /// Bad lines by their number among the lines.
    pub bad: Vec<(usize, Refusal)>,
    /// How many single lengths may be those of several seasons together.
    pub in_all: usize,
    /// Slips of which it is known what was meant, in order.
    pub slips: Vec<Slip>,
}

struct Context<'a> {
    lines: &'a [Line],
    options: &'a Given,
    leaf: u8,
    g: Geometry,
}

pub(super) fn build(
    lines: Vec<Line>,
    options: &Given,
    said: &mut Vec<Said>,
    tell: Tell<'_>,
) -> Built {
    let mut none = Set::new();
    let mut leaf = options.leaf.unwrap_or_else(|| found_leaf(&lines, &none));
    let (mut built, mut counts) = build_before(&lines, options, leaf, tell);
    // A line that is left out has no say in the leaf; without it others may come in or fall out, so that it is asked
    // again until it stays. Once a leaf would be enough; a table made to swing does not keep us.
    for _ in 0..Plan::MAX_LEAF {
        none = built.bad.iter().map(|(n, _)| *n).gathered_set();
        let taken = options.leaf.unwrap_or_else(|| found_leaf(&lines, &none));
        if taken == leaf || built.taken == 0 {
            break;
        }
        leaf = taken;
        (built, counts) = build_before(&lines, options, leaf, tell);
    }
    if built.taken > 0 {
        if options.leaf.is_none() {
            said.push(Said::new(
                "file-said-leaf",
                vec![("leaf", Arg::Count(leaf.into()))],
            ));
        }
        built.slips = counts.say(options.in_all, said);
    }
    built
}

/// The trees as they stand before the growth of a leaf.
fn build_before(lines: &[Line], options: &Given, leaf: u8, tell: Tell<'_>) -> (Built, Counts) {
    let context = Context {
        leaf,
        options,
        g: Geometry::at(options.wire, &Targets::default()),
        lines,
    };
    let mut bad: Vec<(usize, Refusal)> = Vec::new();
    let mut by_tree: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
    for (n, line) in lines.iter().enumerate() {
        if let Some(tree) = line.tree {
            by_tree.entry(tree).or_default().push(n);
        }
        if let Err(why) = &line.says {
            bad.push((n, why.clone()));
        }
    }
    let mut counts = Counts::default();
    let mut trees = Vec::new();
    let mut first = BTreeMap::new();
    let mut placed = 0;
    for (id, of) in &by_tree {
        placed += of.len();
        tell((lines.len() + placed) / 2, lines.len());
        let mut build = TreeBuild::new(&context, TreeId(*id), of, &mut counts);
        if let Some(mut tree) = build.tree() {
            // Whichever of its lines says so.
            let ill = |n: &usize| lines[*n].says.as_ref().is_ok_and(|says| says.diseased);
            tree.diseased = of.iter().any(ill);
            first.insert(*id, build.from_line.first().copied());
            trees.push(Arc::new(tree));
        }
        bad.append(&mut build.bad);
    }
    let feet = trees.iter().map(|t| (t.id.0, t.foot.f()));
    for (tree, doubt) in misplaced(feet.collect()) {
        if let Some(Some(line)) = first.get(&tree) {
            counts.doubts.add(lines[*line].number, doubt);
        }
    }
    let built = Built {
        trees,
        leaf,
        taken: lines.len() - bad.len(),
        bad,
        in_all: counts.in_all,
        slips: Vec::new(),
    };
    (built, counts)
}

/// One tree in the making.
struct TreeBuild<'a> {
    context: &'a Context<'a>,
    id: TreeId,
    /// Its lines, in the order of the file.
    of: &'a [usize],
    counts: &'a mut Counts,
    bad: Vec<(usize, Refusal)>,
    tree: Option<Tree>,
    /// Alongside the tree's shoots.
    courses: Vec<Course>,
    from_line: Vec<usize>,
    /// Line to shoot.
    placed: BTreeMap<usize, usize>,
    laid: Vec<usize>,
}

impl<'a> TreeBuild<'a> {
    fn new(context: &'a Context<'a>, id: TreeId, of: &'a [usize], counts: &'a mut Counts) -> Self {
        Self {
            context,
            id,
            of,
            counts,
            bad: Vec::new(),
            tree: None,
            courses: Vec::new(),
            from_line: Vec::new(),
            placed: BTreeMap::new(),
            laid: Vec::new(),
        }
    }

    fn says(&self, line: usize) -> Option<&'a Says> {
        self.context.lines[line].says.as_ref().ok()
    }

    fn refuse(&self, key: &'static str) -> Refusal {
        Refusal::new(key, vec![("tree", Arg::Count(self.id.0.into()))])
    }

    /// The tree that the lines make, if they make one.
    fn tree(&mut self) -> Option<Tree> {
        let good: Vec<(usize, &Says)> = self
            .of
            .iter()
            .filter_map(|n| self.says(*n).map(|s| (*n, s)))
            .collect();
        let lost = good.iter().find(|(_, s)| s.kind == LineKind::Lost);
        if let Some((line, says)) = lost {
            return self.lost_tree(*line, says, &good);
        }
        let named = |n: &usize, kind| self.context.lines[*n].kind == Some(LineKind::Part(kind));
        let has_stem = self.of.iter().any(|n| named(n, Kind::Stem));
        let root = good.iter().find(|(_, s)| match has_stem {
            true => s.kind == LineKind::Part(Kind::Stem),
            false => s.kind == LineKind::Part(Kind::Leader) && s.parent == Parent::Near,
        });
        let leaders = self.of.iter().filter(|n| named(n, Kind::Leader)).count();
        let rooted = root.map(|(line, says)| (*line, self.root(*line, says, leaders)));
        if let Some((line, Err(why))) = &rooted {
            self.bad.push((*line, why.clone()));
        }
        let others = good
            .iter()
            .filter(|(n, _)| Some(*n) != root.map(|(l, _)| *l));
        let others: Vec<(usize, &Says)> = others.copied().collect();
        if !matches!(rooted, Some((_, Ok(())))) {
            let why = self.refuse("refusal-csv-no-tree");
            self.bad
                .extend(others.iter().map(|(n, _)| (*n, why.clone())));
            return None;
        }
        self.grow(&others);
        self.finish()
    }

    fn lost_tree(&mut self, line: usize, says: &Says, good: &[(usize, &Says)]) -> Option<Tree> {
        let mut why = self.refuse("refusal-csv-lost");
        let number = self.context.lines[line].number;
        why.args.push(("line", Arg::Count(number as i64)));
        let rest = good.iter().filter(|(n, _)| *n != line);
        self.bad.extend(rest.map(|(n, _)| (*n, why.clone())));
        let planted = self.planted(says, 0, true);
        match planted.and_then(|p| Ok((p, foot(says)?))) {
            Ok((planted, foot)) => {
                self.from_line.push(line);
                let note = says.note.clone();
                Some(Tree {
                    note,
                    ..Tree::lost(self.id, foot, planted)
                })
            }
            Err(why) => {
                self.bad.push((line, why));
                None
            }
        }
    }

    fn planted(&self, says: &Says, leaders: usize, bare: bool) -> Result<Planted, Refusal> {
        let usual = if leaders > 1 {
            90.0
        } else {
            self.context.options.planted.degrees()
        };
        let written = says.pose.planted.or(says.pose.angle.filter(|_| bare));
        let angle = written.unwrap_or(usual);
        in_range("pose", Arg::Angle, angle, range::PLANTING_ANGLE)?;
        Ok(Planted {
            angle: Deg::new(angle),
            toward: says.toward.unwrap_or(Toward::Right),
        })
    }

    /// Takes the line of the tree as a whole.
    fn root(&mut self, line: usize, says: &Says, leaders: usize) -> Result<(), Refusal> {
        let stem = says.kind == LineKind::Part(Kind::Stem);
        let angle_is_planted = says.pose.held.is_none();
        let leaders = if stem { leaders } else { 0 };
        let planted = self.planted(says, leaders, angle_is_planted)?;
        let mut cell = says.pose;
        if angle_is_planted {
            cell.angle = None;
        }
        let length: f64 = says.lengths.iter().sum();
        let mut assumed = false;
        if stem && angle_is_planted && leaders == 0 && planted.angle.degrees() < LAID_ANGLE {
            let to_wire = self.context.g.wire / libm::sin(planted.angle.radians());
            assumed = length > to_wire + LAID_FROM;
        }
        if assumed {
            cell.held = Some(Held::Laid);
        }
        let kind = if stem { Kind::Stem } else { Kind::Leader };
        let pose = pose(kind, &cell, None, planted.toward)?;
        let tree = Tree {
            id: self.id,
            foot: foot(says)?,
            planted,
            shoots: Vec::new(),
            vigour: None,
            like: None,
            diseased: false,
            note: says.note.clone(),
        };
        let shoot = self.shoot(says, None, 0.0, pose)?;
        self.counts.laid += usize::from(assumed);
        self.put(tree, shoot, None, line);
        Ok(())
    }

    fn put(&mut self, mut tree: Tree, shoot: Shoot, parent: Option<usize>, line: usize) {
        let course = course_of(
            &tree,
            &shoot,
            parent.map(|p| &self.courses[p]),
            self.context.g,
        );
        let index = tree.shoots.len();
        let says = self.says(line);
        let measured = says.and_then(|s| s.diameter);
        let lengths = says.map_or(&[][..], |s| &s.lengths);
        let doubt = unlikely(self.id.0, &shoot, &course, lengths, measured > Some(0.0));
        if let Some(doubt) = doubt {
            let number = self.context.lines[line].number;
            let value = match doubt.of_thickness() {
                true => Some((Quantity::Thickness, vec![shoot.diameter])),
                false => says
                    .filter(|s| !s.lengths.is_empty() && s.cuts.is_empty())
                    .map(|s| (Quantity::Length, s.lengths.clone())),
            };
            if let Some((unit, told)) = value
                && let Some(meant) = doubt.likely(&told)
            {
                self.counts.slips.push(Slip::new(number, unit, &meant));
            }
            self.counts.doubts.add(number, doubt.question());
        }
        if shoot.pose.is_laid() {
            self.laid.push(index);
        }
        tree.shoots.push(shoot);
        self.courses.push(course);
        self.from_line.push(line);
        self.placed.insert(line, index);
        self.tree = Some(tree);
    }

    /// Places every other line on what it grows from: laid wood first, then what says its parent, then the rest.
    /// A line whose parent is not placed yet waits for it.
    fn grow(&mut self, others: &[(usize, &Says)]) {
        let laid =
            |s: &Says| s.kind == LineKind::Part(Kind::Leader) || s.pose.held == Some(Held::Laid);
        let mut order: Vec<(usize, &Says)> = others.to_vec();
        order.arrange_by_key(|(n, s)| match s.parent {
            _ if laid(s) => (0, *n),
            Parent::Near => (2, *n),
            _ => (1, *n),
        });
        let mut waiting: BTreeMap<usize, Vec<(usize, &Says)>> = BTreeMap::new();
        for first in order {
            let mut ready = vec![first];
            while let Some((line, says)) = ready.pop() {
                if says.kind == LineKind::Part(Kind::Stem) {
                    let why = self.refuse_beside_first("refusal-csv-second-stem");
                    self.bad.push((line, why));
                    continue;
                }
                let parent = match self.parent_line(says.parent) {
                    Ok(Some(parent)) if !self.placed.contains_key(&parent) => {
                        waiting.entry(parent).or_default().push((line, says));
                        continue;
                    }
                    Ok(parent) => Ok(parent),
                    Err(why) => Err(why),
                };
                match parent.and_then(|p| self.place(line, says, p)) {
                    Ok(()) => ready.extend(waiting.remove(&line).into_iter().flatten().rev()),
                    Err(why) => self.bad.push((line, why)),
                }
            }
        }
        for (line, _) in waiting.into_values().flatten() {
            self.bad.push((line, self.refuse("refusal-csv-parent")));
        }
    }

    /// The line that a parent cell names; `None` where it names none.
    fn parent_line(&self, parent: Parent) -> Result<Option<usize>, Refusal> {
        let line = match parent {
            Parent::Near => return Ok(None),
            Parent::Line(n) => self.of.get(n - 1).copied(),
            Parent::Part(kind, n) => {
                let kind = Some(LineKind::Part(kind));
                let mut alike = self
                    .of
                    .iter()
                    .filter(|l| self.context.lines[**l].kind == kind);
                let found = alike.nth(n - 1).copied();
                // The stem of a tree that has but a leader line, and the other way round.
                let whole = matches!(parent, Parent::Part(Kind::Stem | Kind::Leader, 1));
                found.or_else(|| self.from_line.first().copied().filter(|_| whole))
            }
        };
        line.map(Some)
            .ok_or_else(|| self.refuse("refusal-csv-parent"))
    }

    fn place(&mut self, line: usize, says: &Says, parent: Option<usize>) -> Result<(), Refusal> {
        let LineKind::Part(kind) = says.kind else {
            return Err(self.refuse_beside_first("refusal-csv-lost"));
        };
        self.refuse_first_again(kind, says)?;
        let parent = match parent {
            Some(line) => self.placed.get(&line).copied().unwrap_or(0),
            None => self.near(kind, says.place),
        };
        let Some(tree) = &self.tree else {
            return Err(self.refuse("refusal-csv-no-tree"));
        };
        let at = at(&self.courses[parent], kind, says.place);
        // One that is off its parent names it.
        let name = || Name::of(tree, self.context.g, tree.shoots[parent].id);
        let at = at.map_err(|mut why| {
            if why.arg("side").is_some()
                && let Some(name) = name()
            {
                why.args.push(("part", name.into()));
            }
            why
        })?;
        // So little is the rounding of what was written.
        let off = at.off.filter(|(_, off)| *off >= ROUNDING);
        let end = off.and_then(|(side, off)| {
            let (Place::Row(place) | Place::Along(place)) = says.place?;
            let args = vec![
                ("value", Arg::Length(place)),
                ("off", Arg::Length(off)),
                ("side", Arg::Text(side.into())),
                ("part", name()?.into()),
            ];
            Some(Said::new("file-said-end", args))
        });
        let pose = pose(kind, &says.pose, says.toward, self.usual_way(parent))?;
        if pose.is_laid() && self.laid.len() >= MAX_LAID {
            return Err(Refusal::new(
                "refusal-csv-leaders",
                vec![
                    ("tree", Arg::Count(self.id.0.into())),
                    ("high", Arg::Count(MAX_LAID as i64)),
                ],
            ));
        }
        if tree.shoots.len() >= Tree::MAX_SHOOTS {
            return Err(Refusal::new(
                "refusal-shoots",
                vec![
                    ("tree", Arg::Count(self.id.0.into())),
                    ("high", Arg::Count(Tree::MAX_SHOOTS as i64)),
                ],
            ));
        }
        let parent_id = tree.shoots[parent].id;
        let longest = libm::floor(tree.shoots[parent].length());
        // A zero has no sign: shoots at one place keep the order of their lines.
        let mut shoot = self.shoot(says, Some(parent_id), at.at.min(longest) + 0.0, pose)?;
        shoot.id = ShootId::found(self.courses.len() as u32);
        if let Some(end) = end {
            self.counts.ends.add(self.context.lines[line].number, end);
        }
        if let Some(tree) = self.tree.take() {
            self.put(tree, shoot, Some(parent), line);
        }
        Ok(())
    }

    /// A leader at the foot of a tree that is its leader from the foot on, or one with a planting angle, is the tree's
    /// first line a second time.
    fn refuse_first_again(&self, kind: Kind, says: &Says) -> Result<(), Refusal> {
        let Some(first) = self.from_line.first().copied() else {
            return Ok(());
        };
        let from_foot = self.says(first).map(|s| s.kind) == Some(LineKind::Part(Kind::Leader));
        if kind != Kind::Leader || says.parent != Parent::Near || !from_foot {
            return Ok(());
        }
        let foot = self.tree.as_ref().map_or(0.0, |t| t.foot.f());
        let at_foot = matches!(says.place, Some(Place::Row(x)) if (x - foot).abs() <= SAME_FOOT);
        let angle = says.pose.angle.filter(|_| says.pose.held.is_none());
        let planted = says.pose.planted.or(angle.filter(|a| *a > Pose::MAX_RISE));
        if !at_foot && planted.is_none() {
            return Ok(());
        }
        Err(self.refuse_beside_first("refusal-csv-first-twice"))
    }

    /// A refusal that names the line of the tree as a whole.
    fn refuse_beside_first(&self, key: &'static str) -> Refusal {
        let mut why = self.refuse(key);
        let first = self.from_line.first();
        let number = first.map_or(0, |n| self.context.lines[*n].number);
        why.args.push(("line", Arg::Count(number as i64)));
        why
    }

    /// The shoot that a line without a parent grows from: the laid wood at its place, or the nearest.
    fn near(&self, kind: Kind, place: Option<Place>) -> usize {
        let upright_stem = self.laid.first() != Some(&0);
        let Some(Place::Row(x)) = place else {
            return if kind == Kind::Leader || self.laid.is_empty() {
                0
            } else {
                self.laid[0]
            };
        };
        if kind == Kind::Leader && upright_stem {
            return 0;
        }
        let off = |shoot: usize| {
            let course = &self.courses[shoot];
            if course.at_x(x).is_some() {
                return 0.0;
            }
            (x - course.base.x).abs().min((x - course.tip().x).abs())
        };
        let nearest = self.laid.iter().copied().map(|s| (off(s), s));
        nearest
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map_or(0, |(_, shoot)| shoot)
    }

    /// The way that laid wood goes when its line doesn't say: as its parent, or from a stem first right, then left.
    fn usual_way(&self, parent: usize) -> Toward {
        let shoots = self.tree.as_ref().map_or(&[][..], |t| &t.shoots);
        if let Some(Pose::Laid { toward, .. }) = shoots.get(parent).map(|s| s.pose) {
            return toward;
        }
        let first = self.laid.first().and_then(|l| shoots.get(*l));
        match first.map(|s| s.pose) {
            Some(Pose::Laid { toward, .. }) if parent == 0 => toward.other(),
            _ => Toward::Right,
        }
    }

    /// A shoot with the growth that a line says.
    fn shoot(
        &mut self,
        says: &Says,
        parent: Option<ShootId>,
        at: f64,
        pose: Pose,
    ) -> Result<Shoot, Refusal> {
        let leaf = usize::from(self.context.leaf);
        let seasons = says.lengths.len();
        let first = match says.season {
            Some(season) => usize::from(season),
            None if parent.is_none() => 0,
            None => leaf.saturating_sub(seasons.max(1)),
        };
        let last = first + seasons.saturating_sub(1);
        if seasons > 0 && last >= leaf {
            let count = |n: usize| Arg::Count(n as i64);
            return Err(Refusal::new(
                "refusal-csv-season",
                vec![
                    ("value", count(last)),
                    ("high", count(leaf - 1)),
                    ("leaf", count(leaf)),
                ],
            ));
        }
        let mut units: Vec<GrowthUnit> = Vec::with_capacity(seasons);
        for (n, (leaf, length)) in (first..).zip(&says.lengths).enumerate() {
            if *length > 0.0 {
                let leaf = u8::try_from(leaf).unwrap_or(Plan::MAX_LEAF);
                let off = says.cuts.get(n).copied().unwrap_or(0.0);
                let cut = says.when.get(n).copied().flatten();
                if let Some(cut) = cut {
                    let since = (f64::from(leaf), f64::from(self.context.leaf));
                    let plain = |n| Arg::Number(n, 0);
                    in_range(Column::WhenCut.name(), plain, cut.leaf.into(), since)?;
                }
                units.push(GrowthUnit {
                    cut,
                    ..GrowthUnit::new(leaf, *length + off, *length)
                });
            }
        }
        let length: f64 = units.iter().map(|u| u.kept).sum();
        let grown = !units.is_empty();
        let mut grew_last = says.season.is_none() && parent.is_some() && grown;
        if let Some(born) = self.of_several_seasons(says, parent) {
            self.counts.in_all += 1;
            if self.context.options.in_all {
                units = usual::seasons_of(length, born, self.context.leaf);
                grew_last = false;
            }
        }
        let diameter = match says.diameter {
            Some(diameter) => diameter,
            None if grown => {
                self.counts.diameters += 1;
                usual::diameter(length)
            }
            None => 0.0,
        };
        self.counts.seasons += usize::from(grew_last);
        let shoot = Shoot {
            face: says.face.filter(|_| parent.is_some()).unwrap_or(Face::Top),
            pose,
            units,
            diameter,
            laterals: says.laterals,
            rubbed: says.rubbed,
            origin: says.origin,
            bend_radius: says.bend_radius,
            // What a tree's first line notes is of the tree.
            note: parent.map_or_else(String::new, |_| says.note.clone()),
            ..Shoot::bud(ShootId::STEM, parent, at)
        };
        match shoot.bend_radius.is_some() && !shoot.bends() {
            true => Err(Refusal::new("refusal-csv-bend", vec![])),
            false => Ok(shoot),
        }
    }

    /// The season in which a shoot first grew whose single length may be that of several seasons: what stands or hangs free, old
    /// enough, and of which no cut is told by season. It grew a season after its parent at the earliest.
    fn of_several_seasons(&self, says: &Says, parent: Option<ShootId>) -> Option<u8> {
        let grows_on = matches!(says.kind, LineKind::Part(Kind::Upright | Kind::Shoot));
        let single = says.lengths.len() == 1 && says.cuts.is_empty() && says.when.is_empty();
        let parent = self.tree.as_ref()?.shoot(parent?)?;
        let after = parent.born().map_or(1, |born| born.saturating_add(1));
        let born = says.season.unwrap_or(after);
        (grows_on && single && born + 1 < self.context.leaf).then_some(born)
    }

    /// The tree with its shoots in one order, however its lines stood.
    fn finish(&mut self) -> Option<Tree> {
        let mut tree = self.tree.take()?;
        tree.shoots = ordered(&tree.shoots, |n| self.from_line[n]);
        Some(tree)
    }
}
