//! What a consultant hands to a client: the row as found and as advised, what was found, what is advised, why and by when, what is left,
//! the marks, and every change by tree.

#[cfg(test)]
#[path = "report_tests.rs"]
mod tests;

use super::SCALE_WIDTH;
use super::flow::{Flow, Item};
use super::handed::{ASCENT, BODY, Handed, LINE, STRONG};
use super::lists::{TOGETHER, told_places};
use super::page::{Lines, finished_at, over};
use crate::block::{Block, at, scale_bar, summary, title};
use crate::element::{add, group};
use crate::marks::mark_line;
use crate::measure::{Face, wrap};
use crate::paper::{MARGIN, Paper};
use crate::strip::{Drawing, Room, Strips};
use crate::worklist::{Piece, caution, cautions};
use cordonry::advise::{Brought, Gain};
use cordonry::arrange::Gather;
use cordonry::check::{Finding, Matter};
use cordonry::cover::cover;
use cordonry::crew::Pass;
use cordonry::plan::{Mark, Moment, Plan, Replayed};
use cordonry::report::{Changes, OnTree, Outcome, Report};
use cordonry::row::Window;
use cordonry::said::Arg;
use cordonry::sorted::Set;
use cordonry::work::Work;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// What a report is about, and what is filled in.
#[derive(Clone, Copy)]
pub struct ClientReport<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The scheme that is advised, by its place.
    pub scheme: usize,
    /// What is told of its leaf.
    pub report: &'a Report,
    /// Every change by tree.
    pub changes: &'a Changes,
    /// What the leaf's work brings over the coming leaves; `None` where that was not asked.
    pub gain: Option<&'a Gain>,
    /// What the row brings without each of its passes, in their order; empty where that was not asked.
    pub but: &'a [Brought],
    /// The block, the date and who advises; what is empty has a line to be written on.
    pub filled: [&'a str; 3],
    /// Language and units.
    pub words: &'a Words,
}

/// Most lines that are kept together.
const MOST_LINES: usize = 8;
/// From a sign or number to its text, and under an item: pixels.
const INDENT: f64 = 26.0;
const UNDER: f64 = 6.0;
/// What is written on by hand.
const BLANK: &str = "______________________";

impl ClientReport<'_> {
    /// The report as SVG elements, one a page, each as large as the paper where it is printed at 100 %. Nothing is left out for want of
    /// room.
    pub fn sheets(&self, paper: Paper) -> Vec<String> {
        let words = self.words;
        let mut flow = Flow::new(paper);
        flow.wide(&self.head(paper), false);
        let px = self.pictures(&mut flow, paper);
        let column = Flow::column(paper);
        let section = |flow: &mut Flow, name: String, items: Vec<Item>| {
            flow.columns(&over(&name, paper), &items);
        };
        let count = |n: usize| [("count", Arg::Count(n as i64))];
        let open = self.report.matters.iter().filter(|m| m.left.is_none());
        let name = words.text("report-found", &count(open.count()));
        section(&mut flow, name, self.matters(column));
        let name = words.plain("report-advised");
        section(&mut flow, name, self.advised(column));
        let left = self.left(column);
        let name = words.text("report-left", &count(left.len()));
        let left = match left.is_empty() {
            true => self.plain("report-left-none", column),
            false => left.into_iter().flatten().collect(),
        };
        section(&mut flow, name, left);
        let name = words.text("report-marks", &count(self.plan.marks.len()));
        section(&mut flow, name, self.marks(column));
        let noted = super::lists::noted(&self.report.found.row, words);
        if !noted.is_empty() {
            let told = noted.iter();
            let told = told.flat_map(|note| para(note, BODY, (INDENT, column), None));
            section(&mut flow, words.plain("report-noted"), told.collect());
        }
        let name = words.text("report-changes", &count(self.changes.count()));
        section(&mut flow, name, self.by_tree(column));
        let name = words.plain("report-care");
        section(&mut flow, name, self.care(column));
        let name = words.plain("report-do");
        finished_at(px, (self.plan, words), &name, flow.pages(), paper)
    }

    /// Whose report it is of what, with lines for what is not filled in.
    fn head(&self, paper: Paper) -> Block {
        let words = self.words;
        let found = &self.report.found;
        let mut lines = Lines::new(paper);
        let row = [("row", Arg::Text(title(&self.plan.name).into()))];
        lines.titled(&words.text("report-title", &row));
        let [block, date, by] = self.filled.map(|text| match text.trim() {
            "" => Arg::Text(BLANK.into()),
            text => Arg::Text(text.into()),
        });
        let args = [("block", block), ("date", date), ("by", by)];
        lines.text(&words.text("report-fields", &args), STRONG);
        let of_row = summary(&found.row, &cover(&found.row, &found.targets), words);
        let scheme = self.plan.schemes.get(self.scheme);
        let scheme = scheme.map_or_else(String::new, |s| s.name.clone());
        let args = [("row", Arg::Text(of_row)), ("scheme", Arg::Text(scheme))];
        lines.text(&words.text("report-of", &args), BODY);
        if !self.plan.note.trim().is_empty() {
            lines.text(&self.plan.note, BODY);
        }
        lines.block()
    }

    /// The wall as it was found and as it is advised, to one scale; how many millimetres of it are a pixel.
    fn pictures(&self, flow: &mut Flow, paper: Paper) -> f64 {
        let words = self.words;
        let report = self.report;
        let room = Room {
            width: paper.usable_width(),
            height: paper.usable_height() / 2.0,
        };
        let mut found = self.wall(&report.found, room);
        let mut advised = self.wall(&report.advised, room);
        found.alike(&mut advised, room);
        let leaf = [("leaf", Arg::Count(report.leaf.into()))];
        let when = [("when", Arg::Text(self.when(report.advised.moment)))];
        let names = [
            words.text("report-picture-found", &leaf),
            words.text("report-picture-advised", &when),
        ];
        let shown = if report.season.passes.is_empty() {
            1
        } else {
            2
        };
        for (strips, name) in [&found, &advised].into_iter().zip(&names).take(shown) {
            let head = pictured(name, strips.ratio, paper, words);
            for (i, strip) in strips.blocks().enumerate() {
                // The name is not parted from the first of its strips.
                match i {
                    0 => flow.wide(&joined(&head, &strip), true),
                    _ => flow.wide(&strip, true),
                }
            }
        }
        found.px()
    }

    fn wall<'s>(&'s self, at: &'s Replayed, room: Room) -> Strips<'s> {
        let drawing = Drawing {
            plan: self.plan,
            row: &at.row,
            words: self.words,
            foliage: false,
            work: &[],
            moment: at.moment,
            field: None,
            lone: None,
        };
        Strips::new(drawing, cover(&at.row, &at.targets), room)
    }

    fn when(&self, moment: Moment) -> String {
        when(moment, self.words)
    }

    /// One sentence in place of what is not there.
    fn plain(&self, key: &str, width: f64) -> Vec<Item> {
        para(&self.words.plain(key), BODY, (0.0, width), None)
    }

    /// The matters that are open, the gravest and largest first: what each comes to, where, and what becomes of it.
    fn matters(&self, width: f64) -> Vec<Item> {
        let (words, report) = (self.words, self.report);
        let findings: Vec<&Finding> = report.findings.iter().collect();
        let mut out = Vec::new();
        for (matter, outcome) in report.matters.iter().zip(&report.outcomes) {
            if matter.left.is_some() {
                continue;
            }
            let severity = matter.severity;
            let said = words.found_matter(matter, &findings);
            let urgent = words.plain(severity.word());
            let args = [("urgent", Arg::Text(urgent)), ("matter", Arg::Text(said))];
            let said = words.text("report-matter", &args);
            let mut all = para(&said, STRONG, (INDENT, width), super::lists::mark(severity));
            let places = self.places(matter, &findings);
            let outcome = self.outcome(*outcome);
            let told = places.into_iter().chain([outcome]);
            all.extend(told.flat_map(|text| para(&text, BODY, (INDENT, width), None)));
            keep(&mut all);
            out.extend(all);
        }
        match out.is_empty() {
            true => self.plain("report-found-none", width),
            false => out,
        }
    }

    /// Where a matter is: each of its findings where they are few, else their trees or places.
    fn places(&self, matter: &Matter, findings: &[&Finding]) -> Vec<String> {
        let own = matter.others().iter().filter_map(|i| findings.get(*i));
        let own: Vec<&Finding> = own.copied().collect();
        match own.len() {
            0 => Vec::new(),
            few if few < TOGETHER => own.iter().map(|f| self.words.finding(f)).collect(),
            _ => vec![told_places(&own, self.words)],
        }
    }

    fn outcome(&self, outcome: Outcome) -> String {
        let (how, moment) = match outcome {
            Outcome::Settled(moment) => ("settled", Some(moment)),
            Outcome::Less(moment) => ("less", Some(moment)),
            Outcome::UnderWay(moment) => ("way", Some(moment)),
            Outcome::Open => ("open", None),
        };
        let args = [
            ("how", Arg::Text(how.into())),
            (
                "when",
                Arg::Text(moment.map(|m| self.when(m)).unwrap_or_default()),
            ),
        ];
        self.words.text("report-outcome", &args)
    }

    /// The passes of the leaf's work: what, by when, how much, with what, why; then what all of it brings.
    fn advised(&self, width: f64) -> Vec<Item> {
        let (words, report) = (self.words, self.report);
        let season = &report.season;
        let leaf = [("leaf", Arg::Count(report.leaf.into()))];
        if season.passes.is_empty() && season.void.is_empty() {
            return para(&words.text("report-none", &leaf), BODY, (0.0, width), None);
        }
        let count = |n: usize| Arg::Count(n as i64);
        let scheme = self.plan.schemes.get(self.scheme);
        let scheme = scheme.map_or_else(String::new, |s| s.name.clone());
        let args = [
            ("scheme", Arg::Text(scheme)),
            ("passes", count(season.passes.len())),
            ("pieces", count(season.count())),
            ("minutes", Arg::Number(season.minutes().ceil(), 0)),
        ];
        let mut out = para(&words.text("report-sum", &args), BODY, (0.0, width), None);
        for handed in Handed::all(self.plan, season, words) {
            let pass = handed.pass;
            let args = [
                ("job", Arg::Text(handed.name())),
                ("when", Arg::Text(self.when(pass.moment))),
            ];
            let name = words.text("report-pass", &args);
            let counts = words.text("hand-count", &handed.counts());
            let mut told = vec![format!("{counts}. {}", handed.takes())];
            if pass.stands {
                told.push(words.plain("work-stands"));
            }
            let why = why(pass, words);
            told.push(words.text("report-why", &[("why", Arg::Text(why.join(" ")))]));
            let but = self.but.get(handed.number.0 - 1).zip(self.gain);
            told.extend(but.map(|(but, all)| lacks(but, &all.after, words)));
            let mut all = para(&name, STRONG, (0.0, width), None);
            all.extend(
                told.iter()
                    .flat_map(|text| para(text, BODY, (INDENT, width), None)),
            );
            keep(&mut all);
            out.extend(all);
        }
        if !season.void.is_empty() {
            let void = words.text("hand-void", &[("count", count(season.void.len()))]);
            out.extend(para(&void, STRONG, (0.0, width), None));
            let each = season.void.iter().map(|(_, work)| words.work(work));
            out.extend(each.flat_map(|text| para(&text, BODY, (INDENT, width), None)));
        }
        if let Some(gain) = self.gain {
            out.extend(para(&brings(gain, words), BODY, (0.0, width), None));
        }
        out
    }

    /// What is left for this year, each with its reason.
    fn left(&self, width: f64) -> Vec<Vec<Item>> {
        let (words, report) = (self.words, self.report);
        let findings: Vec<&Finding> = report.findings.iter().collect();
        let one = |matter: &Matter| {
            let left = self.plan.left.get(matter.left?)?;
            let said = words.found_matter(matter, &findings);
            let sign = super::lists::mark(matter.severity);
            let mut all = para(&said, STRONG, (INDENT, width), sign);
            let reason = [("reason", Arg::Text(left.reason.clone()))];
            let reason = words.text("report-reason", &reason);
            all.extend(para(&reason, BODY, (INDENT, width), None));
            keep(&mut all);
            Some(all)
        };
        report.matters.iter().filter_map(one).collect()
    }

    /// The marks on the wall, by the numbers that they have there.
    fn marks(&self, width: f64) -> Vec<Item> {
        let marks = &self.plan.marks;
        if marks.is_empty() {
            return self.plain("report-marks-none", width);
        }
        let one = |(n, mark): (usize, &Mark)| {
            let number = at("crew-strong", 0.0, ASCENT, &(n + 1).to_string());
            let line = mark_line(mark, &self.report.found.row, self.words);
            para(&line, BODY, (INDENT * 1.4, width), Some(number))
        };
        marks.iter().enumerate().flat_map(one).collect()
    }

    /// Every change of the plan, tree by tree.
    fn by_tree(&self, width: f64) -> Vec<Item> {
        if self.changes.trees.is_empty() {
            return self.plain("report-changes-none", width);
        }
        let one = |own: &OnTree| {
            let (name, lines) = changes_on(self.changes, own, self.words);
            let mut all = para(&name, STRONG, (0.0, width), None);
            let lines = lines.iter();
            all.extend(lines.flat_map(|line| para(line, BODY, (INDENT, width), None)));
            keep(&mut all);
            all
        };
        self.changes.trees.iter().flat_map(one).collect()
    }

    /// What to take care of in the work, each once, and what this report is not.
    fn care(&self, width: f64) -> Vec<Item> {
        let words = self.words;
        let passes = &self.report.season.passes;
        let work: Vec<Work> = passes.iter().flat_map(Pass::work).cloned().collect();
        let of_passes = passes.iter().flat_map(Pass::cautions);
        let mut care: Vec<&str> = Vec::new();
        for key in of_passes.chain(cautions(&work)) {
            if !care.contains(&key) {
                care.push(key);
            }
        }
        let care = care.into_iter().map(|key| caution(key, words));
        let told = care.map(|text| format!("! {text}"));
        let defers = words.plain("report-defers");
        let told = told.chain([defers, words.plain("report-model")]);
        told.flat_map(|text| para(&text, BODY, (0.0, width), None))
            .collect()
    }
}

/// A time as it is said of work that is to be done then.
fn when(moment: Moment, words: &Words) -> String {
    timed("report-when", moment, words)
}

fn timed(key: &str, moment: Moment, words: &Words) -> String {
    let window = match moment.window {
        Window::Dormant => "dormant",
        Window::BudSwell => "bud_swell",
        Window::EarlySummer => "early_summer",
        Window::AfterHarvest => "after_harvest",
    };
    let args = [
        ("window", Arg::Text(window.into())),
        ("leaf", Arg::Count(moment.leaf.into())),
    ];
    words.text(key, &args)
}

/// What is changed on a tree: its name, and each change with when it is made.
pub fn changes_on(changes: &Changes, own: &OnTree, words: &Words) -> (String, Vec<String>) {
    let first = own.work.first().and_then(|(at, _)| changes.times.get(*at));
    let name = match (own.tree, first) {
        (Some(tree), Some(first)) => {
            let row = &first.row;
            let foot = row.of_tree(tree).map(|p| p.tree().foot.f());
            let at = foot.map_or(Arg::Text("–".into()), Arg::Length);
            let args = [("part", Arg::from(row.in_bay(tree, None))), ("x", at)];
            words.text("draw-of-tree", &args)
        }
        _ => words.plain("crew-trellis"),
    };
    let line = |(at, work): &(usize, Work)| {
        let time = changes.times.get(*at)?;
        let piece = Piece::of(work, &time.row, words);
        let part = piece.name.map(|n| words.say(&n.on_tree()));
        let args = [
            ("when", Arg::Text(timed("report-time", time.moment, words))),
            ("work", Arg::Text(piece.line(part, words))),
            ("stands", Arg::yes(time.stands)),
        ];
        Some(words.text("report-change", &args))
    };
    (name, own.work.iter().filter_map(line).collect())
}

/// Why the work of a pass is done: a sentence for each kind of work in it.
fn why(pass: &Pass, words: &Words) -> Vec<String> {
    let kinds: Set<&str> = pass.work().map(Work::kind).gathered_set();
    let one = |kind: &&str| {
        // Old wood is laid in winter, for another reason than stock.
        let in_winter = *kind == "lay" && pass.moment.window == Window::Dormant;
        let key = match in_winter || OWN.contains(kind) {
            true => "report-why-kind",
            false => "advice-why-usual",
        };
        words.text(key, &[("kind", Arg::Text((*kind).into()))]) + "."
    };
    kinds.iter().map(one).collect()
}

/// Kinds of work whose reason is told here alone: they are never usual work.
const OWN: [&str; 8] = [
    "plant",
    "remove_tree",
    "replace_tree",
    "stand",
    "move_bud",
    "move_wire",
    "remove_wire",
    "cover_wire",
];

/// What the row brings without a pass, beside what it brings with all.
fn lacks(but: &Brought, with: &Brought, words: &Words) -> String {
    let args = [
        ("before", Arg::Number(but.crop, 1)),
        ("after", Arg::Number(with.crop, 1)),
        ("was", Arg::Share(but.fill)),
        ("filled", Arg::Share(with.fill)),
        ("old", Arg::Count(but.oldest.into())),
        ("age", Arg::Count(with.oldest.into())),
    ];
    // What reads alike is the same.
    let parts = ["report-but-crop", "report-but-fill", "report-but-age"].into_iter();
    let parts = parts.zip(args.chunks(2));
    let parts = parts.filter(|(_, pair)| words.arg(&pair[0].1) != words.arg(&pair[1].1));
    let mut parts: Vec<String> = parts.map(|(key, pair)| words.text(key, pair)).collect();
    if parts.is_empty() {
        parts.push(words.plain("report-but-same"));
    }
    let all = [(
        "parts",
        Arg::Text(parts.join(&words.plain("between-effects"))),
    )];
    let said = words.text("report-but", &all);
    // Who reads that the row bears more without it has to be told that this is known.
    match but.crop > with.crop && words.arg(&args[0].1) != words.arg(&args[1].1) {
        true => said + " " + &words.plain("report-but-costs"),
        false => said,
    }
}

/// What the leaf's work brings over the coming leaves.
fn brings(gain: &Gain, words: &Words) -> String {
    let (was, is) = (gain.before, gain.after);
    let args = [
        ("before", Arg::Number(was.crop, 1)),
        ("after", Arg::Number(is.crop, 1)),
        ("then", Arg::Number(is.coming, 1)),
        ("else", Arg::Number(was.coming, 1)),
        ("low", Arg::Number(gain.crop.0, 1)),
        ("high", Arg::Number(gain.crop.1, 1)),
        ("was", Arg::Share(was.fill)),
        ("filled", Arg::Share(is.fill)),
        ("old", Arg::Count(was.oldest.into())),
        ("age", Arg::Count(is.oldest.into())),
        ("uneven", Arg::Share(was.spacing)),
        ("spacing", Arg::Share(is.spacing)),
        ("dark", Arg::Share(was.light)),
        ("light", Arg::Share(is.light)),
    ];
    words.text("report-brings", &args)
}

/// A text as items of at most so many lines, a sign or number standing before its first.
fn para(
    content: &str,
    face: Face,
    (indent, width): (f64, f64),
    sign: Option<Element>,
) -> Vec<Item> {
    let class = match face.strong {
        true => "crew-strong",
        false => "crew-body",
    };
    let mut sign = sign;
    let lines = wrap(content, face, width - indent);
    let count = lines.chunks(MOST_LINES).count();
    let one = |(n, lines): (usize, &[String])| {
        let mut element = group("sheet-item");
        add(&mut element, sign.take());
        for (i, line) in lines.iter().enumerate() {
            let y = ASCENT + LINE * i as f64;
            element.append(at(class, indent, y, line));
        }
        let under = if n + 1 == count { UNDER } else { 0.0 };
        Item {
            block: Block {
                element,
                height: LINE * lines.len() as f64 + under,
            },
            with_next: false,
        }
    };
    lines.chunks(MOST_LINES).enumerate().map(one).collect()
}

/// Has some items that belong together stand in one column, or of many the first with the next.
fn keep(items: &mut [Item]) {
    let most = if items.len() <= TOGETHER { TOGETHER } else { 2 };
    let last = items.len().min(most).saturating_sub(1);
    items[..last].iter_mut().for_each(|i| i.with_next = true);
}

/// The name of a picture with its scale.
fn pictured(name: &str, ratio: f64, paper: Paper, words: &Words) -> Block {
    let mut head = over("", paper);
    let right = MARGIN + paper.usable_width();
    let lines = wrap(name, STRONG, paper.usable_width() - SCALE_WIDTH);
    for (i, line) in lines.iter().enumerate() {
        let y = 22.0 + LINE * i as f64;
        head.element.append(at("crew-strong", MARGIN, y, line));
    }
    scale_bar(&mut head.element, ratio, right, 12.0, words);
    head.height += 16.0 + LINE * lines.len().saturating_sub(1) as f64;
    head
}

/// A block with another under it, as one.
fn joined(head: &Block, under: &Block) -> Block {
    let mut element = group("sheet-picture");
    element.append(head.element.clone());
    element.append(under.placed(Point::new(0.0, head.height)));
    Block {
        element,
        height: head.height + under.height,
    }
}
