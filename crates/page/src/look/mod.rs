//! Looks at the document: what is to be seen of it under a scheme, at a moment and in a phase. Several looks at one
//! document can be held at once.

mod light;
mod scene;
mod sight;

pub use crate::document::Look;
pub use light::LightFindings;
pub use scene::Scene;
pub use sight::{Redraw, Sight};

/// Why a finding has no remedy that is offered, in words: what the first that was tried makes graver, or that the work of the moment mends
/// it. Empty where neither is known.
pub type Held = String;
