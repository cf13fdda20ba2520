//! What was assumed as lines became trees: counted, and where it is about single lines told by line.

use super::meant::Slip;
use crate::arrange::Arrange;
use crate::said::{Arg, Said};

/// Most lines of which is told one by one what is unlikely or was taken otherwise; of more it is rather the unit.
const MOST_TOLD: usize = 12;

/// What was assumed, counted.
#[derive(Default)]
pub(super) struct Counts {
    pub seasons: usize,
    pub in_all: usize,
    pub diameters: usize,
    pub laid: usize,
    pub ends: Told,
    pub doubts: Told,
    pub slips: Vec<Slip>,
}

/// Lines of which something is to be told: all counted, the first with what.
#[derive(Default)]
pub(super) struct Told {
    count: usize,
    first: Vec<(usize, Said)>,
}

impl Told {
    pub(super) fn add(&mut self, line: usize, what: Said) {
        self.count += 1;
        if self.first.len() < MOST_TOLD {
            self.first.push((line, what));
        }
    }

    fn say(mut self, key: &'static str, more: &'static str, said: &mut Vec<Said>) {
        let count = self.count - self.first.len();
        self.first.arrange_by_key(|(line, _)| *line);
        said.extend(self.first.into_iter().map(|(line, what)| {
            let args = vec![("line", Arg::Count(line as i64)), ("what", what.into())];
            Said::new(key, args)
        }));
        said.extend(counted(more, count));
    }
}

/// A count, where there is any.
pub(super) fn counted(key: &'static str, count: usize) -> Option<Said> {
    (count > 0).then(|| Said::new(key, vec![("count", Arg::Count(count as i64))]))
}

impl Counts {
    /// Says all of it; gives the slips of which it is known what was meant, in order.
    pub(super) fn say(mut self, in_all: bool, said: &mut Vec<Said>) -> Vec<Slip> {
        let counts = [
            counted("file-said-seasons", self.seasons),
            counted("file-said-in-all", self.in_all).filter(|_| in_all),
            counted("file-said-diameters", self.diameters),
            counted("file-said-laid", self.laid),
        ];
        said.extend(counts.into_iter().flatten());
        self.ends.say("file-said-ends", "file-said-ends-more", said);
        self.doubts
            .say("file-said-unlikely", "file-said-unlikely-more", said);
        self.slips.arrange_by_key(|s| s.line);
        self.slips
    }
}
