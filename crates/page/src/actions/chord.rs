//! Keys of the keyboard, with what is held with them.

/// Whether a modifier has to be held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// It has to be.
    Yes,
    /// It must not be.
    No,
    /// Either will do.
    Either,
}

impl Held {
    fn is(self, held: bool) -> bool {
        match self {
            Self::Yes => held,
            Self::No => !held,
            Self::Either => true,
        }
    }

    fn meets(self, other: Self) -> bool {
        [true, false].iter().any(|h| self.is(*h) && other.is(*h))
    }
}

/// A key with what is held with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chord {
    /// The key as browsers name it, letters small.
    pub key: &'static str,
    /// Ctrl, or the command key.
    pub ctrl: Held,
    /// Shift.
    pub shift: Held,
    /// Alt.
    pub alt: Held,
}

/// A press as it is heard.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Press {
    /// The key as the browser names it.
    pub key: String,
    /// Whether Ctrl, or the command key, is held.
    pub ctrl: bool,
    /// Whether Shift is held.
    pub shift: bool,
    /// Whether Alt is held.
    pub alt: bool,
}

impl Chord {
    /// A key alone; shift and alt change nothing.
    pub const fn key(key: &'static str) -> Self {
        Self {
            key,
            ctrl: Held::No,
            shift: Held::Either,
            alt: Held::Either,
        }
    }

    /// A key without alt.
    pub const fn plain(key: &'static str) -> Self {
        Self {
            alt: Held::No,
            ..Self::key(key)
        }
    }

    /// A key with alt.
    pub const fn alt(key: &'static str) -> Self {
        Self {
            alt: Held::Yes,
            ..Self::key(key)
        }
    }

    /// A key with Ctrl, and shift or not.
    pub const fn ctrl(key: &'static str, shift: Held) -> Self {
        Self {
            key,
            ctrl: Held::Yes,
            shift,
            alt: Held::No,
        }
    }

    /// Whether a press is this one.
    pub fn is(&self, press: &Press) -> bool {
        self.key == press.key.to_lowercase()
            && self.ctrl.is(press.ctrl)
            && self.shift.is(press.shift)
            && self.alt.is(press.alt)
    }

    /// Whether a press can be both.
    pub fn meets(&self, other: &Self) -> bool {
        self.key == other.key
            && self.ctrl.meets(other.ctrl)
            && self.shift.meets(other.shift)
            && self.alt.meets(other.alt)
    }
}
