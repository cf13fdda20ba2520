//! What the answers so far make: trees in draft, and what is asked next.

use super::{Answer, Ask, WalkSetup, Way};
use crate::refusal::Refusal;
use crate::row::{Row, Toward};
use crate::said::Arg;
use crate::units::Mm;

/// A leader in draft.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Leader {
    pub toward: Toward,
    pub end: Mm,
    /// Tenths of a millimetre.
    pub thick: Option<u16>,
}

/// An upright in draft.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Upright {
    pub x: Mm,
    /// Tenths of a millimetre.
    pub thick: Option<u16>,
    /// Of its tip above the ground.
    pub height: Option<Mm>,
    pub laterals: Option<u16>,
}

/// A tree in draft.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Draft {
    pub number: u32,
    pub foot: Mm,
    /// `None`: it is missing.
    pub way: Option<Way>,
    pub leaders: Vec<Leader>,
    pub uprights: Vec<Upright>,
    /// The tree that it was said to be the same as.
    pub same: Option<u32>,
}

impl Draft {
    fn new(number: u32, foot: Mm) -> Self {
        Self {
            number,
            foot,
            way: None,
            leaders: Vec::new(),
            uprights: Vec::new(),
            same: None,
        }
    }

    /// Whether it has wood.
    pub(super) fn stands(&self) -> bool {
        !self.leaders.is_empty()
    }

    /// The tree as it would stand at another place.
    pub(super) fn at(&self, number: u32, foot: Mm) -> Self {
        let by = foot - self.foot;
        let mut out = self.clone();
        (out.number, out.foot) = (number, foot);
        out.leaders.iter_mut().for_each(|l| l.end = l.end + by);
        out.uprights.iter_mut().for_each(|u| u.x = u.x + by);
        out
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum At {
    Foot,
    Way,
    End(usize),
    LeaderThickness(usize),
    Upright,
    UprightThickness,
    Height,
    Laterals,
    Nothing,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct State {
    pub drafts: Vec<Draft>,
    at: At,
}

/// Nearest that two trees may stand, mm.
const TREES_APART: f64 = 100.0;
/// Farthest, mm, that the next tree may stand, for each number on from the last: farther is a slip of the unit.
const TREES_NEXT: f64 = 20_000.0;
/// How far from its foot a leader may end, mm.
const LEADER: (f64, f64) = (50.0, 6_000.0);
/// Uprights nearer to each other than this, mm, are one.
const UPRIGHTS_APART: i32 = 10;
/// Thickness of a leader, mm.
const LEADER_THICK: (f64, f64) = (3.0, 300.0);
/// Thickness of an upright, mm.
const UPRIGHT_THICK: (f64, f64) = (1.0, 150.0);
/// How high above the ground an upright's tip may be at most, mm.
const HIGHEST: f64 = 6_000.0;
/// How far above the cordon wire it is at least, mm.
const LEAST_UP: f64 = 10.0;
/// Side branches of an upright.
const LATERALS: (f64, f64) = (0.0, 200.0);
/// Most uprights on a tree.
const MOST_UPRIGHTS: usize = 200;

impl State {
    pub(super) fn new(_setup: &WalkSetup) -> Self {
        Self {
            drafts: Vec::new(),
            at: At::Foot,
        }
    }

    /// The number of the tree that comes next; `None` once a sample is complete.
    fn next_number(&self, setup: &WalkSetup) -> Option<u32> {
        let done = self.drafts.len();
        match setup.sample {
            Some(_) => setup.visits().get(done).copied(),
            None => (done < Row::MAX_TREES).then_some(done as u32 + 1),
        }
    }

    fn last_standing(&self) -> Option<&Draft> {
        self.drafts.iter().rev().find(|d| d.stands())
    }

    pub(super) fn stands(&self) -> bool {
        self.last_standing().is_some()
    }

    pub(super) fn done(&self) -> u32 {
        let open = !matches!(self.at, At::Foot | At::Nothing);
        (self.drafts.len() - usize::from(open)) as u32
    }

    fn usual_foot(&self, setup: &WalkSetup, number: u32) -> Option<Mm> {
        let last = self.drafts.last()?;
        let on = f64::from(number - last.number);
        Some(Mm::round(last.foot.f() + on * setup.spacing.f()))
    }

    pub(super) fn ask(&self, setup: &WalkSetup) -> Ask {
        let tree = self.drafts.last().map_or(1, |d| d.number);
        let leaders = self
            .drafts
            .last()
            .and_then(|d| d.way)
            .map_or(&[][..], Way::leaders);
        let toward = |i: usize| leaders.get(i).copied().unwrap_or(Toward::Right);
        let uprights = self.drafts.last().map_or(&[][..], |d| &d.uprights);
        match self.at {
            At::Foot => match self.next_number(setup) {
                Some(tree) => Ask::Foot {
                    tree,
                    usual: self.usual_foot(setup, tree),
                    like: self.last_standing().map(|d| d.number),
                },
                None => Ask::Nothing,
            },
            At::Way => Ask::Way {
                tree,
                usual: self.last_standing().and_then(|d| d.way),
            },
            At::End(i) => Ask::End {
                tree,
                toward: toward(i),
            },
            At::LeaderThickness(i) => Ask::LeaderThickness {
                tree,
                toward: toward(i),
            },
            At::Upright => Ask::Upright {
                tree,
                number: uprights.len() as u32 + 1,
                last: uprights.last().map(|u| u.x),
            },
            At::UprightThickness => Ask::UprightThickness {
                tree,
                number: uprights.len() as u32,
            },
            At::Height => Ask::Height {
                tree,
                number: uprights.len() as u32,
                usual: self.before_last().find_map(|u| u.height),
            },
            At::Laterals => Ask::Laterals {
                tree,
                number: uprights.len() as u32,
                usual: self.before_last().find_map(|u| u.laterals),
            },
            At::Nothing => Ask::Nothing,
        }
    }

    /// The uprights before the last one, the nearest first.
    fn before_last(&self) -> impl Iterator<Item = &Upright> {
        let drafts = self.drafts.iter().rev();
        drafts.flat_map(|d| d.uprights.iter().rev()).skip(1)
    }

    /// What is asked of an upright next, after what stands at `at`.
    fn next_of_upright(&self, setup: &WalkSetup) -> At {
        match self.at {
            At::UprightThickness if setup.heights => At::Height,
            At::UprightThickness | At::Height if setup.laterals => At::Laterals,
            _ => At::Upright,
        }
    }

    /// What is accepted as an answer to what is asked now, mm.
    fn range(&self, setup: &WalkSetup) -> (f64, f64) {
        let max = Row::MAX_X.f();
        let draft = self.drafts.last();
        let foot = draft.map_or(0.0, |d| d.foot.f());
        match (self.at, draft) {
            (At::Foot, None) => (0.0, max),
            (At::Foot, Some(last)) => {
                let on = self.next_number(setup).map_or(1, |n| n - last.number);
                let far = foot + TREES_NEXT * f64::from(on);
                (foot + TREES_APART, far.min(max))
            }
            (At::End(i), Some(d)) => match d.way.map_or(&[][..], Way::leaders).get(i) {
                Some(Toward::Left) => (foot - LEADER.1, foot - LEADER.0),
                _ => (foot + LEADER.0, foot + LEADER.1),
            },
            (At::LeaderThickness(_), _) => LEADER_THICK,
            (At::UprightThickness, _) => UPRIGHT_THICK,
            (At::Height, _) => (setup.wires[0].f() + LEAST_UP, HIGHEST),
            (At::Laterals, _) => LATERALS,
            (At::Upright, Some(d)) => {
                let ends = d.leaders.iter().map(|l| l.end.f());
                ends.fold((foot, foot), |(low, high), x| (low.min(x), high.max(x)))
            }
            _ => (0.0, 0.0),
        }
    }

    /// Why a value is not taken.
    pub(super) fn refusal(&self, setup: &WalkSetup, value: Arg) -> Refusal {
        let (low, high) = self.range(setup);
        let ask = self.ask(setup);
        let arg = |value| ask.quantity().arg(value);
        Refusal::new(
            "refusal-walk",
            vec![
                ("what", Arg::Text(ask.key().into())),
                ("tree", Arg::Count(ask.tree().unwrap_or(0).into())),
                ("number", Arg::Count(ask.upright().into())),
                ("value", value),
                ("low", arg(low)),
                ("high", arg(high)),
            ],
        )
    }

    fn within(&self, setup: &WalkSetup, x: Mm) -> Result<Mm, Refusal> {
        let (low, high) = self.range(setup);
        if x.f() >= low && x.f() <= high {
            Ok(x)
        } else {
            Err(self.refusal(setup, Arg::Length(x.f())))
        }
    }

    /// A thickness in tenths of a millimetre.
    pub(super) fn thickness(&self, setup: &WalkSetup, mm: f64) -> Result<u16, Refusal> {
        let (low, high) = self.range(setup);
        if mm >= low && mm <= high {
            Ok(libm::round(mm * 10.0) as u16)
        } else {
            Err(self.refusal(setup, Arg::Thickness(mm)))
        }
    }

    /// A number of side branches.
    pub(super) fn laterals(&self, setup: &WalkSetup, count: f64) -> Result<u16, Refusal> {
        let (low, high) = LATERALS;
        match count >= low && count <= high {
            true => Ok(count as u16),
            false => Err(self.refusal(setup, Arg::Number(count, 0))),
        }
    }

    pub(super) fn take(&mut self, setup: &WalkSetup, answer: Answer) -> Result<(), Refusal> {
        let not_asked = || Refusal::new("refusal-walk-not-asked", vec![]);
        match (self.at, answer) {
            (At::Foot, Answer::Foot(x) | Answer::Missing(x) | Answer::Same(x)) => {
                let number = self.next_number(setup).ok_or_else(not_asked)?;
                let foot = self.within(setup, x)?;
                match answer {
                    Answer::Same(_) => {
                        let like = self
                            .last_standing()
                            .ok_or_else(|| Refusal::new("refusal-walk-no-like", vec![]))?;
                        let mut draft = like.at(number, foot);
                        draft.same = Some(like.same.unwrap_or(like.number));
                        self.drafts.push(draft);
                    }
                    Answer::Missing(_) => self.drafts.push(Draft::new(number, foot)),
                    _ => {
                        self.drafts.push(Draft::new(number, foot));
                        self.at = At::Way;
                    }
                }
            }
            (At::Foot, Answer::RowDone) => {
                if !self.stands() {
                    return Err(Refusal::new("refusal-walk-none", vec![]));
                }
                self.at = At::Nothing;
            }
            (At::Way, Answer::Way(way)) => {
                self.draft(not_asked)?.way = Some(way);
                self.at = At::End(0);
            }
            (At::End(i), Answer::End(x)) => {
                let end = self.within(setup, x)?;
                let draft = self.draft(not_asked)?;
                let toward = draft.way.and_then(|w| w.leaders().get(i).copied());
                draft.leaders.push(Leader {
                    toward: toward.ok_or_else(not_asked)?,
                    end,
                    thick: None,
                });
                self.at = At::LeaderThickness(i);
            }
            (At::LeaderThickness(i), Answer::Thickness(thick)) => {
                self.check_thickness(setup, thick)?;
                let draft = self.draft(not_asked)?;
                if let Some(leader) = draft.leaders.get_mut(i) {
                    leader.thick = thick;
                }
                let more = i + 1 < draft.way.map_or(0, |w| w.leaders().len());
                self.at = if more { At::End(i + 1) } else { At::Upright };
            }
            (At::Upright, Answer::Upright(x)) => {
                let x = self.within(setup, x)?;
                let draft = self.draft(not_asked)?;
                let near = draft
                    .uprights
                    .iter()
                    .find(|u| u.x.0.abs_diff(x.0) < UPRIGHTS_APART as u32);
                if let Some(near) = near {
                    return Err(Refusal::new(
                        "refusal-walk-near",
                        vec![
                            ("tree", Arg::Count(draft.number.into())),
                            ("value", Arg::Length(x.f())),
                            ("near", Arg::Length(near.x.f())),
                        ],
                    ));
                }
                if draft.uprights.len() >= MOST_UPRIGHTS {
                    return Err(not_asked());
                }
                draft.uprights.push(Upright {
                    x,
                    thick: None,
                    height: None,
                    laterals: None,
                });
                self.at = At::UprightThickness;
            }
            (At::UprightThickness, Answer::Thickness(thick)) => {
                self.check_thickness(setup, thick)?;
                self.last_upright(not_asked)?.thick = thick;
                self.at = self.next_of_upright(setup);
            }
            (At::Height, Answer::Height(height)) => {
                if let Some(height) = height {
                    self.within(setup, height)?;
                }
                self.last_upright(not_asked)?.height = height;
                self.at = self.next_of_upright(setup);
            }
            (At::Laterals, Answer::Laterals(count)) => {
                if let Some(count) = count {
                    self.laterals(setup, count.into())?;
                }
                self.last_upright(not_asked)?.laterals = count;
                self.at = self.next_of_upright(setup);
            }
            (At::Upright, Answer::TreeDone) => self.at = At::Foot,
            _ => return Err(not_asked()),
        }
        Ok(())
    }

    fn check_thickness(&self, setup: &WalkSetup, thick: Option<u16>) -> Result<(), Refusal> {
        match thick {
            Some(dmm) => self.thickness(setup, f64::from(dmm) / 10.0).map(|_| ()),
            None => Ok(()),
        }
    }

    fn last_upright(&mut self, none: impl Fn() -> Refusal) -> Result<&mut Upright, Refusal> {
        let uprights = &mut self.draft(&none)?.uprights;
        uprights.last_mut().ok_or_else(none)
    }

    fn draft(&mut self, none: impl Fn() -> Refusal) -> Result<&mut Draft, Refusal> {
        self.drafts.last_mut().ok_or_else(none)
    }
}
