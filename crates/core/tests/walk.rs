//! A row taken down on a walk along it.

use cordonry::check::{Context, check};
use cordonry::file::{read_plan, read_walk, write_plan, write_walk};
use cordonry::make::{Field, Form};
use cordonry::plan::Plan;
use cordonry::pose::{Geometry, PosedRow, layout};
use cordonry::row::{Kind, Targets, Toward};
use cordonry::units::{LengthStyle, Mm};
use cordonry::walk::{Answer, Ask, Tape, Walk, WalkSetup, Way};
use cordonry_words::Words;
use proptest::prelude::*;

fn setup() -> WalkSetup {
    WalkSetup::usual(LengthStyle::Metric)
}

fn walk() -> Walk {
    Walk::new(setup()).unwrap()
}

fn say(walk: &mut Walk, words: &[&str]) {
    for word in words {
        let done = match *word {
            "left" => walk.answer(Answer::Way(Way::Left)),
            "right" => walk.answer(Answer::Way(Way::Right)),
            "both" => walk.answer(Answer::Way(Way::Both)),
            "?" => walk.answer(Answer::Thickness(None)),
            "next" => walk.answer(Answer::TreeDone),
            "end" => walk.answer(Answer::RowDone),
            "missing" => walk.missing(""),
            "same" => walk.same(""),
            "usual" => walk.typed(""),
            text => walk.typed(text),
        };
        done.unwrap_or_else(|why| panic!("{word}: {why}"));
    }
}

fn plan(walk: &Walk) -> Plan {
    let plan = walk.plan(&Words::strict()).unwrap();
    for tree in &plan.found.trees {
        assert_eq!(tree.broken_rule(), None);
    }
    assert_eq!(plan.clone().begun(), plan, "its seasons stand");
    assert!(plan.schemes[0].standing.is_some());
    let text = write_plan(&plan);
    assert_eq!(read_plan(text.as_bytes()).unwrap(), plan);
    plan
}

#[test]
fn of_the_tree_at_hand_it_is_said_that_it_is_missing() {
    let so = |words: &[&str]| {
        let mut w = walk();
        say(&mut w, &["0", "right", "1.7", "20", "next"]);
        say(&mut w, words);
        w.so_far()
            .iter()
            .map(|s| Words::strict().say(s))
            .collect::<Vec<_>>()
    };
    assert_eq!(so(&["1.75", "right"]), ["Tree 2, at 1.75 m"]);
    assert_eq!(so(&["1.75"]), ["Tree 2, at 1.75 m"]);
    assert_eq!(so(&["missing"]), ["Tree 2, at 1.50 m: missing"]);
}

#[test]
fn what_was_measured_stands_where_it_was_measured() {
    let mut w = walk();
    assert_eq!(
        w.ask(),
        Ask::Foot {
            tree: 1,
            usual: None,
            like: None
        }
    );
    say(
        &mut w,
        &[
            "0.5", "right", "2.48", "24", "1.15", "11", "1,36", "?", "next",
        ],
    );
    say(
        &mut w,
        &[
            "usual", "right", "3.98", "?", "2.6", "9", "next", "missing", "same", "end",
        ],
    );
    assert_eq!(w.ask(), Ask::Nothing);
    let plan = plan(&w);
    let row = &plan.found;
    let feet: Vec<i32> = row.trees.iter().map(|t| t.foot.0).collect();
    assert_eq!(feet, [500, 2000, 3500, 5000]);
    let first = &row.trees[0];
    let courses = layout(first, Geometry::of(row, &Targets::default()));
    assert!((courses[0].tip().x - 2480.0).abs() < 1.0);
    assert_eq!(first.shoots[0].diameter, 24.0);
    let places: Vec<f64> = courses[1..].iter().map(|c| c.base.x).collect();
    assert!((places[0] - 1150.0).abs() < 1.0 && (places[1] - 1360.0).abs() < 1.0);
    assert_eq!(first.shoots[1].diameter, 11.0);
    // Not measured: as the others of its tree.
    assert_eq!(first.shoots[2].diameter, 11.0);
    assert!(row.trees[2].is_lost());
    assert_eq!(row.trees[3].shoots, row.trees[1].shoots);
    assert_eq!(row.trees[3].note, "said to be the same as tree 2");
    assert_eq!(
        plan.note,
        "Taken down on a walk along the row: 4 trees. Lengths of uprights were not measured; they are reckoned from their thickness, and an unmeasured thickness is taken as usual"
    );
}

#[test]
fn a_tree_may_have_two_leaders() {
    let mut w = walk();
    say(
        &mut w,
        &[
            "3", "both", "1.5", "18", "4.5", "17", "2.2", "10", "3.8", "10", "next", "end",
        ],
    );
    let plan = plan(&w);
    let tree = &plan.found.trees[0];
    let kinds: Vec<Kind> = tree.shoots.iter().map(|s| s.kind()).collect();
    use Kind::{Leader, Stem, Upright};
    assert_eq!(kinds, [Stem, Leader, Leader, Upright, Upright]);
    let courses = layout(tree, Geometry::of(&plan.found, &Targets::default()));
    for (i, x) in [(1, 1500.0), (2, 4500.0)] {
        assert!((courses[i].tip().x - x).abs() < 1.0);
    }
    for (i, x) in [(3, 2200.0), (4, 3800.0)] {
        assert!((courses[i].base.x - x).abs() < 1.0);
    }
    assert_eq!(tree.shoots[3].parent, Some(tree.shoots[1].id));
    assert_eq!(tree.shoots[4].parent, Some(tree.shoots[2].id));
    assert_eq!((plan.found.from, plan.found.to), (Mm(1500), Mm(4500)));
}

#[test]
fn a_sample_says_where_to_walk_and_fills_the_rest() {
    let mut s = setup();
    s.set_sample(true);
    s.set(Field::Trees, "20", LengthStyle::Metric).unwrap();
    let mut w = Walk::new(s).unwrap();
    assert_eq!(w.visits(), [1, 3, 5, 7, 9, 12, 14, 16, 18, 20]);
    assert_eq!(w.progress(), (0, Some(10)));
    say(&mut w, &["0", "right", "2.0", "20", "0.6", "10", "next"]);
    assert!(matches!(
        w.ask(),
        Ask::Foot {
            tree: 3,
            usual: Some(Mm(3000)),
            ..
        }
    ));
    say(&mut w, &["3.1", "right", "4.6", "22", "next", "missing"]);
    for _ in 0..7 {
        say(&mut w, &["same"]);
    }
    assert_eq!(w.ask(), Ask::Nothing);
    let plan = plan(&w);
    let row = &plan.found;
    assert_eq!(row.trees.len(), 20);
    let note = |n: usize| row.trees[n - 1].note.as_str();
    assert_eq!(
        [note(1), note(2), note(3)],
        ["sampled", "filled in from tree 1", "sampled"]
    );
    assert_eq!(note(4), "filled in from tree 3");
    assert_eq!(note(7), "said to be the same as tree 3");
    // Half-way between the two that were walked to.
    assert_eq!(row.trees[1].foot, Mm(1550));
    assert_eq!(row.trees[1].shoots, row.trees[0].shoots);
    assert!(row.trees[4].is_lost());
    assert!(!row.trees[5].is_lost(), "a missing tree is no pattern");
    assert!(
        plan.note.starts_with(
            "A sample: 10 of 20 trees were measured (1, 3, 5, 7, 9, 12, 14, 16, 18, 20)"
        )
    );
}

#[test]
fn samples_are_spread() {
    let visits = |trees| {
        let s = WalkSetup {
            sample: Some(trees),
            ..setup()
        };
        Walk::new(s).unwrap().visits()
    };
    assert_eq!(visits(1), [1]);
    assert_eq!(visits(4), [1, 2, 3, 4]);
    assert_eq!(visits(10), (1..=10).collect::<Vec<_>>());
    for trees in 1..200 {
        let v = visits(trees);
        assert_eq!((v[0], *v.last().unwrap()), (1, trees));
        assert!(v.windows(2).all(|w| w[0] < w[1]));
    }
}

#[test]
fn going_back_gives_what_was_typed() {
    let mut w = walk();
    say(
        &mut w,
        &["0.5", "right", "2.48", "24.5", "1.15", "11", "next"],
    );
    let there = w.clone();
    say(&mut w, &["same"]);
    let back: Vec<Option<String>> = (0..9).map(|_| w.back()).collect();
    let back: Vec<Option<&str>> = back.iter().map(Option::as_deref).collect();
    let typed = ["2", "", "11", "1.15", "24.5", "2.48", "", "0.5"].map(Some);
    assert_eq!(back[..8], typed);
    assert_eq!(back[8], None);
    assert_eq!(w, walk());
    say(
        &mut w,
        &["0.5", "right", "2.48", "24.5", "1.15", "11", "next"],
    );
    assert_eq!(w, there);
}

fn refused(before: &[&str], text: &str, expected: &str) {
    let mut w = walk();
    say(&mut w, before);
    let was = w.clone();
    let why = w.typed(text).unwrap_err();
    assert_eq!(Words::strict().refusal(&why), expected);
    assert_eq!(w, was, "the walk is as it was");
}

#[test]
fn what_is_wrong_is_said_with_what_is_accepted() {
    refused(
        &[],
        "",
        "Place of tree 1 must be between 0.00 m and 5000.00 m, not –",
    );
    refused(
        &[],
        "x",
        "Place of tree 1 must be between 0.00 m and 5000.00 m, not ‘x’",
    );
    refused(
        &["1.5", "right"],
        "1.2",
        "End of the leader of tree 1 must be between 1.55 m and 7.50 m, not 1.20 m",
    );
    refused(
        &["1.5", "left"],
        "1.8",
        "End of the leader of tree 1 must be between −4.50 m and 1.45 m, not 1.80 m",
    );
    refused(
        &["1.5", "right", "3"],
        "2400",
        "Thickness of the leader of tree 1 must be between 3 mm and 300 mm, not 2400 mm",
    );
    refused(
        &["1.5", "right", "3", "24"],
        "3.2",
        "Place of upright 1 of tree 1 must be between 1.50 m and 3.00 m, not 3.20 m",
    );
    refused(
        &["1.5", "right", "3", "24", "2.0", "12"],
        "2.005",
        "Tree 1: there is an upright at 2.00 m already, too near to 2.00 m",
    );
    refused(
        &["1.5", "right", "3", "24", "2.0", "12", "next"],
        "150",
        "Place of tree 2 must be between 1.60 m and 21.50 m, not 150.00 m",
    );
    let mut w = walk();
    assert!(w.same("1").is_err());
    assert!(w.answer(Answer::TreeDone).is_err());
    assert_eq!(
        Words::strict().refusal(&w.answer(Answer::RowDone).unwrap_err()),
        "No tree stands yet; there must be one at least"
    );
}

/// What is asked of a typed answer, and what would be typed instead.
fn doubt(before: &[&str], text: &str) -> Option<(String, Option<String>)> {
    let mut w = walk();
    say(&mut w, before);
    let words = Words::strict();
    let doubt = w.doubt(text)?;
    Some((words.say(&doubt.question()), doubt.meant().map(|m| m.1)))
}

#[test]
fn a_likely_slip_is_asked_about() {
    let leader = ["0", "right", "2"];
    let upright = ["0", "right", "2", "24", "0.65"];
    let two = ["0", "right", "2", "24", "0.65", "12", "0.85", "12"];
    for (before, text, asks, meant) in [
        (
            &upright[..],
            "1.4",
            "An upright 1.4 mm thick at its base is unusual; 4 mm to 60 mm is usual. Did you mean 14 mm (1.4 cm)?",
            Some("14"),
        ),
        (
            &upright,
            "140",
            "An upright 140 mm thick at its base is unusual; 4 mm to 60 mm is usual. Did you mean 14 mm?",
            Some("14"),
        ),
        (
            &leader,
            "3,1",
            "A leader 3.1 mm thick is unusual; 8 mm to 150 mm is usual. Did you mean 31 mm (3.1 cm)?",
            Some("31"),
        ),
        (
            &two,
            "0.60",
            "0.60 m goes back along the tape: there is an upright at 0.85 m already.",
            None,
        ),
        (
            &["0", "right", "2", "24", "0.65", "12"],
            "0.6",
            "0.60 m goes back along the tape: there is an upright at 0.65 m already.",
            None,
        ),
        (
            &["0", "right"],
            "0.2",
            "A leader that reaches 0.20 m is unusual; 0.30 m to 4.00 m is usual.",
            None,
        ),
        (
            &["0", "right", "2", "24", "next"],
            "15",
            "Tree 2 would stand 15.00 m on from the one before it; 1.50 m is expected.",
            None,
        ),
    ] {
        let expected = (asks.to_string(), meant.map(str::to_string));
        assert_eq!(doubt(before, text), Some(expected), "{text}");
    }
}

#[test]
fn what_is_usual_or_refused_is_not_asked_about() {
    let upright = ["0", "right", "2", "24", "0.65"];
    let left = ["3", "left", "1", "24"];
    for (before, text) in [
        (&upright[..], "14"),
        (&upright, "4"),
        (&upright, "60"),
        (&upright, "1.4 cm"),
        // Refused, and said so when it is taken.
        (&upright, "0.4"),
        (&upright, "x"),
        (&["0", "right", "2", "24", "0.65", "12"], "0.655"),
        (&["0"], ""),
        (&["0", "right", "2", "24", "next"], ""),
        (&["0", "right", "2", "24", "next"], "3"),
        // Along a leader to the left both ways are the way of some.
        (&["3", "left", "1", "24", "2.4", "12"], "2.0"),
        (&["3", "left", "1", "24", "2.0", "12"], "2.4"),
        (&left, "2"),
        // One that was taken as it stands does not turn the way.
        (
            &[
                "0", "right", "2", "24", "0.65", "12", "0.85", "12", "0.75", "12",
            ],
            "1.05",
        ),
        // From the end of the left leader over to the right one.
        (
            &[
                "3", "both", "1.5", "18", "4.5", "17", "2.6", "12", "2.2", "12",
            ],
            "3.8",
        ),
    ] {
        assert_eq!(doubt(before, text), None, "{before:?} {text}");
    }
    let falling = ["3", "left", "1", "24", "2.4", "12", "2.0", "12"];
    assert!(doubt(&falling, "2.2").is_some());
    // Asking changes nothing, and what is asked about can be taken as it stands.
    let mut w = walk();
    say(&mut w, &upright);
    let was = w.clone();
    assert!(w.doubt("1.4").is_some());
    assert_eq!(w, was);
    say(&mut w, &["1.4"]);
    assert_eq!(w.back().as_deref(), Some("1.4"));
}

#[test]
fn the_tape_has_its_unit() {
    for (tape, typed) in [
        (Tape::Metres, ["1.27", "2.54", "25.4"]),
        (Tape::Centimetres, ["127", "254", "25.4"]),
        (Tape::Inches, ["50", "100", "1"]),
        (Tape::Feet, ["4.167", "8.333", "1"]),
    ] {
        let mut w = Walk::new(WalkSetup { tape, ..setup() }).unwrap();
        say(&mut w, &[typed[0], "right", typed[1], typed[2]]);
        assert_eq!(w.back().as_deref(), Some(typed[2]));
        assert_eq!(w.back().as_deref(), Some(typed[1]));
        w.back();
        assert_eq!(w.back().as_deref(), Some(typed[0]));
    }
}

#[test]
fn a_half_finished_walk_outlives_its_page() {
    let mut w = walk();
    say(&mut w, &["0.5", "right", "2.48", "24.5", "1.15"]);
    let text = write_walk(&w);
    assert_eq!(read_walk(&text).unwrap(), w);
    // An answer that is not accepted ends it there.
    let damaged = text.replace("1150", "99150");
    let read = read_walk(&damaged).unwrap();
    assert_eq!(read.answers(), &w.answers()[..4]);
    for bad in [
        "",
        "{}",
        "[1]",
        "{\"format\":\"cordonry-walk\",\"version\":9}",
    ] {
        assert!(read_walk(bad).is_err(), "{bad}");
    }
}

#[test]
fn a_bare_stretch_is_found_and_can_be_filled() {
    let mut w = walk();
    say(&mut w, &["0", "right", "2.0", "24"]);
    for x in ["0.6", "0.8", "1.0", "1.2", "1.4", "1.6", "1.8"] {
        say(&mut w, &[x, "12"]);
    }
    say(&mut w, &["next", "same"]);
    // The third ends 0.6 m short.
    say(
        &mut w,
        &[
            "usual", "right", "4.4", "20", "3.6", "12", "3.8", "12", "4.0", "12", "4.2", "12",
            "next",
        ],
    );
    say(&mut w, &["same", "end"]);
    let plan = plan(&w);
    let terms = plan.terms(&plan.found.trellis);
    let row = PosedRow::of(&plan.found, &plan.targets);
    let found = check(&Context::found(&row, &terms, &plan.targets));
    let gap = found.iter().find(|f| f.rule == "cordon-gap").unwrap();
    assert!((gap.width - 600.0).abs() < 2.0, "{gap:?}");
    assert!(!gap.remedies.is_empty());
}

fn answers() -> impl Strategy<Value = Answer> {
    let x = (-1_000i32..60_000).prop_map(Mm);
    prop_oneof![
        x.clone().prop_map(Answer::Foot),
        x.clone().prop_map(Answer::Missing),
        x.clone().prop_map(Answer::Same),
        prop_oneof![Just(Way::Left), Just(Way::Right), Just(Way::Both)].prop_map(Answer::Way),
        x.clone().prop_map(Answer::End),
        proptest::option::of(0u16..4000).prop_map(Answer::Thickness),
        x.prop_map(Answer::Upright),
        Just(Answer::TreeDone),
        Just(Answer::RowDone),
    ]
}

/// An answer to what is asked, at a place that suits, so that walks get somewhere.
fn suited(walk: &Walk, answer: Answer) -> Answer {
    let foot = |x: Mm| match walk.ask() {
        Ask::Foot { usual, .. } => Mm(usual.unwrap_or(Mm(0)).0 + x.0 % 300),
        _ => x,
    };
    let last = walk.answers().iter().rev().find_map(|a| match a {
        Answer::Foot(x) => Some(*x),
        _ => None,
    });
    let near = |x: Mm, sign: i32| Mm(last.unwrap_or(Mm(0)).0 + sign * (x.0.abs() % 2500));
    match (walk.ask(), answer) {
        (_, Answer::Foot(x)) => Answer::Foot(foot(x)),
        (_, Answer::Same(x)) => Answer::Same(foot(x)),
        (_, Answer::Missing(x)) => Answer::Missing(foot(x)),
        (
            Ask::End {
                toward: Toward::Left,
                ..
            },
            Answer::End(x),
        ) => Answer::End(near(x, -1)),
        (_, Answer::End(x)) => Answer::End(near(x, 1)),
        (_, Answer::Upright(x)) => Answer::Upright(near(x, if x.0 % 2 == 0 { 1 } else { -1 })),
        (_, other) => other,
    }
}

proptest! {
    #[test]
    fn any_walk_makes_a_whole_row(
        given in prop::collection::vec(answers(), 0..300),
        sample in proptest::option::of(1u32..60),
        leaf in 1u8..=20,
    ) {
        let mut w = Walk::new(WalkSetup { sample, leaf, ..setup() }).unwrap();
        for answer in given {
            let before = w.clone();
            let answer = suited(&w, answer);
            match w.answer(answer) {
                Ok(()) => {
                    let mut back = w.clone();
                    prop_assert!(back.back().is_some());
                    prop_assert_eq!(back, before);
                }
                Err(_) => prop_assert_eq!(&w, &before),
            }
        }
        prop_assert_eq!(&read_walk(&write_walk(&w)).unwrap(), &w);
        if w.has_trees() {
            plan(&w);
        }
    }
}

#[test]
fn heights_and_side_branches_are_asked_where_the_setup_says_so() {
    let mut w = Walk::new(WalkSetup {
        heights: true,
        laterals: true,
        leaf: 4,
        ..setup()
    })
    .unwrap();
    say(&mut w, &["0", "right", "1.7", "20", "0.9", "12"]);
    assert!(
        matches!(
            w.ask(),
            Ask::Height {
                tree: 1,
                number: 1,
                usual: None
            }
        ),
        "{:?}",
        w.ask()
    );
    // Nothing is expected of the first.
    assert!(w.typed("").is_err());
    let refused = |w: &mut Walk, text: &str| Words::strict().refusal(&w.typed(text).unwrap_err());
    assert_eq!(
        refused(&mut w, "0.4"),
        "Height of upright 1 of tree 1 must be between 0.51 m and 6.00 m, not 0.40 m"
    );
    let doubt = w.doubt("5").map(|d| Words::strict().say(&d.question()));
    let says = "An upright 5.00 m high is unusual; 0.60 m to 3.30 m is usual";
    assert_eq!(
        doubt.as_deref().map(|d| d.starts_with(says)),
        Some(true),
        "{doubt:?}"
    );
    assert_eq!(w.doubt("2.3"), None);
    say(&mut w, &["2.3"]);
    assert!(matches!(
        w.ask(),
        Ask::Laterals {
            tree: 1,
            number: 1,
            usual: None
        }
    ));
    for (typed, shown) in [
        ("2.5", "‘2.5’"),
        ("201", "201"),
        ("-1", "−1"),
        ("many", "many"),
    ] {
        let why = refused(&mut w, typed);
        assert!(
            why.starts_with("Side branches of upright 1 of tree 1, a whole number, must be between 0 and 200, not "),
            "{shown}: {why}"
        );
    }
    assert!(w.doubt("31").is_some() && w.doubt("30").is_none());
    say(&mut w, &["5", "1.2", "10"]);
    // The next ones may be as the last.
    assert!(matches!(
        w.ask(),
        Ask::Height {
            number: 2,
            usual: Some(Mm(2300)),
            ..
        }
    ));
    say(&mut w, &["usual"]);
    assert!(matches!(
        w.ask(),
        Ask::Laterals {
            number: 2,
            usual: Some(5),
            ..
        }
    ));
    say(&mut w, &["usual", "1.5", "10"]);
    w.answer(Answer::Height(None)).unwrap();
    w.answer(Answer::Laterals(None)).unwrap();
    let so: Vec<String> = w.so_far().iter().map(|s| Words::strict().say(s)).collect();
    assert!(
        so.contains(&"Heights: 2.30\u{a0}m · 2.30\u{a0}m".to_string()),
        "{so:?}"
    );
    assert!(so.contains(&"Side branches: 5 · 5".to_string()), "{so:?}");
    // Going back takes one number at a time, as it was typed.
    let mut back = w.clone();
    assert_eq!(back.back().as_deref(), Some(""));
    assert_eq!(back.back().as_deref(), Some(""));
    assert_eq!(
        (back.back().as_deref(), back.back().as_deref()),
        (Some("10"), Some("1.5"))
    );
    assert_eq!(
        (back.back().as_deref(), back.back().as_deref()),
        (Some("5"), Some("2.3"))
    );
    say(&mut w, &["next", "same", "end"]);
    let plan = plan(&w);
    assert!(plan.note.contains("as long as their measured heights say"));
    let g = Geometry::of(&plan.found, &plan.targets);
    for tree in &plan.found.trees {
        let courses = layout(tree, g);
        let mut tips = Vec::new();
        for (shoot, course) in tree.shoots.iter().zip(&courses) {
            if shoot.kind() == Kind::Upright {
                tips.push((libm::round(course.tip().y), shoot.laterals.count));
            }
        }
        assert_eq!(tips[..2], [(2300.0, 5), (2300.0, 5)]);
        // One without a height is as its thickness says.
        assert!(tips[2].0 < 1500.0 && tips[2].1 == 0, "{tips:?}");
    }
    // It comes back as it was kept, and says that an older program can't go on with it.
    let kept = write_walk(&w);
    assert!(kept.contains("\"version\":2"), "{kept}");
    assert_eq!(read_walk(&kept).unwrap(), w);
}

#[test]
fn a_walk_that_asks_for_neither_is_kept_as_ever_and_an_old_one_is_gone_on_with() {
    let mut w = walk();
    say(&mut w, &["0", "right", "1.7", "20", "0.9", "12"]);
    assert!(matches!(w.ask(), Ask::Upright { number: 2, .. }));
    let old = r#"{"format":"cordonry-walk","version":1,"setup":{"leaf":3,"spacing_mm":1500,"angle_deg":45,"wires_mm":[500,1000,1500,2000,2500],"wall_height_mm":2500,"sample":null,"tape":"metres"},"answers":[{"foot":0},{"way":"right"},{"end":1700},{"thickness":200},{"upright":900},{"thickness":120}]}"#;
    assert_eq!(write_walk(&w), old);
    assert_eq!(read_walk(old).unwrap(), w);
    assert!(read_walk(&old.replace("\"version\":1", "\"version\":3")).is_err());
}
