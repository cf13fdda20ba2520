//! The helper's memory: told what changed, it knows the same plan and answers as one that is told everything.

mod common;

use common::plan;
use cordonry::file::{csv, read_plan, write_plan};
use cordonry::forecast::{Forecast, crop_range};
use cordonry::plan::{Correction, Moment, Phase, Plan, Scheme, Setting, Window};
use cordonry::row::{Covering, Limit, ShootId, TreeId};
use cordonry::units::{LengthStyle, Mm};
use cordonry::work::{Work, choices};
use cordonry_page::document::{Document, Edit, Mode};
use cordonry_page::helper::{
    Awaited, Body, Inquiry, Looked, Memory, Message, Question, Told, Update, look,
};
use cordonry_page::light::Lighting;
use cordonry_page::look::{Look, Scene};
use cordonry_words::Words;
use proptest::prelude::*;
use std::fmt::Write;
use std::sync::Arc;

/// The counts of the example's found leaf.
const SEASON: Question = Question::Season { scheme: 0, leaf: 3 };

/// Something that is done to the plan; numbers pick what it is done to.
#[derive(Clone, Debug)]
enum Deed {
    Work {
        pick: usize,
        choice: usize,
        window: usize,
        scheme: usize,
        number: f64,
    },
    TakeBack(usize),
    Record {
        pick: usize,
        measure: usize,
        by: f64,
    },
    AddTree(f64),
    DropTree(usize),
    DropShoot(usize),
    Note(usize),
    Wire(i32),
    Limit(f64),
    Setting(f64),
    Posts(f64),
    Name,
    Scheme,
    Undo,
    Redo,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        6 => (any::<usize>(), any::<usize>(), 0..4usize, 0..3usize, 0.01..2000.0f64).prop_map(
            |(pick, choice, window, scheme, number)| Deed::Work { pick, choice, window, scheme, number }
        ),
        1 => any::<usize>().prop_map(Deed::TakeBack),
        3 => (any::<usize>(), any::<usize>(), -50.0..50.0f64).prop_map(
            |(pick, measure, by)| Deed::Record { pick, measure, by }
        ),
        1 => (-1000.0..12_000.0f64).prop_map(Deed::AddTree),
        1 => any::<usize>().prop_map(Deed::DropTree),
        1 => any::<usize>().prop_map(Deed::DropShoot),
        1 => any::<usize>().prop_map(Deed::Note),
        1 => (600..2400i32).prop_map(Deed::Wire),
        1 => (0.1..0.9f64).prop_map(Deed::Limit),
        1 => (-60.0..60.0f64).prop_map(Deed::Setting),
        1 => (2000.0..9000.0f64).prop_map(Deed::Posts),
        1 => Just(Deed::Name),
        1 => Just(Deed::Scheme),
        2 => Just(Deed::Undo),
        1 => Just(Deed::Redo),
    ]
}

/// A shoot of the row, picked by a number.
fn shoot_of(scene: &Scene, pick: usize) -> Option<(TreeId, ShootId)> {
    let all: Vec<_> = scene
        .row
        .trees
        .iter()
        .flat_map(|t| t.shoots.iter().map(|s| (t.id, s.id)))
        .collect();
    (!all.is_empty()).then(|| all[pick % all.len()])
}

/// The edit of a deed; none where there is nothing to do it to.
fn edit_of(document: &Document, deed: &Deed) -> Option<(Look, Edit)> {
    let plan = document.plan();
    let start = Look::start(plan);
    let tree = |pick: usize| {
        let trees = &plan.found.trees;
        (!trees.is_empty()).then(|| trees[pick % trees.len()].id)
    };
    let edit = match *deed {
        Deed::Work {
            pick,
            choice,
            window,
            scheme,
            number,
        } => {
            let look = Look {
                scheme,
                moment: Moment {
                    window: Window::ALL[window],
                    ..start.moment
                },
                phase: Phase::After,
            }
            .within(plan);
            let scene = Scene::of(document, look, None).expect("there is the scheme");
            let (tree, shoot) = shoot_of(&scene, pick)?;
            let all = choices(
                &scene.row,
                scene.moment,
                &scene.terms,
                &plan.targets,
                tree,
                Some(shoot),
            );
            let chosen = all.get(choice % all.len().max(1))?;
            return Some((
                look,
                Edit::work(chosen.step, vec![chosen.work(&[number, number])]),
            ));
        }
        Deed::TakeBack(pick) => {
            let scene = Scene::of(document, start, None).expect("there is a scheme");
            let works = scene.works();
            Edit::take_back(vec![works.get(pick % works.len().max(1))?.clone()])
        }
        Deed::Record { pick, measure, by } => {
            let scene = Scene::of(document, start, None).expect("there is a scheme");
            let (tree, shoot) = shoot_of(&scene, pick)?;
            let measures = plan.found.tree(tree)?.measures(Some(shoot));
            let measure = measures.get(measure % measures.len().max(1))?;
            Edit::record(measure.to(measure.value + by))
        }
        Deed::AddTree(x) => Edit::record_tree(plan, x),
        Deed::DropTree(pick) => Edit::record(Correction::DropTree { tree: tree(pick)? }),
        Deed::DropShoot(pick) => {
            let tree = plan.found.tree(tree(pick)?)?;
            let shoot = tree.shoots.last()?.id;
            Edit::record(Correction::DropShoot {
                tree: tree.id,
                shoot,
            })
        }
        Deed::Note(pick) => Edit::record(Correction::Note {
            tree: tree(pick)?,
            shoot: None,
            note: format!("note {pick}"),
        }),
        Deed::Wire(height) => Edit::wires(Work::stretching(Mm(height))),
        Deed::Limit(share) => Edit::limit(Limit::LightTarget, Some(share)),
        Deed::Setting(degrees) => Edit::setting(Setting::Latitude, Some(degrees)),
        Deed::Posts(apart) => Edit::posts_every(apart),
        Deed::Name => Edit::name(format!("{} on", plan.name)),
        Deed::Scheme | Deed::Undo | Deed::Redo => return None,
    };
    Some((start, edit))
}

/// The plan with one more scheme, whose work is the first one's.
fn one_more_scheme(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    let first = Scheme {
        name: format!("{}", plan.schemes.len()),
        ..(*plan.schemes[0]).clone()
    };
    plan.schemes.push(Arc::new(first));
    plan
}

/// What is asked: always the season, which reads the whole plan, and at times all else, which takes long.
fn questions(document: &Document, all: bool) -> Vec<Question> {
    let plan = document.plan();
    let last = Look {
        scheme: plan.schemes.len() - 1,
        moment: Moment {
            window: Window::AfterHarvest,
            ..plan.start()
        },
        phase: Phase::After,
    };
    let before = Look {
        phase: Phase::Before,
        ..Look::start(plan)
    };
    let light = |look, mode| Question::Light {
        look: (look, mode),
        lighting: Lighting::default(),
        columns: 0..20,
    };
    let mut out = vec![Question::Season {
        scheme: last.scheme,
        leaf: last.moment.leaf,
    }];
    if all {
        out.extend([
            light(last, Mode::Work),
            light(before, Mode::Work),
            light(before, Mode::Found),
            Question::Offers {
                look: (last, Mode::Work),
                style: LengthStyle::Metric,
            },
        ]);
    }
    out
}

fn ask(memory: &mut Memory, number: u32, generation: u32, question: Question) {
    memory.hear(Message::Ask(Inquiry {
        number,
        generation,
        question,
    }));
}

/// What a memory answers to each question, in the order asked.
fn answers(memory: &mut Memory, generation: u32, questions: &[Question]) -> Vec<Body> {
    let answer = |memory: &mut Memory, number: usize| {
        ask(memory, number as u32, generation, questions[number].clone());
        let reply = memory.reply().expect("it answers");
        assert_eq!(reply.number, number as u32);
        reply.body
    };
    (0..questions.len()).map(|n| answer(memory, n)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn told_what_changed_it_knows_the_same_plan_and_answers_alike(
        deeds in prop::collection::vec(deed(), 1..14),
        tell in prop::collection::vec(any::<bool>(), 14),
        all in prop::bool::weighted(0.15),
    ) {
        let mut document = Document::new(plan());
        let (mut told, mut memory) = (Told::default(), Memory::default());
        for (deed, tell) in deeds.iter().zip(tell) {
            match deed {
                Deed::Undo => drop(document.undo()),
                Deed::Redo => drop(document.redo()),
                Deed::Scheme => document = Document::new(one_more_scheme(document.plan())),
                other => {
                    if let Some((look, edit)) = edit_of(&document, other) {
                        // One that is refused changes nothing.
                        let _ = document.edit(look, &edit);
                    }
                }
            }
            if tell && let (_, Some(update)) = told.tell(document.plan()) {
                memory.hear(Message::Learn(update));
            }
        }
        let (generation, update) = told.tell(document.plan());
        if let Some(update) = update {
            memory.hear(Message::Learn(update));
        }
        let known = memory.plan().expect("it was told");
        prop_assert_eq!(write_plan(known), write_plan(document.plan()));
        prop_assert_eq!(known, &**document.plan());

        let mut fresh = Memory::default();
        fresh.hear(Message::Learn(Update::all(generation, document.plan())));
        let questions = questions(&document, all);
        prop_assert_eq!(
            answers(&mut memory, generation, &questions),
            answers(&mut fresh, generation, &questions)
        );
    }
}

#[test]
fn what_is_sent_of_a_small_change_is_small() {
    let made = cordonry_page::bench_row::plan(300, 10);
    let mut document = Document::new(made);
    let mut told = Told::default();
    let (_, first) = told.tell(document.plan());
    let all = first.expect("everything").bytes();
    assert_eq!(told.tell(document.plan()).1, None);
    let stub = Work::Stub {
        tree: TreeId(150),
        shoot: ShootId::found(3),
        keep_mm: Mm(150),
    };
    document
        .edit(
            Look::start(document.plan()),
            &Edit::work("step-stub", vec![stub]),
        )
        .expect("it can be stubbed");
    let (_, update) = told.tell(document.plan());
    let small = update.expect("what changed").bytes();
    assert!(small * 50 < all, "{small} of {all} bytes");
}

#[test]
fn a_helper_that_lacks_the_plan_says_so_and_is_told_everything() {
    let document = Document::new(plan());
    let (mut told, mut memory) = (Told::default(), Memory::default());
    told.tell(document.plan());
    // What was sent is lost; the next change is told from what it never heard.
    let mut next = document;
    next.edit(Look::start(next.plan()), &Edit::name("North".into()))
        .expect("a name");
    let (generation, update) = told.tell(next.plan());
    memory.hear(Message::Learn(update.expect("it changed")));
    ask(&mut memory, 1, generation, SEASON);
    assert_eq!(memory.reply().map(|r| r.body), Some(Body::Lacks));
    assert!(told.forget());
    let (generation, update) = told.tell(next.plan());
    memory.hear(Message::Learn(update.expect("everything")));
    ask(&mut memory, 2, generation, SEASON);
    let reply = memory.reply().expect("it answers");
    assert!(matches!(reply.body, Body::Season(_)), "{reply:?}");
}

#[test]
fn a_question_takes_the_place_of_its_like_alone() {
    let document = Document::new(plan());
    let (mut told, mut memory) = (Told::default(), Memory::default());
    let (generation, update) = told.tell(document.plan());
    memory.hear(Message::Learn(update.expect("everything")));
    let start = Look::start(document.plan());
    let light = |window, out| Question::Light {
        look: (
            Look {
                moment: Moment {
                    window,
                    ..start.moment
                },
                ..start
            },
            Mode::Work,
        ),
        lighting: Lighting {
            out,
            ..Lighting::default()
        },
        columns: 0..10,
    };
    let asked = [
        light(Window::Dormant, 1.0),
        SEASON,
        light(Window::AfterHarvest, 1.0),
        // The newest about the same look.
        light(Window::Dormant, 0.5),
    ];
    for (number, question) in asked.into_iter().enumerate() {
        ask(&mut memory, number as u32, generation, question);
    }
    let mut replies = Vec::new();
    while let Some(reply) = memory.reply() {
        replies.push(reply);
    }
    let numbers: Vec<u32> = replies.iter().map(|r| r.number).collect();
    assert_eq!(numbers, [3, 2, 1], "the newest first");
    assert!(matches!(replies[0].body, Body::Light(..)));
    assert!(matches!(replies[2].body, Body::Season(_)));

    // An answer is taken once, and only the one that is waited for.
    let mut awaited = Awaited::now(3, "light");
    assert!(!awaited.take(0) && awaited.take(3) && !awaited.take(3));
}

#[test]
fn what_was_asked_of_an_older_plan_is_not_answered() {
    let mut document = Document::new(plan());
    let (mut told, mut memory) = (Told::default(), Memory::default());
    let (generation, update) = told.tell(document.plan());
    memory.hear(Message::Learn(update.expect("everything")));
    ask(&mut memory, 1, generation, SEASON);
    document
        .edit(Look::start(document.plan()), &Edit::name("North".into()))
        .expect("a name");
    let (_, update) = told.tell(document.plan());
    memory.hear(Message::Learn(update.expect("it changed")));
    assert_eq!(memory.reply(), None);
}

#[test]
fn a_plan_that_cannot_be_read_is_refused_and_the_next_is_learnt() {
    let mut memory = Memory::default();
    memory.hear(Message::Learn(Update::of_text(1, "{".into())));
    ask(&mut memory, 1, 1, SEASON);
    let reply = memory.reply().expect("it answers");
    assert!(matches!(reply.body, Body::Refused(_)), "{reply:?}");
    memory.hear(Message::Learn(Update::all(2, &plan())));
    ask(&mut memory, 2, 2, SEASON);
    assert!(matches!(
        memory.reply().map(|r| r.body),
        Some(Body::Season(_))
    ));
}

#[test]
fn the_season_s_counts_are_those_of_the_scenes() {
    let document = Document::new(plan());
    let (mut told, mut memory) = (Told::default(), Memory::default());
    let (generation, update) = told.tell(document.plan());
    memory.hear(Message::Learn(update.expect("everything")));
    let body = answers(&mut memory, generation, &[SEASON]);
    let [Body::Season(counts)] = &body[..] else {
        panic!("{body:?}");
    };
    assert_eq!(counts.len(), 4);
    for count in counts {
        let look = Look {
            moment: count.moment,
            ..Look::start(document.plan())
        };
        let scene = Scene::of(&document, look, None).expect("there is the scheme");
        assert_eq!(count.findings as usize, scene.findings.len());
    }
}

#[test]
fn the_crop_s_range_is_drawn_piece_by_piece_and_others_are_answered_between() {
    let document = Document::new(plan());
    let (mut told, mut memory) = (Told::default(), Memory::default());
    let (generation, update) = told.tell(document.plan());
    memory.hear(Message::Learn(update.expect("everything")));
    ask(
        &mut memory,
        1,
        generation,
        Question::Crop { scheme: 0, last: 5 },
    );
    assert_eq!(memory.reply().map(|r| r.body), Some(Body::Later));
    ask(&mut memory, 2, generation, SEASON);
    let between = memory.reply().expect("it answers");
    assert!(matches!(between.body, Body::Season(_)), "{between:?}");
    let rest = std::iter::from_fn(|| memory.reply());
    let rest: Vec<_> = rest.map(|r| r.body).filter(|b| *b != Body::Later).collect();
    let figures = Forecast::default()
        .of(document.plan(), 0, 5)
        .expect("there is the scheme");
    let ranges = crop_range(document.plan(), 0, 5, &figures).expect("there is the scheme");
    let ends = ranges.iter().flat_map(|r| [r.0, r.1]).collect();
    assert_eq!(rest, [Body::Crop(ends)]);
    assert!(ranges.iter().all(|r| r.0 < r.1), "{ranges:?}");
    // One that is late gives way: the plan has changed.
    ask(
        &mut memory,
        3,
        generation,
        Question::Crop { scheme: 0, last: 5 },
    );
    assert_eq!(memory.reply().map(|r| r.body), Some(Body::Later));
    let mut next = document;
    next.edit(Look::start(next.plan()), &Edit::name("North".into()))
        .expect("a name");
    let (_, update) = told.tell(next.plan());
    memory.hear(Message::Learn(update.expect("it changed")));
    assert_eq!(memory.reply(), None);
}

/// What a page understands of the texts that its helper makes of a table.
fn looked(table: &str, tell: csv::Tell<'_>) -> Result<Looked, String> {
    answered(table, &[], tell)
}

/// The same, with what was answered of it.
fn answered(table: &str, given: &[&str], tell: csv::Tell<'_>) -> Result<Looked, String> {
    let given: Vec<String> = given.iter().map(|g| g.to_string()).collect();
    let words = Words::strict();
    Looked::of(look(table.as_bytes(), "North", &words, &given, tell))
}

#[test]
fn a_table_comes_back_as_it_is_read() {
    let words = Words::strict();
    let table = include_str!("../../../examples/measured-40.csv");
    let measured = csv::read(table.as_bytes(), &csv::Options::default()).expect("a table");
    assert!(!measured.said.is_empty() && !measured.bad.is_empty());
    let looked = looked(table, &mut |_, _| {}).expect("it is understood");
    assert!(looked.taken().contains(&measured.taken.to_string()));
    assert!(looked.left_out().contains(&measured.bad.len().to_string()));
    let said: Vec<String> = looked.said().map(|a| a.said.to_string()).collect();
    let worded: Vec<String> = measured.said.iter().map(|s| words.say(s)).collect();
    assert_eq!(said, worded);
    let lines = measured.bad.iter().flat_map(|line| {
        let why = words.say(&line.reason());
        [line.line.to_string(), why, line.text.clone()]
    });
    assert_eq!(looked.bad(), lines.collect::<Vec<_>>());
    let headline = format!("{} lines left out", measured.bad.len());
    assert!(looked.taken().contains(&headline), "{}", looked.taken());
    assert_eq!(looked.title(), "North");
    let asks: Vec<&str> = looked.asks().map(|a| a.key).collect();
    let words_first = measured.unread.iter().map(|u| &*u.cell);
    let then = measured.asks.iter().map(|a| a.question.key());
    assert_eq!(asks, words_first.chain(then).collect::<Vec<_>>());
    assert!(asks.contains(&"import-tipped") && !looked.is_mostly_bad());
    // Every tree of it is drawn.
    let drawn = looked.drawing().matches("class=\"tree").count();
    assert!(drawn >= measured.row.trees.len(), "{drawn}");
    let plan = read_plan(looked.plan().as_bytes()).expect("a plan");
    let remains = measured.remains(&words);
    assert!(plan.note.ends_with(&remains) && remains.contains("left out"));
    let note = plan.note.clone();
    let measured = measured.plan("North");
    assert_eq!(plan, Plan { note, ..measured });
}

#[test]
fn an_answer_is_in_the_drawing_and_in_the_plan_and_one_that_is_refused_is_not() {
    let table = "tree;place (m);kind;length (m)\n1;0;leader;2.4\n1;0.9;upright;1.2\n";
    let read = |given: &[&str]| answered(table, given, &mut |_, _| {}).expect("a table");
    let plain = read(&[]);
    let ask = |looked: &Looked, key: &str| {
        let asked = looked.asks().find(|a| a.key == key).expect("it is asked");
        (
            asked.shown().to_string(),
            asked.wrong.to_string(),
            asked.range.to_string(),
        )
    };
    let wires = ask(&plain, "import-wires");
    assert_eq!(wires.0, "0.50 m; 1.00 m; 1.50 m; 2.00 m; 2.50 m");
    let told = read(&["import-wires", "60 cm; 1.20", "import-covering", "plastic"]);
    assert_eq!(ask(&told, "import-wires").0, "0.60 m; 1.20 m");
    assert_eq!(ask(&told, "import-covering").0, "plastic");
    let heights = |looked: &Looked| looked.drawing().matches("data-height").count();
    assert_eq!((heights(&plain), heights(&told)), (5, 2));
    let plan = read_plan(told.plan().as_bytes()).expect("a plan");
    let trellis = &plan.found.trellis;
    assert!(
        trellis
            .wires
            .iter()
            .all(|w| w.covering == Covering::Plastic)
    );
    assert_eq!(trellis.cordon_height().0, 600);
    // What can't be taken says why, stays as it was typed, and changes nothing.
    let wrong = read(&["import-leaf", "99"]);
    let (shown, why, range) = ask(&wrong, "import-leaf");
    assert_eq!((shown.as_str(), range.as_str()), ("99", "1 to 40"));
    assert_eq!(why, "coming leaf must be between 1 and 40, not 99");
    assert_eq!(
        (wrong.plan(), wrong.drawing()),
        (plain.plan(), plain.drawing())
    );
}

#[test]
fn a_slip_a_foreign_word_and_the_leaf_are_asked_and_read_again_as_answered() {
    let table = "North 4\ntree;place (m);kind;length (m);side\n1;0;leader;2.4;rechts\n\
        2;3;leader;2.4;right\n2;3.9;upright;14;\n2;4.2;upright;0.9;\n2;4.5;upright;13;\n";
    let read = |given: &[&str]| answered(table, given, &mut |_, _| {}).expect("a table");
    let plain = read(&[]);
    assert_eq!(plain.title(), "North 4");
    assert!(
        plain.taken().ends_with("1 tree, one line left out.")
            || plain.taken().contains("one line left out")
    );
    let word = plain.asks().next().expect("a question");
    assert_eq!((word.key, word.now), ("side rechts", ""));
    assert_eq!(word.label, "‘rechts’ under side, in one line, is");
    assert!(word.choices().iter().any(|(word, _)| *word == "right"));
    let slips: Vec<(&str, &str, &str)> = plain
        .said()
        .filter(|a| !a.cell.is_empty())
        .map(|a| (a.cell, a.reads, a.button))
        .collect();
    assert_eq!(
        slips,
        [
            ("length 5", "1.4 m", "Take 1.40 m"),
            ("length 7", "1.3 m", "Take 1.30 m")
        ]
    );
    assert_eq!(plain.slips(), ["length 5", "1.4 m", "length 7", "1.3 m"]);
    // What is far too tall to be so is cut off in the drawing, and told there.
    let height = |looked: &Looked| {
        let from = looked
            .drawing()
            .split(" height=\"")
            .nth(1)
            .expect("a height");
        let number = from.split('"').next().expect("a number");
        number.parse::<f64>().expect("a number")
    };
    assert_eq!(plain.drawing().matches("cut-off").count(), 2);
    assert!(plain.drawing().contains("↑ to 14.50 m"));
    assert!(height(&plain) < 220.0, "{}", height(&plain));
    let told = read(&[
        "side rechts",
        "right",
        "length 5",
        "1.4 m",
        "length 7",
        "1.3 m",
    ]);
    assert_eq!(told.drawing().matches("cut-off").count(), 0);
    assert!(told.bad().is_empty() && told.slips().is_empty());
    let back: Vec<(&str, &str)> = told.said().map(|a| (a.cell, a.reads)).collect();
    assert!(back.contains(&("length 5", "")), "{back:?}");
    assert_eq!(told.asks().next().map(|a| a.now), Some("right"));
    // What follows from the leaf stands beside it.
    let follows = |looked: &Looked| {
        let mut asks = looked.asks();
        let leaf = asks.find(|a| a.key == "import-leaf").expect("it is asked");
        leaf.follows.to_string()
    };
    assert_eq!(
        follows(&plain),
        "Oldest wood: 2 seasons; 3 shoots grew in leaf 1 (3 of them for want of a season)"
    );
    assert!(follows(&read(&["import-leaf", "4"])).contains("4 seasons; 3 shoots grew in leaf 3"));
}

#[test]
fn how_far_a_table_is_read_is_told_from_its_first_line_to_its_last() {
    let mut table = String::from("tree;place (m);kind;length (m)\n");
    for tree in 0..400 {
        writeln!(
            table,
            "{tree};{tree}.0;leader;2.4\n{tree};{tree}.6;upright;1.5"
        )
        .expect("text");
    }
    let mut told = Vec::new();
    looked(&table, &mut |read, of| told.push((read, of))).expect("it is understood");
    assert_eq!(told.first(), Some(&(0, 800)));
    assert_eq!(told.last(), Some(&(800, 800)));
    assert!(told.is_sorted() && told.len() > 10, "{told:?}");
}

#[test]
fn a_table_without_a_row_makes_no_plan_and_one_that_is_refused_says_why() {
    let empty = looked("tree;place;kind;length\n1;here;leader;2.4", &mut |_, _| {});
    let empty = empty.expect("it is a table");
    assert_eq!(empty.plan(), "");
    assert_eq!((empty.asks().count(), empty.drawing()), (0, ""));
    assert!(empty.is_mostly_bad());
    assert_eq!(empty.bad().len(), 3, "one line is left out");
    for text in ["", "a letter\nto a friend"] {
        let why = csv::read(text.as_bytes(), &csv::Options::default()).expect_err("no table");
        let why = Words::strict().refusal(&why);
        assert_eq!(looked(text, &mut |_, _| {}), Err(why));
    }
}

#[test]
fn a_row_whose_plan_could_never_be_opened_again_is_refused() {
    // Each of these signs is written with six in a plan.
    let note = "\u{1}".repeat(Plan::MAX_TEXT);
    let mut table = String::from("tree;place (m);kind;length (m);note\n");
    for tree in 0..2000 {
        writeln!(table, "{tree};{tree}.0;lost;;{note}").expect("text");
    }
    let why = looked(&table, &mut |_, _| {}).expect_err("too large");
    assert!(
        why.contains("would have 46.0") && why.contains("32.0 MB at most"),
        "{why}"
    );
}

#[test]
fn the_crops_of_two_schemes_and_their_light_are_worked_out_side_by_side() {
    let copied = plan().with_scheme_copied(0).expect("there is room");
    let document = Document::new(copied);
    let (mut told, mut memory) = (Told::default(), Memory::default());
    let (generation, update) = told.tell(document.plan());
    memory.hear(Message::Learn(update.expect("everything")));
    for scheme in [0, 1] {
        let number = 10 + scheme as u32;
        ask(
            &mut memory,
            number,
            generation,
            Question::Crop { scheme, last: 4 },
        );
        ask(
            &mut memory,
            number + 10,
            generation,
            Question::Lit { scheme, last: 4 },
        );
    }
    let all: Vec<_> = std::iter::from_fn(|| memory.reply()).collect();
    let done = |number| {
        let own = all
            .iter()
            .filter(|r| r.number == number && r.body != Body::Later);
        own.map(|r| &r.body).collect::<Vec<_>>()
    };
    // The schemes are alike, and nothing is worked out twice.
    assert_eq!((done(10).len(), done(20).len()), (1, 1));
    assert_eq!((done(10), done(20)), (done(11), done(21)));
    assert!(all.len() < 80, "{}", all.len());
    let Body::Lit(pairs) = done(20)[0] else {
        panic!("{:?}", done(20));
    };
    assert_eq!(pairs.len(), 2 * 2, "leaves 3 and 4");
    assert!(
        pairs.iter().all(|share| (0.0..=1.0).contains(share)),
        "{pairs:?}"
    );
    let harvest = Look {
        moment: cordonry::plan::Moment {
            leaf: 4,
            window: cordonry::plan::Window::AfterHarvest,
        },
        phase: cordonry::plan::Phase::Before,
        ..Look::start(document.plan())
    };
    let at = document.replayed(harvest).expect("there is the scheme");
    let light = cordonry_page::light::exact(
        &at.row,
        &at.terms,
        document.plan(),
        cordonry_page::light::Lighting::default(),
        0..0,
    );
    assert_eq!(pairs[2], light.season.caught.total);
}

#[test]
fn what_the_work_of_a_scheme_asks_for_is_told_leaf_by_leaf() {
    use cordonry::effort::Effort;
    let document = Document::new(plan());
    let (mut told, mut memory) = (Told::default(), Memory::default());
    let (generation, update) = told.tell(document.plan());
    memory.hear(Message::Learn(update.expect("everything")));
    let question = Question::Effort { scheme: 0, last: 6 };
    ask(&mut memory, 7, generation, question);
    let all: Vec<_> = std::iter::from_fn(|| memory.reply()).collect();
    let Some(Body::Effort(numbers)) = all.last().map(|r| &r.body) else {
        panic!("{all:?}");
    };
    assert_eq!(all.len(), 4, "others are answered between the leaves");
    let by_hand = (3..=6).flat_map(|leaf| {
        let effort = Effort::of(document.plan(), 0, leaf).expect("there is the scheme");
        effort.numbers()
    });
    assert_eq!(*numbers, by_hand.collect::<Vec<_>>());
    assert!(numbers[0] > 0.0 || numbers[8] > 0.0, "{numbers:?}");
}
