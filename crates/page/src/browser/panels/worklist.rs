//! The work of the moment that is looked at: the row before and after it, and each piece with a way back.

use crate::browser::app::App;
use crate::desk::Desk;
use cordonry::check::Part;
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
    let before = move || {
        app.read(|d| (!d.correcting()).then_some(d.is_before()))
            .flatten()
    };
    let any = move || app.read(|d| !d.works().is_empty()).unwrap_or(false);
    let choice = move |key: &'static str, value: bool| {
        view! {
            <label class:here=move || before() == Some(value)>
                <input
                    type="radio"
                    name="before"
                    data-act=key
                    prop:checked=move || before() == Some(value)
                    disabled=move || value && !any()
                    on:change=move |_| {
                        app.edit(|d| {
                            d.show_before(value);
                            Ok(())
                        });
                    }
                />
                <span>{app.t(key)}</span>
            </label>
        }
    };
    view! {
        <fieldset class="season before-after">
            <legend class="visually-hidden">{app.t("before-after")}</legend>
            {choice("work-before", true)}
            {choice("work-after", false)}
        </fieldset>
    }
}

/// A piece of work as it is listed.
type Line = (Work, Option<Part>, String);

/// The first pieces of work, each with its shoot's name and place as the crew finds it: before the work.
fn lines(app: App, desk: &Desk, most: usize) -> Vec<Line> {
    let mut works = desk.works();
    works.truncate(most);
    let ids = works.iter().filter_map(Work::tree).collect();
    let before = desk
        .plan()
        .trees_before(desk.scheme(), desk.moment(), &ids)
        .unwrap_or_default();
    let line = |work: &Work| {
        let subject = work.subject();
        let part = subject.tree.map(|tree| Part {
            tree,
            shoot: Some(work.kept_bud(desk.moment().leaf).unwrap_or(subject.shoot)),
        });
        let own = work.tree().and_then(|t| before.get(&t));
        let words = app.worded(|w| work_line(work, own.map(|t| &**t), &desk.row, desk.geometry, w));
        (work.clone(), part, words)
    };
    works.iter().map(line).collect()
}

/// What the signs on the wall mean, while there are any.
#[component]
pub fn SignKey(app: App) -> impl IntoView {
    let signs = Memo::new(move |_| {
        app.read(|d| match d.is_before() {
            true => Sign::all_of(&d.works()),
            false => Vec::new(),
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

/// The pieces of work, in order of tree.
#[component]
pub fn WorkList(app: App) -> impl IntoView {
    let all = RwSignal::new(false);
    let list = Memo::new(move |old: Option<&(usize, Vec<Line>)>| {
        app.style.track();
        let most = if all.get() { usize::MAX } else { LISTED };
        app.read(|d| match old {
            // While a hand is on the wall the list waits.
            Some(old) if d.dragging() => old.clone(),
            _ => (d.works().len(), lines(app, d, most)),
        })
        .unwrap_or_default()
    });
    let count = move || list.with(|(n, _)| *n);
    view! {
        <details class="work-list">
            <summary>
                {move || app.text("work-title", &[("count", Arg::Count(count() as i64))])}
            </summary>
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
                                        aria-label=format!("{}: {words}", app.t("act-take-back"))
                                        on:click=move |_| {
                                            let work = work.clone();
                                            app.edit(|d| d.take_back_work(&work));
                                        }
                                    >
                                        {app.t("act-take-back")}
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
        </details>
    }
}
