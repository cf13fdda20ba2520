//! The helper: a second instance of this module, which answers questions about a whole plan. A hand on the wall waits for
//! none of its answers.
//!
//! It remembers the plan and what replay keeps of it. It is told what has changed, or the whole plan where it lacks what
//! that was changed from; each question names the plan that it is about. A table is read by a helper of its own, which knows
//! no plan and is ended with its answer, or before it.

mod awaited;
mod draft;
mod follows;
mod memory;
mod message;
mod small;
mod table;
mod update;

pub use awaited::{Awaited, OfScheme, OnWall};
pub use draft::{DraftGroup, DraftOf, DraftPiece, Drafted};
pub use follows::leaf_follows;
pub use memory::Memory;
pub use message::{Body, Inquiry, Message, Question, Reply, WindowCount};
pub use small::beginning;
pub use table::{Ask, Assumed, Looked, look};
pub use update::{Told, Update};
