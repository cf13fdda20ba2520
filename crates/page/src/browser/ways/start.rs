//! The start page: the ways to a row, and the rows that this device keeps.

use super::examples::{EXAMPLES, Example, LESSONS};
use super::incoming::Incoming;
use super::open;
use crate::browser::app::{App, Doorway, Record};
use crate::browser::controls::languages::Languages;
use crate::browser::device::records;
use crate::browser::ways::doors::{MakeDoors, WalkDoor};
use cordonry::said::Arg;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

/// What stands here until a row is opened.
#[component]
pub fn Start(incoming: Incoming, entry: RwSignal<Doorway>) -> impl IntoView {
    let app = incoming.app;
    let pasted = RwSignal::new(String::new());
    let kept = RwSignal::new(Vec::<Record>::new());
    spawn_local(async move { kept.set(records::records().await) });
    view! {
        <main class="start">
            <h1 tabindex="-1">{app.t("start-title")}</h1>
            <p class="lead">{app.t("start-lead")}</p>
            <Languages app/>
            <KeptRows app kept/>
            <div class="ways">
                <section>
                    <h2>{app.t("way-file")}</h2>
                    <p>{app.t("way-file-help")}</p>
                    <FilePicker incoming/>
                </section>
                <section>
                    <h2>{app.t("way-paste")}</h2>
                    <p id="paste-help">{app.t("way-paste-help")}</p>
                    <textarea
                        rows="3"
                        aria-label=app.t("way-paste")
                        aria-describedby="paste-help"
                        placeholder=app.t("way-paste-sample")
                        prop:value=pasted
                        on:input=move |e| pasted.set(event_target_value(&e))
                    ></textarea>
                    <button
                        class="main"
                        disabled=move || pasted.with(|p| p.trim().is_empty())
                        on:click=move |_| {
                            open::take_bytes(incoming, &app.t("pasted-name"), pasted.get().into_bytes());
                        }
                    >
                        {app.t("way-paste-do")}
                    </button>
                </section>
                <WalkDoor app entry/>
                <section>
                    <h2>{app.t("way-lesson")}</h2>
                    <p>{app.t("way-lesson-help")}</p>
                    {listed(incoming, LESSONS)}
                </section>
                <section>
                    <h2>{app.t("way-example")}</h2>
                    <p>{app.t("way-example-help")}</p>
                    {listed(incoming, EXAMPLES)}
                </section>
                <MakeDoors app entry/>
            </div>
        </main>
    }
}

/// Examples as buttons that open them.
fn listed(incoming: Incoming, all: &'static [Example]) -> AnyView {
    let line = |(path, key): &'static Example| {
        let open = move |_| open::take_example(incoming, path);
        view! {
            <li>
                <button class="link" data-example=*path on:click=open>
                    {incoming.app.t(key)}
                </button>
            </li>
        }
    };
    view! { <ul class="examples">{all.iter().map(line).collect_view()}</ul> }.into_any()
}

/// A button that asks for a file.
#[component]
pub fn FilePicker(incoming: Incoming) -> impl IntoView {
    let app = incoming.app;
    view! {
        <label class="button main">
            {app.t("file-choose")}
            <input
                class="visually-hidden"
                type="file"
                accept=".json,.csv,.tsv,.txt,application/json,text/csv"
                on:change=move |e| {
                    let input = e
                        .target()
                        .and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok());
                    if let Some(input) = input {
                        if let Some(file) = input.files().and_then(|f| f.get(0)) {
                            open::take_file(incoming, file);
                        }
                        input.set_value("");
                    }
                }
            />
        </label>
    }
}

/// The rows that this device keeps.
#[component]
fn KeptRows(app: App, kept: RwSignal<Vec<Record>>) -> impl IntoView {
    let open = move |record: Record| {
        spawn_local(async move {
            let Some(found) = records::found(&record.id).await else {
                return;
            };
            if let Err(why) = app.open_found(found) {
                let why = app.worded(|w| w.refusal(&why));
                let args = [("file", Arg::Text(record.name)), ("why", Arg::Text(why))];
                app.say(app.text("file-refused", &args), true);
            }
        });
    };
    move || {
        let list = kept.get();
        (!list.is_empty()).then(|| {
            let names = names(app, &list);
            let lines = list
                .into_iter()
                .zip(names)
                .map(|(record, name)| view! { <KeptRow app kept record name open/> })
                .collect_view();
            view! {
                <section class="kept">
                    <h2>{app.t("kept-title")}</h2>
                    <ul>{lines}</ul>
                </section>
            }
        })
    }
}

/// The names of rows as they are listed: those of one name are numbered in the order in which they came here.
fn names(app: App, list: &[Record]) -> Vec<String> {
    let own = |record: &Record| match record.name.is_empty() {
        true => app.t("unnamed"),
        false => record.name.clone(),
    };
    let numbered = |record: &Record| {
        let name = own(record);
        let alike = list.iter().filter(|other| own(other) == name);
        let (mut count, mut number) = (0, 1);
        for other in alike {
            count += 1;
            // An id begins with the time at which it was made, in digits of one length for ages.
            number += i64::from(other.id < record.id);
        }
        match count {
            1 => name,
            _ => app.text(
                "kept-alike",
                &[("row", Arg::Text(name)), ("number", Arg::Count(number))],
            ),
        }
    };
    list.iter().map(numbered).collect()
}

/// One of the rows, by which it is opened and taken off.
#[component]
fn KeptRow(
    app: App,
    kept: RwSignal<Vec<Record>>,
    record: Record,
    name: String,
    open: impl Fn(Record) + Copy + 'static,
) -> impl IntoView {
    let when = js_sys::Date::new(&record.saved_ms.into())
        .to_locale_string("default", &wasm_bindgen::JsValue::UNDEFINED);
    let mut facts = Vec::new();
    if record.leaf > 0 {
        let count = |key: &str, arg: &str, n: i64| app.text(key, &[(arg, Arg::Count(n))]);
        facts.push(count("kept-trees", "count", record.trees.into()));
        facts.push(count("kept-leaf", "leaf", record.leaf.into()));
    }
    facts.push(String::from(when));
    let row = |key: &str| app.text(key, &[("row", Arg::Text(name.clone()))]);
    let (id, sure, forget) = (
        record.id.clone(),
        row("kept-forget"),
        row("kept-forget-which"),
    );
    view! {
        <li>
            <button class="link" on:click=move |_| open(record.clone())>
                {name}
            </button>
            <span class="when">{facts.join(" · ")}</span>
            <button
                class="link quiet"
                aria-label=forget
                on:click=move |_| {
                    let id = id.clone();
                    if window().confirm_with_message(&sure).unwrap_or(false) {
                        spawn_local(async move {
                            if records::remove(&id).await.is_ok_and(|gone| gone) {
                                kept.set(records::records().await);
                            }
                        });
                    }
                }
            >
                {app.t("kept-forget-short")}
            </button>
        </li>
    }
}
