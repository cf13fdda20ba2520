//! What could be so but looks like a slip: it is asked about before it is taken.

use super::{Ask, Walk, Way};
use crate::arrange::{Arrange, middle_of};
use crate::plan::Plan;
use crate::pose::{Course, Geometry, layout};
use crate::row::{Kind, Shoot, ShootId, Toward, TreeId};
use crate::said::Quantity;
use crate::said::{Arg, Args, Said};
use crate::units::{LengthStyle, parse_length};

/// Usual thickness of a leader at its base, mm. From memory, as all of these: wide enough that few are asked in vain.
const LEADER_THICK: (f64, f64) = (8.0, 150.0);
/// Usual thickness of an upright at its base, mm.
const UPRIGHT_THICK: (f64, f64) = (4.0, 60.0);
/// How far a leader usually reaches from its foot, mm.
const REACH: (f64, f64) = (300.0, 4_000.0);
/// How far above the cordon wire an upright's tip usually is at least, and above the wall's height at most, mm.
const HEIGHT: (f64, f64) = (100.0, 800.0);
/// Side branches of an upright that are usual.
const LATERALS: (f64, f64) = (0.0, 30.0);
/// Usual length of a shoot that is not laid, mm.
const LENGTH: (f64, f64) = (20.0, 4_000.0);
/// How many times the expected distance the next tree may stand off, before it is asked.
const APART: (f64, f64) = (0.4, 2.5);

/// A value that may be taken, but is more likely a slip.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    what: &'static str,
    tree: u32,
    value: f64,
    unit: Quantity,
    /// What is usual or expected, or what stands there already.
    usual: (f64, f64),
    meant: Option<Meant>,
    style: LengthStyle,
}

/// What was more likely meant.
#[derive(Clone, Debug, PartialEq)]
struct Meant {
    mm: f64,
    /// Of a length that was told season by season, each as it was likely meant.
    seasons: Vec<f64>,
    /// As it is to be typed.
    typed: String,
}

/// What of a recorded shoot, that runs as `course` tells, is more likely a slip: how long it is or reaches, else how thick it
/// was `measured`. Its length was told as `lengths`, one a season.
pub fn unlikely(
    tree: u32,
    shoot: &Shoot,
    course: &Course,
    lengths: &[f64],
    measured: bool,
) -> Option<Doubt> {
    if shoot.units.is_empty() {
        return None;
    }
    let doubt = |what, unit, value: f64, usual| {
        let mut doubt = Doubt::of(what, tree, unit, value, usual)?;
        doubt.meant = match doubt.of_thickness() || lengths.len() < 2 {
            true => doubt.tenfold().map(|mm| Meant {
                mm,
                seasons: Vec::new(),
                typed: String::new(),
            }),
            false => doubt.one_season(lengths),
        };
        Some(doubt)
    };
    let reach = (course.tip().x - course.base.x).abs();
    let long = match shoot.pose.is_laid() {
        true => doubt("end", Quantity::Length, reach, REACH),
        false => doubt("length", Quantity::Length, shoot.length(), LENGTH),
    };
    let thick = match shoot.kind() {
        _ if !measured => None,
        Kind::Upright => Some(("thickness", UPRIGHT_THICK)),
        Kind::Stem | Kind::Leader => Some(("leader", LEADER_THICK)),
        _ => None,
    };
    long.or_else(|| doubt(thick?.0, Quantity::Thickness, shoot.diameter, thick?.1))
}

/// As [`unlikely`], of a shoot in the record of a plan, its length told as `lengths`.
pub fn unlikely_in(plan: &Plan, tree: TreeId, shoot: ShootId, lengths: &[f64]) -> Option<Said> {
    let tree = plan.found.tree(tree)?;
    let courses = layout(tree, Geometry::of(&plan.found, &plan.targets));
    let n = tree.index(shoot)?;
    let shoot = &tree.shoots[n];
    let course = courses.get(n)?;
    let doubt = unlikely(tree.id.0, shoot, course, lengths, shoot.diameter > 0.0)?;
    Some(doubt.question())
}

/// Trees of a row, each its number and its foot in mm, that stand unlikely far from the one before or close to it, by the
/// usual distance from one to the next.
pub fn misplaced(mut feet: Vec<(u32, f64)>) -> Vec<(u32, Said)> {
    // Of fewer nothing is usual.
    if feet.len() < 4 {
        return Vec::new();
    }
    feet.arrange_by(|a, b| a.1.total_cmp(&b.1));
    let apart = |w: &[(u32, f64)]| w[1].1 - w[0].1;
    // Trees whose numbers are apart may have others between them.
    let on = |w: &[(u32, f64)]| f64::from(w[1].0.abs_diff(w[0].0).max(1));
    let usual = middle_of(feet.windows(2).map(apart).collect()).unwrap_or(0.0);
    let each = middle_of(feet.windows(2).map(|w| apart(w) / on(w)).collect()).unwrap_or(0.0);
    let mut out = Vec::new();
    for w in feet.windows(2) {
        let doubt = |expected: f64| Doubt::foot(w[1].0, apart(w), expected);
        if doubt(usual).is_some()
            && let Some(doubt) = doubt(each * on(w))
        {
            out.push((w[1].0, doubt.question()));
        }
    }
    out
}

/// Lengths, one a season, as one text.
pub fn season_by_season(lengths: &[f64]) -> Arg {
    let one = |mm: &f64| Arg::Field(Quantity::Length, *mm);
    let (first, rest) = match lengths {
        [] => return Arg::Text(String::new()),
        [first, rest @ ..] => (one(first), rest),
    };
    rest.iter().fold(first, |before, next| {
        let both = vec![("before", before), ("next", one(next))];
        Said::new("walk-doubt-seasons", both).into()
    })
}

impl Doubt {
    fn of(
        what: &'static str,
        tree: u32,
        unit: Quantity,
        value: f64,
        usual: (f64, f64),
    ) -> Option<Self> {
        let fits = value >= usual.0 && value <= usual.1;
        (!fits).then_some(Self {
            what,
            tree,
            value,
            unit,
            usual,
            meant: None,
            style: LengthStyle::Metric,
        })
    }

    /// A tree so far on from the one before it, where another distance is expected.
    fn foot(tree: u32, apart: f64, expected: f64) -> Option<Self> {
        let usual = (APART.0 * expected, APART.1 * expected);
        // Asked by what was expected: nobody thinks in the bounds of a doubt.
        Self::of("foot", tree, Quantity::Length, apart, usual).map(|doubt| Self {
            usual: (expected, expected),
            ..doubt
        })
    }

    /// Whether it is about a thickness.
    pub fn of_thickness(&self) -> bool {
        self.unit == Quantity::Thickness
    }

    /// What was likely meant by what was told, where that is known: of a length told season by season, each of them.
    pub fn likely(&self, told: &[f64]) -> Option<Vec<f64>> {
        let meant = self.meant.as_ref()?;
        match meant.seasons.is_empty() {
            true => Some(told.iter().map(|mm| mm * self.factor()).collect()),
            false => Some(meant.seasons.clone()),
        }
    }

    fn factor(&self) -> f64 {
        if self.value < self.usual.0 { 10.0 } else { 0.1 }
    }

    /// Ten times as much or as little, where that is usual: another unit, or a lost point.
    fn tenfold(&self) -> Option<f64> {
        let factor = self.factor();
        let meant = libm::round(self.value * factor * 10.0) / 10.0;
        (meant >= self.usual.0 && meant <= self.usual.1).then_some(meant)
    }

    /// Of a length that is too much with its seasons told one by one: the longest with its point moved by one place, where the
    /// whole is usual then.
    fn one_season(&self, lengths: &[f64]) -> Option<Meant> {
        let mut seasons = lengths.to_vec();
        let longest = seasons.iter_mut().max_by(|a, b| a.total_cmp(b))?;
        let slipped = *longest * 0.9;
        *longest = libm::round(*longest * 0.1);
        let mm = self.value - slipped;
        let likely = self.value > self.usual.1 && mm >= self.usual.0 && mm <= self.usual.1;
        likely.then_some(Meant {
            mm,
            seasons,
            typed: String::new(),
        })
    }

    fn args(&self) -> Args {
        let text = |mm| Arg::Field(self.unit, mm);
        vec![
            ("what", Arg::Text(self.what.into())),
            ("tree", Arg::Count(self.tree.into())),
            ("value", text(self.value)),
            ("low", text(self.usual.0)),
            ("high", text(self.usual.1)),
            (
                "meant",
                self.meant
                    .as_ref()
                    .map_or_else(|| Arg::Text("none".into()), |m| self.told(m)),
            ),
        ]
    }

    fn told(&self, meant: &Meant) -> Arg {
        match meant.seasons.is_empty() {
            true => self.both_ways(meant.mm),
            false => season_by_season(&meant.seasons),
        }
    }

    /// A thickness in millimetres and, as it was likely thought of, in centimetres.
    fn both_ways(&self, mm: f64) -> Arg {
        let plain = Arg::Field(self.unit, mm);
        if mm <= self.value {
            return plain;
        }
        let centimetres = Arg::Field(Quantity::Number, mm / 10.0);
        let both = vec![("value", plain), ("centimetres", centimetres)];
        Said::new("walk-doubt-both", both).into()
    }

    /// How lengths are to be shown: as they were typed.
    pub fn style(&self) -> LengthStyle {
        self.style
    }

    /// What is asked.
    pub fn question(&self) -> Said {
        Said::new("walk-doubt", self.args())
    }

    /// The answer that takes the value as it stands.
    pub fn as_it_stands(&self) -> Said {
        Said::new("walk-doubt-stands", self.args())
    }

    /// The answer that takes what was meant, where something likely is known, and how that is typed.
    pub fn meant(&self) -> Option<(Said, String)> {
        let meant = self.meant.as_ref()?;
        let label = Said::new("walk-doubt-meant", self.args());
        Some((label, meant.typed.clone()))
    }
}

impl Walk {
    /// What is to be asked before a typed answer is taken; `None` where it is usual, or can't be taken at all.
    pub fn doubt(&self, text: &str) -> Option<Doubt> {
        self.clone().typed(text).ok()?;
        let ask = self.ask();
        match ask {
            Ask::LeaderThickness { .. } => self.thickness_doubt(text, LEADER_THICK),
            Ask::UprightThickness { .. } => self.thickness_doubt(text, UPRIGHT_THICK),
            Ask::Foot { usual, .. } => {
                let last = self.state.drafts.last()?.foot.f();
                let expected = usual?.f() - last;
                let apart = self.foot(text).ok()?.f() - last;
                self.styled(Doubt::foot(ask.tree()?, apart, expected))
            }
            Ask::End { .. } => {
                let foot = self.state.drafts.last()?.foot.f();
                let reach = (self.place(text).ok()?.f() - foot).abs();
                self.unusual("end", Quantity::Length, reach, REACH)
            }
            Ask::Height { .. } => {
                let height = self.place(text).ok()?.f();
                let usual = (
                    self.setup.wires[0].f() + HEIGHT.0,
                    self.setup.wall_height.f() + HEIGHT.1,
                );
                self.unusual("height", Quantity::Length, height, usual)
            }
            Ask::Laterals { .. } => {
                let count = self.count(text).ok()?;
                self.unusual("laterals", Quantity::Count, count, LATERALS)
            }
            Ask::Upright { .. } => self.backward(self.place(text).ok()?.f()),
            Ask::Way { .. } | Ask::Nothing => None,
        }
    }

    fn unusual(
        &self,
        what: &'static str,
        unit: Quantity,
        value: f64,
        usual: (f64, f64),
    ) -> Option<Doubt> {
        let tree = self.ask().tree().unwrap_or(0);
        self.styled(Doubt::of(what, tree, unit, value, usual))
    }

    fn styled(&self, doubt: Option<Doubt>) -> Option<Doubt> {
        let style = self.setup.tape.style();
        doubt.map(|doubt| Doubt { style, ..doubt })
    }

    /// A thickness in centimetres where millimetres are asked is ten times too thin; a lost point, ten times too thick.
    fn thickness_doubt(&self, text: &str, usual: (f64, f64)) -> Option<Doubt> {
        let tape = self.setup.tape;
        let mm = parse_length(text, tape.thickness()).ok()?;
        let mut doubt = self.unusual(self.ask().key(), Quantity::Thickness, mm, usual)?;
        // Inches are no tenth of anything that is on a tape.
        if tape.style() == LengthStyle::Metric
            && let Some(mm) = doubt.tenfold()
        {
            doubt.meant = Some(Meant {
                mm,
                seasons: Vec::new(),
                typed: tape.typed_thickness(mm),
            });
        }
        Some(doubt)
    }

    /// An upright that stands behind another on the same leader, against the way in which they were taken down.
    fn backward(&self, x: f64) -> Option<Doubt> {
        let draft = self.state.drafts.last()?;
        let foot = draft.foot.f();
        let side = |x: f64| match draft.way {
            Some(Way::Left) => Toward::Left,
            Some(Way::Both) if x < foot => Toward::Left,
            _ => Toward::Right,
        };
        let uprights = draft.uprights.iter().map(|u| u.x.f());
        let same: Vec<f64> = uprights.filter(|u| side(*u) == side(x)).collect();
        // By most steps, so that one that was taken as it stood does not turn the way.
        let rises = |step: &[f64]| i32::from(step[1] > step[0]) * 2 - 1;
        let steps: i32 = same.windows(2).map(rises).sum();
        let rising = match steps {
            // One alone tells no way: along a leader to the left some begin at its foot, some at its end.
            0 if side(x) == Toward::Left => return None,
            _ => steps >= 0,
        };
        let far = |a: &f64, b: &f64| a.total_cmp(b);
        let farthest = match rising {
            true => same.iter().copied().max_by(far)?,
            false => same.iter().copied().min_by(far)?,
        };
        let back = if rising { x < farthest } else { x > farthest };
        back.then(|| Doubt {
            what: "back",
            tree: draft.number,
            value: x,
            unit: Quantity::Length,
            usual: (farthest, farthest),
            meant: None,
            style: self.setup.tape.style(),
        })
    }
}
