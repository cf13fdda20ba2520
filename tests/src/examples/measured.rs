//! A row of forty trees as a person wrote it down with a tape: read to the centimetre, with slips of the pen.

use super::build::{Rows, fence, grown, shoot, thickness, upright};
use cordonry::pose::{Geometry, layout};
use cordonry::row::{Kind, Pose, Shoot, Targets, Toward, Tree};
use std::fmt::Write as _;

const TREES: u32 = 40;
const DEAD: u32 = 17;

/// The table.
pub fn table() -> String {
    let rows = rows();
    let g = Geometry::of(&rows.row, &Targets::default());
    let mut out = String::from(
        "# Invented demonstration data: forty trees before their fourth leaf, with a few slips of the pen. No such row was measured.\n\
         tree,place (m),kind,length (m),diameter (mm),side,pose,season,laterals,note\n",
    );
    for tree in &rows.row.trees {
        let foot = tree.foot.f() / 1000.0;
        if tree.is_lost() {
            let _ = writeln!(out, "{},{foot:.2},lost,,,right,45,,,{}", tree.id, tree.note);
            continue;
        }
        let courses = layout(tree, g);
        let mut lines: Vec<(f64, &Shoot)> = tree
            .shoots
            .iter()
            .zip(&courses)
            .map(|(s, c)| (c.base.x / 1000.0, s))
            .collect();
        lines[1..].sort_by(|a, b| a.0.total_cmp(&b.0));
        for (x, shoot) in lines {
            line(&mut out, tree, x, shoot);
        }
    }
    slips(&out)
}

fn line(out: &mut String, tree: &Tree, x: f64, shoot: &Shoot) {
    let lengths: Vec<String> = shoot
        .units
        .iter()
        .map(|u| format!("{:.2}", u.kept / 1000.0))
        .collect();
    let first = shoot.parent.is_none();
    let (side, pose) = match shoot.pose {
        Pose::Laid { .. } if first => ("right", "45".to_string()),
        Pose::Upright { lean } if lean.degrees() != 0.0 => ("", lean.degrees().to_string()),
        _ => ("", String::new()),
    };
    let kind = match shoot.kind() {
        Kind::Stub => "stub",
        Kind::Shoot => "shoot",
        Kind::Upright => "upright",
        _ => "leader",
    };
    let laterals = match shoot.laterals.count {
        0 => String::new(),
        n => n.to_string(),
    };
    let season = shoot.units.first().map_or(0, |u| u.leaf);
    let note = if first { tree.note.as_str() } else { "" };
    let _ = writeln!(
        out,
        "{},{x:.2},{kind},{},{:.0},{side},{pose},{season},{laterals},{note}",
        tree.id,
        lengths.join(" + "),
        shoot.diameter,
    );
}

/// The slips that a day in the row brings, each on a line of its own.
fn slips(table: &str) -> String {
    let mut lines: Vec<String> = table.lines().map(str::to_string).collect();
    // The how-manieth upright of a tree, and what became of its cells.
    let mut slip = |tree: &str, nth: usize, change: &dyn Fn(&mut Vec<String>)| {
        let own = |l: &&mut String| l.starts_with(&format!("{tree},")) && l.contains(",upright,");
        if let Some(line) = lines.iter_mut().filter(own).nth(nth) {
            let mut cells: Vec<String> = line.split(',').map(str::to_string).collect();
            change(&mut cells);
            *line = cells.join(",");
        }
    };
    // An O for a nought, ten metres too far, a length in centimetres, two of them left out, a kind misspelt.
    slip("4", 2, &|c| {
        let point = c[1].find('.').unwrap_or(0);
        c[1].replace_range(point + 1..point + 2, "O");
    });
    slip("11", 3, &|c| {
        let place: f64 = c[1].parse().unwrap_or(0.0);
        c[1] = format!("{:.2}", place + 10.0);
    });
    slip("19", 1, &|c| c[3] = "84".into());
    slip("26", 4, &|c| c[3].clear());
    slip("26", 5, &|c| c[1].clear());
    slip("33", 0, &|c| c[2] = "uprigt".into());
    lines.join("\n") + "\n"
}

fn rows() -> Rows {
    let mut rows = Rows::new(40, 4);
    for id in 1..=TREES {
        let foot = rows.chance.around(1500.0 * f64::from(id - 1), 70.0);
        if id == DEAD {
            rows.plant(id, foot, 45.0, Toward::Right, None);
            rows.tree(id).note = "dead".into();
            continue;
        }
        let stock = rows.chance.around(1560.0, 110.0);
        let first = rows.chance.around(400.0, 120.0);
        let second = rows.chance.around(215.0, 110.0);
        let growth = [(0, stock), (1, first), (2, second)];
        rows.leader(id, foot, 45.0, Toward::Right, &growth);
        rows.tree(id).shoots[0].pose = super::build::laid(Toward::Right, 0.0);
        // Every so often an end shoot that was never laid.
        if id % 9 == 4 {
            let end = rows.tree(id).shoots[0].length();
            let length = rows.chance.around(560.0, 120.0);
            let mut tip = shoot(Some(0), end, Pose::Free, grown(&[(3, length)]));
            tip.diameter = thickness(&mut rows.chance, length);
            rows.add(id, tip);
        }
    }
    rows.stretch();
    rows.along_the_wire(205.0, 55.0, |c, _| {
        if c.one_in(18) {
            return None;
        }
        if c.one_in(11) {
            let mut stub = shoot(
                Some(0),
                0.0,
                Pose::Stub,
                grown(&[(1, c.around(155.0, 30.0))]),
            );
            stub.diameter = c.around(16.0, 3.0).round();
            return Some(stub);
        }
        let born = 1 + c.between(0.0, 2.2) as u8;
        let strength = c.around(0.85, 0.3);
        let mut out = fence(c, 4, born, strength);
        if !c.one_in(4) {
            out.pose = upright(0.0);
        }
        if c.one_in(6) {
            out.laterals.count = c.between(1.0, 6.0) as u16;
        }
        Some(out)
    });
    rows
}
