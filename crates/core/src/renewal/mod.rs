//! Which uprights of a tree are cut to stubs, winter by winter.
//!
//! A share of them is renewed each winter, and what the share leaves over is carried to the next winter. Wood at the age
//! limit goes first, then the largest that has not been renewed within one turn; of either, rather one that crowds a better one, and
//! one beside which the wall has no hole. Where the carried share alone would let wood grow too old, more are cut in good time,
//! to at most a third of the tree, rounded up, in one winter.
//!
//! All of it reads plain figures and keeps nothing from winter to winter: the same tree in the same winter is answered the same.

#[cfg(test)]
mod tests;

use crate::arrange::Arrange;

/// The share of a tree's uprights that is renewed each winter, as a ratio of whole numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    num: u32,
    den: u32,
}

impl Share {
    /// The simplest ratio within half a thousandth of `share`, which is held to 1/1000 to 1: 0.167 is a sixth.
    pub fn near(share: f64) -> Self {
        let share = share.clamp(0.001, 1.0);
        let at = |den: u32| Self {
            num: (libm::round(share * f64::from(den)) as u32).max(1),
            den,
        };
        let is_near = |s: &Self| (s.of(1.0) - share).abs() <= 0.000_5;
        (1..1000).map(at).find(is_near).unwrap_or(at(1000))
    }

    /// That share of a number.
    fn of(self, whole: f64) -> f64 {
        whole * f64::from(self.num) / f64::from(self.den)
    }

    /// In how many winters all uprights have had their turn: so old, in completed growing seasons, wood becomes at most.
    pub fn turn(self) -> u8 {
        u8::try_from(self.den.div_ceil(self.num)).unwrap_or(u8::MAX)
    }

    /// How many of `uprights` are the share of one winter, the remainder of those before it carried over: of 8 a fifth is
    /// 1, 2, 1, 2, 2, counted from winter 0.
    pub fn carried(self, uprights: usize, winter: u32) -> usize {
        let until = |w: u64| w * uprights as u64 * u64::from(self.num) / u64::from(self.den);
        let winter = u64::from(winter);
        (until(winter + 1) - until(winter)) as usize
    }
}

/// What of an upright decides whether it is renewed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Upright {
    /// Completed growing seasons of its wood; of a stub that was made this winter, those of what was cut.
    pub age: u8,
    /// Its thickness, in any one unit.
    pub size: f64,
    /// How many winters ago its place was last cut to a stub; `None` where it never was.
    pub cut: Option<u8>,
    /// Whether it was cut to a stub this winter.
    pub stubbed: bool,
    /// Whether it is no candidate this winter, being no longer than a stub or not due yet.
    pub spared: bool,
    /// Whether it crowds a better one: a younger, or of two as old that are thick the smaller. One of the two goes anyway.
    pub crowds: bool,
}

/// What a winter begins with.
struct Open<'u> {
    /// Those that may be cut.
    left: Vec<&'u Upright>,
    /// The most that are cut in one winter.
    most: usize,
    /// How many have been.
    stubbed: usize,
    /// See [`Winter::reachable`].
    reachable: u8,
}

/// How a tree is renewed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Renewal {
    /// The share of each winter.
    pub share: Share,
    /// The largest age, in completed growing seasons, that wood is to have in a dormant season.
    pub age_limit: u8,
}

/// One winter's renewal of one tree.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Winter {
    /// The uprights still to be cut, by their place in the list that was given, the first to go first.
    pub cut: Vec<usize>,
    /// How many stubs this winter asks for, those that are made already among them.
    pub count: usize,
    /// How many of them the carried share asks for; the others are cut so that no wood grows too old.
    pub carried: usize,
    /// The age limit; where it can't be kept, the least age above it that the oldest wood can be held to from the next winter
    /// on, with a third of the tree cut each winter.
    pub reachable: u8,
}

impl Renewal {
    /// What is cut of a tree's uprights in a winter. Winters are counted from any that is kept for the tree. `harms` tells of
    /// one of them, beside those that are cut before it, whether it should rather stand: it does where another can go.
    pub fn winter(
        &self,
        uprights: &[Upright],
        winter: u32,
        harms: &dyn Fn(usize, &[usize]) -> bool,
    ) -> Winter {
        let n = uprights.len();
        let open = self.open(uprights);
        let Open {
            ref left,
            most,
            stubbed,
            reachable,
        } = open;
        let shares: Vec<usize> = (0..u32::from(reachable))
            .map(|t| self.share.carried(n, winter.saturating_add(t)).min(most))
            .collect();
        let mut carried = shares.first().copied().unwrap_or(0);
        // Once a tree has had its share, the remainder is not asked for again: with fewer uprights it may fall due sooner.
        if stubbed > 0 && stubbed as f64 + 1.0 > self.share.of(n as f64) {
            carried = carried.min(stubbed);
        }
        // The share is raised by as little as keeps all wood in time, and as evenly over the winters to come.
        let raised = (0..most).find(|raised| {
            let now = carried.max(*raised).saturating_sub(stubbed);
            let turn = Turn::new(reachable, *raised, &shares);
            turn.short(left, now).is_none()
        });
        let raised = raised.unwrap_or(most);
        let count = carried.max(raised).max(stubbed);
        let count = count.max(self.overdue(&open));
        let turn = Turn::new(reachable, raised, &shares);
        let mut cut = self.choose(uprights, count - stubbed, &turn, harms);
        self.keep_bearing(uprights, &open, &mut cut);
        Winter {
            count: stubbed + cut.len(),
            cut,
            carried,
            reachable,
        }
    }

    /// What bears last on a tree stands until younger wood bears beside it, where it has not reached the age limit and there is time
    /// for all with one less cut this winter.
    fn keep_bearing(&self, uprights: &[Upright], open: &Open<'_>, cut: &mut Vec<usize>) {
        let bears = |i: &usize| uprights[*i].age >= BEARS && !uprights[*i].stubbed;
        let stays = |i: &usize| !cut.contains(i);
        if (0..uprights.len()).any(|i| bears(&i) && stays(&i)) {
            return;
        }
        let waits = |i: &usize| bears(i) && uprights[*i].age < self.age_limit;
        let later = Turn::new(open.reachable, open.most, &[]);
        if let Some(at) = cut.iter().rposition(waits)
            && later.short(&open.left, cut.len() - 1).is_none()
        {
            cut.remove(at);
        }
    }

    /// What is cut of a tree in a winter, whether it lacks uprights or not.
    pub fn due(
        &self,
        few: bool,
        uprights: &[Upright],
        winter: u32,
        harms: &dyn Fn(usize, &[usize]) -> bool,
    ) -> Winter {
        match few {
            true => self.winter_of_few(uprights, harms),
            false => self.winter(uprights, winter, harms),
        }
    }

    /// What is cut of a tree that lacks uprights: its share waits until it has them, and no more goes than keeps wood in time, as
    /// late as may be.
    fn winter_of_few(
        &self,
        uprights: &[Upright],
        harms: &dyn Fn(usize, &[usize]) -> bool,
    ) -> Winter {
        let open = self.open(uprights);
        let Open {
            ref left,
            most,
            stubbed,
            reachable,
        } = open;
        // One of them may be lost until later.
        let later = uprights.len().saturating_sub(1).div_ceil(3).max(1);
        let turn = Turn::new(reachable, later.min(most), &[]);
        let enough = |now: &usize| turn.short(left, now.saturating_sub(stubbed)).is_none();
        let count = (0..most).find(enough).unwrap_or(most).max(stubbed);
        let count = count.max(self.overdue(&open));
        let mut cut = self.choose(uprights, count - stubbed, &turn, harms);
        self.keep_bearing(uprights, &open, &mut cut);
        Winter {
            count: stubbed + cut.len(),
            cut,
            carried: 0,
            reachable,
        }
    }

    /// Where the age limit can't be kept: how many are cut this winter, so that what has reached it stands no winter longer than it
    /// has to. Nothing of it can be later in time, so nothing is won by waiting.
    fn overdue(&self, open: &Open<'_>) -> usize {
        match open.reachable > self.age_limit {
            true => {
                let over = open.left.iter().filter(|u| u.age >= self.age_limit);
                open.most.min(open.stubbed + over.count())
            }
            false => 0,
        }
    }

    fn open<'u>(&self, uprights: &'u [Upright]) -> Open<'u> {
        let most = uprights.len().div_ceil(3);
        let stubbed = uprights.iter().filter(|u| u.stubbed).count();
        let mut left: Vec<&Upright> = uprights.iter().collect();
        left.retain(|u| !u.stubbed && !u.spared);
        let unused = most.saturating_sub(stubbed);
        let in_time = |age: &u8| Turn::new(*age, most, &[]).short(&left, unused).is_none();
        Open {
            most,
            stubbed,
            reachable: (self.age_limit..u8::MAX).find(in_time).unwrap_or(u8::MAX),
            left,
        }
    }

    /// Which `count` of them are cut, the first to go first, where so many can be cut in the winters after.
    fn choose(
        &self,
        uprights: &[Upright],
        count: usize,
        turn: &Turn,
        harms: &dyn Fn(usize, &[usize]) -> bool,
    ) -> Vec<usize> {
        let mut places: Vec<usize> = (0..uprights.len())
            .filter(|i| !uprights[*i].stubbed && !uprights[*i].spared)
            .collect();
        let can = places.clone();
        let mut out = Vec::new();
        for more in (0..count).rev() {
            let left: Vec<&Upright> = places.iter().map(|i| &uprights[*i]).collect();
            let next = self.next(&left, more, turn, &|at| harms(places[at], &out));
            out.extend(next.map(|at| places.remove(at)));
        }
        self.apart(uprights, out, &can, turn, harms)
    }

    /// In the place of some that are to be cut as many that do less harm, where there are such and time for the rest: of the same
    /// ages, or else younger in the place of what has not reached the age limit. One after the other may come to stand where the
    /// next has no choice left.
    fn apart(
        &self,
        uprights: &[Upright],
        chosen: Vec<usize>,
        can: &[usize],
        turn: &Turn,
        harms: &dyn Fn(usize, &[usize]) -> bool,
    ) -> Vec<usize> {
        let harm = |all: &[usize]| all.iter().filter(|i| harms(**i, all)).count();
        let mut least = harm(&chosen);
        if least == 0 || choices(can.len(), chosen.len()) > MOST_CHOICES {
            return chosen;
        }
        let ages = |all: &[usize]| {
            let mut ages: Vec<u8> = all.iter().map(|i| uprights[*i].age).collect();
            ages.arrange();
            ages
        };
        let size = |all: &[usize]| all.iter().map(|i| uprights[*i].size).sum::<f64>();
        // How many of them wait for their turn, and how many rather go: what crowds, and what has reached the age limit.
        let counts = |all: &[usize]| {
            let mut counts = [0; 3];
            for u in all.iter().map(|i| &uprights[*i]) {
                let due = u.age >= self.age_limit;
                counts[0] += usize::from(!due && u.cut.is_some_and(|w| w < self.age_limit));
                counts[1] += usize::from(u.crowds);
                counts[2] += usize::from(due);
            }
            counts
        };
        let (wanted, [waiting, crowding, due]) = (ages(&chosen), counts(&chosen));
        let least_size = size(&chosen) * LARGE;
        let in_time = |all: &[usize]| {
            let stays = can.iter().filter(|i| !all.contains(i));
            let left: Vec<&Upright> = stays.map(|i| &uprights[*i]).collect();
            turn.short(&left, 0).is_none()
        };
        let (mut best, mut most) = (None, (false, 0.0));
        each_choice(can.len(), chosen.len(), &mut |of| {
            let all: Vec<usize> = of.iter().map(|k| can[*k]).collect();
            let [waits, crowds, old] = counts(&all);
            let rank = (ages(&all) == wanted, size(&all));
            let small = !rank.0 && rank.1 < least_size;
            if small || waits > waiting || crowds < crowding || old < due {
                return;
            }
            let harm = harm(&all);
            let better = harm < least || harm == least && best.is_some() && rank > most;
            if better && (rank.0 || in_time(&all)) {
                (least, most) = (harm, rank);
                best = Some(all);
            }
        });
        let Some(mut best) = best else {
            return chosen;
        };
        best.arrange_by(|a, b| {
            let (a, b) = (&uprights[*a], &uprights[*b]);
            b.age.cmp(&a.age).then(b.size.total_cmp(&a.size))
        });
        best
    }

    /// Which of those that are left is cut next, with `more` to be cut after it this winter.
    fn next(
        &self,
        left: &[&Upright],
        more: usize,
        turn: &Turn,
        harms: &dyn Fn(usize) -> bool,
    ) -> Option<usize> {
        let oldest = first(left, 0..left.len(), true)?;
        let is_old = left[oldest].age >= self.age_limit;
        // Where there is more wood than can be cut in time, one of it goes now.
        let least = turn.short(left, more).unwrap_or(0);
        let fits = |at: &usize| {
            let u = left[*at];
            // Regrown wood may be the thickest again; what was renewed within this turn waits for the next.
            let goes = match is_old {
                true => u.age >= self.age_limit,
                false => u.cut.is_none_or(|winters| winters >= self.age_limit),
            };
            goes && u.age >= least
        };
        let mut fit: Vec<usize> = (0..left.len()).filter(fits).collect();
        let best = first(left, fit.iter().copied(), is_old);
        let mut next = best;
        while let Some(at) = next.filter(|at| harms(*at)) {
            fit.retain(|other| *other != at);
            next = first(left, fit.iter().copied(), is_old);
        }
        // A hole more does less harm than wood that is older and much larger and stays.
        let next = next.filter(|at| {
            let (next, best) = (left[*at], best.map_or(left[*at], |b| left[b]));
            next.age >= best.age || next.size >= best.size * LARGE
        });
        next.or(best).or(Some(oldest))
    }
}

/// From so many completed seasons on an upright bears in the leaf that comes: in its third.
const BEARS: u8 = 2;
/// Share of the size of what would make a hole that a younger one has at least to have to be cut in its place.
const LARGE: f64 = 0.7;
/// So many ways to choose are looked through.
const MOST_CHOICES: usize = 2_000;

/// In how many ways so many of `n` are chosen; more than [`MOST_CHOICES`] are not counted on.
fn choices(n: usize, count: usize) -> usize {
    let mut ways = 1;
    for k in 0..count.min(n) {
        ways = ways * (n - k) / (k + 1);
        if ways > MOST_CHOICES * n {
            break;
        }
    }
    ways
}

/// Every way to choose `count` of the first `n` numbers, in order.
fn each_choice(n: usize, count: usize, look: &mut dyn FnMut(&[usize])) {
    let mut at: Vec<usize> = (0..count).collect();
    if count > n {
        return;
    }
    loop {
        look(&at);
        let Some(k) = (0..count).rev().find(|k| at[*k] < n - count + k) else {
            return;
        };
        at[k] += 1;
        for next in k + 1..count {
            at[next] = at[next - 1] + 1;
        }
    }
}

/// Of those at `places` the one that goes first: the oldest, if `by_age`, then what crowds, then the largest, then the first of them.
fn first(all: &[&Upright], places: impl Iterator<Item = usize>, by_age: bool) -> Option<usize> {
    let age = |at: usize| if by_age { all[at].age } else { 0 };
    places.reduce(|a, b| {
        let sooner = age(b).cmp(&age(a));
        let sooner = sooner.then(all[b].crowds.cmp(&all[a].crowds));
        match sooner.then(all[b].size.total_cmp(&all[a].size)) {
            std::cmp::Ordering::Greater => b,
            _ => a,
        }
    })
}

/// What can be cut in the winters after this one, while wood is to pass no age.
struct Turn {
    /// That age.
    age: u8,
    /// How many can be cut after this winter: in none, in the next, in the next two, and so on, until all wood of now is as
    /// old as that.
    room: Vec<usize>,
}

impl Turn {
    /// At least `least` in each winter, or as many as `shares` says, this winter's first.
    fn new(age: u8, least: usize, shares: &[usize]) -> Self {
        let mut sum = 0usize;
        let mut room = vec![0];
        for t in 1..usize::from(age) {
            sum = sum.saturating_add(shares.get(t).map_or(least, |share| least.max(*share)));
            room.push(sum);
        }
        Self { age, room }
    }

    /// The age from which wood is more than can be cut in time, with `now` of this winter yet to cut. `None` where there
    /// is time for all.
    fn short(&self, left: &[&Upright], now: usize) -> Option<u8> {
        let ages = (1..=self.age).rev();
        ages.zip(&self.room).find_map(|(age, room)| {
            let old = left.iter().filter(|u| u.age >= age).count();
            (old > room.saturating_add(now)).then_some(age)
        })
    }
}
