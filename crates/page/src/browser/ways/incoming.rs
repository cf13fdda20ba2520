//! What has come in and waits for a yes.

use crate::browser::app::App;
use cordonry::plan::Plan;
use leptos::prelude::*;

/// A measured row that waits for a yes.
#[derive(Clone)]
pub struct Preview {
    pub(super) name: String,
    pub(super) plan: Plan,
    pub(super) taken: usize,
    pub(super) bad: Vec<(usize, String, String)>,
    pub(super) said: Vec<String>,
}

/// What comes in, and the measured row that is being looked at before it is used.
#[derive(Clone, Copy)]
pub struct Incoming {
    /// The page.
    pub app: App,
    /// The measured row.
    pub preview: RwSignal<Option<Preview>>,
}

impl Incoming {
    /// Nothing yet.
    pub fn new(app: App) -> Self {
        Self {
            app,
            preview: RwSignal::new(None),
        }
    }
}
