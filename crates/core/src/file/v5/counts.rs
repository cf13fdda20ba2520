//! What was counted on buds, and what the crew is, in words and back.

use super::dto::{CountDto, CrewDto, SpurDto};
use super::held;
use super::named::numbers;
use super::number::{leaf, number, out_of_range, twice, within};
use crate::arrange::Arrange;
use crate::file::json::UpTo;
use crate::hands::{Hands, Job, Rate};
use crate::plan::{BudCount, Plan, SpurCount};
use crate::range::Range;
use crate::refusal::Refusal;
use crate::row::TreeId;

pub(super) fn read(file: Vec<CountDto>) -> Result<Vec<BudCount>, Refusal> {
    let mut out: Vec<BudCount> = Vec::with_capacity(file.len());
    for (n, c) in file.into_iter().enumerate() {
        let leaf = leaf(c.leaf, 1, Plan::MAX_LEAF, &|| format!("counts[{n}].leaf"))?;
        let tree = TreeId(c.tree);
        if out.iter().any(|o| (o.leaf, o.tree) == (leaf, tree)) {
            return Err(twice(format!("counts[{n}].tree"), tree));
        }
        let mut spurs = Vec::with_capacity(c.spurs.0.len());
        for (m, s) in c.spurs.0.into_iter().enumerate() {
            let few = |value: i64, range: Range, name: &str| {
                let path = || format!("counts[{n}].spurs[{m}].{name}");
                number(value, range, &path).map(|v| v as u8)
            };
            let flowers = s.flowers.map(|f| few(f, SpurCount::FLOWERS, "flowers"));
            let buds = few(s.buds, SpurCount::BUDS, "buds")?;
            spurs.push(SpurCount {
                buds,
                flowers: flowers.transpose()?,
                dead: few(s.dead, (0.0, buds.into()), "dead")?,
            });
        }
        out.push(BudCount { leaf, tree, spurs });
    }
    out.retain(|c| !c.spurs.is_empty());
    out.arrange_by_key(|c| (c.leaf, c.tree));
    Ok(out)
}

pub(super) fn write(count: &BudCount) -> CountDto {
    let spur = |s: &SpurCount| SpurDto {
        buds: s.buds.into(),
        flowers: s.flowers.map(Into::into),
        dead: s.dead.into(),
    };
    CountDto {
        leaf: count.leaf.into(),
        tree: count.tree.0,
        spurs: UpTo(count.spurs.iter().map(spur).collect()),
    }
}

pub(super) fn read_crew(file: &CrewDto) -> Result<Hands, Refusal> {
    let mut out = Hands::default();
    for (key, seconds) in &file.rates.0 {
        let seconds = held(within(*seconds, Rate::RANGE, &|| {
            format!("crew.rates.{key}")
        })?);
        if let Some(rate) = Rate::ALL.into_iter().find(|r| r.info().0 == key) {
            out.rates.set(rate, seconds)?;
        }
    }
    for (key, people) in &file.people.0 {
        let job = Job::ALL.into_iter().find(|j| j.name() == key);
        let set = job.map(|job| out.set_people(job, Some(*people)));
        if let Some(Err(_)) = set {
            let (low, high) = Hands::PEOPLE;
            let mut why = out_of_range(format!("crew.people.{key}"), *people, low, high);
            why.key = "refusal-file-whole";
            return Err(why);
        }
    }
    Ok(out)
}

pub(super) fn write_crew(hands: &Hands) -> Option<CrewDto> {
    let usual = |rate: &Rate| hands.rates.get(*rate) == rate.info().1;
    let rates = Rate::ALL.into_iter().filter(|rate| !usual(rate));
    let people = hands.people.iter();
    let out = CrewDto {
        rates: numbers(rates.map(|r| (r.info().0, hands.rates.get(r)))),
        people: numbers(people.map(|(job, n)| (job.name(), *n as f64))),
    };
    (!out.rates.0.is_empty() || !out.people.0.is_empty()).then_some(out)
}
