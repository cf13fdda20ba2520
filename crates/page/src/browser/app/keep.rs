//! Keeping the plan on the device, which is asked through one trait: the page's state knows no store.

use super::App;
use cordonry::units::LengthStyle;
use cordonry_draw::Paper;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use std::time::Duration;

/// How the plan on the desk stands to the device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// All is saved.
    Saved,
    /// A change waits to be saved.
    Waiting,
    /// Another tab writes this plan.
    Elsewhere,
    /// Nothing can be saved here.
    Impossible,
}

/// A plan as it is kept.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Record {
    /// Its name among the records; never shown.
    pub id: String,
    /// The row's name.
    pub name: String,
    /// When it was saved, ms since 1970.
    pub saved_ms: f64,
    /// How many trees the row has; zero in a record of before this was kept.
    #[serde(default)]
    pub trees: u32,
    /// The row's coming leaf, as that.
    #[serde(default)]
    pub leaf: u8,
    /// The plan file's text.
    pub plan: String,
}

/// What keeps plans and settings.
pub trait Keeper {
    /// How lengths were shown last.
    fn length_style(&self) -> LengthStyle;
    /// Remembers how lengths are shown.
    fn set_length_style(&self, style: LengthStyle);
    /// The code of the language that was chosen last.
    fn language(&self) -> Option<String>;
    /// Remembers which language is chosen.
    fn set_language(&self, code: &str);
    /// The paper to print on.
    fn paper(&self) -> Paper;
    /// Remembers the paper to print on.
    fn set_paper(&self, paper: Paper);
    /// A record is on the desk from now on.
    fn opened(&self, app: App, id: String);
    /// No record is on the desk any longer.
    fn closed(&self);
    /// Saves a record, and tells the page how it went.
    fn save(&self, app: App, record: Record);
}

/// An id for a new record.
pub(super) fn new_id() -> String {
    format!(
        "{:x}-{:x}",
        js_sys::Date::now() as u64,
        (js_sys::Math::random() * f64::from(u32::MAX)) as u32
    )
}

/// How long after a change it is saved: well within half a second.
const SAVE_AFTER: Duration = Duration::from_millis(250);

impl App {
    pub(super) fn save_soon(self) {
        if matches!(
            self.kept.get_untracked(),
            Kept::Elsewhere | Kept::Impossible
        ) {
            return;
        }
        self.kept.set(Kept::Waiting);
        let again = set_timeout_with_handle(move || self.flush(), SAVE_AFTER).ok();
        self.pending.update_value(|pending| {
            if let Some(waiting) = std::mem::replace(pending, again) {
                waiting.clear();
            }
        });
    }

    /// Saves what waits to be saved, now.
    pub fn flush(self) {
        self.pending.update_value(|pending| {
            if let Some(waiting) = pending.take() {
                waiting.clear();
            }
        });
        if self.kept.get_untracked() != Kept::Waiting {
            return;
        }
        let record = self.record.get_value().and_then(|id| {
            self.peek(|d| Record {
                id,
                name: d.plan().name.clone(),
                saved_ms: js_sys::Date::now(),
                trees: d.plan().found.trees.len() as u32,
                leaf: d.plan().found.leaf,
                plan: cordonry::file::write_plan(d.plan()),
            })
        });
        if let Some(record) = record {
            self.keeper.with_value(|keeper| keeper.save(self, record));
        }
    }

    /// Whether no change waits to be saved.
    pub fn nothing_pending(self) -> bool {
        self.pending.with_value(Option::is_none)
    }

    /// The id of the record on the desk.
    pub fn record_id(self) -> Option<String> {
        self.record.get_value()
    }
}
