//! Printing: the browser prints the sheets that are laid for it, and nothing else of the page.

use super::light;
use crate::beside;
use crate::browser::app::App;
use crate::browser::controls::choice::choice;
use crate::browser::device::files::time_of;
use crate::browser::device::helper::Helper;
use crate::browser::device::pdf::Drawn;
use crate::browser::parts::{at_once, part};
use crate::desk::Desk;
use cordonry::check::fill_is_due;
use cordonry::row::Phase;
use cordonry::said::Arg;
use cordonry_draw::{FigureTable, Paper, Told, row_figures, row_figures_title, sheets};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{ShadowRootInit, ShadowRootMode};

/// Lays the sheets whenever the browser is about to print, and clears them away after. Where two schemes stand side by side,
/// both on one page.
pub fn watch_print(app: App, helper: Helper) {
    window_event_listener(leptos::ev::beforeprint, move |_| {
        let paper = app.paper.get_untracked();
        let of_wall = app.handed.with_value(|pages| {
            let handed = !pages.is_empty();
            if handed {
                let _ = lay(pages, paper, "alone");
            }
            !handed
        });
        if !of_wall {
            return;
        }
        match at_once(pages(app, Some((helper, paper)))) {
            Some(Some(pages)) => {
                let _ = lay(&pages, paper, "");
            }
            Some(None) => {}
            // What is printed is the part of the wall that is in sight. It is said, and comes for the next time.
            None if app.open.get_untracked() => {
                spawn_local(be_ready(app));
                app.say(app.t("print-early"), true);
            }
            None => {}
        }
    });
    window_event_listener(leptos::ev::afterprint, move |_| {
        app.handed.set_value(Vec::new());
        clear();
    });
}

part! {paper:
    /// The sheets of what is on the desk, on a paper, with what a helper knows of its leaves; none where none is named.
    fn pages(app: App, on: Option<(Helper, Paper)>) -> Option<Vec<String>> {
        on.and_then(|(helper, paper)| untrack(|| app.peek(|d| {
            let both = app.worded(|w| beside::sheet(d, &helper.far(d), paper, w));
            both.map_or_else(|| on_sheets(app, d, paper), |both| vec![both])
        })))
    }
}

/// What would be printed, as a file.
pub async fn drawn(app: App, helper: Helper) -> Result<Drawn, String> {
    let paper = app.paper.get_untracked();
    match pages(app, Some((helper, paper))).await {
        Ok(there) => Ok(Drawn {
            ending: "pdf".into(),
            pages: there.unwrap_or_default(),
            language: app.worded(|w| w.language().code.to_string()),
        }),
        Err(_) => Err(app.t("part-missing")),
    }
}

/// Has the sheets ready to be laid: the browser waits for nothing once it prints.
pub async fn be_ready(app: App) {
    let _ = pages(app, None).await;
}

/// The row as it is shown, with all that is told of it.
fn on_sheets(app: App, desk: &Desk, paper: Paper) -> Vec<String> {
    let works = desk.scene().works();
    let [row, worked] = [Phase::Before, Phase::After].map(|p| desk.row_at(desk.scene(), p));
    let targets = &desk.plan().targets;
    let of_light = light::figures_on_paper(app);
    let (findings, matters) = desk.matters();
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
            row: &row,
            worked: &worked,
            date: &today(),
            time: time_of(desk),
            work: &works,
            field: desk.scheme().map(|s| &s.field),
            findings: &findings,
            matters: &matters,
            figures: &[of_row].into_iter().chain(of_light).collect::<Vec<_>>(),
            words,
        };
        sheets(&told, paper)
    })
}

/// Today where the device is, as ISO 8601 writes it.
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    let (year, month, day) = (now.get_full_year(), now.get_month() + 1, now.get_date());
    format!("{year}-{month:02}-{day:02}")
}

/// The choice of the paper to print on.
#[component]
pub fn PaperChoice(app: App) -> impl IntoView {
    let sizes = Paper::ALL.map(|paper| {
        let size = Arg::Text(paper.name().into());
        (paper.name(), app.text("paper", &[("size", size)]))
    });
    let now = app.paper.get_untracked().name();
    choice(app, ("paper-choice", "paper"), now, sizes, move |name| {
        Paper::named(name)
            .into_iter()
            .for_each(|p| app.set_paper(p));
    })
}

const SHEETS: &str = "print-sheets";

fn clear() {
    if let Some(old) = document().get_element_by_id(SHEETS) {
        old.remove();
    }
}

/// The pages' style, and that of the paper they lie on. A page is a hair lower than the paper: one that is rounded up
/// would bring an empty one.
fn styles(paper: Paper) -> (String, String) {
    let (width, height) = paper.size();
    let pages = format!(
        "div{{height:{:.1}mm;overflow:hidden}}div+div{{break-before:page}}svg{{display:block}}",
        height - 0.5
    );
    // The sheets bring their own margin, so that their scale is true.
    let all = format!("@page{{size:{width}mm {height}mm;margin:0}}");
    (pages, all)
}

/// Puts the pages where only print shows them, in a shadow tree: their styles are a file's own. The paper's size is the
/// whole print's, not that of pages with a name: these are not found in a shadow tree everywhere. Of the class
/// `alone` they are all that is printed.
fn lay(pages: &[String], paper: Paper, class: &str) -> Result<(), JsValue> {
    clear();
    let Some(body) = document().body() else {
        return Ok(());
    };
    let host = document().create_element("div")?;
    host.set_id(SHEETS);
    host.set_class_name(class);
    let (style, size) = styles(paper);
    let of_paper = document().create_element("style")?;
    of_paper.set_text_content(Some(&size));
    host.append_child(&of_paper)?;
    let shadow = host.attach_shadow(&ShadowRootInit::new(ShadowRootMode::Open))?;
    let mut inside = format!("<style>{style}</style>");
    for page in pages {
        inside.push_str("<div>");
        inside.push_str(page);
        inside.push_str("</div>");
    }
    shadow.set_inner_html(&inside);
    body.prepend_with_node_1(&host)
}
