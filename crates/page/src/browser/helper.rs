//! The helper: a worker with a second instance of this module, asked by messages.

use crate::browser::app::App;
use crate::message::{Answer, Ask, Body, Question, WindowCount, answer};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker, WorkerOptions, WorkerType};

/// Asks the helper, and holds its newest answer.
#[derive(Clone, Copy)]
pub struct Helper {
    worker: StoredValue<Option<Worker>, LocalStorage>,
    generation: StoredValue<u32>,
    /// Findings after each window of the found leaf.
    pub season: RwSignal<Vec<WindowCount>>,
}

impl Helper {
    /// Starts the helper. Where the browser has no module workers the page does without.
    pub fn start(app: App) -> Self {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let helper = Self {
            worker: StoredValue::new_local(Worker::new_with_options("helper.js", &options).ok()),
            generation: StoredValue::new(0),
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
            if app.peek(|d| d.dragging()) == Some(false) {
                helper.ask_soon(app);
            }
        });
        helper
    }

    fn ask_soon(self, app: App) {
        let mine = self.generation.get_value() + 1;
        self.generation.set_value(mine);
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

    fn ask(self, app: App, generation: u32) {
        self.send(app, generation, Question::Season);
        if let Some(light) = app.light.question(app) {
            self.send(app, generation, light);
        }
        if let Some(beside) = app.light.beside_question(app) {
            self.send(app, generation, beside);
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

    fn hear(self, app: App, answer: Answer) {
        if answer.generation != self.generation.get_value() {
            return;
        }
        match answer.body {
            Body::Season(counts) => self.season.set(counts),
            Body::Light(exact) => app.light.hear(app, &exact),
            Body::Beside(both) => app.light.beside.set(Some(both)),
            Body::Digest(_) | Body::Refused(_) => {}
        }
    }
}
