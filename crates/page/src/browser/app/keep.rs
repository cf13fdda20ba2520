//! Keeping the plan on the device, which is asked through one trait: the page's state knows no store.

use super::App;
use crate::desk::Desk;
use crate::keeping::{Journal, Kept, Pace, Step, Ticket, Writing};
use crate::look::Look;
use crate::view::View;
use cordonry::plan::{History, Plan};
use cordonry::refusal::Refusal;
use cordonry::row::Row;
use cordonry::said::Arg;
use cordonry::units::LengthStyle;
use cordonry_draw::{ColourBy, Paper};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use std::time::Duration;

/// What is known of a kept plan without reading it.
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
    /// Which plan of its history is on the desk.
    #[serde(default)]
    pub now: u32,
    /// Where the page was in it.
    #[serde(default)]
    pub spot: Option<Spot>,
}

/// Where the page is in a plan: what it looks at, and which part of the wall is in sight.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spot {
    look: Look,
    /// The scheme that stands beside the one that is looked at.
    #[serde(default)]
    beside: Option<usize>,
    x: f64,
    top: f64,
    scale: f64,
}

impl Spot {
    /// The same place on a wall as large as it is on the screen now.
    pub(super) fn on(self, view: View, row: &Row) -> View {
        let scale = self.scale.clamp(View::SCALES.0, View::SCALES.1);
        let Self { x, top, .. } = self;
        let there = View {
            x,
            top,
            scale,
            ..view
        };
        there.held_to(row)
    }
}

/// A plan as it comes from the device.
#[derive(Clone, Debug)]
pub struct Found {
    /// What is known of it.
    pub record: Record,
    /// The plan that is kept whole: its number and its file's text.
    pub whole: (u32, String),
    /// The steps that are kept beside it.
    pub steps: Vec<Step>,
}

/// What keeps plans and settings.
pub trait Keeper {
    /// How lengths were shown last.
    fn length_style(&self) -> LengthStyle;
    /// Remembers how lengths are shown.
    fn set_length_style(&self, style: LengthStyle);
    /// The code of the language that was chosen last, or of the first that the person reads.
    fn language(&self) -> String;
    /// Remembers which language is chosen.
    fn set_language(&self, code: &str);
    /// Remembers what stands on the page until it is there: title, what it is, that it is loading, a line each.
    fn set_head(&self, head: &str);
    /// The paper to print on.
    fn paper(&self) -> Paper;
    /// Remembers the paper to print on.
    fn set_paper(&self, paper: Paper);
    /// What the wood is coloured by.
    fn colour_by(&self) -> ColourBy;
    /// Remembers what it is coloured by.
    fn set_colour_by(&self, by: ColourBy);
    /// A record is on the desk from now on.
    fn opened(&self, app: App, id: String);
    /// No record is on the desk any longer.
    fn closed(&self);
    /// Writes what a plan has become, and tells [`App::written`] how it went.
    fn save(&self, app: App, record: Record, writing: Writing, ticket: Ticket);
    /// Writes where the page is in a plan that has not changed.
    fn save_spot(&self, record: Record);
    /// Something is kept that a person has made: asks once that it stay for good.
    fn keep_for_good(&self);
}

/// An id for a new record.
pub fn new_id() -> String {
    format!(
        "{:x}-{:x}",
        js_sys::Date::now() as u64,
        (js_sys::Math::random() * f64::from(u32::MAX)) as u32
    )
}

/// Milliseconds since the page began: no clock that is set back holds up a save.
fn now() -> f64 {
    window().performance().map_or(0.0, |p| p.now())
}

impl App {
    /// The plan has changed: it is saved in time.
    pub(super) fn save_soon(self) {
        self.pace.update_value(|pace| pace.changed(now()));
        self.keep_pace();
    }

    /// Saves what waits to be saved, now.
    pub fn flush(self) {
        self.begin_save();
        self.keep_pace();
    }

    /// Says how the plan stands, and waits for when the next write is due.
    fn keep_pace(self) {
        let (kept, due) = self.pace.with_value(|pace| (pace.kept(), pace.due()));
        if self.kept.get_untracked() != kept {
            self.kept.set(kept);
        }
        let next = due.and_then(|due| {
            let wait = Duration::from_secs_f64((due - now()).max(0.0) / 1000.0);
            set_timeout_with_handle(move || self.flush(), wait).ok()
        });
        self.pending.update_value(|pending| {
            if let Some(waiting) = std::mem::replace(pending, next) {
                waiting.clear();
            }
        });
    }

    fn begin_save(self) {
        let Some(ticket) = self.pace.try_update_value(Pace::begin).flatten() else {
            return;
        };
        self.seen_ms.set_value(js_sys::Date::now());
        let (Some(line), Some(record)) = (self.peek(Desk::line), self.record_now()) else {
            return;
        };
        let writing = self.journal.try_update_value(|j| j.write(&line));
        if let Some(writing) = writing {
            self.spot.set_value(record.spot);
            self.keeper
                .with_value(|k| k.save(self, record, writing, ticket));
        }
    }

    /// What is to be known of the plan on the desk.
    fn record_now(self) -> Option<Record> {
        let id = self.record_id()?;
        let view = self.with_wall(|wall, _| wall.view);
        self.peek(|d| Record {
            id,
            name: d.plan().name.clone(),
            saved_ms: self.seen_ms.get_value(),
            trees: d.plan().found.trees.len() as u32,
            leaf: d.plan().found.leaf,
            now: d.line().now(),
            spot: view.map(|View { x, top, scale, .. }| Spot {
                look: d.look(),
                beside: d.scheme_beside(),
                x,
                top,
                scale,
            }),
        })
    }

    /// The page may go: what waits to be saved is saved, and where the page is in the plan.
    pub fn hides(self) {
        self.flush();
        let saved = self.pace.with_value(Pace::kept) == Kept::Saved;
        if let Some(record) = self.record_now().filter(|_| saved)
            && record.spot.is_some()
            && record.spot != self.spot.get_value()
        {
            self.spot.set_value(record.spot);
            self.keeper.with_value(|k| k.save_spot(record));
        }
    }

    /// Puts a plan of the device on the desk, with its steps and where the page was in it.
    ///
    /// # Errors
    /// It can't be read.
    pub fn lay_found(self, found: Found) -> Result<(), Refusal> {
        let Found {
            record,
            whole: (number, text),
            steps,
        } = found;
        let (line, journal) = Journal::open((number, &text), steps, record.now)?;
        let look = record.spot.map(|spot| spot.look);
        let mut desk = match History::of_line(line) {
            Some(history) => Desk::restored(history, look)?,
            None => return Ok(()),
        };
        desk.set_beside(record.spot.and_then(|spot| spot.beside));
        self.lay(desk, (record.id, record.saved_ms), record.spot);
        self.journal.set_value(journal);
        Ok(())
    }

    /// Hears how the write of a record went. A loss is said once, and so is that it is made good.
    pub fn written(self, id: &str, ticket: Ticket, well: bool) {
        if self.record_id().as_deref() != Some(id) {
            // Its plan has left the desk: nobody tries again.
            if !well {
                self.say(self.t("save-lost"), true);
            }
            return;
        }
        let before = self.pace.with_value(Pace::kept);
        let ended = |pace: &mut Pace| pace.ended(ticket, well, now());
        if self.pace.try_update_value(ended) != Some(true) {
            self.journal.update_value(Journal::forget);
        } else if self.peek(|d| d.line().now() > 0) == Some(true) {
            self.keeper.with_value(|k| k.keep_for_good());
        }
        let after = self.pace.with_value(Pace::kept);
        match (before == Kept::Failing, after == Kept::Failing) {
            (false, true) => self.say(self.t("save-failing"), true),
            (true, false) => self.say(self.t("save-again"), false),
            _ => {}
        }
        self.keep_pace();
    }

    /// Another tab writes the plan on the desk.
    pub fn saved_elsewhere(self) {
        self.pace.update_value(|pace| pace.set_elsewhere(true));
        self.keep_pace();
        self.say(self.t("save-elsewhere"), true);
    }

    /// This tab writes the plan from now on, the other having gone. What the other one saved meanwhile is on `device`: it
    /// comes on the desk where nothing was changed here; else what is here becomes a row of its own, and both are kept.
    pub fn takes_over(self, device: Option<Found>) {
        let seen = self.seen_ms.get_value();
        let newer = device.filter(|found| found.record.saved_ms != seen);
        let changed = self.pace.with_value(Pace::is_unsaved);
        if let Some(found) = newer {
            if !changed && self.lay_found(found).is_ok() {
                return self.say(self.t("save-taken-over"), false);
            }
            if let Some(plan) = self.peek(|d| (**d.plan()).clone()) {
                let name = self.text("row-copy", &[("name", Arg::Text(plan.name.clone()))]);
                self.lay_plan(Plan { name, ..plan }, None);
                return self.say(self.t("save-apart"), true);
            }
        }
        self.pace.update_value(|pace| pace.set_elsewhere(false));
        self.keep_pace();
        self.say(self.t("save-taken-over"), false);
    }

    /// Whether the plan may leave the desk: it is saved, or the user lets it go.
    pub fn may_leave(self) -> bool {
        self.flush();
        let sure = || window().confirm_with_message(&self.t("save-leave-sure"));
        !self.kept.get_untracked().is_at_risk() || sure().unwrap_or(false)
    }

    /// The id of the record on the desk.
    pub fn record_id(self) -> Option<String> {
        self.record.get_value()
    }
}
