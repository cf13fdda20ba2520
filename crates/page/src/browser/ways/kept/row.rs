//! What is known of the rows that are listed.

use super::reader::{Look, Reader};
use crate::browser::app::{App, Found, Record, new_id};
use crate::browser::device::records::Raw;
use crate::browser::device::{records, tried};
use crate::browser::ways::incoming::Incoming;
use crate::keeping::{KeptRow, Writing};
use cordonry::arrange::Arrange;
use cordonry::said::Arg;
use leptos::prelude::*;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;

/// What is known of a row that is listed.
#[derive(Clone, PartialEq)]
pub enum State {
    /// It has not been looked at yet.
    Listed,
    /// It can be read: its picture, and how many bytes its plan file has.
    Seen(String, usize),
    /// It can't be, and why.
    Aside(String),
    /// It has been taken off the device.
    Gone,
}

/// A row that is listed.
#[derive(Clone, Copy)]
pub struct Row {
    /// What is known of it without reading it.
    pub record: RwSignal<Record>,
    /// What is known of it.
    pub state: RwSignal<State>,
    /// What was taken off the device, to be put back.
    pub taken: StoredValue<Option<Raw>, LocalStorage>,
}

impl Row {
    fn new(record: Record) -> Self {
        Self {
            record: RwSignal::new(record),
            state: RwSignal::new(State::Listed),
            taken: StoredValue::new_local(None),
        }
    }

    /// Its id; none where the list has gone meanwhile, as it may while something is waited for.
    pub fn id(self) -> String {
        let id = self.record.try_with_untracked(|r| r.id.clone());
        id.unwrap_or_default()
    }

    /// Tells what is known of it; `None` where the list has gone.
    pub fn tell(self, state: State) -> Option<()> {
        match self.state.try_set(state) {
            None => Some(()),
            Some(_) => None,
        }
    }
}

/// The list.
#[derive(Clone, Copy)]
pub struct List {
    /// What rows come in by.
    pub incoming: Incoming,
    /// Its rows.
    pub rows: RwSignal<Vec<Row>>,
    /// Their names as they are listed, by their ids.
    names: Memo<Vec<(String, String)>>,
    reader: StoredValue<Rc<Reader>, LocalStorage>,
}

impl List {
    /// The rows that are kept.
    pub fn new(incoming: Incoming) -> Self {
        let records = incoming.kept.get_untracked().unwrap_or_default();
        let rows = RwSignal::new(records.into_iter().map(Row::new).collect::<Vec<_>>());
        let names = Memo::new(move |_| {
            let there = |row: &Row| row.state.with(|s| *s != State::Gone);
            let rows = rows.get().into_iter().filter(there);
            let records: Vec<Record> = rows.map(|row| row.record.get()).collect();
            let ids = records.iter().map(|r| r.id.clone());
            ids.zip(names_of(incoming.app, &records)).collect()
        });
        Self {
            incoming,
            rows,
            names,
            reader: StoredValue::new_local(Rc::new(Reader::new(incoming))),
        }
    }

    /// The name of a row as it is listed.
    pub fn name(self, id: &str) -> String {
        let found =
            |all: &Vec<(String, String)>| Some(all.iter().find(|(i, _)| i == id)?.1.clone());
        self.names.with(found).unwrap_or_default()
    }

    /// What reads rows; `None` where the list has gone.
    pub fn reader(self) -> Option<Rc<Reader>> {
        self.reader.try_get_value()
    }

    /// Looks at a row; `None` where the list is no longer there.
    pub async fn look(self, row: Row) -> Option<()> {
        let id = row.id();
        let app = self.incoming.app;
        let state = match tried::is_set_aside(&id).await {
            true => State::Aside(app.t("kept-stopped")),
            false => match records::kept(&id).await {
                None => State::Aside(app.t("kept-unreadable")),
                Some(found) => match self.reader()?.look(row_of(found)).await {
                    Look::Seen(seen) => State::Seen(seen.picture, seen.text.len()),
                    Look::Refused(why) => State::Aside(why),
                    Look::Stopped => State::Aside(app.t("kept-stopped")),
                },
            },
        };
        // It may have been taken off the device while it was looked at.
        match row.state.try_with_untracked(|s| *s == State::Gone)? {
            true => Some(()),
            false => row.tell(state),
        }
    }

    /// Adds a row that has just come, before all others.
    pub fn add(self, record: Record) {
        let row = Row::new(record);
        if self.rows.try_update(|rows| rows.insert(0, row)).is_none() {
            return;
        }
        spawn_local(async move {
            self.look(row).await;
        });
    }
}

/// A row that is kept, to be looked at.
pub fn row_of(found: Found) -> KeptRow {
    KeptRow {
        whole: found.whole,
        steps: found.steps,
        now: found.record.now,
    }
}

/// A plan as a new record; what is known of it once it is written.
pub async fn added(
    name: String,
    trees: u32,
    leaf: u8,
    text: String,
    saved_ms: f64,
) -> Option<Record> {
    let record = Record {
        id: new_id(),
        name,
        saved_ms,
        trees,
        leaf,
        now: 0,
        spot: None,
    };
    let writing = Writing {
        whole: Some((0, text)),
        steps: Vec::new(),
        kept: (1, 0),
        now: 0,
    };
    records::write(&record, &writing).await.then_some(record)
}

/// The names of rows as they are listed: those of one name are numbered in the order in which they came here.
fn names_of(app: App, list: &[Record]) -> Vec<String> {
    let own = |record: &Record| match record.name.is_empty() {
        true => app.t("unnamed"),
        false => record.name.clone(),
    };
    let mut names: Vec<String> = list.iter().map(own).collect();
    // Alike ones beside each other; an id begins with the time at which it was made, in digits of one length for ages.
    let mut order: Vec<usize> = (0..list.len()).collect();
    order.arrange_by(|a, b| (&names[*a], &list[*a].id).cmp(&(&names[*b], &list[*b].id)));
    let alike = order.chunk_by(|a, b| names[*a] == names[*b]);
    let alike: Vec<&[usize]> = alike.filter(|all| all.len() > 1).collect();
    for all in alike {
        for (number, at) in (1..).zip(all) {
            let args = [
                ("row", Arg::Text(std::mem::take(&mut names[*at]))),
                ("number", Arg::Count(number)),
            ];
            names[*at] = app.text("kept-alike", &args);
        }
    }
    names
}
