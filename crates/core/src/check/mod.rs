//! Checks: each looks at a row and says what it found. A finding never blocks.

mod finding;

pub use finding::{Finding, Part, Remedy, Severity};
