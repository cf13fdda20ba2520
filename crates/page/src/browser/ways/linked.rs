//! A link that comes in, by the page's own address or as a text: it becomes a row of its own, and nothing that is there is touched.

use crate::browser::app::App;
use crate::browser::parts::part;
use cordonry::file::link::{link_in, read_link};
use cordonry::plan::Plan;
use cordonry::said::Arg;
use cordonry_words::Language;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

part! {pass_on:
    /// The plan that a link holds, or why there is none.
    fn plan_of(app: App, link: String) -> Result<Plan, String> {
        learn_pass_on(app);
        read_link(&link).map_err(|why| {
            let why = app.worded(|w| w.refusal(&why));
            app.text("pass-on-refused", &[("why", Arg::Text(why))])
        })
    }
}

/// Has the page know the texts of passing on, which come with its part.
pub fn learn_pass_on(app: App) {
    app.learn("pass-on-title", Language::pass_on);
}

/// Opens the link in the page's address, if there is one, and whatever comes there later.
pub fn watch(app: App) {
    window_event_listener(leptos::ev::hashchange, move |_| {
        spawn_local(take_address(app));
    });
}

/// Opens the link in the page's address, if there is one; whether it became the row on the desk. The address is without it from
/// then on: loaded again, the page would make another row of it.
pub async fn take_address(app: App) {
    let hash = window().location().hash().unwrap_or_default();
    if let Some(link) = link_in(&hash) {
        let link = link.to_string();
        if let Ok(history) = window().history() {
            let state = history.state().unwrap_or_default();
            let _ = history.replace_state_with_url(&state, "", Some(&page_address()));
        }
        take_link(app, link).await;
    }
}

/// Opens a link.
pub async fn take_link(app: App, link: String) {
    match plan_of(app, link).await {
        Ok(Ok(plan)) => app.open_plan(plan, None),
        Ok(Err(why)) => app.say(why, true),
        Err(_) => app.say(app.t("part-missing"), true),
    }
}

/// The page's address, without what stands behind it.
pub fn page_address() -> String {
    let whole = window().location().href().unwrap_or_default();
    let end = whole.find(['?', '#']).unwrap_or(whole.len());
    whole[..end].to_string()
}
