//! Shoots that stand under one of two schemes alone.

use crate::element::path;
use crate::pen::Pen;
use crate::wood::on_page;
use cordonry::pose::PosedRow;
use cordonry::row::{ShootId, TreeId};
use cordonry::sorted::Set;
use svg::node::element::Element;

/// A shoot of a row, of which tree.
pub type RowShoot = (TreeId, ShootId);

/// The shoots of a row that another does not have.
pub fn lone_shoots(row: &PosedRow, other: &PosedRow) -> Set<RowShoot> {
    let all = |row: &PosedRow| -> Set<RowShoot> {
        let trees = row.posed().iter().map(|p| p.tree());
        trees
            .flat_map(|t| t.shoots.iter().map(|s| (t.id, s.id)))
            .collect()
    };
    let others = all(other);
    let mut own = all(row);
    own.retain(|s| !others.contains(s));
    own
}

/// Strokes across the wood of some shoots, like a ladder: they stand out without colour too.
pub(crate) fn element(row: &PosedRow, shoots: &Set<RowShoot>) -> Option<Element> {
    let mut pen = Pen::default();
    for posed in row.posed() {
        let tree = posed.tree().id;
        for (shoot, course) in posed.pairs() {
            if !shoots.contains(&(tree, shoot.id)) || course.length < 1.0 {
                continue;
            }
            // As straight pieces: strokes across do not show how it bends.
            let pieces = (course.length / 150.0).ceil().clamp(1.0, 40.0);
            pen.move_to(on_page(course.point(0.0)));
            for i in 1..=pieces as u32 {
                pen.line_to(on_page(course.point(course.length * f64::from(i) / pieces)));
            }
        }
    }
    path("lone", &pen)
}

/// The same as markup, to be laid over the wall.
pub fn lone_marks(row: &PosedRow, shoots: &Set<RowShoot>) -> String {
    element(row, shoots).map_or_else(String::new, |e| e.to_string())
}
