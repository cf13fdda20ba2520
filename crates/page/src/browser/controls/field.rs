//! A field for one value, typed in the units in use.

use crate::browser::app::App;
use cordonry::refusal::Refusal;
use cordonry::typed::Unit;
use leptos::prelude::*;

/// What a field does with the value typed; `None` where the field was emptied.
pub type Apply = std::rc::Rc<dyn Fn(Option<f64>) -> Result<(), Refusal>>;

/// The sentence for a text that is no value of the unit.
pub fn unreadable(app: App, unit: Unit, text: &str) -> String {
    let key = match unit {
        Unit::Length => "field-no-length",
        Unit::Thickness => "field-no-thickness",
        Unit::Count => "field-no-count",
        Unit::Angle | Unit::Share | Unit::Number => "field-no-number",
    };
    app.text(
        key,
        &[("text", cordonry::said::Arg::Text(text.to_string()))],
    )
}

/// A labelled value. Enter and leaving the field apply it, Escape puts back what was there.
#[component]
pub fn ValueField(
    app: App,
    /// What is shown before it; also its name for those who can't see it.
    #[prop(into)]
    label: String,
    /// Its name for tests and styles.
    name: &'static str,
    unit: Unit,
    #[prop(into)] value: Signal<Option<f64>>,
    apply: Apply,
    /// Whether the label is for screen readers alone, since it stands beside the field already.
    #[prop(optional)]
    bare: bool,
) -> impl IntoView {
    let written = move || {
        let style = app.style.get();
        value
            .get()
            .map_or_else(String::new, |v| unit.write(v, style))
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
        let read = unit.read(&typed, app.style.get_untracked());
        if read.is_none() && !typed.trim().is_empty() {
            wrong.set(Some(unreadable(app, unit, &typed)));
            return;
        }
        match apply(read) {
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
