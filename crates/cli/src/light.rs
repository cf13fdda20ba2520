//! `cordonry light`: what rows catch of the light, what falls through, and what reaches their renewal zone.

use crate::Status;
use crate::args::Light;
use crate::check::{judged, rounded};
use crate::files::{self, Unreadable};
use anyhow::{Result, bail};
use cordonry::light::row_light::{LightReport, report};
use cordonry::light::{Foliage, Period};
use cordonry::plan::Plan;
use cordonry::pose::AnyRow;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::Path;

/// The light of a judged row in full leaf, over a period or else its growing season.
pub fn of_row(plan: &Plan, row: &impl AnyRow, period: Option<Period>) -> LightReport {
    let foliage = Foliage::new(row, &plan.site, &plan.targets, 1.0);
    let latitude = foliage.around().site.latitude_deg;
    let period = period.unwrap_or(Period::growing_season(latitude));
    report(&foliage, &plan.targets, period)
}

/// A period from one day to another, each as 2026-07-01 or 07-01. Without years it may run over the turn of the year;
/// where both days have one, the last is not before the first.
fn period(from: &str, to: &str) -> Result<Period> {
    let (first, last) = (day(from)?, day(to)?);
    if let (Some(a), Some(b)) = (first.year, last.year) {
        if (a, first.of_year) > (b, last.of_year) {
            bail!(
                "a period from {from} to {to} is refused, for it ends before it begins; a last day from {from} on is accepted"
            );
        }
        // One turn of the year at most: a day of the year is all that the light asks of a date.
        if b > a + 1 || (b == a + 1 && last.of_year >= first.of_year) {
            bail!("a period from {from} to {to} is refused; up to a year is accepted");
        }
    }
    Ok(Period {
        first: first.of_year,
        last: last.of_year,
    })
}

/// A day as it was asked for.
struct Day {
    year: Option<u32>,
    of_year: u32,
}

/// 29 February, which only some years have, counts as 1 March.
fn day(text: &str) -> Result<Day> {
    let parts: Vec<Option<u32>> = text.split('-').map(|p| p.parse().ok()).collect();
    let (year, month, day) = match parts[..] {
        [Some(year), Some(month), Some(day)] => (Some(year), month, day),
        [Some(month), Some(day)] => (None, month, day),
        _ => bail!("a day '{text}' is refused; one such as 2026-07-01 or 07-01 is accepted"),
    };
    if !(1..=12).contains(&month) {
        bail!("a day '{text}' is refused, for there is no month {month}; 01 to 12 is accepted");
    }
    let of_month = Period::month(month);
    let leap = |year: u32| {
        year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
    };
    let days = of_month.days() + u32::from(month == 2 && year.is_none_or(leap));
    if !(1..=days).contains(&day) {
        bail!(
            "a day '{text}' is refused, for there is no such day; {} is accepted",
            match year {
                Some(year) => format!("{year}-{month:02}-01 to {year}-{month:02}-{days}"),
                None => format!("{month:02}-01 to {month:02}-{days}"),
            }
        );
    }
    Ok(Day {
        year,
        of_year: of_month.first + day - 1,
    })
}

/// A day of the year as people write it.
fn day_words(day: u32) -> String {
    let month = (1..=12)
        .rev()
        .find(|m| Period::month(*m).first <= day)
        .unwrap_or(1);
    format!("{month:02}-{:02}", day - Period::month(month).first + 1)
}

struct Lit {
    file: String,
    name: String,
    leaf: u8,
    light: LightReport,
}

pub fn run(ask: &Light) -> Status {
    let asked = match (&ask.from, &ask.to) {
        (Some(from), Some(to)) => match period(from, to) {
            Ok(period) => Some(period),
            Err(why) => {
                eprintln!("cordonry: {why:#}");
                return Status::Failed;
            }
        },
        _ => None,
    };
    let look = |path: &Path| -> Result<Lit> {
        let plan = files::plan(path)?;
        let row = judged(&plan)?.row;
        Ok(Lit {
            file: path.display().to_string(),
            leaf: row.leaf,
            light: of_row(&plan, &row, asked),
            name: plan.name,
        })
    };
    let (mut lit, mut unreadable) = (Vec::new(), Vec::new());
    for path in files::plans(&ask.paths) {
        match path.and_then(|p| look(&p).map_err(|e| (p, e))) {
            Ok(row) => lit.push(row),
            Err((path, error)) => unreadable.push(Unreadable::said(&path, &error)),
        }
    }
    let rows: Vec<Value> = lit.iter().map(row_json).collect();
    let printed = files::print(&ask.output, &rows, &unreadable, |out| {
        for row in &lit {
            row_words(row, out);
        }
    });
    match unreadable.is_empty() {
        true => printed,
        false => Status::Failed,
    }
}

fn row_json(row: &Lit) -> Value {
    let light = &row.light;
    let share = |v: f64| rounded(v, 1e6);
    let metres = |v: f64| rounded(v, 1e4);
    let gaps: Vec<Value> = light
        .gaps
        .iter()
        .map(|g| {
            json!({
                "x0_m": metres(g.x0),
                "x1_m": metres(g.x1),
                "z0_m": metres(g.z0),
                "z1_m": metres(g.z1),
                "area_m2": metres(g.area),
                "loss_share": rounded(g.loss, 1e8),
            })
        })
        .collect();
    // Where no leaf reaches, nothing shades the zone.
    let (mean, least) = light.zone.map_or((1.0, 1.0), |z| (z.mean, z.lowest));
    let around = &light.around;
    json!({
        "file": row.file,
        "name": row.name,
        "leaf": row.leaf,
        "from": day_words(light.period.first),
        "to": day_words(light.period.last),
        "interception_share": share(light.caught.total),
        "beam_interception_share": share(light.caught.beam),
        "diffuse_interception_share": share(light.caught.sky),
        "renewal_zone_mean_share": share(mean),
        "renewal_zone_min_share": share(least),
        "wall_under_30_share": share(light.under_flowering),
        "wall_under_50_share": share(light.under_quality),
        "gaps": gaps,
        "leaf_area_index": rounded(light.leaf_area_index, 1e4),
        "assumed": {
            "latitude_deg": around.site.latitude_deg,
            "latitude_given": around.place_given,
            "row_bearing_deg": around.site.row_azimuth_deg,
            "row_bearing_given": around.bearing_given,
            "row_spacing_m": metres(around.shape.row_spacing),
            "row_spacing_given": around.spacing_given,
            "wall_thickness_m": metres(around.shape.thickness),
        },
    })
}

fn row_words(row: &Lit, out: &mut String) {
    let light = &row.light;
    let around = &light.around;
    let percent = |v: f64| format!("{:.0} %", v * 100.0);
    let taken = |given: bool| if given { "" } else { " (taken)" };
    // Writing to a string has nothing to fail at.
    let _ = writeln!(
        out,
        "{}: {}, leaf {}, {} to {}: {} of the light caught (beam {}, sky {}), leaf area index {:.2}",
        row.file,
        row.name,
        row.leaf,
        day_words(light.period.first),
        day_words(light.period.last),
        percent(light.caught.total),
        percent(light.caught.beam),
        percent(light.caught.sky),
        light.leaf_area_index,
    );
    if let Some(zone) = light.zone {
        let _ = writeln!(
            out,
            "  renewal zone {} in the mean, {} at the least; {} of the wall under 30 %, {} under 50 %",
            percent(zone.mean),
            percent(zone.lowest),
            percent(light.under_flowering),
            percent(light.under_quality),
        );
    }
    for gap in &light.gaps {
        let _ = writeln!(
            out,
            "  gap from {:.2} to {:.2} m, {:.2} to {:.2} m high, loses {:.3} % of the light",
            gap.x0,
            gap.x1,
            gap.z0,
            gap.z1,
            gap.loss * 100.0
        );
    }
    let _ = writeln!(
        out,
        "  at latitude {}{}, row bearing {}°{}, rows {} m apart{}",
        around.site.latitude_deg,
        taken(around.place_given),
        around.site.row_azimuth_deg,
        taken(around.bearing_given),
        around.shape.row_spacing,
        taken(around.spacing_given),
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_read_with_and_without_a_year() {
        let of_year = |text: &str| day(text).ok().map(|d| d.of_year);
        assert_eq!(of_year("2026-07-01"), Some(182));
        assert_eq!(of_year("07-01"), Some(182));
        assert_eq!(of_year("12-31"), Some(365));
        assert_eq!(of_year("2024-02-29"), Some(60));
        assert_eq!(of_year("02-29"), Some(60));
        for wrong in ["", "07", "x-1", "2026-07-01-1"] {
            let why = day(wrong).err().map(|e| e.to_string());
            assert!(why.is_some_and(|w| w.contains("such as 2026")), "{wrong}");
        }
        for (wrong, says) in [
            ("13-01", "no month 13; 01 to 12"),
            ("04-31", "no such day; 04-01 to 04-30"),
            ("0-1", "no month 0"),
            ("2026-02-30", "no such day; 2026-02-01 to 2026-02-28"),
            ("2025-02-29", "no such day"),
            ("1900-02-29", "no such day"),
        ] {
            let why = day(wrong).err().map(|e| e.to_string()).unwrap_or_default();
            assert!(why.contains(says), "{wrong}: {why}");
        }
        for n in 1..=365 {
            assert_eq!(of_year(&day_words(n)), Some(n));
        }
    }

    #[test]
    fn a_period_with_years_does_not_run_backward() {
        let days = |from, to| period(from, to).map(|p| (p.first, p.last));
        assert_eq!(days("2026-07-01", "2026-08-01").ok(), Some((182, 213)));
        assert_eq!(days("2026-07-01", "2026-07-01").ok(), Some((182, 182)));
        // Over the turn of the year, said or not.
        assert_eq!(days("2026-11-01", "2027-02-01").ok(), Some((305, 32)));
        assert_eq!(days("11-01", "02-01").ok(), Some((305, 32)));
        assert_eq!(days("2026-11-01", "02-01").ok(), Some((305, 32)));
        for (from, to, says) in [
            ("2026-08-01", "2026-07-01", "ends before it begins"),
            ("2027-01-01", "2026-12-31", "ends before it begins"),
            ("2026-07-01", "2027-07-01", "up to a year"),
            ("2026-07-01", "2029-01-01", "up to a year"),
        ] {
            let why = days(from, to).err().map(|e| e.to_string());
            assert!(why.is_some_and(|w| w.contains(says)), "{from} {to}");
        }
    }
}
