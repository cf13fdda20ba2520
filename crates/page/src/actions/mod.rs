//! Everything that can be done, one record each: its name, its keys, where it is offered, and what it does. The card, the
//! keyboard, the menus, the list of keys and the lists of work are made of these records.

mod all;
mod chord;
mod edits;
mod help;

pub use all::{ALL, TAKE_BACK, named};
pub use chord::{Chord, Held, Press};
pub use edits::{choices_on, measures_of};
pub use help::{KeyLine, keys_of};

use crate::desk::Desk;
use crate::document::{Edit, Mode};
use cordonry::refusal::Refusal;

/// Something that can be done.
#[derive(Debug)]
pub struct Action {
    /// Its text's name, by which it is found too.
    pub name: &'static str,
    /// The keys that do it.
    pub keys: &'static [Chord],
    /// Where those keys are heard.
    pub heard: Heard,
    /// In which mode it can be done; `None` for both.
    pub mode: Option<Mode>,
    /// Where it stands as a button.
    pub shown: Option<Shown>,
    /// Whether it can be done now.
    pub offered: fn(&Desk) -> bool,
    /// What it does.
    pub does: Does,
}

/// Where keys are heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heard {
    /// Wherever the focus is, but in fields.
    Everywhere,
    /// While the wall has the focus.
    OnWall,
}

/// Where a button stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// In the line over the wall.
    Bar,
    /// In the line of schemes.
    Schemes,
    /// In the menu of files.
    Files,
    /// Over the wall.
    View,
    /// In the card of the chosen part.
    Card,
    /// Under the wall while it is shown to a class.
    Present,
}

/// What an action does.
#[derive(Clone, Copy, Debug)]
pub enum Does {
    /// Makes an edit, or nothing where there is nothing to be done; the flag says whether in small steps.
    Edit(fn(&Desk, bool) -> Result<Option<Edit>, Refusal>),
    /// What the core offers on the chosen part under the same name, pressed in the card; it may ask for numbers first.
    Choice,
    /// Something of the page.
    Page(Command),
}

/// What the page does itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // Each is told by its action's text.
pub enum Command {
    Undo,
    Redo,
    Save,
    SavePlan,
    SaveInPlace,
    PassOn,
    SaveTable,
    SaveTableShown,
    SaveDrawing,
    SavePicture,
    Print,
    Close,
    LetGo,
    Next,
    Previous,
    ToTree,
    ToCard,
    Light,
    Larger,
    Smaller,
    RowStart,
    RowEnd,
    ViewOn,
    ViewBack,
    ToNumber,
    FitRow,
    FitHeight,
    AddScheme,
    CopyScheme,
    NameScheme,
    RemoveScheme,
    NextScheme,
    Beside,
    NextLeaf,
    PreviousLeaf,
    NextWindow,
    PreviousWindow,
    CopyLeaf,
    Present,
    TurnPhase,
    AskClass,
    TellClass,
    NextMatter,
}

impl Action {
    /// Whether it can be done in a mode.
    pub fn fits(&self, mode: Mode) -> bool {
        self.mode.is_none_or(|m| m == mode)
    }
}

/// The action that a press on the keyboard asks for.
pub fn pressed(press: &Press, heard: Heard, mode: Mode) -> Option<&'static Action> {
    ALL.iter().find(|action| {
        action.heard == heard
            && action.fits(mode)
            && action.keys.iter().any(|chord| chord.is(press))
    })
}

/// The actions that stand as buttons at a place, in their order.
pub fn shown_at(place: Shown) -> impl Iterator<Item = &'static Action> {
    ALL.iter().filter(move |a| a.shown == Some(place))
}
