//! What a table leaves open is asked; an answer reads as the line above the names that says it.

use cordonry::file::csv::{Answers, Asked, Measured, Options, Question, read};
use cordonry::row::{Covering, GrowthUnit, TreeId};
use cordonry::units::{BareUnit, Mm};
use proptest::prelude::*;

const TABLE: &str = "tree,place (m),kind,length (m),diameter (mm),season\n\
    1,0,leader,2.2,38,0\n1,0.8,upright,1.9,14,1\n1,1.1,upright,0.7 + 0.5,14,1\n1,1.4,shoot,0.9,12,\n";

fn with(above: &str, given: &[(Question, &str)], bare: BareUnit) -> Measured {
    let given = given.iter().map(|(q, a)| (*q, a.to_string())).collect();
    let options = Options {
        answers: Answers {
            given,
            bare,
            ..Answers::default()
        },
        ..Options::default()
    };
    read(format!("{above}{TABLE}").as_bytes(), &options).expect("a table")
}

fn asked(measured: &Measured) -> Vec<Question> {
    measured.asks.iter().map(|a| a.question).collect()
}

fn about(measured: &Measured, question: Question) -> &Asked {
    let mut asks = measured.asks.iter();
    asks.find(|a| a.question == question).expect("it is asked")
}

/// All but what is still asked and what was passed over.
fn same(answered: &Measured, written: &Measured) {
    assert_eq!(answered.row, written.row);
    assert_eq!(answered.tipped, written.tipped);
    assert_eq!(answered.said, written.said);
    let bad = |m: &Measured| m.bad.iter().map(|b| b.why.clone()).collect::<Vec<_>>();
    assert_eq!(bad(answered), bad(written));
    let name = |m: &Measured| m.clone().plan("a row");
    assert_eq!(name(answered), name(written));
}

#[test]
fn only_what_the_table_leaves_open_is_asked() {
    use Question::*;
    let open = |above: &str| asked(&with(above, &[], BareUnit::Metre));
    // Two lengths from leaf 1 on make the coming leaf 3.
    assert_eq!(
        open(""),
        [Leaf, Wires, Covering, WallHeight, Lengths, Tipped]
    );
    // Of wood that did not grow last it is not asked whether that was tipped.
    assert_eq!(
        open("coming leaf,5\n"),
        [Wires, Covering, WallHeight, Lengths]
    );
    assert_eq!(
        open("wire,0.5 m\n"),
        [Leaf, Covering, WallHeight, Lengths, Tipped]
    );
    assert_eq!(
        open(
            "coming leaf,5\nwire,0.5 m,bare\nwall height,2 m\nlengths,by season\nlast growth tipped,no\n"
        ),
        []
    );
    // A wire that says it and one that does not.
    assert_eq!(
        open("wire,0.5 m,bare\nwire,1 m\nwall height,2 m\nlengths,in all\n"),
        [Leaf, Covering, Tipped]
    );
    // What can't be taken is still open.
    assert!(open("coming leaf,99\n").contains(&Leaf));
    // On young trees no length can be of two seasons.
    let young = read(
        b"tree,place (m),kind,length (m)\n1,0,leader,2.2\n1,0.8,upright,0.6\n",
        &Options::default(),
    );
    assert!(!asked(&young.expect("a table")).contains(&Lengths));
    // Nothing is asked of a table of which nothing is taken.
    let none = read(
        b"tree,place,kind,length\nx,0,leader,2\n",
        &Options::default(),
    );
    assert_eq!(asked(&none.expect("a table")), []);
}

#[test]
fn a_single_length_in_all_is_shared_out_as_shoots_usually_grow() {
    let above = "coming leaf,4\nlengths,in all\n";
    let got = with(above, &[], BareUnit::Metre);
    let tree = got.row.tree(TreeId(1)).expect("a tree");
    let leaves = |n: usize| {
        tree.shoots[n]
            .units
            .iter()
            .map(|u| u.leaf)
            .collect::<Vec<_>>()
    };
    let length = |n: usize| tree.shoots[n].units.iter().map(|u| u.kept).sum::<f64>();
    // The leader stays as it was planted; the first upright grew from leaf 1 on, a shoot without a season from the first on.
    assert_eq!(
        (leaves(0), leaves(1), leaves(3)),
        (vec![0], vec![1, 2, 3], vec![1, 2, 3])
    );
    assert_eq!((length(1), length(3)), (1900.0, 900.0));
    // What was told by season stays so.
    assert_eq!(leaves(2), [1, 2]);
    // All but the last season was tipped by a fifth.
    let off = |u: &GrowthUnit| (u.grown - u.kept) / u.grown;
    let units = &tree.shoots[1].units;
    assert!(
        units[..2].iter().all(|u| (off(u) - 0.2).abs() < 0.01),
        "{units:?}"
    );
    assert_eq!(units[2].kept, units[2].grown);
    let keys: Vec<&str> = got.said.iter().map(|s| s.key).collect();
    assert!(
        keys.contains(&"file-said-in-all") && !keys.contains(&"file-said-seasons"),
        "{keys:?}"
    );
    // By season, each is of the season that it names, or of the last.
    let plain = with("coming leaf,4\nlengths,by season\n", &[], BareUnit::Metre);
    let tree = plain.row.tree(TreeId(1)).expect("a tree");
    assert_eq!(tree.shoots[1].units, [GrowthUnit::whole(1, 1900.0)]);
    assert_eq!(tree.shoots[3].units, [GrowthUnit::whole(3, 900.0)]);
}

#[test]
fn an_answer_that_can_t_be_taken_is_refused_beside_its_question_and_leaves_what_was_assumed() {
    let plain = with("", &[], BareUnit::Metre);
    for (question, answer, key) in [
        (Question::Leaf, "0", "refusal-csv-value"),
        (Question::Leaf, "four", "refusal-csv-word"),
        (Question::Wires, "0.5; 7", "refusal-csv-value"),
        (Question::Wires, "0.5; 0.5", "refusal-csv-twice"),
        (Question::WallHeight, "tall", "refusal-csv-unread"),
        (Question::Covering, "gold", "refusal-csv-word"),
        (Question::Lengths, "maybe", "refusal-csv-word"),
        (Question::Tipped, "maybe", "refusal-csv-word"),
    ] {
        let got = with("", &[(question, answer)], BareUnit::Metre);
        let wrong = about(&got, question).wrong.as_ref();
        assert_eq!(wrong.map(|w| w.key), Some(key), "{question:?} {answer}");
        same(&got, &plain);
        assert_eq!(about(&got, question).now, about(&plain, question).now);
    }
    // An empty answer is none.
    same(&with("", &[(Question::Leaf, " ")], BareUnit::Metre), &plain);
    // What the table says is not asked, and no answer changes it.
    let said = with("coming leaf,5\n", &[(Question::Leaf, "9")], BareUnit::Metre);
    assert_eq!(said.row.leaf, 5);
}

#[test]
fn a_covering_covers_the_wires_of_which_nothing_is_said() {
    let given = [(Question::Covering, "plastic")];
    let got = with("wire,0.5 m,bare\nwire,1 m\n", &given, BareUnit::Metre);
    let wires: Vec<_> = got
        .row
        .trellis
        .wires
        .iter()
        .map(|w| (w.height, w.covering))
        .collect();
    assert_eq!(
        wires,
        [(Mm(500), Covering::Bare), (Mm(1000), Covering::Plastic)]
    );
    let usual = with("", &given, BareUnit::Metre);
    assert!(
        usual
            .row
            .trellis
            .wires
            .iter()
            .all(|w| w.covering == Covering::Plastic)
    );
    assert_eq!(about(&usual, Question::Wires).now.len(), 5);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Answers are as good as lines above the names.
    #[test]
    fn an_answer_is_the_line_above_the_names(
        leaf in prop::option::of(1..=40u8),
        wires in prop::option::of(prop::collection::btree_set(50..6_000i32, 1..6)),
        plastic in prop::option::of(any::<bool>()),
        wall in prop::option::of(100..6_000i32),
        in_all in prop::option::of(any::<bool>()),
        tipped in prop::option::of(any::<bool>()),
        feet in any::<bool>(),
    ) {
        let (bare, sign) = match feet {
            true => (BareUnit::Inch, "in"),
            false => (BareUnit::Millimetre, "mm"),
        };
        let mut lines = String::new();
        let mut given: Vec<(Question, String)> = Vec::new();
        if let Some(leaf) = leaf {
            lines += &format!("coming leaf,{leaf}\n");
            given.push((Question::Leaf, leaf.to_string()));
        }
        let covering = plastic.map(|p| if p { "plastic" } else { "bare" });
        let number = |mm: i32| if feet { format!("{:.3}", f64::from(mm) / 25.4) } else { mm.to_string() };
        let heights: Option<Vec<String>> = wires.map(|w| w.into_iter().map(number).collect());
        match (&heights, covering) {
            (Some(heights), covering) => {
                for height in heights {
                    lines += &format!("wire,{height} {sign},{}\n", covering.unwrap_or(""));
                }
                given.push((Question::Wires, heights.join("; ")));
            }
            (None, Some(covering)) => {
                for height in [500, 1000, 1500, 2000, 2500] {
                    lines += &format!("wire,{height} mm,{covering}\n");
                }
            }
            (None, None) => {}
        }
        given.extend(covering.map(|c| (Question::Covering, c.to_string())));
        if let Some(wall) = wall {
            lines += &format!("wall height,{} {sign}\n", number(wall));
            given.push((Question::WallHeight, number(wall)));
        }
        if let Some(in_all) = in_all {
            let word = if in_all { "in all" } else { "by season" };
            lines += &format!("lengths,{word}\n");
            given.push((Question::Lengths, word.into()));
        }
        if let Some(tipped) = tipped {
            let word = if tipped { "yes" } else { "no" };
            lines += &format!("last growth tipped,{word}\n");
            given.push((Question::Tipped, word.into()));
        }
        let given: Vec<(Question, &str)> = given.iter().map(|(q, a)| (*q, a.as_str())).collect();
        same(&with("", &given, bare), &with(&lines, &[], BareUnit::Metre));
    }
}
