//! What the helper remembers, and how it answers.

use super::{Body, Inquiry, Message, Question, Reply, WindowCount};
use crate::document::Mode;
use crate::light::exact;
use crate::look::Look;
use cordonry::check::{Context, Severity, check, check_light, tried};
use cordonry::light::{Foliage, beside_deep};
use cordonry::plan::{Phase, Plan, Replayer};
use cordonry::refusal::Refusal;
use cordonry::row::{Moment, Window};

/// The helper's memory: a plan of a named generation, its replay, and the questions that wait.
#[derive(Default)]
pub struct Memory {
    known: Option<(u32, Plan)>,
    /// The generation that was told and could not be understood, and why.
    refused: Option<(u32, String)>,
    replayer: Replayer,
    waiting: Vec<Inquiry>,
}

impl Memory {
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
            }
            Message::Ask(ask) => {
                self.waiting
                    .retain(|other| !ask.question.replaces(&other.question));
                self.waiting.push(ask);
            }
        }
    }

    /// Answers the newest question that waits.
    pub fn reply(&mut self) -> Option<Reply> {
        let ask = self.waiting.pop()?;
        let body = match &self.known {
            Some((generation, plan)) if *generation == ask.generation => {
                answer(plan, &mut self.replayer, &ask.question)
                    .unwrap_or_else(|why| Body::Refused(why.to_string()))
            }
            _ => match &self.refused {
                Some((generation, why)) if *generation == ask.generation => {
                    Body::Refused(why.clone())
                }
                _ => Body::Lacks,
            },
        };
        Some(Reply {
            number: ask.number,
            body,
        })
    }
}

fn answer(plan: &Plan, replayer: &mut Replayer, question: &Question) -> Result<Body, Refusal> {
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
        Question::Offers { look: (look, mode) } => {
            let at = look.replayed(plan, *mode, replayer)?;
            let found = check(&Context::of(&at));
            Body::Offers(tried(plan, look.scheme, &at, &found))
        }
        Question::Season { scheme } => {
            let leaf = plan.found.leaf;
            let counts = Window::ALL.into_iter().map(|window| {
                let look = Look {
                    scheme: *scheme,
                    moment: Moment { leaf, window },
                    phase: Phase::After,
                };
                let at = look.replayed(plan, Mode::Work, replayer)?;
                let findings = check(&Context::of(&at));
                let now = findings.iter().filter(|f| f.severity == Severity::Now);
                Ok(WindowCount {
                    moment: look.moment,
                    findings: findings.len() as u32,
                    now: now.count() as u32,
                })
            });
            Body::Season(counts.collect::<Result<_, Refusal>>()?)
        }
    })
}
