//! Where the card of the chosen part goes.

use super::App;
use crate::browser::dom;
use crate::browser::wall::WallScreen;
use crate::desk::Desk;
use leptos::prelude::{GetValue, SetValue};

/// Width of a card, px.
const CARD_WIDTH: f64 = 300.0;
/// Room that a card takes, px; more of it while the record is corrected.
const CARD_HEIGHT: f64 = 270.0;
/// What of the wall is seen under the chosen part, above a card at the screen's foot, px: a tip's ring and a little.
const CLEAR: f64 = 24.0;
const RECORD_HEIGHT: f64 = 430.0;

impl App {
    /// Has the card keep clear of the chosen part's neighbours too, or stand beside the part as usual.
    pub fn set_card_aside(self, aside: bool) {
        if self.card_aside.get_value() != aside {
            self.card_aside.set_value(aside);
            self.reframe();
        }
    }

    /// Moves the page up where a card at the screen's foot covers the chosen part, or the wire under it: so far that both
    /// are in sight, and no farther than the wall's upper edge.
    pub fn clear_of_card(self) {
        let Some(card) = dom::fixed_top(".part-card") else {
            return;
        };
        let low = self.with_wall(|wall, desk| {
            let part = desk.chosen()?;
            let wire = kurbo::Point::new(0.0, desk.scene().terms.geometry.wire);
            let course = part
                .shoot
                .and_then(|shoot| desk.scene().course(part.tree, shoot));
            let low = course.iter().flat_map(|c| [c.base, c.tip()]).chain([wire]);
            let low = low.map(|p| wall.view.to_px(p).y).fold(0.0, f64::max);
            let (top, bottom) = wall.edges();
            Some((top, (top + low + CLEAR).min(bottom)))
        });
        if let Some(Some((top, low))) = low {
            dom::scroll_by((low - card).min(top));
        }
    }
}

/// Where the card of the chosen part goes: beside its tip, within the wall.
pub(super) fn card_place(desk: &Desk, wall: &WallScreen, aside: bool) -> Option<(f64, f64)> {
    let part = desk.chosen()?;
    if desk.is_holding() {
        return None;
    }
    let view = wall.view;
    let (base, tip) = match part.shoot {
        Some(shoot) => {
            let course = desk.scene().course(part.tree, shoot)?;
            (view.to_px(course.base), view.to_px(course.tip()))
        }
        None => {
            let foot = desk.scene().row.tree(part.tree)?.foot.f();
            let foot = view.to_px(kurbo::Point::new(foot, 0.0));
            (foot, foot)
        }
    };
    if aside {
        // At the wall's other end.
        let far = (view.width - CARD_WIDTH - 8.0).max(8.0);
        let left = if tip.x > view.width / 2.0 { 8.0 } else { far };
        return Some((left, 8.0));
    }
    let right = base.x.max(tip.x) + 24.0;
    let beside = if right + CARD_WIDTH < view.width {
        right
    } else {
        base.x.min(tip.x) - 24.0 - CARD_WIDTH
    };
    // A part may lie out of sight; its card never does.
    let left = beside.clamp(8.0, (view.width - CARD_WIDTH - 8.0).max(8.0));
    let height = if desk.is_found() {
        RECORD_HEIGHT
    } else {
        CARD_HEIGHT
    };
    // Of wood along the wire the card keeps to the top, so that the wire stays in sight.
    let along = (tip.x - base.x).abs() > (tip.y - base.y).abs();
    let top = if along {
        8.0
    } else {
        (base.y.min(tip.y) + 12.0).clamp(8.0, (view.height - height).max(8.0))
    };
    Some((left, top))
}
