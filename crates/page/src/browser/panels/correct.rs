//! Correcting the record: the row as found, plainly apart from work.

use crate::actions::measures_of;
use crate::browser::app::{App, Offer};
use crate::browser::controls::field::{Apply, ValueField};
use crate::browser::controls::tipped::{SetTipped, tipped_choice};
use crate::browser::dom::focus_soon;
use crate::browser::panels::card::{Framed, RecordActions};
use crate::browser::parts::part;
use crate::document::{Edit, Mode};
use crate::helper::leaf_follows;
use cordonry::check::Part;
use cordonry::plan::{Correction, Measure, Pick, Plan};
use cordonry::refusal::Refusal;
use cordonry::row::ShootId;
use cordonry::said::Arg;
use cordonry::said::Quantity;
use cordonry::walk::unlikely_in;
use leptos::prelude::*;
use std::rc::Rc;

/// The switch beside the season line.
#[component]
pub fn RecordSwitch(app: App) -> impl IntoView {
    view! {
        <label class="record-switch" class:here=move || app.correcting()>
            <input
                type="checkbox"
                role="switch"
                data-act="correct"
                prop:checked=move || app.correcting()
                on:change=move |e| {
                    app.open_mode(if event_target_checked(&e) { Mode::Found } else { Mode::Work });
                }
            />
            <span>{app.t("record-switch")}</span>
        </label>
    }
}

part! {panels:
    /// Over the wall while the record is corrected.
    pub fn record_strip(app: App) -> AnyView {
        view! { <RecordStrip app/> }.into_any()
    }
}

part! {panels:
    /// The chosen part's card while the record is corrected.
    pub fn record_card(app: App) -> AnyView {
        view! { <RecordCard app/> }.into_any()
    }
}

part! {panels:
    /// On the wall while the record is corrected.
    pub fn record_offer(app: App) -> AnyView {
        view! { <OfferCard app/> }.into_any()
    }
}

/// Over the wall while the record is corrected: what that is, the row's ends, a tree to add, and the way out.
#[component]
fn RecordStrip(app: App) -> impl IntoView {
    // Made anew only as it comes: a field keeps what was typed, and why it was refused, while the row changes.
    let correcting = Memo::new(move |_| app.correcting());
    let untold = Memo::new(move |_| {
        app.read(|d| d.plan().found.has_untold_tips())
            .unwrap_or(false)
    });
    let tipped = Memo::new(move |_| app.read(|d| d.plan().tipped).flatten());
    move || {
        correcting.get().then(|| {
            let add: Apply = Rc::new(move |x| match x {
                [x, ..] => {
                    if let Some(edit) = app.peek(|d| d.scene().record_tree(*x)) {
                        app.try_edit(edit)?;
                    }
                    app.follow_chosen();
                    Ok(())
                }
                [] => Ok(()),
            });
            view! {
                <section class="record-strip" aria-labelledby="record-title">
                    <h2 id="record-title">{app.t("record-title")}</h2>
                    <p>{app.t("record-what")}</p>
                    <RowMeasures app/>
                    <ValueField
                        app
                        label=app.t("record-add-tree-at")
                        name="add-tree"
                        unit=Quantity::Length
                        value=Signal::stored(None)
                        apply=add
                    />
                    {move || {
                        let set: SetTipped = Rc::new(move |to| app.edit(Edit::tipped(to)));
                        untold.get().then(|| tipped_choice(app, tipped.into(), set))
                    }}
                    <button class="link" data-act="record-done" on:click=move |_| app.open_mode(Mode::Work)>
                        {app.t("record-done")}
                    </button>
                </section>
            }
        })
    }
}

#[component]
fn RowMeasures(app: App) -> impl IntoView {
    let measures = move || app.read(|d| d.plan().found.measures()).unwrap_or_default();
    let find = |list: Vec<Measure>, key: &str| list.into_iter().find(|m| m.key == key);
    let keys: Vec<(&'static str, Quantity)> = app
        .peek(|d| d.plan().found.measures())
        .unwrap_or_default()
        .iter()
        .map(|m| (m.key, m.unit))
        .collect();
    keys.into_iter()
        .map(|(key, unit)| {
            let value = Memo::new(move |_| find(measures(), key).map(|m| m.value));
            let apply: Apply =
                Rc::new(move |v| correct(app, v, |plan: &Plan| find(plan.found.measures(), key)));
            view! {
                <ValueField app label=app.t(key) name=key unit value apply/>
                {(key == "measure-leaf").then(|| follows(app))}
            }
        })
        .collect_view()
}

/// What follows from the coming leaf: how old the wood is.
fn follows(app: App) -> impl IntoView {
    let told = Memo::new(move |_| {
        app.read(|d| app.worded(|w| leaf_follows(&d.plan().found, 0, w)))
            .unwrap_or_default()
    });
    view! { <small class="follows" role="status">{told}</small> }
}

/// Corrects the measure that `find` gives to the value typed, or to one by season; an empty field corrects nothing.
fn correct(
    app: App,
    values: &[f64],
    find: impl FnOnce(&Plan) -> Option<Measure>,
) -> Result<(), Refusal> {
    let measure = app.peek(|d| find(d.plan())).flatten();
    let correction = measure.and_then(|measure| match values {
        [] => None,
        [value] => Some(measure.to(*value)),
        values => measure.by_season(values),
    });
    if let Some(correction) = correction {
        app.try_edit(Edit::record(correction))?;
    }
    // A foot may have gone far.
    app.follow_chosen();
    Ok(())
}

/// Says what looks like a slip in a length or thickness that was corrected, else how one length was shared out.
fn remark(app: App, part: Part, key: &str, values: &[f64]) {
    let Some(shoot) = part.shoot else { return };
    let seasons = |plan: &Plan| -> Vec<f64> {
        let shoot = plan.found.tree(part.tree).and_then(|t| t.shoot(shoot));
        let units = shoot.map_or(&[][..], |s| &s.units);
        units.iter().map(|u| u.kept).collect()
    };
    let about = app.peek(|d| {
        (
            unlikely_in(d.plan(), part.tree, shoot, values),
            seasons(d.plan()),
        )
    });
    let said = match (key, about) {
        ("measure-length" | "measure-diameter", Some((Some(doubt), _))) => app.said(&doubt),
        ("measure-length", Some((None, lengths))) if values.len() == 1 && lengths.len() > 1 => {
            let lengths = lengths.iter();
            let lengths: Vec<String> =
                app.worded(|w| lengths.map(|l| w.field(Quantity::Length, *l)).collect());
            app.text(
                "record-shared",
                &[("lengths", Arg::Text(lengths.join(" + ")))],
            )
        }
        _ => return,
    };
    app.say(said, false);
}

fn picks_of(plan: &Plan, part: Part) -> Vec<Pick> {
    plan.found
        .tree(part.tree)
        .map(|t| t.picks(part.shoot))
        .unwrap_or_default()
}

/// The card of the chosen part while the record is corrected: what was measured, in fields.
#[component]
fn RecordCard(app: App) -> impl IntoView {
    let part = Memo::new(move |_| app.carded().filter(|_| app.correcting()));
    move || {
        part.get().map(|part| {
            let title = move || {
                app.read(|d| app.worded(|w| w.part(&d.scene().row, part.tree, part.shoot)))
                    .unwrap_or_default()
            };
            view! {
                <Framed app title=Signal::derive(title)>
                    <p class="facts">{app.t("record-as-found")}</p>
                    <Measures app part/>
                    <Picks app part/>
                    <Note app part/>
                    <RecordActions app/>
                </Framed>
            }
        })
    }
}

#[component]
fn Measures(app: App, part: Part) -> impl IntoView {
    let list = Memo::new(move |_| {
        let measures = app
            .read(|d| measures_of(d.plan(), part))
            .unwrap_or_default();
        measures
            .into_iter()
            .map(|m| (m.key, m.unit, m.value))
            .collect::<Vec<_>>()
    });
    let keys = move || {
        let list = list.get();
        list.into_iter().map(|(k, u, _)| (k, u)).collect::<Vec<_>>()
    };
    view! {
        <div class="measures">
            <For
                each=keys
                key=|(key, _)| *key
                children=move |(key, unit)| {
                    let value = Memo::new(move |_| {
                        list.with(|l| l.iter().find(|m| m.0 == key).map(|m| m.2))
                    });
                    let apply: Apply = Rc::new(move |v| {
                        correct(
                            app,
                            v,
                            |plan| measures_of(plan, part).into_iter().find(|m| m.key == key),
                        )?;
                        if !v.is_empty() {
                            remark(app, part, key, v);
                        }
                        Ok(())
                    });
                    let sum = key == "measure-length";
                    view! {
                        <ValueField app label=app.t(key) name=key unit value apply sum/>
                        {(key == "measure-place").then(|| along(app, part))}
                    }
                }
            />
        </div>
    }
}

/// How far along its parent a shoot is whose place is told off the tape.
fn along(app: App, part: Part) -> impl IntoView {
    move || {
        app.read(|d| {
            let tree = d.plan().found.tree(part.tree)?;
            let at = tree.shoot(part.shoot?)?.at;
            Some(app.text("record-along", &[("at", Arg::Length(at))]))
        })
        .flatten()
        .map(|told| view! { <small class="along-parent">{told}</small> })
    }
}

#[component]
fn Picks(app: App, part: Part) -> impl IntoView {
    let list = Memo::new(move |_| app.read(|d| picks_of(d.plan(), part)).unwrap_or_default());
    let keys = move || list.with(|l| l.iter().map(|p| p.key).collect::<Vec<_>>());
    view! {
        <div class="measures">
            <For
                each=keys
                key=|key| *key
                children=move |key| {
                    let pick = Memo::new(move |_| {
                        list.with(|l| l.iter().find(|p| p.key == key).cloned())
                    });
                    let now = move || {
                        let pick = pick.get();
                        pick.and_then(|p| p.choices.into_iter().find(|c| c.now)).map(|c| c.key)
                    };
                    let choices = move || {
                        let pick = pick.get();
                        pick.map(|p| p.choices.into_iter().map(|c| c.key).collect::<Vec<_>>())
                            .unwrap_or_default()
                    };
                    view! {
                        <label class="field" data-field=key>
                            <span>{app.t(key)}</span>
                            " "
                            <select
                                prop:value=now
                                on:change=move |e| {
                                    let wanted = event_target_value(&e);
                                    app.edit_from(|d| {
                                        let chosen = picks_of(d.plan(), part)
                                            .into_iter()
                                            .filter(|p| p.key == key)
                                            .flat_map(|p| p.choices)
                                            .find(|c| c.key == wanted);
                                        Ok(chosen.map(|c| Edit::record(c.correction)))
                                    });
                                }
                            >
                                <For each=choices key=|c| *c children=move |choice| view! {
                                    <option value=choice selected=move || now() == Some(choice)>
                                        {app.t(choice)}
                                    </option>
                                }/>
                            </select>
                        </label>
                    }
                }
            />
        </div>
    }
}

/// What was noted of the part.
#[component]
fn Note(app: App, part: Part) -> impl IntoView {
    let note = Memo::new(move |_| {
        app.read(|d| {
            let tree = d.plan().found.tree(part.tree)?;
            let shoot = part.shoot.filter(|s| *s != ShootId::STEM);
            Some(match shoot {
                Some(shoot) => tree.shoot(shoot)?.note.clone(),
                None => tree.note.clone(),
            })
        })
        .flatten()
        .unwrap_or_default()
    });
    view! {
        <label class="field wide" data-field="measure-note">
            <span>{app.t("measure-note")}</span>
            " "
            <input
                type="text"
                autocomplete="off"
                prop:value=note
                on:change=move |e| {
                    let note = event_target_value(&e).trim().to_string();
                    let Part { tree, shoot } = part;
                    app.edit(Edit::record(Correction::Note { tree, shoot, note }));
                }
            />
        </label>
    }
}

/// What a press on the wall would add to the record.
#[component]
fn OfferCard(app: App) -> impl IntoView {
    move || {
        app.offer.get().map(|Offer { on, x, at }| {
            let key = match on {
                Some(_) => "record-upright-here",
                None => "record-tree-here",
            };
            let text = app.text(key, &[("place", Arg::Length(x))]);
            // As far left as it must stand to stay on the wall.
            let style = format!(
                "left:clamp(8px,{:.0}px,100% - 17rem);top:{:.0}px",
                at.0 - 80.0,
                at.1 + 14.0
            );
            view! {
                <button
                    class="offer"
                    style=style
                    data-act=key
                    on:click=move |_| {
                        app.edit_from(|d| match on {
                            Some((tree, shoot)) => {
                                d.scene().record_upright(tree, shoot, x).map(Some)
                            }
                            None => Ok(Some(d.scene().record_tree(x))),
                        });
                        focus_soon(".part-card input");
                    }
                >
                    {text}
                </button>
            }
        })
    }
}
