//! What the whole page shares: the desk, the wall, the words, and what is being said.

mod card;
mod colour;
mod frame;
mod keep;
pub mod light;
mod place;
mod present;

pub use keep::{Found, Keeper, Record, Spot, new_id};
pub use place::{Doorway, Place};
pub use present::Presented;

use crate::beside::marks;
use crate::browser::dom;
use crate::browser::wall::WallScreen;
use crate::desk::Desk;
use crate::document::{Done, Edit, Mode};
use crate::keeping::{Journal, Kept, Pace};
use crate::look::NotOffered;
use crate::marking::Marking;
use crate::overlay::Marked;
use crate::view::View;
use cordonry::check::{LightFound, Offered, Part};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry::row::{ShootId, TreeId};
use cordonry::said::{Arg, Said};
use cordonry::units::LengthStyle;
use cordonry_draw::{ColourBy, LightAt, Paper};
use cordonry_words::{Language, Words};
use leptos::prelude::*;
use light::Lit;
use std::borrow::Cow;
use std::rc::Rc;
use std::time::Duration;

/// So long after what a hand moved its light follows: by then that is on the screen.
const LIGHT_AFTER: Duration = Duration::from_millis(20);

/// Something said at the foot of the page.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// The text.
    pub text: String,
    /// Whether it is a refusal or a loss rather than news.
    pub grave: bool,
}

/// An addition to the record that is offered at a place on the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offer {
    /// The laid shoot on which an upright would be recorded; `None` for a tree.
    pub on: Option<(TreeId, ShootId)>,
    /// Place along the row, mm.
    pub x: f64,
    /// Where it was pressed, px in the wall.
    pub at: (f64, f64),
}

/// Handles to all of it; copied freely.
#[derive(Clone, Copy)]
pub struct App {
    keeper: StoredValue<Rc<dyn Keeper>, LocalStorage>,
    desk: StoredValue<Option<Desk>, LocalStorage>,
    wall: StoredValue<Option<WallScreen>, LocalStorage>,
    /// The wall of the scheme that stands beside it.
    wall_beside: StoredValue<Option<WallScreen>, LocalStorage>,
    words: StoredValue<Words, LocalStorage>,
    record: StoredValue<Option<String>, LocalStorage>,
    pending: StoredValue<Option<TimeoutHandle>, LocalStorage>,
    pace: StoredValue<Pace>,
    /// What the device keeps of the plan on the desk.
    journal: StoredValue<Journal, LocalStorage>,
    /// Where the page was in it when it was written last, or is to be once there is a wall.
    spot: StoredValue<Option<Spot>>,
    /// When the record was written that this tab read or wrote last.
    seen_ms: StoredValue<f64>,
    /// Counts changes of anything that is derived from the desk.
    pub tick: RwSignal<u64>,
    /// Whether that will be counted once what a hand moves is on the screen.
    tick_waits: StoredValue<bool>,
    /// Counts changes of what part of the wall is in sight.
    pub view_tick: RwSignal<u64>,
    /// How lengths are shown.
    pub style: RwSignal<LengthStyle>,
    /// The paper to print on.
    pub paper: RwSignal<Paper>,
    /// Sheets that are printed instead of those of the wall.
    pub handed: StoredValue<Vec<String>, LocalStorage>,
    /// What the wood is coloured by.
    pub colour: RwSignal<ColourBy>,
    /// Whether there is a plan on the desk.
    pub open: RwSignal<bool>,
    /// The way to a row that is taken while there is none.
    pub door: RwSignal<Doorway>,
    /// What is said.
    pub notice: RwSignal<Option<Notice>>,
    /// What was done last to what is chosen, for those who are read to.
    pub told: RwSignal<String>,
    /// Whether the plan is saved.
    pub kept: RwSignal<Kept>,
    /// The part whose card was closed while the part itself stays chosen.
    pub card_closed: RwSignal<Option<Part>>,
    /// What a press on the wall would add to the record.
    pub offer: RwSignal<Option<Offer>>,
    /// The mark that is being put on the wall.
    pub marking: RwSignal<Option<Marking>>,
    /// Whether the scheme's name is being written over.
    pub naming: RwSignal<bool>,
    /// Whether the plan is being passed on.
    pub passing: RwSignal<bool>,
    /// Whether a draft is looked at that is not taken.
    pub drafting: RwSignal<bool>,
    /// The row's light, while it is looked at.
    pub light: Lit,
    /// The row as it is shown to a class.
    pub presented: Presented,
}

/// What a closure gives that is handed on behind a pointer; `None` where it was not called.
pub(super) fn once<A: ?Sized, T>(
    f: impl FnOnce(&A) -> T,
    hand_on: impl FnOnce(&mut dyn FnMut(&A)),
) -> Option<T> {
    let mut f = Some(f);
    let mut out = None;
    hand_on(&mut |a| out = f.take().map(|f| f(a)));
    out
}

impl App {
    /// The page's state before anything is opened.
    pub fn new(keeper: Rc<dyn Keeper>, language: Language) -> Self {
        let style = keeper.length_style();
        let (paper, colour) = (keeper.paper(), keeper.colour_by());
        Self {
            keeper: StoredValue::new_local(keeper),
            desk: StoredValue::new_local(None),
            wall: StoredValue::new_local(None),
            wall_beside: StoredValue::new_local(None),
            words: StoredValue::new_local(Words::new(language, style)),
            record: StoredValue::new_local(None),
            pending: StoredValue::new_local(None),
            pace: StoredValue::new(Pace::default()),
            journal: StoredValue::new_local(Journal::default()),
            spot: StoredValue::new(None),
            seen_ms: StoredValue::new(0.0),
            tick: RwSignal::new(0),
            tick_waits: StoredValue::new(false),
            view_tick: RwSignal::new(0),
            style: RwSignal::new(style),
            paper: RwSignal::new(paper),
            handed: StoredValue::new_local(Vec::new()),
            colour: RwSignal::new(colour),
            open: RwSignal::new(false),
            door: RwSignal::new(Doorway::Start),
            notice: RwSignal::new(None),
            told: RwSignal::new(String::new()),
            kept: RwSignal::new(Kept::Saved),
            card_closed: RwSignal::new(None),
            offer: RwSignal::new(None),
            marking: RwSignal::new(None),
            naming: RwSignal::new(false),
            passing: RwSignal::new(false),
            drafting: RwSignal::new(false),
            light: Lit::new(),
            presented: Presented::new(),
        }
    }

    /// A text that speaks of nothing.
    pub fn t(self, key: &str) -> String {
        self.words.with_value(|w| w.plain(key))
    }

    /// A text with values.
    pub fn text(self, key: &str, args: &[(&str, Arg)]) -> String {
        self.words.with_value(|w| w.text(key, args))
    }

    /// Something said, worded.
    pub fn said(self, said: &Said) -> String {
        self.words.with_value(|w| w.say(said))
    }

    /// Something worded by the language's texts.
    pub fn worded<T>(self, f: impl FnOnce(&Words) -> T) -> T {
        // What is written out for each use is no more than this: dozens of uses weigh.
        once(f, |f| self.with_words(f)).expect("the texts are there as long as the page")
    }

    #[inline(never)]
    fn with_words(self, f: &mut dyn FnMut(&Words)) {
        self.words.with_value(f);
    }

    /// Knows the texts of a part, of which `key` is one; gives the code of the page's language, in which they are asked for.
    pub fn learn<T: Iterator<Item = Language>>(
        self,
        key: &str,
        texts: impl FnOnce(&'static str) -> T,
    ) -> &'static str {
        let code = self.worded(|w| w.language().code);
        if !self.worded(|w| w.has(key)) {
            self.words.update_value(|w| *w = w.with(texts(code)));
        }
        code
    }

    /// Shows lengths the other way from now on.
    pub fn set_style(self, style: LengthStyle) {
        self.words.update_value(|w| w.style = style);
        self.style.set(style);
        self.keeper.with_value(|k| k.set_length_style(style));
        self.draw_all();
        self.redraw();
    }

    /// Has all of the wall drawn anew when it is drawn next.
    fn draw_all(self) {
        self.desk.update_value(|d| {
            if let Some(d) = d {
                d.draw_all();
            }
        });
    }

    /// Remembers the language of the texts; a page that is loaded again is in it.
    pub fn keep_language(self, code: &str) {
        self.keeper.with_value(|k| k.set_language(code));
    }

    /// Remembers what stands on the page while it is loaded again.
    pub fn keep_head(self, head: &str) {
        self.keeper.with_value(|k| k.set_head(head));
    }

    /// Prints on that paper from now on.
    pub fn set_paper(self, paper: Paper) {
        self.paper.set(paper);
        self.keeper.with_value(|k| k.set_paper(paper));
    }

    /// Reads the desk, and is told of its changes.
    pub fn read<T>(self, f: impl FnOnce(&Desk) -> T) -> Option<T> {
        self.tick.track();
        self.peek(f)
    }

    /// Reads the desk as it is.
    pub fn peek<T>(self, f: impl FnOnce(&Desk) -> T) -> Option<T> {
        once(f, |f| self.with_desk(f))
    }

    #[inline(never)]
    fn with_desk(self, f: &mut dyn FnMut(&Desk)) {
        self.desk.with_value(|d| {
            if let Some(desk) = d {
                f(desk);
            }
        });
    }

    /// Makes an edit, draws what changed, and says a refusal at the foot of the page.
    pub fn edit(self, edit: Edit) {
        self.edit_from(|_| Ok(Some(edit)));
    }

    /// Makes the edit that is worked out from the desk, if there is one; says a refusal at the foot of the page.
    pub fn edit_from(self, edit: impl FnOnce(&Desk) -> Result<Option<Edit>, Refusal>) {
        let outcome = match self.peek(edit) {
            Some(Ok(Some(edit))) => self.try_edit(edit).map(drop),
            Some(Err(why)) => Err(why),
            Some(Ok(None)) | None => Ok(()),
        };
        if let Err(why) = outcome {
            self.refuse(&why);
        }
    }

    /// Says a refusal at the foot of the page.
    pub fn refuse(self, why: &Refusal) {
        self.say(self.worded(|w| w.refusal(why)), true);
    }

    /// Makes an edit and draws what changed.
    ///
    /// # Errors
    /// Why it can't be made.
    pub fn try_edit(self, edit: Edit) -> Result<Done, Refusal> {
        self.change(|desk| desk.edit(&edit))
            .unwrap_or(Ok(Done::count(0)))
    }

    /// Changes what is looked at, chosen or in the hand, and draws what changed.
    pub fn turn(self, f: impl FnOnce(&mut Desk)) {
        self.change(|desk| {
            f(desk);
            Ok(())
        });
    }

    fn change<T>(
        self,
        f: impl FnOnce(&mut Desk) -> Result<T, Refusal>,
    ) -> Option<Result<T, Refusal>> {
        let before = self.peek(|d| d.plan().clone());
        let outcome = self
            .desk
            .try_update_value(|desk| desk.as_mut().map(f))
            .flatten();
        let refused = matches!(outcome, Some(Err(_)));
        if !refused && self.notice.with_untracked(Option::is_some) {
            self.notice.set(None);
        }
        if self.told.with_untracked(|told| !told.is_empty()) {
            self.told.set(String::new());
        }
        let after = self.peek(|d| (d.plan().clone(), d.is_holding()));
        if let (Some(before), Some((after, holding))) = (before, after)
            && !holding
            && !std::sync::Arc::ptr_eq(&before, &after)
        {
            self.save_soon();
        }
        self.redraw();
        outcome
    }

    /// Opens the record or the work.
    pub fn open_mode(self, mode: Mode) {
        self.turn(|d| d.open(mode));
    }

    /// Whether the record is being corrected.
    pub fn correcting(self) -> bool {
        self.read(Desk::is_found).unwrap_or(false)
    }

    /// Takes the last step back, and says which.
    pub fn undo(self) {
        self.step(Desk::undo, "said-undone", "said-nothing-to-undo");
    }

    /// Does the step again that was taken back, and says which.
    pub fn redo(self) {
        self.step(Desk::redo, "said-redone", "said-nothing-to-redo");
    }

    fn step(self, f: fn(&mut Desk) -> Option<String>, done: &str, none: &str) {
        let mut label = None;
        self.turn(|d| label = f(d));
        let text = match label {
            Some(label) => self.text(done, &[("step", Arg::Text(self.t(&label)))]),
            None => self.t(none),
        };
        self.say(text, false);
    }

    /// Says something at the foot of the page.
    pub fn say(self, text: String, grave: bool) {
        self.notice.set(Some(Notice { text, grave }));
    }

    /// Closes the chosen part's card and leaves the part chosen; whether a card was open.
    pub fn close_card(self) -> bool {
        let chosen = self.peek(|d| d.chosen()).flatten();
        let open = chosen.is_some() && self.card_closed.get_untracked() != chosen;
        if open {
            self.card_closed.set(chosen);
            dom::focus(".stage");
        }
        open
    }

    /// Opens the card again that was closed.
    pub fn open_card(self) {
        self.card_closed.set(None);
    }

    /// The part whose card is shown.
    pub fn carded(self) -> Option<Part> {
        let closed = self.card_closed.get();
        self.read(|d| d.chosen().filter(|_| !d.is_holding()))
            .flatten()
            .filter(|part| closed != Some(*part))
    }

    /// Chooses a part and shows its card, or lets go of what is chosen.
    pub fn choose(self, part: Option<Part>) {
        if self.card_closed.with_untracked(Option::is_some) {
            self.card_closed.set(None);
        }
        self.turn(|d| d.choose(part));
    }

    /// Begins to put a mark, or gives it up.
    pub fn set_marking(self, marking: Option<Marking>) {
        self.marking.set(marking);
        self.redraw();
    }

    /// Has the mark that is being put be at a place, where there is one; whether there is.
    pub fn mark_at(self, place: kurbo::Point) -> bool {
        let now = self.marking.get_untracked();
        let next = now.and_then(|now| self.peek(|d| now.pressed(place, &d.scene().row)));
        let is = next.is_some();
        if is {
            self.set_marking(next);
        }
        is
    }

    /// The marks of the plan, with the one that is being put.
    fn marks_on(self, desk: &Desk) -> String {
        let scene = desk.scene();
        let new = self.marking.get_untracked();
        let mut all = Cow::Borrowed(&scene.plan.marks);
        if let Some(new) = new.and_then(|new| new.shown()) {
            all.to_mut().push(new);
        }
        self.worded(|w| cordonry_draw::marks(&all, &scene.row, w))
    }

    /// Draws the wall anew where it changed, and tells all that reads the desk.
    pub fn redraw(self) {
        if !self.draw() {
            return;
        }
        // What a hand moves is shown at once. What is told of it follows, of the newest alone where several moves have come.
        if self.peek(Desk::is_holding) == Some(true) {
            if !self.tick_waits.get_value() {
                self.tick_waits.set_value(true);
                let follow = move || {
                    if self.tick_waits.get_value() {
                        self.tell();
                    }
                };
                request_animation_frame(move || set_timeout(follow, Duration::ZERO));
            }
        } else {
            self.tell();
        }
    }

    /// Has all that is told of the desk told anew.
    fn tell(self) {
        self.tick_waits.set_value(false);
        self.tick.update(|t| *t += 1);
    }

    /// Draws another part of the wall, or another size of it: nothing that reads the desk has changed.
    pub fn reframe(self) {
        if self.draw() {
            self.view_tick.update(|t| *t += 1);
        }
    }

    /// Brings the wall up to date; whether there is a desk.
    fn draw(self) -> bool {
        let redraw = self
            .desk
            .try_update_value(|d| d.as_mut().map(Desk::take_redraw))
            .flatten();
        let Some(redraw) = redraw else { return false };
        if self.offer.with_untracked(Option::is_some) {
            self.offer.set(None);
        }
        let [lone, lone_beside] = self.peek(marks).unwrap_or_default();
        let pointed_out = self.with_wall(|wall, d| {
            wall.asked_alone = self.presented.answers();
            self.presented.marks(d, wall.view.scale)
        });
        let pointed_out = pointed_out.unwrap_or_default();
        let marked_on = self.peek(|d| self.marks_on(d)).unwrap_or_default();
        self.wall.update_value(|wall| {
            if let Some(wall) = wall {
                self.desk.with_value(|desk| {
                    if let Some(desk) = desk {
                        let marked = Marked {
                            chosen: desk.chosen(),
                            held: desk.held(),
                        };
                        let by = self.colour.get_untracked();
                        let lit = |p: kurbo::Point| self.light.at(p);
                        self.words.with_value(|words| {
                            let colours = (by, &lit as LightAt<'_>);
                            let over = [lone.as_str(), pointed_out.as_str(), marked_on.as_str()];
                            wall.render(desk.scene(), marked, &redraw, over, words, colours);
                        });
                    }
                });
            }
        });
        self.draw_beside(&lone_beside);
        // What a hand moves is shown at once, and its light as soon as that is on the screen.
        let in_hand = !redraw.all && self.peek(Desk::is_holding) == Some(true);
        if !(in_hand && self.light.is_shown()) {
            self.light_up();
        } else if self.light.waits() {
            set_timeout(move || self.light_up(), LIGHT_AFTER);
        }
        true
    }

    /// Brings the wall of the scheme beside it up to date: the same stretch at the same scale.
    fn draw_beside(self, over: &str) {
        let view = self.with_wall(|wall, _| wall.view);
        let redraw = self
            .desk
            .try_update_value(|d| d.as_mut().map(Desk::take_redraw_beside))
            .flatten();
        let (Some(view), Some(mut redraw)) = (view, redraw) else {
            return;
        };
        self.wall_beside.update_value(|wall| {
            let Some(wall) = wall else { return };
            self.with_desk(&mut |desk| {
                let Some(scene) = desk.beside() else { return };
                // Shares of a pixel are no difference.
                let own = wall.view.height;
                let height = match (own - view.height).abs() < 1.0 {
                    true => view.height,
                    false => own,
                };
                // It stands on the same ground.
                let top = view.top + (height - view.height) / view.scale;
                wall.view = View {
                    top,
                    height,
                    ..view
                };
                redraw.all |= wall.is_bare();
                // The light is worked out for the scheme that is looked at alone.
                let none = |_: kurbo::Point| None;
                let colours = (self.colour.get_untracked(), &none as LightAt<'_>);
                self.words.with_value(|words| {
                    wall.render(
                        scene,
                        Marked::default(),
                        &redraw,
                        [over, "", ""],
                        words,
                        colours,
                    );
                });
            });
        });
    }

    /// Has the wall of the scheme beside it, or none.
    pub fn set_wall_beside(self, mut wall: Option<WallScreen>) {
        if let Some(wall) = &mut wall {
            wall.measure();
        }
        self.wall_beside.set_value(wall);
        // Each has the height that it needs, once what stands around them has its place.
        request_animation_frame(move || {
            self.with_wall(|wall, _| wall.set_most(None));
            self.resized();
            self.suit();
            self.reframe();
        });
    }

    /// Brings the light up to date.
    fn light_up(self) {
        if let Some(view) = self.with_wall(|wall, _| wall.view) {
            self.light.follow(self, view);
        }
    }

    /// Takes what the checks say of the light.
    pub fn judge(self, found: LightFound) {
        self.desk.update_value(|d| {
            if let Some(d) = d {
                d.judge_light(found);
            }
        });
    }

    /// Takes which remedies are offered of what is on the wall.
    pub fn take_offers(self, offers: &[Offered], others: Vec<NotOffered>) {
        self.desk.update_value(|d| {
            if let Some(d) = d {
                d.take_offers(offers, others);
            }
        });
        // Nothing on the wall has changed.
        self.tick.update(|t| *t += 1);
    }

    /// Has the wall, once it is there.
    pub fn set_wall(self, mut wall: WallScreen) {
        wall.measure();
        self.peek(|d| wall.view = self.first_view(wall.view, d));
        self.wall.set_value(Some(wall));
        self.draw_all();
        self.redraw();
    }

    /// Gives up the wall, with the page that held it.
    pub fn drop_wall(self) {
        self.light.drop_row();
        self.wall.set_value(None);
    }

    /// Works on the wall's view with the desk at hand, then draws.
    pub fn with_wall<T>(self, f: impl FnOnce(&mut WallScreen, &Desk) -> T) -> Option<T> {
        let mut f = Some(f);
        let mut out = None;
        self.with_wall_and_desk(&mut |wall, desk| {
            out = f.take().map(|f| f(wall, desk));
        });
        out
    }

    #[inline(never)]
    fn with_wall_and_desk(self, f: &mut dyn FnMut(&mut WallScreen, &Desk)) {
        self.wall.update_value(|wall| {
            if let Some(wall) = wall {
                self.with_desk(&mut |desk| f(wall, desk));
            }
        });
    }

    /// Opens a plan that was asked for: its wall has the focus, and the page stands at its top.
    pub fn open_plan(self, plan: Plan, record: Option<String>) {
        if !self.may_leave() {
            return;
        }
        self.lay_plan(plan, record);
        self.went();
        dom::begin_at(".stage");
    }

    /// Opens a plan of the device that was asked for.
    ///
    /// # Errors
    /// It can't be read.
    pub fn open_found(self, found: Found) -> Result<(), Refusal> {
        if self.may_leave() {
            self.lay_found(found)?;
            self.went();
            dom::begin_at(".stage");
        }
        Ok(())
    }

    /// Puts a plan on the desk as a record of its own; what was there stays on the device.
    pub fn lay_plan(self, plan: Plan, record: Option<String>) {
        let fresh = record.is_none();
        match Desk::new(plan) {
            Ok(desk) => self.lay(desk, (record.unwrap_or_else(keep::new_id), 0.0), None),
            // A plan that is read or made has a scheme.
            Err(why) => return self.refuse(&why),
        }
        if fresh {
            self.save_soon();
        }
    }

    /// Puts a desk in the place of the one before, whose plan stays on the device: the record that it is, when that was
    /// written, and where the page was in it.
    fn lay(self, desk: Desk, (id, seen_ms): (String, f64), spot: Option<Spot>) {
        self.present(false);
        self.hides();
        self.seen_ms.set_value(seen_ms);
        self.pace.update_value(Pace::begin_anew);
        self.journal.set_value(Journal::default());
        self.spot.set_value(spot);
        self.record.set_value(Some(id.clone()));
        self.desk.set_value(Some(desk));
        self.wall.update_value(|wall| {
            if let Some(wall) = wall {
                wall.measure();
            }
        });
        self.with_wall(|wall, desk| wall.view = self.first_view(wall.view, desk));
        self.light.forget_row();
        self.card_closed.set(None);
        self.open.set(true);
        self.notice.set(None);
        self.kept.set(Kept::Saved);
        self.redraw();
        // What is told of it begins with the gravest.
        dom::back_to_top(".below, .panels > *");
        self.keeper.with_value(|k| k.opened(self, id));
    }

    /// What is in sight first: what was when the plan was here last, or else the row from its beginning.
    fn first_view(self, view: View, desk: &Desk) -> View {
        let row = &desk.scene().row;
        match self.spot.get_value() {
            Some(spot) => spot.on(view, row),
            None => view.fit_height(row),
        }
    }

    /// Leaves the desk for the start page; the plan stays on the device.
    pub fn close(self) {
        self.close_to(Doorway::Start);
    }

    /// Leaves the desk for a way to another row; the plan stays on the device.
    pub fn close_to(self, door: Doorway) {
        if !self.may_leave() {
            return;
        }
        self.present(false);
        self.hides();
        self.keeper.with_value(|k| k.closed());
        self.door.set(door);
        self.open.set(false);
        self.record.set_value(None);
        self.desk.set_value(None);
        self.drop_wall();
        self.tick.update(|t| *t += 1);
        self.went();
        dom::begin_at("main h1");
    }
}
