//! The keyboard: what is pressed is looked up among the actions.

use crate::actions::{Heard, Press, pressed};
use crate::browser::app::App;
use crate::browser::commands;
use crate::browser::controls::dialog;
use web_sys::KeyboardEvent;

/// Keys that work wherever the focus is, but in fields. Whether the key was taken.
pub fn everywhere(app: App, event: &KeyboardEvent) -> bool {
    !dialog::is_open() && take(app, event, Heard::Everywhere)
}

/// Keys while the focus is on the wall. Whether the key was taken.
pub fn on_wall(app: App, event: &KeyboardEvent) -> bool {
    take(app, event, Heard::OnWall)
}

fn take(app: App, event: &KeyboardEvent, heard: Heard) -> bool {
    let press = Press {
        key: event.key(),
        ctrl: event.ctrl_key() || event.meta_key(),
        shift: event.shift_key(),
        alt: event.alt_key(),
    };
    let mode = app.peek(|d| d.mode()).unwrap_or_default();
    let action = pressed(&press, heard, mode);
    action.is_some_and(|action| commands::done(app, action, press.shift))
}
