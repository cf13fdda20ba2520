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

/// Figures in a table, each beside what is asked of it. A figure that changes changes its own cell.
#[component]
pub fn FigureRows(app: App, lines: Memo<Vec<FigureLine>>) -> impl IntoView {
    let count = Memo::new(move |_| lines.with(Vec::len));
    let row = move |at: usize| {
        let line = Memo::new(move |_| lines.with(|all| all.get(at).cloned()));
        let of = move |text: fn(FigureLine) -> String| line.get().map(text);
        let key = move || line.get().map(|l| l.key);
        let off = move || line.get().is_some_and(|l| l.off);
        view! {
            <tr class:off=off>
                <th scope="row">{move || key().map(|key| app.t(key))}</th>
                <td class="value" data-figure=key>
                    {move || off().then_some("▲ ")}
                    {move || of(|l| l.value)}
                </td>
                <td class="asked">{move || of(|l| l.asked)}</td>
            </tr>
        }
    };
    view! {
        <table>
            <tbody>
                <For each=move || 0..count.get() key=|at| *at children=row/>
            </tbody>
        </table>
    }
}
