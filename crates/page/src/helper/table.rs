//! What a table holds, as it comes from the helper that has read it: texts alone, which cross as they are.

use super::follows::leaf_follows;
use super::small::small;
use cordonry::file::csv::{Question, Unread};
use cordonry::file::{MAX_BYTES, csv, write_plan};
use cordonry::refusal::Refusal;
use cordonry::said::{Arg, Said};
use cordonry::units::{BareUnit, LengthStyle};
use cordonry_words::Words;

/// What a table holds, worded; [`look`] tells how the texts stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Looked(Vec<String>);

/// Texts before those of which there may be any number.
const HEAD: usize = 9;
/// Texts of a question.
const OF_ASK: usize = 7;
/// Texts of what was assumed.
const OF_SAID: usize = 4;

/// What a table leaves open, worded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ask<'t> {
    /// What it is answered by: the name of a question, or of cells.
    pub key: &'t str,
    /// What is asked.
    pub label: &'t str,
    /// What is taken now, as it is typed; the word of a choice.
    pub now: &'t str,
    /// What may be answered, where it is a number.
    pub range: &'t str,
    /// Why what was answered was not taken; empty where it was.
    pub wrong: &'t str,
    /// What was answered; empty where nothing was.
    pub answer: &'t str,
    /// What follows from what is taken now; empty where that is plain.
    pub follows: &'t str,
}

/// Something that was assumed of a table, worded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumed<'t> {
    /// What.
    pub said: &'t str,
    /// The cell that it is about, where that may be read otherwise; else empty.
    pub cell: &'t str,
    /// What the cell would then be read as; empty: as it stands there.
    pub reads: &'t str,
    /// The name of the button that has it read so.
    pub button: &'t str,
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
        match question(self.key) {
            Some(question) => question.choices(),
            None => csv::meanings(self.key),
        }
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

    /// The row's name.
    pub fn title(&self) -> &str {
        &self.0[5]
    }

    /// What it leaves open.
    pub fn asks(&self) -> impl Iterator<Item = Ask<'_>> {
        let asks = self.part(0).chunks_exact(OF_ASK);
        asks.map(|ask| Ask {
            key: &ask[0],
            label: &ask[1],
            now: &ask[2],
            range: &ask[3],
            wrong: &ask[4],
            answer: &ask[5],
            follows: &ask[6],
        })
    }

    /// What was assumed.
    pub fn said(&self) -> impl Iterator<Item = Assumed<'_>> {
        let said = self.part(1).chunks_exact(OF_SAID);
        said.map(|said| Assumed {
            said: &said[0],
            cell: &said[1],
            reads: &said[2],
            button: &said[3],
        })
    }

    /// Cells that look like slips, in turn the cell and what it would be read as.
    pub fn slips(&self) -> &[String] {
        self.part(2)
    }

    /// Of each line that is left out its number, why, and what stands there.
    pub fn bad(&self) -> &[String] {
        self.part(3)
    }

    /// The texts behind those at the head: of questions, assumptions, slips, and lines that are left out.
    fn part(&self, n: usize) -> &[String] {
        let count = |n: usize| self.0[HEAD - 3 + n].parse().unwrap_or(0);
        let lengths = [count(0) * OF_ASK, count(1) * OF_SAID, count(2) * 2];
        let from = HEAD + lengths.iter().take(n).sum::<usize>();
        let to = lengths.get(n).map_or(self.0.len(), |l| from + l);
        self.0.get(from..to).unwrap_or_default()
    }
}

/// What was answered so far: in turn the name of a question, or of a cell, and what was typed.
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
    let meant = answered.clone().filter(|a| question(&a[0]).is_none());
    let meant = meant.map(|a| (a[0].clone(), a[1].clone()));
    options.answers.meant = meant.collect();
    let answered = answered.filter_map(|a| Some((question(&a[0])?, a[1].as_str())));
    let answered: Vec<(Question, &str)> = answered.collect();
    // What can't even be read as it is typed is refused so, and is no answer.
    let mut untyped = Vec::new();
    for (question, typed) in &answered {
        match words.typed(typed).map_err(|why| words.say(&why)) {
            _ if !question.choices().is_empty() => {
                options.answers.given.push((*question, (*typed).into()));
            }
            Ok(plain) => options.answers.given.push((*question, plain)),
            Err(why) => untyped.push((*question, why)),
        }
    }
    let mut measured = csv::read_telling(bytes, &options, tell)?;
    let mostly_bad = measured.is_mostly_bad();
    let remains = measured.remains(words);
    let taken = |s: &&Said| s.key == "file-said-seasons";
    let taken = match measured
        .said
        .iter()
        .find(taken)
        .and_then(|s| s.arg("count"))
    {
        Some(Arg::Count(count)) => *count,
        _ => 0,
    };
    let follows = leaf_follows(&measured.row, taken, words);
    let bad = std::mem::take(&mut measured.bad);
    let said = std::mem::take(&mut measured.said);
    let asks = std::mem::take(&mut measured.asks);
    let slips = std::mem::take(&mut measured.slips);
    let unread = std::mem::take(&mut measured.unread);
    let title = measured.title.clone().unwrap_or_else(|| name.into());
    let doubt = measured.doubt.take();
    let trees = measured.row.trees.len();
    let counts = [
        ("lines", Arg::Count(measured.taken as i64)),
        ("trees", Arg::Count(trees as i64)),
        ("left", Arg::Count(bad.len() as i64)),
    ];
    let drawing = match trees {
        0 => String::new(),
        _ => small(&measured.row, words),
    };
    // A row of which nothing was understood is begun by hand.
    let plan = match trees {
        0 if !measured.treeless => String::new(),
        _ => {
            let mut plan = measured.plan(name);
            plan.note = noted(remains, words, trees);
            write_plan(&plan)
        }
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
        title,
        (unread.len() + asks.len()).to_string(),
        said.len().to_string(),
        slips.len().to_string(),
    ];
    for unread in unread {
        let label = asked(&unread, words);
        let Unread { cell, now, .. } = unread;
        let none = String::new;
        texts.extend([cell, label, now, none(), none(), none(), none()]);
    }
    for ask in asks {
        let question = ask.question;
        let range = ask.range.map_or_else(String::new, |(low, high)| {
            words.text("import-range", &[("low", low), ("high", high)])
        });
        let wrong = ask.wrong.map(|why| words.refusal(&why));
        let untyped = untyped.iter().find(|(q, _)| *q == question);
        let wrong = wrong.or_else(|| untyped.map(|(_, why)| why.clone()));
        let answer = answered.iter().find(|(q, _)| *q == question);
        texts.extend([
            question.key().to_string(),
            words.plain(question.key()),
            words.entries(&ask.now),
            range,
            wrong.unwrap_or_default(),
            answer.map_or("", |(_, typed)| typed).to_string(),
            match question {
                Question::Leaf => follows.clone(),
                _ => String::new(),
            },
        ]);
    }
    for said in &said {
        let line = match said.arg("line") {
            Some(Arg::Count(line)) => *line as usize,
            _ => 0,
        };
        let slip = slips.iter().find(|s| s.line == line);
        let [cell, reads, button] = match (said.key, slip) {
            ("file-said-unlikely", Some(slip)) => {
                let value = [("value", slip.told())];
                [
                    slip.cell.clone(),
                    slip.reads.clone(),
                    words.text("import-take", &value),
                ]
            }
            ("file-said-meant", _) => [
                said.arg("cell").map_or_else(String::new, |c| words.arg(c)),
                String::new(),
                words.plain("import-take-back"),
            ],
            _ => Default::default(),
        };
        texts.extend([words.say(said), cell, reads, button]);
    }
    texts.extend(slips.into_iter().flat_map(|s| [s.cell, s.reads]));
    for line in bad {
        let why = words.say(&line.reason());
        texts.extend([line.line.to_string(), why, line.text]);
    }
    Ok(texts)
}

/// What the plan notes of the table that it comes from.
fn noted(remains: String, words: &Words, trees: usize) -> String {
    let trees = [("trees", Arg::Count(trees as i64))];
    let note = format!("{} {remains}", words.text("import-note", &trees));
    note.trim_end().to_string()
}

/// What is asked of a word that can't be read.
fn asked(unread: &Unread, words: &Words) -> String {
    words.text(
        "import-word",
        &[
            ("word", Arg::Text(unread.word.clone())),
            ("column", Arg::Text(unread.column.into())),
            ("count", Arg::Count(unread.lines as i64)),
        ],
    )
}
