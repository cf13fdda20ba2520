//! Texts put together with their values.

use cordonry::said::{Arg, Quantity, Said};
use cordonry::units::LengthStyle;
use cordonry_words::{Language, Words};
use fluent_bundle::FluentResource;
use std::collections::BTreeSet;

#[test]
fn every_language_file_reads_whole() {
    for language in Language::all() {
        assert!(!language.files.is_empty(), "{}", language.code);
        for file in language.files {
            if let Err((_, errors)) = FluentResource::try_new(file.to_string()) {
                panic!("{}: {errors:?}", language.code);
            }
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
    assert_eq!(
        text,
        "Limit gap_max_mm: −1 is refused; 0 to 1000 is accepted"
    );
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

/// Ten texts of a language that nobody speaks, as its folder would hold them.
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
name-upright = branĉo { $number } el { $of }, { name-tree }
";

#[test]
fn a_language_is_its_files_and_nothing_else() {
    let ten = Language {
        code: "eo".into(),
        files: vec![TEN.into()],
    };
    let words = Words::new(&ten, LengthStyle::Metric).made_strict();
    assert_eq!(words.language(), "eo");
    assert_eq!(words.plain("undo"), "Malfari");
    let tree = ("tree", Arg::Count(3));
    let part = Said::new(
        "name-upright",
        vec![("number", Arg::Count(2)), ("of", Arg::Count(6)), tree],
    );
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
    assert_eq!(missing.len(), whole.len() - 10);
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
            let asked = whole.get(&key);
            assert!(asked.is_some(), "{code}: no other language has {key}");
            assert_eq!(Some(&values), asked, "{code}: {key}");
        }
    }
}

#[test]
fn no_text_stands_twice() {
    for language in Language::all() {
        let mut seen = BTreeSet::new();
        let lines = language.files.iter().flat_map(|f| f.lines());
        for key in lines.filter_map(|l| l.split_once(" =")).map(|(k, _)| k) {
            let named = !key.starts_with([' ', '#', '}']);
            assert!(!named || seen.insert(key), "{}: {key}", language.code);
        }
    }
}
