//! What is handed out on paper is within its margins, whatever the row.

use super::super::tests::check_within;
use super::*;
use cordonry::crew::season;
use cordonry::file::read_plan;
use cordonry::units::LengthStyle;
use cordonry_words::{Language, Words};
use std::fs;
use std::path::Path;

#[test]
fn nothing_that_is_handed_out_is_cut_off() {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut pages_seen = 0;
    for folder in [home.clone(), home.join("lessons")] {
        let entries = fs::read_dir(folder).expect("the examples");
        let paths = entries.map(|e| e.expect("an entry").path());
        for path in paths.filter(|p| p.extension().is_some_and(|e| e == "json")) {
            let plan = read_plan(&fs::read(&path).expect("an example")).expect("a plan");
            let season = season(&plan, 0, plan.found.leaf).expect("its own scheme");
            for (code, style) in [("en", LengthStyle::FeetInches), ("es", LengthStyle::Metric)] {
                let words = Words::new(Language::of(code).expect("a language"), style);
                for handed in Handed::all(&plan, &season, &words) {
                    for paper in Paper::ALL {
                        let pages =
                            [pass_sheets(&handed, paper), marking_sheets(&handed, paper)].concat();
                        check_within(&pages, paper);
                        pages_seen += pages.len();
                    }
                }
            }
        }
    }
    assert!(pages_seen > 400, "{pages_seen}");
}
