//! The cover of a row against shapely, another program's geometry: see tests/reference/README.md.

use cordonry::cover::{Laid, Span, Stretch, cover_of};
use cordonry::row::{ShootId, TreeId};
use serde::Deserialize;

#[derive(Deserialize)]
struct File {
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    row: [f64; 2],
    spans: Vec<[f64; 2]>,
    owed: f64,
    filled: f64,
    gaps: Vec<[f64; 2]>,
    overlaps: Vec<[f64; 2]>,
}

/// Stretches shorter than this are none to us.
const LEAST: f64 = 0.5;
const TOLERANCE: f64 = 1e-6;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= TOLERANCE
}

fn check(what: &str, got: &[Stretch], expected: &[[f64; 2]]) {
    let expected: Vec<&[f64; 2]> = expected.iter().filter(|s| s[1] - s[0] >= LEAST).collect();
    let same = got.len() == expected.len()
        && got
            .iter()
            .zip(&expected)
            .all(|(s, e)| near(s.span.from, e[0]) && near(s.span.to, e[1]));
    assert!(same, "{what}: {got:?}, shapely {expected:?}");
}

#[test]
fn cover_is_what_shapely_says() {
    let text = include_str!("../reference/cover/cover_shapely.json");
    let file: File = serde_json::from_str(text).expect("the data reads");
    assert!(file.cases.len() >= 300);
    for (i, case) in file.cases.iter().enumerate() {
        let laid: Vec<Laid> = case
            .spans
            .iter()
            .zip(1..)
            .map(|([from, to], n)| Laid {
                tree: TreeId(n),
                shoot: ShootId::STEM,
                span: Span {
                    from: *from,
                    to: *to,
                },
            })
            .collect();
        let [from, to] = case.row;
        let cover = cover_of(laid, Span { from, to });
        assert!(near(cover.owed, case.owed), "case {i}: owed {}", cover.owed);
        let filled = cover.filled;
        assert!(
            near(filled, case.filled),
            "case {i}: filled {filled}, shapely {}",
            case.filled
        );
        check(&format!("case {i}, gaps"), &cover.gaps, &case.gaps);
        check(
            &format!("case {i}, overlaps"),
            &cover.overlaps,
            &case.overlaps,
        );
    }
}
