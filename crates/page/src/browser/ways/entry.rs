//! Ways to a row that begin with nothing: a made one, an empty one, a walk along it.

use super::doors::FormPage;
use super::incoming::Incoming;
use crate::browser::app::{App, Doorway};
use crate::browser::controls::fields::{FormSheet, radios};
use crate::browser::device::settings;
use crate::browser::dom;
use crate::browser::parts::{part, shown};
use crate::browser::ways::start::Start;
use crate::browser::ways::walk::{WalkSetupForm, Walking};
use cordonry::make::{EmptyRow, Leaders, RowSketch};
use cordonry::row::Toward;
use cordonry::units::{BareUnit, LengthStyle, parse_length};
use leptos::prelude::*;
use std::rc::Rc;

/// What stands here until a row is opened.
#[component]
pub fn Begin(incoming: Incoming) -> impl IntoView {
    let app = incoming.app;
    let entry = app.door;
    // Each way begins at its top, however far down its door stood; not so the page itself when it is loaded again.
    Effect::new(move |before: Option<Doorway>| {
        let now = entry.get();
        if before.is_some_and(|b| b != now) {
            app.went();
            dom::begin_at_if_lost("main h1");
        }
        now
    });
    let start = move || view! { <Start incoming entry/> }.into_any();
    move || match entry.get() {
        Doorway::Start => start(),
        Doorway::Walk if settings::kept_walk().is_none() => start(),
        way => shown(app, Rc::new(move || Box::pin(on_a_way(app, way)))),
    }
}

part! {panels:
    /// What stands on a way to a row.
    fn on_a_way(app: App, way: Doorway) -> AnyView {
        let entry = app.door;
        request_animation_frame(|| dom::begin_at_if_lost("main h1"));
        match (way, settings::kept_walk()) {
            (Doorway::Walk, Some(walk)) => view! { <Walking app entry walk/> }.into_any(),
            (Doorway::Empty, _) => view! { <EmptyForm app entry/> }.into_any(),
            (Doorway::Setup, _) => view! { <WalkSetupForm app entry/> }.into_any(),
            _ => view! { <MakeForm app entry/> }.into_any(),
        }
    }
}

/// A short form makes a row.
#[component]
fn MakeForm(app: App, entry: RwSignal<Doorway>) -> impl IntoView {
    let sheet = FormSheet::<RowSketch>::new(app);
    let done = Callback::new(move |()| {
        if let Some(sketch) = sheet.done() {
            match app.worded(|w| sketch.plan(w)) {
                Ok(plan) => app.open_plan(plan, None),
                Err(why) => app.refuse(&why),
            }
        }
    });
    view! {
        <FormPage app entry name="way-make" done>
            {sheet.lengths()}
            {radios(
                "leaders",
                app.t("made-leaders"),
                vec![
                    (app.t("made-leaders-one"), Leaders::One),
                    (app.t("made-leaders-two"), Leaders::Two),
                ],
                move || sheet.read(|s| s.leaders),
                move |leaders| sheet.choose(|s| s.leaders = leaders),
            )}
            {radios(
                "toward",
                app.t("made-toward"),
                vec![
                    (app.t("made-toward-left"), Toward::Left),
                    (app.t("made-toward-right"), Toward::Right),
                ],
                move || sheet.read(|s| s.toward),
                move |toward| sheet.choose(|s| s.toward = toward),
            )}
            {sheet.fields()}
        </FormPage>
    }
}

/// An empty row.
#[component]
fn EmptyForm(app: App, entry: RwSignal<Doorway>) -> impl IntoView {
    let sheet = FormSheet::<EmptyRow>::new(app);
    let done = Callback::new(move |()| {
        if let Some(row) = sheet.done() {
            match app.worded(|w| row.plan(w)) {
                Ok(plan) => app.open_plan(plan, None),
                Err(why) => app.refuse(&why),
            }
        }
    });
    view! {
        <FormPage app entry name="way-empty" done>
            {sheet.lengths()}
            {sheet.fields()}
        </FormPage>
    }
}

/// Over a wall without trees: what to press.
#[component]
pub fn NoTrees(app: App) -> impl IntoView {
    let none = Memo::new(move |_| {
        app.read(|d| d.scene().row.trees.is_empty())
            .unwrap_or(false)
    });
    let text = RwSignal::new(String::new());
    let wrong = RwSignal::new(None::<String>);
    let plant = move || {
        let bare = match app.style.get_untracked() {
            LengthStyle::Metric => BareUnit::Metre,
            LengthStyle::FeetInches => BareUnit::Foot,
        };
        let read = |typed: String| parse_length(&typed, bare);
        match app
            .worded(|w| w.typed(&text.get_untracked()))
            .and_then(read)
        {
            Ok(x) => {
                wrong.set(None);
                app.edit_from(|d| Ok(Some(d.scene().record_tree(x))));
                app.follow_chosen();
            }
            Err(why) => wrong.set(Some(app.said(&why))),
        }
    };
    move || {
        none.get().then(|| {
            view! {
                <form
                    class="part-card no-trees"
                    novalidate
                    on:submit=move |e| {
                        e.prevent_default();
                        plant();
                    }
                >
                    <h2>{app.t("no-trees")}</h2>
                    <p>{app.t("no-trees-help")}</p>
                    <p class="cut">
                        <label for="first-tree">{app.t("no-trees-place")}</label>
                        " "
                        <input
                            id="first-tree"
                            autocomplete="off"
                            prop:value=text
                            on:input=move |e| text.set(event_target_value(&e))
                        />
                        " "
                        <button type="submit" class="main">{app.t("no-trees-do")}</button>
                        <span class="wrong" role="alert">{wrong}</span>
                    </p>
                </form>
            }
        })
    }
}
