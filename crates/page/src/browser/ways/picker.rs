//! The button by which a file comes in.

use super::incoming::Incoming;
use super::open;
use crate::browser::device::files::chosen;
use leptos::prelude::*;

/// A button that asks for a file.
#[component]
pub fn FilePicker(
    incoming: Incoming,
    /// The text on it.
    #[prop(default = "file-choose")]
    label: &'static str,
) -> impl IntoView {
    let app = incoming.app;
    view! {
        <label class="button" class:main=label == "file-choose">
            {app.t(label)}
            <input
                class="visually-hidden"
                type="file"
                accept=".json,.csv,.tsv,.txt,application/json,text/csv"
                on:change=move |e| {
                    if let Some(file) = chosen(&e) {
                        open::take_file(incoming, file);
                    }
                }
            />
        </label>
    }
}
