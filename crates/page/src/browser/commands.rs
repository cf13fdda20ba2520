//! Doing what an action says: an edit of the document, or something of the page.

use crate::actions::{Action, Command, Does, measures_of, named};
use crate::browser::app::App;
use crate::browser::controls::menu;
use crate::browser::device::files::{self, TableOf};
use crate::browser::device::in_place;
use crate::browser::dom;
use crate::browser::parts::once_paper;
use crate::desk::Desk;
use crate::document::{Edit, Mode, Request, Schemes, last_leaf};
use cordonry::check::Part;
use cordonry::plan::{Moment, Phase, Window};
use cordonry::said::Arg;
use leptos::prelude::*;

/// How much larger or smaller one press makes the wall.
const ZOOM: f64 = 1.25;

/// How far a page goes along the row, of what is in sight: a little stays.
const PAGE: f64 = 0.9;

/// Of how many pieces of work that can't be copied on it is said why.
const SAID_LEFT: usize = 4;

/// Does the action of a name.
pub fn act(app: App, name: &str) {
    if let Some(action) = named(name) {
        done(app, action, false);
    }
}

/// Does an action, in small steps or not; whether there was anything to do.
pub fn done(app: App, action: &Action, fine: bool) -> bool {
    match action.does {
        Does::Edit(edit) => {
            match app.peek(|desk| edit(desk, fine)) {
                Some(Ok(Some(edit))) => tell(app, edit, action.name),
                Some(Err(why)) => app.refuse(&why),
                Some(Ok(None)) | None => {}
            }
            true
        }
        // A slip before a class makes no scheme, and takes none away.
        Does::Page(command) if changes_schemes(command) && app.presented.on.get_untracked() => true,
        Does::Page(command) => run(app, command),
        // Pressed in the card, which asks for its numbers.
        Does::Choice => false,
    }
}

/// Makes an edit of what is chosen and has it read out: what it was done to, by the name that it had, and what is so now.
/// Where neither work nor a number of the record tells that, the text of `key` does.
pub fn tell(app: App, edit: Edit, key: &str) {
    let chosen = app.peek(|d| {
        let part = d.chosen()?;
        let name = app.worded(|w| w.part(&d.scene().row, part.tree, part.shoot));
        Some((part, name, measures_of(d.plan(), part)))
    });
    let mut done = match &edit.request {
        Request::Work(works) => works.first().map(|work| app.worded(|w| w.work(work))),
        _ => None,
    };
    if let Err(why) = app.try_edit(edit) {
        return app.refuse(&why);
    }
    let Some((part, name, before)) = chosen.flatten() else {
        return;
    };
    if done.is_none() {
        let now = app
            .peek(|d| measures_of(d.plan(), part))
            .unwrap_or_default();
        let mut pairs = now.into_iter().zip(&before);
        // Of a shoot that is gone the tree's own numbers are what is there.
        let changed = pairs.find(|(now, then)| now.key == then.key && now != *then);
        done = changed.map(|(now, _)| {
            let value = app.text("value", &[("value", now.unit.arg(now.value))]);
            format!("{} {value}", app.t(now.key))
        });
    }
    let done = done.unwrap_or_else(|| app.t(key));
    let line = [("part", Arg::Text(name)), ("work", Arg::Text(done))];
    app.told.set(app.text("work-line", &line));
}

fn run(app: App, command: Command) -> bool {
    match command {
        Command::Undo => app.undo(),
        Command::Redo => app.redo(),
        Command::Save => in_place::save(app),
        Command::SavePlan => files::save_plan(app),
        Command::PassOn => app.passing.set(true),
        Command::SaveInPlace => in_place::save_into(app),
        Command::SaveTable => files::save_table(app, TableOf::Found),
        Command::SaveTableShown => files::save_table(app, TableOf::Shown),
        Command::SaveDrawing => files::save_drawing(app),
        Command::SavePicture => files::save_picture(app),
        Command::Print => once_paper(dom::print),
        Command::Close => app.close(),
        Command::LetGo => return let_go(app),
        Command::Next => step(app, true),
        Command::Previous => step(app, false),
        Command::ToTree => {
            let tree = app.peek(|d| d.chosen().map(|c| c.tree)).flatten();
            app.choose(tree.map(|tree| Part { tree, shoot: None }));
        }
        Command::ToCard => match app.peek(Desk::chosen).flatten() {
            Some(part) if part.shoot.is_some() && app.presented.asks.get_untracked() => {
                app.point_out(part)
            }
            _ => to_card(app),
        },
        Command::Light => app.light.toggle(app),
        Command::Larger => app.zoom(ZOOM),
        Command::Smaller => app.zoom(1.0 / ZOOM),
        Command::RowStart => app.look_along(|_| f64::NEG_INFINITY),
        Command::RowEnd => app.look_along(|_| f64::INFINITY),
        Command::ViewOn => app.look_along(|seen| seen.middle() + PAGE * seen.length()),
        Command::ViewBack => app.look_along(|seen| seen.middle() - PAGE * seen.length()),
        Command::ToNumber => dom::focus_soon("[data-field=to-number]"),
        Command::FitRow => app.fit(true),
        Command::FitHeight => app.fit(false),
        Command::AddScheme => app.edit(Edit::schemes(Schemes::Add)),
        Command::CopyScheme => app.edit(Edit::schemes(Schemes::Copy)),
        Command::NameScheme => {
            app.naming.set(true);
            dom::focus_soon(".scheme-name");
        }
        Command::RemoveScheme => app.edit(Edit::schemes(Schemes::Remove)),
        Command::NextScheme => app.turn(|d| d.look_under(next_scheme(d))),
        Command::Beside => app.turn(|d| {
            let count = d.plan().schemes.len();
            let own = d.look().scheme;
            // Each of the others in turn, then none.
            let next = (d.scheme_beside().unwrap_or(own) + 1) % count;
            d.set_beside((next != own).then_some(next));
        }),
        Command::NextLeaf => step_moment(app, WINDOWS),
        Command::PreviousLeaf => step_moment(app, -WINDOWS),
        Command::NextWindow => step_moment(app, 1),
        Command::PreviousWindow => step_moment(app, -1),
        Command::CopyLeaf => copy_leaf(app),
        Command::TurnPhase => app.turn(|d| {
            d.show(match d.look().phase {
                Phase::Before => Phase::After,
                Phase::After => Phase::Before,
            });
        }),
        Command::Present => app.present(!app.presented.on.get_untracked()),
        command => return before_class(app, command),
    }
    true
}

/// Whether a command makes schemes, names or removes them, or writes work into them at a press.
fn changes_schemes(command: Command) -> bool {
    use Command::{AddScheme, CopyLeaf, CopyScheme, NameScheme, RemoveScheme};
    matches!(
        command,
        AddScheme | CopyLeaf | CopyScheme | NameScheme | RemoveScheme
    )
}

/// What is done before a class alone; whether there is one.
fn before_class(app: App, command: Command) -> bool {
    let shown = app.presented;
    if !shown.on.get_untracked() {
        return false;
    }
    match command {
        Command::AskClass => app.ask_class(!shown.asks.get_untracked()),
        Command::TellClass => app.tell_class(!shown.told.get_untracked()),
        Command::NextMatter => app.show_matter(),
        _ => return false,
    }
    true
}

fn next_scheme(desk: &Desk) -> usize {
    (desk.look().scheme + 1) % desk.plan().schemes.len()
}

/// How many windows a leaf has.
const WINDOWS: i16 = Window::ALL.len() as i16;

/// So many windows on or back, among the leaves that are told.
fn step_moment(app: App, by: i16) {
    app.turn(|d| {
        let Moment { leaf, window } = d.look().moment;
        let first = i16::from(d.plan().found.leaf) * WINDOWS;
        let last = i16::from(last_leaf(d.plan())) * WINDOWS + WINDOWS - 1;
        let now = i16::from(leaf) * WINDOWS + window as i16;
        let next = now + by;
        // A step beyond the ends stays where it is, at its own time of the leaf.
        if (first..=last).contains(&next) {
            d.look_at(Moment {
                leaf: (next / WINDOWS) as u8,
                window: Window::ALL[(next % WINDOWS) as usize],
            });
        }
    });
}

/// Copies the leaf's work on, and says what could not follow.
fn copy_leaf(app: App) {
    let leaf = app.peek(|d| d.look().moment.leaf).unwrap_or(0);
    let done = match app.try_edit(Edit::copy_leaf()) {
        Ok(done) => done,
        Err(why) => return app.refuse(&why),
    };
    let count = |n: usize| ("count", Arg::Count(n as i64));
    let leaf = ("leaf", Arg::Count((leaf + 1).into()));
    let mut said = app.text("leaf-copied", &[count(done.count), leaf]);
    if !done.left.is_empty() {
        let whys = done.left.iter().take(SAID_LEFT);
        let mut whys: Vec<String> = whys.map(|v| app.worded(|w| w.refusal(&v.why))).collect();
        if done.left.len() > whys.len() {
            whys.push("…".into());
        }
        let why = ("why", Arg::Text(whys.join("; ")));
        let left = app.text("leaf-left", &[count(done.left.len()), why]);
        said = format!("{said} {left}");
    }
    app.say(said, !done.left.is_empty());
}

fn step(app: App, forward: bool) {
    let next = app
        .peek(|d| d.scene().neighbour(d.chosen(), forward))
        .flatten();
    if next.is_some() {
        app.choose(next);
        app.show_chosen();
    }
}

/// To the card's first action; to its first field while the record is open.
fn to_card(app: App) {
    app.open_card();
    dom::focus_soon(match app.peek(|d| d.mode()) {
        Some(Mode::Found) => ".part-card input",
        _ => ".part-card button",
    });
}

/// Leaves what is open, one thing at a time and the innermost first: the menu, what is in the hand, what is offered, the
/// card, what is chosen, the record. Whether there was anything.
fn let_go(app: App) -> bool {
    if menu::close_to_name() {
        return true;
    }
    let is = |what: fn(&Desk) -> bool| app.peek(what) == Some(true);
    if is(Desk::is_holding) {
        app.turn(Desk::drop_hold);
        return true;
    }
    if app.offer.with_untracked(Option::is_some) {
        app.offer.set(None);
        dom::keep_focus();
        return true;
    }
    if app.marking.with_untracked(Option::is_some) {
        app.set_marking(None);
        dom::keep_focus();
        return true;
    }
    // The card goes before the choice, so that the wall is seen; before a class there is none.
    if !app.presented.on.get_untracked() && app.close_card() {
        return true;
    }
    if is(|d| d.chosen().is_some()) {
        app.turn(|d| d.choose(None));
        return true;
    }
    if app.presented.on.get_untracked() {
        app.present(false);
        return true;
    }
    let recording = is(Desk::is_found);
    if recording {
        app.open_mode(Mode::Work);
    }
    recording
}
