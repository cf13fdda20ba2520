//! Rows of irregular stock with a dead tree among them: new stock goes into its place.

use super::rows::plausible_of;
use cordonry::advise::draft;
use cordonry::check::{Context, Finding, check, tried};
use cordonry::plan::{Phase, Plan, Replayer};
use cordonry::row::{Moment, Tree, TreeId, Window};
use cordonry::seed::Seeded;
use cordonry::units::Mm;
use cordonry::work::Work;
use std::sync::Arc;

const REPLANT: &str = "remedy-replant";

/// Eight trees as a nursery's leftovers may be: stock of 0.6 to 2.1 m, 1.2 to 2 m apart, the fifth dead.
pub fn irregular(seed: u32) -> Plan {
    let mut plan = plausible_of(seed, 8, 1);
    let row = Arc::make_mut(&mut plan.found);
    let mut chance = Seeded::new(u64::from(seed) + 77);
    let mut foot = row.trees[0].foot.0;
    for tree in &mut row.trees {
        let tree = Arc::make_mut(tree);
        tree.foot = Mm(foot);
        foot += 1_200 + (800.0 * chance.share()) as i32;
        if let Some(stem) = tree.shoots.first_mut() {
            let length = 600.0 + 1_500.0 * chance.share();
            let of = stem.length();
            for unit in &mut stem.units {
                unit.kept *= length / of;
                unit.grown *= length / of;
            }
        }
    }
    row.to = Mm(foot);
    let (id, foot, planted) = (row.trees[4].id, row.trees[4].foot, row.trees[4].planted);
    row.trees[4] = Arc::new(Tree::lost(id, foot, planted));
    plan
}

#[test]
fn a_lost_tree_is_planted_again() {
    let (mut offered, mut planted, mut all) = (0, 0, 0);
    let mut out = Vec::new();
    for seed in 0..24 {
        let plan = irregular(seed);
        for leaf in 2..9 {
            let moment = Moment {
                leaf,
                window: Window::Dormant,
            };
            let at = Replayer::default().at(&plan, 0, moment, Phase::After);
            let at = at.expect("a first scheme");
            let found = check(&Context::of(&at));
            let is_replant =
                |f: &Finding, place: u32| f.remedies[place as usize].said.key == REPLANT;
            let offers = tried(&plan, 0, &at, &found);
            let dead = at.row.trees[4].foot.f();
            for (f, offers) in found.iter().zip(&offers) {
                let wide = f.x < dead && dead < f.x + f.width && f.measured > 1_000.0;
                if f.rule != "cordon-gap" || !wide {
                    continue;
                }
                all += 1;
                let offer = offers.iter().any(|(place, _)| is_replant(f, *place));
                offered += usize::from(offer);
                let made = draft(&plan, 0, moment).expect("a draft");
                let new = |w: &Work| {
                    matches!(
                        w,
                        Work::ReplaceTree {
                            tree: TreeId(5),
                            ..
                        }
                    )
                };
                let plants = made.pieces.iter().flat_map(|p| &p.work).any(new);
                planted += usize::from(plants);
                if !plants || !offer {
                    out.push(format!("{seed}, leaf {leaf}: {:.0} mm bare, offered {offer}, drafted {plants}: {:?}", f.width, f.remedies.iter().map(|r| r.said.key).collect::<Vec<_>>()));
                }
            }
        }
    }
    println!("{all} wide stretches, {offered} offered, {planted} planted");
    assert!(out.is_empty() && all > 40, "{}", out.join("\n"));
}
