//! Many rows as one file, out and in.

use super::reader::{Look, Reader};
use super::row::{List, Row, State, added, row_of};
use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use crate::browser::device::{files, records};
use crate::browser::ways::incoming::{Incoming, LeftOut};
use crate::keeping::KeptRow;
use cordonry::file::{name_in, read_archive, read_plan, write_archive};
use cordonry::said::Arg;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

const JSON: &str = "application/json";

fn count(n: usize) -> Arg {
    Arg::Count(n as i64)
}

/// Hands files of many rows to the user; whether the browser took them.
fn give(stem: &str, files: &[Vec<u8>]) -> bool {
    let give = |(n, bytes): (usize, &Vec<u8>)| {
        let ending = match files.len() {
            1 => "json".to_string(),
            _ => format!("{}.json", n + 1),
        };
        let bytes = js_sys::Uint8Array::from(&**bytes);
        files::download(&files::named(stem, &ending), JSON, &bytes.into()).is_ok()
    };
    files.iter().enumerate().all(give)
}

/// Says now and then how far it is with many rows.
fn at_row(app: App, n: usize, all: usize) {
    if all > TOLD_EACH && n.is_multiple_of(TOLD_EACH) {
        let args = [("number", count(n)), ("count", count(all))];
        app.say(app.text("rows-at", &args), false);
    }
}

/// After how many rows it is said again how far it is.
const TOLD_EACH: usize = 25;

/// Saves all rows that can be read as one file.
pub fn save(list: List) {
    let app = list.incoming.app;
    let there = |row: &Row| row.state.with_untracked(|s| *s != State::Gone);
    let rows = list.rows.get_untracked().into_iter().filter(there);
    let ids: Vec<String> = rows.map(Row::id).collect();
    // The list may go meanwhile, this goes on.
    let reader = Reader::new(list.incoming);
    spawn_local(async move {
        let mut texts = Vec::new();
        let mut left = 0;
        let all = ids.len();
        for (n, id) in ids.into_iter().enumerate() {
            at_row(app, n, all);
            let looked = match records::kept(&id).await {
                Some(found) => reader.look(row_of(found)).await,
                None => Look::Stopped,
            };
            match looked {
                Look::Seen(seen) => texts.push(seen.text),
                Look::Refused(_) | Look::Stopped => left += 1,
            }
        }
        let day = String::from(js_sys::Date::new_0().to_iso_string());
        let stem = format!(
            "{}-{}",
            app.t("kept-all-name"),
            day.get(..10).unwrap_or_default()
        );
        if !give(&stem, &write_archive(&texts)) {
            return app.say(app.t("download-refused"), true);
        }
        let args = [("count", count(texts.len())), ("left", count(left))];
        let key = if left > 0 {
            "kept-all-saved-but"
        } else {
            "kept-all-saved"
        };
        app.say(app.text(key, &args), left > 0);
    });
}

/// Takes the rows of a file of many. Each that can be read becomes a row of its own; the others are told, and kept to be
/// handed back.
pub async fn take(incoming: Incoming, file: String, bytes: Vec<u8>) {
    let app = incoming.app;
    let plans = match read_archive(&bytes) {
        Ok(plans) => plans,
        Err(why) => {
            let why = app.worded(|w| w.refusal(&why));
            return incoming.refuse("file-refused", &file, why);
        }
    };
    let reader = Reader::new(incoming);
    let (mut left, mut came) = (Vec::new(), 0);
    let now = js_sys::Date::now();
    let mut full = false;
    let all = plans.len();
    for (n, bytes) in plans.into_iter().enumerate() {
        at_row(app, n, all);
        let looked = match String::from_utf8(bytes.clone()) {
            Ok(text) => reader.look(KeptRow::of_text(text)).await,
            Err(_) => match read_plan(&bytes) {
                Err(why) => Look::Refused(app.worded(|w| w.refusal(&why))),
                Ok(_) => Look::Stopped,
            },
        };
        let why = match looked {
            Look::Seen(seen) => {
                // They are listed in the order in which they stand in the file.
                let saved = now - n as f64;
                match added(seen.name, seen.trees, seen.leaf, seen.text, saved).await {
                    Some(_) => {
                        came += 1;
                        continue;
                    }
                    None => {
                        full = true;
                        app.t("left-out-full")
                    }
                }
            }
            Look::Refused(why) => why,
            Look::Stopped => app.t("kept-stopped"),
        };
        let (place, name) = (n + 1, name_in(&bytes));
        left.push(LeftOut {
            place,
            name,
            why,
            bytes,
        });
    }
    incoming.list_kept();
    let args = [("count", count(came)), ("file", Arg::Text(file))];
    app.say(app.text("rows-came", &args), full);
    incoming.left_out.set(left);
}

/// What could not be read of such a file, over the page.
pub fn left_out(incoming: Incoming) -> AnyView {
    let app = incoming.app;
    let sheet = NodeRef::<html::Dialog>::new();
    let all = incoming.left_out.get_untracked();
    let line = |left: &LeftOut| {
        let name = match left.name.is_empty() {
            true => app.t("unnamed"),
            false => left.name.clone(),
        };
        let args = [
            ("place", count(left.place)),
            ("row", Arg::Text(name)),
            ("why", Arg::Text(left.why.clone())),
        ];
        view! { <li>{app.text("left-out-row", &args)}</li> }
    };
    let lines = all.iter().map(line).collect_view();
    let title = app.text("left-out-title", &[("count", count(all.len()))]);
    let bytes: Vec<Vec<u8>> = all.into_iter().map(|left| left.bytes).collect();
    view! {
        <Dialog
            labelled_by="left-out-title"
            node=sheet
            on_close=move || incoming.left_out.set(Vec::new())
        >
            <h2 id="left-out-title">{title}</h2>
            <p>{app.t("left-out-help")}</p>
            <ul>{lines}</ul>
            <p class="choices">
                <button
                    class="main"
                    data-act="left-out-save"
                    on:click=move |_| {
                        if !give(&app.t("left-out-name"), &write_archive(&bytes)) {
                            app.say(app.t("download-refused"), true);
                        }
                    }
                >
                    {app.t("left-out-save")}
                </button>
                <button
                    data-act="left-out-close"
                    on:click=move |_| {
                        if let Some(sheet) = sheet.get_untracked() {
                            sheet.close();
                        }
                    }
                >
                    {app.t("left-out-close")}
                </button>
            </p>
        </Dialog>
    }
    .into_any()
}
