//! One tab writes a record, by the browser's own locks.

use super::in_place::call;
use super::records::found;
use crate::browser::app::App;
use js_sys::{Array, Function, Promise, Reflect};
use leptos::prelude::*;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

thread_local! {
    /// The record that this tab holds, and what lets go of it when it is called.
    static HELD: RefCell<Option<(String, Function)>> = const { RefCell::new(None) };
}

/// Lets another tab write the record that this one held.
pub fn let_go() {
    if let Some((_, release)) = HELD.with_borrow_mut(Option::take) {
        let _ = release.call0(&JsValue::UNDEFINED);
    }
}

/// Makes this tab the one that writes a record, by the browser's own locks. While another tab holds it this one only
/// reads, and takes over once that one lets go. A browser without locks writes.
pub fn hold(app: App, id: String) {
    if HELD.with_borrow(|held| held.as_ref().is_some_and(|(held, _)| *held == id)) {
        return;
    }
    let_go();
    ask_for_lock(app, id, true, move |id, is_mine| {
        if is_mine {
            return;
        }
        app.saved_elsewhere();
        ask_for_lock(app, id, false, move |id, _| {
            spawn_local(async move {
                let device = found(&id).await;
                if app.record_id() == Some(id) {
                    app.takes_over(device);
                }
            });
        });
    });
}

/// Whether no tab holds a record. A browser without locks knows of none.
pub async fn is_free(id: &str) -> bool {
    let name = name_of(id);
    let navigator = JsValue::from(window().navigator());
    let asked = async {
        let locks = Reflect::get(&navigator, &"locks".into())?;
        let told = call(&locks, "query", &Array::new()).await?;
        Reflect::get(&told, &"held".into())
    };
    let held = asked.await.unwrap_or_else(|_: JsValue| Array::new().into());
    let is_it = |lock: JsValue| Reflect::get(&lock, &"name".into()).is_ok_and(|n| n == name);
    !Array::from(&held).iter().any(is_it)
}

fn name_of(id: &str) -> JsValue {
    format!("cordonry-plan-{id}").into()
}

/// Asks for a record's lock, at once or never or else for when it is free, and tells `then` whether this tab has it. Once
/// another record is on the desk nothing is held and nobody told.
fn ask_for_lock(
    app: App,
    id: String,
    at_once: bool,
    then: impl Fn(String, bool) + 'static,
) -> Option<()> {
    let navigator = JsValue::from(window().navigator());
    let locks = Reflect::get(&navigator, &"locks".into()).ok()?;
    let request: Function = Reflect::get(&locks, &"request".into())
        .ok()?
        .dyn_into()
        .ok()?;
    let options = js_sys::Object::new();
    let _ = Reflect::set(&options, &"ifAvailable".into(), &at_once.into());
    let name = name_of(&id);
    let granted = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if app.record_id().as_ref() != Some(&id) {
            return JsValue::UNDEFINED;
        }
        if lock.is_null() {
            then(id, false);
            return JsValue::UNDEFINED;
        }
        // The lock is held for as long as this promise is open.
        let promise = Promise::new(&mut |resolve, _| {
            let_go();
            HELD.set(Some((id.clone(), resolve)));
        });
        then(id, true);
        promise.into()
    });
    let promise: Promise = request
        .call3(&locks, &name, &options, &granted)
        .ok()?
        .dyn_into()
        .ok()?;
    spawn_local(async move {
        let _ = JsFuture::from(promise).await;
    });
    Some(())
}
