//! What is ordered for a row, as the page lists it, paper has it and a table holds it; and the sheet by which the trees are planted.

use super::flow::{Flow, Item};
use super::handed::{ASCENT, BODY, LINE, STRONG};
use super::page::{INDENT, Lines, finished, over, tick};
use super::planted::{CLEAR, planted_picture, planting_how, side};
use crate::block::{Block, at, title};
use crate::element::group;
use crate::measure::wrap;
use crate::paper::{MARGIN, Paper};
use cordonry::file::csv;
use cordonry::materials::wire::{BREAKING, SETTING};
use cordonry::materials::{Ask, COIL, Delivered, Item as Priced, Needs, Placed, Prices, Stock};
use cordonry::plan::Plan;
use cordonry::row::{Covering, Planted, Toward};
use cordonry::said::{Arg, Quantity};
use cordonry_words::Words;
use svg::node::Node;

/// An order.
#[derive(Clone, Copy)]
pub struct Order<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// What its row takes.
    pub needs: &'a Needs,
    /// What that was asked by.
    pub ask: &'a Ask,
    /// What has a price.
    pub prices: &'a Prices,
    /// What the prices are in.
    pub currency: &'a str,
    /// Language and units.
    pub words: &'a Words,
}

/// A line of it.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderLine {
    /// What has its price.
    pub item: Priced,
    /// What it is.
    pub name: String,
    /// How much of it: pieces, or metres.
    pub amount: f64,
    /// The same, worded.
    pub told: String,
    /// What it costs, worded; nothing where it has no price.
    pub cost: String,
}

/// Delivered trees, as they are laid out over the places.
#[derive(Clone, Copy)]
pub struct Laid<'a> {
    /// The trees.
    pub trees: &'a [Delivered],
    /// What each place gets.
    pub placed: &'a [Placed],
}

/// Whether a word says of a delivered tree that it is headed.
pub fn is_headed(words: &Words, word: &str) -> bool {
    let word = word.to_lowercase();
    let typed = words.plain("order-headed-typed");
    typed.split(' ').any(|w| w == word)
}

fn count(n: usize) -> Arg {
    Arg::Count(n as i64)
}

fn covered(covering: Covering) -> Arg {
    Arg::Text(
        match covering {
            Covering::Bare => "bare",
            Covering::Plastic => "plastic",
        }
        .into(),
    )
}

impl Order<'_> {
    /// What is ordered, line by line.
    pub fn lines(&self) -> Vec<OrderLine> {
        let (needs, words) = (self.needs, self.words);
        let mut out = Vec::new();
        let mut line = |item: Priced, name: String, amount: f64| {
            let told = match item {
                Priced::BareWire | Priced::CoveredWire => words.length(amount * 1000.0),
                _ => words.arg(&Arg::Number(amount, 0)),
            };
            let cost = self.prices.of(item).map(|price| price * amount);
            out.push(OrderLine {
                item,
                name,
                amount,
                told,
                cost: cost.map_or_else(String::new, |c| words.arg(&Arg::Number(c, 2))),
            });
        };
        let ordered = needs.ordered();
        for of in &ordered {
            let args = [
                ("length", Arg::Length(of.length)),
                ("unheaded", Arg::yes(of.unheaded)),
            ];
            line(
                Priced::Tree,
                words.text("order-trees", &args),
                of.count as f64,
            );
        }
        if let Some(longest) = ordered.first().filter(|_| needs.spares > 0) {
            let args = [("length", Arg::Length(longest.length))];
            let name = words.text("order-spare", &args);
            line(Priced::Tree, name, needs.spares as f64);
        }
        for wire in &needs.wires {
            let args = [
                ("height", Arg::Length(wire.height.f())),
                ("kind", covered(wire.covering)),
                ("new", Arg::yes(wire.is_new)),
            ];
            let name = words.text("order-wire-at", &args);
            line(Priced::wire(wire.covering), name, wire.length / 1000.0);
        }
        let args = [
            ("span", Arg::Length(needs.span)),
            ("assumed", Arg::yes(needs.posts_assumed)),
        ];
        for (item, name) in [
            (Priced::Post, words.text("order-posts", &args)),
            (Priced::Tie, words.plain("order-ties")),
            (Priced::Sleeve, words.plain("order-sleeves")),
        ] {
            line(item, name, item.amount(needs));
        }
        out
    }

    /// What all costs that has a price.
    pub fn sum(&self) -> Option<String> {
        let sum = self.prices.sum(self.needs)?;
        let args = [
            ("cost", Arg::Number(sum, 2)),
            ("currency", Arg::Text(self.currency.into())),
        ];
        Some(self.words.text("order-sum", &args))
    }

    /// What each wire bears: its height, crop on a metre, tension under it, sag.
    pub fn loads(&self) -> Vec<[String; 4]> {
        let words = self.words;
        let one = |w: &cordonry::materials::WireNeed| {
            [
                words.length(w.height.f()),
                words.arg(&Arg::Number(w.crop_per_metre, 1)),
                words.arg(&Arg::Number(w.loaded.tension / 1000.0, 2)),
                words.thickness(w.loaded.sag * 1000.0),
            ]
        };
        self.needs.wires.iter().map(one).collect()
    }

    /// What has to be known of it, in sentences; the cautions apart.
    pub fn notes(&self) -> [String; 3] {
        let (needs, words) = (self.needs, self.words);
        let coil = self.ask.wire.coil(COIL);
        let bare = needs.wire(Covering::Bare, false) / 1000.0;
        let coils = [
            (
                "wire",
                Arg::Field(Quantity::Thickness, self.ask.wire.diameter),
            ),
            ("kg", Arg::Number(COIL, 0)),
            ("coil", Arg::Length(coil * 1000.0)),
            ("coils", count(libm::ceil(bare / coil) as usize)),
        ];
        let load = [
            ("t", Arg::Number(self.ask.crop, 1)),
            ("kg", Arg::Number(needs.crop_per_metre, 1)),
            ("tension", Arg::Number(needs.worst.tension / 1000.0, 2)),
            ("sag", Arg::Thickness(needs.worst.sag * 1000.0)),
            ("setting", Arg::Number(SETTING / 1000.0, 1)),
            ("breaking", Arg::Number(BREAKING / 1000.0, 1)),
        ];
        [
            words.plain("order-what"),
            words.text("order-coils", &coils),
            words.text("order-load", &load),
        ]
    }

    /// Loads on the trellis, and wire under tension.
    pub fn cautions(&self) -> [String; 2] {
        ["caution-trellis", "caution-wire"].map(|key| self.words.plain(key))
    }

    fn name(&self) -> String {
        let row = Arg::Text(title(&self.plan.name).into());
        self.words.text("order-title", &[("row", row)])
    }

    /// The lines as a table: amounts in pieces and metres, with a decimal point.
    pub fn table(&self) -> String {
        let mut out = String::new();
        let head = [
            "item", "what", "amount", "unit", "price", "cost", "currency",
        ];
        csv::put_line(&mut out, ',', &head.map(String::from));
        let number = |n: f64| format!("{}", libm::round(n * 100.0) / 100.0);
        for line in self.lines() {
            let price = self.prices.of(line.item);
            let unit = match line.item {
                Priced::BareWire | Priced::CoveredWire => "m",
                _ => "pieces",
            };
            let cells = [
                line.item.name().into(),
                line.name,
                number(line.amount),
                unit.into(),
                price.map_or(String::new(), number),
                price.map_or(String::new(), |p| number(p * line.amount)),
                price.map_or(String::new(), |_| self.currency.into()),
            ];
            csv::put_line(&mut out, ',', &cells);
        }
        out
    }

    /// The order on paper.
    pub fn sheets(&self, paper: Paper) -> Vec<String> {
        let words = self.words;
        let mut flow = Flow::new(paper);
        let [what, coils, load] = self.notes();
        let mut lines = Lines::new(paper);
        lines.titled(&self.name());
        lines.text(&words.plain("crew-fill-in"), BODY);
        lines.text(&what, BODY);
        flow.wide(&lines.block(), false);
        let listed = self.lines();
        let priced = self.sum();
        let wide = paper.usable_width();
        let right = [wide - 120.0, wide];
        for line in &listed {
            let cost = match (&priced, line.cost.as_str()) {
                (Some(_), "") => "–",
                (_, cost) => cost,
            };
            flow.wide(
                &entry(
                    &line.name,
                    &[(&line.told, right[0]), (cost, right[1])],
                    right[0] - 110.0,
                ),
                false,
            );
        }
        let mut lines = Lines::new(paper);
        for text in priced.iter().chain([&coils]) {
            lines.text(text, STRONG);
        }
        flow.wide(&lines.block(), false);
        flow.wide(&over(&words.plain("order-loads"), paper), false);
        let ends = [0.5, 0.75, 1.0].map(|share| wide * share);
        let head = ["order-crop-on", "order-tension", "order-sag"].map(|k| words.plain(k));
        fn cells(of: [&str; 3], ends: [f64; 3]) -> [(&str, f64); 3] {
            [0, 1, 2].map(|i| (of[i], ends[i]))
        }
        flow.wide(
            &entry(
                &words.plain("order-height"),
                &cells([&head[0], &head[1], &head[2]], ends),
                ends[0],
            ),
            false,
        );
        for [height, crop, tension, sag] in self.loads() {
            flow.wide(
                &entry(&height, &cells([&crop, &tension, &sag], ends), ends[0]),
                false,
            );
        }
        let mut lines = Lines::new(paper);
        lines.text(&load, BODY);
        for caution in self.cautions() {
            lines.text(&format!("! {caution}"), BODY);
        }
        flow.wide(&lines.block(), false);
        finished((self.plan, words), &self.name(), flow.pages(), paper)
    }

    /// The places as a table: lengths in metres, with a decimal point; what is told of one that was delivered, in words.
    pub fn planting_table(&self, laid: Option<Laid<'_>>) -> String {
        let mut out = String::new();
        let head = [
            "tree",
            "foot_m",
            "angle_deg",
            "side",
            "length_m",
            "post_near_m",
            "delivered",
        ];
        csv::put_line(&mut out, ',', &head.map(String::from));
        let metres = |mm: f64| format!("{}", libm::round(mm) / 1000.0);
        for (i, stock) in self.needs.stocks.iter().enumerate() {
            let got = laid.and_then(|l| Some((l.placed.get(i)?, l.trees)));
            let told = got.map(|(placed, trees)| placed_line(stock, placed, trees, self.words));
            let near = stock.post.filter(|p| *p < CLEAR);
            let cells = [
                stock.tree.0.to_string(),
                metres(stock.foot.f()),
                format!("{}", stock.angle.degrees()),
                String::from(match stock.toward {
                    Toward::Left => "left",
                    Toward::Right => "right",
                }),
                metres(stock.length),
                near.map_or(String::new(), metres),
                told.unwrap_or_default(),
            ];
            csv::put_line(&mut out, ',', &cells);
        }
        out
    }

    /// The sheet by which the trees are planted, place by place, with what was delivered for each where that is known.
    pub fn planting(&self, laid: Option<Laid<'_>>, paper: Paper) -> Vec<String> {
        let words = self.words;
        let mut flow = Flow::new(paper);
        let name = words.plain("planting-title");
        let mut lines = Lines::new(paper);
        lines.titled(&name);
        let row = [("row", Arg::Text(title(&self.plan.name).into()))];
        lines.text(&words.text("crew-row", &row), STRONG);
        lines.text(&words.plain("crew-fill-in"), BODY);
        let stocks = &self.needs.stocks;
        let first = stocks.first().map_or(0.0, |s| s.foot.f());
        lines.text(&planting_how(self.plan, first, words), BODY);
        let common = common(&self.needs.stocks);
        if let Some((angle, toward)) = common {
            let args = [("angle", Arg::Angle(angle)), ("side", side(toward))];
            lines.text(&words.text("planting-all", &args), STRONG);
        }
        lines.text(&words.plain("planting-stock"), BODY);
        lines.text(&format!("! {}", words.plain("caution-planting")), BODY);
        flow.wide(&lines.block(), false);
        if let Some(stock) = stocks.first() {
            let planted = Planted {
                angle: stock.angle,
                toward: stock.toward,
            };
            flow.wide(&planted_picture(self.plan, planted, words, paper), false);
        }
        let column = Flow::column(paper);
        let items = self.needs.stocks.iter().enumerate();
        let items: Vec<Item> = items
            .map(|(i, stock)| {
                let got = laid.and_then(|l| Some((l.placed.get(i)?, l.trees)));
                self.place(stock, got, common.is_some(), column)
            })
            .collect();
        let places = [("count", count(items.len()))];
        flow.columns(&over(&words.text("planting-list", &places), paper), &items);
        finished((self.plan, words), &name, flow.pages(), paper)
    }

    /// One place: a box, the tree's number and its foot on the tape, and what is to be known of it.
    fn place(
        &self,
        stock: &Stock,
        got: Option<(&Placed, &[Delivered])>,
        alike: bool,
        width: f64,
    ) -> Item {
        let words = self.words;
        let place = [
            ("tree", Arg::Count(stock.tree.0.into())),
            ("foot", Arg::Length(stock.foot.f())),
        ];
        let mut told = Vec::new();
        if !alike {
            let args = [
                ("angle", Arg::Angle(stock.angle.degrees())),
                ("side", side(stock.toward)),
            ];
            told.push(words.text("planting-lean", &args));
        }
        let args = [("length", Arg::Length(stock.length))];
        told.push(words.text("planting-length", &args));
        if stock.at_end {
            told.push(words.plain("planting-end"));
        }
        if let Some(near) = stock.post.filter(|p| *p < CLEAR) {
            told.push(words.text("planting-post", &[("near", Arg::Length(near))]));
        }
        if let Some((placed, trees)) = got {
            told.push(placed_line(stock, placed, trees, words));
        }
        let mut element = group("sheet-item");
        tick(&mut element, 0.0, 0.0);
        let mut y = 0.0;
        let texts = [
            (words.text("planting-place", &place), STRONG),
            (told.join(". ") + ".", BODY),
        ];
        for (content, face) in &texts {
            let class = if face.strong {
                "crew-strong"
            } else {
                "crew-body"
            };
            for line in wrap(content, *face, width - INDENT) {
                element.append(at(class, INDENT, y + ASCENT, &line));
                y += LINE;
            }
        }
        Item {
            block: Block {
                element,
                height: y + 8.0,
            },
            with_next: false,
        }
    }
}

/// Angle and side where all places are planted alike.
fn common(stocks: &[Stock]) -> Option<(f64, Toward)> {
    let first = stocks.first()?;
    let alike = |s: &Stock| (s.angle, s.toward) == (first.angle, first.toward);
    stocks
        .iter()
        .all(alike)
        .then(|| (first.angle.degrees(), first.toward))
}

/// What a place gets of what was delivered, and what it lacks.
pub fn placed_line(stock: &Stock, placed: &Placed, trees: &[Delivered], words: &Words) -> String {
    let got = placed.tree.and_then(|t| Some((t, trees.get(t)?)));
    let Some((number, tree)) = got else {
        return words.plain("placed-none");
    };
    let (from, to) = stock.gap(placed.short).unwrap_or_default();
    let args = [
        ("number", count(number + 1)),
        ("length", Arg::Length(tree.length as f64)),
        ("cut", Arg::yes(tree.headed)),
        (
            "lacks",
            Arg::Text(
                match (placed.short > 0, stock.goal.is_some()) {
                    (false, _) => "no",
                    (true, true) => "gap",
                    (true, false) => "short",
                }
                .into(),
            ),
        ),
        ("short", Arg::Length(placed.short as f64)),
        ("from", Arg::Length(from)),
        ("to", Arg::Length(to)),
        ("headed", Arg::yes(placed.headed)),
    ];
    words.text("placed-tree", &args)
}

/// A line of a table: its name, and each cell with where it ends.
fn entry(name: &str, cells: &[(&str, f64)], room: f64) -> Block {
    let mut element = group("sheet-table");
    let mut y = 0.0;
    for line in wrap(name, BODY, room) {
        element.append(at("crew-body", MARGIN, y + ASCENT, &line));
        y += LINE;
    }
    for (cell, end) in cells {
        element.append(at("crew-body end", MARGIN + end, ASCENT, cell));
    }
    Block {
        element,
        height: y + 3.0,
    }
}
