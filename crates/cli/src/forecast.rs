//! `cordonry forecast`: what schemes bring, leaf by leaf.

use crate::Status;
use crate::args::Forecast as Asked;
use crate::files;
use crate::judged::{light_of, no_scheme};
use crate::out::{clean, print, rounded};
use anyhow::Result;
use cordonry::forecast::{
    CountedCrop, Doubt, Forecast, LeafFigures, ShareCost, counted_crop, crop_range,
    kept_young_from, share_costs,
};
use cordonry::light::Weather;
use cordonry::plan::{Phase, Plan, Replayer, Scheme};
use cordonry::row::{Limit, Moment, Window};
use cordonry::said::Arg;
use cordonry_words::Words;
use serde::{Serialize, Serializer};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::fmt::Write as _;
use std::path::Path;
use std::sync::Arc;

/// What a file's schemes bring.
struct Told {
    file: String,
    name: String,
    schemes: Vec<Brought>,
}

/// What a scheme brings.
struct Brought {
    name: String,
    leaves: Vec<Leaf>,
    /// The age, completed seasons, that its wood is not to pass.
    age_limit: f64,
    /// What each renewal share costs, where that is asked.
    shares: Option<Vec<ShareCost>>,
}

struct Leaf {
    figures: LeafFigures,
    /// Share of a clear growing season's light that the row catches in full leaf, before the after-harvest work.
    caught: f64,
    /// Between what the crop lies, t/ha.
    range: (f64, f64),
    /// Why its crop is told too high.
    doubt: Option<Doubt>,
    /// What was counted on buds before it.
    counted: Option<CountedCrop>,
}

pub fn run(ask: &Asked, words: &Words) -> Status {
    let look = |path: &Path| -> Result<Told> {
        let plan = files::plan(path, words)?;
        let plan = match ask.standing {
            true => plan.with_all_standing(),
            false => plan,
        };
        let named = |name: &str| ask.scheme.as_deref().is_none_or(|asked| asked == name);
        let schemes = plan.schemes.iter().enumerate();
        let schemes = schemes.filter(|(_, s)| named(&s.name));
        let shares = |i| {
            let told = ask
                .shares
                .then(|| share_costs(&plan, i, ask.to))
                .transpose();
            told.map_err(|why| files::refused(&why, words))
        };
        let brought = |(i, s): (usize, &Arc<Scheme>)| {
            Ok(Brought {
                name: s.name.clone(),
                leaves: leaves(&plan, i, ask.to, words)?,
                age_limit: plan.limits(i).get(Limit::WoodAgeMax),
                shares: shares(i)?,
            })
        };
        let schemes: Vec<Brought> = schemes.map(brought).collect::<Result<_>>()?;
        if let (Some(name), true) = (&ask.scheme, schemes.is_empty()) {
            return Err(no_scheme(&plan, name, words));
        }
        Ok(Told {
            file: path.display().to_string(),
            name: plan.name,
            schemes,
        })
    };
    let unreadable = RefCell::default();
    let rows = files::rows(&ask.paths, &unreadable, words, look);
    let printed = print(&ask.output, words, rows, &unreadable, |row| {
        people(row, words)
    });
    match unreadable.borrow().is_empty() {
        true => printed,
        false => Status::Failed,
    }
}

fn leaves(plan: &Plan, scheme: usize, to: u8, words: &Words) -> Result<Vec<Leaf>> {
    let refused = |why| files::refused(&why, words);
    let figures = Forecast::default().of(plan, scheme, to).map_err(refused)?;
    let ranges = crop_range(plan, scheme, to, &figures).map_err(refused)?;
    let mut replayer = Replayer::default();
    let limits = plan.limits(scheme);
    let leaves = figures.into_iter().zip(ranges);
    leaves
        .map(|(figures, range)| {
            let harvest = Moment {
                leaf: figures.leaf,
                window: Window::AfterHarvest,
            };
            let at = replayer
                .at(plan, scheme, harvest, Phase::Before)
                .map_err(refused)?;
            Ok(Leaf {
                caught: light_of(plan, &at, None, Weather::Clear).caught.total,
                doubt: figures.doubt(plan, scheme, &limits),
                counted: counted_crop(plan, scheme, figures.leaf).map_err(refused)?,
                figures,
                range,
            })
        })
        .collect()
}

impl Serialize for Told {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let schemes = self.schemes.iter().map(|s| {
            let leaves: Vec<Value> = s.leaves.iter().map(leaf_json).collect();
            let mut scheme = json!({"name": s.name, "leaves": leaves});
            if let Some(shares) = &s.shares {
                scheme["renewal_shares"] = shares.iter().map(share_json).collect();
            }
            scheme
        });
        json!({
            "file": self.file,
            "name": self.name,
            "schemes": schemes.collect::<Vec<Value>>(),
        })
        .serialize(s)
    }
}

fn leaf_json(leaf: &Leaf) -> Value {
    let f = &leaf.figures;
    let mut out = json!({
        "leaf": f.leaf,
        "cordon_fill_share": rounded(f.cordon_fill_share, 1e6),
        "uprights": f.uprights,
        "upright_length_mean_m": rounded(f.upright_length / 1000.0, 1e4),
        "interception_share": rounded(leaf.caught, 1e6),
        "crop_t_per_ha": rounded(f.crop_t_per_ha, 1e6),
        "crop_kg_per_m": rounded(f.crop_kg_per_metre, 1e6),
        "crop_low_t_per_ha": rounded(leaf.range.0, 1e6),
        "crop_high_t_per_ha": rounded(leaf.range.1, 1e6),
        "crop_large_share": rounded(f.share_large, 1e6),
        "fruit_mass_g": rounded(f.fruit_mass, 1e4),
        "leaf_area_per_fruit_cm2": rounded(f.leaf_area_per_fruit, 1e4),
        "leaf_area_index": rounded(f.leaf_area_index, 1e6),
        "wood_age_max": f.wood_age_max,
        "cut_age_max": f.cut_age_max,
        "work": f.work,
    });
    if let Some(told) = &leaf.counted {
        let c = &told.counted;
        let range = told
            .range
            .map(|(low, high)| [rounded(low, 1e6), rounded(high, 1e6)]);
        out["counted"] = json!({
            "trees": c.trees, "spurs": c.spurs,
            "buds_a_spur": rounded(c.buds, 1e4), "dead_share": rounded(c.dead, 1e6),
            "flowers_a_bud": c.flowers.map(|f| rounded(f, 1e4)),
            "factor": rounded(c.factor, 1e6), "factor_held": c.held,
            "crop_by_model_t_per_ha": rounded(told.model, 1e6),
            "crop_by_count_range_t_per_ha": range,
        });
    }
    out
}

fn share_json(cost: &ShareCost) -> Value {
    json!({
        "share": cost.share.unwrap_or(0.0),
        "crop_mean_t_per_ha": rounded(cost.crop_t_per_ha, 1e6),
        "crop_late_t_per_ha": rounded(cost.late_t_per_ha, 1e6),
        "wood_age_max": cost.wood_age_max,
        "uprights": cost.uprights,
        "stubs": cost.stubs,
    })
}

fn people(row: &Told, words: &Words) -> String {
    let mut out = String::new();
    for scheme in &row.schemes {
        let args = [
            ("file", Arg::Text(clean(&row.file))),
            ("name", Arg::Text(clean(&row.name))),
            ("scheme", Arg::Text(clean(&scheme.name))),
        ];
        // Writing to a string has nothing to fail at.
        let _ = writeln!(out, "{}", words.text("command-forecast", &args));
        for leaf in &scheme.leaves {
            let f = &leaf.figures;
            let args = [
                ("leaf", Arg::Count(f.leaf.into())),
                ("filled", Arg::Share(f.cordon_fill_share)),
                ("uprights", Arg::Count(f.uprights as i64)),
                ("crop", Arg::Number(f.crop_t_per_ha, 1)),
                ("low", Arg::Number(leaf.range.0, 1)),
                ("high", Arg::Number(leaf.range.1, 1)),
                ("index", Arg::Number(f.leaf_area_index, 2)),
                ("fruit", Arg::Number(f.leaf_area_per_fruit, 0)),
                ("age", Arg::Count(f.wood_age_max.into())),
                ("bears", Arg::yes(f.crop_t_per_ha > 0.0)),
            ];
            let _ = writeln!(out, "  {}", words.text("command-forecast-leaf", &args));
            for said in leaf.counted.iter().flat_map(CountedCrop::said) {
                let _ = writeln!(out, "    {}", words.say(&said));
            }
        }
        let leaves = || scheme.leaves.iter();
        let all: Vec<LeafFigures> = leaves().map(|l| l.figures.clone()).collect();
        if let Some(last) = all.last() {
            let limit = ("limit", Arg::Number(scheme.age_limit, 0));
            let told = match kept_young_from(&all, scheme.age_limit) {
                Some(from) => {
                    let from = ("from", Arg::Count(from.into()));
                    words.text("command-forecast-young", &[limit, from])
                }
                None => {
                    let last = ("last", Arg::Count(last.leaf.into()));
                    words.text("command-forecast-old", &[limit, last])
                }
            };
            let _ = writeln!(out, "  {told}");
        }
        for (doubt, key) in [
            (Doubt::Untrained, "doubt-untrained"),
            (Doubt::Unfilled, "doubt-unfilled"),
        ] {
            if let Some(first) = leaves().find(|l| l.doubt == Some(doubt)) {
                let args = [
                    ("leaf", Arg::Count(first.figures.leaf.into())),
                    ("why", Arg::Text(words.plain(key))),
                ];
                let _ = writeln!(out, "  {}", words.text("command-forecast-doubt", &args));
            }
        }
        for cost in scheme.shares.iter().flatten() {
            // One in so many; none where none is renewed.
            let of = cost.share.map_or(0, |share| (1.0 / share).round() as i64);
            let args = [
                ("of", Arg::Count(of)),
                ("crop", Arg::Number(cost.crop_t_per_ha, 1)),
                ("late", Arg::Number(cost.late_t_per_ha, 1)),
                ("age", Arg::Count(cost.wood_age_max.into())),
                ("uprights", Arg::Count(cost.uprights.into())),
                ("stubs", Arg::Count(cost.stubs.into())),
            ];
            let _ = writeln!(out, "  {}", words.text("command-forecast-share", &args));
        }
    }
    out
}
