//! What a point makes of its part of the growth: length, and laterals.

use super::points::is_trained;
use super::weight::Point;
use super::{Half, POINTS, Season};
use crate::model::Parameter::{FreeMost, LatLen, LatPlain, LatTipped, Longest};
use crate::range;
use crate::row::{Face, GrowthUnit, Pose, Shoot};

/// Share of last year's growth below which a shoot counts as tipped.
const TIPPED: f64 = 0.95;

impl Season<'_> {
    /// Lengthens a shoot by what it draws, mm. What it can't take up goes into laterals of what stands; else it is lost.
    pub fn extend(&self, shoot: &mut Shoot, point: &Point, drawn: f64) {
        let trained = is_trained(shoot);
        let into_laterals = match self.older(shoot).last() {
            Some(last) if !trained => {
                let tipped = last.kept < TIPPED * last.grown || !self.is_last_years(last);
                let share = if tipped { LatTipped } else { LatPlain };
                self.a[share] * drawn
            }
            _ => 0.0,
        };
        let along = drawn - into_laterals;
        let grown = along.min(self.most(shoot, point, trained));
        self.lengthen(shoot, grown);
        if trained || shoot.face != Face::Top {
            return;
        }
        let total = shoot.laterals.total + into_laterals + (along - grown);
        shoot.laterals.total = total.min(range::LATERALS_LENGTH.1);
        if self.half == Half::Second {
            // They are counted when the season is over: before that they bear nothing.
            let count = libm::round(shoot.laterals.total / self.a[LatLen]);
            let count = count.min(range::LATERALS.1) as u16;
            shoot.laterals.count = shoot.laterals.count.max(count);
        }
    }

    /// The most that a shoot grows in this half, mm.
    fn most(&self, shoot: &Shoot, point: &Point, trained: bool) -> f64 {
        let most = self.a[Longest] * self.class / POINTS * self.first * point.steep * self.part();
        let length = shoot.length();
        let room = Shoot::MAX_LENGTH - length;
        let alley = match (shoot.pose, shoot.face) {
            (Pose::Free, Face::Side | Face::Under) if !trained => self.a[FreeMost] - length,
            _ => room,
        };
        most.min(room).min(alley).max(0.0)
    }

    fn lengthen(&self, shoot: &mut Shoot, grown: f64) {
        match shoot.units.last_mut() {
            Some(unit) if unit.leaf == self.leaf => {
                unit.grown += grown;
                unit.kept += grown;
            }
            _ => shoot.units.push(GrowthUnit::whole(self.leaf, grown)),
        }
        // A season that brought nothing is none.
        if shoot.units.last().is_some_and(|u| u.kept <= 0.0) {
            shoot.units.pop();
        }
    }
}
