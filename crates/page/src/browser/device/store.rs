//! What is kept on the device: one record a plan, written by one tab at a time; a few settings.

use crate::browser::app::{App, Keeper, Kept, Record};
use cordonry::arrange::Arrange;
use cordonry::units::LengthStyle;
use cordonry_draw::Paper;
use idb::{
    Database, DatabaseEvent, Factory, KeyPath, ObjectStoreParams, TransactionFuture,
    TransactionMode,
};
use js_sys::{Function, Promise, Reflect};
use leptos::prelude::*;
use std::cell::RefCell;
use std::future::IntoFuture;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

const DATABASE: &str = "cordonry";
const PLANS: &str = "plans";
const OPEN: &str = "cordonry.open";
const LENGTHS: &str = "cordonry.lengths";
const LANGUAGE: &str = "cordonry.language";
const PAPER: &str = "cordonry.paper";
const WALK: &str = "cordonry.walk";
const WALKING: &str = "cordonry.walking";

thread_local! {
    /// The database once it is open. It stays open, so that a save can begin within the very event that ends the page:
    /// to open it takes a turn that a page on its way out is not given.
    static OPENED: RefCell<Option<Rc<Database>>> = const { RefCell::new(None) };
}

/// This device.
pub struct Device;

impl Keeper for Device {
    fn length_style(&self) -> LengthStyle {
        length_style()
    }

    fn set_length_style(&self, style: LengthStyle) {
        set_length_style(style);
    }

    fn language(&self) -> Option<String> {
        local()?.get_item(LANGUAGE).ok().flatten()
    }

    fn set_language(&self, code: &str) {
        if let Some(local) = local() {
            let _ = local.set_item(LANGUAGE, code);
        }
    }

    fn paper(&self) -> Paper {
        let kept = local().and_then(|l| l.get_item(PAPER).ok().flatten());
        kept.and_then(|name| Paper::named(&name))
            .unwrap_or_else(usual_paper)
    }

    fn set_paper(&self, paper: Paper) {
        if let Some(local) = local() {
            let _ = local.set_item(PAPER, paper.name());
        }
    }

    fn opened(&self, app: App, id: String) {
        super::in_place::forget();
        remember_open(Some(&id));
        hold(app, id);
    }

    fn closed(&self) {
        remember_open(None);
        let_go();
    }

    fn save(&self, app: App, record: Record) {
        save(app, record);
    }
}

async fn database() -> Result<Rc<Database>, idb::Error> {
    if let Some(opened) = OPENED.with_borrow(Clone::clone) {
        return Ok(opened);
    }
    let factory = Factory::new()?;
    let mut request = factory.open(DATABASE, Some(1))?;
    request.on_upgrade_needed(|event| {
        if let Ok(database) = event.database() {
            let mut params = ObjectStoreParams::new();
            params.key_path(Some(KeyPath::new_single("id")));
            let _ = database.create_object_store(PLANS, params);
        }
    });
    let mut database = request.await?;
    // A newer program in another tab, or the user who clears the device, must not wait for this tab.
    database.on_version_change(|_| forget_database());
    database.on_close(|_| forget_database());
    let database = Rc::new(database);
    OPENED.set(Some(Rc::clone(&database)));
    Ok(database)
}

/// Closes the database; the next question opens it again.
fn forget_database() {
    if let Some(database) = OPENED.with_borrow_mut(Option::take) {
        database.close();
        // Its handlers may be what is running.
        spawn_local(async move { drop(database) });
    }
}

/// Begins to write a record, and asks at once that it be committed: a page that goes is not asked again.
fn begin_put(database: &Database, record: &Record) -> Result<TransactionFuture, idb::Error> {
    let value = serde_wasm_bindgen::to_value(record)
        .map_err(|e| idb::Error::UnexpectedJsType("a record", e.into()))?;
    let transaction = database.transaction(&[PLANS], TransactionMode::ReadWrite)?;
    transaction.object_store(PLANS)?.put(&value, None)?;
    Ok(transaction.commit()?.into_future())
}

/// Writes a record with the database that is open, else opens it; whether it is written.
async fn put(begun: Option<TransactionFuture>, record: &Record) -> bool {
    let begun = match begun {
        Some(begun) => Ok(begun),
        None => {
            forget_database();
            database().await.and_then(|d| begin_put(&d, record))
        }
    };
    match begun {
        Ok(begun) => begun.await.is_ok_and(|r| r.is_committed()),
        Err(_) => false,
    }
}

/// Every record, the newest first.
pub async fn records() -> Vec<Record> {
    let read = async {
        let database = database().await?;
        let transaction = database.transaction(&[PLANS], TransactionMode::ReadOnly)?;
        let all = transaction
            .object_store(PLANS)?
            .get_all(None, None)?
            .await?;
        Ok::<_, idb::Error>(all)
    };
    let mut out: Vec<Record> = read
        .await
        .unwrap_or_default()
        .into_iter()
        .filter_map(|v| serde_wasm_bindgen::from_value(v).ok())
        .collect();
    out.arrange_by(|a, b| b.saved_ms.total_cmp(&a.saved_ms));
    out
}

/// The record of that id, if the device keeps it.
pub async fn record(id: &str) -> Option<Record> {
    let read = async {
        let database = database().await?;
        let transaction = database.transaction(&[PLANS], TransactionMode::ReadOnly)?;
        let found = transaction
            .object_store(PLANS)?
            .get(idb::Query::Key(JsValue::from_str(id)))?
            .await?;
        Ok::<_, idb::Error>(found)
    };
    serde_wasm_bindgen::from_value(read.await.ok()??).ok()
}

/// Takes a record off the device.
pub async fn remove(id: &str) -> Result<(), idb::Error> {
    let database = database().await?;
    let transaction = database.transaction(&[PLANS], TransactionMode::ReadWrite)?;
    transaction
        .object_store(PLANS)?
        .delete(idb::Query::Key(JsValue::from_str(id)))?
        .await?;
    transaction.commit()?.await?;
    Ok(())
}

/// Saves a record, and says so. It is on its way when this returns, where the database is open.
fn save(app: App, record: Record) {
    let opened = OPENED.with_borrow(Clone::clone);
    let begun = opened.and_then(|d| begin_put(&d, &record).ok());
    spawn_local(async move {
        match put(begun, &record).await {
            // Something newer may already wait; then this save is not the last word.
            true if app.record_id().as_deref() == Some(&record.id) => {
                app.kept.update(|k| {
                    if *k == Kept::Waiting && app.nothing_pending() {
                        *k = Kept::Saved;
                    }
                });
            }
            true => {}
            false => {
                app.kept.set(Kept::Impossible);
                app.say(app.t("save-impossible"), true);
            }
        }
    });
}

fn local() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

/// The id of the record that was open last.
pub fn last_open() -> Option<String> {
    local()?.get_item(OPEN).ok().flatten()
}

/// Remembers which record is open.
fn remember_open(id: Option<&str>) {
    if let Some(local) = local() {
        let _ = match id {
            Some(id) => local.set_item(OPEN, id),
            None => local.remove_item(OPEN),
        };
    }
}

/// How lengths were shown last.
fn length_style() -> LengthStyle {
    match local().and_then(|l| l.get_item(LENGTHS).ok().flatten()) {
        Some(word) if word == "feet" => LengthStyle::FeetInches,
        _ => LengthStyle::Metric,
    }
}

/// Remembers how lengths are shown.
fn set_length_style(style: LengthStyle) {
    if let Some(local) = local() {
        let word = match style {
            LengthStyle::Metric => "metres",
            LengthStyle::FeetInches => "feet",
        };
        let _ = local.set_item(LENGTHS, word);
    }
}

/// The usual paper of the country that the browser's language names, as `en-US` does.
fn usual_paper() -> Paper {
    let language = window().navigator().language().unwrap_or_default();
    language
        .split('-')
        .skip(1)
        .find(|part| part.len() == 2)
        .map_or(Paper::A4, Paper::usual_in)
}

/// The half-finished walk that is kept here.
pub fn kept_walk() -> Option<cordonry::walk::Walk> {
    let text = local()?.get_item(WALK).ok().flatten()?;
    cordonry::file::read_walk(&text).ok()
}

/// Keeps a walk, or gives up the one that is kept.
pub fn keep_walk(walk: Option<&cordonry::walk::Walk>) {
    if let Some(local) = local() {
        let _ = match walk {
            Some(walk) => local.set_item(WALK, &cordonry::file::write_walk(walk)),
            None => local.remove_item(WALK),
        };
    }
}

/// Whether the page was last at the walk that is kept.
pub fn walk_is_open() -> bool {
    let open = local().and_then(|l| l.get_item(WALKING).ok().flatten());
    open.is_some() && kept_walk().is_some()
}

/// Remembers whether the page is at the walk.
pub fn set_walk_open(open: bool) {
    if let Some(local) = local() {
        let _ = match open {
            true => local.set_item(WALKING, "1"),
            false => local.remove_item(WALKING),
        };
    }
}

thread_local! {
    /// Resolving it lets go of the record that this tab holds.
    static HELD: RefCell<Option<Function>> = const { RefCell::new(None) };
}

/// Lets another tab write the record that this one held.
fn let_go() {
    if let Some(release) = HELD.with_borrow_mut(Option::take) {
        let _ = release.call0(&JsValue::UNDEFINED);
    }
}

/// Makes this tab the one that writes a record, by the browser's own locks; if another tab holds it, this one
/// only reads. A browser without locks writes.
fn hold(app: App, id: String) {
    let_go();
    let navigator = JsValue::from(window().navigator());
    let Some(locks) = Reflect::get(&navigator, &"locks".into())
        .ok()
        .filter(|l| l.is_object())
    else {
        return;
    };
    let Some(request) = Reflect::get(&locks, &"request".into())
        .ok()
        .and_then(|f| f.dyn_into::<Function>().ok())
    else {
        return;
    };
    let options = js_sys::Object::new();
    let _ = Reflect::set(&options, &"ifAvailable".into(), &true.into());
    let granted = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if lock.is_null() {
            app.kept.set(Kept::Elsewhere);
            app.say(app.t("save-elsewhere"), true);
            return JsValue::UNDEFINED;
        }
        // The lock is held for as long as this promise is open.
        Promise::new(&mut |resolve, _| HELD.set(Some(resolve))).into()
    });
    let name = JsValue::from(format!("cordonry-plan-{id}"));
    if let Ok(promise) = request.call3(&locks, &name, &options, &granted)
        && let Ok(promise) = promise.dyn_into::<Promise>()
    {
        spawn_local(async move {
            let _ = JsFuture::from(promise).await;
        });
    }
}
