//! What is kept on the device: one record a plan, written by one tab at a time; a few settings.

use crate::browser::app::{App, Found, Keeper, Record};
use crate::keeping::{Step, Ticket, Writing};
use cordonry::arrange::Arrange;
use cordonry::units::LengthStyle;
use cordonry_draw::{ColourBy, Paper};
use cordonry_words::Language;
use idb::{
    Database, DatabaseEvent, Factory, KeyPath, KeyRange, ObjectStoreParams, Query, Transaction,
    TransactionMode,
};
use js_sys::{Function, Promise, Reflect};
use leptos::prelude::*;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

const DATABASE: &str = "cordonry";
/// Plans that are kept whole, by the record's id.
const PLANS: &str = "plans";
/// What is known of each.
const RECORDS: &str = "records";
/// The steps beside each, by its id and the step's number.
const STEPS: &str = "steps";
const ALL: [&str; 3] = [PLANS, RECORDS, STEPS];
/// Among the steps, the id of the record that is open.
const OPEN: &str = "open";
/// For as long as there is the tab, the same of it alone; empty at the start page.
const TAB: &str = "cordonry.open";
const AT_START: &str = "cordonry.at-start";
const LENGTHS: &str = "cordonry.lengths";
const LANGUAGE: &str = "cordonry.language";
/// Read by start.js.
const HEAD: &str = "cordonry.head";
const PAPER: &str = "cordonry.paper";
const COLOUR_BY: &str = "cordonry.colour-by";
const WALK: &str = "cordonry.walk";
const WALKING: &str = "cordonry.walking";

thread_local! {
    /// The database once it is open. It stays open, so that a save can begin within the very event that ends the page:
    /// to open it takes a turn that a page on its way out is not given.
    static OPENED: RefCell<Option<Rc<Database>>> = const { RefCell::new(None) };
    /// Those that were closed, for their handlers.
    static CLOSED: RefCell<Vec<Rc<Database>>> = const { RefCell::new(Vec::new()) };
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

    fn language(&self) -> String {
        let chosen = local().and_then(|l| l.get_item(LANGUAGE).ok().flatten());
        chosen.unwrap_or_else(|| first_read().to_string())
    }

    fn set_language(&self, code: &str) {
        if let Some(local) = local() {
            let _ = local.set_item(LANGUAGE, code);
        }
    }

    fn set_head(&self, head: &str) {
        if let Some(local) = local() {
            let _ = local.set_item(HEAD, head);
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

    fn colour_by(&self) -> ColourBy {
        let kept = local().and_then(|l| l.get_item(COLOUR_BY).ok().flatten());
        kept.and_then(|name| ColourBy::named(&name))
            .unwrap_or_default()
    }

    fn set_colour_by(&self, by: ColourBy) {
        if let Some(local) = local() {
            let _ = local.set_item(COLOUR_BY, by.name());
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

    fn save(&self, app: App, record: Record, writing: Writing, ticket: Ticket) {
        save(app, record, writing, ticket);
    }

    fn save_spot(&self, record: Record) {
        if note(&Noted::of(&record, None, &[], (0, u32::MAX)))
            && let Some(opened) = OPENED.with_borrow(Clone::clone)
        {
            let _ = put_record(&opened, &record);
        }
    }
}

async fn database() -> Result<Rc<Database>, idb::Error> {
    if let Some(opened) = OPENED.with_borrow(Clone::clone) {
        return Ok(opened);
    }
    let factory = Factory::new()?;
    let mut request = factory.open(DATABASE, Some(2))?;
    request.on_upgrade_needed(|event| {
        if let Ok(database) = event.database() {
            let there = database.store_names();
            for name in ALL {
                let mut params = ObjectStoreParams::new();
                if name != STEPS {
                    params.key_path(Some(KeyPath::new_single("id")));
                }
                if !there.iter().any(|other| other == name) {
                    let _ = database.create_object_store(name, params);
                }
            }
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
        // Its handlers may be what is running, and a store that fails calls them even later.
        CLOSED.with_borrow_mut(|closed| closed.push(database));
    }
}

/// The plan that is kept whole, as it is stored.
#[derive(Serialize, Deserialize)]
struct Whole {
    id: String,
    #[serde(default)]
    number: u32,
    plan: String,
}

fn value(of: &impl Serialize) -> Result<JsValue, idb::Error> {
    serde_wasm_bindgen::to_value(of)
        .map_err(|e| idb::Error::UnexpectedJsType("something to keep", e.into()))
}

/// The key of a step.
fn key(id: &str, number: u32) -> JsValue {
    js_sys::Array::of2(&id.into(), &number.into()).into()
}

/// All of a record's steps in a range of numbers, its ends left out where that is said.
fn steps_of(
    id: &str,
    (first, first_out): (u32, bool),
    (last, last_out): (u32, bool),
) -> Result<Query, idb::Error> {
    let (first, last) = (key(id, first), key(id, last));
    KeyRange::bound(&first, &last, Some(first_out), Some(last_out)).map(Query::KeyRange)
}

thread_local! {
    /// Takes note of what is to be kept, and says whether it may be.
    static NOTE: RefCell<Option<Function>> = const { RefCell::new(None) };
}

/// Sets what takes note of all that is to be kept. What was set first stays.
pub fn set_note(note: Function) {
    NOTE.with_borrow_mut(|there| {
        there.get_or_insert(note);
    });
}

/// What is noted.
#[derive(Serialize)]
struct Noted<'a> {
    id: &'a str,
    name: &'a str,
    now: u32,
    whole: Option<&'a (u32, String)>,
    steps: &'a [Step],
    range: (u32, u32),
}

impl<'a> Noted<'a> {
    fn of(
        record: &'a Record,
        whole: Option<&'a (u32, String)>,
        steps: &'a [Step],
        range: (u32, u32),
    ) -> Self {
        Self {
            id: &record.id,
            name: &record.name,
            now: record.now,
            whole,
            steps,
            range,
        }
    }
}

/// Has it noted, and says whether it may be kept.
fn note(noted: &Noted<'_>) -> bool {
    let Some(note) = NOTE.with_borrow(Clone::clone) else {
        return true;
    };
    let said = value(noted).map(|noted| note.call1(&JsValue::UNDEFINED, &noted));
    said.is_ok_and(|said| said.is_ok_and(|said| said.is_truthy()))
}

/// Asks that a transaction be committed, and promises whether it is. It says so by functions that stay: of a transaction
/// that is given up several events tell, and what hears the first must be there for the others too.
fn ended(transaction: Transaction) -> Result<Promise, idb::Error> {
    let transaction = JsValue::from(transaction.commit()?);
    Ok(Promise::new(&mut |resolve, _| {
        for (event, well) in [("oncomplete", true), ("onabort", false)] {
            let told = resolve.bind1(&JsValue::UNDEFINED, &well.into());
            let _ = Reflect::set(&transaction, &event.into(), &told);
        }
    }))
}

async fn is_committed(ended: Promise) -> bool {
    JsFuture::from(ended)
        .await
        .is_ok_and(|well| well.is_truthy())
}

/// Begins to write what a plan has become, and asks at once that it be committed: a page that goes is not asked again.
fn begin_put(
    database: &Database,
    record: &Record,
    writing: &Writing,
) -> Result<Promise, idb::Error> {
    let id = &record.id;
    let transaction = database.transaction(&ALL, TransactionMode::ReadWrite)?;
    if let Some((number, plan)) = &writing.whole {
        let (id, plan, number) = (id.clone(), plan.clone(), *number);
        let whole = value(&Whole { id, number, plan })?;
        transaction.object_store(PLANS)?.put(&whole, None)?;
    }
    let steps = transaction.object_store(STEPS)?;
    let (first, last) = writing.kept;
    steps.delete(steps_of(id, (0, false), (first, true))?)?;
    steps.delete(steps_of(id, (last, true), (u32::MAX, false))?)?;
    for step in &writing.steps {
        steps.put(&value(step)?, Some(&key(id, step.number)))?;
    }
    transaction
        .object_store(RECORDS)?
        .put(&value(record)?, None)?;
    ended(transaction)
}

fn put_record(database: &Database, record: &Record) -> Result<Promise, idb::Error> {
    let transaction = database.transaction(&[RECORDS], TransactionMode::ReadWrite)?;
    transaction
        .object_store(RECORDS)?
        .put(&value(record)?, None)?;
    ended(transaction)
}

/// Writes with the database that is open, else opens it; whether it is written.
async fn put(begun: Option<Promise>, record: &Record, writing: &Writing) -> bool {
    let begun = match begun {
        Some(begun) => Ok(begun),
        None => {
            forget_database();
            database()
                .await
                .and_then(|d| begin_put(&d, record, writing))
        }
    };
    match begun {
        Ok(begun) => is_committed(begun).await,
        Err(_) => false,
    }
}

fn read<T: DeserializeOwned>(value: JsValue) -> Option<T> {
    serde_wasm_bindgen::from_value(value).ok()
}

/// Every record, the newest first.
pub async fn records() -> Vec<Record> {
    let asked = async {
        let database = database().await?;
        let transaction = database.transaction(&[PLANS, RECORDS], TransactionMode::ReadOnly)?;
        let known = transaction.object_store(RECORDS)?.get_all(None, None)?;
        // A plan that was kept before there were records says the same of itself.
        let plans = transaction.object_store(PLANS)?.get_all(None, None)?;
        Ok::<_, idb::Error>((known.await?, plans.await?))
    };
    let (known, plans) = asked.await.unwrap_or_default();
    let mut out: Vec<Record> = known.into_iter().filter_map(read).collect();
    for plan in plans.into_iter().filter_map(read::<Record>) {
        if !out.iter().any(|known| known.id == plan.id) {
            out.push(plan);
        }
    }
    out.arrange_by(|a, b| b.saved_ms.total_cmp(&a.saved_ms));
    out
}

/// The plan of that id with all that is kept of it.
pub async fn found(id: &str) -> Option<Found> {
    let asked = async {
        let database = database().await?;
        let transaction = database.transaction(&ALL, TransactionMode::ReadOnly)?;
        let of_id = || Query::Key(JsValue::from_str(id));
        let known = transaction.object_store(RECORDS)?.get(of_id())?;
        let plan = transaction.object_store(PLANS)?.get(of_id())?;
        let all = steps_of(id, (0, false), (u32::MAX, false))?;
        let steps = transaction.object_store(STEPS)?.get_all(Some(all), None)?;
        Ok::<_, idb::Error>((known.await?, plan.await?, steps.await?))
    };
    let (known, plan, steps) = asked.await.ok()?;
    let plan = plan?;
    let record: Record = read(known.unwrap_or_else(|| plan.clone()))?;
    let whole: Whole = read(plan)?;
    let found = Found {
        record,
        whole: (whole.number, whole.plan),
        steps: steps.into_iter().filter_map(read).collect(),
    };
    // It may be what the program stops at.
    let Found {
        record,
        whole,
        steps,
    } = &found;
    note(&Noted::of(record, Some(whole), steps, (0, u32::MAX)));
    Some(found)
}

/// Takes a record off the device; whether it is gone.
pub async fn remove(id: &str) -> Result<bool, idb::Error> {
    let database = database().await?;
    let transaction = database.transaction(&ALL, TransactionMode::ReadWrite)?;
    for store in [PLANS, RECORDS] {
        let key = Query::Key(JsValue::from_str(id));
        transaction.object_store(store)?.delete(key)?;
    }
    let all = steps_of(id, (0, false), (u32::MAX, false))?;
    transaction.object_store(STEPS)?.delete(all)?;
    Ok(is_committed(ended(transaction)?).await)
}

/// Saves what a plan has become, and tells the page how it went. It is on its way when this returns, where the database is
/// open.
fn save(app: App, record: Record, writing: Writing, ticket: Ticket) {
    let Writing {
        whole, steps, kept, ..
    } = &writing;
    if !note(&Noted::of(&record, whole.as_ref(), steps, *kept)) {
        return;
    }
    let opened = OPENED.with_borrow(Clone::clone);
    let begun = opened.and_then(|d| begin_put(&d, &record, &writing).ok());
    spawn_local(async move {
        let well = put(begun, &record, &writing).await;
        app.written(&record.id, ticket, well);
    });
}

fn local() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

fn of_tab() -> Option<web_sys::Storage> {
    window().session_storage().ok().flatten()
}

/// The id of the record that was open last: in this tab, or in any where this one is new.
pub async fn last_open() -> Option<String> {
    // After a fault the user may have asked for the start page.
    if let Some(local) = local()
        && local.get_item(AT_START).ok().flatten().is_some()
    {
        let _ = local.remove_item(AT_START);
        remember_open(None);
        return None;
    }
    if let Some(id) = of_tab().and_then(|tab| tab.get_item(TAB).ok().flatten()) {
        return Some(id).filter(|id| !id.is_empty());
    }
    let asked = async {
        let database = database().await?;
        let transaction = database.transaction(&[STEPS], TransactionMode::ReadOnly)?;
        let open = transaction.object_store(STEPS)?;
        open.get(Query::Key(OPEN.into()))?.await
    };
    asked.await.ok()??.as_string()
}

/// Remembers which record is open: beside the records, because a browser that is killed loses what it was told to remember
/// in a simpler way some seconds before.
fn remember_open(id: Option<&str>) {
    if let Some(tab) = of_tab() {
        let _ = tab.set_item(TAB, id.unwrap_or_default());
    }
    let id = id.map_or(JsValue::NULL, JsValue::from);
    spawn_local(async move {
        let written = async {
            let database = database().await?;
            let transaction = database.transaction(&[STEPS], TransactionMode::ReadWrite)?;
            transaction
                .object_store(STEPS)?
                .put(&id, Some(&OPEN.into()))?;
            ended(transaction)
        };
        let _ = written.await;
    });
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

/// The first of the browser's languages that the page has.
fn first_read() -> &'static str {
    let read = window().navigator().languages();
    let code_of = |tag: JsValue| {
        let tag = tag.as_string()?;
        let named = |code: &str| tag == code || tag.split('-').next() == Some(code);
        Some(Language::names().iter().find(|(code, _)| named(code))?.0)
    };
    read.iter().find_map(code_of).unwrap_or(Language::WHOLE)
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
    /// The record that this tab holds, and what lets go of it when it is called.
    static HELD: RefCell<Option<(String, Function)>> = const { RefCell::new(None) };
}

/// Lets another tab write the record that this one held.
fn let_go() {
    if let Some((_, release)) = HELD.with_borrow_mut(Option::take) {
        let _ = release.call0(&JsValue::UNDEFINED);
    }
}

/// Makes this tab the one that writes a record, by the browser's own locks. While another tab holds it this one only
/// reads, and takes over once that one lets go. A browser without locks writes.
fn hold(app: App, id: String) {
    if HELD.with_borrow(|held| held.as_ref().is_some_and(|(held, _)| *held == id)) {
        return;
    }
    let_go();
    ask_for_lock(app, id, true, move |id, is_mine| {
        if is_mine {
            return;
        }
        app.saved_elsewhere();
        ask_for_lock(app, id, false, move |id, _| {
            spawn_local(async move {
                let device = found(&id).await;
                if app.record_id() == Some(id) {
                    app.takes_over(device);
                }
            });
        });
    });
}

/// Asks for a record's lock, at once or never or else for when it is free, and tells `then` whether this tab has it. Once
/// another record is on the desk nothing is held and nobody told.
fn ask_for_lock(
    app: App,
    id: String,
    at_once: bool,
    then: impl Fn(String, bool) + 'static,
) -> Option<()> {
    let navigator = JsValue::from(window().navigator());
    let locks = Reflect::get(&navigator, &"locks".into()).ok()?;
    let request: Function = Reflect::get(&locks, &"request".into())
        .ok()?
        .dyn_into()
        .ok()?;
    let options = js_sys::Object::new();
    let _ = Reflect::set(&options, &"ifAvailable".into(), &at_once.into());
    let name = JsValue::from(format!("cordonry-plan-{id}"));
    let granted = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if app.record_id().as_ref() != Some(&id) {
            return JsValue::UNDEFINED;
        }
        if lock.is_null() {
            then(id, false);
            return JsValue::UNDEFINED;
        }
        // The lock is held for as long as this promise is open.
        let promise = Promise::new(&mut |resolve, _| {
            let_go();
            HELD.set(Some((id.clone(), resolve)));
        });
        then(id, true);
        promise.into()
    });
    let promise: Promise = request
        .call3(&locks, &name, &options, &granted)
        .ok()?
        .dyn_into()
        .ok()?;
    spawn_local(async move {
        let _ = JsFuture::from(promise).await;
    });
    Some(())
}
