//! What a shoot is on the wall, by the wood that it comes from: it holds as a row grows and is renewed.

use super::shoot::{Face, Kind, Origin, Pose, Shoot};
use super::tree::Tree;

/// What a shoot is on the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// What was planted, and is not laid.
    Stem,
    /// Laid wood.
    Leader,
    /// A grown upright of the wall: on laid wood, the return of a stub, or one of several from an upright that was cut back.
    Upright,
    /// A bud kept for one.
    Bud,
    /// A stub from which nothing has come back: it holds its place.
    Stub,
    /// A stub that has ceded its place to what stands on it.
    Spent,
    /// All else: what is not tied, and what branches from an upright.
    Loose,
}

impl Role {
    /// Of a shoot of that kind: whether it belongs to the wall, and whether what stands on it has taken its place.
    fn of(kind: Kind, on_wall: &dyn Fn() -> bool, has_ceded: &dyn Fn() -> bool) -> Self {
        match kind {
            Kind::Stem => Self::Stem,
            Kind::Leader => Self::Leader,
            Kind::Upright if on_wall() => Self::Upright,
            Kind::Bud if on_wall() => Self::Bud,
            Kind::Stub if on_wall() => match has_ceded() {
                true => Self::Spent,
                false => Self::Stub,
            },
            Kind::Upright | Kind::Bud | Kind::Stub | Kind::Shoot => Self::Loose,
        }
    }

    /// Whether it holds a place among the uprights of the wall.
    pub fn holds_place(self) -> bool {
        matches!(self, Self::Upright | Self::Bud | Self::Stub)
    }
}

impl Tree {
    /// What a shoot of the tree is on the wall. An upright, bud or stub belongs to the wall by [`Tree::rooted`].
    pub fn role(&self, shoot: &Shoot) -> Role {
        let on_wall = || self.rooted(shoot).is_some();
        Role::of(shoot.kind(), &on_wall, &|| self.has_ceded(shoot))
    }

    /// For each shoot [its root](Self::rooted), by its place among the tree's: in one walk, however long a chain
    /// they make. `parents` are the tree's.
    pub fn roots(&self, parents: &[Option<usize>]) -> Vec<Option<usize>> {
        self.roots_on(parents, &|wood| wood.pose.is_laid())
    }

    /// As [`Self::roots`], on what else is taken for wood of the cordon.
    pub(crate) fn roots_on(
        &self,
        parents: &[Option<usize>],
        carries: &dyn Fn(&Shoot) -> bool,
    ) -> Vec<Option<usize>> {
        let mut out: Vec<Option<usize>> = Vec::with_capacity(self.shoots.len());
        for (at, parent) in parents.iter().enumerate() {
            let shoots = &self.shoots;
            out.push(parent.and_then(|p| match carries(&shoots[p]) {
                true => Some(at),
                false => out[p].filter(|_| takes_place(&shoots[p], &shoots[at])),
            }));
        }
        out
    }

    /// For each shoot whether it is a stub that has ceded its place to what came of it. `parents` are the tree's.
    pub(crate) fn ceded(&self, parents: &[Option<usize>]) -> Vec<bool> {
        let mut out = vec![false; self.shoots.len()];
        for (shoot, parent) in self.shoots.iter().zip(parents) {
            if let Some(stub) = parent.filter(|p| self.shoots[*p].pose == Pose::Stub) {
                out[stub] |= takes_place(&self.shoots[stub], shoot);
            }
        }
        out
    }

    /// The [role](Self::role) of every shoot, in one walk.
    pub fn roles(&self) -> Vec<Role> {
        let parents = self.parents();
        let (roots, ceded) = (self.roots(&parents), self.ceded(&parents));
        let all = self.shoots.iter().enumerate();
        all.map(|(at, s)| Role::of(s.kind(), &|| roots[at].is_some(), &|| ceded[at]))
            .collect()
    }

    /// The shoot on laid wood by which a shoot belongs to the wall: itself, or the stub or cut-back upright that it came
    /// from, through however many renewals. `None` for what branches from other wood, or hangs on nothing laid.
    pub fn rooted<'t>(&'t self, shoot: &'t Shoot) -> Option<&'t Shoot> {
        let mut at = shoot;
        // Parents stand before their children, so the way down ends at the stem.
        loop {
            let parent = self.shoot(at.parent?)?;
            if parent.pose.is_laid() {
                return Some(at);
            }
            if !takes_place(parent, at) {
                return None;
            }
            at = parent;
        }
    }

    /// Whether what stands on a stub has taken its place.
    fn has_ceded(&self, stub: &Shoot) -> bool {
        self.shoots
            .iter()
            .any(|s| s.parent == Some(stub.id) && takes_place(stub, s))
    }

    /// Whether a shoot is one that was left on the side or underside of the cordon, or came from one. What was laid fills the
    /// cordon, and a stub was cut to bring an upright.
    pub fn is_side_shoot(&self, shoot: &Shoot) -> bool {
        let Some(root) = self.rooted(shoot) else {
            return false;
        };
        let is = |s: &Shoot| !matches!(s.kind(), Kind::Leader | Kind::Stub);
        root.face != Face::Top && is(root) && is(shoot)
    }
}

/// Whether a shoot takes the place of the one that it grows from, or stands beside it there: the return of a stub, and what
/// came where an upright was cut back.
fn takes_place(parent: &Shoot, shoot: &Shoot) -> bool {
    let stands = matches!(shoot.pose, Pose::Upright { .. } | Pose::Stub);
    let came = matches!(shoot.origin, Some(Origin::Return | Origin::CutBackBud));
    stands && (came || parent.pose == Pose::Stub)
}
