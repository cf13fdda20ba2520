//! The year strip: what each leaf brings under the scheme that is looked at, in words.

use crate::desk::Desk;
use cordonry::arrange::Arrange;
use cordonry::forecast::{Doubt, LeafFigures, is_a_crop, kept_young_from};
use cordonry::plan::{Moment, Window, WorkCount};
use cordonry::row::{Limit, Targets};
use cordonry::said::Arg;
use cordonry_words::Words;

/// Crop at which a leaf's bar is full, t/ha.
const FULL: f64 = 25.0;

/// Letters that the narrowest card has room for beside a count.
const ROOM: usize = 13;

/// One leaf as it is told.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// The leaf.
    pub leaf: u8,
    /// Its crop, never a bare number.
    pub crop: String,
    /// The same with when that is, and why it is told too high where it is.
    pub crop_whole: String,
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
    /// The same with when that is, and from which leaf on the limit is kept where it is passed.
    pub oldest_whole: String,
    /// Its work in short.
    pub work: String,
    /// All kinds of it.
    pub work_whole: String,
    /// Whether its work is planned, stands, or is in part planned: `planned`, `usual` or `part`.
    pub planned: &'static str,
    /// What it misses: `doubted` its crop, `old` the limit of age; empty where nothing.
    pub off: &'static str,
}

/// The leaves of the scheme that is looked at. `ranges` say between what each crop lies, t/ha, once that is worked out.
pub fn cells(desk: &Desk, ranges: Option<&[(f64, f64)]>, words: &Words) -> Vec<Cell> {
    if desk.scheme().is_none() {
        return Vec::new();
    }
    let (years, limits) = (desk.years(), desk.plan().limits(desk.look().scheme));
    let other = desk.scheme_beside().map(|n| desk.years_of(n));
    let each = 0..years.len();
    each.map(|i| {
        let range = ranges.and_then(|r| r.get(i).copied());
        let other = other.as_ref().and_then(|o| o.get(i));
        Cell {
            beside: other.map_or_else(String::new, |y| bar(y.crop_t_per_ha)),
            ..cell((desk, &limits), &years, i, range, words)
        }
    })
    .collect()
}

fn bar(crop: f64) -> String {
    format!("{:.0}%", (crop / FULL).min(1.0) * 100.0)
}

/// Why a crop is told too high, in words.
pub fn doubt_key(doubt: Doubt) -> &'static str {
    match doubt {
        Doubt::Untrained => "doubt-untrained",
        Doubt::Unfilled => "doubt-unfilled",
    }
}

/// The kinds of work of a leaf, those of which there is most first.
fn pieces(work: &WorkCount, words: &Words) -> Vec<String> {
    let mut all: Vec<(&str, u32)> = work.iter().map(|(kind, count)| (*kind, *count)).collect();
    all.arrange_by(|a, b| b.1.cmp(&a.1));
    let piece = |(kind, count): (&str, u32)| {
        let values = [
            ("count", Arg::Count(count.into())),
            ("kind", Arg::Text(kind.to_string())),
        ];
        words.text("year-piece", &values)
    };
    all.into_iter().map(piece).collect()
}

fn cell(
    (desk, limits): (&Desk, &Targets),
    years: &[LeafFigures],
    at: usize,
    range: Option<(f64, f64)>,
    words: &Words,
) -> Cell {
    let year = &years[at];
    let number = |value| Arg::Number(value, 1);
    let with = |key: &str, told: &str, more: &[(&'static str, Arg)]| {
        let values = [&[("told", Arg::Text(told.to_string()))], more].concat();
        words.text(key, &values)
    };
    let crop = year.crop_t_per_ha;
    let bears = is_a_crop(range.map_or(crop, |r| r.1.max(crop)));
    let told = match (bears, range) {
        (false, _) => words.plain("year-no-crop"),
        (true, Some(_)) => words.text("year-crop", &[("crop", number(crop))]),
        (true, None) => words.text("year-crop-about", &[("crop", number(crop))]),
    };
    let doubt = year
        .doubt(desk.plan(), desk.look().scheme, limits)
        .filter(|_| bears);
    let crop_whole = with("year-when-crop", &told, &[]);
    let crop_whole = match doubt {
        Some(doubt) => {
            let why = Arg::Text(words.plain(doubt_key(doubt)));
            with("year-doubt", &crop_whole, &[("why", why)])
        }
        None => crop_whole,
    };
    let between = range.filter(|_| bears).map(|(low, high)| {
        let values = [("low", number(low)), ("high", number(high))];
        words.text("year-range", &values)
    });
    let stands = |window| {
        let leaf = year.leaf;
        desk.scheme()
            .is_some_and(|s| s.stands(Moment { leaf, window }))
    };
    let standing = Window::ALL.into_iter().filter(|w| stands(*w)).count();
    let planned = match standing {
        0 => "planned",
        n if n == Window::ALL.len() => "usual",
        _ => "part",
    };
    let pieces = pieces(&year.work, words);
    let (work, work_whole) = match (pieces.is_empty(), doubt) {
        (true, Some(Doubt::Untrained)) => (
            words.plain("year-untrained"),
            words.plain("doubt-untrained"),
        ),
        (true, _) => (words.plain("year-no-work"), words.plain("year-no-work")),
        (false, _) => {
            // Whole words alone: the most of what has room, and how many kinds there are besides.
            let length = |piece: &&String| piece.chars().count();
            let fits = pieces.iter().find(|p| length(p) <= ROOM);
            let first = fits.or(pieces.iter().min_by_key(length));
            let short = [
                ("work", Arg::Text(first.cloned().unwrap_or_default())),
                ("more", Arg::Count(pieces.len() as i64 - 1)),
            ];
            // In a narrow card a long piece takes two lines.
            let short = words.text("year-short", &short).replace('\u{a0}', " ");
            let whole = [
                ("planned", Arg::Text(planned.to_string())),
                (
                    "work",
                    Arg::List(pieces.into_iter().map(Arg::Text).collect()),
                ),
            ];
            (short, words.text("year-work", &whole))
        }
    };
    let age = |of: u8| words.text("year-oldest", &[("age", Arg::Count(of.into()))]);
    let oldest = age(year.wood_age_max);
    let limit = limits.get(Limit::WoodAgeMax);
    let old = f64::from(year.wood_age_max) > limit;
    let oldest_whole = match old.then(|| kept_young_from(years, limit)) {
        None => with("year-when-oldest", &oldest, &[]),
        Some(from) => {
            let limit = ("limit", Arg::Number(limit, 0));
            let last = years.last().map_or(0, |y| y.leaf);
            match from {
                Some(from) => {
                    let from = ("from", Arg::Count(from.into()));
                    with("year-old-until", &oldest, &[limit, from])
                }
                None => {
                    let last = ("last", Arg::Count(last.into()));
                    with("year-old", &oldest, &[limit, last])
                }
            }
        }
    };
    Cell {
        leaf: year.leaf,
        crop: told,
        crop_whole,
        range: between.unwrap_or_default(),
        bar: bar(crop),
        beside: String::new(),
        fill: words.text(
            "year-fill",
            &[("share", Arg::Share(year.cordon_fill_share))],
        ),
        oldest,
        oldest_whole,
        work,
        work_whole,
        planned,
        off: match (doubt, old) {
            (Some(_), true) => "doubted old",
            (Some(_), false) => "doubted",
            (None, true) => "old",
            (None, false) => "",
        },
    }
}
