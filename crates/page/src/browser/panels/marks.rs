//! Marks on the wall: putting one, and the list of all.

use crate::browser::app::App;
use crate::browser::dom;
use crate::document::Edit;
use crate::marking::{Marking, place_on};
use cordonry::plan::{Mark, MarkShape, Plan};
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry_draw::mark_line;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// What is marked, and what marks.
#[component]
pub fn Marks(app: App) -> impl IntoView {
    let kind = move |kind: MarkShape| {
        let on = move || app.marking.get() == Some(Marking::First(kind));
        let press = move |_| {
            let next = (!on()).then_some(Marking::First(kind));
            app.set_marking(next);
        };
        view! {
            <button data-mark-kind=kind.key() aria-pressed=move || on().to_string() on:click=press>
                {app.t(kind.key())}
            </button>
        }
    };
    let lines = Memo::new(move |_| {
        app.style.track();
        app.read(|d| {
            let scene = d.scene();
            let of = |mark: &Mark| app.worded(|w| mark_line(mark, &scene.row, w));
            let marks = scene.plan.marks.iter();
            marks.map(|m| (m.clone(), of(m))).collect::<Vec<_>>()
        })
        .unwrap_or_default()
    });
    on_cleanup(move || {
        if app.marking.try_get_untracked().flatten().is_some() {
            app.set_marking(None);
        }
    });
    view! {
        <p class="facts">{app.t("marks-how")}</p>
        <p class="choices" role="group" aria-label=app.t("marks-put")>{MarkShape::ALL.map(kind)}</p>
        {move || app.marking.get().map(|now| asked(app, &now))}
        {move || {
            let all = lines.get();
            if all.is_empty() {
                return view! { <p>{app.t("marks-none")}</p> }.into_any();
            }
            let line = |(n, (mark, line))| view! { <OneMark app n mark line/> };
            view! {
                <ol class="mark-list">{all.into_iter().enumerate().map(line).collect_view()}</ol>
            }
            .into_any()
        }}
    }
}

/// What is asked for next of a mark that is being put.
fn asked(app: App, now: &Marking) -> AnyView {
    let there = RwSignal::new(String::new());
    let wrong = RwSignal::new(None::<String>);
    let give_up = move || {
        view! {
            <button class="link" data-act="mark-give-up" on:click=move |_| app.set_marking(None)>
                {app.t("mark-give-up")}
            </button>
        }
    };
    let place = |key: &str| {
        let at_chosen = move |_| {
            let place = app
                .peek(|d| place_on(d.chosen()?, &d.scene().row))
                .flatten();
            if let Some(place) = place {
                app.mark_at(place);
            }
        };
        let chosen = move || app.read(|d| d.chosen().is_some()) == Some(true);
        view! {
            <p role="status">{app.t(key)}</p>
            <p class="choices">
                <button data-act="mark-at-chosen" disabled=move || !chosen() on:click=at_chosen>
                    {app.t("mark-at-chosen")}
                </button>
                {give_up()}
            </p>
        }
        .into_any()
    };
    let kind = match now {
        Marking::First(MarkShape::Note) => return place("mark-where"),
        Marking::First(_) => return place("mark-from"),
        Marking::Second(..) => return place("mark-to"),
        Marking::Words(mark) => mark.kind,
    };
    dom::focus_soon("[data-field=mark-text]");
    let put = move || {
        let text = there.get_untracked();
        let now = app.marking.get_untracked();
        let made = app.peek(|d| now.as_ref().map(|m| m.put(d.plan(), &text)));
        let made = made.flatten().and_then(Result::transpose);
        match made.map(|made| made.and_then(|plan| done(app, "step-mark", plan))) {
            Some(Err(why)) => wrong.set(Some(app.worded(|w| w.refusal(&why)))),
            _ => app.set_marking(None),
        }
    };
    let label = match kind.has_two() {
        true => "mark-says-maybe",
        false => "mark-says",
    };
    let key = move |e: KeyboardEvent| {
        if e.key() == "Enter" {
            e.prevent_default();
            put();
        }
    };
    view! {
        <p class="choices">
            <label>
                {app.t(label)} " "
                <input
                    data-field="mark-text"
                    maxlength=Plan::MAX_TEXT
                    size="40"
                    on:input=move |e| there.set(event_target_value(&e))
                    on:keydown=key
                />
            </label>
            <button class="main" data-act="mark-put" on:click=move |_| put()>{app.t("mark-put")}</button>
            {give_up()}
        </p>
        {move || wrong.get().map(|why| view! { <p class="refusal" role="alert">{why}</p> })}
    }
    .into_any()
}

/// Has the plan on the desk become one with other marks.
fn done(app: App, step: &'static str, plan: Plan) -> Result<(), Refusal> {
    app.try_edit(Edit::told(step, plan)).map(drop)
}

#[component]
fn OneMark(app: App, n: usize, mark: Mark, line: String) -> impl IntoView {
    let changing = RwSignal::new(false);
    let number = [("number", Arg::Count(n as i64 + 1))];
    let (name, text) = (app.text("mark-number", &number), mark.text.clone());
    let go = {
        let mark = mark.clone();
        move |_| {
            let at = app.peek(|d| mark.at.on(&d.scene().row).point.x);
            app.look_along(|_| at.unwrap_or_default());
        }
    };
    let change = move |made: &dyn Fn(&Plan) -> Result<Plan, Refusal>, step| {
        let made = app.peek(|d| made(d.plan()));
        let made = made.map(|plan| plan.and_then(|plan| done(app, step, plan)));
        if let Some(Err(why)) = made {
            app.refuse(&why);
        }
    };
    let say = move |text: String| {
        changing.set(false);
        let mark = Mark {
            text,
            ..mark.clone()
        };
        change(&|plan| plan.with_mark(Some(n), &mark), "step-mark-text");
    };
    view! {
        <li data-mark-line=n>
            <button class="link" title=app.t("mark-go") aria-label=name on:click=go>{n + 1}</button>
            " " <span>{line}</span> " "
            {move || match changing.get() {
                true => {
                    let say = say.clone();
                    view! {
                        <input
                            data-field="mark-change"
                            aria-label=app.t("mark-says")
                            maxlength=Plan::MAX_TEXT
                            size="40"
                            value=text.clone()
                            on:change=move |e| say(event_target_value(&e))
                        />
                    }
                    .into_any()
                }
                false => view! {
                    <button
                        class="link"
                        data-act="mark-change"
                        on:click=move |_| {
                            changing.set(true);
                            dom::focus_soon("[data-field=mark-change]");
                        }
                    >
                        {app.t("mark-change")}
                    </button>
                }
                .into_any(),
            }}
            " "
            <button
                class="link removes"
                data-act="mark-remove"
                on:click=move |_| change(&|plan| plan.without_marks(&[n]), "step-mark-remove")
            >
                {app.t("mark-remove")}
            </button>
        </li>
    }
}
