//! The doors to the ways that begin with nothing, and the page that a form of theirs stands on.

use crate::browser::app::{App, Doorway};
use crate::browser::device::settings;
use cordonry::said::Arg;
use leptos::prelude::*;

/// The door to a walk along a row that stands.
#[component]
pub fn WalkDoor(app: App, entry: RwSignal<Doorway>) -> impl IntoView {
    let kept = RwSignal::new(settings::kept_walk());
    let go_on = move |walk: &cordonry::walk::Walk| match walk.ask().tree() {
        Some(tree) => app.text("way-walk-on", &[("tree", Arg::Count(tree.into()))]),
        None => app.t("way-walk-open"),
    };
    view! {
        <section>
            <h2>{app.t("way-walk")}</h2>
            <p>{app.t("way-walk-help")}</p>
            {move || match kept.with(|k| k.as_ref().map(go_on)) {
                Some(label) => {
                    view! {
                        <button class="main" data-way="walk-on" on:click=move |_| entry.set(Doorway::Walk)>
                            {label}
                        </button>
                        <button
                            class="link quiet"
                            on:click=move |_| {
                                let sure = window()
                                    .confirm_with_message(&app.t("way-walk-drop-sure"))
                                    .unwrap_or(false);
                                if sure {
                                    settings::keep_walk(None);
                                    kept.set(None);
                                }
                            }
                        >
                            {app.t("way-walk-drop")}
                        </button>
                    }
                        .into_any()
                }
                None => {
                    view! {
                        <button class="main" data-way="walk" on:click=move |_| entry.set(Doorway::Setup)>
                            {app.t("way-walk-do")}
                        </button>
                    }
                        .into_any()
                }
            }}
        </section>
    }
}

/// The doors to rows that are made.
#[component]
pub fn MakeDoors(app: App, entry: RwSignal<Doorway>) -> impl IntoView {
    view! {
        <section>
            <h2>{app.t("way-make")}</h2>
            <p>{app.t("way-make-help")}</p>
            <button class="main" data-way="make" on:click=move |_| entry.set(Doorway::Make)>
                {app.t("way-make-do")}
            </button>
        </section>
        <section>
            <h2>{app.t("way-empty")}</h2>
            <p>{app.t("way-empty-help")}</p>
            <button class="main" data-way="empty" on:click=move |_| entry.set(Doorway::Empty)>
                {app.t("way-empty-do")}
            </button>
        </section>
    }
}

/// A form on a page of its own.
#[component]
pub fn FormPage(
    app: App,
    entry: RwSignal<Doorway>,
    /// Name of its texts: the title, `-help` and `-do`.
    name: &'static str,
    /// What pressing its button does.
    done: Callback<()>,
    children: Children,
) -> impl IntoView {
    view! {
        <main class="start entry">
            <h1 tabindex="-1">{app.t(name)}</h1>
            <p class="lead">{app.t(&format!("{name}-help"))}</p>
            <form
                novalidate
                on:submit=move |e| {
                    e.prevent_default();
                    done.run(());
                }
            >
                {children()}
                // What a field says when it loses the focus must not move the button from under the finger.
                <p class="choices" on:mousedown=move |e| e.prevent_default()>
                    <button type="submit" class="main">{app.t(&format!("{name}-go"))}</button>
                    <button type="button" on:click=move |_| entry.set(Doorway::Start)>
                        {app.t("entry-leave")}
                    </button>
                </p>
            </form>
        </main>
    }
}
