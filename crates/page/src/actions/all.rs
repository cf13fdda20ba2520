//! The list.

use super::edits::{self as edit, always, shoot_chosen, tree_chosen};
use super::{Action, Chord, Command, Does, Heard, Held, Shown};
use crate::document::Mode;

const fn page(name: &'static str, command: Command) -> Action {
    Action {
        name,
        keys: &[],
        heard: Heard::Everywhere,
        mode: None,
        shown: None,
        offered: always,
        does: Does::Page(command),
    }
}

const fn on_wall(name: &'static str, keys: &'static [Chord], does: Does) -> Action {
    Action {
        name,
        keys,
        heard: Heard::OnWall,
        mode: None,
        shown: None,
        offered: always,
        does,
    }
}

/// Something that is done to the chosen shoot, in both modes.
const fn on_shoot(name: &'static str, keys: &'static [Chord], does: Does) -> Action {
    Action {
        offered: shoot_chosen,
        ..on_wall(name, keys, does)
    }
}

/// What part of the wall is in sight; a button over it.
const fn sight(name: &'static str, keys: &'static [Chord], command: Command) -> Action {
    Action {
        heard: Heard::Everywhere,
        shown: Some(Shown::View),
        ..on_wall(name, keys, Does::Page(command))
    }
}

/// A choice of the core on the chosen part.
const fn choice(name: &'static str) -> Action {
    Action {
        mode: Some(Mode::Work),
        shown: Some(Shown::Card),
        ..on_wall(name, &[], Does::Choice)
    }
}

/// Something in the record's card.
const fn record(
    name: &'static str,
    keys: &'static [Chord],
    offered: fn(&crate::desk::Desk) -> bool,
    does: Does,
) -> Action {
    Action {
        mode: Some(Mode::Found),
        shown: Some(Shown::Card),
        offered,
        ..on_wall(name, keys, does)
    }
}

/// Something about the schemes and their leaves. What is pressed around the wall has the focus: the keys are heard there too.
const fn scheme(
    name: &'static str,
    keys: &'static [Chord],
    offered: fn(&crate::desk::Desk) -> bool,
    command: Command,
) -> Action {
    Action {
        keys,
        mode: Some(Mode::Work),
        offered,
        ..page(name, command)
    }
}

/// When the row is looked at.
const fn time(name: &'static str, keys: &'static [Chord], command: Command) -> Action {
    scheme(name, keys, always, command)
}

const fn at(place: Shown, action: Action) -> Action {
    Action {
        shown: Some(place),
        ..action
    }
}

const DELETE: &[Chord] = &[Chord::key("delete"), Chord::key("backspace")];
const B: &[Chord] = &[Chord::key("b")];

/// Takes back the work of this moment on the chosen part, or one piece of it in a list.
pub static TAKE_BACK: &str = "act-take-back";

/// Everything that can be done, in the order in which it is listed.
pub static ALL: &[Action] = &[
    // Over the wall.
    Action {
        keys: &[Chord::ctrl("z", Held::No)],
        offered: |desk| desk.steps().0.is_some(),
        ..at(Shown::Bar, page("undo", Command::Undo))
    },
    Action {
        keys: &[Chord::ctrl("y", Held::No), Chord::ctrl("z", Held::Yes)],
        offered: |desk| desk.steps().1.is_some(),
        ..at(Shown::Bar, page("redo", Command::Redo))
    },
    Action {
        keys: &[Chord::key("p")],
        ..at(Shown::Bar, page("present", Command::Present))
    },
    Action {
        keys: &[Chord::ctrl("s", Held::No)],
        ..page("action-save", Command::Save)
    },
    at(Shown::Files, page("save-plan", Command::SavePlan)),
    at(Shown::Files, page("pass-on", Command::PassOn)),
    at(Shown::Files, page("save-in-place", Command::SaveInPlace)),
    at(Shown::Files, page("save-table", Command::SaveTable)),
    at(
        Shown::Files,
        page("save-table-shown", Command::SaveTableShown),
    ),
    at(Shown::Files, page("save-drawing", Command::SaveDrawing)),
    at(Shown::Files, page("save-picture", Command::SavePicture)),
    at(Shown::Files, page("other-row", Command::Close)),
    // The browser waits for nothing: by this way the sheets are there.
    Action {
        keys: &[Chord::ctrl("p", Held::No)],
        ..page("print", Command::Print)
    },
    // Choosing.
    on_wall(
        "action-next",
        &[Chord::plain("arrowright")],
        Does::Page(Command::Next),
    ),
    on_wall(
        "action-previous",
        &[Chord::plain("arrowleft")],
        Does::Page(Command::Previous),
    ),
    Action {
        offered: |desk| desk.chosen().is_some(),
        ..on_wall(
            "action-to-card",
            &[Chord::key("enter")],
            Does::Page(Command::ToCard),
        )
    },
    Action {
        keys: &[Chord {
            ctrl: Held::Either,
            ..Chord::key("escape")
        }],
        ..page("action-let-go", Command::LetGo)
    },
    // On the chosen shoot.
    on_shoot(
        "action-raise",
        &[Chord::key("arrowup")],
        Does::Edit(edit::raise),
    ),
    on_shoot(
        "action-lower",
        &[Chord::key("arrowdown")],
        Does::Edit(edit::lower),
    ),
    on_shoot(
        "action-forward",
        &[Chord::alt("arrowright")],
        Does::Edit(edit::forward),
    ),
    on_shoot(
        "action-back",
        &[Chord::alt("arrowleft")],
        Does::Edit(edit::back),
    ),
    Action {
        mode: Some(Mode::Work),
        ..on_shoot("action-bud", B, Does::Edit(edit::keep_bud))
    },
    Action {
        mode: Some(Mode::Found),
        ..on_shoot("action-upright", B, Does::Edit(edit::record_upright))
    },
    // In the card of what is chosen.
    Action {
        mode: Some(Mode::Work),
        offered: edit::work_chosen,
        ..at(
            Shown::Card,
            on_wall(TAKE_BACK, &[], Does::Edit(edit::take_back)),
        )
    },
    Action {
        keys: &[Chord::key("s")],
        offered: shoot_chosen,
        does: Does::Edit(edit::stub),
        ..choice("act-stub")
    },
    choice("act-lay-left"),
    choice("act-lay-right"),
    choice("act-lower"),
    choice("act-stand"),
    choice("act-rub-out"),
    choice("act-take-laterals"),
    choice("act-tip"),
    choice("act-hold-height"),
    choice("act-cut"),
    choice("act-cut-to-buds"),
    choice("act-thin"),
    choice("act-move-bud"),
    Action {
        keys: DELETE,
        offered: shoot_chosen,
        does: Does::Edit(edit::remove),
        ..choice("act-remove")
    },
    choice("act-plant"),
    choice("act-remove-tree"),
    choice("act-replace-tree"),
    record(
        "record-drop-shoot",
        DELETE,
        shoot_chosen,
        Does::Edit(edit::drop_shoot),
    ),
    record(
        "record-to-tree",
        &[],
        shoot_chosen,
        Does::Page(Command::ToTree),
    ),
    Action {
        mode: None,
        ..record(
            "record-diseased",
            &[],
            edit::sound_chosen,
            Does::Edit(edit::mark_tree),
        )
    },
    Action {
        mode: None,
        ..record(
            "record-sound",
            &[],
            edit::diseased_chosen,
            Does::Edit(edit::mark_tree),
        )
    },
    record(
        "record-standing",
        &[],
        edit::lost_chosen,
        Does::Edit(edit::stand_tree),
    ),
    record(
        "record-lost",
        &[],
        edit::standing_chosen,
        Does::Edit(edit::lose_tree),
    ),
    record(
        "record-drop-tree",
        &[],
        tree_chosen,
        Does::Edit(edit::drop_tree),
    ),
    // Schemes and leaves.
    at(
        Shown::Schemes,
        scheme(
            "scheme-add",
            &[Chord::key("n")],
            edit::has_room,
            Command::AddScheme,
        ),
    ),
    at(
        Shown::Schemes,
        scheme(
            "scheme-copy",
            &[Chord::key("d")],
            edit::has_room,
            Command::CopyScheme,
        ),
    ),
    at(
        Shown::Schemes,
        scheme(
            "scheme-rename",
            &[Chord::key("r")],
            always,
            Command::NameScheme,
        ),
    ),
    at(
        Shown::Schemes,
        scheme(
            "scheme-remove",
            &[Chord::key("x")],
            edit::has_others,
            Command::RemoveScheme,
        ),
    ),
    scheme(
        "scheme-next",
        &[Chord::key("v")],
        edit::has_others,
        Command::NextScheme,
    ),
    scheme(
        "scheme-beside",
        &[Chord::key("c")],
        edit::has_others,
        Command::Beside,
    ),
    time("leaf-next", &[Chord::key(".")], Command::NextLeaf),
    time("leaf-previous", &[Chord::key(",")], Command::PreviousLeaf),
    // Of the two keys of each, one keyboard or another has the first beside those of the leaves.
    time(
        "window-next",
        &[Chord::key(">"), Chord::key(":")],
        Command::NextWindow,
    ),
    time(
        "window-previous",
        &[Chord::key("<"), Chord::key(";")],
        Command::PreviousWindow,
    ),
    scheme(
        "leaf-copy-on",
        &[Chord::key("f")],
        edit::has_work_to_copy,
        Command::CopyLeaf,
    ),
    // Before a class. What is under two schemes is turned by their own keys.
    Action {
        keys: &[Chord::key("w")],
        mode: Some(Mode::Work),
        ..at(Shown::Present, page("present-phase", Command::TurnPhase))
    },
    Action {
        keys: &[Chord::key("q")],
        ..at(Shown::Present, page("present-ask", Command::AskClass))
    },
    Action {
        keys: &[Chord::key("a")],
        ..at(Shown::Present, page("present-tell", Command::TellClass))
    },
    Action {
        keys: &[Chord::key("m")],
        ..at(Shown::Present, page("present-matter", Command::NextMatter))
    },
    // What is in sight.
    Action {
        keys: &[Chord::key("l")],
        ..page("light-toggle", Command::Light)
    },
    on_wall(
        "view-on",
        &[Chord::key("pagedown")],
        Does::Page(Command::ViewOn),
    ),
    on_wall(
        "view-back",
        &[Chord::key("pageup")],
        Does::Page(Command::ViewBack),
    ),
    on_wall(
        "row-start",
        &[Chord::key("home")],
        Does::Page(Command::RowStart),
    ),
    on_wall("row-end", &[Chord::key("end")], Does::Page(Command::RowEnd)),
    Action {
        keys: &[Chord::key("g")],
        ..page("to-number", Command::ToNumber)
    },
    sight("fit-row", &[Chord::key("0")], Command::FitRow),
    sight("fit-height", &[Chord::key("1")], Command::FitHeight),
    sight("zoom-out", &[Chord::key("-")], Command::Smaller),
    sight(
        "zoom-in",
        &[Chord::key("+"), Chord::key("=")],
        Command::Larger,
    ),
];

/// The action of a name.
pub fn named(name: &str) -> Option<&'static Action> {
    ALL.iter().find(|action| action.name == name)
}
