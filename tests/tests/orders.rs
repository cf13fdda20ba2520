//! What is ordered, what came of it, and the sheets of both.

use cordonry::file::{read_plan, write_plan};
use cordonry::materials::{
    Ask, Delivered, Item, Needs, Prices, just_planted, listed, needs, place, recorded,
};
use cordonry::plan::{Plan, Window, replay};
use cordonry::row::{Covering, Moment, Toward};
use cordonry::said::Said;
use cordonry::units::{BareUnit, LengthStyle, Mm, parse_length};
use cordonry_draw::{Laid, Order, Paper, is_headed};
use cordonry_fixture::wall::{lost, row, stem};
use cordonry_words::{Language, Words};

/// Six places 1.5 m apart: the third leans the other way, the fifth is lost, and a post stands 0.10 m from the last.
fn six() -> Plan {
    let trees = (0..6).map(|i| match i {
        4 => lost(5, 6000),
        2 => stem(3, 3000, 60.0, Toward::Left, 1800.0),
        _ => stem(i as u32 + 1, i * 1500, 45.0, Toward::Right, 2000.0),
    });
    let mut row = row(500, 9500, trees.collect());
    row.leaf = 1;
    for tree in &mut row.trees {
        for stem in &mut std::sync::Arc::make_mut(tree).shoots {
            // As it came from the nursery.
            stem.units[0].leaf = 0;
        }
    }
    row.trellis.posts = [-900, 3700, 7600].map(Mm).to_vec();
    row.trellis.wires[0].covering = Covering::Plastic;
    Plan::new("Six", row)
}

fn words(language: &str) -> Words {
    let language = Language::of(language).unwrap();
    Words::new(language, LengthStyle::Metric).made_strict()
}

fn read(text: &str) -> (Vec<Delivered>, Vec<Said>) {
    let words = words("en");
    listed(text, &|w| is_headed(&words, w), &|t| {
        parse_length(t, BareUnit::Metre)
    })
}

fn tree(length: i64, headed: bool) -> Delivered {
    Delivered { length, headed }
}

#[test]
fn lists_of_delivered_trees_are_read_as_people_write_them() {
    let check = |text: &str, expected: &[Delivered]| {
        let (trees, bad) = read(text);
        assert!(bad.is_empty(), "{text:?}: {bad:?}");
        assert_eq!(trees, expected, "{text:?}");
    };
    let [whole, cut] = [tree(1650, false), tree(1650, true)];
    for line in ["1.65", "1,65", "165 cm", "1650 mm", "5' 4 61/64\""] {
        check(line, &[whole]);
    }
    for line in [
        "1.65 h",
        "1,65 H",
        "1.65,h",
        "1.65; headed",
        "165 cm h",
        "1.65\theaded",
    ] {
        check(line, &[cut]);
    }
    check("length\n\n1.65\n  1,65 h \n", &[whole, cut]);
    check("", &[]);

    let refused = |text: &str| -> Vec<(String, i64)> {
        let (_, bad) = read(text);
        let line = |s: &Said| match s.arg("line") {
            Some(cordonry::said::Arg::Count(n)) => *n,
            other => panic!("{other:?}"),
        };
        bad.iter().map(|s| (s.key.into(), line(s))).collect()
    };
    let range = |line| ("refusal-delivered-range".to_string(), line);
    let none = |line| ("refusal-delivered".to_string(), line);
    assert_eq!(refused("0.09\n0.10\n5\n5.01"), [range(1), range(4)]);
    assert_eq!(
        refused("1.6\nabout two\nh\n165"),
        [none(2), none(3), range(4)]
    );
    // What is refused names its value and what would be taken, in either language.
    let said = words("en").say(&read("7,5 h").1[0]);
    for part in ["1", "7.50 m", "0.10 m", "5.00 m"] {
        assert!(said.contains(part), "{said}");
    }
    assert!(words("es").say(&read("7,5").1[0]).contains("7,50 m"));
    // No more than a row has places.
    let (_, bad) = read(&"1.65\n".repeat(5001));
    assert_eq!(bad[0].key, "refusal-trees");
    assert!(is_headed(&words("es"), "R") && is_headed(&words("es"), "headed"));
}

#[test]
fn delivered_trees_become_the_row_as_found() {
    let plan = six();
    let needs = needs(&plan, 0, &Ask::default());
    let wanted: Vec<(i64, bool)> = needs.stocks.iter().map(|s| s.need()).collect();
    // Five for six places.
    let trees = [
        tree(2300, false),
        tree(1500, true),
        tree(2400, false),
        tree(2250, false),
        tree(2200, false),
    ];
    let (placed, _) = place(&wanted, &trees);
    assert!(just_planted(&plan.found));
    let now = recorded(&plan, &needs.stocks, &placed, &trees).unwrap();
    for (stock, place) in needs.stocks.iter().zip(&placed) {
        let found = now.found.tree(stock.tree).unwrap();
        let Some(got) = place.tree.map(|t| trees[t]) else {
            assert!(found.is_lost());
            continue;
        };
        let stem = &found.shoots[0];
        assert_eq!(stem.length(), got.length as f64);
        assert_eq!(stem.units[0].cut.is_some(), got.headed);
        assert_eq!(stem.units[0].grown > stem.units[0].kept, got.headed);
    }
    assert_eq!(now.found.trees.iter().filter(|t| t.is_lost()).count(), 1);
    // The file holds it, and growth goes on from it: what is headed has no end that grows on alone.
    let kept = read_plan(write_plan(&now).as_bytes()).unwrap();
    assert_eq!(kept, now);
    let moment = Moment {
        leaf: 2,
        window: Window::Dormant,
    };
    assert!(replay(&now, 0, moment).is_ok());
    // A second delivery takes the place of the first.
    let whole = [tree(2300, false); 6];
    let (placed, lacking) = place(&wanted, &whole);
    let again = recorded(&now, &needs.stocks, &placed, &whole).unwrap();
    assert!(again.found.trees.iter().all(|t| !t.is_lost()));
    let uncut = |t: &std::sync::Arc<cordonry::row::Tree>| {
        let unit = t.shoots[0].units[0];
        unit.kept == 2300.0 && unit.grown == unit.kept && unit.cut.is_none()
    };
    assert!(again.found.trees.iter().all(uncut));
    assert_eq!(lacking, placed.iter().map(|p| p.short).sum::<i64>());
    // What has grown here is no longer as it was delivered.
    let mut old = plan.clone();
    std::sync::Arc::make_mut(&mut old.found).leaf = 2;
    assert!(!just_planted(&old.found));
}

#[test]
fn what_is_too_short_leaves_the_wire_bare_before_its_goal() {
    let plan = six();
    let needs = needs(&plan, 0, &Ask::default());
    let first = &needs.stocks[0];
    let goal = first.goal.unwrap();
    assert_eq!(first.gap(0), None);
    assert_eq!(first.gap(200), Some((goal - 200.0, goal)));
    let left = &needs.stocks[2];
    let goal = left.goal.unwrap();
    assert!(goal < left.foot.f());
    assert_eq!(left.gap(200), Some((goal, goal + 200.0)));
}

#[test]
fn trees_are_ordered_by_the_next_ten_centimetres() {
    let needs = needs(&six(), 0, &Ask::default());
    let ordered = needs.ordered();
    assert_eq!(ordered.iter().map(|o| o.count).sum::<usize>(), 6);
    for o in &ordered {
        assert_eq!(o.length % 100.0, 0.0);
        let of =
            |s: &&cordonry::materials::Stock| s.length <= o.length && s.length > o.length - 100.0;
        assert_eq!(needs.stocks.iter().filter(of).count(), o.count);
    }
    assert!(ordered.windows(2).all(|w| w[0].length > w[1].length));
}

fn order<'a>(
    plan: &'a Plan,
    needs: &'a Needs,
    prices: &'a Prices,
    words: &'a Words,
    ask: &'a Ask,
) -> Order<'a> {
    Order {
        plan,
        needs,
        ask,
        prices,
        currency: "=pesos",
        words,
    }
}

#[test]
fn an_order_sums_what_has_a_price() {
    let (plan, ask, words) = (six(), Ask::default(), words("en"));
    let needs = needs(&plan, 0, &ask);
    let mut prices = Prices::default();
    let of = |prices: &Prices| order(&plan, &needs, prices, &words, &ask).sum();
    assert_eq!(of(&prices), None);
    prices.set(Item::Tree, Some(10.0));
    // Six places and one to spare.
    assert_eq!(prices.sum(&needs), Some(70.0));
    prices.set(Item::BareWire, Some(0.5));
    let wire = needs.wire(Covering::Bare, false) / 1000.0;
    assert_eq!(prices.sum(&needs), Some(70.0 + wire / 2.0));
    assert_eq!(prices.cost(Item::Post, &needs), None);
    let made = order(&plan, &needs, &prices, &words, &ask);
    // The lines come to the same, wire by wire.
    for item in Item::ALL {
        let amount: f64 = made
            .lines()
            .iter()
            .filter(|l| l.item == item)
            .map(|l| l.amount)
            .sum();
        assert!((amount - item.amount(&needs)).abs() < 1e-9, "{item:?}");
    }
    let table = made.table();
    let lines: Vec<&str> = table.lines().collect();
    assert_eq!(lines.len(), 1 + made.lines().len());
    assert!(
        lines[1].starts_with("tree,") && lines[1].contains(",10,"),
        "{}",
        lines[1]
    );
    // No cell is a formula.
    assert!(
        !table.contains(",=pesos") && table.contains("'=pesos"),
        "{table}"
    );
    prices.set(Item::Tree, None);
    prices.set(Item::BareWire, None);
    assert_eq!(of(&prices), None);
}

/// The texts of a page in their order.
fn texts(page: &str) -> String {
    let texts = page.split("<text").skip(1).filter_map(|t| {
        let content = t.split_once('>')?.1.split_once("</text>")?.0;
        Some(content.trim().replace("&amp;", "&").to_string())
    });
    texts.collect::<Vec<_>>().join(" ")
}

#[test]
fn the_planting_sheet_has_a_box_for_each_place() {
    let (plan, ask, prices) = (six(), Ask::default(), Prices::default());
    let needs = needs(&plan, 0, &ask);
    let wanted: Vec<(i64, bool)> = needs.stocks.iter().map(|s| s.need()).collect();
    let trees = [tree(2300, false), tree(1900, true)];
    let (placed, _) = place(&wanted, &trees);
    for code in ["en", "es"] {
        let words = words(code);
        let made = order(&plan, &needs, &prices, &words, &ask);
        for paper in [Paper::A4, Paper::Letter] {
            let laid = Laid {
                trees: &trees,
                placed: &placed,
            };
            for laid in [None, Some(laid)] {
                let pages = made.planting(laid, paper);
                let boxes: usize = pages
                    .iter()
                    .map(|p| p.matches("\"tick-box\"").count())
                    .sum();
                assert_eq!(boxes, 6);
                let told: String = pages.iter().map(|p| texts(p)).collect();
                for stock in &needs.stocks {
                    assert!(told.contains(&words.length(stock.foot.f())), "{told}");
                }
                assert_eq!(told.contains(&words.plain("placed-none")), laid.is_some());
                // The angles differ, so each place has its own; one is near a post, two end with the row.
                for angle in ["45°", "60°"] {
                    assert!(told.contains(angle), "{told}");
                }
                assert_eq!(told.matches(&words.plain("planting-end")).count(), 1);
                assert!(told.contains(&words.length(100.0)), "{told}");
                assert!(
                    told.contains(&words.plain("caution-planting")[..40]),
                    "{told}"
                );
            }
            let told: String = made.sheets(paper).iter().map(|p| texts(p)).collect();
            for line in made.lines() {
                assert!(told.contains(&line.told), "{}", line.name);
            }
            for caution in made.cautions() {
                assert!(told.contains(&caution[..30]), "{caution}");
            }
        }
    }
}
