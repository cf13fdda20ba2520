//! One kind of work on many trees at once.

use crate::browser::app::App;
use crate::desk::Desk;
use crate::document::Edit;
use cordonry::row::TreeId;
use cordonry::said::Arg;
use cordonry::work::{Sweep, Work};
use leptos::prelude::*;

/// Which trees.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Whom {
    Row,
    Numbers(u32, u32),
    Chosen,
    Nobody,
}

/// A field for a tree's number; `key` is its text's name.
fn tree_number(app: App, key: &'static str, number: RwSignal<String>) -> impl IntoView {
    view! {
        <label>
            {app.t(key)} " "
            <input
                type="text"
                inputmode="numeric"
                data-field=key
                prop:value=number
                on:input=move |e| number.set(event_target_value(&e))
            />
        </label>
    }
}

/// Which trees, which work, how many shoots it would touch, and doing it.
#[component]
pub fn Many(app: App) -> impl IntoView {
    let whom = RwSignal::new("many-row");
    let ends = app
        .peek(|d| {
            let ids = || d.scene().row.trees.iter().map(|t| t.id.0);
            (ids().min().unwrap_or(1), ids().max().unwrap_or(1))
        })
        .unwrap_or((1, 1));
    let from = RwSignal::new(ends.0.to_string());
    let to = RwSignal::new(ends.1.to_string());
    let kinds = app
        .peek(|d| Sweep::all(&d.scene().row, &d.plan().targets))
        .map(|all| all.to_vec())
        .unwrap_or_default();
    let kind = RwSignal::new(kinds.first().copied().unwrap_or(Sweep::Laterals));
    let number = RwSignal::new(String::new());
    let usual = move |sweep: Sweep| {
        let asked = sweep.asked();
        asked.map_or_else(String::new, |a| app.worded(|w| w.field(a.unit, a.usual)))
    };
    let trees = move || match whom.get() {
        "many-row" => Whom::Row,
        "many-chosen" => Whom::Chosen,
        _ => match (from.get().trim().parse(), to.get().trim().parse()) {
            (Ok(a), Ok(b)) => Whom::Numbers(a, b),
            _ => Whom::Nobody,
        },
    };
    // The sweep with the number typed, or what is wrong with it.
    let sweep = move || -> Result<Sweep, String> {
        let kind = kind.get();
        let Some(asked) = kind.asked() else {
            return Ok(kind);
        };
        let text = number.get();
        app.style.track();
        app.worded(|w| w.read(asked.unit, &text))
            .map(|number| kind.with(number))
            .map_err(|why| app.said(&why))
    };
    let works = Memo::new(move |_| -> Result<Vec<Work>, String> {
        let (whom, sweep) = (trees(), sweep()?);
        let found = app.read(|d| {
            let chosen = d.chosen().map(|c| c.tree);
            let picked = |tree: TreeId| match whom {
                Whom::Row => true,
                Whom::Numbers(a, b) => (a..=b).contains(&tree.0),
                Whom::Chosen => chosen == Some(tree),
                Whom::Nobody => false,
            };
            if d.is_holding() || d.is_found() {
                Vec::new()
            } else {
                d.swept(sweep, picked)
            }
        });
        let found = found.unwrap_or_default();
        let why = match sweep.asked() {
            Some(asked) if found.is_empty() => {
                app.worded(|w| w.read(asked.unit, &number.get())).ok()
            }
            _ => None,
        }
        .and_then(|typed| {
            let scene = |d: &Desk| {
                let seen = d.scene();
                sweep.out_of_range(&seen.row, seen.moment, &seen.terms, typed)
            };
            app.peek(scene).flatten()
        });
        match why {
            Some(why) => Err(app.worded(|w| w.refusal(&why))),
            None => Ok(found),
        }
    });
    let count = move || works.with(|w| w.as_ref().map_or(0, Vec::len));
    let said = move || {
        works.with(|w| match w {
            Err(wrong) => wrong.clone(),
            Ok(works) => {
                let mut trees: Vec<TreeId> = works.iter().filter_map(Work::tree).collect();
                trees.dedup();
                app.text(
                    "many-count",
                    &[
                        ("shoots", Arg::Count(works.len() as i64)),
                        ("trees", Arg::Count(trees.len() as i64)),
                    ],
                )
            }
        })
    };
    let act = move || {
        let Ok(works) = works.get_untracked() else {
            return;
        };
        let shoots = works.len() as i64;
        if shoots == 0 {
            return;
        }
        match app.try_edit(Edit::work("step-many", works)) {
            Ok(_) => app.say(
                app.text("said-many", &[("shoots", Arg::Count(shoots))]),
                false,
            ),
            Err(why) => app.refuse(&why),
        }
    };
    let options = kinds
        .iter()
        .map(|k| view! { <option value=k.key()>{app.t(k.key())}</option> })
        .collect_view();
    let pick_kind = move |key: String| {
        if let Some(next) = kinds.iter().find(|k| k.key() == key) {
            kind.set(*next);
            number.set(usual(*next));
        }
    };
    view! {
        <form
            class="many"
            on:submit=move |e| {
                e.prevent_default();
                act();
            }
        >
            <label>
                {app.t("many-whom")} " "
                <select
                    data-field="many-whom"
                    on:change=move |e| {
                        let wanted = event_target_value(&e);
                        let keys = ["many-row", "many-numbers", "many-chosen"];
                        if let Some(key) = keys.into_iter().find(|k| *k == wanted) {
                            whom.set(key);
                        }
                    }
                >
                    {["many-row", "many-numbers", "many-chosen"]
                        .map(|key| view! { <option value=key>{app.t(key)}</option> })
                        .collect_view()}
                </select>
            </label>
            {move || {
                (whom.get() == "many-numbers")
                    .then(|| {
                        [tree_number(app, "many-from", from), tree_number(app, "many-to", to)]
                    })
            }}
            <label>
                {app.t("many-what")} " "
                <select data-field="many-what" on:change=move |e| pick_kind(event_target_value(&e))>
                    {options}
                </select>
            </label>
            {move || {
                kind.get()
                    .asked()
                    .map(|_| {
                        view! {
                            <input
                                type="text"
                                autocomplete="off"
                                aria-label=app.t(kind.get().key())
                                data-field="many-number"
                                prop:value=number
                                on:input=move |e| number.set(event_target_value(&e))
                            />
                        }
                    })
            }}
            <output role="status" data-field="many-count" class:wrong=move || works.with(Result::is_err)>
                {said}
            </output>
            <button class="main" data-act="many-do" disabled=move || count() == 0>
                {app.t("ask-do")}
            </button>
        </form>
        {move || {
            app.correcting().then(|| view! { <p class="facts">{app.t("many-not-now")}</p> })
        }}
        {move || kind.get().caution().map(|key| view! { <p class="caution">{app.t(key)}</p> })}
    }
}
