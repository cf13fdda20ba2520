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
    /// Whether it holds a place among the uprights of the wall.
    pub fn holds_place(self) -> bool {
        matches!(self, Self::Upright | Self::Bud | Self::Stub)
    }
}

impl Tree {
    /// What a shoot of the tree is on the wall. An upright, bud or stub belongs to the wall by [`Tree::rooted`].
    pub fn role(&self, shoot: &Shoot) -> Role {
        let on_wall = || self.rooted(shoot).is_some();
        match shoot.kind() {
            Kind::Stem => Role::Stem,
            Kind::Leader => Role::Leader,
            Kind::Upright if on_wall() => Role::Upright,
            Kind::Bud if on_wall() => Role::Bud,
            Kind::Stub if on_wall() => match self.has_ceded(shoot) {
                true => Role::Spent,
                false => Role::Stub,
            },
            Kind::Upright | Kind::Bud | Kind::Stub | Kind::Shoot => Role::Loose,
        }
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
pub(crate) fn takes_place(parent: &Shoot, shoot: &Shoot) -> bool {
    let stands = matches!(shoot.pose, Pose::Upright { .. } | Pose::Stub);
    let came = matches!(shoot.origin, Some(Origin::Return | Origin::CutBackBud));
    stands && (came || parent.pose == Pose::Stub)
}
