//! The chosen part's card: what it is, what was done on it, and its few actions.

use crate::actions::{self, Shown, TAKE_BACK, choices_on};
use crate::browser::app::App;
use crate::browser::commands;
use crate::browser::panels::at_part::AtPart;
use crate::browser::panels::tip;
use crate::browser::parts::shown;
use crate::desk::Desk;
use crate::document::{Edit, Mode};
use cordonry::check::Part;
use cordonry::row::{Shoot, Tree, TreeId};
use cordonry::said::{Arg, Quantity};
use cordonry::work::Choice;
use leptos::prelude::*;
use std::rc::Rc;

/// What the card says of the part.
#[derive(Clone, PartialEq)]
struct CardText {
    part: Part,
    title: String,
    facts: String,
    done: Vec<String>,
    choices: Vec<Choice>,
    caution: Option<&'static str>,
}

fn card_text(app: App, part: Part) -> Option<CardText> {
    app.peek(|d| {
        let tree = d.scene().row.tree(part.tree)?;
        let facts = match part.shoot {
            Some(id) => shoot_facts(app, tree.shoot(id)?, d.look().moment.leaf),
            None => tree_facts(app, tree),
        };
        let done = d
            .scene()
            .works_on(part)
            .iter()
            .map(|w| app.worded(|words| words.work(w)))
            .collect();
        let choices = choices_on(d.scene(), part);
        Some(CardText {
            part,
            title: app.worded(|w| w.part(&d.scene().row, part.tree, part.shoot)),
            facts,
            done,
            // What comes first is what is done most.
            caution: choices.iter().find_map(|c| c.work(&[]).caution()),
            choices,
        })
    })
    .flatten()
}

fn tree_facts(app: App, tree: &Tree) -> String {
    let facts = if tree.is_lost() {
        app.t("tree-lost")
    } else {
        app.text(
            "tree-facts",
            &[
                ("place", Arg::Length(tree.foot.f())),
                ("angle", Arg::Angle(tree.planted.angle.degrees())),
                ("uprights", Arg::Count(tree.uprights().count() as i64)),
            ],
        )
    };
    noted(facts, &tree.note)
}

/// What is told of a part, with what was noted of it.
pub fn noted(told: String, note: &str) -> String {
    match note {
        "" => told,
        _ => format!("{told} – {note}"),
    }
}

fn shoot_facts(app: App, shoot: &Shoot, leaf: u8) -> String {
    let Some(born) = shoot.born() else {
        let facts = match shoot.is_notched() {
            true => "notch-facts",
            false => "bud-facts",
        };
        return noted(app.t(facts), &shoot.note);
    };
    let age = leaf.saturating_sub(born);
    let facts = app.text(
        "shoot-facts",
        &[
            ("length", Arg::Length(shoot.length())),
            ("thickness", Arg::Thickness(shoot.diameter)),
            ("age", Arg::Count(age.into())),
        ],
    );
    noted(facts, &shoot.note)
}

/// The frame of a card of the chosen part. Escape closes it, and leaves the part chosen. Where it stands at the
/// screen's foot, the page moves up just so far that the part stays in sight.
#[component]
pub fn Framed(app: App, #[prop(into)] title: Signal<String>, children: Children) -> impl IntoView {
    request_animation_frame(move || app.clear_of_card());
    view! {
        <section
            class="part-card"
            aria-label=title
            on:keydown=move |e| {
                if e.key() == "Escape" {
                    app.close_card();
                    e.stop_propagation();
                }
            }
        >
            <h2>{title}</h2>
            {children()}
            // Last in the order of the keys: what is done comes first.
            <button
                class="close"
                data-act="card-close"
                aria-label=app.t("card-close")
                title=app.t("card-close")
                on:click=move |_| {
                    app.close_card();
                }
            >
                "×"
            </button>
        </section>
    }
}

/// What stands in the place of the card while there is none: how a part is chosen, and what was noted of the row.
#[component]
pub fn NothingChosen(app: App) -> impl IntoView {
    let none = Memo::new(move |_| app.carded().is_none());
    let note = Memo::new(move |_| app.read(|d| d.plan().note.clone()));
    // Its card may be closed.
    let told = Memo::new(move |_| {
        app.style.track();
        let chosen = app.read(|d| {
            let part = d.chosen()?;
            Some(app.worded(|w| w.part(&d.scene().row, part.tree, part.shoot)))
        });
        match chosen.flatten() {
            Some(part) => app.text("chosen-closed", &[("part", Arg::Text(part))]),
            None => app.t("chosen-none"),
        }
    });
    move || {
        none.get().then(|| {
            view! {
                <h2>{app.t("chosen-title")}</h2>
                <p class="facts chosen-told">{told}</p>
                <p class="facts row-note">{note}</p>
            }
        })
    }
}

/// The card of the chosen part.
#[component]
pub fn PartCard(app: App) -> impl IntoView {
    let shown = Memo::new(move |_| {
        app.style.track();
        let part = app.carded().filter(|_| !app.correcting());
        part.and_then(|p| card_text(app, p))
    });
    move || {
        shown.get().map(|s| {
            let title = s.title.clone();
            view! {
                <Framed app title=Signal::stored(title)>
                    <p class="facts">{s.facts.clone()}</p>
                    <WorkDone app s=s.clone()/>
                    <Choices app s=s.clone()/>
                    <RecordActions app/>
                    {s.caution.map(|key| view! { <p class="caution">{app.t(key)}</p> })}
                    <AtPart app part=s.part/>
                </Framed>
            }
        })
    }
}

/// What was done on the part at this moment, with a way back.
#[component]
fn WorkDone(app: App, s: CardText) -> impl IntoView {
    (!s.done.is_empty()).then(|| {
        view! {
            <p class="done">
                <span>{s.done.join("; ")}</span>
                " "
                <button
                    class="link"
                    data-act=TAKE_BACK
                    on:click=move |_| {
                        commands::act(app, TAKE_BACK);
                        crate::browser::dom::keep_focus();
                    }
                >
                    {app.t(TAKE_BACK)}
                </button>
            </p>
        }
    })
}

/// What can be done on the part, as words; one that asks for a number opens a line for it.
#[component]
fn Choices(app: App, s: CardText) -> impl IntoView {
    let open = RwSignal::new(None::<usize>);
    let words = s
        .choices
        .iter()
        .cloned()
        .enumerate()
        .map(|(i, choice)| {
            let word = app.said(&choice.said);
            let key = choice.said.key;
            if choice.asked.is_empty() {
                let act = move |_| {
                    commands::tell(app, Edit::work(choice.step, vec![choice.work(&[])]), key);
                    crate::browser::dom::keep_focus();
                };
                view! {
                    <button class="link" data-act=key on:click=act>
                        {word}
                    </button>
                }
                .into_any()
            } else {
                view! {
                    <button
                        class="link"
                        data-act=key
                        aria-expanded=move || (open.get() == Some(i)).to_string()
                        on:click=move |_| {
                            open.update(|o| *o = (*o != Some(i)).then_some(i));
                            crate::browser::dom::focus_soon(".part-card .ask input");
                        }
                    >
                        {word} " …"
                    </button>
                }
                .into_any()
            }
        })
        .collect_view();
    let all = s.choices.clone();
    let part = s.part;
    view! {
        <p class="actions">{words}</p>
        {move || {
            open.get()
                .and_then(|i| all.get(i).cloned())
                .map(|choice| view! { <AskNumbers app part choice close=move || open.set(None)/> })
        }}
    }
}

/// What can be put into the record or taken out of it at the part; of a row that is worked on, what is told of the tree itself.
#[component]
pub fn RecordActions(app: App) -> impl IntoView {
    let names = Memo::new(move |_| {
        let offered = |d: &Desk| -> Vec<(&'static str, Option<TreeId>)> {
            let tree = d.chosen().map(|c| c.tree);
            actions::shown_at(Shown::Card)
                .filter(|a| a.mode != Some(Mode::Work) && a.fits(d.mode()) && (a.offered)(d))
                .map(|a| (a.name, tree))
                .collect()
        };
        app.read(offered).unwrap_or_default()
    });
    let button = move |(name, tree): (&'static str, Option<TreeId>)| {
        let tree = tree.map_or(0, |t| i64::from(t.0));
        view! {
            <button
                class="link"
                data-act=name
                on:click=move |_| {
                    commands::act(app, name);
                    crate::browser::dom::keep_focus();
                }
            >
                {app.text(name, &[("tree", Arg::Count(tree))])}
            </button>
        }
    };
    view! { <p class="actions">{move || names.get().into_iter().map(button).collect_view()}</p> }
}

/// The choice that tips a shoot.
const TIP: &str = "act-tip";

/// The numbers that a choice asks for. Escape closes them and goes back to the choice.
#[component]
fn AskNumbers(app: App, part: Part, choice: Choice, close: impl Fn() + 'static) -> impl IntoView {
    let key = choice.said.key;
    let wrong = RwSignal::new(None::<String>);
    let typed: Vec<RwSignal<String>> = choice
        .asked
        .iter()
        .map(|a| {
            let planned = app.peek(|d| d.tipped(part)).flatten();
            let first = planned.filter(|_| key == TIP).unwrap_or(a.usual);
            RwSignal::new(app.worded(|w| w.field(a.unit, first)))
        })
        .collect();
    let single = choice.asked.len() == 1;
    let word = app.said(&choice.said);
    let fields = choice
        .asked
        .iter()
        .zip(&typed)
        .map(|(asked, text)| {
            let text = *text;
            let label = match asked.unit {
                _ if single => word.clone(),
                Quantity::Thickness => app.t("measure-diameter"),
                _ => app.t("measure-length"),
            };
            view! {
                <label>
                    {label} " "
                    <input
                        type="text"
                        autocomplete="off"
                        prop:value=text
                        on:input=move |e| text.set(event_target_value(&e))
                        aria-invalid=move || wrong.get().is_some().to_string()
                    />
                </label>
                " "
            }
        })
        .collect_view();
    let curve = typed.first().copied().filter(|_| key == TIP);
    let curve =
        curve.map(|text| shown(app, Rc::new(move || Box::pin(tip::curve(app, part, text)))));
    // All of what it asks is in sight, as far as there is room.
    request_animation_frame(|| crate::browser::dom::from_its_top(".part-card .ask"));
    let act = move || {
        let mut numbers = Vec::new();
        for (asked, text) in choice.asked.iter().zip(&typed) {
            let text = text.get_untracked();
            match app.worded(|w| w.read(asked.unit, &text)) {
                Ok(number) => numbers.push(number),
                Err(why) => return wrong.set(Some(app.said(&why))),
            }
        }
        let work = choice.work(&numbers);
        match app.try_edit(Edit::work(choice.step, vec![work])) {
            Ok(_) => crate::browser::dom::keep_focus(),
            Err(why) => wrong.set(Some(app.worded(|w| w.refusal(&why)))),
        }
    };
    view! {
        <form
            class="ask"
            data-ask=key
            on:keydown=move |e| {
                if e.key() == "Escape" {
                    e.stop_propagation();
                    crate::browser::dom::focus(&format!(".part-card [data-act={key}]"));
                    close();
                }
            }
            on:submit=move |e| {
                e.prevent_default();
                act();
            }
        >
            {fields}
            <button class="link" data-act="do">
                {app.t("ask-do")}
            </button>
            {move || wrong.get().map(|w| view! { <span class="wrong" role="alert">{w}</span> })}
            {curve}
        </form>
    }
}
