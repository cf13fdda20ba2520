//! A leaf's work as it is handed out: pass by pass what it takes and what to take care of, and the crew's sheets to print.

use super::bud_count::Counting;
use super::in_row::{InRow, taking};
use super::numbered::{Numbered, numbered};
use super::offer::{Offer, draft_not_taken};
use super::pdf::{Drawing, pdf_press};
use super::print::PaperChoice;
use super::spoken::{learn_handed, spoken_choice, spoken_words};
use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use crate::browser::controls::field::{Apply, ValueField};
use crate::browser::device::pdf::Drawn;
use crate::browser::dom;
use crate::browser::parts::part;
use crate::desk::Desk;
use crate::document::Edit;
use cordonry::crew::{Hands, Job, Rate, Season, season};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry::said::{Arg, Quantity};
use cordonry_draw::{Handed, caution, marking_sheets, pass_sheets, window_key};
use cordonry_words::Words;
use leptos::html;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// What opens it, and where it opens.
pub const OFFER: Offer = Offer {
    act: "hand-out",
    does: "hand-out-do",
    what: "hand-out-what",
    opened: |app, open| Box::pin(opened(app, open)),
};

part! {crew:
    fn opened(app: App, open: RwSignal<bool>) -> AnyView {
        Sheet::new(app, learn_handed(app)).view(open)
    }
}

/// What is printed: of one pass or of all of them, what the crew has or what the foreman marks by.
#[derive(Clone, Copy)]
struct Asked {
    pass: Option<usize>,
    marking: bool,
}

/// The sheet with what is chosen on it.
#[derive(Clone, Copy)]
struct Sheet {
    app: App,
    /// The leaf's passes; those of the plan, or of the usual work.
    season: RwSignal<Option<Season>, LocalStorage>,
    /// Whether the usual work is shown where the plan has none.
    usual: RwSignal<bool>,
    hands: RwSignal<Hands>,
    /// The language of what is printed.
    spoken: RwSignal<String>,
    /// Why nothing is printed.
    wrong: RwSignal<Option<String>>,
    /// The pass that is walked in the row.
    walked: RwSignal<Option<usize>>,
    /// The count of buds, and whether it is being typed.
    counting: (Counting, RwSignal<bool>),
}

impl Sheet {
    fn new(app: App, code: &str) -> Self {
        let made = Self {
            app,
            season: RwSignal::new_local(None),
            usual: RwSignal::new(false),
            hands: RwSignal::new(app.peek(|d| (*d.plan().hands).clone()).unwrap_or_default()),
            spoken: RwSignal::new(code.to_string()),
            wrong: RwSignal::new(None),
            walked: RwSignal::new(None),
            counting: (Counting::new(app), RwSignal::new(false)),
        };
        let of = |d: &Desk| season(d.plan(), d.look().scheme, d.look().moment.leaf).ok();
        made.season.set(app.peek(of).flatten());
        made
    }

    /// Reads the leaf's passes, and is told of changes.
    fn read<T: Default>(self, f: impl FnOnce(&Season) -> T) -> T {
        self.season.with(|s| s.as_ref().map(f)).unwrap_or_default()
    }

    /// A pass as it is on paper.
    fn handed<T: Default>(self, at: usize, f: fn(&Handed<'_>) -> T) -> T {
        self.read(|season| self.on_paper(season, at, &mut |h| f(h)))
    }

    fn on_paper<T: Default>(
        self,
        season: &Season,
        at: usize,
        f: &mut dyn FnMut(&Handed<'_>) -> T,
    ) -> T {
        let told = self.app.peek(|d| {
            self.app
                .worded(|words| Some(f(&Handed::at(d.plan(), season, at, words)?)))
        });
        told.flatten().unwrap_or_default()
    }

    /// Sets rates or people, which the plan keeps; what they make of the passes follows.
    fn set(self, f: impl FnOnce(&mut Hands) -> Result<(), Refusal>) -> Result<(), Refusal> {
        let mut hands = self.hands.get_untracked();
        f(&mut hands)?;
        let kept = Arc::new(hands.clone());
        let plan = self.app.peek(|d| Plan {
            hands: kept,
            ..(**d.plan()).clone()
        });
        if let Some(plan) = plan {
            self.app.try_edit(Edit::told("step-crew", plan))?;
        }
        self.season.update(|s| {
            if let Some(season) = s {
                season.time(&hands);
            }
        });
        self.hands.set(hands);
        Ok(())
    }

    /// The sheets that are asked for, in the language that is chosen.
    async fn sheets(self, asked: Asked) -> Result<Vec<String>, String> {
        let code = self.spoken.get_untracked();
        match spoken_words(self.app, &code).await {
            Some(words) => Ok(self.pages(asked, &words)),
            None => Err(self.app.t("part-missing")),
        }
    }

    fn print(self, asked: Asked) {
        let app = self.app;
        self.wrong.set(None);
        spawn_local(async move {
            match self.sheets(asked).await {
                Ok(pages) => {
                    app.handed.set_value(pages);
                    dom::print();
                }
                Err(why) => self.wrong.set(Some(why)),
            }
        });
    }

    /// The same as a file, named by leaf and pass.
    async fn drawn(self, asked: Asked) -> Result<Drawn, String> {
        let leaf = self.read(|s| i64::from(s.leaf));
        let pass = asked.pass.map_or(0, |at| at as i64 + 1);
        let marking = Arg::yes(asked.marking);
        let args = [
            ("leaf", Arg::Count(leaf)),
            ("marking", marking),
            ("pass", Arg::Count(pass)),
        ];
        let pages = self.sheets(asked).await?;
        Ok(Drawn {
            ending: self.app.text("hand-file", &args) + ".pdf",
            pages,
            language: self.spoken.get_untracked(),
        })
    }

    fn pages(self, asked: Asked, words: &Words) -> Vec<String> {
        let paper = self.app.paper.get_untracked();
        let sheets = if asked.marking {
            marking_sheets
        } else {
            pass_sheets
        };
        let all = self.season.with_untracked(|season| {
            let season = season.as_ref()?;
            self.app.peek(|d| {
                let all = Handed::all(d.plan(), season, words).enumerate();
                let wanted = all.filter(|(at, _)| asked.pass.is_none_or(|only| only == *at));
                let pages = wanted.flat_map(|(_, handed)| sheets(&handed, paper));
                pages.collect()
            })
        });
        all.unwrap_or_default()
    }

    /// A button that prints, and one that saves the same.
    fn prints(self, act: &'static str, asked: Asked) -> AnyView {
        let app = self.app;
        let name = app.t(act);
        // Read by itself it says of which pass.
        let of = asked.pass.map(|at| self.handed(at, |h| h.name()));
        let label = of.map(|of| format!("{name}: {of}"));
        let saved = label.clone().unwrap_or_else(|| name.clone());
        let draw = Rc::new(move || -> Drawing { Box::pin(self.drawn(asked)) });
        view! {
            <button class:main=asked.pass.is_none() data-act=act aria-label=label on:click=move |_| self.print(asked)>
                {name}
            </button>
            {pdf_press(app, Some(saved), draw)}
        }
        .into_any()
    }

    fn pass(self, at: usize) -> AnyView {
        let app = self.app;
        let (job, painted, stands, cautions) = self
            .read(|s| {
                s.passes.get(at).map(|p| {
                    let when = app.t(window_key(p.moment.window));
                    let stands = (p.stands && !s.usual).then(|| app.t("work-stands"));
                    let told = p
                        .cautions()
                        .into_iter()
                        .map(|c| app.worded(|w| caution(c, w)));
                    let told: Vec<String> = told.collect();
                    (p.job, p.job.by_paint(), (when, stands), told)
                })
            })
            .unwrap_or((Job::Tie, false, Default::default(), Vec::new()));
        let (when, stands) = stands;
        let people = Signal::derive(move || {
            let set = self.hands.with(|h| h.people.get(&job).copied());
            Some(set.unwrap_or(job.people()) as f64)
        });
        let apply: Apply =
            Rc::new(move |typed| self.set(|h| h.set_people(job, typed.first().copied())));
        let takes = move || self.handed(at, |h| h.takes());
        let counts = self.handed(at, |h| h.words.text("hand-count", &h.counts()));
        let common = self.handed(at, |h| {
            let work = h.common()?;
            Some(h.words.text("crew-each", &[("work", Arg::Text(work))]))
        });
        let listed = RwSignal::new(false);
        // A long row has many: they are told once they are asked for.
        let trees = move || {
            listed.get().then(|| {
                let all = self.handed(at, |h| {
                    let one = |s| {
                        let stop: &cordonry::crew::Stop = s;
                        let args = [
                            ("tree", Arg::Text(h.called(stop))),
                            ("count", Arg::Count(stop.work.len() as i64)),
                        ];
                        h.words.text("hand-tree", &args)
                    };
                    h.pass.stops.iter().map(one).collect::<Vec<_>>()
                });
                let lines = all.into_iter().map(|line| view! { <li>{line}</li> });
                view! { <ul>{lines.collect_view()}</ul> }
            })
        };
        let own = |marking| Asked {
            pass: Some(at),
            marking,
        };
        let walk = format!("{}: {}", app.t("field-walk"), self.handed(at, |h| h.name()));
        view! {
            <li data-pass=job.name()>
                <h3>{self.handed(at, |h| h.name())} " " <small>{when} {stands.map(|s| format!(". {s}"))}</small></h3>
                <p><b>{counts}</b> ". " <span class="takes">{takes}</span></p>
                {common.map(|c| view! { <p>{c}</p> })}
                <p class="hand-acts">
                    <ValueField app label=app.t("hand-people") name="people" unit=Quantity::Count value=people apply/>
                    <button data-act="field-walk" aria-label=walk on:click=move |_| self.walked.set(Some(at))>
                        {app.t("field-walk")}
                    </button>
                    {self.prints("hand-print", own(false))}
                    {painted.then(|| self.prints("hand-mark", own(true)))}
                </p>
                {cautions.into_iter().map(|c| view! { <p class="caution">{c}</p> }).collect_view()}
                <details on:toggle=move |_| listed.set(true)>
                    <summary>{app.t("hand-trees")}</summary>
                    {trees}
                </details>
            </li>
        }
        .into_any()
    }

    /// How long pieces of work take, each with its range and the way back.
    fn rates(self) -> AnyView {
        let app = self.app;
        let one = |rate: Rate| {
            let (key, usual) = rate.info();
            let set =
                move |typed: Option<f64>| self.set(|h| h.rates.set(rate, typed.unwrap_or(usual)));
            numbered(
                app,
                Numbered {
                    key,
                    name: rate_key(rate),
                    unit: Quantity::Number,
                    behind: None,
                    range: Rate::RANGE,
                    source: app.t("hand-rates-source"),
                    value: Memo::new(move |_| Some(self.hands.with(|h| h.rates.get(rate)))),
                    usual: Memo::new(move |_| Some(usual)),
                    set: Rc::new(set),
                },
            )
        };
        let reset = move |_| {
            let _ = self.set(|h| {
                *h = Hands::default();
                Ok(())
            });
        };
        view! {
            <details class="limits hand-rates">
                <summary>{app.t("hand-rates")}</summary>
                <p class="facts">{app.t("hand-rates-what")}</p>
                <ul>{self.read(Season::rates).into_iter().map(one).collect_view()}</ul>
            </details>
            <button
                class="link"
                data-act="hand-reset"
                disabled=move || self.hands.with(|h| *h == Hands::default())
                on:click=reset
            >
                {app.t("hand-reset")}
            </button>
        }
        .into_any()
    }

    /// The passes, with what is printed of all of them.
    fn passes(self) -> AnyView {
        let app = self.app;
        let count = self
            .season
            .with_untracked(|s| s.as_ref().map_or(0, |s| s.passes.len()));
        let painted = self.read(|s| s.passes.iter().any(|p| p.job.by_paint()));
        let every = |marking| Asked {
            pass: None,
            marking,
        };
        let told = move || {
            self.read(|s| {
                let count = |n: usize| Arg::Count(n as i64);
                let args = [
                    ("scheme", Arg::Text(self.scheme())),
                    ("passes", count(s.passes.len())),
                    ("pieces", count(s.count())),
                    ("hours", Arg::Number(s.minutes() / 60.0, 1)),
                ];
                app.text("hand-all", &args)
            })
        };
        view! {
            <p class="hand-total">{told}</p>
            <p class="hand-acts">
                {spoken_choice(app.t("hand-language"), self.spoken)}
                <PaperChoice app/>
                {self.prints("hand-print-all", every(false))}
                {painted.then(|| self.prints("hand-mark-all", every(true)))}
            </p>
            {taking(app)}
            {self.rates()}
            <ol class="passes">{(0..count).map(|at| self.pass(at)).collect_view()}</ol>
        }
        .into_any()
    }

    fn scheme(self) -> String {
        let name = self
            .app
            .peek(|d| d.scheme_name(d.look().scheme).to_string());
        name.unwrap_or_default()
    }

    fn view(self, open: RwSignal<bool>) -> AnyView {
        let app = self.app;
        let node = NodeRef::<html::Dialog>::new();
        let leaf = app.peek(|d| d.look().moment.leaf).unwrap_or(1);
        let leaf = ("leaf", Arg::Count(leaf.into()));
        let title = app.text("hand-title", std::slice::from_ref(&leaf));
        let (count, is_usual, void) = self.season.with_untracked(|s| {
            s.as_ref().map_or((0, true, Vec::new()), |s| {
                let void = s.void.iter().map(|(_, work)| app.worded(|w| w.work(work)));
                (s.passes.len(), s.usual, void.collect())
            })
        });
        let none = app.text(
            "hand-none",
            &[leaf.clone(), ("scheme", Arg::Text(self.scheme()))],
        );
        let of_usual = app.text("hand-usual", &[leaf]);
        let body = move || {
            match (count, is_usual && !self.usual.get()) {
            (0, _) if is_usual => view! { <p>{none.clone()} " " {app.t("hand-usual-none")}</p> }.into_any(),
            (0, _) => ().into_any(),
            (_, true) => view! {
                <p>{none.clone()}</p>
                <button data-act="hand-usual" on:click=move |_| self.usual.set(true)>{app.t("hand-usual-do")}</button>
            }
            .into_any(),
            _ => view! {
                {is_usual.then(|| view! { <p class="caution">{of_usual.clone()}</p> })}
                {self.passes()}
            }
            .into_any(),
        }
        };
        let undone = (!void.is_empty()).then(|| {
            let many = [("count", Arg::Count(void.len() as i64))];
            let lines = void
                .into_iter()
                .map(|work: String| view! { <li>{work}</li> });
            view! {
                <p>{app.text("hand-void", &many)}</p>
                <ul class="hand-void">{lines.collect_view()}</ul>
            }
        });
        let (count_of, counting) = self.counting;
        let away = move || self.walked.with(Option::is_some) || counting.get();
        let close = move |_| {
            if let Some(dialog) = node.get() {
                dialog.close();
            }
        };
        view! {
            <Dialog labelled_by="hand-title" node on_close=move || {
                if counting.get_untracked() {
                    count_of.keep();
                }
                open.set(false);
            }>
                {move || {
                    let back = move || {
                        counting.set(false);
                        dom::focus_soon("[data-act=count-buds]");
                    };
                    counting.get().then(|| count_of.view(back))
                }}
                {move || {
                    let at = self.walked.get()?;
                    Some(InRow::new(app, self.season, at).view(move || self.walked.set(None)))
                }}
                <div class="hand-out" hidden=away>
                    <h2 id=move || if away() { "hand-passes" } else { "hand-title" }>{title}</h2>
                    {draft_not_taken(app)}
                    {body}
                    {undone}
                    <p>
                        <button class="link" data-act="count-buds" title=app.t("count-what") on:click=move |_| counting.set(true)>
                            {app.t("count-do")}
                        </button>
                    </p>
                    {move || self.wrong.get().map(|w| view! { <p class="refusal" role="alert">{w}</p> })}
                    <p class="choices">
                        <button data-act="hand-close" on:click=close>{app.t("charts-close")}</button>
                    </p>
                </div>
            </Dialog>
        }
        .into_any()
    }
}

fn rate_key(rate: Rate) -> &'static str {
    match rate {
        Rate::GrubOut => "rate-grub-out",
        Rate::Plant => "rate-plant",
        Rate::Stub => "rate-stub",
        Rate::Laterals => "rate-laterals",
        Rate::Tip => "rate-tip",
        Rate::CutBack => "rate-cut-back",
        Rate::TakeOff => "rate-take-off",
        Rate::Wire => "rate-wire",
        Rate::WirePost => "rate-wire-post",
        Rate::Bud => "rate-bud",
        Rate::Notch => "rate-notch",
        Rate::Tie => "rate-tie",
        Rate::Walk => "rate-walk",
        Rate::Disinfect => "rate-disinfect",
    }
}
