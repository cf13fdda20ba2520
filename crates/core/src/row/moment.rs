//! When in the life of a row something is: a leaf, a window of it, before or after that window's work.

/// The four times of a season at which the crew works.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Window {
    /// Winter, before the leaf grows.
    Dormant,
    /// Bud swell.
    BudSwell,
    /// Early summer, when the first half has grown.
    EarlySummer,
    /// After harvest.
    AfterHarvest,
}

impl Window {
    /// In order of time.
    pub const ALL: [Self; 4] = [
        Self::Dormant,
        Self::BudSwell,
        Self::EarlySummer,
        Self::AfterHarvest,
    ];
}

/// A time at which work is done: a window of a leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    /// The leaf.
    pub leaf: u8,
    /// The window.
    pub window: Window,
}

impl Moment {
    /// The dormant moment before a leaf's growth.
    pub fn dormant(leaf: u8) -> Self {
        Self {
            leaf,
            window: Window::Dormant,
        }
    }

    /// Every moment from this one to `last`, both included.
    pub fn until(self, last: Self) -> impl Iterator<Item = Self> {
        (self.leaf..=last.leaf)
            .flat_map(|leaf| Window::ALL.map(|window| Moment { leaf, window }))
            .filter(move |m| *m >= self && *m <= last)
    }
}

/// Before or after the work of a moment. What has grown by then has grown in both.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// As the crew finds the row.
    Before,
    /// As the crew leaves it.
    #[default]
    After,
}
