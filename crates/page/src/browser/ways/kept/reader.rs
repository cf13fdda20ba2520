//! Rows that are kept are looked at by a helper of their own: what the program stops at there stops no page.

use super::look;
use crate::browser::app::App;
use crate::browser::device::helper::start_worker;
use crate::browser::ways::incoming::Incoming;
use crate::keeping::{KeptRow, Seen};
use cordonry_words::Words;
use js_sys::{Array, Function, Promise};
use leptos::prelude::*;
use serde::Serialize;
use std::cell::RefCell;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{MessageEvent, Worker};

/// What takes longer than this has hung: the largest row takes a tenth of it on a slow telephone (from memory).
const LONGEST: Duration = Duration::from_secs(20);

/// What came of a look.
pub enum Look {
    /// It can be read.
    Seen(Box<Seen>),
    /// It can't, and why.
    Refused(String),
    /// The program stopped at it.
    Stopped,
}

/// Looks at one row after the other.
pub struct Reader {
    app: App,
    start: Function,
    worker: RefCell<Option<Worker>>,
}

/// What a helper is sent.
#[derive(Serialize)]
struct Asked<'a> {
    row: &'a KeptRow,
}

impl Reader {
    /// One that has no helper yet.
    pub fn new(incoming: Incoming) -> Self {
        Self {
            app: incoming.app,
            start: incoming.start_helper.get_value(),
            worker: RefCell::new(None),
        }
    }

    /// Looks at a row. Without a helper the page does it itself.
    pub async fn look(&self, row: KeptRow) -> Look {
        let there = self.worker.borrow_mut().take();
        let Some(worker) = there.or_else(|| start_worker(self.app, &self.start)) else {
            let answer = look(row, self.app.worded(Words::clone)).await;
            return looked(answer.unwrap_or_else(|_| vec![self.app.t("part-missing")]));
        };
        match asked(&worker, &row).await {
            Some(answer) => {
                self.worker.replace(Some(worker));
                looked(answer.iter().filter_map(|t| t.as_string()).collect())
            }
            None => {
                worker.terminate();
                Look::Stopped
            }
        }
    }
}

fn looked(mut texts: Vec<String>) -> Look {
    match texts.len() {
        0 => Look::Stopped,
        1 => Look::Refused(texts.swap_remove(0)),
        _ => Seen::of(texts).map_or(Look::Stopped, |seen| Look::Seen(Box::new(seen))),
    }
}

impl Drop for Reader {
    fn drop(&mut self) {
        if let Some(worker) = self.worker.take() {
            worker.terminate();
        }
    }
}

/// What a helper answers; `None` where it stops or hangs.
async fn asked(worker: &Worker, row: &KeptRow) -> Option<Array> {
    let sent = serde_wasm_bindgen::to_value(&Asked { row }).ok()?;
    let mut late = None;
    let answer = Promise::new(&mut |resolve, _| {
        worker.set_onmessage(Some(&resolve));
        worker.set_onerror(Some(&resolve));
        let hangs = move || drop(resolve.call0(&JsValue::NULL));
        late = set_timeout_with_handle(hangs, LONGEST).ok();
    });
    worker.post_message(&sent).ok()?;
    let event = JsFuture::from(answer).await.ok()?;
    if let Some(late) = late {
        late.clear();
    }
    event
        .dyn_into::<MessageEvent>()
        .ok()?
        .data()
        .dyn_into()
        .ok()
}
