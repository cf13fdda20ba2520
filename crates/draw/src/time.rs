//! When a row is as it is drawn, and how that is told.

use cordonry::row::{Moment, Phase, Row, Window};
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_words::Words;

/// A moment of a plan, before or after its work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Time {
    /// The leaf and its window.
    pub moment: Moment,
    /// Before its work, with signs for it, or after it.
    pub phase: Phase,
    /// Whether its work stands by rule, planned by nobody.
    pub stands: bool,
}

impl Time {
    /// The time in a sentence, with `work` being that of the moment.
    pub fn sentence(self, work: &[Work], words: &Words) -> String {
        let view = match self.phase {
            Phase::Before => "before",
            Phase::After => "after",
        };
        let told = words.text(
            "sheet-time",
            &[
                (
                    "window",
                    Arg::Text(words.plain(window_key(self.moment.window))),
                ),
                ("leaf", Arg::Count(self.moment.leaf.into())),
                ("view", Arg::Text(view.into())),
                ("count", Arg::Count(work.len() as i64)),
            ],
        );
        match self.by_rule(work) {
            true => told + " " + &words.plain("work-stands"),
            false => told,
        }
    }

    /// Whether the moment's work is told as standing.
    pub(crate) fn by_rule(self, work: &[Work]) -> bool {
        self.stands && !work.is_empty()
    }
}

/// A window's name in the language file.
pub fn window_key(window: Window) -> &'static str {
    match window {
        Window::Dormant => "window-dormant",
        Window::BudSwell => "window-bud-swell",
        Window::EarlySummer => "window-early-summer",
        Window::AfterHarvest => "window-after-harvest",
    }
}

/// The moment of a row that is drawn at `time`: without one, that at which it was found.
pub(crate) fn moment_of(time: Option<Time>, row: &Row) -> Moment {
    time.map_or(Moment::dormant(row.leaf), |t| t.moment)
}

/// The work of which signs are drawn: that which still is to be done.
pub(crate) fn signs_of(time: Option<Time>, work: &[Work]) -> &[Work] {
    match time.map(|t| t.phase) {
        Some(Phase::After) => &[],
        _ => work,
    }
}
