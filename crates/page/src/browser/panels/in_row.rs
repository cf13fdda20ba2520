//! A pass in the row itself, tree by tree: what to do there, big enough for a thumb, and what is told of it. What is told is an edit
//! of the plan, kept at once. A second look goes to some of the trees that are done.

use crate::browser::app::App;
use crate::browser::device::files;
use crate::browser::dom;
use crate::document::Edit;
use cordonry::crew::{Pass, Season, Stop};
use cordonry::plan::{Field, Moment, Plan, Seen, Told};
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{Handed, caution};
use leptos::html;
use leptos::prelude::*;

/// Trees that a second look goes to.
const SAMPLE: usize = 5;
/// How far a finger goes along before it turns to another tree, pixels.
const SWIPE: i32 = 60;

/// A pass that is walked.
#[derive(Clone, Copy)]
pub struct InRow {
    app: App,
    season: RwSignal<Option<Season>, LocalStorage>,
    pass: usize,
    /// The trees that are walked, by their places among the pass's stops; those of a second look, else all.
    walk: RwSignal<Vec<usize>>,
    /// Whether it is a second look.
    second: RwSignal<bool>,
    /// The place on that walk; none at its beginning.
    at: RwSignal<Option<usize>>,
    wrong: RwSignal<Option<String>>,
    /// Where a finger came down.
    finger: StoredValue<Option<(i32, i32)>>,
}

fn count(n: usize) -> Arg {
    Arg::Count(n as i64)
}

impl InRow {
    /// A pass of a leaf, by its place.
    pub fn new(app: App, season: RwSignal<Option<Season>, LocalStorage>, pass: usize) -> Self {
        Self {
            app,
            season,
            pass,
            walk: RwSignal::new(Vec::new()),
            second: RwSignal::new(false),
            at: RwSignal::new(None),
            wrong: RwSignal::new(None),
            finger: StoredValue::new(None),
        }
    }

    fn of<T>(self, f: impl FnOnce(&Pass) -> T) -> Option<T> {
        self.season
            .with_untracked(|s| s.as_ref().and_then(|s| s.passes.get(self.pass)).map(f))
    }

    fn handed<T>(self, f: impl FnOnce(&Handed<'_>) -> T) -> Option<T> {
        let app = self.app;
        let told = app.peek(|d| {
            self.season.with_untracked(|s| {
                let season = s.as_ref()?;
                app.worded(|w| Some(f(&Handed::at(d.plan(), season, self.pass, w)?)))
            })
        });
        told.flatten()
    }

    /// What is told of the scheme's work; whoever asks is told of changes.
    fn told<T: Default>(self, f: impl FnOnce(&Field, &Pass) -> T) -> T {
        let of = |d: &crate::desk::Desk| {
            let scheme = d.plan().scheme(d.look().scheme).ok()?;
            self.of(|pass| f(&scheme.field, pass))
        };
        self.app.read(of).flatten().unwrap_or_default()
    }

    /// Changes what is told; whether it could.
    fn tell(self, change: impl FnOnce(&Plan, usize, Moment) -> Result<Plan, Refusal>) -> bool {
        let moment = self.of(|p| p.moment);
        let made = self.app.peek(|d| {
            let moment = moment.unwrap_or(d.look().moment);
            change(d.plan(), d.look().scheme, moment)
        });
        let made = made.map(|plan| self.app.try_edit(Edit::told("step-told", plan?)).map(drop));
        let why = made.and_then(Result::err);
        let told = why.is_none();
        self.wrong
            .set(why.map(|why| self.app.worded(|w| w.refusal(&why))));
        told
    }

    fn mark(self, works: &[Work], told: &Told) -> bool {
        self.tell(|plan, scheme, moment| plan.with_told(scheme, moment, works, told))
    }

    fn go(self, on: bool) {
        // What is typed is this tree's.
        dom::leave_field();
        let last = self.walk.with_untracked(Vec::len).saturating_sub(1);
        self.at.update(|at| {
            *at = match (*at, on) {
                (None, true) => Some(0),
                (None | Some(0), false) => None,
                (Some(n), true) => Some((n + 1).min(last)),
                (Some(n), false) => Some(n - 1),
            }
        });
    }

    /// Begins to walk: where the first tree is that is not told, or at the first of a second look.
    fn begin(self, second: bool) {
        let (walk, first) = self.told(|field, pass| {
            let walk = match second {
                true => pass.sample(field, SAMPLE),
                false => (0..pass.stops.len()).collect(),
            };
            let open = |at: &usize| second || !pass.is_told(*at, field);
            let first = walk.iter().position(open).unwrap_or_default();
            (walk, first)
        });
        self.second.set(second);
        self.walk.set(walk);
        self.at.set(Some(first));
    }

    fn progress(self) -> String {
        self.told(|field, pass| {
            let at = pass.progress(field);
            let left = pass.count() - at.done - at.skipped;
            let args = [
                ("done", count(at.stops)),
                ("all", count(pass.stops.len())),
                ("skipped", count(at.skipped)),
                ("left", count(left)),
            ];
            self.app.text("field-progress", &args)
        })
    }

    /// What a second look found, with how much was looked at.
    fn looked(self) -> Option<String> {
        self.told(|field, pass| {
            let found = pass.looked(field);
            (found.pieces > 0).then(|| {
                let args = [
                    ("pieces", count(found.pieces)),
                    ("right", count(found.pieces - found.missed - found.wrong)),
                    ("missed", count(found.missed)),
                    ("wrong", count(found.wrong)),
                    ("extra", count(found.extra)),
                ];
                self.app.text("field-looked", &args)
            })
        })
    }

    fn button(self, act: &'static str, main: bool, does: impl Fn() + 'static) -> AnyView {
        view! {
            <button class:main=main data-act=act on:click=move |_| does()>
                {self.app.t(act)}
            </button>
        }
        .into_any()
    }

    fn beginning(self) -> AnyView {
        let app = self.app;
        let cautions = self.of(Pass::cautions).unwrap_or_default();
        let told = cautions.into_iter().map(|c| app.worded(|w| caution(c, w)));
        let told: Vec<String> = told.collect();
        let takes = self.handed(|h| h.takes());
        let common = self.handed(|h| h.common()).flatten();
        let common = common.map(|w| app.text("crew-each", &[("work", Arg::Text(w))]));
        let begun = move || {
            self.told(|field, pass| (1..pass.stops.len()).contains(&pass.progress(field).stops))
        };
        let some = move || self.told(|field, pass| !pass.sample(field, SAMPLE).is_empty());
        view! {
            <p>{takes}</p>
            {common.map(|c| view! { <p><b>{c}</b></p> })}
            {told.into_iter().map(|c| view! { <p class="caution">{c}</p> }).collect_view()}
            <p class="in-row-acts">
                {move || {
                    let act = if begun() { "field-on" } else { "field-begin" };
                    self.button(act, true, move || self.begin(false))
                }}
                {move || some().then(|| self.button("field-second", false, move || self.begin(true)))}
            </p>
            {move || self.looked().map(|l| view! { <p class="in-row-looked">{l}</p> })}
        }
        .into_any()
    }

    /// One tree, or the trellis.
    fn stop(self, at: usize) -> AnyView {
        let app = self.app;
        let place = self.walk.with_untracked(|w| w.get(at).copied());
        let stop = place.and_then(|n| self.of(|p| p.stops.get(n).cloned()).flatten());
        let Some(stop) = stop else {
            return ().into_any();
        };
        let last = at + 1 == self.walk.with_untracked(Vec::len);
        let second = self.second.get_untracked();
        let name = self.handed(|h| h.called(&stop));
        let found = self.handed(|h| h.found(&stop)).flatten();
        let picture = self.handed(|h| h.picture(&stop)).flatten();
        let common = self.handed(|h| h.common()).flatten();
        let common = common.map(|w| app.text("crew-each", &[("work", Arg::Text(w))]));
        let why = NodeRef::<html::Input>::new();
        let pieces = stop.work.iter().map(|work| match second {
            true => self.look(work.clone()),
            false => self.piece(work.clone(), why),
        });
        let pieces = pieces.collect_view();
        let below = if second {
            self.extra(&stop).into_any()
        } else {
            self.all(&stop, last, why).into_any()
        };
        let heading = NodeRef::<html::H3>::new();
        Effect::new(move |_| {
            if let Some(heading) = heading.get() {
                let _ = heading.focus();
            }
        });
        view! {
            <h3 tabindex="-1" node_ref=heading>{name} " " <small>{found}</small></h3>
            <div class="in-row-stop">
                {picture.map(|p| view! { <div class="in-row-picture" inner_html=p></div> })}
                <div>
                    {common.map(|c| view! { <p>{c}</p> })}
                    <ul class="in-row-pieces">{pieces}</ul>
                    {below}
                    <p class="in-row-acts in-row-turn">
                        {self.button("field-before", false, move || self.go(false))}
                        <button data-act="field-next" disabled=last on:click=move |_| self.go(true)>
                            {app.t("field-next")}
                        </button>
                    </p>
                </div>
            </div>
        }
        .into_any()
    }

    /// A button that is pressed while something is so, and turns it.
    fn turns(
        self,
        act: &'static str,
        name: String,
        is: impl Fn() -> bool + Copy + Send + 'static,
        does: impl Fn(bool) + 'static,
    ) -> AnyView {
        view! {
            <button
                data-act=act
                aria-label=format!("{}: {name}", self.app.t(act))
                aria-pressed=move || if is() { "true" } else { "false" }
                on:click=move |_| does(!is())
            >
                {self.app.t(act)}
            </button>
        }
        .into_any()
    }

    fn piece(self, work: Work, why: NodeRef<html::Input>) -> AnyView {
        let name = self.handed(|h| h.piece(&work)).unwrap_or_default();
        let work = StoredValue::new(work);
        let told = Memo::new(move |_| {
            self.told(|field, pass| work.with_value(|w| field.told(pass.moment, w)))
        });
        let mark = move |told: Told| {
            self.mark(&[work.get_value()], &told);
        };
        let done = move |on: bool| mark(if on { Told::Done } else { Told::Open });
        let skip = move |on: bool| mark(if on { skipped(why) } else { Told::Open });
        let said = move || match told.get() {
            Told::Skipped(why) if !why.is_empty() => Some(view! { <small>{why}</small> }),
            _ => None,
        };
        let is_done = move || told.get() == Told::Done;
        let is_skipped = move || matches!(told.get(), Told::Skipped(_));
        view! {
            <li class:is-done=is_done class:is-skipped=is_skipped>
                <span>{name.clone()} " " {said}</span>
                {self.turns("field-done", name.clone(), is_done, done)}
                {self.turns("field-skip", name, is_skipped, skip)}
            </li>
        }
        .into_any()
    }

    /// What is told of the whole tree: all done, all left with the reason, and a note.
    fn all(self, stop: &Stop, last: bool, why: NodeRef<html::Input>) -> impl IntoView + use<> {
        let app = self.app;
        let (works, tree) = (stop.work.clone(), stop.tree);
        let left = works.clone();
        let on = move |told: bool| match (told, last) {
            (true, true) => {
                dom::leave_field();
                self.at.set(None);
            }
            (true, false) => self.go(true),
            (false, _) => (),
        };
        let done = move || on(self.mark(&works, &Told::Done));
        let skip = move || on(self.mark(&left, &skipped(why)));
        let moment = self.of(|p| p.moment);
        let note = self.told(|field, pass| field.note(pass.moment, tree).to_string());
        let noted = move |e| {
            let text = event_target_value(&e);
            if moment.is_some() {
                self.tell(|plan, scheme, at| plan.with_field_note(scheme, at, tree, &text));
            }
        };
        view! {
            <p class="in-row-acts">
                {self.button("field-all-done", true, done)}
                {self.button("field-all-skip", false, skip)}
            </p>
            <label>{app.t("field-why")} <input node_ref=why data-field="field-why" maxlength=Field::MAX_TEXT/></label>
            <label>
                {app.t("field-note")}
                <input data-field="field-note" maxlength=Field::MAX_TEXT value=note on:change=noted/>
            </label>
        }
    }

    /// A piece at a second look.
    fn look(self, work: Work) -> AnyView {
        let name = self.handed(|h| h.piece(&work)).unwrap_or_default();
        let work = StoredValue::new(work);
        let seen = Memo::new(move |_| {
            self.told(|field, pass| work.with_value(|w| field.seen(pass.moment, w)))
        });
        let one = |act: &'static str, is: Seen| {
            let sees = move |on: bool| {
                let work = work.get_value();
                let seen = on.then_some(is);
                self.tell(|plan, scheme, at| plan.with_seen(scheme, at, &work, seen));
            };
            self.turns(act, name.clone(), move || seen.get() == Some(is), sees)
        };
        view! {
            <li>
                <span>{name.clone()}</span>
                {one("field-right", Seen::Right)}
                {one("field-missed", Seen::Missed)}
                {one("field-wrong", Seen::Wrong)}
            </li>
        }
        .into_any()
    }

    /// Cuts more than were asked for on a tree.
    fn extra(self, stop: &Stop) -> impl IntoView + use<> {
        let app = self.app;
        let tree = stop.tree;
        let job = self.of(|p| p.job);
        let now = Memo::new(move |_| {
            let of = |field: &Field, pass: &Pass| field.extra(pass.moment, pass.job, tree?);
            self.told(of).unwrap_or_default()
        });
        let add = move |more: bool| {
            let cuts = now.get_untracked();
            let cuts = if more {
                cuts + 1
            } else {
                cuts.saturating_sub(1)
            };
            if let (Some(job), Some(tree)) = (job, tree) {
                self.tell(|plan, scheme, at| plan.with_extra(scheme, (at, job, tree), cuts));
            }
        };
        let told = move || app.text("field-extra", &[("count", count(now.get().into()))]);
        view! {
            <p class="in-row-acts">
                <span role="status">{told}</span>
                {self.button("field-less", false, move || add(false))}
                {self.button("field-more", false, move || add(true))}
            </p>
            {move || self.looked().map(|l| view! { <p class="in-row-looked" role="status">{l}</p> })}
        }
    }

    /// The pass as it is walked; `close` goes back to where it came from.
    pub fn view(self, close: impl Fn() + Copy + Send + 'static) -> AnyView {
        let app = self.app;
        let name = self.handed(|h| h.name());
        let down = move |e: web_sys::PointerEvent| {
            self.finger
                .set_value((e.pointer_type() == "touch").then(|| (e.client_x(), e.client_y())));
        };
        let up = move |e: web_sys::PointerEvent| {
            if let Some((x, y)) = self.finger.get_value() {
                let (along, over) = (e.client_x() - x, (e.client_y() - y).abs());
                if along.abs() > SWIPE
                    && over < along.abs() / 2
                    && self.at.get_untracked().is_some()
                {
                    self.go(along < 0);
                }
            }
            self.finger.set_value(None);
        };
        view! {
            <div class="in-row" on:pointerdown=down on:pointerup=up>
                <h2 id="hand-title">{name}</h2>
                <p role="status" class="in-row-progress">{move || self.progress()}</p>
                // Made anew for each tree: what stands in a field is that tree's.
                <For each=move || [self.at.get()] key=|at| *at children=move |at| match at {
                    None => self.beginning(),
                    Some(at) => self.stop(at),
                }/>
                {move || self.wrong.get().map(|w| view! { <p class="refusal" role="alert">{w}</p> })}
                <p class="in-row-acts">
                    <button
                        data-act="field-back"
                        on:click=move |_| {
                            dom::leave_field();
                            close();
                        }
                    >
                        {app.t("field-back")}
                    </button>
                </p>
            </div>
        }
        .into_any()
    }
}

/// What is left, with the reason that is written.
fn skipped(why: NodeRef<html::Input>) -> Told {
    let why = why.get_untracked().map(|input| input.value());
    Told::Skipped(why.unwrap_or_default())
}

/// What comes back from the row: ticks and notes in another copy of the plan, taken over where the work is the same.
pub fn taking(app: App) -> impl IntoView {
    let said = RwSignal::new(None::<(bool, Vec<String>)>);
    let take = move |bytes: Vec<u8>| -> Result<Vec<String>, Refusal> {
        let from = cordonry::file::read_plan(&bytes)?;
        let Some(taken) = app.peek(|d| d.plan().taking_told(&from)) else {
            return Ok(Vec::new());
        };
        let taken = taken?;
        let args = [
            ("pieces", count(taken.pieces)),
            ("notes", count(taken.notes)),
            ("same", count(taken.same)),
            ("strange", count(taken.strange.len())),
        ];
        let mut out = vec![app.text("field-taken", &args)];
        let strange = taken.strange.iter();
        out.extend(strange.map(|(_, work)| {
            let tree = work.tree().map_or(0, |t| t.0);
            let args = [
                ("tree", Arg::Count(tree.into())),
                ("work", Arg::Text(app.worded(|w| w.work(work)))),
            ];
            app.text("field-strange", &args)
        }));
        out.extend(
            taken
                .schemes
                .iter()
                .map(|name| app.text("field-no-scheme", &[("scheme", Arg::Text(name.clone()))])),
        );
        if taken.pieces + taken.notes > 0 {
            app.try_edit(Edit::told("step-taken", taken.plan))?;
        }
        Ok(out)
    };
    let chosen = move |e: web_sys::Event| {
        files::read_chosen(&e, move |bytes| {
            let told = take(bytes);
            said.set(Some(match told {
                Ok(lines) => (false, lines),
                Err(why) => (true, vec![app.worded(|w| w.refusal(&why))]),
            }));
        });
    };
    view! {
        <p>
            <label class="button">
                {app.t("field-take")}
                <input class="visually-hidden" type="file" accept=".json,application/json" data-act="field-take" on:change=chosen/>
            </label>
            " " <small>{app.t("field-take-what")}</small>
        </p>
        <div role="status" class="field-taken">
            {move || {
                let (grave, lines) = said.get()?;
                let lines = lines.into_iter().map(|line| view! { <li>{line}</li> });
                Some(view! { <ul class:refusal=grave>{lines.collect_view()}</ul> })
            }}
        </div>
    }
}
