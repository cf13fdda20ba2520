//! The plans among the examples, one kind of row each.

use super::INVENTED;
use super::build::{Rows, fence, grown, laid, shoot, thickness, upright};
use cordonry::plan::{Mark, Moment, Plan, Scheme, Window};
use cordonry::row::{Covering, Face, Kind, Laterals, Pose, ShootId, Site, Toward, TreeId};
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use std::sync::Arc;

/// Every plan by file name, begun as plans are: the coming leaf's work is what is planned here, later leaves do the usual work.
pub fn all() -> Vec<(&'static str, Plan)> {
    let plans = vec![
        ("clean-third-leaf.json", clean_third_leaf()),
        ("lost-tree.json", lost_tree()),
        ("missed-bud-removal.json", missed_bud_removal()),
        ("opposed-leans.json", opposed_leans()),
        ("overdue-renewal.json", overdue_renewal()),
        ("short-stock.json", short_stock()),
        ("third-leaf.json", third_leaf()),
        ("two-cordons.json", two_cordons()),
        ("uneven-uprights.json", uneven_uprights()),
    ];
    let begun = plans.into_iter().map(|(name, plan)| (name, plan.begun()));
    begun.collect()
}

fn plan(name: &str, about: &str, rows: Rows) -> Plan {
    let mut plan = Plan::new(name, rows.row);
    plan.note = format!("{INVENTED} {about}");
    plan.site = Arc::new(Site {
        latitude_deg: Some(45.0),
        row_bearing_deg: Some(0.0),
        row_spacing: Some(Mm(3000)),
        ..Site::default()
    });
    plan
}

/// Gives the first scheme its name and the work of one season.
fn scheme(plan: &mut Plan, name: &str, leaf: u8, work: Vec<(Window, Work)>) {
    let moment = |window| Moment { leaf, window };
    let work = work.into_iter().map(|(window, w)| (moment(window), w));
    plan.schemes = vec![Arc::new(Scheme {
        name: name.into(),
        schedule: work.collect(),
        ..Scheme::default()
    })];
}

/// Stubs the thickest uprights of each tree, so many on each.
fn stub_thickest(plan: &Plan, each: usize) -> Vec<(Window, Work)> {
    let mut out = Vec::new();
    for tree in &plan.found.trees {
        let mut uprights: Vec<_> = tree
            .shoots
            .iter()
            .filter(|s| s.kind() == Kind::Upright)
            .collect();
        uprights.sort_by(|a, b| b.diameter.total_cmp(&a.diameter).then(a.id.cmp(&b.id)));
        out.extend(uprights.iter().take(each).map(|s| {
            let work = Work::Stub {
                tree: tree.id,
                shoot: s.id,
                keep_mm: Mm(150),
            };
            (Window::Dormant, work)
        }));
    }
    out
}

/// Tips every upright that is not stubbed by a fifth of last year's growth.
fn tips(plan: &Plan, stubs: &[(Window, Work)]) -> Vec<(Window, Work)> {
    let stubbed = |tree, shoot| {
        let mut subjects = stubs.iter().map(|(_, w)| w.subject());
        subjects.any(|s| s.tree == Some(tree) && s.shoot == shoot)
    };
    let trees = plan.found.trees.iter();
    trees
        .flat_map(|tree| tree.shoots.iter().map(|s| (tree.id, s)))
        .filter(|(tree, s)| s.kind() == Kind::Upright && !stubbed(*tree, s.id))
        .map(|(tree, s)| {
            let work = Work::Tip {
                tree,
                shoot: s.id,
                percent: 20,
            };
            (Window::Dormant, work)
        })
        .collect()
}

/// Length of wood from the foot at 45° over the bend and along the wire to the next tree's wire point.
const REACH: f64 = 2190.0;

/// Single leaders to the right, 1.5 m apart, whose wood reaches the next tree give or take `slack`.
fn leaders(rows: &mut Rows, trees: u32, slack: f64) {
    for id in 1..=trees {
        let foot = rows.chance.around(1500.0 * f64::from(id - 1), 20.0);
        let next = 1500.0 * f64::from(id);
        let stock = rows.chance.around(1560.0, 60.0);
        let first = rows.chance.around(430.0, 60.0);
        // The last growth ends where the person who tied it let it end.
        let whole = rows.chance.around(REACH + next - 1500.0 - foot, slack);
        let growth = [(0, stock), (1, first), (2, whole - stock - first)];
        rows.leader(id, foot, 45.0, Toward::Right, &growth);
    }
    rows.stretch();
}

fn clean_third_leaf() -> Plan {
    let mut rows = Rows::new(11, 3);
    leaders(&mut rows, 8, 25.0);
    rows.along_the_wire(200.0, 15.0, |c, _| Some(fence(c, 3, 1, 1.0)));
    for id in 1..=8 {
        rows.tree(id).shoots[0].rubbed = true;
    }
    rows.row.trellis.wires[0].covering = Covering::Plastic;
    let mut plan = plan(
        "Clean third leaf",
        "The cordon is filled, the uprights stand evenly and are clean of laterals.",
        rows,
    );
    let mut work = stub_thickest(&plan, 2);
    work.extend(tips(&plan, &work));
    scheme(&mut plan, "Renew and tip", 3, work);
    plan
}

fn third_leaf() -> Plan {
    let mut rows = Rows::new(3, 3);
    leaders(&mut rows, 9, 40.0);
    // The fifth was planted short and its leader with it; its end shoot stands, and was never laid.
    let foot = rows.tree(5).foot.f();
    let stem = &mut rows.tree(5).shoots[0];
    stem.units = grown(&[(0, 1380.0), (1, 330.0)]);
    let end = stem.length();
    let bare = REACH - end - (foot - 6000.0);
    let mut tip = shoot(
        Some(0),
        end,
        upright(6.0),
        grown(&[(2, (bare + 30.0).round())]),
    );
    tip.diameter = thickness(&mut rows.chance, tip.length());
    rows.add(5, tip);
    rows.tree(5).note = "arrived headed, planted short".into();
    rows.along_the_wire(200.0, 26.0, |c, x| {
        // Where the end shoot stands there is no upright besides.
        if (x - (foot + 500.0 + end - 690.0)).abs() < 165.0 {
            return None;
        }
        let born = if c.one_in(3) { 2 } else { 1 };
        let mut out = fence(c, 3, born, 1.0);
        if born == 1 && c.one_in(3) {
            let count = c.between(2.0, 6.0) as u16;
            out.laterals = Laterals {
                count,
                total: (f64::from(count) * c.around(280.0, 90.0)).round(),
            };
        }
        Some(out)
    });
    let mut plan = plan(
        "Third leaf with a gap",
        "Tree 5 was planted short: its end shoot, laid to the right, closes the gap before tree 6.",
        rows,
    );
    let mut work: Vec<_> = stub_thickest(&plan, 1)
        .into_iter()
        .filter(|(_, w)| w.tree().is_some_and(|t| t.0 % 2 == 1 && t.0 != 5))
        .collect();
    let clean = laterals_off(&plan, &[1, 2, 3, 7, 8]);
    let stubbed = |w: &Work| {
        let alike = |(_, s): &(Window, Work)| {
            let (a, b) = (s.subject(), w.subject());
            (a.tree, a.shoot) == (b.tree, b.shoot)
        };
        work.iter().any(alike)
    };
    let clean: Vec<_> = clean.into_iter().filter(|(_, w)| !stubbed(w)).collect();
    work.extend(clean);
    work.push((
        Window::BudSwell,
        Work::RubOut {
            tree: TreeId(5),
            shoot: ShootId::STEM,
        },
    ));
    scheme(&mut plan, "Keep and fill", 3, work);
    plan.marks = vec![Mark::note(
        Mm(7250),
        Mm(620),
        "Lay the end shoot of tree 5 along the wire",
    )];
    plan
}

/// Takes all laterals off the uprights of those trees.
fn laterals_off(plan: &Plan, trees: &[u32]) -> Vec<(Window, Work)> {
    let trees = plan.found.trees.iter().filter(|t| trees.contains(&t.id.0));
    trees
        .flat_map(|tree| {
            let shoots = tree.shoots.iter().filter(|s| s.laterals.count > 0);
            shoots.map(|s| {
                let work = Work::TakeLaterals {
                    tree: tree.id,
                    shoot: s.id,
                };
                (Window::Dormant, work)
            })
        })
        .collect()
}

fn short_stock() -> Plan {
    let mut rows = Rows::new(5, 2);
    for id in 1..=8u32 {
        let foot = rows.chance.around(1500.0 * f64::from(id - 1), 25.0);
        let stock = rows.chance.around(1150.0, 90.0);
        rows.leader(id, foot, 45.0, Toward::Right, &[(0, stock)]);
        // It was headed, so that the end is a shoot of its own beside the cut; on some trees it was laid.
        let length = rows.chance.around(520.0, 160.0);
        let pose = match id % 3 {
            0 => upright(12.0),
            1 => laid(Toward::Right, 3.0),
            _ => Pose::Free,
        };
        let mut end = shoot(Some(0), stock.round() - 15.0, pose, grown(&[(1, length)]));
        end.diameter = thickness(&mut rows.chance, length);
        rows.add(id, end);
    }
    rows.stretch();
    rows.along_the_wire(210.0, 40.0, |c, _| {
        let strength = c.around(0.8, 0.2);
        (!c.one_in(5)).then(|| fence(c, 2, 1, strength))
    });
    let mut plan = plan(
        "Short headed stock",
        "The stock came headed at about 1.15 m; the first season's end shoots do not reach the next tree.",
        rows,
    );
    scheme(&mut plan, "As found", 2, Vec::new());
    plan
}

fn two_cordons() -> Plan {
    let mut rows = Rows::new(7, 4);
    for id in 1..=6u32 {
        let foot = rows.chance.around(3000.0 * f64::from(id - 1), 30.0);
        let mut stem = shoot(None, 0.0, Pose::Free, grown(&[(0, 490.0)]));
        stem.diameter = (rows.chance.around(46.0, 4.0) * 10.0).round() / 10.0;
        rows.plant(id, foot, 90.0, Toward::Right, Some(stem));
        for toward in [Toward::Left, Toward::Right] {
            let first = rows.chance.around(820.0, 90.0);
            let second = rows.chance.around(1492.0, 30.0) - first;
            let rise = rows.chance.around(2.0, 1.5).round();
            let growth = grown(&[(1, first), (2, second)]);
            let mut leader = shoot(Some(0), 490.0, laid(toward, rise), growth);
            leader.diameter = (rows.chance.around(27.0, 3.0) * 10.0).round() / 10.0;
            leader.rubbed = true;
            rows.add(id, leader);
        }
    }
    rows.stretch();
    rows.along_the_wire(235.0, 25.0, |c, _| {
        let born = if c.one_in(4) { 3 } else { 2 };
        Some(fence(c, 4, born, 0.95))
    });
    let mut plan = plan(
        "Two opposed cordons",
        "Each tree forks at the wire into two leaders and bears some twelve uprights.",
        rows,
    );
    let work = stub_thickest(&plan, 3);
    scheme(&mut plan, "Renew a fifth", 4, work);
    plan
}

fn missed_bud_removal() -> Plan {
    let mut rows = Rows::new(13, 2);
    for id in 1..=8u32 {
        let foot = rows.chance.around(1500.0 * f64::from(id - 1), 20.0);
        let stock = rows.chance.around(1700.0, 70.0);
        let end = rows.chance.around(330.0, 120.0);
        rows.leader(id, foot, 45.0, Toward::Right, &[(0, stock), (1, end)]);
    }
    rows.stretch();
    // Nobody rubbed the buds out: shoots on every face, and the few on top that won are far apart and uneven.
    rows.along_the_wire(330.0, 110.0, |c, _| {
        let strength = c.between(0.45, 1.7);
        Some(fence(c, 2, 1, strength))
    });
    rows.along_the_wire(240.0, 90.0, |c, _| {
        let length = c.around(300.0, 160.0);
        let mut out = shoot(Some(0), 0.0, Pose::Free, grown(&[(1, length)]));
        out.face = if c.one_in(2) { Face::Side } else { Face::Under };
        out.diameter = thickness(c, length);
        Some(out)
    });
    let mut plan = plan(
        "Missed bud removal",
        "The buds on the sides and underneath were not rubbed out in the first leaf.",
        rows,
    );
    scheme(&mut plan, "As found", 2, Vec::new());
    plan
}

fn overdue_renewal() -> Plan {
    let mut rows = Rows::new(17, 9);
    leaders(&mut rows, 8, 30.0);
    rows.along_the_wire(205.0, 30.0, |c, _| {
        if c.one_in(12) {
            return None;
        }
        let born = 1 + c.between(0.0, 2.6) as u8;
        let strength = c.around(0.95, 0.15);
        let mut out = fence(c, 9, born, strength);
        // Thick with age, and with laterals that nobody took off.
        out.diameter = ((out.diameter + c.around(14.0, 6.0)) * 10.0).round() / 10.0;
        if c.one_in(2) {
            let count = c.between(2.0, 8.0) as u16;
            out.laterals = Laterals {
                count,
                total: (f64::from(count) * c.around(350.0, 120.0)).round(),
            };
        }
        Some(out)
    });
    let mut plan = plan(
        "Overdue renewal",
        "No upright was ever stubbed: the fruiting wood is six to eight seasons old.",
        rows,
    );
    scheme(&mut plan, "As found", 9, Vec::new());
    plan
}

fn opposed_leans() -> Plan {
    let mut rows = Rows::new(19, 3);
    for id in 1..=8u32 {
        let foot = rows.chance.around(1500.0 * f64::from(id - 1), 20.0);
        let toward = if id % 2 == 1 {
            Toward::Right
        } else {
            Toward::Left
        };
        let stock = rows.chance.around(1560.0, 60.0);
        let first = rows.chance.around(320.0, 60.0);
        rows.leader(id, foot, 45.0, toward, &[(0, stock), (1, first)]);
    }
    rows.stretch();
    rows.along_the_wire(200.0, 22.0, |c, _| {
        let born = if c.one_in(3) { 2 } else { 1 };
        Some(fence(c, 3, born, 0.95))
    });
    let mut plan = plan(
        "Opposed leans",
        "Single leaders lean left and right in turn at even spacing: every second interval is covered twice, the others are bare.",
        rows,
    );
    scheme(&mut plan, "As found", 3, Vec::new());
    plan
}

fn lost_tree() -> Plan {
    let mut rows = Rows::new(23, 4);
    leaders(&mut rows, 9, 30.0);
    let lost = rows.tree(5);
    lost.shoots.clear();
    lost.note = "died in its third leaf".into();
    rows.along_the_wire(200.0, 24.0, |c, _| {
        let born = if c.one_in(3) { 2 } else { 1 };
        Some(fence(c, 4, born, 0.9))
    });
    // The end of tree 4 was left to grow: laid on, it goes a part of the way.
    let end = rows.tree(4).shoots[0].length();
    let mut tip = shoot(Some(0), end, Pose::Free, grown(&[(3, 640.0)]));
    tip.diameter = thickness(&mut rows.chance, 640.0);
    rows.add(4, tip);
    let mut plan = plan(
        "A lost tree",
        "Tree 5 is dead; its place of 1.5 m is bare until it is replaced or its neighbours fill it.",
        rows,
    );
    let work = stub_thickest(&plan, 1);
    scheme(&mut plan, "Renew", 4, work);
    plan
}

fn uneven_uprights() -> Plan {
    let mut rows = Rows::new(29, 3);
    leaders(&mut rows, 8, 35.0);
    rows.along_the_wire(200.0, 130.0, |c, _| {
        if c.one_in(7) {
            return None;
        }
        let born = if c.one_in(2) { 2 } else { 1 };
        let strength = c.between(0.35, 1.5);
        let mut out = fence(c, 3, born, strength);
        if c.one_in(6) {
            let lean = if c.one_in(2) { -24.0 } else { 24.0 };
            out.pose = Pose::Upright {
                lean: Deg::new(lean),
            };
        }
        Some(out)
    });
    let mut plan = plan(
        "Uneven uprights",
        "Uprights crowd here and are missing there, and the strong ones have outgrown the others.",
        rows,
    );
    scheme(&mut plan, "As found", 3, Vec::new());
    plan
}
