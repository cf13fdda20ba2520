//! A button that opens a sheet over the page, which comes with a part of the module.

use crate::browser::app::App;
use crate::browser::parts::{Coming, shown};
use leptos::prelude::*;
use std::rc::Rc;

/// What is offered.
#[derive(Clone, Copy)]
pub struct Offer {
    /// The button's act, by which it is found.
    pub act: &'static str,
    /// What stands on it.
    pub does: &'static str,
    /// What it is for.
    pub what: &'static str,
    /// The sheet, which `open` closes.
    pub opened: fn(App, RwSignal<bool>) -> Coming,
}

impl Offer {
    /// The button.
    pub fn button(self, app: App, open: RwSignal<bool>) -> impl IntoView {
        view! {
            <button class="link" data-act=self.act title=app.t(self.what) on:click=move |_| open.set(true)>
                {app.t(self.does)}
            </button>
        }
    }

    /// The sheet over the page, while it is open.
    pub fn sheet(self, app: App, open: RwSignal<bool>) -> impl IntoView {
        move || {
            open.get()
                .then(|| shown(app, Rc::new(move || (self.opened)(app, open))))
        }
    }
}

/// That a draft is looked at which is not taken, so that nothing of it is handed out.
pub fn draft_not_taken(app: App) -> impl IntoView {
    (app.drafting.get_untracked())
        .then(|| view! { <p class="caution">{app.t("draft-not-taken")}</p> })
}
