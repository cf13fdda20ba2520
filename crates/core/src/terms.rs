//! What pose, work and growth read besides the tree itself. A tree at a moment is a function of the found tree, its work,
//! and the terms along the way: replay compares them by value, so that none can change unseen.

pub use crate::model::Assumptions;

use crate::model::Parameter::BudsSpur;
use crate::pose::Geometry;
use crate::row::{Limit, Row, Site, Targets, Trellis};
use crate::units::Mm;
use std::sync::Arc;

/// How much room each tree of the row has. Lengths are mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// Distance between trees: the median of the found row, so that a tree that is planted later changes nothing before.
    pub tree_spacing: f64,
    /// Distance between row centres.
    pub row_spacing: f64,
    /// How high the wall is to be.
    pub wall_height: f64,
    /// The first leaf that is let bear: before it flowers are rubbed off.
    pub crop_from: u8,
}

impl Stand {
    /// Distance between trees, mm, that is taken where a row has fewer than two. Published range 1.5–1.8 m.
    pub const TREE_SPACING: f64 = 1500.0;
    /// The first leaf that is let bear, unless a scheme says otherwise. Common practice.
    pub const CROP_FROM: u8 = 3;

    /// Of a found row, between the wires that stand now.
    pub fn new(found: &Row, trellis: &Trellis, targets: &Targets, site: &Site) -> Self {
        let given = |length: Option<Mm>| length.map(Mm::f).filter(|s| *s > 0.0);
        let rows = targets.get(Limit::RowSpacing);
        Self {
            tree_spacing: given(found.tree_spacing()).unwrap_or(Self::TREE_SPACING),
            row_spacing: given(site.row_spacing).unwrap_or(rows),
            wall_height: trellis.wall_height.f(),
            crop_from: Self::CROP_FROM,
        }
    }

    /// Ground of one tree, m².
    pub fn ground(&self) -> f64 {
        self.tree_spacing / 1000.0 * self.row_spacing / 1000.0
    }
}

/// All that pose, work and growth read besides the tree.
#[derive(Clone, Debug, PartialEq)]
pub struct Terms {
    /// What decides where shoots run.
    pub geometry: Geometry,
    /// The room of each tree.
    pub stand: Stand,
    /// The model's values.
    pub assumptions: Arc<Assumptions>,
    /// Where the row stands.
    pub site: Arc<Site>,
}

impl Terms {
    /// The terms of a found row under a trellis.
    pub fn new(
        found: &Row,
        trellis: &Trellis,
        targets: &Targets,
        assumptions: &Arc<Assumptions>,
        site: &Arc<Site>,
    ) -> Self {
        Self {
            geometry: Geometry::under(trellis, targets),
            stand: Stand::new(found, trellis, targets, site),
            assumptions: Arc::clone(assumptions),
            site: Arc::clone(site),
        }
    }

    /// The same where a spur has so many times its fruit buds.
    #[must_use]
    pub fn with_spurs(&self, factor: f64) -> Self {
        let buds = self.assumptions[BudsSpur] * factor;
        Self {
            assumptions: Arc::new((*self.assumptions).clone().with(BudsSpur, buds)),
            ..self.clone()
        }
    }

    /// The terms of a row that belongs to no plan: the usual assumptions, and a site of which nothing is known.
    pub fn of(row: &Row, targets: &Targets) -> Self {
        Self::on(row, targets, &Site::default())
    }

    /// As [`Terms::of`], on a site.
    pub fn on(row: &Row, targets: &Targets, site: &Site) -> Self {
        Self::new(
            row,
            &row.trellis,
            targets,
            &Arc::default(),
            &Arc::new(site.clone()),
        )
    }
}
