//! The trees and their shoots as a list: the wall for those who can't see it, and for the keyboard.

use crate::browser::app::App;
use cordonry::check::Part;
use cordonry::row::{Tree, TreeId};
use cordonry::said::Arg;
use leptos::prelude::*;
use std::sync::Arc;

/// A tree chosen by number, and its shoots as buttons.
#[component]
pub fn PartList(app: App) -> impl IntoView {
    let trees = Memo::new(move |_| {
        app.read(|d| {
            let row = &d.scene().row;
            let tree = |t: &Arc<Tree>| (t.id, row.bay(t).map(|b| (b.number, b.place)));
            row.trees.iter().map(tree).collect::<Vec<_>>()
        })
        .unwrap_or_default()
    });
    let here = Memo::new(move |_| {
        let chosen = app.read(|d| d.chosen().map(|c| c.tree)).flatten();
        chosen.or_else(|| trees.with(|t| t.first().map(|t| t.0)))
    });
    let shoots = Memo::new(move |_| {
        app.style.track();
        let Some(tree) = here.get() else {
            return Vec::new();
        };
        app.read(|d| {
            let Some(tree) = d.scene().row.tree(tree) else {
                return Vec::new();
            };
            tree.shoots
                .iter()
                .map(|s| {
                    let name = app.worded(|w| w.part(&d.scene().row, tree.id, Some(s.id)));
                    let length = app.text("value", &[("value", Arg::Length(s.length()))]);
                    let part = Part {
                        tree: tree.id,
                        shoot: Some(s.id),
                    };
                    let mut told = format!("{name}, {length}");
                    if !s.note.is_empty() {
                        told = format!("{told} – {}", s.note);
                    }
                    (part, told, d.chosen() == Some(part))
                })
                .collect()
        })
        .unwrap_or_default()
    });
    view! {
        <details class="part-list">
            <summary>{app.t("parts-title")}</summary>
            <label>
                {app.t("parts-tree")} " "
                <select
                    prop:value=move || here.get().map(|t| t.0.to_string())
                    on:change=move |e| {
                        if let Ok(n) = event_target_value(&e).parse() {
                            app.choose(Some(Part { tree: TreeId(n), shoot: None }));
                            app.show_chosen();
                        }
                    }
                >
                    // Which one is chosen the list alone follows: a thousand trees that each ask at every change weigh on a hand.
                    <For each=move || trees.get() key=|t| *t children=move |(t, _)| {
                        let selected = here.get_untracked() == Some(t);
                        let name = app.peek(|d| app.worded(|w| w.part(&d.scene().row, t, None)));
                        view! { <option value=t.0.to_string() selected=selected>{name}</option> }
                    }/>
                </select>
            </label>
            <ul>
                {move || {
                    shoots
                        .get()
                        .into_iter()
                        .map(|(part, name, chosen)| {
                            view! {
                                <li>
                                    <button
                                        class="link"
                                        aria-pressed=chosen.to_string()
                                        on:click=move |_| {
                                            app.choose(Some(part));
                                            app.show_chosen();
                                        }
                                    >
                                        {name}
                                    </button>
                                </li>
                            }
                        })
                        .collect_view()
                }}
            </ul>
        </details>
    }
}
