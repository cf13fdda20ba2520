//! A piece of work as it is listed for whoever does it.

use cordonry::pose::{Geometry, layout};
use cordonry::row::{Row, Tree};
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_words::Words;

/// What is to be done where, in a line: the shoot's name and place as the crew finds it, on its tree `before` the work.
/// Without that tree the shoot is named as it is in `row`, if it is there.
pub fn work_line(
    work: &Work,
    before: Option<&Tree>,
    row: &Row,
    g: Geometry,
    words: &Words,
) -> String {
    let subject = work.subject();
    let done = words.work(work);
    let Some(tree) = subject.tree else {
        return done;
    };
    let name = before.and_then(|own| own.name(subject.shoot));
    let (name, spot) = match name {
        Some(name) => (words.name(name), spot(work, before, row, g)),
        None => (words.part(row, tree, Some(subject.shoot)), None),
    };
    let (x, key) = spot.unwrap_or((0.0, "work-line"));
    words.text(
        key,
        &[
            ("part", Arg::Text(name)),
            ("work", Arg::Text(done)),
            ("x", Arg::Length(x)),
        ],
    )
}

/// Where along the row work is done on a shoot, mm, and the text that says so: the very place on laid wood, or the base of
/// the shoot; `None` for a stem, which is where its tree is.
pub(crate) fn spot(
    work: &Work,
    before: Option<&Tree>,
    row: &Row,
    g: Geometry,
) -> Option<(f64, &'static str)> {
    let tree = before?;
    // What is laid at the same time lies there afterwards only.
    let there = [row.tree(tree.id).map(|t| &**t), Some(tree)]
        .into_iter()
        .flatten();
    if let Some(x) = there.filter_map(|t| on_laid_wood(work, t, g)).next() {
        return Some((x, "work-line-there"));
    }
    let at = tree.index(work.subject().shoot)?;
    (at > 0).then(|| (layout(tree, g)[at].base.x, "work-line-at"))
}

/// Where a bud is kept on laid wood of a tree, or the wood is cut, mm along the row.
fn on_laid_wood(work: &Work, tree: &Tree, g: Geometry) -> Option<f64> {
    let at = tree.index(work.subject().shoot)?;
    let (at, along) = match *work {
        Work::KeepBud { at_mm, .. } | Work::Notch { at_mm, .. } => (at, at_mm),
        Work::MoveBud { at_mm, .. } => (tree.index(tree.shoots[at].parent?)?, at_mm),
        Work::CutBack { keep_mm, .. } => (at, keep_mm),
        _ => return None,
    };
    let course = layout(tree, g)[at];
    let laid = tree.shoots[at].pose.is_laid();
    laid.then(|| course.point(along.f().min(course.length)).x)
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
    use cordonry::row::{Pose, ShootId, Targets, Toward, TreeId};
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
        let g = Geometry::of(&laid, &Targets::default());
        let line = |work: &Work, before: &Row, after: &Row| {
            work_line(
                work,
                before.trees.first().map(|t| &**t),
                after,
                g,
                &Words::strict(),
            )
        };
        let bud = Work::KeepBud {
            tree,
            shoot,
            at_mm: Mm(900),
        };
        let x = layout(&laid.trees[0], g)[0].point(900.0).x;
        assert!((1100.0..1900.0).contains(&x), "{x}");
        let there = format!("tree 1: bud kept 0.90 m along, at {:.2} m", x / 1000.0);
        assert_eq!(line(&bud, &laid, &laid), format!("leader, {there}"));
        // Laid at the same time.
        assert_eq!(line(&bud, &standing, &laid), format!("stem, {there}"));
        assert_eq!(
            line(&bud, &standing, &standing),
            "stem, tree 1: bud kept 0.90 m along"
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
            "stem, tree 1: laid flat along the wire to the right"
        );
    }
}
