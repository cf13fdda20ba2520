//! A row that is kept, looked at without being opened: whether it can be read, its plan file's text, a small picture.

use super::{Journal, Step};
use crate::helper::beginning;
use cordonry::file::write_plan;
use cordonry::plan::{History, Line, Plan};
use cordonry::refusal::Refusal;
use serde::{Deserialize, Serialize};

/// A row as the device keeps it: a plan whole, with its number and the steps beside it, and which plan was on the desk.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct KeptRow {
    /// The plan that is kept whole.
    pub whole: (u32, String),
    /// The steps beside it.
    pub steps: Vec<Step>,
    /// The number of the plan that was on the desk.
    pub now: u32,
}

/// What is seen of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// Its plan file's text.
    pub text: String,
    /// The row's name.
    pub name: String,
    /// How many trees it has.
    pub trees: u32,
    /// The row's coming leaf.
    pub leaf: u8,
    /// Its first trees as it was found, as an SVG.
    pub picture: String,
}

impl KeptRow {
    /// A plan's text, as a row without steps.
    pub fn of_text(text: String) -> Self {
        Self {
            whole: (0, text),
            steps: Vec::new(),
            now: 0,
        }
    }

    /// Its history with the journal that goes on with it.
    ///
    /// # Errors
    /// It can't be read.
    pub fn line(self) -> Result<(Line, Journal), Refusal> {
        let (number, text) = &self.whole;
        Journal::open((*number, text), self.steps, self.now)
    }

    /// Looks at it.
    ///
    /// # Errors
    /// It can't be read.
    pub fn look(self) -> Result<Seen, Refusal> {
        let (line, _) = self.line()?;
        let plan = &line.plans[line.at];
        Ok(Seen {
            text: write_plan(plan),
            name: plan.name.clone(),
            trees: plan.found.trees.len() as u32,
            leaf: plan.found.leaf,
            picture: beginning(&plan.found),
        })
    }
}

impl Seen {
    /// It as texts, in which it is sent.
    pub fn texts(self) -> Vec<String> {
        let Self {
            text,
            name,
            trees,
            leaf,
            picture,
        } = self;
        vec![text, name, trees.to_string(), leaf.to_string(), picture]
    }

    /// It from those texts; `None` from others.
    pub fn of(texts: Vec<String>) -> Option<Self> {
        let [text, name, trees, leaf, picture] = <[String; 5]>::try_from(texts).ok()?;
        let (trees, leaf) = (trees.parse().ok()?, leaf.parse().ok()?);
        Some(Self {
            text,
            name,
            trees,
            leaf,
            picture,
        })
    }
}

/// Gives the plan on the desk another name, as a step that can be undone; what had been undone is no longer to be done
/// again.
pub fn name(line: &mut Line, name: String, label: String) {
    if let Some(mut history) = History::of_line(line.clone()) {
        let plan = Plan {
            name,
            ..(**history.plan()).clone()
        };
        history.set(label, plan);
        *line = history.line();
    }
}
