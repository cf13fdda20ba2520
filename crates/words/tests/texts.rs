//! Texts put together with their values.

use cordonry::said::Arg;
use cordonry_words::{Language, Words};
use fluent_bundle::FluentResource;

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
