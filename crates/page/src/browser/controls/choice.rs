//! A choice among a few that is kept on the device.

use crate::browser::app::App;
use leptos::prelude::*;

/// The choice, named by the text `label`: each by the name under which it is kept, with its text. `now` is the one in force.
pub fn choice<const N: usize>(
    app: App,
    (label, field): (&'static str, &'static str),
    now: &'static str,
    all: [(&'static str, String); N],
    set: impl Fn(&str) + 'static,
) -> AnyView {
    let option = |(name, text): (&'static str, String)| {
        view! { <option value=name selected=name == now>{text}</option> }
    };
    view! {
        <label>
            {app.t(label)} " "
            <select data-field=field on:change=move |e| set(&event_target_value(&e))>
                {all.map(option).collect_view()}
            </select>
        </label>
    }
    .into_any()
}
