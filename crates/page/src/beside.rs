//! Two schemes side by side at one moment: their figures, and what of their work and their shoots differs.

use crate::desk::{Desk, EARLY};
use crate::document::last_leaf;
use crate::look::Scene;
use cordonry::effort::Effort;
use cordonry::plan::{Moment, Phase, Replayer, Window};
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{
    Both, Pair, Paper, Series, Side, Under, lone_marks, lone_shoots, row_figures, sheet_beside,
    two_figures, two_totals, window_key, work_line,
};
use cordonry_words::Words;

/// Most pieces of work that are told of each.
const TOLD: usize = 40;

/// A figure under both schemes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it is; with its unit where the values have none.
    pub name: String,
    /// Its value under the scheme that is looked at, and under the other.
    pub values: [String; 2],
}

/// The scheme that is looked at and the one beside it: name and number. None where none is beside it.
pub fn both(desk: &Desk) -> Option<[(usize, &str); 2]> {
    let number = desk.beside()?.look.scheme;
    let one = |n: usize| Some((n, desk.plan().schemes.get(n)?.name.as_str()));
    Some([one(desk.look().scheme)?, one(number)?])
}

/// The figures of both at their moment and in its leaf, with what is known of their leaves.
pub fn figures(desk: &Desk, far: &[Known], words: &Words) -> Vec<Line> {
    let Some(other) = desk.beside() else {
        return Vec::new();
    };
    let own = desk.scene();
    let schemes = [own, other].map(|scene| scene.look.scheme);
    let rows = [own, other].map(|s| row_figures(&s.figures, &s.targets, false, words));
    let told = |both: &[Under<'_>; 2], by: u8| {
        let at = own.moment.leaf;
        two_figures(desk.plan(), both, (at, by), rows, words)
    };
    under(desk, schemes, far, told)
}

/// What both bring and ask for up to a leaf, all of their leaves together: the crop, then hours, cuts and materials, as far as these
/// are known.
pub fn totals(desk: &Desk, schemes: [usize; 2], far: &[Known], words: &Words) -> Vec<Line> {
    under(desk, schemes, far, |both, by| {
        two_totals(desk.plan(), both, by, words)
    })
}

/// What is told of two schemes and the leaf by which they are judged.
fn under(
    desk: &Desk,
    schemes: [usize; 2],
    far: &[Known],
    told: impl FnOnce(&[Under<'_>; 2], u8) -> Vec<Pair>,
) -> Vec<Line> {
    let leaf = desk.scene().moment.leaf.max(EARLY);
    let leaves = usize::from(leaf.saturating_sub(desk.plan().found.leaf)) + 1;
    let years = schemes.map(|scheme| desk.years_of(scheme));
    let both = [0, 1].map(|of| Under {
        scheme: schemes[of],
        years: &years[of],
        asks: far
            .get(of)
            .and_then(|known| Some(effort(known[2].as_deref()?, leaves))),
    });
    let line = |(name, values): Pair| Line { name, values };
    told(&both, leaf).into_iter().map(line).collect()
}

/// What the first of some leaves ask for together.
fn effort(pairs: &[(f64, f64)], leaves: usize) -> Effort {
    let flat: Vec<f64> = pairs.iter().flat_map(|(a, b)| [*a, *b]).collect();
    let each = flat.as_chunks().0.iter().take(leaves);
    Effort::sum(each.map(|numbers| Effort::from_numbers(*numbers)))
}

/// The same in a line each, for a class: each figure with both names and values.
pub fn totals_told(desk: &Desk, schemes: [usize; 2], far: &[Known], words: &Words) -> String {
    let [one, other] = schemes.map(|n| desk.scheme_name(n));
    let line = |line: Line| {
        let [own, its] = line.values;
        let args = [
            ("figure", Arg::Text(line.name)),
            ("one", Arg::Text(one.into())),
            ("own", Arg::Text(own)),
            ("other", Arg::Text(other.into())),
            ("its", Arg::Text(its)),
        ];
        words.text("two-told", &args) + "\n"
    };
    totals(desk, schemes, far, words)
        .into_iter()
        .map(line)
        .collect()
}

/// The work of the moment that is done under one of both alone, as it is listed; of much the first pieces, and how many more
/// there are.
pub fn works(desk: &Desk, words: &Words) -> [(Vec<String>, usize); 2] {
    let none = || (Vec::new(), 0);
    match desk.beside() {
        Some(other) => [
            only(desk, desk.scene(), other, words),
            only(desk, other, desk.scene(), words),
        ],
        None => [none(), none()],
    }
}

/// The first time at which the two do other work, as it is told; none where they do the same all along, or what they bring does not
/// tell where.
pub fn apart(desk: &Desk, words: &Words) -> Option<String> {
    let Moment { leaf, window } = first_apart(desk)?;
    let window = Arg::Text(words.plain(window_key(window)));
    let time = [("leaf", Arg::Count(leaf.into())), ("window", window)];
    Some(words.text("two-apart", &time))
}

/// Looked for in the first leaf that brings something else under each, for that is known, and in what is planned before it: the
/// usual work of every leaf would be a replay of the row for each.
fn first_apart(desk: &Desk) -> Option<Moment> {
    let plan = desk.plan();
    let both = both(desk)?.map(|(number, _)| number);
    let [own, other] = [plan.scheme(both[0]).ok()?, plan.scheme(both[1]).ok()?];
    let years = both.map(|scheme| desk.years_of(scheme));
    let mut pairs = years[0].iter().zip(years[1].iter());
    let parted = pairs.position(|(a, b)| a != b).unwrap_or(usize::MAX);
    let mut replayer = Replayer::default();
    let leaves = (plan.found.leaf..=last_leaf(plan)).enumerate();
    let mut moments =
        leaves.flat_map(|(at, leaf)| Window::ALL.map(|window| (at, Moment { leaf, window })));
    let first = moments.find(
        |(at, time)| match own.stands(*time) || other.stands(*time) {
            false => !own.work(*time).eq(other.work(*time)),
            true if *at == parted => {
                let [own, other] = both.map(|scheme| replayer.work_at(plan, scheme, *time).ok());
                own != other
            }
            true => false,
        },
    );
    first.map(|(_, time)| time)
}

fn only(desk: &Desk, scene: &Scene, other: &Scene, words: &Words) -> (Vec<String>, usize) {
    let others = other.works();
    let mut works = scene.works();
    works.retain(|w| !others.contains(w));
    let more = works.len().saturating_sub(TOLD);
    works.truncate(TOLD);
    let worked = desk.row_at(scene, Phase::After);
    let line = |work: &Work| work_line(work, &worked, words);
    (works.iter().map(line).collect(), more)
}

/// Marks over the wall on the shoots that stand under one of both alone: on that which is looked at, and on the other.
pub fn marks(desk: &Desk) -> [String; 2] {
    desk.beside().map_or_else(Default::default, |other| {
        let (own, other) = (&desk.scene().row, &other.row);
        [(own, other), (other, own)].map(|(a, b)| lone_marks(a, &lone_shoots(a, b)))
    })
}

/// Both on one page, with what is known of their leaves. None where none is beside.
pub fn sheet(desk: &Desk, far: &[Known], on: Paper, words: &Words) -> Option<String> {
    let scenes = [desk.scene(), desk.beside()?];
    let years = scenes.map(|s| desk.years_of(s.look.scheme));
    let works = scenes.map(Scene::works);
    let sides = [0, 1].map(|of| {
        let known = far.get(of);
        Side {
            row: &scenes[of].row,
            time: scenes[of].time(),
            work: &works[of],
            series: Series {
                name: desk.scheme_name(scenes[of].look.scheme),
                years: &years[of],
                ranges: known.and_then(|k| k[0].as_deref()),
                light: known.and_then(|k| k[1].as_deref()),
            },
        }
    });
    let figures = figures(desk, far, words).into_iter();
    let figures: Vec<_> = figures.map(|l| (l.name, l.values)).collect();
    let both = Both {
        plan: desk.plan(),
        sides,
        figures: &figures,
        words,
    };
    Some(sheet_beside(&both, on))
}

/// What is known of the leaves of a scheme: between what their crops lie, t/ha, their light, and the numbers of what their work asks
/// for.
pub type Known = [Option<Vec<(f64, f64)>>; 3];
