//! A winter in which a person does whatever is offered first, until nothing is offered: what is left of the wall then.

mod buds;
mod draft;
mod lost;
mod near;
mod part;
mod rows;
mod tables;
mod tips;
mod wood;

use rows::{examples, extreme, plausible};

use cordonry::check::{Context, Finding, Severity, check, check_light, mended, offered};
use cordonry::light::{Foliage, Period, row_light};
use cordonry::plan::{Plan, Replayed, replay};
use std::collections::BTreeSet;
use wood::Wood;

/// More rounds than this are no winter.
const ROUNDS: usize = 10;

/// What came of one winter.
#[derive(Clone, Debug, PartialEq)]
struct Winter {
    /// Rounds until nothing was offered.
    rounds: usize,
    /// Whether nothing was offered in the end.
    ended: bool,
    /// Whether it came back to a plan that it had been at before.
    cycle: bool,
    /// Remedies that were done, and such as could not be done any more.
    done: usize,
    /// See `done`.
    refused: usize,
    /// Grown uprights before and after.
    uprights: (usize, usize),
    /// Work that touched nothing, before and after.
    void: (usize, usize),
    /// Findings to be mended now, and soon, before and after.
    grave: ((usize, usize), (usize, usize)),
    /// Findings of the end that stand where none as grave stood before.
    graver: Vec<String>,
    /// The most well-placed uprights that can stand far enough apart, before.
    most: usize,
    /// This winter's renewal quota.
    quota: usize,
    /// How many of the well-placed stand in the end.
    standing: usize,
    /// Median thickness of those standing, and of the well-placed without their quota of thickest, mm.
    medians: (f64, f64),
    /// Remedies that cost well-placed wood.
    trace: Vec<String>,
}

impl Winter {
    /// What does not hold of it.
    fn broken(&self) -> Vec<String> {
        let mut out = Vec::new();
        let mut hold = |holds: bool, what: String| {
            if !holds {
                out.push(what);
            }
        };
        hold(self.ended, format!("not over after {} rounds", self.rounds));
        hold(!self.cycle, "comes back to where it was".into());
        hold(
            self.void.1 <= self.void.0,
            format!("void work: {:?}", self.void),
        );
        hold(self.graver.is_empty(), format!("graver: {:?}", self.graver));
        if self.most > self.quota {
            let least = 0.95 * (self.most - self.quota) as f64;
            hold(
                self.standing as f64 >= least - 1e-9,
                format!(
                    "{} stand of {} less {}",
                    self.standing, self.most, self.quota
                ),
            );
            let (stand, were) = self.medians;
            hold(
                stand >= 0.9 * were - 1e-9,
                format!("median {stand:.1} of {were:.1} mm"),
            );
        }
        out
    }
}

/// The row after the work of the found leaf's winter.
fn at(plan: &Plan) -> Replayed {
    replay(plan, 0, plan.start()).expect("a first scheme")
}

/// What is found and offered; with `light`, of its light too.
fn found(plan: &Plan, row: &Replayed, light: bool) -> Vec<Finding> {
    let context = Context::of(row);
    let mut findings = check(&context);
    if light {
        let foliage = Foliage::new(&row.row, &row.terms, &plan.targets, 1.0);
        let season = Period::growing_season(foliage.around().site.latitude_deg);
        let report = row_light::report(&foliage, &plan.targets, season);
        findings.extend(check_light(&context, &report, &findings).findings);
        findings.sort_by_key(|f| std::cmp::Reverse(f.severity));
    }
    offered(plan, 0, row, findings)
}

/// Does every first remedy, round by round, until none is left.
fn winter(plan: &Plan, light: bool) -> Winter {
    let before = at(plan);
    let start = found(plan, &before, light);
    let wood = Wood::of(plan, &before, &start);
    let mut plan = plan.clone();
    let mut been: BTreeSet<String> = BTreeSet::new();
    let (mut rounds, mut ended, mut cycle) = (0, false, false);
    let (mut done, mut refused) = (0, 0);
    let mut now = start.clone();
    let mut trace = Vec::new();
    loop {
        let first: Vec<_> = now.iter().filter_map(|f| f.remedies.first()).collect();
        if first.is_empty() {
            ended = true;
            break;
        }
        cycle |= !been.insert(format!("{:?}", plan));
        if rounds == ROUNDS || cycle {
            break;
        }
        rounds += 1;
        for (f, r) in now.iter().filter_map(|f| Some((f, f.remedies.first()?))) {
            let costs = wood.costs(r);
            if costs > 0 {
                trace.push(format!(
                    "{rounds}: {} at {:.0}: {} costs {costs}",
                    f.rule, f.x, r.said.key
                ));
            }
        }
        for remedy in first {
            match mended(&plan, 0, plan.start(), &[remedy]) {
                Ok(next) => {
                    plan = next;
                    done += 1;
                }
                Err(_) => refused += 1,
            }
        }
        now = found(&plan, &at(&plan), light);
    }
    let after = at(&plan);
    let count = |findings: &[Finding]| {
        let of = |s: Severity| findings.iter().filter(|f| f.severity == s).count();
        (of(Severity::Now), of(Severity::Soon))
    };
    let uprights = |r: &Replayed| r.row.trees.iter().map(|t| t.uprights().count()).sum();
    let (standing, medians) = wood.left(&after);
    Winter {
        rounds,
        ended,
        cycle,
        done,
        refused,
        uprights: (uprights(&before), uprights(&after)),
        void: (before.void.len(), after.void.len()),
        grave: (count(&start), count(&now)),
        graver: graver(&start, &now),
        most: wood.most,
        quota: wood.quota,
        standing,
        medians,
        trace,
    }
}

/// How far from a finding another one is about the same place, mm: one space between uprights.
const NEAR: f64 = 300.0;

/// What is above a note in the end and stands where nothing as grave stood before.
fn graver(before: &[Finding], after: &[Finding]) -> Vec<String> {
    let covered = |f: &&Finding| {
        before.iter().any(|b| {
            b.severity >= f.severity && b.x <= f.x + f.width + NEAR && f.x <= b.x + b.width + NEAR
        })
    };
    let grave = after.iter().filter(|f| f.severity > Severity::Note);
    grave
        .filter(|f| !covered(f))
        .map(|f| format!("{} at {:.0}", f.rule, f.x))
        .collect()
}

/// Winters of many rows, in a line of counts.
fn told(name: &str, all: &[(String, Winter)]) {
    let sum = |of: &dyn Fn(&Winter) -> usize| all.iter().map(|(_, w)| of(w)).sum::<usize>();
    println!(
        "{name:<22} rows {:>3}  rounds {:>2}  done {:>5} refused {:>3}  uprights {:>5} -> {:>5}  now {:>3} -> {:>3}  soon {:>4} -> {:>4}  void {} -> {}  most {:>4} quota {:>4} standing {:>4}  not so {:>3}",
        all.len(),
        all.iter().map(|(_, w)| w.rounds).max().unwrap_or(0),
        sum(&|w| w.done),
        sum(&|w| w.refused),
        sum(&|w| w.uprights.0),
        sum(&|w| w.uprights.1),
        sum(&|w| w.grave.0.0),
        sum(&|w| w.grave.1.0),
        sum(&|w| w.grave.0.1),
        sum(&|w| w.grave.1.1),
        sum(&|w| w.void.0),
        sum(&|w| w.void.1),
        sum(&|w| w.most),
        sum(&|w| w.quota),
        sum(&|w| w.standing),
        sum(&|w| usize::from(!w.broken().is_empty())),
    );
}

/// The winter of each row. They are shared out among threads: the light of a row costs more than all the rest.
fn winters(rows: Vec<(String, Plan)>, light: bool) -> Vec<(String, Winter)> {
    let threads = std::thread::available_parallelism().map_or(1, |n| n.get());
    let each = rows.len().div_ceil(threads).max(1);
    let some = |rows: &[(String, Plan)]| -> Vec<(String, Winter)> {
        let each = rows.iter();
        each.map(|(name, plan)| (name.clone(), winter(plan, light)))
            .collect()
    };
    std::thread::scope(|scope| {
        let parts = rows
            .chunks(each)
            .map(|rows| scope.spawn(move || some(rows)));
        let parts: Vec<_> = parts.collect();
        let done = parts.into_iter().map(|part| part.join());
        done.flat_map(|part| part.unwrap_or_else(|why| std::panic::resume_unwind(why)))
            .collect()
    })
}

fn hold(name: &str, rows: Vec<(String, Plan)>, light: bool) {
    let all = winters(rows, light);
    told(name, &all);
    let broken: Vec<String> = all
        .iter()
        .filter(|(_, w)| !w.broken().is_empty())
        .map(|(name, w)| {
            format!(
                "{name}: {}\n    {}",
                w.broken().join("; "),
                w.trace.join("\n    ")
            )
        })
        .collect();
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}

fn numbered(plans: impl IntoIterator<Item = Plan>) -> Vec<(String, Plan)> {
    let plans = plans.into_iter().enumerate();
    plans.map(|(i, p)| (format!("row {i}"), p)).collect()
}

#[test]
fn a_winter_on_every_example() {
    hold("examples", examples(), false);
}

#[test]
fn a_winter_with_light_on_every_example() {
    hold("examples, light", examples(), true);
}

#[test]
fn a_winter_with_light_on_plausible_rows() {
    hold("plausible, light", numbered((0..200).map(plausible)), true);
}

#[test]
fn a_winter_with_light_on_extreme_rows() {
    hold("extreme, light", numbered(extreme(100)), true);
}

#[test]
fn a_winter_on_plausible_rows() {
    hold("plausible", numbered((0..200).map(plausible)), false);
}

#[test]
fn a_winter_on_extreme_rows() {
    hold("extreme", numbered(extreme(100)), false);
}
