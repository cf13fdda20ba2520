//! What is looked at, at which edits are made.

use super::Mode;
use crate::form::{MomentForm, PhaseForm};
use cordonry::plan::{Plan, Replayed, Replayer};
use cordonry::refusal::Refusal;
use cordonry::row::{Moment, Phase};
use serde::{Deserialize, Serialize};

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Look {
    /// Number of the scheme.
    pub scheme: usize,
    /// The moment.
    #[serde(with = "MomentForm")]
    pub moment: Moment,
    /// Before or after the work of the moment.
    #[serde(with = "PhaseForm")]
    pub phase: Phase,
}

impl Look {
    /// The first moment of the first scheme, after its work.
    pub fn start(plan: &Plan) -> Self {
        Self {
            scheme: 0,
            moment: plan.start(),
            phase: Phase::After,
        }
    }

    /// The nearest look that there is in a plan.
    pub fn within(self, plan: &Plan) -> Self {
        Self {
            scheme: self.scheme.min(plan.schemes.len().saturating_sub(1)),
            moment: self.moment.max(plan.start()),
            ..self
        }
    }

    /// The row that is shown of a plan: the one place where replay is asked for it.
    ///
    /// # Errors
    /// No such scheme.
    pub fn replayed(
        self,
        plan: &Plan,
        mode: Mode,
        replayer: &mut Replayer,
    ) -> Result<Replayed, Refusal> {
        let Self {
            scheme,
            moment,
            phase,
        } = self.within(plan);
        match mode {
            Mode::Found => Ok(replayer.found(plan, scheme)),
            Mode::Work => replayer.at(plan, scheme, moment, phase),
        }
    }
}
