//! What the wood of the wall is coloured by.

use super::App;
use cordonry_draw::{ColourBy, LightAt};
use leptos::prelude::*;

impl App {
    /// Colours the wood by something else from now on.
    pub fn set_colour(self, by: ColourBy) {
        self.colour.set(by);
        self.keeper.with_value(|k| k.set_colour_by(by));
        self.draw_all();
        self.reframe();
    }

    /// Colours the wood by the light as it is now: it comes after the wall.
    pub fn repaint(self) {
        let by = self.colour.get_untracked();
        let lit = |p: kurbo::Point| self.light.at(p);
        self.wall.update_value(|wall| {
            self.desk.with_value(|desk| {
                if let (Some(wall), Some(desk)) = (wall, desk) {
                    wall.repaint(desk.scene(), desk.chosen(), (by, &lit as LightAt<'_>));
                }
            });
        });
    }
}
