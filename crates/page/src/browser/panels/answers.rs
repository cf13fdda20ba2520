//! A plan that comes back: what it has otherwise, taken whole or one by one.

use super::to_tree::go_to;
use crate::browser::app::App;
use crate::browser::device::{files, sent};
use crate::browser::dom;
use crate::document::Edit;
use crate::view::extent;
use cordonry::arrange::Gather;
use cordonry::check::Severity;
use cordonry::file::link::{link_in, read_link};
use cordonry::file::read_plan;
use cordonry::plan::{Answer, Change, Mark, Moment, Plan, Spot};
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{OVERVIEW_HEIGHT, Sighted, mark_line, overview, window_key, work_line};
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// What there is to be said of a copy that came back.
#[derive(Clone, Default)]
enum Came {
    #[default]
    Nothing,
    Refused(String),
    /// What it has otherwise, and how many changes of it have just been taken.
    Read(Box<Answer>, usize),
}

/// The copy that came back and is neither taken nor left yet: whoever goes to a tree finds it again.
pub type CameBack = StoredValue<Option<Plan>, LocalStorage>;

/// Takes a copy that came back, as a link or a file, and lists what it has otherwise.
pub fn answers(app: App, kept: CameBack) -> AnyView {
    let came = RwSignal::new_local(Came::default());
    let read = move |made| read(app, came, kept, made, 0);
    if let Some(theirs) = kept.get_value() {
        read(Ok(theirs));
    }
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
            {move || told(app, came, kept)}
        </section>
    }
    .into_any()
}

/// Reads what came, of which so many changes have just been taken.
fn read(
    app: App,
    came: RwSignal<Came, LocalStorage>,
    kept: CameBack,
    made: Result<Plan, Refusal>,
    taken: usize,
) {
    kept.set_value(made.as_ref().ok().cloned());
    spawn_local(async move {
        let answer = match made {
            Ok(theirs) => compared(app, &theirs).await,
            Err(why) => Some(Err(why)),
        };
        let Some(answer) = answer else { return };
        came.try_set(match answer {
            Ok(answer) => Came::Read(Box::new(answer), taken),
            Err(why) => Came::Refused(app.worded(|w| w.refusal(&why))),
        });
        // What came may stand below what is in sight.
        set_timeout(|| dom::from_its_top(".answer"), Duration::ZERO);
    });
}

/// What a copy has otherwise than what was sent and what stands here; `None` where nothing stands here.
async fn compared(app: App, theirs: &Plan) -> Option<Result<Answer, Refusal>> {
    let was = sent::of(&theirs.sent).await;
    let was = was.map(|text| read_plan(text.as_bytes())).transpose();
    app.peek(|d| Answer::new(was?.as_ref(), d.plan(), theirs))
}

fn told(app: App, came: RwSignal<Came, LocalStorage>, kept: CameBack) -> AnyView {
    let (answer, taken) = match came.get() {
        Came::Nothing => return ().into_any(),
        Came::Refused(why) => {
            return view! { <p class="refusal" role="alert">{why}</p> }.into_any();
        }
        Came::Read(answer, taken) => (answer, taken),
    };
    let done = (taken > 0).then(|| {
        let told = app.text("answer-taken", &[("count", Arg::Count(taken as i64))]);
        view! { <p role="status" data-is="taken">{told}</p> }
    });
    if answer.changes.is_empty() {
        // Nothing is left of it.
        kept.set_value(None);
        let same = (taken == 0)
            .then(|| view! { <p role="status" data-is="same">{app.t("answer-same")}</p> });
        return view! { {done} {same} }.into_any();
    }
    // What was changed here too is not taken unless somebody says so, nor is another row, nor what was not taken just now.
    let ticked = |c: &Change| !c.both && !answer.is_foreign && taken == 0;
    let first = answer.changes.iter().map(ticked).collect::<Vec<_>>();
    let picked = RwSignal::new(first);
    let count = [("count", Arg::Count(answer.changes.len() as i64))];
    let counted = match taken {
        0 => "answer-count",
        _ => "answer-rest",
    };
    let known = match (answer.knows_sent, answer.is_foreign) {
        (true, _) => "answer-known",
        (_, true) => "answer-foreign",
        _ => "answer-unknown",
    };
    let line = |(n, change): (usize, &Change)| {
        let words = words_of(app, &answer, change);
        let both = change.both.then(|| {
            let here = here(app, change);
            view! { <span class="assumed" data-is="both">" " {app.t("answer-both")} " " {here}</span> }
        });
        let on = move || picked.with(|p| p[n]);
        let way = way(app, change, &words);
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
                {way}
            </li>
        }
    };
    let lines = answer.changes.iter().enumerate().map(line).collect_view();
    let strip = strip(app, &answer);
    let foreign = answer.is_foreign.then_some("caution");
    let take = move |_| {
        let picks = picked.get_untracked().into_iter().enumerate();
        let picks: Vec<usize> = picks.filter(|(_, is)| *is).map(|(n, _)| n).collect();
        let made = app.peek(|d| answer.taken(d.plan(), &picks));
        let made =
            made.map(|plan| plan.and_then(|plan| app.try_edit(Edit::told("step-answer", plan))));
        match made {
            Some(Err(why)) => {
                kept.set_value(None);
                came.set(Came::Refused(app.worded(|w| w.refusal(&why))));
            }
            // What is left of it stays at hand.
            _ => read(app, came, kept, Ok(answer.theirs().clone()), picks.len()),
        }
    };
    let none = move || !picked.with(|p| p.contains(&true));
    view! {
        {done}
        <p role="status" class=foreign>{app.text(counted, &count)} " " {app.t(known)}</p>
        {strip}
        <ul class="answer-list">{lines}</ul>
        <p class="choices">
            <button class="main" data-act="answer-take" disabled=none on:click=take>{app.t("answer-take")}</button>
            <button class="link" data-act="answer-leave" on:click=move |_| {
                kept.set_value(None);
                came.set(Came::Nothing);
            }>
                {app.t("answer-leave")}
            </button>
        </p>
    }
    .into_any()
}

/// The way to where a change is: its tree, before the work of its time, or its mark.
fn way(app: App, change: &Change, words: &str) -> Option<AnyView> {
    let place = change.place();
    let mark = change.mark().cloned();
    if place.is_none() && mark.is_none() {
        return None;
    }
    let shoot = change.new.first().or(change.gone.first());
    let shoot = shoot.map(|work| work.subject().shoot);
    let scheme = match &change.spot {
        Spot::Work(of, ..) => Some(of.mine),
        _ => None,
    };
    let label = format!("{}: {words}", app.t("answer-go"));
    let go = move |_| {
        app.passing.set(false);
        if let Some(scheme) = scheme {
            app.turn(|d| d.look_under(scheme));
        }
        match (place, &mark) {
            (Some((moment, tree)), _) => go_to(app, moment, tree, shoot),
            (None, Some(mark)) => {
                let at = app.peek(|d| mark.about().on(&d.scene().row).point.x);
                app.show(at.unwrap_or_default());
            }
            (None, None) => {}
        }
    };
    Some(view! { " " <button class="link" data-act="answer-go" aria-label=label on:click=go>{app.t("answer-go")}</button> }.into_any())
}

/// The whole row with a sign at each tree and mark that they changed; none where they changed none.
fn strip(app: App, answer: &Answer) -> Option<AnyView> {
    let (drawing, trees) = app.peek(|d| {
        let scene = d.scene();
        let row = &scene.row;
        let at = |change: &Change| match change.place() {
            Some((_, tree)) => Some(row.tree(tree)?.foot.f()),
            None => Some(change.mark()?.about().on(row).point.x),
        };
        let places: Vec<f64> = answer.changes.iter().filter_map(at).collect();
        let span = extent(row);
        let scale = WIDTH / span.length().max(1.0);
        let found: Vec<Sighted> = places.iter().map(|x| (*x, Severity::Soon)).collect();
        let (cover, targets) = (&scene.cover, &scene.plan.targets);
        let drawn = app.worded(|w| overview(row, cover, span, &found, targets, w, scale));
        let left = span.from * scale;
        let drawing = format!(
            r#"<svg viewBox="{left:.1} 0 {WIDTH} {OVERVIEW_HEIGHT}" aria-hidden="true">{drawn}</svg>"#
        );
        let own = answer.changes.iter().filter_map(|c| Some(c.place()?.1));
        let own: Vec<String> = own.gathered_set().into_iter().map(|t| t.to_string()).collect();
        (!places.is_empty()).then_some((drawing, own))
    })??;
    let args = [
        ("count", Arg::Count(trees.len() as i64)),
        ("trees", Arg::Text(trees.join(", "))),
    ];
    let told = app.text("answer-where", &args);
    Some(
        view! {
            <div class="answer-strip" inner_html=drawing></div>
            <p class="facts">{told}</p>
        }
        .into_any(),
    )
}

/// Width in which the strip is drawn, px.
const WIDTH: f64 = 600.0;

/// What a change is, in words.
fn words_of(app: App, answer: &Answer, change: &Change) -> String {
    let theirs = answer.theirs();
    let plain = |key: &str| app.t(key);
    let of_scheme = |key: &str, n: usize| {
        let name = theirs.schemes[n].name.clone();
        app.text(key, &[("scheme", Arg::Text(name))])
    };
    let line = |mark: &Mark| {
        let told = app.peek(|d| app.worded(|w| mark_line(mark, &d.scene().row, w)));
        Arg::Text(told.unwrap_or_default())
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
        Spot::SchemeGone(name) => {
            app.text("answer-scheme-gone", &[("scheme", Arg::Text(name.clone()))])
        }
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
                ("work", Arg::Text(changed(app, change))),
            ];
            app.text("answer-work", &args)
        }
        Spot::Told => plain("answer-told"),
        Spot::Mark(mark) => app.text("answer-mark", &[("mark", line(mark))]),
        Spot::MarkChanged(was, mark) => {
            let args = [("mark", line(mark)), ("was", line(was))];
            app.text("answer-mark-changed", &args)
        }
        Spot::MarkGone(mark) => app.text("answer-mark-gone", &[("mark", line(mark))]),
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

/// What they do otherwise on a tree: what is new, and what they have taken back.
fn changed(app: App, change: &Change) -> String {
    let told = |works: &[Work], key: &str| {
        let work = [("work", Arg::Text(listed(app, works)))];
        (!works.is_empty()).then(|| app.text(key, &work))
    };
    let both = [
        told(&change.new, "answer-added"),
        told(&change.gone, "answer-dropped"),
    ];
    let both: Vec<String> = both.into_iter().flatten().collect();
    both.join(&app.t("between-entries"))
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
