//! The list of keys: for the eye under the wall, for the ear at the wall itself.

use crate::actions::{KeyLine, keys_of};
use crate::browser::app::App;
use leptos::prelude::*;

fn lines(app: App) -> Vec<KeyLine> {
    let mode = app.read(|d| d.mode()).unwrap_or_default();
    app.worded(|words| keys_of(mode, words))
}

/// What each key does.
#[component]
pub fn KeysList(app: App) -> impl IntoView {
    let line = |line: KeyLine| {
        let keys = line
            .keys
            .into_iter()
            .map(|key| view! { <kbd>{key}</kbd> " " });
        view! {
            <dt>{keys.collect_view()}</dt>
            <dd>{line.does}</dd>
        }
    };
    view! {
        <dl class="keys-list">{move || lines(app).into_iter().map(line).collect_view()}</dl>
        <p class="facts">{app.t("keys-pointer")}</p>
    }
}

/// The same as one text that describes the wall to a screen reader.
#[component]
pub fn WallHelp(app: App) -> impl IntoView {
    let said = Memo::new(move |_| {
        let lines = lines(app).into_iter();
        let mut said: Vec<String> = lines
            .map(|l| format!("{}: {}.", l.keys.join(", "), l.does))
            .collect();
        said.push(app.t("keys-pointer"));
        said.join(" ")
    });
    view! { <p id="wall-help" class="visually-hidden">{said}</p> }
}
