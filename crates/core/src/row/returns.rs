//! What returns from a stub, and which of it is kept.

use super::ids::ShootId;
use super::moment::Window;
use super::shoot::{Kind, Shoot};
use super::targets::{Limit, Targets};
use super::tree::Tree;

/// What has grown from one stub.
pub struct Returns<'t> {
    /// The stub.
    pub stub: &'t Shoot,
    /// What has grown from it.
    pub all: Vec<&'t Shoot>,
}

impl Tree {
    /// The stubs from which something has grown, with what that is, in the order of their shoots.
    pub fn returns(&self) -> Vec<Returns<'_>> {
        let mut out: Vec<Returns<'_>> = Vec::new();
        for shoot in &self.shoots {
            let stub = shoot.parent.and_then(|p| self.shoot(p));
            let Some(stub) = stub.filter(|s| s.kind() == Kind::Stub) else {
                continue;
            };
            if !matches!(shoot.kind(), Kind::Upright | Kind::Shoot) {
                continue;
            }
            match out.iter_mut().find(|r| r.stub.id == stub.id) {
                Some(known) => known.all.push(shoot),
                None => out.push(Returns {
                    stub,
                    all: vec![shoot],
                }),
            }
        }
        out
    }

    /// How many winters before `leaf` the place of an upright was last cut to a stub, renewal having begun in the leaf `begins`.
    /// Where the record is silent its age tells: wood that first grew since then came from a stub, unless it is known to have
    /// come from elsewhere.
    pub fn winters_since_stub(&self, shoot: &Shoot, leaf: u8, begins: f64) -> Option<u8> {
        let born = shoot.born()?;
        let parent = shoot.parent.and_then(|p| self.shoot(p));
        if let Some(stub) = parent.filter(|p| p.kind() == Kind::Stub) {
            let before = stub.last_cut().map(|cut| match cut.window {
                // The winter after that harvest.
                Window::AfterHarvest => cut.leaf + 1,
                _ => cut.leaf,
            });
            return Some(leaf.saturating_sub(before.unwrap_or(born)));
        }
        let silent = shoot.origin.is_none() && f64::from(born) >= begins;
        silent.then(|| leaf.saturating_sub(born))
    }

    /// The shoots that stand beside the one of their stub that is kept.
    pub fn spare_returns(&self, targets: &Targets) -> Vec<ShootId> {
        let mut out = Vec::new();
        for returns in self.returns() {
            let kept = returns.kept(targets).map(|s| s.id);
            let all = returns.all.iter().map(|s| s.id);
            out.extend(all.filter(|id| Some(*id) != kept));
        }
        out
    }
}

impl<'t> Returns<'t> {
    /// The one that is kept: of those that are as strong as the strongest, as far as measuring tells, the lowest, so that the
    /// next cut stands no higher than the last.
    pub fn kept(&self, targets: &Targets) -> Option<&'t Shoot> {
        let measured = self.all.iter().all(|s| s.diameter > 0.0);
        let (strength, off): (fn(&Shoot) -> f64, _) = match measured {
            true => (|s| s.diameter, Limit::ThicknessTolerance),
            false => (Shoot::length, Limit::LengthTolerance),
        };
        let strongest = self.all.iter().map(|s| strength(s)).fold(0.0, f64::max);
        let enough = strongest - targets.get(off);
        let strong = self.all.iter().filter(|s| strength(s) >= enough);
        strong.min_by(|a, b| a.at.total_cmp(&b.at)).copied()
    }
}
