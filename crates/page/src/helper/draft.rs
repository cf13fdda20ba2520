//! A draft of a window's work, as it comes from the helper: texts, and what the plan becomes.

use super::Update;
use crate::form::MomentForm;
use cordonry::advise::{
    Brought, Cost, Draft, Gain, GainDraws, NextBest, Piece, Stuck, Taken, Weights, Why, Worse,
    around, draft_by,
};
use cordonry::arrange::Gather;
use cordonry::plan::{Phase, Plan, Replayer};
use cordonry::refusal::Refusal;
use cordonry::row::{Moment, TreeId};
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{Sign, subjects_line};
use cordonry_words::Words;
use serde::{Deserialize, Serialize};

/// Of which window a draft is, and by what weights.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DraftOf {
    /// Number of the scheme.
    pub scheme: usize,
    /// The moment.
    #[serde(with = "MomentForm")]
    pub moment: Moment,
    /// What is weighed against what, in the order of [`cordonry::advise::Weight::ALL`].
    pub weights: Vec<f64>,
}

/// A piece of work that is proposed, worded.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DraftPiece {
    /// The name of what it is, by which pieces are taken together.
    pub kind: String,
    /// The tree that it works on, where it is one.
    pub tree: Option<u32>,
    /// Where along the row, mm.
    pub x: f64,
    /// What is done.
    pub said: String,
    /// On what of which trees; nothing where it is about none.
    pub on: String,
    /// Why.
    pub why: String,
    /// Why each of what is renewed is, and why older ones stand, each in a sentence.
    pub each: Vec<String>,
    /// The kind of each piece of work that it is, as lists of work count them.
    pub works: Vec<String>,
    /// What it costs.
    pub cost: String,
    /// What would be done in its place, and by how much that is worse; nothing where no other was weighed.
    pub next: Option<String>,
}

/// A draft, and what the plan becomes with what is picked of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drafted {
    /// The pieces, in the order of a winter.
    pub pieces: Vec<DraftPiece>,
    /// What is picked costs so much.
    pub cost: String,
    /// What stays open with what is picked, each with why.
    pub open: Vec<(String, String)>,
    /// Why trees are not tipped, with all of it picked; empty where nothing is to be said.
    pub untipped: String,
    /// Whether all of them are picked.
    pub whole: bool,
    /// How many pieces of work are left out of what is picked: what they mend comes with what is not, or they can't be done without.
    pub left: u32,
    /// What makes the plan with the picked ones of that which was asked about.
    pub taken: Update,
}

/// Generations of the plan that was asked about, and of what it becomes.
const WAS: u32 = 0;
const BECOMES: u32 = 1;

/// The draft that was made last of a plan.
#[derive(Default)]
pub struct LastDraft(Option<(DraftOf, Draft)>);

impl LastDraft {
    /// It is made anew: the plan is another.
    pub fn forget(&mut self) {
        self.0 = None;
    }

    /// The draft of a window, made where it is not the last one.
    ///
    /// # Errors
    /// No such scheme or moment.
    fn of(&mut self, plan: &Plan, of: &DraftOf) -> Result<&Draft, Refusal> {
        let known = self.0.take().filter(|(known, _)| known == of);
        let made = match known {
            Some((_, draft)) => draft,
            None => draft_by(plan, of.scheme, of.moment, &Weights::of(&of.weights))?,
        };
        Ok(&self.0.insert((of.clone(), made)).1)
    }

    /// Tells of the draft of a window, and takes the pieces of the places that `picks` holds, or all.
    ///
    /// # Errors
    /// No such scheme or moment.
    pub fn told(
        &mut self,
        plan: &Plan,
        of: &DraftOf,
        picks: Option<&[u32]>,
        words: &Words,
    ) -> Result<Drafted, Refusal> {
        let draft = self.of(plan, of)?;
        let place = |piece: &Piece| draft.pieces.iter().position(|p| std::ptr::eq(p, piece));
        let is_picked = |piece: &Piece| {
            let place = place(piece).and_then(|at| u32::try_from(at).ok());
            picks.is_none_or(|picks| place.is_some_and(|at| picks.contains(&at)))
        };
        let taken = draft.taken(plan, is_picked)?;
        let whole = picks.is_none_or(|picks| picks.len() == draft.pieces.len());
        let untipped = match whole {
            true => draft.untipped(plan)?,
            false => None,
        };
        let untipped = untipped.map(|why| words.say(&why.said()));
        let works = |piece: &Piece| piece.work.len() as u32;
        let row = Replayer::default().at(&draft.plan, of.scheme, of.moment, Phase::After)?;
        let row = row.row;
        let told = |piece: &Piece| {
            let kind = piece.main().map_or(OTHER, kind);
            let tree = piece.trees().next();
            DraftPiece {
                kind: kind.into(),
                tree: tree
                    .filter(|tree| piece.trees().all(|t| t == *tree))
                    .map(|t| t.0),
                x: piece.x,
                said: words.done(&piece.said, &piece.also),
                on: subjects_line(&piece.work, &row, words),
                why: match &piece.why {
                    Why::Found(finding) => words.finding(finding),
                    Why::Usual(said) => words.say(said),
                },
                each: piece.each.iter().map(|r| words.say(&r.said)).collect(),
                works: piece.work.iter().map(|w| self::kind(w).into()).collect(),
                cost: cost(piece.work.iter(), plan, words),
                next: piece.next.as_ref().map(|next| next_best(next, words)),
            }
        };
        let picked = taken.pieces.iter().flat_map(|at| &draft.pieces[*at].work);
        Ok(Drafted {
            pieces: draft.pieces.iter().map(told).collect(),
            cost: cost(picked, plan, words),
            open: open(draft, &taken, words)?,
            untipped: untipped.unwrap_or_default(),
            whole,
            left: taken.left.iter().map(|at| works(&draft.pieces[*at])).sum(),
            taken: Update::between(BECOMES, (WAS, plan), &taken.plan),
        })
    }

    /// What the draft of a window brings, or one of its pieces beside the draft without it: nothing worked out yet.
    ///
    /// # Errors
    /// No such scheme or moment.
    pub fn gain(
        &mut self,
        plan: &Plan,
        of: &DraftOf,
        piece: Option<u32>,
    ) -> Result<GainDraws, Refusal> {
        let draft = self.of(plan, of)?;
        let gain =
            |before: &Plan, after: &Plan| GainDraws::new(before, after, of.scheme, of.moment.leaf);
        let piece = piece.and_then(|at| draft.pieces.get(at as usize));
        let Some(piece) = piece else {
            return Ok(gain(plan, &draft.plan));
        };
        let goes = |w: &Work| piece.work.contains(w);
        let before = draft.plan.without_work(of.scheme, of.moment, goes)?;
        let trees: Vec<TreeId> = piece.trees().gathered_set().into_iter().collect();
        Ok(gain(&around(&before, &trees), &around(&draft.plan, &trees)))
    }
}

/// The kind of work that has no sign.
const OTHER: &str = "draft-other";

/// The name of what a work is, by which pieces are taken together.
fn kind(work: &Work) -> &'static str {
    match work {
        // A tree that is replaced is planted, whatever comes off for it.
        Work::Plant { .. } | Work::ReplaceTree { .. } => "draft-plant",
        other => Sign::of(other).map_or(OTHER, Sign::word),
    }
}

fn add(to: &mut Vec<(String, u32)>, kind: &str) {
    match to.iter_mut().find(|(known, _)| known == kind) {
        Some((_, all)) => *all += 1,
        None => to.push((kind.to_owned(), 1)),
    }
}

/// A kind of a draft's pieces, which are taken together.
#[derive(Clone, Debug, PartialEq)]
pub struct DraftGroup {
    /// Its name.
    pub name: String,
    /// How many pieces of work of that kind they are.
    pub own: u32,
    /// What of other kinds goes with them.
    pub with: Vec<(String, u32)>,
}

impl DraftGroup {
    /// The kinds of some pieces, each once, in the order in which they come.
    pub fn all(pieces: &[DraftPiece]) -> Vec<Self> {
        let mut out: Vec<Self> = Vec::new();
        for piece in pieces {
            let at = out.iter().position(|k| k.name == piece.kind);
            let at = at.unwrap_or_else(|| {
                out.push(Self {
                    name: piece.kind.clone(),
                    own: 0,
                    with: Vec::new(),
                });
                out.len() - 1
            });
            for kind in &piece.works {
                match *kind == piece.kind {
                    true => out[at].own += 1,
                    false => add(&mut out[at].with, kind),
                }
            }
        }
        out
    }

    /// What it is called where it is taken, with its counts.
    pub fn told(&self, words: &Words) -> String {
        let one = |(kind, count): &(String, u32)| format!("{} {count}", words.plain(kind));
        let own = one(&(self.name.clone(), self.own));
        if self.with.is_empty() {
            return own;
        }
        let with: Vec<String> = self.with.iter().map(one).collect();
        let args = [
            ("kind", Arg::Text(own)),
            ("with", Arg::Text(with.join(", "))),
        ];
        words.text("draft-kind-with", &args)
    }
}

impl DraftPiece {
    /// How many pieces of work it is.
    pub fn count(&self) -> u32 {
        self.works.len() as u32
    }
}

/// What a draft leaves open as far as it is taken, and why.
fn open(draft: &Draft, taken: &Taken, words: &Words) -> Result<Vec<(String, String)>, Refusal> {
    let open = draft.open_of(taken)?;
    let all: Vec<_> = open.findings.iter().collect();
    let told = |(matter, why): &(_, Stuck)| (words.matter(matter, &all), words.stuck(why));
    Ok(open.matters.iter().map(told).collect())
}

fn cost<'w>(works: impl Iterator<Item = &'w Work>, plan: &Plan, words: &Words) -> String {
    let cost = Cost::of(&works.collect::<Vec<_>>(), plan);
    let count = |n: usize| Arg::Count(n as i64);
    let args = [
        ("cuts", count(cost.cuts)),
        ("ties", count(cost.ties)),
        ("buds", count(cost.buds)),
        ("wires", count(cost.wires)),
        (
            "minutes",
            Arg::Number(cost.minutes, if cost.minutes < 10.0 { 1 } else { 0 }),
        ),
    ];
    words.text("draft-cost", &args)
}

fn next_best(next: &NextBest, words: &Words) -> String {
    let (wire, worse) = match next.worse {
        Worse::Wire(mm) => (true, Arg::Length(mm)),
        Worse::Spacing(parts) => (false, Arg::Number(parts, 2)),
    };
    let said = next.said.as_ref().map(|said| words.say(said));
    let args = [
        ("wire", Arg::yes(wire)),
        ("worse", worse),
        ("leaves", Arg::yes(said.is_none())),
        ("said", Arg::Text(said.unwrap_or_default())),
    ];
    words.text("draft-next", &args)
}

/// So many trees are named one by one.
const NAMED: usize = 6;

/// Trees by their numbers, the first few of many.
fn trees_told(trees: &[TreeId], words: &Words) -> String {
    let named = trees.iter().take(NAMED).map(|t| t.0.to_string());
    let args = [
        ("count", Arg::Count(trees.len() as i64)),
        ("trees", Arg::Text(named.collect::<Vec<_>>().join(", "))),
        ("more", Arg::yes(trees.len() > NAMED)),
    ];
    words.text("draft-gain-trees", &args)
}

/// What is gained, line by line: a piece's fruit is that of some trees, which are named.
pub fn gained(gain: &Gain, of_piece: Option<&[TreeId]>, words: &Words) -> Vec<String> {
    let trees = of_piece.map(|trees| trees_told(trees, words));
    let of_piece = trees.is_some();
    let (kg, low, high) = gain.kg();
    let number = |value| Arg::Number(value, 1);
    let crop = match of_piece {
        true => (gain.before.kg, gain.before.kg + kg, low, high),
        false => (gain.before.crop, gain.after.crop, gain.crop.0, gain.crop.1),
    };
    let args = [
        ("piece", Arg::yes(of_piece)),
        ("trees", Arg::Text(trees.unwrap_or_default())),
        ("before", number(crop.0)),
        ("after", number(crop.1)),
        ("low", number(crop.2)),
        ("high", number(crop.3)),
    ];
    let coming = match of_piece {
        true => gain.coming_kg(),
        false => (gain.before.coming, gain.after.coming),
    };
    let next = [
        ("piece", Arg::yes(of_piece)),
        ("before", number(coming.0)),
        ("after", number(coming.1)),
    ];
    let brief = || {
        let with = [
            ("before", number(crop.0)),
            ("after", number(crop.1)),
            ("else", number(coming.0)),
            ("then", number(coming.1)),
        ];
        words.text("draft-gain-brief", &with)
    };
    let mut out: Vec<String> = (!of_piece).then(brief).into_iter().collect();
    out.extend([
        words.text("draft-gain-crop", &args),
        words.text("draft-gain-coming", &next),
    ]);
    let share =
        |of: fn(&Brought) -> f64| (Arg::Share(of(&gain.before)), Arg::Share(of(&gain.after)));
    let age = |b: &Brought| Arg::Count(b.oldest.into());
    for (key, (before, after)) in [
        ("draft-gain-fill", share(|b| b.fill)),
        ("draft-gain-spacing", share(|b| b.spacing)),
        ("draft-gain-light", share(|b| b.light)),
        ("draft-gain-oldest", (age(&gain.before), age(&gain.after))),
    ] {
        let same = words.arg(&before) == words.arg(&after);
        let args = [
            ("same", Arg::yes(same)),
            ("before", before),
            ("after", after),
        ];
        out.push(words.text(key, &args));
    }
    out
}

impl Drafted {
    /// The plan with what was picked, of the one that was asked about; nothing where that can't be read.
    pub fn plan(&self, was: &Plan) -> Option<Plan> {
        self.taken.onto(Some((WAS, was)))?.ok()
    }
}
