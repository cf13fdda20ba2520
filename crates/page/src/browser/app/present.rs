//! The row shown to a class: large, and with nothing told before it is asked for.

use super::App;
use crate::browser::dom;
use crate::desk::Desk;
use crate::view::View;
use cordonry::check::Part;
use cordonry::plan::Phase;
use cordonry::work::Work;
use cordonry_draw::{Candidate, candidate_marks};
use leptos::prelude::*;

/// Most shoots that a class points out at a time.
const MOST: usize = 26;

/// Handles to what is shown to a class; copied freely.
#[derive(Clone, Copy)]
pub struct Presented {
    /// Whether anything is.
    pub on: RwSignal<bool>,
    /// Whether a press on the wall points a shoot out.
    pub asks: RwSignal<bool>,
    /// Whether the answer is shown: signs of work, lengths, what the row's note says of it.
    pub told: RwSignal<bool>,
    /// Whether what is to be done first is told.
    pub matter: RwSignal<Option<usize>>,
    /// What was pointed out, in that order.
    candidates: RwSignal<Vec<Part>>,
    /// The scheme that was looked at and the one that stood beside it: one wall at a time is shown.
    pub stood: StoredValue<Option<(usize, usize)>>,
    /// What was in sight before, and whether before the work or after it: the desk is left and met again alike.
    left: StoredValue<Option<(View, Phase)>>,
}

impl Presented {
    pub(super) fn new() -> Self {
        Self {
            on: RwSignal::new(false),
            asks: RwSignal::new(false),
            told: RwSignal::new(false),
            matter: RwSignal::new(None),
            candidates: RwSignal::new(Vec::new()),
            stood: StoredValue::new(None),
            left: StoredValue::new(None),
        }
    }

    /// How many shoots are pointed out.
    pub fn count(self) -> usize {
        self.candidates.with(Vec::len)
    }

    /// Marks over the wall.
    pub(super) fn marks(self, desk: &Desk, px_per_mm: f64) -> String {
        let all = self.candidates.get_untracked();
        if all.is_empty() {
            return String::new();
        }
        let answers = desk.scene().asked_works();
        let told = self.told.get_untracked();
        let candidate = |part: &Part| -> Option<Candidate> {
            let right = told.then(|| is_about(&answers, *part));
            Some(((part.tree, part.shoot?), right))
        };
        let all: Vec<Candidate> = all.iter().filter_map(candidate).collect();
        candidate_marks(&desk.scene().row, &all, px_per_mm)
    }

    /// Whether the answer to what was asked is shown: the work of that kind stands alone then.
    pub(super) fn answers(self) -> bool {
        self.asks.get_untracked() && self.told.get_untracked()
    }

    /// What was pointed out, judged; nothing where nothing was.
    pub fn right(self, desk: &Desk) -> Option<Judged> {
        let all = self.candidates.get();
        if all.is_empty() {
            return None;
        }
        let answers = desk.scene().asked_works();
        let right = all.iter().filter(|p| is_about(&answers, **p)).count();
        let mut kinds: Vec<(&str, u32)> = Vec::new();
        for work in &answers {
            match kinds.iter_mut().find(|(kind, _)| *kind == work.kind()) {
                Some((_, count)) => *count += 1,
                None => kinds.push((work.kind(), 1)),
            }
        }
        Some(Judged {
            right,
            named: all.len(),
            kinds,
        })
    }
}

/// What a class named, judged.
pub struct Judged {
    /// How many were right.
    pub right: usize,
    /// Of how many.
    pub named: usize,
    /// The work that was asked for: how much of each kind.
    pub kinds: Vec<(&'static str, u32)>,
}

fn is_about(works: &[Work], part: Part) -> bool {
    let of = |w: &Work| (w.subject().tree, Some(w.subject().shoot));
    works.iter().any(|w| of(w) == (Some(part.tree), part.shoot))
}

impl App {
    /// Shows the row to a class, or is at the desk again.
    pub fn present(self, on: bool) {
        let shown = self.presented;
        if shown.on.get_untracked() == on {
            return;
        }
        dom::on_root("presenting", on);
        shown.on.set(on);
        shown.asks.set(false);
        self.ask_anew();
        if on {
            self.choose(None);
            let stood = self.peek(|d| Some((d.look().scheme, d.scheme_beside()?)));
            shown.stood.set_value(stood.flatten());
            let left = self.with_wall(|wall, d| (wall.view, d.look().phase));
            shown.left.set_value(left);
            self.turn(|d| d.set_beside(None));
            self.see_in_class(Phase::Before);
            dom::fill_screen();
        } else {
            // The class may have been shown the other of the two last.
            self.turn(|d| {
                let other = shown.stood.get_value().map(|(own, beside)| match beside {
                    b if b == d.look().scheme => own,
                    b => b,
                });
                d.set_beside(other);
                if let Some((_, phase)) = shown.left.get_value() {
                    d.show(phase);
                }
            });
            dom::leave_screen();
        }
        // Once what stands around the wall has its new size.
        request_animation_frame(move || {
            self.resized();
            match shown.left.get_value().filter(|_| !on) {
                Some((left, _)) => self.see_again(left),
                None => self.fit(false),
            }
            self.fit_class();
            dom::focus(".stage");
        });
    }

    /// Shows the row before or after the work of its moment; where there is none, as it stands.
    pub fn see_in_class(self, phase: Phase) {
        let works = self.peek(|d| d.scene().work().next().is_some()) == Some(true);
        if works && self.peek(|d| d.look().phase) != Some(phase) {
            self.turn(|d| d.show(phase));
        }
    }

    /// The scale before a class: one for before and after the work and for every scheme, so that they compare by eye.
    /// What grows beyond the wall is in sight too: a class is asked about it.
    pub fn fit_class(self) {
        if !self.presented.on.get_untracked() {
            return;
        }
        self.with_wall(|wall, desk| {
            let row = &desk.scene().row;
            let middle = wall.view.span().middle();
            let view = wall.view.full_height(row).reaching(desk.tallest());
            wall.view = view.amid(middle, row);
        });
        self.reframe();
    }

    /// Shows the answer, or hides it again. Signs of work are seen before it is done.
    pub fn tell_class(self, told: bool) {
        self.presented.told.set(told);
        let on = self.presented.on.get_untracked();
        dom::on_root("untold", on && !told);
        dom::on_root("answered", on && self.presented.answers());
        let works = self.peek(|d| d.scene().work().next().is_some()) == Some(true);
        if told && works {
            self.turn(|d| d.show(Phase::Before));
        } else {
            self.reframe();
        }
    }

    /// Has presses point shoots out, or no longer; what was pointed out goes with it.
    pub fn ask_class(self, asks: bool) {
        self.presented.asks.set(asks);
        self.ask_anew();
        // What goes is still there before the work.
        if asks {
            self.turn(|d| d.show(Phase::Before));
        }
    }

    /// Takes away what was pointed out and answered: it was of another row.
    pub fn ask_anew(self) {
        self.presented.candidates.set(Vec::new());
        self.presented.matter.set(None);
        self.tell_class(false);
    }

    /// Points a shoot out, or no longer.
    pub fn point_out(self, part: Part) {
        self.presented
            .candidates
            .update(|all| match all.iter().position(|p| *p == part) {
                Some(at) => drop(all.remove(at)),
                None if all.len() < MOST => all.push(part),
                None => {}
            });
        self.reframe();
    }

    /// Tells the next matter and shows its place; after the last none, and then the first again.
    pub fn show_matter(self) {
        let matter = self.presented.matter;
        let next = matter.get_untracked().map_or(0, |at| at + 1);
        let place = self
            .peek(|d| d.open_matter(next, |m, _| m.spans.first().map(|s| s.middle())))
            .flatten()
            .flatten();
        matter.set(place.map(|_| next));
        if let Some(x) = place {
            self.show(x);
        }
    }
}
