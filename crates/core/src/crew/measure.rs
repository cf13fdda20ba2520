//! What a tape or a stick tells of a piece of work before it is done, as its pass finds the row.

use super::{Pass, subject_of};
use crate::terms::Terms;
use crate::usual;
use crate::work::{Work, apply_to_tree};

/// The laterals that come off one upright.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// How many.
    pub count: u16,
    /// How long each is in the mean, mm; 0 where nobody measured them.
    pub length: f64,
    /// How thick each is at its base, mm: estimated from its length.
    pub thickness: f64,
    /// Up to what height over the ground they stand, mm: where each stands is not on record.
    pub up_to: f64,
}

/// What is shortened.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shortened {
    /// What comes off its end, mm.
    pub off: f64,
    /// How high over the ground it is cut, mm.
    pub height: f64,
}

impl Pass {
    /// The laterals that a piece of its work takes off; none of other work.
    pub fn laterals(&self, work: &Work) -> Option<Side> {
        let Work::TakeLaterals { .. } = work else {
            return None;
        };
        let (posed, at) = subject_of(work, &self.row)?;
        let laterals = posed.tree().shoots[at].laterals;
        let course = posed.courses()[at];
        let count = laterals.shown();
        let length = laterals.total / f64::from(count.max(1));
        (count > 0).then_some(Side {
            count,
            length,
            thickness: usual::diameter(length),
            up_to: course.base.y.max(course.tip().y),
        })
    }

    /// What a tip or a height takes off an upright, and where it is cut; nothing of other work.
    pub fn shortened(&self, work: &Work, terms: &Terms) -> Option<Shortened> {
        let (Work::Tip { .. } | Work::HoldHeight { .. }) = work else {
            return None;
        };
        let (posed, at) = subject_of(work, &self.row)?;
        let after = apply_to_tree(posed.tree(), self.moment, terms, work).ok()?;
        let kept = after.shoots[at].length();
        let course = posed.courses()[at];
        Some(Shortened {
            off: course.length - kept,
            height: course.point(kept).y,
        })
    }
}
