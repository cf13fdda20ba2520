//! The signs for work, each with its shape, and the key that tells what they mean.

use crate::block::{self, Block, HEAD_GAP};
use crate::element::{add, el, group, markup, path};
use crate::paper::MARGIN;
use crate::pen::{Pen, num, translate};
use crate::tree::bud_shape;
use cordonry::arrange::Arrange;
use cordonry::plan::{Field, Told};
use cordonry::row::{Moment, Row};
use cordonry::work::Work;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// What a sign stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sign {
    /// Wood is cut back.
    Cut,
    /// An upright is stubbed.
    Stub,
    /// A shoot or tree comes off.
    Off,
    /// A shoot is bent.
    Bend,
    /// A bud is kept.
    Bud,
    /// Wood is notched above a bud.
    Notch,
    /// Laterals come off.
    Laterals,
    /// Buds are rubbed out.
    Rub,
    /// A tree is marked as diseased.
    Diseased,
    /// The crew tells of the work as done.
    Done,
}

impl Sign {
    /// The sign of a piece of work; none for planting and the wires.
    pub fn of(work: &Work) -> Option<Self> {
        Some(match work {
            Work::Lay { .. } | Work::Stand { .. } => Self::Bend,
            Work::CutBack { .. }
            | Work::CutToBuds { .. }
            | Work::Tip { .. }
            | Work::HoldHeight { .. } => Self::Cut,
            Work::Stub { .. } => Self::Stub,
            Work::Remove { .. }
            | Work::RemoveTree { .. }
            | Work::ReplaceTree { .. }
            | Work::Thin { .. } => Self::Off,
            Work::TakeLaterals { .. } => Self::Laterals,
            Work::RubOut { .. } => Self::Rub,
            Work::KeepBud { .. } | Work::MoveBud { .. } => Self::Bud,
            Work::Notch { .. } => Self::Notch,
            Work::Plant { .. }
            | Work::AddWire { .. }
            | Work::MoveWire { .. }
            | Work::RemoveWire { .. }
            | Work::CoverWire { .. } => return None,
        })
    }

    /// The signs that stand for any of `work`, in a fixed order.
    pub fn all_of(work: &[Work]) -> Vec<Self> {
        let mut out: Vec<Self> = work.iter().filter_map(Self::of).collect();
        out.arrange();
        out.dedup();
        out
    }

    /// Those that stand on a row with a moment's `work` to be done, of which `field` tells.
    pub fn all_on(row: &Row, work: &[Work], moment: Moment, field: Option<&Field>) -> Vec<Self> {
        let marked = row.trees.iter().any(|t| t.diseased && !t.is_lost());
        let signed = |w: &&Work| Self::of(w).is_some();
        let done = (work.iter().filter(signed)).any(|w| is_done(field, moment, w));
        let mut out = Self::all_of(work);
        out.extend(marked.then_some(Self::Diseased));
        out.extend(done.then_some(Self::Done));
        out
    }

    /// Its group's classes, which bring its colour.
    pub fn class(self) -> &'static str {
        match self {
            Self::Cut => "work work-cut",
            Self::Stub => "work work-cut work-stub",
            Self::Off => "work work-remove",
            Self::Bend => "work work-lay",
            Self::Bud | Self::Notch => "work work-bud",
            Self::Laterals => "work work-laterals",
            Self::Rub => "work work-rub",
            Self::Diseased => "work work-diseased",
            Self::Done => "work work-done",
        }
    }

    /// The text that says what it means.
    pub fn word(self) -> &'static str {
        match self {
            Self::Cut => "draw-sign-cut",
            Self::Stub => "draw-sign-stub",
            Self::Off => "draw-sign-off",
            Self::Bend => "draw-sign-bend",
            Self::Bud => "draw-sign-bud",
            Self::Notch => "draw-sign-notch",
            Self::Laterals => "draw-sign-laterals",
            Self::Rub => "draw-sign-rub",
            Self::Diseased => "draw-sign-diseased",
            Self::Done => "draw-sign-done",
        }
    }

    /// Its strokes, with x along the wood that it lies on.
    pub(crate) fn shape(self) -> Pen {
        let p = Point::new;
        let mut pen = Pen::default();
        match self {
            Self::Cut | Self::Stub => {
                for i in 0..if self == Self::Stub { 2 } else { 1 } {
                    let x = -4.5 * f64::from(i);
                    pen.line(p(x - 3.0, 9.0), p(x + 3.0, -9.0));
                }
            }
            Self::Off => {
                pen.line(p(-6.5, -6.5), p(6.5, 6.5))
                    .line(p(-6.5, 6.5), p(6.5, -6.5));
            }
            Self::Bend => {
                pen.move_to(p(-9.0, -5.0))
                    .line_to(p(0.0, 0.0))
                    .line_to(p(-9.0, 5.0));
            }
            Self::Bud => {
                pen.line(p(0.0, -7.0), p(0.0, 7.0));
            }
            // A bud's stroke, and the cut beyond it.
            Self::Notch => {
                pen.line(p(0.0, -7.0), p(0.0, 7.0));
                pen.move_to(p(-4.0, 5.0))
                    .line_to(p(0.0, 9.0))
                    .line_to(p(-4.0, 13.0));
            }
            // Aslant as laterals stand; short and open upward, so that those of close uprights make no stripe.
            Self::Laterals => {
                for x in [-4.0, 3.0] {
                    for side in [-1.0, 1.0] {
                        pen.line(p(x, 3.5 * side), p(x + 5.0, 9.0 * side));
                    }
                }
            }
            Self::Rub => {
                for x in [-4.0, 4.0] {
                    pen.line(p(x, -8.0), p(x, -4.0)).line(p(x, 4.0), p(x, 8.0));
                }
            }
            // A flag that is stuck into the ground at the tree's foot.
            Self::Diseased => {
                pen.move_to(p(0.0, 0.0))
                    .line_to(p(21.0, 0.0))
                    .line_to(p(15.5, 11.0))
                    .line_to(p(10.0, 0.0));
            }
            // Beside the sign of the work, on its right and above.
            Self::Done => {
                pen.move_to(p(8.0, -9.0))
                    .line_to(p(11.0, -6.0))
                    .line_to(p(17.0, -14.0));
            }
        }
        pen
    }

    /// The sign on a bit of wood, in pixels about the middle of a square of [`KEY_SIDE`].
    fn example(self) -> Element {
        let p = Point::new;
        let mut out = group(self.class());
        let lies = matches!(self, Self::Bud | Self::Notch | Self::Rub);
        let mut wood = Pen::default();
        match self {
            Self::Bend | Self::Diseased | Self::Done => wood.line(p(-8.0, 9.0), p(-8.0, -9.0)),
            _ if lies => wood.line(p(-10.0, 0.0), p(10.0, 0.0)),
            _ => wood.line(p(0.0, 10.0), p(0.0, -10.0)),
        };
        add(&mut out, path("key-wood", &wood));
        let (at, turn) = match self {
            Self::Bend => (p(9.0, 3.0), 70.0),
            Self::Bud | Self::Notch => (p(0.0, -1.5), -90.0),
            Self::Rub => (p(0.0, 0.0), 0.0),
            Self::Diseased => (p(0.0, 10.0), -90.0),
            Self::Done => (p(-9.0, 12.0), 0.0),
            _ => (p(0.0, 0.0), -90.0),
        };
        if self == Self::Bend {
            let mut sweep = Pen::default();
            sweep
                .move_to(p(-8.0, -9.0))
                .curve_to(p(1.0, -9.0), p(7.0, -5.0), p(9.0, 3.0));
            add(&mut out, path("key-sweep", &sweep));
        }
        let transform = format!("{} rotate({})", translate(at), num(turn));
        let mut place = el("g", &[("transform", &transform)]);
        add(&mut place, path("sign-ground", &self.shape()));
        if matches!(self, Self::Bud | Self::Notch) {
            add(&mut place, path("sign-fill", &bud_shape()));
        }
        add(&mut place, path("sign", &self.shape()));
        out.append(place);
        out
    }

    /// The sign as a small drawing of its own, [`KEY_SIDE`] pixels wide and high.
    pub fn drawing(self) -> String {
        let half = KEY_SIDE / 2.0;
        let mut out = el(
            "svg",
            &[
                ("aria-hidden", "true"),
                ("class", "sign-drawing"),
                ("height", &num(KEY_SIDE)),
                (
                    "viewBox",
                    &format!(
                        "{} {} {} {}",
                        num(-half),
                        num(-half),
                        num(KEY_SIDE),
                        num(KEY_SIDE)
                    ),
                ),
                ("width", &num(KEY_SIDE)),
            ],
        );
        out.append(self.example());
        markup([out])
    }
}

/// Whether the crew tells of a piece as done.
pub(crate) fn is_done(field: Option<&Field>, moment: Moment, work: &Work) -> bool {
    field.is_some_and(|f| f.told(moment, work) == Told::Done)
}

/// Side of a sign's square in the key, pixels.
pub const KEY_SIDE: f64 = 24.0;

/// Room between two signs of the key, and above and under a line of it: pixels.
const BETWEEN: f64 = 18.0;
const LINE_HEIGHT: f64 = 20.0;

/// The key of `signs` in lines of at most `width` pixels; none without signs. It stands a little up into the gap under a
/// sheet's head.
pub(crate) fn block(signs: &[Sign], width: f64, words: &Words) -> Option<Block> {
    if signs.is_empty() {
        return None;
    }
    let mut element = group("sign-key");
    let (mut x, mut y) = (0.0, KEY_SIDE / 2.0 - HEAD_GAP / 2.0);
    for sign in signs {
        let word = words.plain(sign.word());
        let own = KEY_SIDE + 4.0 + word.chars().count() as f64 * 6.6;
        if x > 0.0 && x + own > width {
            (x, y) = (0.0, y + LINE_HEIGHT);
        }
        let at = Point::new(MARGIN + x + KEY_SIDE / 2.0, y);
        let mut drawn = el("g", &[("transform", &translate(at))]);
        drawn.append(sign.example());
        element.append(drawn);
        element.append(block::at(
            "sheet-text",
            MARGIN + x + KEY_SIDE + 4.0,
            y + 4.0,
            &word,
        ));
        x += own + BETWEEN;
    }
    Some(Block {
        element,
        height: y + HEAD_GAP / 2.0 - KEY_SIDE / 2.0 + LINE_HEIGHT,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use cordonry::row::{ShootId, TreeId};
    use std::collections::BTreeSet;

    const ALL: [Sign; 10] = [
        Sign::Cut,
        Sign::Stub,
        Sign::Off,
        Sign::Bend,
        Sign::Bud,
        Sign::Notch,
        Sign::Laterals,
        Sign::Rub,
        Sign::Diseased,
        Sign::Done,
    ];

    #[test]
    fn each_sign_has_a_shape_and_a_word_of_its_own() {
        let words = Words::default();
        let texts: BTreeSet<String> = ALL.iter().map(|s| words.plain(s.word())).collect();
        let shapes: BTreeSet<String> = ALL.iter().map(|s| s.shape().data().to_string()).collect();
        assert_eq!((texts.len(), shapes.len()), (ALL.len(), ALL.len()));
        assert!(ALL.iter().all(|s| words.plain(s.word()) != s.word()));
    }

    #[test]
    fn the_key_tells_what_is_drawn_and_no_more() {
        let (tree, shoot) = (TreeId(1), ShootId::STEM);
        let rub = Work::RubOut { tree, shoot };
        let off = Work::Remove { tree, shoot };
        let work = [rub.clone(), off, rub];
        assert_eq!(Sign::all_of(&work), [Sign::Off, Sign::Rub]);
        let words = Words::default();
        let drawn = block(&Sign::all_of(&work), 900.0, &words).map(|b| b.element.to_string());
        let drawn = drawn.unwrap_or_default();
        assert!(drawn.contains("work-remove") && drawn.contains("rub buds out"));
        assert!(!drawn.contains("work-bud"));
        assert!(block(&[], 900.0, &words).is_none());
    }
}
