//! Numbers by name.

use super::held;
use crate::file::v1::dto::Targets;

pub fn numbers<'k>(set: impl Iterator<Item = (&'k str, f64)>) -> Targets {
    Targets(set.map(|(key, v)| (key.to_string(), held(v))).collect())
}
