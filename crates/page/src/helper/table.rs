//! What a table holds, as it comes from the helper that has read it: texts alone, which cross as they are.

use cordonry::file::{MAX_BYTES, csv, write_plan};
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry_words::Words;

/// What a table holds, worded; [`look`] tells how the texts stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Looked(Vec<String>);

/// Texts before those of which there may be any number.
const HEAD: usize = 5;

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

    /// Whether it is to be asked if last year's growth had been tipped.
    pub fn asks_tipped(&self) -> bool {
        !self.0[4].is_empty()
    }

    /// What was assumed, and then of each line that is left out its number, why, and what stands there.
    pub fn said_and_bad(&self) -> (&[String], &[String]) {
        let said = self.0[3].parse().unwrap_or(0);
        self.0[HEAD..].split_at_checked(said).unwrap_or_default()
    }
}

/// Reads a table as a row of that name: the texts of [`Looked`], or one alone, why it is refused.
pub fn look(bytes: &[u8], name: &str, words: &Words, tell: csv::Tell<'_>) -> Vec<String> {
    looked(bytes, name, words, tell).unwrap_or_else(|why| vec![words.refusal(&why)])
}

fn looked(
    bytes: &[u8],
    name: &str,
    words: &Words,
    tell: csv::Tell<'_>,
) -> Result<Vec<String>, Refusal> {
    let mut measured = csv::read_telling(bytes, &csv::Options::default(), tell)?;
    let bad = std::mem::take(&mut measured.bad);
    let said = std::mem::take(&mut measured.said);
    let doubt = measured.doubt.take();
    let trees = measured.row.trees.len();
    let asks_tipped = measured.asks_tipped;
    let counts = [
        ("lines", Arg::Count(measured.taken as i64)),
        ("trees", Arg::Count(trees as i64)),
    ];
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
        said.len().to_string(),
        if asks_tipped { "yes" } else { "" }.to_string(),
    ];
    texts.extend(said.iter().map(|s| words.say(s)));
    for line in bad {
        let why = words.refusal(&line.why);
        texts.extend([line.line.to_string(), why, line.text]);
    }
    Ok(texts)
}
