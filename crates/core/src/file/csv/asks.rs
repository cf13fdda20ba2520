//! What a table does not say and is to be asked: each question with what is assumed meanwhile, and what may be answered.
//!
//! An answer is taken as the line above the names that would say it ([`super::block`]): a table with answers reads as the
//! same table with those lines. One that can't be taken is refused beside its question, and the table reads as without it.

use super::block::{Block, COVERED, Fact, TICKED};
use super::record::Cells;
use crate::refusal::Refusal;
use crate::row::Trellis;
use crate::said::Arg;
use crate::units::BareUnit;
use std::borrow::Cow;

/// Something that a table may leave out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    /// The coming leaf.
    Leaf,
    /// The wires' heights.
    Wires,
    /// What covers them.
    Covering,
    /// How high the wall is to be.
    WallHeight,
    /// Whether a single length is one season's, or of all seasons since the first together.
    Lengths,
    /// Whether last year's growth had been tipped.
    Tipped,
}

impl Question {
    /// All of them, in the order in which they are asked.
    pub const ALL: [Self; 6] = [
        Self::Leaf,
        Self::Wires,
        Self::Covering,
        Self::WallHeight,
        Self::Lengths,
        Self::Tipped,
    ];

    /// Its text's name: `import-…`.
    pub fn key(self) -> &'static str {
        match self {
            Self::Leaf => "import-leaf",
            Self::Wires => "import-wires",
            Self::Covering => "import-covering",
            Self::WallHeight => "import-wall-height",
            Self::Lengths => "import-lengths",
            Self::Tipped => "import-tipped",
        }
    }

    /// What may be answered, where it is one of a few: words of the table, each with the name of its text.
    pub fn choices(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Self::Covering => &[
                ("bare", "import-covering-bare"),
                ("plastic", "import-covering-plastic"),
            ],
            Self::Lengths => &[
                ("by season", "import-by-season"),
                ("in all", "import-in-all"),
            ],
            Self::Tipped => &[
                ("", "import-tipped-unknown"),
                ("yes", "import-tipped-yes"),
                ("no", "import-tipped-no"),
            ],
            _ => &[],
        }
    }

    /// The lines above the names of which it asks.
    fn fact(self) -> Fact {
        match self {
            Self::Leaf => Fact::Leaf,
            Self::Wires | Self::Covering => Fact::Wire,
            Self::WallHeight => Fact::WallHeight,
            Self::Lengths => Fact::Lengths,
            Self::Tipped => Fact::Tipped,
        }
    }
}

/// A question that a table leaves open.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// What is asked.
    pub question: Question,
    /// What is taken now: assumed, or answered. Lengths as a field holds them; for a choice its word.
    pub now: Vec<Arg>,
    /// Least and largest value, where it is a number.
    pub range: Option<(Arg, Arg)>,
    /// Why the answer was not taken.
    pub wrong: Option<Refusal>,
}

/// What a person answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Answers {
    /// Each question with what was typed, as [`crate::units`] reads it, or the word of a choice. An empty one is none.
    pub given: Vec<(Question, String)>,
    /// The unit of lengths that are typed without one.
    pub bare: BareUnit,
    /// Cells by name ([`super::Slip::cell`], [`super::Unread::cell`]), each with what it is to be read as.
    pub meant: Vec<(String, String)>,
}

impl Default for Answers {
    fn default() -> Self {
        Self {
            given: Vec::new(),
            bare: BareUnit::Metre,
            meant: Vec::new(),
        }
    }
}

impl Answers {
    fn to(&self, question: Question) -> Option<&str> {
        let mut given = self.given.iter().filter(|(q, _)| *q == question);
        given
            .next()
            .map(|(_, a)| a.trim())
            .filter(|a| !a.is_empty())
    }

    /// Has the block say what was answered of what it leaves open; gives the questions that are open, each with why its answer
    /// was not taken.
    pub(super) fn put(&self, block: &mut Block) -> Vec<(Question, Option<Refusal>)> {
        // What is open is told by the table alone.
        let open = Question::ALL.into_iter().filter(|q| match q {
            Question::Covering => block.is_uncovered() || !block.says(Fact::Wire),
            q => !block.says(q.fact()),
        });
        let open: Vec<Question> = open.collect();
        open.into_iter()
            .map(|question| {
                let taken = self.to(question).map(|answer| {
                    // All of an answer or none.
                    let mut with = block.clone();
                    self.answer(&mut with, question, answer)
                        .map(|()| *block = with)
                });
                (question, taken.and_then(Result::err))
            })
            .collect()
    }

    fn answer(&self, block: &mut Block, question: Question, answer: &str) -> Result<(), Refusal> {
        let length = |name: &str| format!("{name} ({})", super::column::sign(self.bare));
        let name = question.fact().name();
        match question {
            Question::Wires => {
                // A comma with a space behind it parts two heights; without one it is a decimal comma.
                let heights = answer.replace(", ", ";");
                let heights = heights.split(';').map(str::trim);
                let mut heights = heights.filter(|h| !h.is_empty());
                heights.try_for_each(|height| block.take(&cells(&[&length(name), height])))
            }
            Question::Covering => {
                if !block.says(Fact::Wire) {
                    for wire in &Trellis::default().wires {
                        let height = wire.height.to_string();
                        block.take(&cells(&[name, &height]))?;
                    }
                }
                block.cover(answer)
            }
            Question::WallHeight => block.take(&cells(&[&length(name), answer])),
            _ => block.take(&cells(&[name, answer])),
        }
    }
}

fn cells(texts: &[&str]) -> Cells {
    texts.iter().map(|t| Cow::Borrowed(*t)).collect()
}

impl Asked {
    /// As it is to be shown, where the table was read as a row of that trellis before that leaf.
    pub(super) fn of(
        (question, wrong): (Question, Option<Refusal>),
        block: &Block,
        trellis: &Trellis,
        leaf: u8,
    ) -> Self {
        let word = |word: &str| vec![Arg::Text(word.into())];
        let now = match question {
            Question::Leaf => vec![Arg::Number(leaf.into(), 0)],
            Question::Wires => trellis
                .wires
                .iter()
                .map(|w| Arg::Length(w.height.f()))
                .collect(),
            Question::WallHeight => vec![Arg::Length(trellis.wall_height.f())],
            Question::Covering => word(COVERED[usize::from(block.covers_with_plastic())]),
            Question::Lengths => word(super::block::LENGTHS[usize::from(block.in_all)]),
            Question::Tipped => word(block.tipped.map_or("", |yes| TICKED[usize::from(yes)])),
        };
        let range = question.choices().is_empty().then(|| {
            let fact = question.fact();
            let (low, high) = fact.range();
            (fact.arg()(low), fact.arg()(high))
        });
        Self {
            question,
            now,
            range,
            wrong,
        }
    }
}
