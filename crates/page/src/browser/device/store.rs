//! What is kept on the device: one record a plan, written by one tab at a time; a few settings.

use super::{lasting, locks, records, settings};
use crate::browser::app::{App, Keeper, Record};
use crate::keeping::{Ticket, Writing};
use cordonry::units::LengthStyle;
use cordonry_draw::{ColourBy, Paper};
use leptos::prelude::*;
use std::cell::Cell;
use wasm_bindgen_futures::spawn_local;

/// For as long as there is the tab, the id of the record that is open in it; empty at the start page.
const TAB: &str = "cordonry.open";
/// Set by start.js.
const AT_START: &str = "cordonry.at-start";

thread_local! {
    static ASKED: Cell<bool> = const { Cell::new(false) };
}

/// This device.
pub struct Device;

impl Keeper for Device {
    fn length_style(&self) -> LengthStyle {
        settings::length_style()
    }

    fn set_length_style(&self, style: LengthStyle) {
        settings::set_length_style(style);
    }

    fn language(&self) -> String {
        settings::language()
    }

    fn set_language(&self, code: &str) {
        settings::keep(settings::LANGUAGE, code);
    }

    fn set_head(&self, head: &str) {
        settings::keep(settings::HEAD, head);
    }

    fn paper(&self) -> Paper {
        settings::paper()
    }

    fn set_paper(&self, paper: Paper) {
        settings::keep(settings::PAPER, paper.name());
    }

    fn colour_by(&self) -> ColourBy {
        settings::colour_by()
    }

    fn set_colour_by(&self, by: ColourBy) {
        settings::keep(settings::COLOUR_BY, by.name());
    }

    fn opened(&self, app: App, id: String) {
        super::in_place::forget();
        remember_open(Some(&id));
        locks::hold(app, id);
    }

    fn closed(&self) {
        remember_open(None);
        locks::let_go();
    }

    /// It is on its way when this returns, where the database is open.
    fn save(&self, app: App, record: Record, writing: Writing, ticket: Ticket) {
        let Some(begun) = records::begin(&record, &writing) else {
            return;
        };
        spawn_local(async move {
            let well = records::put(begun, &record, &writing).await;
            app.written(&record.id, ticket, well);
        });
    }

    fn save_spot(&self, record: Record) {
        records::save_spot(&record);
    }

    fn keep_for_good(&self) {
        if !ASKED.replace(true) {
            spawn_local(async {
                lasting::keep().await;
            });
        }
    }
}

fn of_tab() -> Option<web_sys::Storage> {
    window().session_storage().ok().flatten()
}

/// The id of the record that was open last: in this tab, or in any where this one is new.
pub async fn last_open() -> Option<String> {
    // After a fault the user may have asked for the start page.
    if settings::kept(AT_START).is_some() {
        settings::forget(AT_START);
        remember_open(None);
        return None;
    }
    if let Some(id) = of_tab().and_then(|tab| tab.get_item(TAB).ok().flatten()) {
        return Some(id).filter(|id| !id.is_empty());
    }
    records::open_of_all().await
}

/// Remembers which record is open: beside the records, because a browser that is killed loses what it was told to remember
/// in a simpler way some seconds before.
fn remember_open(id: Option<&str>) {
    if let Some(tab) = of_tab() {
        let _ = tab.set_item(TAB, id.unwrap_or_default());
    }
    let id = id.map(str::to_string);
    spawn_local(async move { records::set_open_of_all(id).await });
}
