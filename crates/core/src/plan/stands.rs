//! Which windows of a scheme stand, and what is done there.
//!
//! A window is *planned*: its work is stored, if only to say that nothing is done; or it *stands*: what is done in it is the
//! standing work of each tree ([`crate::standing`]), worked out in replay and stored nowhere. In a scheme with rules every
//! window stands that is not planned. A window that is worked on by hand becomes planned, with its standing work of all trees
//! stored first; it can be given back. When rules are first laid down, all windows with work are planned, and those of the found
//! leaf: what its grower does with the row as it was found is for the grower to say. Of a row that is just planted nothing is done
//! yet: its first leaf stands, all but the window in which it was planted.

use super::{Moment, Plan, Scheme};
use crate::row::{Targets, Window};
use crate::sorted::Set;
use crate::standing::{Rules, Standard};
use std::sync::Arc;

/// The rules of a scheme, and where they do not hold.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Standing {
    /// What is done in windows that stand.
    pub rules: Rules,
    /// The windows that are planned: all that have work, and those in which nothing is done.
    pub planned: Set<Moment>,
}

/// The standing windows of a plan's scheme.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stands {
    standard: Standard,
    planned: Set<Moment>,
}

impl Stands {
    /// Those of a scheme that has such limits.
    pub fn new(scheme: &Scheme, targets: &Arc<Targets>) -> Option<Self> {
        let standing = scheme.standing.as_ref()?;
        Some(Self {
            standard: Standard {
                rules: standing.rules.clone(),
                targets: Arc::clone(targets),
            },
            planned: standing.planned.clone(),
        })
    }

    /// What is done in a window, if it stands.
    pub fn at(&self, moment: Moment) -> Option<&Standard> {
        (!self.planned.contains(&moment)).then_some(&self.standard)
    }

    /// The first moment from a start on at which they differ.
    pub fn first_change(start: Moment, a: Option<&Self>, b: Option<&Self>) -> Option<Moment> {
        if let (Some(a), Some(b)) = (a, b)
            && a.standard == b.standard
        {
            let [gone, come] =
                [(a, b), (b, a)].map(|(a, b)| a.planned.difference(&b.planned).next());
            return gone.into_iter().chain(come).min().copied();
        }
        let stands = |of: Option<&Self>, m| of.is_some_and(|s| s.at(m).is_some());
        let last = Moment {
            leaf: Plan::MAX_LEAF,
            window: Window::AfterHarvest,
        };
        start.until(last).find(|m| stands(a, *m) || stands(b, *m))
    }
}

impl Scheme {
    /// Whether a window stands.
    pub fn stands(&self, moment: Moment) -> bool {
        let standing = self.standing.as_ref();
        standing.is_some_and(|s| !s.planned.contains(&moment))
    }
}
