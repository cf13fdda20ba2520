//! A row taken down by a person who walks it with a tape: one question at a time, tree by tree.
//!
//! A [`Walk`] is what was laid down before the walk, and the answers in order. What is asked next follows from them,
//! so that going back is taking the last answer away.

mod build;
mod doubt;
mod setup;
mod so_far;
mod state;

pub use doubt::{Doubt, misplaced, season_by_season, unlikely, unlikely_in};
pub use setup::{Tape, WalkSetup};

use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::row::Toward;
use crate::said::{Arg, Quantity, Wording};
use crate::units::{LengthStyle, Mm, parse_length, parse_number};
use serde::{Deserialize, Serialize};
use state::State;

/// Which ways the leaders of a tree go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// One leader, to the left: toward smaller places.
    Left,
    /// One leader, to the right.
    Right,
    /// A leader each way.
    Both,
}

impl Way {
    fn leaders(self) -> &'static [Toward] {
        match self {
            Self::Left => &[Toward::Left],
            Self::Right => &[Toward::Right],
            Self::Both => &[Toward::Left, Toward::Right],
        }
    }
}

/// One answer. Places are whole millimetres along the tape, thicknesses tenths of a millimetre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// Where the tree stands.
    Foot(Mm),
    /// Where a tree is missing.
    Missing(Mm),
    /// Where a tree stands that is the same as the last one.
    Same(Mm),
    /// Which ways its leaders go.
    Way(Way),
    /// Where a leader ends.
    End(Mm),
    /// How thick that was; `None`: not measured.
    Thickness(Option<u16>),
    /// Where an upright stands.
    Upright(Mm),
    /// How high above the ground its tip is; `None`: not measured.
    Height(Option<Mm>),
    /// How many side branches it has; `None`: not counted.
    Laterals(Option<u16>),
    /// The tree has no more uprights.
    TreeDone,
    /// There are no more trees.
    RowDone,
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// Where a tree stands; `usual` is where it may be expected.
    Foot {
        /// The tree's number.
        tree: u32,
        /// Where it may be expected.
        usual: Option<Mm>,
        /// The last tree that stands: this one may be the same.
        like: Option<u32>,
    },
    /// Which ways the leaders of a tree go.
    Way {
        /// The tree's number.
        tree: u32,
        /// As the last tree.
        usual: Option<Way>,
    },
    /// Where a leader ends.
    End {
        /// The tree's number.
        tree: u32,
        /// The way it goes.
        toward: Toward,
    },
    /// How thick a leader is at its base.
    LeaderThickness {
        /// The tree's number.
        tree: u32,
        /// The way it goes.
        toward: Toward,
    },
    /// Where the next upright stands.
    Upright {
        /// The tree's number.
        tree: u32,
        /// How manieth upright.
        number: u32,
        /// Where the one before it stands.
        last: Option<Mm>,
    },
    /// How thick that upright is at its base.
    UprightThickness {
        /// The tree's number.
        tree: u32,
        /// How manieth upright.
        number: u32,
    },
    /// How high above the ground that upright's tip is.
    Height {
        /// The tree's number.
        tree: u32,
        /// How manieth upright.
        number: u32,
        /// As the last upright.
        usual: Option<Mm>,
    },
    /// How many side branches that upright has.
    Laterals {
        /// The tree's number.
        tree: u32,
        /// How manieth upright.
        number: u32,
        /// As the last upright.
        usual: Option<u16>,
    },
    /// Nothing: the row is taken down.
    Nothing,
}

impl Ask {
    /// Its name in language files, behind `walk-ask-`, and in a refusal.
    pub fn key(self) -> &'static str {
        match self {
            Self::Foot { .. } => "foot",
            Self::Way { .. } => "way",
            Self::End { .. } => "end",
            Self::LeaderThickness { .. } => "leader",
            Self::Upright { .. } => "upright",
            Self::UprightThickness { .. } => "thickness",
            Self::Height { .. } => "height",
            Self::Laterals { .. } => "laterals",
            Self::Nothing => "nothing",
        }
    }

    /// The number of the tree that it is about.
    pub fn tree(self) -> Option<u32> {
        match self {
            Self::Foot { tree, .. }
            | Self::Way { tree, .. }
            | Self::End { tree, .. }
            | Self::LeaderThickness { tree, .. }
            | Self::Upright { tree, .. }
            | Self::UprightThickness { tree, .. }
            | Self::Height { tree, .. }
            | Self::Laterals { tree, .. } => Some(tree),
            Self::Nothing => None,
        }
    }

    /// How manieth upright it is about; 0 where it is about none.
    pub fn upright(self) -> u32 {
        match self {
            Self::Upright { number, .. }
            | Self::UprightThickness { number, .. }
            | Self::Height { number, .. }
            | Self::Laterals { number, .. } => number,
            _ => 0,
        }
    }

    /// What it asks for.
    pub fn quantity(self) -> Quantity {
        match self {
            Self::LeaderThickness { .. } | Self::UprightThickness { .. } => Quantity::Thickness,
            Self::Laterals { .. } => Quantity::Count,
            _ => Quantity::Length,
        }
    }

    /// What an empty answer is taken as, where it is taken as something.
    pub fn usual(self) -> Option<Arg> {
        match self {
            Self::Foot { usual, .. } | Self::Height { usual, .. } => {
                usual.map(|x| Arg::Length(x.f()))
            }
            Self::Laterals { usual, .. } => usual.map(|n| Arg::Number(n.into(), 0)),
            _ => None,
        }
    }
}

/// A row being taken down.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    setup: WalkSetup,
    answers: Vec<Answer>,
    state: State,
}

impl Walk {
    /// Most answers.
    pub const MAX_ANSWERS: usize = 200_000;

    /// A walk that begins at the first tree.
    ///
    /// # Errors
    /// The first value of the setup that is not accepted.
    pub fn new(setup: WalkSetup) -> Result<Self, Refusal> {
        setup.check()?;
        Ok(Self {
            state: State::new(&setup),
            setup,
            answers: Vec::new(),
        })
    }

    /// What was laid down before the walk.
    pub fn setup(&self) -> &WalkSetup {
        &self.setup
    }

    /// The answers so far.
    pub fn answers(&self) -> &[Answer] {
        &self.answers
    }

    /// What is asked now.
    pub fn ask(&self) -> Ask {
        self.state.ask(&self.setup)
    }

    /// Trees that are taken down, missing ones counted in; and how many there are to be, where that is known.
    pub fn progress(&self) -> (u32, Option<u32>) {
        (
            self.state.done(),
            self.setup.sample.map(|_| self.visits().len() as u32),
        )
    }

    /// The numbers of the trees to walk to, where they are a sample; none where every tree is walked to.
    pub fn visits(&self) -> Vec<u32> {
        self.setup.visits()
    }

    /// Takes an answer.
    ///
    /// # Errors
    /// A value that is not accepted, or an answer to what is not asked. The walk is as it was.
    pub fn answer(&mut self, answer: Answer) -> Result<(), Refusal> {
        if self.answers.len() >= Self::MAX_ANSWERS {
            return Err(self.not_asked());
        }
        self.state.take(&self.setup, answer)?;
        self.answers.push(answer);
        Ok(())
    }

    /// Takes the last answer away. Gives it as it would be typed, so that it can be mended; `None` at the beginning.
    pub fn back(&mut self) -> Option<String> {
        let last = self.answers.pop()?;
        self.state = State::new(&self.setup);
        for answer in &self.answers {
            // Each was taken once, in this order.
            let _ = self.state.take(&self.setup, *answer);
        }
        Some(match last {
            Answer::Foot(x)
            | Answer::Missing(x)
            | Answer::Same(x)
            | Answer::End(x)
            | Answer::Upright(x)
            | Answer::Height(Some(x)) => self.setup.tape.typed(x.f()),
            Answer::Laterals(Some(count)) => count.to_string(),
            Answer::Thickness(Some(dmm)) => self.setup.tape.typed_thickness(f64::from(dmm) / 10.0),
            Answer::Thickness(None)
            | Answer::Height(None)
            | Answer::Laterals(None)
            | Answer::Way(_)
            | Answer::TreeDone
            | Answer::RowDone => String::new(),
        })
    }

    /// Takes what was typed as the answer to what is asked. An empty text takes what is expected: a tree's place, or what the
    /// last upright has.
    ///
    /// # Errors
    /// What can't be read or accepted. The walk is as it was.
    pub fn typed(&mut self, text: &str) -> Result<(), Refusal> {
        let ask = self.ask();
        let answer = match ask {
            Ask::Foot { .. } => Answer::Foot(self.foot(text)?),
            Ask::End { .. } => Answer::End(self.place(text)?),
            Ask::Upright { .. } => Answer::Upright(self.place(text)?),
            Ask::LeaderThickness { .. } | Ask::UprightThickness { .. } => {
                let mm = parse_length(text, self.setup.tape.thickness())
                    .map_err(|_| self.unread(text))?;
                Answer::Thickness(Some(self.state.thickness(&self.setup, mm)?))
            }
            Ask::Height { usual, .. } => Answer::Height(match (text.trim(), usual) {
                ("", Some(usual)) => Some(usual),
                _ => Some(self.place(text)?),
            }),
            Ask::Laterals { usual, .. } => Answer::Laterals(match (text.trim(), usual) {
                ("", Some(usual)) => Some(usual),
                _ => Some(self.state.laterals(&self.setup, self.count(text)?)?),
            }),
            Ask::Way { .. } | Ask::Nothing => return Err(self.not_asked()),
        };
        self.answer(answer)
    }

    fn count(&self, text: &str) -> Result<f64, Refusal> {
        let whole = parse_number(text).ok().filter(|n| libm::trunc(*n) == *n);
        whole.ok_or_else(|| self.unread(text))
    }

    /// The tree is missing at the place that was typed, or where it may be expected.
    ///
    /// # Errors
    /// A place that can't be read or accepted.
    pub fn missing(&mut self, text: &str) -> Result<(), Refusal> {
        let x = self.foot(text)?;
        self.answer(Answer::Missing(x))
    }

    /// The tree at the place that was typed, or where it may be expected, is the same as the last one.
    ///
    /// # Errors
    /// A place that can't be read or accepted; no tree before it.
    pub fn same(&mut self, text: &str) -> Result<(), Refusal> {
        let x = self.foot(text)?;
        self.answer(Answer::Same(x))
    }

    fn foot(&self, text: &str) -> Result<Mm, Refusal> {
        match (text.trim(), self.ask()) {
            ("", Ask::Foot { usual: Some(x), .. }) => Ok(x),
            _ => self.place(text),
        }
    }

    fn place(&self, text: &str) -> Result<Mm, Refusal> {
        parse_length(text, self.setup.tape.bare())
            .map(Mm::round)
            .map_err(|_| self.unread(text))
    }

    fn unread(&self, text: &str) -> Refusal {
        self.state.refusal(&self.setup, Arg::quoted(text))
    }

    fn not_asked(&self) -> Refusal {
        Refusal::new("refusal-walk-not-asked", vec![])
    }

    /// Whether there is a row to make of it: at least one tree that stands.
    pub fn has_trees(&self) -> bool {
        self.state.stands()
    }

    /// The plan of the row as it was taken down. The tree that is being asked for counts once its leader is known.
    /// Its note, and those of trees that were not walked to, say how it came about.
    ///
    /// # Errors
    /// No tree stands.
    pub fn plan(&self, words: &dyn Wording) -> Result<Plan, Refusal> {
        build::plan(&self.setup, &self.state, words)
    }
}

/// The tape's unit that goes with a style of lengths.
pub fn usual_tape(style: LengthStyle) -> Tape {
    match style {
        LengthStyle::Metric => Tape::Metres,
        LengthStyle::FeetInches => Tape::Inches,
    }
}
