//! The language of what is handed out on paper: who works may speak another than who plans.

use crate::browser::app::App;
use crate::browser::parts::language;
use cordonry_words::{Language, Words};
use leptos::prelude::*;

/// The choice of it; none where there is one language alone.
pub fn spoken_choice(label: String, spoken: RwSignal<String>) -> Option<AnyView> {
    let all = Language::names();
    let option = move |(code, name): &(&'static str, &'static str)| {
        let (code, name) = (*code, *name);
        let selected = spoken.with_untracked(|s| s == code);
        view! { <option value=code lang=code selected=selected>{name}</option> }
    };
    (all.len() > 1).then(|| {
        view! {
            <label>
                {label} " "
                <select data-field="hand-language" on:change=move |e| spoken.set(event_target_value(&e))>
                    {all.iter().map(option).collect_view()}
                </select>
            </label>
        }
        .into_any()
    })
}

/// Has the page know the texts of what is handed out, which come with its part; the code of its own language.
pub fn learn_handed(app: App) -> &'static str {
    app.learn("hand-title", Language::crew)
}

/// The texts of a language, those of what is handed out with them; `None` where it does not come.
pub async fn spoken_words(app: App, code: &str) -> Option<Words> {
    if app.worded(|w| w.language().code == code) {
        return Some(app.worded(Words::clone));
    }
    let language = language(code).await;
    let there = language.code == code;
    let style = app.style.get_untracked();
    there.then(|| Words::new(language, style).with(Language::crew(code)))
}
