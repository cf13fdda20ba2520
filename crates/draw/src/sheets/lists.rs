//! What is told of a row on paper, as items of columns: notes, work to tick off, findings, figures.

use super::Told;
use super::flow::Item;
use crate::block::{Block, LINE, at};
use crate::element::{add, group, path};
use crate::figures::FigureTable;
use crate::key::is_done;
use crate::marks::mark_line;
use crate::measure::{Face, STRONG, TEXT, wrap};
use crate::pen::Pen;
use crate::worklist::Piece;
use cordonry::arrange::{Arrange, arrange_numbers};
use cordonry::check::{Finding, Severity};
use cordonry::pose::PosedRow;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// Height of the letters over their base line, pixels.
const ASCENT: f64 = 12.0;
/// Room under an item, pixels.
const UNDER: f64 = 5.0;
/// Most lines of an item: a longer text goes on in the next, so that none is higher than a page.
const MOST_LINES: usize = 8;
/// Side of a box to tick, and from it to the text: pixels.
const BOX: f64 = 11.0;
const INDENT: f64 = 20.0;
/// From how many findings of one matter on only their places are told.
pub(super) const TOGETHER: usize = 4;
/// Of how many findings at most the places are told; of more, on which trees they are, or how many places more there are.
const MOST_PLACES: usize = 12;

/// A text as items of at most so many pixels, `sign` standing before its first line.
fn text_items(
    content: &str,
    (class, face): (&str, Face),
    (indent, width): (f64, f64),
    sign: Option<Element>,
) -> Vec<Item> {
    let lines = wrap(content, face, width - indent);
    let mut sign = sign;
    let count = lines.chunks(MOST_LINES).count();
    lines
        .chunks(MOST_LINES)
        .enumerate()
        .map(|(n, lines)| {
            let mut element = group("sheet-item");
            add(&mut element, sign.take());
            let mut y = ASCENT;
            for line in lines {
                element.append(at(class, indent, y, line));
                y += LINE;
            }
            let under = if n + 1 == count { UNDER } else { 0.0 };
            Item {
                block: Block {
                    element,
                    height: y - ASCENT + under,
                },
                with_next: false,
            }
        })
        .collect()
}

/// A heading within a column.
fn heading(content: &str, width: f64, sign: Option<Element>) -> Vec<Item> {
    let indent = if sign.is_some() { INDENT } else { 0.0 };
    let mut items = text_items(
        content,
        ("sheet-text strong", STRONG),
        (indent, width),
        sign,
    );
    for item in &mut items {
        item.with_next = true;
    }
    items
}

/// Plain lines of text.
pub fn lines(content: &str, width: f64) -> Vec<Item> {
    text_items(content, ("sheet-body", TEXT), (0.0, width), None)
}

/// The plan's note, where its head could not hold all of it, the notes that are pinned on the wall, and what was noted
/// of trees and their shoots, from one end of the row to the other; shoots have the names by which the crew finds them.
pub fn notes(told: &Told<'_>, whole_note: bool, width: f64) -> Vec<Item> {
    let mut out = Vec::new();
    if whole_note {
        out.extend(lines(&told.plan.note, width));
    }
    for (i, mark) in told.plan.marks.iter().enumerate() {
        let number = at("sheet-text strong", 0.0, ASCENT, &(i + 1).to_string());
        out.extend(text_items(
            &mark_line(mark, told.row, told.words),
            ("sheet-body", TEXT),
            (INDENT * 1.5, width),
            Some(number),
        ));
    }
    let noted = noted(told.row, told.words).into_iter();
    out.extend(noted.flat_map(|note| lines(&note, width)));
    out
}

/// What was noted of trees and their shoots, each behind the name by which the crew finds it, from one end of the row to the other.
pub fn noted(row: &PosedRow, words: &Words) -> Vec<String> {
    let mut out = Vec::new();
    for posed in row.posed() {
        let tree = posed.tree();
        let of_tree = [(None, &tree.note)].into_iter();
        let of_shoots = tree.shoots.iter().map(|s| (Some(s.id), &s.note));
        for (shoot, note) in of_tree.chain(of_shoots) {
            if !note.trim().is_empty() {
                out.push(format!("{}: {note}", words.part(row, tree.id, shoot)));
            }
        }
    }
    out
}

/// Every piece of work, each with a box to tick: what belongs to no tree first, then tree by tree from one end of the row to
/// the other, and along each tree.
pub fn work(told: &Told<'_>, width: f64) -> Vec<Item> {
    let (row, words) = (told.worked, told.words);
    let of = |work: &Work| {
        let piece = Piece::of(work, row, words);
        let foot = piece
            .tree
            .map(|t| row.of_tree(t).map(|p| p.tree().foot.f()));
        let done = told
            .time
            .is_some_and(|t| is_done(told.field, t.moment, work));
        ((foot, piece.tree, piece.x), (piece, done))
    };
    let mut pieces: Vec<_> = told.work.iter().map(of).collect();
    let order = |a: Option<f64>, b: Option<f64>| match (a, b) {
        (Some(a), Some(b)) => a.total_cmp(&b),
        (a, b) => a.is_some().cmp(&b.is_some()),
    };
    pieces.arrange_by(|((foot, tree, x), _), ((other, than, y), _)| {
        let tree = (foot.is_some().cmp(&other.is_some()))
            .then(order(foot.flatten(), other.flatten()))
            .then(tree.cmp(than));
        tree.then(order(*x, *y))
    });
    let mut out = Vec::new();
    let mut last = None;
    for ((foot, tree, _), (piece, done)) in &pieces {
        if let Some(tree) = tree.filter(|_| *tree != last) {
            // Its shoots stand under its number, bay and place.
            let at = foot.flatten().map_or(Arg::Text("–".into()), Arg::Length);
            let part = Arg::from(row.in_bay(tree, None));
            let args = [("part", part), ("x", at)];
            out.extend(heading(&words.text("draw-of-tree", &args), width, None));
        }
        last = *tree;
        let part = piece.name.map(|n| words.say(&n.on_tree()));
        let mut pen = Pen::default();
        pen.rect(0.5, ASCENT - BOX + 1.0, BOX + 0.5, ASCENT + 1.0);
        let mut class = "sheet-body";
        if *done {
            // Ticked in the row.
            class = "sheet-text";
            pen.move_to(Point::new(3.0, ASCENT - 4.5))
                .line_to(Point::new(5.5, ASCENT - 1.5))
                .line_to(Point::new(10.0, ASCENT - 8.0));
        }
        out.extend(text_items(
            &piece.line(part, words),
            (class, TEXT),
            (INDENT, width),
            path("tick-box", &pen),
        ));
    }
    out
}

/// The matters that are open, the gravest first: what each comes to, then its places, or each of its findings where they are
/// few.
pub fn matters(told: &Told<'_>, width: f64) -> Vec<Item> {
    let words = told.words;
    let mut out = Vec::new();
    let text = |text: &str, strong: bool, sign: Option<Element>| {
        let style = match strong {
            true => ("sheet-body", TEXT),
            false => ("sheet-text", TEXT),
        };
        text_items(text, style, (INDENT, width), sign)
    };
    let mut last = None;
    for matter in told.matters.iter().filter(|m| m.left.is_none()) {
        let severity = matter.severity;
        if last != Some(severity) {
            last = Some(severity);
            out.extend(heading(
                &words.plain(severity.word()),
                width,
                mark(severity),
            ));
        }
        let said = words.matter(matter, told.findings);
        out.extend(text(&said, true, mark(severity)));
        let own = matter.others().iter().filter_map(|i| told.findings.get(*i));
        let own: Vec<&Finding> = own.copied().collect();
        if own.is_empty() {
            continue;
        }
        if own.len() < TOGETHER {
            for finding in own {
                out.extend(text(&words.finding(finding), false, None));
            }
        } else {
            out.extend(text(&told_places(&own, words), false, None));
        }
    }
    out
}

/// Whether each finding is of one tree, and each of another.
fn is_tree_by_tree(own: &[&Finding]) -> bool {
    let tree = |f: &&Finding| {
        let first = f.subjects.first()?.tree;
        f.subjects
            .iter()
            .all(|p| p.tree == first)
            .then_some(first.0)
    };
    let Some(mut all) = own.iter().map(tree).collect::<Option<Vec<u32>>>() else {
        return false;
    };
    all.arrange();
    all.dedup();
    all.len() == own.len()
}

/// Where many findings are, in a sentence: by their trees where each is of another, or where there are many; what is no tree's by its
/// places, however many they are.
pub(super) fn told_places(own: &[&Finding], words: &Words) -> String {
    let of_trees = own.iter().all(|f| !f.subjects.is_empty());
    if of_trees && (own.len() > MOST_PLACES || is_tree_by_tree(own)) {
        return words.text("draw-on-trees", &[("trees", Arg::Text(trees(own)))]);
    }
    let (places, more) = places(own, words);
    let args = [("places", Arg::Text(places)), ("more", Arg::Count(more))];
    words.text("draw-places", &args)
}

/// What is left for this year, each with its reason.
pub fn left(told: &Told<'_>, width: f64) -> Vec<Item> {
    let mut out = Vec::new();
    for matter in told.matters {
        let Some(left) = matter.left.and_then(|n| told.plan.left.get(n)) else {
            continue;
        };
        let said = told.words.matter(matter, told.findings);
        let all = text_items(
            &said,
            ("sheet-body", TEXT),
            (INDENT, width),
            mark(matter.severity),
        );
        out.extend(all.into_iter().map(|item| Item {
            with_next: true,
            ..item
        }));
        out.extend(text_items(
            &left.reason,
            ("sheet-text", TEXT),
            (INDENT, width),
            None,
        ));
    }
    out
}

/// Where findings are along the row, and of how many places more that is not told.
fn places(findings: &[&Finding], words: &Words) -> (String, i64) {
    let mut places: Vec<f64> = findings.iter().map(|f| f.x).collect();
    arrange_numbers(&mut places);
    let mut shown: Vec<String> = places
        .into_iter()
        .map(|x| words.text("value", &[("value", Arg::Length(x))]))
        .collect();
    shown.dedup();
    let more = shown.len().saturating_sub(MOST_PLACES);
    shown.truncate(MOST_PLACES);
    (shown.join(", "), more as i64)
}

/// On which trees findings are, in the order of their numbers; three and more that follow each other as the first and last.
fn trees(findings: &[&Finding]) -> String {
    let mut all: Vec<u32> = findings
        .iter()
        .flat_map(|f| f.subjects.iter().map(|part| part.tree.0))
        .collect();
    all.arrange();
    all.dedup();
    let runs = all.chunk_by(|a, b| a + 1 == *b);
    let shown: Vec<String> = runs
        .flat_map(|run| match run {
            [first, _, .., last] => vec![format!("{first}–{last}")],
            few => few.iter().map(u32::to_string).collect(),
        })
        .collect();
    shown.join(", ")
}

/// How urgent a finding is, as a shape of its own.
pub(super) fn mark(severity: Severity) -> Option<Element> {
    let p = Point::new;
    let mut pen = Pen::default();
    let class = match severity {
        Severity::Now => {
            pen.move_to(p(1.0, 11.0))
                .line_to(p(6.0, 2.0))
                .line_to(p(11.0, 11.0))
                .close();
            "severity severity-now"
        }
        Severity::Soon => {
            pen.move_to(p(1.0, 7.0))
                .line_to(p(6.0, 2.0))
                .line_to(p(11.0, 7.0))
                .line_to(p(6.0, 12.0))
                .close();
            "severity"
        }
        Severity::Note => {
            // A circle of four curves.
            let (c, r, k) = (p(6.0, 7.0), 4.0, 4.0 * 0.5523);
            pen.move_to(p(c.x + r, c.y));
            for (a, b) in [
                ((1.0, 0.0), (0.0, 1.0)),
                ((0.0, 1.0), (-1.0, 0.0)),
                ((-1.0, 0.0), (0.0, -1.0)),
                ((0.0, -1.0), (1.0, 0.0)),
            ] {
                let on = |(x, y): (f64, f64)| p(c.x + r * x, c.y + r * y);
                let (from, to) = (on(a), on(b));
                pen.curve_to(
                    p(from.x + k * b.0, from.y + k * b.1),
                    p(to.x + k * a.0, to.y + k * a.1),
                    to,
                );
            }
            pen.close();
            "severity"
        }
    };
    path(class, &pen)
}

/// Most height of a table that is kept in one column, pixels.
const WHOLE_TABLE: f64 = 500.0;

/// A table of figures, each with what is asked of it; in one piece, unless it is uncommonly long.
pub fn figures(table: &FigureTable, width: f64, words: &Words) -> Vec<Item> {
    let items = figure_items(table, width, words);
    let height: f64 = items.iter().map(|i| i.block.height).sum();
    if height > WHOLE_TABLE {
        return items;
    }
    let mut element = group("sheet-table");
    let mut y = 0.0;
    for item in &items {
        element.append(item.block.placed(Point::new(0.0, y)));
        y += item.block.height;
    }
    vec![Item {
        block: Block {
            element,
            height: y + LINE,
        },
        with_next: false,
    }]
}

fn figure_items(table: &FigureTable, width: f64, words: &Words) -> Vec<Item> {
    // Name, value and what is asked stand in three columns.
    let (value_at, asked_at) = (width * 0.42, width * 0.62);
    let gap = 10.0;
    let mut out = heading(&table.title, width, None);
    for line in &table.lines {
        let cells = [
            (
                "sheet-body",
                TEXT,
                0.0,
                value_at - gap,
                words.plain(line.key),
            ),
            (
                "sheet-text strong",
                STRONG,
                value_at,
                asked_at - gap,
                line.value.clone(),
            ),
            ("sheet-text", TEXT, asked_at, width, line.asked.clone()),
        ];
        let mut element = group("sheet-item");
        let mut lines = 1;
        for (class, face, from, to, content) in cells {
            let wrapped = wrap(&content, face, to - from);
            lines = lines.max(wrapped.len());
            for (i, text) in wrapped.iter().enumerate() {
                element.append(at(class, from, ASCENT + LINE * i as f64, text));
            }
        }
        if line.off {
            let mut place = group("sheet-off");
            place.assign(
                "transform",
                crate::pen::translate(Point::new(value_at - INDENT + 3.0, 0.0)),
            );
            add(&mut place, mark(Severity::Now));
            element.append(place);
        }
        out.push(Item {
            block: Block {
                element,
                height: LINE * lines as f64 + UNDER,
            },
            with_next: false,
        });
    }
    out.extend(text_items(
        &table.assumed,
        ("sheet-text", TEXT),
        (0.0, width),
        None,
    ));
    out
}
