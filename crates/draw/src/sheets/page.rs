//! What every sheet that is handed out is made of: lines of text over its width, boxes to tick, and pages that say whose they are.

use super::flow::Page;
use super::handed::STRONG;
use super::handed::{ASCENT, LINE};
use super::picture::SCALE;
use crate::block::{Block, at, paper, title};
use crate::element::{add, group, path};
use crate::measure::{Face, wrap};
use crate::paper::{MARGIN, Paper};
use crate::pen::Pen;
use crate::style;
use cordonry::plan::Plan;
use cordonry::said::Arg;
use cordonry_words::Words;
use svg::node::Node;
use svg::node::element::Element;

/// Side of a box to tick, and from it to the text: pixels.
const BOX: f64 = 14.0;
pub(super) const INDENT: f64 = 22.0;

/// Lines of text over the whole width.
pub(super) struct Lines {
    pub element: Element,
    /// Where the next line begins.
    pub y: f64,
    width: f64,
}

/// Most lines of a title.
const TITLE_LINES: usize = 3;

/// The first lines of a text, the last of them with a sign that it goes on: a name may be as long as anything.
fn first_lines(content: &str, face: Face, width: f64, most: usize) -> Vec<String> {
    let mut lines = wrap(content, face, width);
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            last.pop();
            last.push('…');
        }
    }
    lines
}

impl Lines {
    pub fn new(paper: Paper) -> Self {
        Self {
            element: group("crew-head"),
            y: 0.0,
            width: paper.usable_width(),
        }
    }

    pub fn titled(&mut self, content: &str) {
        let face = Face {
            size: 24.0,
            strong: true,
        };
        let lines = first_lines(content, face, self.width, TITLE_LINES);
        for line in lines {
            self.y += 28.0;
            self.element
                .append(at("crew-title", MARGIN, self.y - 4.0, &line));
        }
        self.y += 4.0;
    }

    pub fn text(&mut self, content: &str, face: Face) {
        let class = if face.strong {
            "crew-strong"
        } else {
            "crew-body"
        };
        for line in wrap(content, face, self.width) {
            self.element
                .append(at(class, MARGIN, self.y + ASCENT, &line));
            self.y += LINE;
        }
        self.y += 3.0;
    }

    pub fn block(self) -> Block {
        Block {
            element: self.element,
            height: self.y + 6.0,
        }
    }
}

/// A line that stands over columns, under a rule.
pub(super) fn over(content: &str, paper: Paper) -> Block {
    let mut element = group("crew-over");
    let mut rule = Pen::default();
    rule.line(
        (MARGIN, 4.0).into(),
        (MARGIN + paper.usable_width(), 4.0).into(),
    );
    add(&mut element, path("crew-line", &rule));
    element.append(at("crew-strong", MARGIN, 22.0, content));
    Block {
        element,
        height: 32.0,
    }
}

/// A box to tick.
pub(super) fn tick(out: &mut Element, x: f64, y: f64) {
    let mut pen = Pen::default();
    pen.rect(x, y + ASCENT - BOX + 2.0, x + BOX, y + ASCENT + 2.0);
    add(out, path("tick-box", &pen));
}

/// The pages of a sheet of that name, as it stands over all but the first.
pub(super) fn finished(
    of: (&Plan, &Words),
    name: &str,
    pages: Vec<Page>,
    on: Paper,
) -> Vec<String> {
    finished_at(SCALE, of, name, pages, on)
}

/// The same, with drawings of the wall at so many millimetres in a pixel.
pub(super) fn finished_at(
    px: f64,
    (plan, words): (&Plan, &Words),
    name: &str,
    pages: Vec<Page>,
    on: Paper,
) -> Vec<String> {
    let count = pages.len();
    let row = title(&plan.name);
    let style = style::sheets_of_crew(px);
    let one = |(i, page): (usize, Page)| {
        let mut content = page.content;
        if i > 0 {
            let head = format!("{name} · {row}");
            let head = first_lines(&head, STRONG, on.usable_width(), 1);
            content.append(at("crew-strong", MARGIN, MARGIN + 12.0, &head.concat()));
        }
        let y = on.height() - MARGIN;
        let args = [
            ("page", Arg::Count(i as i64 + 1)),
            ("pages", Arg::Count(count as i64)),
        ];
        let right = MARGIN + on.usable_width();
        content.append(at(
            "sheet-body end",
            right,
            y,
            &words.text("draw-page", &args),
        ));
        super::true_bar(&mut content, y, right - 120.0, words);
        let size = (on.width(), on.height());
        paper(size, (row, name), &style, content).to_string()
    };
    pages.into_iter().enumerate().map(one).collect()
}
