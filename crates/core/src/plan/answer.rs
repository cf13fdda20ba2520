//! A copy of a plan that comes back: what it has otherwise than the copy that was sent, what of it was changed here too, and the plan
//! with some of it taken.

use super::{BudCount, Mark, Moment, Plan, Scheme};
use crate::arrange::{Arrange, Gather};
use crate::refusal::Refusal;
use crate::row::{Row, Tree, TreeId};
use crate::said::Arg;
use crate::sorted::Set;
use crate::work::Work;
use std::sync::Arc;

/// What a plan that came back has otherwise.
#[derive(Clone, Debug)]
pub struct Answer {
    theirs: Plan,
    /// Whether the copy that was sent is known; without it all that differs counts as theirs.
    pub knows_sent: bool,
    /// Whether it looks like a copy of another row: neither the name nor any tree's record is the same, and no copy that was sent is known.
    pub is_foreign: bool,
    /// What differs, in the order of the plan: row, trees, schemes and their work, marks, the rest.
    pub changes: Vec<Change>,
}

/// One thing that they changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What it is.
    pub spot: Spot,
    /// Whether it was changed here too, to something else: taking it gives up what stands here.
    pub both: bool,
    /// Of work: what stands here on that tree in that window.
    pub mine: Vec<Work>,
    /// Of work: what they have there.
    pub theirs: Vec<Work>,
    /// Of work: what of that was not there when it was sent.
    pub new: Vec<Work>,
    /// Of work: what was there when it was sent, and is not any more.
    pub gone: Vec<Work>,
}

/// What a change is about.
#[derive(Clone, Debug, PartialEq)]
pub enum Spot {
    /// The row's name.
    Name,
    /// What is said of the row.
    Note,
    /// Where it stands.
    Site,
    /// The limits.
    Limits,
    /// The values of the model.
    Values,
    /// The crew's rates and people.
    Crew,
    /// The found row but for its trees: its leaf, ends, wires and posts, and whether it had been tipped.
    Row,
    /// The record of a tree; one that is new or gone too.
    Tree(TreeId),
    /// A scheme that they have added.
    Scheme(Of),
    /// A scheme that they have removed, by the name that it has here.
    SchemeGone(String),
    /// A scheme's rules and the leaf from which it bears.
    Rules(Of),
    /// A window that stands again.
    GivenBack(Of, Moment),
    /// The work on a tree, or on the trellis, in a window.
    Work(Of, Moment, Option<TreeId>),
    /// What is told of the work from the row: ticks, notes, a second look.
    Told,
    /// A mark that they have put.
    Mark(Mark),
    /// A mark that they have changed, as it was and as it is.
    MarkChanged(Mark, Mark),
    /// A mark that they have removed.
    MarkGone(Mark),
    /// What is left for a year.
    Left,
    /// Buds that were counted on a tree.
    Count(u8, TreeId),
}

/// A scheme, by its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Of {
    /// In the plan here; of an added one the place after the last.
    pub mine: usize,
    /// In the one that came back.
    pub theirs: usize,
}

impl Change {
    /// Where on the wall it is: a moment, where it is of one, and a tree.
    pub fn place(&self) -> Option<(Option<Moment>, TreeId)> {
        match self.spot {
            Spot::Tree(tree) => Some((None, tree)),
            Spot::Work(_, moment, tree) => Some((Some(moment), tree?)),
            Spot::Count(leaf, tree) => Some((Some(Moment::dormant(leaf)), tree)),
            _ => None,
        }
    }

    /// The mark that it is about, as they have it or had it last.
    pub fn mark(&self) -> Option<&Mark> {
        match &self.spot {
            Spot::Mark(mark) | Spot::MarkChanged(_, mark) | Spot::MarkGone(mark) => Some(mark),
            _ => None,
        }
    }
}

impl Answer {
    /// What `theirs` has otherwise than `sent`, seen from `mine`. What is the same here by now is no change. Without `sent` it is
    /// compared with what stands here.
    ///
    /// # Errors
    /// None that a plan which can be replayed would give.
    pub fn new(sent: Option<&Plan>, mine: &Plan, theirs: &Plan) -> Result<Self, Refusal> {
        let both = [sent.unwrap_or(mine), mine];
        let mut out = Self {
            theirs: theirs.clone(),
            knows_sent: sent.is_some(),
            is_foreign: sent.is_none() && is_foreign(mine, theirs),
            changes: Vec::new(),
        };
        out.settings(both);
        out.trees(both);
        out.schemes(both)?;
        out.marks(both);
        out.rest(both)?;
        Ok(out)
    }

    /// The plan that came back.
    pub fn theirs(&self) -> &Plan {
        &self.theirs
    }

    fn add(&mut self, spot: Spot, both: bool) {
        self.changes.push(Change {
            spot,
            both,
            mine: Vec::new(),
            theirs: Vec::new(),
            new: Vec::new(),
            gone: Vec::new(),
        });
    }

    /// Notes a change of something that is one thing in every plan.
    fn compare<T: PartialEq>(
        &mut self,
        spot: Spot,
        [sent, mine]: [&Plan; 2],
        of: impl Fn(&Plan) -> T,
    ) {
        let [sent, own, theirs] = [sent, mine, &self.theirs].map(of);
        if theirs != sent && theirs != own {
            self.add(spot, own != sent);
        }
    }

    fn settings(&mut self, both: [&Plan; 2]) {
        self.compare(Spot::Name, both, |p| p.name.clone());
        self.compare(Spot::Note, both, |p| p.note.clone());
        self.compare(Spot::Site, both, |p| Arc::clone(&p.site));
        self.compare(Spot::Limits, both, |p| Arc::clone(&p.targets));
        self.compare(Spot::Values, both, |p| Arc::clone(&p.assumptions));
        self.compare(Spot::Crew, both, |p| Arc::clone(&p.hands));
        let bare = |p: &Plan| {
            let row = Row {
                trees: Vec::new(),
                ..(*p.found).clone()
            };
            (row, p.tipped)
        };
        self.compare(Spot::Row, both, bare);
    }

    fn trees(&mut self, both: [&Plan; 2]) {
        let all = [both[0], both[1], &self.theirs].map(|p| p.found.trees.iter().map(|t| t.id));
        let all: Set<TreeId> = all.into_iter().flatten().gathered_set();
        for id in &all {
            self.compare(Spot::Tree(*id), both, |p| p.found.tree(*id).cloned());
        }
    }

    fn schemes(&mut self, both @ [sent_plan, mine]: [&Plan; 2]) -> Result<(), Refusal> {
        let mut own = mine.schemes.len();
        for theirs in 0..self.theirs.schemes.len() {
            let of = |plan: &Plan| same_scheme(&self.theirs.schemes, theirs, &plan.schemes);
            match (of(sent_plan), of(mine)) {
                (Some(sent), Some(mine_at)) => {
                    let of = Of {
                        mine: mine_at,
                        theirs,
                    };
                    self.scheme(of, sent, both)?;
                }
                // One that was removed here stays so unless it is taken as a whole.
                (sent, None) => {
                    let gone_here = sent.is_some();
                    let is_same =
                        sent.is_some_and(|s| sent_plan.schemes[s] == self.theirs.schemes[theirs]);
                    if !is_same {
                        self.add(Spot::Scheme(Of { mine: own, theirs }), gone_here);
                        own += 1;
                    }
                }
                (None, Some(mine_at)) => {
                    if mine.schemes[mine_at] != self.theirs.schemes[theirs] {
                        self.add(Spot::Scheme(Of { mine: own, theirs }), true);
                        own += 1;
                    }
                }
            }
        }
        Ok(())
    }

    fn scheme(
        &mut self,
        of: Of,
        sent: usize,
        [sent_plan, mine]: [&Plan; 2],
    ) -> Result<(), Refusal> {
        let [was, own, theirs] = [
            &sent_plan.schemes[sent],
            &mine.schemes[of.mine],
            &self.theirs.schemes[of.theirs],
        ]
        .map(Arc::clone);
        let rules = |s: &Scheme| (s.standing.as_ref().map(|s| s.rules.clone()), s.crop_from);
        let [r0, r1, r2] = [&was, &own, &theirs].map(|s| rules(s));
        if r2 != r0 && r2 != r1 {
            self.add(Spot::Rules(of), r1 != r0);
        }
        let mut moments: Set<Moment> = Set::default();
        for scheme in [&was, &theirs] {
            moments.extend(scheme.schedule.moments());
            moments.extend(scheme.standing.iter().flat_map(|s| &s.planned).copied());
        }
        for moment in moments {
            let stand = [&was, &own, &theirs].map(|s| s.stands(moment));
            match stand {
                [true, _, true] => {}
                [false, true, true] => {}
                [false, false, true] => {
                    let changed = own.schedule.work(moment).ne(was.schedule.work(moment));
                    self.add(Spot::GivenBack(of, moment), changed);
                }
                _ => {
                    let lists = [
                        sent_plan.work_at(sent, moment)?,
                        mine.work_at(of.mine, moment)?,
                        self.theirs.work_at(of.theirs, moment)?,
                    ];
                    self.window(of, moment, &lists);
                }
            }
        }
        Ok(())
    }

    fn window(&mut self, of: Of, moment: Moment, lists: &[Vec<Work>; 3]) {
        let trees: Set<Option<TreeId>> = lists.iter().flatten().map(Work::tree).gathered_set();
        for tree in trees {
            let on = |list: &Vec<Work>| -> Vec<Work> {
                let on = list.iter().filter(|w| w.tree() == tree);
                on.cloned().collect()
            };
            let [sent, mine, theirs] = [&lists[0], &lists[1], &lists[2]].map(on);
            if theirs != sent && theirs != mine {
                self.changes.push(Change {
                    spot: Spot::Work(of, moment, tree),
                    both: mine != sent,
                    new: fewer(&theirs, &sent),
                    gone: fewer(&sent, &theirs),
                    mine,
                    theirs,
                });
            }
        }
    }

    fn marks(&mut self, [sent, mine]: [&Plan; 2]) {
        let put = fewer(&self.theirs.marks, &sent.marks);
        let mut gone = fewer(&sent.marks, &self.theirs.marks);
        gone.retain(|mark| mine.marks.contains(mark));
        for mark in fewer(&put, &fewer(&mine.marks, &sent.marks)) {
            // One that is still where it was, or says what it said, is the same one.
            let same = |old: &Mark| {
                let said = old.text == mark.text && !mark.text.is_empty();
                old.kind == mark.kind && ((old.at, old.to) == (mark.at, mark.to) || said)
            };
            match gone.iter().position(same) {
                Some(n) => self.add(Spot::MarkChanged(gone.remove(n), mark), false),
                None => self.add(Spot::Mark(mark), false),
            }
        }
        for mark in gone {
            self.add(Spot::MarkGone(mark), false);
        }
    }

    fn rest(&mut self, both @ [sent, mine]: [&Plan; 2]) -> Result<(), Refusal> {
        self.compare(Spot::Left, both, |p| p.left.clone());
        let counts = [sent, mine, &self.theirs].map(|p| p.counts.iter().map(counted_on));
        let counts: Set<(u8, TreeId)> = counts.into_iter().flatten().gathered_set();
        for (leaf, tree) in counts {
            let spurs = move |p: &Plan| count_of(p, leaf, tree).map(|c| c.spurs.clone());
            self.compare(Spot::Count(leaf, tree), both, spurs);
        }
        let taken = mine.taking_told(&self.theirs)?;
        if taken.plan != *mine || !taken.strange.is_empty() {
            self.add(Spot::Told, false);
        }
        // Last: taking one moves the places of those behind it.
        for (n, was) in sent.schemes.iter().enumerate() {
            let of = |plan: &Plan| same_scheme(&sent.schemes, n, &plan.schemes);
            if let (None, Some(own)) = (of(&self.theirs), of(mine)) {
                let own = &mine.schemes[own];
                self.add(Spot::SchemeGone(own.name.clone()), own != was);
            }
        }
        Ok(())
    }

    /// The plan here with the changes taken that stand at some places of [`changes`](Self::changes). It knows all copies that either was
    /// sent as.
    ///
    /// # Errors
    /// More marks, schemes or told work than a plan holds.
    pub fn taken(&self, mine: &Plan, picks: &[usize]) -> Result<Plan, Refusal> {
        let mut out = mine.clone();
        let picked = |n: &usize| picks.contains(n);
        let at = (0..self.changes.len()).filter(picked);
        for n in at {
            out = self.take(out, &self.changes[n])?;
        }
        let known = fewer(&self.theirs.sent, &out.sent);
        out.sent = known.into_iter().chain(out.sent).collect();
        let most = out.sent.len().saturating_sub(Plan::MAX_SENT);
        out.sent.drain(..most);
        Ok(out)
    }

    fn take(&self, mut out: Plan, change: &Change) -> Result<Plan, Refusal> {
        let theirs = &self.theirs;
        match &change.spot {
            Spot::Name => out.name.clone_from(&theirs.name),
            Spot::Note => out.note.clone_from(&theirs.note),
            Spot::Site => out.site = Arc::clone(&theirs.site),
            Spot::Limits => out.targets = Arc::clone(&theirs.targets),
            Spot::Values => out.assumptions = Arc::clone(&theirs.assumptions),
            Spot::Crew => out.hands = Arc::clone(&theirs.hands),
            Spot::Row => {
                out.tipped = theirs.tipped;
                out.found = Arc::new(Row {
                    trees: out.found.trees.clone(),
                    ..(*theirs.found).clone()
                });
            }
            Spot::Tree(id) => {
                let mut row = (*out.found).clone();
                row.trees.retain(|t| t.id != *id);
                row.trees.extend(theirs.found.tree(*id).cloned());
                row.sort();
                out.found = Arc::new(row);
            }
            Spot::Scheme(of) => {
                if out.schemes.len() >= Plan::MAX_SCHEMES {
                    let high = Arg::Count(Plan::MAX_SCHEMES as i64);
                    return Err(Refusal::new("refusal-schemes", vec![("high", high)]));
                }
                out.schemes.push(Arc::clone(&theirs.schemes[of.theirs]));
            }
            Spot::SchemeGone(name) => {
                if let Some(n) = out.schemes.iter().position(|s| s.name == *name) {
                    out = out.without_scheme(n)?;
                }
            }
            Spot::Rules(of) => {
                let from = &theirs.schemes[of.theirs];
                out = out.with_standing(of.mine, from.standing.is_some())?;
                out = out.with_scheme(of.mine, |s| {
                    s.crop_from = from.crop_from;
                    if let (Some(own), Some(from)) = (&mut s.standing, &from.standing) {
                        own.rules = from.rules.clone();
                    }
                });
            }
            Spot::GivenBack(of, moment) => out = out.with_window_standing(of.mine, *moment)?,
            Spot::Work(of, moment, tree) => {
                // What stands on other trees stays what it is.
                out = out.with_planned(of.mine, *moment)?;
                out = out.with_scheme(of.mine, |s| {
                    s.schedule.drop_work(*moment, |w| w.tree() == *tree);
                    s.schedule.put_all(*moment, change.theirs.clone());
                });
            }
            Spot::Mark(mark) => out = out.with_mark(None, mark)?,
            Spot::MarkChanged(old, mark) => {
                let n = out.marks.iter().position(|m| m == old);
                out = out.with_mark(n, mark)?;
            }
            Spot::MarkGone(mark) => {
                if let Some(n) = out.marks.iter().position(|m| m == mark) {
                    out.marks.remove(n);
                }
            }
            Spot::Left => out.left.clone_from(&theirs.left),
            Spot::Count(leaf, tree) => {
                out.counts.retain(|c| counted_on(c) != (*leaf, *tree));
                out.counts.extend(count_of(theirs, *leaf, *tree).cloned());
                out.counts.arrange_by_key(counted_on);
            }
            Spot::Told => out = out.taking_told(theirs)?.plan,
        }
        Ok(out)
    }
}

/// Whether two plans have nothing in common of a row as it was found.
fn is_foreign(mine: &Plan, theirs: &Plan) -> bool {
    let same = |tree: &Arc<Tree>| mine.found.tree(tree.id) == Some(tree);
    mine.name != theirs.name && !theirs.found.trees.iter().any(same)
}

fn counted_on(count: &BudCount) -> (u8, TreeId) {
    (count.leaf, count.tree)
}

fn count_of(plan: &Plan, leaf: u8, tree: TreeId) -> Option<&BudCount> {
    plan.counts.iter().find(|c| counted_on(c) == (leaf, tree))
}

/// The first list without what the second has, each as often as it stands there.
fn fewer<T: Clone + PartialEq>(all: &[T], without: &[T]) -> Vec<T> {
    let mut without: Vec<&T> = without.iter().collect();
    let stays = all
        .iter()
        .filter(|one| match without.iter().position(|other| other == one) {
            Some(n) => {
                without.swap_remove(n);
                false
            }
            None => true,
        });
    stays.cloned().collect()
}

/// Which of other schemes one of a list is: the one of its name, else, where neither name is among the others', the one at its place.
fn same_scheme(of: &[Arc<Scheme>], n: usize, among: &[Arc<Scheme>]) -> Option<usize> {
    let named = |all: &[Arc<Scheme>], name: &str| all.iter().position(|s| s.name.trim() == name);
    let name = of[n].name.trim();
    named(among, name).or_else(|| {
        let there = among.get(n)?;
        named(of, there.name.trim()).is_none().then_some(n)
    })
}
