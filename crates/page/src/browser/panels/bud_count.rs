//! Buds counted in winter: some trees along the row, a few spurs each, typed in one go; what they make of the coming crop stands
//! under them as they are typed. What is counted comes into the plan as one step when the count is left, whichever way.

use crate::browser::app::App;
use crate::browser::dom;
use crate::document::Edit;
use cordonry::advise::TipCounts;
use cordonry::forecast::counted_crop;
use cordonry::plan::{BudCount, Plan, SpurCount};
use cordonry::refusal::Refusal;
use cordonry::row::TreeId;
use cordonry::said::{Arg, Quantity, Said};
use leptos::prelude::*;
use std::rc::Rc;

/// Trees that are proposed, and spurs on each.
const TREES: usize = 5;
const SPURS: usize = 4;
/// What is asked of a spur, in the order in which it is typed.
const ASKED: [(&str, &str); 3] = [
    ("count-buds", "count-head-buds"),
    ("count-dead", "count-head-dead"),
    ("count-flowers", "count-head-flowers"),
];

/// A count being typed.
#[derive(Clone, Copy)]
pub struct Counting {
    app: App,
    leaf: u8,
    scheme: usize,
    trees: StoredValue<Vec<TreeId>>,
    /// What stands in the fields, tree by tree and spur by spur.
    typed: StoredValue<Vec<Vec<[String; 3]>>>,
    /// The plan with what was understood of that.
    plan: RwSignal<Option<Rc<Plan>>, LocalStorage>,
    /// The first spur that was not understood, by tree and spur, and why.
    wrong: RwSignal<Option<(usize, usize, String)>>,
}

impl Counting {
    /// A leaf's count: of the trees that were counted on, else of some along the row.
    pub fn new(app: App) -> Self {
        let of = app.peek(|d| {
            let (plan, look) = (d.plan(), d.look());
            let leaf = look.moment.leaf;
            let mut trees: Vec<TreeId> = plan.counts_of(leaf).map(|c| c.tree).collect();
            if trees.is_empty() {
                trees = plan.trees_to_count(TREES);
            }
            let written = |n: u8| n.to_string();
            let rows = trees.iter().map(|tree| {
                let count = plan.counts_of(leaf).find(|c| c.tree == *tree);
                let spurs = count.map_or(&[][..], |c| &c.spurs);
                let row = |s: &SpurCount| {
                    let flowers = s.flowers.map_or_else(String::new, written);
                    [written(s.buds), written(s.dead), flowers]
                };
                let mut rows: Vec<[String; 3]> = spurs.iter().map(row).collect();
                rows.resize_with(rows.len().max(SPURS), Default::default);
                rows
            });
            let typed: Vec<_> = rows.collect();
            (leaf, look.scheme, trees, typed, Rc::new((**plan).clone()))
        });
        let (leaf, scheme, trees, typed, plan) = match of {
            Some((leaf, scheme, trees, typed, plan)) => (leaf, scheme, trees, typed, Some(plan)),
            None => (1, 0, Vec::new(), Vec::new(), None),
        };
        Self {
            app,
            leaf,
            scheme,
            trees: StoredValue::new(trees),
            typed: StoredValue::new(typed),
            plan: RwSignal::new_local(plan),
            wrong: RwSignal::new(None),
        }
    }

    /// A spur as it is typed; none where nothing is.
    fn spur(self, typed: &[String; 3]) -> Result<Option<SpurCount>, String> {
        let read = |text: &String| match text.trim().is_empty() {
            true => Ok(None),
            false => {
                let read = self.app.worded(|w| w.read(Quantity::Count, text));
                read.map(Some).map_err(|why| self.app.said(&why))
            }
        };
        let [buds, dead, flowers] = typed;
        let (buds, dead, flowers) = (read(buds)?, read(dead)?, read(flowers)?);
        if buds.is_none() && dead.is_none() && flowers.is_none() {
            return Ok(None);
        }
        let spur = SpurCount::of(buds.unwrap_or(0.0), dead.unwrap_or(0.0), flowers);
        spur.map(Some)
            .map_err(|why| self.app.worded(|w| w.refusal(&why)))
    }

    /// What is typed, taken as far as it is understood.
    fn follow(self) {
        let Some(plan) = self.app.peek(|d| d.plan().without_counts(self.leaf)) else {
            return;
        };
        let mut wrong = None;
        let mut out = plan;
        let (trees, typed) = (self.trees.get_value(), self.typed.get_value());
        for (i, (tree, rows)) in trees.iter().zip(&typed).enumerate() {
            let mut spurs = Vec::new();
            for (n, row) in rows.iter().enumerate() {
                match self.spur(row) {
                    Ok(spur) => spurs.extend(spur),
                    Err(why) => {
                        wrong.get_or_insert((i, n, why));
                    }
                }
            }
            let count = BudCount {
                leaf: self.leaf,
                tree: *tree,
                spurs,
            };
            match out.with_count(&count) {
                Ok(with) => out = with,
                Err(why) => {
                    wrong.get_or_insert((i, 0, self.refused(&why)));
                }
            }
        }
        self.wrong.set(wrong);
        self.plan.set(Some(Rc::new(out)));
    }

    fn refused(self, why: &Refusal) -> String {
        self.app.worded(|w| w.refusal(why))
    }

    /// The count comes into the plan, where it is another than stands there.
    pub fn keep(self) {
        self.follow();
        let counted = self.plan.get_untracked();
        let Some(counts) = counted.map(|p| p.counts.clone()) else {
            return;
        };
        let plan = self.app.peek(|d| {
            let other = d.plan().counts != counts;
            other.then(|| Plan {
                counts: counts.clone(),
                ..(**d.plan()).clone()
            })
        });
        if let Some(plan) = plan.flatten() {
            self.app.edit(Edit::told("step-count", plan));
        }
    }

    /// What the count tells.
    fn told(self) -> Vec<String> {
        let (scheme, leaf) = (self.scheme, self.leaf);
        self.plan.with(|plan| {
            let told = plan.as_ref().and_then(|p| {
                let mut said = counted_crop(p, scheme, leaf).ok()??.said();
                said.extend(TipCounts::of(p, scheme, leaf).ok()?.said());
                Some(said)
            });
            let none = || Said::new("count-none", vec![("leaf", Arg::Count(leaf.into()))]);
            let said = told.unwrap_or_else(|| vec![none()]);
            said.iter().map(|s| self.app.worded(|w| w.say(s))).collect()
        })
    }

    fn row(self, tree: usize, spur: usize, number: usize) -> AnyView {
        let app = self.app;
        let of_tree = self.trees.with_value(|t| t[tree].0);
        let at = move |i: usize| {
            let set = move |text| self.typed.update_value(|t| t[tree][spur][i] = text);
            let name = app.text(
                "count-cell",
                &[
                    ("what", Arg::key(ASKED[i].0)),
                    ("tree", Arg::Count(of_tree.into())),
                    ("spur", Arg::Count(spur as i64 + 1)),
                ],
            );
            let cell = number * ASKED.len() + i;
            view! {
                <td>
                    <input
                        data-cell=cell
                        inputmode="numeric"
                        enterkeyhint="next"
                        autocomplete="off"
                        style:width="4rem"
                        aria-label=name
                        prop:value=self.typed.with_value(|t| t[tree][spur][i].clone())
                        on:input=move |e| set(event_target_value(&e))
                        on:change=move |_| self.follow()
                        on:keydown=move |e| {
                            if e.key() == "Enter" {
                                e.prevent_default();
                                self.follow();
                                next(cell);
                            }
                        }
                    />
                </td>
            }
        };
        let wrong = move || {
            let wrong = self.wrong.get().filter(|w| (w.0, w.1) == (tree, spur));
            wrong.map(|(_, _, why)| {
                view! { <tr><td colspan="4"><span class="wrong" role="alert">{why}</span></td></tr> }
            })
        };
        view! {
            <tr>
                <th scope="row">{spur + 1}</th>
                {(0..ASKED.len()).map(at).collect_view()}
            </tr>
            {wrong}
        }
        .into_any()
    }

    fn tree(self, tree: usize, before: usize) -> AnyView {
        let app = self.app;
        let number = self.trees.with_value(|t| t[tree].0);
        let spurs = self.typed.with_value(|t| t[tree].len());
        let rows = (0..spurs).map(|spur| self.row(tree, spur, before + spur));
        let heads = ASKED.map(|(_, head)| view! { <th scope="col">{app.t(head)}</th> });
        view! {
            <table data-tree=number>
                <caption style:text-align="start"><b>{app.text("count-tree", &[("tree", Arg::Count(number.into()))])}</b></caption>
                <thead><tr><th scope="col">{app.t("count-head-spur")}</th>{heads.collect_view()}</tr></thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        }
        .into_any()
    }

    /// The count, with what it tells; `left` is called when it is done with.
    pub fn view(self, left: impl Fn() + Copy + 'static) -> AnyView {
        let app = self.app;
        let spurs = self
            .typed
            .with_value(|t| t.iter().map(Vec::len).collect::<Vec<_>>());
        let mut before = 0;
        let tables = spurs.iter().enumerate().map(|(tree, spurs)| {
            let view = self.tree(tree, before);
            before += spurs;
            view
        });
        let done = move |_| {
            self.follow();
            if self.wrong.with_untracked(Option::is_none) {
                self.keep();
                left();
            }
        };
        let remove = move |_| {
            self.typed.update_value(|t| {
                t.iter_mut()
                    .flatten()
                    .for_each(|row| *row = Default::default());
            });
            self.keep();
            left();
        };
        let any = move || {
            let has = |p: &Rc<Plan>| p.counts_of(self.leaf).next().is_some();
            self.plan.with(|p| p.as_ref().is_some_and(has))
        };
        let title = app.text("count-title", &[("leaf", Arg::Count(self.leaf.into()))]);
        dom::focus_soon("[data-cell='0']");
        view! {
            <div class="hand-out bud-count">
                <h2 id="hand-title">{title}</h2>
                <p>{app.t("count-how")}</p>
                <p class="caution">{app.t("caution-ladder")}</p>
                {tables.collect_view()}
                <div role="status">
                    {move || self.told().into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
                </div>
                <p class="choices">
                    <button class="main" data-act="count-keep" on:click=done>{app.t("count-keep")}</button>
                    <button data-act="count-remove" disabled=move || !any() on:click=remove>{app.t("count-remove")}</button>
                </p>
            </div>
        }
        .into_any()
    }
}

/// On to the field behind one; behind the last to what keeps the count.
fn next(cell: usize) {
    let field = format!(".bud-count [data-cell='{}']", cell + 1);
    match dom::all(&field).is_empty() {
        true => dom::focus("[data-act=count-keep]"),
        false => dom::focus(&field),
    }
}
