//! What comes in: a table is read by a helper, so that the page answers meanwhile, and waits for a yes.

use crate::browser::app::App;
use crate::browser::device::helper::start_worker;
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
    start_helper: StoredValue<Function, LocalStorage>,
    /// What reads the table.
    reader: StoredValue<Option<Worker>, LocalStorage>,
    /// The table's name.
    pub(super) name: RwSignal<String>,
    /// How many of its lines have been read, of about how many; of none before that is known.
    pub(super) read: RwSignal<(f64, f64)>,
    /// What it holds, once it is read.
    pub(super) looked: RwSignal<Option<Looked>>,
    /// Whether it is shown.
    pub(super) shown: RwSignal<bool>,
    /// The sheet on which it is.
    pub(super) sheet: NodeRef<Dialog>,
}

part! {tables:
    /// What a table of those bytes holds. `tell` hears how many lines have been read, of about how many.
    pub fn read(bytes: Vec<u8>, name: String, words: Words, tell: Option<Function>) -> Vec<String> {
        look(&bytes, &name, &words, &mut |n, of| {
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
            reader: StoredValue::new_local(None),
            name: RwSignal::new(String::new()),
            read: RwSignal::new((0.0, 0.0)),
            looked: RwSignal::new(None),
            shown: RwSignal::new(false),
            sheet: NodeRef::new(),
        }
    }

    /// Reads a table, and shows what it holds.
    pub fn look_at(self, file: &str, bytes: &[u8]) {
        self.stop();
        self.looked.set(None);
        self.read.set((0.0, 0.0));
        let name = file.rsplit_once('.').map_or(file, |(stem, _)| stem);
        self.name.set(name.to_string());
        let reader = match bytes.len() {
            0..AT_ONCE => None,
            _ => self.start_helper.with_value(start_worker),
        };
        let Some(reader) = reader else {
            let words = self.app.worded(Words::clone);
            let (file, reading) = (
                file.to_string(),
                read(bytes.to_vec(), name.to_string(), words, None),
            );
            spawn_local(async move {
                match reading.await {
                    Ok(texts) => self.hear(&file, texts),
                    Err(_) => self.refuse("import-lost", &file, String::new()),
                }
            });
            return;
        };
        let asked = self.app.worded(|w| {
            let feet = w.style == LengthStyle::FeetInches;
            let bytes = Uint8Array::from(bytes);
            Array::of4(&bytes, &name.into(), &w.language().into(), &feet.into())
        });
        let file = file.to_string();
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            // What brings nothing with it tells that the helper is lost.
            let Ok(sent) = event.data().dyn_into::<Array>() else {
                return self.refuse("import-lost", &file, String::new());
            };
            match (sent.get(0).as_f64(), sent.get(1).as_f64()) {
                (Some(read), Some(of)) => self.read.set((read, of)),
                _ => {
                    self.stop();
                    self.hear(&file, sent.iter().filter_map(|t| t.as_string()).collect());
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

    /// Hears what a table holds, or why it is refused.
    fn hear(self, file: &str, texts: Vec<String>) {
        match Looked::of(texts) {
            Ok(looked) => {
                self.looked.set(Some(looked));
                self.shown.set(true);
            }
            Err(why) => self.refuse("file-refused", file, why),
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
    }

    /// Ends the reading: nothing of it is heard any more.
    fn stop(self) {
        if let Some(reader) = self.reader.try_update_value(Option::take).flatten() {
            reader.set_onmessage(None);
            reader.set_onerror(None);
            reader.terminate();
        }
    }
}
