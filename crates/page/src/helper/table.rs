//! What a table holds, as it comes from the helper that has read it: texts alone, which cross as they are.

use cordonry::cover::Span;
use cordonry::file::csv::Question;
use cordonry::file::{MAX_BYTES, csv, write_plan};
use cordonry::pose::{Geometry, PosedRow};
use cordonry::refusal::Refusal;
use cordonry::row::{Row, Targets};
use cordonry::said::Arg;
use cordonry::units::{BareUnit, LengthStyle};
use cordonry_draw::{Detail, backdrop, foreground, posed_group, top_of, tree_numbers};
use cordonry_words::Words;

/// What a table holds, worded; [`look`] tells how the texts stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Looked(Vec<String>);

/// Texts before those of which there may be any number.
const HEAD: usize = 7;
/// Texts of a question.
const OF_ASK: usize = 5;

/// What a table leaves open, worded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ask<'t> {
    /// The name of its question.
    pub key: &'t str,
    /// What is taken now, as it is typed; the word of a choice.
    pub now: &'t str,
    /// What may be answered, where it is a number.
    pub range: &'t str,
    /// Why what was answered was not taken; empty where it was.
    pub wrong: &'t str,
    /// What was answered; empty where nothing was.
    pub answer: &'t str,
}

impl Ask<'_> {
    /// What a field shows: what was typed and refused, or what is taken.
    pub fn shown(&self) -> &str {
        match self.wrong {
            "" => self.now,
            _ => self.answer,
        }
    }

    /// What may be chosen, each a word with the name of its text; none where it is typed.
    pub fn choices(&self) -> &'static [(&'static str, &'static str)] {
        question(self.key).map_or(&[], Question::choices)
    }
}

fn question(key: &str) -> Option<Question> {
    Question::ALL.into_iter().find(|q| q.key() == key)
}

impl Looked {
    /// What was sent.
    ///
    /// # Errors
    /// Why the table was refused.
    pub fn of(mut texts: Vec<String>) -> Result<Self, String> {
        match texts.len() {
            0..HEAD => Err(texts.pop().unwrap_or_default()),
            _ => Ok(Self(texts)),
        }
    }

    /// The text of the plan file that it makes; empty where it makes none.
    pub fn plan(&self) -> &str {
        &self.0[0]
    }

    /// How much was understood, and what makes the whole unlikely.
    pub fn taken(&self) -> &str {
        &self.0[1]
    }

    /// How many lines are left out.
    pub fn left_out(&self) -> &str {
        &self.0[2]
    }

    /// Whether so many are that the table itself is rather wrong.
    pub fn is_mostly_bad(&self) -> bool {
        !self.0[3].is_empty()
    }

    /// The row that it makes, drawn; empty where it makes none.
    pub fn drawing(&self) -> &str {
        &self.0[4]
    }

    /// What it leaves open.
    pub fn asks(&self) -> impl Iterator<Item = Ask<'_>> {
        let asks = self.parts().0.chunks_exact(OF_ASK);
        asks.map(|ask| Ask {
            key: &ask[0],
            now: &ask[1],
            range: &ask[2],
            wrong: &ask[3],
            answer: &ask[4],
        })
    }

    /// What was assumed, and then of each line that is left out its number, why, and what stands there.
    pub fn said_and_bad(&self) -> (&[String], &[String]) {
        let said = self.0[6].parse().unwrap_or(0);
        self.parts().1.split_at_checked(said).unwrap_or_default()
    }

    fn parts(&self) -> (&[String], &[String]) {
        let asks = self.0[5].parse().unwrap_or(0) * OF_ASK;
        self.0[HEAD..].split_at_checked(asks).unwrap_or_default()
    }
}

/// What was answered so far: in turn the name of a question and what was typed.
pub type Answered = [String];

/// Reads a table as a row of that name, with what was answered: the texts of [`Looked`], or one alone, why it is refused.
pub fn look(
    bytes: &[u8],
    name: &str,
    words: &Words,
    answered: &Answered,
    tell: csv::Tell<'_>,
) -> Vec<String> {
    looked(bytes, name, words, answered, tell).unwrap_or_else(|why| vec![words.refusal(&why)])
}

fn looked(
    bytes: &[u8],
    name: &str,
    words: &Words,
    answered: &Answered,
    tell: csv::Tell<'_>,
) -> Result<Vec<String>, Refusal> {
    let mut options = csv::Options::default();
    if words.style == LengthStyle::FeetInches {
        options.answers.bare = BareUnit::Foot;
    }
    let answered = answered.chunks_exact(2);
    let answered = answered.filter_map(|a| Some((question(&a[0])?, a[1].as_str())));
    let answered: Vec<(Question, &str)> = answered.collect();
    // What can't even be read as it is typed is refused so, and is no answer.
    let mut unread = Vec::new();
    for (question, typed) in &answered {
        match words.typed(typed).map_err(|why| words.say(&why)) {
            _ if !question.choices().is_empty() => {
                options.answers.given.push((*question, (*typed).into()));
            }
            Ok(plain) => options.answers.given.push((*question, plain)),
            Err(why) => unread.push((*question, why)),
        }
    }
    let mut measured = csv::read_telling(bytes, &options, tell)?;
    let mostly_bad = measured.is_mostly_bad();
    let bad = std::mem::take(&mut measured.bad);
    let said = std::mem::take(&mut measured.said);
    let asks = std::mem::take(&mut measured.asks);
    let doubt = measured.doubt.take();
    let trees = measured.row.trees.len();
    let counts = [
        ("lines", Arg::Count(measured.taken as i64)),
        ("trees", Arg::Count(trees as i64)),
    ];
    let drawing = match trees {
        0 => String::new(),
        _ => small(&measured.row, words),
    };
    // A row of which nothing was understood is begun by hand.
    let plan = match trees {
        0 if !measured.treeless => String::new(),
        _ => write_plan(&measured.plan(name)),
    };
    // One that could be opened once and never again.
    if plan.len() > MAX_BYTES {
        let mb = |bytes: usize| Arg::Number(bytes as f64 / 1048576.0, 1);
        let args = vec![("value", mb(plan.len())), ("high", mb(MAX_BYTES))];
        return Err(Refusal::new("refusal-table-plan", args));
    }
    let left_out = [("count", Arg::Count(bad.len() as i64))];
    let mut taken = words.text("import-taken", &counts);
    if let Some(doubt) = doubt {
        taken += &format!(" {}", words.say(&doubt));
    }
    let mut texts = vec![
        plan,
        taken,
        words.text("import-bad", &left_out),
        if mostly_bad { "yes" } else { "" }.to_string(),
        drawing,
        asks.len().to_string(),
        said.len().to_string(),
    ];
    for ask in asks {
        let question = ask.question;
        let range = ask.range.map_or_else(String::new, |(low, high)| {
            words.text("import-range", &[("low", low), ("high", high)])
        });
        let wrong = ask.wrong.map(|why| words.refusal(&why));
        let unread = unread.iter().find(|(q, _)| *q == question);
        let wrong = wrong.or_else(|| unread.map(|(_, why)| why.clone()));
        let answer = answered.iter().find(|(q, _)| *q == question);
        texts.extend([
            question.key().to_string(),
            words.entries(&ask.now),
            range,
            wrong.unwrap_or_default(),
            answer.map_or("", |(_, typed)| typed).to_string(),
        ]);
    }
    texts.extend(said.iter().map(|s| words.say(s)));
    for line in bad {
        let why = words.say(&line.reason());
        texts.extend([line.line.to_string(), why, line.text]);
    }
    Ok(texts)
}

/// Pixels in a millimetre of the small drawing: a wall of 2.5 m is 90 high.
const SMALL: f64 = 0.036;
/// Pixels above the wall and below the ground, for the heights and the trees' numbers.
const ROOM: (f64, f64) = (18.0, 26.0);

/// The whole of a row, small.
fn small(row: &Row, words: &Words) -> String {
    let g = Geometry::of(row, &Targets::default());
    let posed = PosedRow::new(row.clone(), g);
    let courses = || posed.posed().iter().flat_map(|t| t.courses());
    let posts = || row.trellis.posts.iter().map(|p| p.f());
    let ends = courses().flat_map(|c| [c.base.x, c.tip().x]);
    let feet = row.trees.iter().map(|t| t.foot.f());
    let all = ends
        .chain(feet)
        .chain(posts())
        .chain([row.from.f(), row.to.f()]);
    let (low, high) = all.fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(x), b.max(x)));
    let span = Span::between(low - 500.0, high + 500.0);
    let top = top_of(&posed, g) + ROOM.0 / SMALL;
    let high = top + ROOM.1 / SMALL;
    let long = span.length();
    let (width, height, px) = (long * SMALL, high * SMALL, 1.0 / SMALL);
    let mut out = format!(
        "<svg class=\"wall\" aria-hidden=\"true\" style=\"--px:{px:.3}\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"{:.0} {:.0} {long:.0} {high:.0}\">",
        span.from, -top
    );
    out += &backdrop(row, span);
    for tree in posed.posed() {
        out += &posed_group(tree, Detail::Sketch);
    }
    out += &foreground(row, span, SMALL, words);
    out += &tree_numbers(row, span, SMALL, words);
    out + "</svg>"
}
