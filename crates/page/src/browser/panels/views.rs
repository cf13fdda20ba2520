//! What opens under the wall: wires, work on many at once, limits and site. Each is made when it is opened.

use crate::browser::app::App;
use crate::browser::controls::choice::choice;
use crate::browser::device::helper::Helper;
use crate::browser::panels::{assumptions, keys_list, limits, many, marks, wires};
use crate::browser::parts::{part, shown};
use cordonry_draw::ColourBy;
use leptos::prelude::*;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlDetailsElement;

/// The views, closed.
#[component]
pub fn Views(app: App, helper: Helper) -> impl IntoView {
    view! {
        <div class="views">
            <ColourChoice app/>
            <OneView app helper id="view-wires" title="wires-title"/>
            <OneView app helper id="view-many" title="many-title"/>
            <OneView app helper id="view-marks" title="marks-title"/>
            <OneView app helper id="view-keys" title="keys-title"/>
            <OneView app helper id="view-limits" title="limits-and-site"/>
            <OneView app helper id="view-assumptions" title="assumptions-title"/>
        </div>
    }
}

/// What the wood is coloured by.
#[component]
fn ColourChoice(app: App) -> impl IntoView {
    // Its light comes after the wall, and again with each exact answer.
    Effect::new(move |_| {
        if app.colour.get() == ColourBy::Light {
            app.light.tick.track();
            app.repaint();
        }
    });
    let all = ColourBy::ALL.map(|by| (by.name(), app.t(by.word())));
    let now = app.colour.get_untracked().name();
    choice(app, ("colour-by", "colour-by"), now, all, move |name| {
        ColourBy::named(name)
            .into_iter()
            .for_each(|by| app.set_colour(by));
    })
}

/// What the colours of the wood mean, while it has any.
#[component]
pub fn ColourKey(app: App) -> impl IntoView {
    move || {
        app.style.track();
        let by = app.colour.get();
        let told = by.told()?;
        let dark = by == ColourBy::Light && !app.light.on.get();
        let tones = app
            .worded(|w| by.key(w))
            .into_iter()
            .map(|(drawing, text)| {
                view! {
                    <span class="key">
                        <i inner_html=drawing></i>
                        {text}
                    </span>
                }
            });
        Some(view! {
            <p class="under-band sign-key" data-figure="colour-key">
                <span>{app.t(told)}</span>
                {tones.collect_view()}
                {dark.then(|| {
                    view! {
                        {app.t("colour-dark")} " "
                        <button
                            class="link"
                            data-act="colour-light"
                            on:click=move |_| app.light.toggle(app)
                        >
                            {app.t("colour-light-on")}
                        </button>
                    }
                })}
            </p>
        })
    }
}

part! {panels:
    fn opened(app: App, helper: Helper, title: &'static str) -> AnyView {
        match title {
            "wires-title" => view! { <wires::Wires app/> }.into_any(),
            "many-title" => view! { <many::Many app/> }.into_any(),
            "marks-title" => view! { <marks::Marks app/> }.into_any(),
            "assumptions-title" => view! { <assumptions::Assumptions app helper/> }.into_any(),
            "keys-title" => view! { <keys_list::KeysList app/> }.into_any(),
            _ => view! { <limits::LimitsAndSite app/> }.into_any(),
        }
    }
}

#[component]
fn OneView(app: App, helper: Helper, id: &'static str, title: &'static str) -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <details
            class="view"
            // One of them is open at a time: it takes the place of what is told under the wall.
            name="view"
            id=id
            on:toggle=move |e| {
                let details = e
                    .current_target()
                    .and_then(|t| t.dyn_into::<HtmlDetailsElement>().ok());
                open.set(details.is_some_and(|d| d.open()));
            }
        >
            <summary>{app.t(title)}</summary>
            <div class="view-body" tabindex="0">
                {move || open.get().then(|| shown(app, Rc::new(move || Box::pin(opened(app, helper, title)))))}
            </div>
        </details>
    }
}
