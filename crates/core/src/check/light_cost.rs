//! What a finding about the wood costs in light: an opening that is a bare stretch, or where an upright is lost, is no finding
//! of its own.

use super::{Finding, Part, cordon_gap, uprights_too_far};
use crate::cover::Span;
use crate::light::LightGap;
use crate::said::Arg;

/// Share of an opening's width that such findings cover at least together, that it is theirs. Our own choice.
const COVERED: f64 = 0.5;

/// Name of the value by which a finding tells what it costs in light.
const COSTS: &str = "costs";

/// What a finding of another rule costs in light.
#[derive(Clone, Debug, PartialEq)]
pub struct LightCost {
    rule: &'static str,
    subjects: Vec<Part>,
    /// Length of this wall, mm, that would catch as much in a season.
    worth: f64,
}

impl LightCost {
    /// The cost of an opening, as that of the finding that covers most of it; none where it is an opening by itself.
    pub(super) fn of(gap: &LightGap, worth: f64, findings: &[Finding]) -> Option<Self> {
        let opening = Span {
            from: gap.x0 * 1000.0,
            to: gap.x1 * 1000.0,
        };
        let covers = |f: &Finding| (opening.to.min(f.x + f.width) - opening.from.max(f.x)).max(0.0);
        let wood = findings
            .iter()
            .filter(|f| [cordon_gap::RULE, uprights_too_far::RULE].contains(&f.rule));
        let mut covered = 0.0;
        let mut most: Option<(&Finding, f64)> = None;
        for (finding, length) in wood.map(|f| (f, covers(f))) {
            covered += length;
            if length > most.map_or(0.0, |(_, l)| l) {
                most = Some((finding, length));
            }
        }
        let (finding, _) = most?;
        (covered >= COVERED * opening.length()).then(|| Self {
            rule: finding.rule,
            subjects: finding.subjects.clone(),
            worth,
        })
    }

    fn is_of(&self, finding: &Finding) -> bool {
        self.rule == finding.rule && self.subjects == finding.subjects
    }
}

/// Has each finding tell what it costs, and no other: those are taken off that it told before.
pub fn tell_costs(costs: &[LightCost], findings: &mut [Finding]) {
    for finding in findings.iter_mut() {
        finding.args.retain(|(name, _)| *name != COSTS);
    }
    for cost in costs {
        let Some(finding) = findings.iter_mut().find(|f| cost.is_of(f)) else {
            continue;
        };
        let told = finding.args.iter_mut().find(|(name, _)| *name == COSTS);
        match told {
            Some((_, Arg::Length(before))) => *before += cost.worth,
            _ => finding.args.push((COSTS, Arg::Length(cost.worth))),
        }
    }
}

impl Finding {
    /// What it tells that it costs in light, as the value `costs`: the length of this wall, mm, that would catch as much in a
    /// season.
    pub fn light_cost(&self) -> Option<f64> {
        self.args.iter().find_map(|(name, arg)| match arg {
            Arg::Length(cost) if *name == COSTS => Some(*cost),
            _ => None,
        })
    }
}
