//! `cordonry light`: what rows catch of the light, what falls through, and what reaches their renewal zone.

use crate::Status;
use crate::args::Light;
use crate::files;
use crate::judged::{judged, light_of};
use crate::out::{clean, print, rounded, tell};
use anyhow::Result;
use cordonry::light::Period;
use cordonry::light::row_light::LightReport;
use cordonry::light::sky::USUAL_SKY_SHARE;
use cordonry::said::{Arg, Said};
use cordonry_words::Words;
use serde::{Serialize, Serializer};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::fmt::Write as _;
use std::path::Path;

/// A period from one day to another, each as 2026-07-01 or 07-01. Without years it may run over the turn of the year;
/// where both days have one, the last is not before the first.
fn period(from: &str, to: &str) -> Result<Period, Said> {
    let (first, last) = (day(from)?, day(to)?);
    let refused = |key| {
        let (from, to) = (Arg::Text(from.into()), Arg::Text(to.into()));
        Err(Said::new(key, vec![("from", from), ("to", to)]))
    };
    if let (Some(a), Some(b)) = (first.year, last.year) {
        if (a, first.of_year) > (b, last.of_year) {
            return refused("command-period-backward");
        }
        // One turn of the year at most: a day of the year is all that the light asks of a date.
        if b > a + 1 || (b == a + 1 && last.of_year >= first.of_year) {
            return refused("command-period-long");
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
fn day(text: &str) -> Result<Day, Said> {
    let refused = |key, more: &[(&'static str, Arg)]| {
        let mut args = vec![("day", Arg::Text(text.into()))];
        args.extend_from_slice(more);
        Err(Said::new(key, args))
    };
    let parts: Vec<Option<u32>> = text.split('-').map(|p| p.parse().ok()).collect();
    let (year, month, day) = match parts[..] {
        [Some(year), Some(month), Some(day)] => (Some(year), month, day),
        [Some(month), Some(day)] => (None, month, day),
        _ => return refused("command-day-refused", &[]),
    };
    if !(1..=12).contains(&month) {
        return refused("command-no-month", &[("month", Arg::Count(month.into()))]);
    }
    let of_month = Period::month(month);
    let leap = |year: u32| {
        year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
    };
    let days = of_month.days() + u32::from(month == 2 && year.is_none_or(leap));
    if !(1..=days).contains(&day) {
        let of = |day: u32| {
            Arg::Text(match year {
                Some(year) => format!("{year}-{month:02}-{day:02}"),
                None => format!("{month:02}-{day:02}"),
            })
        };
        return refused("command-no-day", &[("first", of(1)), ("last", of(days))]);
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

pub fn run(ask: &Light, words: &Words) -> Status {
    let asked = match (&ask.from, &ask.to) {
        (Some(from), Some(to)) => match period(from, to) {
            Ok(period) => Some(period),
            Err(why) => {
                tell(&format!("cordonry: {}", words.say(&why)));
                return Status::Failed;
            }
        },
        _ => None,
    };
    let look = |path: &Path| -> Result<Lit> {
        let plan = files::plan(path, words)?;
        let at = judged(&plan, words)?;
        Ok(Lit {
            file: path.display().to_string(),
            leaf: at.row.leaf,
            light: light_of(&plan, &at, asked, ask.sky.into()),
            name: plan.name,
        })
    };
    let unreadable = RefCell::default();
    let rows = files::rows(&ask.paths, &unreadable, words, look);
    let printed = print(&ask.output, words, rows, &unreadable, |row| {
        let mut out = String::new();
        row_words(row, words, &mut out);
        out
    });
    match unreadable.borrow().is_empty() {
        true => printed,
        false => Status::Failed,
    }
}

impl Serialize for Lit {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        row_json(self).serialize(s)
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
        "sky": light.weather.key(),
        "interception_share": share(light.caught.total),
        "interception_if_filled_share": share(light.filled),
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

fn row_words(row: &Lit, words: &Words, out: &mut String) {
    let light = &row.light;
    let around = &light.around;
    // Writing to a string has nothing to fail at.
    let said = words.text(
        "command-light",
        &[
            ("file", Arg::Text(clean(&row.file))),
            ("name", Arg::Text(clean(&row.name))),
            ("leaf", Arg::Count(row.leaf.into())),
            ("from", Arg::Text(day_words(light.period.first))),
            ("to", Arg::Text(day_words(light.period.last))),
            ("caught", Arg::Share(light.caught.total)),
            ("filled", Arg::Share(light.filled)),
            ("beam", Arg::Share(light.caught.beam)),
            ("sky", Arg::Share(light.caught.sky)),
            ("index", Arg::Number(light.leaf_area_index, 2)),
        ],
    );
    let _ = writeln!(out, "{said}");
    if let Some(zone) = light.zone {
        let said = words.text(
            "command-light-zone",
            &[
                ("mean", Arg::Share(zone.mean)),
                ("least", Arg::Share(zone.lowest)),
                ("under30", Arg::Share(light.under_flowering)),
                ("under50", Arg::Share(light.under_quality)),
            ],
        );
        let _ = writeln!(out, "  {said}");
    }
    let place = |metres: f64| Arg::Text(words.to_type(&format!("{metres:.2}")));
    for gap in &light.gaps {
        let said = words.text(
            "command-light-gap",
            &[
                ("x0", place(gap.x0)),
                ("x1", place(gap.x1)),
                ("z0", place(gap.z0)),
                ("z1", place(gap.z1)),
                ("loss", Arg::Number(gap.loss * 100.0, 3)),
            ],
        );
        let _ = writeln!(out, "  {said}");
    }
    let part = |key, value: f64, given: bool| -> Arg {
        let value = Arg::Text(words.to_type(&value.to_string()));
        let part: Arg = Said::new(key, vec![("value", value)]).into();
        match given {
            true => part,
            false => Said::new("command-light-taken", vec![("what", part)]).into(),
        }
    };
    let (site, shape) = (&around.site, &around.shape);
    let latitude = part(
        "command-light-latitude",
        site.latitude_deg,
        around.place_given,
    );
    let bearing = part(
        "command-light-bearing",
        site.row_azimuth_deg,
        around.bearing_given,
    );
    let spacing = part(
        "command-light-spacing",
        shape.row_spacing,
        around.spacing_given,
    );
    let said = words.text(
        "command-light-around",
        &[
            ("latitude", latitude),
            ("bearing", bearing),
            ("spacing", spacing),
            ("weather", Arg::Text(light.weather.key().into())),
            ("share", Arg::Share(USUAL_SKY_SHARE)),
        ],
    );
    let _ = writeln!(out, "  {said}");
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
            let why = day(wrong).err().map(|e| Words::strict().say(&e));
            assert!(
                why.is_some_and(|w| w.contains("written as 2026")),
                "{wrong}"
            );
        }
        for (wrong, says) in [
            ("13-01", "between 01 and 12, not 13"),
            ("04-31", "between 04-01 and 04-30"),
            ("0-1", "between 01 and 12, not 0"),
            ("2026-02-30", "between 2026-02-01 and 2026-02-28"),
            ("2025-02-29", "between 2025-02-01 and 2025-02-28"),
            ("1900-02-29", "between 1900-02-01 and 1900-02-28"),
        ] {
            let why = day(wrong)
                .err()
                .map(|e| Words::strict().say(&e))
                .unwrap_or_default();
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
            ("2026-07-01", "2027-07-01", "a year at most"),
            ("2026-07-01", "2029-01-01", "a year at most"),
        ] {
            let why = days(from, to).err().map(|e| Words::strict().say(&e));
            assert!(why.is_some_and(|w| w.contains(says)), "{from} {to}");
        }
    }
}
