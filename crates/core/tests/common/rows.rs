//! Small rows, built by place. Shoots have no thickness unless it is given, so that bends are sharp corners: a
//! leader that is laid right from a vertical stem with its foot at F covers the wire from F to F + length − 500 mm.
#![allow(dead_code)]

use cordonry::check::{Context, Finding, check};
use cordonry::plan::VoidWork;
use cordonry::pose::PosedRow;
use cordonry::row::*;
use cordonry::terms::Terms;
use cordonry::units::{Deg, Mm};
use std::sync::Arc;

/// Height of the cordon wire of every row here.
pub const WIRE: f64 = 500.0;

/// A tree under construction.
#[derive(Clone, Debug)]
pub struct Grow(pub Tree);

/// A tree with a vertical stem meant to go right; `length` mm of it, laid right along the wire.
pub fn upright_stem(id: u32, foot: i32, length: f64) -> Grow {
    stem(id, foot, 90.0, Toward::Right, length)
}

/// A tree planted at `angle` and laid `toward`.
pub fn stem(id: u32, foot: i32, angle: f64, toward: Toward, length: f64) -> Grow {
    Grow(Tree {
        id: TreeId(id),
        foot: Mm(foot),
        planted: Planted {
            angle: Deg::new(angle),
            toward,
        },
        shoots: vec![Shoot {
            pose: laid(toward, 0.0),
            units: grown(1, length),
            ..Shoot::bud(ShootId::STEM, None, 0.0)
        }],
        note: String::new(),
    })
}

/// A lost tree.
pub fn lost(id: u32, foot: i32) -> Grow {
    let mut out = upright_stem(id, foot, 1000.0);
    out.0.shoots.clear();
    out
}

pub fn laid(toward: Toward, rise: f64) -> Pose {
    Pose::Laid {
        toward,
        rise: Deg::new(rise),
    }
}

pub fn standing(lean: f64) -> Pose {
    Pose::Upright {
        lean: Deg::new(lean),
    }
}

/// One season's growth, all of it kept.
pub fn grown(leaf: u8, length: f64) -> Vec<GrowthUnit> {
    vec![GrowthUnit::whole(leaf, length)]
}

impl Grow {
    /// Changes the stem.
    pub fn with_stem(mut self, change: impl FnOnce(&mut Shoot)) -> Self {
        change(&mut self.0.shoots[0]);
        self
    }

    /// Changes the shoot that was added last.
    pub fn last(mut self, change: impl FnOnce(&mut Shoot)) -> Self {
        if let Some(shoot) = self.0.shoots.last_mut() {
            change(shoot);
        }
        self
    }

    /// A shoot on the stem, `at` mm along it.
    pub fn shoot(mut self, at: f64, pose: Pose, units: Vec<GrowthUnit>) -> Self {
        let id = ShootId::found(self.0.shoots.len() as u32);
        self.0.shoots.push(Shoot {
            pose,
            units,
            ..Shoot::bud(id, Some(ShootId::STEM), at)
        });
        self
    }

    /// How far along the stem the place `x` of its laid part is.
    pub fn along(&self, x: f64) -> f64 {
        let angle = self.0.planted.angle.radians();
        let corner = WIRE / libm::tan(angle);
        WIRE / libm::sin(angle) + (x - self.0.foot.f()).abs() - corner
    }

    /// Uprights of 600 mm, a season old, at these places along the row.
    pub fn uprights(mut self, places: &[f64]) -> Self {
        for x in places {
            let at = self.along(*x);
            self = self.shoot(at, standing(0.0), grown(2, 600.0));
        }
        self
    }

    /// A bud kept at the place `x`.
    pub fn bud(self, x: f64) -> Self {
        let at = self.along(x);
        self.shoot(at, standing(0.0), Vec::new())
    }
}

/// A row of these trees from `from` to `to`, in leaf 3.
pub fn row(from: i32, to: i32, trees: Vec<Grow>) -> Row {
    let mut row = Row {
        leaf: 3,
        from: Mm(from),
        to: Mm(to),
        trellis: Trellis::default(),
        trees: trees.into_iter().map(|t| Arc::new(t.0)).collect(),
    };
    row.sort();
    for tree in &row.trees {
        assert_eq!(tree.broken_rule(), None);
    }
    row
}

/// What the rule `rule` finds on a row without a site and with limits as they are set out.
pub fn found(row: &Row, rule: &str) -> Vec<Finding> {
    found_with(row, &Targets::default(), rule)
}

/// As [`found`], under other limits.
pub fn found_with(row: &Row, targets: &Targets, rule: &str) -> Vec<Finding> {
    found_in(row, &Site::default(), targets, &[], rule)
}

/// As [`found`], on a site and with void work.
pub fn found_in(
    row: &Row,
    site: &Site,
    targets: &Targets,
    void: &[VoidWork],
    rule: &str,
) -> Vec<Finding> {
    let terms = Terms::on(row, targets, site);
    let row = &PosedRow::of(row, targets);
    let mut out = check(&Context {
        void,
        ..Context::found(row, &terms, targets)
    });
    out.retain(|f| f.rule == rule);
    out
}

/// One row passes the rule, the other, a step farther, does not; what was found there.
pub fn either_side(rule: &str, passes: &Row, fails: &Row) -> Finding {
    let none = found(passes, rule);
    assert!(none.is_empty(), "at the limit: {none:#?}");
    let mut found = found(fails, rule);
    assert_eq!(found.len(), 1, "past the limit: {found:#?}");
    found.remove(0)
}

/// The row after all of a remedy's work, in the order in which a season does it.
pub fn mended(row: &Row, finding: &Finding, remedy: usize) -> Row {
    let mut works: Vec<_> = finding.remedies[remedy].work.iter().collect();
    works.sort_by_key(|w| w.subject());
    let mut row = row.clone();
    if let Some(height) = finding.remedies[remedy].wall_height {
        row.trellis.wall_height = height;
    }
    works.into_iter().fold(row, |row, work| {
        let terms = Terms::of(&row, &Targets::default());
        cordonry::work::apply(&row, Moment::dormant(row.leaf), &terms, work)
            .unwrap_or_else(|why| panic!("{work:?}: {why}"))
    })
}
