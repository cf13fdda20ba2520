//! A field for one value, typed in the units in use.

use crate::browser::app::App;
use cordonry::refusal::Refusal;
use cordonry::said::Quantity;
use leptos::prelude::*;

/// What a field does with the value typed; with none where the field was emptied, with several where it takes a sum.
pub type Apply = std::rc::Rc<dyn Fn(&[f64]) -> Result<(), Refusal>>;

/// A labelled value. Enter and leaving the field apply it, Escape puts back what was there.
#[component]
pub fn ValueField(
    app: App,
    /// What is shown before it; also its name for those who can't see it.
    #[prop(into)]
    label: String,
    /// Its name for tests and styles.
    name: &'static str,
    unit: Quantity,
    #[prop(into)] value: Signal<Option<f64>>,
    apply: Apply,
    /// Whether the label is for screen readers alone, since it stands beside the field already.
    #[prop(optional)]
    bare: bool,
    /// Whether several values with a `+` between them are taken.
    #[prop(optional)]
    sum: bool,
) -> impl IntoView {
    let written = move || {
        app.style.track();
        value
            .get()
            .map_or_else(String::new, |v| app.worded(|w| w.field(unit, v)))
    };
    let shown = Memo::new(move |_| written());
    let text = RwSignal::new(shown.get_untracked());
    let wrong = RwSignal::new(None::<String>);
    Effect::new(move |_| {
        text.set(shown.get());
        wrong.set(None);
    });
    let take = move || {
        let typed = text.get_untracked();
        if typed == shown.get_untracked() {
            wrong.set(None);
            return;
        }
        let mut read = Vec::new();
        for part in typed.split(|c| sum && c == '+') {
            match app.worded(|w| w.read(unit, part)) {
                Ok(value) => read.push(value),
                Err(_) if typed.trim().is_empty() => {}
                Err(why) => return wrong.set(Some(app.said(&why))),
            }
        }
        match apply(&read) {
            Ok(()) => {
                wrong.set(None);
                // A value that comes out as it was is written as it is.
                text.set(shown.get_untracked());
            }
            Err(why) => wrong.set(Some(app.worded(|w| w.refusal(&why)))),
        }
    };
    let take = std::rc::Rc::new(take);
    let take_too = std::rc::Rc::clone(&take);
    view! {
        <label class="field" data-field=name>
            <span class:visually-hidden=bare>{label}</span>
            " "
            <input
                type="text"
                autocomplete="off"
                prop:value=text
                on:input=move |e| text.set(event_target_value(&e))
                on:change=move |_| take()
                on:keydown=move |e| {
                    if e.key() == "Enter" {
                        e.prevent_default();
                        take_too();
                    }
                    if e.key() == "Escape" && text.get_untracked() != shown.get_untracked() {
                        text.set(shown.get_untracked());
                        wrong.set(None);
                        e.stop_propagation();
                    }
                }
                aria-invalid=move || wrong.get().is_some().to_string()
            />
            {move || wrong.get().map(|w| view! { <span class="wrong" role="alert">{w}</span> })}
        </label>
    }
}
