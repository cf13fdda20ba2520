//! A measured row, looked at before it is used: what was understood, and which lines are bad and why.

use crate::browser::app::App;
use cordonry::file::csv;
use cordonry::plan::Plan;
use cordonry::row::Row;
use cordonry::words::Arg;
use leptos::prelude::*;

/// A measured row that waits for a yes.
#[derive(Clone)]
pub struct Preview {
    name: String,
    row: Row,
    taken: usize,
    bad: Vec<(usize, String, String)>,
    said: Vec<String>,
}

/// Reads a table and shows what it holds.
pub fn look_at(app: App, name: &str, bytes: Vec<u8>) {
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    match csv::read(&bytes, &csv::Options::default()) {
        Ok(measured) => app.import.set(Some(Preview {
            name: stem.to_string(),
            row: measured.row,
            taken: measured.taken,
            bad: measured
                .bad
                .into_iter()
                .map(|b| (b.line, b.text, app.worded(|w| w.refusal(&b.why))))
                .collect(),
            said: measured
                .said
                .iter()
                .map(|s| app.worded(|w| w.text(s.key, &s.args)))
                .collect(),
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
pub fn ImportPreview(app: App) -> impl IntoView {
    move || {
        app.import.get().map(|p| {
            let row = p.row.clone();
            let name = p.name.clone();
            let trees = row.trees.len();
            // A row without a tree is begun by hand, not from a table of which nothing was understood.
            let usable = trees > 0;
            view! {
                <div class="veil">
                    <section
                        class="sheet"
                        role="dialog"
                        aria-modal="true"
                        aria-labelledby="import-title"
                        on:keydown=move |e| {
                            if e.key() == "Escape" {
                                app.import.set(None);
                            }
                        }
                    >
                        <h2 id="import-title">
                            {app.text("import-title", &[("file", Arg::Text(p.name.clone()))])}
                        </h2>
                        <p>
                            {app
                                .text(
                                    "import-taken",
                                    &[
                                        ("lines", Arg::Count(p.taken as i64)),
                                        ("trees", Arg::Count(trees as i64)),
                                    ],
                                )}
                        </p>
                        <ul class="said">
                            {p.said.iter().map(|s| view! { <li>{s.clone()}</li> }).collect_view()}
                        </ul>
                        {(!p.bad.is_empty())
                            .then(|| {
                                view! {
                                    <h3>
                                        {app
                                            .text(
                                                "import-bad",
                                                &[("count", Arg::Count(p.bad.len() as i64))],
                                            )}
                                    </h3>
                                    <div class="bad-lines" tabindex="0" role="region" aria-labelledby="import-title">
                                        <table>
                                            <tbody>
                                                {p
                                                    .bad
                                                    .iter()
                                                    .map(|(line, text, why)| {
                                                        view! {
                                                            <tr>
                                                                <th scope="row">{*line}</th>
                                                                <td>{why.clone()}</td>
                                                                <td>
                                                                    <code>{text.clone()}</code>
                                                                </td>
                                                            </tr>
                                                        }
                                                    })
                                                    .collect_view()}
                                            </tbody>
                                        </table>
                                    </div>
                                }
                            })}
                        <p class="choices">
                            <button
                                class="main"
                                autofocus=usable
                                disabled=!usable
                                data-act="import-use"
                                on:click=move |_| {
                                    app.import.set(None);
                                    app.open_plan(Plan::new(name.clone(), row.clone()), None);
                                }
                            >
                                {app.t("import-use")}
                            </button>
                            <button autofocus=!usable on:click=move |_| app.import.set(None)>
                                {app.t("import-leave")}
                            </button>
                        </p>
                    </section>
                </div>
            }
        })
    }
}
