//! Saving into one file again and again, where the browser can.

use crate::browser::app::App;
use crate::browser::device::files::{file_name, save_plan};
use js_sys::{Array, Function, Object, Promise, Reflect};
use leptos::prelude::*;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

thread_local! {
    /// The file that the plan on the desk is saved into.
    static FILE: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

/// Whether the browser can save into a file in place.
pub fn can() -> bool {
    Reflect::has(&window(), &"showSaveFilePicker".into()).unwrap_or(false)
}

/// Lets go of the file: another plan is on the desk.
pub fn forget() {
    FILE.set(None);
}

/// Saves the plan: into its file if it has one, else as a download.
pub fn save(app: App) {
    if FILE.with_borrow(Option::is_some) {
        save_into(app);
    } else {
        save_plan(app);
    }
}

/// Saves the plan into a file, asking for one the first time.
pub fn save_into(app: App) {
    let text = app.peek(|d| {
        (
            file_name(d.plan(), "json"),
            cordonry::file::write_plan(d.plan()),
        )
    });
    let Some((name, text)) = text else { return };
    spawn_local(async move {
        let written = async {
            let file = match FILE.with_borrow(Clone::clone) {
                Some(file) => file,
                None => {
                    let file = ask(&name).await?;
                    FILE.set(Some(file.clone()));
                    file
                }
            };
            replace(&file, &text).await
        };
        match written.await {
            Ok(_) => app.say(app.t("saved-in-place"), false),
            // Closing the browser's window without a choice is no fault.
            Err(why) if is_abort(&why) && FILE.with_borrow(Option::is_none) => {}
            Err(_) => {
                forget();
                app.say(app.t("in-place-refused"), true);
            }
        }
    });
}

/// Puts a text in the place of all that a file holds. The browser writes it beside the file, which it replaces when that is
/// closed: until then the file is as it was, and it stays so where anything fails.
async fn replace(file: &JsValue, text: &str) -> Result<JsValue, JsValue> {
    let writer = call(file, "createWritable", &Array::new()).await?;
    let written = async {
        call(&writer, "write", &Array::of1(&text.into())).await?;
        call(&writer, "close", &Array::new()).await
    };
    let written = written.await;
    if written.is_err() {
        // What was written beside it goes too; a writer that has failed by itself has seen to that.
        let _ = call(&writer, "abort", &Array::new()).await;
    }
    written
}

fn is_abort(why: &JsValue) -> bool {
    Reflect::get(why, &"name".into()).is_ok_and(|name| name == "AbortError")
}

async fn ask(name: &str) -> Result<JsValue, JsValue> {
    let accept = Object::new();
    Reflect::set(
        &accept,
        &"application/json".into(),
        &Array::of1(&".json".into()),
    )?;
    let kind = Object::new();
    Reflect::set(&kind, &"accept".into(), &accept)?;
    let options = Object::new();
    Reflect::set(&options, &"suggestedName".into(), &name.into())?;
    Reflect::set(&options, &"types".into(), &Array::of1(&kind))?;
    call(&window(), "showSaveFilePicker", &Array::of1(&options)).await
}

/// Calls a method that gives a promise, and waits for it.
pub(super) async fn call(
    on: &JsValue,
    method: &str,
    arguments: &Array,
) -> Result<JsValue, JsValue> {
    let method: Function = Reflect::get(on, &method.into())?.dyn_into()?;
    let promise: Promise = method.apply(on, arguments)?.dyn_into()?;
    JsFuture::from(promise).await
}
