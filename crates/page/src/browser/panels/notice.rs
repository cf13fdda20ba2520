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
