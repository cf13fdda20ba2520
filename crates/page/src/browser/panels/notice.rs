//! What is said at the foot of the page: news, which goes by itself, and what is grave, which stays.

use crate::browser::app::{App, Notice};
use leptos::prelude::*;
use std::time::Duration;

/// How long news stays, by its length: time to read it twice.
fn stay(text: &str) -> Duration {
    Duration::from_millis(4_000 + 60 * text.chars().count().min(200) as u64)
}

/// What is said at the foot of the page. The places for it are always there: only so is it read out.
#[component]
pub fn Notices(app: App) -> impl IntoView {
    let of = move |grave: bool| move || app.notice.get().filter(|n| n.grave == grave);
    let (news, grave) = (of(false), of(true));
    view! {
        <div role="status">{move || news().map(|said| view! { <News app said/> })}</div>
        <div role="alert">{move || grave().map(|said| view! { <NoticeLine app said/> })}</div>
    }
}

/// News: gone after a while, but not from under a pointer or the focus.
#[component]
fn News(app: App, said: Notice) -> impl IntoView {
    let waiting = StoredValue::new_local(None::<TimeoutHandle>);
    let hold = move || {
        if let Some(handle) = waiting.try_update_value(Option::take).flatten() {
            handle.clear();
        }
    };
    let after = stay(&said.text);
    let go = move || {
        hold();
        let handle = set_timeout_with_handle(move || app.notice.set(None), after).ok();
        waiting.set_value(handle);
    };
    go();
    on_cleanup(hold);
    view! {
        <div
            data-said="news"
            on:pointerenter=move |_| hold()
            on:pointerleave=move |_| go()
            on:focusin=move |_| hold()
            on:focusout=move |_| go()
        >
            <NoticeLine app said/>
        </div>
    }
}

#[component]
fn NoticeLine(app: App, said: Notice) -> impl IntoView {
    view! {
        <div class="notice" class:grave=said.grave>
            <span>{said.text}</span>
            <button
                class="link"
                aria-label=app.t("notice-close")
                on:click=move |_| app.notice.set(None)
            >
                "×"
            </button>
        </div>
    }
}

/// Says quietly that a newer build waits on the device, which www/start.js tells, and loads it at a press.
#[component]
pub fn NewerBuild(app: App) -> impl IntoView {
    let waits = RwSignal::new(false);
    window_event_listener_untyped("cordonry-newer", move |_| waits.set(true));
    let load = move |_| {
        if app.may_leave()
            && let Ok(told) = web_sys::Event::new("cordonry-load-newer")
        {
            let _ = window().dispatch_event(&told);
        }
    };
    let line = move || {
        view! {
            <p class="newer">
                <span>{app.t("newer-build")}</span>
                <button class="link" data-act="load-newer" on:click=load>
                    {app.t("newer-build-load")}
                </button>
                <button class="link" on:click=move |_| waits.set(false)>
                    {app.t("newer-build-later")}
                </button>
            </p>
        }
    };
    view! { <div role="status">{move || waits.get().then(line)}</div> }
}

/// What is shown once the module can no longer be asked: www/start.js opens it and does what its buttons say.
#[component]
pub fn Trapped(app: App) -> impl IntoView {
    let button = |name: &'static str| view! { <button data-act=name>{app.t(name)}</button> };
    view! {
        <dialog id="trapped" role="alertdialog" aria-labelledby="trapped-title">
            <h2 id="trapped-title">{app.t("trapped-title")}</h2>
            <p>{app.t("trapped-what")}</p>
            <div class="choices">
                {button("trapped-open")} {button("trapped-save")} {button("trapped-start")}
            </div>
        </dialog>
    }
}
