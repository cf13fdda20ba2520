//! What a table says of the row as a whole: lines above the names of its columns, each a name and what it is.
//!
//! | line | what it says |
//! | --- | --- |
//! | `coming leaf,3` | the leaf before whose growth the row was found |
//! | `row from,0.50 m` | where the stretch of cordon wire that is to be filled begins |
//! | `row to,31.20 m` | where it ends |
//! | `wire,0.50 m,plastic` | the height of a wire, one a line, and what covers it: `plastic`, or `bare` as where nothing is said |
//! | `wall height,2.50 m` | how high the wall is to be |
//! | `posts,-0.60 m,6.40 m` | places of posts along the row, several in a line, or in a cell with a comma and a space between them, and in as many lines as it takes |
//! | `latitude,45.5` | degrees north |
//! | `longitude,8.25` | degrees east |
//! | `row bearing,90` | compass bearing of the way in which places grow, degrees |
//! | `row spacing,3.00 m` | distance between row centres |
//! | `row name,North 4` | what the row is called; without it, the first line that says nothing else |
//! | `lengths,in all` | a single length of a shoot is that of all its seasons together, and is shared out as shoots usually grow; `by season`, as where nothing is said: it is one season's |
//! | `last growth tipped,yes` | whether last year's growth had been tipped before it was measured: `yes` or `no` |
//!
//! A length without a unit is in metres. Lines come in any order; each but `wire` and `posts` stands once.

use super::pieces::{self, in_range};
use super::record::{Cells, Record, split_unit};
use super::spanish::own;
use super::{BadLine, MAX_BAD, Style};
use crate::arrange::Arrange;
use crate::file::short;
use crate::plan::{Plan, Setting};
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row::{Covering, Row, Site, Trellis, Wire};
use crate::said::{Arg, Said};
use crate::units::{BareUnit, Mm, parse_length};

/// How many posts are written in a line: with the name as many cells as a line of a shoot has.
const POSTS_A_LINE: usize = 10;
const COVERINGS: &str = "accepted-coverings";

/// What a line is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Fact {
    Leaf,
    From,
    To,
    Wire,
    WallHeight,
    Posts,
    Latitude,
    Longitude,
    Bearing,
    RowSpacing,
    Name,
    Lengths,
    Tipped,
}

/// What covers wires: not, or plastic.
pub(super) const COVERED: [&str; 2] = ["bare", "plastic"];
/// Of what seasons a single length is: of one, or of all together.
pub(super) const LENGTHS: [&str; 2] = ["by season", "in all"];
/// Whether something was so.
pub(super) const TICKED: [&str; 2] = ["no", "yes"];

impl Fact {
    const ALL: [Self; 13] = [
        Self::Leaf,
        Self::From,
        Self::To,
        Self::Wire,
        Self::WallHeight,
        Self::Posts,
        Self::Latitude,
        Self::Longitude,
        Self::Bearing,
        Self::RowSpacing,
        Self::Name,
        Self::Lengths,
        Self::Tipped,
    ];

    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Leaf => "coming leaf",
            Self::From => "row from",
            Self::To => "row to",
            Self::Wire => "wire",
            Self::WallHeight => "wall height",
            Self::Posts => "posts",
            Self::Latitude => "latitude",
            Self::Longitude => "longitude",
            Self::Bearing => "row bearing",
            Self::RowSpacing => "row spacing",
            Self::Name => "row name",
            Self::Lengths => "lengths",
            Self::Tipped => "last growth tipped",
        }
    }

    /// The fact that the first cell of a line names, and the unit in that cell.
    pub(super) fn named(cell: &str) -> Option<(Self, Option<BareUnit>)> {
        let (words, unit) = split_unit(cell.trim().trim_end_matches(':'));
        let words = match own(&words) {
            "post" => "posts",
            "wires" => "wire",
            words => words,
        };
        let fact = Self::ALL.into_iter().find(|f| f.name() == words)?;
        Some((fact, unit))
    }

    /// Cells that a line may have, its name counted.
    fn cells(self) -> usize {
        match self {
            Self::Wire => 3,
            Self::Posts | Self::Name => usize::MAX,
            _ => 2,
        }
    }

    pub(super) fn range(self) -> Range {
        let setting = match self {
            Self::Leaf => return (1.0, Plan::MAX_LEAF.into()),
            Self::Lengths | Self::Tipped => return (0.0, 1.0),
            Self::Name => return (0.0, Plan::MAX_TEXT as f64),
            Self::From | Self::To | Self::Posts => return range::PLACE,
            Self::Wire => return range::WIRE_HEIGHT,
            Self::WallHeight => Setting::WallHeight,
            Self::Latitude => Setting::Latitude,
            Self::Longitude => Setting::Longitude,
            Self::Bearing => Setting::RowBearing,
            Self::RowSpacing => Setting::RowSpacing,
        };
        setting.range()
    }

    /// How its values are told.
    pub(super) fn arg(self) -> fn(f64) -> Arg {
        match self {
            Self::Leaf | Self::Name | Self::Lengths | Self::Tipped => |n| Arg::Number(n, 0),
            Self::Latitude | Self::Longitude | Self::Bearing => Arg::Angle,
            _ => Arg::Length,
        }
    }
}

/// What the lines say of the row as a whole.
#[derive(Clone, Debug, Default)]
pub(super) struct Block {
    pub leaf: Option<u8>,
    /// Whether a single length is that of all seasons together.
    pub in_all: bool,
    /// Whether last year's growth had been tipped.
    pub tipped: Option<bool>,
    pub from: Option<Mm>,
    pub to: Option<Mm>,
    /// Each wire's height, and what covers it where that is said.
    wires: Vec<(Mm, Option<Covering>)>,
    posts: Vec<Mm>,
    wall_height: Option<Mm>,
    /// What covers the wires of which no line says it.
    covering: Option<Covering>,
    pub site: Site,
    pub name: Option<String>,
    /// Lines that could not be taken, in order.
    pub bad: Vec<BadLine>,
    seen: Vec<Fact>,
}

impl Block {
    /// Takes the lines one by one; `delimiter` stands between the cells of a line as it is shown.
    pub(super) fn read(records: &[Record], delimiter: u8) -> Self {
        let mut out = Self::default();
        let mark = char::from(delimiter).to_string();
        for record in records {
            // One more than are named is enough to refuse the file.
            if out.bad.len() > MAX_BAD {
                break;
            }
            if let Err(why) = out.take(&record.cells) {
                let filled = record.cells.filled();
                out.bad.push(BadLine {
                    line: record.line,
                    tree: None,
                    text: short(&record.cells.joined(filled, &mark)),
                    why,
                });
            }
        }
        out
    }

    /// Whether a line says it.
    pub(super) fn says(&self, fact: Fact) -> bool {
        self.seen.contains(&fact)
    }

    /// Whether of a wire is not said what covers it.
    pub(super) fn is_uncovered(&self) -> bool {
        self.wires.iter().any(|(_, covering)| covering.is_none())
    }

    /// Whether wires of which nothing else is said are covered with plastic.
    pub(super) fn covers_with_plastic(&self) -> bool {
        self.covering == Some(Covering::Plastic)
    }

    /// Covers the wires of which nothing is said, as that word says.
    pub(super) fn cover(&mut self, word: &str) -> Result<(), Refusal> {
        self.covering = covering(word)?;
        for (_, covering) in &mut self.wires {
            *covering = covering.or(self.covering);
        }
        Ok(())
    }

    /// The wires and posts that the lines say, and the others as `usual`.
    pub(super) fn trellis(&self, usual: &Trellis) -> Trellis {
        let mut out = usual.clone();
        if !self.wires.is_empty() {
            let wire = |(height, covering): &(Mm, Option<Covering>)| Wire {
                height: *height,
                covering: covering.unwrap_or_default(),
            };
            out.wires = self.wires.iter().map(wire).collect();
            out.wires.arrange_by_key(|w| w.height);
        }
        if !self.posts.is_empty() {
            out.posts = self.posts.clone();
            out.posts.arrange();
        }
        out.wall_height = self.wall_height.unwrap_or(out.wall_height);
        out
    }

    /// What is assumed of the trellis that the lines make.
    pub(super) fn assumed(&self, trellis: &Trellis, said: &mut Vec<Said>) {
        let wires = &trellis.wires;
        let height = |wire: Option<&Wire>| Arg::Length(wire.map_or(0.0, |w| w.height.f()));
        if self.wires.is_empty() {
            said.push(Said::new(
                "file-said-wires",
                vec![
                    ("count", Arg::Count(wires.len() as i64)),
                    ("low", height(wires.first())),
                    ("high", height(wires.last())),
                ],
            ));
        } else if self.is_uncovered() {
            said.push(Said::plain("file-said-uncovered"));
        }
        if self.wall_height.is_none() {
            let wall = ("height", Arg::Length(trellis.wall_height.f()));
            said.push(Said::new("file-said-wall", vec![wall]));
        }
    }

    pub(super) fn take(&mut self, cells: &Cells) -> Result<(), Refusal> {
        let Some((fact, unit)) = Fact::named(cells.get(0)) else {
            return Ok(());
        };
        let filled = cells.filled();
        if filled > fact.cells() {
            return Err(Refusal::new(
                "refusal-csv-cells",
                vec![
                    ("value", Arg::Count(filled as i64)),
                    ("high", Arg::Count(fact.cells() as i64)),
                ],
            ));
        }
        let cell = |n: usize| cells.get(n);
        let once = !matches!(fact, Fact::Wire | Fact::Posts);
        if once && self.seen.contains(&fact) {
            return Err(twice(fact.name().into()));
        }
        let value = || value(fact, unit, cell(1));
        match fact {
            Fact::Wire => self.wire(value()?, cell(2))?,
            Fact::Posts => {
                // All of a line or none, so that a line that is named is one that was not taken.
                // Within a cell they may be parted as in a sentence: a comma in a number has no space behind it.
                let places = cells.iter().skip(1).flat_map(|c| c.split(", "));
                let places = places.map(str::trim).filter(|c| !c.is_empty());
                let read = |c: &str| self::value(fact, unit, c).map(Mm::round);
                // One more than there may be is enough to refuse them.
                let places = places.take(range::POSTS.1 as usize + 1);
                let posts: Vec<Mm> = places.map(read).collect::<Result<_, _>>()?;
                if posts.is_empty() {
                    return value().map(|_| ());
                }
                let count = self.posts.len() + posts.len();
                in_range(
                    fact.name(),
                    |n| Arg::Number(n, 0),
                    count as f64,
                    range::POSTS,
                )?;
                self.posts.extend(posts);
            }
            Fact::Leaf => self.leaf = Some(value()? as u8),
            Fact::From => {
                let from = value()?;
                let (low, high) = fact.range();
                in_range(
                    fact.name(),
                    fact.arg(),
                    from,
                    (low, self.to.map_or(high, Mm::f)),
                )?;
                self.from = Some(Mm::round(from));
            }
            Fact::To => {
                let to = value()?;
                let (low, high) = fact.range();
                in_range(
                    fact.name(),
                    fact.arg(),
                    to,
                    (self.from.map_or(low, Mm::f), high),
                )?;
                self.to = Some(Mm::round(to));
            }
            Fact::WallHeight => self.wall_height = Some(Mm::round(value()?)),
            Fact::Latitude => self.site.latitude_deg = Some(value()?),
            Fact::Longitude => self.site.longitude_deg = Some(value()?),
            Fact::Bearing => self.site.row_bearing_deg = Some(value()?),
            Fact::RowSpacing => self.site.row_spacing = Some(Mm::round(value()?)),
            Fact::Lengths => {
                let word = one_of(fact, cell(1), &LENGTHS, "accepted-seasons-of-lengths")?;
                self.in_all = word == 1;
            }
            Fact::Tipped => {
                let word = one_of(fact, cell(1), &TICKED, pieces::TICKS)?;
                self.tipped = Some(word == 1);
            }
            Fact::Name => {
                // A name typed by hand may hold what parts cells.
                let name = cells
                    .iter()
                    .take(filled)
                    .skip(1)
                    .collect::<Vec<_>>()
                    .join(", ");
                pieces::not_too_long(fact.name(), &name)?;
                self.name = Some(name).filter(|n| !n.is_empty());
            }
        }
        self.seen.push(fact);
        Ok(())
    }

    fn wire(&mut self, height: f64, covering: &str) -> Result<(), Refusal> {
        let name = Fact::Wire.name();
        let height = Mm::round(height);
        let covering = self::covering(covering)?;
        if self.wires.iter().any(|(at, _)| *at == height) {
            return Err(twice(format!("{name} {height}")));
        }
        let count = self.wires.len() + 1;
        in_range(name, |n| Arg::Number(n, 0), count as f64, range::WIRES)?;
        self.wires.push((height, covering));
        Ok(())
    }
}

/// What a word says of a wire's covering; an empty one nothing.
fn covering(word: &str) -> Result<Option<Covering>, Refusal> {
    match own(&word.to_lowercase()) {
        "" => Ok(None),
        "bare" | "steel" | "bare steel" => Ok(Some(Covering::Bare)),
        "plastic" | "covered" | "coated" => Ok(Some(Covering::Plastic)),
        _ => Err(no_word(Fact::Wire, word, COVERINGS)),
    }
}

/// Which of the words a cell holds.
fn one_of(
    fact: Fact,
    cell: &str,
    words: &[&str],
    accepted: &'static str,
) -> Result<usize, Refusal> {
    let found = words.iter().position(|w| w.eq_ignore_ascii_case(cell));
    found.ok_or_else(|| no_word(fact, cell, accepted))
}

fn no_word(fact: Fact, value: &str, accepted: &'static str) -> Refusal {
    Refusal::new(
        "refusal-csv-word",
        vec![
            ("column", Arg::Text(fact.name().into())),
            ("value", Arg::short(value)),
            ("accepted", Arg::key(accepted)),
        ],
    )
}

fn twice(what: String) -> Refusal {
    Refusal::new("refusal-csv-twice", vec![("what", Arg::Text(what))])
}

/// The number in a cell, in its range.
fn value(fact: Fact, unit: Option<BareUnit>, cell: &str) -> Result<f64, Refusal> {
    pieces::not_too_long(fact.name(), cell)?;
    let named = ("column", Arg::Text(fact.name().into()));
    let accepted = match fact {
        Fact::Leaf => "accepted-whole",
        Fact::Latitude | Fact::Longitude | Fact::Bearing => "accepted-degrees",
        _ => "accepted-length",
    };
    let accepted = ("accepted", Arg::key(accepted));
    let unread = |reason: Said| {
        let mut args = vec![named.clone(), ("reason", reason.into())];
        let key = match fact {
            Fact::Posts => "refusal-csv-posts",
            _ => "refusal-csv-unread",
        };
        args.extend((fact != Fact::Posts).then(|| accepted.clone()));
        Refusal::new(key, args)
    };
    if cell.is_empty() {
        let args = vec![named, accepted];
        return Err(Refusal::new("refusal-csv-empty", args));
    }
    let value = match fact {
        Fact::Leaf => match cell.parse::<i64>() {
            Ok(leaf) => leaf as f64,
            Err(_) => {
                let args = vec![
                    named,
                    ("value", Arg::short(cell)),
                    ("accepted", Arg::key("accepted-whole")),
                ];
                return Err(Refusal::new("refusal-csv-word", args));
            }
        },
        // As fine as a plan file holds it.
        Fact::Latitude | Fact::Longitude | Fact::Bearing => {
            libm::round(pieces::degrees(cell).map_err(unread)? * 1e6) / 1e6
        }
        _ => libm::round(parse_length(cell, unit.unwrap_or(BareUnit::Metre)).map_err(unread)?),
    };
    in_range(fact.name(), fact.arg(), value, fact.range())?;
    Ok(value)
}

/// The lines of a row of that name, found before the growth of `leaf`.
pub(super) fn lines(
    row: &Row,
    name: &str,
    leaf: u8,
    site: &Site,
    tipped: Option<bool>,
    style: Style,
) -> Vec<Vec<String>> {
    let mut out: Vec<Vec<String>> = Vec::new();
    let mut say = |fact: Fact, cells: &[String]| {
        out.push([&[fact.name().to_string()], cells].concat());
    };
    let length = |mm: Mm| style.length_with_unit(mm.f());
    say(Fact::Leaf, &[leaf.to_string()]);
    say(Fact::From, &[length(row.from)]);
    say(Fact::To, &[length(row.to)]);
    for wire in &row.trellis.wires {
        let covering = match wire.covering {
            Covering::Bare => COVERED[0],
            Covering::Plastic => COVERED[1],
        };
        say(Fact::Wire, &[length(wire.height), covering.into()]);
    }
    say(Fact::WallHeight, &[length(row.trellis.wall_height)]);
    for posts in row.trellis.posts.chunks(POSTS_A_LINE) {
        let places: Vec<String> = posts.iter().map(|p| length(*p)).collect();
        say(Fact::Posts, &places);
    }
    for (fact, value) in [
        (Fact::Latitude, site.latitude_deg),
        (Fact::Longitude, site.longitude_deg),
        (Fact::Bearing, site.row_bearing_deg),
    ] {
        if let Some(value) = value {
            say(fact, &[style.marked(value.to_string())]);
        }
    }
    if let Some(spacing) = site.row_spacing {
        say(Fact::RowSpacing, &[length(spacing)]);
    }
    say(Fact::Lengths, &[LENGTHS[0].into()]);
    if let Some(tipped) = tipped {
        say(Fact::Tipped, &[TICKED[usize::from(tipped)].into()]);
    }
    // A line above the names is one line of the file.
    let name = name.replace(['\n', '\r', '\t'], " ");
    if !name.trim().is_empty() {
        say(Fact::Name, &[name.trim().to_string()]);
    }
    out
}
