//! The list of the rows that this device keeps.

use super::archive;
use super::line::line;
use super::row::List;
use crate::browser::app::App;
use crate::browser::device::lasting;
use crate::browser::ways::incoming::Incoming;
use crate::browser::ways::picker::FilePicker;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The list, looking at one row after the other.
pub fn list(incoming: Incoming) -> AnyView {
    let app = incoming.app;
    let list = List::new(incoming);
    let (rows, all) = (list.rows, list.rows.get_untracked());
    spawn_local(async move {
        for row in all {
            if list.look(row).await.is_none() {
                return;
            }
        }
    });
    view! {
        <section class="kept">
            <h2>{app.t("kept-title")}</h2>
            <ul>
                {move || rows.get().into_iter().map(|row| line(list, row)).collect_view()}
            </ul>
            <p class="choices">
                <button data-act="all-save" on:click=move |_| archive::save(list)>
                    {app.t("kept-all-save")}
                </button>
                <FilePicker incoming label="kept-all-open"/>
            </p>
            {lasts(app)}
        </section>
    }
    .into_any()
}

/// Whether the browser keeps them for good, and a way to ask that it do.
fn lasts(app: App) -> impl IntoView {
    let told = RwSignal::new(None::<bool>);
    let hear = move |answer: Option<bool>| {
        let _ = told.try_set(answer);
    };
    spawn_local(async move { hear(lasting::is_kept().await) });
    let ask = move |_| {
        spawn_local(async move {
            let answer = lasting::keep().await;
            if answer != Some(true) {
                app.say(app.t("kept-lasting-not"), false);
            }
            hear(answer);
        });
    };
    move || {
        let kept = told.get()?;
        Some(match kept {
            true => {
                view! { <p class="when" data-lasts="yes">{app.t("kept-lasting")}</p> }.into_any()
            }
            false => view! {
                <p class="when" data-lasts="no">
                    {app.t("kept-passing")} " "
                    <button class="link" data-act="lasting" on:click=ask>
                        {app.t("kept-lasting-ask")}
                    </button>
                </p>
            }
            .into_any(),
        })
    }
}
