//! What would stand if a remedy were done: wood that comes, and wood that goes another way than it does.

use crate::element::path;
use crate::pen::Pen;
use crate::wood::Wood;
use cordonry::pose::Posed;

/// The outline of what stands on a tree then and does not stand so before; all of it where no tree stands there.
pub fn tried_wood(before: Option<&Posed>, after: &Posed) -> String {
    let mut pen = Pen::default();
    for (shoot, course) in after.pairs() {
        let old = before.and_then(|b| Some(&b.tree().shoots[b.tree().index(shoot.id)?]));
        if course.length >= 1.0 && old.is_none_or(|old| old.pose != shoot.pose) {
            Wood::of(shoot, *course).outline(&mut pen);
        }
    }
    path("tried-wood", &pen).map_or_else(String::new, |e| e.to_string())
}
