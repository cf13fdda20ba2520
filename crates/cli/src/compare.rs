//! `cordonry compare`: what schemes of one row bring and what they ask for, side by side.

use crate::Status;
use crate::args::Compare as Asked;
use crate::files;
use crate::judged::scheme_named;
use crate::out::{Row, clean, rounded};
use anyhow::Result;
use cordonry::advise::Cost;
use cordonry::crew::{Hands, Pass, season};
use cordonry::forecast::{Forecast, LeafFigures};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_words::Words;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A leaf under one scheme.
struct Leaf {
    brings: LeafFigures,
    cost: Cost,
    minutes: f64,
    pieces: usize,
    ties: usize,
    sleeves: usize,
}

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
    let brings = Forecast::default().of(plan, scheme, to)?;
    let posts = plan.found.trellis.posts.len();
    let leaf = |brings: LeafFigures| {
        let season = season(plan, scheme, brings.leaf, &Hands::default())?;
        // What a scheme leaves undone is not counted as done.
        let passes: &[Pass] = if season.usual { &[] } else { &season.passes };
        let work: Vec<&Work> = passes.iter().flat_map(|p| p.work()).collect();
        Ok(Leaf {
            brings,
            cost: Cost::of(&work, posts),
            minutes: passes.iter().map(|p| p.minutes).sum(),
            pieces: work.len(),
            ties: passes.iter().map(|p| p.ties).sum(),
            sleeves: passes.iter().map(|p| p.sleeves).sum(),
        })
    };
    brings.into_iter().map(leaf).collect()
}

/// All leaves together.
struct Sum {
    crop: f64,
    hours: f64,
    pieces: usize,
    cost: Cost,
    ties: usize,
    sleeves: usize,
    fill: f64,
    oldest: u8,
}

fn sum(leaves: &[Leaf]) -> Sum {
    let count = |of: &dyn Fn(&Leaf) -> usize| leaves.iter().map(of).sum();
    Sum {
        crop: leaves.iter().map(|l| l.brings.crop_t_per_ha).sum(),
        hours: leaves.iter().map(|l| l.minutes).sum::<f64>() / 60.0,
        pieces: count(&|l| l.pieces),
        cost: Cost {
            cuts: count(&|l| l.cost.cuts),
            ties: count(&|l| l.cost.ties),
            buds: count(&|l| l.cost.buds),
            wires: count(&|l| l.cost.wires),
            minutes: leaves.iter().map(|l| l.minutes).sum(),
        },
        ties: count(&|l| l.ties),
        sleeves: count(&|l| l.sleeves),
        fill: leaves.last().map_or(0.0, |l| l.brings.cordon_fill_share),
        oldest: leaves
            .iter()
            .map(|l| l.brings.wood_age_max)
            .max()
            .unwrap_or(0),
    }
}

fn line(plan: &Plan, scheme: usize, leaves: &[Leaf]) -> Vec<(&'static str, Arg)> {
    let all = sum(leaves);
    let count = |n: usize| Arg::Count(n as i64);
    vec![
        ("scheme", Arg::Text(clean(&plan.schemes[scheme].name))),
        ("crop", Arg::Number(all.crop, 1)),
        ("filled", Arg::Share(all.fill)),
        ("age", Arg::Count(all.oldest.into())),
        ("hours", Arg::Number(all.hours, 1)),
        ("cuts", count(all.cost.cuts)),
        ("pieces", count(all.pieces)),
        ("wires", count(all.cost.wires)),
        ("ties", count(all.ties)),
        ("sleeves", count(all.sleeves)),
    ]
}

fn scheme_json(plan: &Plan, scheme: usize, leaves: &[Leaf]) -> Value {
    let all = sum(leaves);
    let each = leaves.iter().map(|l| {
        json!({
            "leaf": l.brings.leaf,
            "crop_t_per_ha": rounded(l.brings.crop_t_per_ha, 1e4),
            "cordon_fill_share": rounded(l.brings.cordon_fill_share, 1e6),
            "uprights": l.brings.uprights,
            "wood_age_max": l.brings.wood_age_max,
            "minutes": rounded(l.minutes, 10.0),
            "pieces": l.pieces,
            "cuts": l.cost.cuts,
            "wires": l.cost.wires,
            "ties": l.ties,
            "sleeves": l.sleeves,
        })
    });
    json!({
        "name": plan.schemes[scheme].name,
        "leaves": each.collect::<Vec<_>>(),
        "crop_t_per_ha": rounded(all.crop, 1e4),
        "hours": rounded(all.hours, 100.0),
        "pieces": all.pieces,
        "cuts": all.cost.cuts,
        "wires": all.cost.wires,
        "ties": all.ties,
        "sleeves": all.sleeves,
    })
}
