//! What can be asked on the command line.

use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};
use cordonry::light::Weather;
use cordonry::row::Window;
use cordonry::said::Arg;
use cordonry_words::{Language, Words};
use std::path::PathBuf;

/// Plans, checks and draws fruit trees trained as planar cordons.
///
/// Exit status: 0 when all is done and nothing grave was found, 1 when there are findings of the gravest severity,
/// 2 when something could not be read or done; standard error then names the file and the reason.
#[derive(Parser)]
#[command(name = "cordonry", version, max_term_width = 100)]
pub struct Args {
    /// The language of all that is said and written, by its code; `crew` writes in several, comma between them.
    #[arg(long, global = true, value_name = "CODE", default_value = Language::WHOLE, value_parser = language, value_delimiter = ',')]
    pub language: Vec<Language>,
    #[command(subcommand)]
    pub command: Command,
}

fn language(code: &str) -> Result<Language, String> {
    Language::of(code).ok_or_else(|| {
        let codes: Vec<&str> = Language::all().map(|l| l.code).collect();
        let codes = Arg::Text(codes.join(", "));
        Words::default().text("command-no-language", &[("codes", codes)])
    })
}

#[derive(Subcommand)]
pub enum Command {
    Check(Check),
    Light(Light),
    Forecast(Forecast),
    Advise(Advise),
    Crew(Crew),
    Materials(Materials),
    Compare(Compare),
    Draw(Draw),
    Report(Report),
    Import(Import),
    Export(Export),
    Link(Link),
    Archive(Archive),
}

/// How results are printed.
#[derive(ClapArgs)]
pub struct Output {
    /// Print one JSON document.
    #[arg(long, conflicts_with = "json_lines")]
    pub json: bool,
    /// Print one line of JSON a row.
    #[arg(long)]
    pub json_lines: bool,
}

/// Check rows: what is wrong, where, and what work would mend it.
///
/// A plan's row is judged as it stands before its found leaf grows, with the dormant work of that leaf done by the
/// plan's first scheme. JSON gives that leaf as "leaf", places in metres, and what was measured in the unit of its limit.
#[derive(ClapArgs)]
pub struct Check {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Judge the light too: what gaps lose, what the wall catches, what reaches the renewal zone.
    #[arg(long)]
    pub light: bool,
    /// The season's weather for it.
    #[arg(long, value_name = "SKY", default_value = "clear", requires = "light")]
    pub sky: Sky,
    #[command(flatten)]
    pub output: Output,
}

/// Tell what rows catch of a period's light in full leaf, and what falls through.
///
/// The row is taken as `check` judges it. Without days the period is the growing season, mid-April to mid-October, half a
/// year later in the south; without a place, 45° N and a row from north to south. JSON names what was taken as "assumed".
#[derive(ClapArgs)]
pub struct Light {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// First day, such as 2026-07-01 or 07-01; goes with --to.
    #[arg(long, value_name = "DATE", requires = "to")]
    pub from: Option<String>,
    /// Last day. Without years one before the first is in the year after; with both years it is refused.
    #[arg(long, value_name = "DATE", requires = "from")]
    pub to: Option<String>,
    /// The period's weather.
    #[arg(long, value_name = "SKY", default_value = "clear")]
    pub sky: Sky,
    #[command(flatten)]
    pub output: Output,
}

/// Tell what the schemes of rows bring, leaf by leaf: fill, uprights, crop, leaf, age of wood, work.
///
/// By a calibrated model of growth and fruit, not a law; a crop is told with the 10th and 90th percentile of 64 draws of all
/// its values at once, or with itself where the usual values give less or more than those. Crop is as of after the early-summer work; leaf, fill and uprights before the after-harvest work;
/// ages before the dormant work.
#[derive(ClapArgs)]
pub struct Forecast {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The last leaf; one before the found leaf gives none.
    #[arg(long, value_name = "LEAF", default_value_t = 10, value_parser = clap::value_parser!(u8).range(1..=40))]
    pub to: u8,
    /// One scheme alone, by its name.
    #[arg(long, value_name = "NAME")]
    pub scheme: Option<String>,
    /// Tell too what crop each renewal share brings by the model, from leaf 3 on, and how many stubs it asks for.
    #[arg(long)]
    pub shares: bool,
    /// Take every window without planned work as standing, whatever the scheme says.
    #[arg(long)]
    pub standing: bool,
    #[command(flatten)]
    pub output: Output,
}

/// Propose the work of a time for rows: what, why, what it costs and what it brings over five leaves.
///
/// It is the first scheme's. Values before and after are, of a draft, findings to be mended now or soon; of the fill, metres of bare
/// wire; of the uprights, the spread of their distances over the mean; of tips, cm² of leaf a fruit in the harvest after the coming one; of
/// renewal, the age of the oldest upright after five winters by the simple rule and by what is proposed. What is brought is told by a
/// calibrated model; minutes are from memory.
#[derive(ClapArgs)]
pub struct Advise {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The leaf before which the work is done; else that in which the row was found.
    #[arg(long, value_name = "LEAF", value_parser = clap::value_parser!(u8).range(1..=40))]
    pub leaf: Option<u8>,
    /// The time in that leaf; tips and renewal are the winter's.
    #[arg(long, value_name = "TIME", default_value = "dormant")]
    pub window: Time,
    /// What is asked for; each is proposed on what the one before it leaves. Without it, the draft.
    #[arg(long = "for", value_name = "KIND", value_delimiter = ',')]
    pub kinds: Vec<Kind>,
    /// A plan with all of it taken; a name that ends in .json.
    #[arg(short, long = "output", value_name = "FILE.json")]
    pub output_file: Option<PathBuf>,
    #[command(flatten)]
    pub output: Output,
}

/// Hand out the work of a leaf: passes of one job each, with the trees, minutes, tools, ties and cautions.
///
/// All of the leaf's work is in them, planned or standing, piece for piece; a leaf in which the scheme has no work gets the usual work
/// of that leaf, and says so. Minutes are those of one person, by rates from memory.
#[derive(ClapArgs)]
pub struct Crew {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The leaf; else that in which the row was found.
    #[arg(long, value_name = "LEAF", value_parser = clap::value_parser!(u8).range(1..=40))]
    pub leaf: Option<u8>,
    /// The scheme, by its name; else the first.
    #[arg(long, value_name = "NAME")]
    pub scheme: Option<String>,
    /// Seconds that a piece of work takes, such as stub=20; JSON lists the names under "rates".
    #[arg(long = "rate", value_name = "NAME=SECONDS")]
    pub rates: Vec<String>,
    /// How many do a job together, such as stub=2.
    #[arg(long, value_name = "JOB=COUNT")]
    pub people: Vec<String>,
    /// Trees that are diseased, by their numbers, comma between them: they are walked last, with tools disinfected.
    #[arg(long, value_name = "TREES", value_delimiter = ',')]
    pub diseased: Vec<u32>,
    /// The sheets to print as one FILE.pdf, or one a page as FILE-1.svg, FILE-2.svg and so on; or all pieces as one table, FILE.csv.
    #[arg(short, long = "output", value_name = "FILE")]
    pub output_file: Option<PathBuf>,
    /// The paper of the sheets.
    #[arg(long, value_name = "PAPER", default_value = "a4")]
    pub paper: PaperSize,
    #[command(flatten)]
    pub output: Output,
}

/// Tell what rows take when they are set up: trees with their lengths, wires by kind and height, posts, ties and sleeves; what the
/// wires bear; which delivered tree goes where.
///
/// It is told for the finished wall: its wires up to the wall's height, its uprights at the distance that is aimed at. Lengths of stock
/// are above the ground, unheaded with intact buds where a place has one leader. Posts, anchors and wind are not designed.
#[derive(ClapArgs)]
pub struct Materials {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The scheme, by its name; else the first.
    #[arg(long, value_name = "NAME")]
    pub scheme: Option<String>,
    /// Tell too what the work of this leaf takes.
    #[arg(long, value_name = "LEAF", value_parser = clap::value_parser!(u8).range(1..=40))]
    pub leaf: Option<u8>,
    /// Trees to spare, per cent of the places (from memory).
    #[arg(long, value_name = "PERCENT", default_value_t = 5.0)]
    pub spares: f64,
    /// The crop that the wires bear, t/ha.
    #[arg(long, value_name = "T_PER_HA", default_value_t = 20.0)]
    pub crop: f64,
    /// Thickness of the wire, mm.
    #[arg(long, value_name = "MM", default_value_t = 2.5)]
    pub wire: f64,
    /// What one costs, such as tree=9.5: tree, wire_m, covered_wire_m, post, tie, sleeve.
    #[arg(long = "price", value_name = "NAME=PRICE")]
    pub prices: Vec<String>,
    /// What the prices are in; anything.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub currency: String,
    /// Delivered trees, one a line: length above the ground, and `h` or `headed` behind it where it is.
    #[arg(long, value_name = "CSV")]
    pub delivered: Option<PathBuf>,
    /// The order of one row: FILE.csv as a table, FILE.pdf to print, FILE.svg one a page as FILE-1.svg, FILE-2.svg and so on.
    #[arg(short, long = "output", value_name = "FILE")]
    pub output_file: Option<PathBuf>,
    /// Its planting sheet, as the order; with what was delivered for each place where that is told.
    #[arg(long, value_name = "FILE")]
    pub planting: Option<PathBuf>,
    /// The paper of the sheets.
    #[arg(long, value_name = "PAPER", default_value = "a4")]
    pub paper: PaperSize,
    #[command(flatten)]
    pub output: Output,
}

/// Set schemes of one row side by side: crop, fill and age of wood by a calibrated model, hours, cuts and materials of their work.
#[derive(ClapArgs)]
pub struct Compare {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The schemes, by their names, comma between them; else all.
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub schemes: Vec<String>,
    /// The last leaf.
    #[arg(long, value_name = "LEAF", default_value_t = 8, value_parser = clap::value_parser!(u8).range(1..=40))]
    pub to: u8,
    /// Two schemes on one page, of one row: both walls with their bands after the harvest of the last leaf, figures and charts; the name ends in .pdf or .svg.
    #[arg(short, long = "output", value_name = "FILE")]
    pub output_file: Option<PathBuf>,
    /// The paper of that page.
    #[arg(long, value_name = "PAPER", default_value = "a4")]
    pub paper: PaperSize,
    #[command(flatten)]
    pub output: Output,
}

/// A time of the year.
#[derive(Clone, Copy, ValueEnum)]
pub enum Time {
    Dormant,
    BudSwell,
    EarlySummer,
    AfterHarvest,
}

impl From<Time> for Window {
    fn from(time: Time) -> Self {
        match time {
            Time::Dormant => Self::Dormant,
            Time::BudSwell => Self::BudSwell,
            Time::EarlySummer => Self::EarlySummer,
            Time::AfterHarvest => Self::AfterHarvest,
        }
    }
}

/// A kind of advice.
#[derive(Clone, Copy, PartialEq, ValueEnum)]
pub enum Kind {
    /// The whole work of that time.
    Draft,
    /// Of it what fills the cordon.
    Fill,
    /// Of it what keeps, adds and takes off uprights.
    Uprights,
    /// How much of last year's growth is tipped, tree by tree.
    Tip,
    /// The stubs of five winters, beside the simple rule.
    Renew,
}

impl Kind {
    /// Its name, as it is asked for.
    pub fn name(self) -> &'static str {
        match self {
            Self::Draft => "draft",
            Self::Fill => "fill",
            Self::Uprights => "uprights",
            Self::Tip => "tip",
            Self::Renew => "renew",
        }
    }
}

/// Draw a row to scale as SVG or PDF, at the moment that `check` judges; or its sheets to print.
///
/// With --sheets the row is drawn as the crew finds it, with a sign for each piece of the work that `check` judges as done,
/// that work as boxes to tick, the findings and the figures: one FILE.pdf, or one a page as FILE-1.svg, FILE-2.svg and so on.
#[derive(ClapArgs)]
pub struct Draw {
    /// A plan file.
    #[arg(value_name = "PATH")]
    pub path: PathBuf,
    /// The drawing; a name that ends in .svg or .pdf.
    #[arg(short, long = "output", value_name = "FILE")]
    pub output_file: PathBuf,
    /// Draw sheets of this paper.
    #[arg(long, value_name = "PAPER")]
    pub sheets: Option<PaperSize>,
    #[command(flatten)]
    pub output: Output,
}

/// Write a report for a client: what was found, what is advised for a leaf, why and by when, what is left, the marks, every change by tree.
///
/// The row is drawn as it was found before the leaf's work and as it stands after it. The work is that of the scheme, planned or
/// standing; what it brings is set beside the same row with nothing done in that leaf.
#[derive(ClapArgs)]
pub struct Report {
    /// A plan file.
    #[arg(required = true, value_name = "PLAN")]
    pub paths: Vec<PathBuf>,
    /// The report as one FILE.pdf, or one page each as FILE-1.svg, FILE-2.svg and so on.
    #[arg(short, long = "output", value_name = "FILE")]
    pub output_file: PathBuf,
    /// The leaf; else that in which the row was found.
    #[arg(long, value_name = "LEAF", value_parser = clap::value_parser!(u8).range(1..=40))]
    pub leaf: Option<u8>,
    /// The scheme, by its name; else the first.
    #[arg(long, value_name = "NAME")]
    pub scheme: Option<String>,
    /// The block in which the row stands.
    #[arg(long, value_name = "TEXT")]
    pub block: Option<String>,
    /// The day, as it is to be written.
    #[arg(long, value_name = "TEXT")]
    pub date: Option<String>,
    /// Who advises.
    #[arg(long, value_name = "TEXT")]
    pub by: Option<String>,
    /// The paper.
    #[arg(long, value_name = "PAPER", default_value = "a4")]
    pub paper: PaperSize,
    #[command(flatten)]
    pub output: Output,
}

/// A season's weather.
#[derive(Clone, Copy, ValueEnum)]
pub enum Sky {
    /// Every day is clear.
    Clear,
    /// With the usual clouds: 43 to 44 % of the light comes from the sky.
    Usual,
}

impl From<Sky> for Weather {
    fn from(sky: Sky) -> Self {
        match sky {
            Sky::Clear => Self::Clear,
            Sky::Usual => Self::Usual,
        }
    }
}

/// An answer to a question.
#[derive(Clone, Copy, PartialEq, ValueEnum)]
pub enum Answer {
    Yes,
    No,
}

/// A paper to print on.
#[derive(Clone, Copy, ValueEnum)]
pub enum PaperSize {
    A4,
    Letter,
}

/// Make a plan of a measured row: a table with one line a shoot.
///
/// Columns, in any order: tree, place, kind, parent, length, diameter, side, pose, season, laterals, rubbed, cut, when cut, origin,
/// bend radius, note.
/// Lines above them may say the coming leaf, wires, posts and site. What was assumed is said on standard error, and so are lines that can't be taken, with number and reason; the rest is taken,
/// with exit status 0. Where more than half of the lines can't be taken, or more than a quarter and more than ten of them,
/// nothing is written and the status is 2.
#[derive(ClapArgs)]
pub struct Import {
    /// The measured row, comma, semicolon or tab between its cells.
    #[arg(value_name = "CSV")]
    pub path: PathBuf,
    /// The plan to be written; a name that ends in .json.
    #[arg(short, long = "output", value_name = "FILE.json")]
    pub output_file: PathBuf,
    /// Write a plan of the lines that can be taken, however few they are.
    #[arg(long)]
    pub anyway: bool,
    /// Replace a plan that work was done on.
    #[arg(long)]
    pub replace: bool,
    /// The leaf before whose growth the row was measured; else what the table says, or one more than its last season.
    #[arg(long, value_name = "LEAF")]
    pub leaf: Option<u8>,
    /// Whether last year's growth had been tipped before it was measured, where the table shows no cut of it; else it is
    /// taken as whole.
    #[arg(long, value_name = "ANSWER")]
    pub tipped: Option<Answer>,
    /// Planting angle from the ground of stems that don't say theirs, in degrees, 10 to 90.
    #[arg(long, value_name = "DEGREES", default_value_t = 45.0)]
    pub planted: f64,
    /// Height of the cordon wire, such as 0.5, 50 cm or "20 in", metres without a unit; else the wires that the table
    /// says, or one at 0.5 m and others above it.
    #[arg(long, value_name = "LENGTH")]
    pub wire: Option<String>,
    #[command(flatten)]
    pub output: Output,
}

/// Write the row of a plan, as it was found, as a table with one line a shoot.
#[derive(ClapArgs)]
pub struct Export {
    /// A plan file.
    #[arg(value_name = "PLAN")]
    pub path: PathBuf,
    /// The table to be written; a name that ends in .csv.
    #[arg(short, long = "output", value_name = "FILE.csv")]
    pub output_file: PathBuf,
    /// Lengths in feet and inches.
    #[arg(long)]
    pub us: bool,
    /// A decimal comma, and semicolons between the cells.
    #[arg(long)]
    pub decimal_comma: bool,
    #[command(flatten)]
    pub output: Output,
}

/// Pass a plan on as a link, or open one.
///
/// The plan stands behind the # of an address, in up to 32,000 characters: it reaches no server, and whoever opens it gets a plan of
/// their own. A longer plan is passed on as a file.
#[derive(ClapArgs)]
pub struct Link {
    /// A plan file.
    #[arg(value_name = "PLAN", required_unless_present = "open")]
    pub path: Option<PathBuf>,
    /// The address of the page that opens it; without it what stands behind its #.
    #[arg(long, value_name = "URL", default_value = "")]
    pub base: String,
    /// Open a link, an address with one, or a file that holds either.
    #[arg(long, value_name = "LINK", conflicts_with_all = ["path", "base"], requires = "output_file")]
    pub open: Option<String>,
    /// With PLAN, the link as a code for a camera, a name that ends in .svg; with --open, the plan to be written, one that ends in .json.
    #[arg(short, long = "output", value_name = "FILE")]
    pub output_file: Option<PathBuf>,
    #[command(flatten)]
    pub output: Output,
}

/// Put many rows into one file, or take such a file apart.
///
/// A file of many rows is what the page saves all its rows as, and opens. What can't be read is named, and the others are done, with
/// exit status 2. Nothing that is there is replaced unless --replace says so.
#[derive(ClapArgs)]
pub struct Archive {
    /// Plan files, or folders in which every *.json is one.
    #[arg(required_unless_present = "open", value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Take a file of many rows apart: a file for each, numbered as they stand in it, and what can't be read as it is, under a name
    /// that ends in .damaged.
    #[arg(long, value_name = "FILE.json", conflicts_with = "paths")]
    pub open: Option<PathBuf>,
    /// With PATH, the file of all rows, a name that ends in .json (of very many rows it is a few, numbered); with --open, the folder
    /// for the files, made where it is lacking.
    #[arg(short, long = "output", value_name = "PATH")]
    pub output_file: PathBuf,
    /// Replace files that are there.
    #[arg(long)]
    pub replace: bool,
    #[command(flatten)]
    pub output: Output,
}
