//! The choice of the page's language.

use crate::browser::app::App;
use cordonry::units::LengthStyle;
use cordonry_words::{Language, Words};
use leptos::prelude::*;

/// Every language by its own name; nothing where there is but one. The page is loaded again in the one that is chosen,
/// for most of its texts are laid once.
#[component]
pub fn Languages(app: App) -> impl IntoView {
    let all = Language::all();
    let here = app.worded(|w| w.language());
    let option = move |language: &Language| {
        let name = Words::new(*language, LengthStyle::default()).plain("language-name");
        let code = language.code;
        let selected = code == here;
        view! { <option value=code lang=code selected=selected>{name}</option> }
    };
    (all.len() > 1).then(|| {
        view! {
            <select
                aria-label=app.t("language-choice")
                on:change=move |e| {
                    app.keep_language(&event_target_value(&e));
                    let _ = window().location().reload();
                }
            >
                {all.iter().map(option).collect_view()}
            </select>
        }
    })
}

/// Says on the page itself which language it is in.
pub fn say_language(app: App) {
    if let Some(root) = document().document_element() {
        let _ = app.worded(|w| root.set_attribute("lang", w.language()));
    }
}
