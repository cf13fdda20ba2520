//! The wires at the moment that is looked at, and work on them.

use crate::browser::app::App;
use crate::browser::controls::field::{Apply, ValueField};
use crate::document::Edit;
use cordonry::row::{Covering, Wire};
use cordonry::said::Arg;
use cordonry::said::Quantity;
use cordonry::units::Mm;
use cordonry::work::{Work, apply_to_trellis};
use leptos::prelude::*;
use std::rc::Rc;

/// Every wire with what can be done on it, and another one to stretch.
#[component]
pub fn Wires(app: App) -> impl IntoView {
    let heights = Memo::new(move |_| {
        app.read(|d| {
            let wires = d.scene().row.trellis.wires.iter();
            wires.map(|w| w.height).collect::<Vec<_>>()
        })
        .unwrap_or_default()
    });
    let done = Memo::new(move |_| {
        app.style.track();
        app.read(|d| {
            let works = d.scene().works_on_wires();
            works
                .iter()
                .map(|w| (w.clone(), app.worded(|words| words.work(w))))
                .collect::<Vec<_>>()
        })
        .unwrap_or_default()
    });
    let add: Apply = Rc::new(move |height| match height {
        [height, ..] => app
            .try_edit(Edit::wires(Work::stretching(Mm::round(*height))))
            .map(drop),
        [] => Ok(()),
    });
    // What a finding asks for is one press here too, once it has been tried.
    let due = Memo::new(move |_| {
        app.style.track();
        app.read(|d| {
            let mut all = d.all_findings().into_iter();
            let due = all.find(|f| f.asks_for_wire() && !d.is_out_of_date(f))?;
            let remedy = d.remedies(due).first().filter(|_| !d.is_found())?;
            Some((app.worded(|w| w.remedy(remedy)), remedy.clone()))
        })
        .flatten()
    });
    let from_the_top = move || {
        let wires = heights.get().into_iter().enumerate();
        wires.rev().collect::<Vec<(usize, Mm)>>()
    };
    let what = move || {
        app.t(if app.correcting() {
            "wires-record"
        } else {
            "wires-work"
        })
    };
    view! {
        <p class="facts">{what}</p>
        {move || {
            due.get().map(|(words, remedy)| view! {
                <p>
                    <button
                        class="main"
                        data-act="wire-due"
                        on:click=move |_| app.edit(Edit::mend(remedy.clone()))
                    >
                        {words}
                    </button>
                </p>
            })
        }}
        <ul class="wire-list">
            <For
                each=from_the_top
                key=|wire| *wire
                children=move |(i, height)| view! { <OneWire app i height/> }
            />
        </ul>
        <ValueField
            app
            label=app.t("wire-add")
            name="wire-add"
            unit=Quantity::Length
            value=Signal::stored(None)
            apply=add
        />
        {move || {
            let done = done.get();
            (!done.is_empty())
                .then(|| {
                    let items = done
                        .into_iter()
                        .map(|(work, words)| {
                            view! {
                                <li>
                                    <span>{words}</span>
                                    " "
                                    <button
                                        class="link"
                                        data-act="wire-take-back"
                                        on:click=move |_| app.edit(Edit::take_back(vec![work.clone()]))
                                    >
                                        {app.t("act-take-back")}
                                    </button>
                                </li>
                            }
                        })
                        .collect_view();
                    view! { <ul class="done">{items}</ul> }
                })
        }}
        <p class="caution">{app.t("caution-wire")}</p>
        <p class="caution">{app.t("caution-trellis")}</p>
    }
}

#[component]
fn OneWire(app: App, i: usize, height: Mm) -> impl IntoView {
    let wire = Memo::new(move |_| {
        let wire = app
            .read(|d| d.scene().row.trellis.wires.get(i).copied())
            .flatten();
        wire.unwrap_or(Wire {
            height,
            covering: Covering::Bare,
        })
    });
    let value = Memo::new(move |_| Some(wire.get().height.f()));
    let apply: Apply = Rc::new(move |to| match to {
        [to, ..] => app
            .try_edit(Edit::wires(Work::MoveWire {
                height_mm: height,
                to_mm: Mm::round(*to),
            }))
            .map(drop),
        [] => Ok(()),
    });
    let other = move || match wire.get().covering {
        Covering::Bare => ("wire-cover", Covering::Plastic),
        Covering::Plastic => ("wire-bare", Covering::Bare),
    };
    let state = move || match wire.get().covering {
        Covering::Bare => "wire-is-bare",
        Covering::Plastic => "wire-is-plastic",
    };
    let down = Work::RemoveWire { height_mm: height };
    let stays = app
        .peek(|d| apply_to_trellis(&d.scene().row.trellis, &down).is_err())
        .unwrap_or(true);
    let label = app.text("wire-number", &[("number", Arg::Count(i as i64 + 1))]);
    view! {
        <li data-wire=height.0>
            <ValueField app label name="wire-height" unit=Quantity::Length value apply/>
            <span>{move || app.t(state())}</span>
            <button
                class="link"
                data-act=move || other().0
                on:click=move |_| {
                    let covering = other().1;
                    app.edit(Edit::wires(Work::CoverWire { height_mm: height, covering }));
                }
            >
                {move || app.t(other().0)}
            </button>
            {(!stays)
                .then(|| {
                    view! {
                        <button
                            class="link"
                            data-act="wire-down"
                            on:click=move |_| {
                                app.edit(Edit::wires(down.clone()));
                            }
                        >
                            {app.t("wire-down")}
                        </button>
                    }
                })}
        </li>
    }
}
