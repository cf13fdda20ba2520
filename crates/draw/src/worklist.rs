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
    let (name, x) = match name {
        Some(name) => (words.name(name), place(work, before, g)),
        None => (words.part(row, tree, Some(subject.shoot)), None),
    };
    let key = match x {
        Some(_) => "work-line-at",
        None => "work-line",
    };
    words.text(
        key,
        &[
            ("part", Arg::Text(name)),
            ("work", Arg::Text(done)),
            ("x", Arg::Length(x.unwrap_or_default())),
        ],
    )
}

/// Where along the row the base of the shoot is that work is done on, mm; `None` for a stem, which is where its tree is.
pub(crate) fn place(work: &Work, before: Option<&Tree>, g: Geometry) -> Option<f64> {
    let tree = before?;
    let at = tree.index(work.subject().shoot)?;
    (at > 0).then(|| layout(tree, g)[at].base.x)
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
