//! A mark that is being put on the wall: first its places, then its words.

use cordonry::check::Part;
use cordonry::plan::{Mark, MarkShape, Pin, Plan};
use cordonry::pose::PosedRow;
use cordonry::refusal::Refusal;
use kurbo::Point;

/// How far a mark has come.
#[derive(Clone, Debug, PartialEq)]
pub enum Marking {
    /// The next press says where it is, or where its first end is.
    First(MarkShape),
    /// The next press says where its other end is.
    Second(MarkShape, Pin),
    /// It has its places; what it says is asked for.
    Words(Mark),
}

impl Marking {
    /// What comes of a press at a place of the wall. One that has its places keeps them.
    #[must_use]
    pub fn pressed(&self, place: Point, row: &PosedRow) -> Self {
        let placed = |kind, at, to| {
            Self::Words(Mark {
                kind,
                at,
                to,
                text: String::new(),
            })
        };
        match self {
            Self::First(kind) if kind.has_two() => Self::Second(*kind, Pin::near(place, row)),
            Self::First(kind) => placed(*kind, Pin::near(place, row), None),
            Self::Second(kind, at) => placed(*kind, *at, Some(Pin::near(place, row))),
            Self::Words(_) => self.clone(),
        }
    }

    /// The plan with the mark, once it has its places.
    ///
    /// # Errors
    /// What a plan refuses.
    pub fn put(&self, plan: &Plan, text: &str) -> Result<Option<Plan>, Refusal> {
        let Self::Words(mark) = self else {
            return Ok(None);
        };
        let mark = Mark {
            text: text.into(),
            ..mark.clone()
        };
        plan.with_mark(None, &mark).map(Some)
    }

    /// What of it is on the wall already.
    pub fn shown(&self) -> Option<Mark> {
        match self {
            Self::First(_) => None,
            Self::Second(_, at) => Some(Mark {
                kind: MarkShape::Note,
                at: *at,
                to: None,
                text: String::new(),
            }),
            Self::Words(mark) => Some(mark.clone()),
        }
    }
}

/// A place on a part: the middle of a shoot, the foot of a tree.
pub fn place_on(part: Part, row: &PosedRow) -> Option<Point> {
    let posed = row.of_tree(part.tree)?;
    match part.shoot {
        Some(shoot) => {
            let (_, course) = posed.pairs().find(|(s, _)| s.id == shoot)?;
            Some(course.point(course.length / 2.0))
        }
        None => Some(Point::new(posed.tree().foot.f(), 0.0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cordonry::row::{ShootId, Targets};
    use cordonry_fixture::wood;

    #[test]
    fn a_note_takes_one_press_and_all_else_two_and_then_words() {
        let found = wood::planted(2, 1500, 2000.0);
        let row = PosedRow::of(&found, &Targets::default());
        let plan = Plan::new("a row", found);
        let part = Part {
            tree: row.posed()[1].tree().id,
            shoot: Some(ShootId::STEM),
        };
        let stem = place_on(part, &row).unwrap();
        for kind in MarkShape::ALL {
            let mut now = Marking::First(kind);
            assert_eq!((now.shown(), now.put(&plan, "x").unwrap()), (None, None));
            now = now.pressed(Point::new(0.0, 5_000.0), &row);
            if kind.has_two() {
                assert!(matches!(now, Marking::Second(..)));
                assert_eq!(now.shown().unwrap().kind, MarkShape::Note);
                now = now.pressed(stem, &row);
            }
            assert!(matches!(now, Marking::Words(_)), "{now:?}");
            assert_eq!(now.pressed(stem, &row), now);
            let put = now.put(&plan, "see here").unwrap().unwrap();
            assert_eq!(put.marks.len(), 1);
            let mark = &put.marks[0];
            assert_eq!((mark.kind, mark.text.as_str()), (kind, "see here"));
            assert_eq!(mark.to.is_some(), kind.has_two());
            let on = mark.to.and_then(|to| to.on).map(|on| (on.tree, on.shoot));
            assert_eq!(on.is_some(), kind.has_two());
            if let Some(on) = on {
                assert_eq!(on, (part.tree, ShootId::STEM));
            }
        }
        // A note says something.
        let note = Marking::First(MarkShape::Note).pressed(stem, &row);
        assert_eq!(note.put(&plan, " ").unwrap_err().key, "refusal-mark-text");
    }
}
