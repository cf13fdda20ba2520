//! Cases of advice: the best way for the leaders of a row, the best uprights of a cordon. Each has an objective of its own, which is laid on
//! the program's solvers. Lengths are metres.

use cordonry::refusal::Refusal;
use cordonry::solve::fill::{self, Against, Row, Way};
use cordonry::solve::uprights::{self, Candidate};
use serde_json::{Value, json};

use super::{list, number};

/// Which leaders go left and which are extended, bit by bit.
#[derive(Clone, Copy)]
struct Masks {
    left: u32,
    extended: u32,
}

/// Most leaders that a tree of a case may have: each makes the ways four times as many.
const MOST: usize = 6;

/// The ways of a tree.
fn ways(case: &Value, tree: &Value) -> Result<Vec<(Masks, Way)>, String> {
    let p = &case["parameters"];
    let (extend, cost_extend) = (number(p, "extend_m")?, number(p, "cost_extend")?);
    let doubled = number(p, "weight_overlap_per_m")?;
    let x = number(tree, "x_m")?;
    let lengths: Result<Vec<f64>, String> = list(tree, "leader_lengths_m")?
        .iter()
        .map(|l| l.as_f64().ok_or("a length is no number".into()))
        .collect();
    let lengths = lengths?;
    if lengths.len() > MOST {
        return Err(format!("a tree has more than {MOST} leaders"));
    }
    let all = 1u32 << lengths.len();
    let mut out = Vec::new();
    for left in 0..all {
        for extended in 0..all {
            let has = |mask: u32, i: usize| mask >> i & 1 == 1;
            // Of leaders laid to one side the longest reaches, and what lies beside it is doubled.
            let side = |to_left: bool| {
                let long = |(i, l): (usize, &f64)| l + if has(extended, i) { extend } else { 0.0 };
                let there = |(i, _): &(usize, &f64)| has(left, *i) == to_left;
                let mut there: Vec<f64> =
                    lengths.iter().enumerate().filter(there).map(long).collect();
                there.sort_by(|a, b| b.total_cmp(a));
                let beside: f64 = there.iter().skip(1).sum();
                (there.first().copied().unwrap_or(0.0), beside)
            };
            let ((to_left, a), (to_right, b)) = (side(true), side(false));
            let way = Way {
                left: x - to_left,
                right: x + to_right,
                cost: cost_extend * f64::from(extended.count_ones()) + doubled * (a + b),
            };
            out.push((Masks { left, extended }, way));
        }
    }
    Ok(out)
}

/// What a case asks, read: a row's leaders with the masks of each way, or a cordon's uprights.
pub struct Advice(Asked);

enum Asked {
    Leaders(Vec<Vec<Masks>>, Row, fill::Weights),
    Uprights((f64, f64), Vec<Candidate>, uprights::Weights),
}

/// What taking an upright off costs: a part for the cut and one for each millimetre of its thickness.
const CUT: (f64, f64) = (0.3, 0.02);

impl Advice {
    /// Reads a case of either schema.
    ///
    /// # Errors
    /// What is missing, or of another kind.
    pub fn read(case: &Value) -> Result<Self, String> {
        let asked = match super::schema(case)? {
            "advice-leaders-case/1" => Self::leaders(case)?,
            _ => Self::uprights(case)?,
        };
        Ok(Self(asked))
    }

    fn leaders(case: &Value) -> Result<Asked, String> {
        let p = &case["parameters"];
        let weights = fill::Weights {
            gap: number(p, "weight_gap_per_m")?,
            gap_each: 0.0,
            gap_free: 0.0,
            overlap: number(p, "weight_overlap_per_m")?,
            overlap_each: 0.0,
            overlap_free: 0.0,
        };
        let (from, to) = (number(case, "row_start_m")?, number(case, "row_end_m")?);
        let (mut masks, mut row) = (Vec::new(), Row::new(Some((from, to)), Against::Neighbour));
        for tree in list(case, "trees")? {
            let (of_tree, ways): (Vec<Masks>, Vec<Way>) = ways(case, tree)?.into_iter().unzip();
            row.tree(ways);
            masks.push(of_tree);
        }
        Ok(Asked::Leaders(masks, row, weights))
    }

    fn uprights(case: &Value) -> Result<Asked, String> {
        let p = &case["parameters"];
        let weights = uprights::Weights {
            min: number(p, "min_spacing_m")?,
            max: number(p, "max_spacing_m")?,
            target: number(p, "target_spacing_m")?,
            spacing: number(p, "weight_spacing")?,
            long_gap: number(p, "cost_long_gap")?,
            longest: number(p, "long_gap_limit_m")?,
            beyond: None,
            end: number(p, "end_max_m")?,
        };
        let add = number(p, "cost_add")?;
        let candidate = |c: &Value| {
            let thick = c["existing_diameter_mm"].as_f64();
            Ok(Candidate {
                x: number(c, "x_m")?,
                keep: if thick.is_some() { 0.0 } else { add },
                drop: thick.map_or(0.0, |d| CUT.0 + CUT.1 * d),
                stays: false,
            })
        };
        let all: Result<Vec<Candidate>, String> =
            list(case, "candidates")?.iter().map(candidate).collect();
        let cordon = (0.0, number(case, "cordon_length_m")?);
        Ok(Asked::Uprights(cordon, all?, weights))
    }

    /// The value of the best choice, and the choice.
    ///
    /// # Errors
    /// Why there is none.
    pub fn solve(&self) -> Result<(f64, Value), String> {
        let said = |refusal: Refusal| refusal.to_string();
        match &self.0 {
            Asked::Leaders(masks, row, weights) => {
                let best = fill::fill(row, weights).map_err(said)?;
                let chosen = best.choice.iter().zip(masks).map(|(way, of_tree)| {
                    let masks = of_tree[*way];
                    json!({ "side_mask_left": masks.left, "extend_mask": masks.extended })
                });
                Ok((best.value, chosen.collect()))
            }
            Asked::Uprights(cordon, all, weights) => {
                let best = uprights::solve(*cordon, all, weights).map_err(said)?;
                Ok((best.value, json!(best.kept)))
            }
        }
    }
}

pub(super) fn solve(case: &Value) -> Result<(Value, Value), String> {
    let (value, choice) = Advice::read(case)?.solve()?;
    let settings = json!({ "method": "exact dynamic programme", "parameters": case["parameters"] });
    Ok((settings, json!({ "value": value, "choice": choice })))
}
