//! The year strip: what each leaf brings under the scheme that is looked at, in words.

use crate::desk::Desk;
use cordonry::forecast::LeafFigures;
use cordonry::plan::{Moment, Scheme, Window};
use cordonry::said::Arg;
use cordonry_words::Words;

/// Crop at which a leaf's bar is full, t/ha.
const FULL: f64 = 25.0;

/// One leaf as it is told.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// The leaf.
    pub leaf: u8,
    /// Its crop, never a bare number.
    pub crop: String,
    /// Between what its crop lies; empty until that is known.
    pub range: String,
    /// Length of its crop's bar, a length of CSS.
    pub bar: String,
    /// Length of the bar of the scheme beside it, in the same way; empty where none is.
    pub beside: String,
    /// How far the cordon is filled.
    pub fill: String,
    /// Its oldest upright.
    pub oldest: String,
    /// Its work in short.
    pub work: String,
    /// Whether its work is planned, stands, or is in part planned: `planned`, `usual` or `part`.
    pub planned: &'static str,
}

/// The leaves of the scheme that is looked at. `ranges` say between what each crop lies, t/ha, once that is worked out.
pub fn cells(desk: &Desk, ranges: Option<&[(f64, f64)]>, words: &Words) -> Vec<Cell> {
    let Some(scheme) = desk.scheme() else {
        return Vec::new();
    };
    let years = desk.years();
    let other = desk.scheme_beside().map(|n| desk.years_of(n));
    let each = years.iter().enumerate();
    each.map(|(i, year)| {
        let range = ranges.and_then(|r| r.get(i).copied());
        let other = other.as_ref().and_then(|o| o.get(i));
        Cell {
            beside: other.map_or_else(String::new, |y| bar(y.crop_t_per_ha)),
            ..cell(year, range, scheme, words)
        }
    })
    .collect()
}

fn bar(crop: f64) -> String {
    format!("{:.0}%", (crop / FULL).min(1.0) * 100.0)
}

fn cell(year: &LeafFigures, range: Option<(f64, f64)>, scheme: &Scheme, words: &Words) -> Cell {
    let number = |value| Arg::Number(value, 1);
    let crop = year.crop_t_per_ha;
    // What is told as nothing is no crop.
    let bears = range.map_or(crop, |r| r.1.max(crop)) >= 0.05;
    let told = match (bears, range) {
        (false, _) => words.plain("year-no-crop"),
        (true, Some(_)) => words.text("year-crop", &[("crop", number(crop))]),
        (true, None) => words.text("year-crop-about", &[("crop", number(crop))]),
    };
    let between = range.filter(|_| bears).map(|(low, high)| {
        let values = [("low", number(low)), ("high", number(high))];
        words.text("year-range", &values)
    });
    let stands = |window| {
        scheme.stands(Moment {
            leaf: year.leaf,
            window,
        })
    };
    let standing = Window::ALL.into_iter().filter(|w| stands(*w)).count();
    let planned = match standing {
        0 => "planned",
        n if n == Window::ALL.len() => "usual",
        _ => "part",
    };
    let pieces = year.work.iter().map(|(kind, count)| {
        let values = [
            ("count", Arg::Count((*count).into())),
            ("kind", Arg::Text((*kind).to_string())),
        ];
        Arg::Text(words.text("year-piece", &values))
    });
    let pieces: Vec<Arg> = pieces.collect();
    let work = match pieces.is_empty() {
        true => words.plain("year-no-work"),
        false => {
            let values = [
                ("planned", Arg::Text(planned.to_string())),
                ("work", Arg::List(pieces)),
            ];
            words.text("year-work", &values)
        }
    };
    Cell {
        leaf: year.leaf,
        crop: told,
        range: between.unwrap_or_default(),
        bar: bar(crop),
        beside: String::new(),
        fill: words.text(
            "year-fill",
            &[("share", Arg::Share(year.cordon_fill_share))],
        ),
        oldest: words.text(
            "year-oldest",
            &[("age", Arg::Count(year.wood_age_max.into()))],
        ),
        work,
        planned,
    }
}
