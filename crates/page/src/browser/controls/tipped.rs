//! The question whether last year's growth had been tipped before it was measured.

use crate::browser::app::App;
use leptos::prelude::*;
use std::rc::Rc;

/// What takes the answer; `None` where it is not known.
pub type SetTipped = Rc<dyn Fn(Option<bool>)>;

/// The question with its three answers.
pub fn tipped_choice(app: App, now: Signal<Option<bool>>, set: SetTipped) -> AnyView {
    let option = |value: &'static str, key: &str| {
        view! { <option value=value>{app.t(key)}</option> }
    };
    let value = move || match now.get() {
        None => "",
        Some(true) => "yes",
        Some(false) => "no",
    };
    view! {
        <label>
            {app.t("import-tipped")} " "
            <select
                data-field="tipped"
                prop:value=value
                on:change=move |e| {
                    let value = event_target_value(&e);
                    set((!value.is_empty()).then(|| value == "yes"));
                }
            >
                {option("", "import-tipped-unknown")}
                {option("yes", "import-tipped-yes")}
                {option("no", "import-tipped-no")}
            </select>
        </label>
    }
    .into_any()
}
