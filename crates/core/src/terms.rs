//! What pose, work and growth read besides the tree itself. A tree at a moment is a function of the found tree, its work,
//! and the terms along the way: replay compares them by value, so that none can change unseen.

use crate::pose::Geometry;
use crate::row::{Row, Site, Targets, Trellis};
use std::sync::Arc;

/// Values of the model of nodes and growth. Each is a default that a plan can replace.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumptions {
    /// Nodes to a metre of one-year wood: 30–40, from memory.
    pub nodes_per_metre: f64,
    /// Exponent of the share of nodes that cutting an end fraction takes off; derived, see [`crate::nodes`].
    pub node_exponent: f64,
    /// Exponent of the share of future fruiting sites that it takes off; derived, see [`crate::nodes`].
    pub site_exponent: f64,
}

impl Default for Assumptions {
    fn default() -> Self {
        Self {
            nodes_per_metre: 35.0,
            node_exponent: 0.645,
            site_exponent: 0.458,
        }
    }
}

/// All that pose, work and growth read besides the tree.
#[derive(Clone, Debug, PartialEq)]
pub struct Terms {
    /// What decides where shoots run.
    pub geometry: Geometry,
    /// The model's values.
    pub assumptions: Arc<Assumptions>,
    /// Where the row stands.
    pub site: Arc<Site>,
}

impl Terms {
    /// The terms under a trellis.
    pub fn new(
        trellis: &Trellis,
        targets: &Targets,
        assumptions: &Arc<Assumptions>,
        site: &Arc<Site>,
    ) -> Self {
        Self {
            geometry: Geometry::under(trellis, targets),
            assumptions: Arc::clone(assumptions),
            site: Arc::clone(site),
        }
    }

    /// The terms of a row that belongs to no plan: the usual assumptions, and a site of which nothing is known.
    pub fn of(row: &Row, targets: &Targets) -> Self {
        Self::on(row, targets, &Site::default())
    }

    /// As [`Terms::of`], on a site.
    pub fn on(row: &Row, targets: &Targets, site: &Site) -> Self {
        Self::new(
            &row.trellis,
            targets,
            &Arc::default(),
            &Arc::new(site.clone()),
        )
    }
}
