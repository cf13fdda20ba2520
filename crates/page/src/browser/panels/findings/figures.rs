//! The row's figures in a table.

use crate::browser::app::App;
use cordonry::check::fill_is_due;
use cordonry::plan::Phase;
use cordonry::said::Arg;
use cordonry_draw::{FigureLine, row_figures, row_figures_title, window_key};
use leptos::prelude::*;

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
