//! The choice of the page's language.

use crate::browser::app::App;
use cordonry_words::Language;
use leptos::prelude::*;

/// Every language by its own name; nothing where there is but one. The page is loaded again in the one that is chosen,
/// for most of its texts are laid once.
#[component]
pub fn Languages(app: App) -> impl IntoView {
    let all = Language::names();
    let here = app.worded(|w| w.language().code);
    let option = move |(code, name): &(&'static str, &'static str)| {
        let (code, name) = (*code, *name);
        let selected = code == here;
        view! { <option value=code lang=code selected=selected>{name}</option> }
    };
    (all.len() > 1).then(|| {
        view! {
            <label class="language">
                {app.t("language-choice")} " "
                <select
                    data-field="language"
                    on:change=move |e| {
                        app.keep_language(&event_target_value(&e));
                        let _ = window().location().reload();
                    }
                >
                    {all.iter().map(option).collect_view()}
                </select>
            </label>
        }
    })
}

/// Says on the page itself which language it is in, and keeps what start.js has stand there when it is loaded again.
pub fn say_language(app: App) {
    let head = ["start-title", "start-lead", "page-loads"].map(|key| app.t(key));
    app.keep_head(&head.join("\n"));
    if let Some(root) = document().document_element() {
        let _ = app.worded(|w| root.set_attribute("lang", w.language().code));
    }
}
