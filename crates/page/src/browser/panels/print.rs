//! Printing: the browser prints the sheets that are laid for it, and nothing else of the page.

use super::light;
use crate::browser::app::App;
use crate::browser::device::files::time_of;
use crate::desk::Desk;
use cordonry::check::fill_is_due;
use cordonry::work::Work;
use cordonry_draw::{FigureTable, Paper, Told, row_figures, row_figures_title, sheets};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{ShadowRootInit, ShadowRootMode};

/// Lays the sheets whenever the browser is about to print, and clears them away after.
pub fn watch_print(app: App) {
    window_event_listener(leptos::ev::beforeprint, move |_| {
        if let Some(pages) = untrack(|| app.peek(|d| on_sheets(app, d))) {
            // Without the sheets the part of the wall that is in sight is printed.
            let _ = lay(&pages);
        }
    });
    window_event_listener(leptos::ev::afterprint, |_| clear());
}

/// The row as it is shown, with all that is told of it.
fn on_sheets(app: App, desk: &Desk) -> Vec<String> {
    let works = desk.scene().works();
    let ids = works.iter().filter_map(Work::tree).collect();
    let before = desk
        .plan()
        .trees_before(desk.look().scheme, desk.look().moment, &ids)
        .unwrap_or_default();
    let targets = &desk.plan().targets;
    let of_light = light::figures_on_paper(app);
    app.worded(|words| {
        let of_row = FigureTable {
            title: row_figures_title(desk.scene().row.leaf, words),
            lines: row_figures(
                &desk.scene().figures,
                targets,
                fill_is_due(&desk.scene().findings),
                words,
            ),
            assumed: String::new(),
        };
        let told = Told {
            plan: desk.plan(),
            row: &desk.scene().row,
            time: time_of(desk),
            work: &works,
            before: &before,
            findings: &desk.all_findings(),
            figures: &[of_row].into_iter().chain(of_light).collect::<Vec<_>>(),
            words,
        };
        sheets(&told, Paper::A4)
    })
}

const SHEETS: &str = "print-sheets";
/// The pages' style. A hair lower than the paper: a page that is rounded up would bring an empty one.
const PAGES: &str = "div{break-after:page;height:209.5mm;overflow:hidden}svg{display:block}";

fn clear() {
    if let Some(old) = document().get_element_by_id(SHEETS) {
        old.remove();
    }
}

/// Puts the pages where only print shows them, in a shadow tree: their styles are a file's own.
fn lay(pages: &[String]) -> Result<(), JsValue> {
    clear();
    let Some(body) = document().body() else {
        return Ok(());
    };
    let host = document().create_element("div")?;
    host.set_id(SHEETS);
    let shadow = host.attach_shadow(&ShadowRootInit::new(ShadowRootMode::Open))?;
    let mut inside = format!("<style>{PAGES}</style>");
    for page in pages {
        inside.push_str("<div>");
        inside.push_str(page);
        inside.push_str("</div>");
    }
    shadow.set_inner_html(&inside);
    body.prepend_with_node_1(&host)
}
