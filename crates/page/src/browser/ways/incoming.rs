//! What comes in: a table is read by a helper, so that the page answers meanwhile, and waits for a yes.

use crate::browser::app::{App, Record};
use crate::browser::device::helper::start_worker;
use crate::browser::device::records;
use crate::browser::dom;
use crate::browser::parts::part;
use crate::helper::{Looked, look};
use cordonry::said::Arg;
use cordonry::units::LengthStyle;
use cordonry_words::Words;
use js_sys::{Array, Function, Uint8Array};
use leptos::html::Dialog;
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{MessageEvent, Worker};

/// A table of so many bytes is read at once; a longer one by a helper.
const AT_ONCE: usize = 20_000;
/// What is read sooner than this is not told of before it is.
const SHOWN_AFTER: Duration = Duration::from_millis(300);

/// What comes in, and the measured row that is being looked at before it is used.
#[derive(Clone, Copy)]
pub struct Incoming {
    /// The page.
    pub app: App,
    pub(super) start_helper: StoredValue<Function, LocalStorage>,
    /// The rows that this device keeps, the newest first; none where it keeps nothing for this page.
    pub(super) kept: RwSignal<Option<Vec<Record>>>,
    /// The rows of a file of many that could not be read.
    pub(super) left_out: RwSignal<Vec<LeftOut>>,
    /// What reads the table.
    reader: StoredValue<Option<Worker>, LocalStorage>,
    /// The table's name.
    pub(super) name: RwSignal<String>,
    /// How many of its lines have been read, of about how many; of none before that is known.
    pub(super) read: RwSignal<(f64, f64)>,
    /// The table itself, while it is looked at.
    bytes: StoredValue<Vec<u8>>,
    /// The file's name.
    file: RwSignal<String>,
    /// What was answered of it: in turn the name of a question and what was typed.
    answered: StoredValue<Vec<String>>,
    /// How often it was read: with each answer anew. What was begun before the last is not heard.
    round: StoredValue<u32>,
    /// Whether it is being read.
    pub(super) reading: RwSignal<bool>,
    /// Whether it is wanted, once it is read.
    wanted: StoredValue<bool>,
    /// What it holds, once it is read; while it is read with an answer more, what it held before.
    pub(super) looked: RwSignal<Option<Looked>>,
    /// Whether it is shown.
    pub(super) shown: RwSignal<bool>,
    /// The sheet on which it is.
    pub(super) sheet: NodeRef<Dialog>,
}

/// A row of a file of many that could not be read.
#[derive(Clone)]
pub struct LeftOut {
    /// Its place in the file, from 1 on.
    pub place: usize,
    /// The name that it seems to have.
    pub name: String,
    /// Why it could not be read.
    pub why: String,
    /// What stands there.
    pub bytes: Vec<u8>,
}

part! {tables:
    /// What a table of those bytes holds, with what was answered. `tell` hears how many lines have been read, of about how many.
    pub fn read(
        bytes: Vec<u8>,
        name: String,
        words: Words,
        answered: Vec<String>,
        tell: Option<Function>,
    ) -> Vec<String> {
        look(&bytes, &name, &words, &answered, &mut |n, of| {
            if let Some(tell) = &tell {
                let _ = tell.call2(&JsValue::NULL, &n.into(), &of.into());
            }
        })
    }
}

impl Incoming {
    /// Nothing yet; `start_helper` gives a worker with an instance of this module.
    pub fn new(app: App, start_helper: Function) -> Self {
        Self {
            app,
            start_helper: StoredValue::new_local(start_helper),
            kept: RwSignal::new(Some(Vec::new())),
            left_out: RwSignal::new(Vec::new()),
            reader: StoredValue::new_local(None),
            name: RwSignal::new(String::new()),
            read: RwSignal::new((0.0, 0.0)),
            bytes: StoredValue::new(Vec::new()),
            file: RwSignal::new(String::new()),
            answered: StoredValue::new(Vec::new()),
            round: StoredValue::new(0),
            reading: RwSignal::new(false),
            wanted: StoredValue::new(false),
            looked: RwSignal::new(None),
            shown: RwSignal::new(false),
            sheet: NodeRef::new(),
        }
    }

    /// Learns which rows this device keeps.
    pub fn list_kept(self) {
        spawn_local(async move { self.kept.set(records::records().await.ok()) });
    }

    /// Reads a table, and shows what it holds.
    pub fn look_at(self, file: &str, bytes: Vec<u8>) {
        self.stop();
        self.looked.set(None);
        let name = file.rsplit_once('.').map_or(file, |(stem, _)| stem);
        self.name.set(name.to_string());
        self.file.set(file.to_string());
        self.bytes.set_value(bytes);
        self.answered.set_value(Vec::new());
        self.read();
    }

    /// Takes an answer, and reads the table with it; an empty one takes it back.
    pub(super) fn answer(self, key: &str, typed: &str) {
        self.read_as(&[key.to_string(), typed.to_string()]);
    }

    /// Takes answers, in turn the name of a question or cell and what is said of it, and reads the table with them.
    pub(super) fn read_as(self, answers: &[String]) {
        self.answered.update_value(|all| {
            for said in answers.chunks_exact(2) {
                if let Some(n) = all.chunks_exact(2).position(|a| a[0] == said[0]) {
                    all.drain(2 * n..2 * n + 2);
                }
                if !said[1].trim().is_empty() {
                    all.extend_from_slice(said);
                }
            }
        });
        self.stop();
        self.read();
    }

    /// Has what it holds taken, at once or as soon as it is read. What was refused is looked at first.
    pub(super) fn take(self) {
        if self.reading.get_untracked() {
            return self.wanted.set_value(true);
        }
        let taken = self.looked.with_untracked(|l| {
            let looked = l.as_ref()?;
            let mut asks = looked.asks();
            let wrong = asks
                .find(|a| !a.wrong.is_empty())
                .map(|a| a.key.to_string());
            Some((looked.plan().to_string(), wrong))
        });
        match taken {
            Some((_, Some(key))) => dom::focus(&format!("[data-ask='{key}']")),
            Some((plan, None)) if !plan.is_empty() => {
                let name = self.name.get_untracked();
                self.open_plan(&name, plan.as_bytes());
            }
            _ => {}
        }
    }

    fn read(self) {
        let app = self.app;
        self.read.set((0.0, 0.0));
        self.reading.set(true);
        self.wanted.set_value(false);
        let round = self.round.get_value().wrapping_add(1);
        self.round.set_value(round);
        let (name, answered) = (self.name.get_untracked(), self.answered.get_value());
        let reader = match self.bytes.with_value(Vec::len) {
            0..AT_ONCE => None,
            _ => self
                .start_helper
                .with_value(|start| start_worker(app, start)),
        };
        let Some(reader) = reader else {
            let words = app.worded(Words::clone);
            let reading = read(self.bytes.get_value(), name, words, answered, None);
            spawn_local(async move {
                let read = reading.await;
                if self.round.get_value() == round {
                    self.hear(read.ok());
                }
            });
            return;
        };
        let asked = app.worded(|w| {
            let feet = w.style == LengthStyle::FeetInches;
            let bytes = self.bytes.with_value(|b| Uint8Array::from(&**b));
            let answered = answered.iter().map(JsValue::from).collect::<Array>();
            Array::of4(&bytes, &name.into(), &feet.into(), &answered)
        });
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            // What brings nothing with it tells that the helper is lost.
            let Ok(sent) = event.data().dyn_into::<Array>() else {
                return self.hear(None);
            };
            match (sent.get(0).as_f64(), sent.get(1).as_f64()) {
                (Some(read), Some(of)) => self.read.set((read, of)),
                _ => {
                    self.stop();
                    self.hear(Some(sent.iter().filter_map(|t| t.as_string()).collect()));
                }
            }
        });
        let heard = heard.into_js_value();
        reader.set_onmessage(Some(heard.unchecked_ref()));
        reader.set_onerror(Some(heard.unchecked_ref()));
        let _ = reader.post_message(&asked);
        self.reader.set_value(Some(reader));
        let show = move || {
            if self.reader.with_value(Option::is_some) {
                self.shown.set(true);
            }
        };
        set_timeout(show, SHOWN_AFTER);
    }

    /// Hears what a table holds, or why it is refused; nothing where what reads it is lost.
    fn hear(self, texts: Option<Vec<String>>) {
        self.reading.set(false);
        let file = self.file.get_untracked();
        match texts.map(Looked::of) {
            Some(Ok(looked)) => {
                self.looked.set(Some(looked));
                self.shown.set(true);
                if self.wanted.get_value() {
                    self.take();
                }
            }
            Some(Err(why)) => self.refuse("file-refused", &file, why),
            None => self.refuse("import-lost", &file, String::new()),
        }
    }

    /// Opens a plan.
    pub(super) fn open_plan(self, name: &str, bytes: &[u8]) {
        match cordonry::file::read_plan(bytes) {
            Ok(plan) => {
                self.leave();
                self.app.open_plan(plan, None);
            }
            Err(why) => self.refuse("file-refused", name, self.app.worded(|w| w.refusal(&why))),
        }
    }

    /// Leaves a file, and says why.
    pub(super) fn refuse(self, key: &str, file: &str, why: String) {
        self.leave();
        let args = [("file", Arg::Text(file.into())), ("why", Arg::Text(why))];
        self.app.say(self.app.text(key, &args), true);
    }

    /// Leaves the table. Its sheet is closed first, so that the focus is given back before anything else takes it.
    pub(super) fn leave(self) {
        if let Some(sheet) = self.sheet.get_untracked() {
            sheet.close();
        }
        self.forget();
    }

    /// Forgets the table, read or not.
    pub(super) fn forget(self) {
        self.stop();
        self.shown.set(false);
        self.looked.set(None);
        self.bytes.set_value(Vec::new());
    }

    /// Ends the reading: nothing of it is heard any more.
    fn stop(self) {
        self.round
            .update_value(|round| *round = round.wrapping_add(1));
        self.reading.set(false);
        if let Some(reader) = self.reader.try_update_value(Option::take).flatten() {
            reader.set_onmessage(None);
            reader.set_onerror(None);
            reader.terminate();
        }
    }
}
