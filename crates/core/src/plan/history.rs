//! Undo: labelled snapshots of the whole plan. What did not change is shared between them.

use super::Plan;
use std::sync::Arc;

/// A step that can be undone: what it was, and the plan before it.
#[derive(Clone, Debug)]
pub struct Entry {
    /// What the user did: the name of a text, with which the page words it.
    pub label: String,
    /// The plan on the other side of the step.
    pub plan: Arc<Plan>,
}

/// A plan with its past and future, and a gesture that may be going on.
#[derive(Clone, Debug)]
pub struct History {
    now: Arc<Plan>,
    past: Vec<Entry>,
    future: Vec<Entry>,
    gesture: Option<Entry>,
}

impl History {
    /// Most steps that are kept.
    pub const DEPTH: usize = 500;

    /// A history that begins with `plan`.
    pub fn new(plan: Plan) -> Self {
        Self {
            now: Arc::new(plan),
            past: Vec::new(),
            future: Vec::new(),
            gesture: None,
        }
    }

    /// The plan as it is, a gesture's last update included.
    pub fn plan(&self) -> &Arc<Plan> {
        &self.now
    }

    /// Begins a gesture such as a drag. One that was going on is kept as it stands.
    pub fn begin(&mut self, label: impl Into<String>) {
        self.commit();
        self.gesture = Some(Entry {
            label: label.into(),
            plan: Arc::clone(&self.now),
        });
    }

    /// The plan at the gesture's beginning, from which every update starts; without a gesture, the plan.
    pub fn base(&self) -> &Arc<Plan> {
        self.gesture.as_ref().map_or(&self.now, |g| &g.plan)
    }

    /// The gesture's newest state. Without a gesture nothing happens.
    pub fn update(&mut self, plan: Plan) {
        if self.gesture.is_some() {
            self.now = Arc::new(plan);
        }
    }

    /// Ends the gesture: one step, or none if nothing changed.
    pub fn commit(&mut self) {
        if let Some(entry) = self.gesture.take() {
            self.remember(entry);
        }
    }

    /// Ends the gesture and puts the plan back as it was before.
    pub fn cancel(&mut self) {
        if let Some(entry) = self.gesture.take() {
            self.now = entry.plan;
        }
    }

    /// A whole step at once.
    pub fn set(&mut self, label: impl Into<String>, plan: Plan) {
        self.begin(label);
        self.update(plan);
        self.commit();
    }

    fn remember(&mut self, entry: Entry) {
        if *entry.plan == *self.now {
            self.now = entry.plan;
            return;
        }
        self.past.push(entry);
        if self.past.len() > Self::DEPTH {
            self.past.remove(0);
        }
        self.future.clear();
    }

    /// Takes the last step back; its label, or `None` when there is none. A gesture going on is cancelled instead.
    pub fn undo(&mut self) -> Option<String> {
        if self.gesture.is_some() {
            let label = self.gesture.as_ref().map(|g| g.label.clone());
            self.cancel();
            return label;
        }
        let step = self.past.pop()?;
        let now = std::mem::replace(&mut self.now, step.plan);
        self.future.push(Entry {
            label: step.label.clone(),
            plan: now,
        });
        Some(step.label)
    }

    /// Does the step that was taken back last again; its label.
    pub fn redo(&mut self) -> Option<String> {
        self.commit();
        let step = self.future.pop()?;
        let now = std::mem::replace(&mut self.now, step.plan);
        self.past.push(Entry {
            label: step.label.clone(),
            plan: now,
        });
        Some(step.label)
    }

    /// The label of the step that undo would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.past.last().map(|e| e.label.as_str())
    }

    /// The label of the step that redo would do.
    pub fn redo_label(&self) -> Option<&str> {
        self.future.last().map(|e| e.label.as_str())
    }
}
