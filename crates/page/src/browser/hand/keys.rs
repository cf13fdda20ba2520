//! The keyboard on the wall: everything that a hand can do.

use crate::browser::app::App;
use crate::browser::controls::{dialog, menu};
use cordonry::check::Part;
use cordonry::plan::Correction;
use cordonry::refusal::Refusal;
use cordonry::row::{Kind, Limit, Pose, ShootId, Toward, TreeId};
use cordonry::units::{Deg, Mm};
use cordonry::work::{Work, nudged};
use web_sys::KeyboardEvent;

/// Keys that work wherever the focus is, but in fields. Whether the key was taken.
pub fn everywhere(app: App, event: &KeyboardEvent) -> bool {
    if dialog::is_open() {
        return false;
    }
    if event.key() == "Escape" {
        if menu::close_to_name() {
            return true;
        }
        let in_hand = app.peek(crate::desk::Desk::dragging) == Some(true);
        // The first closes the card, so that the wall is seen; what is chosen is let go by the next.
        if !in_hand && app.close_card() {
            return true;
        }
        let any = in_hand || app.peek(|d| d.chosen.is_some()) == Some(true);
        if any {
            let_go(app);
        } else if correcting(app) {
            app.correct_record(false);
            return true;
        }
        return any;
    }
    if !(event.ctrl_key() || event.meta_key()) || event.alt_key() {
        return false;
    }
    match (event.key().to_lowercase().as_str(), event.shift_key()) {
        ("z", false) => app.undo(),
        ("y", false) | ("z", true) => app.redo(),
        ("s", false) => crate::browser::device::in_place::save(app),
        _ => return false,
    }
    true
}

/// Keys while the focus is on the wall. Whether the key was taken.
pub fn on_wall(app: App, event: &KeyboardEvent) -> bool {
    if event.ctrl_key() || event.meta_key() {
        return false;
    }
    let chosen = app.peek(|d| d.chosen).flatten();
    let fine = if event.shift_key() { 0.2 } else { 2.0 };
    if correcting(app) && on_record(app, event, chosen, fine) {
        return true;
    }
    match event.key().as_str() {
        "ArrowRight" if event.alt_key() => nudge(app, chosen, event.shift_key(), 1),
        "ArrowLeft" if event.alt_key() => nudge(app, chosen, event.shift_key(), -1),
        "ArrowRight" => step(app, true),
        "ArrowLeft" => step(app, false),
        "ArrowUp" => bend(app, chosen, fine),
        "ArrowDown" => bend(app, chosen, -fine),
        "Delete" | "Backspace" => {
            if let Some((tree, shoot)) = chosen.and_then(|c| Some((c.tree, c.shoot?))) {
                app.edit(|d| d.work("step-remove", vec![Work::Remove { tree, shoot }]));
            }
        }
        "Enter" => {
            // To the card's first action.
            app.open_card();
            crate::browser::dom::focus_soon(".part-card button");
        }
        "+" | "=" => app.zoom(1.25),
        "-" => app.zoom(0.8),
        "0" => app.fit(true),
        "1" => app.fit(false),
        "b" | "B" => bud(app, chosen),
        "l" | "L" => app.light.toggle(app),
        "s" | "S" => stub(app, chosen),
        _ => return false,
    }
    true
}

/// Lets go of what is in the hand and of what is chosen.
fn let_go(app: App) {
    app.edit(|d| {
        d.drop_drag();
        d.choose(None);
        Ok(())
    });
}

fn correcting(app: App) -> bool {
    app.peek(crate::desk::Desk::correcting).unwrap_or(false)
}

/// Keys while the record is corrected that would otherwise do work. Whether the key was taken.
fn on_record(app: App, event: &KeyboardEvent, chosen: Option<Part>, fine: f64) -> bool {
    let part = chosen.and_then(|c| Some((c.tree, c.shoot?)));
    let measured = |keys: [&str; 2], by: f64| {
        app.edit(|d| {
            let Some((tree, shoot)) = part else {
                return Ok(());
            };
            let measures = d.plan().found.tree(tree).map(|t| t.measures(Some(shoot)));
            let measure = measures
                .into_iter()
                .flatten()
                .find(|m| keys.contains(&m.key));
            match measure {
                Some(m) => d.correct(&m.to(m.value + by)),
                None => Ok(()),
            }
        });
    };
    let along = if event.shift_key() { 1.0 } else { 10.0 };
    match event.key().as_str() {
        "ArrowUp" => measured(["measure-rise", "measure-lean"], fine),
        "ArrowDown" => measured(["measure-rise", "measure-lean"], -fine),
        "ArrowRight" if event.alt_key() => measured(["measure-at", ""], along),
        "ArrowLeft" if event.alt_key() => measured(["measure-at", ""], -along),
        "Delete" | "Backspace" => {
            if let Some((tree, shoot)) = part {
                app.edit(|d| d.correct(&Correction::DropShoot { tree, shoot }));
            }
        }
        "b" | "B" => {
            if let Some((tree, shoot)) = part {
                app.edit(|d| match d.widest_space(tree, shoot) {
                    Some(x) => d.record_upright(tree, shoot, x),
                    None => Ok(()),
                });
            }
        }
        "s" | "S" => {}
        "Enter" => {
            app.open_card();
            crate::browser::dom::focus_soon(".part-card input");
        }
        _ => return false,
    }
    true
}

/// Moves the chosen kept bud a little along its wood.
fn nudge(app: App, chosen: Option<Part>, fine: bool, way: i32) {
    let by = way * if fine { 1 } else { 10 };
    app.edit(|d| {
        let part = chosen.and_then(|c| Some((c.tree, c.shoot?)));
        match part.and_then(|(tree, shoot)| nudged(&d.row, tree, shoot, by)) {
            Some(work) => d.work("step-move-bud", vec![work]),
            None => Ok(()),
        }
    });
}

fn step(app: App, forward: bool) {
    let next = app.peek(|d| d.neighbour(forward)).flatten();
    if next.is_some() {
        app.choose(next);
        app.show_chosen();
    }
}

/// Raises or lowers the end of the chosen shoot by so many degrees.
fn bend(app: App, chosen: Option<Part>, by: f64) {
    let Some((tree, shoot)) = chosen.and_then(|c| Some((c.tree, c.shoot?))) else {
        return;
    };
    app.edit(|d| {
        let Some((_, wood)) = d.row.shoot(tree, shoot) else {
            return Ok(());
        };
        let work = match wood.pose {
            Pose::Laid { toward, rise } => Work::Lay {
                tree,
                shoot,
                toward,
                // A step ends on the wire; from below it goes on as it did.
                rise_deg: Deg::new(match rise.degrees() {
                    now if now > 0.0 => (now + by).clamp(0.0, Pose::MAX_RISE),
                    now => (now + by).clamp(Pose::MIN_RISE, Pose::MAX_RISE),
                }),
            },
            Pose::Upright { lean } => Work::Stand {
                tree,
                shoot,
                lean_deg: Deg::new((lean.degrees() + by).clamp(-60.0, 60.0)),
            },
            Pose::Free => Work::Lay {
                tree,
                shoot,
                toward: Toward::Right,
                rise_deg: Deg::default(),
            },
            Pose::Stub => return Ok(()),
        };
        d.work("step-bend", vec![work])
    });
}

/// Keeps a bud in the middle of the widest space on the chosen laid shoot.
fn bud(app: App, chosen: Option<Part>) {
    let Some((tree, shoot)) = chosen.and_then(|c| Some((c.tree, c.shoot?))) else {
        return;
    };
    app.edit(|d| match d.widest_space(tree, shoot) {
        Some(x) => d.keep_bud(tree, shoot, x),
        None => Err(Refusal::new("refusal-bud-off-wood", Vec::new())),
    });
}

fn stub(app: App, chosen: Option<Part>) {
    if let Some((tree, shoot)) = chosen.and_then(|c| Some((c.tree, c.shoot?))) {
        stub_shoot(app, tree, shoot);
    }
}

/// Cuts a shoot to a stub of the length in force.
pub fn stub_shoot(app: App, tree: TreeId, shoot: ShootId) {
    app.edit(|d| {
        let keep = d.plan().targets.get(Limit::StubLength);
        let upright = d
            .row
            .shoot(tree, shoot)
            .is_some_and(|(_, s)| s.kind() == Kind::Upright);
        if !upright {
            return Ok(());
        }
        d.work(
            "step-stub",
            vec![Work::Stub {
                tree,
                shoot,
                keep_mm: Mm::round(keep),
            }],
        )
    });
}
