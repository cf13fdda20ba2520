//! The page of the desk: the wall, and what stands around it.

use super::app::App;
use super::commands;
use super::device::helper;
use super::dom;
use super::hand::{keys, pointer};
use super::panels::{
    beside, card, correct, draft, findings, hand_out, header, keys_list, light, list, order,
    pass_on, present, print, report, row_strip, views, worklist,
};
use super::parts::{load_panels, once_wanted, shown};
use super::wall::WallScreen;
use super::wall::layers::Layers;
use super::ways::entry;
use super::ways::incoming::Incoming;
use crate::actions::{self, Action, Command, Does, Shown};
use crate::view::View;
use leptos::prelude::*;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The wall with a plan on it.
#[component]
pub fn DeskPage(app: App, incoming: Incoming, helper: helper::Helper) -> impl IntoView {
    // What a row on the desk may soon want.
    spawn_local(async move {
        print::be_ready(app).await;
        load_panels().await;
    });
    let hand = pointer::Hand::new(app);
    let drafting = app.drafting;
    let handing = RwSignal::new(false);
    let ordering = RwSignal::new(false);
    let reporting = RwSignal::new(false);
    let host = NodeRef::<leptos::html::Div>::new();
    let band = NodeRef::<leptos::html::Div>::new();
    let sky = NodeRef::<leptos::html::Div>::new();
    Effect::new(move |_| {
        if let (Some(host), Some(band), Some(sky)) = (host.get(), band.get(), sky.get()) {
            if let Some(layers) = Layers::new(&host)
                && let Some(wall) = WallScreen::new(&layers, &host, &band)
            {
                app.light.set_scene(&layers, &sky);
                app.set_wall(wall);
            }
            watch_size(app, &host);
            let turned = Closure::<dyn Fn(web_sys::WheelEvent)>::new(move |e| hand.wheel(&e));
            listen_actively(&host, "wheel", turned.into_js_value());
            let touched = Closure::<dyn Fn(web_sys::Event)>::new(move |e| hand.touched(&e));
            listen_actively(&host, "touchstart", touched.into_js_value());
        }
    });
    let two = Memo::new(move |_| app.read(|d| d.beside().is_some()).unwrap_or(false));
    let abreast = Memo::new(move |_| {
        two.get() && app.read(|d| View::stands_abreast(&d.scene().row)) == Some(true)
    });
    // In the card of what is chosen the wall's keys are heard too.
    let on_key = move |e: web_sys::KeyboardEvent| {
        if !dom::in_field(&e) && !dom::presses_control(&e) && keys::on_wall(app, &e) {
            e.prevent_default();
        }
    };
    let in_view = move |action: &'static Action| {
        let sign = match action.does {
            Does::Page(Command::Smaller) => Some("−"),
            Does::Page(Command::Larger) => Some("+"),
            _ => None,
        };
        let name = action.name;
        view! {
            <button
                class:link=sign.is_none()
                data-act=name
                aria-label=sign.map(|_| app.t(name))
                title=sign.map(|_| app.t("zoom-how"))
                on:click=move |_| commands::act(app, name)
            >
                {sign.map_or_else(|| app.t(name), str::to_string)}
            </button>
        }
    };
    view! {
        <header::Header app incoming helper/>
        <main class="desk" class:recording=move || app.correcting() class:two=move || two.get() class:abreast=move || abreast.get()>
            {once_wanted(app, App::correcting, |app| Box::pin(correct::record_strip(app)))}
            <div class="along">
                <row_strip::RowStrip app/>
                <row_strip::ToNumber app/>
                <span class="zooms">{actions::shown_at(Shown::View).map(in_view).collect_view()}</span>
            </div>
            <light::LightLine app/>
            <light::SkyBand app host=sky/>
            {move || {
                let names = two.get().then(|| beside::names(app)).flatten();
                names.map(|[own, _]| view! {
                    <p class="beside-name"><b>{own}</b> {app.t("two-here")}</p>
                })
            }}
            <div
                class="stage"
                id="wall"
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
                on:keydown=on_key
            >
                <entry::NoTrees app/>
                {once_wanted(app, App::correcting, |app| Box::pin(correct::record_offer(app)))}
            </div>
            <keys_list::WallHelp app/>
            <p class="visually-hidden" role="status">
                {move || {
                    let told = app.told.get();
                    if !told.is_empty() {
                        return Some(told);
                    }
                    app.read(|d| d.chosen().map(|c| app.worded(|w| w.part(&d.scene().row, c.tree, c.shoot))))
                        .flatten()
                }}
            </p>
            <div
                class="band"
                node_ref=band
                role="img"
                aria-label=app.t("band-label")
                on:click=move |e| row_strip::press_band(app, &e)
            ></div>
            {move || two.get().then(|| shown(app, Rc::new(move || Box::pin(beside::wall(app)))))}
            {move || app.presented.on.get().then(|| shown(app, Rc::new(move || Box::pin(present::bar(app, helper)))))}
            {hand_out::OFFER.sheet(app, handing)}
            {order::OFFER.sheet(app, ordering)}
            {report::OFFER.sheet(app, reporting)}
            <pass_on::PassOn app/>
            // What is read beside the wall: on a screen with room for both it scrolls within itself.
            <div class="below">
                <div class="tools">
                    <p class="under-band">
                        <span>{app.t("band-name")}</span>
                        <span class="key"><i class="swatch filled"></i>{app.t("band-filled")}</span>
                        <span class="key"><i class="swatch bare"></i>{app.t("band-bare")}</span>
                        <span class="key"><i class="swatch twice"></i>{app.t("band-twice")}</span>
                    </p>
                    <views::Views app helper/>
                </div>
                <worklist::SignKey app/>
                <views::ColourKey app/>
                {move || two.get().then(|| shown(app, Rc::new(move || Box::pin(beside::told(app, helper)))))}
                <div class="panels">
                    <findings::Findings app/>
                    <draft::Draft app helper open=drafting/>
                    // What may scroll can be scrolled by keys.
                    <section class="chosen-column" tabindex="0" aria-label=app.t("chosen-title") on:keydown=on_key>
                        <card::PartCard app/>
                        {once_wanted(app, App::correcting, |app| Box::pin(correct::record_card(app)))}
                        <card::NothingChosen app/>
                    </section>
                    <div class="figures-column" tabindex="0" role="group" aria-labelledby="figures-title">
                        <findings::FiguresPanel app/>
                        {once_wanted(app, |app| app.light.on.get(), |app| Box::pin(light::light_figures(app)))}
                    </div>
                    <div class="lists-column">
                        <worklist::WorkList app ways=move || view! {
                            <draft::DraftOffer app helper open=drafting/>
                            {hand_out::OFFER.button(app, handing)}
                            {order::OFFER.button(app, ordering)}
                        }/>
                        <list::PartList app/>
                        {report::OFFER.button(app, reporting)}
                    </div>
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
