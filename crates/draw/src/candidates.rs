//! Shoots that a class has pointed out before it sees the answer, lettered in the order in which it did.

use crate::element::{el, group, markup, text};
use crate::lone::RowShoot;
use crate::pen::{num, translate};
use crate::wood::on_page;
use cordonry::pose::PosedRow;
use kurbo::Rect;
use svg::node::Node;
use svg::node::element::Element;

/// How far up its shoot a letter may stand, as shares of the length, the likeliest first.
const UP: [f64; 9] = [0.4, 0.55, 0.7, 0.85, 0.2, 1.0, 0.0, -0.2, -0.4];
/// Half the width and height of a letter's ground, px: room for the answer beside it, so that it stays where it is with that.
const HALF: (f64, f64) = (13.0, 8.0);

/// A shoot that was pointed out, and whether it is one of those that the work is done on; `None` before the answer is shown.
pub type Candidate = (RowShoot, Option<bool>);

/// The letter of the candidate of that number.
pub fn letter(number: usize) -> String {
    match u8::try_from(number) {
        Ok(n) if n < 26 => char::from(b'A' + n).to_string(),
        _ => (number + 1).to_string(),
    }
}

/// Their letters as markup, to be laid over the wall. What no longer stands there has none, and the others keep theirs.
/// They keep clear of each other where their shoots have room, at so many pixels to a millimetre.
pub fn candidate_marks(row: &PosedRow, candidates: &[Candidate], px_per_mm: f64) -> String {
    // As large as the style draws them.
    let unit = (1.0 / crate::pen::scale(px_per_mm)).max(2.0);
    let mut taken: Vec<Rect> = Vec::new();
    let numbered = candidates.iter().enumerate();
    let marks = numbered.filter_map(|(number, ((tree, shoot), right))| {
        let posed = row.posed().iter().find(|p| p.tree().id == *tree)?;
        let (_, course) = posed.pairs().find(|(s, _)| s.id == *shoot)?;
        let ground = |share: f64| {
            let at = on_page(match share {
                // Under its foot it stands straight below.
                s if s < 0.0 => course.base + kurbo::Vec2::new(0.0, course.length * s),
                s => course.point(course.length * s),
            });
            Rect::from_center_size(at, (2.0 * HALF.0 * unit, 2.0 * HALF.1 * unit))
        };
        let covered = |r: &Rect| -> f64 {
            let over = taken.iter().map(|t| t.intersect(*r));
            over.filter(|o| o.width() > 0.0 && o.height() > 0.0)
                .map(|o| o.area())
                .sum()
        };
        let mut best = ground(UP[0]);
        for place in UP.map(ground) {
            if covered(&place) < covered(&best) {
                best = place;
            }
        }
        taken.push(best);
        Some(mark(&letter(number), *right, translate(best.center())))
    });
    markup(marks)
}

fn mark(letter: &str, right: Option<bool>, place: String) -> Element {
    let told = match right {
        None => letter.to_string(),
        Some(true) => format!("{letter}✓"),
        Some(false) => format!("{letter}✗"),
    };
    let mut own = group("sized");
    let wide = if right.is_some() { HALF.0 } else { HALF.1 };
    let ground = [
        ("class", "pin-head"),
        ("x", &num(-wide)),
        ("y", &num(-HALF.1)),
        ("width", &num(2.0 * wide)),
        ("height", &num(2.0 * HALF.1)),
        ("rx", &num(HALF.1)),
    ];
    own.append(el("rect", &ground));
    own.append(text("text", &[("class", "pin-number"), ("y", "4")], &told));
    let mut out = el("g", &[("class", "candidate"), ("transform", &place)]);
    out.append(own);
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use cordonry::row::{ShootId, Targets, TreeId};
    use cordonry_fixture::wood;

    #[test]
    fn each_that_stands_has_its_letter_and_the_answer_beside_it() {
        let row = PosedRow::of(&wood::planted(2, 1500, 2000.0), &Targets::default());
        let of = |tree: u32| (TreeId(tree), ShootId::STEM);
        let first = row.posed()[0].tree().id.0;
        let all = [(of(first), None), (of(999), None), (of(first + 1), None)];
        let asked = candidate_marks(&row, &all, 0.05);
        assert!(
            asked.contains(">A<") && asked.contains(">C<") && !asked.contains(">B<"),
            "{asked}"
        );
        let told = candidate_marks(
            &row,
            &[(of(first), Some(true)), (of(first + 1), Some(false))],
            0.05,
        );
        assert!(told.contains(">A✓<") && told.contains(">B✗<"), "{told}");
    }

    #[test]
    fn letters_end_and_numbers_go_on() {
        assert_eq!([letter(0), letter(25), letter(26)], ["A", "Z", "27"]);
    }
}
