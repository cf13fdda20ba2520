//! A scheme's rules, and windows that are planned or given back.

use super::setting::{refuse, whole};
use super::stands::Standing;
use super::{Moment, Plan, Replayer, Schedule, Scheme};
use crate::arrange::Gather;
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row::{Limit, Targets, Window};
use crate::said::Quantity;
use crate::standing::{Rule, Rules};
use crate::work::Work;
use std::sync::Arc;

impl Plan {
    /// The work of a moment under a scheme on all trees and the trellis, in order of subject, be it planned or standing.
    ///
    /// # Errors
    /// No such scheme.
    pub fn work_at(&self, scheme: usize, moment: Moment) -> Result<Vec<Work>, Refusal> {
        Replayer::default().work_at(self, scheme, moment)
    }

    /// The plan with a window planned: where it stands, its standing work is stored as its work.
    ///
    /// # Errors
    /// No such scheme.
    pub fn with_planned(&self, scheme: usize, moment: Moment) -> Result<Plan, Refusal> {
        if !self.scheme(scheme)?.stands(moment) {
            return Ok(self.clone());
        }
        let work = self.work_at(scheme, moment)?;
        Ok(self.with_scheme(scheme, |s| {
            s.schedule.put_all(moment, work);
            s.plan(moment);
        }))
    }

    /// The plan with a window given back: its work goes, and it stands again. Nothing changes where the scheme has no rules.
    ///
    /// # Errors
    /// No such scheme.
    pub fn with_window_standing(&self, scheme: usize, moment: Moment) -> Result<Plan, Refusal> {
        if self.scheme(scheme)?.standing.is_none() {
            return Ok(self.clone());
        }
        Ok(self.with_scheme(scheme, |s| {
            s.schedule.drop_work(moment, |_| true);
            if let Some(standing) = &mut s.standing {
                standing.planned.remove(&moment);
            }
        }))
    }

    /// The plan with rules laid down for a scheme that has none, or with its rules taken away.
    ///
    /// # Errors
    /// No such scheme.
    pub fn with_standing(&self, scheme: usize, stands: bool) -> Result<Plan, Refusal> {
        if self.scheme(scheme)?.standing.is_some() == stands {
            return Ok(self.clone());
        }
        let done = self.found_windows();
        Ok(self.with_scheme(scheme, |s| {
            let planned = s.schedule.moments().into_iter().chain(done);
            s.standing = stands.then(|| Standing {
                rules: Rules::default(),
                planned: planned.gathered_set(),
            });
        }))
    }

    /// The windows of the found leaf of which its grower says what is done, if anything: all of them, but of a row that is just
    /// planted, the dormant state before its first leaf, that of planting alone. What comes after it nobody has done yet.
    pub(super) fn found_windows(&self) -> impl Iterator<Item = Moment> + use<> {
        let start = self.start();
        start.until(Moment {
            window: match start.leaf {
                1 => Window::Dormant,
                _ => Window::AfterHarvest,
            },
            ..start
        })
    }

    /// The plan, of which the windows of the found leaf `were` others than they are `now`: those that were planned and empty stand
    /// again, and in their place these are planned, where the same window was.
    pub(super) fn with_found_windows_moved(mut self, were: &[Moment], now: &[Moment]) -> Plan {
        for scheme in &mut self.schemes {
            if scheme.standing.is_none() {
                continue;
            }
            let scheme = Arc::make_mut(scheme);
            let stood = were.iter().filter(|m| scheme.stands(**m)).map(|m| m.window);
            let stood: Vec<Window> = stood.collect();
            let worked = scheme.schedule.moments();
            if let Some(standing) = &mut scheme.standing {
                standing
                    .planned
                    .retain(|m| !were.contains(m) || worked.contains(m));
                let planned = now.iter().filter(|m| !stood.contains(&m.window));
                standing.planned.extend(planned.copied());
            }
        }
        self
    }

    /// The plan with every scheme's windows standing: how a plan is begun. The windows of the found leaf are planned and empty; of
    /// a row just planted, that of planting alone.
    #[must_use]
    pub fn begun(self) -> Plan {
        let all = 0..self.schemes.len();
        all.fold(self, |plan, scheme| {
            plan.with_standing(scheme, true).unwrap_or(plan)
        })
    }

    /// The plan with every window without work standing in every scheme, by its rules or else the usual ones.
    #[must_use]
    pub fn with_all_standing(&self) -> Plan {
        let all = 0..self.schemes.len();
        all.fold(self.clone(), |plan, scheme| {
            plan.with_scheme(scheme, |s| {
                let planned = s.schedule.moments();
                let rules = s.standing.take().unwrap_or_default().rules;
                s.standing = Some(Standing { rules, planned });
            })
        })
    }

    /// The plan with one leaf of a scheme standing, by the scheme's rules or else the usual ones: in its windows without work the
    /// usual work is done. The leaves before it stay as they are.
    ///
    /// # Errors
    /// No such scheme.
    pub fn with_season_usual(&self, scheme: usize, leaf: u8) -> Result<Plan, Refusal> {
        let worked = self.scheme(scheme)?.schedule.moments();
        let before = Moment {
            leaf: leaf.saturating_sub(1),
            window: Window::AfterHarvest,
        };
        let start = self.start();
        Ok(self.with_scheme(scheme, |s| {
            let standing = s.standing.get_or_insert_with(|| Standing {
                rules: Rules::default(),
                planned: worked
                    .iter()
                    .copied()
                    .chain(start.until(before))
                    .gathered_set(),
            });
            standing
                .planned
                .retain(|m| m.leaf != leaf || worked.contains(m));
        }))
    }

    /// The plan with a rule of a scheme set; `None` puts its default back. A share is held to a thousandth.
    ///
    /// # Errors
    /// No such scheme; a value outside the rule's range. Nothing changes where the scheme has no rules.
    pub fn with_rule(
        &self,
        scheme: usize,
        rule: Rule,
        value: Option<f64>,
    ) -> Result<Plan, Refusal> {
        let value = value.map(|v| libm::round(v * 1e3) / 1e3);
        let Some(standing) = &self.scheme(scheme)?.standing else {
            return Ok(self.clone());
        };
        let mut rules = standing.rules.clone();
        if !rules.set(rule, value) {
            let value = value.unwrap_or_default();
            let info = rule.info();
            let why = refuse(info.text, info.unit.typed(), value, rule.range());
            return Err(match rule.is_whole() {
                true => whole(why, value),
                false => why,
            });
        }
        Ok(self.with_scheme(scheme, |s| {
            if let Some(standing) = &mut s.standing {
                standing.rules = rules;
            }
        }))
    }

    /// The limits by which a scheme's row is judged: the plan's, but what its rules say of renewal, tips and laterals
    /// holds where it has some.
    pub fn limits(&self, scheme: usize) -> Arc<Targets> {
        let scheme = self.schemes.get(scheme);
        scheme.map_or_else(|| Arc::clone(&self.targets), |s| s.limits(&self.targets))
    }

    /// The default of a limit, as [`Self::limits`] has them.
    pub fn usual_limit(&self, scheme: usize, limit: Limit) -> f64 {
        match self.rule_of(scheme, limit) {
            Some(rule) => rule.info().default,
            None => self.limits(scheme).default_of(limit),
        }
    }

    /// As [`Self::with_limit`], under a scheme: where it has a rule of that, the rule is set.
    ///
    /// # Errors
    /// As [`Self::with_limit`].
    pub fn with_limit_under(
        &self,
        scheme: usize,
        limit: Limit,
        value: Option<f64>,
    ) -> Result<Plan, Refusal> {
        let plan = self.with_limit(limit, value)?;
        match self.rule_of(scheme, limit) {
            Some(rule) => self.with_rule(scheme, rule, value),
            None => Ok(plan),
        }
    }

    /// The plan with every limit of a scheme at its default.
    ///
    /// # Errors
    /// No such scheme.
    pub fn with_default_limits_under(&self, scheme: usize) -> Result<Plan, Refusal> {
        let of_limits = Rule::ALL.iter().filter(|r| r.limit().is_some());
        of_limits
            .copied()
            .try_fold(self.with_default_limits(), |plan, rule| {
                plan.with_rule(scheme, rule, None)
            })
    }

    /// The rule of a scheme that stands for a limit.
    fn rule_of(&self, scheme: usize, limit: Limit) -> Option<Rule> {
        self.schemes.get(scheme)?.standing.as_ref()?;
        let all = Rule::ALL.iter();
        all.copied().find(|r| r.limit() == Some(limit))
    }

    /// The plan with the first leaf that a scheme lets bear; `None` for the usual one.
    ///
    /// # Errors
    /// No such scheme; no whole leaf, one below 1 or above [`Self::MAX_LEAF`].
    pub fn with_crop_from(&self, scheme: usize, leaf: Option<f64>) -> Result<Plan, Refusal> {
        self.scheme(scheme)?;
        let leaves: Range = (1.0, Self::MAX_LEAF.into());
        match leaf {
            Some(leaf) if !range::has(leaves, leaf) || libm::trunc(leaf) != leaf => {
                let count = Quantity::Number;
                let why = refuse("standing-crop_from", count, leaf, leaves);
                Err(whole(why, leaf))
            }
            _ => Ok(self.with_scheme(scheme, |s| s.crop_from = leaf.map(|l| l as u8))),
        }
    }

    /// The plan with another schedule for the scheme at that place, which it has.
    pub(super) fn with_schedule(&self, scheme: usize, schedule: Schedule) -> Plan {
        self.with_scheme(scheme, |s| s.schedule = schedule)
    }

    /// The plan with the scheme at that place, which it has, changed.
    pub(super) fn with_scheme(&self, scheme: usize, change: impl FnOnce(&mut Scheme)) -> Plan {
        let mut plan = self.clone();
        change(Arc::make_mut(&mut plan.schemes[scheme]));
        plan
    }
}

impl Scheme {
    /// Its limits, with those of its plan.
    pub(super) fn limits(&self, of_plan: &Arc<Targets>) -> Arc<Targets> {
        match &self.standing {
            Some(standing) => Arc::new(standing.rules.limits(of_plan)),
            None => Arc::clone(of_plan),
        }
    }

    fn plan(&mut self, moment: Moment) {
        if let Some(standing) = &mut self.standing {
            standing.planned.insert(moment);
        }
    }
}
