//! Many plans in one file: JSON in which each plan's own text stands unchanged, on lines of its own.
//!
//! A plan's text begins with a line that is a brace and nothing else, as no other line of it is. So the file is taken apart
//! by its lines, without reading it as a whole: where one plan is damaged the others still come in, and what can't be read
//! is there byte for byte to be handed back. A file that another program has laid out anew is read as JSON.

use super::text::Text;
use super::{MAX_BYTES, foreign, misread, too_large};
use crate::refusal::Refusal;
use crate::said::{Arg, beginning};
use serde::Deserialize;
use serde_json::Value;
use std::borrow::Cow;

/// Most plans in one file. No source.
pub const MAX_PLANS: usize = 1_000;

const FORMAT: &str = "cordonry-archive";
const VERSION: u32 = 1;
const END: &str = "]}\n";

/// Plans as files of many, each with as many as one may hold and read again: one file, but of very many or large plans.
/// Texts are those of [`write_plan`](super::write_plan), or what was there in place of one.
pub fn write_archive<T: AsRef<[u8]>>(plans: &[T]) -> Vec<Vec<u8>> {
    let head = format!("{{\"format\": \"{FORMAT}\", \"version\": {VERSION}, \"rows\": [\n");
    let mut files: Vec<Vec<u8>> = Vec::new();
    let mut count = 0;
    for plan in plans.iter().map(AsRef::as_ref) {
        let fits = |file: &Vec<u8>| file.len() + plan.len() + 2 + END.len() <= MAX_BYTES;
        match files.last_mut().filter(|f| count < MAX_PLANS && fits(f)) {
            Some(file) => {
                file.extend_from_slice(b",\n");
                file.extend_from_slice(plan);
                count += 1;
            }
            None => {
                files.push([head.as_bytes(), plan].concat());
                count = 1;
            }
        }
    }
    for file in &mut files {
        file.extend_from_slice(END.as_bytes());
    }
    files
}

/// The file's text without white space, as far as it says what it is.
fn head_of(bytes: &[u8]) -> Vec<u8> {
    // Of two bytes a letter one is nothing here, and so are marks of order.
    let tells = |b: &&u8| b.is_ascii_graphic();
    bytes.iter().take(200).filter(tells).copied().collect()
}

/// Whether a file begins as one of many plans does.
pub fn is_archive(bytes: &[u8]) -> bool {
    begins_as(bytes, FORMAT)
}

fn begins_as(bytes: &[u8], format: &str) -> bool {
    head_of(bytes).starts_with(format!("{{\"format\":\"{format}\"").as_bytes())
}

/// The plans of a file of many, in their order, each as its bytes stand there: whether one can be read is for
/// [`read_plan`](super::read_plan) to say.
///
/// # Errors
/// Too large, too many, none, a single plan, of a newer version; damaged, where its plans don't stand on lines of their own.
pub fn read_archive(bytes: &[u8]) -> Result<Vec<Vec<u8>>, Refusal> {
    if bytes.len() > MAX_BYTES {
        return Err(too_large(bytes.len() as u64));
    }
    // What is too many is refused before any of it is read.
    let begun = lines_of(bytes).filter(|line| begins_plan(line)).count();
    if begun > MAX_PLANS {
        return Err(refused("refusal-archive-plans", begun, MAX_PLANS));
    }
    // What is no text somewhere may yet hold plans that are.
    let text = Text::read(bytes, foreign::PLAN);
    let bytes = match &text {
        Ok(read) => read.text.as_bytes(),
        Err(_) => bytes,
    };
    if begins_as(bytes, super::FORMAT) {
        return Err(Refusal::new("refusal-archive-one", vec![]));
    }
    if let Some(version) = version_of(bytes).filter(|v| *v != VERSION) {
        return Err(refused(
            "refusal-archive-version",
            version as usize,
            VERSION as usize,
        ));
    }
    let mut plans = by_lines(bytes);
    if plans.is_empty() {
        plans = laid_out_anew(&text?.text)?;
    }
    match plans.len() {
        0 => Err(Refusal::new("refusal-archive-empty", vec![])),
        1..=MAX_PLANS => Ok(plans),
        more => Err(refused("refusal-archive-plans", more, MAX_PLANS)),
    }
}

fn refused(key: &'static str, value: usize, high: usize) -> Refusal {
    let count = |n: usize| Arg::Count(n as i64);
    Refusal::new(key, vec![("value", count(value)), ("high", count(high))])
}

/// The version that the file's beginning tells.
fn version_of(bytes: &[u8]) -> Option<u32> {
    let head = String::from_utf8(head_of(bytes)).ok()?;
    let told = head.split_once("\"version\":")?.1;
    let digits = told.split(|c: char| !c.is_ascii_digit()).next()?;
    digits.parse().ok()
}

/// The lines of a file behind the first, which is its own, whatever stands on it.
fn lines_of(bytes: &[u8]) -> impl Iterator<Item = &[u8]> {
    bytes.split_inclusive(|b| *b == b'\n').skip(1)
}

/// Whether a line is the first of a plan's own: a brace alone.
fn begins_plan(line: &[u8]) -> bool {
    matches!(line, b"{\n" | b"{\r\n" | b"{")
}

/// The plans that stand on lines of their own.
fn by_lines(bytes: &[u8]) -> Vec<Vec<u8>> {
    let mut plans: Vec<Vec<u8>> = Vec::new();
    for line in lines_of(bytes) {
        match plans.last_mut() {
            _ if begins_plan(line) => plans.push(line.to_vec()),
            Some(plan) => plan.extend_from_slice(line),
            None => {}
        }
    }
    for plan in &mut plans {
        plan.truncate(own_length(plan));
    }
    plans
}

/// How long a plan's text is without the lines behind it that part it from the next, or end the file.
fn own_length(plan: &[u8]) -> usize {
    let mut end = plan.len();
    for line in plan.rsplit(|b| *b == b'\n') {
        let said = line.trim_ascii();
        if !(said.is_empty() || said == b"," || said == END.trim_ascii().as_bytes()) {
            break;
        }
        // With the line end before it, which is the plan's own last one.
        end = end.saturating_sub(line.len() + 1);
    }
    let own_end = usize::from(plan.get(end) == Some(&b'\n'));
    end + own_end
}

#[derive(Deserialize)]
struct File {
    rows: Vec<Value>,
}

fn laid_out_anew(text: &str) -> Result<Vec<Vec<u8>>, Refusal> {
    let file: File = serde_json::from_str(text).map_err(|e| misread::refusal(&e, text))?;
    let plans = file.rows.iter().map(|row| row.to_string().into_bytes());
    Ok(plans.collect())
}

/// The name that a plan's text seems to have, for one that can't be read; empty where it tells none.
pub fn name_in(plan: &[u8]) -> String {
    const KEY: &str = "\"name\":";
    // One that is JSON has its values in any order.
    let whole = serde_json::from_slice::<Value>(plan).ok();
    if let Some(name) = whole.as_ref().and_then(|w| w["name"].as_str()) {
        return beginning(name, 120);
    }
    let text = String::from_utf8_lossy(&plan[..plan.len().min(4_000)]);
    let told = text.split_once(KEY).map_or("", |(_, rest)| rest);
    // What comes behind the name is not asked of it.
    let mut read = serde_json::Deserializer::from_str(told).into_iter::<Cow<'_, str>>();
    read.next()
        .and_then(Result::ok)
        .map_or_else(String::new, |name| beginning(&name, 120))
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLANS: [&str; 3] = [
        "{\n  \"name\": \"North\"\n}\n",
        "{\n  \"name\": \"{\\n}\",\n  \"a\": [\n    {}\n  ]\n}\n",
        "{\n}\n",
    ];

    fn written(plans: &[&str]) -> Vec<String> {
        let files = write_archive(plans).into_iter();
        files.map(|f| String::from_utf8(f).unwrap()).collect()
    }

    fn read(text: &str) -> Vec<String> {
        let plans = read_archive(text.as_bytes()).unwrap();
        let text = |plan: Vec<u8>| String::from_utf8(plan).unwrap();
        plans.into_iter().map(text).collect()
    }

    #[test]
    fn what_is_written_is_read_byte_for_byte_and_is_json() {
        for count in 1..=PLANS.len() {
            let files = written(&PLANS[..count]);
            assert_eq!(files.len(), 1);
            assert!(is_archive(files[0].as_bytes()));
            assert_eq!(read(&files[0]), PLANS[..count]);
            let json: Value = serde_json::from_str(&files[0]).unwrap();
            assert_eq!(json["rows"].as_array().unwrap().len(), count);
        }
        assert!(written(&[]).is_empty());
    }

    #[test]
    fn another_layout_other_line_ends_and_other_letters_are_the_same_plans() {
        let file = &written(&PLANS)[0];
        let values = |plans: &[String]| -> Vec<Value> {
            let value = |p: &String| serde_json::from_str(p).unwrap();
            plans.iter().map(value).collect()
        };
        let same = values(&PLANS.map(str::to_string));
        let value: Value = serde_json::from_str(file).unwrap();
        let tight = value.to_string();
        let wide = serde_json::to_string_pretty(&value).unwrap();
        for other in [
            tight,
            wide,
            file.replace('\n', "\r\n"),
            format!("\u{feff}{file}"),
        ] {
            assert!(is_archive(other.as_bytes()), "{other}");
            assert_eq!(values(&read(&other)), same, "{other}");
        }
        let units = file.encode_utf16().flat_map(u16::to_le_bytes);
        let wide: Vec<u8> = [0xff, 0xfe].into_iter().chain(units).collect();
        assert!(is_archive(&wide));
        assert_eq!(read_archive(&wide).unwrap().len(), PLANS.len());
    }

    #[test]
    fn a_damaged_plan_leaves_the_others_as_they_are() {
        let file = written(&PLANS)[0].clone().into_bytes();
        let place = |of: &str| {
            file.windows(of.len())
                .position(|w| w == of.as_bytes())
                .unwrap()
        };
        for (at, byte) in [
            (place("North"), b'"'),
            (place("North"), 0xe9),
            (place("\"\n}"), b'{'),
        ] {
            let mut broken = file.clone();
            broken[at] = byte;
            let plans = read_archive(&broken).unwrap();
            assert_eq!(plans.len(), PLANS.len());
            assert_eq!(plans[1..], [PLANS[1].as_bytes(), PLANS[2].as_bytes()]);
            assert!(serde_json::from_slice::<Value>(&plans[0]).is_err());
        }
        // One that is cut loses what is cut off.
        let plans = read_archive(&file[..file.len() - END.len() - 2]).unwrap();
        assert_eq!(plans[..2], [PLANS[0].as_bytes(), PLANS[1].as_bytes()]);
    }

    #[test]
    fn too_many_too_new_and_none_are_refused_by_name() {
        let many = |n: usize| vec!["{\n}\n"; n];
        let files = written(&many(MAX_PLANS + 1));
        assert_eq!(
            files.len(),
            2,
            "what is too much for one goes into a second"
        );
        assert_eq!(read(&files[0]).len(), MAX_PLANS);
        assert_eq!(read(&files[1]).len(), 1);
        let full = &files[0];
        let over = full.replace(END, ",\n{\n}\n]}\n");
        let newer = full.replace("\"version\": 1", "\"version\": 2");
        let none = full.split_once('\n').unwrap().0.to_string() + END;
        for (text, key) in [
            (over, "refusal-archive-plans"),
            (newer, "refusal-archive-version"),
            (
                "{\"format\": \"cordonry-plan\", \"version\": 5}".into(),
                "refusal-archive-one",
            ),
            (none.clone(), "refusal-archive-empty"),
            (none.replace(END, ""), "refusal-file-cut"),
        ] {
            assert_eq!(read_archive(text.as_bytes()).unwrap_err().key, key);
        }
    }

    #[test]
    fn a_large_plan_has_a_file_of_its_own() {
        let large = format!("{{\n  \"name\": \"{}\"\n}}\n", "x".repeat(MAX_BYTES / 2));
        let files = written(&[&large, &large, PLANS[0]]);
        assert_eq!(files.len(), 2);
        assert!(files.iter().all(|f| f.len() <= MAX_BYTES));
    }

    #[test]
    fn a_plan_that_cannot_be_read_still_has_a_name() {
        for (text, name) in [
            ("{\"format\": 3, \"name\": \"N\\u006frth\", \"x", "North"),
            ("{\"name\": \"Nor", ""),
            ("{\"name\": 4}", ""),
            (
                "{\"found\": [{\"name\": \"x\"}], \"name\": \"North\"}",
                "North",
            ),
            ("", ""),
        ] {
            assert_eq!(name_in(text.as_bytes()), name, "{text}");
        }
    }
}
