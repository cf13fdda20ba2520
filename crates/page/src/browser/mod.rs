//! The page itself.

mod app;
mod card;
mod correct;
mod dialog;
mod dom;
mod entry;
mod field;
mod fields;
mod files;
mod gesture;
mod header;
mod helper;
mod import;
mod in_place;
mod keys;
mod light;
mod limits;
mod list;
mod many;
mod menu;
mod notice;
mod panels;
mod start;
mod store;
mod views;
mod walk;
mod wall;
mod wires;
mod worklist;

use crate::bench_row;
use crate::message;
use app::App;
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::prelude::*;

/// Starts the page.
#[wasm_bindgen(js_name = startPage)]
pub fn start_page() {
    console_error_panic_hook::set_once();
    if let Some(loading) = document().get_element_by_id("loading") {
        loading.remove();
    }
    if let Some(head) = document().head()
        && let Ok(style) = document().create_element("style")
    {
        style.set_text_content(Some(cordonry_draw::STYLE));
        let _ = head.prepend_with_node_1(&style);
    }
    mount_to_body(Page);
}

#[component]
fn Page() -> impl IntoView {
    let app = App::new();
    let helper = helper::Helper::start(app);
    window_event_listener(ev::keydown, move |e| {
        if app.open.get_untracked() && !dom::in_field(&e) && keys::everywhere(app, &e) {
            e.prevent_default();
        }
    });
    // Nothing waits for its quarter of a second when the page goes.
    files::watch_print(app);
    window_event_listener(ev::pagehide, move |_| app.flush());
    window_event_listener(ev::visibilitychange, move |_| app.flush());
    window_event_listener(ev::dragover, |e| e.prevent_default());
    window_event_listener(ev::drop, move |e| {
        e.prevent_default();
        if let Some(given) = e.data_transfer().and_then(|d| d.files()) {
            files::take_files(app, &given);
        }
    });
    watch_ground(app);
    begin(app);
    view! {
        {move || {
            if app.open.get() {
                view! { <Desk app helper/> }.into_any()
            } else {
                view! { <entry::Begin app/> }.into_any()
            }
        }}
        <import::ImportPreview app/>
        <notice::Notices app/>
    }
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

/// Opens what was open last, or what the address asks for.
fn begin(app: App) {
    let search = window().location().search().unwrap_or_default();
    if let Some((trees, uprights)) = bench_row::asked(&search) {
        app.lay_plan(bench_row::plan(trees, uprights), Some("bench".into()));
        return;
    }
    let Some(id) = store::last_open() else { return };
    wasm_bindgen_futures::spawn_local(async move {
        if let Some(record) = store::record(&id).await
            && let Ok(plan) = cordonry::file::read_plan(record.plan.as_bytes())
        {
            app.lay_plan(plan, Some(record.id));
        }
    });
}

#[component]
fn Desk(app: App, helper: helper::Helper) -> impl IntoView {
    let hand = gesture::Hand::new(app);
    let host = NodeRef::<leptos::html::Div>::new();
    let band = NodeRef::<leptos::html::Div>::new();
    let sky = NodeRef::<leptos::html::Div>::new();
    Effect::new(move |_| {
        if let (Some(host), Some(band), Some(sky)) = (host.get(), band.get(), sky.get()) {
            if let Some(wall) = wall::Wall::new(&host, &band) {
                app.light.set_scene(&host, &sky);
                app.set_wall(wall);
            }
            watch_size(app, &host);
            let turned = Closure::<dyn Fn(web_sys::WheelEvent)>::new(move |e| hand.wheel(&e));
            listen_actively(&host, "wheel", turned.into_js_value());
            let touched = Closure::<dyn Fn(web_sys::Event)>::new(move |e| hand.touched(&e));
            listen_actively(&host, "touchstart", touched.into_js_value());
        }
    });
    view! {
        <header::Header app helper/>
        <main class="desk" class:recording=move || app.correcting()>
            <correct::RecordStrip app/>
            <light::LightLine app/>
            <light::SkyBand app host=sky/>
            <div
                class="stage"
                class:correcting=move || app.correcting()
                class:lit=move || app.light.on.get()
                data-label=app.t("record-as-found")
                node_ref=host
                tabindex="0"
                role="application"
                aria-label=app.t("wall-label")
                aria-describedby="wall-help"
                on:pointerdown=move |e| hand.down(&e)
                on:pointermove=move |e| {
                    app.light.point(app, (e.client_x(), e.client_y()));
                    hand.moved(&e);
                    app.light.mark(app);
                }
                on:pointerup=move |e| hand.up(&e)
                on:pointercancel=move |e| hand.cancelled(&e)
                on:pointerleave=move |_| hand.left()
                on:keydown=move |e| {
                    if !dom::in_field(&e) && keys::on_wall(app, &e) {
                        e.prevent_default();
                    }
                }
            >
                <card::PartCard app/>
                <entry::NoTrees app/>
                <correct::RecordCard app/>
                <correct::OfferCard app/>
            </div>
            <p id="wall-help" class="visually-hidden">{app.t("wall-help")}</p>
            <p class="visually-hidden" role="status">
                {move || {
                    app.read(|d| d.chosen.map(|c| app.worded(|w| w.part(&d.row, c.tree, c.shoot))))
                        .flatten()
                }}
            </p>
            <div class="band" node_ref=band role="img" aria-label=app.t("band-label")></div>
            <worklist::SignKey app/>
            <p class="under-band">
                <span>{app.t("band-name")}</span>
                <span class="key"><i class="swatch filled"></i>{app.t("band-filled")}</span>
                <span class="key"><i class="swatch bare"></i>{app.t("band-bare")}</span>
                <span class="key"><i class="swatch twice"></i>{app.t("band-twice")}</span>
                <span class="zooms">
                    <button class="link" on:click=move |_| app.fit(true)>{app.t("fit-row")}</button>
                    <button class="link" on:click=move |_| app.fit(false)>{app.t("fit-height")}</button>
                    <button aria-label=app.t("zoom-out") title=app.t("zoom-how") on:click=move |_| app.zoom(0.8)>"−"</button>
                    <button aria-label=app.t("zoom-in") title=app.t("zoom-how") on:click=move |_| app.zoom(1.25)>"+"</button>
                </span>
            </p>
            <views::Views app/>
            <div class="panels">
                <panels::Findings app/>
                <div>
                    <panels::FiguresPanel app/>
                    <light::LightFigures app/>
                    <worklist::WorkList app/>
                    <list::PartList app/>
                </div>
            </div>
        </main>
    }
}

/// Leptos listens passively to wheel and touch; the page must be able to keep them from scrolling.
fn listen_actively(host: &web_sys::Element, event: &str, heard: JsValue) {
    let options = js_sys::Object::new();
    let _ = js_sys::Reflect::set(&options, &"passive".into(), &false.into());
    let _ = host.add_event_listener_with_callback_and_add_event_listener_options(
        event,
        heard.unchecked_ref(),
        options.unchecked_ref(),
    );
}

fn watch_size(app: App, host: &web_sys::Element) {
    let seen = Closure::<dyn Fn()>::new(move || app.resized());
    if let Ok(observer) = web_sys::ResizeObserver::new(seen.as_ref().unchecked_ref()) {
        observer.observe(host);
    }
    seen.forget();
}

/// Answers a question that came as a message.
///
/// # Errors
/// A message that is no question.
#[wasm_bindgen(js_name = answerMessage)]
pub fn answer_message(asked: JsValue) -> Result<JsValue, JsValue> {
    let ask: message::Ask = serde_wasm_bindgen::from_value(asked)?;
    Ok(serde_wasm_bindgen::to_value(&message::answer(&ask))?)
}
