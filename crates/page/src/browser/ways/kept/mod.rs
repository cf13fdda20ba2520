//! The rows that this device keeps: their list, and many of them as one file.

mod archive;
mod line;
mod reader;
mod row;
mod rows;

use super::incoming::Incoming;
use crate::browser::parts::{Coming, part, shown};
use crate::keeping::KeptRow;
use cordonry_words::Words;
use leptos::prelude::*;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;

part! {rows:
    /// The list of the rows that this device keeps.
    pub fn list(incoming: Incoming) -> AnyView {
        rows::list(incoming)
    }
}

part! {rows:
    /// What is seen of a row that is kept, as its texts, or why it can't be read, as one.
    pub fn look(row: KeptRow, words: Words) -> Vec<String> {
        match row.look() {
            Ok(seen) => seen.texts(),
            Err(why) => vec![words.refusal(&why)],
        }
    }
}

part! {rows:
    fn take(incoming: Incoming, file: String, bytes: Vec<u8>) -> () {
        spawn_local(archive::take(incoming, file, bytes));
    }
}

part! {rows:
    fn left_out_sheet(incoming: Incoming) -> AnyView {
        archive::left_out(incoming)
    }
}

/// Takes the rows of a file of many: each becomes a row of its own, and nothing that is there is touched.
pub fn take_archive(incoming: Incoming, file: String, bytes: Vec<u8>) {
    let app = incoming.app;
    spawn_local(async move {
        if take(incoming, file, bytes).await.is_err() {
            app.say(app.t("part-missing"), true);
        }
    });
}

/// What of such a file could not be read, over the page.
pub fn left_out(incoming: Incoming) -> impl IntoView {
    let some = Memo::new(move |_| incoming.left_out.with(|all| !all.is_empty()));
    let sheet = move || {
        let make = Rc::new(move || Box::pin(left_out_sheet(incoming)) as Coming);
        shown(incoming.app, make)
    };
    move || some.get().then(sheet)
}
