//! A measured row, looked at before it is used: what was understood, and which lines are bad and why.

use super::incoming::{Incoming, Preview};
use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use cordonry::file::csv;
use cordonry::said::Arg;
use leptos::prelude::*;

/// Reads a table and shows what it holds.
pub fn look_at(incoming: Incoming, name: &str, bytes: Vec<u8>) {
    let app = incoming.app;
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    match csv::read(&bytes, &csv::Options::default()) {
        Ok(measured) => incoming.preview.set(Some(Preview {
            name: stem.to_string(),
            taken: measured.taken,
            bad: measured
                .bad
                .iter()
                .map(|b| (b.line, b.text.clone(), app.worded(|w| w.refusal(&b.why))))
                .collect(),
            said: measured
                .said
                .iter()
                .map(|s| app.worded(|w| w.say(s)))
                .collect(),
            plan: measured.plan(stem),
        })),
        Err(why) => {
            let why = app.worded(|w| w.refusal(&why));
            app.say(
                app.text(
                    "file-refused",
                    &[("file", Arg::Text(name.into())), ("why", Arg::Text(why))],
                ),
                true,
            );
        }
    }
}

/// The preview, over the page.
#[component]
pub fn ImportPreview(incoming: Incoming) -> impl IntoView {
    let Incoming { app, preview } = incoming;
    move || {
        preview.get().map(|p| {
            let node = NodeRef::new();
            view! {
                <Dialog labelled_by="import-title" node on_close=move || preview.set(None)>
                    <Looked app p node/>
                </Dialog>
            }
        })
    }
}

/// What was understood of the table, which lines are left out, and the two answers.
#[component]
fn Looked(app: App, p: Preview, node: NodeRef<leptos::html::Dialog>) -> impl IntoView {
    let trees = p.plan.found.trees.len();
    // A row without a tree is begun by hand, not from a table of which nothing was understood.
    let usable = trees > 0;
    let counts = [
        ("lines", Arg::Count(p.taken as i64)),
        ("trees", Arg::Count(trees as i64)),
    ];
    let said = p.said.iter().map(|s| view! { <li>{s.clone()}</li> });
    let bad = p.bad.iter().map(|(line, text, why)| {
        view! {
            <tr>
                <th scope="row">{*line}</th>
                <td>{why.clone()}</td>
                <td>
                    <code>{text.clone()}</code>
                </td>
            </tr>
        }
    });
    let bad_count = [("count", Arg::Count(p.bad.len() as i64))];
    let bad_lines = (!p.bad.is_empty()).then(|| {
        view! {
            <h3>{app.text("import-bad", &bad_count)}</h3>
            <div class="bad-lines" tabindex="0" role="region" aria-labelledby="import-title">
                <table>
                    <tbody>{bad.collect_view()}</tbody>
                </table>
            </div>
        }
    });
    // Closed first: so the focus is given back before the row takes it.
    let leave = move || {
        if let Some(dialog) = node.get_untracked() {
            dialog.close();
        }
    };
    let plan = p.plan.clone();
    view! {
        <h2 id="import-title">
            {app.text("import-title", &[("file", Arg::Text(p.name.clone()))])}
        </h2>
        <p>{app.text("import-taken", &counts)}</p>
        <ul class="said">{said.collect_view()}</ul>
        {bad_lines}
        <p class="choices">
            <button
                class="main"
                autofocus=usable
                disabled=!usable
                data-act="import-use"
                on:click=move |_| {
                    leave();
                    app.open_plan(plan.clone(), None);
                }
            >
                {app.t("import-use")}
            </button>
            <button data-act="import-leave" autofocus=!usable on:click=move |_| leave()>
                {app.t("import-leave")}
            </button>
        </p>
    }
}
