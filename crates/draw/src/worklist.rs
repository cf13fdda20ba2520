//! A piece of work as it is listed for whoever does it.

use cordonry::pose::{Name, Posed, PosedRow};
use cordonry::row::TreeId;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_words::Words;

/// A piece of work, and where it is done.
pub(crate) struct Piece {
    /// On which tree.
    pub tree: Option<TreeId>,
    /// On what of it, as the crew finds it.
    pub name: Option<Name>,
    /// Where along the row, mm.
    pub x: Option<f64>,
    /// Whether that is the place on laid wood where it is done, and not that of what it is done on.
    there: bool,
    work: String,
}

/// What is to be done where, in a line: the shoot's name, its tree's bay and its place along the row.
pub fn work_line(work: &Work, row: &PosedRow, words: &Words) -> String {
    let piece = Piece::of(work, row, words);
    let part = piece.tree.map(|t| words.say(&row.in_bay(t, piece.name)));
    piece.line(part, words)
}

/// Where along the row work is done, mm; `None` where it is about no tree.
pub fn work_place(work: &Work, row: &PosedRow, words: &Words) -> Option<f64> {
    Piece::of(work, row, words).x
}

impl Piece {
    /// Of work on a row, which is as it is before or after it.
    pub(crate) fn of(work: &Work, row: &PosedRow, words: &Words) -> Self {
        let subject = work.subject();
        let after = subject.tree.and_then(|t| row.of_tree(t));
        let before = after.map(|p| p.before());
        // What is laid or kept at the same time is there afterwards only.
        let both = || [before, after.map(|p| &**p)].into_iter().flatten();
        let there = || both().rev().find_map(|p| on_laid_wood(work, p));
        let stands = || {
            let base = |p: &Posed| Some(p.courses()[p.tree().index(subject.shoot)?].base.x);
            both()
                .find_map(base)
                .or_else(|| Some(before?.tree().foot.f()))
        };
        let laid = there();
        Self {
            tree: subject.tree,
            name: both().find_map(|p| p.name(subject.shoot)),
            x: laid.or_else(stands),
            there: laid.is_some(),
            work: words.work(work),
        }
    }

    /// The line of its list, with its subject so named; the place goes with the work where it is on laid wood.
    pub(crate) fn line(&self, part: Option<String>, words: &Words) -> String {
        let Some(part) = part else {
            return match self.x {
                Some(x) => words.text("work-at", &self.args(String::new(), x)),
                None => self.work.clone(),
            };
        };
        let key = match self.x {
            None => "work-line",
            Some(_) if self.there => "work-line-there",
            Some(_) => "work-line-at",
        };
        words.text(key, &self.args(part, self.x.unwrap_or_default()))
    }

    /// Where on laid wood it is done, mm along the row.
    pub(crate) fn place_on_wood(&self) -> Option<f64> {
        self.x.filter(|_| self.there)
    }

    fn args(&self, part: String, x: f64) -> [(&'static str, Arg); 3] {
        [
            ("part", Arg::Text(part)),
            ("work", Arg::Text(self.work.clone())),
            ("x", Arg::Length(x)),
        ]
    }
}

/// Where a bud is kept on laid wood of a tree, or the wood is cut, mm along the row.
fn on_laid_wood(work: &Work, posed: &Posed) -> Option<f64> {
    let tree = posed.tree();
    let at = tree.index(work.subject().shoot)?;
    let (at, along) = match *work {
        Work::KeepBud { at_mm, .. } | Work::Notch { at_mm, .. } => (at, at_mm),
        Work::MoveBud { at_mm, .. } => (tree.index(tree.shoots[at].parent?)?, at_mm),
        Work::CutBack { keep_mm, .. } => (at, keep_mm),
        _ => return None,
    };
    let course = posed.courses()[at];
    let laid = tree.shoots[at].pose.is_laid();
    laid.then(|| course.point(along.f().min(course.length)).x)
}

/// How far below a visible canker is cut, mm: bacteria were found to 76 mm below one, and not at 127 (state extension, 2025).
const BELOW_CANKER: f64 = 130.0;

/// A text of what to take care of, by its name.
pub fn caution(key: &str, words: &Words) -> String {
    words.text(key, &[("below", Arg::Thickness(BELOW_CANKER))])
}

/// What to take care of with `work`: the names of the texts, each once.
pub fn cautions(work: &[Work]) -> Vec<&'static str> {
    let mut out: Vec<&'static str> = Vec::new();
    for caution in work.iter().filter_map(Work::caution) {
        if !out.contains(&caution) {
            out.push(caution);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use cordonry::row::{Pose, Row, ShootId, Targets, Toward, TreeId};
    use cordonry::units::{Deg, Mm};
    use cordonry_fixture::wall::{row, upright_stem};

    #[test]
    fn what_is_done_on_laid_wood_is_told_by_its_place_along_the_row() {
        let laid = row(0, 3000, vec![upright_stem(1, 1000, 1400.0)]);
        let mut standing = laid.clone();
        let mut tree = (*laid.trees[0]).clone();
        tree.shoots[0].pose = Pose::Free;
        standing.trees[0] = tree.into();
        let (tree, shoot) = (TreeId(1), ShootId::found(0));
        let posed = |row: &Row| PosedRow::of(row, &Targets::default());
        let line = |work: &Work, before: &Row, after: &Row| {
            let (before, after) = (posed(before), posed(after));
            work_line(work, &after.worked_on(&before), &Words::strict())
        };
        let bud = Work::KeepBud {
            tree,
            shoot,
            at_mm: Mm(900),
        };
        let x = posed(&laid).posed()[0].courses()[0].point(900.0).x;
        assert!((1100.0..1900.0).contains(&x), "{x}");
        let there = format!("tree 1: bud kept 0.90 m along, at {:.2} m", x / 1000.0);
        assert_eq!(line(&bud, &laid, &laid), format!("leader, {there}"));
        // Laid at the same time.
        assert_eq!(line(&bud, &standing, &laid), format!("stem, {there}"));
        assert_eq!(
            line(&bud, &standing, &standing),
            "stem, tree 1, at 1.00 m: bud kept 0.90 m along"
        );
        let cut = Work::CutBack {
            tree,
            shoot,
            keep_mm: Mm(900),
        };
        let there = format!("leader, tree 1: cut back to 0.90 m, at {:.2} m", x / 1000.0);
        assert_eq!(line(&cut, &laid, &laid), there);
        let lay = Work::Lay {
            tree,
            shoot,
            toward: Toward::Right,
            rise_deg: Deg::new(0.0),
        };
        assert_eq!(
            line(&lay, &standing, &standing),
            "stem, tree 1, at 1.00 m: laid flat along the wire to the right"
        );
    }
}
