//! The browser's Back and Forward, between the ways to a row and the rows.

use super::found;
use crate::browser::app::{App, Doorway, Place};
use crate::browser::device::settings;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Follows Back and Forward.
pub fn watch(app: App) {
    window_event_listener(leptos::ev::popstate, move |e| match Place::of(&e.state()) {
        Some(Place::Desk(id)) => to_desk(app, id),
        Some(Place::Door(door)) => to_door(app, door),
        None => {}
    });
}

fn to_door(app: App, door: Doorway) {
    if door != Doorway::Walk {
        settings::set_walk_open(false);
    }
    if app.open.get_untracked() {
        app.close_to(door);
    } else {
        app.door.set(door);
    }
}

/// To a row that was on the desk before. One that has been taken off the device meanwhile is no place any longer.
fn to_desk(app: App, id: String) {
    if app.open.get_untracked() && app.record_id().as_deref() == Some(&id) {
        return;
    }
    app.flush();
    spawn_local(async move {
        if !matches!(found::lay(app, &id, App::open_found).await, Some(Ok(()))) {
            to_door(app, Doorway::Start);
            app.stands();
        }
    });
}
