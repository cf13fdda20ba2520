//! Everything that can be done, one record each: what the keyboard, the card, the menus and the list of keys are made of.

mod common;

use common::{END, TREE, desk};
use cordonry::check::Part;
use cordonry::row::{ShootId, TreeId};
use cordonry::said::Arg;
use cordonry_page::actions::{
    ALL, Command, Does, Heard, Press, Shown, choices_on, keys_of, named, pressed, shown_at,
};
use cordonry_page::document::Mode;
use cordonry_words::Words;
use std::collections::BTreeSet;

fn key(key: &str) -> Press {
    Press {
        key: key.into(),
        ..Press::default()
    }
}

#[test]
fn every_action_has_a_name_of_its_own_that_is_worded() {
    let words = Words::default();
    let mut names = BTreeSet::new();
    for action in ALL {
        assert!(words.has(action.name), "{} has no text", action.name);
        assert!(names.insert(action.name), "{} is there twice", action.name);
    }
}

#[test]
fn no_two_share_a_key_in_a_mode() {
    for mode in [Mode::Found, Mode::Work] {
        let all: Vec<_> = ALL.iter().filter(|a| a.fits(mode)).collect();
        for (i, one) in all.iter().enumerate() {
            for other in &all[i + 1..] {
                let both = one
                    .keys
                    .iter()
                    .find(|a| other.keys.iter().any(|b| a.meets(b)));
                assert_eq!(both, None, "{} and {}", one.name, other.name);
            }
        }
    }
}

#[test]
fn the_list_of_keys_has_every_action_with_a_key() {
    let words = Words::default();
    for mode in [Mode::Found, Mode::Work] {
        let listed = keys_of(mode, &words);
        let with_keys: Vec<_> = ALL
            .iter()
            .filter(|a| a.fits(mode) && !a.keys.is_empty())
            .collect();
        assert_eq!(listed.len(), with_keys.len());
        for (line, action) in listed.iter().zip(with_keys) {
            let does = words.plain(action.name);
            // A class alone asks and is told.
            let expected = match action.name {
                "present-ask" | "present-tell" | "present-matter" => {
                    words.text("keys-presenting", &[("does", Arg::Text(does))])
                }
                _ => does,
            };
            assert_eq!(line.does, expected);
            assert_eq!(line.keys.len(), action.keys.len());
        }
    }
    let redo = keys_of(Mode::Work, &words)
        .into_iter()
        .find(|l| l.does == words.plain("redo"))
        .expect("it has keys");
    assert_eq!(redo.keys, ["Ctrl Y", "Ctrl Shift Z"]);
}

#[test]
fn a_press_finds_its_action_by_mode_and_by_what_is_held() {
    let at = |press: &Press, heard, mode| pressed(press, heard, mode).map(|a| a.name);
    let wall = |press: &Press, mode| at(press, Heard::OnWall, mode);
    assert_eq!(wall(&key("Delete"), Mode::Work), Some("act-remove"));
    assert_eq!(wall(&key("Delete"), Mode::Found), Some("record-drop-shoot"));
    assert_eq!(wall(&key("S"), Mode::Work), Some("act-stub"));
    assert_eq!(wall(&key("s"), Mode::Found), None);
    assert_eq!(wall(&key("ArrowLeft"), Mode::Work), Some("action-previous"));
    let alt = Press {
        alt: true,
        ..key("ArrowLeft")
    };
    assert_eq!(wall(&alt, Mode::Work), Some("action-back"));
    let ctrl = |shift| Press {
        ctrl: true,
        shift,
        ..key("z")
    };
    let anywhere = |press: &Press| at(press, Heard::Everywhere, Mode::Work);
    assert_eq!(anywhere(&ctrl(false)), Some("undo"));
    assert_eq!(anywhere(&ctrl(true)), Some("redo"));
    // A press on a leaf or a time leaves the focus there.
    assert_eq!(anywhere(&key(".")), Some("leaf-next"));
    assert_eq!(anywhere(&key("<")), Some("window-previous"));
    // A press on a button leaves it there.
    for (pressed, does) in [
        ("v", "scheme-next"),
        ("c", "scheme-beside"),
        ("l", "light-toggle"),
        ("0", "fit-row"),
    ] {
        assert_eq!(anywhere(&key(pressed)), Some(does));
    }
    // What is done to a shoot is asked for on the wall.
    assert_eq!(anywhere(&key("s")), None);
    // What is held with Ctrl is no key of the wall.
    assert_eq!(wall(&ctrl(false), Mode::Work), None);
    assert_eq!(anywhere(&key("z")), None);
}

#[test]
fn what_the_core_offers_on_any_part_is_among_the_actions() {
    let mut desk = desk();
    let mut seen = BTreeSet::new();
    let parts: Vec<Part> = desk
        .scene()
        .row
        .trees
        .iter()
        .flat_map(|t| {
            let tree = Part {
                tree: t.id,
                shoot: None,
            };
            let shoots = t.shoots.iter().map(|s| Part {
                shoot: Some(s.id),
                ..tree
            });
            shoots.chain([tree]).collect::<Vec<_>>()
        })
        .collect();
    for part in parts {
        desk.choose(Some(part));
        for choice in choices_on(desk.scene(), part) {
            let action = named(choice.said.key).expect(choice.said.key);
            // A key does it at once, where it has one.
            assert!(matches!(action.does, Does::Choice) || !action.keys.is_empty());
            assert_eq!(action.shown, Some(Shown::Card));
            seen.insert(choice.said.key);
        }
    }
    assert!(seen.len() > 8, "{seen:?}");
}

#[test]
fn a_key_s_edit_is_the_card_s() {
    let mut desk = desk();
    let upright = Part {
        tree: TreeId(2),
        shoot: Some(ShootId::found(2)),
    };
    desk.choose(Some(upright));
    let Does::Edit(stub) = named("act-stub").expect("there").does else {
        panic!("a key makes an edit");
    };
    let by_key = stub(&desk, false).expect("it can be made").expect("a stub");
    let choices = choices_on(desk.scene(), upright);
    let choice = choices.iter().find(|c| c.said.key == "act-stub");
    let by_card = choice.expect("it is offered").work(&[]);
    assert_eq!(
        by_key,
        cordonry_page::document::Edit::work("step-stub", vec![by_card])
    );
    // Nothing is stubbed but an upright.
    desk.choose(Some(Part {
        tree: TreeId(2),
        shoot: Some(ShootId::STEM),
    }));
    assert_eq!(stub(&desk, false), Ok(None));
}

#[test]
fn small_steps_are_a_tenth_and_the_record_is_corrected_by_the_same_keys() {
    let mut desk = desk();
    desk.choose(Some(Part {
        tree: TREE,
        shoot: Some(END),
    }));
    let lean = |desk: &cordonry_page::desk::Desk| {
        let (_, shoot) = desk.scene().row.shoot(TREE, END).expect("it is there");
        match shoot.pose {
            cordonry::row::Pose::Upright { lean } => lean.degrees(),
            other => panic!("{other:?}"),
        }
    };
    let Does::Edit(raise) = named("action-raise").expect("there").does else {
        panic!("a key makes an edit");
    };
    for mode in [Mode::Work, Mode::Found] {
        desk.open(mode);
        desk.choose(Some(Part {
            tree: TREE,
            shoot: Some(END),
        }));
        for (fine, by) in [(false, 2.0), (true, 0.2)] {
            let before = lean(&desk);
            let edit = raise(&desk, fine).expect("it can be made").expect("a bend");
            desk.edit(&edit).expect("it is accepted");
            assert!((lean(&desk) - before - by).abs() < 1e-9, "{mode:?} {fine}");
        }
    }
    let label = |desk: &cordonry_page::desk::Desk| desk.steps().0;
    assert_eq!(label(&desk).as_deref(), Some("step-correct"));
}

#[test]
fn every_button_of_a_place_is_an_action_of_the_page_or_an_edit() {
    for place in [Shown::Bar, Shown::Files, Shown::View] {
        let all: Vec<_> = shown_at(place).collect();
        assert!(all.len() > 1, "{place:?}");
        assert!(all.iter().all(|a| matches!(a.does, Does::Page(_))));
    }
    let undo = named("undo").expect("there");
    assert!(matches!(undo.does, Does::Page(Command::Undo)));
    let mut desk = desk();
    assert!(!(undo.offered)(&desk));
    desk.choose(Some(Part {
        tree: TreeId(2),
        shoot: Some(ShootId::found(2)),
    }));
    let remove = named("act-remove").expect("there");
    let Does::Edit(edit) = remove.does else {
        panic!("a key makes an edit");
    };
    let edit = edit(&desk, false)
        .expect("it can be made")
        .expect("an edit");
    desk.edit(&edit).expect("it is accepted");
    assert!((undo.offered)(&desk));
}
