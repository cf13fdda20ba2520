//! The form that core's moments and phases have in a message.

use cordonry::row::{Moment, Phase, Window};
use serde::{Deserialize, Serialize};

/// A window as a message has it.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Window", rename_all = "snake_case")]
enum WindowForm {
    Dormant,
    BudSwell,
    EarlySummer,
    AfterHarvest,
}

/// A moment as a message has it.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Moment")]
pub(crate) struct MomentForm {
    leaf: u8,
    #[serde(with = "WindowForm")]
    window: Window,
}

/// A phase as a message has it.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Phase", rename_all = "snake_case")]
pub(crate) enum PhaseForm {
    Before,
    After,
}
