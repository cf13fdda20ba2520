//! From a row to SVG.
