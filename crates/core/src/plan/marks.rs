//! Marks: notes, arrows, distances and outlined stretches that are pinned on the wall, and ride along with what they are pinned to.

use super::Plan;
use crate::pose::PosedRow;
use crate::range;
use crate::refusal::Refusal;
use crate::row::{ShootId, TreeId};
use crate::said::Arg;
use crate::units::Mm;
use kurbo::Point;

/// Something that is marked on the wall. In a plan they are numbered in order, from 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What it looks like.
    pub kind: MarkShape,
    /// Where it is.
    pub at: Pin,
    /// Where an arrow points to, a distance ends, a stretch has its other corner; a note has none.
    pub to: Option<Pin>,
    /// What it says. A note says something.
    pub text: String,
}

/// What a mark looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MarkShape {
    /// Words at a place.
    Note,
    /// An arrow from the words to a place.
    Arrow,
    /// A distance that was measured between two places.
    Distance,
    /// A stretch of the wall with a line around it.
    Stretch,
}

impl MarkShape {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Note, Self::Arrow, Self::Distance, Self::Stretch];

    /// Whether it has two ends.
    pub fn has_two(self) -> bool {
        self != Self::Note
    }

    /// Its text's name.
    pub fn key(self) -> &'static str {
        match self {
            Self::Note => "mark-note",
            Self::Arrow => "mark-arrow",
            Self::Distance => "mark-distance",
            Self::Stretch => "mark-stretch",
        }
    }
}

/// A place on the wall, and the wood that it rides along with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pin {
    /// Place along the row when it was pinned.
    pub x: Mm,
    /// Height then.
    pub z: Mm,
    /// What it is pinned to; nothing where it is the wall itself.
    pub on: Option<PinnedTo>,
}

/// A place on a shoot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PinnedTo {
    /// Its tree.
    pub tree: TreeId,
    /// The shoot.
    pub shoot: ShootId,
    /// How far from the shoot's base.
    pub along: Mm,
}

/// Where a pin is at some moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pinned {
    /// Where it is on the wall.
    pub point: Point,
    /// Whether what it was pinned to is there; a pin on the wall itself always is.
    pub is_there: bool,
}

impl Pin {
    /// A pin goes to wood that is no farther from it than this, mm.
    pub const REACH: f64 = 60.0;

    /// A place of the wall itself.
    pub fn wall(x: Mm, z: Mm) -> Self {
        Self { x, z, on: None }
    }

    /// A place on the wall, pinned to the wood that is nearest within [`REACH`](Self::REACH).
    pub fn near(point: Point, row: &PosedRow) -> Self {
        let hold = |v: f64| Mm::round(v.clamp(range::PLACE.0, range::PLACE.1));
        let mut nearest: Option<(f64, PinnedTo)> = None;
        for posed in row.posed() {
            if posed.far() + Self::REACH < (point.x - posed.tree().foot.f()).abs() {
                continue;
            }
            for (shoot, course) in posed.pairs() {
                let (off, along) = course.nearest(point);
                if off <= Self::REACH && nearest.is_none_or(|(least, _)| off < least) {
                    let on = PinnedTo {
                        tree: posed.tree().id,
                        shoot: shoot.id,
                        along: Mm::round(along),
                    };
                    nearest = Some((off, on));
                }
            }
        }
        Self {
            x: hold(point.x),
            z: hold(point.y),
            on: nearest.map(|(_, on)| on),
        }
    }

    /// Where it is on a row. Wood that is shorter by then has it at its end; wood that is gone leaves it where it was pinned.
    pub fn on(&self, row: &PosedRow) -> Pinned {
        let stays = Point::new(self.x.f(), self.z.f());
        let Some(on) = self.on else {
            return Pinned {
                point: stays,
                is_there: true,
            };
        };
        let tree = row.of_tree(on.tree);
        let of_shoot = tree.and_then(|t| t.pairs().find(|(s, _)| s.id == on.shoot));
        match of_shoot {
            Some((_, course)) => Pinned {
                point: course.point(on.along.f()),
                is_there: on.along.f() <= course.length + 1.0,
            },
            None => Pinned {
                point: stays,
                is_there: false,
            },
        }
    }
}

impl Mark {
    /// Most in a plan.
    pub const MAX: usize = 5_000;

    /// The place that it is about: what an arrow points to, else where it begins.
    pub fn about(&self) -> &Pin {
        match (self.kind, &self.to) {
            (MarkShape::Arrow, Some(to)) => to,
            _ => &self.at,
        }
    }

    /// A note on the wall itself.
    pub fn note(x: Mm, z: Mm, text: impl Into<String>) -> Self {
        Self {
            kind: MarkShape::Note,
            at: Pin::wall(x, z),
            to: None,
            text: text.into(),
        }
    }

    /// The distance between its two ends on a row, mm; none where it has one end.
    pub fn span(&self, row: &PosedRow) -> Option<f64> {
        let to = self.to?;
        Some(self.at.on(row).point.distance(to.on(row).point))
    }

    /// All its pins.
    pub fn pins(&self) -> impl Iterator<Item = &Pin> {
        [&self.at].into_iter().chain(&self.to)
    }

    /// Whether it is whole: a note says something, and all else has two ends.
    fn checked(&self) -> Result<Self, Refusal> {
        let text = self.text.trim();
        let long = text.chars().count();
        if self.kind.has_two() != self.to.is_some() {
            return Err(Refusal::new("refusal-mark-ends", Vec::new()));
        }
        let least = usize::from(self.kind == MarkShape::Note);
        if !(least..=Plan::MAX_TEXT).contains(&long) {
            return Err(Refusal::new(
                "refusal-mark-text",
                vec![
                    ("value", Arg::Count(long as i64)),
                    ("low", Arg::Count(least as i64)),
                    ("high", Arg::Count(Plan::MAX_TEXT as i64)),
                ],
            ));
        }
        Ok(Self {
            text: text.into(),
            ..self.clone()
        })
    }
}

impl Plan {
    /// The plan with one mark more, or with another in the place of the one at `index`.
    ///
    /// # Errors
    /// A note that says nothing, or too much; a mark with an end too few or too many; more than a plan holds; no such place.
    pub fn with_mark(&self, index: Option<usize>, mark: &Mark) -> Result<Plan, Refusal> {
        let mark = mark.checked()?;
        let mut out = self.clone();
        match index {
            Some(n) => *out.marks.get_mut(n).ok_or_else(|| self.no_mark(n))? = mark,
            None if out.marks.len() >= Mark::MAX => {
                let high = Arg::Count(Mark::MAX as i64);
                return Err(Refusal::new("refusal-mark-many", vec![("high", high)]));
            }
            None => out.marks.push(mark),
        }
        Ok(out)
    }

    /// The plan without some of its marks, by their places.
    ///
    /// # Errors
    /// No such place.
    pub fn without_marks(&self, which: &[usize]) -> Result<Plan, Refusal> {
        if let Some(n) = which.iter().find(|n| **n >= self.marks.len()) {
            return Err(self.no_mark(*n));
        }
        let mut out = self.clone();
        let mut n = 0..;
        out.marks
            .retain(|_| n.next().is_none_or(|n| !which.contains(&n)));
        Ok(out)
    }

    fn no_mark(&self, n: usize) -> Refusal {
        Refusal::new(
            "refusal-no-mark",
            vec![
                ("value", Arg::Count(n as i64 + 1)),
                ("high", Arg::Count(self.marks.len() as i64)),
            ],
        )
    }
}
