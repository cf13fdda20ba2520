//! Parts of the module that are loaded when they are first asked for.
//!
//! A function that is declared by [`part!`] stands, with all that it alone needs, in a file of its own that bears the
//! part's name. Whoever calls it waits for the file; the build in one file has no parts, and calls it at once.

use super::app::App;
use cordonry_words::Language;
use leptos::prelude::*;
use leptos::reactive::computed::ScopedFuture;
use std::future::Future;
use std::pin::{Pin, pin};
use std::rc::Rc;
use std::task::{Context, Poll, Waker};
use wasm_bindgen_futures::spawn_local;

/// Why a part is not there: its file did not come. The next call asks again.
#[derive(Debug)]
pub struct NotLoaded;

#[cfg(feature = "parts")]
impl From<wasm_split_helpers::SplitLoaderError> for NotLoaded {
    fn from(_: wasm_split_helpers::SplitLoaderError) -> Self {
        Self
    }
}

/// Declares a function of a part. It becomes `async`, and its answer a `Result` with [`NotLoaded`]; `return` and `?` do not
/// stand in it.
macro_rules! part {
    ($part:ident: $(#[$meta:meta])* $vis:vis fn $name:ident($($arg:ident: $of:ty),* $(,)?) -> $out:ty $body:block) => {
        #[cfg(feature = "parts")]
        $(#[$meta])*
        #[wasm_split_helpers::wasm_split($part, fallible)]
        $vis fn $name($($arg: $of),*) -> Result<$out, $crate::browser::parts::NotLoaded> {
            Ok($body)
        }

        #[cfg(not(feature = "parts"))]
        $(#[$meta])*
        $vis async fn $name($($arg: $of),*) -> Result<$out, $crate::browser::parts::NotLoaded> {
            Ok($body)
        }
    };
}

pub(in crate::browser) use part;

/// A view that a part makes.
pub type Coming = Pin<Box<dyn Future<Output = Result<AnyView, NotLoaded>>>>;

/// Shows a part's view once it is there, and in its place why it is not, with a way to ask again.
pub fn shown(app: App, make: Rc<dyn Fn() -> Coming>) -> AnyView {
    let there = RwSignal::new_local(None::<AnyView>);
    let asked = RwSignal::new(());
    Effect::new(move |_| {
        asked.track();
        let coming = untrack(|| make());
        // What the view watches ends with the place that it stands in.
        spawn_local(ScopedFuture::new(async move {
            let view = coming.await.unwrap_or_else(|_| missing(app, asked));
            there.try_set(Some(view));
        }));
    });
    (move || {
        there.track();
        there.write_untracked().take()
    })
    .into_any()
}

fn missing(app: App, asked: RwSignal<()>) -> AnyView {
    view! {
        <p class="refusal" role="alert">
            {app.t("part-missing")} " "
            <button class="link" data-act="part-again" on:click=move |_| asked.set(())>
                {app.t("part-again")}
            </button>
        </p>
    }
    .into_any()
}

/// The same, from the first time that it is wanted.
pub fn once_wanted(app: App, wanted: fn(App) -> bool, make: fn(App) -> Coming) -> AnyView {
    let ever = Memo::new(move |was: Option<&bool>| was == Some(&true) || wanted(app));
    (move || ever.get().then(|| shown(app, Rc::new(move || make(app))))).into_any()
}

/// What a part answers if it is there already.
pub fn at_once<T>(answer: impl Future<Output = Result<T, NotLoaded>>) -> Option<T> {
    match pin!(answer).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(answer) => answer.ok(),
        Poll::Pending => None,
    }
}

part! {panels: fn panels() -> () {}}
part! {paper: fn paper() -> () {}}

part! {languages:
    fn language_of(code: String) -> Option<Language> {
        Language::of(&code)
    }
}

/// The language of that code. The one that has every text is there; the others come with a part, and where that does not
/// come, or there is no such language, it is the first.
pub async fn language(code: &str) -> Language {
    if code == Language::WHOLE {
        return Language::default();
    }
    let found = language_of(code.to_string()).await;
    found.ok().flatten().unwrap_or_default()
}

/// Loads what opens on the desk.
pub async fn load_panels() {
    let _ = panels().await;
}

/// Does something once paper is there, or can't be.
pub fn once_paper(then: fn()) {
    spawn_local(async move {
        let _ = paper().await;
        then();
    });
}
