//! What the helper remembers, and how it answers.

use super::draft::{LastDraft, gained};
use super::{Body, Inquiry, Message, Question, Reply, WindowCount};
use crate::document::Mode;
use crate::light::{Lighting, exact};
use crate::look::{Look, NotOffered};
use cordonry::advise::GainDraws;
use cordonry::check::{
    Context, Finding, Offered, Severity, Withheld, check, check_light, open_findings, settled,
    tried, tried_told,
};
use cordonry::effort::Effort;
use cordonry::forecast::{CropDraws, Forecast, SHARES, ShareCost};
use cordonry::light::{Foliage, beside_deep};
use cordonry::plan::{Phase, Plan, Replayed, Replayer};
use cordonry::refusal::Refusal;
use cordonry::row::{Moment, Window};
use cordonry_words::{Language, Words};

/// The helper's memory: a plan of a named generation, its replay, and the questions that wait.
#[derive(Default)]
pub struct Memory {
    known: Option<(u32, Plan)>,
    /// The generation that was told and could not be understood, and why.
    refused: Option<(u32, String)>,
    kept: Kept,
    waiting: Vec<Inquiry>,
    /// What has been worked out for the question of each number, while there is more to do.
    going: Vec<(u32, Going)>,
}

/// What answers leave to the next ones, and the language in which they are told.
#[derive(Default)]
struct Kept {
    language: Language,
    replayer: Replayer,
    draft: LastDraft,
}

/// The beginning of an answer.
enum Going {
    Crop(Box<CropDraws>),
    Gain(Box<GainDraws>),
    /// Numbers leaf by leaf, or share by share.
    Told(Vec<f64>),
}

/// Draws between which other questions are answered.
const AT_ONCE: u32 = 2;

impl Memory {
    /// One that tells what it is asked in a language.
    pub fn speaking(language: Language) -> Self {
        let mut out = Self::default();
        out.kept.language = language;
        out
    }

    /// The language in which it tells.
    pub fn language(&self) -> Language {
        self.kept.language
    }

    /// The plan that is remembered.
    pub fn plan(&self) -> Option<&Plan> {
        self.known.as_ref().map(|(_, plan)| plan)
    }

    /// Hears a message. A question takes the place of one that asks the same.
    pub fn hear(&mut self, message: Message) {
        match message {
            Message::Learn(update) => {
                let generation = update.generation();
                let base = self.known.take();
                match update.onto(base.as_ref().map(|(g, plan)| (*g, plan))) {
                    Some(Ok(plan)) => self.known = Some((generation, plan)),
                    Some(Err(why)) => self.refused = Some((generation, why.to_string())),
                    None => {}
                }
                // What was asked of an older plan is asked again of this one.
                self.waiting.retain(|ask| ask.generation == generation);
                self.going.clear();
                self.kept.draft.forget();
            }
            Message::Ask(ask) => {
                let waiting = &mut self.waiting;
                waiting.retain(|other| !ask.question.replaces(&other.question));
                self.going
                    .retain(|(of, _)| waiting.iter().any(|w| w.number == *of));
                waiting.push(ask);
            }
        }
    }

    /// Answers the newest question that waits, or a part of it.
    pub fn reply(&mut self) -> Option<Reply> {
        let ask = self.waiting.pop()?;
        let body = match &self.known {
            Some((generation, plan)) if *generation == ask.generation => {
                let begun = self.going.iter().position(|(of, _)| *of == ask.number);
                let begun = begun.map(|at| self.going.swap_remove(at).1);
                let body = go_on(plan, &mut self.kept, &ask.question, begun);
                let body = body.map(|done| match done {
                    Ok(body) => body,
                    Err(going) => {
                        self.going.push((ask.number, going));
                        Body::Later
                    }
                });
                body.unwrap_or_else(|why| Body::Refused(why.to_string()))
            }
            _ => match &self.refused {
                Some((generation, why)) if *generation == ask.generation => {
                    Body::Refused(why.clone())
                }
                _ => Body::Lacks,
            },
        };
        let number = ask.number;
        if body == Body::Later {
            self.waiting.insert(0, ask);
        }
        Some(Reply { number, body })
    }
}

/// Goes on with an answer: all of it, or its beginning where there is more to do, which no other question waits for.
fn go_on(
    plan: &Plan,
    kept: &mut Kept,
    question: &Question,
    begun: Option<Going>,
) -> Result<Result<Body, Going>, Refusal> {
    match (question, begun) {
        (&Question::Crop { scheme, last }, begun) => {
            let mut draws = match begun {
                Some(Going::Crop(draws)) => draws,
                _ => Box::new(CropDraws::new(plan, scheme, last)?),
            };
            if !draws.go_on(AT_ONCE)? {
                return Ok(Err(Going::Crop(draws)));
            }
            let ranges = draws.range(&Forecast::default().of(plan, scheme, last)?);
            let ends = ranges.into_iter().flat_map(|(low, high)| [low, high]);
            Ok(Ok(Body::Crop(ends.collect())))
        }
        (&Question::Lit { scheme, last }, begun) => {
            let mut lit = match begun {
                Some(Going::Told(lit)) => lit,
                _ => Vec::new(),
            };
            let leaf = plan.found.leaf.saturating_add((lit.len() / 2) as u8);
            if leaf <= last {
                let harvest = Moment {
                    leaf,
                    window: Window::AfterHarvest,
                };
                let at = kept.replayer.at(plan, scheme, harvest, Phase::Before)?;
                let season = exact(&at.row, &at.terms, plan, Lighting::default(), 0..0).season;
                let zone = season.zone.map_or(0.0, |z| z.mean);
                lit.extend([season.caught.total, zone]);
            }
            Ok(match leaf < last {
                true => Err(Going::Told(lit)),
                false => Ok(Body::Lit(lit)),
            })
        }
        (&Question::Shares { scheme, last }, begun) => {
            let mut told = match begun {
                Some(Going::Told(told)) => told,
                _ => Vec::new(),
            };
            let shares = || SHARES.into_iter().flatten();
            if let Some(share) = shares().nth(told.len() / 4) {
                let cost = ShareCost::of(plan, scheme, last, Some(share))?;
                told.extend([cost.crop_t_per_ha, cost.late_t_per_ha]);
                told.extend([f64::from(cost.wood_age_max), f64::from(cost.uprights)]);
            }
            Ok(match told.len() / 4 < shares().count() {
                true => Err(Going::Told(told)),
                false => Ok(Body::Shares(told)),
            })
        }
        (&Question::Effort { scheme, last }, begun) => {
            let mut told = match begun {
                Some(Going::Told(told)) => told,
                _ => Vec::new(),
            };
            let done = (told.len() / Effort::NUMBERS) as u8;
            let leaf = plan.found.leaf.saturating_add(done);
            if leaf <= last {
                told.extend(Effort::of(plan, scheme, leaf)?.numbers());
            }
            Ok(match leaf < last {
                true => Err(Going::Told(told)),
                false => Ok(Body::Effort(told)),
            })
        }
        (Question::Gain { of, piece, style }, begun) => {
            let mut draws = match begun {
                Some(Going::Gain(draws)) => draws,
                _ => Box::new(kept.draft.gain(plan, of, *piece)?),
            };
            let Some(gain) = draws.go_on(AT_ONCE)? else {
                return Ok(Err(Going::Gain(draws)));
            };
            let words = Words::new(kept.language, *style);
            let trees = piece.map(|_| draws.trees());
            Ok(Ok(Body::Gain(gained(&gain, trees.as_deref(), &words))))
        }
        (question, _) => answer(plan, kept, question).map(Ok),
    }
}

/// Which remedies of what is found are offered, and why the rest has none.
fn offers(
    plan: &Plan,
    scheme: usize,
    at: &Replayed,
    found: &[Finding],
    words: &Words,
) -> Result<(Vec<Offered>, Vec<NotOffered>), Refusal> {
    let (offers, withheld) = tried_told(plan, scheme, at, found);
    let mut others = vec![NotOffered::Unknown; found.len()];
    for (at, why) in withheld {
        others[at] = match why {
            Withheld::Graver(finding) => NotOffered::Harm(words.graver(&finding)),
            Withheld::Waits => NotOffered::Waits,
        };
    }
    if at.phase == Phase::Before {
        let without = (0..found.len()).filter(|i| offers[*i].is_empty());
        let without: Vec<usize> = without.collect();
        let all: Vec<&Finding> = without.iter().map(|i| &found[*i]).collect();
        let settled = settled(plan, scheme, at.moment, &all)?;
        for (at, _) in without.iter().zip(settled).filter(|(_, settled)| *settled) {
            others[*at] = NotOffered::Planned;
        }
    }
    Ok((offers, others))
}

fn answer(plan: &Plan, kept: &mut Kept, question: &Question) -> Result<Body, Refusal> {
    let replayer = &mut kept.replayer;
    Ok(match question {
        Question::Light {
            look: (look, mode),
            lighting,
            columns,
        } => {
            let at = look.replayed(plan, *mode, replayer)?;
            let exact = exact(&at.row, &at.terms, plan, *lighting, columns.clone());
            let context = Context::of(&at);
            let found = check_light(&context, &exact.season, &check(&context));
            let offers = tried(plan, look.scheme, &at, &found.findings);
            Body::Light(Box::new(exact), offers)
        }
        Question::Beside {
            look: (look, mode),
            lighting,
            canopy,
        } => {
            let at = look.replayed(plan, *mode, replayer)?;
            let foliage = Foliage::new(&at.row, &at.terms, &plan.targets, lighting.out);
            let period = lighting.period(foliage.around().site.latitude_deg);
            let light = (period, lighting.weather);
            Body::Beside(beside_deep(&foliage, &plan.targets, light, *canopy))
        }
        Question::Draft { of, picks, style } => {
            let words = Words::new(kept.language, *style);
            let told = kept.draft.told(plan, of, picks.as_deref(), &words)?;
            Body::Draft(Box::new(told))
        }
        Question::Offers {
            look: (look, mode),
            style,
        } => {
            let at = look.replayed(plan, *mode, replayer)?;
            let found = check(&Context::of(&at));
            let words = Words::new(kept.language, *style);
            let (offers, others) = offers(plan, look.scheme, &at, &found, &words)?;
            Body::Offers(offers, others)
        }
        // Some draws at a time, apart from this.
        Question::Crop { .. }
        | Question::Lit { .. }
        | Question::Shares { .. }
        | Question::Effort { .. }
        | Question::Gain { .. } => Body::Later,
        Question::Season { scheme, leaf } => {
            let leaf = *leaf;
            let counts = Window::ALL.into_iter().map(|window| {
                let look = Look {
                    scheme: *scheme,
                    moment: Moment { leaf, window },
                    phase: Phase::After,
                };
                let at = look.replayed(plan, Mode::Work, replayer)?;
                let findings = check(&Context::of(&at));
                let open = open_findings(&findings, &plan.left, at.row.leaf);
                let now = open.iter().filter(|f| f.severity == Severity::Now);
                Ok(WindowCount {
                    moment: look.moment,
                    findings: open.len() as u32,
                    now: now.count() as u32,
                })
            });
            Body::Season(counts.collect::<Result<_, Refusal>>()?)
        }
    })
}
