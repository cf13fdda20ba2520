//! Where on a shoot buds are, and what a notch brings. From memory: a bud is kept on last season's wood, above the blind
//! base of the growth (15 to 20 cm); older wood has none that grows by itself. There a notch above a place brings one on, in
//! wood of two seasons about every second time, in older about every fourth.

use super::ids::ShootId;
use super::shoot::{Origin, Shoot};
use super::tree::Tree;

/// How far from the base of laid wood a bud is at least kept, mm: nearer it would grow into what bends there, and a notch and that
/// bend weaken the wood at one place. From memory.
const CLEAR_OF_LAID: f64 = 60.0;

/// How likely a notched bud is to grow, 0 to 1, in wood of so many seasons.
pub fn notch_take(seasons: u8) -> f64 {
    if seasons <= 2 { 0.5 } else { 0.25 }
}

impl Shoot {
    /// How many seasons old the wood is that may bring a bud `at` mm along the shoot, before the growth of `leaf`: 1 is last
    /// season's. `None` where none is: beyond the tip, and on the `blind` mm at the base of each season's growth.
    pub fn bud_wood(&self, at: f64, leaf: u8, blind: f64) -> Option<u8> {
        let mut base = 0.0;
        for unit in &self.units {
            let along = at - base;
            if along <= unit.kept {
                return (along >= blind).then(|| leaf.saturating_sub(unit.leaf).max(1));
            }
            base += unit.kept;
        }
        None
    }

    /// How much wood there has to be beyond a bud for a notch there, mm: a finger's width, and what holds it. From memory.
    pub const BEYOND_NOTCHED: f64 = 30.0;

    /// As [`bud_wood`](Self::bud_wood), where a bud can be brought on there: older wood has to be notched beyond it.
    pub fn brings_on(&self, at: f64, leaf: u8, blind: f64) -> Option<u8> {
        let seasons = self.bud_wood(at, leaf, blind)?;
        (seasons == 1 || at <= self.length() - Self::BEYOND_NOTCHED).then_some(seasons)
    }

    /// The place nearest to `at` mm along the shoot that brings a bud, at most `room` mm from there: where one season's growth ends and
    /// the next begins blind, it is a little beside.
    pub fn bud_near(&self, at: f64, blind: f64, room: f64) -> Option<f64> {
        let mut base = 0.0;
        let mut best: Option<f64> = None;
        for unit in &self.units {
            let (from, to) = (base + blind, base + unit.kept);
            base = to;
            if from > to {
                continue;
            }
            let near = at.clamp(from, to);
            let off = (near - at).abs();
            if off <= room && best.is_none_or(|b| off < (b - at).abs()) {
                best = Some(near);
            }
        }
        best
    }

    /// Whether it is a bud that a notch is to bring on: it may not grow.
    pub fn is_notched(&self) -> bool {
        self.units.is_empty() && self.origin == Some(Origin::Notch)
    }
}

impl Tree {
    /// The place nearest to `at` mm along a shoot that is clear of what is laid from it.
    pub fn clear_of_laid(&self, on: ShootId, at: f64) -> f64 {
        let laid = |s: &&Shoot| s.parent == Some(on) && s.pose.is_laid();
        let near = |s: &&Shoot| (s.at - at).abs() < CLEAR_OF_LAID;
        let beside = |s: &Shoot| match at < s.at {
            true => s.at - CLEAR_OF_LAID,
            false => s.at + CLEAR_OF_LAID,
        };
        let mut all = self.shoots.iter().filter(laid);
        all.find(near).map_or(at, beside)
    }
}
