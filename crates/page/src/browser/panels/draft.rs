//! A draft of this time's whole work: shown on the wall and in a list before it is taken, whole, by kind or by tree.

use super::weights::draft_weights;
use crate::browser::app::App;
use crate::browser::device::helper::Helper;
use crate::browser::dom;
use crate::browser::parts::{part, shown};
use crate::document::{Edit, Mode};
use crate::helper::{DraftGroup, DraftPiece, Drafted, OnWall};
use cordonry::advise::Weights;
use cordonry::arrange::Gather;
use cordonry::plan::Plan;
use cordonry::said::Arg;
use cordonry::sorted;
use cordonry::work::Work;
use cordonry_draw::cautions;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

/// The button that asks for a draft, while none is open.
#[component]
pub fn DraftOffer(app: App, helper: Helper, open: RwSignal<bool>) -> impl IntoView {
    let offered = Memo::new(move |_| {
        app.read(|d| d.mode() == Mode::Work && !d.scene().row.trees.is_empty())
            .unwrap_or(false)
    });
    let ask = move |_| {
        helper.forget_draft();
        helper.ask_draft(app, &Weights::default(), None);
        open.set(true);
    };
    move || {
        offered.get().then(|| {
            view! {
                <button
                    class="link"
                    data-act="draft"
                    title=app.t("draft-what")
                    disabled=move || open.get()
                    on:click=ask
                >
                    {app.t("draft-do")}
                </button>
            }
        })
    }
}

/// The draft, until it is taken or put away.
#[component]
pub fn Draft(app: App, helper: Helper, open: RwSignal<bool>) -> impl IntoView {
    move || {
        open.get()
            .then(|| shown(app, Rc::new(move || Box::pin(opened(app, helper, open)))))
    }
}

part! {panels:
    fn opened(app: App, helper: Helper, open: RwSignal<bool>) -> AnyView {
        view! { <DraftPanel app helper open/> }.into_any()
    }
}

/// So many lines of a draft are there when it opens: as many as stand in sight on a large screen.
const AT_ONCE: usize = 8;
/// So many more come after each frame.
const MORE: usize = 48;

/// Has something done once what has just been made is on the screen, so that it does not wait for that. What is drawn in the coming frame
/// is shown while the next one is prepared.
fn once_shown(then: impl FnOnce() + 'static) {
    request_animation_frame(move || {
        request_animation_frame(move || set_timeout(then, Duration::ZERO));
    });
}

/// Has runs of a list's lines made one after the other, each once the one before it is on the screen.
fn one_by_one(made: RwSignal<usize>, all: usize) {
    let next = move || {
        // A list that is gone needs no more.
        let now = made.try_update(|made| {
            *made += 1;
            *made
        });
        if now.is_some_and(|now| now < all) {
            one_by_one(made, all);
        }
    };
    once_shown(next);
}

/// What of a draft is on the panel.
#[derive(Clone, Default, PartialEq)]
struct Told {
    pieces: Vec<DraftPiece>,
    cautions: Vec<&'static str>,
    /// The first trees of the pieces, each once.
    trees: Vec<u32>,
    /// The kinds of the pieces, each once, in the order in which they come.
    kinds: Vec<DraftGroup>,
}

impl Told {
    fn of(drafted: &Drafted, new: &[Work]) -> Self {
        let pieces = &drafted.pieces;
        let trees: sorted::Set<u32> = pieces.iter().filter_map(|p| p.tree).gathered_set();
        Self {
            pieces: pieces.clone(),
            cautions: cautions(new),
            trees: trees.into_iter().collect(),
            kinds: DraftGroup::all(pieces),
        }
    }
}

/// What is told of what is picked.
#[derive(Clone, Default, PartialEq)]
struct Part {
    cost: String,
    /// What stays open, and why.
    open: Vec<(String, String)>,
    /// Why trees are not tipped.
    untipped: String,
    /// Whether it is all of it.
    whole: bool,
}

/// A plan's window with what was picked, and the work that it has beside the plan on the desk.
#[derive(Clone)]
struct Taken {
    plan: Arc<Plan>,
    new: Vec<Work>,
    /// How many pieces of work of what is picked are left out.
    left: u32,
}

/// How many pieces of work pieces of a draft hold together.
fn works<'p>(pieces: impl Iterator<Item = &'p DraftPiece>) -> i64 {
    pieces.map(|p| i64::from(p.count())).sum()
}

/// What a draft or one of its pieces brings, once it is known.
fn gained(app: App, helper: Helper, piece: Option<u32>) -> impl IntoView {
    let lines = gain_lines(helper, piece);
    // The whole's first one is in sight before it is opened.
    let over = usize::from(piece.is_none());
    let shown = move || match lines.get() {
        Some(lines) => {
            let lines = lines.into_iter().skip(over);
            let lines = lines.map(|line| view! { <p>{line}</p> });
            lines.collect_view().into_any()
        }
        None => view! { <p role="status">{app.t("draft-gain-waits")}</p> }.into_any(),
    };
    view! { <div class="gains">{shown}</div> }
}

/// What a piece or the whole brings, line by line, once it is known.
fn gain_lines(helper: Helper, piece: Option<u32>) -> Memo<Option<Vec<String>>> {
    Memo::new(move |_| {
        helper.gains.with(|all| {
            let own = all.iter().find(|(of, _)| *of == piece);
            own.map(|(_, lines)| lines.clone())
        })
    })
}

/// What the whole draft means for the crop, in a line that is seen before anything is opened or taken; of a part nothing is known.
fn crop_brought(app: App, helper: Helper, part: RwSignal<Part>) -> impl IntoView {
    let lines = gain_lines(helper, None);
    let crop = move || match part.with(|p| p.whole) {
        true => lines.with(|lines| lines.as_ref()?.first().cloned()),
        false => None,
    };
    move || crop().unwrap_or_else(|| app.t("draft-whole"))
}

#[component]
fn DraftPanel(app: App, helper: Helper, open: RwSignal<bool>) -> impl IntoView {
    // The places of the pieces that are picked.
    let picks = RwSignal::new(sorted::Set::<u32>::new());
    let told = RwSignal::new(None::<Told>);
    let taken = RwSignal::new_local(None::<Taken>);
    let part = RwSignal::new(Part::default());
    let weights = RwSignal::new(Weights::default());
    // Who sets weights keeps the focus there.
    let weighed = StoredValue::new(false);
    // Another plan or another time has another draft, whether this one has come or not.
    let is_other = Memo::new(move |_| app.read(OnWall::of) != helper.draft_of());
    Effect::new(move |_| {
        if is_other.get() {
            open.set(false);
        }
    });
    Effect::new(move |_| {
        helper.draft.with(|draft| {
            let Some(drafted) = draft else {
                return;
            };
            let Some(plan) = app.peek(|d| drafted.plan(d.plan())).flatten() else {
                return;
            };
            let new = app.peek(|d| d.work_beside(&plan)).unwrap_or_default();
            // The list is made once: what is picked of it changes its boxes alone.
            if told.with_untracked(Option::is_none) {
                picks.set((0..drafted.pieces.len() as u32).gathered_set());
                told.set(Some(Told::of(drafted, &new)));
                if !weighed.get_value() {
                    dom::focus_soon(".draft h2");
                }
                if !drafted.pieces.is_empty() {
                    // A draft that is put away by then asks no more.
                    once_shown(move || {
                        if let Some(weights) = weights.try_get_untracked() {
                            helper.ask_gain(app, &weights, None);
                        }
                    });
                }
            }
            part.set(Part {
                cost: drafted.cost.clone(),
                open: drafted.open.clone(),
                untipped: drafted.untipped.clone(),
                whole: drafted.whole,
            });
            taken.set(Some(Taken {
                plan: Arc::new(plan),
                new,
                left: drafted.left,
            }));
        });
    });
    // The wall shows it, whatever else is drawn on it.
    Effect::new(move |_| {
        app.tick.track();
        app.view_tick.track();
        let works = taken.with(|t| t.as_ref().map(|t| t.new.clone()));
        app.with_wall(|wall, desk| wall.show_tried(desk, &works.unwrap_or_default()));
    });
    // The panel has the room of the leaves and no more: the wall keeps its size, and is not drawn again.
    dom::set_on_root("--leaves", &format!("{}px", dom::height(".years")));
    dom::on_root("drafting", true);
    on_cleanup(move || {
        dom::on_root("drafting", false);
        app.with_wall(|wall, desk| wall.show_tried(desk, &[]));
    });
    let pick = move |change: &dyn Fn(&mut sorted::Set<u32>)| {
        picks.update(|picks| change(picks));
        let all = picks.with_untracked(|p| p.iter().copied().collect());
        taken.set(None);
        helper.ask_draft(app, &weights.get_untracked(), Some(all));
    };
    let places = move |fits: &dyn Fn(&DraftPiece) -> bool| -> Vec<u32> {
        told.with_untracked(|told| {
            let all = told.iter().flat_map(|t| t.pieces.iter());
            let some = all.enumerate().filter(|(_, p)| fits(p));
            some.map(|(at, _)| at as u32).collect()
        })
    };
    let left = Memo::new(move |_| taken.with(|t| t.as_ref().map_or(0, |t| t.left)));
    let count = move || {
        let picked = told.with(|told| {
            let all = told.iter().flat_map(|t| t.pieces.iter());
            let is_picked = |at: u32| picks.with(|p| p.contains(&at));
            let picked = (0..).zip(all).filter(|(at, _)| is_picked(*at));
            works(picked.map(|(_, p)| p))
        });
        picked - i64::from(left.get())
    };
    let take = move |_| {
        let Some(taken) = taken.get_untracked() else {
            return app.say(app.t("said-remedy-waits"), false);
        };
        let done = [("count", Arg::Count(count()))];
        open.set(false);
        app.edit(Edit::draft(taken.plan));
        app.say(app.text("said-drafted", &done), false);
        dom::focus_soon("[data-act=draft]");
    };
    let close = move || {
        open.set(false);
        dom::focus_soon("[data-act=draft]");
    };
    let kind = move |kind: DraftGroup| {
        let own = places(&|p| p.kind == kind.name);
        let name = app.worded(|w| kind.told(w));
        let all = own.clone();
        // Whether any of it is picked, and whether any is not.
        let state = Memo::new(move |_| {
            picks.with(|p| {
                let picked = all.iter().filter(|at| p.contains(at)).count();
                (picked > 0, picked < all.len())
            })
        });
        view! {
            <label>
                <input
                    type="checkbox"
                    data-kind=kind.name
                    prop:checked=move || state.get() == (true, false)
                    prop:indeterminate=move || state.get() == (true, true)
                    on:change=move |e| {
                        let on = event_target_checked(&e);
                        pick(&|picks| {
                            for at in &own {
                                match on {
                                    true => picks.insert(*at),
                                    false => picks.remove(at),
                                };
                            }
                        });
                    }
                />
                {name}
            </label>
        }
    };
    let weigh = Callback::new(move |by: Weights| {
        weights.set(by);
        weighed.set_value(true);
        taken.set(None);
        told.set(None);
        helper.forget_draft();
        helper.ask_draft(app, &by, None);
    });
    let piece = move |(at, piece): (usize, DraftPiece)| {
        let at = at as u32;
        // What it brings is worked out and told once it is asked.
        let opened = RwSignal::new(false);
        let ask = move |_| {
            opened.set(true);
            helper.ask_gain(app, &weights.get_untracked(), Some(at));
        };
        let x = piece.x;
        view! {
            <li>
                <input
                    type="checkbox"
                    aria-label=piece.said.clone()
                    prop:checked=move || picks.with(|p| p.contains(&at))
                    on:change=move |e| {
                        let on = event_target_checked(&e);
                        pick(&|picks| {
                            match on {
                                true => picks.insert(at),
                                false => picks.remove(&at),
                            };
                        });
                    }
                />
                <button class="plain" on:click=move |_| app.show(x)>{piece.said}</button>
                <small class="on">{piece.on}</small>
                <small>{piece.why}</small>
                {piece.each.into_iter().map(|why| view! { <small class="each">"– "{why}</small> }).collect_view()}
                <details data-piece=at.to_string() on:toggle=ask>
                    <summary>{app.t("draft-more")}</summary>
                    <p>{piece.cost}</p>
                    {piece.next.map(|next| view! { <p>{next}</p> })}
                    {move || opened.get().then(|| gained(app, helper, Some(at)))}
                </details>
            </li>
        }
    };
    let list = move |all: Told| {
        let empty = all.pieces.is_empty();
        // The first lines at once, the others behind them: a long list does not keep the first ones waiting.
        let lines: Vec<(usize, DraftPiece)> = all.pieces.iter().cloned().enumerate().collect();
        let (first, rest) = lines.split_at(lines.len().min(AT_ONCE));
        let runs = [first].into_iter().chain(rest.chunks(MORE));
        let runs: Vec<Vec<(usize, DraftPiece)>> = runs.map(<[_]>::to_vec).collect();
        let made = RwSignal::new(1);
        if runs.len() > 1 {
            one_by_one(made, runs.len());
        }
        let runs = runs.into_iter().enumerate().map(move |(place, run)| {
            let is_made = Memo::new(move |_| made.get() > place);
            move || {
                let lines = is_made.get().then(|| run.clone().into_iter());
                lines.map(|lines| lines.map(piece).collect_view())
            }
        });
        let title = match empty {
            true => app.t("draft-none"),
            false => app.text(
                "draft-title",
                &[("count", Arg::Count(works(all.pieces.iter())))],
            ),
        };
        let trees = all.trees.into_iter().map(|tree| {
            let name = app.text("name-tree", &[("tree", Arg::Count(tree.into()))]);
            view! { <option value=tree.to_string()>{name}</option> }
        });
        let (where_to, all_but) = (RwSignal::new(None::<u32>), RwSignal::new(false));
        let of_trees = move || -> sorted::Set<u32> {
            let (tree, but) = (where_to.get_untracked(), all_but.get_untracked());
            let own = places(&|p| tree.is_none() || (p.tree == tree) != but);
            own.into_iter().gathered_set()
        };
        let pick_trees = move || {
            let own = of_trees();
            pick(&|picks| *picks = own.clone());
        };
        // What is picked may be otherwise than by trees: of some of them a part.
        let by_piece = Memo::new(move |_| {
            where_to.track();
            all_but.track();
            picks.with(|picks| *picks != of_trees())
        });
        let shown_tree = move || match by_piece.get() {
            true => "some".to_owned(),
            false => where_to.get().map_or(String::new(), |t| t.to_string()),
        };
        let of_tree = move |e| {
            where_to.set(event_target_value(&e).parse().ok());
            pick_trees();
        };
        let but = move |e| {
            all_but.set(event_target_checked(&e));
            pick_trees();
        };
        let left_out = move || {
            let left = i64::from(left.get());
            (left > 0).then(|| app.text("draft-left-out", &[("count", Arg::Count(left))]))
        };
        // One line each until it is opened: the pieces stand in sight.
        let cautions = (!all.cautions.is_empty()).then(|| {
            view! {
                <details class="draft-cautions">
                    <summary class="caution">{app.t("draft-cautions")}</summary>
                    {all.cautions.iter().map(|key| view! { <p>{app.t(key)}</p> }).collect_view()}
                </details>
            }
        });
        let open_now = Memo::new(move |_| part.with(|p| p.open.clone()));
        let open_count = move || {
            let count = open_now.with(Vec::len) as i64;
            app.text("draft-open", &[("count", Arg::Count(count))])
        };
        let open_lines = move || {
            let all = open_now.get().into_iter();
            all.map(|(what, why)| view! { <p>{what}" – "{why}</p> })
                .collect_view()
        };
        let untipped = move || {
            let untipped = part.with(|p| p.untipped.clone());
            (!untipped.is_empty()).then(|| {
                view! { <p class="draft-untipped">{untipped}</p> }
            })
        };
        let of_whole = move || {
            let some = part.with(|p| !p.whole);
            some.then(|| view! { <p class="draft-of-whole">{app.t("draft-of-whole")}</p> })
        };
        view! {
            <h2 tabindex="-1">{title}</h2>
            {(!empty).then(|| view! {
                <p class="draft-acts">
                    <button
                        data-act="draft-take"
                        aria-disabled=move || taken.with(Option::is_none).then_some("true")
                        disabled=move || count() == 0
                        on:click=take
                    >
                        {move || app.text("draft-take", &[("count", Arg::Count(count()))])}
                    </button>
                    <button class="link" data-act="draft-close" on:click=move |_| close()>
                        {app.t("draft-close")}
                    </button>
                </p>
                <p class="draft-left" role="status">{left_out}</p>
            })}
            <div class="draft-folds">
                {cautions}
                <details
                    class="draft-open"
                    open=empty
                    hidden=move || open_now.with(Vec::is_empty)
                >
                    <summary>{open_count}</summary>
                    {open_lines}
                </details>
                {(!empty).then(|| view! {
                    <details class="draft-kinds">
                        <summary>{app.t("draft-kinds")}</summary>
                        <fieldset>
                            <legend class="visually-hidden">{app.t("draft-kinds")}</legend>
                            {all.kinds.into_iter().map(kind).collect_view()}
                            <label>
                                {app.t("draft-tree")}
                                <select
                                    data-field="draft-tree"
                                    prop:value=shown_tree
                                    on:change=of_tree
                                >
                                    <option value="some" hidden>{app.t("draft-trees-some")}</option>
                                    <option value="">{app.t("draft-trees-all")}</option>
                                    {trees.collect_view()}
                                </select>
                            </label>
                            <label>
                                <input
                                    type="checkbox"
                                    data-field="draft-but"
                                    disabled=move || where_to.with(Option::is_none)
                                    on:change=but
                                />
                                {app.t("draft-trees-but")}
                            </label>
                        </fieldset>
                    </details>
                    <details class="draft-gain">
                        <summary>{crop_brought(app, helper, part)}</summary>
                        <p>{move || part.with(|p| p.cost.clone())}</p>
                        {of_whole}
                        {gained(app, helper, None)}
                    </details>
                })}
            </div>
            {(!empty).then(|| view! {
                <ul class="pieces">{runs.collect_view()}</ul>
                {untipped}
            })}
            {empty.then(|| view! {
                <button class="link" data-act="draft-close" on:click=move |_| close()>
                    {app.t("draft-close")}
                </button>
            })}
        }
    };
    view! {
        <section
            class="draft"
            aria-label=app.t("draft-do")
            on:keydown=move |e| {
                if e.key() == "Escape" {
                    e.stop_propagation();
                    close();
                }
            }
        >
            {draft_weights(app, weights, weigh)}
            {move || match told.get() {
                Some(all) => list(all).into_any(),
                None => view! { <p role="status">{app.t("draft-waits")}</p> }.into_any(),
            }}
        </section>
    }
}
