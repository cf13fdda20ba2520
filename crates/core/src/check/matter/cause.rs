//! What each finding comes from.

use super::family::{FAMILIES, FILLED, LOST};
use crate::arrange::Gather;
use crate::check::{
    Finding, Severity, cordon_fill_due, cordon_gap, leans_opposed, light_gap, see_through,
    uprights_too_close, uprights_too_far, uprights_uneven,
};
use crate::cover::{Cover, Span};
use crate::row::{Row, Toward, TreeId};
use crate::sorted::Map;
use std::fmt;

/// What findings come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cause {
    /// Its name: a rule's, or that of what several rules see of it.
    pub name: &'static str,
    /// How urgent it is at its gravest: what is to be seen to now is apart from what can wait.
    pub severity: Severity,
    /// The tree that it is about, where it is one tree's.
    pub tree: Option<TreeId>,
}

impl fmt::Display for Cause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.name, self.severity as u8)?;
        self.tree.map_or(Ok(()), |tree| write!(f, "-{tree}"))
    }
}

/// The cause of a finding by itself: what its rule sees.
fn own_cause(f: &Finding) -> Cause {
    let family = FAMILIES
        .iter()
        .find(|family| family.name != LOST && family.rules().any(|rule| rule == f.rule));
    Cause {
        name: family.map_or(f.rule, |family| family.name),
        severity: f.severity,
        tree: None,
    }
}

/// Whether bare wire or a wide space is told by the finding, which other rules see too.
fn is_opening(f: &Finding) -> bool {
    [cordon_gap::RULE, uprights_too_far::RULE].contains(&f.rule)
}

pub(super) fn span(f: &Finding) -> Span {
    Span {
        from: f.x,
        to: f.x + f.width,
    }
}

/// How much of a stretch lies within another, mm; below 0 where none does.
fn shared(a: Span, b: Span) -> f64 {
    a.within(b).length()
}

/// Share of a finding's stretch that another must reach over for both to be of one cause. Our own choice.
const SHARED: f64 = 0.5;

/// How far a tree reaches of which nothing stands beside it, mm.
const REACH: f64 = 1_500.0;

/// The places of lost trees that are bare: the stretch, and the trees that are missing there.
pub(super) fn holes(row: &Row, cover: &Cover) -> Vec<(Span, Vec<TreeId>)> {
    let mut out: Vec<(Span, Vec<TreeId>)> = Vec::new();
    for (i, tree) in row.trees.iter().enumerate().filter(|(_, t)| t.is_lost()) {
        let foot = tree.foot.f();
        let left = i.checked_sub(1).and_then(|i| row.trees.get(i));
        let right = row.trees.get(i + 1);
        let goes = match tree.planted.toward {
            Toward::Left => (left, -REACH),
            Toward::Right => (right, REACH),
        };
        let end = goes.0.map_or(foot + goes.1, |t| t.foot.f());
        let place = Span::between(foot, end);
        let bare = cover
            .gaps
            .iter()
            .filter(|gap| shared(gap.span, place) > 0.0)
            .max_by(|a, b| shared(a.span, place).total_cmp(&shared(b.span, place)));
        let Some(gap) = bare else { continue };
        match out.iter_mut().find(|(known, _)| *known == gap.span) {
            Some((_, trees)) => trees.push(tree.id),
            None => out.push((gap.span, vec![tree.id])),
        }
    }
    out
}

/// The causes of all findings: first each by itself, then what stands at a lost tree's place, and last what others bring.
pub(super) fn causes(
    row: &Row,
    holes: &[(Span, Vec<TreeId>)],
    findings: &[&Finding],
    is_left: &[Option<usize>],
) -> Vec<Cause> {
    let filled = row.trees.iter().filter(|t| t.like.is_some());
    let filled = filled.map(|t| t.id).gathered_set();
    let is_filled = |f: &Finding| {
        !filled.is_empty()
            && !f.subjects.is_empty()
            && f.subjects.iter().all(|p| filled.contains(&p.tree))
    };
    let leans = findings.iter().filter(|f| f.rule == leans_opposed::RULE);
    let opposed: Vec<Span> = leans.map(|f| span(f)).collect();
    let mut out: Vec<Cause> = findings.iter().map(|f| own_cause(f)).collect();
    let mut at_hole: Vec<(usize, usize)> = Vec::new();
    for (i, f) in findings.iter().enumerate() {
        let hole = holes.iter().position(|(hole, _)| {
            is_opening(f) && shared(*hole, span(f)) >= SHARED * hole.length().min(f.width)
        });
        if let Some(hole) = hole {
            at_hole.push((i, hole));
        } else if is_filled(f) {
            out[i].name = FILLED;
        } else if f.rule == cordon_gap::RULE
            && opposed
                .iter()
                .any(|s| shared(*s, span(f)) >= SHARED * f.width)
        {
            out[i].name = leans_opposed::RULE;
        }
    }
    // A lost tree is one matter, as grave as the gravest that it brings.
    for (i, hole) in &at_hole {
        let own = at_hole.iter().filter(|(_, h)| h == hole);
        let severity = own.map(|(i, _)| findings[*i].severity).max();
        out[*i] = Cause {
            name: LOST,
            severity: severity.unwrap_or(out[*i].severity),
            tree: holes[*hole].1.first().copied(),
        };
    }
    for name in [FILLED, leans_opposed::RULE] {
        let own = || (0..findings.len()).filter(|i| out[*i].name == name);
        let gravest = own().map(|i| out[i].severity).max();
        for i in own().collect::<Vec<_>>() {
            out[i].severity = gravest.unwrap_or(out[i].severity);
        }
    }
    follow(findings, is_left, &mut out);
    out
}

/// What others bring goes with them: an opening with the bare wire or wide space that it is seen through, uneven uprights with
/// the crowd that they stand in, wire that should be filled with what is bare of it.
fn follow(findings: &[&Finding], is_left: &[Option<usize>], out: &mut [Cause]) {
    let hosts: Vec<usize> = (0..findings.len())
        .filter(|i| is_opening(findings[*i]))
        .collect();
    let mut crowds: Map<TreeId, Cause> = Map::new();
    for (f, cause) in findings.iter().zip(&*out) {
        if cause.name == uprights_too_close::RULE {
            for part in &f.subjects {
                let known = crowds.entry(part.tree).or_insert(*cause);
                known.severity = known.severity.max(cause.severity);
            }
        }
    }
    let grown = crowds
        .values()
        .filter(|c| c.severity > Severity::Note)
        .count();
    for (i, f) in findings.iter().enumerate() {
        let host = match f.rule {
            light_gap::RULE | see_through::RULE => {
                let most = hosts.iter().max_by(|a, b| {
                    let of = |i: usize| shared(span(findings[i]), span(f));
                    of(**a).total_cmp(&of(**b))
                });
                most.filter(|host| {
                    shared(span(findings[**host]), span(f)) >= SHARED * f.width.max(1.0)
                })
                .map(|host| out[*host])
            }
            uprights_uneven::RULE if grown > 0 && out[i].name != FILLED => {
                let tree = f.subjects.first().map(|p| p.tree);
                tree.and_then(|t| crowds.get(&t).copied())
                    .filter(|c| c.severity > f.severity)
            }
            cordon_fill_due::RULE => {
                let grave = |i: &&usize| {
                    findings[**i].rule == cordon_gap::RULE
                        && findings[**i].severity == f.severity
                        && is_left[**i].is_none()
                };
                let most = hosts
                    .iter()
                    .filter(grave)
                    .max_by(|a, b| findings[**a].width.total_cmp(&findings[**b].width));
                let along = hosts
                    .iter()
                    .filter(grave)
                    .find(|i| out[**i].name == cordon_gap::RULE);
                along.or(most).map(|i| out[*i])
            }
            _ => None,
        };
        out[i] = host.unwrap_or(out[i]);
    }
}
