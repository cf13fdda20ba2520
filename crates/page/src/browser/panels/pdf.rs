//! The press that saves as a PDF what stands beside it to be printed.

use crate::browser::app::App;
use crate::browser::device::pdf::{Drawn, save};
use leptos::prelude::*;
use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;

/// The pages, or why there are none.
pub type Drawing = Pin<Box<dyn Future<Output = Result<Drawn, String>>>>;

/// How it stands with what was pressed.
#[derive(Clone, PartialEq)]
enum State {
    Idle,
    Busy,
    Wrong(String),
}

/// The press, with what is told of it; `of` says to who does not see where it stands what it saves.
pub fn pdf_press(app: App, of: Option<String>, draw: Rc<dyn Fn() -> Drawing>) -> AnyView {
    let state = RwSignal::new(State::Idle);
    let press = move |_| {
        if state.get_untracked() == State::Busy {
            return;
        }
        state.set(State::Busy);
        let drawing = draw();
        spawn_local(async move {
            let saved = match drawing.await {
                Ok(drawn) => save(app, drawn).await,
                Err(why) => Err(why),
            };
            // Where it stood may be gone by then.
            state.try_set(match saved {
                Ok(()) => State::Idle,
                Err(why) => State::Wrong(why),
            });
        });
    };
    let name = app.t("pdf");
    let label = of.map(|of| format!("{name}: {of}"));
    let busy = move || (state.get() == State::Busy).then(|| app.t("pdf-making"));
    let wrong = move || match state.get() {
        State::Wrong(why) => Some(view! { <span class="refusal" role="alert">{why}</span> }),
        _ => None,
    };
    view! {
        <button class="link" data-act="pdf" aria-label=label on:click=press>{name}</button>
        <span role="status">{busy}</span>
        {wrong}
    }
    .into_any()
}
