//! The line over the wall: the row's name, the season line, and what can be done with the plan.

use crate::browser::app::{App, Kept};
use crate::browser::controls::menu::Menu;
use crate::browser::device::files;
use crate::browser::device::helper::Helper;
use crate::browser::panels::print;
use crate::browser::ways::open::Incoming;
use crate::browser::ways::start::FilePicker;
use cordonry::plan::{Moment, Plan, Window};
use cordonry::said::Arg;
use cordonry::units::LengthStyle;
use cordonry_draw::window_key;
use leptos::prelude::*;

/// The line over the wall.
#[component]
pub fn Header(app: App, incoming: Incoming, helper: Helper) -> impl IntoView {
    let steps = move || app.read(|d| d.steps()).unwrap_or_default();
    let step_title = move |key: &str, label: Option<String>| {
        label.map(|l| app.text(key, &[("step", Arg::Text(app.t(&l)))]))
    };
    let choice = move |act: &'static str, done: fn(App)| {
        view! {
            <button class="link" data-act=act on:click=move |_| done(app)>
                {app.t(act)}
            </button>
        }
    };
    view! {
        <header>
            <RowName app/>
            <nav class="doings" aria-label=app.t("doings")>
                <button
                    class="link"
                    data-act="undo"
                    disabled=move || steps().0.is_none()
                    title=move || step_title("undo-step", steps().0)
                    on:click=move |_| app.undo()
                >
                    {app.t("undo")}
                </button>
                <button
                    class="link"
                    data-act="redo"
                    disabled=move || steps().1.is_none()
                    title=move || step_title("redo-step", steps().1)
                    on:click=move |_| app.redo()
                >
                    {app.t("redo")}
                </button>
                <button
                    class="link"
                    data-act="limits"
                    on:click=move |_| crate::browser::panels::views::toggle("view-limits")
                >
                    {app.t("limits-and-site")}
                </button>
                <Menu name=app.t("files")>
                    <FilePicker incoming/>
                    {choice("save-plan", files::save_plan)}
                    {crate::browser::device::in_place::can()
                        .then(|| choice("save-in-place", crate::browser::device::in_place::save_into))}
                    {choice("save-table", |app| files::save_table(app, files::TableOf::Found))}
                    {choice("save-table-shown", |app| files::save_table(app, files::TableOf::Shown))}
                    {choice("save-drawing", files::save_drawing)}
                    {choice("save-picture", files::save_picture)}
                    <button class="link" data-act="close" on:click=move |_| app.close()>
                        {app.t("other-row")}
                    </button>
                </Menu>
                <button
                    class="link"
                    data-act="print"
                    on:click=move |_| print::print()
                >
                    {app.t("print")}
                </button>
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
                        Kept::Elsewhere => "kept-elsewhere",
                        Kept::Impossible => "kept-impossible",
                    })}
                </span>
            </nav>
            <div class="times">
                <SeasonLine app helper/>
                <crate::browser::panels::worklist::BeforeAfter app/>
                <crate::browser::panels::correct::RecordSwitch app/>
            </div>
        </header>
    }
}

/// The row's name, which can be written over.
#[component]
fn RowName(app: App) -> impl IntoView {
    let name = move || app.read(|d| d.plan().name.clone()).unwrap_or_default();
    let note = move || app.read(|d| d.plan().note.clone()).unwrap_or_default();
    view! {
        <h1>
            <input
                class="row-name"
                aria-label=app.t("row-name")
                maxlength="120"
                autocomplete="off"
                prop:value=name
                placeholder=app.t("unnamed")
                on:change=move |e| {
                    let name = event_target_value(&e).trim().to_string();
                    app.edit(|d| {
                        let plan = Plan { name, ..(**d.plan()).clone() };
                        d.set("step-name", plan);
                        Ok(())
                    });
                }
            />
            <span class="row-note" title=note>{note}</span>
        </h1>
    }
}

/// The found leaf's four windows; pressing one looks at the row after its work.
#[component]
fn SeasonLine(app: App, helper: Helper) -> impl IntoView {
    let leaf = move || app.read(|d| d.plan().found.leaf).unwrap_or(1);
    view! {
        <fieldset class="season">
            <legend>{move || app.text("season-leaf", &[("leaf", Arg::Count(leaf().into()))])}</legend>
            {Window::ALL
                .map(|window| {
                    let key = window_key(window);
                    let here = move || {
                        app.read(|d| d.moment().window == window && !d.correcting()).unwrap_or(false)
                    };
                    let now = move || {
                        helper
                            .season
                            .with(|counts| {
                                counts
                                    .iter()
                                    .find(|c| c.moment.window == window)
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
                                    app.edit(|d| {
                                        d.look_at(Moment { leaf: d.plan().found.leaf, window });
                                        Ok(())
                                    });
                                }
                            />
                            <span>{app.t(key)}</span>
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
