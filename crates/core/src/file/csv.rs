//! Measured rows as CSV.
