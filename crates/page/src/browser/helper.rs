//! The helper: a worker with a second instance of this module, asked by messages.

use crate::browser::app::App;
use crate::message::{Answer, Ask, Body, Question, WindowCount};
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
                helper.hear(answer);
            }
        });
        helper.worker.with_value(|worker| {
            if let Some(worker) = worker {
                worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
            }
        });
        heard.forget();
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
        let ask = app.peek(|d| Ask {
            generation,
            plan: cordonry::file::write_plan(d.plan()),
            scheme: d.scheme(),
            question: Question::Season,
        });
        let Some(ask) = ask else { return };
        if let Ok(message) = serde_wasm_bindgen::to_value(&ask) {
            self.worker.with_value(|worker| {
                if let Some(worker) = worker {
                    let _ = worker.post_message(&message);
                }
            });
        }
    }

    fn hear(self, answer: Answer) {
        if answer.generation != self.generation.get_value() {
            return;
        }
        if let Body::Season(counts) = answer.body {
            self.season.set(counts);
        }
    }
}
