//! Files that come in: a plan is opened, a table is looked at first.

use super::examples::{LESSONS, retold, text_of};
use super::incoming::Incoming;
use super::kept;
use super::linked::take_link;
use crate::browser::device::files::bytes_of;
use cordonry::file::link::link_in;
use cordonry::said::Arg;
use cordonry_words::Language;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, FileList};

/// Opens the first of the files that the user gave, and names it where there are others: one row is opened at a time.
pub fn take_files(incoming: Incoming, files: &FileList) {
    let app = incoming.app;
    let Some(file) = files.get(0) else { return };
    let others = files.length() - 1;
    spawn_local(async move {
        let name = file.name();
        take(incoming, file).await;
        // A refusal of the first says more than that there are others.
        let refused = app
            .notice
            .with_untracked(|n| n.as_ref().is_some_and(|n| n.grave));
        if others > 0 && !refused {
            let args = [("file", arg(&name)), ("others", Arg::Count(others.into()))];
            app.say(app.text("files-first", &args), false);
        }
    });
}

/// Opens a file that the user gave: a plan, or a table of a measured row.
pub fn take_file(incoming: Incoming, file: File) {
    spawn_local(take(incoming, file));
}

async fn take(incoming: Incoming, file: File) {
    let app = incoming.app;
    app.notice.set(None);
    let name = file.name();
    if file.size() > cordonry::file::MAX_BYTES as f64 {
        app.say(app.text("file-too-large", &[("file", arg(&name))]), true);
        return;
    }
    match bytes_of(&file).await {
        Ok(bytes) => take_bytes(incoming, &name, bytes),
        Err(_) => app.say(app.text("file-unreadable", &[("file", arg(&name))]), true),
    }
}

fn arg(text: &str) -> Arg {
    Arg::Text(text.to_string())
}

/// Opens bytes: a plan or a link to one becomes the plan on the desk, a table is shown first.
pub fn take_bytes(incoming: Incoming, name: &str, bytes: Vec<u8>) {
    if cordonry::file::is_archive(&bytes) {
        return kept::take_archive(incoming, name.to_string(), bytes);
    }
    if cordonry::file::is_plan(&bytes) {
        return incoming.open_plan(name, &bytes);
    }
    match std::str::from_utf8(&bytes).ok().and_then(link_in) {
        Some(link) => spawn_local(take_link(incoming.app, link.to_string())),
        None => incoming.look_at(name, bytes),
    }
}

/// Opens one of the examples that come with the page.
pub fn take_example(incoming: Incoming, path: &'static str) {
    let app = incoming.app;
    let name = path.rsplit('/').next().unwrap_or(path);
    spawn_local(async move {
        let Ok(text) = text_of(path).await else {
            return app.say(app.t("part-missing"), true);
        };
        let code = app.worded(|w| w.language().code);
        let text = match code {
            Language::WHOLE => text.to_string(),
            _ => retold(text, code).await.unwrap_or_else(|_| text.into()),
        };
        let before = app.record_id();
        take_bytes(incoming, name, text.into_bytes());
        // What a lesson sets side by side stands so.
        let lesson = LESSONS.iter().any(|(lesson, _)| *lesson == path);
        if app.record_id() == before {
            return;
        }
        if lesson {
            app.turn(|d| d.set_beside(Some(1)));
        }
        // Once it has a wall, that begins with what the example is about.
        request_animation_frame(move || app.show_gravest());
    });
}
