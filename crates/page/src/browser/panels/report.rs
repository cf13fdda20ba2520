//! A report for a client: what is filled in, how it is printed or saved, and every change of the plan by tree, each a way to its tree.

use super::offer::{Offer, draft_not_taken};
use super::pdf::{Drawing, pdf_press};
use super::print::{PaperChoice, today};
use super::spoken::{learn_handed, spoken_choice, spoken_words};
use super::to_tree::go_to;
use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use crate::browser::device::pdf::Drawn;
use crate::browser::device::settings::{keep, kept};
use crate::browser::dom;
use crate::browser::parts::part;
use cordonry::advise::{Brought, Gain, GainDraws};
use cordonry::plan::{Moment, Plan};
use cordonry::refusal::Refusal;
use cordonry::report::{Changes, OnTree, Report};
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{ClientReport, changes_on};
use leptos::html;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// What opens it, and where it opens.
pub const OFFER: Offer = Offer {
    act: "report",
    does: "report-do",
    what: "report-what",
    opened: |app, open| Box::pin(opened(app, open)),
};

part! {crew:
    fn opened(app: App, open: RwSignal<bool>) -> AnyView {
        Sheet::new(app, learn_handed(app)).view(open)
    }
}

/// Under what the device keeps who advises, and before a row's name its block.
const BY: &str = "cordonry.advises";
const BLOCK: &str = "cordonry.block.";
/// How many trees are listed at once.
const LISTED: usize = 40;
/// Draws that are done between two looks at what else is asked.
const DRAWS: u32 = 4;

/// The plan, the scheme and the leaf that a report is of.
type Asked = (Arc<Plan>, usize, u8);

/// What is told of it, what its work brings, and what it brings without each of its passes.
type Told = (Report, Option<Gain>, Vec<Brought>);

/// The sheet with what is filled in.
#[derive(Clone, Copy)]
struct Sheet {
    app: App,
    /// The block, the date and who advises.
    filled: RwSignal<[String; 3]>,
    /// The language of what is printed.
    spoken: RwSignal<String>,
    /// That it is being made, or why nothing is printed.
    making: RwSignal<bool>,
    wrong: RwSignal<Option<String>>,
    changes: RwSignal<Option<Changes>, LocalStorage>,
}

impl Sheet {
    fn new(app: App, code: &str) -> Self {
        let block = format!("{BLOCK}{}", row_name(app));
        let [block, by] = [&*block, BY].map(|name| kept(name).unwrap_or_default());
        let changes = asked(app).map(|(plan, scheme, leaf)| Changes::of(&plan, scheme, leaf));
        Self {
            app,
            filled: RwSignal::new([block, today(), by]),
            spoken: RwSignal::new(code.to_string()),
            making: RwSignal::new(false),
            wrong: RwSignal::new(None),
            changes: RwSignal::new_local(changes.and_then(Result::ok)),
        }
    }

    /// The sheets in the language that is chosen, or why there are none.
    async fn sheets(self) -> Result<Vec<String>, String> {
        let app = self.app;
        let code = self.spoken.get_untracked();
        let Some(words) = spoken_words(app, &code).await else {
            return Err(app.t("part-missing"));
        };
        let Some(asked) = asked(app) else {
            return Ok(Vec::new());
        };
        let (report, gain, but) = told(&asked)
            .await
            .map_err(|why| app.worded(|w| w.refusal(&why)))?;
        let (plan, scheme, _) = &asked;
        let filled = self.filled.get_untracked();
        let pages = self.changes.with_untracked(|changes| {
            let client = ClientReport {
                plan,
                scheme: *scheme,
                report: &report,
                changes: changes.as_ref()?,
                gain: gain.as_ref(),
                but: &but,
                filled: filled.each_ref().map(|text| &**text),
                words: &words,
            };
            Some(client.sheets(app.paper.get_untracked()))
        });
        Ok(pages.unwrap_or_default())
    }

    fn print(self) {
        if self.making.get_untracked() {
            return;
        }
        self.wrong.set(None);
        self.making.set(true);
        spawn_local(async move {
            let made = self.sheets().await;
            self.making.try_set(false);
            match made {
                Ok(pages) => {
                    self.app.handed.set_value(pages);
                    dom::print();
                }
                Err(why) => {
                    self.wrong.try_set(Some(why));
                }
            }
        });
    }

    async fn drawn(self) -> Result<Drawn, String> {
        let pages = self.sheets().await?;
        Ok(Drawn {
            ending: self.app.t("report-file") + ".pdf",
            pages,
            language: self.spoken.get_untracked(),
        })
    }

    /// What is filled in at a place, kept on the device under a name where it has one.
    fn field(self, at: usize, label: &'static str, name: Option<String>) -> AnyView {
        let typed = move |e: web_sys::Event| {
            let text = event_target_value(&e);
            if let Some(name) = &name {
                keep(name, text.trim());
            }
            self.filled.update(|f| f[at] = text);
        };
        view! {
            <label>
                {self.app.t(label)} " "
                <input
                    data-field=label
                    maxlength="80"
                    autocomplete="off"
                    prop:value=self.filled.with_untracked(|f| f[at].clone())
                    on:input=typed
                />
            </label>
        }
        .into_any()
    }

    /// Every change, tree by tree, each a way to its tree.
    fn listed(self, close: impl Fn() + Copy + Send + Sync + 'static) -> AnyView {
        let app = self.app;
        let all = RwSignal::new(false);
        let of = |f: fn(&Changes) -> usize| self.changes.with(|c| c.as_ref().map_or(0, f));
        let (count, trees) = (of(Changes::count), of(|c| c.trees.len()));
        let piece = move |own: &OnTree, (at, work): &(usize, Work), line: String| {
            let moment = self
                .changes
                .with(|c| Some(c.as_ref()?.times.get(*at)?.moment));
            match own.tree.zip(moment) {
                Some((tree, moment)) => {
                    let work = work.clone();
                    let go = move |_| {
                        close();
                        go_there(app, moment, tree, &work);
                    };
                    view! { <li><button class="plain" on:click=go>{line}</button></li> }.into_any()
                }
                None => view! { <li>{line}</li> }.into_any(),
            }
        };
        let one = move |own: &OnTree| {
            let (name, lines) = self.changes.with(|c| {
                let told = |c| app.worded(|w| changes_on(c, own, w));
                c.as_ref().map(told).unwrap_or_default()
            });
            let lines = own.work.iter().zip(lines);
            let lines = lines.map(|(of, line)| piece(own, of, line));
            view! { <li data-changed=own.tree.map(|t| t.0)>{name} <ul>{lines.collect_view()}</ul></li> }
        };
        let list = move || {
            let most = if all.get() { usize::MAX } else { LISTED };
            let own = self
                .changes
                .with(|c| c.as_ref().map(|c| c.trees.clone()))
                .unwrap_or_default();
            own.iter().take(most).map(one).collect_view()
        };
        let title = app.text("report-changes", &[("count", Arg::Count(count as i64))]);
        let more = move || {
            (trees > LISTED && !all.get()).then(|| {
                let rest = [("count", Arg::Count((trees - LISTED) as i64))];
                view! {
                    <button class="link" data-act="changes-all" on:click=move |_| all.set(true)>
                        {app.text("report-more", &rest)}
                    </button>
                }
            })
        };
        view! {
            <h3>{title}</h3>
            <p class="facts">{app.t("report-changes-how")}</p>
            <ul class="changes">{list}</ul>
            {more}
        }
        .into_any()
    }

    fn view(self, open: RwSignal<bool>) -> AnyView {
        let app = self.app;
        let node = NodeRef::<html::Dialog>::new();
        let close = move || {
            if let Some(dialog) = node.get_untracked() {
                dialog.close();
            }
        };
        let row = [("row", Arg::Text(row_name(app)))];
        let block = Some(format!("{BLOCK}{}", row_name(app)));
        let leaf = asked(app).map_or(1, |(_, _, leaf)| leaf);
        let leaf = [("leaf", Arg::Count(leaf.into()))];
        let draw = Rc::new(move || -> Drawing { Box::pin(self.drawn()) });
        let saves = pdf_press(app, Some(app.t("report-print")), draw);
        view! {
            <Dialog labelled_by="report-title" node on_close=move || open.set(false)>
                <div class="hand-out report">
                    <h2 id="report-title">{app.text("report-title", &row)}</h2>
                    {draft_not_taken(app)}
                    <p>{app.text("report-holds", &leaf)}</p>
                    <p class="hand-acts">
                        {self.field(0, "report-block", block)}
                        {self.field(1, "report-date", None)}
                        {self.field(2, "report-by", Some(BY.into()))}
                    </p>
                    <p class="hand-acts">
                        {spoken_choice(app.t("hand-language"), self.spoken)}
                        <PaperChoice app/>
                        <button class="main" data-act="report-print" on:click=move |_| self.print()>
                            {app.t("report-print")}
                        </button>
                        {saves}
                        <span role="status">{move || self.making.get().then(|| app.t("report-making"))}</span>
                    </p>
                    {move || self.wrong.get().map(|w| view! { <p class="refusal" role="alert">{w}</p> })}
                    {self.listed(close)}
                    <p class="choices">
                        <button data-act="report-close" on:click=move |_| close()>{app.t("charts-close")}</button>
                    </p>
                </div>
            </Dialog>
        }
        .into_any()
    }
}

fn row_name(app: App) -> String {
    let name = app.peek(|d| d.plan().name.clone());
    name.filter(|n| !n.trim().is_empty())
        .unwrap_or_else(|| app.t("unnamed"))
}

/// What is looked at.
fn asked(app: App) -> Option<Asked> {
    app.peek(|d| {
        let look = d.look();
        (Arc::clone(d.plan()), look.scheme, look.moment.leaf)
    })
}

/// To where a piece of work is done.
pub fn go_there(app: App, moment: Moment, tree: cordonry::row::TreeId, work: &Work) {
    let shoot = work.kept_bud(moment.leaf).unwrap_or(work.subject().shoot);
    go_to(app, Some(moment), tree, Some(shoot));
}

/// What is told of a leaf, and what its work brings. The page answers to what else is asked between its steps.
async fn told((plan, scheme, leaf): &Asked) -> Result<Told, Refusal> {
    breath().await;
    let report = Report::of(plan, *scheme, *leaf)?;
    if report.season.passes.is_empty() {
        return Ok((report, None, Vec::new()));
    }
    let mut but = Vec::new();
    for n in 0..report.season.passes.len() {
        breath().await;
        but.push(report.but(plan, *scheme, n)?);
    }
    let mut draws = GainDraws::new(&report.without, plan, *scheme, *leaf);
    loop {
        breath().await;
        if let Some(gain) = draws.go_on(DRAWS)? {
            return Ok((report, Some(gain), but));
        }
    }
}

/// Lets the page do what waits.
async fn breath() {
    let waits = js_sys::Promise::new(&mut |done, _| {
        let done = move || {
            let _ = done.call0(&wasm_bindgen::JsValue::NULL);
        };
        set_timeout(done, Duration::ZERO);
    });
    let _ = JsFuture::from(waits).await;
}
