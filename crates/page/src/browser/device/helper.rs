//! The helper: a worker with a second instance of this module, asked by messages.

use crate::asked::Asked;
use crate::browser::app::App;
use crate::browser::app::light::LastAsked;
use crate::desk::Desk;
use crate::message::{Answer, Ask, Body, Question, WindowCount, answer};
use cordonry::plan::Plan;
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker};

/// Asks the helper, and holds its newest answer.
#[derive(Clone, Copy)]
pub struct Helper {
    worker: StoredValue<Option<Worker>, LocalStorage>,
    generation: StoredValue<u32>,
    /// The plan and scheme that `season` was asked about last, in which generation, and whether the answer has come.
    season_of: LastAsked<(Arc<Plan>, usize)>,
    /// Findings after each window of the found leaf.
    pub season: RwSignal<Vec<WindowCount>>,
}

impl Helper {
    /// Starts the helper. Where the browser starts no such worker the page does without.
    pub fn start(app: App, start: &js_sys::Function) -> Self {
        let worker = start.call0(&JsValue::NULL);
        let helper = Self {
            worker: StoredValue::new_local(worker.ok().and_then(|w| w.dyn_into().ok())),
            generation: StoredValue::new(0),
            season_of: StoredValue::new_local(None),
            season: RwSignal::new(Vec::new()),
        };
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            if let Ok(answer) = serde_wasm_bindgen::from_value::<Answer>(event.data()) {
                helper.hear(app, answer);
            }
        });
        // A helper that does not start is done without.
        let lost = Closure::<dyn Fn(web_sys::Event)>::new(move |_| {
            helper.worker.set_value(None);
            helper.season_of.set_value(None);
            app.light.forget_questions();
            helper.ask_soon(app);
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
            if app.peek(|d| d.dragging()) == Some(false) {
                helper.ask_soon(app);
            }
        });
        helper
    }

    fn next_generation(self) -> u32 {
        let next = self.generation.get_value().wrapping_add(1);
        self.generation.set_value(next);
        next
    }

    fn ask_soon(self, app: App) {
        let mine = self.next_generation();
        set_timeout(
            move || {
                // A newer change has come meanwhile: its own question will do.
                if self.generation.get_value() == mine {
                    self.ask(app, mine);
                }
            },
            std::time::Duration::from_millis(300),
        );
    }

    /// Asks what is not known, nor asked already, of the plan and of what is on the wall.
    fn ask(self, app: App, generation: u32) {
        let about = |d: &Desk| (Arc::clone(d.plan()), d.scheme());
        let Some(now) = app.peek(about) else { return };
        let known = self.season_of.with_value(|of| {
            of.as_ref()
                .is_some_and(|of| Arc::ptr_eq(&of.about().0, &now.0) && of.about().1 == now.1)
        });
        if !known {
            self.season_of.set_value(Some(Asked::now(generation, now)));
            self.send(app, generation, Question::Season);
        }
        if let Some(question) = app.light.question(app, generation) {
            self.send(app, generation, question);
        }
        if let Some(question) = app.light.beside_question(app, generation) {
            self.send(app, generation, question);
        }
    }

    fn send(self, app: App, generation: u32, question: Question) {
        let ask = app.peek(|d| Ask {
            generation,
            plan: cordonry::file::write_plan(d.plan()),
            scheme: d.scheme(),
            question,
        });
        let Some(ask) = ask else { return };
        let sent = serde_wasm_bindgen::to_value(&ask).is_ok_and(|message| {
            self.worker.with_value(|worker| {
                worker
                    .as_ref()
                    .is_some_and(|w| w.post_message(&message).is_ok())
            })
        });
        if !sent {
            // Without a helper the page works it out itself, once the hand rests.
            self.hear(app, answer(&ask));
        }
    }

    /// An answer to an older question, or about what is no longer on the wall, is dropped.
    fn hear(self, app: App, answer: Answer) {
        let Answer { generation, body } = answer;
        match body {
            Body::Season(counts) => {
                let fits = self
                    .season_of
                    .try_update_value(|of| of.as_mut().is_some_and(|of| of.take(generation)));
                if fits == Some(true) {
                    self.season.set(counts);
                }
            }
            Body::Light(exact) => app.light.hear(app, generation, &exact),
            Body::Beside(both) => app.light.hear_beside(app, generation, both),
            Body::Refused(_) => app.judge(Vec::new()),
            Body::Digest(_) => {}
        }
    }
}
