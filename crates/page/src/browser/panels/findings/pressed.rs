//! A press on remedies: they are done once they have been tried, as far as they are offered then.

use super::line::{first_remedies, key, matter_key};
use crate::browser::app::App;
use crate::desk::Desk;
use crate::document::Edit;
use cordonry::check::Remedy;
use cordonry::plan::Plan;
use cordonry::said::Arg;
use leptos::prelude::*;
use std::sync::Arc;

/// What was pressed.
#[derive(Clone)]
struct Press {
    plan: Arc<Plan>,
    /// The matter.
    matter: String,
    /// One remedy of one finding of it, or the first remedy of each.
    one: Option<(String, Remedy)>,
}

/// The press that waits for its remedies to be tried.
#[derive(Clone, Copy)]
pub struct Pressed(StoredValue<Option<Press>>);

impl Pressed {
    /// Nothing was pressed.
    pub fn new() -> Self {
        Self(StoredValue::new(None))
    }

    pub fn press(self, app: App, matter: String, one: Option<(String, Remedy)>) {
        let plan = app.peek(|d| Arc::clone(d.plan()));
        self.0
            .set_value(plan.map(|plan| Press { plan, matter, one }));
        self.settle(app);
        if self.0.with_value(Option::is_some) {
            app.say(app.t("said-remedy-waits"), false);
        }
    }

    /// Does what was pressed, once it is known whether it is offered. What was pressed on another plan is forgotten.
    pub fn settle(self, app: App) {
        let Some(press) = self.0.get_value() else {
            return;
        };
        let Some(found) = app.peek(|d| offered(d, &press)).flatten() else {
            return;
        };
        self.0.set_value(None);
        let Some(remedies) = found else { return };
        let x = remedies.first().map(|(x, _)| *x);
        let mut remedies: Vec<Remedy> = remedies.into_iter().map(|(_, r)| r).collect();
        if remedies.is_empty() {
            app.say(app.t("said-remedy-withdrawn"), true);
        } else if press.one.is_some() {
            app.edit(Edit::mend(remedies.swap_remove(0)));
            x.into_iter().for_each(|x| app.show(x));
        } else {
            match app.try_edit(Edit::mend_each(remedies)) {
                Ok(done) => app.say(
                    app.text("said-mended", &[("count", Arg::Count(done.count as i64))]),
                    false,
                ),
                Err(why) => app.refuse(&why),
            }
        }
    }
}

/// What is offered of that which was pressed: none while it waits, and none of another plan.
#[allow(clippy::option_option)]
fn offered(desk: &Desk, press: &Press) -> Option<Option<Vec<(f64, Remedy)>>> {
    if !Arc::ptr_eq(desk.plan(), &press.plan) {
        return Some(None);
    }
    let all = desk.all_findings();
    let matters = desk.scene().matters(&all);
    let own = matters.iter().find(|m| matter_key(m) == press.matter);
    let own = own.map_or(&[][..], |m| &m.findings);
    // No remedy is tried while the record is open: the edit is refused in words.
    if !desk.is_found() && own.iter().any(|i| desk.is_out_of_date(all[*i])) {
        return None;
    }
    Some(Some(match &press.one {
        None => first_remedies(desk, &press.matter),
        Some((of, one)) => {
            let f = own.iter().map(|i| all[*i]).find(|f| key(f) == *of);
            let meant = |f: &&_| desk_remedy(f, one);
            f.iter().filter_map(|f| Some((f.x, meant(f)?))).collect()
        }
    }))
}

/// The remedy of a finding that is the same as one that was pressed.
fn desk_remedy(finding: &cordonry::check::Finding, one: &Remedy) -> Option<Remedy> {
    let same = |r: &&Remedy| r.said == one.said && r.also == one.also;
    finding.remedies.iter().find(same).cloned()
}
