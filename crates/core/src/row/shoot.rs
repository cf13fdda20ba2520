//! One kind of shoot for all: stem, leader, upright, end shoot and lateral differ by pose and parent alone.

use super::ids::ShootId;
use super::moment::Moment;
use crate::range;
use crate::units::Deg;

/// A way along the row, as seen by who faces the wall with x growing to the right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Toward {
    /// Toward smaller x.
    Left,
    /// Toward larger x.
    Right,
}

impl Toward {
    /// −1 to the left, 1 to the right.
    pub fn sign(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }

    /// The other way.
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// The face of its parent that a shoot grows from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// From above.
    #[default]
    Top,
    /// From the alley side.
    Side,
    /// From underneath.
    Under,
}

/// How a shoot is held on the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pose {
    /// Laid along the cordon wire, its end rising from the level by `rise_deg` (−10 to 30°).
    Laid {
        /// Which way.
        toward: Toward,
        /// Rise of its end above the level.
        rise: Deg,
    },
    /// Standing, its end leaning from the vertical by `lean_deg`; to the right is positive (−90 to 90°).
    Upright {
        /// Lean of its end.
        lean: Deg,
    },
    /// Cut back to a stub that is to bring a new upright.
    Stub,
    /// Neither tied nor trained: as it grew.
    Free,
}

impl Pose {
    /// Steepest rise, in degrees, at which a shoot still counts as laid.
    pub const MAX_RISE: f64 = range::RISE.1;
    /// Least rise, in degrees (a tip that droops below the wire).
    pub const MIN_RISE: f64 = range::RISE.0;

    /// The pose of a shoot whose end points along `degrees` from the level, counted from the right
    /// over the top to the left (0 to 180).
    pub fn from_heading(degrees: f64) -> Self {
        if degrees <= Self::MAX_RISE {
            Self::Laid {
                toward: Toward::Right,
                rise: Deg::new(degrees.max(Self::MIN_RISE)),
            }
        } else if degrees >= 180.0 - Self::MAX_RISE {
            Self::Laid {
                toward: Toward::Left,
                rise: Deg::new((180.0 - degrees).max(Self::MIN_RISE)),
            }
        } else {
            Self::Upright {
                lean: Deg::new(90.0 - degrees),
            }
        }
    }

    /// The heading that the pose gives a shoot's end, in degrees from the level, counted from the right over the
    /// top to the left; `None` where the pose leaves it to how the shoot grew.
    pub fn heading(self) -> Option<f64> {
        match self {
            Self::Laid {
                toward: Toward::Right,
                rise,
            } => Some(rise.degrees()),
            Self::Laid {
                toward: Toward::Left,
                rise,
            } => Some(180.0 - rise.degrees()),
            Self::Upright { lean } => Some(90.0 - lean.degrees()),
            Self::Stub | Self::Free => None,
        }
    }

    /// Whether the shoot is laid along the wire.
    pub fn is_laid(self) -> bool {
        matches!(self, Self::Laid { .. })
    }
}

/// What one growing season added to a shoot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrowthUnit {
    /// The leaf in which it grew.
    pub leaf: u8,
    /// Length that grew, mm.
    pub grown: f64,
    /// Length that is still there after cuts, mm; at most `grown`.
    pub kept: f64,
    /// When it was last cut, if it was and the record tells. A cut is known by the growth that it ends in: what stood
    /// beyond it is gone, and what lies before it was not touched. One that takes whole seasons off, and no more, is
    /// told of the last season that stays.
    pub cut: Option<Moment>,
}

/// Side branches of a shoot, counted together.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Laterals {
    /// How many.
    pub count: u16,
    /// Their lengths together, mm.
    pub total: f64,
}

impl Laterals {
    /// How many are to be seen: what has some length without making up one whole lateral is a short one.
    pub fn shown(self) -> u16 {
        self.count.max(u16::from(self.total > 0.0))
    }
}

/// What a shoot is to the trade, by its pose and parent.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// What was planted, not laid: the trunk of a tree whose leaders fork from it.
    Stem,
    /// Wood laid along the wire; of a single-leader tree the stem itself.
    Leader,
    /// A fruiting upright.
    Upright,
    /// A kept bud that has not grown yet.
    Bud,
    /// A stub left for renewal.
    Stub,
    /// A shoot neither tied nor trained.
    Shoot,
}

/// Where a shoot came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    /// A bud that was kept to become an upright.
    KeptBud,
    /// A bud of older wood, notched above to bring it on.
    Notch,
    /// The stub that it grows from.
    Return,
    /// The end of laid wood, past what was laid.
    EndGrowth,
    /// A bud of a shoot that was cut back, beside the one that goes on as the shoot itself.
    CutBackBud,
    /// A bud that nobody kept or rubbed out.
    WildBud,
}

/// One shoot.
#[derive(Clone, Debug, PartialEq)]
pub struct Shoot {
    /// Name in its tree.
    pub id: ShootId,
    /// What it grows from; `None` for the stem alone.
    pub parent: Option<ShootId>,
    /// Distance of its base along the parent from the parent's base, mm; 0 for the stem.
    pub at: f64,
    /// The face of the parent that it grows from.
    pub face: Face,
    /// How it is held.
    pub pose: Pose,
    /// Growth, from base to tip. Empty for a bud.
    pub units: Vec<GrowthUnit>,
    /// Diameter at the base, mm.
    pub diameter: f64,
    /// Side branches.
    pub laterals: Laterals,
    /// Whether its side and underside buds have been rubbed out.
    pub rubbed: bool,
    /// Where it came from, of a shoot that came in replay; of a found one as far as the record tells.
    pub origin: Option<Origin>,
    /// The radius that it was bent with, mm, if it [bends](Self::bends): set when it is bent, so that neither growth in
    /// thickness nor a thickness that is corrected moves its tip. `None` where the record is silent: that of its
    /// thickness; it is set before that [changes](Self::set_thickness).
    pub bend_radius: Option<f64>,
    /// What was noted of it, at most [`Plan::MAX_TEXT`](crate::plan::Plan::MAX_TEXT) characters. A stem's is its tree's note.
    pub note: String,
}

impl GrowthUnit {
    /// What grew in a leaf and what is left of it, mm; the record is silent about cuts.
    pub fn new(leaf: u8, grown: f64, kept: f64) -> Self {
        Self {
            leaf,
            grown,
            kept,
            cut: None,
        }
    }

    /// Growth of which nothing was cut, mm.
    pub fn whole(leaf: u8, grown: f64) -> Self {
        Self::new(leaf, grown, grown)
    }
}

impl Shoot {
    /// Longest shoot, mm.
    pub const MAX_LENGTH: f64 = range::LENGTH.1;
    /// Thickest shoot, mm.
    pub const MAX_DIAMETER: f64 = range::DIAMETER.1;
    /// Widest bend, mm.
    pub const MAX_BEND_RADIUS: f64 = range::BEND_RADIUS.1;

    /// A bud on top of its parent, `at` mm along it: what every shoot is at first.
    pub fn bud(id: ShootId, parent: Option<ShootId>, at: f64) -> Self {
        Self {
            id,
            parent,
            at,
            face: Face::Top,
            pose: Pose::Upright {
                lean: Deg::default(),
            },
            units: Vec::new(),
            diameter: 0.0,
            laterals: Laterals::default(),
            rubbed: false,
            origin: None,
            bend_radius: None,
            note: String::new(),
        }
    }

    /// Whether it is bent on its way: laid wood, and a stem that is not left as it grew.
    pub fn bends(&self) -> bool {
        match self.pose {
            Pose::Laid { .. } => true,
            Pose::Upright { .. } => self.parent.is_none(),
            Pose::Stub | Pose::Free => false,
        }
    }

    /// Sets its thickness, mm. What is bent keeps the radius of its bend, mm: where the record is silent, `diameters` times
    /// what its thickness was, if that is known. So no tip moves.
    pub fn set_thickness(&mut self, diameter: f64, diameters: f64) {
        if diameter == self.diameter {
            return;
        }
        let was = (self.diameter > 0.0).then_some(diameters * self.diameter);
        self.bend_radius = self.bend_radius.or(was).filter(|_| self.bends());
        self.diameter = diameter;
    }

    /// Length from base to tip along the shoot, mm.
    pub fn length(&self) -> f64 {
        self.units.iter().map(|u| u.kept).sum()
    }

    /// What tells one upright to be larger than another: its thickness, mm; of shoots without a measured one, the length.
    pub fn size(&self) -> f64 {
        self.diameter + self.length() * 1e-6
    }

    /// What the shoot is to the trade.
    pub fn kind(&self) -> Kind {
        match self.pose {
            Pose::Laid { .. } => Kind::Leader,
            _ if self.parent.is_none() => Kind::Stem,
            Pose::Stub => Kind::Stub,
            Pose::Upright { .. } if self.units.is_empty() => Kind::Bud,
            Pose::Upright { .. } => Kind::Upright,
            Pose::Free => Kind::Shoot,
        }
    }

    /// The leaf in which the shoot first grew; `None` for a bud.
    pub fn born(&self) -> Option<u8> {
        self.units.first().map(|u| u.leaf)
    }

    /// Whether the shoot holds a place among the uprights of the wall.
    pub fn holds_upright_place(&self) -> bool {
        matches!(self.kind(), Kind::Upright | Kind::Bud | Kind::Stub)
    }

    /// When it was last cut, if the record tells; of a stub, when it was made.
    pub fn last_cut(&self) -> Option<Moment> {
        self.units.iter().filter_map(|u| u.cut).max()
    }

    /// Shortens the shoot to `keep` mm from its base, at a moment. Longer than it is: no change.
    pub fn cut_to(&mut self, keep: f64, when: Moment) {
        if keep >= self.length() {
            return;
        }
        let mut left = keep.max(0.0);
        for unit in &mut self.units {
            unit.kept = unit.kept.min(left);
            left -= unit.kept;
        }
        self.units.retain(|u| u.kept > 0.0);
        if let Some(last) = self.units.last_mut() {
            last.cut = Some(when);
        }
    }
}
