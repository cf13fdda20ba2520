//! Matters: what was found, put together by what it comes from. A grower sees to a cause, not to lines of a list: many
//! bare places along the row are one matter, and so are a lost tree's bare wire, its wide space and its light gap.

mod cause;
mod family;
mod left;

pub use cause::Cause;
pub use left::open;

use super::{
    Finding, Part, Remedy, Severity, cordon_gap, cordon_overlap, leans_opposed, light_gap,
    uprights_too_close, uprights_too_far,
};
use crate::arrange::{Arrange, Gather};
use crate::cover::{Cover, Span, joined};
use crate::plan::Left;
use crate::row::{Limit, Row, Targets, TreeId};
use crate::said::{Arg, Said};
use crate::sorted::Map;
use crate::work::Work;
use cause::{causes, holes, span};
use family::{FILLED, LOST, named};
use left::{LeftHere, spot};
use serde::Serialize;

/// How much a matter is about.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "of", content = "amount", rename_all = "snake_case")]
pub enum Size {
    /// Wire that is bare or covered twice, mm.
    Wire(f64),
    /// Light that is lost, as the length of this wall, mm, that would catch as much in a season.
    Light(f64),
    /// Uprights, or places for them.
    Uprights(usize),
    /// Places along the row.
    Places(usize),
}

/// Findings of one cause.
#[derive(Clone, Debug, PartialEq)]
pub struct Matter {
    /// The cause; among matters of one row each is another, but for what is left.
    pub cause: Cause,
    /// The gravest of its findings'.
    pub severity: Severity,
    /// Its findings, by their place among all: the gravest first, then what the cause is counted by, then from left to right.
    pub findings: Vec<usize>,
    /// The stretches of the row that they reach over.
    pub spans: Vec<Span>,
    /// What they are about, each part once.
    pub parts: Vec<Part>,
    /// How much it is.
    pub size: Size,
    /// The same as a length of this wall, mm: by it matters of all kinds are compared.
    pub weight: f64,
    /// What it says; `None` where its first finding says it, which others may go with.
    pub said: Option<Said>,
    /// Light that is lost by it, as the length of this wall, mm; 0 where that is not known.
    pub light: f64,
    /// Its place among what the plan says is left, where it is left in this leaf.
    pub left: Option<usize>,
}

impl Matter {
    /// Its findings but for the one that says what it is.
    pub fn others(&self) -> &[usize] {
        match (&self.said, &self.findings[..]) {
            (None, [_, others @ ..]) => others,
            (Some(_), [_]) => &[],
            (_, all) => all,
        }
    }

    /// The first remedy of each of its findings, each once: what one press does of it.
    pub fn first_remedies<'f>(
        &self,
        remedies: impl Fn(usize) -> &'f [Remedy],
    ) -> Vec<(usize, &'f Remedy)> {
        let mut out: Vec<(usize, &Remedy)> = Vec::new();
        // A matter may have tens of thousands: each is held against those alone whose work begins alike.
        let mut known: Map<_, Vec<&Remedy>> = Map::new();
        for i in &self.findings {
            let Some(first) = remedies(*i).first() else {
                continue;
            };
            let alike = known
                .entry(first.work.first().map(Work::subject))
                .or_default();
            let is_known = |r: &&Remedy| r.work == first.work && r.wall_height == first.wall_height;
            if !alike.iter().any(is_known) {
                alike.push(first);
                out.push((*i, first));
            }
        }
        out
    }

    /// Whether each of its findings of the first one's rule has a remedy: what only follows from them, as wide spaces do from a
    /// lost tree, goes with them.
    pub fn is_mendable<'f>(
        &self,
        findings: &[&Finding],
        remedies: impl Fn(usize) -> &'f [Remedy],
    ) -> bool {
        let own = || {
            self.findings
                .iter()
                .filter_map(|i| Some((*i, *findings.get(*i)?)))
        };
        let rule = own().next().map(|(_, f)| f.rule);
        let mut of_rule = own().filter(|(_, f)| Some(f.rule) == rule);
        of_rule.all(|(i, _)| !remedies(i).is_empty())
    }

    /// The matter as it is left in `leaf`, for a reason.
    pub fn left(&self, findings: &[&Finding], leaf: u8, reason: String) -> Left {
        let spots = self.findings.iter().filter_map(|i| findings.get(*i));
        Left {
            leaf,
            cause: self.cause.to_string(),
            reason,
            spots: spots.map(|f| spot(f)).collect(),
        }
    }
}

/// Of each finding whether it is left in this leaf, as it was when it was left.
pub fn is_left(left: &[Left], leaf: u8, findings: &[Finding]) -> Vec<bool> {
    let here = LeftHere::of(left, leaf);
    findings.iter().map(|f| here.place(f).is_some()).collect()
}

/// All matters of a row: those that are open, the gravest first and of one severity the largest first, then those that are
/// left in this leaf. `cover` and `findings` are of the row, the findings of its light too; `left` is what the plan leaves.
///
/// Every finding is in one matter. A finding that is not as it was when it was left is open again, those beside it stay left.
pub fn matters(
    row: &Row,
    cover: &Cover,
    targets: &Targets,
    findings: &[&Finding],
    left: &[Left],
) -> Vec<Matter> {
    let here = LeftHere::of(left, row.leaf);
    let is_left: Vec<Option<usize>> = findings.iter().map(|f| here.place(f)).collect();
    let holes = holes(row, cover);
    let causes = causes(row, &holes, findings, &is_left);
    let mut groups: Map<(Option<usize>, Option<Cause>), Vec<usize>> = Map::new();
    for (i, cause) in causes.iter().enumerate() {
        let cause = is_left[i].is_none().then_some(*cause);
        groups.entry((is_left[i], cause)).or_default().push(i);
    }
    let make = |((left, _), all)| matter(targets, &holes, findings, &causes, all, left);
    let mut out: Vec<Matter> = groups.into_iter().map(make).collect();
    out.arrange_by(|a, b| {
        (a.left.is_some().cmp(&b.left.is_some()))
            .then(b.severity.cmp(&a.severity))
            .then(b.weight.total_cmp(&a.weight))
            .then(a.cause.cmp(&b.cause))
            .then(a.left.cmp(&b.left))
    });
    out
}

fn matter(
    targets: &Targets,
    holes: &[(Span, Vec<TreeId>)],
    findings: &[&Finding],
    causes: &[Cause],
    mut all: Vec<usize>,
    left: Option<usize>,
) -> Matter {
    // A group has a finding: it was made by one.
    let cause = causes[all[0]];
    let counted = counted(cause, all.iter().map(|i| findings[*i]));
    let other = |i: usize| counted.is_some_and(|rule| findings[i].rule != rule);
    all.arrange_by(|a, b| {
        let (f, g) = (findings[*a], findings[*b]);
        (g.severity.cmp(&f.severity))
            .then(other(*a).cmp(&other(*b)))
            .then(f.x.total_cmp(&g.x))
            .then(a.cmp(b))
    });
    let own = || all.iter().map(|i| findings[*i]);
    let spans = joined(own().map(span).collect());
    let parts = own().flat_map(|f| f.subjects.iter().copied());
    let parts: Vec<Part> = parts.gathered_set().into_iter().collect();
    let amount = Amount::of(targets, counted, &own().collect::<Vec<_>>());
    let hole = cause.tree.and_then(|tree| {
        let mut all = holes.iter().map(|(_, trees)| trees);
        all.find(|trees| trees.first() == Some(&tree))
    });
    let family = named(cause.name);
    // What only brings others with it says itself where it is.
    let tells = amount.count > 1 || [LOST, FILLED].contains(&cause.name);
    let said = family.filter(|_| tells).map(|family| {
        let of = |p: &Part| p.tree;
        let trees = parts.iter().map(of).gathered_set();
        let trees = hole.map_or(trees.len(), Vec::len);
        let tree = cause.tree.or(parts.first().map(of)).map_or(0, |t| t.0);
        let from = spans.first().map_or(0.0, |s| s.from);
        Said::new(
            family.text,
            vec![
                ("count", Arg::Count(amount.count as i64)),
                ("trees", Arg::Count(trees as i64)),
                ("tree", Arg::Count(tree.into())),
                ("uprights", Arg::Count(amount.uprights as i64)),
                ("length", Arg::Length(amount.told)),
                ("light", Arg::Length(amount.light)),
                ("from", Arg::Length(from)),
                ("bare", Arg::yes(amount.wire > 0.0)),
                ("note", Arg::yes(cause.severity == Severity::Note)),
            ],
        )
    });
    Matter {
        severity: findings[all[0]].severity,
        cause,
        spans,
        size: amount.size(),
        weight: amount.weight(targets),
        parts,
        light: amount.light,
        said,
        findings: all,
        left,
    }
}

/// What is counted of a cause: what its first rule sees; where that sees nothing, what the next does.
fn counted<'f>(
    cause: Cause,
    own: impl Iterator<Item = &'f Finding> + Clone,
) -> Option<&'static str> {
    let sees = |rule: &&str| own.clone().any(|f| f.rule == *rule);
    named(cause.name)?.rules().find(sees)
}

/// What the findings of a matter come to.
struct Amount {
    /// Findings of the rule that is counted.
    count: usize,
    wire: f64,
    /// Wire that is told of: what leans leave bare is counted where gaps are.
    told: f64,
    light: f64,
    uprights: usize,
}

impl Amount {
    fn of(targets: &Targets, counted: Option<&str>, own: &[&Finding]) -> Self {
        let by = |rule: &str| own.iter().filter(|f| f.rule == rule).count();
        let count = counted.map_or(own.len(), by);
        let of = |rules: &[&str]| -> f64 {
            let own = own.iter().filter(|f| rules.contains(&f.rule));
            own.map(|f| f.measured).sum()
        };
        let wire = of(&[cordon_gap::RULE, cordon_overlap::RULE]);
        let told = match counted {
            Some(leans_opposed::RULE) => of(&[leans_opposed::RULE]),
            _ => wire,
        };
        let light = own.iter().map(|f| match f.rule == light_gap::RULE {
            true => f.measured,
            false => f.light_cost().unwrap_or(0.0),
        });
        let counts = |f: &&&Finding| counted.is_none_or(|rule| f.rule == rule);
        let room = targets.get(Limit::UprightSpacing).max(1.0);
        let uprights = match counted {
            // One of two goes.
            Some(uprights_too_close::RULE) => count,
            Some(uprights_too_far::RULE) => own
                .iter()
                .filter(counts)
                .map(|f| {
                    (libm::round(f.measured / room) as usize)
                        .saturating_sub(1)
                        .max(1)
                })
                .sum(),
            _ => {
                let parts = own.iter().filter(counts).flat_map(|f| &f.subjects);
                parts.filter(|p| p.shoot.is_some()).gathered_set().len()
            }
        };
        Self {
            count,
            wire,
            told,
            light: light.sum(),
            uprights,
        }
    }

    fn size(&self) -> Size {
        match self {
            _ if self.wire > 0.0 => Size::Wire(self.wire),
            _ if self.light > 0.0 => Size::Light(self.light),
            _ if self.uprights > 0 => Size::Uprights(self.uprights),
            _ => Size::Places(self.count),
        }
    }

    /// Each upright as long a piece of wall as it fills.
    fn weight(&self, targets: &Targets) -> f64 {
        let room = targets.get(Limit::UprightSpacing);
        let places = self.uprights.max(self.count) as f64;
        match self.size() {
            Size::Wire(wire) => wire.max(self.light),
            Size::Light(light) => light,
            Size::Uprights(_) | Size::Places(_) => places * room,
        }
    }
}
