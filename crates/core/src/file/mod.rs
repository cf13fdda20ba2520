//! File formats.
