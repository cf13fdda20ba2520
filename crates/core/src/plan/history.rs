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

/// A history laid out: its plans from the oldest to the newest, with the steps between them.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The oldest plan's number; plans are numbered from the history's beginning.
    pub first: u32,
    /// The plans, at least one.
    pub plans: Vec<Arc<Plan>>,
    /// The label of each step, one fewer than the plans.
    pub labels: Vec<String>,
    /// Which of the plans is the one as it is.
    pub at: usize,
}

impl Line {
    /// The number of the plan as it is.
    pub fn now(&self) -> u32 {
        self.first + self.at as u32
    }

    /// The newest plan's number.
    pub fn last(&self) -> u32 {
        self.first + self.labels.len() as u32
    }

    /// The plan of a number.
    pub fn plan(&self, number: u32) -> Option<&Arc<Plan>> {
        self.plans.get(number.checked_sub(self.first)? as usize)
    }

    /// The label of the step that leads to the plan of a number; empty where there is none.
    pub fn label(&self, number: u32) -> &str {
        let step = number.checked_sub(self.first + 1);
        step.and_then(|step| self.labels.get(step as usize))
            .map_or("", String::as_str)
    }
}

/// A plan with its past and future, and a gesture that may be going on.
#[derive(Clone, Debug)]
pub struct History {
    now: Arc<Plan>,
    /// Steps that went before the oldest one kept.
    first: u32,
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
            first: 0,
            past: Vec::new(),
            future: Vec::new(),
            gesture: None,
        }
    }

    /// The history laid out. A gesture going on is no part of it yet.
    pub fn line(&self) -> Line {
        let future = || self.future.iter().rev();
        let past = self.past.iter().map(|e| &e.plan);
        let plans = past.chain([self.base()]).chain(future().map(|e| &e.plan));
        let labels = self.past.iter().chain(future()).map(|e| e.label.clone());
        Line {
            first: self.first,
            plans: plans.cloned().collect(),
            labels: labels.collect(),
            at: self.past.len(),
        }
    }

    /// The history that is laid out so; `None` where there are not as many plans and labels as there should be.
    pub fn of_line(line: Line) -> Option<Self> {
        let now = Arc::clone(line.plans.get(line.at)?);
        if line.plans.len() != line.labels.len() + 1 {
            return None;
        }
        let entry = |(label, plan): (&String, &Arc<Plan>)| Entry {
            label: label.clone(),
            plan: Arc::clone(plan),
        };
        let (past, future) = line.labels.split_at(line.at);
        Some(Self {
            now,
            first: line.first,
            past: past.iter().zip(&line.plans).map(entry).collect(),
            future: (future.iter().zip(&line.plans[line.at + 1..]).rev())
                .map(entry)
                .collect(),
            gesture: None,
        })
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
            self.first += 1;
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
