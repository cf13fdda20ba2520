//! Slips that people with a tape make: a place just past the wood, a lost point, a word of another language, and lines that are
//! left out. What is taken is said, what is not is asked, and the plan keeps a note of both.

use cordonry::file::csv::{Answers, Measured, Options, read};
use cordonry::row::TreeId;
use cordonry_words::Words;

const HEAD: &str = "tree,place (m),kind,length (m),diameter (mm),side,pose,season\n";
const LEADER: &str = "3,2.00,leader,2.10,34,right,45,0\n";

fn with(lines: &str, meant: &[(&str, &str)]) -> Measured {
    let meant = meant.iter().map(|(a, b)| (a.to_string(), b.to_string()));
    let options = Options {
        answers: Answers {
            meant: meant.collect(),
            ..Answers::default()
        },
        ..Options::default()
    };
    read(format!("{HEAD}{lines}").as_bytes(), &options).expect("a table")
}

fn said(measured: &Measured) -> Vec<String> {
    let words = Words::strict();
    measured.said.iter().map(|s| words.say(s)).collect()
}

fn refused(measured: &Measured) -> Vec<String> {
    let words = Words::strict();
    let why = |b: &cordonry::file::csv::BadLine| words.say(&b.reason());
    measured.bad.iter().map(why).collect()
}

#[test]
fn a_place_up_to_ten_centimetres_past_the_wood_is_taken_to_its_end_and_said() {
    // The leader ends at 3.90 m; a tape has slack.
    let end = with(LEADER, &[]).row.trees[0].shoots[0].length();
    let courses = |m: &Measured| m.row.tree(TreeId(3)).expect("it").shoots.clone();
    let check = |place: &str, at: Option<f64>, says: &str| {
        let got = with(&format!("{LEADER}3,{place},upright,0.5,12,,0,1\n"), &[]);
        match at {
            Some(at) => {
                assert_eq!(refused(&got), Vec::<String>::new(), "{place}");
                assert_eq!(courses(&got)[1].at, at, "{place}");
                let told = said(&got);
                assert!(told.iter().any(|s| s.contains(says)), "{told:?}");
            }
            None => {
                let why = refused(&got);
                assert_eq!(why.len(), 1, "{place}");
                assert!(why[0].contains(says), "{why:?}");
            }
        }
    };
    let reach = "beyond the end of its parent (leader, tree 3)";
    check(
        "3.98",
        Some(end),
        &format!("Line 3: place 3.98 m is 0.07 m {reach}: it is taken to the end"),
    );
    // So little is rounding.
    let near = with(&format!("{LEADER}3,3.918,upright,0.5,12,,0,1\n"), &[]);
    assert_eq!(courses(&near)[1].at, end);
    assert!(!said(&near).iter().any(|s| s.contains("beyond")));
    check("4.05", None, reach);
    check(
        "1.93",
        Some(0.0),
        "Line 3: place 1.93 m is 0.07 m before the beginning of its parent (leader, tree 3): it is taken there",
    );
    check("1.85", None, "before the beginning");
    check(
        "along 2.19",
        Some(end),
        &format!("Line 3: place 2.19 m is 0.09 m {reach}"),
    );
    check("along 2.22", None, reach);
}

#[test]
fn so_many_are_told_one_by_one_and_the_rest_counted() {
    let many: String = (0..14)
        .map(|n| format!("3,3.98,shoot,0.{}1,12,,,1\n", n + 10))
        .collect();
    let got = with(&format!("{LEADER}{many}"), &[]);
    let told = said(&got);
    let one = told.iter().filter(|s| s.contains("taken to the end"));
    assert_eq!(one.count(), 12);
    assert!(told.contains(&"2 more places just off their parents are taken to their ends".into()));
}

#[test]
fn what_was_likely_meant_can_be_taken_line_by_line() {
    let lines = format!(
        "{LEADER}3,2.9,upright,14.0,12,,0,1\n3,3.2,upright,1.2,1.6,,0,1\n3,3.5,upright,0.9,14,,0,1\n"
    );
    let got = with(&lines, &[]);
    let slips: Vec<(usize, &str, &str)> = got
        .slips
        .iter()
        .map(|s| (s.line, &*s.cell, &*s.reads))
        .collect();
    assert_eq!(
        slips,
        [(3, "length 3", "1.4 m"), (4, "diameter 4", "16 mm")]
    );
    let one = with(&lines, &[("length 3", "1.4 m")]);
    let upright = |m: &Measured, n: usize| m.row.trees[0].shoots[n].clone();
    assert_eq!(upright(&one, 1).length(), 1_400.0);
    assert_eq!(one.slips.len(), 1);
    assert!(said(&one).contains(&"Line 3: length is read as 1.40 m, as you said".into()));
    assert!(!said(&one).iter().any(|s| s.contains("14.0")));
    let all: Vec<(&str, &str)> = got.slips.iter().map(|s| (&*s.cell, &*s.reads)).collect();
    let both = with(&lines, &all);
    assert_eq!((both.slips.len(), upright(&both, 2).diameter), (0, 16.0));
    // It is the table with those cells.
    let written = lines.replace("14.0", "1.40").replace("1.6", "16");
    assert_eq!(both.row, with(&written, &[]).row);
    // Of two seasons' lengths the longer is the slip, where the shoot is usual without it; nobody knows where it is not.
    let two = |length: &str| {
        let got = with(&format!("{LEADER}3,2.9,upright,{length},12,,0,1\n"), &[]);
        assert!(said(&got).iter().any(|s| s.contains("unusual")));
        got
    };
    let got = two("6.4 + 0.55");
    let asked = said(&got).into_iter().find(|s| s.contains("unusual"));
    let asked = asked.expect("a doubt");
    assert!(asked.ends_with("Did you mean 0.64 m + 0.55 m?"), "{asked}");
    let reads = &got.slips[0].reads;
    assert_eq!(reads, "0.64 m + 0.55 m");
    let taken = with(
        &format!("{LEADER}3,2.9,upright,6.4 + 0.55,12,,0,1\n"),
        &[("length 3", reads)],
    );
    assert_eq!(
        (upright(&taken, 1).length(), taken.slips.len()),
        (1_190.0, 0)
    );
    assert_eq!(two("6.4 + 5.5").slips, []);
}

#[test]
fn a_word_of_another_language_is_asked_once_for_the_whole_table() {
    let lines = "1,0.00,leader,2.10,34,rechts,45,0\n2,3.60,leader,2.10,34,Links,45,0\n3,5.0,leader,2.10,34,rechts,45,0\n4,5.8,Trieb,1,,,,\n";
    let got = with(lines, &[]);
    // Nothing is guessed; the refusal names the words.
    assert_eq!(got.bad.len(), 4);
    assert!(refused(&got)[0].contains("left, right, top, side, under"));
    let asked = |m: &Measured| -> Vec<(String, usize, String)> {
        let of = m.unread.iter();
        of.map(|u| (u.cell.clone(), u.lines, u.now.clone()))
            .collect()
    };
    let open = String::new;
    assert_eq!(
        asked(&got),
        [
            ("kind trieb".into(), 1, open()),
            ("side rechts".into(), 2, open()),
            ("side links".into(), 1, open()),
        ]
    );
    let told = with(lines, &[("side rechts", "right"), ("side links", "left")]);
    assert_eq!(told.row.trees.len(), 3);
    assert_eq!(asked(&told)[1], ("side rechts".into(), 2, "right".into()));
    let english = lines.replace("rechts", "right").replace("Links", "left");
    assert_eq!(told.row, with(&english, &[]).row);
    // An answer that is no word of a table is none.
    assert_eq!(asked(&with(lines, &[("side rechts", "up")]))[1].2, "");
    // Another column's cells are no words.
    let shifted: String = (0..20)
        .map(|n| format!("{n},{n},leader,2,,{}x,45,0\n", "y".repeat(n + 1)))
        .collect();
    assert_eq!(with(&shifted, &[]).unread, []);
    assert_eq!(with("1,0,leader,2,,2.30 m,45,0\n", &[]).unread, []);
}

#[test]
fn a_word_where_a_length_is_wanted_is_called_a_word() {
    let got = with("1,0.00,leader,sechzig,34,right,45,0\n", &[]);
    let why = refused(&got);
    assert!(
        why[0].contains("'sechzig' is a word; a number is wanted"),
        "{why:?}"
    );
    let got = with("1,0.00,leader,60 furlongs,34,right,45,0\n", &[]);
    assert!(refused(&got)[0].contains("'furlongs' is no unit of length"));
}

#[test]
fn the_plan_keeps_what_was_left_out_and_assumed() {
    let words = Words::strict();
    let note = |m: &Measured| m.remains(&words);
    let got = with(
        &format!("{LEADER}3,9.5,upright,0.5,12,,0,1\n3,3.95,upright,0.5,12,,0,1\n"),
        &[],
    );
    let told = note(&got);
    assert!(
        told.starts_with("One line of the table was left out. Line 3: place must be"),
        "{told}"
    );
    assert!(told.contains("Line 4: place 3.95 m is"), "{told}");
    let many: String = (0..10).map(|n| format!("3,9.{n},bud,,,,,\n")).collect();
    let told = note(&with(&format!("{LEADER}{many}"), &[]));
    assert!(
        told.starts_with("10 lines of the table were left out. Line 3"),
        "{told}"
    );
    assert!(told.contains(" 2 more were left out."), "{told}");
}
