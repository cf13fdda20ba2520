//! Work that is handed out: all of it, piece for piece, in walks that leave the row as the plan does.

use cordonry::advise::draft;
use cordonry::crew::{Hands, Job, Pass, Rate, Rates, Season, season, window};
use cordonry::file::read_plan;
use cordonry::plan::{Correction, Moment, Phase, Plan, Replayer, Window};
use cordonry::row::{Covering, GrowthUnit, ShootId, Toward, Tree, TreeId};
use cordonry::units::{Deg, Mm};
use cordonry::work::{Work, apply};
use cordonry_fixture::wall::{row, stem};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

fn plans() -> BTreeMap<String, Plan> {
    fn look(folder: &Path, out: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            match path.is_dir() {
                true => look(&path, out),
                false if path.extension().is_some_and(|e| e == "json") => out.push(path),
                false => {}
            }
        }
    }
    let mut files = Vec::new();
    look(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples"),
        &mut files,
    );
    let read = |p: PathBuf| {
        let plan = read_plan(&fs::read(&p).unwrap()).unwrap();
        (p.file_name().unwrap().to_str().unwrap().into(), plan)
    };
    files.into_iter().map(read).collect()
}

/// Pieces of work by how they are written, each with how many there are.
fn counted<'w>(work: impl Iterator<Item = &'w Work>) -> BTreeMap<String, usize> {
    let mut out = BTreeMap::new();
    for work in work {
        *out.entry(format!("{work:?}")).or_default() += 1;
    }
    out
}

fn of_window(season: &Season, window: Window) -> Vec<&Pass> {
    let passes = season.passes.iter();
    passes.filter(|p| p.moment.window == window).collect()
}

/// The plan with a tree marked as diseased.
fn marked(plan: &Plan, tree: TreeId) -> Plan {
    let diseased = true;
    let marked = plan.corrected(&Correction::Diseased { tree, diseased });
    marked.unwrap()
}

#[test]
fn the_passes_of_a_leaf_hold_its_work_piece_for_piece_and_both_ways() {
    let plans = plans();
    assert!(plans.len() >= 20, "{}", plans.len());
    let mut pieces = 0;
    for (name, plan) in &plans {
        let mut standing = plan.found.trees.iter().filter(|t| !t.is_lost());
        let ill = standing.next().unwrap().id;
        let plan = &marked(plan, ill);
        for scheme in 0..plan.schemes.len() {
            let mut replayer = Replayer::default();
            for leaf in plan.found.leaf..plan.found.leaf + 4 {
                let season = season(plan, scheme, leaf).unwrap();
                let plan = match season.usual {
                    true => &plan.with_season_usual(scheme, leaf).unwrap(),
                    false => plan,
                };
                for window in Window::ALL {
                    let at = Moment { leaf, window };
                    let all = replayer.work_at(plan, scheme, at).unwrap();
                    let told = of_window(&season, window);
                    let void = season.void.iter().filter(|(m, _)| *m == at);
                    let handed = told.iter().flat_map(|p| p.work()).chain(void.map(|v| &v.1));
                    assert_eq!(counted(handed), counted(all.iter()), "{name} {at:?}");
                    pieces += all.len();
                    for pass in told {
                        assert!(pass.work().all(|w| Job::of(w) == pass.job), "{name} {at:?}");
                        let trees: Vec<f64> = pass.stops.iter().map(|s| s.x).collect();
                        assert!(trees.is_sorted(), "{name} {at:?} {:?}: {trees:?}", pass.job);
                        let on_ill = |w: &Work| w.tree() == Some(ill);
                        assert!(pass.work().all(|w| on_ill(w) == pass.diseased));
                        assert!(pass.stops.iter().all(|s| !s.work.is_empty()));
                    }
                }
            }
        }
    }
    assert!(pieces > 4000, "{pieces}");
}

#[test]
fn whoever_does_the_passes_in_their_order_leaves_the_row_as_the_plan_does() {
    for (name, plan) in plans() {
        let mut replayer = Replayer::default();
        for leaf in plan.found.leaf..plan.found.leaf + 3 {
            for window in Window::ALL {
                let at = Moment { leaf, window };
                let passes = cordonry::crew::window(&plan, 0, at).unwrap();
                let after = replayer.at(&plan, 0, at, Phase::After).unwrap();
                let Some(last) = passes.last() else { continue };
                let mut row = last.row.row().clone();
                for work in last.work() {
                    row = apply(&row, at, &after.terms, work).unwrap();
                }
                // Which of two shoots that come with the work comes first says nothing.
                let by_id = |trees: &[Arc<Tree>]| -> Vec<Tree> {
                    let mut trees: Vec<Tree> = trees.iter().map(|t| Tree::clone(t)).collect();
                    for tree in &mut trees {
                        tree.shoots.sort_by_key(|s| s.id);
                    }
                    trees
                };
                let (ours, theirs) = (by_id(&row.trees), by_id(&after.row.trees));
                assert!(ours == theirs, "{name} {at:?}");
                assert_eq!(row.trellis, after.row.trellis, "{name} {at:?}");
            }
        }
    }
}

/// Who walks from a tree's trunk on comes to the pieces in their order, and walks each job once.
#[test]
fn in_a_tree_pieces_stand_as_they_are_come_to_and_each_job_is_one_walk() {
    let (mut counted, mut both_ways) = (0, 0);
    let mut plans = plans();
    for name in ["opposed-leans.json", "short-stock.json"] {
        let drafted = draft(&plans[name], 0, plans[name].start()).unwrap().plan;
        plans.insert(format!("drafted {name}"), drafted);
    }
    for (name, plan) in plans {
        for leaf in plan.found.leaf..plan.found.leaf + 3 {
            let season = season(&plan, 0, leaf).unwrap();
            for window in Window::ALL {
                let mut jobs: Vec<(bool, Job)> = of_window(&season, window)
                    .iter()
                    .map(|p| (p.diseased, p.job))
                    .collect();
                let all = jobs.len();
                jobs.sort_unstable();
                jobs.dedup();
                assert_eq!(jobs.len(), all, "{name} {leaf} {window:?}: {jobs:?}");
            }
            for pass in &season.passes {
                for stop in pass.stops.iter().filter(|s| s.work.len() > 1) {
                    let posed = pass.row.of_tree(stop.tree.unwrap_or(TreeId(0)));
                    let Some(posed) = posed else { continue };
                    let name_of = |w: &Work| posed.name(w.subject().shoot);
                    let numbers = stop.work.iter().filter_map(name_of);
                    let numbers = numbers.filter(|n| {
                        matches!(
                            n.called,
                            cordonry::pose::Called::Upright | cordonry::pose::Called::Stub
                        )
                    });
                    let numbers: Vec<(Option<Toward>, u16)> =
                        numbers.map(|n| (n.side, n.number)).collect();
                    assert!(
                        numbers.is_sorted(),
                        "{name} {leaf} {:?} {numbers:?}",
                        pass.job
                    );
                    counted += numbers.len();
                    both_ways += usize::from(numbers.iter().any(|n| n.0.is_some()));
                }
            }
        }
    }
    assert!(counted > 500 && both_ways > 5, "{counted} {both_ways}");
}

#[test]
fn buds_of_wood_that_is_laid_are_handed_out_once_it_lies() {
    let mut plans = plans();
    let mut laid_first = 0;
    for name in ["opposed-leans.json", "short-stock.json"] {
        let plan = plans.remove(name).unwrap();
        let plan = draft(&plan, 0, plan.start()).unwrap().plan;
        let season = season(&plan, 0, plan.found.leaf).unwrap();
        assert_eq!(season.void, [], "{name}");
        let mut jobs = season.passes.iter().map(|p| p.job);
        laid_first += usize::from(
            jobs.any(|j| j == Job::Tie) && jobs.any(|j| matches!(j, Job::Buds | Job::Notch)),
        );
    }
    assert_eq!(laid_first, 2);
}

#[test]
fn ten_uprights_give_two_stubs_in_a_full_round_of_a_fifth() {
    let tree = stem(1, 0, 45.0, Toward::Right, 2800.0).uprights(&[
        700.0, 890.0, 1080.0, 1270.0, 1460.0, 1650.0, 1840.0, 2030.0, 2220.0, 2320.0,
    ]);
    let mut row = row(500, 2500, vec![tree]);
    row.leaf = 7;
    for tree in &mut row.trees {
        let tree = Arc::make_mut(tree);
        for (i, shoot) in tree.shoots.iter_mut().enumerate().skip(1) {
            // A round that is under way: two of each age.
            let born = 2 + ((i - 1) / 2) as u8;
            shoot.units = (born..7)
                .map(|leaf| GrowthUnit::whole(leaf, 600.0))
                .collect();
            shoot.diameter = 14.0 + i as f64;
        }
    }
    let plan = Plan::new("Ten", row);
    let season = season(&plan, 0, 7).unwrap();
    assert!(season.usual, "the plan holds no work");
    let of_stubs = |p: &&Pass| p.job == Job::Stub;
    let stubs: Vec<usize> = season
        .passes
        .iter()
        .filter(of_stubs)
        .map(Pass::count)
        .collect();
    assert_eq!(stubs, [2]);
    // The order of the walks: stubs, then laterals or tips.
    let jobs: Vec<Job> = of_window(&season, Window::Dormant)
        .iter()
        .map(|p| p.job)
        .collect();
    assert!(jobs.is_sorted() && jobs[0] == Job::Stub, "{jobs:?}");
    assert_eq!(season.passes[0].people, 1);
}

#[test]
fn a_leaf_without_work_gets_the_usual_work_and_one_with_work_does_not() {
    let plan = &plans()["third-leaf.json"].with_standing(0, false).unwrap();
    let third = season(plan, 0, 3).unwrap();
    assert!(!third.usual && !third.passes.is_empty());
    assert!(third.passes.iter().all(|p| !p.stands), "it is planned");
    // Where no rules stand there is no work later on.
    let fourth = season(plan, 0, 4).unwrap();
    assert!(fourth.usual && !fourth.passes.is_empty());
    assert!(fourth.passes.iter().all(|p| p.stands));
    // What was done before stays as it was: the row that the first pass finds is the plan's own.
    let own = Replayer::default()
        .at(plan, 0, Moment::dormant(4), Phase::Before)
        .unwrap();
    assert_eq!(fourth.passes[0].row.trees, own.row.trees);
}

#[test]
fn diseased_trees_are_walked_last_with_tools_disinfected() {
    let plan = &plans()["overdue-renewal.json"];
    let at = plan.start();
    let plain = window(plan, 0, at).unwrap();
    let usual = match plain.is_empty() {
        true => plan.with_season_usual(0, at.leaf).unwrap(),
        false => plan.clone(),
    };
    let ill = usual.found.trees[1].id;
    let passes = window(&marked(&usual, ill), 0, at).unwrap();
    let first = passes.iter().position(|p| p.diseased).expect("it has work");
    assert!(passes[first..].iter().all(|p| p.diseased));
    for pass in &passes {
        assert_eq!(pass.cautions().contains(&"caution-diseased"), pass.diseased);
        let on_ill = |w: &Work| w.tree() == Some(ill);
        assert!(pass.work().all(|w| on_ill(w) == pass.diseased));
    }
    let minutes = |ps: &[Pass]| -> f64 { ps.iter().map(|p| p.minutes).sum() };
    let plain = window(&usual, 0, at).unwrap();
    let cuts = passes.iter().filter(|p| p.diseased && p.job.cuts()).count();
    let more = cuts as f64 * Rates::default().get(Rate::Disinfect) / 60.0;
    assert!((minutes(&passes) - minutes(&plain) - more).abs() < 1e-9);
}

#[test]
fn other_times_and_people_count_as_if_they_had_been_told_at_first_and_only_those_that_are_listed() {
    let plan = &plans()["overdue-renewal.json"];
    let leaf = plan.found.leaf;
    let minutes = |s: &Season| -> f64 { s.passes.iter().map(|p| p.minutes).sum() };
    let plain = season(plan, 0, leaf).unwrap();
    let listed = plain.rates();
    assert!(listed.contains(&Rate::Stub) && listed.contains(&Rate::Walk));
    assert!(!listed.contains(&Rate::Disinfect) && !listed.contains(&Rate::Plant));
    for rate in Rate::ALL {
        let mut hands = Hands::default();
        hands.rates.set(rate, 2.0 * rate.info().1).unwrap();
        hands.set_people(Job::Stub, Some(3.0)).unwrap();
        let mut timed = plain.clone();
        timed.time(&hands);
        let kept = Plan {
            hands: Arc::new(hands),
            ..plan.clone()
        };
        let asked = season(&kept, 0, leaf).unwrap();
        let of =
            |s: &Season| -> Vec<_> { s.passes.iter().map(|p| (p.people, p.minutes)).collect() };
        assert_eq!(of(&timed), of(&asked), "{rate:?}");
        let counts = (minutes(&timed) - minutes(&plain)).abs() > 1e-9;
        assert_eq!(counts, listed.contains(&rate), "{rate:?}");
        timed.time(&Hands::default());
        assert_eq!(of(&timed), of(&plain));
    }
    let mut hands = Hands::default();
    for (people, taken) in [
        (0.0, false),
        (1.0, true),
        (1.5, false),
        (100.0, true),
        (101.0, false),
    ] {
        assert_eq!(
            hands.set_people(Job::Tip, Some(people)).is_ok(),
            taken,
            "{people}"
        );
    }
    for (seconds, taken) in [
        (-0.1, false),
        (0.0, true),
        (7_200.0, true),
        (7_200.1, false),
    ] {
        assert_eq!(
            hands.rates.set(Rate::Tip, seconds).is_ok(),
            taken,
            "{seconds}"
        );
    }
    hands.set_people(Job::Tip, None).unwrap();
    assert!(hands.people.is_empty());
}

#[test]
fn a_caution_stands_on_the_passes_that_need_it_and_on_no_other() {
    let mut seen: BTreeMap<&str, Vec<Job>> = BTreeMap::new();
    let mut plans = plans();
    // No example has work on its wires; the one at 1.00 m is within reach.
    let wired = plans["third-leaf.json"].clone();
    let cover = |height| Work::CoverWire {
        height_mm: Mm(height),
        covering: Covering::Plastic,
    };
    let low = wired.with_work(0, wired.start(), cover(1000)).unwrap();
    let high = wired.with_work(0, wired.start(), cover(2500)).unwrap();
    let ladder = |plan: &Plan| {
        let passes = window(plan, 0, plan.start()).unwrap();
        let wires = passes.into_iter().find(|p| p.job == Job::Wires).unwrap();
        wires.cautions().contains(&"caution-ladder")
    };
    assert!(!ladder(&low) && ladder(&high));
    plans.insert("wired".into(), low);
    for plan in plans.values() {
        for leaf in plan.found.leaf..plan.found.leaf + 3 {
            for pass in season(plan, 0, leaf).unwrap().passes {
                for caution in pass.cautions() {
                    seen.entry(caution).or_default().push(pass.job);
                }
                let high = pass.cautions().contains(&"caution-ladder");
                assert_eq!(high, pass.high);
            }
        }
    }
    for jobs in seen.values_mut() {
        jobs.sort_unstable();
        jobs.dedup();
    }
    let everywhere = seen["caution-glasses"].clone();
    assert_eq!(everywhere, seen["caution-spray"]);
    assert!(everywhere.len() >= 7, "{everywhere:?}");
    assert_eq!(seen["caution-wire"], [Job::Wires]);
    assert_eq!(seen["caution-bend"], [Job::Tie]);
    assert_eq!(seen["caution-loosen"], [Job::Tie]);
    let blades = |jobs: &[Job]| jobs.iter().all(|j| j.cuts());
    for caution in [
        "caution-dry",
        "caution-shears",
        "caution-saw",
        "caution-canker",
    ] {
        assert!(blades(&seen[caution]), "{caution}: {:?}", seen[caution]);
    }
    assert!(!seen["caution-shears"].contains(&Job::Stub));
    assert!(seen["caution-trunk"].contains(&Job::Stub));
    assert!(!seen["caution-ladder"].contains(&Job::Buds));
}

#[test]
fn ties_and_sleeves_are_counted_by_what_is_laid_and_on_what_wire() {
    let lay = Work::Lay {
        tree: TreeId(1),
        shoot: ShootId::STEM,
        toward: Toward::Right,
        rise_deg: Deg::new(3.0),
    };
    let mut row = row(500, 2000, vec![stem(1, 0, 45.0, Toward::Right, 1450.0)]);
    let tree = Arc::make_mut(&mut row.trees[0]);
    tree.shoots[0].pose = cordonry::row::Pose::Free;
    let of = |plan: &Plan| {
        let at = Moment {
            leaf: plan.found.leaf,
            window: Window::EarlySummer,
        };
        let plan = plan.with_work(0, at, lay.clone()).unwrap();
        let passes = window(&plan, 0, at).unwrap();
        let [pass] = &passes[..] else { panic!() };
        // It has grown since: 0.30 m from tie to tie.
        let grown = pass.row.of_tree(TreeId(1)).unwrap().courses()[0].length;
        assert_eq!(pass.ties, (grown / 300.0).ceil() as usize);
        (pass.ties, pass.sleeves)
    };
    let bare = Plan::new("Bare", row.clone());
    let (ties, sleeves) = of(&bare);
    assert!(ties >= 5 && sleeves == ties, "{ties}, {sleeves}");
    row.trellis.wires[0].covering = Covering::Plastic;
    assert_eq!(of(&Plan::new("Covered", row)), (ties, 0));
}

/// Facts: 10 to 20 s an upright over all three winter passes, 200 to 400 cuts an hour, 60 to 120 h/ha in all (from memory).
#[test]
fn the_rates_of_a_winter_keep_to_each_other() {
    let rates = Rates::default();
    // A tree of 7.5 uprights 0.20 m apart, a fifth of them stubbed, the others freed of laterals and tipped.
    let uprights = 7.5;
    let walks = 3.0 * rates.get(Rate::Walk) / uprights;
    let cuts = 0.2 + 1.0 + 1.0;
    let seconds =
        0.2 * rates.get(Rate::Stub) + rates.get(Rate::Laterals) + rates.get(Rate::Tip) + walks;
    assert!((10.0..=20.0).contains(&seconds), "{seconds}");
    let an_hour = 3600.0 * cuts / seconds;
    assert!((200.0..=400.0).contains(&an_hour), "{an_hour}");
    // Rows 3 m apart.
    let hectare = 10_000.0 / 3.0 / 0.2 * seconds / 3600.0;
    assert!((60.0..=120.0).contains(&hectare), "{hectare}");
}

#[test]
fn minutes_are_the_pieces_and_one_way_to_each_tree_in_each_job() {
    let stub = |tree, shoot| Work::Stub {
        tree: TreeId(tree),
        shoot: ShootId::found(shoot),
        keep_mm: Mm(150),
    };
    let tip = Work::Tip {
        tree: TreeId(1),
        shoot: ShootId::found(4),
        percent: 20,
    };
    let wire = Work::RemoveWire { height_mm: Mm(900) };
    let all = [stub(1, 1), stub(1, 2), stub(2, 1), tip, wire];
    // Three stubs of 18 s, a tip of 5, a wire of 600 and 90 at each of four posts; three ways of 3.2 s.
    let expected = (3.0 * 18.0 + 5.0 + 600.0 + 4.0 * 90.0 + 3.0 * 3.2) / 60.0;
    let rates = Rates::default();
    assert!((rates.minutes(all.iter(), 4) - expected).abs() < 1e-9);
    let slower = rates.with("stub", 28.0).unwrap();
    assert!((slower.minutes(all.iter(), 4) - expected - 0.5).abs() < 1e-9);
    for (name, value) in [
        ("stub", -1.0),
        ("stub", 7201.0),
        ("stub", f64::NAN),
        ("saw", 1.0),
    ] {
        let refused = Rates::default().with(name, value).unwrap_err();
        assert_eq!(refused.0.key, "refusal-rate", "{name} {value}");
    }
}
