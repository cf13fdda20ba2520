//! Lists of work in words and back.

use super::number::{id_of, leaf, twice, within};
use crate::arrange::Gather;
use crate::file::json::UpTo;
use crate::file::v1;
use crate::file::v1::dto::SeasonDto;
use crate::plan::{Plan, Schedule};
use crate::refusal::Refusal;
use crate::row::{Moment, Window};
use crate::sorted::Set;
use crate::work::Work;

/// All work of a list of leaves, each told once.
pub(super) fn works_of(
    seasons: Vec<SeasonDto>,
    path: &str,
) -> Result<Vec<(Moment, Work)>, Refusal> {
    let mut work = Vec::new();
    let mut leaves = Set::new();
    for (n, s) in seasons.into_iter().enumerate() {
        let path = format!("{path}[{n}]");
        let leaf = leaf(s.leaf, 1, Plan::MAX_LEAF, &|| format!("{path}.leaf"))?;
        if !leaves.insert(leaf) {
            return Err(twice(format!("{path}.leaf"), leaf));
        }
        for (name, window, list) in [
            ("dormant", Window::Dormant, s.dormant),
            ("bud_swell", Window::BudSwell, s.bud_swell),
            ("early_summer", Window::EarlySummer, s.early_summer),
            ("after_harvest", Window::AfterHarvest, s.after_harvest),
        ] {
            for (n, w) in list.into_iter().enumerate() {
                let w = work_of(w, &|| format!("{path}.{name}[{n}]"))?;
                work.push((Moment { leaf, window }, w));
            }
        }
    }
    Ok(work)
}

/// A piece of work, its numbers in their ranges.
pub(super) fn work_of(work: v1::Work, path: &dyn Fn() -> String) -> Result<Work, Refusal> {
    let w = Work::from(work);
    let at = |field: &str| format!("{}.{field}", path());
    id_of(w.subject().shoot.number(), &|| at("shoot"))?;
    for number in w.numbers() {
        within(number.value, number.range, &|| at(number.name))?;
    }
    Ok(w)
}

/// All work of a schedule, leaf by leaf.
pub(super) fn seasons(schedule: &Schedule) -> UpTo<SeasonDto, { Plan::MAX_LEAF as usize }> {
    let leaves = schedule.moments().iter().map(|m| m.leaf).gathered_set();
    let season = |leaf: u8| {
        let words = |window| {
            let work = schedule.work(Moment { leaf, window });
            work.cloned().map(Into::into).collect()
        };
        SeasonDto {
            leaf: leaf.into(),
            dormant: words(Window::Dormant),
            bud_swell: words(Window::BudSwell),
            early_summer: words(Window::EarlySummer),
            after_harvest: words(Window::AfterHarvest),
        }
    };
    UpTo(leaves.into_iter().map(season).collect())
}
