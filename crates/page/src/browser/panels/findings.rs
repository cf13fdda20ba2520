//! Beside the wall: the findings with their remedies, and the figures.

use crate::browser::app::App;
use crate::browser::controls::lines::Lines;
use crate::browser::dom;
use crate::browser::panels::card::noted;
use crate::desk::Desk;
use crate::document::Edit;
use cordonry::check::{Finding, Part, Remedy, Severity, fill_is_due, light_rules, rules};
use cordonry::plan::Phase;
use cordonry::plan::Plan;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{FigureLine, row_figures, row_figures_title, window_key};
use leptos::prelude::*;
use std::sync::Arc;

/// How many findings of one rule are listed at once.
const LISTED: usize = 40;
/// From how many on findings of one rule are told together.
const TOGETHER: usize = 4;

/// A finding as it is listed.
#[derive(Clone, PartialEq)]
struct Listed {
    key: String,
    severity: Severity,
    words: String,
    source: String,
    part: Option<Part>,
    x: f64,
    remedies: Vec<(String, Remedy)>,
}

/// What a finding is known by as it comes and goes.
fn key(finding: &Finding) -> String {
    let part = finding.subjects.first().copied();
    format!("{}:{:.0}:{:?}", finding.rule, finding.x, part)
}

/// What the findings are known by that are told together: their rule, and how urgent they are.
type GroupKey = (&'static str, u8);

fn group_key(finding: &Finding) -> GroupKey {
    (finding.rule, finding.severity as u8)
}

fn listed(app: App, desk: &Desk, finding: &Finding) -> Listed {
    let part = finding.subjects.first().copied();
    let info = finding.limit.info();
    Listed {
        key: key(finding),
        severity: finding.severity,
        words: app.worded(|w| w.finding(finding)),
        source: crate::browser::panels::limits::source(app, info.status, info.source),
        part,
        x: finding.x,
        remedies: desk
            .remedies(finding)
            .iter()
            .map(|r| {
                let told = app.worded(|w| w.remedy(r));
                (noted(told, &notes(desk, r)), r.clone())
            })
            .collect(),
    }
}

/// What was noted of the shoots that a remedy is work on, or keeps.
fn notes(desk: &Desk, remedy: &Remedy) -> String {
    let mut notes: Vec<&str> = Vec::new();
    for work in &remedy.work {
        let subject = work.subject();
        let kept = match work {
            Work::Thin { keep, .. } => *keep,
            _ => subject.shoot,
        };
        for id in [subject.shoot, kept] {
            let shoot = subject.tree.and_then(|t| desk.scene().row.shoot(t, id));
            if let Some((_, shoot)) = shoot
                && !notes.contains(&&*shoot.note)
            {
                notes.push(&shoot.note);
            }
        }
    }
    notes.retain(|note| !note.is_empty());
    notes.join("; ")
}

/// Findings of one rule and severity.
#[derive(Clone, PartialEq)]
struct Group {
    key: GroupKey,
    count: usize,
    listed: Vec<Listed>,
    /// How many of them have a remedy.
    mendable: usize,
    /// Whether they wait for a new answer about the row as it is now.
    waits: bool,
}

/// A press on the remedies of a group: they are done once they have been tried, as far as they are offered then.
#[derive(Clone)]
struct Press {
    plan: Arc<Plan>,
    group: GroupKey,
    /// One remedy of one finding, or the first remedy of each.
    one: Option<(String, Remedy)>,
}

/// The press that waits for its remedies to be tried.
#[derive(Clone, Copy)]
struct Pressed(StoredValue<Option<Press>>);

impl Pressed {
    fn press(self, app: App, group: GroupKey, one: Option<(String, Remedy)>) {
        let plan = app.peek(|d| Arc::clone(d.plan()));
        self.0
            .set_value(plan.map(|plan| Press { plan, group, one }));
        self.settle(app);
        if self.0.with_value(Option::is_some) {
            app.say(app.t("said-remedy-waits"), false);
        }
    }

    /// Does what was pressed, once it is known whether it is offered. What was pressed on another plan is forgotten.
    fn settle(self, app: App) {
        let Some(press) = self.0.get_value() else {
            return;
        };
        let found = app.peek(|d| {
            let same = Arc::ptr_eq(d.plan(), &press.plan);
            let mut all = d.all_findings();
            all.retain(|f| same && group_key(f) == press.group);
            // No remedy is tried while the record is open: the edit is refused in words.
            if !d.is_found() && all.iter().any(|f| d.is_out_of_date(f)) {
                return None;
            }
            let mut out: Vec<(f64, Remedy)> = Vec::new();
            for f in all {
                let meant = |r: &&Remedy| match &press.one {
                    Some((of, one)) => key(f) == *of && r.said == one.said && r.also == one.also,
                    None => true,
                };
                out.extend(f.remedies.iter().find(meant).map(|r| (f.x, r.clone())));
            }
            Some((same, out))
        });
        let Some((same, remedies)) = found.flatten() else {
            return;
        };
        self.0.set_value(None);
        let x = remedies.first().map(|(x, _)| *x);
        let mut remedies: Vec<Remedy> = remedies.into_iter().map(|(_, r)| r).collect();
        if !same {
        } else if remedies.is_empty() {
            app.say(app.t("said-remedy-withdrawn"), true);
        } else if press.one.is_some() {
            app.edit(Edit::mend(remedies.swap_remove(0)));
            x.into_iter().for_each(|x| app.show(x));
        } else {
            match app.try_edit(Edit::mend_each(remedies)) {
                Ok(done) => app.say(
                    app.text("said-mended", &[("count", Arg::Count(done.count as i64))]),
                    false,
                ),
                Err(why) => app.refuse(&why),
            }
        }
    }
}

/// The place of a rule among those whose groups have been opened.
fn opened(rule: &str) -> u64 {
    let at = rules().chain(light_rules()).position(|r| r == rule);
    1 << at.unwrap_or(63)
}

/// What was found, told together. Of a rule none of whose groups was opened so few are worded as are listed by themselves.
fn groups(app: App, desk: &Desk, findings: &[&Finding], open: u64) -> Vec<Group> {
    let mut out: Vec<Group> = Vec::new();
    for f in findings {
        let key = group_key(f);
        let i = out.iter().position(|g| g.key == key).unwrap_or_else(|| {
            out.push(Group {
                key,
                count: 0,
                listed: Vec::new(),
                mendable: 0,
                waits: desk.is_out_of_date(f),
            });
            out.len() - 1
        });
        let group = &mut out[i];
        group.count += 1;
        group.mendable += usize::from(!desk.remedies(f).is_empty());
        if group.listed.len() < TOGETHER - 1
            || (open != 0 && group.listed.len() < LISTED && open & opened(f.rule) != 0)
        {
            group.listed.push(listed(app, desk, f));
        }
    }
    out
}

/// The findings, the gravest first; many of one rule are told together.
#[component]
pub fn Findings(app: App) -> impl IntoView {
    let open = RwSignal::new(0);
    let state = Memo::new(move |_| {
        app.style.track();
        let open = open.get();
        app.read(|d| {
            let all = d.all_findings();
            (all.len(), groups(app, d, &all, open))
        })
        .unwrap_or_default()
    });
    let count = move || state.with(|(n, _)| *n);
    let lines = Lines::new(".finding, .finding-group", ".findings .finding .plain");
    let pressed = Pressed(StoredValue::new(None));
    provide_context(pressed);
    Effect::new(move |_| {
        state.track();
        lines.changed();
        pressed.settle(app);
    });
    view! {
        <section
            class="findings"
            aria-labelledby="findings-title"
            on:focusin=move |e| lines.entered(&e)
            on:focusout=move |e| lines.left(&e)
        >
            <h2 id="findings-title" aria-live="polite">
                {move || app.text("findings-title", &[("count", Arg::Count(count() as i64))])}
            </h2>
            {move || (!app.light.on.get()).then(|| view! { <NoLight app/> })}
            <For
                each=move || state.with(|(_, groups)| groups.clone())
                key=|g| (g.key, g.count < TOGETHER)
                children=move |g| {
                    let key = g.key;
                    let now = Memo::new(move |_| {
                        state.with(|(_, groups)| groups.iter().find(|x| x.key == key).cloned())
                    });
                    if g.count < TOGETHER {
                        view! { <FindingList app now most=LISTED/> }.into_any()
                    } else {
                        view! { <FindingGroup app now rule=key.0 any_open=open/> }.into_any()
                    }
                }
            />
        </section>
    }
}

/// Says that the light is not among what is judged, and looks at it on request.
#[component]
fn NoLight(app: App) -> impl IntoView {
    let look = move |_| {
        app.light.toggle(app);
        // The button is gone then.
        dom::focus_soon(".findings .finding .plain");
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

/// Findings one by one, the first of them. A line stays as long as it says the same, so that it does not go from under a hand.
#[component]
fn FindingList(app: App, now: Memo<Option<Group>>, most: usize) -> impl IntoView {
    view! {
        <ul>
            <For
                each=move || {
                    let mut listed = now.get().map(|g| g.listed).unwrap_or_default();
                    listed.truncate(most);
                    listed
                }
                key=|f| (f.key.clone(), f.words.clone(), f.remedies.clone().into_iter().map(|r| r.0).collect::<Vec<_>>())
                children=move |f| view! { <OneFinding app f now/> }
            />
        </ul>
    }
}

/// Many findings of one rule: the first of them, how many more, and all of them on request.
#[component]
fn FindingGroup(
    app: App,
    now: Memo<Option<Group>>,
    rule: &'static str,
    any_open: RwSignal<u64>,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let turn = move |_| {
        any_open.update(|any| *any |= opened(rule));
        open.update(|o| *o = !*o);
    };
    let more = move || now.with(|g| g.as_ref().map_or(0, |g| g.count.saturating_sub(1)));
    let mendable = move || now.with(|g| g.as_ref().map_or(0, |g| g.mendable));
    let hidden = move || now.with(|g| g.as_ref().map_or(0, |g| g.count - g.listed.len()));
    let pressed = expect_context::<Pressed>();
    let mend_all = move |_| {
        if let Some(group) = now.with_untracked(|g| g.as_ref().map(|g| g.key)) {
            pressed.press(app, group, None);
        }
    };
    view! {
        <div class="finding-group">
            <FindingList app now most=1/>
            <p class="group-more">
                <button
                    class="link"
                    aria-expanded=move || open.get().to_string()
                    on:click=turn
                >
                    {move || {
                        let key = if open.get() { "findings-fewer" } else { "findings-alike" };
                        app.text(key, &[("count", Arg::Count(more() as i64))])
                    }}
                </button>
                {move || {
                    (mendable() > 1)
                        .then(|| {
                            view! {
                                <button
                                    class="link"
                                    data-act="mend-all"
                                    aria-disabled=move || waits(now)
                                    on:click=mend_all
                                >
                                    {app
                                        .text(
                                            "mend-all",
                                            &[("count", Arg::Count(mendable() as i64))],
                                        )}
                                </button>
                            }
                        })
                }}
            </p>
            {move || {
                open.get()
                    .then(|| {
                        view! {
                            <FindingList app now most=LISTED/>
                            {move || {
                                (hidden() > 0)
                                    .then(|| {
                                        view! {
                                            <p class="group-more">
                                                {app
                                                    .text(
                                                        "findings-hidden",
                                                        &[("count", Arg::Count(hidden() as i64))],
                                                    )}
                                            </p>
                                        }
                                    })
                            }}
                        }
                    })
            }}
        </div>
    }
}

/// Whether the remedies of a group are yet to be tried, as an attribute.
fn waits(now: Memo<Option<Group>>) -> Option<&'static str> {
    now.with(|g| g.as_ref().is_some_and(|g| g.waits))
        .then_some("true")
}

#[component]
fn OneFinding(app: App, f: Listed, now: Memo<Option<Group>>) -> impl IntoView {
    let (mark, word) = match f.severity {
        Severity::Now => ("▲", "severity-now"),
        Severity::Soon => ("◆", "severity-soon"),
        Severity::Note => ("●", "severity-note"),
    };
    let class = match f.severity {
        Severity::Now => "finding now",
        Severity::Soon => "finding soon",
        Severity::Note => "finding note",
    };
    let (part, x) = (f.part, f.x);
    let key = StoredValue::new(f.key.clone());
    let mut others = f.remedies;
    let first = (!others.is_empty()).then(|| others.remove(0));
    view! {
        <li class=class data-finding=f.key.clone()>
            <span class="severity" aria-hidden="true">{mark}</span>
            <span class="said">
                <button
                    class="plain"
                    title=f.source.clone()
                    on:click=move |_| {
                        app.choose(part);
                        app.show(x);
                    }
                >
                    <span class="visually-hidden">{app.t(word)} ": "</span>
                    {f.words.clone()}
                </button>
            </span>
            <span class="remedies">
                {first.map(|(word, remedy)| view! { <RemedyButton app word remedy key now/> })}
                {(!others.is_empty())
                    .then(|| {
                        view! {
                            <details>
                                <summary>
                                    {app
                                        .text(
                                            "remedies-other",
                                            &[("count", Arg::Count(others.len() as i64))],
                                        )}
                                </summary>
                                {others
                                    .into_iter()
                                    .map(|(word, remedy)| {
                                        view! {
                                            <div>
                                                <RemedyButton app word remedy key now/>
                                            </div>
                                        }
                                    })
                                    .collect_view()}
                            </details>
                        }
                    })}
            </span>
        </li>
    }
}

#[component]
fn RemedyButton(
    app: App,
    word: String,
    remedy: Remedy,
    key: StoredValue<String>,
    now: Memo<Option<Group>>,
) -> impl IntoView {
    let pressed = expect_context::<Pressed>();
    view! {
        <button
            class="link"
            data-remedy=""
            aria-disabled=move || waits(now)
            on:click=move |_| {
                if let Some(group) = now.with_untracked(|g| g.as_ref().map(|g| g.key)) {
                    pressed.press(app, group, Some((key.get_value(), remedy.clone())));
                }
            }
        >
            {word}
        </button>
    }
}

/// The row's figures, each beside what is asked of it.
#[component]
pub fn FiguresPanel(app: App) -> impl IntoView {
    let lines = Memo::new(move |_| {
        app.style.track();
        app.read(|d| {
            let due = fill_is_due(&d.scene().findings);
            app.worded(|w| row_figures(&d.scene().figures, &d.plan().targets, due, w))
        })
        .unwrap_or_default()
    });
    let title = move || {
        app.read(|d| d.scene().row.leaf)
            .map(|leaf| app.worded(|w| row_figures_title(leaf, w)))
    };
    // The strip tells of the harvest: here it is the moment on the wall.
    let when = move || {
        let at = app.read(|d| (!d.is_found()).then(|| d.look())).flatten();
        at.map(|look| {
            let view = match look.phase {
                Phase::Before => "before",
                Phase::After => "after",
            };
            let window = app.t(window_key(look.moment.window));
            let values = [
                ("window", Arg::Text(window)),
                ("view", Arg::Text(view.into())),
            ];
            app.text("figures-when", &values)
        })
    };
    view! {
        <section class="figures" aria-labelledby="figures-title">
            <h2 id="figures-title">{title} " " <small data-figures-when="">{when}</small></h2>
            <FigureRows app lines/>
        </section>
    }
}

/// Figures in a table, each beside what is asked of it.
#[component]
pub fn FigureRows(app: App, lines: Memo<Vec<FigureLine>>) -> impl IntoView {
    view! {
        <table>
            <tbody>
                {move || {
                    lines
                        .get()
                        .into_iter()
                        .map(|line| {
                            view! {
                                <tr class:off=line.off>
                                    <th scope="row">{app.t(line.key)}</th>
                                    <td class="value" data-figure=line.key>
                                        {line.off.then_some("▲ ")}
                                        {line.value}
                                    </td>
                                    <td class="asked">{line.asked}</td>
                                </tr>
                            }
                        })
                        .collect_view()
                }}
            </tbody>
        </table>
    }
}
