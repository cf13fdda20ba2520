//! What opens under the wall: wires, work on many at once, limits and site. Each is made when it is opened.

use crate::browser::app::App;
use crate::browser::panels::{keys_list, limits, many, wires};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlDetailsElement;

/// The views, closed.
#[component]
pub fn Views(app: App) -> impl IntoView {
    view! {
        <div class="views">
            <OneView app id="view-wires" title="wires-title">
                {move || view! { <wires::Wires app/> }}
            </OneView>
            <OneView app id="view-many" title="many-title">
                {move || view! { <many::Many app/> }}
            </OneView>
            <OneView app id="view-keys" title="keys-title">
                {move || view! { <keys_list::KeysList app/> }}
            </OneView>
            <OneView app id="view-limits" title="limits-and-site">
                {move || view! { <limits::LimitsAndSite app/> }}
            </OneView>
        </div>
    }
}

#[component]
fn OneView(app: App, id: &'static str, title: &'static str, children: ChildrenFn) -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <details
            class="view"
            id=id
            on:toggle=move |e| {
                let details = e
                    .current_target()
                    .and_then(|t| t.dyn_into::<HtmlDetailsElement>().ok());
                open.set(details.is_some_and(|d| d.open()));
            }
        >
            <summary>{app.t(title)}</summary>
            {move || open.get().then(|| children())}
        </details>
    }
}
