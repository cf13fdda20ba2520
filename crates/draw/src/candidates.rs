//! Shoots that a class has pointed out before it sees the answer, lettered in the order in which it did.

use crate::element::{el, group, markup, text};
use crate::lone::RowShoot;
use crate::pen::{num, translate};
use crate::wood::on_page;
use cordonry::pose::PosedRow;
use svg::node::Node;
use svg::node::element::Element;

/// How far up their shoots the letters of neighbours stand, as shares of the length: they keep clear of each other.
const UP: [f64; 4] = [0.4, 0.55, 0.7, 0.85];
/// Radius of a letter's ground, and with the answer beside it, px.
const ROUND: (f64, f64) = (9.0, 13.0);

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
pub fn candidate_marks(row: &PosedRow, candidates: &[Candidate]) -> String {
    let numbered = candidates.iter().enumerate();
    let marks = numbered.filter_map(|(number, ((tree, shoot), right))| {
        let posed = row.posed().iter().find(|p| p.tree().id == *tree)?;
        let (_, course) = posed.pairs().find(|(s, _)| s.id == *shoot)?;
        let at = on_page(course.point(course.length * UP[number % UP.len()]));
        Some(mark(&letter(number), *right, translate(at)))
    });
    markup(marks)
}

fn mark(letter: &str, right: Option<bool>, place: String) -> Element {
    let (round, told) = match right {
        None => (ROUND.0, letter.to_string()),
        Some(true) => (ROUND.1, format!("{letter}✓")),
        Some(false) => (ROUND.1, format!("{letter}✗")),
    };
    let mut own = group("sized");
    own.append(el("circle", &[("class", "pin-head"), ("r", &num(round))]));
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
        let asked = candidate_marks(&row, &all);
        assert!(
            asked.contains(">A<") && asked.contains(">C<") && !asked.contains(">B<"),
            "{asked}"
        );
        let told = candidate_marks(
            &row,
            &[(of(first), Some(true)), (of(first + 1), Some(false))],
        );
        assert!(told.contains(">A✓<") && told.contains(">B✗<"), "{told}");
    }

    #[test]
    fn letters_end_and_numbers_go_on() {
        assert_eq!([letter(0), letter(25), letter(26)], ["A", "Z", "27"]);
    }
}
