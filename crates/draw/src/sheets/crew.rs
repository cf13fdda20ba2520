//! The sheets of one pass of the crew: what the job is, how it looks when it is right and when it is wrong, trees to try it on, and every
//! piece of it as a box to tick; and the foreman's sheet, by which paint is put on before the crew comes.

#[cfg(test)]
#[path = "crew_tests.rs"]
mod tests;

use super::flow::{Flow, Item};
use super::handed::{ASCENT, BODY, Handed, LINE, STRONG, cell, found_in, laterals_of, planted_by};
use super::lesson::Tried;
use super::page::{INDENT, Lines, finished, finished_at, over, tick};
use super::picture::SCALE;
use super::planted::{planted_picture, planting_how};
use crate::block::{Block, at, title};
use crate::element::{add, group, path};
use crate::measure::{self, wrap};
use crate::paper::{MARGIN, PX, Paper};
use crate::pen::Pen;
use crate::worklist::caution;
use cordonry::crew::{Job, Pass, Stop};
use cordonry::row::TreeId;
use cordonry::said::Arg;
use cordonry::work::Work;
use svg::node::Node;

/// Most lines of boxes that are kept together.
const MOST_LINES: usize = 8;
/// Pages of boxes after which the answers need none of their own.
const LONG_LIST: usize = 3;
/// The sheets of a pass as SVG elements, one a page, each as large as the paper where it is printed at 100 %. Every piece is a box.
pub fn pass_sheets(handed: &Handed<'_>, paper: Paper) -> Vec<String> {
    let mut flow = Flow::new(paper);
    flow.wide(&head(handed, paper), false);
    let tried = Tried::of(handed, paper);
    let px = tried.as_ref().map_or(SCALE, Tried::px);
    // Who plants is shown how a tree is set.
    let mut planted = handed.pass.work();
    let planted = planted.find_map(|w| planted_by(w, &handed.pass.row));
    if let Some((planted, ..)) = planted {
        flow.wide(
            &planted_picture(handed.plan, planted, handed.words, paper),
            false,
        );
    }
    if let Some(tried) = &tried {
        for block in tried.shown(handed, paper) {
            flow.wide(&block, false);
        }
    }
    let items = items(handed, paper, &boxes);
    let asked_on = flow.count();
    flow.columns(
        &over(&handed.text("crew-list", &handed.counts()), paper),
        &items,
    );
    let answers = tried.map(|t| t.answers(handed, paper)).unwrap_or_default();
    // Overleaf, and not with the boxes that are walked with; behind a long list they stand under its end, far from what is asked.
    if !answers.is_empty() && flow.count() <= asked_on + LONG_LIST {
        flow.turn();
    }
    for block in &answers {
        flow.wide(block, false);
    }
    finished_at(
        px,
        (handed.plan, handed.words),
        &handed.name(),
        flow.pages(),
        paper,
    )
}

/// The foreman's sheets of a pass: who paints walks first, and ticks each tree. None of a pass in which nothing is cut by paint.
pub fn marking_sheets(handed: &Handed<'_>, paper: Paper) -> Vec<String> {
    if !handed.pass.job.by_paint() {
        return Vec::new();
    }
    let mut flow = Flow::new(paper);
    let name = handed.text("crew-marking", &[("job", Arg::Text(handed.name()))]);
    let mut lines = Lines::new(paper);
    lines.titled(&name);
    lines.text(&handed.words.plain("crew-fill-in"), BODY);
    lines.text(&handed.words.plain("crew-marking-how"), BODY);
    flow.wide(&lines.block(), false);
    let items = items(handed, paper, &paint);
    flow.columns(
        &over(&handed.text("crew-list", &handed.counts()), paper),
        &items,
    );
    finished((handed.plan, handed.words), &name, flow.pages(), paper)
}

/// What the pass is: whose, with what, how it is read, what to take care of.
fn head(handed: &Handed<'_>, paper: Paper) -> Block {
    let pass = handed.pass;
    let mut lines = Lines::new(paper);
    lines.titled(&handed.name());
    let row = [("row", Arg::Text(title(&handed.plan.name).into()))];
    lines.text(&handed.text("crew-row", &row), STRONG);
    lines.text(&handed.words.plain("crew-fill-in"), BODY);
    lines.text(&handed.takes(), BODY);
    if let Some(common) = handed.common() {
        lines.text(
            &handed.text("crew-each", &[("work", Arg::Text(common))]),
            STRONG,
        );
    }
    // What is planted and stretched is not counted on a tree.
    let counted = !matches!(pass.job, Job::Plant | Job::Wires);
    if counted {
        lines.text(&handed.words.plain("crew-how"), BODY);
    }
    if let Some(bays) = bays(handed) {
        lines.text(&bays, BODY);
    }
    let measured = match pass.job {
        Job::Stub | Job::CutBack => Some("crew-measured"),
        Job::Laterals => Some("crew-laterals"),
        Job::Tip => Some("crew-cut"),
        Job::Buds | Job::Notch => Some("crew-along"),
        _ => None,
    };
    if let Some(laterals) = laterals_of(handed, pass.work()) {
        lines.text(&laterals, STRONG);
    }
    if let Some(measured) = measured {
        lines.text(&handed.words.plain(measured), STRONG);
    }
    let row = &pass.row;
    let how = match pass.job {
        Job::Buds => Some(("crew-buds", vec![])),
        Job::Notch => Some(("crew-notch", vec![])),
        Job::Tie => {
            let height = Arg::Length(row.trellis.cordon_height().f());
            Some(("crew-tie", vec![("height", height)]))
        }
        Job::Wires => {
            let [from, to] = [row.from, row.to].map(|x| Arg::Length(x.f()));
            Some(("crew-wires", vec![("from", from), ("to", to)]))
        }
        _ => None,
    };
    if let Some((key, args)) = how {
        lines.text(&handed.text(key, &args), STRONG);
    }
    if pass.job == Job::Plant {
        let first = pass.row.trees.first().map_or(0.0, |t| t.foot.f());
        let how = planting_how(handed.plan, first, handed.words);
        lines.text(&how, STRONG);
        lines.text(&handed.words.plain("planting-stock"), BODY);
        let caution = handed.words.plain("caution-planting");
        lines.text(&format!("! {caution}"), BODY);
    }
    if counted {
        lines.text(&handed.words.plain("crew-differs"), STRONG);
    }
    lines.text(&handed.words.plain("crew-not-today"), BODY);
    for key in pass.cautions() {
        lines.text(&format!("! {}", caution(key, handed.words)), BODY);
    }
    if let Some(keep) = stick(pass) {
        let long = keep * PX;
        let mut bar = Pen::default();
        let y = lines.y + 8.0;
        bar.line((MARGIN, y - 6.0).into(), (MARGIN, y + 6.0).into())
            .line((MARGIN, y).into(), (MARGIN + long, y).into())
            .line(
                (MARGIN + long, y - 6.0).into(),
                (MARGIN + long, y + 6.0).into(),
            );
        add(&mut lines.element, path("crew-bar stick", &bar));
        lines.y += 18.0;
        let told = handed.text("crew-stick", &[("length", Arg::Thickness(keep))]);
        lines.text(&told, BODY);
    }
    lines.block()
}

/// How bays are counted, by the first that is walked to; none where no tree stands in one.
fn bays(handed: &Handed<'_>) -> Option<String> {
    let row = &handed.pass.row;
    let of = |stop: &Stop| row.bay(row.of_tree(stop.tree?)?.tree());
    let bay = handed.pass.stops.iter().find_map(of)?.number as i64;
    let args = [("bay", bay), ("next", bay + 1)];
    Some(handed.text("crew-bays", &args.map(|(key, n)| (key, Arg::Count(n)))))
}

/// Length of the stick by which stubs are cut, mm: where all are as long, and it has room on the paper.
fn stick(pass: &Pass) -> Option<f64> {
    let mut lengths = pass.work().map(|w| match w {
        Work::Stub { keep_mm, .. } => Some(keep_mm.f()),
        _ => None,
    });
    let first = lengths.next()??;
    (lengths.all(|l| l == Some(first)) && first <= 180.0).then_some(first)
}

/// Makes the items of one stop.
type OfStop<'a> = dyn Fn(&Handed<'_>, &str, &Stop, f64) -> Vec<Item> + 'a;

fn items(handed: &Handed<'_>, paper: Paper, of: &OfStop<'_>) -> Vec<Item> {
    let column = Flow::column(paper);
    let mut before = None;
    let mut out = Vec::new();
    for stop in &handed.pass.stops {
        let mut name = handed.called(stop);
        if let Some(tree) = stop.tree {
            let posed = handed.pass.row.of_tree(tree);
            if let Some(posed) = posed.filter(|_| handed.pass.job != Job::Plant) {
                let found = Arg::Text(found_in(handed, posed.names()));
                let counted = handed.text("crew-counted", &[("found", found)]);
                name = format!("{name}: {counted}");
            }
            if let Some(missing) = missing(handed, before.replace(tree), tree) {
                name = format!("{name} – {missing}");
            }
        }
        out.extend(of(handed, &name, stop, column));
    }
    out
}

/// The places without a tree between two that are walked to: who counts trees must know of them.
fn missing(handed: &Handed<'_>, from: Option<TreeId>, to: TreeId) -> Option<String> {
    let trees = &handed.pass.row.row().trees;
    let place = |id: TreeId| trees.iter().position(|t| t.id == id);
    let from = from.and_then(place).map_or(0, |at| at + 1);
    let between = trees.get(from..place(to)?)?.iter();
    let lost: Vec<Arg> = between
        .filter(|t| t.is_lost())
        .map(|t| Arg::Count(t.id.0.into()))
        .collect();
    let count = Arg::Count(lost.len() as i64);
    let args = [("count", count), ("trees", Arg::List(lost.clone()))];
    (!lost.is_empty()).then(|| handed.text("crew-missing", &args))
}

/// A tree with a box for each piece, as many beside each other as there is room for.
fn boxes(handed: &Handed<'_>, name: &str, stop: &Stop, width: f64) -> Vec<Item> {
    let cells = stop
        .work
        .iter()
        .map(|w| cell(handed, &handed.pass.row, w, false));
    let cells: Vec<String> = cells.collect();
    let widest = cells.iter().map(|c| measure::width(c, BODY));
    let widest = widest.fold(0.0, f64::max) + INDENT + 10.0;
    let beside = ((width / widest) as usize).clamp(1, 4);
    let step = width / beside as f64;
    let mut out = Vec::new();
    for (n, some) in cells.chunks(beside * MOST_LINES).enumerate() {
        let mut element = group("sheet-item");
        let mut y = 0.0;
        if n == 0 {
            for line in wrap(name, STRONG, width) {
                element.append(at("crew-strong", 0.0, y + ASCENT, &line));
                y += LINE;
            }
        }
        for line in some.chunks(beside) {
            let mut high: f64 = LINE;
            for (i, content) in line.iter().enumerate() {
                let x = step * i as f64;
                tick(&mut element, x, y);
                let lines = wrap(content, BODY, step - INDENT);
                for (k, line) in lines.iter().enumerate() {
                    let down = y + ASCENT + LINE * k as f64;
                    element.append(at("crew-body", x + INDENT, down, line));
                }
                high = high.max(LINE * lines.len() as f64);
            }
            y += high;
        }
        out.push(Item {
            block: Block {
                element,
                height: y + 8.0,
            },
            with_next: false,
        });
    }
    out
}

/// A tree in a line with what is painted on it, and one box.
fn paint(handed: &Handed<'_>, name: &str, stop: &Stop, width: f64) -> Vec<Item> {
    let cells = stop
        .work
        .iter()
        .map(|w| cell(handed, &handed.pass.row, w, true));
    let cells: Vec<String> = cells.collect();
    let args = [
        ("tree", Arg::Text(name.into())),
        ("pieces", Arg::Text(cells.join("; "))),
    ];
    let mut element = group("sheet-item");
    tick(&mut element, 0.0, 0.0);
    let mut y = 0.0;
    for line in wrap(&handed.text("crew-paint", &args), BODY, width - INDENT) {
        element.append(at("crew-body", INDENT, y + ASCENT, &line));
        y += LINE;
    }
    vec![Item {
        block: Block {
            element,
            height: y + 6.0,
        },
        with_next: false,
    }]
}
