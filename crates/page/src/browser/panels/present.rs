//! Under the wall while a class looks at it: where and when, what is asked, and what there is to press.

use crate::actions::{self, Shown};
use crate::beside;
use crate::browser::app::App;
use crate::browser::commands;
use crate::browser::device::helper::Helper;
use crate::browser::parts::part;
use crate::desk::Desk;
use cordonry::plan::{Moment, Phase};
use cordonry::said::Arg;
use cordonry_draw::window_key;
use leptos::prelude::*;

part! {panels:
    /// What a class sees under the wall.
    pub fn bar(app: App, helper: Helper) -> AnyView {
        view! { <Bar app helper/> }.into_any()
    }
}

/// What is asked of the row in its note, and what is answered there, where it parts the two.
fn asked_and_answered(app: App, note: &str) -> (Option<String>, String) {
    match note.split_once(&app.t("lesson-answer")) {
        Some((asked, answered)) => {
            let answered = format!("{} {}", app.t("lesson-answer"), answered.trim());
            (Some(asked.trim().into()), answered)
        }
        None => (None, note.into()),
    }
}

#[component]
fn Bar(app: App, helper: Helper) -> impl IntoView {
    // What stood side by side is told of both, though one wall is shown.
    if app.presented.stood.get_value().is_some() {
        helper.with_effort.set(true);
        on_cleanup(move || helper.with_effort.set(false));
    }
    let shown = app.presented;
    let there =
        Memo::new(move |_| app.read(|d| ((d.look().scheme, d.look().moment), d.look().phase)));
    Effect::new(move |was: Option<Option<((usize, Moment), Phase)>>| {
        let now = there.get();
        if let (Some((was, phase)), Some((here, _))) = (was.flatten(), now)
            && was != here
        {
            app.ask_anew();
            // A class that looks at rows before their work sees no answer by going on.
            app.see_in_class(phase);
            app.fit_class();
        }
        now
    });
    let place = move || {
        app.read(|d| {
            let look = d.look();
            let phase = match look.phase {
                Phase::Before => "work-before",
                Phase::After => "work-after",
            };
            let parts = [
                app.text(
                    "season-leaf",
                    &[("leaf", Arg::Count(look.moment.leaf.into()))],
                ),
                app.t(window_key(look.moment.window)),
                app.t(phase),
                d.scheme_name(look.scheme).to_string(),
            ];
            parts.join(" · ")
        })
    };
    let told = move || {
        let note = app.read(|d| d.plan().note.clone()).unwrap_or_default();
        let (asked, answered) = asked_and_answered(app, &note);
        let named = || {
            let judged = app.read(|d| shown.right(d))??;
            let count = |n: usize| Arg::Count(n as i64);
            let work = judged.kinds.into_iter().map(|(kind, n)| {
                let piece = [
                    ("count", Arg::Count(n.into())),
                    ("kind", Arg::Text(kind.into())),
                ];
                Arg::Text(app.text("year-piece", &piece))
            });
            let values = [
                ("right", count(judged.right)),
                ("named", count(judged.named)),
                ("work", Arg::List(work.collect())),
            ];
            // A line of its own: the note speaks of the scheme, not of this class.
            Some(app.text("present-right", &values) + "\n")
        };
        match shown.told.get() {
            true => {
                let totals = shown.stood.get_value().and_then(|(own, other)| {
                    let schemes = [own, other];
                    let far = |d: &Desk| helper.known(d, &schemes);
                    app.read(|d| app.worded(|w| beside::totals_told(d, schemes, &far(d), w)))
                });
                named().unwrap_or_default() + &totals.unwrap_or_default() + &answered
            }
            false => asked.unwrap_or_default(),
        }
    };
    let matter = move || {
        let at = shown.matter.get()?;
        app.read(|d| d.open_matter(at, |m, all| app.worded(|w| w.matter(m, all))))
            .flatten()
    };
    let asks = move || {
        // Once it is answered, that is told.
        (shown.asks.get() && !shown.told.get()).then(|| {
            let count = Arg::Count(shown.count() as i64);
            app.text("present-asks", &[("count", count)])
        })
    };
    let act = move |name: &'static str, label: &'static str| {
        let pressed = move || {
            let on = match name {
                "present-ask" => shown.asks.get(),
                "present-tell" => shown.told.get(),
                "present-matter" => shown.matter.get().is_some(),
                _ => return None,
            };
            Some(on.to_string())
        };
        view! {
            <button
                data-act=name
                aria-pressed=pressed
                title=app.t(name)
                on:click=move |_| commands::act(app, name)
            >
                {app.t(label)}
            </button>
        }
    };
    let has_others = move || {
        app.read(|d: &Desk| d.plan().schemes.len() > 1)
            .unwrap_or(false)
    };
    view! {
        <section class="present-bar" aria-labelledby="present-place">
            // The desk's own is hidden.
            <h1 id="present-place">{place}</h1>
            <p class="present-said" tabindex="0" aria-live="polite">
                {move || matter().or_else(asks).unwrap_or_else(told)}
            </p>
            <p class="present-acts">
                {act("leaf-previous", "present-leaf-previous")}
                {act("leaf-next", "present-leaf-next")}
                {actions::shown_at(Shown::Present).map(|a| act(a.name, a.name)).collect_view()}
                {move || has_others().then(|| act("scheme-next", "present-scheme"))}
                {act("present", "present-leave")}
            </p>
        </section>
    }
}
