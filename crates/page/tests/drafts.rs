//! Drafts that the helper tells: what is picked of one, what it brings, by which weights.

mod common;

use common::plan;
use cordonry::advise::{Weight, Weights, draft, draft_by};
use cordonry::plan::Plan;
use cordonry::units::LengthStyle;
use cordonry_page::helper::{Body, DraftOf, Drafted, Inquiry, Memory, Message, Question, Told};
use std::sync::Arc;

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
    for body in &told {
        let Body::Gain(lines) = body else {
            panic!("{body:?}");
        };
        assert_eq!(
            lines.len(),
            6,
            "crop, coming harvest, fill, spacing, light, oldest wood"
        );
    }
    assert_ne!(told[0], told[1]);
}
