//! The page itself.

mod app;
mod commands;
mod controls;
mod desk;
mod device;
mod dom;
mod hand;
mod panels;
mod parts;
mod wall;
mod ways;

use crate::bench_row;
use crate::helper::{Body, Memory, Message, Reply};
use crate::keeping::KeptRow;
use app::{App, Doorway, Keeper as _};
use cordonry::units::LengthStyle;
use cordonry_words::{Language, Words};
use device::{helper, records, settings, store, tried};
use hand::{keys, once};
use leptos::ev;
use leptos::prelude::*;
use panels::{notice, print};
use parts::part;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use ways::{back, entry, found, import, incoming, kept, linked, open};

/// Starts the page; `start_helper` gives a worker with a second instance of this module, `note` takes note of what is to be
/// kept of the plan and says whether it may be.
#[wasm_bindgen(js_name = startPage)]
pub fn start_page(start_helper: js_sys::Function, note: js_sys::Function) {
    console_error_panic_hook::set_once();
    records::set_note(note);
    let code = store::Device.language();
    if code == Language::WHOLE {
        return show(Language::default(), start_helper);
    }
    wasm_bindgen_futures::spawn_local(async move {
        show(parts::language(&code).await, start_helper);
    });
}

/// Puts the page in the place of what says that it is loading.
fn show(language: Language, start_helper: js_sys::Function) {
    if let Some(loading) = document().get_element_by_id("loading") {
        loading.remove();
    }
    if let Some(head) = document().head()
        && let Ok(style) = document().create_element("style")
    {
        style.set_text_content(Some(cordonry_draw::STYLE));
        let _ = head.prepend_with_node_1(&style);
    }
    mount_to_body(move || view! { <Page language start_helper/> });
}

#[component]
fn Page(language: Language, start_helper: js_sys::Function) -> impl IntoView {
    let app = App::new(Rc::new(store::Device), language);
    controls::languages::say_language(app);
    let helper = helper::Helper::start(app, &start_helper);
    let incoming = incoming::Incoming::new(app, start_helper);
    window_event_listener(ev::keydown, move |e| {
        if app.open.get_untracked() && !dom::in_text(&e) && keys::everywhere(app, &e) {
            e.prevent_default();
        }
    });
    print::watch_print(app, helper);
    once::watch();
    ask_before_leaving(app);
    // Nothing waits for its quarter of a second when the page goes.
    window_event_listener(ev::pagehide, move |_| {
        app.hides();
        tried::ends();
    });
    window_event_listener(ev::visibilitychange, move |_| app.hides());
    window_event_listener(ev::dragover, |e| e.prevent_default());
    window_event_listener(ev::drop, move |e| {
        e.prevent_default();
        if let Some(given) = e.data_transfer().and_then(|d| d.files()) {
            open::take_files(incoming, &given);
        }
    });
    back::watch(app);
    linked::watch(app);
    watch_ground(app);
    watch_screen(app);
    begin(app);
    // A row that is opened over another takes its place on the desk that stands: a desk laid twice would paint its wall
    // on that of the first.
    let at_desk = Memo::new(move |_| app.open.get());
    view! {
        {move || {
            if at_desk.get() {
                view! { <desk::DeskPage app incoming helper/> }.into_any()
            } else {
                view! { <entry::Begin incoming/> }.into_any()
            }
        }}
        <import::Import incoming/>
        {kept::left_out(incoming)}
        <notice::Notices app/>
        <notice::NewerBuild app/>
        <notice::Trapped app/>
    }
}

/// Asks before the page goes while something would be lost by it, and only then.
fn ask_before_leaving(app: App) {
    let asks = Closure::<dyn Fn(web_sys::Event)>::new(|e: web_sys::Event| e.prevent_default());
    let asks = asks.into_js_value();
    Effect::new(move |_| {
        let at_risk = app.kept.get().is_at_risk() && app.open.get();
        window().set_onbeforeunload(at_risk.then(|| asks.unchecked_ref()));
    });
}

/// Draws anew what is painted in the colours of a light or a dark ground when the one becomes the other.
fn watch_ground(app: App) {
    let Ok(Some(dark)) = window().match_media("(prefers-color-scheme: dark)") else {
        return;
    };
    let turned = Closure::<dyn Fn()>::new(move || {
        app.style.notify();
        app.redraw();
    });
    let _ = dark.add_event_listener_with_callback("change", turned.as_ref().unchecked_ref());
    turned.forget();
}

/// Ends what is shown to a class when the browser gives up the whole screen.
fn watch_screen(app: App) {
    let turned = Closure::<dyn Fn()>::new(move || {
        if document().fullscreen_element().is_none() {
            app.present(false);
        }
    });
    let heard = turned.as_ref().unchecked_ref();
    let _ = document().add_event_listener_with_callback("fullscreenchange", heard);
    turned.forget();
}

/// Opens what was open last, or what the address asks for.
fn begin(app: App) {
    let search = window().location().search().unwrap_or_default();
    if let Some((trees, uprights)) = bench_row::asked(&search) {
        app.lay_plan(bench_row::plan(trees, uprights), Some("bench".into()));
        app.stands();
        return;
    }
    if settings::walk_is_open() {
        app.door.set(Doorway::Walk);
    }
    wasm_bindgen_futures::spawn_local(async move {
        if let Some(id) = store::last_open().await {
            // What can't be read is among the rows of the start page, which says why.
            let lay = |app: App, found| match app.open.get_untracked() {
                true => Ok(()),
                false => app.lay_found(found),
            };
            if found::lay(app, &id, lay).await.is_none() && tried::is_set_aside(&id).await {
                app.say(app.t("kept-set-aside"), true);
            }
        }
        app.stands();
        linked::take_address(app).await;
    });
}

thread_local! {
    /// What this instance remembers as a helper.
    static MEMORY: RefCell<Memory> = RefCell::default();
}

/// Has this instance speak the language of the page that it helps, before it is asked anything.
#[wasm_bindgen(js_name = speak)]
pub async fn speak(code: String) {
    let language = parts::language(&code).await;
    MEMORY.set(Memory::speaking(language));
}

/// Hears a message from the page that this instance helps.
///
/// # Errors
/// What is no message.
#[wasm_bindgen(js_name = hearMessage)]
pub async fn hear_message(sent: JsValue) -> Result<(), JsValue> {
    heard(sent).await.map_err(|_| not_loaded())?
}

part! {helper:
    fn heard(sent: JsValue) -> Result<(), JsValue> {
        let message = serde_wasm_bindgen::from_value::<Message>(sent);
        message
            .map(|message| MEMORY.with_borrow_mut(|memory| memory.hear(message)))
            .map_err(JsValue::from)
    }
}

fn not_loaded() -> JsValue {
    JsError::new("a part of the module did not come").into()
}

/// What a table of those bytes holds, with what was `answered` of it, in the words of the page that sent it: the texts of
/// [`Looked`](crate::helper::Looked). `tell` hears how many lines have been read, of about how many.
#[wasm_bindgen(js_name = readTable)]
pub async fn read_table(
    bytes: Vec<u8>,
    name: String,
    feet: bool,
    answered: Vec<String>,
    tell: js_sys::Function,
) -> Result<Vec<String>, JsValue> {
    let style = match feet {
        true => LengthStyle::FeetInches,
        false => LengthStyle::Metric,
    };
    let language = MEMORY.with_borrow(Memory::language);
    let words = Words::new(language, style);
    let read = incoming::read(bytes, name, words, answered, Some(tell));
    read.await.map_err(|_| not_loaded())
}

/// The plan file's text of what a page has noted of its plan, for a page that can no longer be asked.
///
/// # Errors
/// What can't be read.
#[wasm_bindgen(js_name = keptText)]
pub fn kept_text(noted: JsValue) -> Result<String, JsValue> {
    let row: KeptRow = serde_wasm_bindgen::from_value(noted)?;
    let (line, _) = row.line().map_err(|why| JsValue::from(why.to_string()))?;
    let plan = line.plan(line.now());
    Ok(plan.map_or_else(String::new, |plan| cordonry::file::write_plan(plan)))
}

/// What is seen of a row that is kept, as its texts, or one text that tells why it can't be read, in the words of the page
/// that sent it.
///
/// # Errors
/// What is no row.
#[wasm_bindgen(js_name = lookAtRow)]
pub async fn look_at_row(row: JsValue) -> Result<Vec<String>, JsValue> {
    let row: KeptRow = serde_wasm_bindgen::from_value(row)?;
    let words = Words::new(MEMORY.with_borrow(Memory::language), LengthStyle::default());
    kept::look(row, words).await.map_err(|_| not_loaded())
}

/// The answer to the newest question that waits; undefined where none does.
///
/// Null says that there is more to do before there is one.
///
/// # Errors
/// An answer that can't be sent.
#[wasm_bindgen(js_name = nextReply)]
pub async fn next_reply() -> Result<JsValue, JsValue> {
    reply().await.map_err(|_| not_loaded())?
}

part! {helper:
    fn reply() -> Result<JsValue, JsValue> {
        match MEMORY.with_borrow_mut(Memory::reply) {
            Some(Reply {
                body: Body::Later, ..
            }) => Ok(JsValue::NULL),
            Some(reply) => serde_wasm_bindgen::to_value(&reply).map_err(JsValue::from),
            None => Ok(JsValue::UNDEFINED),
        }
    }
}
