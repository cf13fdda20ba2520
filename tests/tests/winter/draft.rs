//! Drafts: what becomes of rows whose whole window's work is taken as it is proposed.

use super::rows::{examples, extreme, plausible};
use super::wood::Wood;
use super::{found, graver, numbered};
use cordonry::advise::{Draft, PERCENT, Why, draft, renew, tips};
use cordonry::check::{Context, Finding, Part, Severity, figures, matters, survey};
use cordonry::cover::places_of;
use cordonry::file::{read_plan, write_plan};
use cordonry::forecast::{Forecast, kept_young_from};
use cordonry::fruit::LEAF_OF_A_FRUIT;
use cordonry::plan::{History, Moment, Phase, Plan, Replayed, Replayer, Window, Years};
use cordonry::row::{Kind, Limit, Role, Shoot, ShootId, Tree};
use cordonry::work::Work;
use std::collections::BTreeSet;

pub(super) fn at(plan: &Plan, moment: Moment) -> Replayed {
    let at = Replayer::default().at(plan, 0, moment, Phase::After);
    at.expect("a first scheme")
}

/// A short tree in its second leaf, of whose two uprights one has room, and a neighbour that has what it needs.
const TWO_TOO_CLOSE: &str = "coming leaf,2\nrow from,0.5 m\nrow to,3 m\nwire,0.50 m,plastic\nwire,1.50 m,bare\nwall height,2.50 m\n\
lengths,by season\nlast growth tipped,no\n\
tree,place (m),kind,parent,length (m),diameter (mm),side,pose,season,laterals,note\n\
1,0.0,leader,,0.95,22,right,45,0,,\n1,0.5,upright,,1.45,15,,,1,,\n1,0.6,upright,,0.35,6,,,1,,\n\
2,1.5,leader,,1.05 + 0.10,22,right,45,0,,\n2,2.02,upright,,1.10,12,,,1,,\n2,2.28,upright,,1.45,15,,,1,,\n";

#[test]
fn of_two_that_crowd_each_other_one_stays() {
    let plan = Plan::new("two too close", cordonry_fixture::table(TWO_TOO_CLOSE));
    let moment = plan.start();
    let made = draft(&plan, 0, moment).expect("a draft");
    let uprights = |plan: &Plan| at(plan, moment).row.posed()[0].uprights().len();
    assert_eq!(uprights(&plan), 2);
    assert_eq!(uprights(&made.plan), 1, "{:?}", made.pieces);
}

/// A tree in its fifth leaf, never renewed, whose eight uprights stand 110 mm apart.
const CROWDED: &str = "coming leaf,5\nrow from,0 m\nrow to,1.5 m\nwire,0.50 m,plastic\nwire,1.50 m,bare\nwire,2.50 m,bare\nwall height,2.50 m\n\
lengths,by season\nlast growth tipped,no\n\
tree,place (m),kind,parent,length (m),diameter (mm),side,pose,season,laterals,note\n\
1,0.0,leader,,1.45 + 0.25 + 0.10,42,right,45,0,,\n\
1,0.58,upright,,0.70 + 0.55 + 0.40,17,,,2,,\n1,0.69,upright,,0.70 + 0.55 + 0.40 + 0.30,25,,,1,,\n\
1,0.80,upright,,0.70 + 0.55,9,,,3,,\n1,0.91,upright,,0.70 + 0.55 + 0.40 + 0.30,20,,,1,,\n\
1,1.02,upright,,0.70,8,,,4,,\n1,1.13,upright,,0.70 + 0.55 + 0.40 + 0.30,22,,,1,,\n\
1,1.24,upright,,0.70 + 0.55 + 0.40 + 0.30,29,,,1,,\n1,1.35,upright,,0.70 + 0.55 + 0.40 + 0.30,12,,,1,,\n";

/// Of every tree its number, how many uprights and stubs it has in a winter, how many of them a draft takes off, and how many it
/// stubs.
fn cut_of_each(
    before: &Replayed,
    after: &Replayed,
    made: &Draft,
) -> Vec<(u32, usize, usize, usize)> {
    let of_wall = |t: &Tree, s: &Shoot| matches!(t.role(s), Role::Upright | Role::Stub);
    let each = before.row.posed().iter().map(|posed| {
        let tree = posed.tree();
        let is = after.row.of_tree(tree.id).map(|p| p.tree());
        let spare = tree.spare_returns(&before.targets);
        let own = tree
            .shoots
            .iter()
            .filter(|s| of_wall(tree, s) && !spare.contains(&s.id));
        let gone = own
            .clone()
            .filter(|s| is.is_none_or(|t| t.shoot(s.id).is_none()));
        let stub = |w: &&Work| matches!(w, Work::Stub { tree: t, .. } if *t == tree.id);
        let stubs = made.pieces.iter().flat_map(|p| &p.work).filter(stub);
        (tree.id.0, own.clone().count(), gone.count(), stubs.count())
    });
    each.collect()
}

#[test]
fn what_is_thinned_out_counts_in_the_share_of_the_winter() {
    let plan = Plan::new("crowded", cordonry_fixture::table(CROWDED));
    let moment = plan.start();
    let made = draft(&plan, 0, moment).expect("a draft");
    let all = cut_of_each(&at(&plan, moment), &at(&made.plan, moment), &made);
    let (_, uprights, gone, stubs) = all[0];
    assert_eq!(uprights, 8);
    assert!(gone >= 3, "{:?}", made.pieces);
    assert_eq!(stubs, 0, "{gone} taken off: {:?}", made.pieces);
}

/// How many stubs of a window stand nearer to an upright than is let pass.
pub(super) fn crowded_stubs(at: &Replayed, moment: Moment) -> usize {
    let least = at.targets.let_pass(Limit::UprightSpacingMin) - 1e-6;
    let mut places: Vec<(f64, bool, bool)> = Vec::new();
    for posed in at.row.posed() {
        for place in places_of(posed) {
            let shoot = posed.tree().shoot(place.shoot).expect("it stands there");
            let fresh = shoot.kind() == Kind::Stub && shoot.last_cut() == Some(moment);
            places.push((place.x, fresh, shoot.kind() == Kind::Upright));
        }
    }
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let usual = at.targets.get(Limit::UprightSpacing);
    // Beside one that it could rather make room for: the space without it is nearer to the usual one than the two are, or they stand
    // within a hand's breadth.
    let crowded = |i: usize| {
        let space = match (i.checked_sub(1), places.get(i + 1)) {
            (Some(left), Some(right)) => right.0 - places[left].0,
            _ => 0.0,
        };
        let near = |p: &(f64, bool, bool)| (p.0 - places[i].0).abs();
        let others = places.iter().filter(|p| p.2 && near(p) < least);
        let mut apart = others.map(near);
        apart.any(|d| d < 100.0 || space - usual <= usual - d)
    };
    (0..places.len())
        .filter(|i| places[*i].1 && crowded(*i))
        .count()
}

/// What does not hold of a draft.
fn broken(plan: &Plan, moment: Moment, made: &Draft) -> Vec<String> {
    let mut out = Vec::new();
    let mut hold = |holds: bool, what: String| {
        if !holds {
            out.push(what);
        }
    };
    let (before, after) = (at(plan, moment), at(&made.plan, moment));
    hold(
        after.void.len() <= before.void.len(),
        format!("void work: {:?}", after.void),
    );
    let start = found(plan, &before, false);
    let graver = graver(&start, &found(&made.plan, &after, false));
    hold(graver.is_empty(), format!("graver: {graver:?}"));
    let second = draft(&made.plan, 0, moment).expect("a second draft");
    hold(
        second.is_empty(),
        format!("a second draft adds {:?}", second.pieces.first()),
    );
    hold(
        second.plan == made.plan,
        "a second draft changes the plan".into(),
    );
    // Of two that stand too close one goes.
    let goes = |w: &Work, f: &Finding| {
        let gone = matches!(w, Work::Remove { .. });
        gone && f
            .subjects
            .iter()
            .any(|p| Some(p.tree) == w.tree() && p.shoot == Some(w.subject().shoot))
    };
    for piece in &made.pieces {
        let Why::Found(f) = &piece.why else { continue };
        if f.rule == "uprights-too-close" && piece.work.iter().any(|w| goes(w, f)) {
            let mut others = made.pieces.iter();
            let twice = others.find(|p| {
                let other = |w: &Work| goes(w, f) && !piece.work.contains(w);
                p.work.iter().any(other) && matches!(&p.why, Why::Found(why) if why.rule == f.rule && why.subjects == f.subjects)
            });
            hold(twice.is_none(), format!("both go of {:?}", f.subjects));
        }
    }
    // A wire is asked for what stands to be tied to it, not for what is cut.
    let cut = |part: &Part| {
        let mut all = made.pieces.iter().flat_map(|p| &p.work);
        all.any(|w| {
            matches!(w, Work::Stub { .. } | Work::Remove { .. })
                && w.tree() == Some(part.tree)
                && part.shoot == Some(w.subject().shoot)
        })
    };
    for piece in &made.pieces {
        let Why::Found(f) = &piece.why else { continue };
        let felled = f.subjects.iter().filter(|p| cut(p)).count();
        hold(
            !f.asks_for_wire() || felled == 0,
            format!("a wire for {felled} uprights that are cut"),
        );
    }
    // No new stub stands beside an upright that crowds it, but where neither can go: that is told.
    let (were, are) = (
        crowded_stubs(&before, moment),
        crowded_stubs(&after, moment),
    );
    let told = found(&made.plan, &after, false);
    let told = told
        .iter()
        .filter(|f| f.rule == "uprights-too-close" && f.severity > Severity::Note);
    hold(
        are <= were + told.count(),
        format!("{are} stubs beside what crowds them, {were} before"),
    );
    // No more than a third of a tree comes off and is stubbed in one winter, where it is stubbed at all, unless something else is the
    // worse without each of the stubs.
    for (tree, uprights, gone, stubs) in cut_of_each(&before, &after, made) {
        let mut own = made.pieces.iter().flat_map(|p| &p.work);
        let done = found(&made.plan, &after, false);
        // Each of them.
        let mut needed = || {
            own.by_ref().all(|work| {
                let is = matches!(work, Work::Stub { tree: t, .. } if t.0 == tree);
                let without = made.plan.without_work(0, moment, |w| w == work);
                is.then(|| without.expect("a scheme"))
                    .is_none_or(|without| {
                        let left = found(&without, &at(&without, moment), false);
                        let same =
                            |a: &Finding, b: &Finding| a.rule == b.rule && a.subjects == b.subjects;
                        let own = [
                            "renewal-due",
                            "wood-too-old",
                            "laterals-due",
                            "tipping-due",
                            "above-wall",
                        ];
                        let mut new = left
                            .iter()
                            .filter(|f| !own.contains(&f.rule) && !f.subjects.is_empty());
                        new.any(|f| !done.iter().any(|d| same(d, f)))
                    })
            })
        };
        hold(
            stubs == 0 || gone + stubs <= uprights.div_ceil(3) || needed(),
            format!("tree {tree}: {stubs} stubs and {gone} taken off, of {uprights}"),
        );
    }
    // Where a bud is notched there is wood beyond it.
    for work in made.pieces.iter().flat_map(|p| &p.work) {
        if let Work::Notch { tree, shoot, at_mm } = work {
            let wood = before.row.tree(*tree).and_then(|t| t.shoot(*shoot));
            hold(
                wood.is_none_or(|w| w.length() >= at_mm.f() + 20.0),
                format!("notched at the end: {work:?}"),
            );
        }
    }
    // Every piece's work is in the plan, and nothing else beside what was there.
    let planned = plan.with_planned(0, moment).expect("a first scheme");
    let was: Vec<Work> = planned.schemes[0].work(moment).cloned().collect();
    let is: Vec<Work> = made.plan.schemes[0].work(moment).cloned().collect();
    let proposed: Vec<&Work> = made.pieces.iter().flat_map(|p| &p.work).collect();
    hold(
        proposed.iter().all(|w| is.contains(w)),
        "proposed work is not in the plan".into(),
    );
    let other = is
        .iter()
        .find(|w| !was.contains(w) && !proposed.contains(w));
    hold(other.is_none(), format!("{other:?} was not proposed"));
    if !plan.schemes[0].stands(moment) {
        let gone = was.iter().find(|w| !is.contains(w));
        hold(gone.is_none(), format!("planned work is gone: {gone:?}"));
    }
    // What is kept comes back as it was promised, where the row itself is one of whole millimetres.
    let kept = |plan: &Plan| read_plan(write_plan(plan).as_bytes()).expect("a plan");
    let figures = |r: &Replayed| figures(r.row.row(), &r.targets);
    let whole = kept(plan).found == plan.found;
    hold(
        !whole || figures(&at(&kept(&made.plan), moment)) == figures(&after),
        "kept, it is another row".into(),
    );
    for kind in made
        .pieces
        .iter()
        .map(|p| p.kind())
        .collect::<BTreeSet<_>>()
    {
        let part = made.taken(plan, |p| p.kind() == kind);
        let part = part.expect("a part").plan;
        let void = at(&part, moment).void.len();
        hold(
            void <= before.void.len(),
            format!("{kind} alone leaves work void"),
        );
        let now: Vec<Work> = part.schemes[0].work(moment).cloned().collect();
        let strange = now
            .iter()
            .find(|w| !was.contains(w) && !proposed.contains(w));
        hold(
            strange.is_none(),
            format!("{kind} alone brings {strange:?}"),
        );
    }
    let none = made.taken(plan, |_| false).expect("a part");
    hold(
        none.plan == planned || made.is_empty(),
        "nothing taken changes the plan".into(),
    );
    let bytes = write_plan(plan);
    let mut history = History::new(plan.clone());
    history.set("draft", made.plan.clone());
    history.undo();
    hold(write_plan(history.plan()) == bytes, "not undone".into());
    if moment.window == Window::Dormant && moment == plan.start() {
        let wood = Wood::of(plan, &before, &start);
        let (standing, (stand, were)) = wood.left(&after);
        if wood.most > wood.quota {
            let least = 0.95 * (wood.most - wood.quota) as f64;
            hold(
                standing as f64 >= least - 1e-9,
                format!("{standing} stand of {} less {}", wood.most, wood.quota),
            );
            hold(
                stand >= 0.9 * were - 1e-9,
                format!("median {stand:.1} of {were:.1} mm"),
            );
        }
    }
    out
}

/// Drafts the windows of the found leaf and of the next on each row, and tells what does not hold.
fn hold(name: &str, rows: &[(String, Plan)], leaves: u8) {
    let (mut pieces, mut works, mut drafts) = (0, 0, 0);
    let mut out = Vec::new();
    for (row, plan) in rows {
        let mut now = plan.clone();
        for leaf in 0..leaves {
            for window in Window::ALL {
                let moment = Moment {
                    leaf: plan.found.leaf + leaf,
                    window,
                };
                let made = draft(&now, 0, moment).expect("a draft");
                drafts += 1;
                pieces += made.pieces.len();
                works += made.pieces.iter().map(|p| p.work.len()).sum::<usize>();
                let broken = broken(&now, moment, &made);
                if !broken.is_empty() {
                    out.push(format!("{row}, {moment:?}: {}", broken.join("; ")));
                }
                // The next window is drafted on what this one left.
                now = made.plan;
            }
        }
    }
    println!(
        "{name}: {drafts} drafts, {pieces} pieces, {works} works, not so {}",
        out.len()
    );
    assert!(out.is_empty(), "{}", out.join("\n"));
}

#[test]
fn drafts_of_every_example() {
    hold("examples, bare", &examples(), 2);
}

#[test]
fn drafts_of_every_example_as_it_is_planned() {
    let all = cordonry_tests::examples::all().into_iter();
    let plans = all.filter(|(name, _)| name.ends_with(".json"));
    let read = |text: String| cordonry::file::read_plan(text.as_bytes()).expect("a plan");
    let rows: Vec<(String, Plan)> = plans.map(|(name, text)| (name, read(text))).collect();
    hold("examples", &rows, 2);
}

#[test]
fn drafts_of_plausible_rows() {
    hold("plausible", &numbered((0..200).map(plausible)), 1);
}

#[test]
fn drafts_of_extreme_rows() {
    hold("extreme", &numbered(extreme(60)), 1);
}

/// What is left for this year is not mended.
#[test]
fn what_is_left_stays_left() {
    let mut with_some = 0;
    for (name, plan) in examples() {
        let moment = plan.start();
        let at = at(&plan, moment);
        let seen = survey(&Context::of(&at), None);
        let all: Vec<_> = seen.findings.iter().collect();
        let open = matters(&at.row, &seen.cover, &at.targets, &all, &plan.left);
        let found = |made: &Draft| {
            let found = |w: &Why| matches!(w, Why::Found(_));
            made.pieces.iter().filter(|p| found(&p.why)).count()
        };
        with_some += usize::from(found(&draft(&plan, 0, moment).unwrap()) > 0);
        let mut left = plan.clone();
        for matter in &open {
            let matter = matter.left(&all, at.row.leaf, "next year".into());
            left = left.with_left(&matter).expect("it can be left");
        }
        assert_eq!(found(&draft(&left, 0, moment).unwrap()), 0, "{name}");
    }
    assert!(with_some > 8, "{with_some}");
}

/// How many of a winter's new stubs stand beside another one or beside a hole of the wall, and how many there are.
fn stubs_beside(plan: &Plan) -> (usize, usize) {
    let moment = plan.start();
    let at = at(plan, moment);
    let most = at.targets.let_pass(Limit::UprightSpacingMax);
    let mut places: Vec<(f64, bool)> = Vec::new();
    for posed in at.row.posed() {
        for place in places_of(posed) {
            let shoot = posed.tree().shoot(place.shoot).expect("it stands there");
            let fresh = shoot.kind() == Kind::Stub && shoot.last_cut() == Some(moment);
            places.push((place.x, fresh));
        }
    }
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let bad = |two: &(f64, bool), here: &(f64, bool)| two.1 || (two.0 - here.0).abs() > most;
    let fresh = (0..places.len()).filter(|i| places[*i].1);
    let beside = fresh.clone().filter(|i| {
        let left = i.checked_sub(1).and_then(|l| places.get(l));
        let around = left.into_iter().chain(places.get(i + 1));
        around.into_iter().any(|p| bad(p, &places[*i]))
    });
    (beside.count(), fresh.count())
}

/// Where rules judge tree by tree, more stubs come to stand beside each other and beside holes than where the row is seen.
#[test]
fn fewer_stubs_stand_beside_each_other_than_by_rule() {
    let (mut by_rule, mut drafted, mut off) = ((0, 0), (0, 0), 0);
    let rows = (0..200).map(plausible).filter(|p| p.found.leaf >= 3);
    for plan in rows {
        let stands = plan.with_all_standing();
        let made = draft(&stands, 0, plan.start()).expect("a draft");
        for (sum, plan) in [(&mut by_rule, &stands), (&mut drafted, &made.plan)] {
            let (beside, all) = stubs_beside(plan);
            (sum.0, sum.1) = (sum.0 + beside, sum.1 + all);
        }
        // What crowds and is due is taken off whole.
        let (before, after) = (at(&plan, plan.start()), at(&made.plan, plan.start()));
        let each = cut_of_each(&before, &after, &made);
        off += each.iter().map(|(_, _, gone, _)| gone).sum::<usize>();
    }
    println!("by rule {by_rule:?}, drafted {drafted:?} and {off} taken off");
    assert!(
        (drafted.1 + off) * 10 >= by_rule.1 * 9,
        "as many are renewed, or nearly"
    );
    assert!(drafted.0 * by_rule.1 < by_rule.0 * drafted.1);
}

/// Stock is laid in early summer, at no other time, and nothing else is laid where it is to go.
#[test]
fn stock_is_laid_in_its_time() {
    let all = cordonry_tests::examples::all();
    let lesson = all
        .iter()
        .find(|(name, _)| name.ends_with("headed-laid-at-once-or-later.json"));
    let mut plan = read_plan(lesson.expect("the lesson").1.as_bytes()).expect("a plan");
    // By the usual rules, whatever its schemes say.
    plan.schemes = Plan::new("", (*plan.found).clone()).schemes;
    let mut laid = BTreeSet::new();
    for leaf in 1..=2 {
        for window in Window::ALL {
            let moment = Moment { leaf, window };
            plan = draft(&plan, 0, moment).expect("a draft").plan;
            for work in plan.schemes[0].work(moment) {
                if let Work::Lay { tree, shoot, .. } = work {
                    assert_eq!(window, Window::EarlySummer, "{work:?}");
                    assert_eq!(*shoot, ShootId::STEM);
                    laid.insert(*tree);
                }
            }
        }
    }
    assert_eq!(laid.len(), 4);
}

/// Each tree is tipped as little as leaves the fruit its leaf, within what is usual.
#[test]
fn tips_are_the_least_that_leave_each_fruit_its_leaf() {
    let (mut none, mut least, mut more, mut thinned) = (0, 0, 0, 0);
    for seed in 0..60 {
        let plan = plausible(seed);
        let leaf = plan.found.leaf;
        let made = tips(&plan, 0, leaf).expect("tips");
        let leaf_of_a_fruit = |plan: &Plan, tree| {
            let years = Years::default().of(plan, 0, made.harvest).expect("years");
            let i = plan.found.trees.iter().position(|t| t.id == tree).unwrap();
            years.trees[i].years[usize::from(made.harvest - leaf)]
                .crop
                .leaf_of_a_fruit
        };
        for tip in &made.trees {
            let now = leaf_of_a_fruit(&made.plan, tip.tree);
            assert!((now - tip.leaf_of_a_fruit.1).abs() < 1e-6);
            let enough = |leaf: f64| leaf == 0.0 || leaf >= LEAF_OF_A_FRUIT;
            assert_eq!(tip.percent == 0, enough(tip.leaf_of_a_fruit.0));
            if tip.percent == 0 {
                none += 1;
                continue;
            }
            assert!(tip.percent >= PERCENT.0 && tip.percent <= PERCENT.1);
            if tip.percent == PERCENT.0 {
                least += 1;
                continue;
            }
            more += 1;
            let weaker = made.work.iter().map(|w| match w {
                Work::Tip {
                    tree,
                    shoot,
                    percent,
                } if *tree == tip.tree => Work::Tip {
                    tree: *tree,
                    shoot: *shoot,
                    percent: percent - 1,
                },
                other => other.clone(),
            });
            let weaker = plan.with_works(0, plan.start(), weaker.collect());
            assert!(leaf_of_a_fruit(&weaker.expect("tips"), tip.tree) < LEAF_OF_A_FRUIT);
            let short = now < LEAF_OF_A_FRUIT;
            assert_eq!(tip.by_hand > 0.0, short);
            assert!(!short || tip.percent == PERCENT.1);
            thinned += usize::from(short);
        }
    }
    println!("{none} not, {least} by the least, {more} by more, {thinned} to be thinned as well");
    assert!(none > 0 && least + more > 0);
}

/// Renewal with the row seen leaves no older wood than the simple rule, or none that is too old.
#[test]
fn renewal_keeps_wood_as_young_as_the_simple_rule_does() {
    for (name, plan) in examples() {
        let made = renew(&plan, 0, plan.found.leaf, 5).expect("stubs");
        let (simple, seen) = made.oldest;
        println!(
            "{name}: {simple} by the rule, {seen} so; {:?}",
            made.gain.crop
        );
        assert!(
            seen <= simple.max(5),
            "{name}: {seen}, {simple} by the rule"
        );
        assert_eq!(made.winters.len(), 5);
        let (rule, so) = made
            .crop
            .iter()
            .fold((0.0, 0.0), |sum, crop| (sum.0 + crop.0, sum.1 + crop.1));
        let told = (made.gain.before.crop, made.gain.after.crop);
        assert!((rule - told.0).abs() < 1e-9, "{name}: {rule}, {told:?}");
        assert!((so - told.1).abs() < 1e-9, "{name}: {so}, {told:?}");
    }
}

/// A draft that is taken, and the rules after it, hold all wood to the age limit from the first winter in which that can be.
#[test]
fn after_a_draft_no_wood_passes_the_age_limit_but_what_has_or_must() {
    for (name, plan) in examples() {
        let moment = plan.start();
        let made = draft(&plan, 0, moment).expect("a draft");
        let rest = made.plan.with_all_standing();
        let limit = rest.limits(0).get(Limit::WoodAgeMax);
        let leaves = Forecast::default().of(&rest, 0, moment.leaf + 10);
        let leaves = leaves.expect("leaves");
        let oldest: Vec<u8> = leaves.iter().map(|f| f.wood_age_max).collect();
        println!("{name}: {oldest:?}");
        let young = kept_young_from(&leaves, limit);
        assert!(young.is_some(), "{name}: {oldest:?}");
        if f64::from(oldest[0]) < limit - 1.0 {
            assert_eq!(young, Some(moment.leaf), "{name}: {oldest:?}");
        }
    }
}

/// Where a draft lays a shoot, what is offered first lays it the same way, and takes it off nowhere else.
#[test]
fn what_is_offered_first_does_not_go_against_the_draft() {
    let (mut alike, mut against) = (0, Vec::new());
    let rows = examples()
        .into_iter()
        .chain(numbered((0..60).map(plausible)));
    for (name, plan) in rows {
        let moment = plan.start();
        let made = draft(&plan, 0, moment).expect("a draft");
        let done: Vec<&Work> = made.pieces.iter().flat_map(|p| &p.work).collect();
        let first = found(&plan, &at(&plan, moment), true).into_iter();
        let first = first.filter_map(|f| Some((f.rule, f.remedies.into_iter().next()?)));
        for (rule, remedy) in first {
            for work in &remedy.work {
                let same = |d: &&&Work| d.subject() == work.subject();
                for other in done.iter().filter(same) {
                    let ways = [work, *other].map(|w| match w {
                        Work::Lay { toward, .. } => Some(*toward),
                        _ => None,
                    });
                    let kinds = ways.map(|w| w.is_some());
                    let cuts = |w: &Work| {
                        matches!(
                            w,
                            Work::Stub { .. } | Work::Remove { .. } | Work::CutToBuds { .. }
                        )
                    };
                    let both_lay = kinds == [true, true];
                    if both_lay && ways[0] != ways[1]
                        || kinds[0] && cuts(other)
                        || kinds[1] && cuts(work)
                    {
                        against.push(format!("{name} {rule}: {work:?}, drafted {other:?}"));
                    } else if both_lay {
                        alike += 1;
                    }
                }
            }
        }
    }
    println!("{alike} are laid alike, against it {}", against.len());
    assert!(against.is_empty(), "{}", against.join("\n"));
    assert!(alike > 20);
}
