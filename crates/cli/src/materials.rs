//! `cordonry materials`: what rows take, what their wires bear, and which delivered tree goes where.

use crate::Status;
use crate::args::Materials as Asked;
use crate::crew::pair;
use crate::files;
use crate::judged::scheme_named;
use crate::out::{Row, clean, rounded, tell};
use crate::pages;
use anyhow::{Result, anyhow};
use cordonry::crew::season;
use cordonry::materials::wire::{BREAKING, SETTING, Wire};
use cordonry::materials::{Ask, COIL, Delivered, Item, Needs, Prices, listed, needs, place};
use cordonry::plan::Plan;
use cordonry::row::{Covering, Toward};
use cordonry::said::Arg;
use cordonry::units::{BareUnit, parse_length};
use cordonry::work::Work;
use cordonry_draw::{Laid, Order, is_headed};
use cordonry_words::Words;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

pub fn run(ask: &Asked, words: &Words) -> Status {
    let writes = ask.output_file.is_some() || ask.planting.is_some();
    if writes && (ask.paths.len() > 1 || ask.paths[0].is_dir()) {
        tell(&words.plain("command-one-row"));
        return Status::Failed;
    }
    files::print_rows(&ask.paths, &ask.output, words, |path| {
        let plan = files::plan(path, words)?;
        let scheme = scheme_named(&plan, ask.scheme.as_deref(), words)?;
        let asked = asked(ask, words)?;
        let needs = needs(&plan, scheme, &asked);
        let prices = prices(ask, words)?;
        let delivered = ask.delivered.as_deref();
        let trees = delivered
            .map(|file| delivered_in(file, words))
            .transpose()?;
        let placed = trees.as_ref().map(|trees| {
            let wanted: Vec<(i64, bool)> = needs.stocks.iter().map(|s| s.need()).collect();
            place(&wanted, trees)
        });
        let mut row = json_of(path, &plan, scheme, &needs, &asked);
        let mut told = people(path, &plan, &needs, &asked, words);
        let order = Order {
            plan: &plan,
            needs: &needs,
            ask: &asked,
            prices: &prices,
            currency: &ask.currency,
            words,
        };
        let laid = placed.as_ref().zip(trees.as_ref());
        let laid = laid.map(|((placed, _), trees)| Laid { trees, placed });
        let mut written = Vec::new();
        let paper = ask.paper.into();
        if let Some(output) = &ask.output_file {
            let (table, sheets) = (|| order.table(), || order.sheets(paper));
            written.extend(write(output, path, &plan, words, &table, &sheets)?);
        }
        if let Some(output) = &ask.planting {
            let table = || order.planting_table(laid);
            let sheets = || order.planting(laid, paper);
            written.extend(write(output, path, &plan, words, &table, &sheets)?);
        }
        for file in &written {
            let file = [("file", files::shown(file))];
            let _ = writeln!(told, "  {}", words.text("command-written", &file));
        }
        if writes {
            row["written"] = written.iter().map(|p| p.display().to_string()).collect();
        }
        if let Some((placed, total)) = &placed {
            let each = needs.stocks.iter().zip(placed);
            row["delivered"] = json!({
                "lacking_mm": total,
                "places": each.clone().map(|(stock, p)| json!({
                    "tree": stock.tree, "delivered": p.tree.map(|t| t + 1), "short_mm": p.short, "headed": p.headed,
                })).collect::<Vec<_>>(),
            });
            for (stock, p) in each {
                let args = [
                    ("tree", Arg::Count(stock.tree.0.into())),
                    ("is", Arg::yes(p.tree.is_some())),
                    ("delivered", Arg::Count(p.tree.map_or(0, |t| t as i64 + 1))),
                    ("short", Arg::Length(p.short as f64)),
                    ("lacks", Arg::yes(p.short > 0)),
                    ("headed", Arg::yes(p.headed)),
                ];
                let _ = writeln!(told, "  {}", words.text("command-placed", &args));
            }
        }
        if let Some(sum) = prices.sum(&needs) {
            let priced = Item::ALL.into_iter();
            let priced = priced.filter_map(|i| Some((i, prices.cost(i, &needs)?)));
            row["prices"] = priced
                .map(|(item, cost)| json!({"name": item.name(), "cost": rounded(cost, 100.0)}))
                .collect();
            row["cost"] = json!(rounded(sum, 100.0));
            row["currency"] = json!(ask.currency);
            let args = [
                ("cost", Arg::Number(sum, 2)),
                ("currency", Arg::Text(clean(&ask.currency))),
            ];
            let _ = writeln!(told, "  {}", words.text("command-cost", &args));
        }
        if let Some(leaf) = ask.leaf {
            of_leaf(&plan, scheme, leaf, &mut row, &mut told, words)?;
        }
        Ok(Row { row, people: told })
    })
}

/// Writes what was asked for as the file's name says, a table or sheets; the files that there are then.
fn write(
    output: &Path,
    from: &Path,
    plan: &Plan,
    words: &Words,
    table: &dyn Fn() -> String,
    sheets: &dyn Fn() -> Vec<String>,
) -> Result<Vec<PathBuf>> {
    if output.extension().is_some_and(|e| e == "csv") {
        files::write(output, from, table().as_bytes(), words)?;
        return Ok(vec![output.to_path_buf()]);
    }
    let as_pdf = pages::is_pdf(output, "command-sheets", words)?;
    pages::write(output, from, (&plan.name, &sheets()), as_pdf, words)
}

fn asked(ask: &Asked, words: &Words) -> Result<Ask> {
    let outside = |name: &str, value: f64, low: f64, high: f64| {
        let args = [
            ("name", Arg::Text(name.into())),
            ("value", Arg::Number(value, 2)),
            ("low", Arg::Number(low, 1)),
            ("high", Arg::Number(high, 1)),
        ];
        anyhow!(words.text("command-out-of-range", &args))
    };
    let within = |name: &str, value: f64, low: f64, high: f64| match value >= low && value <= high {
        true => Ok(value),
        false => Err(outside(name, value, low, high)),
    };
    let (low, high) = Wire::DIAMETER;
    let wire = Wire::of(ask.wire).ok_or_else(|| outside("--wire", ask.wire, low, high))?;
    Ok(Ask {
        spare_share: within("--spares", ask.spares, 0.0, 100.0)? / 100.0,
        crop: within("--crop", ask.crop, 0.0, 200.0)?,
        wire,
        ..Ask::default()
    })
}

/// The prices that were said.
fn prices(ask: &Asked, words: &Words) -> Result<Prices> {
    let mut out = Prices::default();
    for price in &ask.prices {
        let (name, each) = pair(price, words)?;
        let item = Item::ALL.into_iter().find(|i| i.name() == name);
        let no_price = || {
            let args = [
                ("name", Arg::short(&name)),
                ("names", Arg::Text(Item::ALL.map(Item::name).join(", "))),
            ];
            anyhow!(words.text("command-no-price", &args))
        };
        out.set(item.ok_or_else(no_price)?, Some(each));
    }
    Ok(out)
}

/// Delivered trees, one a line: a length, and behind it `headed` where its end is cut off.
fn delivered_in(path: &Path, words: &Words) -> Result<Vec<Delivered>> {
    let text = String::from_utf8(files::bytes(path, words)?)?;
    let is_headed = |word: &str| is_headed(words, word);
    let read = |length: &str| parse_length(length, BareUnit::Metre);
    let (trees, bad) = listed(&text, &is_headed, &read);
    match bad.is_empty() {
        true => Ok(trees),
        false => {
            let all: Vec<String> = bad.iter().map(|why| words.say(why)).collect();
            Err(anyhow!(all.join("\n")))
        }
    }
}

fn toward(toward: Toward) -> &'static str {
    match toward {
        Toward::Left => "left",
        Toward::Right => "right",
    }
}

fn kind(covering: Covering) -> &'static str {
    match covering {
        Covering::Bare => "bare",
        Covering::Plastic => "plastic",
    }
}

fn json_of(path: &Path, plan: &Plan, scheme: usize, needs: &Needs, ask: &Ask) -> Value {
    let trees = needs.stocks.iter().map(|s| {
        json!({
            "tree": s.tree, "foot_m": rounded(s.foot.f() / 1000.0, 1e3), "angle_deg": s.angle.degrees(), "toward": toward(s.toward),
            "length_m": rounded(s.length / 1000.0, 1e3), "unheaded": s.unheaded(), "leaders": if s.forks { 2 } else { 1 },
            "at_end": s.at_end, "post_m": s.post.map(|p| rounded(p / 1000.0, 1e3)),
        })
    });
    let wires = needs.wires.iter().map(|w| {
        json!({
            "height_m": rounded(w.height.f() / 1000.0, 1e3), "kind": kind(w.covering), "new": w.is_new,
            "length_m": rounded(w.length / 1000.0, 10.0), "crop_kg_per_m": rounded(w.crop_per_metre, 1e3),
            "tension_loaded_n": rounded(w.loaded.tension, 10.0), "sag_m": rounded(w.loaded.sag, 1e4),
        })
    });
    let metres = |covering| rounded(needs.wire(covering, false) / 1000.0, 10.0);
    json!({
        "file": path.display().to_string(),
        "name": plan.name,
        "scheme": plan.schemes[scheme].name,
        "trees": { "places": needs.stocks.len(), "spares": needs.spares, "order": needs.trees(), "each": trees.collect::<Vec<_>>() },
        "wires": wires.collect::<Vec<_>>(),
        "wire_diameter_mm": ask.wire.diameter,
        "wire_bare_m": metres(Covering::Bare),
        "wire_plastic_m": metres(Covering::Plastic),
        "wire_kg_per_m": rounded(ask.wire.kg_per_metre(), 1e6),
        "coil_m": rounded(ask.wire.coil(COIL), 10.0),
        "coils_bare": (needs.wire(Covering::Bare, false) / 1000.0 / ask.wire.coil(COIL)).ceil(),
        "stretch_mm_per_kn_per_100m": rounded(ask.wire.stretch(), 10.0),
        "tension_set_n": SETTING,
        "posts": needs.posts,
        "posts_assumed": needs.posts_assumed,
        "span_m": rounded(needs.span / 1000.0, 1e3),
        "ties": needs.ties,
        "sleeves": needs.sleeves,
        "crop_t_per_ha": ask.crop,
        "crop_kg_per_m": rounded(needs.crop_per_metre, 1e6),
        "cordon_wire_with_all_crop": {
            "tension_n": rounded(needs.worst.tension, 10.0), "sag_m": rounded(needs.worst.sag, 1e4),
        },
    })
}

fn people(path: &Path, plan: &Plan, needs: &Needs, ask: &Ask, words: &Words) -> String {
    let count = |n: usize| Arg::Count(n as i64);
    let mut out = String::new();
    let mut say = |key: &str, args: &[(&'static str, Arg)], indent: &str| {
        let _ = writeln!(out, "{indent}{}", words.text(key, args));
    };
    let lengths = needs.stocks.iter().map(|s| s.length);
    let args = [
        ("file", Arg::Text(clean(&path.display().to_string()))),
        ("name", Arg::Text(clean(&plan.name))),
        ("trees", count(needs.trees())),
        ("places", count(needs.stocks.len())),
        ("spares", count(needs.spares)),
        (
            "least",
            Arg::Length(lengths.clone().fold(f64::MAX, f64::min)),
        ),
        ("most", Arg::Length(lengths.fold(0.0, f64::max))),
    ];
    say("command-materials", &args, "");
    for wire in &needs.wires {
        let args = [
            ("height", Arg::Length(wire.height.f())),
            ("kind", Arg::Text(kind(wire.covering).into())),
            ("new", Arg::yes(wire.is_new)),
            ("length", Arg::Length(wire.length)),
            ("crop", Arg::Number(wire.crop_per_metre, 1)),
            ("tension", Arg::Number(wire.loaded.tension / 1000.0, 2)),
            ("sag", Arg::Thickness(wire.loaded.sag * 1000.0)),
        ];
        say("command-wire-need", &args, "  ");
    }
    let args = [
        ("bare", Arg::Length(needs.wire(Covering::Bare, false))),
        ("plastic", Arg::Length(needs.wire(Covering::Plastic, false))),
        ("coil", Arg::Number(ask.wire.coil(COIL), 0)),
        ("posts", count(needs.posts)),
        ("assumed", Arg::yes(needs.posts_assumed)),
        ("span", Arg::Length(needs.span)),
        ("ties", count(needs.ties)),
        ("sleeves", count(needs.sleeves)),
    ];
    say("command-wire-all", &args, "  ");
    let args = [
        ("t", Arg::Number(ask.crop, 1)),
        ("kg", Arg::Number(needs.crop_per_metre, 1)),
        ("tension", Arg::Number(needs.worst.tension / 1000.0, 2)),
        ("sag", Arg::Thickness(needs.worst.sag * 1000.0)),
        ("setting", Arg::Number(SETTING / 1000.0, 1)),
        ("breaking", Arg::Number(BREAKING / 1000.0, 1)),
    ];
    say("command-wire-load", &args, "  ");
    for caution in ["caution-trellis", "caution-wire"] {
        say(caution, &[], "  ! ");
    }
    out
}

/// What the work of one leaf takes, as it is handed out.
fn of_leaf(
    plan: &Plan,
    scheme: usize,
    leaf: u8,
    row: &mut Value,
    told: &mut String,
    words: &Words,
) -> Result<()> {
    let season = season(plan, scheme, leaf).map_err(|why| files::refused(&why, words))?;
    let work = || season.passes.iter().flat_map(|p| p.work());
    let planted = work().filter_map(|w| match w {
        Work::Plant {
            tree, length_mm, ..
        }
        | Work::ReplaceTree {
            tree, length_mm, ..
        } => Some(json!({"tree": tree, "length_m": rounded(length_mm.f() / 1000.0, 1e3)})),
        _ => None,
    });
    let planted: Vec<Value> = planted.collect();
    let wires = work().filter_map(|w| match w {
        Work::AddWire {
            height_mm,
            covering,
        } => {
            Some(json!({"height_m": rounded(height_mm.f() / 1000.0, 1e3), "kind": kind(*covering)}))
        }
        _ => None,
    });
    let wires: Vec<Value> = wires.collect();
    let ties: usize = season.passes.iter().map(|p| p.ties).sum();
    let sleeves: usize = season.passes.iter().map(|p| p.sleeves).sum();
    let count = |n: usize| Arg::Count(n as i64);
    let args = [
        ("leaf", Arg::Count(leaf.into())),
        ("trees", count(planted.len())),
        ("wires", count(wires.len())),
        ("ties", count(ties)),
        ("sleeves", count(sleeves)),
    ];
    let _ = writeln!(told, "  {}", words.text("command-leaf-takes", &args));
    row["leaf"] = json!({
        "leaf": leaf, "usual": season.usual, "trees": planted, "wires": wires, "ties": ties, "sleeves": sleeves,
    });
    Ok(())
}
