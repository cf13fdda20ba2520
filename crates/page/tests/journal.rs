//! Undo outlives the page: what the device keeps of a history is read as the same history, and a step costs what it changed.

use cordonry::file::write_plan;
use cordonry::plan::{Correction, History, Line, Plan, Setting};
use cordonry_fixture::random::{Draft, Tell, cases, draft, plan, tell};
use cordonry_page::bench_row;
use cordonry_page::keeping::{Journal, KeptRow, Seen, Step, Writing, name};
use proptest::prelude::*;
use proptest::sample::Index;
use std::collections::BTreeMap;

/// What a device holds of one plan.
#[derive(Clone, Default)]
struct Device {
    whole: (u32, String),
    steps: BTreeMap<u32, Step>,
    now: u32,
}

impl Device {
    /// Writes, and says how many bytes.
    fn take(&mut self, writing: Writing) -> usize {
        let mut bytes = 0;
        if let Some(whole) = writing.whole {
            bytes += whole.1.len();
            self.whole = whole;
        }
        for step in writing.steps {
            bytes += step.update.bytes();
            self.steps.insert(step.number, step);
        }
        let (first, last) = writing.kept;
        self.steps
            .retain(|number, _| (first..=last).contains(number));
        self.now = writing.now;
        bytes
    }

    fn open(&self) -> (Line, Journal) {
        let steps = self.steps.values().cloned().collect();
        Journal::open((self.whole.0, &self.whole.1), steps, self.now).expect("it can be read")
    }
}

/// What is done to a history.
#[derive(Clone, Debug)]
enum Deed {
    Work(Draft),
    Tell(Tell),
    DropTree(Index),
    Height(f64),
    Name(u8),
    Undo(u8),
    Redo(u8),
    /// It is written.
    Write,
    /// A write fails.
    Fail,
    /// The page is loaded again.
    Reload,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        6 => draft().prop_map(Deed::Work),
        6 => tell().prop_map(Deed::Tell),
        1 => any::<Index>().prop_map(Deed::DropTree),
        1 => (1500.0..3500.0f64).prop_map(Deed::Height),
        6 => any::<u8>().prop_map(Deed::Name),
        2 => (1..6u8).prop_map(Deed::Undo),
        1 => (1..4u8).prop_map(Deed::Redo),
        6 => Just(Deed::Write),
        1 => Just(Deed::Fail),
        1 => Just(Deed::Reload),
    ]
}

fn done(history: &mut History, deed: &Deed) {
    let plan = history.plan();
    let next = match deed {
        Deed::Work(draft) if !plan.found.trees.is_empty() => {
            let (moment, work) = draft.for_plan(plan);
            plan.with_work(0, moment, work).ok()
        }
        Deed::Tell(tell) if !plan.found.trees.is_empty() => Some(tell.on(plan)),
        Deed::DropTree(pick) if !plan.found.trees.is_empty() => {
            let tree = plan.found.trees[pick.index(plan.found.trees.len())].id;
            plan.corrected(&Correction::DropTree { tree }).ok()
        }
        Deed::Height(height) => plan.with_setting(Setting::WallHeight, Some(*height)).ok(),
        Deed::Name(name) => Some(Plan {
            name: format!("Row {name}"),
            ..(**plan).clone()
        }),
        Deed::Undo(times) => {
            (0..*times).for_each(|_| drop(history.undo()));
            None
        }
        Deed::Redo(times) => {
            (0..*times).for_each(|_| drop(history.redo()));
            None
        }
        _ => None,
    };
    if let Some(next) = next {
        history.set("step-name", next);
    }
}

/// Whether what is read is the history as it stands, as far as it is kept.
fn same(read: &Line, line: &Line) {
    assert_eq!(read.now(), line.now());
    let least = |there: u32| there.min(Journal::LEAST);
    assert!(read.now() - read.first >= least(line.now() - line.first));
    assert!(read.last() - read.now() >= least(line.last() - line.now()));
    for number in read.first..=read.last() {
        assert_eq!(read.plan(number), line.plan(number), "plan {number}");
        if number > read.first {
            assert_eq!(read.label(number), line.label(number));
        }
    }
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_history_is_read_as_it_was_written(
        plan in plan(),
        deeds in prop::collection::vec(deed(), 1..120),
    ) {
        let mut history = History::new(plan);
        let (mut journal, mut device) = (Journal::default(), Device::default());
        device.take(journal.write(&history.line()));
        for deed in deeds {
            match deed {
                Deed::Write => drop(device.take(journal.write(&history.line()))),
                Deed::Fail => {
                    drop(journal.write(&history.line()));
                    journal.forget();
                }
                Deed::Reload => {
                    device.take(journal.write(&history.line()));
                    let (line, read) = device.open();
                    same(&line, &history.line());
                    journal = read;
                    history = History::of_line(line).unwrap();
                }
                deed => done(&mut history, &deed),
            }
        }
        device.take(journal.write(&history.line()));
        let (line, _) = device.open();
        same(&line, &history.line());
        let mut back = History::of_line(line.clone()).unwrap();
        prop_assert_eq!(&back.line(), &line);
        // All the way back and forth.
        while let Some(label) = back.undo() {
            history.undo();
            prop_assert!(!label.is_empty());
            prop_assert_eq!(back.plan(), history.plan());
        }
        while back.redo().is_some() {
            history.redo();
            prop_assert_eq!(back.plan(), history.plan());
        }
    }
}

/// A row of 300 trees with a history of so many steps, each naming it, and what they cost to write one by one.
fn long(steps: u32) -> (History, Journal, Device, Vec<usize>) {
    let mut history = History::new(bench_row::plan(300, 10));
    let (mut journal, mut device) = (Journal::default(), Device::default());
    let mut costs = vec![device.take(journal.write(&history.line()))];
    for i in 0..steps {
        done(&mut history, &Deed::Name((i % 250) as u8));
        costs.push(device.take(journal.write(&history.line())));
    }
    (history, journal, device, costs)
}

#[test]
fn a_step_costs_what_it_changed_however_large_the_row() {
    let (history, _, device, costs) = long(300);
    let whole = costs[0];
    assert!(whole > 200_000, "{whole}");
    // Settings and limits go with each step, and the trellis.
    assert!(costs[1] < 6_000, "{}", costs[1]);
    // Now and then all is written whole, when what stands beside it has become as long.
    let sum: usize = costs[1..].iter().sum();
    assert!(
        sum < 3 * 300 * costs[1] + whole,
        "{sum} in all, {} a step",
        costs[1]
    );
    let (line, _) = device.open();
    assert_eq!(line.now() - line.first, Journal::MOST);
    same(&line, &history.line());
}

#[test]
fn heavy_steps_are_kept_only_as_far_as_must_be() {
    let mut history = History::new(bench_row::plan(300, 10));
    let (mut journal, mut device) = (Journal::default(), Device::default());
    for i in 0..130 {
        let plan = history.plan();
        // Every tree of the row is measured anew.
        let mut found = (*plan.found).clone();
        for tree in &mut found.trees {
            let mut changed = (**tree).clone();
            changed.foot.0 += if i % 2 == 0 { 1 } else { -1 };
            *tree = changed.into();
        }
        let next = Plan {
            found: found.into(),
            ..(**plan).clone()
        };
        history.set("step-correct", next);
        device.take(journal.write(&history.line()));
    }
    let (line, _) = device.open();
    same(&line, &history.line());
    assert_eq!(line.now() - line.first, Journal::LEAST);
    let bytes: usize = device.steps.values().map(|s| s.update.bytes()).sum();
    assert!(bytes < 51 * 2 * write_plan(history.plan()).len());
}

#[test]
fn what_lies_this_side_of_a_damaged_step_is_read() {
    let (history, _, device, _) = long(20);
    let line = history.line();
    for damaged in 1..=20 {
        let mut device = device.clone();
        device.steps.remove(&damaged);
        let (read, _) = device.open();
        // The plan whole is the first one here: what is newer hangs on the steps.
        assert_eq!(read.plan(read.now()), line.plan(read.now()));
        assert_eq!(
            read.now(),
            if device.whole.0 >= damaged {
                20
            } else {
                damaged - 1
            }
        );
    }
    let broken = (0, "{");
    assert!(Journal::open(broken, Vec::new(), 0).is_err());
}

#[test]
fn a_row_that_is_kept_is_looked_at_and_named_without_being_opened() {
    let mut history = History::new(bench_row::plan(12, 3));
    let named = |to: &str, of: &Plan| Plan {
        name: to.into(),
        ..of.clone()
    };
    let mut device = Device::default();
    let mut journal = Journal::default();
    device.take(journal.write(&history.line()));
    let text = write_plan(history.plan());
    for (label, to) in [("a", "North"), ("b", "South")] {
        let plan = named(to, history.plan());
        history.set(label, plan);
    }
    device.take(journal.write(&history.line()));
    let kept = |device: &Device| KeptRow {
        whole: device.whole.clone(),
        steps: device.steps.values().cloned().collect(),
        now: device.now,
    };
    let seen = kept(&device).look().unwrap();
    assert_eq!((seen.name.as_str(), seen.trees), ("South", 12));
    assert_eq!(seen.text, write_plan(history.plan()));
    assert_eq!(Seen::of(seen.clone().texts()), Some(seen.clone()));
    // Its first trees alone are drawn, each once.
    assert!(seen.picture.starts_with("<svg") && seen.picture.len() < 20_000);
    // From a plan that has another after it: that one is gone, and what was before stays to be undone.
    device.now -= 1;
    let (mut line, mut journal) = kept(&device).line().unwrap();
    name(&mut line, "East".into(), "c".into());
    device.take(journal.write(&line));
    let (line, _) = device.open();
    let names: Vec<&str> = line.plans.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(names[1..], ["North", "East"]);
    assert_eq!(line.labels, ["a", "c"]);
    assert_eq!(write_plan(&line.plans[0]), text);
    assert!(KeptRow::of_text(text[..90].into()).look().is_err());
}
