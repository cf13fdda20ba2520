//! A walk along the row, one question at a time, for a hand that holds a telephone beside the tape.

use crate::browser::app::{App, Doorway};
use crate::browser::controls::fields::{FormSheet, radios};
use crate::browser::device::settings;
use crate::browser::dom;
use crate::browser::ways::doors::FormPage;
use cordonry::refusal::Refusal;
use cordonry::row::Toward;
use cordonry::said::{Arg, Quantity, Said};
use cordonry::sorted::Map;
use cordonry::walk::{Answer, Ask, Doubt, Tape, Walk, WalkSetup, Way};
use leptos::prelude::*;

/// What is laid down before the walk.
#[component]
pub fn WalkSetupForm(app: App, entry: RwSignal<Doorway>) -> impl IntoView {
    let sheet = FormSheet::<WalkSetup>::new(app);
    let done = Callback::new(move |()| {
        let Some(setup) = sheet.done() else { return };
        match Walk::new(setup) {
            Ok(walk) => {
                settings::keep_walk(Some(&walk));
                entry.set(Doorway::Walk);
            }
            Err(why) => app.refuse(&why),
        }
    });
    view! {
        <FormPage app entry name="way-walk" done>
            {radios(
                "sample",
                app.t("walk-which"),
                vec![(app.t("walk-every"), false), (app.t("walk-sample"), true)],
                move || sheet.read(|s| s.sample.is_some()),
                move |sample| sheet.choose(|s| s.set_sample(sample)),
            )}
            {yes_or_no(sheet, "walk-heights", |s| s.heights, |s, to| s.heights = to)}
            {yes_or_no(sheet, "walk-laterals", |s| s.laterals, |s, to| s.laterals = to)}
            {radios(
                "tape",
                app.t("walk-tape"),
                Tape::ALL.map(|t| (app.t(t.sign()), t)).to_vec(),
                move || sheet.read(|s| s.tape),
                move |tape| {
                    sheet.set_style(tape.style());
                    sheet.choose(|s| s.tape = tape);
                },
            )}
            {sheet.fields()}
        </FormPage>
    }
}

/// Whether something more is asked on the walk.
fn yes_or_no(
    sheet: FormSheet<WalkSetup>,
    key: &'static str,
    now: fn(&WalkSetup) -> bool,
    set: fn(&mut WalkSetup, bool),
) -> impl IntoView {
    let app = sheet.app();
    radios(
        key,
        app.t(key),
        vec![
            (app.t("walk-asked-no"), false),
            (app.t("walk-asked-yes"), true),
        ],
        move || sheet.read(now),
        move |to| sheet.choose(|s| set(s, to)),
    )
}

/// The walk and what is being typed.
#[derive(Clone, Copy)]
struct Walker {
    app: App,
    walk: RwSignal<Option<Walk>>,
    text: RwSignal<String>,
    wrong: RwSignal<Option<String>>,
    /// What is asked before what was typed is taken, and what it is then taken as.
    doubt: RwSignal<Option<(Doubt, Take)>>,
    /// What was typed where the walk was left by going back: by how many answers stood before it, and what was asked.
    left: StoredValue<Map<usize, (Ask, String)>>,
}

/// As what a typed text is taken.
type Take = fn(&mut Walk, &str) -> Result<(), Refusal>;

impl Walker {
    fn ask(self) -> Ask {
        self.walk
            .with(|w| w.as_ref().map_or(Ask::Nothing, Walk::ask))
    }

    /// Does something with the walk. What was typed stays where it is refused.
    fn act(self, f: impl FnOnce(&mut Walk, &str) -> Result<(), Refusal>) {
        let Some(text) = self.typed() else {
            return self.to_field();
        };
        let taken = self
            .walk
            .try_update(|w| w.as_mut().map(|w| f(w, &text)))
            .flatten();
        match taken {
            Some(Ok(())) => {
                self.text.set(self.left_here());
                self.clear();
                self.keep();
            }
            Some(Err(why)) => self.wrong.set(Some(self.app.worded(|w| w.refusal(&why)))),
            None => {}
        }
        self.to_field();
    }

    /// What was typed, as the walk reads it; `None` where that is refused, which is then said.
    fn typed(self) -> Option<String> {
        let typed = self.app.worded(|w| w.typed(&self.text.get_untracked()));
        typed
            .map_err(|why| self.wrong.set(Some(self.app.said(&why))))
            .ok()
    }

    /// Takes what was typed, unless it looks like a slip: then that is asked first.
    fn take(self, as_what: Take) {
        let Some(text) = self.typed() else {
            return self.to_field();
        };
        let doubt = self
            .walk
            .with_untracked(|w| w.as_ref().and_then(|w| w.doubt(&text)));
        let Some(doubt) = doubt else {
            return self.act(as_what);
        };
        self.wrong
            .set(Some(in_its_style(self.app, &doubt, doubt.question())));
        self.doubt.set(Some((doubt, as_what)));
        self.to_field();
    }

    fn clear(self) {
        self.wrong.set(None);
        self.doubt.set(None);
    }

    /// How many answers there are, and what is asked.
    fn at(self) -> (usize, Ask) {
        self.walk.with_untracked(|w| {
            w.as_ref()
                .map_or((0, Ask::Nothing), |w| (w.answers().len(), w.ask()))
        })
    }

    /// What was typed here before the walk went back, if the same is asked again.
    fn left_here(self) -> String {
        let (count, ask) = self.at();
        let left = self.left.try_update_value(|l| l.remove(&count)).flatten();
        left.filter(|(asked, _)| *asked == ask)
            .map_or_else(String::new, |(_, text)| text)
    }

    fn back(self) {
        let (count, ask) = self.at();
        let text = self.text.get_untracked();
        if !text.trim().is_empty() {
            self.left
                .update_value(|l| drop(l.insert(count, (ask, text))));
        }
        let typed = self
            .walk
            .try_update(|w| w.as_mut().and_then(Walk::back))
            .flatten();
        if let Some(typed) = typed {
            self.text.set(self.app.worded(|w| w.to_type(&typed)));
            self.keep();
        }
        self.clear();
        self.to_field();
    }

    fn keep(self) {
        self.walk
            .with_untracked(|w| settings::keep_walk(w.as_ref()));
    }

    /// The keypad stays up, or comes up again: on some telephones only within the very press, so that the field is
    /// shown here and not with the rest of the page.
    fn to_field(self) {
        if types(
            self.walk
                .with_untracked(|w| w.as_ref().map_or(Ask::Nothing, Walk::ask)),
        ) && let Ok(Some(line)) = document().query_selector(".walk-typed")
        {
            let _ = line.class_list().remove_1("away");
        }
        dom::focus("#walk-field");
    }

    /// Whether there is still something in the field, which the button of that name would take; then it is said.
    fn still_typed(self, button: &str) -> bool {
        let typed = self.text.with_untracked(|t| !t.trim().is_empty());
        if typed {
            let button = Arg::Text(self.app.t(button));
            self.doubt.set(None);
            self.wrong
                .set(Some(self.app.text("walk-left", &[("button", button)])));
            self.to_field();
        }
        typed
    }

    /// The row is done, unless there is still something in the field.
    fn row_done(self) {
        if !self.still_typed("walk-next") {
            self.act(|w, _| w.answer(Answer::RowDone));
        }
    }

    /// The tree is done, unless there is still something in the field.
    fn tree_done(self, and_row: bool) {
        if self.still_typed("walk-next-thickness") {
            return;
        }
        self.act(|w, _| w.answer(Answer::TreeDone));
        if and_row {
            self.act(|w, _| match w.ask() {
                Ask::Foot { .. } => w.answer(Answer::RowDone),
                _ => Ok(()),
            });
        }
    }
}

/// Whether the answer is typed.
fn types(ask: Ask) -> bool {
    !matches!(ask, Ask::Way { .. } | Ask::Nothing)
}

/// The walk.
#[component]
pub fn Walking(app: App, entry: RwSignal<Doorway>, walk: Walk) -> impl IntoView {
    let hand = Walker {
        app,
        walk: RwSignal::new(Some(walk)),
        text: RwSignal::new(String::new()),
        wrong: RwSignal::new(None),
        doubt: RwSignal::new(None),
        left: StoredValue::new(Map::new()),
    };
    settings::set_walk_open(true);
    request_animation_frame(move || hand.to_field());
    let leave = move || {
        settings::set_walk_open(false);
        entry.set(Doorway::Start);
    };
    let ask = Memo::new(move |_| hand.ask().key());
    let so_far = move || {
        hand.walk.with(|w| {
            w.as_ref()
                .map(|w| w.so_far().iter().map(|s| app.said(s)).collect::<Vec<_>>())
                .unwrap_or_default()
        })
    };
    let unit = move || {
        hand.walk.with(|w| {
            w.as_ref()
                .map_or_else(String::new, |w| match w.ask().quantity() {
                    Quantity::Thickness => app.t(w.setup().tape.thickness_sign()),
                    Quantity::Count => String::new(),
                    _ => app.t(w.setup().tape.sign()),
                })
        })
    };
    view! {
        <main class="walk">
            <header>
                <p class="walk-where">{move || progress(hand)}</p>
                <button class="link" on:click=move |_| leave()>{app.t("walk-leave")}</button>
            </header>
            <form
                novalidate
                on:submit=move |e| {
                    e.prevent_default();
                    hand.take(Walk::typed);
                }
            >
                <h1 tabindex="-1">
                    <label for="walk-field">{move || question(hand)}</label>
                </h1>
                <p class="walk-typed" class:away=move || !types(hand.ask())>
                    <input
                        id="walk-field"
                        inputmode="decimal"
                        enterkeyhint="next"
                        autocomplete="off"
                        aria-describedby="walk-wrong"
                        aria-invalid=move || hand.wrong.with(Option::is_some).to_string()
                        prop:value=hand.text
                        on:input=move |e| {
                            hand.text.set(event_target_value(&e));
                            if hand.doubt.with_untracked(Option::is_some) {
                                hand.clear();
                            }
                        }
                    />
                    <span class="walk-unit">{unit}</span>
                </p>
                <p id="walk-wrong" class="wrong" role="alert">{hand.wrong}</p>
                // The keypad goes down when the field loses the focus; a press on a button is not to do that.
                <div class="walk-buttons" on:mousedown=move |e| e.prevent_default()>
                    {move || doubt_buttons(hand)}
                    {move || buttons(hand, entry, ask.get())}
                </div>
            </form>
            <ul class="walk-so-far" aria-live="polite">
                {move || so_far().into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}
            </ul>
        </main>
    }
}

fn progress(hand: Walker) -> String {
    hand.walk.with(|w| {
        w.as_ref()
            .map(|w| match w.progress() {
                (done, Some(of)) => hand.app.text(
                    "walk-progress-sample",
                    &[
                        ("done", Arg::Count(done.into())),
                        ("of", Arg::Count(of.into())),
                        (
                            "trees",
                            Arg::Text(
                                w.visits()
                                    .iter()
                                    .map(u32::to_string)
                                    .collect::<Vec<_>>()
                                    .join(", "),
                            ),
                        ),
                    ],
                ),
                (done, None) => hand
                    .app
                    .text("walk-progress", &[("done", Arg::Count(done.into()))]),
            })
            .unwrap_or_default()
    })
}

fn toward(way: Toward) -> (&'static str, Arg) {
    let word = match way {
        Toward::Left => "left",
        Toward::Right => "right",
    };
    ("toward", Arg::Text(word.into()))
}

fn question(hand: Walker) -> String {
    let ask = hand.ask();
    let mut args = vec![("tree", Arg::Count(ask.tree().unwrap_or(0).into()))];
    match ask {
        Ask::End { toward: way, .. } | Ask::LeaderThickness { toward: way, .. } => {
            args.push(toward(way));
        }
        ask if ask.upright() > 0 => args.push(("number", Arg::Count(ask.upright().into()))),
        _ => {}
    }
    hand.app.text(&format!("walk-ask-{}", ask.key()), &args)
}

/// What is said of a doubt, with lengths as they are on the tape.
fn in_its_style(app: App, doubt: &Doubt, said: Said) -> String {
    app.worded(|w| w.styled(doubt.style()).say(&said))
}

/// The answers to what is asked about a likely slip: one press each.
fn doubt_buttons(hand: Walker) -> impl IntoView {
    let app = hand.app;
    hand.doubt.get().map(|(doubt, as_what)| {
        let (label, typed) = match doubt.meant() {
            Some((label, typed)) => (in_its_style(app, &doubt, label), Some(typed)),
            None => (app.t("walk-doubt-mend"), None),
        };
        view! {
            <button
                type="button"
                data-act="walk-doubt-meant"
                on:click=move |_| {
                    let Some(typed) = typed.clone() else {
                        hand.clear();
                        return hand.to_field();
                    };
                    hand.text.set(app.worded(|w| w.to_type(&typed)));
                    hand.act(as_what);
                }
            >
                {label}
            </button>
            <button type="button" data-act="walk-doubt-stands" on:click=move |_| hand.act(as_what)>
                {in_its_style(app, &doubt, doubt.as_it_stands())}
            </button>
        }
    })
}

/// What is asked last of an upright.
fn of_upright(hand: Walker) -> Option<&'static str> {
    hand.walk.with_untracked(|w| {
        let setup = w.as_ref()?.setup();
        Some(match (setup.heights, setup.laterals) {
            (_, true) => "laterals",
            (true, false) => "height",
            (false, false) => "thickness",
        })
    })
}

/// The buttons under the field. They stay while the same thing is asked, so that none moves away under the finger.
fn buttons(hand: Walker, entry: RwSignal<Doorway>, key: &'static str) -> impl IntoView {
    let app = hand.app;
    let empty = move || hand.text.with(|t| t.trim().is_empty());
    let next = move |key: &'static str| {
        view! {
            <button type="submit" class="main wide" data-act="walk-next">
                {move || match (hand.ask(), hand.ask().usual()) {
                    (Ask::Foot { .. }, Some(place)) if empty() => {
                        app.text("walk-usual", &[("place", place)])
                    }
                    (_, Some(value)) if empty() => app.text("walk-as-last", &[("value", value)]),
                    _ => app.t(key),
                }}
            </button>
        }
    };
    let press = move |act: &'static str, label: Signal<String>, f: Callback<()>| {
        view! {
            <button type="button" data-act=act on:click=move |_| f.run(())>
                {label}
            </button>
        }
    };
    let say = move |key: &'static str| Signal::derive(move || app.t(key));
    // Always in the same place, so that no finger finds it by chance.
    let first = hand
        .walk
        .with_untracked(|w| w.as_ref().is_none_or(|w| w.answers().is_empty()));
    let back = view! {
        <button
            type="button"
            class="back"
            data-act="walk-back"
            disabled=first
            on:click=move |_| hand.back()
        >
            {app.t("walk-back")}
        </button>
    };
    let sample = move || {
        hand.walk
            .with(|w| w.as_ref().is_some_and(|w| w.setup().sample.is_some()))
    };
    match key {
        "foot" => view! {
            {back}
            {next("walk-next")}
            {move || match hand.ask() {
                Ask::Foot { like: Some(tree), .. } => {
                    let label = app.text("walk-same-as", &[("tree", Arg::Count(tree.into()))]);
                    Some(press(
                        "walk-same",
                        Signal::derive(move || label.clone()),
                        Callback::new(move |()| hand.take(Walk::same)),
                    ))
                }
                _ => None,
            }}
            {press(
                "walk-missing",
                say("walk-missing"),
                Callback::new(move |()| hand.take(Walk::missing)),
            )}
            {move || {
                let some = hand.walk.with(|w| w.as_ref().is_some_and(Walk::has_trees));
                (some && !sample())
                    .then(|| {
                        press(
                            "walk-end",
                            say("walk-end"),
                            Callback::new(move |()| hand.row_done()),
                        )
                    })
            }}
        }
        .into_any(),
        "way" => view! {
            {back}
            {[(Way::Both, "walk-both-ways"), (Way::Left, "walk-left-way"), (Way::Right, "walk-right-way")]
                .map(|(way, label)| {
                    let as_last = move || {
                        matches!(hand.ask(), Ask::Way { usual: Some(usual), .. } if usual == way)
                    };
                    view! {
                        <button
                            type="button"
                            class:main=as_last
                            data-act=label
                            on:click=move |_| hand.act(|w, _| w.answer(Answer::Way(way)))
                        >
                            {app.t(label)}
                        </button>
                    }
                })
                .collect_view()}
        }
        .into_any(),
        "end" => view! { {back} {next("walk-next")} }.into_any(),
        "leader" | "thickness" | "height" | "laterals" => view! {
            {back}
            {next(match (key, of_upright(hand)) {
                ("leader", _) => "walk-next",
                (_, Some(last)) if last == key => "walk-next-upright",
                _ => "walk-next",
            })}
            {press(
                "walk-unmeasured",
                say("walk-unmeasured"),
                Callback::new(move |()| {
                    hand.act(|w, _| {
                        w.answer(match w.ask() {
                            Ask::Height { .. } => Answer::Height(None),
                            Ask::Laterals { .. } => Answer::Laterals(None),
                            _ => Answer::Thickness(None),
                        })
                    });
                }),
            )}
        }
        .into_any(),
        "upright" => view! {
            {back}
            {next("walk-next-thickness")}
            {press(
                "walk-next-tree",
                say("walk-next-tree"),
                Callback::new(move |()| hand.tree_done(false)),
            )}
            {move || {
                (!sample())
                    .then(|| {
                        press(
                            "walk-last-tree",
                            say("walk-last-tree"),
                            Callback::new(move |()| hand.tree_done(true)),
                        )
                    })
            }}
        }
        .into_any(),
        _ => view! {
            {back}
            <button
                type="button"
                class="main wide"
                data-act="walk-open"
                on:click=move |_| open(hand, entry)
            >
                {app.t("walk-open")}
            </button>
        }
        .into_any(),
    }
}

/// Opens the plan of the walked row; the walk is over.
fn open(hand: Walker, entry: RwSignal<Doorway>) {
    let app = hand.app;
    let plan = hand
        .walk
        .with_untracked(|w| w.as_ref().map(|w| app.worded(|words| w.plan(words))));
    match plan {
        Some(Ok(plan)) => {
            settings::keep_walk(None);
            settings::set_walk_open(false);
            entry.set(Doorway::Start);
            app.open_plan(plan, None);
        }
        Some(Err(why)) => hand.wrong.set(Some(app.worded(|w| w.refusal(&why)))),
        None => {}
    }
}
