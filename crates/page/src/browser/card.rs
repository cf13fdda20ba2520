//! The chosen part's card: what it is, what was done on it, and its few actions.

use crate::browser::app::App;
use cordonry::check::Part;
use cordonry::row::{Kind, Limit, Pose, Shoot, ShootId, Toward, Tree, TreeId};
use cordonry::units::{BareUnit, Deg, LengthStyle, Mm, parse_length};
use cordonry::words::Arg;
use cordonry::work::Work;
use leptos::prelude::*;

/// What the card says of the part.
#[derive(Clone, PartialEq)]
struct Shown {
    part: Part,
    title: String,
    facts: String,
    done: Vec<String>,
    actions: Vec<Action>,
    /// Longest length that a cut may leave, mm; `None` where nothing can be cut back.
    cut_below: Option<f64>,
    caution: Option<&'static str>,
}

/// Something that can be done on the part.
#[derive(Clone, PartialEq)]
struct Action {
    key: &'static str,
    step: &'static str,
    work: Work,
}

fn shown(app: App, part: Part) -> Option<Shown> {
    app.peek(|d| {
        let tree = d.row.tree(part.tree)?;
        let Some(id) = part.shoot else {
            return Some(tree_shown(app, tree, part));
        };
        let shoot = tree.shoot(id)?;
        let leaf = d.moment().leaf;
        let done: Vec<String> = d
            .work_on(part.tree, id)
            .iter()
            .map(|w| app.worded(|words| words.work(w)))
            .collect();
        let stub = d.plan().targets.get(Limit::StubLength);
        Some(Shown {
            part,
            title: app.worded(|w| w.part(&d.row, part.tree, Some(id))),
            facts: facts(app, shoot, leaf),
            done,
            actions: actions(
                part.tree,
                shoot,
                d.geometry.wire,
                stub,
                d.course(part.tree, id),
            ),
            cut_below: matches!(shoot.kind(), Kind::Leader | Kind::Upright | Kind::Shoot)
                .then(|| shoot.length()),
            caution: match shoot.kind() {
                Kind::Leader => Some("caution-bend"),
                Kind::Upright | Kind::Shoot | Kind::Stub => Some("caution-cut"),
                Kind::Bud | Kind::Stem => None,
            },
        })
    })
    .flatten()
}

fn tree_shown(app: App, tree: &Tree, part: Part) -> Shown {
    let facts = if tree.is_lost() {
        app.t("tree-lost")
    } else {
        app.text(
            "tree-facts",
            &[
                ("place", Arg::Length(tree.foot.f())),
                ("angle", Arg::Angle(tree.planted.angle.degrees())),
                (
                    "uprights",
                    Arg::Count(
                        tree.shoots
                            .iter()
                            .filter(|s| s.kind() == Kind::Upright)
                            .count() as i64,
                    ),
                ),
            ],
        )
    };
    let facts = if tree.note.is_empty() {
        facts
    } else {
        format!("{facts} – {}", tree.note)
    };
    Shown {
        part,
        title: app.text("name-tree", &[("tree", Arg::Count(tree.id.0.into()))]),
        facts,
        done: Vec::new(),
        actions: Vec::new(),
        cut_below: None,
        caution: None,
    }
}

fn facts(app: App, shoot: &Shoot, leaf: u8) -> String {
    if shoot.units.is_empty() {
        return app.t("bud-facts");
    }
    let age = shoot.born().map_or(0, |born| leaf.saturating_sub(born));
    app.text(
        "shoot-facts",
        &[
            ("length", Arg::Length(shoot.length())),
            ("thickness", Arg::Thickness(shoot.diameter)),
            ("age", Arg::Count(age.into())),
        ],
    )
}

fn actions(
    tree: TreeId,
    shoot: &Shoot,
    wire: f64,
    stub: f64,
    course: Option<cordonry::pose::Course>,
) -> Vec<Action> {
    let id = shoot.id;
    let lay = |toward| Work::Lay {
        tree,
        shoot: id,
        toward,
        rise_deg: Deg::default(),
    };
    let stand = Work::Stand {
        tree,
        shoot: id,
        lean_deg: Deg::default(),
    };
    let act = |key, step, work| Action { key, step, work };
    let remove = act(
        "act-remove",
        "step-remove",
        Work::Remove { tree, shoot: id },
    );
    let mut out = Vec::new();
    let near_wire = course.is_some_and(|c| c.base.y <= wire + 300.0);
    match shoot.kind() {
        Kind::Upright => {
            out.push(act(
                "act-stub",
                "step-stub",
                Work::Stub {
                    tree,
                    shoot: id,
                    keep_mm: Mm::round(stub),
                },
            ));
            if near_wire {
                out.push(act("act-lay-left", "step-lay", lay(Toward::Left)));
                out.push(act("act-lay-right", "step-lay", lay(Toward::Right)));
            }
            if let Pose::Upright { lean } = shoot.pose
                && lean != Deg::default()
            {
                out.push(act("act-stand", "step-stand", stand));
            }
            out.push(remove);
        }
        Kind::Leader => {
            if let Pose::Laid { toward, rise } = shoot.pose {
                if rise != Deg::default() {
                    out.push(act("act-lower", "step-lay", lay(toward)));
                }
                let key = match toward {
                    Toward::Left => "act-lay-right",
                    Toward::Right => "act-lay-left",
                };
                out.push(act(key, "step-lay", lay(toward.other())));
            }
            out.push(act("act-stand", "step-stand", stand));
            if id != ShootId::STEM {
                out.push(remove);
            }
        }
        Kind::Shoot => {
            out.push(act("act-lay-left", "step-lay", lay(Toward::Left)));
            out.push(act("act-lay-right", "step-lay", lay(Toward::Right)));
            out.push(act("act-stand", "step-stand", stand));
            out.push(remove);
        }
        Kind::Stem => {
            out.push(act("act-lay-left", "step-lay", lay(Toward::Left)));
            out.push(act("act-lay-right", "step-lay", lay(Toward::Right)));
        }
        Kind::Bud | Kind::Stub => out.push(remove),
    }
    out
}

/// The card of the chosen part, beside it on the wall.
#[component]
pub fn PartCard(app: App) -> impl IntoView {
    let shown = Memo::new(move |_| {
        app.style.track();
        app.read(|d| d.chosen).flatten().and_then(|p| shown(app, p))
    });
    let place = move || {
        app.card.get().map_or_else(
            || "left:8px;top:8px".to_string(),
            |(x, y)| format!("left:{x:.0}px;top:{y:.0}px"),
        )
    };
    let dragging = move || app.read(|d| d.dragging()).unwrap_or(false);
    move || {
        if dragging() {
            return None;
        }
        shown.get().map(|s| {
            view! {
                <section
                    class="part-card"
                    style=place
                    aria-label=s.title.clone()
                    on:keydown=move |e| {
                        if e.key() == "Escape" {
                            app.choose(None);
                            crate::browser::dom::focus(".stage");
                            e.stop_propagation();
                        }
                    }
                >
                    <h2>{s.title.clone()}</h2>
                    <p class="facts">{s.facts.clone()}</p>
                    <Done app s=s.clone()/>
                    <p class="actions">
                        {s.actions
                            .iter()
                            .cloned()
                            .map(|a| {
                                let word = app.t(a.key);
                                view! {
                                    <button
                                        class="link"
                                        data-act=a.key
                                        on:click=move |_| {
                                            let work = a.work.clone();
                                            app.edit(|d| d.work(a.step, vec![work]));
                                        }
                                    >
                                        {word}
                                    </button>
                                }
                            })
                            .collect_view()}
                    </p>
                    {s.cut_below.map(|below| view! { <CutBack app part=s.part below/> })}
                    {s.caution.map(|key| view! { <p class="caution">{app.t(key)}</p> })}
                </section>
            }
        })
    }
}

/// What was done on the part at this moment, with a way back.
#[component]
fn Done(app: App, s: Shown) -> impl IntoView {
    let part = s.part;
    (!s.done.is_empty()).then(|| {
        view! {
            <p class="done">
                <span>{s.done.join("; ")}</span>
                " "
                <button
                    class="link"
                    data-act="act-take-back"
                    on:click=move |_| {
                        if let Some(shoot) = part.shoot {
                            app.edit(|d| d.take_back(part.tree, shoot));
                        }
                    }
                >
                    {app.t("act-take-back")}
                </button>
            </p>
        }
    })
}

/// Cutting back to a typed length.
#[component]
fn CutBack(app: App, part: Part, below: f64) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let wrong = RwSignal::new(None::<String>);
    let bare = match app.style.get_untracked() {
        LengthStyle::Metric => BareUnit::Metre,
        LengthStyle::FeetInches => BareUnit::Inch,
    };
    let cut = move || {
        let text = typed.get_untracked();
        match parse_length(&text, bare) {
            Ok(keep) => {
                wrong.set(None);
                if let Some(shoot) = part.shoot {
                    app.edit(|d| {
                        d.work(
                            "step-cut",
                            vec![Work::CutBack {
                                tree: part.tree,
                                shoot,
                                keep_mm: Mm::round(keep),
                            }],
                        )
                    });
                }
            }
            Err(why) => wrong.set(Some(why)),
        }
    };
    let hint = app.text("cut-hint", &[("below", Arg::Length(below))]);
    view! {
        <form
            class="cut"
            on:submit=move |e| {
                e.prevent_default();
                cut();
            }
        >
            <label>
                {app.t("act-cut-to")} " "
                <input
                    type="text"
                    size="7"
                    autocomplete="off"
                    placeholder=hint
                    prop:value=typed
                    on:input=move |e| typed.set(event_target_value(&e))
                    aria-invalid=move || wrong.get().is_some().to_string()
                />
            </label>
            " "
            <button class="link" data-act="act-cut">
                {app.t("act-cut")}
            </button>
            {move || wrong.get().map(|w| view! { <span class="wrong" role="alert">{w}</span> })}
        </form>
    }
}
