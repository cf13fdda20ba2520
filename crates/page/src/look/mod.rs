//! Looks at the document: what is to be seen of it under a scheme, at a moment and in a phase. Several looks at one
//! document can be held at once.

mod light;
mod scene;
mod sight;

pub use crate::document::Look;
pub use light::LightFindings;
pub use scene::Scene;
pub use sight::{Redraw, Sight};

use serde::{Deserialize, Serialize};

/// Why a finding has no remedy that is offered.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum NotOffered {
    /// It is not known.
    #[default]
    Unknown,
    /// The work of the moment mends it.
    Planned,
    /// What the first that was tried makes graver, in words.
    Harm(String),
    /// One would do, once what is offered first is done.
    Waits,
}
