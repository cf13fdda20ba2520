//! Where one is on the page, as the browser's own Back and Forward know it: each place that is gone to is an entry of
//! the tab's history, and nothing but its name stands there.

use super::App;
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Which way a row is being come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doorway {
    /// None yet: the start page.
    Start,
    /// A short form makes one.
    Make,
    /// An empty one.
    Empty,
    /// What is laid down before a walk.
    Setup,
    /// A walk.
    Walk,
}

impl Doorway {
    const ALL: [(Self, &str); 5] = [
        (Self::Start, "start"),
        (Self::Make, "make"),
        (Self::Empty, "empty"),
        (Self::Setup, "setup"),
        (Self::Walk, "walk"),
    ];
}

/// A place on the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// On the way to a row.
    Door(Doorway),
    /// The desk with the record of that id.
    Desk(String),
}

const DESK: &str = "desk:";

impl Place {
    fn name(&self) -> String {
        match self {
            Self::Door(door) => Doorway::ALL
                .iter()
                .find(|(d, _)| d == door)
                .map_or_else(String::new, |(_, name)| (*name).to_string()),
            Self::Desk(id) => format!("{DESK}{id}"),
        }
    }

    /// The place of an entry of the history; `None` where it is not this page's.
    pub fn of(state: &JsValue) -> Option<Self> {
        let name = state.as_string()?;
        if let Some(id) = name.strip_prefix(DESK) {
            return Some(Self::Desk(id.to_string()));
        }
        let door = Doorway::ALL.iter().find(|(_, n)| *n == name)?;
        Some(Self::Door(door.0))
    }
}

impl App {
    fn place(self) -> Place {
        match self.record_id().filter(|_| self.open.get_untracked()) {
            Some(id) => Place::Desk(id),
            None => Place::Door(self.door.get_untracked()),
        }
    }

    /// The page has gone to another place: Back leads to where it was. Not where Back or Forward itself has led there.
    pub fn went(self) {
        if let Ok(history) = window().history() {
            let place = self.place();
            if history.state().ok().and_then(|s| Place::of(&s)).as_ref() != Some(&place) {
                let _ = history.push_state(&JsValue::from_str(&place.name()), "");
            }
        }
    }

    /// The page has come to stand where it stands by itself, as when it is loaded: there is no way back from that.
    pub fn stands(self) {
        if let Ok(history) = window().history() {
            let _ = history.replace_state(&JsValue::from_str(&self.place().name()), "");
        }
    }
}
