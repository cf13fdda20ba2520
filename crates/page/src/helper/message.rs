//! What goes between the page and its helper.

use super::{DraftOf, Drafted, Update};
use crate::document::Mode;
use crate::form::MomentForm;
use crate::light::{Exact, Lighting};
use crate::look::{Look, NotOffered};
use cordonry::check::Offered;
use cordonry::light::{Beside, DeepCanopy};
use cordonry::row::Moment;
use cordonry::units::LengthStyle;
use serde::{Deserialize, Serialize};
use std::ops::Range;

/// Something sent to the helper. Messages are heard in the order in which they are sent.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Message {
    /// What the plan has become.
    Learn(Update),
    /// A question.
    Ask(Inquiry),
}

/// A question about a plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Inquiry {
    /// The question's own number, by which its answer is known.
    pub number: u32,
    /// Generation of the plan that it is about.
    pub generation: u32,
    /// What is asked.
    pub question: Question,
}

/// What can be asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Question {
    /// How many findings there are after the work of each window of a leaf.
    Season {
        /// Number of the scheme.
        scheme: usize,
        /// The leaf.
        leaf: u8,
    },
    /// Between what the crop of each leaf lies, from the found one on.
    Crop {
        /// Number of the scheme.
        scheme: usize,
        /// The last leaf.
        last: u8,
    },
    /// The light that each leaf's wall catches, and that reaches its renewal zone, from the found leaf on.
    Lit {
        /// Number of the scheme.
        scheme: usize,
        /// The last leaf.
        last: u8,
    },
    /// What each share of renewal costs in crop.
    Shares {
        /// Number of the scheme.
        scheme: usize,
        /// The last leaf.
        last: u8,
    },
    /// What the work of each leaf asks for, from the found one on.
    Effort {
        /// Number of the scheme.
        scheme: usize,
        /// The last leaf.
        last: u8,
    },
    /// Which remedies are offered at a look.
    Offers {
        /// The look, and what of the plan is open.
        look: (Look, Mode),
        /// How lengths are told.
        style: LengthStyle,
    },
    /// A draft of a moment's work, with some of its pieces taken.
    Draft {
        /// Of what.
        of: DraftOf,
        /// The places of what is taken; `None` for all.
        picks: Option<Vec<u32>>,
        /// How lengths are told.
        style: LengthStyle,
    },
    /// What a draft brings over the coming leaves.
    Gain {
        /// Of what it is a draft.
        of: DraftOf,
        /// The place of a piece; `None` for all of them.
        piece: Option<u32>,
        /// How lengths are told.
        style: LengthStyle,
    },
    /// The light at a look, the map over some columns.
    Light {
        /// The look, and what of the plan is open.
        look: (Look, Mode),
        /// Which light.
        lighting: Lighting,
        /// Columns to map.
        columns: Range<usize>,
    },
    /// The flat wall at a look beside a deep canopy of the same leaf area.
    Beside {
        /// The look, and what of the plan is open.
        look: (Look, Mode),
        /// Which light.
        lighting: Lighting,
        /// What it is compared with.
        canopy: DeepCanopy,
    },
}

impl Question {
    /// Whether only the newer of two questions is worth an answer: both ask the same of the same look.
    pub fn replaces(&self, other: &Self) -> bool {
        match (self, other) {
            // There is one year strip.
            (Self::Season { .. }, Self::Season { .. }) => true,
            // Who picks other pieces waits for these.
            (Self::Draft { .. }, Self::Draft { .. }) => true,
            (Self::Gain { piece: a, .. }, Self::Gain { piece: b, .. }) => a == b,
            // Two schemes may stand side by side.
            (Self::Crop { scheme: a, .. }, Self::Crop { scheme: b, .. })
            | (Self::Lit { scheme: a, .. }, Self::Lit { scheme: b, .. })
            | (Self::Shares { scheme: a, .. }, Self::Shares { scheme: b, .. })
            | (Self::Effort { scheme: a, .. }, Self::Effort { scheme: b, .. }) => a == b,
            (Self::Offers { look: a, .. }, Self::Offers { look: b, .. }) => a == b,
            (Self::Light { look: a, .. }, Self::Light { look: b, .. })
            | (Self::Beside { look: a, .. }, Self::Beside { look: b, .. }) => a == b,
            _ => false,
        }
    }
}

/// An answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reply {
    /// The number of the question.
    pub number: u32,
    /// What was asked for.
    pub body: Body,
}

/// What was asked for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Body {
    /// Findings after each window.
    Season(Vec<WindowCount>),
    /// Of each finding, in the order of the survey, the remedies that are offered, and why others have none.
    Offers(Vec<Offered>, Vec<NotOffered>),
    /// The exact light, and the remedies that are offered of what is found of it.
    Light(Box<Exact>, Vec<Offered>),
    /// Flat and deep; none without leaves.
    Beside(Option<Beside>),
    /// Least and largest crop of each leaf in turn, t/ha.
    Crop(Vec<f64>),
    /// Of each leaf in turn the share of a clear season's light that its wall catches before the after-harvest work, and the mean
    /// share that reaches its renewal zone then; 0 where that has no leaves over it.
    Lit(Vec<f64>),
    /// Of each share of renewal but none at all its mean crop and that of the last leaves, t/ha, the oldest wood and the uprights
    /// then.
    Shares(Vec<f64>),
    /// Of each leaf in turn the numbers of what its work asks for.
    Effort(Vec<f64>),
    /// A draft, and what the plan becomes.
    Draft(Box<Drafted>),
    /// What a draft or a piece of it brings, line by line.
    Gain(Vec<String>),
    /// The answer takes longer: other questions come between.
    Later,
    /// This question can't be answered; it says nothing of any other.
    Refused(String),
    /// The helper does not have the plan that the question is about.
    Lacks,
}

/// How many findings there are at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WindowCount {
    /// The moment.
    #[serde(with = "MomentForm")]
    pub moment: Moment,
    /// All findings.
    pub findings: u32,
    /// The gravest of them.
    pub now: u32,
}
