//! Buds counted in winter: some trees along the row, a few spurs each, typed in one go; what they make of the coming crop stands
//! under them as they are typed. What is counted comes into the plan as one step when the count is left, whichever way.

use crate::browser::app::App;
use crate::browser::dom;
use crate::document::Edit;
use crate::overlay::escape;
use cordonry::advise::TipCounts;
use cordonry::forecast::counted_crop;
use cordonry::plan::{BudCount, Plan, SpurCount};
use cordonry::row::TreeId;
use cordonry::said::{Arg, Quantity, Said};
use leptos::prelude::*;
use std::fmt::Write;
use wasm_bindgen::JsCast;

/// Trees that are proposed, and spurs on each.
const TREES: usize = 5;
const SPURS: usize = 4;
/// What is asked of a spur, in the order in which it is typed.
const ASKED: [(&str, &str); 3] = [
    ("count-buds", "count-head-buds"),
    ("count-dead", "count-head-dead"),
    ("count-flowers", "count-head-flowers"),
];

/// A line of fields: a spur on one of the trees, and what stands in them.
#[derive(Clone)]
struct Line {
    tree: TreeId,
    spur: usize,
    typed: [String; 3],
}

/// A count being typed.
#[derive(Clone, Copy)]
pub struct Counting {
    app: App,
    leaf: u8,
    scheme: usize,
    lines: StoredValue<Vec<Line>>,
    /// What the count tells, and whether anything is counted.
    told: RwSignal<String>,
    any: RwSignal<bool>,
}

impl Counting {
    /// The count of the leaf that is looked at: of the trees that were counted on, else of some along the row.
    pub fn new(app: App) -> Self {
        let (mut leaf, mut scheme, mut lines) = (1, 0, Vec::new());
        app.peek(|d| {
            let (plan, look) = (d.plan(), d.look());
            (leaf, scheme) = (look.moment.leaf, look.scheme);
            let mut trees: Vec<TreeId> = plan.counts_of(leaf).map(|c| c.tree).collect();
            if trees.is_empty() {
                trees = plan.trees_to_count(TREES);
            }
            for tree in trees {
                let count = plan.counts_of(leaf).find(|c| c.tree == tree);
                let spurs = count.map_or(&[][..], |c| &c.spurs);
                for spur in 0..spurs.len().max(SPURS) {
                    let typed = spurs.get(spur).map(|s| {
                        let numbers = [Some(s.buds), Some(s.dead), s.flowers];
                        numbers.map(|n| n.map_or_else(String::new, |n| n.to_string()))
                    });
                    lines.push(Line {
                        tree,
                        spur,
                        typed: typed.unwrap_or_default(),
                    });
                }
            }
        });
        Self {
            app,
            leaf,
            scheme,
            lines: StoredValue::new(lines),
            told: RwSignal::default(),
            any: RwSignal::default(),
        }
    }

    /// A spur as it is typed; none where nothing is.
    fn spur(self, typed: &[String; 3]) -> Result<Option<SpurCount>, String> {
        let mut numbers = [None; 3];
        for (number, text) in numbers.iter_mut().zip(typed) {
            if !text.trim().is_empty() {
                let read = self.app.worded(|w| w.read(Quantity::Count, text));
                *number = Some(read.map_err(|why| self.app.said(&why))?);
            }
        }
        if numbers == [None; 3] {
            return Ok(None);
        }
        let [buds, dead, flowers] = numbers;
        let spur = SpurCount::of(buds.unwrap_or(0.0), dead.unwrap_or(0.0), flowers);
        spur.map(Some)
            .map_err(|why| self.app.worded(|w| w.refusal(&why)))
    }

    /// The plan with what is typed, as far as it is understood, and the first line that is not, with why.
    fn counted(self) -> Option<(Plan, Option<(usize, String)>)> {
        let mut plan = self.app.peek(|d| d.plan().without_counts(self.leaf))?;
        let mut wrong = None;
        let lines = self.lines.get_value();
        let mut at = 0;
        for tree in lines.chunk_by(|a, b| a.tree == b.tree) {
            let mut count = BudCount {
                leaf: self.leaf,
                tree: tree[0].tree,
                spurs: Vec::new(),
            };
            for line in tree {
                match self.spur(&line.typed) {
                    Ok(spur) => count.spurs.extend(spur),
                    Err(why) => {
                        wrong.get_or_insert((at, why));
                    }
                }
                at += 1;
            }
            match plan.with_count(&count) {
                Ok(with) => plan = with,
                Err(why) => {
                    let why = self.app.worded(|w| w.refusal(&why));
                    wrong.get_or_insert((at - 1, why));
                }
            }
        }
        Some((plan, wrong))
    }

    /// Tells what is typed, and what of it is not understood; whether all is.
    fn follow(self) -> bool {
        let Some((plan, wrong)) = self.counted() else {
            return true;
        };
        let leaf = Arg::Count(self.leaf.into());
        let mut said = vec![Said::new("count-none", vec![("leaf", leaf)])];
        if let Ok(Some(crop)) = counted_crop(&plan, self.scheme, self.leaf) {
            said = crop.said();
            let tips = TipCounts::of(&plan, self.scheme, self.leaf).ok();
            said.extend(tips.and_then(|tips| tips.said()));
        }
        let said: Vec<String> = said.iter().map(|s| self.app.said(s)).collect();
        self.told.set(said.join("\n"));
        self.any.set(plan.counts_of(self.leaf).next().is_some());
        for (at, place) in dom::all(".bud-count .wrong").iter().enumerate() {
            let why = wrong.as_ref().filter(|wrong| wrong.0 == at);
            place.set_text_content(why.map(|wrong| wrong.1.as_str()));
        }
        wrong.is_none()
    }

    /// The count comes into the plan, where it is another than stands there.
    pub fn keep(self) {
        if let Some((plan, _)) = self.counted()
            && self.app.peek(|d| d.plan().counts != plan.counts) == Some(true)
        {
            self.app.edit(Edit::told("step-count", plan));
        }
    }

    /// The fields, tree by tree: a form of many alike is laid as one text.
    fn fields(self) -> String {
        let app = self.app;
        let heads =
            ASKED.map(|(_, head)| format!("<th scope=\"col\">{}</th>", escape(&app.t(head))));
        let heads = format!(
            "<th scope=\"col\">{}</th>{}",
            escape(&app.t("count-head-spur")),
            heads.concat()
        );
        let mut out = String::new();
        for (at, line) in self.lines.get_value().iter().enumerate() {
            let tree = Arg::Count(line.tree.0.into());
            if line.spur == 0 {
                let of = escape(&app.text("count-tree", &[("tree", tree.clone())]));
                let end = if at == 0 { "" } else { "</table>" };
                let _ = write!(
                    out,
                    "{end}<table width=\"300\"><caption><b>{of}</b></caption><tr>{heads}</tr>"
                );
            }
            let spur = line.spur + 1;
            let _ = write!(out, "<tr><th scope=\"row\">{spur}</th>");
            for (i, (what, _)) in ASKED.iter().enumerate() {
                let name = app.text(
                    "count-cell",
                    &[
                        ("what", Arg::key(what)),
                        ("tree", tree.clone()),
                        ("spur", Arg::Count(spur as i64)),
                    ],
                );
                let cell = at * ASKED.len() + i;
                let _ = write!(
                    out,
                    "<td><input data-cell=\"{cell}\" size=\"3\" inputmode=\"numeric\" enterkeyhint=\"next\" autocomplete=\"off\" aria-label=\"{}\" value=\"{}\"></td>",
                    escape(&name),
                    escape(&line.typed[i]),
                );
            }
            out +=
                "</tr><tr><td colspan=\"4\"><span class=\"wrong\" role=\"alert\"></span></td></tr>";
        }
        out + "</table>"
    }

    /// The count, with what it tells; `left` is called when it is done with.
    pub fn view(self, left: impl Fn() + Copy + 'static) -> AnyView {
        let app = self.app;
        let typed = move |e| {
            if let Some(cell) = cell_of(&e) {
                let (line, i) = (cell / ASKED.len(), cell % ASKED.len());
                let text = event_target_value(&e);
                self.lines.update_value(|l| l[line].typed[i] = text);
            }
        };
        let key = move |e: web_sys::KeyboardEvent| {
            if e.key() == "Enter"
                && let Some(cell) = cell_of(&e)
            {
                e.prevent_default();
                next(cell);
            }
        };
        let done = move |_| {
            if self.follow() {
                self.keep();
                left();
            }
        };
        let remove = move |_| {
            let empty = |line: &mut Line| line.typed = Default::default();
            self.lines.update_value(|l| l.iter_mut().for_each(empty));
            self.keep();
            left();
        };
        let title = app.text("count-title", &[("leaf", Arg::Count(self.leaf.into()))]);
        self.follow();
        dom::focus_soon("[data-cell='0']");
        view! {
            <div class="hand-out bud-count">
                <h2 id="hand-title">{title}</h2>
                <p>{app.t("count-how")}</p>
                <p class="caution">{app.t("caution-ladder")}</p>
                <div
                    style:display="flex"
                    style:flex-wrap="wrap"
                    style:align-items="start"
                    style:gap="0 1rem"
                    on:input=typed
                    on:change=move |_| {
                        self.follow();
                    }
                    on:keydown=key
                    inner_html=self.fields()
                ></div>
                <p role="status" style:white-space="pre-line">{self.told}</p>
                <p class="choices">
                    <button class="main" data-act="count-keep" on:click=done>{app.t("count-keep")}</button>
                    <button data-act="count-remove" disabled=move || !self.any.get() on:click=remove>{app.t("count-remove")}</button>
                </p>
            </div>
        }
        .into_any()
    }
}

/// The field that an event comes from.
fn cell_of(event: &web_sys::Event) -> Option<usize> {
    let field = event.target()?.dyn_into::<web_sys::Element>().ok()?;
    field.get_attribute("data-cell")?.parse().ok()
}

/// On to the field behind one; behind the last to what keeps the count.
fn next(cell: usize) {
    let field = format!(".bud-count [data-cell='{}']", cell + 1);
    match dom::all(&field).is_empty() {
        true => dom::focus("[data-act=count-keep]"),
        false => dom::focus(&field),
    }
}
