//! Whether the browser keeps what is on the device for good, or may clear it when it runs short of room.

use super::in_place::call;
use js_sys::{Array, Reflect};
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// What the browser answers to `persisted` or, asked to do so, `persist`; `None` where it knows of no such thing.
async fn ask(method: &str) -> Option<bool> {
    let navigator = JsValue::from(window().navigator());
    let storage = Reflect::get(&navigator, &"storage".into()).ok()?;
    call(&storage, method, &Array::new()).await.ok()?.as_bool()
}

/// Whether it keeps it for good.
pub async fn is_kept() -> Option<bool> {
    ask("persisted").await
}

/// Asks that it do so; whether it does.
pub async fn keep() -> Option<bool> {
    match is_kept().await {
        Some(false) => ask("persist").await,
        answer => answer,
    }
}
