//! The message boundary to a second instance of the same module: a question about a whole plan goes out as
//! bytes with a generation number; an answer to an older generation is dropped. A hand on the wall never waits for one.

use crate::light::{Exact, Lighting, exact};
use cordonry::check::{Context, Severity, check};
use cordonry::file::read_plan;
use cordonry::light::{Beside, DeepCanopy, Foliage, beside_deep};
use cordonry::plan::{Moment, Phase, Replayer, Window};
use serde::{Deserialize, Serialize};
use std::ops::Range;

/// A window as a message has it.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Window", rename_all = "snake_case")]
enum WindowForm {
    Dormant,
    BudSwell,
    EarlySummer,
    AfterHarvest,
}

/// A moment as a message has it.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Moment")]
struct MomentForm {
    leaf: u8,
    #[serde(with = "WindowForm")]
    window: Window,
}

/// A phase as a message has it.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Phase", rename_all = "snake_case")]
enum PhaseForm {
    Before,
    After,
}

/// A question about a plan.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Ask {
    /// Which state of the page it is about.
    pub generation: u32,
    /// The plan file's text.
    pub plan: String,
    /// Number of the scheme.
    pub scheme: usize,
    /// What is asked.
    pub question: Question,
}

/// What can be asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Question {
    /// How many findings there are after the work of each window of the found leaf.
    Season,
    /// The figures on which native and wasm must agree.
    Digest,
    /// The light at a moment, the map over some columns.
    Light {
        /// The moment.
        #[serde(with = "MomentForm")]
        moment: Moment,
        /// Before or after its work.
        #[serde(with = "PhaseForm")]
        phase: Phase,
        /// What is looked at.
        choice: Lighting,
        /// Columns to map.
        columns: Range<usize>,
    },
    /// The flat wall at a moment beside a deep canopy of the same leaf area.
    Beside {
        /// The moment.
        #[serde(with = "MomentForm")]
        moment: Moment,
        /// Before or after its work.
        #[serde(with = "PhaseForm")]
        phase: Phase,
        /// What is looked at.
        choice: Lighting,
        /// What it is compared with.
        canopy: DeepCanopy,
    },
}

/// An answer.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Answer {
    /// The generation of the question.
    pub generation: u32,
    /// What was asked for.
    pub body: Body,
}

/// What was asked for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Body {
    /// Findings after each window.
    Season(Vec<WindowCount>),
    /// A text of figures.
    Digest(String),
    /// The exact light.
    Light(Box<Exact>),
    /// Flat and deep; none without leaves.
    Beside(Option<Beside>),
    /// The plan could not be read.
    Refused(String),
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

/// Answers a question. The core alone is asked; nothing of the browser is touched.
pub fn answer(ask: &Ask) -> Answer {
    let body = match read_plan(ask.plan.as_bytes()) {
        Err(why) => Body::Refused(why.to_string()),
        Ok(plan) => match &ask.question {
            Question::Light {
                moment,
                phase,
                choice,
                columns,
            } => match Replayer::default().at(&plan, ask.scheme, *moment, *phase) {
                Ok(at) => Body::Light(Box::new(exact(&at.row, &plan, *choice, columns.clone()))),
                Err(why) => Body::Refused(why.to_string()),
            },
            Question::Beside {
                moment,
                phase,
                choice,
                canopy,
            } => match Replayer::default().at(&plan, ask.scheme, *moment, *phase) {
                Ok(at) => {
                    let foliage = Foliage::new(&at.row, &plan.site, &plan.targets, choice.out);
                    let period = choice.period(foliage.around().site.latitude_deg);
                    Body::Beside(beside_deep(&foliage, &plan.targets, period, *canopy))
                }
                Err(why) => Body::Refused(why.to_string()),
            },
            Question::Digest => Body::Digest(cordonry::digest::digest(&plan)),
            Question::Season => {
                let mut replayer = Replayer::default();
                let leaf = plan.found.leaf;
                let counts = Window::ALL.into_iter().filter_map(|window| {
                    let moment = Moment { leaf, window };
                    let replayed = replayer.at(&plan, ask.scheme, moment, Phase::After).ok()?;
                    let findings = check(&Context::of(&plan, &replayed));
                    let now = findings
                        .iter()
                        .filter(|f| f.severity == Severity::Now)
                        .count();
                    Some(WindowCount {
                        moment,
                        findings: findings.len() as u32,
                        now: now as u32,
                    })
                });
                Body::Season(counts.collect())
            }
        },
    };
    Answer {
        generation: ask.generation,
        body,
    }
}
