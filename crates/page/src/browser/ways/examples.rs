//! The rows and lessons that come with the page: their texts are a part of the module, so that nobody waits for them who opens
//! none.

use crate::browser::parts::part;

/// An example: its file's name, and the key of its line.
pub type Example = (&'static str, &'static str);

macro_rules! examples {
    ($($list:ident: $($file:literal $key:literal,)*;)*) => {
        $(
            /// What is listed together.
            pub const $list: &[Example] = &[$((concat!("examples/", $file), $key),)*];
        )*

        part! {examples:
            /// The text of an example.
            pub fn text_of(path: &'static str) -> &'static str {
                match path {
                    $($(_ if path == concat!("examples/", $file) => include_str!(concat!("../../../../../examples/", $file)),)*)*
                    _ => "",
                }
            }
        }
    };
}

/// What the examples say in other languages, by code: a line a text, as it stands in their files and as it is told.
const TOLD: &[(&str, &str)] = &[("es", include_str!("../../../../../examples/told/es.tsv"))];

part! {languages:
    /// The text of an example with what it says told in the language of that code.
    pub fn retold(text: &'static str, code: &'static str) -> String {
        let told = TOLD.iter().find(|(c, _)| *c == code).map_or("", |(_, t)| t);
        let texts = told.lines().filter_map(|line| line.split_once('\t'));
        // Each stands there as a whole string.
        texts.fold(text.to_string(), |all, (english, told)| {
            all.replace(&format!("\"{english}\""), &format!("\"{told}\""))
        })
    }
}

examples! {
    EXAMPLES:
    "third-leaf.json" "example-third-leaf",
    "short-stock.json" "example-short-stock",
    "two-cordons.json" "example-two-cordons",
    "missed-bud-removal.json" "example-missed-buds",
    "overdue-renewal.json" "example-overdue-renewal",
    "uneven-uprights.json" "example-uneven-uprights",
    "opposed-leans.json" "example-opposed-leans",
    "lost-tree.json" "example-lost-tree",
    "clean-third-leaf.json" "example-clean",
    "measured-40.csv" "example-measured",
    ;
    LESSONS:
    "lessons/buds-removed-or-missed.json" "lesson-buds-removed-or-missed",
    "lessons/buds-set-right-or-never.json" "lesson-buds-set-right-or-never",
    "lessons/structure-or-crop-first.json" "lesson-structure-or-crop-first",
    "lessons/unheaded-or-headed.json" "lesson-unheaded-or-headed",
    "lessons/headed-laid-at-once-or-later.json" "lesson-headed-laid-at-once-or-later",
    "lessons/rising-or-flat.json" "lesson-rising-or-flat",
    "lessons/one-way-or-opposed.json" "lesson-one-way-or-opposed",
    "lessons/tipped-until-height-or-always.json" "lesson-tipped-until-height-or-always",
    "lessons/renewal-a-fifth-or-never.json" "lesson-renewal-a-fifth-or-never",
    "lessons/renewal-a-fifth-or-an-eighth.json" "lesson-renewal-a-fifth-or-an-eighth",
    "lessons/renewal-a-fifth-or-a-quarter.json" "lesson-renewal-a-fifth-or-a-quarter",
    "lessons/renewal-early-or-late.json" "lesson-renewal-early-or-late",
    ;
}
