//! The helper: a worker with a second instance of this module, asked by messages.

use crate::beside::Known;
use crate::browser::app::App;
use crate::browser::app::light::{LastAsked, asked_anew, fits, forget_other};
use crate::browser::parts::part;
use crate::desk::Desk;
use crate::document::Mode;
use crate::helper::{
    Awaited, Body, DraftOf, Drafted, Inquiry, Memory, Message, OfScheme, OnWall, Question, Reply,
    Told, WindowCount,
};
use cordonry::advise::Weights;
use cordonry::plan::Plan;
use cordonry::units::LengthStyle;
use cordonry_words::Words;
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{MessageEvent, Worker};

/// What is asked of a scheme that takes long.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Far {
    /// Between what the crop of each leaf lies, t/ha.
    Crop,
    /// The shares of light that each leaf's wall catches, and that reach its renewal zone.
    Light,
    /// What each share of renewal costs, in two pairs.
    Shares,
    /// What the work of each leaf asks for, in four pairs.
    Effort,
}

/// Pairs of numbers of a scheme, leaf by leaf or share by share.
#[derive(Clone)]
pub struct ByLeaf {
    of: OfScheme,
    what: Far,
    pairs: Vec<(f64, f64)>,
}

/// What the draft brings, or the piece of it at a place, line by line.
type GainOf = (Option<u32>, Vec<String>);

/// A draft that is worked out before anybody asks for it.
struct Ahead {
    number: u32,
    of: (OnWall, LengthStyle),
    drafted: Option<Drafted>,
}

/// A draft of no more trees than this is worked out before it is asked for.
const TREES_AHEAD: usize = 150;

/// Asks the helper, and holds its newest answer.
#[derive(Clone, Copy)]
pub struct Helper {
    worker: StoredValue<Option<Worker>, LocalStorage>,
    /// What has been told of the plan.
    told: StoredValue<Told, LocalStorage>,
    /// The page's own memory, with which it answers where there is no worker.
    own: StoredValue<Memory, LocalStorage>,
    /// Counts changes: a question waits for the last of several.
    change: StoredValue<u32>,
    /// Number of the last question.
    number: StoredValue<u32>,
    /// What `season` was asked about last.
    season_of: LastAsked<OfScheme>,
    /// What was asked of the leaves and is not answered yet, by the question's number.
    far_of: StoredValue<Vec<(u32, OfScheme, Far)>, LocalStorage>,
    /// What is on the wall whose remedies were asked about last.
    offers_of: LastAsked<OnWall>,
    /// Findings after each window of the leaf that is looked at.
    pub season: RwSignal<Vec<WindowCount>>,
    /// What a draft was asked about last.
    draft_of: LastAsked<OnWall>,
    /// The draft that was asked for while nobody waited for it.
    ahead: StoredValue<Option<Ahead>, LocalStorage>,
    /// The draft that came last.
    pub draft: RwSignal<Option<Drafted>, LocalStorage>,
    /// What it was asked about what the draft of these weights brings, by the question's number and the piece's place.
    gain_of: StoredValue<Vec<(u32, Option<u32>)>, LocalStorage>,
    /// What the draft brings, and those of its pieces that were asked about, line by line.
    pub gains: RwSignal<Vec<GainOf>, LocalStorage>,
    /// What is known of the leaves of the plan's schemes.
    far: RwSignal<Vec<ByLeaf>, LocalStorage>,
    /// Whether their light is wanted too.
    pub with_light: RwSignal<bool>,
    /// Whether what each share of renewal costs is.
    pub with_shares: RwSignal<bool>,
    /// Whether what their work asks for is.
    pub with_effort: RwSignal<bool>,
}

impl Helper {
    /// Starts the helper. Where the browser starts no such worker the page does without.
    pub fn start(app: App, start: &js_sys::Function) -> Self {
        let helper = Self {
            worker: StoredValue::new_local(start_worker(app, start)),
            told: StoredValue::new_local(Told::default()),
            own: StoredValue::new_local(Memory::speaking(app.worded(Words::language))),
            change: StoredValue::new(0),
            number: StoredValue::new(0),
            season_of: StoredValue::new_local(None),
            far_of: StoredValue::new_local(Vec::new()),
            offers_of: StoredValue::new_local(None),
            season: RwSignal::new(Vec::new()),
            draft_of: StoredValue::new_local(None),
            ahead: StoredValue::new_local(None),
            draft: RwSignal::new_local(None),
            gain_of: StoredValue::new_local(Vec::new()),
            gains: RwSignal::new_local(Vec::new()),
            far: RwSignal::new_local(Vec::new()),
            with_light: RwSignal::new(false),
            with_shares: RwSignal::new(false),
            with_effort: RwSignal::new(false),
        };
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            if let Ok(reply) = serde_wasm_bindgen::from_value::<Reply>(event.data()) {
                helper.hear(app, reply);
            }
        });
        // A helper that does not start is done without.
        let lost = Closure::<dyn Fn(web_sys::Event)>::new(move |_| {
            helper.worker.set_value(None);
            helper.begin_anew(app);
        });
        helper.worker.with_value(|worker| {
            if let Some(worker) = worker {
                worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
                worker.set_onerror(Some(lost.as_ref().unchecked_ref()));
            }
        });
        heard.forget();
        lost.forget();
        Effect::new(move |_| {
            app.tick.track();
            app.view_tick.track();
            forget_other(helper.offers_of, app.peek(OnWall::of).as_ref());
            helper.with_light.track();
            helper.with_shares.track();
            helper.with_effort.track();
            app.light.forget_other_question(app);
            if app.peek(|d| d.is_holding()) == Some(false) {
                helper.ask_soon(app);
            }
        });
        helper
    }

    /// Tells and asks everything anew: what was told or asked is lost.
    fn begin_anew(self, app: App) {
        self.told.update_value(|told| {
            told.forget();
        });
        self.season_of.set_value(None);
        self.far_of.set_value(Vec::new());
        self.offers_of.set_value(None);
        self.draft_of.set_value(None);
        self.ahead.set_value(None);
        app.light.forget_questions();
        self.ask_soon(app);
    }

    fn ask_soon(self, app: App) {
        let mine = next(self.change);
        for (after, ask) in [(300, Self::ask as fn(Self, App)), (900, Self::ask_far)] {
            set_timeout(
                move || {
                    // A newer change has come meanwhile: its own question will do.
                    if self.change.get_value() == mine {
                        ask(self, app);
                    }
                },
                std::time::Duration::from_millis(after),
            );
        }
    }

    /// Asks between what the crops lie, and for the light and the shares where they are wanted. It takes longest, and no hand waits for it.
    fn ask_far(self, app: App) {
        // Asked first, it is answered last.
        self.draft_ahead(app);
        let now = app.peek(OfScheme::whole).unwrap_or_default();
        self.far_of
            .update_value(|asked| asked.retain(|(_, of, _)| now.contains(of)));
        let kinds = [
            (Far::Crop, true),
            (Far::Light, self.with_light.get_untracked()),
            (Far::Shares, self.with_shares.get_untracked()),
            (Far::Effort, self.with_effort.get_untracked()),
        ];
        for of in &now {
            for (what, wanted) in kinds {
                let asked = |asked: &Vec<(u32, OfScheme, Far)>| {
                    asked
                        .iter()
                        .any(|(_, own, kind)| (own, *kind) == (of, what))
                };
                if !wanted
                    || self.pairs(of, what, |_| ()).is_some()
                    || self.far_of.with_value(asked)
                {
                    continue;
                }
                let number = next(self.number);
                self.far_of
                    .update_value(|asked| asked.push((number, of.clone(), what)));
                let (scheme, last) = (of.scheme, of.leaf);
                let question = match what {
                    Far::Crop => Question::Crop { scheme, last },
                    Far::Light => Question::Lit { scheme, last },
                    Far::Shares => Question::Shares { scheme, last },
                    Far::Effort => Question::Effort { scheme, last },
                };
                self.send(app, &of.plan, number, question);
            }
        }
    }

    /// Reads what is known of a scheme's leaves: between what their crops lie, or their light.
    fn pairs<T>(
        self,
        of: &OfScheme,
        what: Far,
        read: impl FnOnce(&[(f64, f64)]) -> T,
    ) -> Option<T> {
        self.far.with_untracked(|far| {
            let known = far.iter().find(|k| k.of == *of && k.what == what);
            known.map(|k| read(&k.pairs))
        })
    }

    /// Of the scheme that a desk shows and of the one beside it: between what each leaf's crop lies, t/ha, its light, and
    /// what its work asks for, as far as that is known. Whoever asks is told once it is.
    pub fn far(self, desk: &Desk) -> Vec<Known> {
        let schemes = [desk.look().scheme].into_iter().chain(desk.scheme_beside());
        self.known(desk, &schemes.collect::<Vec<_>>())
    }

    /// The same of some schemes.
    pub fn known(self, desk: &Desk, schemes: &[usize]) -> Vec<Known> {
        self.far.track();
        let whole = OfScheme::of_each(desk, schemes);
        let pairs = |of, what| self.pairs(of, what, <[_]>::to_vec);
        whole
            .iter()
            .map(|of| [Far::Crop, Far::Light, Far::Effort].map(|what| pairs(of, what)))
            .collect()
    }

    /// What each share of renewal but none at all costs under the scheme that a desk shows, once that is known: its mean crop and
    /// that of the last leaves, t/ha, then the oldest wood and the uprights. Whoever asks is told.
    pub fn shares(self, desk: &Desk) -> Vec<[f64; 4]> {
        self.far.track();
        let told = OfScheme::whole(desk);
        let pairs = told
            .first()
            .and_then(|of| self.pairs(of, Far::Shares, <[_]>::to_vec));
        let each = |two: &[(f64, f64)]| [two[0].0, two[0].1, two[1].0, two[1].1];
        pairs
            .unwrap_or_default()
            .chunks_exact(2)
            .map(each)
            .collect()
    }

    /// Takes what is known of a scheme's leaves, if it was waited for.
    fn hear_far(self, app: App, number: u32, ends: &[f64]) {
        let asked = self.far_of.try_update_value(|asked| {
            let at = asked.iter().position(|(own, ..)| *own == number)?;
            Some(asked.swap_remove(at))
        });
        let now = app.peek(|d| Arc::clone(d.plan()));
        if let (Some((_, of, what)), Some(plan)) = (asked.flatten(), now)
            && Arc::ptr_eq(&of.plan, &plan)
        {
            let pairs = ends.chunks_exact(2).map(|e| (e[0], e[1])).collect();
            self.far.update(|far| {
                far.retain(|k| Arc::ptr_eq(&k.of.plan, &plan));
                far.push(ByLeaf { of, what, pairs });
            });
        }
    }

    /// Asks what is not known, nor asked already, of the plan and of what is on the wall.
    fn ask(self, app: App) {
        let Some(now) = app.peek(OfScheme::of) else {
            return;
        };
        let (plan, scheme, leaf) = (Arc::clone(&now.plan), now.scheme, now.leaf);
        let number = next(self.number);
        if asked_anew(self.season_of, number, &now) {
            self.send(app, &plan, number, Question::Season { scheme, leaf });
        }
        let number = next(self.number);
        if let Some(question) = app.light.question(app, number) {
            self.send(app, &plan, number, question);
        }
        let number = next(self.number);
        if let Some(question) = app.light.beside_question(app, number) {
            self.send(app, &plan, number, question);
        }
        // Asked last, it is answered first: a hand waits for it.
        let number = next(self.number);
        let on_wall = app.peek(OnWall::of);
        if let Some(on_wall) = on_wall.filter(|w| w.look().1 == Mode::Work)
            && asked_anew(self.offers_of, number, &on_wall)
        {
            let look = on_wall.look();
            let style = app.style.get_untracked();
            self.send(app, &plan, number, Question::Offers { look, style });
        }
    }

    /// What was on the wall when a draft was asked for last.
    pub fn draft_of(self) -> Option<OnWall> {
        self.draft_of
            .with_value(|of| of.as_ref().map(|asked| asked.about().clone()))
    }

    /// Asks for the draft of a row that is not long before anybody does.
    fn draft_ahead(self, app: App) {
        let on_wall = app.peek(OnWall::of).filter(|w| w.look().1 == Mode::Work);
        let few = app.peek(|d| d.scene().row.trees.len() <= TREES_AHEAD);
        let (Some(on_wall), Some(true)) = (on_wall, few) else {
            return self.ahead.set_value(None);
        };
        let style = app.style.get_untracked();
        let asked = (on_wall, style);
        let known = |ahead: &Option<Ahead>| ahead.as_ref().is_some_and(|a| a.of == asked);
        if self.ahead.with_value(known) {
            return;
        }
        if let Some((number, of)) = self.of_draft(app, &Weights::default()) {
            self.ahead.set_value(Some(Ahead {
                number,
                of: asked,
                drafted: None,
            }));
            let picks = None;
            self.ask_now(app, number, Question::Draft { of, picks, style });
        }
    }

    /// Takes the draft that was asked for ahead of what is on the wall; whether there was one.
    fn take_ahead(self, app: App) -> bool {
        let Some(now) = app.peek(OnWall::of) else {
            return false;
        };
        let now = (now, app.style.get_untracked());
        let ahead = self.ahead.with_value(|ahead| {
            let ahead = ahead.as_ref().filter(|a| a.of == now)?;
            Some((ahead.number, ahead.drafted.clone()?))
        });
        let Some((number, drafted)) = ahead else {
            return false;
        };
        self.draft_of.set_value(Some(Awaited::now(number, now.0)));
        self.draft.set(Some(drafted));
        true
    }

    /// Asks for a draft of the work of the moment that is looked at, by these weights, with the pieces at some places taken, or all.
    pub fn ask_draft(self, app: App, weights: &Weights, picks: Option<Vec<u32>>) {
        if picks.is_none() && *weights == Weights::default() && self.take_ahead(app) {
            return;
        }
        let Some((number, of)) = self.of_draft(app, weights) else {
            return;
        };
        self.draft_of.set_value(
            app.peek(OnWall::of)
                .map(|on_wall| Awaited::now(number, on_wall)),
        );
        let style = app.style.get_untracked();
        self.ask_now(app, number, Question::Draft { of, picks, style });
    }

    /// Asks what the draft by these weights brings, or the piece at a place of it, unless that is asked already.
    pub fn ask_gain(self, app: App, weights: &Weights, piece: Option<u32>) {
        let asked = |all: &Vec<(u32, Option<u32>)>| all.iter().any(|(_, own)| *own == piece);
        let known = self
            .gains
            .with_untracked(|all| all.iter().any(|(own, _)| *own == piece));
        if known || self.gain_of.with_value(asked) {
            return;
        }
        if let Some((number, of)) = self.of_draft(app, weights) {
            self.gain_of.update_value(|all| all.push((number, piece)));
            let style = app.style.get_untracked();
            self.ask_now(app, number, Question::Gain { of, piece, style });
        }
    }

    /// Forgets a draft, and what it brings.
    pub fn forget_draft(self) {
        self.draft.set(None);
        self.gain_of.set_value(Vec::new());
        self.gains.set(Vec::new());
    }

    fn of_draft(self, app: App, weights: &Weights) -> Option<(u32, DraftOf)> {
        let look = app.peek(OnWall::of)?.look().0;
        let of = DraftOf {
            scheme: look.scheme,
            moment: look.moment,
            weights: weights.values().to_vec(),
        };
        Some((next(self.number), of))
    }

    fn ask_now(self, app: App, number: u32, question: Question) {
        if let Some(plan) = app.peek(|d| Arc::clone(d.plan())) {
            self.send(app, &plan, number, question);
        }
    }

    /// Asks a question of a plan, which is told first where it is not known.
    fn send(self, app: App, plan: &Arc<Plan>, number: u32, question: Question) {
        let told = self.told.try_update_value(|told| told.tell(plan));
        let Some((generation, update)) = told else {
            return;
        };
        if let Some(update) = update {
            self.post(app, Message::Learn(update));
        }
        self.post(
            app,
            Message::Ask(Inquiry {
                number,
                generation,
                question,
            }),
        );
    }

    fn post(self, app: App, message: Message) {
        let there = self.worker.with_value(Option::is_some);
        if there {
            let sent = serde_wasm_bindgen::to_value(&message).is_ok_and(|message| {
                self.worker.with_value(|worker| {
                    worker
                        .as_ref()
                        .is_some_and(|w| w.post_message(&message).is_ok())
                })
            });
            if !sent {
                self.worker.set_value(None);
                self.begin_anew(app);
            }
            return;
        }
        // Without a helper the page works it out itself, once the hand rests.
        self.own.update_value(|own| own.hear(message));
        spawn_local(async move {
            while let Ok(Some(reply)) = own_reply(self.own).await {
                self.hear(app, reply);
            }
        });
    }

    /// Takes an answer, if it is one that is waited for and about what is still on the wall. One that is refused or
    /// comes late discards nothing else.
    fn hear(self, app: App, reply: Reply) {
        let Reply { number, body } = reply;
        match body {
            Body::Season(counts) => {
                let asked = self.season_of;
                let about = asked.with_value(|of| of.as_ref().map(|of| of.about().clone()));
                if fits(asked, number, about.as_ref()) {
                    self.season.set(counts);
                }
            }
            Body::Crop(ends) | Body::Lit(ends) | Body::Shares(ends) | Body::Effort(ends) => {
                self.hear_far(app, number, &ends)
            }
            Body::Offers(offers, others) => {
                let now = app.peek(OnWall::of);
                if fits(self.offers_of, number, now.as_ref()) {
                    app.take_offers(&offers, others);
                }
            }
            Body::Draft(drafted) => {
                let ahead = self.ahead.try_update_value(|ahead| {
                    let ahead = ahead.as_mut().filter(|a| a.number == number)?;
                    ahead.drafted = Some((*drafted).clone());
                    Some(())
                });
                if ahead.flatten().is_some() {
                    return;
                }
                let now = app.peek(OnWall::of);
                if fits(self.draft_of, number, now.as_ref()) {
                    self.draft.set(Some(*drafted));
                }
            }
            Body::Gain(lines) => {
                let asked = self.gain_of.try_update_value(|all| {
                    let at = all.iter().position(|(own, _)| *own == number)?;
                    Some(all.swap_remove(at).1)
                });
                if let Some(piece) = asked.flatten() {
                    self.gains.update(|all| all.push((piece, lines)));
                }
            }
            Body::Light(exact, offers) => app.light.hear(app, number, &exact, &offers),
            Body::Beside(both) => app.light.hear_beside(app, number, both),
            Body::Lacks => self.begin_anew(app),
            Body::Later | Body::Refused(_) => {}
        }
    }
}

part! {helper:
    fn own_reply(own: StoredValue<Memory, LocalStorage>) -> Option<Reply> {
        own.try_update_value(Memory::reply).flatten()
    }
}

/// A worker with an instance of this module; none where the browser starts no such worker.
pub fn start_worker(app: App, start: &js_sys::Function) -> Option<Worker> {
    let code = app.worded(|w| w.language().code);
    let started = start.call1(&JsValue::NULL, &code.into());
    started.ok()?.dyn_into().ok()
}

/// The next number of a count.
fn next(count: StoredValue<u32>) -> u32 {
    let next = count.get_value().wrapping_add(1);
    count.set_value(next);
    next
}
