//! How long pieces of work take. All of it is from memory, and meant to be changed by whoever knows the crew.

use super::Job;
use crate::arrange::Arrange;
use crate::range::Range;
use crate::refusal::Refusal;
use crate::row::TreeId;
use crate::said::Arg;
use crate::work::Work;

/// What takes time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rate {
    /// A tree grubbed out.
    GrubOut,
    /// A tree planted.
    Plant,
    /// A stub cut.
    Stub,
    /// The laterals of one upright.
    Laterals,
    /// A tip, or an upright held at a height.
    Tip,
    /// A shoot cut back.
    CutBack,
    /// A shoot taken off.
    TakeOff,
    /// A wire, whatever its length.
    Wire,
    /// A wire at each post.
    WirePost,
    /// A bud kept, or the buds of one shoot rubbed out.
    Bud,
    /// A notch.
    Notch,
    /// A shoot laid or stood up, and tied.
    Tie,
    /// The way to a tree and the look at it, in each walk.
    Walk,
    /// Tools disinfected, each time.
    Disinfect,
}

impl Rate {
    /// Every rate, in the order in which they are shown.
    pub const ALL: [Self; 14] = [
        Self::GrubOut,
        Self::Plant,
        Self::Stub,
        Self::Laterals,
        Self::Tip,
        Self::CutBack,
        Self::TakeOff,
        Self::Wire,
        Self::WirePost,
        Self::Bud,
        Self::Notch,
        Self::Tie,
        Self::Walk,
        Self::Disinfect,
    ];
    /// Least and most seconds.
    pub const RANGE: Range = (0.0, 7_200.0);

    /// Its name in files and for programs, and the default in seconds of one person.
    ///
    /// Stubs, laterals, tips and the way make 10 to 20 s an upright over the three walks of a winter, 200 to 400 cuts an hour and
    /// 60 to 120 hours a hectare together (all from memory; a test holds them to each other).
    pub fn info(self) -> (&'static str, f64) {
        match self {
            Self::GrubOut => ("grub_out", 600.0),
            Self::Plant => ("plant", 300.0),
            Self::Stub => ("stub", 18.0),
            Self::Laterals => ("laterals", 10.0),
            Self::Tip => ("tip", 5.0),
            Self::CutBack => ("cut_back", 10.0),
            Self::TakeOff => ("take_off", 14.0),
            Self::Wire => ("wire", 600.0),
            Self::WirePost => ("wire_post", 90.0),
            Self::Bud => ("bud", 6.0),
            Self::Notch => ("notch", 10.0),
            Self::Tie => ("tie", 60.0),
            Self::Walk => ("walk", 3.2),
            Self::Disinfect => ("disinfect", 20.0),
        }
    }
}

/// The seconds that each takes one person.
#[derive(Clone, Debug, PartialEq)]
pub struct Rates([f64; Rate::ALL.len()]);

impl Default for Rates {
    fn default() -> Self {
        Self(Rate::ALL.map(|rate| rate.info().1))
    }
}

impl Rates {
    /// Seconds of one person.
    pub fn get(&self, rate: Rate) -> f64 {
        self.0[rate as usize]
    }

    /// The rates with one of them set, by its name.
    ///
    /// # Errors
    /// No such rate, or a value outside [`Rate::RANGE`].
    pub fn with(mut self, name: &str, seconds: f64) -> Result<Self, Refusal> {
        let rate = Rate::ALL.into_iter().find(|r| r.info().0 == name);
        let (low, high) = Rate::RANGE;
        match rate.map(|rate| self.set(rate, seconds)) {
            Some(Ok(())) => Ok(self),
            _ => Err(Refusal::new(
                "refusal-rate",
                vec![
                    ("name", Arg::short(name)),
                    ("value", Arg::Number(seconds, 1)),
                    ("low", Arg::Number(low, 0)),
                    ("high", Arg::Number(high, 0)),
                    ("names", Arg::Text(Rate::ALL.map(|r| r.info().0).join(", "))),
                ],
            )),
        }
    }

    /// Sets one of them.
    ///
    /// # Errors
    /// A value outside [`Rate::RANGE`].
    pub fn set(&mut self, rate: Rate, seconds: f64) -> Result<(), Refusal> {
        super::within("refusal-seconds", Rate::RANGE, seconds)?;
        self.0[rate as usize] = seconds;
        Ok(())
    }

    /// Seconds of one person for a piece of work, without the way to it, in a row of so many posts.
    pub fn piece(&self, work: &Work, posts: usize) -> f64 {
        let job = Job::of(work);
        self.get(job.rate())
            + match work {
                Work::ReplaceTree { .. } => self.get(Rate::GrubOut),
                _ if job == Job::Wires => posts as f64 * self.get(Rate::WirePost),
                _ => 0.0,
            }
    }

    /// Minutes of one person for all of some work, with the way to each tree once a job.
    pub fn minutes<'w>(&self, work: impl Iterator<Item = &'w Work>, posts: usize) -> f64 {
        let mut stops: Vec<(Job, TreeId)> = Vec::new();
        let mut seconds = 0.0;
        for work in work {
            seconds += self.piece(work, posts);
            stops.extend(work.tree().map(|tree| (Job::of(work), tree)));
        }
        stops.arrange();
        stops.dedup();
        (seconds + stops.len() as f64 * self.get(Rate::Walk)) / 60.0
    }
}
