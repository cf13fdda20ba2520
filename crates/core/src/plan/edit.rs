//! Changes to a plan. Each gives a new plan that shares all it did not change, or a refusal.

use super::replay::{TreesAt, replay_tree};
use super::{Moment, Plan, Scheme, Season, replay};
use crate::refusal::Refusal;
use crate::said::Arg;
use crate::work::{Work, apply, apply_to_tree};
use std::sync::Arc;

impl Plan {
    /// The plan with `work` done at `moment` under a scheme. Taking off what the same window brought
    /// takes that work back instead.
    ///
    /// # Errors
    /// Why the work can't be done there and then; a moment before the row was found or after the last leaf.
    pub fn with_work(&self, scheme: usize, moment: Moment, work: Work) -> Result<Plan, Refusal> {
        self.with_works(scheme, moment, vec![work])
    }

    /// As [`Plan::with_work`], for several items that belong together: all are done or none.
    ///
    /// # Errors
    /// As [`Plan::with_work`], of the first that can't be done.
    pub fn with_works(
        &self,
        scheme: usize,
        moment: Moment,
        works: Vec<Work>,
    ) -> Result<Plan, Refusal> {
        if moment < self.start() || moment.leaf > Self::MAX_LEAF {
            return Err(Refusal::new(
                "refusal-leaf",
                vec![
                    ("value", Arg::Count(moment.leaf.into())),
                    ("low", Arg::Count(self.found.leaf.into())),
                    ("high", Arg::Count(Self::MAX_LEAF.into())),
                ],
            ));
        }
        if works.len() > 1 {
            let trees = TreesAt::new(self, scheme, moment)?;
            if works.iter().all(|w| w.tree().is_some_and(|t| trees.has(t))) {
                return self.with_tree_works(scheme, moment, works, trees);
            }
        }
        let mut plan = self.clone();
        for work in works {
            plan.put_work(scheme, moment, work)?;
        }
        Ok(plan)
    }

    /// The same as putting each in turn, for work on found trees alone: only the tree that each is about is replayed.
    fn with_tree_works(
        &self,
        scheme: usize,
        moment: Moment,
        works: Vec<Work>,
        mut trees: TreesAt<'_>,
    ) -> Result<Plan, Refusal> {
        let mut plan = self.clone();
        let mut season = season_of(self.scheme(scheme)?, moment.leaf);
        for work in works {
            if takes_back(&mut season, moment, &work) {
                continue;
            }
            // Where the work takes the place of another, what counts is the row without that one.
            season.drop_subject(moment.window, work.subject());
            let here = season.work_on_tree(moment.window, work.tree());
            if let Some(tree) = work.tree().and_then(|id| trees.tree(id, here))
                && let Some(terms) = trees.terms()
            {
                apply_to_tree(&tree, moment, terms, &work)?;
            }
            put(&mut season, moment, work);
        }
        plan.put_season(scheme, season);
        Ok(plan)
    }

    fn put_work(&mut self, scheme: usize, moment: Moment, work: Work) -> Result<(), Refusal> {
        let mut season = season_of(self.scheme(scheme)?, moment.leaf);
        if !takes_back(&mut season, moment, &work) {
            // Where the work takes the place of another, what counts is the row without that one.
            season.drop_subject(moment.window, work.subject());
            let mut without = self.clone();
            without.put_season(scheme, season.clone());
            without.try_work(scheme, moment, &work)?;
            put(&mut season, moment, work);
        }
        self.put_season(scheme, season);
        Ok(())
    }

    /// Whether work can be done after all that is planned up to `moment`.
    fn try_work(&self, scheme: usize, moment: Moment, work: &Work) -> Result<(), Refusal> {
        // Work on a tree looks at that tree alone, however long the row.
        let one = match work.tree() {
            Some(id) => replay_tree(self, scheme, moment, id)?,
            None => None,
        };
        match one {
            Some((tree, terms)) => apply_to_tree(&tree, moment, &terms, work).map(drop),
            None => {
                let before = replay(self, scheme, moment)?;
                apply(&before.row, moment, &before.terms, work).map(drop)
            }
        }
    }

    /// The plan without the work at `moment` that `goes` picks.
    ///
    /// # Errors
    /// No such scheme.
    pub fn without_work(
        &self,
        scheme: usize,
        moment: Moment,
        goes: impl Fn(&Work) -> bool,
    ) -> Result<Plan, Refusal> {
        let mut plan = self.clone();
        if let Some(season) = self.scheme(scheme)?.season(moment.leaf) {
            let mut season = season.clone();
            season.drop_work(moment.window, goes);
            plan.put_season(scheme, season);
        }
        Ok(plan)
    }

    fn put_season(&mut self, scheme: usize, season: Season) {
        let old = &self.schemes[scheme];
        let mut seasons: Vec<Season> = old
            .seasons
            .iter()
            .filter(|s| s.leaf != season.leaf)
            .cloned()
            .collect();
        if !season.is_empty() {
            seasons.push(season);
            seasons.sort_by_key(|s| s.leaf);
        }
        self.schemes[scheme] = Arc::new(Scheme {
            name: old.name.clone(),
            seasons,
        });
    }
}

fn season_of(scheme: &Scheme, leaf: u8) -> Season {
    let held = scheme.season(leaf).cloned();
    held.unwrap_or_else(|| Season::empty(leaf))
}

/// Puts work that can be done; what a cut leaves nothing of gives way to it.
fn put(season: &mut Season, moment: Moment, work: Work) {
    season.drop_idle(moment.window, &work);
    season.put(moment.window, work);
}

/// Where the work takes off a bud that the same window keeps, takes that back instead; whether it did.
fn takes_back(season: &mut Season, moment: Moment, work: &Work) -> bool {
    match work {
        Work::Remove { tree, shoot } => season.drop_bud(moment.window, *tree, *shoot),
        _ => false,
    }
}
