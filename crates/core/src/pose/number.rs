//! What the parts of a tree are called. Who walks away from the trunk along the wire counts uprights and stubs in one: their
//! numbers are those that the crew finds, and stay so while it works.

use super::{Course, Geometry, Posed, PosedRow, layout};
use crate::arrange::Arrange;
use crate::refusal::Refusal;
use crate::row::{Face, Pose, Role, Shoot, ShootId, Toward, Tree, TreeId};
use crate::said::{Arg, Said};
use kurbo::Point;

/// How near the end of laid wood a shoot is one of its end, mm.
const END: f64 = 20.0;

/// What a part of a tree is called by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Called {
    /// What was planted, and is not laid.
    Stem,
    /// Laid wood.
    Leader,
    /// An upright of the wall.
    Upright,
    /// A stub that holds its place; it is counted with the uprights.
    Stub,
    /// A stub under what came of it.
    Under,
    /// A bud kept for an upright.
    Bud,
    /// An untied shoot at the end of laid wood.
    End,
    /// An untied shoot on the side or underside of laid wood.
    Side,
    /// What branches from an upright.
    OnUpright,
    /// An untied shoot of a stub.
    OnStub,
    /// Any other shoot.
    Shoot,
}

impl Called {
    /// Those that are counted in one.
    fn group(self) -> Self {
        match self {
            Self::Stub => Self::Upright,
            other => other,
        }
    }
}

/// What is counted together: of one kind, on one side, belonging to one upright or stub.
type Group = (Called, Option<Toward>, u16);

/// A part's name for people: of so many of its kind on its tree, the how-manieth from the trunk on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Name {
    /// The tree.
    pub tree: TreeId,
    /// What it is.
    pub called: Called,
    /// Counted from 1 as it is found on the way along the wire.
    pub number: u16,
    /// How many there are.
    pub of: u16,
    /// On which side of the trunk it is counted, of a tree with wood laid both ways.
    pub side: Option<Toward>,
    /// The number of the upright or stub that it belongs to; 0 for what belongs to none.
    pub on: u16,
}

impl Name {
    /// What a shoot of a tree is called, where no moment's work goes on.
    pub fn of(tree: &Tree, g: Geometry, shoot: ShootId) -> Option<Self> {
        let all = names(tree, &layout(tree, g));
        tree.index(shoot).map(|at| all[at])
    }

    fn within(&self) -> Group {
        (self.called.group(), self.side, self.on)
    }

    /// What it is on its tree: "upright 2 of 6".
    pub fn on_tree(self) -> Said {
        let key = match self.called {
            Called::Stem => "name-stem",
            Called::Leader => "name-leader",
            Called::Upright => "name-upright",
            Called::Stub => "name-stub",
            Called::Under => "name-under",
            Called::Bud => "name-bud",
            Called::End => "name-end",
            Called::Side => "name-side",
            Called::OnUpright => "name-on-upright",
            Called::OnStub => "name-on-stub",
            Called::Shoot => "name-shoot",
        };
        let side = match self.side {
            Some(Toward::Left) => "left",
            Some(Toward::Right) => "right",
            None => "",
        };
        let count = |n: u16| Arg::Count(n.into());
        Said::new(
            key,
            vec![
                ("number", count(self.number)),
                ("of", count(self.of)),
                ("on", count(self.on)),
                ("side", Arg::Text(side.into())),
            ],
        )
    }
}

impl From<Name> for Said {
    /// "upright 2 of 6, tree 3".
    fn from(name: Name) -> Self {
        let tree = Arg::Count(name.tree.0.into());
        Self::new(
            "name-of-tree",
            vec![("part", name.on_tree().into()), ("tree", tree)],
        )
    }
}

impl From<Name> for Arg {
    fn from(name: Name) -> Self {
        Said::from(name).into()
    }
}

/// The part that a refusal speaks of, counted on its tree as the crew finds it.
pub(crate) fn as_found(mut why: Refusal, found: &Tree, g: Geometry, shoot: ShootId) -> Refusal {
    let part = why.0.args.iter_mut().find(|(name, _)| *name == "part");
    if let Some((part, name)) = part.zip(Name::of(found, g, shoot)) {
        part.1 = name.into();
    }
    why
}

impl PosedRow {
    /// What a part of the row is called: its tree's number alone where the shoot is not there. Where posts are known the tree's bay
    /// is told, and its place in it.
    pub fn called(&self, tree: TreeId, shoot: Option<ShootId>) -> Said {
        let posed = self.of_tree(tree);
        let name = shoot.and_then(|s| posed?.name(s));
        self.in_bay(tree, name)
    }

    /// The same of a part with that name.
    pub fn in_bay(&self, tree: TreeId, name: Option<Name>) -> Said {
        let number = || Said::new("name-tree", vec![("tree", Arg::Count(tree.0.into()))]);
        let part = name.map_or_else(number, Said::from);
        let Some(bay) = self.of_tree(tree).and_then(|p| self.bay(p.tree())) else {
            return part;
        };
        let count = |n: usize| Arg::Count(n as i64);
        let args = vec![
            ("part", part.into()),
            ("bay", count(bay.number)),
            ("place", count(bay.place)),
        ];
        Said::new("name-in-bay", args)
    }
}

impl Posed {
    /// What a shoot of the tree is called; `None` where it is not there.
    pub fn name(&self, shoot: ShootId) -> Option<Name> {
        self.tree().index(shoot).map(|at| self.names()[at])
    }

    /// What its shoots are called, in their order. What stands there before the moment's work keeps its name, what comes with
    /// it is counted on.
    pub fn names(&self) -> &[Name] {
        self.names.get_or_init(|| {
            let own = names(self.tree(), self.courses());
            match &self.before {
                Some(before) => counted_on(self.tree(), own, before).into(),
                None => own.into(),
            }
        })
    }

    /// The tree as the crew finds it: before the work of the moment that it is looked at.
    pub fn before(&self) -> &Posed {
        self.before.as_deref().unwrap_or(self)
    }

    /// How a place along the row is come to on the way from the trunk, of what belongs to a shoot: on which side, where wood goes both
    /// ways, and how far from the trunk, mm.
    pub fn way_to(&self, at: usize, x: f64) -> (Option<Toward>, f64) {
        let side = self.names()[at].side;
        (side, Trunk::of(self.tree(), self.courses()).away(side, x))
    }

    /// Its uprights and stubs, each with its number and its place on the wire.
    pub fn numbers(&self) -> impl Iterator<Item = (u16, Point)> {
        let places = self.places().iter();
        let number =
            |at: usize| Some(self.names()[at]).filter(|n| n.called.group() == Called::Upright);
        places.filter_map(move |(at, place)| Some((number(*at)?.number, *place)))
    }
}

/// Names after a moment's work.
fn counted_on(tree: &Tree, own: Vec<Name>, before: &Posed) -> Vec<Name> {
    let found = before.names();
    let known: Vec<Option<Name>> = tree.shoots.iter().map(|s| before.name(s.id)).collect();
    let comes = |name: &Name| {
        let alike = |n: &&Name| n.within() == name.within();
        let there = found.iter().filter(alike).count();
        let new = own.iter().zip(&known).filter(|(_, was)| was.is_none());
        let new: Vec<u16> = new
            .map(|(n, _)| n)
            .filter(alike)
            .map(|n| n.number)
            .collect();
        let past = new.iter().filter(|n| **n <= name.number).count();
        Name {
            number: count(there + past),
            of: count(there + new.len()),
            ..*name
        }
    };
    let one = |(name, was): (&Name, &Option<Name>)| match was {
        // An upright that is stubbed is a stub of its number.
        Some(was) if was.called.group() == name.called.group() => Name {
            called: name.called,
            ..*was
        },
        Some(was) => *was,
        None => comes(name),
    };
    own.iter().zip(&known).map(one).collect()
}

fn count(n: usize) -> u16 {
    u16::try_from(n).unwrap_or(u16::MAX)
}

/// What each of a tree's shoots is called, in their order.
fn names(tree: &Tree, courses: &[Course]) -> Vec<Name> {
    let shoots = &tree.shoots;
    let parents = tree.parents();
    let roles = tree.roles();
    // The shoot on laid wood or on the stem from which each comes, and the upright or stub that it is or stands on.
    let mut feet: Vec<usize> = Vec::with_capacity(shoots.len());
    let mut on: Vec<Option<usize>> = Vec::with_capacity(shoots.len());
    for (at, parent) in parents.iter().enumerate() {
        let below = parent.filter(|p| *p > 0 && !shoots[*p].pose.is_laid());
        let own = matches!(roles[at], Role::Upright | Role::Stub | Role::Spent).then_some(at);
        feet.push(below.map_or(at, |p| feet[p]));
        on.push(own.or_else(|| on[below?]));
    }
    let called = |at: usize| match roles[at] {
        Role::Stem => Called::Stem,
        Role::Leader => Called::Leader,
        Role::Upright => Called::Upright,
        Role::Bud => Called::Bud,
        Role::Stub => Called::Stub,
        Role::Spent => Called::Under,
        Role::Loose => {
            let wood = parents[at].map(|p| &shoots[p]);
            match (wood.filter(|w| w.pose.is_laid()), on[at]) {
                (Some(wood), _) => loose(&shoots[at], wood),
                (None, Some(p)) if shoots[p].pose == Pose::Stub => Called::OnStub,
                (None, Some(_)) => Called::OnUpright,
                (None, None) => Called::Shoot,
            }
        }
    };
    let trunk = Trunk::of(tree, courses);
    let name = |at: usize| Name {
        tree: tree.id,
        called: called(at),
        number: 1,
        of: 1,
        side: trunk.side(feet[at], parents[feet[at]], courses[feet[at]].base.x),
        on: 0,
    };
    let mut out: Vec<Name> = (0..shoots.len()).map(name).collect();
    // As they are found on the way from the trunk.
    let away = |at: usize| trunk.away(out[at].side, courses[feet[at]].base.x);
    let keys: Vec<(f64, f64)> = (0..out.len()).map(|at| (away(at), shoots[at].at)).collect();
    let mut way: Vec<usize> = (0..out.len()).collect();
    way.arrange_by(|a, b| {
        let (x, y) = (keys[*a], keys[*b]);
        let along = x.0.total_cmp(&y.0).then(x.1.total_cmp(&y.1));
        along.then(shoots[*a].id.cmp(&shoots[*b].id))
    });
    // Uprights and stubs come first: what belongs to them is told by their numbers.
    let counted = |name: &Name| name.called.group() == Called::Upright;
    number(&mut out, &way, counted);
    for at in 0..out.len() {
        if out[at].called == Called::Under {
            let from = |i: &&usize| counted(&out[**i]) && feet[**i] == feet[at];
            out[at].on = way.iter().find(from).map_or(0, |i| out[*i].number);
        }
    }
    for at in 0..out.len() {
        if let (Called::OnUpright | Called::OnStub, Some(p)) = (out[at].called, on[at]) {
            out[at].on = match out[p].called {
                Called::Under => out[p].on,
                _ => out[p].number,
            };
        }
    }
    number(&mut out, &way, |name| !counted(name));
    out
}

/// Numbers those that are meant, in the order of the way.
fn number(out: &mut [Name], way: &[usize], meant: impl Fn(&Name) -> bool) {
    let mut groups: Vec<(Group, u16)> = Vec::new();
    for at in way.iter().copied() {
        if !meant(&out[at]) {
            continue;
        }
        let own = out[at].within();
        let group = groups.iter().position(|(g, _)| *g == own);
        let group = group.unwrap_or_else(|| {
            groups.push((own, 0));
            groups.len() - 1
        });
        groups[group].1 = groups[group].1.saturating_add(1);
        out[at].number = groups[group].1;
    }
    for name in out.iter_mut().filter(|n| meant(n)) {
        let own = name.within();
        name.of = groups
            .iter()
            .find(|(g, _)| *g == own)
            .map_or(1, |(_, n)| *n);
    }
}

fn loose(shoot: &Shoot, wood: &Shoot) -> Called {
    if shoot.at >= wood.length() - END {
        return Called::End;
    }
    match shoot.face {
        Face::Top => Called::Shoot,
        Face::Side | Face::Under => Called::Side,
    }
}

/// Where a tree comes to the wire, and the way that its wood goes from there.
struct Trunk<'t> {
    shoots: &'t [Shoot],
    x: f64,
    way: Toward,
    both: bool,
}

/// The way that laid wood goes.
fn way(shoot: &Shoot) -> Option<Toward> {
    match shoot.pose {
        Pose::Laid { toward, .. } => Some(toward),
        _ => None,
    }
}

impl<'t> Trunk<'t> {
    fn of(tree: &'t Tree, courses: &[Course]) -> Self {
        let shoots = &tree.shoots;
        let mut ways = shoots.iter().filter_map(way);
        let first = ways.next();
        let both = first.is_some_and(|first| ways.any(|w| w != first));
        let forks = |s: &Shoot| s.parent == Some(ShootId::STEM) && s.pose.is_laid();
        let x = match (shoots.first().and_then(way), shoots.iter().position(forks)) {
            // A laid stem is on the wire at the end of its bend.
            (Some(_), _) => {
                courses[0]
                    .point(courses[0].first + courses[0].arc_length())
                    .x
            }
            (None, Some(fork)) => courses[fork].base.x,
            (None, None) => tree.foot.f(),
        };
        Self {
            shoots,
            x,
            way: first.unwrap_or(tree.planted.toward),
            both,
        }
    }

    /// The side on which a shoot on `wood` is counted, and what comes of it: of the wood that goes on from the trunk it is that
    /// wood's, elsewhere that on which it stands.
    fn side(&self, foot: usize, wood: Option<usize>, x: f64) -> Option<Toward> {
        let goes_on = |wood: &usize| {
            let parent = self.shoots[*wood].parent;
            parent.is_none_or(|p| p == ShootId::STEM && !self.shoots[0].pose.is_laid())
        };
        let own = way(&self.shoots[foot]);
        let of_wood = || way(&self.shoots[wood.filter(goes_on)?]);
        let stands = || match x < self.x {
            true => Toward::Left,
            false => Toward::Right,
        };
        self.both
            .then(|| own.or_else(of_wood).unwrap_or_else(stands))
    }

    /// How far a place is from the trunk, mm.
    fn away(&self, side: Option<Toward>, x: f64) -> f64 {
        side.unwrap_or(self.way).sign() * (x - self.x)
    }
}
