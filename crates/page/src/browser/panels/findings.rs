//! Beside the wall: the findings with their remedies, and the figures.

use crate::browser::app::App;
use crate::browser::controls::lines::Lines;
use crate::browser::dom;
use crate::browser::panels::card::noted;
use crate::desk::Desk;
use crate::document::Edit;
use cordonry::check::{Finding, Part, Remedy, Severity, fill_is_due};
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{FigureLine, row_figures, row_figures_title};
use leptos::prelude::*;

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
    /// Whether it waits for a new answer about the row as it is now.
    waits: bool,
}

fn listed(app: App, desk: &Desk, finding: &Finding) -> Listed {
    let part = finding.subjects.first().copied();
    let info = finding.limit.info();
    Listed {
        key: format!("{}:{:.0}:{:?}", finding.rule, finding.x, part),
        severity: finding.severity,
        words: app.worded(|w| w.finding(finding)),
        source: crate::browser::panels::limits::source(app, info),
        part,
        x: finding.x,
        waits: desk.is_out_of_date(finding),
        remedies: finding
            .remedies
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
    key: String,
    count: usize,
    listed: Vec<Listed>,
    /// How many of them have a remedy.
    mendable: usize,
}

fn groups(app: App, desk: &Desk, findings: &[&Finding]) -> Vec<Group> {
    let mut out: Vec<Group> = Vec::new();
    for f in findings {
        let key = format!("{}:{:?}", f.rule, f.severity);
        let i = out.iter().position(|g| g.key == key).unwrap_or_else(|| {
            out.push(Group {
                key,
                count: 0,
                listed: Vec::new(),
                mendable: 0,
            });
            out.len() - 1
        });
        let group = &mut out[i];
        group.count += 1;
        group.mendable += usize::from(!f.remedies.is_empty());
        if group.listed.len() < LISTED {
            group.listed.push(listed(app, desk, f));
        }
    }
    out
}

/// The findings, the gravest first; many of one rule are told together.
#[component]
pub fn Findings(app: App) -> impl IntoView {
    let state = Memo::new(move |_| {
        app.style.track();
        app.read(|d| {
            let all = d.all_findings();
            (all.len(), groups(app, d, &all))
        })
        .unwrap_or_default()
    });
    let count = move || state.with(|(n, _)| *n);
    let lines = Lines::new(".finding, .finding-group", ".findings .finding .plain");
    Effect::new(move |_| {
        state.track();
        lines.changed();
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
                key=|g| (g.key.clone(), g.count < TOGETHER)
                children=move |g| {
                    let key = g.key.clone();
                    let now = Memo::new(move |_| {
                        state.with(|(_, groups)| groups.iter().find(|x| x.key == key).cloned())
                    });
                    if g.count < TOGETHER {
                        view! { <FindingList app now/> }.into_any()
                    } else {
                        view! { <FindingGroup app now/> }.into_any()
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

/// Findings one by one.
#[component]
fn FindingList(app: App, now: Memo<Option<Group>>) -> impl IntoView {
    view! {
        <ul>
            <For
                each=move || now.get().map(|g| g.listed).unwrap_or_default()
                key=|f| (f.key.clone(), f.words.clone(), f.waits, f.remedies.clone().into_iter().map(|r| r.0).collect::<Vec<_>>())
                children=move |f| view! { <OneFinding app f/> }
            />
        </ul>
    }
}

/// Many findings of one rule: the first of them, how many more, and all of them on request.
#[component]
fn FindingGroup(app: App, now: Memo<Option<Group>>) -> impl IntoView {
    let open = RwSignal::new(false);
    let first = move || now.get().and_then(|g| g.listed.into_iter().next());
    let more = move || now.with(|g| g.as_ref().map_or(0, |g| g.count.saturating_sub(1)));
    let mendable = move || now.with(|g| g.as_ref().map_or(0, |g| g.mendable));
    let hidden = move || now.with(|g| g.as_ref().map_or(0, |g| g.count - g.listed.len()));
    let waits = move || now.with(|g| g.as_ref().is_some_and(|g| g.listed.iter().any(|f| f.waits)));
    let mend_all = move |_| {
        let rule = now.with_untracked(|g| g.as_ref().map(|g| g.key.clone()));
        let remedies = app
            .peek(|d| {
                d.all_findings()
                    .into_iter()
                    .filter(|f| Some(format!("{}:{:?}", f.rule, f.severity)) == rule)
                    .filter(|f| !d.is_out_of_date(f))
                    .filter_map(|f| f.remedies.first().cloned())
                    .collect::<Vec<_>>()
            })
            .unwrap_or_default();
        match app.try_edit(Edit::mend_each(remedies)) {
            Ok(done) => app.say(
                app.text("said-mended", &[("count", Arg::Count(done.count as i64))]),
                false,
            ),
            Err(why) => app.refuse(&why),
        }
    };
    view! {
        <div class="finding-group">
            <ul>{move || first().map(|f| view! { <OneFinding app f/> })}</ul>
            <p class="group-more">
                <button
                    class="link"
                    aria-expanded=move || open.get().to_string()
                    on:click=move |_| open.update(|o| *o = !*o)
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
                                    disabled=waits
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
                            <FindingList app now/>
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

#[component]
fn OneFinding(app: App, f: Listed) -> impl IntoView {
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
    let (part, x, waits) = (f.part, f.x, f.waits);
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
                {first.map(|(word, remedy)| view! { <RemedyButton app word remedy x waits/> })}
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
                                                <RemedyButton app word remedy x waits/>
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
fn RemedyButton(app: App, word: String, remedy: Remedy, x: f64, waits: bool) -> impl IntoView {
    view! {
        <button
            class="link"
            data-remedy=""
            disabled=waits
            on:click=move |_| {
                app.edit(Edit::mend(remedy.clone()));
                app.show(x);
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
    view! {
        <section class="figures" aria-labelledby="figures-title">
            <h2 id="figures-title">{title}</h2>
            <FigureRows app lines/>
            // Over the wall it may be cut short.
            <p class="facts">{move || app.read(|d| d.plan().note.clone())}</p>
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
