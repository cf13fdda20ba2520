//! The button by which a file comes in.

use super::incoming::Incoming;
use super::open;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

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
                    let input = e
                        .target()
                        .and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok());
                    if let Some(input) = input {
                        if let Some(file) = input.files().and_then(|f| f.get(0)) {
                            open::take_file(incoming, file);
                        }
                        input.set_value("");
                    }
                }
            />
        </label>
    }
}
