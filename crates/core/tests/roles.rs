//! What shoots are on the wall as it grows and is renewed, and what the checks make of what happened when.

use cordonry::check::{Context, Finding, check, figures};
use cordonry::cover::upright_places;
use cordonry::pose::{Geometry, Name, PosedRow};
use cordonry::row::*;
use cordonry::terms::Terms;
use cordonry::units::Deg;
use cordonry_fixture::wall::*;

fn at(leaf: u8, window: Window) -> Moment {
    Moment { leaf, window }
}

/// What grows from the shoot of that number: an upright of a season, 100 mm along it, that came so.
fn from(tree: Grow, parent: u32, origin: Option<Origin>) -> Grow {
    let tree = tree.shoot(100.0, standing(5.0), grown(2, 600.0));
    tree.last(|s| {
        s.parent = Some(ShootId::found(parent));
        s.origin = origin;
    })
}

fn stub(tree: Grow, x: f64, cut: Option<Moment>) -> Grow {
    let place = tree.along(x);
    let tree = tree.shoot(place, Pose::Stub, vec![GrowthUnit::new(1, 700.0, 150.0)]);
    tree.last(|s| s.units[0].cut = cut)
}

/// Roles of the shoots but the stem, in order.
fn roles(tree: &Grow) -> Vec<Role> {
    let shoots = tree.0.shoots.iter().skip(1);
    shoots.map(|s| tree.0.role(s)).collect()
}

fn base() -> Grow {
    upright_stem(1, 0, 2000.0)
}

#[test]
fn a_stub_cedes_its_place_to_its_return() {
    let empty = stub(base().uprights(&[400.0]), 700.0, None);
    assert_eq!(roles(&empty), [Role::Upright, Role::Stub]);
    let back = from(empty, 2, Some(Origin::Return));
    assert_eq!(roles(&back), [Role::Upright, Role::Spent, Role::Upright]);
    // So it is where the record is silent about where it came from.
    let silent = from(stub(base(), 700.0, None), 1, None);
    assert_eq!(roles(&silent), [Role::Spent, Role::Upright]);
    // The return is stubbed in its turn, and brings another.
    let again = back.last(|s| s.pose = Pose::Stub);
    assert_eq!(roles(&again), [Role::Upright, Role::Spent, Role::Stub]);
    let third = from(again, 3, Some(Origin::Return));
    let expected = [Role::Upright, Role::Spent, Role::Spent, Role::Upright];
    assert_eq!(roles(&third), expected);
    // What is not tied takes no place.
    let free = from(stub(base(), 700.0, None), 1, None).last(|s| s.pose = Pose::Free);
    assert_eq!(roles(&free), [Role::Stub, Role::Loose]);
}

#[test]
fn what_comes_where_an_upright_was_cut_back_is_an_upright() {
    let one = || base().uprights(&[700.0]);
    let three = from(
        from(one(), 1, Some(Origin::CutBackBud)),
        1,
        Some(Origin::CutBackBud),
    );
    assert_eq!(roles(&three), [Role::Upright; 3]);
    // A branch of an upright is none.
    assert_eq!(roles(&from(one(), 1, None)), [Role::Upright, Role::Loose]);
    let bud = from(one(), 1, Some(Origin::WildBud));
    assert_eq!(roles(&bud), [Role::Upright, Role::Loose]);
    // Nor what grows from a branch that was cut back.
    let branch = from(from(one(), 1, None), 2, Some(Origin::CutBackBud));
    assert_eq!(roles(&branch), [Role::Upright, Role::Loose, Role::Loose]);
}

#[test]
fn what_comes_from_a_side_shoot_is_one() {
    let side = || base().uprights(&[700.0]).last(|s| s.face = Face::Side);
    let count = |tree: &Grow| {
        let shoots = &tree.0.shoots;
        shoots.iter().filter(|s| tree.0.is_side_shoot(s)).count()
    };
    assert_eq!(count(&side()), 1);
    let cut_back = from(side(), 1, Some(Origin::CutBackBud));
    assert_eq!(count(&cut_back), 2);
    assert_eq!(count(&from(side(), 1, None)), 1, "a branch of it");
    // A stub on the side was cut to bring an upright.
    let stubbed = stub(base(), 700.0, None).last(|s| s.face = Face::Side);
    assert_eq!(count(&stubbed), 0);
    assert_eq!(count(&from(stubbed, 1, Some(Origin::Return))), 0);
}

#[test]
fn a_renewed_wall_has_as_many_uprights_as_before() {
    let places = [300.0, 600.0, 900.0, 1200.0];
    let before = base().uprights(&places);
    let mut tree = base();
    for (n, x) in places.iter().enumerate() {
        let number = 2 * n as u32 + 1;
        tree = from(stub(tree, *x, None), number, Some(Origin::Return));
    }
    let row_of = |tree: &Grow| row(0, 1500, vec![tree.clone()]);
    let (before, after) = (row_of(&before), row_of(&tree));
    let targets = Targets::default();
    let g = Geometry::of(&after, &targets);
    let xs = |row: &Row| -> Vec<f64> { upright_places(row, g).iter().map(|p| p.x).collect() };
    // The returns stand 100 mm up on their stubs; their places are on the wire, as those before.
    assert_eq!(xs(&after), xs(&before));
    assert!(upright_places(&after, g).iter().all(|p| p.z == WIRE));
    let (was, is) = (figures(&before, &targets), figures(&after, &targets));
    assert_eq!((is.uprights, is.stubs), (4, 0));
    assert_eq!(is.upright_spacing_mean, was.upright_spacing_mean);
    for rule in ["uprights-too-few", "uprights-too-far", "uprights-too-close"] {
        assert_eq!(
            found(&after, rule).len(),
            found(&before, rule).len(),
            "{rule}"
        );
    }
    // They are counted along the wood as what stood there before.
    let names: Vec<u16> = [2, 4, 6, 8]
        .map(|id| Name::of(&after.trees[0], g, ShootId::found(id)).map_or(0, |n| n.number))
        .to_vec();
    assert_eq!(names, [1, 2, 3, 4]);
}

/// What a rule finds at a moment.
fn found_at(row: &Row, moment: Moment, rule: &str) -> Vec<Finding> {
    let targets = Targets::default();
    let terms = Terms::of(row, &targets);
    let row = &PosedRow::of(row, &targets);
    let mut out = check(&Context {
        moment,
        ..Context::found(row, &terms, &targets)
    });
    out.retain(|f| f.rule == rule);
    out
}

#[test]
fn a_stub_of_an_earlier_leaf_is_not_this_winters() {
    // Four uprights, as many as the tree needs there, and a stub: of five one is renewed each winter.
    let with = |cut: Option<Moment>| {
        let tree = base().uprights(&[300.0, 500.0, 700.0, 900.0]);
        let mut row = row(0, 1200, vec![stub(tree, 1100.0, cut)]);
        row.leaf = 3;
        row
    };
    let due = |cut: Option<Moment>| {
        let found = found_at(&with(cut), Moment::dormant(3), "renewal-due");
        found.iter().map(|f| f.subjects.len()).sum::<usize>()
    };
    assert_eq!(due(Some(Moment::dormant(3))), 0);
    assert_eq!(due(Some(at(2, Window::Dormant))), 1);
    // Where the record is silent it is taken for this winter's.
    assert_eq!(due(None), 0);
}

#[test]
fn growth_is_tipped_once_it_has_ended() {
    let with = |kept: f64, cut: Option<Moment>| {
        let tree = base().uprights(&[700.0]);
        let tree = tree.last(|s| {
            s.units = vec![GrowthUnit {
                cut,
                ..GrowthUnit::new(1, 600.0, kept)
            }];
        });
        let mut row = row(0, 1500, vec![tree]);
        row.leaf = 2;
        row
    };
    let due = |kept: f64, cut: Option<Moment>| {
        !found_at(&with(kept, cut), Moment::dormant(2), "tipping-due").is_empty()
    };
    assert!(due(600.0, None));
    assert!(!due(480.0, None), "as the record is silent");
    assert!(!due(480.0, Some(Moment::dormant(2))));
    assert!(!due(480.0, Some(at(1, Window::AfterHarvest))));
    // Cut in its early summer, it grew on; tipping takes what is longer than the share leaves, if anything is.
    assert!(due(540.0, Some(at(1, Window::EarlySummer))));
    assert!(!due(480.0, Some(at(1, Window::EarlySummer))));
}

#[test]
fn laterals_of_this_leaf_are_next_winters() {
    let with = |leaf: u8| {
        let tree = base().uprights(&[700.0]).last(|s| {
            s.units = vec![GrowthUnit::whole(2, 500.0), GrowthUnit::whole(leaf, 300.0)];
            s.laterals = Laterals {
                count: 9,
                total: 900.0,
            };
        });
        row(0, 1500, vec![tree])
    };
    let due = |leaf: u8| {
        let moment = at(3, Window::AfterHarvest);
        !found_at(&with(leaf), moment, "laterals-due").is_empty()
    };
    assert!(due(2));
    assert!(!due(3));
}

#[test]
fn a_wall_of_returns_closes_what_stubs_left_open() {
    let tree = |back: bool| {
        let mut tree = base().uprights(&[300.0]);
        for (n, x) in [600.0, 900.0].into_iter().enumerate() {
            tree = stub(tree, x, None);
            if back {
                let number = 2 + 2 * n as u32;
                tree = from(tree, number, Some(Origin::Return)).last(|s| {
                    s.units = grown(2, 1500.0);
                    s.pose = Pose::Upright {
                        lean: Deg::default(),
                    };
                });
            }
        }
        let tree = tree.uprights(&[1200.0]);
        row(300, 1200, vec![tree])
    };
    let open = |back: bool| found(&tree(back), "see-through").len();
    assert!(open(true) < open(false), "{} {}", open(true), open(false));
}

proptest::proptest! {
    #![proptest_config(cordonry_fixture::random::cases(64))]

    /// All at once or one by one: the same.
    #[test]
    fn the_roles_of_a_tree_are_those_of_its_shoots(row in cordonry_fixture::random::row()) {
        for tree in &row.trees {
            let roots = tree.roots(&tree.parents());
            for ((shoot, role), root) in tree.shoots.iter().zip(tree.roles()).zip(roots) {
                proptest::prop_assert_eq!(role, tree.role(shoot));
                proptest::prop_assert_eq!(root.map(|at| tree.shoots[at].id), tree.rooted(shoot).map(|s| s.id));
            }
        }
    }
}
