//! `cordonry compare`: what schemes of one row bring and what they ask for, side by side.

use crate::Status;
use crate::args::Compare as Asked;
use crate::files;
use crate::judged::scheme_named;
use crate::out::{Row, clean, rounded, tell};
use crate::pages;
use anyhow::{Result, anyhow};
use cordonry::check::figures;
use cordonry::effort::Effort;
use cordonry::forecast::{Forecast, LeafFigures, crop_range};
use cordonry::plan::{Plan, replay};
use cordonry::refusal::Refusal;
use cordonry::row::{Moment, Phase, Window};
use cordonry::said::Arg;
use cordonry_draw::{Both, Series, Side, Time, Under, row_figures, sheet_beside, two_figures};
use cordonry_words::Words;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A leaf under one scheme: what it brings, and what its work asks for.
type Leaf = (LeafFigures, Effort);

pub fn run(ask: &Asked, words: &Words) -> Status {
    if ask.output_file.is_some() && (ask.paths.len() > 1 || ask.paths[0].is_dir()) {
        tell(&words.plain("command-one-row"));
        return Status::Failed;
    }
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
        let mut row = json!({ "file": path.display().to_string(), "name": plan.name, "to_leaf": ask.to, "schemes": schemes });
        if let Some(output) = &ask.output_file {
            let as_pdf = pages::is_pdf(output, "command-a-drawing", words)?;
            let page = [page(&plan, &all, ask, words)?];
            let written = pages::write(output, path, (&plan.name, &page), as_pdf, words)?;
            for file in &written {
                let file = [("file", files::shown(file))];
                let _ = writeln!(told, "  {}", words.text("command-written", &file));
            }
            row["written"] = written.iter().map(|p| p.display().to_string()).collect();
        }
        Ok(Row { row, people: told })
    })
}

/// Two schemes on one page, after the harvest of the last leaf.
fn page(plan: &Plan, all: &[(usize, Vec<Leaf>)], ask: &Asked, words: &Words) -> Result<String> {
    let Ok(two) = <&[_; 2]>::try_from(all) else {
        let many = [("count", Arg::Count(all.len() as i64))];
        return Err(anyhow!(words.text("command-compare-two", &many)));
    };
    let moment = Moment {
        leaf: ask.to,
        window: Window::AfterHarvest,
    };
    let refused = |why| files::refused(&why, words);
    let rows = two.each_ref().map(|(n, _)| replay(plan, *n, moment));
    let [one, other] = rows;
    let rows = [one.map_err(refused)?, other.map_err(refused)?];
    let work = two
        .each_ref()
        .map(|(n, _)| plan.work_at(*n, moment).unwrap_or_default());
    let years = two.each_ref().map(|(_, leaves)| {
        let years = leaves.iter().map(|(brings, _)| brings.clone());
        years.collect::<Vec<LeafFigures>>()
    });
    let ranges = [0, 1].map(|of| crop_range(plan, two[of].0, ask.to, &years[of]));
    let [one, other] = ranges;
    let ranges = [one.map_err(refused)?, other.map_err(refused)?];
    let under = [0, 1].map(|of| Under {
        scheme: two[of].0,
        years: &years[of],
        asks: Some(sum(&two[of].1).1),
    });
    let of_row = rows
        .each_ref()
        .map(|r| row_figures(&figures(&r.row, &r.targets), &r.targets, false, words));
    let figures = two_figures(plan, &under, (ask.to, ask.to), of_row, words);
    let sides = [0, 1].map(|of| {
        let scheme = &plan.schemes[two[of].0];
        Side {
            row: &rows[of].row,
            time: Time {
                moment,
                phase: Phase::After,
                stands: scheme.stands(moment),
            },
            work: &work[of],
            series: Series {
                name: &scheme.name,
                years: &years[of],
                ranges: Some(&ranges[of]),
                light: None,
            },
        }
    });
    let both = Both {
        plan,
        sides,
        figures: &figures,
        words,
    };
    Ok(sheet_beside(&both, ask.paper.into()))
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
