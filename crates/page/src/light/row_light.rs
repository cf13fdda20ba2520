//! The row's light as the page shows it: coarser and at once while a hand moves, exact when an answer comes.

use super::{LightFigures, Lighting};
use cordonry::cover::Span;
use cordonry::light::filled::caught_when_filled;
use cordonry::light::foliage::{Change, Foliage};
use cordonry::light::report::{FLOWERING_LIGHT, QUALITY_LIGHT, ZoneLight, shares};
use cordonry::light::row_light::{LightReport, gap_rule, sun_of, zone_heights};
use cordonry::light::state::{LightState, Settings, Weights};
use cordonry::light::sun::ClearDay;
use cordonry::light::trace::SET;
use cordonry::light::{Direction, Fineness, LightMap, PeriodLight, Shares, Sky, period_light};
use cordonry::plan::Plan;
use cordonry::pose::AnyRow;
use cordonry::row::Targets;
use cordonry::terms::Terms;
use cordonry::units::Mm;
use std::ops::Range;
use std::sync::Arc;

/// What the light falls from.
enum Source {
    /// A period's sun and sky.
    Period(PeriodLight),
    /// One sun.
    Sun(Weights),
    /// Below the horizon.
    Night,
}

/// The light of the row on the desk.
pub struct RowLight {
    choice: Lighting,
    foliage: Foliage,
    state: LightState,
    source: Source,
    sun: Option<Direction>,
    /// Limits and wall height under which the figures were worked out, and whether the row had grown.
    under: (Arc<Targets>, Mm, bool),
    /// Levels that are shown: up to the wall's height or the highest leaf.
    shown: usize,
    /// The wall's light where it is mapped.
    pub map: LightMap,
    /// Light that reaches the ground under each column.
    pub fall_through: Vec<f32>,
    /// What this wall would catch, filled; none of an hour's beam.
    filled: Option<f64>,
    /// The figures.
    pub figures: LightFigures,
    /// All of it as these settings give it.
    coarse: LightShown,
    /// Columns whose ground was lit again last.
    relit: Vec<Range<usize>>,
    /// The last exact answer, and what these settings gave of the same row.
    rest: Option<Rest>,
}

/// What is shown.
#[derive(Clone, Default)]
struct LightShown {
    map: Vec<f32>,
    fall_through: Vec<f32>,
    figures: LightFigures,
}

/// An exact answer, and what the coarser settings gave of the same row: what they say of a change is put on the former, so
/// that nothing jumps when a hand takes hold or lets go.
struct Rest {
    exact: LightShown,
    then: LightShown,
}

/// Exact values, moved by the change from `then` to `now`.
fn moved(exact: &[f32], then: &[f32], now: &[f32]) -> Vec<f32> {
    exact
        .iter()
        .zip(then)
        .zip(now)
        .map(|((e, t), n)| (e + n - t).clamp(0.0, 1.0))
        .collect()
}

/// Most columns that are mapped at once; farther out the map would be a few pixels high.
const MAPPED: usize = 1_600;

impl RowLight {
    /// The light of a row, mapped where `span` (mm along the row) is in view.
    pub fn new(
        row: &impl AnyRow,
        terms: &Terms,
        plan: &Plan,
        choice: Lighting,
        span: Span,
    ) -> Self {
        let foliage = Foliage::new(row, terms, &plan.targets, choice.out);
        let (state, source, sun) = begin(&foliage, plan, choice, 0..0);
        let grown = foliage.has_grown();
        let mut light = Self {
            choice,
            foliage,
            state,
            source,
            sun,
            under: (
                Arc::clone(&plan.targets),
                row.row().trellis.wall_height,
                grown,
            ),
            shown: 0,
            map: LightMap {
                columns: 0..0,
                z: Vec::new(),
                light: Vec::new(),
            },
            fall_through: Vec::new(),
            filled: None,
            figures: LightFigures::default(),
            coarse: LightShown::default(),
            relit: Vec::new(),
            rest: None,
        };
        light.look_at(span);
        light.fill(plan);
        light.derive(row, plan, None);
        light
    }

    /// What is looked at.
    pub fn choice(&self) -> Lighting {
        self.choice
    }

    /// The hour's sun, while it is up.
    pub fn sun(&self) -> Option<Direction> {
        self.sun
    }

    /// Whether an hour is looked at in which the sun is down.
    pub fn is_night(&self) -> bool {
        matches!(self.source, Source::Night)
    }

    /// Latitude by which the sun moves.
    pub fn latitude_deg(&self) -> f64 {
        self.foliage.around().site.latitude_deg
    }

    /// Place, bearing and spacing.
    pub fn around(&self) -> &cordonry::light::Surroundings {
        self.foliage.around()
    }

    /// Start of the first column, mm, and the width of one.
    pub fn columns_mm(&self) -> (f64, f64) {
        let wall = self.state.wall();
        (wall.x0() * 1000.0, wall.dx() * 1000.0)
    }

    /// Follows the row; whether anything changed.
    pub fn follow(&mut self, row: &impl AnyRow, terms: &Terms, plan: &Plan, span: Span) -> bool {
        let change = self.foliage.follow(row, terms, &plan.targets);
        // Columns whose light is another one; none for all of them.
        let relit = match change {
            Change::All => {
                (self.state, self.source, self.sun) = begin(&self.foliage, plan, self.choice, 0..0);
                self.rest = None;
                self.look_at(span);
                self.fill(plan);
                None
            }
            Change::Columns(ranges) => {
                let moved = self.look_at(span);
                let leaves = ranges
                    .iter()
                    .map(|range| self.foliage.density(range.clone()));
                let leaves: Vec<Vec<f32>> = leaves.collect();
                let parts = ranges.iter().cloned().zip(leaves.iter().map(Vec::as_slice));
                let parts: Vec<_> = parts.collect();
                self.state.edit_each(&parts);
                let reached = ranges.iter().flat_map(|range| self.state.reach(range));
                (!moved).then(|| reached.collect::<Vec<_>>())
            }
        };
        let under = (
            Arc::clone(&plan.targets),
            row.row().trellis.wall_height,
            self.foliage.has_grown(),
        );
        if under != self.under {
            self.under = under;
            self.rest = None;
            // The zone's height may be another, or what a filled wall would have.
            let view = self.state.view();
            (self.state, self.source, self.sun) = begin(&self.foliage, plan, self.choice, view);
            self.fill(plan);
            self.derive(row, plan, None);
            return true;
        }
        let changed = relit.as_ref().is_none_or(|columns| !columns.is_empty());
        if changed {
            self.derive(row, plan, relit);
        }
        changed
    }

    /// How much of the light has been worked out since all of it was: [`LightState::worked`].
    pub fn worked(&self) -> u64 {
        self.state.worked()
    }

    /// Looks at something else.
    pub fn choose(&mut self, row: &impl AnyRow, plan: &Plan, choice: Lighting) {
        let leaves = choice.out != self.choice.out;
        let hours = choice.hour.is_some() || self.choice.hour.is_some();
        self.choice = choice;
        self.rest = None;
        self.foliage.unfold(choice.out);
        if hours {
            let view = self.state.view();
            (self.state, self.source, self.sun) = begin(&self.foliage, plan, choice, view);
        } else {
            if leaves {
                let all = 0..self.foliage.columns();
                self.state.refill(&self.foliage.density(all));
            }
            self.source = Source::Period(lay(&self.state, &self.foliage, choice));
        }
        self.fill(plan);
        self.derive(row, plan, None);
    }

    /// Works out what the wall would catch, filled.
    fn fill(&mut self, plan: &Plan) {
        let choice = self.choice;
        self.filled = choice.hour.is_none().then(|| {
            let period = choice.period(self.latitude_deg());
            caught_when_filled(
                &self.foliage,
                &plan.targets,
                period,
                choice.weather,
                Fineness::Coarse,
            )
        });
    }

    /// How many levels are shown, from the lowest.
    pub fn shown_levels(&self) -> usize {
        self.shown.min(self.map.z.len().saturating_sub(1))
    }

    /// Maps the columns in view, and more on either side so that small moves need nothing; whether others are mapped now.
    fn look_at(&mut self, span: Span) -> bool {
        let n = self.foliage.columns();
        let wanted = {
            let (x0, dx) = self.columns_mm();
            let at = |x: f64| (((x - x0) / dx).max(0.0) as usize).min(n);
            let (from, to) = (at(span.from), at(span.to + dx));
            let seen = self.state.view();
            // As it is, unless far more is mapped than is seen.
            let fits = seen.start <= from && to <= seen.end;
            if fits && seen.len() <= 4 * (to - from) + 100 {
                return false;
            }
            if to - from > MAPPED {
                0..0
            } else {
                let margin = (to - from) / 4 + 20;
                from.saturating_sub(margin)..(to + margin).min(n)
            }
        };
        if self.state.view() == wanted {
            return false;
        }
        self.state.set_view(wanted);
        self.rest = None;
        true
    }

    /// Columns that are mapped.
    pub fn mapped(&self) -> Range<usize> {
        self.state.view()
    }

    /// Works out what is shown; of what falls through, in these columns alone.
    fn derive(&mut self, row: &impl AnyRow, plan: &Plan, relit: Option<Vec<Range<usize>>>) {
        let to_height = row.row().trellis.wall_height.f() / 1000.0 - 1e-9;
        let leafy = match self.foliage.out() > 0.0 {
            true => self.foliage.leafy_levels(),
            false => 0,
        };
        let edges = self.state.wall().z();
        self.shown = edges.partition_point(|z| *z < to_height).max(leafy);
        let night = Weights::none(self.state.directions().len());
        let total = match &self.source {
            Source::Period(light) => &light.total,
            Source::Sun(one) => one,
            Source::Night => &night,
        };
        self.map = LightMap::new(&self.state, total);
        let n = self.foliage.columns();
        self.coarse.fall_through.resize(n, 0.0);
        self.fall_through.resize(n, 0.0);
        self.relit = relit.unwrap_or_else(|| std::iter::once(0..n).collect());
        for columns in &self.relit {
            let now = self.state.fall_through_under(total, columns.clone());
            self.coarse.fall_through[columns.clone()].copy_from_slice(&now);
            let shown = match &self.rest {
                Some(Rest { exact, then }) => {
                    let (exact, then) = (&exact.fall_through, &then.fall_through);
                    moved(&exact[columns.clone()], &then[columns.clone()], &now)
                }
                None => now,
            };
            self.fall_through[columns.clone()].copy_from_slice(&shown);
        }
        let parts = match &self.source {
            Source::Period(light) => Some(shares(&self.state, light)),
            _ => None,
        };
        let rule = gap_rule(&self.foliage, &plan.targets);
        let under = |limit| self.map.share_under(limit, rule.from, rule.to);
        let figures = LightFigures {
            caught: match (&self.source, parts) {
                (Source::Night, _) => 0.0,
                (_, Some(shares)) => shares.total,
                _ => self.state.caught(total),
            },
            parts: parts.map(|s: Shares| (s.beam, s.sky)),
            filled: self.filled,
            zone: ZoneLight::over_columns(&self.state.band_light(total), 0)
                .map(|z| (z.mean, z.lowest)),
            under: (under(FLOWERING_LIGHT), under(QUALITY_LIGHT)),
            leaf_area_index: self.foliage.leaf_area_index(),
            whole: self.map.columns.len() == self.foliage.columns(),
            exact: false,
        };
        self.coarse.map.clone_from(&self.map.light);
        self.coarse.figures = figures;
        let now = &self.coarse;
        self.figures = match &self.rest {
            Some(Rest { exact, then }) => {
                self.map.light = moved(&exact.map, &then.map, &now.map);
                // Zone and wall change only where they are mapped.
                let seen = self.map.columns.len() as f64 / self.foliage.columns() as f64;
                exact.figures.moved(&then.figures, &now.figures, seen)
            }
            None => now.figures,
        };
    }

    /// Takes the exact answer to what is looked at. An hour's beam is exact already.
    pub fn take(&mut self, answer: &LightReport) {
        let other = answer.fall_through.len() != self.fall_through.len()
            || answer.map.columns != self.map.columns
            || answer.map.z.len() > self.map.z.len();
        if self.choice.hour.is_some() || other {
            return;
        }
        self.fall_through.clone_from(&answer.fall_through);
        // A wall that became lower may have kept its higher grid here: full light above what was answered.
        let levels = self.map.light.len();
        self.map.light.clone_from(&answer.map.light);
        self.map.light.resize(levels, 1.0);
        self.figures = LightFigures {
            caught: answer.caught.total,
            parts: Some((answer.caught.beam, answer.caught.sky)),
            filled: Some(answer.filled),
            zone: answer.zone.map(|z| (z.mean, z.lowest)),
            under: (answer.under_flowering, answer.under_quality),
            leaf_area_index: answer.leaf_area_index,
            whole: true,
            exact: true,
        };
        self.rest = Some(Rest {
            exact: LightShown {
                map: self.map.light.clone(),
                fall_through: self.fall_through.clone(),
                figures: self.figures,
            },
            then: self.coarse.clone(),
        });
    }

    /// Light at a place of the wall, mm; none where it is not mapped.
    pub fn at(&self, x: f64, z: f64) -> Option<f64> {
        let (x0, dx) = self.columns_mm();
        let column = (x - x0) / dx;
        let level = self.map.z.partition_point(|edge| *edge <= z / 1000.0);
        if column < 0.0 || level == 0 {
            return None;
        }
        self.map.at(column as usize, level - 1).map(f64::from)
    }

    /// Light that reaches the ground at a place along the row, mm.
    pub fn falls_at(&self, x: f64) -> Option<f64> {
        let (x0, dx) = self.columns_mm();
        let column = (x - x0) / dx;
        if column < 0.0 {
            return None;
        }
        self.fall_through
            .get(column as usize)
            .map(|t| f64::from(*t))
    }
}

fn lay(state: &LightState, foliage: &Foliage, choice: Lighting) -> PeriodLight {
    let site = foliage.around().site;
    period_light(
        state.directions(),
        site,
        choice.period(site.latitude_deg),
        ClearDay::default(),
        Sky::StandardOvercast,
    )
    .under(choice.weather)
}

fn begin(
    foliage: &Foliage,
    plan: &Plan,
    choice: Lighting,
    view: Range<usize>,
) -> (LightState, Source, Option<Direction>) {
    let wall = foliage.wall();
    let settings = Settings {
        fineness: Fineness::Coarse,
        ..Settings::dragging(Some(view)).with_band(zone_heights(foliage, &plan.targets))
    };
    let Some(hour) = choice.hour else {
        let state = LightState::new(wall, &settings);
        let source = Source::Period(lay(&state, foliage, choice));
        return (state, source, None);
    };
    let around = foliage.around();
    match sun_of(around, choice.day(around.site.latitude_deg), hour - 12.0) {
        Some(sun) => {
            // One direction is soon worked out: as finely as at rest.
            let settings = Settings {
                sampling: SET,
                ..settings
            };
            let state = LightState::in_direction(wall, sun, &settings);
            (state, Source::Sun(Weights::one()), Some(sun))
        }
        None => {
            let up = Direction {
                x: 0.0,
                y: 0.0,
                z: 1.0,
            };
            (
                LightState::in_direction(wall, up, &settings),
                Source::Night,
                None,
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench_row;
    use crate::light::{When, exact};

    fn terms(plan: &Plan) -> Terms {
        plan.terms(&plan.found.trellis)
    }

    fn span() -> Span {
        Span {
            from: 0.0,
            to: 8000.0,
        }
    }

    #[test]
    fn following_is_the_same_as_anew_and_near_the_exact() {
        let plan = bench_row::plan(6, 7);
        let mut light = RowLight::new(
            &plan.found,
            &terms(&plan),
            &plan,
            Lighting::default(),
            span(),
        );
        let mut row = (*plan.found).clone();
        std::sync::Arc::make_mut(&mut row.trees[2])
            .shoots
            .truncate(3);
        assert!(light.follow(&row, &terms(&plan), &plan, span()));
        assert!(!light.follow(&row, &terms(&plan), &plan, span()));
        let anew = RowLight::new(&row, &terms(&plan), &plan, Lighting::default(), span());
        assert_eq!(light.map, anew.map);
        assert_eq!(light.figures, anew.figures);
        let exact = exact(
            &row,
            &terms(&plan),
            &plan,
            Lighting::default(),
            light.mapped(),
        );
        let coarse = light.figures;
        light.take(&exact.chosen);
        assert!(light.figures.exact && !coarse.exact);
        assert!((light.figures.caught - coarse.caught).abs() < 0.01);
        assert_ne!(light.map, anew.map);
    }

    /// A row of so many trees, the same with another end of the cordon of one tree, and what is in view about that tree.
    fn moved(trees: u32, at: usize) -> (Plan, cordonry::row::Row, Span) {
        let plan = bench_row::plan(trees, 10);
        let mut row = (*plan.found).clone();
        let tree = std::sync::Arc::make_mut(&mut row.trees[at]);
        tree.shoots[0].units[0].kept -= 300.0;
        let foot = tree.foot.f();
        let seen = Span {
            from: foot - 4000.0,
            to: foot + 4000.0,
        };
        (plan, row, seen)
    }

    #[test]
    fn a_move_lights_as_little_of_a_long_row_as_of_a_short_one() {
        let relit = |trees: u32, at: usize| {
            let (plan, row, seen) = moved(trees, at);
            let mut light =
                RowLight::new(&plan.found, &terms(&plan), &plan, Lighting::default(), seen);
            let all = light.worked();
            assert!(light.follow(&row, &terms(&plan), &plan, seen));
            let columns: usize = light.relit.iter().map(ExactSizeIterator::len).sum();
            (light.worked() - all, columns, all)
        };
        // Chunks of columns over all directions, and columns whose ground is lit again.
        let (worked, columns, all) = relit(40, 20);
        println!("{worked} of {all} chunks, {columns} columns");
        assert!(worked > 0 && 2 * worked < all);
        // The lowest light runs along some eighty metres: no row is longer than that for it.
        for trees in [300, 1000] {
            let (also, too, all) = relit(trees, trees as usize / 2);
            println!("{also} of {all} chunks, {too} columns");
            assert_eq!(also, worked, "{trees} trees");
            assert!(too < columns + 20, "{trees} trees: {too}");
        }
        // The row goes on beyond its ends: what is changed there falls into both of them.
        for trees in [40, 300, 1000] {
            for at in [0, trees - 1] {
                let (also, ..) = relit(trees, at as usize);
                assert!(2 * also < 3 * worked, "{trees} trees, {at}: {also}");
            }
        }
    }

    #[test]
    fn following_at_the_ends_of_a_row_is_the_same_as_anew() {
        for (trees, at) in [(6, 0), (6, 5), (40, 0), (40, 39), (150, 0), (150, 149)] {
            let (plan, row, seen) = moved(trees, at);
            let mut light =
                RowLight::new(&plan.found, &terms(&plan), &plan, Lighting::default(), seen);
            assert!(light.follow(&row, &terms(&plan), &plan, seen));
            let anew = RowLight::new(&row, &terms(&plan), &plan, Lighting::default(), seen);
            let near = |a: &[f32], b: &[f32]| {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-5)
            };
            assert!(near(&light.map.light, &anew.map.light), "{trees}, {at}");
            assert!(
                near(&light.fall_through, &anew.fall_through),
                "{trees}, {at}"
            );
            assert!(
                (light.figures.caught - anew.figures.caught).abs() < 1e-6,
                "{trees}, {at}"
            );
        }
    }

    #[test]
    fn another_zone_or_wall_height_is_judged_anew() {
        use cordonry::plan::Setting;
        use cordonry::row::Limit;
        let plan = bench_row::plan(4, 7);
        for hour in [None, Some(12.0)] {
            let choice = Lighting {
                hour,
                ..Lighting::default()
            };
            let mut light = RowLight::new(&plan.found, &terms(&plan), &plan, choice, span());
            light.take(&exact(&plan.found, &terms(&plan), &plan, choice, light.mapped()).chosen);
            let zone = light.figures.zone;
            let deeper = plan
                .with_limit(Limit::RenewalZone, Some(600.0))
                .expect("in range");
            assert!(light.follow(&deeper.found, &terms(&deeper), &deeper, span()));
            let anew = RowLight::new(&deeper.found, &terms(&deeper), &deeper, choice, span());
            assert_eq!(light.figures, anew.figures);
            assert_ne!(light.figures.zone, zone);

            let low = deeper
                .with_setting(Setting::WallHeight, Some(1500.0))
                .expect("in range");
            assert!(light.follow(&low.found, &terms(&low), &low, span()));
            let anew = RowLight::new(&low.found, &terms(&low), &low, choice, span());
            assert_eq!(light.shown_levels(), anew.shown_levels());
            assert_eq!(light.figures, anew.figures);
        }
    }

    #[test]
    fn long_rows_are_mapped_where_they_are_seen() {
        let plan = bench_row::plan(120, 7);
        let mut light = RowLight::new(
            &plan.found,
            &terms(&plan),
            &plan,
            Lighting::default(),
            span(),
        );
        assert!(light.mapped().len() <= MAPPED && !light.mapped().is_empty());
        assert!(light.at(4000.0, 600.0).is_some());
        let far = Span {
            from: 140_000.0,
            to: 150_000.0,
        };
        assert_eq!(light.at(145_000.0, 600.0), None);
        assert!(light.follow(&plan.found, &terms(&plan), &plan, far));
        assert!(light.at(145_000.0, 600.0).is_some());
        assert!(!light.figures.whole);
    }

    #[test]
    fn an_hour_has_its_sun_and_a_night_none() {
        let plan = bench_row::plan(4, 7);
        let mut light = RowLight::new(
            &plan.found,
            &terms(&plan),
            &plan,
            Lighting::default(),
            span(),
        );
        for (hour, up) in [(12.0, true), (1.0, false), (8.0, true)] {
            let choice = Lighting {
                when: When::Day(172),
                hour: Some(hour),
                ..Lighting::default()
            };
            light.choose(&plan.found, &plan, choice);
            assert_eq!(light.sun().is_some(), up);
            assert_eq!(light.is_night(), !up);
            let most = light.map.light.iter().fold(0.0f32, |a, b| a.max(*b));
            assert_eq!(most > 0.9, up, "{hour}: {most}");
        }
        light.choose(&plan.found, &plan, Lighting::default());
        assert!(light.figures.parts.is_some());
        let bare = Lighting {
            out: 0.0,
            ..Lighting::default()
        };
        light.choose(&plan.found, &plan, bare);
        assert!(light.figures.caught < 1e-6);
    }
}
