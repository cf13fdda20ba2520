//! What part of the wall is in sight.

use super::App;
use crate::browser::dom;
use crate::browser::wall::WallScreen;
use crate::desk::Desk;
use crate::view::View;
use cordonry::check::Severity;
use cordonry::cover::Span;
use leptos::prelude::*;
use std::time::Duration;

/// A hand on the wheel rests that does nothing for so long.
const RESTS: Duration = Duration::from_millis(500);

impl App {
    /// Larger or smaller about the middle of the wall.
    pub fn zoom(self, factor: f64) {
        self.with_wall(|wall, desk| {
            let middle = kurbo::Point::new(wall.view.width / 2.0, wall.view.height / 2.0);
            wall.view = wall.view.zoomed_on(factor, middle, &desk.scene().row);
        });
        self.suit();
        self.reframe();
    }

    /// The whole row in sight, or the wall at its full height.
    pub fn fit(self, whole_row: bool) {
        self.with_wall(|wall, desk| {
            wall.set_most(None);
            wall.view = if whole_row {
                wall.view.fit_row(&desk.scene().row)
            } else {
                wall.view.full_height(&desk.scene().row)
            };
        });
        self.suit();
        self.reframe();
    }

    /// The same stretch of the row in sight as there was, at the same scale.
    pub fn see_again(self, seen: View) {
        self.with_wall(|wall, desk| {
            wall.set_most(None);
            let View { width, height, .. } = wall.view;
            wall.view = View {
                width,
                height,
                ..seen
            };
            wall.view = wall.view.held_to(&desk.scene().row);
        });
        self.suit();
        self.reframe();
    }

    /// Has the wall take no more of the screen's height than it needs at its scale, nor less if there is as much.
    pub fn suit(self) {
        // Before a class it has the whole frame.
        if self.presented.on.get_untracked() {
            return;
        }
        self.with_wall(|wall, desk| {
            let row = &desk.scene().row;
            let needed = wall.view.needed(row);
            if !wall.is_held() && needed >= wall.view.height - 1.0 {
                return;
            }
            wall.set_most(None);
            if needed < wall.view.height - 1.0 {
                wall.set_most(Some(needed));
            }
            wall.view = wall.view.held_to(row);
        });
    }

    /// The same once a hand that makes the wall smaller rests: what is under it does not go from under it.
    pub fn suit_soon(self) {
        let lacks = |wall: &mut WallScreen, desk: &Desk| {
            wall.is_held() && wall.view.needed(&desk.scene().row) > wall.view.height
        };
        if self.with_wall(lacks) == Some(true) {
            self.suit();
        }
        let scale = self.with_wall(|wall, _| wall.view.scale);
        set_timeout(
            move || {
                if self.with_wall(|wall, _| wall.view.scale) == scale {
                    self.suit();
                    self.reframe();
                }
            },
            RESTS,
        );
    }

    /// Moves along the row so that the place that is made of what is in sight is in the middle.
    pub fn look_along(self, to: impl FnOnce(Span) -> f64) {
        self.with_wall(|wall, desk| {
            let x = to(wall.view.span());
            wall.view = wall.view.centred(x, &desk.scene().row);
        });
        self.reframe();
    }

    /// Brings the gravest of what is to be fixed now into sight.
    pub fn show_gravest(self) {
        self.with_wall(|wall, desk| {
            let mut found = desk.scene().findings.iter();
            if let Some(now) = found.find(|f| f.severity == Severity::Now) {
                wall.view = wall.view.showing(now.x, &desk.scene().row);
            }
        });
        self.reframe();
    }

    /// Brings the chosen part into sight.
    pub fn show_chosen(self) {
        if let Some(x) = self.chosen_place() {
            self.show(x);
        }
    }

    /// Has the wall follow to the chosen part, and leaves the page where it is.
    pub fn follow_chosen(self) {
        if let Some(x) = self.chosen_place() {
            self.with_wall(|wall, desk| wall.view = wall.view.showing(x, &desk.scene().row));
            self.reframe();
        }
    }

    /// Where the chosen part begins, along the row.
    fn chosen_place(self) -> Option<f64> {
        self.peek(|d| {
            let part = d.chosen()?;
            match part.shoot {
                Some(shoot) => d.scene().course(part.tree, shoot).map(|c| c.base.x),
                None => d.scene().row.tree(part.tree).map(|t| t.foot.f()),
            }
        })
        .flatten()
    }

    /// Brings the place `x` along the row into sight, and the wall too where the page is scrolled past it.
    pub fn show(self, x: f64) {
        dom::into_sight(".stage");
        self.with_wall(|wall, desk| wall.view = wall.view.showing(x, &desk.scene().row));
        self.reframe();
    }

    /// The place on the screen has another size.
    pub fn resized(self) {
        let changed = self.with_wall(|wall, desk| {
            let before = wall.view;
            let changed = wall.measure();
            if changed {
                wall.view = wall.view.resized(before, &desk.scene().row);
            }
            changed
        });
        if changed == Some(true) {
            self.fit_class();
        }
        self.wall_beside.update_value(|wall| {
            if let Some(wall) = wall {
                wall.measure();
            }
        });
        self.reframe();
    }
}
