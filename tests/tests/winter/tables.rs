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
