//! A number in a list of settings: its field, its range, how well founded it is, and the way back to its default.

use crate::browser::app::App;
use crate::browser::controls::field::{Apply, ValueField};
use crate::desk::Desk;
use crate::document::Edit;
use cordonry::refusal::Refusal;
use cordonry::said::Quantity;
use leptos::prelude::*;
use std::rc::Rc;

/// What sets a number; `None` puts its default back.
pub type SetNumber = Rc<dyn Fn(Option<f64>) -> Result<(), Refusal>>;

/// Such a number.
pub struct Numbered {
    /// Its name in files.
    pub key: &'static str,
    /// The text of its name.
    pub name: &'static str,
    /// In what it is typed.
    pub unit: Quantity,
    /// The text that stands behind it, where its unit is not typed.
    pub behind: Option<&'static str>,
    /// Least and largest value.
    pub range: (f64, f64),
    /// How well founded its default is.
    pub source: String,
    /// The value in force.
    pub value: Memo<Option<f64>>,
    /// Its default.
    pub usual: Memo<Option<f64>>,
    /// What sets it.
    pub set: SetNumber,
}

/// The way back to all defaults.
pub struct WayBack {
    /// The name of its button.
    pub act: &'static str,
    /// Whether there is nothing to put back.
    pub all_usual: fn(&Desk) -> bool,
    /// What puts all back.
    pub edit: fn() -> Edit,
}

/// A list of such numbers under a title, with what they are and the way back for all.
pub fn listed(
    app: App,
    (title, what): (&'static str, &'static str),
    back: WayBack,
    lines: Vec<AnyView>,
) -> AnyView {
    view! {
        <div class="limits">
            <h2>{app.t(title)}</h2>
            <p class="facts">{app.t(what)}</p>
            <p>
                <button
                    class="link"
                    data-act=back.act
                    disabled=move || app.read(back.all_usual).unwrap_or(true)
                    on:click=move |_| app.edit((back.edit)())
                >
                    {app.t("limits-reset-all")}
                </button>
            </p>
            <ul>{lines}</ul>
        </div>
    }
    .into_any()
}

/// The number's line.
pub fn numbered(app: App, of: Numbered) -> AnyView {
    let Numbered {
        key,
        name,
        unit,
        behind,
        range: (low, high),
        source,
        value,
        usual,
        set,
    } = of;
    let set = StoredValue::new_local(set);
    let give = move |v: Option<f64>| set.with_value(|set| set(v));
    let apply: Apply = Rc::new(move |v| give(v.first().copied()));
    let changed = move || value.get() != usual.get();
    let behind = behind.map(|key| app.t(key)).unwrap_or_default();
    let range = move || {
        app.style.track();
        let range = app.text(
            "limit-range",
            &[("low", unit.arg(low)), ("high", unit.arg(high))],
        );
        format!("{range} {behind}")
    };
    let back = move || {
        app.style.track();
        match usual.get() {
            Some(usual) => app.text("limit-reset", &[("value", unit.arg(usual))]),
            None => app.t("limit-reset-none"),
        }
    };
    view! {
        <li data-limit=key class:changed=changed>
            <ValueField app label=app.t(name) name=key unit value apply/>
            <span class="range">{range}</span>
            <span class="source">{source}</span>
            <span class="reset">
                {move || {
                    changed()
                        .then(|| {
                            view! {
                                <button
                                    class="link"
                                    data-act="limit-reset"
                                    on:click=move |_| {
                                        let _ = give(None);
                                    }
                                >
                                    {back}
                                </button>
                            }
                        })
                }}
            </span>
        </li>
    }
    .into_any()
}
