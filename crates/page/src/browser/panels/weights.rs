//! What a draft weighs against what: closed until it is asked for, each with its range, and the way back.

use super::numbered::{Numbered, numbered};
use crate::browser::app::App;
use cordonry::advise::{Weight, Weights};
use cordonry::said::Quantity;
use leptos::prelude::*;
use std::rc::Rc;

fn named(weight: Weight) -> (&'static str, Quantity) {
    match weight {
        Weight::OverlapEach => ("weight-overlap-each", Quantity::Length),
        Weight::Overlap => ("weight-overlap", Quantity::Number),
        Weight::Upright => ("weight-upright", Quantity::Length),
        Weight::Wait => ("weight-wait", Quantity::Number),
        Weight::Spacing => ("weight-spacing", Quantity::Number),
        Weight::Bud => ("weight-bud", Quantity::Number),
        Weight::Notch => ("weight-notch", Quantity::Number),
        Weight::LongGap => ("weight-long-gap", Quantity::Number),
        Weight::LongGapMetre => ("weight-long-gap-metre", Quantity::Number),
    }
}

/// The weights of a draft; `weigh` takes others.
pub fn draft_weights(app: App, weights: RwSignal<Weights>, weigh: Callback<Weights>) -> AnyView {
    let one = move |weight: Weight| {
        let (key, usual, range) = weight.info();
        let (name, unit) = named(weight);
        let set = move |value: Option<f64>| {
            let by = weights.get_untracked();
            weigh.run(by.with(weight, value.unwrap_or(usual)));
            Ok(())
        };
        numbered(
            app,
            Numbered {
                key,
                name,
                unit,
                behind: None,
                range,
                source: app.t("weights-source"),
                value: Memo::new(move |_| Some(weights.with(|w| w.get(weight)))),
                usual: Memo::new(move |_| Some(usual)),
                set: Rc::new(set),
            },
        )
    };
    let all_usual = move || weights.with(|w| *w == Weights::default());
    view! {
        <details class="limits draft-weights">
            <summary>{app.t("weights-title")}</summary>
            <p class="facts">{app.t("weights-what")}</p>
            <button
                class="link"
                data-act="weights-reset"
                disabled=all_usual
                on:click=move |_| weigh.run(Weights::default())
            >
                {app.t("limits-reset-all")}
            </button>
            <ul>{Weight::ALL.map(one).into_iter().collect_view()}</ul>
        </details>
    }
    .into_any()
}
