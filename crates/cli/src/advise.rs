//! `cordonry advise`: the work that is proposed for a window, with its reasons, what it costs and what it brings.

use crate::Status;
use crate::args::{Advise as Asked, Kind};
use crate::convert::named;
use crate::files;
use crate::judged::window;
use crate::out::{clean, print, rounded, tell};
use anyhow::Result;
use cordonry::advise::{Cost, Draft, Gain, Piece, Weight, Weights, Why, draft, renew, tips};
use cordonry::check::{Context, Figures, Finding, Severity, survey};
use cordonry::file::{work_value, write_plan};
use cordonry::plan::{Moment, Phase, Plan, Replayer};
use cordonry::pose::PosedRow;
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{subjects_line, work_place};
use cordonry_words::Words;
use serde::{Serialize, Serializer};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::fmt::Write as _;
use std::path::Path;

/// Winters over which renewal is advised.
const WINTERS: u8 = 5;

/// What is advised for a file's row.
struct Told {
    file: String,
    name: String,
    moment: Moment,
    advice: Vec<Advice>,
    lines: String,
}

/// One piece of advice as programs read it.
struct Advice {
    kind: Kind,
    before: f64,
    after: f64,
    work: Vec<Work>,
    words: String,
    more: Value,
}

pub fn run(ask: &Asked, words: &Words) -> Status {
    let kinds = match ask.kinds.is_empty() {
        true => vec![Kind::Draft],
        false => ask.kinds.clone(),
    };
    let look = |path: &Path| -> Result<Told> {
        if let Some(output) = &ask.output_file {
            named(output, "command-a-plan", &["json"], words)?;
        }
        let plan = files::plan(path, words)?;
        let moment = Moment {
            leaf: ask.leaf.unwrap_or(plan.found.leaf),
            window: ask.window.into(),
        };
        let mut now = plan.clone();
        let mut told = Told {
            file: path.display().to_string(),
            name: plan.name.clone(),
            moment,
            advice: Vec::new(),
            lines: String::new(),
        };
        for kind in &kinds {
            now = advise(&now, *kind, moment, &mut told, words)
                .map_err(|why| files::refused(&why, words))?;
        }
        if let Some(output) = &ask.output_file {
            files::write(output, path, write_plan(&now).as_bytes(), words)?;
        }
        Ok(told)
    };
    let unreadable = RefCell::default();
    if ask.output_file.is_some() && (ask.paths.len() > 1 || ask.paths[0].is_dir()) {
        tell(&words.plain("command-one-plan"));
        return Status::Failed;
    }
    let rows = files::rows(&ask.paths, &unreadable, words, look);
    let printed = print(&ask.output, words, rows, &unreadable, |row| {
        people(row, words)
    });
    match unreadable.borrow().is_empty() {
        true => printed,
        false => Status::Failed,
    }
}

/// A row after a window's work: its figures, and how much is to be mended now and soon.
fn stands(plan: &Plan, moment: Moment) -> Result<(Figures, usize), Refusal> {
    let at = Replayer::default().at(plan, 0, moment, Phase::After)?;
    let seen = survey(&Context::of(&at), None);
    let open = seen.findings.iter().filter(|f| f.severity > Severity::Note);
    Ok((seen.figures, open.count()))
}

/// Whether a piece fills the cordon, or sees to its uprights.
fn is_of(kind: Kind, piece: &Piece) -> bool {
    let fills = |w: &Work| matches!(w, Work::Lay { .. } | Work::ReplaceTree { .. });
    let spaces = |w: &Work| {
        let buds = matches!(
            w,
            Work::KeepBud { .. } | Work::Notch { .. } | Work::MoveBud { .. }
        );
        buds || matches!(w, Work::Remove { .. } | Work::Stand { .. })
    };
    match kind {
        Kind::Fill => piece.work.iter().any(fills),
        Kind::Uprights => piece.work.iter().any(spaces) && !piece.work.iter().any(fills),
        Kind::Draft | Kind::Tip | Kind::Renew => true,
    }
}

/// Advice of one kind on a plan, told; the plan with it taken.
fn advise(
    plan: &Plan,
    kind: Kind,
    moment: Moment,
    told: &mut Told,
    words: &Words,
) -> Result<Plan, Refusal> {
    let leaf = moment.leaf;
    match kind {
        Kind::Draft | Kind::Fill | Kind::Uprights => {
            let made = draft(plan, 0, moment)?;
            let part = made.taken(plan, |p| is_of(kind, p))?;
            let taken = part.plan;
            let (before, open) = stands(plan, moment)?;
            let (after, still) = stands(&taken, moment)?;
            let (was, is) = match kind {
                Kind::Fill => (before.gap_total / 1000.0, after.gap_total / 1000.0),
                Kind::Uprights => (before.upright_spacing_cv, after.upright_spacing_cv),
                _ => (open as f64, still as f64),
            };
            let pieces: Vec<&Piece> = part.pieces.iter().map(|at| &made.pieces[*at]).collect();
            let gain = Gain::of(plan, &taken, 0, leaf)?;
            let at = Replayer::default().at(&taken, 0, moment, Phase::After)?;
            drafted(
                told,
                kind,
                (was, is),
                &pieces,
                &gain,
                (&taken, &at.row),
                words,
            );
            if kind == Kind::Draft {
                still_open(told, plan, &made, words)?;
            }
            Ok(taken)
        }
        Kind::Tip => {
            let tips = tips(plan, 0, leaf)?;
            let mean = |of: &dyn Fn(&cordonry::advise::Tip) -> f64| {
                let all: Vec<f64> = tips.trees.iter().map(of).filter(|v| *v > 0.0).collect();
                all.iter().sum::<f64>() / all.len().max(1) as f64
            };
            let was = mean(&|t| t.leaf_of_a_fruit.0);
            let is = mean(&|t| t.leaf_of_a_fruit.1);
            let by_hand = tips.trees.iter().filter(|t| t.by_hand > 0.0).count();
            let args = [
                ("harvest", Arg::Count(tips.harvest.into())),
                ("trees", Arg::Count(tips.trees.len() as i64)),
                ("before", Arg::Number(was, 0)),
                ("after", Arg::Number(is, 0)),
                ("hand", Arg::Count(by_hand as i64)),
            ];
            let said = words.text("advice-tips", &args);
            let _ = writeln!(told.lines, "  {said}");
            if let Some(counted) = tips.counted.said() {
                let _ = writeln!(told.lines, "  {}", words.say(&counted));
            }
            for tip in &tips.trees {
                let args = [
                    ("tree", Arg::Count(tip.tree.0.into())),
                    ("share", Arg::Share(f64::from(tip.percent) / 100.0)),
                    ("before", Arg::Number(tip.leaf_of_a_fruit.0, 0)),
                    ("after", Arg::Number(tip.leaf_of_a_fruit.1, 0)),
                    ("hand", Arg::Share(tip.by_hand)),
                    ("tips", Arg::yes(tip.percent > 0)),
                    ("thin", Arg::yes(tip.by_hand >= 0.005)),
                ];
                let _ = writeln!(told.lines, "    {}", words.text("advice-tip", &args));
            }
            let trees = tips.trees.iter().map(|t| {
                json!({
                    "tree": t.tree, "share": f64::from(t.percent) / 100.0,
                    "leaf_area_per_fruit_before_cm2": rounded(t.leaf_of_a_fruit.0, 1e2),
                    "leaf_area_per_fruit_after_cm2": rounded(t.leaf_of_a_fruit.1, 1e2),
                    "thin_by_hand_share": rounded(t.by_hand, 1e4),
                })
            });
            let more = json!({ "harvest_leaf": tips.harvest, "trees": trees.collect::<Vec<_>>() });
            let work = tips.work;
            told.put(Kind::Tip, (was, is), work, said, more);
            Ok(tips.plan)
        }
        Kind::Renew => {
            let made = renew(plan, 0, leaf, WINTERS)?;
            let (simple, seen) = made.oldest;
            let args = [
                ("winters", Arg::Count(WINTERS.into())),
                ("simple", Arg::Count(simple.into())),
                ("seen", Arg::Count(seen.into())),
                ("before", Arg::Number(made.gain.before.crop, 1)),
                ("after", Arg::Number(made.gain.after.crop, 1)),
                ("low", Arg::Number(made.gain.crop.0, 1)),
                ("high", Arg::Number(made.gain.crop.1, 1)),
            ];
            let said = words.text("advice-renewed", &args);
            let _ = writeln!(told.lines, "  {said}");
            let mut replayer = Replayer::default();
            for ((leaf, stubs), (rule, crop)) in made.winters.iter().zip(&made.crop) {
                let args = [
                    ("leaf", Arg::Count((*leaf).into())),
                    ("count", Arg::Count(stubs.len() as i64)),
                    ("rule", Arg::Number(*rule, 1)),
                    ("crop", Arg::Number(*crop, 1)),
                ];
                let _ = writeln!(told.lines, "    {}", words.text("advice-winter", &args));
                if !stubs.is_empty() {
                    let winter = Moment::dormant(*leaf);
                    let at = replayer.at(&made.plan, 0, winter, Phase::After)?;
                    let on = subjects_line(stubs, &at.row, words);
                    let _ = writeln!(told.lines, "        {on}");
                }
            }
            let winters = made.winters.iter().zip(&made.crop);
            let winters = winters.map(|((leaf, stubs), (rule, crop))| {
                json!({
                    "leaf": leaf, "work": stubs.iter().map(work_value).collect::<Vec<_>>(),
                    "crop_t_per_ha": rounded(*crop, 1e4), "crop_by_rule_t_per_ha": rounded(*rule, 1e4),
                })
            });
            let more =
                json!({ "winters": winters.collect::<Vec<_>>(), "gain": gain_json(&made.gain) });
            let work = made.winters.into_iter().flat_map(|(_, stubs)| stubs);
            let ages = (f64::from(simple), f64::from(seen));
            told.put(Kind::Renew, ages, work.collect(), said, more);
            Ok(made.plan)
        }
    }
}

impl Told {
    fn put(
        &mut self,
        kind: Kind,
        (before, after): (f64, f64),
        work: Vec<Work>,
        words: String,
        more: Value,
    ) {
        self.advice.push(Advice {
            kind,
            before,
            after,
            work,
            words,
            more,
        });
    }
}

/// Tells of a draft, or of what of it is of one kind.
fn drafted(
    told: &mut Told,
    kind: Kind,
    values: (f64, f64),
    pieces: &[&Piece],
    gain: &Gain,
    (plan, row): (&Plan, &PosedRow),
    words: &Words,
) {
    let works = || pieces.iter().flat_map(|p| &p.work);
    let cost = Cost::of(&works().collect::<Vec<_>>(), plan);
    let args = [
        ("pieces", Arg::Count(works().count() as i64)),
        ("cuts", Arg::Count(cost.cuts as i64)),
        ("ties", Arg::Count(cost.ties as i64)),
        ("buds", Arg::Count(cost.buds as i64)),
        ("wires", Arg::Count(cost.wires as i64)),
        ("minutes", Arg::Number(cost.minutes, 0)),
    ];
    let said = words.text("advice-draft", &args);
    let _ = writeln!(told.lines, "  {said}");
    let args = [
        ("before", Arg::Number(gain.before.crop, 1)),
        ("after", Arg::Number(gain.after.crop, 1)),
        ("low", Arg::Number(gain.crop.0, 1)),
        ("high", Arg::Number(gain.crop.1, 1)),
        ("next", Arg::Number(gain.before.coming, 1)),
        ("nextwith", Arg::Number(gain.after.coming, 1)),
        ("filled", Arg::Share(gain.after.fill)),
        ("was", Arg::Share(gain.before.fill)),
        ("age", Arg::Count(gain.after.oldest.into())),
    ];
    let _ = writeln!(told.lines, "  {}", words.text("advice-gain", &args));
    let mut cautions: Vec<&'static str> = Vec::new();
    let mut last = String::new();
    for piece in pieces {
        let why = why(piece, words);
        let _ = writeln!(
            told.lines,
            "  {:>9}  {}",
            words.length(place(piece, row, words)),
            words.done(&piece.said, &piece.also)
        );
        let on = subjects_line(&piece.work, row, words);
        if !on.is_empty() {
            let _ = writeln!(told.lines, "             {on}");
        }
        // What is alike for tree after tree is told once.
        if why != last {
            let _ = writeln!(told.lines, "             {why}");
        }
        last = why;
        for reason in &piece.each {
            let _ = writeln!(told.lines, "             {}", words.say(&reason.said));
        }
        cautions.extend(piece.work.iter().filter_map(Work::caution));
    }
    cautions.sort_unstable();
    cautions.dedup();
    for caution in &cautions {
        let _ = writeln!(told.lines, "  {}", words.plain(caution));
    }
    let each = pieces.iter().map(|p| {
        let mut out = json!({
            "words": words.done(&p.said, &p.also),
            "why": why(p, words),
            "why_each": p.each.iter().map(|r| words.say(&r.said)).collect::<Vec<_>>(),
            "x_m": rounded(place(p, row, words) / 1000.0, 1e4),
            "trees": p.trees().collect::<std::collections::BTreeSet<_>>(),
            "work": p.work.iter().map(work_value).collect::<Vec<_>>(),
        });
        if let Some(next) = &p.next {
            out["next_best_costs_more"] = json!(rounded(next.worse.value(), 1e4));
            out["next_best"] = json!(next.said.as_ref().map(|said| words.say(said)));
        }
        out
    });
    let more = json!({
        "pieces": each.collect::<Vec<_>>(),
        "cost": {
            "cuts": cost.cuts, "ties": cost.ties, "buds": cost.buds, "wires": cost.wires,
            "minutes": rounded(cost.minutes, 10.0),
        },
        "gain": gain_json(gain),
        "weights": weights(),
        "cautions": cautions.iter().map(|c| words.plain(c)).collect::<Vec<_>>(),
    });
    let work = works().cloned().collect();
    told.put(kind, values, work, said, more);
}

/// Tells what stays open with the whole draft, each with why.
fn still_open(told: &mut Told, plan: &Plan, made: &Draft, words: &Words) -> Result<(), Refusal> {
    if let Some(untipped) = made.untipped(plan)? {
        let _ = writeln!(told.lines, "  {}", words.say(&untipped.said()));
    }
    let open = made.open()?;
    let all: Vec<&Finding> = open.findings.iter().collect();
    let each = open.matters.iter();
    let each: Vec<(String, String)> = each
        .map(|(m, why)| (words.matter(m, &all), words.stuck(why)))
        .collect();
    if !each.is_empty() {
        let said = words.text("draft-open", &[("count", Arg::Count(each.len() as i64))]);
        let _ = writeln!(told.lines, "  {said}");
    }
    for (matter, why) in &each {
        let _ = writeln!(told.lines, "    {matter}. {why}");
    }
    if let Some(Value::Object(more)) = told.advice.last_mut().map(|a| &mut a.more) {
        let each = each
            .iter()
            .map(|(matter, why)| json!({ "words": matter, "why": why }));
        more.insert("open".into(), each.collect());
    }
    Ok(())
}

/// What was weighed against what: of the fill mm of bare wire, of the uprights distances that are off by as much as is aimed at.
fn weights() -> Value {
    let usual = Weights::default();
    let each = Weight::ALL.map(|w| (w.info().0.to_string(), json!(usual.get(w))));
    Value::Object(each.into_iter().collect())
}

/// Where its first work is done, mm; where that has no place, where the finding is.
fn place(piece: &Piece, row: &PosedRow, words: &Words) -> f64 {
    let first = piece.work.first();
    let there = first.and_then(|w| work_place(w, row, words));
    there.unwrap_or(piece.x)
}

fn why(piece: &Piece, words: &Words) -> String {
    match &piece.why {
        Why::Found(finding) => words.finding(finding),
        Why::Usual(said) => words.say(said),
    }
}

fn gain_json(gain: &Gain) -> Value {
    let brought = |b: &cordonry::advise::Brought| {
        json!({
            "crop_t_per_ha": rounded(b.crop, 1e4), "coming_crop_t_per_ha": rounded(b.coming, 1e4),
            "cordon_fill_share": rounded(b.fill, 1e6),
            "upright_spacing_cv": rounded(b.spacing, 1e6), "light_share": rounded(b.light, 1e6), "uprights": b.uprights,
            "wood_age_max": b.oldest,
        })
    };
    json!({
        "leaves": cordonry::advise::LEAVES,
        "before": brought(&gain.before),
        "after": brought(&gain.after),
        "crop_difference_low_t_per_ha": rounded(gain.crop.0, 1e4),
        "crop_difference_high_t_per_ha": rounded(gain.crop.1, 1e4),
    })
}

impl Serialize for Told {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let advice = self.advice.iter().map(|a| {
            let mut out = json!({
                "for": a.kind.name(),
                "value_before": rounded(a.before, 1e6),
                "value_after": rounded(a.after, 1e6),
                "work": a.work.iter().map(work_value).collect::<Vec<_>>(),
                "words": a.words,
            });
            if let (Value::Object(out), Value::Object(more)) = (&mut out, a.more.clone()) {
                out.extend(more);
            }
            out
        });
        json!({
            "file": self.file, "name": self.name, "leaf": self.moment.leaf, "window": window(self.moment.window),
            "advice": advice.collect::<Vec<Value>>(),
        })
        .serialize(s)
    }
}

fn people(row: &Told, words: &Words) -> String {
    let args = [
        ("file", Arg::Text(clean(&row.file))),
        ("name", Arg::Text(clean(&row.name))),
        ("leaf", Arg::Count(row.moment.leaf.into())),
        ("window", Arg::Text(window(row.moment.window).into())),
    ];
    format!("{}\n{}", words.text("advice-row", &args), row.lines)
}
