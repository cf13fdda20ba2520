//! Renewal and the age of wood, each a step either side of its limit.

use cordonry::check::Finding;
use cordonry::row::*;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

/// One tree in `leaf` with an upright for each of these diameters and birth leaves.
fn tree(leaf: u8, uprights: &[(f64, u8)]) -> Row {
    let length = 200.0 * uprights.len() as f64;
    let mut tree = upright_stem(1, 0, length + 500.0);
    for (i, (diameter, born)) in uprights.iter().enumerate() {
        tree = tree.uprights(&[200.0 * (i as f64 + 0.5)]).last(|s| {
            s.diameter = *diameter;
            s.units[0].leaf = *born;
        });
    }
    let mut row = row(0, length as i32, vec![tree]);
    row.leaf = leaf;
    row
}

fn picked(f: &Finding) -> Vec<u64> {
    f.subjects
        .iter()
        .filter_map(|p| p.shoot)
        .map(ShootId::number)
        .collect()
}

#[test]
fn a_fifth_rounded_up_goes_the_largest_first() {
    // Diameters 10, 11, … in order of place, so that the last is the largest.
    let of = |n: usize| {
        let all: Vec<(f64, u8)> = (0..n).map(|i| (10.0 + i as f64, 1)).collect();
        tree(3, &all)
    };
    for (n, expected) in [
        (5, vec![5]),
        (6, vec![6, 5]),
        (10, vec![10, 9]),
        (11, vec![11, 10, 9]),
        (15, vec![15, 14, 13]),
        (16, vec![16, 15, 14, 13]),
    ] {
        assert_eq!(picked(&found(&of(n), "renewal-due")[0]), expected, "{n}");
    }
    let ten = of(10);
    let f = &found(&ten, "renewal-due")[0];
    assert_eq!(
        Words::strict().finding(f),
        "Tree 1: 2 uprights of 10 due to be stubbed, first upright 10 of 10, tree 1 (19 mm thick)"
    );
    assert!(found(&mended(&ten, f, 0), "renewal-due").is_empty());
}

#[test]
fn what_is_stubbed_this_season_counts() {
    let ten: Vec<(f64, u8)> = (0..10).map(|i| (10.0 + f64::from(i), 1)).collect();
    let mut row = tree(3, &ten);
    let mut one = (*row.trees[0]).clone();
    one.shoots[3].pose = Pose::Stub;
    one.shoots[3].cut_to(150.0, Moment::dormant(3));
    row.trees[0] = one.into();
    assert_eq!(picked(&found(&row, "renewal-due")[0]), [10]);
}

#[test]
fn wood_at_the_age_limit_goes_before_the_largest() {
    // Leaf 6: born in leaf 1 is five completed seasons. The thin old one at place 2 goes first.
    let f = &found(
        &tree(
            6,
            &[
                (20.0, 3),
                (8.0, 1),
                (12.0, 3),
                (12.0, 3),
                (30.0, 2),
                (9.0, 3),
            ],
        ),
        "renewal-due",
    )[0];
    assert_eq!(picked(f), [2, 5]);
    assert_eq!(
        Words::strict().finding(f),
        "Tree 1: 2 uprights of 6 due to be stubbed, first upright 2 of 6, tree 1 (5 seasons old)"
    );
}

#[test]
fn renewal_begins_in_leaf_3_or_a_leaf_earlier_where_an_upright_is_thick() {
    let five =
        |leaf: u8, thick: f64| tree(leaf, &[(thick, 1), (9.0, 1), (9.0, 1), (9.0, 1), (9.0, 1)]);
    either_side("renewal-due", &five(2, 14.9), &five(3, 14.9));
    either_side("renewal-due", &five(2, 14.9), &five(2, 15.0));
    assert!(found(&five(1, 20.0), "renewal-due").is_empty());
}

#[test]
fn wood_of_five_seasons_passes_and_of_six_does_not() {
    // Leaf 7: born in leaf 2 is five completed seasons, in leaf 1 six.
    let fails = tree(7, &[(10.0, 1), (10.0, 2)]);
    let f = either_side("wood-too-old", &tree(7, &[(10.0, 2), (10.0, 2)]), &fails);
    assert_eq!((f.measured, f.allowed), (6.0, 5.0));
    assert_eq!(
        Words::strict().finding(&f),
        "Tree 1: one upright is over 5 seasons old, the oldest 6"
    );
    assert!(found(&mended(&fails, &f, 0), "wood-too-old").is_empty());
}

#[test]
fn a_tree_of_old_wood_is_not_cut_back_whole() {
    // Ten uprights of six seasons: 20 % are 2 a winter, and 8 wait.
    let old = tree(7, &[(10.0, 1); 10]);
    let f = found(&old, "wood-too-old").remove(0);
    assert_eq!(f.remedies[0].work.len(), 2);
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Cut 2 uprights of tree 1 to stubs of 150 mm this winter; 8 wait for the next ones"
    );
    // With this winter's share cut, nothing more is offered.
    let after = mended(&old, &f, 0);
    assert!(found(&after, "wood-too-old")[0].remedies.is_empty());
}
