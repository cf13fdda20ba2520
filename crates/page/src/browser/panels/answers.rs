//! A plan that comes back: what it has otherwise, taken whole or one by one.

use crate::browser::app::App;
use crate::browser::device::{files, sent};
use crate::document::Edit;
use cordonry::file::link::{link_in, read_link};
use cordonry::file::read_plan;
use cordonry::plan::{Answer, Change, Moment, Plan, Spot};
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{mark_line, window_key, work_line};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// What there is to be said of a copy that came back.
#[derive(Clone, Default)]
enum Came {
    #[default]
    Nothing,
    Refused(String),
    Read(Box<Answer>),
    Taken(usize),
}

/// Takes a copy that came back, as a link or a file, and lists what it has otherwise.
pub fn answers(app: App) -> AnyView {
    let came = RwSignal::new_local(Came::default());
    let read = move |made: Result<Plan, Refusal>| {
        spawn_local(async move {
            let answer = match made {
                Ok(theirs) => compared(app, &theirs).await,
                Err(why) => Some(Err(why)),
            };
            let Some(answer) = answer else { return };
            came.try_set(match answer {
                Ok(answer) => Came::Read(Box::new(answer)),
                Err(why) => Came::Refused(app.worded(|w| w.refusal(&why))),
            });
        });
    };
    let pasted = move |e: web_sys::Event| {
        let text = event_target_value(&e);
        if !text.trim().is_empty() {
            read(match link_in(&text) {
                Some(link) => read_link(link),
                None => read_plan(text.as_bytes()),
            });
        }
    };
    let chosen = move |e: web_sys::Event| {
        files::read_chosen(&e, move |bytes| read(read_plan(&bytes)));
    };
    view! {
        <section class="answer">
            <h3>{app.t("answer-title")}</h3>
            <p>{app.t("answer-how")}</p>
            <p class="choices">
                <label>
                    {app.t("answer-link")} " "
                    <input data-field="answer-link" size="30" autocomplete="off" on:input=pasted/>
                </label>
                <label class="button">
                    {app.t("answer-file")}
                    <input class="visually-hidden" type="file" accept=".json,application/json" on:change=chosen/>
                </label>
            </p>
            {move || told(app, came)}
        </section>
    }
    .into_any()
}

/// What a copy has otherwise than what was sent and what stands here; `None` where nothing stands here.
async fn compared(app: App, theirs: &Plan) -> Option<Result<Answer, Refusal>> {
    let was = sent::of(&theirs.sent).await;
    let was = was.map(|text| read_plan(text.as_bytes())).transpose();
    app.peek(|d| Answer::new(was?.as_ref(), d.plan(), theirs))
}

fn told(app: App, came: RwSignal<Came, LocalStorage>) -> AnyView {
    let answer = match came.get() {
        Came::Nothing => return ().into_any(),
        Came::Refused(why) => {
            return view! { <p class="refusal" role="alert">{why}</p> }.into_any();
        }
        Came::Taken(count) => {
            let count = [("count", Arg::Count(count as i64))];
            let told = app.text("answer-taken", &count);
            return view! { <p role="status" data-is="taken">{told}</p> }.into_any();
        }
        Came::Read(answer) => answer,
    };
    if answer.changes.is_empty() {
        return view! { <p role="status" data-is="same">{app.t("answer-same")}</p> }.into_any();
    }
    // What was changed here too is not taken unless somebody says so.
    let first = answer.changes.iter().map(|c| !c.both).collect::<Vec<_>>();
    let picked = RwSignal::new(first);
    let count = [("count", Arg::Count(answer.changes.len() as i64))];
    let known = match answer.knows_sent {
        true => "answer-known",
        false => "answer-unknown",
    };
    let line = |(n, change): (usize, &Change)| {
        let words = words_of(app, &answer, change);
        let both = change.both.then(|| {
            let here = here(app, change);
            view! { <span class="assumed" data-is="both">" " {app.t("answer-both")} " " {here}</span> }
        });
        let on = move || picked.with(|p| p[n]);
        view! {
            <li data-change=n>
                <label>
                    <input
                        type="checkbox"
                        prop:checked=on
                        on:change=move |e| picked.update(|p| p[n] = event_target_checked(&e))
                    />
                    " " {words}
                </label>
                {both}
            </li>
        }
    };
    let lines = answer.changes.iter().enumerate().map(line).collect_view();
    let take = move |_| {
        let picks = picked.get_untracked().into_iter().enumerate();
        let picks: Vec<usize> = picks.filter(|(_, is)| *is).map(|(n, _)| n).collect();
        let made = app.peek(|d| answer.taken(d.plan(), &picks));
        let made =
            made.map(|plan| plan.and_then(|plan| app.try_edit(Edit::told("step-answer", plan))));
        came.set(match made {
            Some(Err(why)) => Came::Refused(app.worded(|w| w.refusal(&why))),
            _ => Came::Taken(picks.len()),
        });
    };
    let none = move || !picked.with(|p| p.contains(&true));
    view! {
        <p role="status">{app.text("answer-count", &count)} " " {app.t(known)}</p>
        <ul class="answer-list">{lines}</ul>
        <p class="choices">
            <button class="main" data-act="answer-take" disabled=none on:click=take>{app.t("answer-take")}</button>
            <button class="link" data-act="answer-leave" on:click=move |_| came.set(Came::Nothing)>
                {app.t("answer-leave")}
            </button>
        </p>
    }
    .into_any()
}

/// What a change is, in words.
fn words_of(app: App, answer: &Answer, change: &Change) -> String {
    let theirs = answer.theirs();
    let plain = |key: &str| app.t(key);
    let of_scheme = |key: &str, n: usize| {
        let name = theirs.schemes[n].name.clone();
        app.text(key, &[("scheme", Arg::Text(name))])
    };
    let row = |f: &dyn Fn(&cordonry::pose::PosedRow) -> String| {
        app.peek(|d| f(&d.scene().row)).unwrap_or_default()
    };
    match &change.spot {
        Spot::Name => app.text("answer-name", &[("name", Arg::Text(theirs.name.clone()))]),
        Spot::Note => app.text("answer-note", &[("note", Arg::Text(theirs.note.clone()))]),
        Spot::Site => plain("answer-site"),
        Spot::Limits => plain("answer-limits"),
        Spot::Values => plain("answer-values"),
        Spot::Crew => plain("answer-crew"),
        Spot::Row => plain("answer-row"),
        Spot::Tree(tree) => {
            let there = theirs.found.tree(*tree).is_some();
            let key = match there {
                true => "answer-tree",
                false => "answer-tree-gone",
            };
            app.text(key, &[("tree", Arg::Count(tree.0.into()))])
        }
        Spot::Scheme(of) => of_scheme("answer-scheme", of.theirs),
        Spot::Rules(of) => of_scheme("answer-rules", of.theirs),
        Spot::GivenBack(of, moment) => {
            let when = when(app, *moment);
            of_scheme("answer-given-back", of.theirs) + ": " + &when
        }
        Spot::Work(_, moment, tree) => {
            let args = [
                ("when", Arg::Text(when(app, *moment))),
                ("tree", Arg::Count(tree.map_or(0, |t| t.0.into()))),
                ("on", Arg::yes(tree.is_some())),
                ("work", Arg::Text(listed(app, &change.theirs))),
            ];
            app.text("answer-work", &args)
        }
        Spot::Told => plain("answer-told"),
        Spot::Mark(mark) => {
            let line = row(&|row| app.worded(|w| mark_line(mark, row, w)));
            app.text("answer-mark", &[("mark", Arg::Text(line))])
        }
        Spot::MarkGone(mark) => {
            let line = row(&|row| app.worded(|w| mark_line(mark, row, w)));
            app.text("answer-mark-gone", &[("mark", Arg::Text(line))])
        }
        Spot::Left => plain("answer-left"),
        Spot::Count(_, tree) => app.text("answer-buds", &[("tree", Arg::Count(tree.0.into()))]),
    }
}

fn when(app: App, moment: Moment) -> String {
    let window = app.t(window_key(moment.window));
    let args = [
        ("leaf", Arg::Count(moment.leaf.into())),
        ("window", Arg::Text(window)),
    ];
    app.text("answer-when", &args)
}

/// Pieces of work, each with its part.
fn listed(app: App, works: &[Work]) -> String {
    let line = |work: &Work| app.peek(|d| app.worded(|w| work_line(work, &d.scene().row, w)));
    let lines: Vec<String> = works.iter().filter_map(line).collect();
    match lines.is_empty() {
        true => app.t("answer-no-work"),
        false => lines.join("; "),
    }
}

/// What stands here where both have changed the same.
fn here(app: App, change: &Change) -> Option<String> {
    let is_work = matches!(change.spot, Spot::Work(..));
    is_work.then(|| {
        let work = Arg::Text(listed(app, &change.mine));
        app.text("answer-here", &[("work", work)])
    })
}
