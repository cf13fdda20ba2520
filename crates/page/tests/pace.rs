//! When a plan is saved: held for any course of changes, slow writes, failures and hides.

use cordonry_page::keeping::{Kept, Pace, Ticket};
use proptest::prelude::*;

/// What happens to a plan, and how long after what happened before, ms.
#[derive(Clone, Copy, Debug)]
enum Event {
    Change,
    /// The page is hidden.
    Hide,
}

/// A device that takes `slow` ms to write, and refuses writes while `full`.
struct Device {
    slow: f64,
    /// When each write ends, how many changes it holds, and whether one that it builds on has failed.
    on_way: Vec<(f64, Ticket, usize, bool)>,
    /// How many changes it holds.
    holds: usize,
    begun: Vec<(f64, usize)>,
    ended: Vec<(f64, bool)>,
}

/// Runs `pace` up to a time, as the page does: a write begins when it is due, and its end is told.
fn run(
    pace: &mut Pace,
    device: &mut Device,
    to: f64,
    now: &mut f64,
    made: usize,
    full: &dyn Fn(f64) -> bool,
) {
    loop {
        let end = device
            .on_way
            .iter()
            .map(|w| w.0)
            .fold(f64::INFINITY, f64::min);
        let due = pace.due().map_or(f64::INFINITY, |due| due.max(*now));
        let next = end.min(due);
        if next > to {
            *now = to;
            return;
        }
        *now = next;
        if end <= due {
            let at = device.on_way.iter().position(|w| w.0 == end).unwrap();
            let (_, ticket, holds, broken) = device.on_way.remove(at);
            let well = !full(*now);
            if well && !broken {
                device.holds = device.holds.max(holds);
            }
            if !well {
                device.on_way.iter_mut().for_each(|w| w.3 = true);
            }
            device.ended.push((*now, well && !broken));
            pace.ended(ticket, well, *now);
        } else {
            begin(pace, device, *now, made);
        }
    }
}

fn begin(pace: &mut Pace, device: &mut Device, now: f64, made: usize) {
    if let Some(ticket) = pace.begin() {
        device.begun.push((now, made));
        device.on_way.push((now + device.slow, ticket, made, false));
    }
}

fn events() -> impl Strategy<Value = Vec<(f64, Event)>> {
    let event = prop_oneof![
        20 => Just(Event::Change),
        1 => Just(Event::Hide),
    ];
    let gap = prop_oneof![8 => 1.0..200.0, 1 => 200.0..3_000.0];
    prop::collection::vec((gap, event), 1..80)
}

proptest! {
    #[test]
    fn every_change_is_saved_within_half_a_second_of_the_first_unsaved(
        events in events(),
        slow in 0.0..120.0_f64,
    ) {
        let mut pace = Pace::default();
        let mut device = Device { slow, on_way: vec![], holds: 0, begun: vec![], ended: vec![] };
        let (mut now, mut made) = (0.0, Vec::new());
        for (gap, event) in events {
            let at = now + gap;
            run(&mut pace, &mut device, at, &mut now, made.len(), &|_| false);
            // Half a second after a change it is on the device.
            let old = made.iter().filter(|m| **m <= now - 500.0).count();
            prop_assert!(device.holds >= old, "{} of {old} at {now}", device.holds);
            match event {
                Event::Change => {
                    pace.changed(now);
                    made.push(now);
                }
                Event::Hide => {
                    begin(&mut pace, &mut device, now, made.len());
                    // What was made before is on its way at once.
                    let held = device.begun.last().map_or(0, |b| b.1);
                    prop_assert_eq!(held, made.len());
                }
            }
            let saved = device.holds == made.len();
            prop_assert_eq!(pace.kept() == Kept::Saved, saved);
            prop_assert!(!pace.kept().is_at_risk());
        }
        run(&mut pace, &mut device, now + 1_000.0, &mut now, made.len(), &|_| false);
        prop_assert_eq!(device.holds, made.len());
        prop_assert_eq!(pace.kept(), Kept::Saved);
        // Nothing is written for nothing.
        prop_assert!(device.begun.len() <= made.len());
    }

    #[test]
    fn what_a_full_device_refuses_is_tried_until_there_is_room(
        events in events(),
        slow in 0.0..400.0_f64,
        from in 0.0..3_000.0_f64,
        long in 0.0..60_000.0_f64,
    ) {
        let mut pace = Pace::default();
        let mut device = Device { slow, on_way: vec![], holds: 0, begun: vec![], ended: vec![] };
        let full = move |at: f64| at >= from && at < from + long;
        let (mut now, mut made) = (0.0, 0);
        for (gap, event) in events {
            let at = now + gap;
            run(&mut pace, &mut device, at, &mut now, made, &full);
            match event {
                Event::Change => {
                    pace.changed(now);
                    made += 1;
                }
                Event::Hide => begin(&mut pace, &mut device, now, made),
            }
            let saved = device.holds == made;
            prop_assert_eq!(pace.kept() == Kept::Saved, saved, "{:?}", pace);
            // It is said from the first refusal on, until a write goes well.
            let refused = device.ended.last().is_some_and(|e| !e.1);
            prop_assert_eq!(pace.kept() == Kept::Failing, refused && !saved, "{:?}", pace);
        }
        let room = now.max(from + long);
        let by = room + Pace::LONGEST + 2.0 * slow + Pace::AFTER + 1.0;
        run(&mut pace, &mut device, by, &mut now, made, &full);
        prop_assert_eq!(device.holds, made);
        prop_assert_eq!(pace.kept(), Kept::Saved);
        // Refusals come less and less often.
        let refusals = device.ended.iter().filter(|e| !e.1).count() as f64;
        prop_assert!(refusals <= 90.0 + long / Pace::LONGEST, "{refusals}");
    }
}

#[test]
fn a_burst_is_saved_while_it_goes_on() {
    let mut pace = Pace::default();
    // A change every 100 ms: to wait for rest would be to wait for ever.
    for i in 0..3 {
        pace.changed(f64::from(i) * 100.0);
    }
    assert_eq!(pace.due(), Some(250.0));
}

#[test]
fn a_tab_that_may_not_write_waits_until_it_may() {
    let mut pace = Pace::default();
    pace.set_elsewhere(true);
    assert_eq!(pace.kept(), Kept::Elsewhere { changed: false });
    assert!(!pace.kept().is_at_risk());
    pace.changed(0.0);
    assert_eq!((pace.due(), pace.begin()), (None, None));
    assert_eq!(pace.kept(), Kept::Elsewhere { changed: true });
    assert!(pace.kept().is_at_risk());
    pace.set_elsewhere(false);
    assert_eq!(pace.due(), Some(250.0));
    let ticket = pace.begin().unwrap();
    assert_eq!(pace.kept(), Kept::Waiting);
    pace.ended(ticket, true, 300.0);
    assert_eq!(pace.kept(), Kept::Saved);
}

#[test]
fn writes_of_a_plan_that_left_the_desk_are_not_heard() {
    let mut pace = Pace::default();
    pace.changed(0.0);
    let old = pace.begin().unwrap();
    pace.begin_anew();
    for well in [true, false] {
        pace.ended(old, well, 100.0);
        assert_eq!((pace.kept(), pace.due()), (Kept::Saved, None));
    }
    pace.changed(200.0);
    let new = pace.begin().unwrap();
    pace.ended(old, true, 300.0);
    assert_eq!(pace.kept(), Kept::Waiting);
    pace.ended(new, true, 400.0);
    assert_eq!(pace.kept(), Kept::Saved);
}
