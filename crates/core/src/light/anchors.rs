//! Published figures of flat walls beside what this model gives of such walls.

/// A published figure beside the model's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Anchor {
    /// Name of the text that says what was measured, and where that is published.
    pub key: &'static str,
    /// Share of the light above the row that was published, 0–1.
    pub published: f64,
    /// The least and the most that the model gives of walls 3.0 and 3.3 m high, 0.5 m thick, with leaves from 0.5 m up, in
    /// rows 2.8 m apart running N–S at 46° N, in a clear first half of July, at a leaf area index of 2.0 and 2.5. The index
    /// is our assumption: the trials' own is not known here.
    pub model: (f64, f64),
}

/// The published figures. That the model gives what is said here is held by a test.
pub const ANCHORS: [Anchor; 3] = [
    Anchor {
        key: "anchor-caught-60",
        published: 0.60,
        model: (0.545, 0.599),
    },
    Anchor {
        key: "anchor-caught-69",
        published: 0.69,
        model: (0.545, 0.599),
    },
    Anchor {
        key: "anchor-base-28",
        published: 0.28,
        model: (0.252, 0.301),
    },
];

impl Anchor {
    /// By how much the middle of what the model gives is above what was published, −1–1.
    pub fn off(&self) -> f64 {
        0.5 * (self.model.0 + self.model.1) - self.published
    }
}
