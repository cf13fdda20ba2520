//! The start page: the ways to a row, and the rows that this device keeps.

use super::examples::{EXAMPLES, Example, LESSONS};
use super::incoming::Incoming;
use super::kept;
use super::open;
use super::picker::FilePicker;
use crate::browser::app::Doorway;
use crate::browser::controls::languages::Languages;
use crate::browser::parts::shown;
use crate::browser::ways::doors::{MakeDoors, WalkDoor};
use leptos::prelude::*;
use std::rc::Rc;

/// What stands here until a row is opened.
#[component]
pub fn Start(incoming: Incoming, entry: RwSignal<Doorway>) -> impl IntoView {
    let app = incoming.app;
    let pasted = RwSignal::new(String::new());
    // What stood here when it was left is not what is kept now.
    incoming.kept.set(Some(Vec::new()));
    incoming.list_kept();
    view! {
        <main class="start">
            <h1 tabindex="-1">{app.t("start-title")}</h1>
            <p class="lead">{app.t("start-lead")}</p>
            <Languages app/>
            {move || match incoming.kept.with(|k| k.as_ref().map(|all| all.is_empty())) {
                Some(false) => shown(app, Rc::new(move || Box::pin(kept::list(incoming)))),
                Some(true) => ().into_any(),
                None => view! { <p class="refusal">{app.t("kept-denied")}</p> }.into_any(),
            }}
            <div class="ways">
                <section>
                    <h2>{app.t("way-file")}</h2>
                    <p>{app.t("way-file-help")}</p>
                    <FilePicker incoming/>
                </section>
                <section>
                    <h2>{app.t("way-paste")}</h2>
                    <p id="paste-help">{app.t("way-paste-help")}</p>
                    <textarea
                        rows="3"
                        aria-label=app.t("way-paste")
                        aria-describedby="paste-help"
                        placeholder=app.t("way-paste-sample")
                        prop:value=pasted
                        on:input=move |e| pasted.set(event_target_value(&e))
                    ></textarea>
                    <button
                        class="main"
                        disabled=move || pasted.with(|p| p.trim().is_empty())
                        on:click=move |_| {
                            open::take_bytes(incoming, &app.t("pasted-name"), pasted.get().into_bytes());
                        }
                    >
                        {app.t("way-paste-do")}
                    </button>
                </section>
                <WalkDoor app entry/>
                <section>
                    <h2>{app.t("way-lesson")}</h2>
                    <p>{app.t("way-lesson-help")}</p>
                    {listed(incoming, LESSONS)}
                </section>
                <section>
                    <h2>{app.t("way-example")}</h2>
                    <p>{app.t("way-example-help")}</p>
                    {listed(incoming, EXAMPLES)}
                </section>
                <MakeDoors app entry/>
            </div>
        </main>
    }
}

/// Examples as buttons that open them.
fn listed(incoming: Incoming, all: &'static [Example]) -> AnyView {
    let line = |(path, key): &'static Example| {
        let open = move |_| open::take_example(incoming, path);
        view! {
            <li>
                <button class="link" data-example=*path on:click=open>
                    {incoming.app.t(key)}
                </button>
            </li>
        }
    };
    view! { <ul class="examples">{all.iter().map(line).collect_view()}</ul> }.into_any()
}
