//! Whatever the row: numbers are finite, the markup is well formed, texts are escaped, and the same row gives the same drawing.

use cordonry::cover::{Span, cover, upright_places};
use cordonry::plan::{Mark, Plan};
use cordonry::pose::{Geometry, PosedRow};
use cordonry::row::{Moment, Row, Targets, Toward, Trellis};
use cordonry::terms::Terms;
use cordonry::units::{Deg, LengthStyle, Mm};
use cordonry::work::Work;
use cordonry_draw::{
    Detail, DocumentOptions, Options, cordon_band, document_with, frame, tree_group_with,
    tree_numbers, upright_numbers, work_marks,
};
use cordonry_fixture::wild::row;
use cordonry_words::{Language, Words};
use proptest::prelude::*;

fn works(row: &Row) -> Vec<Work> {
    let toward = Toward::Left;
    row.trees
        .iter()
        .flat_map(|t| {
            t.shoots.iter().enumerate().map(|(i, s)| {
                let (tree, shoot) = (t.id, s.id);
                match i % 6 {
                    0 => Work::Lay {
                        tree,
                        shoot,
                        toward,
                        rise_deg: Deg::new(5.0),
                    },
                    1 => Work::Stand {
                        tree,
                        shoot,
                        lean_deg: Deg::new(-10.0),
                    },
                    2 => Work::CutBack {
                        tree,
                        shoot,
                        keep_mm: Mm(300),
                    },
                    3 => Work::Stub {
                        tree,
                        shoot,
                        keep_mm: Mm(150),
                    },
                    4 => Work::Remove { tree, shoot },
                    _ => Work::KeepBud {
                        tree,
                        shoot,
                        at_mm: Mm(777),
                    },
                }
            })
        })
        .collect()
}

/// Reads markup with an own small reader; says what is wrong with it.
fn fault(markup: &str) -> Option<String> {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = markup;
    while let Some(at) = rest.find('<') {
        if rest[..at].contains('>') {
            return Some(format!("a bare > in {}", &rest[..at]));
        }
        let end = rest[at..].find('>').map(|e| at + e)?;
        let tag = &rest[at + 1..end];
        rest = &rest[end + 1..];
        if tag.starts_with('?') {
            continue;
        }
        if let Some(name) = tag.strip_prefix('/') {
            if open.pop() != Some(name) {
                return Some(format!("{name} closes nothing"));
            }
            continue;
        }
        if tag.contains('<') || tag.matches('"').count() % 2 == 1 {
            return Some(format!("a broken tag {tag}"));
        }
        for (i, value) in tag.split('"').enumerate() {
            let words = || value.split(|c: char| !c.is_alphanumeric());
            if i % 2 == 1 && words().any(|w| ["NaN", "inf", "Infinity"].contains(&w)) {
                return Some(format!("not finite: {tag}"));
            }
        }
        if !tag.ends_with('/') {
            open.push(tag.split(' ').next().unwrap_or(""));
        }
    }
    (!open.is_empty()).then(|| format!("left open: {open:?}"))
}

fn all(row: &Row, name: &str) -> Vec<String> {
    let words = Words::new(Language::default(), LengthStyle::FeetInches);
    let targets = Targets::default();
    let g = Geometry::of(row, &targets);
    let view = Span {
        from: -2000.0,
        to: 9000.0,
    };
    let mut plan = Plan::new(name, row.clone());
    plan.note = name.repeat(30);
    plan.marks = vec![Mark::note(Mm(0), Mm(900), name)];
    let work = works(row);
    let mut out = Vec::new();
    for detail in [Detail::Sketch, Detail::Plain, Detail::Full] {
        for (foliage, px) in [(false, None), (true, Some(f64::NAN))] {
            for tree in &row.trees {
                out.push(tree_group_with(tree, g, detail, Options { foliage, px }));
            }
        }
    }
    let posed = PosedRow::of(row, &targets);
    for px_per_mm in [0.0, 0.001, 0.1, 3.0, f64::NAN] {
        out.extend(upright_numbers(&posed, view, px_per_mm));
        out.push(frame(row, view, px_per_mm, &words));
        out.push(tree_numbers(row, view, px_per_mm, &words));
        let (cover, places) = (cover(row, &targets), upright_places(row, g));
        out.extend(cordon_band(
            &cover, &places, view, &targets, &words, px_per_mm,
        ));
    }
    let terms = Terms::of(row, &targets);
    out.push(work_marks(
        row,
        &work,
        Moment::dormant(row.leaf),
        &terms,
        None,
    ));
    let sheet = DocumentOptions {
        words: &words,
        foliage: true,
        work: &work,
        field: None,
        time: None,
    };
    out.push(document_with(&plan, &posed, &sheet));
    out
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn every_drawing_is_sound(row in row(), name in "[ -~\\PC\\x00-\\x1f]{0,40}") {
        let first = all(&row, &name);
        for markup in &first {
            prop_assert_eq!(fault(markup), None);
            prop_assert!(!markup.chars().any(|c| c.is_control() && c != '\n'));
        }
        prop_assert_eq!(first, all(&row, &name));
    }
}

#[test]
fn texts_of_the_user_stay_texts() {
    let row = Row {
        leaf: 1,
        from: Mm(0),
        to: Mm(1000),
        trellis: Trellis::default(),
        trees: vec![],
    };
    let name = "</title><script>alert(\"1\")</script> & ]]> \u{0}<!-- gnp.\u{202e}exe \u{2066}";
    for markup in all(&row, name) {
        assert!(!markup.contains(['\u{202e}', '\u{2066}']));
        assert!(!markup.contains("<script") && !markup.contains("<!--") && !markup.contains("]]>"));
    }
}
