//! Beside the wall: the findings with their remedies, and the figures.

use crate::browser::app::App;
use cordonry::check::{Finding, Part, Severity};
use cordonry::row::{Limit, Status};
use cordonry::words::Arg;
use cordonry::work::Work;
use leptos::prelude::*;

/// How many findings are listed at once.
const LISTED: usize = 40;

/// A finding as it is listed.
#[derive(Clone, PartialEq)]
struct Listed {
    key: String,
    severity: Severity,
    words: String,
    source: String,
    part: Option<Part>,
    x: f64,
    remedies: Vec<(String, Vec<Work>)>,
}

fn listed(app: App, finding: &Finding) -> Listed {
    let part = finding.subjects.first().copied();
    let info = finding.limit.info();
    let status = match info.status {
        Status::Published => "status-published",
        Status::Derived => "status-derived",
        Status::CommonPractice => "status-practice",
        Status::FromMemory => "status-memory",
    };
    Listed {
        key: format!("{}:{:.0}:{:?}", finding.rule, finding.x, part),
        severity: finding.severity,
        words: app.worded(|w| w.finding(finding)),
        source: format!("{}: {}", app.t(status), info.source),
        part,
        x: finding.x,
        remedies: finding
            .remedies
            .iter()
            .map(|r| (app.worded(|w| w.remedy(r)), r.work.clone()))
            .collect(),
    }
}

/// The findings, the gravest first.
#[component]
pub fn Findings(app: App) -> impl IntoView {
    let all = RwSignal::new(false);
    let state = Memo::new(move |_| {
        app.style.track();
        let most = if all.get() { usize::MAX } else { LISTED };
        app.read(|d| {
            let list: Vec<Listed> = d
                .findings
                .iter()
                .take(most)
                .map(|f| listed(app, f))
                .collect();
            (d.findings.len(), list)
        })
        .unwrap_or_default()
    });
    let count = move || state.with(|(n, _)| *n);
    view! {
        <section class="findings" aria-labelledby="findings-title">
            <h2 id="findings-title" aria-live="polite">
                {move || app.text("findings-title", &[("count", Arg::Count(count() as i64))])}
            </h2>
            <ul>
                <For
                    each=move || state.with(|(_, list)| list.clone())
                    key=|f| (f.key.clone(), f.words.clone(), f.remedies.len())
                    children=move |f| view! { <OneFinding app f/> }
                />
            </ul>
            {move || {
                (count() > LISTED && !all.get())
                    .then(|| {
                        let more = (count() - LISTED) as i64;
                        view! {
                            <button class="link" on:click=move |_| all.set(true)>
                                {app.text("findings-more", &[("count", Arg::Count(more))])}
                            </button>
                        }
                    })
            }}
        </section>
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
    let (part, x) = (f.part, f.x);
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
                {f.remedies
                    .into_iter()
                    .map(|(word, work)| {
                        view! {
                            <button
                                class="link"
                                data-remedy=""
                                on:click=move |_| {
                                    let work = work.clone();
                                    app.edit(|d| d.work("step-remedy", work));
                                    app.show(x);
                                }
                            >
                                {word}
                            </button>
                        }
                    })
                    .collect_view()}
            </span>
        </li>
    }
}

/// The row's figures, each beside what is asked of it.
#[component]
pub fn FiguresPanel(app: App) -> impl IntoView {
    let lines = Memo::new(move |_| {
        app.style.track();
        app.read(|d| {
            let f = &d.figures;
            let limit = |l| d.plan().targets.get(l);
            let due = limit(Limit::FillDueLeaf);
            vec![
                (
                    "figure-fill",
                    Arg::Share(f.cordon_fill_share),
                    app.text("asked-fill", &[("leaf", Arg::Number(due, 0))]),
                    f.cordon_fill_share + 1e-9 < limit(Limit::FillDueShare)
                        && f64::from(d.moment().leaf) > due,
                ),
                (
                    "figure-bare",
                    Arg::Length(f.gap_total),
                    String::new(),
                    false,
                ),
                (
                    "figure-twice",
                    Arg::Length(f.overlap_total),
                    String::new(),
                    false,
                ),
                (
                    "figure-uprights",
                    Arg::Count(f.uprights as i64),
                    app.text("asked-trees", &[("trees", Arg::Count(f.trees as i64))]),
                    false,
                ),
                (
                    "figure-apart",
                    Arg::Length(f.upright_spacing_mean),
                    app.text(
                        "asked-apart",
                        &[("target", Arg::Length(limit(Limit::UprightSpacing)))],
                    ),
                    f.uprights > 1
                        && (f.upright_spacing_mean < limit(Limit::UprightSpacingMin)
                            || f.upright_spacing_mean > limit(Limit::UprightSpacingMax)),
                ),
                (
                    "figure-uneven",
                    Arg::Share(f.upright_spacing_cv),
                    app.t("asked-uneven"),
                    false,
                ),
            ]
            .into_iter()
            .map(|(key, value, asked, off)| {
                (key, app.text("value", &[("value", value)]), asked, off)
            })
            .collect::<Vec<_>>()
        })
        .unwrap_or_default()
    });
    let title = move || {
        app.read(|d| d.moment().leaf)
            .map(|leaf| app.text("figures-title", &[("leaf", Arg::Count(leaf.into()))]))
    };
    view! {
        <section class="figures" aria-labelledby="figures-title">
            <h2 id="figures-title">{title}</h2>
            <table>
                <tbody>
                    {move || {
                        lines
                            .get()
                            .into_iter()
                            .map(|(key, value, asked, off)| {
                                view! {
                                    <tr class:off=off>
                                        <th scope="row">{app.t(key)}</th>
                                        <td class="value" data-figure=key>
                                            {off.then_some("▲ ")}
                                            {value}
                                        </td>
                                        <td class="asked">{asked}</td>
                                    </tr>
                                }
                            })
                            .collect_view()
                    }}
                </tbody>
            </table>
        </section>
    }
}
