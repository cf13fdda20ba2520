//! The way from a line of a sheet to the tree that it is about.

use crate::browser::app::App;
use cordonry::check::Part;
use cordonry::plan::{Moment, Phase};
use cordonry::row::{ShootId, TreeId};

/// Chooses a tree, or the shoot of it where that stands there then, and brings it into sight; `before` the work of a moment, where
/// it is of one.
pub fn go_to(app: App, before: Option<Moment>, tree: TreeId, shoot: Option<ShootId>) {
    if let Some(moment) = before {
        app.turn(|d| {
            d.look_at(moment);
            d.show(Phase::Before);
        });
    }
    let part = Part { tree, shoot };
    let stands = app.peek(|d| d.scene().has(part)) == Some(true);
    app.choose(Some(Part {
        shoot: shoot.filter(|_| stands),
        ..part
    }));
    app.show_chosen();
}
