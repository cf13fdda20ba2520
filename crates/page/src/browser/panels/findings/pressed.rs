//! A press on remedies: they are done once they have been tried, as far as they are offered then.

use super::line::{first_remedies, key, of_key};
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
        let Some(offered) = app.peek(|d| Offered::of(d, &press)) else {
            return;
        };
        let remedies = match offered {
            Offered::Waits => return,
            Offered::OfAnother => return self.0.set_value(None),
            Offered::Now(remedies) => remedies,
        };
        self.0.set_value(None);
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

/// What is offered of that which was pressed.
enum Offered {
    /// Nothing yet: it is being tried.
    Waits,
    /// Nothing: it was pressed on another plan.
    OfAnother,
    /// These, each with its place along the row, mm.
    Now(Vec<(f64, Remedy)>),
}

impl Offered {
    fn of(desk: &Desk, press: &Press) -> Self {
        if !Arc::ptr_eq(desk.plan(), &press.plan) {
            return Self::OfAnother;
        }
        let Some((all, matter)) = of_key(desk, &press.matter) else {
            return Self::Now(Vec::new());
        };
        let own = || matter.findings.iter().map(|i| all[*i]);
        // No remedy is tried while the record is open: the edit is refused in words.
        if !desk.is_found() && own().any(|f| desk.is_out_of_date(f)) {
            return Self::Waits;
        }
        Self::Now(match &press.one {
            None => first_remedies(desk, &all, &matter),
            Some((of, one)) => {
                let same = |r: &&Remedy| r.said == one.said && r.also == one.also;
                let pressed = own().find(|f| key(f) == *of);
                let remedy =
                    pressed.and_then(|f| Some((f.x, f.remedies.iter().find(same)?.clone())));
                remedy.into_iter().collect()
            }
        })
    }
}
