//! The work of the moment that is looked at: the row before and after it, and each piece with a way back.

use crate::actions::{TAKE_BACK, named};
use crate::browser::app::App;
use crate::browser::commands;
use crate::browser::controls::lines::Lines;
use crate::desk::Desk;
use crate::document::{Edit, Mode};
use cordonry::check::Part;
use cordonry::plan::{Phase, Told};
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{Sign, work_line};
use leptos::prelude::*;

/// How many pieces of work are listed at once.
const LISTED: usize = 60;

/// Before the work, with signs for it, or after it.
#[component]
pub fn BeforeAfter(app: App) -> impl IntoView {
    // While the record is corrected the row is shown neither way.
    let phase = move || {
        app.read(|d| (!d.is_found()).then_some(d.look().phase))
            .flatten()
    };
    let any = move || {
        app.read(|d| d.scene().work().next().is_some())
            .unwrap_or(false)
    };
    let choice = move |key: &'static str, value: Phase| {
        view! {
            <label class:here=move || phase() == Some(value)>
                <input
                    type="radio"
                    name="before"
                    data-act=key
                    prop:checked=move || phase() == Some(value)
                    disabled=move || value == Phase::Before && !any()
                    on:change=move |_| {
                        app.turn(|d| d.show(value));
                    }
                />
                <span>{app.t(key)}</span>
            </label>
        }
    };
    view! {
        <fieldset class="season before-after">
            <legend class="visually-hidden">{app.t("before-after")}</legend>
            {choice("work-before", Phase::Before)}
            {choice("work-after", Phase::After)}
        </fieldset>
    }
}

/// A piece of work as it is listed.
type Line = (Work, Option<Part>, String);

/// The first pieces of work, each with its shoot's name and place as the crew finds it: before the work.
fn lines(app: App, desk: &Desk, most: usize) -> Vec<Line> {
    let works: Vec<&Work> = desk.scene().work().take(most).collect();
    let worked = desk.row_at(desk.scene(), Phase::After);
    let line = |work: &Work| {
        let subject = work.subject();
        let part = subject.tree.map(|tree| Part {
            tree,
            shoot: Some(
                work.kept_bud(desk.look().moment.leaf)
                    .unwrap_or(subject.shoot),
            ),
        });
        let words = app.worded(|w| work_line(work, &worked, w));
        let told = match desk
            .scheme()
            .map(|s| s.field.told(desk.look().moment, work))
        {
            Some(Told::Done) => Some("work-told-done"),
            Some(Told::Skipped(_)) => Some("work-told-skipped"),
            Some(Told::Open) | None => None,
        };
        let words = match told {
            Some(key) => app.text(key, &[("work", Arg::Text(words))]),
            None => words,
        };
        (work.clone(), part, words)
    };
    works.into_iter().map(line).collect()
}

/// What the signs on the wall mean, while there are any.
#[component]
pub fn SignKey(app: App) -> impl IntoView {
    let signs = Memo::new(move |_| {
        app.read(|d| {
            let scene = d.scene();
            let works = match scene.is_before() {
                true => scene.works(),
                false => Vec::new(),
            };
            let field = d.scheme().map(|s| &s.field);
            Sign::all_on(&scene.row, &works, scene.moment, field)
        })
        .unwrap_or_default()
    });
    move || {
        let signs = signs.get();
        (!signs.is_empty()).then(|| {
            let each = signs.into_iter().map(|sign| {
                view! {
                    <span class="key">
                        <i inner_html=sign.drawing()></i>
                        {app.t(sign.word())}
                    </span>
                }
            });
            view! {
                <p class="under-band sign-key">
                    <span>{app.t("work-signs")}</span>
                    {each.collect_view()}
                </p>
            }
        })
    }
}

/// A text's name, and what it asks for.
type Asks = (&'static str, fn() -> Edit);

/// What can be asked about the usual work; nothing while the record is open, or where it stands.
fn usual(desk: &Desk) -> Option<Asks> {
    let scheme = desk.scheme().filter(|_| !desk.is_found())?;
    match (&scheme.standing, desk.scene().stands()) {
        (None, _) => Some(("usual-work", Edit::usual_work)),
        (Some(_), false) => Some(("stand-again", Edit::stand_again)),
        (Some(_), true) => None,
    }
}

/// The ways to a draft of them and to hand them out, the pieces of work in order of tree, and what can be done with all of them.
#[component]
pub fn WorkList<V: IntoView + 'static>(
    app: App,
    ways: impl Fn() -> V + Send + 'static,
) -> impl IntoView {
    let all = RwSignal::new(false);
    let list = Memo::new(move |old: Option<&(usize, Vec<Line>)>| {
        app.style.track();
        let most = if all.get() { usize::MAX } else { LISTED };
        app.read(|d| match old {
            // While a hand is on the wall the list waits, but not how much there is.
            Some((_, lines)) if d.is_holding() => (d.scene().work().count(), lines.clone()),
            _ => (d.scene().work().count(), lines(app, d, most)),
        })
        .unwrap_or_default()
    });
    let count = move || list.with(|(n, _)| *n);
    let stands = move || {
        app.read(|d| d.scene().standing.is_some())
            .unwrap_or_default()
    };
    let aside = move || app.read(|d| d.mode() == Mode::Found).unwrap_or_default();
    let copies = named("leaf-copy-on").expect("it is among the actions");
    let kept = Lines::new(".work-list li", ".work-list li .plain");
    Effect::new(move |_| {
        list.track();
        kept.changed();
    });
    view! {
        <details
            class="work-list"
            open
            on:focusin=move |e| kept.entered(&e)
            on:focusout=move |e| kept.left(&e)
        >
            <summary>
                {move || match aside() {
                    true => app.t("work-aside"),
                    false => app.text("work-title", &[("count", Arg::Count(count() as i64))]),
                }}
                {move || (stands() && count() > 0).then(|| format!(". {}", app.t("work-stands")))}
            </summary>
            {ways()}
            <ul>
                {move || {
                    list.get()
                        .1
                        .into_iter()
                        .map(|(work, part, words)| {
                            view! {
                                <li>
                                    <button
                                        class="plain"
                                        on:click=move |_| {
                                            app.choose(part);
                                            app.show_chosen();
                                        }
                                    >
                                        {words.clone()}
                                    </button>
                                    " "
                                    <button
                                        class="link"
                                        aria-label=format!("{}: {words}", app.t(TAKE_BACK))
                                        on:click=move |_| {
                                            app.edit(Edit::take_back(vec![work.clone()]));
                                        }
                                    >
                                        {app.t(TAKE_BACK)}
                                    </button>
                                </li>
                            }
                        })
                        .collect_view()
                }}
            </ul>
            {move || {
                (count() > LISTED && !all.get())
                    .then(|| {
                        let more = Arg::Count((count() - LISTED) as i64);
                        view! {
                            <button
                                class="link"
                                data-act="work-all"
                                on:click=move |_| all.set(true)
                            >
                                {app.text("work-rest", &[("count", more)])}
                            </button>
                        }
                    })
            }}
            {move || {
                app.read(usual)
                    .flatten()
                    .map(|(act, edit)| {
                        view! {
                            <p class="facts">
                                <button
                                    class="link"
                                    data-act=act
                                    on:click=move |_| app.edit(edit())
                                >
                                    {app.t(act)}
                                </button>
                            </p>
                        }
                    })
            }}
            {move || {
                app.read(|d| !d.is_found() && (copies.offered)(d))
                    .unwrap_or(false)
                    .then(|| {
                        view! {
                            <button
                                class="link"
                                data-act=copies.name
                                on:click=move |_| commands::act(app, copies.name)
                            >
                                {app.t(copies.name)}
                            </button>
                        }
                    })
            }}
        </details>
    }
}
