//! The row as one file: a drawing to a round scale, in strips under each other.

use crate::block::{
    self, Block, HEAD_GAP, LINE, NOTE_LINES, about, at, paper, scale_bar, summary, title,
};
use crate::element::group;
use crate::key;
use crate::marks::mark_line;
use crate::measure::{TEXT, first_lines};
use crate::paper::{MARGIN, Paper};
use crate::strip::{Drawing, Room, Strips};
use crate::style;
use crate::time::{Time, moment_of, signs_of};
use cordonry::cover::cover;
use cordonry::plan::{Field, Plan};
use cordonry::pose::PosedRow;
use cordonry::row::Row;
use cordonry::work::Work;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;

/// Width of the drawing: that of A4 on its side.
const WIDTH: Paper = Paper::A4;
/// Most lines of a note that is pinned on the wall.
const PIN_LINES: usize = 6;

/// What a drawing shows beside the row itself.
#[derive(Clone, Copy)]
pub struct DocumentOptions<'a> {
    /// Language and units.
    pub words: &'a Words,
    /// Leaves, as a light tone.
    pub foliage: bool,
    /// When the row is as it is shown; `None` for the row as it was found.
    pub time: Option<Time>,
    /// The work of that time. Before it, each piece has its sign on the row.
    pub work: &'a [Work],
    /// What the crew tells of it.
    pub field: Option<&'a Field>,
}

/// The row as a stand-alone SVG file, in metres and English, without work.
pub fn document(plan: &Plan, row: &Row) -> String {
    let words = Words::default();
    document_with(
        plan,
        &PosedRow::of(row, &plan.targets),
        &DocumentOptions {
            words: &words,
            foliage: false,
            work: &[],
            time: None,
            field: None,
        },
    )
}

/// As [`document`], with what `options` ask for.
pub fn document_with(plan: &Plan, row: &PosedRow, options: &DocumentOptions<'_>) -> String {
    let words = options.words;
    let drawing = Drawing {
        plan,
        row,
        words,
        foliage: options.foliage,
        work: signs_of(options.time, options.work),
        moment: moment_of(options.time, row),
        field: options.field,
        lone: None,
    };
    let key = key::block(&drawing.signs(), WIDTH.usable_width(), words);
    let key_height = key.as_ref().map_or(0.0, |k| k.height);
    let head_height = 14.0 + 20.0 + NOTE_LINES as f64 * LINE + HEAD_GAP;
    let cover = cover(row, &plan.targets);
    let summary = summary(row, &cover, words);
    let strips = Strips::new(
        drawing,
        cover,
        Room {
            width: WIDTH.usable_width(),
            height: WIDTH.usable_height() - head_height - key_height,
        },
    );
    let time = options
        .time
        .map(|t| t.sentence(options.work, words))
        .unwrap_or_default();
    let told = format!("{summary}. {time}");
    let blocks = [head(plan, told.trim_end(), strips.ratio, words)]
        .into_iter()
        .chain(key)
        .chain(strips.blocks())
        .chain(notes(plan, row, words));
    let mut sheet = group("sheet");
    let mut y = MARGIN;
    for block in blocks {
        sheet.append(block.placed(Point::new(0.0, y)));
        y += block.height;
    }
    let paper = paper(
        (WIDTH.width(), y + MARGIN),
        (title(&plan.name), &about(&summary, words)),
        &style::fixed(strips.px()),
        sheet,
    );
    block::file(&paper.to_string())
}

/// Title, summary, scale and note.
fn head(plan: &Plan, told: &str, ratio: f64, words: &Words) -> Block {
    let mut element = group("sheet-head");
    let mut y = 14.0;
    element.append(at("sheet-title", MARGIN, y, title(&plan.name)));
    y += 20.0;
    element.append(at("sheet-text", MARGIN, y, told));
    let right = MARGIN + WIDTH.usable_width();
    scale_bar(&mut element, ratio, right, y - 14.0, words);
    for line in first_lines(&plan.note, TEXT, WIDTH.usable_width(), NOTE_LINES) {
        y += LINE;
        element.append(at("sheet-text", MARGIN, y, &line));
    }
    Block {
        element,
        height: y + HEAD_GAP,
    }
}

/// The notes that are pinned on the wall.
fn notes(plan: &Plan, row: &PosedRow, words: &Words) -> Option<Block> {
    if plan.marks.is_empty() {
        return None;
    }
    let mut element = group("sheet-notes");
    let mut y = 14.0;
    element.append(at(
        "sheet-text strong",
        MARGIN,
        y,
        &words.plain("draw-notes"),
    ));
    for (i, mark) in plan.marks.iter().enumerate() {
        let note = format!("{}  {}", i + 1, mark_line(mark, row, words));
        for line in first_lines(&note, TEXT, WIDTH.usable_width(), PIN_LINES) {
            y += LINE;
            element.append(at("sheet-text", MARGIN, y, &line));
        }
    }
    Some(Block {
        element,
        height: y + 20.0,
    })
}
