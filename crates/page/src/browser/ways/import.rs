//! A measured row, looked at before it is used: how far it is read, what was understood, and which lines are bad and why.

use super::incoming::Incoming;
use super::open;
use crate::browser::controls::dialog::Dialog;
use crate::browser::controls::tipped::{SetTipped, tipped_choice};
use crate::helper::Looked;
use cordonry::said::Arg;
use leptos::prelude::*;
use std::rc::Rc;

/// The table that comes in, over the page, with the two answers.
#[component]
pub fn Import(incoming: Incoming) -> impl IntoView {
    let Incoming { app, looked, .. } = incoming;
    let shown = Memo::new(move |_| incoming.shown.get());
    let usable = move || looked.with(|l| l.as_ref().is_some_and(|l| !l.plan().is_empty()));
    let title = move || app.text("import-title", &[("file", Arg::Text(incoming.name.get()))]);
    let tipped = RwSignal::new(None::<bool>);
    let take = move |_| {
        let plan = looked.with_untracked(|l| l.as_ref().map(|l| l.plan().to_string()));
        if let Some(plan) = plan {
            let name = incoming.name.get_untracked();
            open::take_plan(incoming, &name, plan.as_bytes(), tipped.get_untracked());
        }
    };
    // What was answered of one table is no answer of the next.
    Effect::new(move |_| {
        looked.track();
        tipped.set(None);
    });
    let asks = move || looked.with(|l| l.as_ref().is_some_and(Looked::asks_tipped));
    move || {
        shown.get().then(|| {
            view! {
                <Dialog
                    labelled_by="import-title"
                    node=incoming.sheet
                    on_close=move || incoming.forget()
                >
                    <h2 id="import-title">{title}</h2>
                    <p aria-live="polite">{how_far(incoming)}</p>
                    {move || match looked.get() {
                        Some(looked) => view! { <Details looked/> }.into_any(),
                        None => view! { <Bar incoming/> }.into_any(),
                    }}
                    {move || {
                        let set: SetTipped = Rc::new(move |to| tipped.set(to));
                        asks().then(|| tipped_choice(app, tipped.into(), set))
                    }}
                    <p class="choices">
                        <button
                            class="main"
                            autofocus=usable
                            disabled=move || !usable()
                            data-act="import-use"
                            on:click=take
                        >
                            {app.t("import-use")}
                        </button>
                        <button
                            data-act="import-leave"
                            autofocus=move || !usable()
                            on:click=move |_| incoming.leave()
                        >
                            {app.t("import-leave")}
                        </button>
                    </p>
                </Dialog>
            }
        })
    }
}

/// How much was understood, or how far it is read: in steps of a tenth, which those who are read to can follow.
fn how_far(incoming: Incoming) -> Memo<String> {
    let Incoming {
        app, looked, read, ..
    } = incoming;
    let tenths = Memo::new(move |_| {
        let (read, of) = read.get();
        ((read * 10.0 / of.max(1.0)) as i64, of as i64)
    });
    Memo::new(move |_| {
        if let Some(taken) = looked.with(|l| l.as_ref().map(|l| l.taken().to_string())) {
            return taken;
        }
        let (tenths, of) = tenths.get();
        let share = Arg::Share(tenths as f64 / 10.0);
        app.text(
            "import-reading",
            &[("share", share), ("lines", Arg::Count(of))],
        )
    })
}

/// How far a table is read.
#[component]
fn Bar(incoming: Incoming) -> impl IntoView {
    let share = move || {
        let (read, of) = incoming.read.get();
        (of > 0.0).then_some(read / of)
    };
    view! { <progress aria-labelledby="import-title" value=share></progress> }
}

/// What was assumed of a table, and which lines are left out.
#[component]
fn Details(looked: Looked) -> impl IntoView {
    let (said, bad) = looked.said_and_bad();
    let said = said.iter().map(|s| view! { <li>{s.clone()}</li> });
    let lines = bad.chunks_exact(3).map(|line| {
        view! {
            <tr>
                <th scope="row">{line[0].clone()}</th>
                <td>{line[1].clone()}</td>
                <td>
                    <code>{line[2].clone()}</code>
                </td>
            </tr>
        }
    });
    let bad_lines = (!bad.is_empty()).then(|| {
        view! {
            <h3>{looked.left_out().to_string()}</h3>
            <div class="bad-lines" tabindex="0" role="region" aria-labelledby="import-title">
                <table>
                    <tbody>{lines.collect_view()}</tbody>
                </table>
            </div>
        }
    });
    view! {
        <ul class="said">{said.collect_view()}</ul>
        {bad_lines}
    }
}
