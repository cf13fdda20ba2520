//! Plan files: what is written is read back, and what can't be read is refused by name.

use cordonry::file::{MAX_BYTES, VERSION, read_plan, write_plan};
use cordonry::hands::{Hands, Job, Rate};
use cordonry::model::{Assumptions, Parameter};
use cordonry::plan::{Seen, SpurCount, Told};
use cordonry::row::{Limit, Moment, Origin, ShootId, TreeId, Vigour, Window};
use cordonry::standing::Rule;
use cordonry_words::Words;
use std::collections::BTreeMap;
use std::path::Path;

/// A plan with something of everything that the format knows.
const EVERYTHING: &str = include_str!("../data/versions/v5-everything.json");

/// The stored samples of a version, by name. They are never changed, only added to.
fn samples(version: u32) -> BTreeMap<String, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/versions");
    let mut out = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_string();
        if name.starts_with(&format!("v{version}-")) {
            out.insert(name, std::fs::read_to_string(path).unwrap());
        }
    }
    out
}

fn check_refused(text: &str, key: &str, says: &[&str]) {
    match read_plan(text.as_bytes()) {
        Ok(_) => panic!("read, and not {key}: {}", &text[..text.len().min(300)]),
        Err(why) => {
            let words = Words::strict().refusal(&why);
            assert_eq!(why.key, key, "{words}");
            for part in says {
                assert!(words.contains(part), "'{words}' does not say '{part}'");
            }
        }
    }
}

/// The plan with everything, with the first `from` in it made `to`.
fn changed(from: &str, to: &str) -> String {
    assert!(EVERYTHING.contains(from), "no {from}");
    EVERYTHING.replacen(from, to, 1)
}

#[test]
fn saved_and_loaded_and_saved_is_the_same() {
    let plan = read_plan(EVERYTHING.as_bytes()).unwrap();
    assert_eq!(write_plan(&plan), EVERYTHING);
    assert_eq!(read_plan(write_plan(&plan).as_bytes()).unwrap(), plan);
}

#[test]
fn a_sample_of_every_version_is_read() {
    for version in 1..=VERSION {
        let samples = samples(version);
        assert!(!samples.is_empty(), "version {version} has no sample");
        for (name, text) in samples {
            assert!(text.contains(&format!("\"version\": {version}")), "{name}");
            let plan = read_plan(text.as_bytes()).unwrap_or_else(|e| panic!("{name}: {e}"));
            let saved = write_plan(&plan);
            let again = read_plan(saved.as_bytes()).unwrap();
            assert_eq!(again, plan, "{name}");
            assert_eq!(write_plan(&again), saved, "{name}");
        }
    }
}

#[test]
fn from_version_1_nothing_is_lost_and_nothing_made_up() {
    for (name, text) in samples(1) {
        let plan = read_plan(text.as_bytes()).unwrap();
        let expected = text.replacen("\"version\": 1,", "\"version\": 5,", 1);
        assert_eq!(write_plan(&plan), expected, "{name}");
    }
}

#[test]
fn version_2_tells_of_cuts_origins_and_bends() {
    let plan = read_plan(EVERYTHING.as_bytes()).unwrap();
    let shoot = |tree: u32, id: u32| {
        let found = plan.found.shoot(TreeId(tree), ShootId::found(id));
        found.map(|(_, s)| s.clone()).unwrap()
    };
    let leader = shoot(1, 0);
    assert_eq!((leader.bend_radius, leader.last_cut()), (Some(400.5), None));
    let back = shoot(1, 5);
    assert_eq!(back.origin, Some(Origin::Return));
    let cut = Moment {
        leaf: 2,
        window: Window::AfterHarvest,
    };
    assert_eq!(back.last_cut(), Some(cut));
    assert_eq!(shoot(1, 2).last_cut(), Some(Moment::dormant(3)));
    let origins = [3, 4, 6, 1].map(|id| shoot(1, id).origin);
    let (bud, wild, end) = (Origin::KeptBud, Origin::WildBud, Origin::EndGrowth);
    assert_eq!(origins, [Some(bud), Some(wild), Some(end), None]);
    // Version 1 knows none of these words.
    for word in [
        "\"cut\": {\"leaf\": 2, \"window\": \"dormant\"}",
        "\"origin\": \"return\"",
        "\"bend_radius_dmm\": 10",
    ] {
        let old = &samples(1)["v1-everything.json"];
        let name = word.split('"').nth(1).unwrap();
        let place = if name == "cut" {
            "\"kept_mm\": 150"
        } else {
            "\"pose\": \"laid\""
        };
        let text = old.replacen(place, &format!("{place}, {word}"), 1);
        assert_ne!(&text, old);
        check_refused(&text, "refusal-file-content", &[name]);
    }
}

#[test]
fn from_version_2_nothing_is_lost_and_nothing_made_up() {
    for (name, text) in samples(2) {
        let plan = read_plan(text.as_bytes()).unwrap();
        let expected = text.replacen("\"version\": 2,", "\"version\": 5,", 1);
        assert_eq!(write_plan(&plan), expected, "{name}");
        for scheme in &plan.schemes {
            assert_eq!((&scheme.standing, scheme.crop_from), (&None, None));
        }
    }
}

#[test]
fn version_3_tells_what_a_forecast_goes_by() {
    let plan = read_plan(EVERYTHING.as_bytes()).unwrap();
    let values = Assumptions::default()
        .with(Parameter::ClassM, 17.5)
        .with(Parameter::ShareP, 0.8);
    assert_eq!(*plan.assumptions, values);
    assert_eq!(plan.tipped, Some(true));
    let vigours: Vec<_> = plan.found.trees.iter().map(|t| t.vigour).collect();
    assert_eq!(vigours, [Some(Vigour::Weak), None, None]);
    let (first, second) = (&plan.schemes[0], &plan.schemes[1]);
    assert_eq!((first.crop_from, second.crop_from), (Some(4), None));
    assert_eq!(second.standing, None);
    let standing = first.standing.as_ref().unwrap();
    let set = [
        (Rule::BudsFrom, 2.0),
        (Rule::TipShare, 0.15),
        (Rule::RenewFrom, 0.0),
        (Rule::Thin, 0.0),
    ];
    assert!(standing.rules.overrides().eq(set));
    let moment = |leaf, window| Moment { leaf, window };
    let idle = [moment(5, Window::AfterHarvest), moment(6, Window::Dormant)];
    let mut planned = first.schedule.moments();
    planned.extend(idle);
    assert_eq!(standing.planned, planned);
    assert!(first.stands(moment(6, Window::BudSwell)));
    // Rules that are the usual ones are rules too.
    let usual = changed(
        "{\"name\": \"Leave it\"}",
        "{\"name\": \"Leave it\", \"standing\": {}}",
    );
    let plan = read_plan(usual.as_bytes()).unwrap();
    assert!(plan.schemes[1].stands(moment(3, Window::Dormant)));
    assert_eq!(write_plan(&plan), usual);
    // Version 2 knows none of these words.
    let v2 = include_str!("../data/versions/v2-everything.json");
    for (before, word, path) in [
        (
            "  \"found\"",
            "\"assumptions\": {\"class_m\": 9}",
            "assumptions",
        ),
        ("\"from_mm\"", "\"tipped\": false", "found.tipped"),
        (
            "\"note\": \"dead\"",
            "\"vigour\": \"weak\"",
            "found.trees[1].vigour",
        ),
        ("\"seasons\"", "\"crop_from\": 3", "schemes[0]"),
        ("\"seasons\"", "\"standing\": {}", "schemes[0]"),
        (
            "\"seasons\"",
            "\"planned\": [{\"leaf\": 4, \"window\": \"dormant\"}]",
            "schemes[0]",
        ),
    ] {
        let text = v2.replacen(before, &format!("{word}, {before}"), 1);
        assert_ne!(text, v2);
        check_refused(&text, "refusal-file-rule", &[path, "version 2"]);
    }
}

#[test]
fn from_version_3_nothing_is_lost_and_nothing_made_up() {
    for (name, text) in samples(3) {
        let plan = read_plan(text.as_bytes()).unwrap();
        let expected = text.replacen("\"version\": 3,", "\"version\": 5,", 1);
        assert_eq!(write_plan(&plan), expected, "{name}");
        assert!(plan.left.is_empty() && plan.found.trees.iter().all(|t| t.like.is_none()));
    }
}

#[test]
fn version_4_tells_what_is_left_and_what_was_filled_in() {
    let plan = read_plan(EVERYTHING.as_bytes()).unwrap();
    let like: Vec<_> = plan.found.trees.iter().map(|t| t.like).collect();
    assert_eq!(like, [None, Some(TreeId(1)), None]);
    let reasons: Vec<&str> = plan.left.iter().map(|l| &*l.reason).collect();
    assert_eq!(
        reasons,
        [
            "the neighbour lays its end in spring",
            "no hands",
            "planted next year"
        ]
    );
    let (first, second) = (&plan.left[0].spots[0], &plan.left[1].spots[0]);
    assert_eq!(first.part, Some((TreeId(1), Some(ShootId::found(0)))));
    assert_eq!((first.parts, first.x.0, first.measured), (2, 1234, 612.5));
    assert_eq!(second.part, Some((TreeId(7), None)));
    // The versions before know none of these words.
    for version in [2, 3] {
        let old = samples(version)[&format!("v{version}-everything.json")].clone();
        for (before, word, path) in [
            (
                "\"marks\"",
                "\"left\": [{\"leaf\": 4, \"cause\": \"a\", \"reason\": \"b\"}]",
                "left",
            ),
            ("\"note\": \"dead\"", "\"like\": 1", "found.trees[1].like"),
        ] {
            let text = old.replacen(before, &format!("{word}, {before}"), 1);
            assert_ne!(text, old);
            let said = format!("version {version}");
            check_refused(&text, "refusal-file-rule", &[path, &said]);
        }
    }
    for (from, to, says) in [
        (
            "\"leaf\": 6, \"cause\"",
            "\"leaf\": 41, \"cause\"",
            "left[2].leaf",
        ),
        (
            "\"x_mm\": 1234",
            "\"x_mm\": 5000001",
            "left[0].found[0].x_mm",
        ),
        ("\"parts\": 6", "\"parts\": -1", "left[1].found[0].parts"),
        (
            "\"measured\": 612.5",
            "\"measured\": 1e10",
            "left[0].found[0].measured",
        ),
    ] {
        check_refused(&changed(from, to), "refusal-file-value", &[says]);
    }
    let long = "x".repeat(401);
    let text = changed("no hands", &long);
    check_refused(
        &text,
        "refusal-file-long-text",
        &["left[1].reason", "401", "400"],
    );
    check_refused(
        &changed("\"parts\": 6", "\"part\": 6"),
        "refusal-file-content",
        &["part"],
    );
}

#[test]
fn from_version_4_nothing_is_lost_and_nothing_made_up() {
    for (name, text) in samples(4) {
        let plan = read_plan(text.as_bytes()).unwrap();
        let expected = text.replacen("\"version\": 4,", "\"version\": 5,", 1);
        assert_eq!(write_plan(&plan), expected, "{name}");
        assert!(plan.counts.is_empty() && *plan.hands == Hands::default());
        assert!(plan.schemes.iter().all(|s| s.field.is_empty()));
        assert!(!plan.found.trees.iter().any(|t| t.diseased));
    }
}

#[test]
fn version_5_tells_what_is_told_from_the_row() {
    let plan = read_plan(EVERYTHING.as_bytes()).unwrap();
    let ill: Vec<_> = plan.found.trees.iter().map(|t| t.diseased).collect();
    assert_eq!(ill, [true, false, false]);
    assert_eq!(plan.hands.rates.get(Rate::Stub), 22.5);
    assert_eq!(plan.hands.rates.get(Rate::Walk), 0.0);
    assert_eq!(plan.hands.rates.get(Rate::Tip), Rate::Tip.info().1);
    assert_eq!(plan.hands.people, [(Job::Stub, 3), (Job::Tie, 1)].into());
    let spur = |buds, flowers, dead| SpurCount {
        buds,
        flowers,
        dead,
    };
    let spurs: Vec<_> = plan.counts.iter().map(|c| c.spurs.clone()).collect();
    let first = vec![spur(4, Some(6), 1), spur(0, None, 0)];
    assert_eq!(spurs, [first, vec![spur(60, Some(0), 60)]]);
    assert_eq!(plan.counts_of(4).count(), 1);
    let (scheme, field) = (&plan.schemes[0], &plan.schemes[0].field);
    let told = |leaf, window| -> Vec<Told> {
        let at = Moment { leaf, window };
        scheme.work(at).map(|w| field.told(at, w)).collect()
    };
    let (open, done) = (Told::Open, Told::Done);
    let bud = Told::Skipped("no bud there".into());
    let expected = [done.clone(), done.clone(), open.clone(), bud];
    assert_eq!(told(3, Window::Dormant), expected);
    assert_eq!(told(3, Window::BudSwell), [done]);
    // The tip was left when it was to be another.
    assert_eq!(
        told(4, Window::Dormant)
            .iter()
            .filter(|t| **t != open)
            .count(),
        1
    );
    let at = Moment::dormant(3);
    let seen: Vec<_> = scheme.work(at).map(|w| field.seen(at, w)).collect();
    assert_eq!(seen, [None, Some(Seen::Wrong), None, None]);
    assert_eq!(field.extra(at, Job::TakeOff, TreeId(1)), Some(2));
    assert_eq!(field.extra(at, Job::Stub, TreeId(1)), None);
    assert_eq!(field.note(at, None), "the cordon wire is slack");
    assert_eq!(field.note(at, Some(TreeId(7))), "canker at the foot");
    assert_eq!(field.note(at, Some(TreeId(1))), "");
    // The versions before know none of these words.
    for version in [2, 3, 4] {
        let old = samples(version)[&format!("v{version}-everything.json")].clone();
        for (before, word, path) in [
            (
                "\"marks\"",
                "\"counts\": [{\"leaf\": 4, \"tree\": 1, \"spurs\": [{\"buds\": 1}]}]",
                "counts",
            ),
            ("\"marks\"", "\"crew\": {}", "crew"),
            ("\"seasons\"", "\"field\": {}", "schemes[0].field"),
            (
                "\"note\": \"dead\"",
                "\"diseased\": true",
                "found.trees[1].diseased",
            ),
        ] {
            let text = old.replacen(before, &format!("{word}, {before}"), 1);
            assert_ne!(text, old);
            let said = format!("version {version}");
            check_refused(&text, "refusal-file-rule", &[path, &said]);
        }
    }
}

#[test]
fn what_version_5_brought_is_refused_with_its_place() {
    let field = "schemes[0].field";
    for (from, to, says) in [
        (
            "\"flowers\": 6",
            "\"flowers\": 21",
            "counts[0].spurs[0].flowers",
        ),
        ("\"buds\": 60", "\"buds\": 61", "counts[1].spurs[0].buds"),
        (
            "\"buds\": 4, \"flowers\": 6, \"dead\": 1",
            "\"buds\": 4, \"dead\": 5",
            "counts[0].spurs[0].dead must be between 0 and 4, not 5",
        ),
        ("\"stub\": 22.5", "\"stub\": 7201", "crew.rates.stub"),
        ("\"cuts\": 2", "\"cuts\": 0", "extra[0].cuts"),
        (
            "\"percent\": 25}}",
            "\"percent\": 91}}",
            "skipped[1].work.percent",
        ),
    ] {
        check_refused(&changed(from, to), "refusal-file-value", &[says]);
    }
    let people = changed("\"tie\": 1", "\"tie\": 1.5");
    check_refused(&people, "refusal-file-whole", &["crew.people.tie", "100"]);
    let long = changed("no bud there", &"x".repeat(401));
    let says = format!("{field}.skipped[0].reason");
    check_refused(&long, "refusal-file-long-text", &[&says, "401", "400"]);
    let unseen = changed(", \"is\": \"wrong\"", "");
    let says = format!("{field}.seen[0].is");
    check_refused(
        &unseen,
        "refusal-file-rule",
        &[&says, "right, missed or wrong"],
    );
    // What is told twice is told of nothing.
    for (from, to, place) in [
        (
            "{\"do\": \"keep_bud\", \"tree\": 1, \"shoot\": 0, \"at_mm\": 1600}, \"reason\"",
            "{\"do\": \"stub\", \"tree\": 1, \"shoot\": 1, \"keep_mm\": 90}, \"reason\"",
            "skipped[0].work",
        ),
        (
            "\"leaf\": 4, \"tree\": 1, \"spurs\"",
            "\"leaf\": 3, \"tree\": 1, \"spurs\"",
            "counts[1].tree",
        ),
        (", \"tree\": 7, \"text\"", ", \"text\"", "notes[1]"),
    ] {
        check_refused(&changed(from, to), "refusal-file-twice", &[place]);
    }
    for (from, to) in [
        ("\"walk\": 0", "\"run\": 0"),
        ("\"tie\": 1", "\"stub\": 1"),
        ("\"is\": \"missed\"", "\"is\": \"gone\""),
        ("\"take_off\", \"tree\"", "\"taken\", \"tree\""),
    ] {
        check_refused(&changed(from, to), "refusal-file-content", &["ine"]);
    }
}

#[test]
fn what_version_3_brought_is_refused_with_its_place() {
    for (from, to, says) in [
        (
            "\"class_m\": 17.5",
            "\"class_m\": 17.6",
            "assumptions.class_m",
        ),
        (
            "\"crop_from\": 4",
            "\"crop_from\": 41",
            "schemes[0].crop_from",
        ),
        ("\"leaf\": 6,", "\"leaf\": 0,", "schemes[0].planned[1].leaf"),
    ] {
        check_refused(&changed(from, to), "refusal-file-value", &[says]);
    }
    check_refused(
        &changed("\"buds_from\": 2", "\"buds_from\": 1.5"),
        "refusal-file-whole",
        &["schemes[0].standing.buds_from must be a whole number between 0 and 20, not 1.5"],
    );
    for (from, to) in [
        ("\"class_m\"", "\"class_n\""),
        ("\"buds_from\"", "\"bud_from\""),
        ("\"thin\": 0", "\"buds_from\": 2"),
        ("\"weak\"", "\"feeble\""),
        ("\"tipped\": true", "\"tipped\": 1"),
    ] {
        check_refused(&changed(from, to), "refusal-file-content", &["ine"]);
    }
}

#[test]
fn a_byte_order_mark_and_other_line_ends_do_no_harm() {
    let plan = read_plan(EVERYTHING.as_bytes()).unwrap();
    let windows = format!("\u{feff}{}", EVERYTHING.replace('\n', "\r\n"));
    assert_eq!(read_plan(windows.as_bytes()).unwrap(), plan);
}

#[test]
fn work_is_put_in_its_canonical_order() {
    let plan = read_plan(EVERYTHING.as_bytes()).unwrap();
    let lay = r#"{"do": "lay", "tree": 1, "shoot": 0, "toward": "right", "rise_deg": 2}"#;
    let stub = r#"{"do": "stub", "tree": 1, "shoot": 1, "keep_mm": 150}"#;
    let swapped = changed(lay, "HERE")
        .replacen(stub, lay, 1)
        .replacen("HERE", stub, 1);
    assert_ne!(swapped, EVERYTHING);
    assert_eq!(read_plan(swapped.as_bytes()).unwrap(), plan);
    // Of two items with one subject the later holds.
    let earlier = format!("{}, {lay}", lay.replace(": 2}", ": 5}"));
    let twice = changed(lay, &earlier);
    assert_eq!(read_plan(twice.as_bytes()).unwrap(), plan);
}

#[test]
fn what_is_no_plan_of_ours_is_refused() {
    check_refused("", "refusal-file-empty", &[]);
    check_refused(" \r\n", "refusal-file-empty", &[]);
    let table = "\u{feff}Block 7\ntree;place;kind;length\n1;0;leader;2,2\n";
    check_refused(
        table,
        "refusal-file-kind",
        &["no plan: it is a table", "Import it first"],
    );
    check_refused("[]", "refusal-file-kind", &["no plan", "a list in JSON"]);
    check_refused("<html>", "refusal-file-kind", &["a web page"]);
    check_refused("PK\u{3}\u{4}", "refusal-file-kind", &["a workbook"]);
    check_refused("7", "refusal-file-content", &["Line 1", "column"]);
    check_refused("{}", "refusal-file-format", &["nothing", "cordonry-plan"]);
    let other = changed("\"cordonry-plan\"", "\"other\"");
    check_refused(&other, "refusal-file-format", &["other"]);
    let newer = changed("\"version\": 5", "\"version\": 6");
    check_refused(&newer, "refusal-file-too-new", &["5", "newer program"]);
    let newest = changed("\"version\": 5", "\"version\": 1e99");
    check_refused(&newest, "refusal-file-too-new", &["newer program"]);
    for bad in ["0", "-1", "0.5", "\"1\"", "null", "{}"] {
        let text = changed("\"version\": 5", &format!("\"version\": {bad}"));
        check_refused(&text, "refusal-file-version", &["between 1 and 5"]);
    }
    let quoted = changed("\"version\": 5", "\"version\": \"3\"");
    let says = "The version must be between 1 and 5, without quotation marks, not \"3\"";
    check_refused(&quoted, "refusal-file-version", &[says]);
}

#[test]
fn work_that_can_t_be_read_or_done_is_refused_by_its_place_as_it_stands() {
    let lay = r#"{"do": "lay", "tree": 1, "shoot": 0, "toward": "right", "rise_deg": 2}"#;
    let place = "schemes[0].seasons[0].dormant[0]";
    for (work, key, says) in [
        (
            r#"{"do": "tip", "tree": 1, "shoot": 0, "percent": 300}"#,
            "refusal-file-value",
            "percent must be between 1 and 90, not 300",
        ),
        (
            r#"{"do": "cut_to_buds", "tree": 1, "shoot": 0, "buds": -3}"#,
            "refusal-file-value",
            "buds must be between 1 and 20, not −3",
        ),
        (
            r#"{"do": "tip", "tree": 1, "shoot": 0, "percent": "a fifth"}"#,
            "refusal-file-content",
            "percent must be a whole number between −2147483648 and 2147483647, not \"a fifth\"",
        ),
        (
            r#"{"do": "tip", "tree": 1, "shoot": 0, "percent": [20]}"#,
            "refusal-file-content",
            "percent must be a whole number between −2147483648 and 2147483647, not a list in square brackets",
        ),
        (
            r#"{"do": "tip", "tree": 1, "shoot": 0}"#,
            "refusal-file-content",
            " must have percent; it is missing",
        ),
        (
            r#"{"do": "lay", "tree": 1, "shoot": 0, "toward": "up", "rise_deg": 2}"#,
            "refusal-file-content",
            "toward must be one of left, right, not 'up'",
        ),
    ] {
        check_refused(&changed(lay, work), key, &[place, says]);
    }
    // Of a part that is missing the whole is named that it is missing from.
    let without = changed("\"foot_mm\": 0,\n", "\n");
    let says = "found.trees[0] must have foot_mm; it is missing";
    check_refused(&without, "refusal-file-content", &[says]);
    let word = changed("\"trees\": [", "\"trees\": 3, \"others\": [");
    let says = "found.trees must be a list in square brackets, not 3";
    check_refused(&word, "refusal-file-content", &[says]);
}

#[test]
fn a_newer_plan_is_named_so_even_with_words_we_do_not_know() {
    let newer = changed(
        "\"version\": 5",
        "\"version\": 7, \"orchard\": [{\"deep\": [1]}]",
    );
    check_refused(&newer, "refusal-file-too-new", &["version 7"]);
}

#[test]
fn what_is_damaged_is_refused_with_its_place() {
    let cut = &EVERYTHING[..EVERYTHING.len() / 2];
    let lines = cut.lines().count();
    check_refused(cut, "refusal-file-cut", &[&format!("line {lines}")]);
    let broken = changed("\"trees\": [", "\"trees\": ]");
    check_refused(&broken, "refusal-file-damaged", &["line", "column"]);
    let unknown = changed("\"foot_mm\"", "\"foot\"");
    check_refused(
        &unknown,
        "refusal-file-content",
        &[
            "Line",
            "found.trees[0] can have no foot; it must be one of id, foot_mm",
        ],
    );
    let twice = changed("\"leaf\": 3,", "\"leaf\": 3, \"leaf\": 3,");
    check_refused(
        &twice,
        "refusal-file-content",
        &["found: leaf stands there twice"],
    );
    let words = changed("\"foot_mm\": 0", "\"foot_mm\": \"here\"");
    check_refused(
        &words,
        "refusal-file-content",
        &[
            "found.trees[0].foot_mm must be a whole number, not \"here\"",
            "column",
        ],
    );
    let fraction = changed("\"foot_mm\": 0", "\"foot_mm\": 0.5");
    check_refused(
        &fraction,
        "refusal-file-content",
        &["found.trees[0].foot_mm must be a whole number, not 0.5"],
    );
    let limit = changed("\"gap_max_mm\"", "\"gap_best_mm\"");
    check_refused(&limit, "refusal-file-content", &["gap_best_mm"]);
    for (from, to, says) in [
        (
            "\"laid\"",
            "\"lying\"",
            [
                "pose must be one of laid, upright, stub, free, not 'lying'",
                "found.trees[0].shoots[0]",
            ],
        ),
        ("\"return\"", "\"returned\"", ["returned", "cut_back_bud"]),
        (
            "\"after_harvest\"}",
            "\"autumn\"}",
            ["autumn", "after_harvest"],
        ),
        (
            "{\"leaf\": 3, \"window\"",
            "{\"leaf\": 3, \"day\": 4, \"window\"",
            ["day", "Line"],
        ),
    ] {
        check_refused(&changed(from, to), "refusal-file-content", &says);
    }
    for nan in ["NaN", "Infinity", "1e999", "null5", "-"] {
        let text = changed(
            "\"latitude_deg\": 51.25",
            &format!("\"latitude_deg\": {nan}"),
        );
        assert!(read_plan(text.as_bytes()).is_err(), "{nan}");
    }
}

#[test]
fn a_value_out_of_range_is_refused_with_its_path() {
    let check = |from: &str, to: &str, says: &[&str]| {
        check_refused(&changed(from, to), "refusal-file-value", says);
    };
    let foot = "found.trees[0].foot_mm";
    check(
        "\"foot_mm\": 0",
        "\"foot_mm\": 99000000",
        &[foot, "99000000", "5000000"],
    );
    check("\"foot_mm\": 0", "\"foot_mm\": 1000000000000000", &[foot]);
    check(
        "\"leaf\": 3,",
        "\"leaf\": 0,",
        &["found.leaf", "between 1 and 40"],
    );
    // As on the page.
    for (key, now, low, high) in [
        ("row_spacing_mm", 3000, 500, 100_000),
        ("wall_height_mm", 2500, 100, 6_000),
    ] {
        let from = format!("\"{key}\": {now}");
        let to = |v: i32| format!("\"{key}\": {v}");
        let range = format!("between {low} and {high}");
        for out in [1, low - 1, high + 1] {
            check(&from, &to(out), &[key, &range]);
        }
        for fits in [low, high] {
            assert!(read_plan(changed(&from, &to(fits)).as_bytes()).is_ok());
        }
    }
    check("\"to_mm\": 6100", "\"to_mm\": -6100", &["found.to_mm"]);
    check(
        "\"angle_deg\": 45",
        "\"angle_deg\": 5",
        &["found.trees[0].planted.angle_deg", "between 10 and 90"],
    );
    check(
        "\"rise_deg\": 3",
        "\"rise_deg\": 33",
        &["rise_deg", "33", "between −10 and 30"],
    );
    check(
        "\"at_mm\": 1000",
        "\"at_mm\": 9000",
        &[
            "found.trees[0].shoots[1].at_mm",
            "9000",
            "between 0 and 1950",
        ],
    );
    check(
        "\"kept_mm\": 650",
        "\"kept_mm\": 5650",
        &["kept_mm", "5650", "820"],
    );
    check(
        "\"id\": 1, \"parent\"",
        "\"id\": 99000000000, \"parent\"",
        &["found.trees[0].shoots[1].id"],
    );
    let cut = "found.trees[0].shoots[2].units[0].cut.leaf";
    let made = |leaf: i32| format!("\"cut\": {{\"leaf\": {leaf}, \"window\": \"dormant\"");
    check(&made(3), &made(0), &[cut, "between 1 and 3, not 0"]);
    check(&made(3), &made(4), &[cut, "between 1 and 3, not 4"]);
    let radius = "found.trees[0].shoots[0].bend_radius_dmm";
    let bent = |dmm: i32| format!("\"bend_radius_dmm\": {dmm}");
    check(&bent(4005), &bent(-1), &[radius, "between 0 and 200000"]);
    check(&bent(4005), &bent(200_001), &[radius, "200001"]);
    // Nothing has grown of the leaf before which the row was found.
    let grown = changed("\"leaf\": 3,", "\"leaf\": 1,");
    check_refused(
        &grown,
        "refusal-file-value",
        &["units[1].leaf must be between 0 and 0, not 1"],
    );
    let limit = changed("\"gap_max_mm\": 120", "\"gap_max_mm\": -1");
    check_refused(&limit, "refusal-limit", &["gap_max_mm"]);
}

#[test]
fn work_out_of_range_is_refused_with_its_path() {
    let kept = include_str!("../data/versions/v2-everything.json");
    let with = |work: &str| {
        let work = format!("\"seasons\": [{{\"leaf\": 39, \"bud_swell\": [{work}]}}, ");
        let text = kept.replacen("\"seasons\": [", &work, 1);
        assert_ne!(text, kept);
        text
    };
    let plant = |foot: i64, angle: i32, length: i32, dmm: i32| {
        with(&format!(
            "{{\"do\": \"plant\", \"tree\": 99, \"foot_mm\": {foot}, \"planted\": {{\"angle_deg\": {angle}, \"toward\": \"right\"}}, \"length_mm\": {length}, \"diameter_dmm\": {dmm}}}"
        ))
    };
    let far = plant(2_147_000_000, 45, 1500, 150);
    let at = "schemes[0].seasons[0].bud_swell[0]";
    let refused = |text: &str, field: &str, says: &str| {
        let path = format!("{at}.{field}");
        check_refused(text, "refusal-file-value", &[&path, says]);
    };
    refused(
        &far,
        "foot_mm",
        "between −5000000 and 5000000, not 2147000000",
    );
    let of = |work: &str| with(&format!("{{{work}}}"));
    refused(
        &plant(0, 5, 1500, 150),
        "planted.angle_deg",
        "between 10 and 90",
    );
    refused(&plant(0, 45, 99, 150), "length_mm", "between 100 and 5000");
    refused(
        &plant(0, 45, 1500, 29),
        "diameter_dmm",
        "between 30 and 600",
    );
    for (work, field, says) in [
        (
            "\"do\": \"stand\", \"tree\": 1, \"shoot\": 1, \"lean_deg\": 61",
            "lean_deg",
            "between −60 and 60",
        ),
        (
            "\"do\": \"cut_back\", \"tree\": 1, \"shoot\": 1, \"keep_mm\": 9",
            "keep_mm",
            "between 10 and 20000",
        ),
        (
            "\"do\": \"stub\", \"tree\": 1, \"shoot\": 1, \"keep_mm\": 501",
            "keep_mm",
            "between 20 and 500",
        ),
        (
            "\"do\": \"tip\", \"tree\": 1, \"shoot\": 1, \"percent\": 91",
            "percent",
            "between 1 and 90",
        ),
        (
            "\"do\": \"keep_bud\", \"tree\": 1, \"shoot\": 0, \"at_mm\": -1",
            "at_mm",
            "between 0 and 20000",
        ),
        (
            "\"do\": \"notch\", \"tree\": 1, \"shoot\": 0, \"at_mm\": 20001",
            "at_mm",
            "between 0 and 20000",
        ),
        (
            "\"do\": \"hold_height\", \"tree\": 1, \"shoot\": 1, \"height_mm\": 20001",
            "height_mm",
            "between 0 and 20000",
        ),
        (
            "\"do\": \"move_wire\", \"height_mm\": 500, \"to_mm\": 6001",
            "to_mm",
            "between 50 and 6000",
        ),
        (
            "\"do\": \"add_wire\", \"height_mm\": 49, \"covering\": \"bare\"",
            "height_mm",
            "between 50 and 6000",
        ),
    ] {
        refused(&of(work), field, says);
    }
}

#[test]
fn a_broken_tree_is_refused_with_its_path() {
    let check = |from: &str, to: &str, key: &str, says: &[&str]| {
        check_refused(&changed(from, to), key, says);
    };
    let (twice, rule) = ("refusal-file-twice", "refusal-file-rule");
    let shoot = "found.trees[0].shoots[1]";
    check(
        "\"id\": 1, \"parent\"",
        "\"id\": 0, \"parent\"",
        twice,
        &[shoot],
    );
    check(
        "\"id\": 2, \"foot",
        "\"id\": 1, \"foot",
        twice,
        &["found.trees[1].id", "1"],
    );
    check(
        "\"id\": 1, \"parent\": 0",
        "\"id\": 1, \"parent\": 7",
        rule,
        &[shoot, "parent"],
    );
    check(
        "\"id\": 1, \"parent\": 0, ",
        "\"id\": 1, ",
        rule,
        &[shoot, "parent"],
    );
    check(
        "\"pose\": \"stub\"",
        "\"pose\": \"stub\", \"lean_deg\": 3",
        rule,
        &["lean_deg"],
    );
    check(
        "\"pose\": \"stub\"",
        "\"pose\": \"stub\", \"bend_radius_dmm\": 300",
        rule,
        &["bend_radius_dmm"],
    );
    check(
        "\"toward\": \"right\", \"rise_deg\": 3",
        "\"rise_deg\": 3",
        rule,
        &["toward"],
    );
}

#[test]
fn too_much_is_refused_soon() {
    let tree = |n: usize| {
        format!(r#"{{"id":{n},"foot_mm":0,"planted":{{"angle_deg":45,"toward":"right"}}}}"#)
    };
    let many: Vec<String> = (0..200_000).map(tree).collect();
    let head = r#"{"format":"cordonry-plan","version":1,"found":{"leaf":1,"from_mm":0,"to_mm":1,
        "trellis":{"wires":[{"height_mm":500}],"wall_height_mm":2500},"trees":"#;
    let text = format!("{head}[{}]}}}}", many.join(","));
    check_refused(&text, "refusal-file-content", &["more than 5000 items"]);
    let count = format!("{head}1000000000}}}}");
    check_refused(&count, "refusal-file-content", &["1000000000"]);
    let deep = "[".repeat(1_000_000);
    assert!(read_plan(deep.as_bytes()).is_err());
    let size = vec![b' '; MAX_BYTES + 1];
    assert_eq!(read_plan(&size).unwrap_err().key, "refusal-file-size");
    let note = changed(
        "\"text\": \"look",
        &format!("\"text\": \"look{}", "é".repeat(4_001)),
    );
    check_refused(&note, "refusal-file-long-text", &["marks[0].text", "4000"]);
    let latin: Vec<u8> = EVERYTHING.bytes().chain([0xe9, b'\n']).collect();
    assert_eq!(read_plan(&latin).unwrap_err().key, "refusal-file-text");
}

#[test]
fn a_minimal_plan_is_read() {
    let text = r#"{"format": "cordonry-plan", "version": 1, "found": {"leaf": 1, "from_mm": 0, "to_mm": 0,
        "trellis": {"wires": [{"height_mm": 500}], "wall_height_mm": 2500}}}"#;
    let plan = read_plan(text.as_bytes()).unwrap();
    assert_eq!(plan.schemes.len(), 1);
    assert_eq!(read_plan(write_plan(&plan).as_bytes()).unwrap(), plan);
}

mod hostile {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn no_bytes_crash_the_reader(
            bytes in proptest::collection::vec((any::<usize>(), any::<u8>()), 0..4),
            cut in 0usize..9_000,
        ) {
            let mut text = EVERYTHING.as_bytes().to_vec();
            for (at, byte) in bytes {
                let at = at % text.len();
                text[at] = byte;
            }
            text.truncate(cut.max(1));
            if let Ok(plan) = read_plan(&text) {
                let saved = write_plan(&plan);
                prop_assert_eq!(write_plan(&read_plan(saved.as_bytes()).unwrap()), saved);
            }
        }

        /// Numbers put where others were: read or refused, and what is read is saved and read the same.
        #[test]
        fn no_numbers_crash_the_reader(
            at in any::<proptest::sample::Index>(),
            number in prop_oneof!["-?[0-9]{1,25}", "-?[0-9]{1,4}\\.[0-9]{1,3}", "[0-9]e[0-9]{1,3}", "null", "\\[\\]", "true"],
        ) {
            let places: Vec<usize> = EVERYTHING.match_indices(": ").map(|(i, _)| i + 2).collect();
            let from = places[at.index(places.len())];
            let rest = &EVERYTHING[from..];
            let to = from + rest.find([',', '}', ']', '\n']).unwrap_or(0);
            let text = format!("{}{number}{}", &EVERYTHING[..from], &EVERYTHING[to..]);
            if let Ok(plan) = read_plan(text.as_bytes()) {
                let saved = write_plan(&plan);
                prop_assert_eq!(read_plan(saved.as_bytes()).unwrap(), plan);
            }
        }
    }
}

#[test]
fn every_limit_of_version_1_is_read_for_ever() {
    let text = include_str!("../data/versions/limits-of-v1.json");
    let written: serde_json::Value = serde_json::from_str(text).unwrap();
    let written = written["targets"].as_object().unwrap();
    assert_eq!(written.len(), 44, "version 1 has 44 limits");
    let plan = read_plan(text.as_bytes()).unwrap();
    // What the model still has holds the value, or the nearest that it accepts now.
    let mut held = 0;
    for limit in Limit::ALL {
        let info = limit.info();
        if let Some(value) = written.get(info.key).and_then(serde_json::Value::as_f64) {
            assert_eq!(
                plan.targets.get(*limit),
                value.clamp(info.min, info.max),
                "{}",
                info.key
            );
            held += 1;
        }
    }
    assert!(held >= 40, "{held} of them are known today");
    check_refused(
        &text.replace("\"gap_max_mm\": 1000", "\"gap_max_mm\": 1001"),
        "refusal-limit",
        &["1001", "1000"],
    );
    check_refused(
        &text.replace("gap_max_mm", "gap_most_mm"),
        "refusal-file-content",
        &["gap_most_mm"],
    );
}

#[test]
fn a_notch_is_written_in_version_2_and_refused_in_version_1() {
    let v2 = include_str!("../data/versions/v2-everything.json");
    let notch = "{\"do\": \"notch\", \"tree\": 1, \"shoot\": 0, \"at_mm\": 1100}";
    let plan = read_plan(v2.as_bytes()).unwrap();
    let saved = write_plan(&plan);
    assert!(v2.contains(notch) && saved.contains(notch));
    assert_eq!(read_plan(saved.as_bytes()).unwrap(), plan);
    let kept = "{\"do\": \"keep_bud\"";
    let v1 = include_str!("../data/versions/v1-everything.json");
    assert!(v1.contains(kept));
    let notched = v1.replace(kept, "{\"do\": \"notch\"");
    check_refused(&notched, "refusal-file-rule", &["version 1"]);
}

/// Every number of version 1 at its least, and at its greatest.
const LEAST: &str = include_str!("../data/versions/ends-of-v1-least.json");
const GREATEST: &str = include_str!("../data/versions/ends-of-v1-greatest.json");

/// What is written of the plan in a text of version 1 is the text, with each of `from` made `to`.
fn check_brought(text: &str, changes: &[(&str, &str)]) {
    let plan = read_plan(text.as_bytes()).unwrap_or_else(|e| panic!("{e}"));
    let mut expected = text.replacen("\"version\": 1,", "\"version\": 5,", 1);
    for (from, to) in changes {
        assert!(expected.contains(from), "no {from}");
        expected = expected.replace(from, to);
    }
    let expected: serde_json::Value = serde_json::from_str(&expected).unwrap();
    let written = write_plan(&plan);
    let same: serde_json::Value = serde_json::from_str(&written).unwrap();
    assert_eq!(same, expected);
    assert_eq!(read_plan(written.as_bytes()).unwrap(), plan);
}

#[test]
fn every_number_of_version_1_is_read_for_ever() {
    let wires = [
        r#"[{"height_mm": 1}, {"height_mm": 2, "covering": "plastic"}, {"height_mm": 50}, "#,
        r#"[{"height_mm": 50}, {"height_mm": 51, "covering": "plastic"}, {"height_mm": 52}, "#,
    ];
    check_brought(
        LEAST,
        &[
            // Wires keep their order, and work goes with its wire.
            (wires[0], wires[1]),
            (
                r#""cover_wire", "height_mm": 50"#,
                r#""cover_wire", "height_mm": 52"#,
            ),
            (
                r#""cover_wire", "height_mm": 1,"#,
                r#""cover_wire", "height_mm": 50,"#,
            ),
            (
                r#""move_wire", "height_mm": 2"#,
                r#""move_wire", "height_mm": 51"#,
            ),
            (
                r#""remove_wire", "height_mm": 1}"#,
                r#""remove_wire", "height_mm": 50}"#,
            ),
            // A wire that isn't there doesn't become one that is.
            (
                r#""remove_wire", "height_mm": 3}"#,
                r#""remove_wire", "height_mm": 53}"#,
            ),
            (r#""foot_mm": -2147483648"#, r#""foot_mm": -5000000"#),
            (r#""height_mm": -2147483648"#, r#""height_mm": 0"#),
        ],
    );
    check_brought(
        GREATEST,
        &[
            (r#""leaf": 40, "grown"#, r#""leaf": 39, "grown"#),
            (
                r#""count": 65535, "total_mm": 2147483647"#,
                r#""count": 10000, "total_mm": 1000000"#,
            ),
            (
                r#""count": 10001, "total_mm": 1000001"#,
                r#""count": 10000, "total_mm": 1000000"#,
            ),
            (r#""foot_mm": 2147483647"#, r#""foot_mm": 5000000"#),
            (r#""height_mm": 2147483647"#, r#""height_mm": 20000"#),
        ],
    );
}

#[test]
fn beyond_the_ranges_of_version_1_a_value_is_refused_with_its_path() {
    let check = |text: &str, from: &str, to: &str, says: &[&str]| {
        assert!(text.contains(from), "no {from}");
        check_refused(&text.replacen(from, to, 1), "refusal-file-value", says);
    };
    let wire = "found.trellis.wires";
    let one = "\"height_mm\": 1}";
    check(
        LEAST,
        one,
        "\"height_mm\": 0}",
        &[wire, "[0]", "between 1 and 6000"],
    );
    check(
        LEAST,
        one,
        "\"height_mm\": 2}",
        &[wire, "[1]", "between 3 and 6000"],
    );
    let shoot = "found.trees[0].shoots[0]";
    let count = [shoot, "laterals.count", "between 0 and 65535"];
    check(GREATEST, "65535", "65536", &count);
    let total = [shoot, "laterals.total_mm", "between 0 and 2147483647"];
    check(
        GREATEST,
        "\"total_mm\": 2147483647",
        "\"total_mm\": -1",
        &total,
    );
    let leaf = [shoot, "units[1].leaf", "between 0 and 40"];
    let grown = "\"leaf\": 40, \"grown";
    check(GREATEST, grown, "\"leaf\": 41, \"grown", &leaf);
    check(GREATEST, "\"leaf\": 40", "\"leaf\": 41", &["found.leaf"]);
    // The program of version 1 did no such work: with the nearest value it would be done.
    for (from, to, says) in [
        ("\"percent\": 90", "\"percent\": 91", "between 1 and 90"),
        ("\"lean_deg\": 60", "\"lean_deg\": 61", "between −60 and 60"),
        ("\"keep_mm\": 500", "\"keep_mm\": 501", "between 20 and 500"),
        ("\"buds\": 20", "\"buds\": 21", "between 1 and 20"),
        ("\"to_mm\": 6000", "\"to_mm\": 6001", "between 50 and 6000"),
    ] {
        check(GREATEST, from, to, &["schemes[0].seasons[0]", says]);
    }
}
