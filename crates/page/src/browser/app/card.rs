//! Keeping the chosen part in sight where its card lies over the page.

use super::App;
use crate::browser::dom;

/// What of the wall is seen under the chosen part, above a card at the screen's foot, px: a tip's ring and a little.
const CLEAR: f64 = 24.0;

impl App {
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
