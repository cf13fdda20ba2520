//! When a plan is written to the device: told of changes and of how writes went, with their times, it says when the next
//! one is due. It has no clock of its own.

/// How the plan on the desk stands to the device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// All is saved.
    Saved,
    /// A change waits to be saved, or is on its way.
    Waiting,
    /// A change could not be saved; it is tried again.
    Failing,
    /// Another tab writes this plan.
    Elsewhere {
        /// Whether this tab has changes that nobody saves.
        changed: bool,
    },
}

impl Kept {
    /// Whether something is lost if the page goes now, all being tried that can be.
    pub fn is_at_risk(self) -> bool {
        matches!(self, Self::Failing | Self::Elsewhere { changed: true })
    }
}

/// A write that was begun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ticket {
    /// Of which plan that came on the desk it is.
    plan: u64,
    /// How many of its changes it holds.
    held: u64,
    /// How many writes had failed before: it builds on those that had not.
    refused: u64,
}

/// What is saved of a plan, and when the rest is due. Times are milliseconds from any one beginning.
#[derive(Clone, Debug, Default)]
pub struct Pace {
    /// Plans that came on the desk.
    plans: u64,
    /// Changes made.
    changes: u64,
    /// Changes that the newest write holds, of those that did not fail.
    begun: u64,
    /// Changes on the device.
    written: u64,
    /// When the first change was made that no write holds.
    first: f64,
    /// Writes on their way.
    on_way: u32,
    /// Writes that failed.
    refused: u64,
    /// Failures since the last write that went well.
    failures: u32,
    /// Not to be tried before.
    not_before: f64,
    elsewhere: bool,
}

impl Pace {
    /// How long after the first unsaved change a write begins, ms: half of the half second in which all is to be saved.
    pub const AFTER: f64 = 250.0;
    /// The longest that a failed write waits to be tried again, ms. No source: short beside the time it takes to make room.
    pub const LONGEST: f64 = 8_000.0;

    /// Another plan is on the desk, as it is on the device. How writes of the one before end is no longer heard.
    pub fn begin_anew(&mut self) {
        *self = Self {
            plans: self.plans + 1,
            ..Self::default()
        };
    }

    /// The plan has changed.
    pub fn changed(&mut self, now: f64) {
        if self.changes == self.begun {
            self.first = now;
        }
        self.changes += 1;
    }

    /// When a write is due; `None` where there is nothing to write, nobody to write it, or one is on its way, whose end
    /// will tell.
    pub fn due(&self) -> Option<f64> {
        let nothing = self.changes == self.begun || self.elsewhere || self.on_way > 0;
        (!nothing).then(|| (self.first + Self::AFTER).max(self.not_before))
    }

    /// Begins a write of all there is, due or not; `None` where there is nothing that this tab may write.
    pub fn begin(&mut self) -> Option<Ticket> {
        if self.changes == self.begun || self.elsewhere {
            return None;
        }
        self.begun = self.changes;
        self.on_way += 1;
        Some(Ticket {
            plan: self.plans,
            held: self.begun,
            refused: self.refused,
        })
    }

    /// A write has ended, well or not: whether all that it holds is on the device now. What it held is due again where it
    /// failed: soon, then less and less often. A write builds on those before it, and is worth nothing where one of them
    /// failed meanwhile.
    pub fn ended(&mut self, ticket: Ticket, well: bool, now: f64) -> bool {
        if ticket.plan != self.plans {
            return well;
        }
        self.on_way = self.on_way.saturating_sub(1);
        let well = well && ticket.refused == self.refused;
        if well {
            self.written = self.written.max(ticket.held);
            self.begun = self.begun.max(self.written);
            self.failures = 0;
            self.not_before = 0.0;
        } else if ticket.held > self.written {
            self.begun = self.written;
            self.first = self.first.min(now);
            let wait = Self::AFTER * f64::from(1 << self.failures.min(10));
            self.failures += 1;
            self.refused += 1;
            self.not_before = now + wait.min(Self::LONGEST);
        }
        well
    }

    /// Another tab writes the plan from now on, or this one does.
    pub fn set_elsewhere(&mut self, elsewhere: bool) {
        self.elsewhere = elsewhere;
    }

    /// Whether there are changes that are not on the device.
    pub fn is_unsaved(&self) -> bool {
        self.changes > self.written
    }

    /// How it stands.
    pub fn kept(&self) -> Kept {
        let unsaved = self.is_unsaved();
        match (self.elsewhere, unsaved) {
            (true, changed) => Kept::Elsewhere { changed },
            (false, false) => Kept::Saved,
            (false, true) if self.failures > 0 => Kept::Failing,
            (false, true) => Kept::Waiting,
        }
    }
}
