//! Drafts that the helper tells: what is picked of one, what it brings, by which weights.

mod common;

use common::plan;
use cordonry::advise::{Weight, Weights, around, draft, draft_by};
use cordonry::file::read_plan;
use cordonry::plan::{Phase, Plan, replay};
use cordonry::row::{Kind, Role, ShootId, TreeId};
use cordonry::units::LengthStyle;
use cordonry::work::Work;
use cordonry_draw::Sign;
use cordonry_page::desk::Desk;
use cordonry_page::document::Mode;
use cordonry_page::helper::{
    Body, DraftGroup, DraftOf, Drafted, Inquiry, Memory, Message, Question, Told,
};
use cordonry_page::look::NotOffered;
use cordonry_words::{Language, Words};
use std::sync::Arc;

fn example(name: &str) -> Arc<Plan> {
    let path = format!("{}/../../examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let bytes = std::fs::read(path).expect("the example is there");
    Arc::new(read_plan(&bytes).expect("it is read"))
}

fn of(plan: &Plan, weights: &Weights) -> DraftOf {
    DraftOf {
        scheme: 0,
        moment: plan.start(),
        weights: weights.values().to_vec(),
    }
}

/// The answers to questions that are asked one after the other of one plan.
fn answered(plan: &Arc<Plan>, questions: Vec<Question>) -> Vec<Body> {
    let (mut told, mut memory) = (Told::default(), Memory::default());
    let (generation, update) = told.tell(plan);
    memory.hear(Message::Learn(update.expect("everything")));
    let mut out = Vec::new();
    for (number, question) in (0..).zip(questions) {
        memory.hear(Message::Ask(Inquiry {
            number,
            generation,
            question,
        }));
        let mut all = std::iter::from_fn(|| memory.reply());
        let done = all.find(|r| r.body != Body::Later).expect("an answer");
        assert_eq!(done.number, number);
        out.push(done.body);
    }
    out
}

fn drafted(body: &Body) -> &Drafted {
    match body {
        Body::Draft(drafted) => drafted,
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_picked_is_taken_of_the_draft_that_is_kept() {
    let plan = Arc::new(plan());
    let usual = of(&plan, &Weights::default());
    let ask = |picks: Option<Vec<u32>>| Question::Draft {
        of: usual.clone(),
        picks,
        style: LengthStyle::Metric,
    };
    let told = answered(
        &plan,
        vec![ask(None), ask(Some(vec![0])), ask(Some(vec![]))],
    );
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    assert!(made.pieces.len() > 1);
    assert_eq!(drafted(&told[0]).pieces, drafted(&told[1]).pieces);
    let taken = |body| drafted(body).plan(&plan).expect("a plan");
    assert_eq!(taken(&told[0]), made.plan);
    let first = made.taken(&plan, |p| std::ptr::eq(p, &made.pieces[0]));
    assert_eq!(taken(&told[1]), first.expect("the first piece").plan);
    let none = made.taken(&plan, |_| false);
    assert_eq!(taken(&told[2]), none.expect("nothing").plan);
}

#[test]
fn a_draft_by_other_weights_is_another_and_does_not_stay() {
    let plan = Arc::new(plan());
    let dear = Weights::default().with(Weight::Bud, 100.0);
    let ask = |weights: &Weights| Question::Draft {
        of: of(&plan, weights),
        picks: None,
        style: LengthStyle::Metric,
    };
    let usual = Weights::default();
    let told = answered(&plan, vec![ask(&usual), ask(&dear), ask(&usual)]);
    let made = draft_by(&plan, 0, plan.start(), &dear).expect("a draft");
    let taken = |body| drafted(body).plan(&plan).expect("a plan");
    assert_eq!(taken(&told[1]), made.plan);
    assert_eq!(told[0], told[2]);
}

#[test]
fn what_a_draft_and_each_piece_brings_is_told_line_by_line() {
    let plan = Arc::new(plan());
    let ask = |piece| Question::Gain {
        of: of(&plan, &Weights::default()),
        piece,
        style: LengthStyle::Metric,
    };
    let told = answered(&plan, vec![ask(None), ask(Some(0)), ask(Some(1))]);
    for (body, brief) in told.iter().zip([1, 0, 0]) {
        let Body::Gain(lines) = body else {
            panic!("{body:?}");
        };
        assert_eq!(
            lines.len(),
            brief + 6,
            "crop, coming harvest, fill, spacing, light, oldest wood; of the whole its crop in brief before them"
        );
    }
    assert_ne!(told[0], told[1]);
}

#[test]
fn a_kind_counts_its_own_pieces_of_work_and_tells_what_goes_with_them() {
    let plan = example("opposed-leans");
    let ask = Question::Draft {
        of: of(&plan, &Weights::default()),
        picks: None,
        style: LengthStyle::Metric,
    };
    let told = answered(&plan, vec![ask]);
    let kinds = DraftGroup::all(&drafted(&told[0]).pieces);
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    let works: Vec<&Work> = made.pieces.iter().flat_map(|p| &p.work).collect();
    let of_notches = made.pieces.iter().filter(|p| {
        let first = p.main().and_then(Sign::of);
        first == Some(Sign::Notch)
    });
    let signs: Vec<_> = of_notches
        .flat_map(|p| p.work.iter().map(Sign::of))
        .collect();
    let count = |sign: Sign| signs.iter().filter(|s| **s == Some(sign)).count() as u32;
    let notch = kinds.iter().find(|k| k.name == Sign::Notch.word());
    let notch = notch.expect("older wood is notched");
    assert!(notch.own > 0 && count(Sign::Bud) > 0);
    assert_eq!(notch.own, count(Sign::Notch));
    assert_eq!(
        notch.with,
        [(Sign::Bud.word().to_owned(), count(Sign::Bud))]
    );
    let words = Words::new(Language::default(), LengthStyle::Metric);
    let (name, bud) = (words.plain(&notch.name), words.plain(Sign::Bud.word()));
    let (own, with) = (notch.own, count(Sign::Bud));
    assert_eq!(
        notch.told(&words),
        format!("{name} {own} (with them {bud} {with})")
    );
    let all = |k: &DraftGroup| k.own + k.with.iter().map(|(_, n)| n).sum::<u32>();
    assert_eq!(kinds.iter().map(all).sum::<u32>(), works.len() as u32);
}

#[test]
fn what_is_told_of_a_draft_follows_what_is_picked_of_it() {
    let plan = example("overdue-renewal");
    let ask = |picks: Option<Vec<u32>>| Question::Draft {
        of: of(&plan, &Weights::default()),
        picks,
        style: LengthStyle::Metric,
    };
    let all = draft(&plan, 0, plan.start()).expect("a draft").pieces.len() as u32;
    let told = answered(
        &plan,
        vec![
            ask(None),
            ask(Some(vec![])),
            ask(Some(vec![0])),
            ask(Some((0..all).collect())),
        ],
    );
    let [whole, none, first, each] = [0, 1, 2, 3].map(|i| drafted(&told[i]));
    assert!(whole.whole && each.whole && !none.whole && !first.whole);
    assert_eq!((&whole.cost, &whole.open), (&each.cost, &each.open));
    let words = Words::default();
    assert!(none.cost.contains("no cut"), "{}", none.cost);
    assert_eq!(first.cost, first.pieces[0].cost);
    assert_ne!(first.cost, whole.cost);
    // What the rest would mend stays open, and is told as such.
    let untaken = words.plain("stuck-untaken");
    assert!(whole.open.iter().all(|(_, why)| *why != untaken));
    assert!(
        none.open.iter().any(|(_, why)| *why == untaken),
        "{:?}",
        none.open
    );
    assert!(none.open.len() > whole.open.len());
}

#[test]
fn the_trees_whose_fruit_a_piece_brings_are_named_or_counted() {
    let plan = example("overdue-renewal");
    let ask = |piece| Question::Gain {
        of: of(&plan, &Weights::default()),
        piece,
        style: LengthStyle::Metric,
    };
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    let told = answered(&plan, vec![ask(Some(0))]);
    let Body::Gain(lines) = &told[0] else {
        panic!("{told:?}");
    };
    let own: Vec<TreeId> = made.pieces[0].trees().collect();
    let near = around(&plan, &own);
    let named: Vec<String> = near
        .found
        .trees
        .iter()
        .map(|t| t.id.0.to_string())
        .collect();
    assert!(named.len() > 1);
    let start = match named.len() {
        1..=6 => format!("Fruit of trees {} over", named.join(", ")),
        n => format!("Fruit of {n} trees ({} …) over", named[..6].join(", ")),
    };
    assert!(lines[0].starts_with(&start), "{} is not {start}", lines[0]);
}

/// Every stub has its own reason, and an older upright that stands beside a younger one that goes has one too.
#[test]
fn each_upright_that_is_renewed_tells_why_and_why_an_older_one_stands() {
    let names = [
        "overdue-renewal",
        "uneven-uprights",
        "missed-bud-removal",
        "opposed-leans",
        "two-cordons",
        "lost-tree",
    ];
    let (mut several, mut older) = (0, 0);
    for plan in names.map(example) {
        let ask = Question::Draft {
            of: of(&plan, &Weights::default()),
            picks: None,
            style: LengthStyle::Metric,
        };
        let told = answered(&plan, vec![ask]);
        let made = draft(&plan, 0, plan.start()).expect("a draft");
        let after = replay(&made.plan, 0, plan.start()).expect("a scheme").row;
        for (piece, told) in made.pieces.iter().zip(&drafted(&told[0]).pieces) {
            assert_eq!(told.each.len(), piece.each.len());
            let (goes, stays): (Vec<_>, Vec<_>) = piece.each.iter().partition(|r| r.goes);
            let Some(youngest) = goes.iter().map(|r| r.age).min() else {
                continue;
            };
            let stubs = piece.work.iter().map(|w| w.subject().shoot);
            let stubs: Vec<ShootId> = stubs.collect();
            assert!(stubs.iter().all(|s| goes.iter().any(|r| r.shoot == *s)));
            several += usize::from(stubs.len() > 1);
            let tree = after.tree(goes[0].tree).expect("it stands");
            for shoot in &tree.shoots {
                let age = shoot.born().map_or(0, |born| after.leaf - born);
                if shoot.kind() != Kind::Upright
                    || tree.role(shoot) != Role::Upright
                    || age <= youngest
                {
                    continue;
                }
                older += 1;
                let told = stays.iter().any(|r| r.shoot == shoot.id && r.age == age);
                assert!(told, "{:?} {:?} of {age} stands", tree.id, shoot.id);
            }
        }
    }
    assert!(several > 5 && older > 5, "{several} {older}");
}

/// A desk on a plan before its first work, with what the helper answers of its remedies.
fn tried_before(plan: &Arc<Plan>) -> Desk {
    let mut desk = Desk::new((**plan).clone()).expect("it has a scheme");
    desk.show(Phase::Before);
    let ask = Question::Offers {
        look: (desk.look(), Mode::Work),
        style: LengthStyle::Metric,
    };
    match answered(plan, vec![ask]).swap_remove(0) {
        Body::Offers(offers, others) => desk.take_offers(&offers, others),
        other => panic!("{other:?}"),
    }
    desk
}

#[test]
fn what_planned_work_mends_is_told_as_such_and_what_does_harm_by_its_harm() {
    let planned = NotOffered::Planned;
    let plan = example("overdue-renewal");
    let due = |desk: &Desk| -> Vec<NotOffered> {
        let all = desk.all_findings();
        let due = all.iter().filter(|f| f.rule == "renewal-due");
        due.map(|f| desk.not_offered(f).clone()).collect()
    };
    assert!(due(&tried_before(&plan)).iter().all(|why| *why != planned));
    let drafted = draft(&plan, 0, plan.start()).expect("a draft").plan;
    let told = due(&tried_before(&Arc::new(drafted)));
    assert!(
        told.len() > 3 && told.iter().all(|why| *why == planned),
        "{told:?}"
    );
    // What is refused names its place and what comes of it.
    let desk = tried_before(&example("opposed-leans"));
    let all = desk.all_findings();
    let named = |why: &NotOffered| matches!(why, NotOffered::Harm(why) if why.contains("the first would bring: Tree 2: "));
    let mut whys = all.iter().map(|f| desk.not_offered(f));
    assert!(whys.any(named), "too few uprights on tree 2");
}
