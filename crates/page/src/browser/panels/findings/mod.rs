//! Beside the wall: what is to be done, matter by matter, with the remedies; and the figures.

mod figures;
mod line;
mod one;
mod pressed;

pub use figures::{FigureRows, FiguresPanel};

use crate::browser::app::App;
use crate::browser::controls::lines::Lines;
use crate::browser::dom;
use crate::document::Edit;
use cordonry::said::Arg;
use leptos::prelude::*;
use line::{Line, Offer};
use one::{Aimed, FindingItem, Sign};
use pressed::Pressed;

/// What the list of matters knows.
#[derive(Clone, Copy)]
struct State {
    lines: Memo<Vec<Line>>,
    /// The matters whose findings are listed.
    opened: RwSignal<Vec<String>>,
    /// The matter that is being left, while its reason is asked for.
    leaving: RwSignal<Option<String>>,
    /// The matter that was pressed last, and which of its findings was shown.
    shown: RwSignal<Option<(String, usize)>>,
}

impl State {
    fn line(self, key: &str) -> Option<Line> {
        self.lines
            .with(|lines| lines.iter().find(|l| l.key == key).cloned())
    }

    /// Shows the first place of a matter; pressed again the next.
    fn show(self, app: App, key: String) {
        let all = untrack(|| self.line(&key)).map_or(1, |l| l.all.max(1));
        let next = self.shown.with_untracked(|shown| match shown {
            Some((of, at)) if *of == key => (at + 1) % all,
            _ => 0,
        });
        if let Some((part, x)) = app.peek(|d| line::place(d, &key, next)).flatten() {
            self.shown.set(Some((key, next)));
            app.choose(part);
            app.show(x);
        }
    }
}

/// What is to be done, the gravest first and the largest of it; what is left for the year is apart.
#[component]
pub fn Findings(app: App) -> impl IntoView {
    let opened = RwSignal::new(Vec::new());
    let lines = Memo::new(move |_| {
        app.style.track();
        let opened = opened.get();
        app.read(|d| line::lines(app, d, &opened))
            .unwrap_or_default()
    });
    let state = State {
        lines,
        opened,
        leaving: RwSignal::new(None),
        shown: RwSignal::new(None),
    };
    let keys = move |left: bool| {
        lines.with(|lines| {
            let own = lines.iter().filter(|l| l.left.is_some() == left);
            own.map(|l| (l.key.clone(), l.says_first))
                .collect::<Vec<_>>()
        })
    };
    let count = move |left: bool| Arg::Count(keys(left).len() as i64);
    let list = Lines::new(".finding", ".findings .plain");
    let pressed = Pressed::new();
    provide_context(pressed);
    let aimed = Aimed::new();
    provide_context(aimed);
    Effect::new(move |_| {
        lines.track();
        // What was aimed at may be done, or gone from under a hand.
        aimed.told.set(None);
        list.changed();
        pressed.settle(app);
    });
    view! {
        <section
            class="findings"
            aria-labelledby="findings-title"
            on:focusin=move |e| list.entered(&e)
            on:focusout=move |e| list.left(&e)
        >
            <h2 id="findings-title" aria-live="polite">
                {move || app.text("findings-title", &[("count", count(false))])}
            </h2>
            // It takes the place of what is less asked for then: nothing else moves.
            {move || match aimed.told.get() {
                Some(told) => view! { <p class="facts" role="status" data-figure="tried-crop">{told}</p> }.into_any(),
                None if app.light.on.get() => ().into_any(),
                None => view! { <NoLight app/> }.into_any(),
            }}
            <ul>
                <For
                    each=move || keys(false)
                    key=|k| k.clone()
                    children=move |(key, says_first)| view! { <MatterItem app state key says_first/> }
                />
            </ul>
            <Show when=move || !keys(true).is_empty()>
                <details class="left-matters">
                    <summary>{move || app.text("left-title", &[("count", count(true))])}</summary>
                    <ul>
                        <For
                            each=move || keys(true)
                            key=|k| k.clone()
                            children=move |(key, _)| view! { <LeftItem app state key/> }
                        />
                    </ul>
                </details>
            </Show>
        </section>
    }
}

/// Says that the light is not among what is judged, and looks at it on request.
#[component]
fn NoLight(app: App) -> impl IntoView {
    let look = move |_| {
        app.light.toggle(app);
        // The button is gone then.
        dom::focus_soon(".findings .plain");
        dom::keep_focus();
    };
    view! {
        <p class="facts">
            {app.t("findings-no-light")} " "
            <button class="link" data-act="judge-light" on:click=look>
                {app.t("findings-judge-light")}
            </button>
        </p>
    }
}

/// The line of a matter; where its first finding says it, that finding's.
#[component]
fn MatterItem(app: App, state: State, key: String, says_first: bool) -> impl IntoView {
    let now = {
        let key = key.clone();
        Memo::new(move |_| state.line(&key))
    };
    let key = StoredValue::new(key);
    let of = move |f: fn(&Line) -> String| now.with(|l| l.as_ref().map(f).unwrap_or_default());
    let waits = Signal::derive(move || now.with(|l| l.as_ref().is_some_and(|l| l.waits)));
    // What stands under a hand is made anew only where it is another: not when it has been tried.
    let mends = Memo::new(move |_| {
        now.with(|l| {
            let l = l.as_ref()?;
            Some(match &l.only {
                _ if says_first && !l.first.offers.is_empty() => Mends::Own(l.first.offers.clone()),
                Some(only) => Mends::Own(vec![only.clone()]),
                None if !says_first && l.mendable.0 > 0 => Mends::All(l.mendable, l.all),
                None => Mends::Nothing(l.stuck.clone()),
            })
        })
    });
    let has_others = Memo::new(move |_| now.with(|l| l.as_ref().is_some_and(|l| l.count > 0)));
    let is_open = move || state.opened.with(|o| o.contains(&key.get_value()));
    let is_leaving = move || state.leaving.with(|l| *l == Some(key.get_value()));
    let class = move || now.with(|l| l.as_ref().map(|l| one::class(l.first.severity)));
    let own = move || {
        now.with(|l| {
            l.as_ref()
                .filter(|_| says_first)
                .map(|l| l.first.key.clone())
        })
    };
    let at = move || {
        let shown = state.shown.get();
        shown.filter(|(of, _)| *of == key.get_value()).map(|s| s.1)
    };
    let leave = move |_| {
        state.leaving.set(Some(key.get_value()));
        dom::focus_soon("[data-field=leave-why]");
    };
    view! {
        <li
            class=class
            data-matter=move || of(|l| l.key.clone())
            data-rules=move || of(|l| l.rules.clone())
            data-finding=own
        >
            <Sign
                app
                first=move || now.get().map(|l| (l.first, l.words))
                press=move || state.show(app, key.get_value())
            />
            <span class="finding-acts">
            <span class="remedies">
                {move || match mends.get()? {
                    Mends::Own(offers) => Some(one::offers(app, key, offers, waits)),
                    Mends::All(count, of) => Some(mend_all(app, key, count, of, waits)),
                    Mends::Nothing(why) => Some(
                        view! { <span class="stuck">{move || (!waits.get()).then(|| why.clone())}</span> }.into_any(),
                    ),
                }}
            </span>
                <Show when=move || has_others.get()>
                            <button
                                class="link"
                                data-act="each"
                                aria-expanded=move || is_open().to_string()
                                on:click=move |_| {
                                    let key = key.get_value();
                                    state
                                        .opened
                                        .update(|o| match o.iter().position(|k| *k == key) {
                                            Some(at) => drop(o.remove(at)),
                                            None => o.push(key),
                                        });
                                }
                            >
                                {move || {
                                    if is_open() {
                                        return app.t("matter-fewer");
                                    }
                                    let (others, all) = now.with(|l| l.as_ref().map_or((0, 0), |l| (l.count, l.all)));
                                    let count = |n: usize| Arg::Count(n as i64);
                                    match at() {
                                        Some(at) => app.text("matter-at", &[("at", count(at + 1)), ("count", count(all))]),
                                        None if says_first => app.text("matter-more", &[("count", count(others))]),
                                        None => app.text("matter-each", &[("count", count(others))]),
                                    }
                                }}
                            </button>
                </Show>
                <button
                    class="link"
                    data-act="leave"
                    aria-expanded=move || is_leaving().to_string()
                    on:click=leave
                >
                    {app.t("leave")}
                </button>
            </span>
            {move || is_leaving().then(|| view! { <LeaveForm app state key/> })}
            {move || {
                (is_open() && has_others.get()).then(|| view! { <EachFinding app now key waits/> })
            }}
        </li>
    }
}

/// What mends a matter.
#[derive(Clone, PartialEq)]
enum Mends {
    /// The remedies of one finding.
    Own(Vec<Offer>),
    /// So many first remedies, for so many findings, all by one press; of how many findings.
    All((usize, usize), usize),
    /// Nothing, and why.
    Nothing(String),
}

/// One press for the first remedy of each finding of a matter.
fn mend_all(
    app: App,
    key: StoredValue<String>,
    (remedies, mended): (usize, usize),
    all: usize,
    waits: Signal<bool>,
) -> AnyView {
    let pressed = expect_context::<Pressed>();
    let works = move || {
        let all = app.peek(|d| {
            let (all, matter) = line::of_key(d, &key.get_value())?;
            Some(line::first_remedies(d, &all, &matter))
        });
        let all = all.flatten().unwrap_or_default().into_iter();
        all.flat_map(|(_, r)| r.work).collect()
    };
    let count = |n: usize| Arg::Count(n as i64);
    let words = match mended < all {
        true => app.text(
            "mend-some",
            &[
                ("remedies", count(remedies)),
                ("count", count(mended)),
                ("of", count(all)),
            ],
        ),
        false => app.text("mend-all", &[("count", count(remedies))]),
    };
    let press = move || pressed.press(app, key.get_value(), None);
    one::aimed(app, (Some("mend-all"), words), waits, works, press)
}

/// The findings of a matter one by one. A line stays as long as it says the same, so that it does not go from under a hand.
#[component]
fn EachFinding(
    app: App,
    now: Memo<Option<Line>>,
    key: StoredValue<String>,
    waits: Signal<bool>,
) -> impl IntoView {
    let hidden = move || {
        now.with(|l| {
            l.as_ref()
                .map_or(0, |l| l.count.saturating_sub(l.listed.len()))
        })
    };
    view! {
        <ul class="each">
            <For
                each=move || now.get().map(|l| l.listed).unwrap_or_default()
                key=|f| {
                    let offers: Vec<String> = f.offers.iter().map(|o| o.1.clone()).collect();
                    (f.key.clone(), f.words.clone(), offers)
                }
                children=move |f| view! { <FindingItem app f key waits/> }
            />
            {move || {
                (hidden() > 0)
                    .then(|| {
                        let count = [("count", Arg::Count(hidden() as i64))];
                        view! { <li class="facts">{app.text("findings-hidden", &count)}</li> }
                    })
            }}
        </ul>
    }
}

/// Why a matter is left.
#[component]
fn LeaveForm(app: App, state: State, key: StoredValue<String>) -> impl IntoView {
    // What comes back was left for a reason, which often still holds.
    let before = app.peek(|d| line::why_left(d, &key.get_value()));
    let reason = RwSignal::new(before.flatten().unwrap_or_default());
    let close = move || {
        state.leaving.set(None);
        dom::begin_at_if_lost("#findings-title");
    };
    let leave = move |e: leptos::ev::SubmitEvent| {
        e.prevent_default();
        let why = reason.get_untracked();
        let left = app.peek(|d| line::left(d, &key.get_value(), why)).flatten();
        match left.map(|left| app.try_edit(Edit::leave(left))) {
            Some(Err(why)) => return app.refuse(&why),
            Some(Ok(_)) => app.say(app.t("said-left"), false),
            None => {}
        }
        state.leaving.set(None);
    };
    view! {
        <form class="leave" on:submit=leave>
            <label>
                {app.t("leave-why")} " "
                <input
                    type="text"
                    data-field="leave-why"
                    autocomplete="off"
                    prop:value=reason
                    on:input=move |e| reason.set(event_target_value(&e))
                    on:keydown=move |e| {
                        if e.key() == "Escape" {
                            close();
                        }
                    }
                />
            </label>
            <button type="submit" data-act="leave-do">{app.t("leave-do")}</button>
            <button type="button" class="link" on:click=move |_| close()>
                {app.t("leave-not")}
            </button>
        </form>
    }
}

/// What is left for this year, with its reason.
#[component]
fn LeftItem(app: App, state: State, key: String) -> impl IntoView {
    let now = Memo::new(move |_| state.line(&key));
    let left = move || now.get().and_then(|l| l.left);
    view! {
        <li class="finding left" data-left="">
            <Sign
                app
                first=move || now.get().map(|l| (l.first, l.words))
                press=move || {
                    if let Some(l) = now.get_untracked() {
                        state.show(app, l.key);
                    }
                }
            />
            <span class="reason">{move || left().map(|(_, reason)| reason)}</span>
            <span class="remedies">
                <button
                    class="link"
                    data-act="take-up"
                    on:click=move |_| {
                        if let Some((place, _)) = left() {
                            app.edit(Edit::take_up(place));
                        }
                    }
                >
                    {app.t("take-up")}
                </button>
            </span>
        </li>
    }
}
