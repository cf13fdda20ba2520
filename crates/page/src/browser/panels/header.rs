//! The line over the wall: the row's name, the years and the leaf's windows, and what can be done with the plan.

use crate::actions::{self, Action, Command, Does, Shown};
use crate::browser::app::App;
use crate::browser::commands;
use crate::browser::controls::languages::Languages;
use crate::browser::controls::menu::Menu;
use crate::browser::device::helper::Helper;
use crate::browser::device::in_place;
use crate::browser::panels::light::LightToggle;
use crate::browser::panels::pdf::pdf_press;
use crate::browser::panels::print::{PaperChoice, drawn};
use crate::browser::panels::{schemes, years};
use crate::browser::ways::incoming::Incoming;
use crate::browser::ways::picker::FilePicker;
use crate::desk::Desk;
use crate::document::Edit;
use crate::keeping::Kept;
use cordonry::plan::{Moment, Window};
use cordonry::said::Arg;
use cordonry::units::LengthStyle;
use cordonry_draw::window_key;
use leptos::prelude::*;
use std::rc::Rc;

/// The line over the wall.
#[component]
pub fn Header(app: App, incoming: Incoming, helper: Helper) -> impl IntoView {
    let steps = move || app.read(|d| d.steps()).unwrap_or_default();
    let button = move |action: &'static Action| {
        let name = action.name;
        let off = move || !app.read(action.offered).unwrap_or(false);
        // What the step was that it would take back or do again.
        let title = move || {
            let (undo, redo) = steps();
            let (key, label) = match action.does {
                Does::Page(Command::Undo) => ("undo-step", undo?),
                Does::Page(Command::Redo) => ("redo-step", redo?),
                _ => return None,
            };
            Some(app.text(key, &[("step", Arg::Text(app.t(&label)))]))
        };
        view! {
            <button
                class="link"
                data-act=name
                disabled=off
                title=title
                on:click=move |_| commands::act(app, name)
            >
                {app.t(name)}
            </button>
        }
    };
    let shown = move |place| actions::shown_at(place).map(button).collect_view();
    let in_files = |action: &&'static Action| action.name != "save-in-place" || in_place::can();
    view! {
        <header>
            <RowName app/>
            <schemes::SchemeLine app/>
            <nav class="doings" aria-label=app.t("doings")>
                {shown(Shown::Bar)}
                <Menu name=app.t("files")>
                    <FilePicker incoming/>
                    {actions::shown_at(Shown::Files).filter(in_files).map(button).collect_view()}
                    <PaperChoice app/>
                    <Languages app/>
                </Menu>
                {actions::named("print").map(button)}
                {pdf_press(app, None, Rc::new(move || Box::pin(drawn(app, helper))))}
                <button
                    class="link"
                    data-act="lengths"
                    aria-label=move || app.t(match app.style.get() {
                        LengthStyle::Metric => "lengths-to-feet",
                        LengthStyle::FeetInches => "lengths-to-metres",
                    })
                    on:click=move |_| {
                        app.set_style(match app.style.get_untracked() {
                            LengthStyle::Metric => LengthStyle::FeetInches,
                            LengthStyle::FeetInches => LengthStyle::Metric,
                        });
                    }
                >
                    {move || app.t(match app.style.get() {
                        LengthStyle::Metric => "lengths-metres",
                        LengthStyle::FeetInches => "lengths-feet",
                    })}
                </button>
                <span class="kept-state" role="status">
                    {move || app.t(match app.kept.get() {
                        Kept::Saved => "kept-saved",
                        Kept::Waiting => "kept-waiting",
                        Kept::Failing => "kept-failing",
                        Kept::Elsewhere { .. } => "kept-elsewhere",
                    })}
                </span>
            </nav>
            <years::YearStrip app helper/>
            <div class="times">
                <SeasonLine app helper/>
                <crate::browser::panels::worklist::BeforeAfter app/>
                <LightToggle app/>
                <crate::browser::panels::correct::RecordSwitch app/>
            </div>
        </header>
    }
}

/// The row's name, which can be written over.
#[component]
fn RowName(app: App) -> impl IntoView {
    // Set anew where it has become another, and not whenever the page learns something: somebody may be writing in it.
    let name = Memo::new(move |_| app.read(|d| d.plan().name.clone()).unwrap_or_default());
    view! {
        <h1>
            <input
                class="row-name"
                aria-label=app.t("row-name")
                maxlength="120"
                autocomplete="off"
                title=name
                prop:value=name
                placeholder=app.t("unnamed")
                on:change=move |e| {
                    let name = event_target_value(&e).trim().to_string();
                    app.edit(Edit::name(name));
                }
            />
        </h1>
    }
}

/// The four windows of the leaf that is looked at; pressing one looks at the row after its work.
#[component]
fn SeasonLine(app: App, helper: Helper) -> impl IntoView {
    let leaf = move || app.read(|d| d.look().moment.leaf).unwrap_or(1);
    view! {
        <fieldset class="season">
            <legend class="visually-hidden">{move || app.text("season-leaf", &[("leaf", Arg::Count(leaf().into()))])}</legend>
            {Window::ALL
                .map(|window| {
                    let key = window_key(window);
                    let here = move || {
                        app.read(|d| d.look().moment.window == window && !d.is_found()).unwrap_or(false)
                    };
                    let stands = move || {
                        let moment = |d: &Desk| Moment { leaf: d.look().moment.leaf, window };
                        let of = |d: &Desk| d.scheme().is_some_and(|s| s.stands(moment(d)));
                        app.read(of).unwrap_or(false)
                    };
                    let now = move || {
                        helper
                            .season
                            .with(|counts| {
                                counts
                                    .iter()
                                    .find(|c| c.moment == Moment { leaf: leaf(), window })
                                    .map(|c| c.now)
                            })
                            .filter(|n| *n > 0)
                    };
                    view! {
                        <label class:here=here>
                            <input
                                type="radio"
                                name="window"
                                prop:checked=here
                                on:change=move |_| {
                                    app.turn(|d| {
                                        d.look_at(Moment { leaf: d.look().moment.leaf, window });
                                    });
                                }
                            />
                            <span>{app.t(key)}</span>
                            <span class="stands" title=app.t("year-stands")>
                                {move || stands().then_some("○")}
                                <span class="visually-hidden">
                                    {move || stands().then(|| app.t("year-stands"))}
                                </span>
                            </span>
                            <span
                                class="now-count"
                                title=move || now().map(|n| {
                                    app.text("now-count", &[("count", Arg::Count(n.into()))])
                                })
                            >
                                {move || now().map(|n| format!("▲{n}"))}
                            </span>
                        </label>
                    }
                })
                .collect_view()}
        </fieldset>
    }
}
