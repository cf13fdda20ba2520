//! A line of the list, and a remedy that is shown on the wall while it is aimed at.

use super::line::{Listed, Offer};
use super::pressed::Pressed;
use crate::browser::app::App;
use crate::browser::hand::once;
use cordonry::check::Severity;
use cordonry::said::Arg;
use cordonry::work::Work;
use leptos::prelude::*;
use std::time::Duration;
use web_sys::MouseEvent;

/// The classes of a line.
pub fn class(severity: Severity) -> &'static str {
    match severity {
        Severity::Now => "finding now",
        Severity::Soon => "finding soon",
        Severity::Note => "finding note",
    }
}

/// How urgent it is, and what it says, which shows its place where it is pressed.
#[component]
pub fn Sign(
    app: App,
    first: impl Fn() -> Option<(Listed, String)> + Copy + Send + Sync + 'static,
    press: impl Fn() + 'static,
) -> impl IntoView {
    let severity = move || first().map_or(Severity::Note, |(f, _)| f.severity);
    let mark = move || match severity() {
        Severity::Now => "▲",
        Severity::Soon => "◆",
        Severity::Note => "●",
    };
    let word = move || app.t(severity().word());
    view! {
        <span class="severity" aria-hidden="true">{mark}</span>
        <span class="said">
            <button
                class="plain"
                title=move || first().map(|(f, _)| f.source)
                on:click=move |_| press()
            >
                <span class="visually-hidden">{word} ": "</span>
                {move || first().map(|(_, words)| words)}
            </button>
        </span>
    }
}

/// A finding among others of its matter.
#[component]
pub fn FindingItem(
    app: App,
    f: Listed,
    key: StoredValue<String>,
    waits: Signal<bool>,
) -> impl IntoView {
    let own = f.key.clone();
    let all = f.offers.clone();
    let severity = f.severity;
    let f = StoredValue::new(f);
    view! {
        <li class=class(severity) data-finding=own>
            <Sign
                app
                first=move || f.try_get_value().map(|f| (f.clone(), f.words))
                press=move || {
                    if let Some(f) = f.try_get_value() {
                        app.choose(f.part);
                        app.show(f.x);
                    }
                }
            />
            <span class="remedies">{offers(app, key, all, waits)}</span>
        </li>
    }
}

/// The remedies of a finding: the first, and the others on request.
pub fn offers(
    app: App,
    key: StoredValue<String>,
    mut others: Vec<Offer>,
    waits: Signal<bool>,
) -> AnyView {
    if others.is_empty() {
        return ().into_any();
    }
    let offer = others.remove(0);
    let others = (!others.is_empty()).then(|| {
        let count = [("count", Arg::Count(others.len() as i64))];
        let each = others.into_iter().map(|offer| {
            view! { <div><RemedyButton app key offer waits/></div> }
        });
        view! {
            <details>
                <summary>{app.text("remedies-other", &count)}</summary>
                {each.collect_view()}
            </details>
        }
    });
    view! {
        <RemedyButton app key offer waits/>
        {others}
    }
    .into_any()
}

#[component]
fn RemedyButton(
    app: App,
    key: StoredValue<String>,
    offer: Offer,
    waits: Signal<bool>,
) -> impl IntoView {
    let pressed = expect_context::<Pressed>();
    let (of, words, remedy) = offer;
    let works = remedy.work.clone();
    let press = move || pressed.press(app, key.get_value(), Some((of.clone(), remedy.clone())));
    aimed(app, (None, words), waits, move || works.clone(), press)
}

/// The button of remedies: while it is aimed at, the wall shows what they would do.
pub fn aimed(
    app: App,
    (act, words): (Option<&'static str>, String),
    waits: Signal<bool>,
    works: impl Fn() -> Vec<Work> + Send + Sync + 'static,
    press: impl Fn() + 'static,
) -> AnyView {
    let aim = Try::new(app, works);
    view! {
        <button
            class="link"
            data-act=act
            data-remedy=""
            aria-disabled=move || waits.get().then_some("true")
            on:click=move |_| press()
            on:pointerenter=move |e| aim.pointed(&e)
            on:pointermove=move |e| aim.pointed(&e)
            on:pointerleave=move |_| aim.hide()
            on:focus=move |_| aim.show()
            on:blur=move |_| aim.hide()
        >
            {words}
        </button>
    }
    .into_any()
}

/// What the remedy that is aimed at brings, in words.
#[derive(Clone, Copy)]
pub struct Aimed {
    pub told: RwSignal<Option<String>>,
    /// Counts what was aimed at: only what still is when a hand rests is worked out.
    count: StoredValue<u32>,
}

impl Aimed {
    /// Nothing is aimed at.
    pub fn new() -> Self {
        Self {
            told: RwSignal::new(None),
            count: StoredValue::new(0),
        }
    }

    /// Tells, once a hand rests on it, what work brings; nothing of none.
    fn tell(self, app: App, works: Vec<Work>) {
        let mine = self.count.get_value().wrapping_add(1);
        self.count.set_value(mine);
        if works.is_empty() {
            return self.told.set(None);
        }
        set_timeout(
            move || {
                if self.count.try_get_value() != Some(mine) {
                    return;
                }
                let told = app.peek(|d| d.crop_if(&works)).flatten();
                self.told.set(told.map(|(leaf, [now, then])| {
                    let values = [
                        ("leaf", Arg::Count(leaf.into())),
                        ("now", Arg::Number(now, 1)),
                        ("then", Arg::Number(then, 1)),
                    ];
                    app.text("tried-crop", &values)
                }));
            },
            RESTS,
        );
    }
}

/// A hand rests that aims at the same for so long.
const RESTS: Duration = Duration::from_millis(200);

/// A remedy that may be aimed at: the wall shows then what it would do.
#[derive(Clone, Copy)]
struct Try {
    app: App,
    aimed: Aimed,
    works: StoredValue<Box<dyn Fn() -> Vec<Work> + Send + Sync>>,
    shown: StoredValue<bool>,
}

impl Try {
    fn new(app: App, works: impl Fn() -> Vec<Work> + Send + Sync + 'static) -> Self {
        Self {
            app,
            aimed: expect_context(),
            works: StoredValue::new(Box::new(works)),
            shown: StoredValue::new(false),
        }
    }

    /// A pointer is on it: one that has moved here, not one under which it has come to lie.
    fn pointed(self, event: &MouseEvent) {
        if self.shown.try_get_value() == Some(false) && !once::rests(event) {
            self.show();
        }
    }

    fn show(self) {
        self.shown.try_set_value(true);
        let works = self.works.try_with_value(|works| works());
        let works = works.unwrap_or_default();
        self.lay(&works);
        self.aimed.tell(self.app, works);
    }

    fn hide(self) {
        self.shown.try_set_value(false);
        self.lay(&[]);
        self.aimed.tell(self.app, Vec::new());
    }

    fn lay(self, works: &[Work]) {
        self.app
            .with_wall(|wall, desk| wall.show_tried(desk, works));
    }
}
