//! What the cells of a line may say: small languages of their own, read here and written in [`super::write()`].

use super::spanish::own;
use crate::plan::Plan;
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row::{Face, Kind, Laterals, Moment, Origin, Toward, Window};
use crate::said::{Arg, Said};
use crate::units::{BareUnit, parse_length, parse_number, parse_thickness};

/// What a line is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineKind {
    Part(Kind),
    Lost,
}

/// The name of the text that lists the kinds; those below list other cells' words.
pub(super) const KINDS: &str = "accepted-kinds";

pub(super) fn kind(text: &str) -> Option<LineKind> {
    Some(LineKind::Part(match own(&text.to_lowercase()) {
        "stem" | "trunk" | "stems" => Kind::Stem,
        "leader" | "cordon" | "leaders" => Kind::Leader,
        "upright" | "uprights" => Kind::Upright,
        "shoot" | "shoots" => Kind::Shoot,
        "bud" | "buds" => Kind::Bud,
        "stub" | "stubs" => Kind::Stub,
        "lost" | "dead" | "missing" => return Some(LineKind::Lost),
        _ => return None,
    }))
}

pub(super) fn kind_name(kind: Kind) -> &'static str {
    match kind {
        Kind::Stem => "stem",
        Kind::Leader => "leader",
        Kind::Upright => "upright",
        Kind::Shoot => "shoot",
        Kind::Bud => "bud",
        Kind::Stub => "stub",
    }
}

/// A place: along the row, or along the parent from its base. In mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Place {
    Row(f64),
    Along(f64),
}

pub(super) fn place(text: &str, unit: BareUnit) -> Result<Option<Place>, Said> {
    if text.is_empty() {
        return Ok(None);
    }
    let lower = text.to_lowercase();
    let along = lower.strip_prefix("along");
    Ok(Some(match along.or(lower.strip_prefix("a lo largo")) {
        Some(rest) => Place::Along(parse_length(rest, unit)?),
        None => Place::Row(parse_length(text, unit)?),
    }))
}

/// What a shoot grows from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Parent {
    /// Not said.
    Near,
    /// The how-manieth line of its tree, from 1.
    Line(usize),
    /// The how-manieth line of that kind, from 1.
    Part(Kind, usize),
}

pub(super) const PARENTS: &str = "accepted-parents";

pub(super) fn parent(text: &str) -> Option<Parent> {
    let count = |word: &str| word.parse::<usize>().ok().filter(|n| *n > 0);
    let mut words = text.split_whitespace();
    let (first, second, rest) = (words.next(), words.next(), words.next());
    match (first, second, rest) {
        (None, ..) => Some(Parent::Near),
        (Some(word), None, None) if count(word).is_some() => count(word).map(Parent::Line),
        (Some(word), number, None) => match kind(word)? {
            LineKind::Part(kind) => number.map_or(Some(1), count).map(|n| Parent::Part(kind, n)),
            LineKind::Lost => None,
        },
        _ => None,
    }
}

/// Lengths that successive seasons brought, in mm; whole millimetres.
pub(super) fn lengths(text: &str, unit: BareUnit) -> Result<Vec<f64>, Said> {
    if text.is_empty() {
        return Ok(Vec::new());
    }
    let one = |part: &str| parse_length(part, unit).map(libm::round);
    text.split('+').map(one).collect()
}

/// A thickness in mm: `None` where nothing is said, 0 where it is said that none is taken.
pub(super) fn diameter(text: &str, unit: BareUnit) -> Result<Option<f64>, Said> {
    match text {
        "" => Ok(None),
        text if own(&text.to_lowercase()) == NONE => Ok(Some(0.0)),
        text => {
            let mm = libm::round(parse_thickness(text, unit)? * 10.0) / 10.0;
            Ok(Some(mm).filter(|d| *d != 0.0))
        }
    }
}

/// What a thickness says that is neither measured nor to be estimated, and a cut of which nothing tells.
pub(super) const NONE: &str = "none";

/// A radius of a bend in mm, as fine as a thickness; `None` where nothing is said.
pub(super) fn radius(text: &str, unit: BareUnit) -> Result<Option<f64>, Said> {
    if text.is_empty() {
        return Ok(None);
    }
    let mm = parse_thickness(text, unit)?;
    Ok(Some(libm::round(mm * 10.0) / 10.0))
}

fn window_name(window: Window) -> &'static str {
    match window {
        Window::Dormant => "dormant",
        Window::BudSwell => "bud swell",
        Window::EarlySummer => "early summer",
        Window::AfterHarvest => "after harvest",
    }
}

pub(super) const WHEN: &str = "accepted-when-cut";

/// When the growth of successive seasons was last cut; `None` where one was not, or nothing tells.
pub(super) fn when(text: &str) -> Option<Vec<Option<Moment>>> {
    if text.is_empty() {
        return Some(Vec::new());
    }
    let one = |part: &str| {
        let part = part.trim().to_lowercase();
        if own(&part) == NONE {
            return Some(None);
        }
        let (leaf, window) = part.split_once(char::is_whitespace)?;
        let words: Vec<&str> = window.split_whitespace().collect();
        let window = words.join(" ");
        let window = Window::ALL
            .into_iter()
            .find(|w| window_name(*w) == window)?;
        let leaf = leaf.parse().ok()?;
        Some(Some(Moment { leaf, window }))
    };
    text.split('+').map(one).collect()
}

/// As [`when`] reads it; nothing is said of the seasons behind the last that tells.
pub(super) fn when_text(when: &[Option<Moment>]) -> String {
    let count = when.iter().rposition(Option::is_some).map_or(0, |n| n + 1);
    let one = |when: &Option<Moment>| match when {
        Some(at) => format!("{} {}", at.leaf, window_name(at.window)),
        None => NONE.into(),
    };
    let all: Vec<String> = when[..count].iter().map(one).collect();
    all.join(" + ")
}

const ORIGINS_BY_NAME: [(Origin, &str); 6] = [
    (Origin::KeptBud, "kept bud"),
    (Origin::Notch, "notch"),
    (Origin::Return, "return"),
    (Origin::EndGrowth, "end growth"),
    (Origin::CutBackBud, "cut-back bud"),
    (Origin::WildBud, "wild bud"),
];

pub(super) const ORIGINS: &str = "accepted-origins";

pub(super) fn origin_name(origin: Origin) -> &'static str {
    let found = ORIGINS_BY_NAME.iter().find(|(o, _)| *o == origin);
    found.map_or("", |(_, name)| name)
}

/// Where a shoot came from; `None` in the inner place where nothing is said.
pub(super) fn origin(text: &str) -> Option<Option<Origin>> {
    if text.is_empty() {
        return Some(None);
    }
    let name = text.to_lowercase();
    let found = ORIGINS_BY_NAME.iter().find(|(_, n)| *n == name);
    found.map(|(origin, _)| Some(*origin))
}

/// Whether something was done, as it is ticked in a table.
pub(super) fn ticked(text: &str) -> Option<bool> {
    match own(&text.to_lowercase()) {
        "" | "no" | "n" | "0" | "false" => Some(false),
        "yes" | "y" | "x" | "1" | "true" | "rubbed" => Some(true),
        _ => None,
    }
}

pub(super) const TICKS: &str = "accepted-ticks";

/// The way, and the face of the parent.
pub(super) fn side(text: &str) -> Option<(Option<Toward>, Option<Face>)> {
    let mut out = (None, None);
    for word in text.to_lowercase().split_whitespace() {
        match own(word) {
            "left" | "l" => out.0 = Some(Toward::Left),
            "right" | "r" => out.0 = Some(Toward::Right),
            "top" => out.1 = Some(Face::Top),
            "side" | "alley" => out.1 = Some(Face::Side),
            "under" | "underside" | "below" => out.1 = Some(Face::Under),
            _ => return None,
        }
    }
    Some(out)
}

/// How a shoot is held, as far as a cell says it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct PoseCell {
    /// Planting angle of a stem, degrees.
    pub planted: Option<f64>,
    pub held: Option<Held>,
    /// The way that laid wood goes.
    pub toward: Option<Toward>,
    /// The rise of what is laid, the lean of what stands, degrees.
    pub angle: Option<f64>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Held {
    Laid,
    Upright,
    Free,
    Stub,
}

/// An angle, with a sign and `°` or `deg` if wanted.
pub(super) fn degrees(text: &str) -> Result<f64, Said> {
    let digits = text.trim_end_matches('°').trim_end_matches("deg").trim();
    let (sign, digits) = match digits.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, digits.strip_prefix('+').unwrap_or(digits)),
    };
    if !digits.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',')) {
        return Err(Said::new("number-no", vec![("text", Arg::short(text))]));
    }
    Ok(sign * parse_number(digits)?)
}

pub(super) const POSES: &str = "accepted-poses";

pub(super) fn pose(text: &str) -> Option<PoseCell> {
    let mut out = PoseCell::default();
    let mut planted = false;
    let hold = |out: &mut PoseCell, held| {
        // An angle before the word is the stem's: 45 laid 3.
        out.planted = out.planted.or(out.angle.take());
        out.held.replace(held).is_none()
    };
    for word in text.to_lowercase().split_whitespace() {
        match own(word) {
            "planted" => planted = true,
            "laid" if hold(&mut out, Held::Laid) => {}
            "upright" if hold(&mut out, Held::Upright) => {}
            "free" if hold(&mut out, Held::Free) => {}
            "stub" if hold(&mut out, Held::Stub) => {}
            "left" => out.toward = Some(Toward::Left),
            "right" => out.toward = Some(Toward::Right),
            "°" | "deg" | "degrees" => {}
            word => {
                let angle = degrees(word).ok()?;
                let slot = if std::mem::take(&mut planted) {
                    &mut out.planted
                } else {
                    &mut out.angle
                };
                if slot.replace(angle).is_some() {
                    return None;
                }
            }
        }
    }
    (!planted).then_some(out)
}

pub(super) fn laterals(text: &str, unit: BareUnit) -> Result<Laterals, Said> {
    if text.is_empty() {
        return Ok(Laterals::default());
    }
    let (count, total) = match text.split_once('/') {
        Some((count, total)) => (count, libm::round(parse_length(total, unit)?)),
        None => (text, 0.0),
    };
    let count = count.trim();
    match count.parse::<u16>() {
        Ok(count) if total == 0.0 || count > 0 => Ok(Laterals { count, total }),
        _ => Err(Said::new(
            "number-laterals",
            vec![("text", Arg::short(text))],
        )),
    }
}

/// Refuses a cell that is longer than any text of a plan, before it is looked at.
pub(super) fn not_too_long(column: &str, cell: &str) -> Result<(), Refusal> {
    // Counted only where it could be too long.
    if cell.len() <= Plan::MAX_TEXT || cell.chars().count() <= Plan::MAX_TEXT {
        return Ok(());
    }
    Err(Refusal::new(
        "refusal-csv-long",
        vec![
            ("column", Arg::Text(column.into())),
            ("value", Arg::Count(cell.chars().count() as i64)),
            ("high", Arg::Count(Plan::MAX_TEXT as i64)),
        ],
    ))
}

/// Refuses a cell that tells of more seasons than there are, before they are read.
pub(super) fn not_too_many(column: &str, cell: &str) -> Result<(), Refusal> {
    let seasons = cell.matches('+').count() + 1;
    if seasons <= usize::from(Plan::MAX_LEAF) {
        return Ok(());
    }
    Err(Refusal::new(
        "refusal-csv-terms",
        vec![
            ("column", Arg::Text(column.into())),
            ("value", Arg::Count(seasons as i64)),
            ("high", Arg::Count(Plan::MAX_LEAF.into())),
        ],
    ))
}

/// Refuses what a column holds outside its range, both ends included.
pub(super) fn in_range(
    column: &str,
    arg: fn(f64) -> Arg,
    value: f64,
    range: Range,
) -> Result<(), Refusal> {
    if range::has(range, value) {
        return Ok(());
    }
    Err(Refusal::new(
        "refusal-csv-value",
        vec![
            ("column", Arg::Text(column.into())),
            ("value", arg(value)),
            ("low", arg(range.0)),
            ("high", arg(range.1)),
        ],
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn poses() {
        let check = |text, planted, held, toward, angle| {
            let expected = PoseCell {
                planted,
                held,
                toward,
                angle,
            };
            assert_eq!(pose(text), Some(expected), "{text}");
        };
        check("", None, None, None, None);
        check("45", None, None, None, Some(45.0));
        check("45 laid 3", Some(45.0), Some(Held::Laid), None, Some(3.0));
        check("-2,5°", None, None, None, Some(-2.5));
        check(
            "Planted 60 laid left 3",
            Some(60.0),
            Some(Held::Laid),
            Some(Toward::Left),
            Some(3.0),
        );
        for bad in ["lying", "planted", "3 4", "laid --3", "45 x", "laid free"] {
            assert_eq!(pose(bad), None, "{bad}");
        }
    }

    #[test]
    fn parents() {
        assert_eq!(parent(""), Some(Parent::Near));
        assert_eq!(parent("stem"), Some(Parent::Part(Kind::Stem, 1)));
        assert_eq!(parent("Leader 2"), Some(Parent::Part(Kind::Leader, 2)));
        assert_eq!(parent("3"), Some(Parent::Line(3)));
        for bad in ["0", "leader x", "branch", "leader 2 2", "-1"] {
            assert_eq!(parent(bad), None, "{bad}");
        }
    }
}
