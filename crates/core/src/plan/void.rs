//! Work that finds no subject.

use super::Moment;
use crate::refusal::Refusal;
use crate::work::Work;

/// Work that could not be done, since its subject is not there at its time. It stays in the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct VoidWork {
    /// When it was to be done.
    pub moment: Moment,
    /// The work.
    pub work: Work,
    /// Why it was not.
    pub why: Refusal,
}
