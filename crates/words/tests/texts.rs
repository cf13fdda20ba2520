//! Texts put together with their values.

#[path = "../build/compile.rs"]
mod compile;

use cordonry::said::{Arg, Quantity, Said};
use cordonry::units::LengthStyle;
use cordonry_words::{Language, Words};
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// A language's files as they stand in its folder, by name.
fn files(code: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("lang")
        .join(code);
    let mut all: Vec<PathBuf> = fs::read_dir(folder)
        .expect("a folder")
        .map(|e| e.expect("an entry").path())
        .collect();
    all.sort();
    assert!(!all.is_empty(), "{code}");
    let read = |path: &PathBuf| fs::read_to_string(path).expect("a file");
    all.iter().map(read).collect()
}

/// A language of these files.
fn language(code: &'static str, files: &[String]) -> (Language, Vec<String>) {
    let (texts, broken) = compile::texts(files.iter().map(String::as_str));
    let (letters, period) = compile::plurals(code);
    let language = Language {
        code,
        texts: texts.leak(),
        plurals: (letters.leak(), period),
    };
    (language, broken)
}

#[test]
fn every_language_file_reads_whole() {
    for built in Language::all() {
        let (read, broken) = language(built.code, &files(built.code));
        assert_eq!(broken, Vec::<String>::new(), "{}", built.code);
        assert_eq!(read, *built);
    }
}

#[test]
fn what_is_not_read_is_named() {
    for (file, why) in [
        ("a = { NUMBER($n) }", "a: functions"),
        ("a = { b }", "a: there is no b"),
        ("a = { b }\nb = { a }", "stands within itself"),
        ("a = { -b(n: 1) }\n-b = b", "a: functions"),
        ("a = a\n    .b = b", "a: attributes"),
        ("a = { NUMBER($n) ->\n   *[b] c\n}", "a: only a value"),
        ("a = { $n ->\n    [1.5] b\n   *[c] d\n}", "a: [1.5]"),
        ("a = { -b }\n-b = { $n }", "a: a term is given no n"),
        ("a = b\nc = {", "line 2: "),
    ] {
        let (_, broken) = compile::texts([file].into_iter());
        assert!(broken.iter().any(|b| b.contains(why)), "{file}: {broken:?}");
    }
    let (texts, broken) = compile::texts(["-b = c\na = { -b } { $d }"].into_iter());
    assert_eq!(
        (texts.as_str(), broken.len()),
        ("a\u{1}c \u{3}d\u{3}\u{2}", 0)
    );
}

/// What a file's text with these values is by the reference implementation of Fluent.
fn by_reference(bundle: &FluentBundle<FluentResource>, key: &str, args: &[(&str, Arg)]) -> String {
    let mut values = FluentArgs::new();
    for (name, arg) in args {
        let value = match arg {
            Arg::Count(n) => FluentValue::from(*n),
            Arg::Text(text) => FluentValue::from(text.clone()),
            other => panic!("{other:?} is no sample"),
        };
        values.set(*name, value);
    }
    let pattern = bundle.get_message(key).and_then(|m| m.value());
    let pattern = pattern.unwrap_or_else(|| panic!("no text {key}"));
    let text = bundle.format_pattern(pattern, Some(&values), &mut Vec::new());
    text.into_owned()
}

fn agrees(language: Language, files: &[String]) -> usize {
    let mut bundle = FluentBundle::new(vec![language.code.parse().expect("a tag")]);
    bundle.set_use_isolating(false);
    for file in files {
        let resource = FluentResource::try_new(file.clone()).expect("a whole file");
        bundle.add_resource_overriding(resource);
    }
    let words = Words::new(language, LengthStyle::Metric);
    // Every word by which a text chooses, and what none chooses by.
    let keys = files.iter().flat_map(|f| f.lines()).filter_map(|l| {
        let (_, key) = l
            .split_once('[')
            .filter(|(b, _)| b.trim_matches([' ', '*']).is_empty())?;
        Some(key.split_once(']')?.0)
    });
    let chosen: BTreeSet<&str> = keys.chain(["", "Ab1"]).collect();
    let mut samples: Vec<Arg> = chosen.iter().map(|k| Arg::Text(k.to_string())).collect();
    samples.extend([0, 1, 2, 3, 5, 11, 21, 22, 100, 101, 111, 1000, -1].map(Arg::Count));
    let mut tried = 0;
    for (key, names) in language.texts() {
        // One value takes all samples while the others have each of two.
        for turning in 0..names.len().max(1) {
            for (i, sample) in samples.iter().enumerate() {
                let other = &samples[(i + 7) % samples.len()];
                let args: Vec<(&str, Arg)> = names
                    .iter()
                    .enumerate()
                    .map(|(j, n)| (*n, if j == turning { sample } else { other }.clone()))
                    .collect();
                let expected = by_reference(&bundle, key, &args);
                assert_eq!(words.text(key, &args), expected, "{key} with {args:?}");
                // One that it was not given is shown by its name.
                let fewer = &args[..args.len().min(turning)];
                let expected = by_reference(&bundle, key, fewer);
                assert_eq!(words.text(key, fewer), expected, "{key} with {fewer:?}");
                tried += 2;
            }
        }
    }
    tried
}

#[test]
fn texts_are_put_together_as_fluent_says() {
    for built in Language::all() {
        let tried = agrees(*built, &files(built.code));
        assert!(tried > 10_000, "{tried}");
    }
    // Plurals of every kind, choices within choices, a text within a text, what stands in quotation marks.
    let text = "
all = a { $n ->
    [0] none
    [one] one { $m ->
        [two] two
        [many] many { $o }
       *[other] other { within }
    } after
    [two] two
    [few] { few } few
    [many] many
   *[other] { $n } other
}
few = { \"{\" }{ $o } é { \"\\u00e9\" }
    on a second line
within = { $o ->
   *[left] { $n }
    [right] { \"\" }
} { -term }
-term = a { few-words }
few-words = few
";
    for code in [
        "en", "pl", "ru", "ar", "cy", "lv", "ja", "fr", "pt-PT", "sl", "lt", "mt", "gd",
    ] {
        let files = [text.to_string()];
        let (made, broken) = language(code, &files);
        assert_eq!(broken, Vec::<String>::new());
        agrees(made, &files);
    }
}

#[test]
fn plurals_are_those_of_the_published_rules() {
    use intl_pluralrules::{PluralRuleType::CARDINAL, PluralRules};
    let text = "a = { $n ->\n [zero] ZERO\n [one] ONE\n [two] TWO\n [few] FEW\n [many] MANY\n *[other] OTHER\n}";
    for tag in PluralRules::get_locales(CARDINAL) {
        let code: &'static str = tag.to_string().leak();
        let (made, _) = language(code, &[text.to_string()]);
        let (words, rules) = (
            Words::new(made, LengthStyle::Metric),
            PluralRules::create(tag, CARDINAL),
        );
        let rules = rules.expect("rules");
        for n in (0..9_999_i64)
            .step_by(if code == "en" { 1 } else { 7 })
            .chain(0..300)
        {
            let expected = format!("{:?}", rules.select(n as usize).expect("a plural"));
            assert_eq!(
                words.text("a", &[("n", Arg::Count(n))]),
                expected,
                "{code} {n}"
            );
        }
    }
}

#[test]
fn values_carry_their_units() {
    let text = Words::strict().text(
        "refusal-limit",
        &[
            ("limit", Arg::Text("gap_max_mm".into())),
            ("value", Arg::Number(-1.0, 0)),
            ("low", Arg::Number(0.0, 0)),
            ("high", Arg::Number(1000.0, 0)),
        ],
    );
    assert_eq!(text, "Limit gap_max_mm must be between 0 and 1000, not −1");
}

#[test]
#[should_panic(expected = "there is no text no-such-key")]
fn a_key_without_text_panics_in_tests() {
    Words::strict().plain("no-such-key");
}

#[test]
#[should_panic(expected = "name-tree")]
fn a_value_that_misses_panics_in_tests() {
    Words::strict().plain("name-tree");
}

#[test]
fn people_are_shown_the_key_where_a_text_misses() {
    assert_eq!(Words::default().plain("no-such-key"), "no-such-key");
}

/// Eleven texts of a language that nobody speaks, as its folder would hold them.
const TEN: &str = "
language-name = Tenk
decimal-mark = ,
decimal-marks-typed = ,
thousands-mark = .
feet-typed = pedo pedos
name-tree = arbo { $tree }
work-stand = starigita, { $lean }
draw-cordon = Kordono
undo = Malfari
name-upright = branĉo { $number } el { $of }
name-of-tree = { $part }, { name-tree }
";

#[test]
fn a_language_is_its_files_and_nothing_else() {
    let (ten, broken) = language("eo", &[TEN.to_string()]);
    assert_eq!(broken, Vec::<String>::new());
    let words = Words::new(ten, LengthStyle::Metric).made_strict();
    assert_eq!(words.language().code, "eo");
    assert_eq!(words.plain("undo"), "Malfari");
    let tree = ("tree", Arg::Count(3));
    let part = Said::new(
        "name-upright",
        vec![("number", Arg::Count(2)), ("of", Arg::Count(6))],
    );
    let part = Said::new("name-of-tree", vec![("part", part.into()), tree]);
    assert_eq!(words.say(&part), "branĉo 2 el 6, arbo 3");
    // Numbers go by the language's marks.
    assert_eq!(words.length(1234.0), "1,23 m");
    assert_eq!(words.number(12345.6, 1), "12.345,6");
    assert_eq!(words.number(1234.0, 0), "1234");
    let lean = vec![("lean", Arg::Angle(-2.0))];
    assert_eq!(words.text("work-stand", &lean), "starigita, −2°");
    assert_eq!(words.read(Quantity::Length, "1,5"), Ok(1500.0));
    assert_eq!(words.read(Quantity::Length, "2 pedos"), Ok(609.6));
    let why = words.read(Quantity::Length, "1.5").expect_err("no mark");
    assert_eq!(why.key, "field-decimal-mark");
    assert_eq!(words.to_type("2.5"), "2,5");
    // What it lacks is in English, and named.
    assert_eq!(words.plain("redo"), "Redo");
    let (whole, missing) = (Language::default().texts(), ten.missing());
    assert_eq!(missing.len(), whole.len() - 11);
    assert!(missing.contains("redo") && missing.contains("name-stem"));
    assert!(!missing.contains("undo"));
}

#[test]
fn every_language_has_every_text_with_the_same_values() {
    let whole = Language::default().texts();
    for language in Language::all() {
        let texts = language.texts();
        assert_eq!(language.missing(), BTreeSet::new(), "{}", language.code);
        for (key, values) in texts {
            let code = &language.code;
            let asked = whole.get(key);
            assert!(asked.is_some(), "{code}: no other language has {key}");
            assert_eq!(Some(&values), asked, "{code}: {key}");
        }
    }
}

#[test]
fn no_text_stands_twice() {
    for language in Language::all() {
        let mut seen = BTreeSet::new();
        let files = files(language.code);
        let lines = files.iter().flat_map(|f| f.lines());
        for key in lines.filter_map(|l| l.split_once(" =")).map(|(k, _)| k) {
            let named = !key.starts_with([' ', '#', '}']);
            assert!(!named || seen.insert(key), "{}: {key}", language.code);
        }
    }
}
