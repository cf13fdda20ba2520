//! On what some work is done, all of it named: tree by tree which of its shoots, and the places on laid wood.

use crate::worklist::Piece;
use cordonry::pose::{Name, PosedRow};
use cordonry::row::TreeId;
use cordonry::said::{Arg, Said};
use cordonry::work::Work;
use cordonry_words::Words;

/// Shoots of one tree that are counted together, by their numbers; or one of them with places along it.
struct Part {
    name: Name,
    numbers: Vec<u16>,
    places: Vec<f64>,
}

/// The subjects of work in a line; nothing where it is about no tree. The row is that after the work.
pub fn subjects_line(works: &[Work], row: &PosedRow, words: &Words) -> String {
    let mut trees: Vec<(TreeId, Vec<Part>)> = Vec::new();
    for work in works {
        // What is laid and cut back there is one part.
        let laid = |other: &Work| {
            let lays = matches!(other, Work::Lay { .. });
            lays && (other.tree(), other.subject().shoot) == (work.tree(), work.subject().shoot)
        };
        if matches!(work, Work::CutBack { .. }) && works.iter().any(laid) {
            continue;
        }
        let piece = Piece::of(work, row, words);
        let Some(tree) = piece.tree else { continue };
        let at = trees.iter().position(|(t, _)| *t == tree);
        let at = at.unwrap_or_else(|| {
            trees.push((tree, Vec::new()));
            trees.len() - 1
        });
        if let Some(name) = piece.name {
            put(&mut trees[at].1, name, piece.place_on_wood());
        }
    }
    let each = trees.into_iter().map(|(tree, parts)| {
        let tree = words.say(&row.in_bay(tree, None));
        let parts: Vec<String> = parts.iter().map(|p| p.told(words)).collect();
        match parts.is_empty() {
            true => tree,
            false => {
                let args = [
                    ("part", Arg::Text(tree)),
                    ("work", Arg::Text(parts.join(", "))),
                ];
                words.text("work-line", &args)
            }
        }
    });
    each.collect::<Vec<_>>().join("; ")
}

fn put(parts: &mut Vec<Part>, name: Name, place: Option<f64>) {
    let like = |n: &Name| Name {
        number: name.number,
        ..*n
    };
    // What has a place stands by itself, with all its places.
    let fits = |p: &&mut Part| match place {
        Some(_) => !p.places.is_empty() && p.name == name,
        None => p.places.is_empty() && like(&p.name) == name,
    };
    match parts.iter_mut().find(fits) {
        Some(part) => {
            part.places.extend(place);
            if !part.numbers.contains(&name.number) {
                part.numbers.push(name.number);
            }
        }
        None => parts.push(Part {
            name,
            numbers: vec![name.number],
            places: place.into_iter().collect(),
        }),
    }
}

impl Part {
    fn told(&self, words: &Words) -> String {
        let mut said: Said = self.name.on_tree();
        if let Some((_, number)) = said.args.iter_mut().find(|(name, _)| *name == "number") {
            let numbers: Vec<String> = self.numbers.iter().map(u16::to_string).collect();
            if numbers.len() > 1 {
                *number = Arg::Text(numbers.join(", "));
            }
        }
        let part = words.say(&said);
        if self.places.is_empty() {
            return part;
        }
        let places = self.places.iter().map(|x| words.length(*x));
        let args = [
            ("work", Arg::Text(part)),
            ("x", Arg::Text(places.collect::<Vec<_>>().join(", "))),
        ];
        words.text("work-at", &args)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cordonry::row::{Row, ShootId, Targets};
    use cordonry::units::Mm;
    use cordonry_fixture::wall::{row, upright_stem};

    fn line(works: &[Work], row: &Row) -> String {
        let words = Words::strict();
        subjects_line(works, &PosedRow::of(row, &Targets::default()), &words)
    }

    #[test]
    fn every_shoot_and_place_that_is_worked_on_is_named() {
        let trees = [1_000, 2_500].map(|foot| upright_stem(foot as u32 / 1_000, foot, 1400.0));
        let row = row(0, 4000, trees.into());
        let (one, two) = (TreeId(1), TreeId(2));
        let stub = |tree, at| Work::Stub {
            tree,
            shoot: ShootId::found(at),
            keep_mm: Mm(40),
        };
        let told = line(&[stub(one, 0), stub(two, 0)], &row);
        assert_eq!(told, "tree 1: leader; tree 2: leader");
        let bud = |at: i32| Work::KeepBud {
            tree: one,
            shoot: ShootId::found(0),
            at_mm: Mm(at),
        };
        let told = line(&[bud(700), bud(900)], &row);
        assert_eq!(told, "tree 1: leader, at 1.20 m, 1.40 m");
    }
}
