//! `cordonry compare`: what schemes of one row bring and what they ask for, side by side.

use crate::Status;
use crate::args::Compare as Asked;
use crate::files;
use crate::judged::scheme_named;
use crate::out::{Row, clean, rounded};
use anyhow::Result;
use cordonry::effort::Effort;
use cordonry::forecast::{Forecast, LeafFigures};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry_words::Words;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A leaf under one scheme: what it brings, and what its work asks for.
type Leaf = (LeafFigures, Effort);

pub fn run(ask: &Asked, words: &Words) -> Status {
    files::print_rows(&ask.paths, &ask.output, words, |path| {
        let plan = files::plan(path, words)?;
        let numbers: Vec<usize> = match ask.schemes.is_empty() {
            true => (0..plan.schemes.len()).collect(),
            false => {
                let named = ask.schemes.iter();
                let named = named.map(|name| scheme_named(&plan, Some(name), words));
                named.collect::<Result<_>>()?
            }
        };
        let all: Vec<(usize, Vec<Leaf>)> = numbers
            .into_iter()
            .map(|n| {
                Ok((
                    n,
                    leaves(&plan, n, ask.to).map_err(|why| files::refused(&why, words))?,
                ))
            })
            .collect::<Result<_>>()?;
        let mut told = words.text(
            "command-compare",
            &[
                ("file", Arg::Text(clean(&path.display().to_string()))),
                ("name", Arg::Text(clean(&plan.name))),
                ("leaf", Arg::Count(ask.to.into())),
            ],
        );
        told.push('\n');
        for (n, leaves) in &all {
            let args = line(&plan, *n, leaves);
            let _ = writeln!(told, "  {}", words.text("command-compare-scheme", &args));
        }
        let schemes: Vec<Value> = all.iter().map(|(n, l)| scheme_json(&plan, *n, l)).collect();
        Ok(Row {
            row: json!({ "file": path.display().to_string(), "name": plan.name, "to_leaf": ask.to, "schemes": schemes }),
            people: told,
        })
    })
}

/// Each leaf with what it brings, and what its work asks for: that which the scheme has, be it planned or standing.
fn leaves(plan: &Plan, scheme: usize, to: u8) -> Result<Vec<Leaf>, Refusal> {
    let brings = Forecast::default().of(plan, scheme, to)?.into_iter();
    let leaf = |brings: LeafFigures| {
        let asks = Effort::of(plan, scheme, brings.leaf)?;
        Ok((brings, asks))
    };
    brings.map(leaf).collect()
}

/// All leaves together.
fn sum(leaves: &[Leaf]) -> (f64, Effort) {
    let crop = leaves.iter().map(|(b, _)| b.crop_t_per_ha).sum();
    (crop, Effort::sum(leaves.iter().map(|(_, e)| *e)))
}

fn line(plan: &Plan, scheme: usize, leaves: &[Leaf]) -> Vec<(&'static str, Arg)> {
    let (crop, all) = sum(leaves);
    let count = |n: f64| Arg::Count(n as i64);
    let fill = leaves.last().map_or(0.0, |(b, _)| b.cordon_fill_share);
    let oldest = leaves.iter().map(|(b, _)| b.wood_age_max).max();
    vec![
        ("scheme", Arg::Text(clean(&plan.schemes[scheme].name))),
        ("crop", Arg::Number(crop, 1)),
        ("filled", Arg::Share(fill)),
        ("age", Arg::Count(oldest.unwrap_or(0).into())),
        ("hours", Arg::Number(all.hours(), 1)),
        ("cuts", count(all.cuts)),
        ("pieces", count(all.pieces)),
        ("wires", count(all.wires)),
        ("ties", count(all.ties)),
        ("sleeves", count(all.sleeves)),
    ]
}

fn scheme_json(plan: &Plan, scheme: usize, leaves: &[Leaf]) -> Value {
    let (crop, all) = sum(leaves);
    let count = |n: f64| n as i64;
    let each = leaves.iter().map(|(brings, effort)| {
        json!({
            "leaf": brings.leaf,
            "crop_t_per_ha": rounded(brings.crop_t_per_ha, 1e4),
            "cordon_fill_share": rounded(brings.cordon_fill_share, 1e6),
            "uprights": brings.uprights,
            "wood_age_max": brings.wood_age_max,
            "minutes": rounded(effort.minutes, 10.0),
            "pieces": count(effort.pieces),
            "cuts": count(effort.cuts),
            "trees": count(effort.trees),
            "wires": count(effort.wires),
            "ties": count(effort.ties),
            "sleeves": count(effort.sleeves),
        })
    });
    json!({
        "name": plan.schemes[scheme].name,
        "leaves": each.collect::<Vec<_>>(),
        "crop_t_per_ha": rounded(crop, 1e4),
        "hours": rounded(all.hours(), 100.0),
        "pieces": count(all.pieces),
        "cuts": count(all.cuts),
        "trees": count(all.trees),
        "wires": count(all.wires),
        "ties": count(all.ties),
        "sleeves": count(all.sleeves),
    })
}
