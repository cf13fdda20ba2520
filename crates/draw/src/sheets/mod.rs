//! A row on paper: the wall to scale, its work as boxes to tick, and what is told of it, page by page.

mod beside;
mod crew;
mod flow;
mod handed;
mod lesson;
mod lists;
mod order;
mod page;
mod picture;
mod planted;
mod report;
#[cfg(test)]
mod tests;

pub use beside::{Both, Side, sheet_beside};
pub use crew::{marking_sheets, pass_sheets};
pub use handed::Handed;
pub use order::{Laid, Order, OrderLine, is_headed, placed_line};
pub use report::{ClientReport, changes_on};

use crate::block::{
    Block, HEAD_GAP, LINE, NOTE_LINES, about, at, paper, scale_bar, summary, title,
};
use crate::element::{add, group, path};
use crate::figures::FigureTable;
use crate::key;
use crate::measure::{TEXT, TITLE, first_lines, width, wrap};
use crate::paper::{MARGIN, PX, Paper};
use crate::pen::Pen;
use crate::strip::{Drawing, Room, Strips};
use crate::style;
use crate::time::{Time, moment_of};
use crate::worklist::cautions;
use cordonry::check::{Finding, Matter};
use cordonry::cover::cover;
use cordonry::plan::{Field, Phase, Plan};
use cordonry::pose::PosedRow;
use cordonry::said::Arg;
use cordonry::units::LengthStyle;
use cordonry::work::Work;
use cordonry_words::Words;
use flow::{Flow, Item, Page};
use svg::node::Node;
use svg::node::element::Element;

/// What the sheets of a row tell.
#[derive(Clone, Copy)]
pub struct Told<'a> {
    /// The plan: its name, notes and limits.
    pub plan: &'a Plan,
    /// The row before the work of that time, as the crew finds it: so it is drawn.
    pub row: &'a PosedRow,
    /// The row after it, by which it is told where what is kept on wood comes to lie that is laid with it.
    pub worked: &'a PosedRow,
    /// When; `None` for the row as it was found, without work. Its phase is that in which findings and figures hold.
    pub time: Option<Time>,
    /// The day on which it is printed, as it is written; empty where nobody knows.
    pub date: &'a str,
    /// All the work of that time.
    pub work: &'a [Work],
    /// What the crew tells of it.
    pub field: Option<&'a Field>,
    /// What was found in the row.
    pub findings: &'a [&'a Finding],
    /// The same, put together by its causes; what is left for the year last.
    pub matters: &'a [Matter],
    /// Figures of the row, in tables.
    pub figures: &'a [FigureTable],
    /// Language and units.
    pub words: &'a Words,
}

/// The sheets as SVG elements, one a page, each as large as the paper where it is printed at 100 %.
///
/// The wall comes first, in strips that no page's end cuts; then notes, the work as boxes to tick with its cautions, the
/// findings and the figures. Nothing is left out for want of room: lists go on on the next page.
pub fn sheets(told: &Told<'_>, paper: Paper) -> Vec<String> {
    let words = told.words;
    let drawing = Drawing {
        plan: told.plan,
        row: told.row,
        words,
        foliage: false,
        work: told.work,
        moment: moment_of(told.time, told.row),
        field: told.field,
        lone: None,
    };
    let cover = cover(told.row, &told.plan.targets);
    let summary = summary(told.row, &cover, words);
    // Without work the row before it is the row after it.
    let phase = match told.work.is_empty() {
        true => Phase::After,
        false => Phase::Before,
    };
    let time = told
        .time
        .map(|t| Time { phase, ..t }.sentence(told.work, words))
        .unwrap_or_default();

    let mut flow = Flow::new(paper);
    let (mut head, head_height) = head(told, [&summary, &time], paper);
    let key = key::block(&drawing.signs(), paper.usable_width(), words);
    let beside = head_height + key.as_ref().map_or(0.0, |k| k.height);
    let room = Room {
        width: paper.usable_width(),
        height: flow.room() - beside,
    };
    let strips = Strips::new(drawing, cover, room);
    let right = MARGIN + paper.usable_width();
    scale_bar(&mut head, strips.ratio, right, SCALE_AT, words);
    let head = Block {
        element: head,
        height: head_height,
    };
    for block in [head].into_iter().chain(key) {
        flow.wide(&block, true);
    }
    for strip in strips.blocks() {
        flow.wide(&strip, true);
    }
    lists(told, &mut flow, paper);

    let pages = flow.pages();
    let sheet = Finished {
        told,
        paper,
        ratio: strips.ratio,
        time: &time,
        style: style::sheets(strips.px()),
        about: about(&summary, words),
        count: pages.len(),
    };
    pages
        .into_iter()
        .enumerate()
        .map(|(i, page)| sheet.page(i, page))
        .collect()
}

/// Where the scale's bar stands in the head, pixels from the head's upper edge.
const SCALE_AT: f64 = 20.0;
/// Room for it and its words, pixels: at the largest scale the bar of a metre takes the more.
const SCALE_WIDTH: f64 = 400.0;

/// Title, sentences and note, and how high they are.
fn head(told: &Told<'_>, sentences: [&str; 2], paper: Paper) -> (Element, f64) {
    let whole = paper.usable_width();
    let mut element = group("sheet-head");
    let mut y = 14.0;
    for line in first_lines(title(&told.plan.name), TITLE, whole, 1) {
        element.append(at("sheet-title", MARGIN, y, &line));
    }
    y += 20.0 - LINE;
    for line in sentences
        .iter()
        .flat_map(|s| wrap(s, TEXT, whole - SCALE_WIDTH))
    {
        y += LINE;
        element.append(at("sheet-body", MARGIN, y, &line));
    }
    for line in first_lines(&told.plan.note, TEXT, whole - SCALE_WIDTH, NOTE_LINES) {
        y += LINE;
        element.append(at("sheet-text", MARGIN, y, &line));
    }
    (element, y + HEAD_GAP)
}

/// Whether the head holds all of the plan's note.
fn note_is_whole(told: &Told<'_>, paper: Paper) -> bool {
    let width = paper.usable_width() - SCALE_WIDTH;
    first_lines(&told.plan.note, TEXT, width, usize::MAX).len() <= NOTE_LINES
}

/// Notes, work, findings and figures, each under its title.
fn lists(told: &Told<'_>, flow: &mut Flow, paper: Paper) {
    let words = told.words;
    let column = Flow::column(paper);
    let notes = lists::notes(told, !note_is_whole(told, paper), column);
    if !notes.is_empty() {
        flow.columns(&over(&words.plain("draw-notes"), &[], paper), &notes);
    }
    let count = |n: usize| [("count", Arg::Count(n as i64))];
    if let Some(time) = told.time {
        let stands = time.by_rule(told.work).then_some("work-stands");
        let care = stands.into_iter().chain(cautions(told.work));
        let care: Vec<String> = care.map(|c| words.plain(c)).collect();
        let over = over(
            &words.text("work-title", &count(told.work.len())),
            &care,
            paper,
        );
        flow.columns(&over, &lists::work(told, column));
    }
    // The wall is drawn before the work: what holds after it says so.
    let after = told.time.is_some_and(|t| t.phase == Phase::After) && !told.work.is_empty();
    let after: Vec<String> = after
        .then(|| words.plain("draw-after-work"))
        .into_iter()
        .collect();
    let open = told.matters.iter().filter(|m| m.left.is_none()).count();
    let title = words.text("findings-title", &count(open));
    flow.columns(&over(&title, &after, paper), &lists::matters(told, column));
    let left = lists::left(told, column);
    if !left.is_empty() {
        let title = words.text("left-title", &count(told.matters.len() - open));
        flow.columns(&over(&title, &[], paper), &left);
    }
    let figures: Vec<Item> = told
        .figures
        .iter()
        .flat_map(|table| lists::figures(table, column, words))
        .collect();
    if !figures.is_empty() {
        flow.columns(&over("", &after, paper), &figures);
    }
}

/// A title over columns, and sentences that hold for all of them.
fn over(title: &str, sentences: &[String], paper: Paper) -> Block {
    let mut element = group("sheet-over");
    let mut y = 8.0;
    let mut rule = Pen::default();
    rule.line(
        (MARGIN, y).into(),
        (MARGIN + paper.usable_width(), y).into(),
    );
    add(&mut element, path("sheet-rule", &rule));
    if !title.is_empty() {
        y += 20.0;
        element.append(at("sheet-heading", MARGIN, y, title));
    }
    for line in sentences
        .iter()
        .flat_map(|s| wrap(s, TEXT, paper.usable_width()))
    {
        y += LINE;
        element.append(at("sheet-body", MARGIN, y, &line));
    }
    Block {
        element,
        height: y + 12.0,
    }
}

/// What every page has in common.
struct Finished<'a> {
    told: &'a Told<'a>,
    paper: Paper,
    ratio: f64,
    time: &'a str,
    style: String,
    about: String,
    count: usize,
}

impl Finished<'_> {
    fn page(&self, index: usize, page: Page) -> String {
        let mut content = page.content;
        if index > 0 {
            content.append(self.running_head(page.has_wall));
        }
        content.append(self.foot(index, page.has_wall));
        let size = (self.paper.width(), self.paper.height());
        let name = title(&self.told.plan.name);
        paper(size, (name, &self.about), &self.style, content).to_string()
    }

    /// What a page after the first is of.
    fn running_head(&self, has_wall: bool) -> Element {
        let mut out = group("sheet-head");
        let name = title(&self.told.plan.name);
        let words = match self.time {
            "" => name.to_string(),
            time => format!("{name} · {time}"),
        };
        let whole = self.paper.usable_width();
        let room = whole - if has_wall { SCALE_WIDTH } else { 0.0 };
        for line in first_lines(&words, TEXT, room, 1) {
            out.append(at("sheet-text", MARGIN, MARGIN + 10.0, &line));
        }
        if has_wall {
            scale_bar(
                &mut out,
                self.ratio,
                MARGIN + whole,
                MARGIN,
                self.told.words,
            );
        }
        out
    }

    /// The page's number, and under a wall a bar that is as long as it says where the print is true.
    fn foot(&self, index: usize, has_wall: bool) -> Element {
        let words = self.told.words;
        let mut out = group("sheet-foot");
        let y = self.paper.height() - MARGIN;
        let mut page = words.text(
            "draw-page",
            &[
                ("page", Arg::Count(index as i64 + 1)),
                ("pages", Arg::Count(self.count as i64)),
            ],
        );
        if !self.told.date.is_empty() {
            let date = Arg::Text(self.told.date.into());
            page = format!("{} · {page}", words.text("draw-printed", &[("date", date)]));
        }
        let right = MARGIN + self.paper.usable_width();
        out.append(at("sheet-body end", right, y, &page));
        if has_wall {
            let room = right - width(&page, TEXT) - 20.0;
            true_bar(&mut out, y, room, words);
        }
        out
    }
}

/// A bar over the foot line `y` that is as long as it says where the print is true; its words end before `right`.
fn true_bar(out: &mut Element, y: f64, right: f64, words: &Words) {
    let long = match words.style {
        LengthStyle::Metric => 100.0,
        LengthStyle::FeetInches => 4.0 * 25.4,
    };
    let end = MARGIN + long * PX;
    let mut bar = Pen::default();
    bar.line((MARGIN, y - 8.0).into(), (MARGIN, y).into())
        .line((MARGIN, y - 4.0).into(), (end, y - 4.0).into())
        .line((end, y - 8.0).into(), (end, y).into());
    add(out, path("scale-edge true-bar", &bar));
    let told = words.text("draw-true", &[("length", Arg::Thickness(long))]);
    for line in first_lines(&told, TEXT, right - end - 10.0, 1) {
        out.append(at("sheet-text", end + 10.0, y, &line));
    }
}
