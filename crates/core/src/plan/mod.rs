//! A plan: a row as found, and schemes of work on it, season by season.

mod answer;
mod copied;
mod correct;
mod counted;
mod counts;
mod edit;
mod field;
mod frames;
mod history;
mod left;
mod marks;
mod replay;
mod rules;
mod run;
mod schedule;
mod schemes;
mod setting;
mod stands;
mod timeline;
mod tipped;
mod void;
mod walk;
mod years;

pub use answer::{Answer, Change, Of, Spot};
pub use copied::CopiedOn;
pub use correct::{Correction, Measure, Pick, Picked};
pub use counted::Counted;
pub use counts::{BudCount, SpurCount};
pub use field::{Field, Seen, Taken, Told};
pub use history::{Entry, History, Line};
pub use left::{Left, LeftSpot};
pub use marks::{Mark, MarkShape, Pin, Pinned, PinnedTo};
pub use replay::{Replayed, Replayer, replay};
pub use schedule::Schedule;
pub use setting::Setting;
pub use stands::Standing;
pub use timeline::Timeline;
pub use void::VoidWork;
pub use years::{AGES, PlaceYears, RowYear, RowYears, TreeYear, WorkCount, Years};

pub use crate::row::{Moment, Phase, Window};

use crate::hands::Hands;
use crate::refusal::Refusal;
use crate::row::{Row, Site, Targets, TreeId, Trellis};
use crate::said::Arg;
use crate::terms::{Assumptions, Terms};
use crate::work::Work;
use std::sync::Arc;

/// One way of training the same found row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scheme {
    /// Its name, as the user wrote it.
    pub name: String,
    /// Its work.
    pub schedule: Schedule,
    /// The first leaf that is let bear: before it flowers are rubbed off. `None` is
    /// [`Stand::CROP_FROM`](crate::terms::Stand::CROP_FROM).
    pub crop_from: Option<u8>,
    /// What is done in windows that nobody planned; `None` where nothing is.
    pub standing: Option<Standing>,
    /// What the crew tells of its work.
    pub field: Field,
}

impl Scheme {
    /// The work of a moment on all trees and the trellis, in order of subject.
    pub fn work(&self, moment: Moment) -> impl Iterator<Item = &Work> {
        self.schedule.work(moment)
    }

    /// The work of a moment on one tree, or on the trellis for `None`, in order of subject.
    pub fn work_on(&self, moment: Moment, tree: Option<TreeId>) -> &[Work] {
        self.schedule.work_on(moment, tree)
    }
}

/// The whole of what is kept. Everything else is derived from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The row's name.
    pub name: String,
    /// Anything to say about it, such as that it is invented.
    pub note: String,
    /// Where it stands.
    pub site: Arc<Site>,
    /// The limits in force.
    pub targets: Arc<Targets>,
    /// The values of the model of nodes and growth.
    pub assumptions: Arc<Assumptions>,
    /// The row as found: the dormant state before its leaf. Its places are whole millimetres.
    pub found: Arc<Row>,
    /// Whether last year's growth of the found row had been tipped, where the record shows no cut; `None` where that is not
    /// known, and it is taken as whole.
    pub tipped: Option<bool>,
    /// Ways of training it; never empty.
    pub schemes: Vec<Arc<Scheme>>,
    /// What is marked on the wall, in order of number.
    pub marks: Vec<Mark>,
    /// The fingerprints of copies of it that were sent, the last at the end: a copy that comes back is known by them.
    pub sent: Vec<u64>,
    /// What was found and is left for a year.
    pub left: Vec<Left>,
    /// What was counted on buds, in order of leaf and then of tree, one for each.
    pub counts: Vec<BudCount>,
    /// The crew: how many do a job together, and how long it takes them.
    pub hands: Arc<Hands>,
}

impl Plan {
    /// Last leaf that a plan reaches.
    pub const MAX_LEAF: u8 = 40;
    /// How many sent copies it knows; older ones are forgotten.
    pub const MAX_SENT: usize = 16;
    /// Most schemes.
    pub const MAX_SCHEMES: usize = 20;
    /// Longest text of a name or note, in characters.
    pub const MAX_TEXT: usize = 4_000;

    /// A plan of a found row with one scheme without work.
    pub fn new(name: impl Into<String>, found: Row) -> Self {
        Self {
            name: name.into(),
            note: String::new(),
            site: Arc::default(),
            targets: Arc::default(),
            assumptions: Arc::default(),
            found: Arc::new(found),
            tipped: None,
            schemes: vec![Arc::new(Scheme {
                name: "A".into(),
                ..Scheme::default()
            })],
            marks: Vec::new(),
            sent: Vec::new(),
            left: Vec::new(),
            counts: Vec::new(),
            hands: Arc::default(),
        }
    }

    /// The dormant moment before the found leaf's growth: where work begins.
    pub fn start(&self) -> Moment {
        Moment::dormant(self.found.leaf)
    }

    /// What pose, work and growth read besides a tree, while the trellis is so.
    pub fn terms(&self, trellis: &Trellis) -> Terms {
        Terms::new(
            &self.found,
            trellis,
            &self.targets,
            &self.assumptions,
            &self.site,
        )
    }

    /// The scheme at `index`.
    ///
    /// # Errors
    /// No such scheme.
    pub fn scheme(&self, index: usize) -> Result<&Arc<Scheme>, Refusal> {
        self.schemes.get(index).ok_or_else(|| {
            Refusal::new(
                "refusal-scheme",
                vec![
                    ("value", Arg::Count(index as i64 + 1)),
                    ("high", Arg::Count(self.schemes.len() as i64)),
                ],
            )
        })
    }
}
