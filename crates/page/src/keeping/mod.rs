//! Keeping a plan on the device: when it is written, and what. Nothing here knows the browser, a clock or a store.

mod journal;
mod pace;
mod seen;

pub use journal::{Journal, Step, Writing};
pub use pace::{Kept, Pace, Ticket};
pub use seen::{KeptRow, Seen, name};
