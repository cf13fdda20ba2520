//! The signs by which a compiled text is read: shared by the build, which writes it, and the program.
//!
//! A language's texts stand one after the other, `key IS pattern NEXT`, in the order of their keys. A pattern is text
//! with `VALUE name VALUE` where a value stands, and `CHOICE name` with its cases (`CASE key IS pattern`) and `END`
//! where one is chosen by it: by the word itself, a count by its digits or its plural. The last has no key.

/// Between a key and its pattern.
pub const IS: &str = "\u{1}";
/// After a text.
pub const NEXT: &str = "\u{2}";
/// Before and after the name of a value.
pub const VALUE: &str = "\u{3}";
/// Before the name of what chooses.
pub const CHOICE: &str = "\u{4}";
/// Before the key of a case.
pub const CASE: &str = "\u{5}";
/// After the last case.
pub const END: &str = "\u{6}";
/// No text holds this sign or one before it.
pub const LAST: u8 = 6;
