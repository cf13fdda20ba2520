//! A draft of a window's work, as it comes from the helper: texts, and what the plan becomes.

use super::Update;
use cordonry::advise::{Piece, Why, draft};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry::row::Moment;
use cordonry_draw::Sign;
use cordonry_words::Words;
use serde::{Deserialize, Serialize};

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
    /// Why.
    pub why: String,
}

/// A draft, and what the plan becomes with what is picked of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drafted {
    /// The pieces, in the order of a winter.
    pub pieces: Vec<DraftPiece>,
    /// What makes the plan with the picked ones of that which was asked about.
    pub taken: Update,
}

/// Generations of the plan that was asked about, and of what it becomes.
const WAS: u32 = 0;
const BECOMES: u32 = 1;

/// Drafts the work of a moment, and takes the pieces of the places that `picks` holds, or all.
///
/// # Errors
/// No such scheme or moment.
pub fn drafted(
    plan: &Plan,
    (scheme, moment): (usize, Moment),
    picks: Option<&[u32]>,
    words: &Words,
) -> Result<Drafted, Refusal> {
    let draft = draft(plan, scheme, moment)?;
    let place = |piece: &Piece| draft.pieces.iter().position(|p| std::ptr::eq(p, piece));
    let is_picked = |piece: &Piece| {
        let place = place(piece).and_then(|at| u32::try_from(at).ok());
        picks.is_none_or(|picks| place.is_some_and(|at| picks.contains(&at)))
    };
    let taken = draft.taken(plan, is_picked)?;
    let told = |piece: &Piece| {
        let sign = piece.work.first().and_then(Sign::of);
        let tree = piece.trees().next();
        DraftPiece {
            kind: sign.map_or("draft-other", Sign::word).into(),
            tree: tree
                .filter(|tree| piece.trees().all(|t| t == *tree))
                .map(|t| t.0),
            x: piece.x,
            said: words.say(&piece.said),
            why: match &piece.why {
                Why::Found(finding) => words.finding(finding),
                Why::Usual(said) => words.say(said),
            },
        }
    };
    Ok(Drafted {
        pieces: draft.pieces.iter().map(told).collect(),
        taken: Update::between(BECOMES, (WAS, plan), &taken),
    })
}

impl Drafted {
    /// The plan with what was picked, of the one that was asked about; nothing where that can't be read.
    pub fn plan(&self, was: &Plan) -> Option<Plan> {
        self.taken.onto(Some((WAS, was)))?.ok()
    }
}
