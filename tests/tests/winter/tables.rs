//! Drafts of small rows, each for the sake of one thing that a foreman would see.

use super::draft::{at, crowded_stubs};
use cordonry::advise::{Stuck, draft};
use cordonry::plan::{Plan, Replayed};
use cordonry::row::{Kind, Shoot};
use cordonry::work::Work;

/// A tree whose cordon has, in the middle of a space of 400 mm, the blind base of its second season.
const BLIND_MIDDLE: &str = "coming leaf,4\nrow from,0.5 m\nrow to,1.9 m\nwire,0.50 m,plastic\nwire,1.50 m,bare\nwall height,2.50 m\n\
lengths,by season\nlast growth tipped,no\n\
tree,place (m),kind,parent,length (m),diameter (mm),side,pose,season,laterals,note\n\
1,0.0,leader,,1.10 + 1.05,32,right,45,0,,\n1,0.6,upright,,0.9,11,,,3,,\n1,0.8,upright,,0.9,11,,,3,,\n\
1,1.2,upright,,0.9,11,,,3,,\n1,1.4,upright,,0.9,11,,,3,,\n1,1.6,upright,,0.9,11,,,3,,\n1,1.8,upright,,0.9,11,,,3,,\n";

#[test]
fn a_space_whose_middle_is_blind_is_parted_a_little_beside() {
    let plan = Plan::new("blind", cordonry_fixture::table(BLIND_MIDDLE));
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    let works = made.pieces.iter().flat_map(|p| &p.work);
    let buds = works.filter(|w| matches!(w, Work::Notch { .. }));
    assert_eq!(buds.count(), 1, "{:?}", made.pieces);
    let open = made.open().expect("what is open");
    let far = open.matters.iter();
    let far: Vec<_> = far.filter(|m| m.1 == Stuck::None).collect();
    assert!(far.is_empty(), "{far:?}");
}

/// Ten trees in their fifth leaf, of which the fourth has twelve uprights 120 mm apart, some of them thick and old.
fn one_of_ten_crowded() -> Plan {
    let mut out = String::from(
        "coming leaf,5\nrow from,0.5 m\nrow to,15.5 m\nwire,0.50 m,plastic\nwire,1.50 m,bare\nwire,2.50 m,bare\nwall height,2.50 m\n\
lengths,by season\nlast growth tipped,no\ntree,place (m),kind,parent,length (m),diameter (mm),side,pose,season,laterals,note\n",
    );
    let usual = [
        (1, 16),
        (2, 13),
        (3, 11),
        (4, 9),
        (3, 11),
        (2, 14),
        (4, 8),
        (1, 16),
        (2, 13),
        (3, 11),
        (4, 9),
        (3, 11),
    ];
    for tree in 1..=10 {
        let foot = 1.5 * f64::from(tree - 1);
        out += &format!("{tree},{foot:.1},leader,,1.80 + 0.35,40,right,45,0,,\n");
        let (count, apart) = if tree == 4 { (12, 0.12) } else { (7, 0.21) };
        for (i, (season, thick)) in usual.into_iter().take(count).enumerate() {
            let place = foot + 0.6 + apart * i as f64;
            let (season, thick) = match (tree, i) {
                (4, 0 | 5 | 9) => (1, 28 - i),
                _ => (season, thick),
            };
            let length = &"0.70 + 0.55 + 0.40 + 0.30"[..4 + 7 * (4 - season)];
            out += &format!("{tree},{place:.2},upright,,{length},{thick},,,{season},,\n");
        }
    }
    Plan::new("one of ten", cordonry_fixture::table(&out))
}

#[test]
fn what_crowds_and_goes_anyway_is_taken_off_whole() {
    let plan = one_of_ten_crowded();
    let moment = plan.start();
    let made = draft(&plan, 0, moment).expect("a draft");
    let (before, after) = (at(&plan, moment), at(&made.plan, moment));
    let tree = |at: &Replayed| at.row.posed()[3].tree().clone();
    let (was, is) = (tree(&before), tree(&after));
    let old = |s: &&Shoot| s.kind() == Kind::Upright && s.born() == Some(1);
    let gone = |s: &&Shoot| is.shoot(s.id).is_none();
    let all = was.shoots.iter().filter(old);
    assert_eq!(all.clone().count(), 4);
    assert!(all.filter(gone).count() >= 3, "{:?}", made.pieces);
    assert_eq!(crowded_stubs(&after, moment), 0, "{:?}", made.pieces);
}

/// Two trees that lean away from each other: the second is crowded, and one of its thin young uprights reaches into the bare stretch between
/// them from a little more than an upright's place beside it.
const BARE_BESIDE_A_CROWD: &str = "coming leaf,5\n\
row from,1.2 m\n\
row to,4.5 m\n\
wire,0.50 m,plastic\n\
wire,1.50 m,bare\n\
wire,2.50 m,bare\n\
wall height,2.50 m\n\
lengths,by season\n\
last growth tipped,no\n\
tree,place (m),kind,parent,length (m),diameter (mm),side,pose,season,laterals,note\n\
1,2.7,leader,,1.45 + 0.25 + 0.10,42,left,45,0,,\n\
1,2.12,upright,,0.70 + 0.55 + 0.40 + 0.30,12,,,1,,\n\
1,1.92,upright,,0.70 + 0.55 + 0.40,17,,,2,,\n\
1,1.72,upright,,0.70 + 0.55 + 0.40 + 0.30,25,,,1,3/0.9 m,\n\
1,1.52,upright,,0.70 + 0.55,9,,,3,,\n\
1,1.32,upright,,0.70 + 0.55 + 0.40 + 0.30,20,,,1,,\n\
2,3.0,leader,,1.45 + 0.25 + 0.10,42,right,45,0,,\n\
2,3.58,upright,,0.70 + 0.55 + 0.40,17,,,2,,\n\
2,3.69,upright,,0.70 + 0.55 + 0.40 + 0.30,25,,,1,,\n\
2,3.8,upright,,0.70 + 0.55,9,,,3,3/0.9 m,\n\
2,3.91,upright,,0.70 + 0.55 + 0.40 + 0.30,20,,,1,,\n\
2,4.02,upright,,0.70,8,,,4,,\n\
2,4.13,upright,,0.70 + 0.55 + 0.40 + 0.30,22,,,1,,\n\
2,4.24,upright,,0.70 + 0.55 + 0.40 + 0.30,29,,,1,,\n\
2,4.35,upright,,0.70 + 0.55 + 0.40 + 0.30,12,,,1,,\n";

#[test]
fn what_crowds_is_laid_into_bare_wire_before_it_is_taken_off() {
    let plan = Plan::new(
        "beside a crowd",
        cordonry_fixture::table(BARE_BESIDE_A_CROWD),
    );
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    let work = || made.pieces.iter().flat_map(|p| &p.work);
    let laid = work().find(|w| matches!(w, Work::Lay { .. }));
    let laid = laid.unwrap_or_else(|| panic!("nothing is laid: {:?}", made.pieces));
    assert_eq!(laid.tree(), Some(plan.found.trees[1].id));
    assert_eq!(laid.subject().shoot.to_string(), "3");
}

/// A row's table: where it ends and which leaf is coming, then its trees.
fn row(leaf: u8, from: f64, to: f64, trees: &str) -> Plan {
    let head = "wire,0.50 m,plastic\nwire,1.00 m,bare\nwire,1.50 m,bare\nwire,2.00 m,bare\nwall height,2.50 m\nlast growth tipped,no\n\
tree,place (m),kind,parent,length (m),diameter (mm),side,pose,season,laterals,note\n";
    let text = format!("coming leaf,{leaf}\nrow from,{from:.2} m\nrow to,{to:.2} m\n{head}{trees}");
    Plan::new("a table", cordonry_fixture::table(&text))
}

/// The uprights of a tree that `takes` is true of in the draft's work, counted from the trunk.
fn told(plan: &Plan, tree: usize, takes: fn(&Work) -> bool) -> Vec<usize> {
    let made = draft(plan, 0, plan.start()).expect("a draft");
    let tree = &plan.found.trees[tree];
    let all = tree.shoots.iter().filter(|s| s.kind() == Kind::Upright);
    let work: Vec<&Work> = made.pieces.iter().flat_map(|p| &p.work).collect();
    let own = |s: &&Shoot| {
        let is_own = |w: &&&Work| w.tree() == Some(tree.id) && w.subject().shoot == s.id;
        work.iter().filter(is_own).any(|w| takes(w))
    };
    all.enumerate()
        .filter(|(_, s)| own(s))
        .map(|(i, _)| i + 1)
        .collect()
}

fn is_removed(work: &Work) -> bool {
    matches!(work, Work::Remove { .. })
}

fn is_laid(work: &Work) -> bool {
    matches!(work, Work::Lay { .. })
}

/// Of three in a row 120 and 80 mm apart the middle one goes and makes room for both, and not both ends.
#[test]
fn of_three_that_crowd_the_middle_one_goes() {
    let plan = row(
        6,
        0.6,
        2.1,
        "1,0.10,leader,,1.35 + 0.84,38,right,45,0,,\n1,0.65,upright,,0.54 + 0.42 + 0.30,21,,,3,3,\n\
1,0.84,upright,,0.66 + 0.43 + 0.34,23,,,3,,\n1,0.96,upright,,0.54 + 0.38 + 0.31,21,,,3,0,\n1,1.04,upright,,0.56 + 0.35,18,,,4,,\n\
1,1.24,upright,,0.66 + 0.47,16,,,4,6,\n1,1.46,upright,,0.49 + 0.50,20,,,4,,\n1,1.65,upright,,0.62 + 0.48,18,,,4,0,\n\
1,1.71,upright,,0.54 + 0.49,14,,,4,4,\n1,1.85,upright,,0.58,13,,,5,3,\n",
    );
    assert_eq!(told(&plan, 0, is_removed), [3, 8]);
}

/// Two 120 mm apart stay where one going would leave 330 mm: what is due of them is stubbed, and no bud is notched for it beside the
/// place that it stood in.
#[test]
fn what_is_a_little_close_is_not_given_for_a_wider_space() {
    let plan = row(
        6,
        0.6,
        2.1,
        "1,0.10,leader,,1.35 + 0.84,38,right,45,0,,\n1,0.65,upright,,0.54 + 0.42,16,,,4,3,\n\
1,0.86,upright,,0.54 + 0.42 + 0.3 + 0.3 + 0.2,27,,,1,,\n1,0.98,upright,,0.54 + 0.4,15,,,4,0,\n1,1.19,upright,,0.56 + 0.35,16,,,4,,\n\
1,1.40,upright,,0.66 + 0.47,16,,,4,6,\n1,1.61,upright,,0.49 + 0.50,16,,,4,,\n1,1.82,upright,,0.62 + 0.48,15,,,4,0,\n",
    );
    assert!(told(&plan, 0, is_removed).is_empty());
    let stubs = told(&plan, 0, |w| matches!(w, Work::Stub { .. }));
    assert!(stubs.contains(&2), "{stubs:?}");
}

/// At the end of a row a shoot is not laid beside its own leader, nor that leader's end cut off with what bears on it.
#[test]
fn no_end_that_bears_is_cut_for_a_shoot_that_lies_beside_it() {
    let plan = row(
        3,
        10.6,
        12.8,
        "8,10.10,leader,,1.35 + 0.74,28,right,45,0,,\n8,10.65,upright,,0.54,13,,,2,1,\n8,10.85,upright,,0.48,13,,,2,,\n\
8,11.06,upright,,0.57 + 0.36,18,,,1,2,\n8,11.24,upright,,0.70,11,,,2,0,\n8,11.38,upright,,0.73 + 0.44,18,,,1,4,\n\
8,11.59,upright,,0.65,14,,,2,,\n8,11.77,upright,,0.50,12,,,2,2,\n8,11.94,upright,,0.62 + 0.40,17,,,1,0,\n",
    );
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    let mut work = made.pieces.iter().flat_map(|p| &p.work);
    assert!(
        !work.any(|w| matches!(w, Work::CutBack { .. })),
        "{:?}",
        made.pieces
    );
    assert!(told(&plan, 0, is_laid).is_empty());
}

/// Two stand 50 mm apart at the end of a leader that is half a metre short: the one at the end is laid, though most of it is cut off.
#[test]
fn what_crowds_is_laid_however_little_of_it_the_wire_takes() {
    let mut trees = String::new();
    for (tree, foot) in [(1, 0.0), (2, 1.5)] {
        let length = if tree == 1 { 1.64 } else { 2.24 };
        trees += &format!("{tree},{foot:.2},leader,,{length},28,right,45,0,,\n");
        for at in 0..if tree == 1 { 5 } else { 7 } {
            let x = foot + 0.6 + 0.2 * f64::from(at);
            trees += &format!("{tree},{x:.2},upright,,1.50,14,,,1,,\n");
        }
    }
    trees += "1,1.45,upright,,1.50,13,,,1,,\n";
    let plan = row(3, 0.55, 3.5, &trees);
    assert_eq!(told(&plan, 0, is_laid), [6]);
}

/// A stem that broke under the wire is no stock that waits to be laid: its young shoot is laid in its place.
#[test]
fn a_shoot_of_a_broken_stem_is_laid() {
    let mut trees = String::new();
    for (tree, foot) in [(1, 0.0), (3, 3.0)] {
        trees += &format!("{tree},{foot:.2},leader,,2.24,28,right,45,0,,\n");
        for at in 0..7 {
            let x = foot + 0.6 + 0.2 * f64::from(at);
            trees += &format!("{tree},{x:.2},upright,,1.50,14,,,1,,\n");
        }
    }
    trees += "2,1.50,stem,,0.62,30,right,45,0,,\n2,along 0.46 m,shoot,stem,1.55,13,right,,3,0,\n";
    let plan = row(4, 0.5, 5.0, &trees);
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    let laid: Vec<&Work> = made
        .pieces
        .iter()
        .flat_map(|p| &p.work)
        .filter(|w| is_laid(w))
        .collect();
    assert_eq!(laid.len(), 1, "{laid:?}");
    assert_eq!(laid[0].tree(), Some(plan.found.trees[1].id));
}

/// A bare stretch can be filled from either side: by last season's wood, in which buds grow by themselves, or by wood of two seasons,
/// of which half the notches bring nothing.
#[test]
fn last_season_s_wood_is_laid_before_older() {
    let plan = row(
        5,
        6.0,
        9.5,
        "4,5.50,leader,,1.35 + 0.05,36,right,45,0,,\n4,6.05,upright,,0.47,14,,,4,,\n4,6.25,upright,,0.50 + 0.33,18,,,3,,\n\
4,6.42,upright,,0.70 + 0.50 + 0.40 + 0.30,30,,,1,,\n4,6.62,upright,,1.25,12,,,4,0,\n5,7.30,leader,,1.35 + 1.14,36,right,45,0,,\n\
5,7.85,upright,,0.80 + 0.55,15,,,3,0,\n5,8.06,upright,,0.53 + 0.49,16,,,3,,\n5,8.24,upright,,0.66,15,,,4,,\n\
5,8.42,upright,,0.60 + 0.49,20,,,3,,\n5,8.61,upright,,0.66 + 0.47,18,,,3,,\n5,8.81,upright,,0.71 + 0.32,19,,,3,2,\n\
5,9.01,upright,,0.47 + 0.34 + 0.32,19,,,2,1,\n5,9.21,upright,,0.74,11,,,4,,\n5,9.40,upright,,0.73 + 0.44,16,,,3,,\n",
    );
    assert_eq!(told(&plan, 0, is_laid), [4]);
    assert!(told(&plan, 1, is_laid).is_empty());
}

/// Of a tree's uprights at most a third, rounded up, is laid in one winter, however much wire is bare.
#[test]
fn a_tree_keeps_most_of_its_uprights() {
    let plan = row(
        3,
        0.6,
        5.2,
        "1,0.10,leader,,0.9 + 0.30,24,right,45,0,,\n1,0.65,upright,,0.57,15,,,2,,\n1,0.81,upright,,0.50,13,,,2,6,\n\
1,0.97,upright,,0.72,11,,,2,0,\n2,2.00,leader,,0.9 + 0.20,24,right,45,0,,\n2,2.55,upright,,0.49 + 0.33,15,,,1,3,\n\
2,2.75,upright,,0.59,15,,,2,4,\n3,3.90,leader,,1.2 + 0.40,24,right,45,0,,\n3,4.45,upright,,0.67 + 0.47,17,,,1,,\n\
3,4.64,upright,,0.62,13,,,2,3,\n3,4.82,upright,,0.60 + 0.41,17,,,1,6,\n3,4.98,upright,,0.53,11,,,2,,\n",
    );
    let laid: Vec<usize> = (0..3)
        .map(|tree| told(&plan, tree, is_laid).len())
        .collect();
    assert!(laid.iter().sum::<usize>() > 0, "{laid:?}");
    assert!(laid[..2].iter().all(|n| *n <= 1), "{laid:?}");
    assert!(laid[2] <= 2, "{laid:?}");
}

/// A leader that is cut where the next tree's begins tells what goes with it, whether that would come off by itself or not.
#[test]
fn a_cut_leader_tells_the_upright_beyond_the_cut() {
    let plan = row(
        5,
        7.9,
        10.4,
        "5,7.40,leader,,1.35 + 0.75,34,right,45,0,,\n5,7.95,upright,,0.56 + 0.36 + 0.39 + 0.31,28,,,1,0,\n\
5,8.17,upright,,0.58 + 0.48 + 0.38 + 0.24,25,,,1,,\n5,8.37,upright,,0.60 + 0.49 + 0.31 + 0.30,23,,,1,1,\n\
5,8.58,upright,,0.70 + 0.44 + 0.34,23,,,2,2,\n5,8.78,upright,,0.65 + 0.43 + 0.40 + 0.29,27,,,1,5,\n\
5,8.99,upright,,0.59 + 0.43,18,,,3,0,\n5,9.18,upright,,0.68 + 0.38,16,,,3,,\n6,10.70,leader,,1.35 + 0.55,34,left,45,0,,\n\
6,9.17,upright,,0.65,15,,,4,3,\n6,9.37,upright,,0.65 + 0.50,18,,,3,,\n6,9.57,upright,,0.72 + 0.40 + 0.28,19,,,2,,\n\
6,9.76,upright,,0.58 + 0.48,17,,,3,4,\n6,9.95,upright,,0.71 + 0.36,16,,,3,0,\n6,10.15,upright,,0.68 + 0.33 + 0.35 + 0.23,28,,,1,5,\n",
    );
    let made = draft(&plan, 0, plan.start()).expect("a draft");
    let cut = made.pieces.iter().find_map(|p| match p.work.first() {
        Some(Work::CutBack { tree, keep_mm, .. }) => Some((p, *tree, *keep_mm)),
        _ => None,
    });
    let (piece, tree, keep) = cut.expect("a leader is cut");
    let tree = plan.found.trees.iter().find(|t| t.id == tree);
    let beyond = |s: &&Shoot| s.kind() == Kind::Upright && s.at > keep.f();
    let lost = tree.expect("a tree").shoots.iter().filter(beyond).count();
    assert_eq!(lost, 1, "the row is for a cut with one beyond");
    let args = &piece.said.args;
    let uprights = args.iter().find(|(name, _)| *name == "uprights");
    assert_eq!(
        uprights.map(|(_, arg)| format!("{arg:?}")),
        Some("Count(1)".into())
    );
}
