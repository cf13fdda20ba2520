//! What every command looks at of a plan: the row that is judged, and its light.

use crate::files;
use anyhow::{Result, anyhow};
use cordonry::light::row_light::{LightReport, report_under};
use cordonry::light::{Foliage, Period, Weather};
use cordonry::plan::{Plan, Replayed, Window, replay};
use cordonry::said::Arg;
use cordonry_words::Words;

/// The row that is judged: before the found leaf grows, the first scheme's dormant work of that leaf done.
pub fn judged(plan: &Plan, words: &Words) -> Result<Replayed> {
    replay(plan, 0, plan.start()).map_err(|why| files::refused(&why, words))
}

/// The light of a row in full leaf, over a period or else its growing season.
pub fn light_of(
    plan: &Plan,
    at: &Replayed,
    period: Option<Period>,
    weather: Weather,
) -> LightReport {
    let foliage = Foliage::new(&at.row, &at.terms, &plan.targets, 1.0);
    let latitude = foliage.around().site.latitude_deg;
    let period = period.unwrap_or(Period::growing_season(latitude));
    report_under(&foliage, &plan.targets, period, weather)
}

/// Where a plan's scheme of that name stands; without a name, the first.
pub fn scheme_named(plan: &Plan, name: Option<&str>, words: &Words) -> Result<usize> {
    let Some(name) = name else {
        return Ok(0);
    };
    let at = plan.schemes.iter().position(|s| s.name == name);
    at.ok_or_else(|| no_scheme(plan, name, words))
}

/// That a plan has no scheme of that name.
pub fn no_scheme(plan: &Plan, name: &str, words: &Words) -> anyhow::Error {
    let all: Vec<&str> = plan.schemes.iter().map(|s| s.name.as_str()).collect();
    let args = [
        ("name", Arg::Text(name.into())),
        ("schemes", Arg::Text(all.join(", "))),
    ];
    anyhow!(words.text("command-no-scheme", &args))
}

/// A time's name in JSON.
pub fn window(window: Window) -> &'static str {
    match window {
        Window::Dormant => "dormant",
        Window::BudSwell => "bud_swell",
        Window::EarlySummer => "early_summer",
        Window::AfterHarvest => "after_harvest",
    }
}
