//! A row in the list: it is opened, renamed, copied, taken off the device and put back; one that can't be opened is handed out.

use super::reader::Look;
use super::row::{List, Row, State, added, row_of};
use crate::browser::app::App;
use crate::browser::device::{files, locks, records, tried};
use crate::browser::dom;
use crate::browser::ways::found;
use crate::keeping::name;
use cordonry::file::write_plan;
use cordonry::plan::Plan;
use cordonry::said::Arg;
use leptos::prelude::*;
use std::future::Future;
use std::pin::Pin;
use wasm_bindgen_futures::spawn_local;

/// A name as it is said.
fn row_said(app: App, key: &str, name: String) -> String {
    app.text(key, &[("row", Arg::Text(name))])
}

/// A line of the list.
pub fn line(list: List, row: Row) -> AnyView {
    let app = list.incoming.app;
    let naming = RwSignal::new(false);
    let id = row.id();
    let called = Memo::new({
        let id = id.clone();
        move |_| list.name(&id)
    });
    let picture = move || {
        row.state.with(|state| match state {
            State::Seen(picture, _) => picture.clone(),
            _ => String::new(),
        })
    };
    // What is looked at meanwhile must not take a button from under the finger.
    let kind = Memo::new(move |_| {
        row.state.with(|state| match state {
            State::Listed | State::Seen(..) => 0,
            State::Aside(_) => 1,
            State::Gone => 2,
        })
    });
    view! {
        <li data-kept=id class:gone=move || kind.get() == 2>
            {move || match kind.get() {
                2 => gone(list, row),
                kind => {
                    view! {
                        <div class="picture" inner_html=picture></div>
                        <div>
                            {move || match naming.get() {
                                true => naming_form(list, row, naming),
                                false => head(list, row, called, kind == 0),
                            }}
                            <span class="when">{move || facts(app, row)}</span>
                            {match kind {
                                0 => acts(list, row, called, naming),
                                _ => aside(list, row, called),
                            }}
                            {act(app, "forget", "kept-forget-short", "kept-forget-which", called, Box::new(move || remove(list, row)))}
                        </div>
                    }
                        .into_any()
                }
            }}
        </li>
    }
    .into_any()
}

/// A quiet button on a row, whose name tells which row it is of.
fn act(
    app: App,
    name: &'static str,
    key: &'static str,
    which: &'static str,
    called: Memo<String>,
    does: Box<dyn Fn()>,
) -> AnyView {
    view! {
        <button
            class="link quiet"
            data-act=format!("kept-{name}")
            aria-label=move || row_said(app, which, called.get())
            on:click=move |_| does()
        >
            {app.t(key)}
        </button>
    }
    .into_any()
}

/// Its name, by which it is opened where it can be.
fn head(list: List, row: Row, called: Memo<String>, opens: bool) -> AnyView {
    if !opens {
        return view! { <strong class="name">{called}</strong> }.into_any();
    }
    view! {
        <button class="link name" on:click=move |_| open(list, row)>
            {called}
        </button>
    }
    .into_any()
}

fn acts(list: List, row: Row, called: Memo<String>, naming: RwSignal<bool>) -> AnyView {
    let app = list.incoming.app;
    let rename = move || {
        naming.set(true);
        focus(row, "input");
    };
    view! {
        {act(app, "rename", "kept-rename", "kept-rename-which", called, Box::new(rename))}
        {act(app, "copy", "kept-copy-do", "kept-copy-which", called, Box::new(move || copy(list, row)))}
    }
    .into_any()
}

/// Once the page shows it, a part of the row's line has the focus.
fn focus(row: Row, part: &'static str) {
    let id = row.id();
    request_animation_frame(move || dom::focus(&format!("[data-kept='{id}'] {part}")));
}

/// How large it is and when it was saved.
fn facts(app: App, row: Row) -> String {
    let record = row.record.get();
    let mut facts = Vec::new();
    if record.leaf > 0 {
        let count = |key: &str, arg: &str, n: i64| app.text(key, &[(arg, Arg::Count(n))]);
        facts.push(count("kept-trees", "count", record.trees.into()));
        facts.push(count("kept-leaf", "leaf", record.leaf.into()));
    }
    facts.push(dom::time_told(
        record.saved_ms,
        app.worded(|w| w.language().code),
    ));
    let size = row.state.with(|state| match state {
        State::Seen(_, bytes) => Some(*bytes),
        _ => None,
    });
    if let Some(bytes) = size {
        let size = Arg::Count((bytes as i64 + 999) / 1_000);
        facts.push(app.text("kept-size", &[("size", size)]));
    }
    facts.join(" · ")
}

fn open(list: List, row: Row) {
    let app = list.incoming.app;
    spawn_local(async move {
        match found::lay(app, &row.id(), App::open_found).await {
            Some(Ok(())) => {}
            Some(Err(why)) => {
                row.tell(State::Aside(app.worded(|w| w.refusal(&why))));
            }
            None => {
                list.look(row).await;
            }
        }
    });
}

/// Does something with a row that no other tab has open.
fn alone(list: List, row: Row, does: Pin<Box<dyn Future<Output = Option<()>>>>) {
    let app = list.incoming.app;
    spawn_local(async move {
        if !locks::is_free(&row.id()).await {
            return app.say(app.t("kept-busy"), true);
        }
        if does.await.is_none() {
            app.say(app.t("kept-not-done"), true);
        }
    });
}

/// A field for another name.
fn naming_form(list: List, row: Row, naming: RwSignal<bool>) -> AnyView {
    let app = list.incoming.app;
    let typed = RwSignal::new(row.record.with_untracked(|r| r.name.clone()));
    let leave = move || {
        naming.set(false);
        focus(row, ".name");
    };
    view! {
        <form
            class="naming"
            on:submit=move |e| {
                e.prevent_default();
                leave();
                rename(list, row, typed.get_untracked().trim().to_string());
            }
            on:keydown=move |e| {
                if e.key() == "Escape" {
                    leave();
                }
            }
        >
            <input
                aria-label=app.t("row-name")
                maxlength="120"
                autocomplete="off"
                prop:value=typed
                on:input=move |e| typed.set(event_target_value(&e))
            />
            <button type="submit" class="main">{app.t("kept-name-keep")}</button>
            <button type="button" on:click=move |_| leave()>{app.t("kept-name-leave")}</button>
        </form>
    }
    .into_any()
}

fn rename(list: List, row: Row, to: String) {
    let app = list.incoming.app;
    if row.record.with_untracked(|r| r.name == to) {
        return;
    }
    let named = async move {
        let found = records::kept(&row.id()).await?;
        let mut record = found.record.clone();
        let (mut line, mut journal) = row_of(found).line().ok()?;
        name(&mut line, to.clone(), app.t("step-name"));
        record.name = to;
        record.now = line.now();
        record.saved_ms = js_sys::Date::now();
        let written = records::write(&record, &journal.write(&line)).await;
        written.then(|| drop(row.record.try_set(record)))
    };
    alone(list, row, Box::pin(named));
}

fn copy(list: List, row: Row) {
    let app = list.incoming.app;
    let copied = async move {
        let found = records::kept(&row.id()).await?;
        let (line, _) = row_of(found).line().ok()?;
        let plan = &line.plans[line.at];
        let name = app.text("kept-copy", &[("row", Arg::Text(plan.name.clone()))]);
        let plan = Plan {
            name,
            ..(**plan).clone()
        };
        let (trees, leaf) = (plan.found.trees.len() as u32, plan.found.leaf);
        let text = write_plan(&plan);
        let record = added(plan.name, trees, leaf, text, js_sys::Date::now()).await?;
        list.add(record);
        Some(())
    };
    spawn_local(async move {
        if copied.await.is_none() {
            app.say(app.t("kept-not-done"), true);
        }
    });
}

fn remove(list: List, row: Row) {
    let removed = async move {
        let id = row.id();
        let raw = records::raw(&id).await.ok()?;
        if !records::remove(&id).await.ok()? {
            return None;
        }
        let _ = row.taken.try_set_value(Some(raw));
        row.tell(State::Gone);
        focus(row, "button");
        Some(())
    };
    alone(list, row, Box::pin(removed));
}

/// What stands in the place of a row that was taken off.
fn gone(list: List, row: Row) -> AnyView {
    let app = list.incoming.app;
    let name = row.record.with_untracked(|r| match r.name.is_empty() {
        true => app.t("unnamed"),
        false => r.name.clone(),
    });
    let back = move |_| {
        spawn_local(async move {
            let Some(raw) = row.taken.try_update_value(Option::take).flatten() else {
                return;
            };
            if !records::put_back(&raw).await.unwrap_or(false) {
                let _ = row.taken.try_set_value(Some(raw));
                return app.say(app.t("kept-not-done"), true);
            }
            row.tell(State::Listed);
            list.look(row).await;
            focus(row, ".name");
        });
    };
    view! {
        <span>{row_said(app, "kept-gone", name)}</span>
        " "
        <button class="link" data-act="kept-back" on:click=back>
            {app.t("kept-gone-back")}
        </button>
    }
    .into_any()
}

/// What can be done with a row that can't be opened.
fn aside(list: List, row: Row, called: Memo<String>) -> AnyView {
    let app = list.incoming.app;
    let why = row.state.with_untracked(|state| match state {
        State::Aside(why) => why.clone(),
        _ => String::new(),
    });
    let again = move || {
        spawn_local(async move {
            tried::forget(&row.id());
            row.tell(State::Listed);
            list.look(row).await;
        });
    };
    view! {
        <p class="refusal">{app.text("kept-aside", &[("why", Arg::Text(why))])}</p>
        {act(app, "bytes", "kept-aside-save", "kept-aside-save-which", called, Box::new(move || hand_out(list, row)))}
        {act(app, "again", "kept-aside-again", "kept-aside-again-which", called, Box::new(again))}
    }
    .into_any()
}

/// Hands out a row that can't be opened: its plan file where a helper can still make it, else what is kept of it.
fn hand_out(list: List, row: Row) {
    let app = list.incoming.app;
    let file = row.record.with_untracked(|r| files::named(&r.name, "json"));
    let (id, reader) = (row.id(), list.reader());
    spawn_local(async move {
        let Ok(raw) = records::raw(&id).await else {
            return app.say(app.t("kept-not-done"), true);
        };
        let text = match (records::kept(&id).await, reader) {
            (Some(found), Some(reader)) => match reader.look(row_of(found)).await {
                Look::Seen(seen) => Some(seen.text),
                Look::Refused(_) | Look::Stopped => None,
            },
            _ => None,
        };
        let text = text.unwrap_or_else(|| raw.text());
        if files::download(&file, "application/json", &text.into()).is_err() {
            app.say(app.t("download-refused"), true);
        }
    });
}
