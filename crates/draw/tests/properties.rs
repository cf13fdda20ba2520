//! Whatever the row: numbers are finite, the markup is well formed, texts are escaped, and the same row gives the same drawing.

use cordonry::cover::{Span, cover, upright_places};
use cordonry::plan::{Mark, Plan};
use cordonry::pose::Geometry;
use cordonry::row::{
    Face, GrowthUnit, Laterals, Moment, Planted, Pose, Row, Shoot, ShootId, Targets, Toward, Tree,
    TreeId, Trellis,
};
use cordonry::terms::Terms;
use cordonry::units::{Deg, LengthStyle, Mm};
use cordonry::work::Work;
use cordonry_draw::{
    Detail, DocumentOptions, Options, cordon_band, document_with, frame, tree_group_with,
    tree_numbers, work_marks,
};
use cordonry_words::{Language, Words};
use proptest::prelude::*;
use std::sync::Arc;

fn toward() -> impl Strategy<Value = Toward> {
    prop_oneof![Just(Toward::Left), Just(Toward::Right)]
}

fn pose() -> impl Strategy<Value = Pose> {
    prop_oneof![
        (toward(), -100..300i32).prop_map(|(toward, rise)| Pose::Laid {
            toward,
            rise: Deg::new(f64::from(rise) / 10.0)
        }),
        (-900..900i32).prop_map(|lean| Pose::Upright {
            lean: Deg::new(f64::from(lean) / 10.0)
        }),
        Just(Pose::Stub),
        Just(Pose::Free),
    ]
}

/// A shoot by its parent's place and its base's share along it, yet to be put on a tree.
type Loose = (f64, f64, Pose, Vec<(f64, f64)>, f64, u16);

fn loose() -> impl Strategy<Value = Loose> {
    (
        0.0..1.0f64,
        0.0..1.0f64,
        pose(),
        prop::collection::vec((0.1..4000.0f64, 0.001..1.0f64), 0..4),
        0.0..500.0f64,
        0..200u16,
    )
}

fn tree() -> impl Strategy<Value = (i32, u8, Toward, Vec<Loose>)> {
    (
        -5_000_000..5_000_000i32,
        10..=90u8,
        toward(),
        prop::collection::vec(loose(), 0..12),
    )
}

fn plant(id: u32, (foot, angle, toward, loose): (i32, u8, Toward, Vec<Loose>)) -> Arc<Tree> {
    let mut shoots: Vec<Shoot> = Vec::new();
    for (i, (parent, at, pose, units, diameter, twigs)) in loose.into_iter().enumerate() {
        let parent = (i > 0).then(|| ((parent * i as f64) as usize).min(i - 1));
        shoots.push(Shoot {
            id: ShootId::found(i as u32),
            parent: parent.map(|p| ShootId::found(p as u32)),
            at: parent.map_or(0.0, |p| at * shoots[p].length()),
            face: [Face::Top, Face::Side, Face::Under][i % 3],
            pose,
            units: units
                .into_iter()
                .enumerate()
                .map(|(n, (grown, share))| GrowthUnit::new(n as u8 + 1, grown, grown * share))
                .collect(),
            diameter,
            laterals: Laterals {
                count: twigs,
                total: f64::from(twigs) * 90.0,
            },
            rubbed: false,
            origin: None,
            bend_radius: None,
        });
    }
    Arc::new(Tree {
        id: TreeId(id),
        foot: Mm(foot),
        planted: Planted {
            angle: Deg::new(angle.into()),
            toward,
        },
        shoots,
        note: String::new(),
    })
}

fn row() -> impl Strategy<Value = Row> {
    let posts = prop::collection::vec(-5_000_000..5_000_000i32, 0..3);
    (
        prop::collection::vec(tree(), 0..5),
        -20_000..20_000i32,
        0..60_000i32,
        posts,
        0.0..1.0f64,
    )
        .prop_map(|(trees, from, length, posts, near)| {
            // Trees from anywhere, drawn together so that sheets stay short.
            let near = |x: i32| (f64::from(x) / 5_000_000.0 * (5_000.0 + 40_000.0 * near)) as i32;
            let mut row = Row {
                leaf: 3,
                from: Mm(from),
                to: Mm(from + length),
                trellis: Trellis {
                    posts: posts.into_iter().map(|x| Mm(near(x))).collect(),
                    ..Trellis::default()
                },
                trees: trees
                    .into_iter()
                    .enumerate()
                    .map(|(i, (foot, a, t, l))| plant(i as u32 + 1, (near(foot), a, t, l)))
                    .collect(),
            };
            row.sort();
            row
        })
}

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
    let words = Words::new(&Language::default(), LengthStyle::FeetInches);
    let targets = Targets::default();
    let g = Geometry::of(row, &targets);
    let view = Span {
        from: -2000.0,
        to: 9000.0,
    };
    let mut plan = Plan::new(name, row.clone());
    plan.note = name.repeat(30);
    plan.marks = vec![Mark {
        x: Mm(0),
        z: Mm(900),
        text: name.into(),
    }];
    let work = works(row);
    let mut out = Vec::new();
    for detail in [Detail::Sketch, Detail::Plain, Detail::Full] {
        for (foliage, px) in [(false, None), (true, Some(f64::NAN))] {
            for tree in &row.trees {
                out.push(tree_group_with(tree, g, detail, Options { foliage, px }));
            }
        }
    }
    for px_per_mm in [0.0, 0.001, 0.1, 3.0, f64::NAN] {
        out.push(frame(row, view, px_per_mm, &words));
        out.push(tree_numbers(row, view, px_per_mm, &words));
        let (cover, places) = (cover(row, &targets), upright_places(row, g));
        out.push(cordon_band(
            &cover, &places, view, &targets, &words, px_per_mm,
        ));
    }
    let terms = Terms::of(row, &targets);
    out.push(work_marks(row, &work, Moment::dormant(row.leaf), &terms));
    let sheet = DocumentOptions {
        words: &words,
        foliage: true,
        work: &work,
        time: None,
    };
    out.push(document_with(&plan, row, &sheet));
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
    let name = "</title><script>alert(\"1\")</script> & ]]> \u{0}<!--";
    for markup in all(&row, name) {
        assert!(!markup.contains("<script") && !markup.contains("<!--") && !markup.contains("]]>"));
    }
}
