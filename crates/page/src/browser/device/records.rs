//! The records on the device: a plan each, whole and in steps, in the browser's database.

use crate::browser::app::{Found, Record};
use crate::keeping::{Step, Writing};
use cordonry::arrange::Arrange;
use idb::{
    Database, DatabaseEvent, Factory, KeyPath, KeyRange, ObjectStoreParams, Query, Transaction,
    TransactionMode,
};
use js_sys::{Function, Promise, Reflect};
use leptos::prelude::set_timeout;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, future_to_promise};

const DATABASE: &str = "cordonry";
/// Plans that are kept whole, by the record's id.
const PLANS: &str = "plans";
/// What is known of each.
const RECORDS: &str = "records";
/// The steps beside each, by its id and the step's number.
pub(super) const STEPS: &str = "steps";
const ALL: [&str; 3] = [PLANS, RECORDS, STEPS];
/// Among the steps, the id of the record that is open.
const OPEN: &str = "open";
/// How long a save waits for the database, which another tab may hold, until it is told that nothing is saved.
const WAITED: Duration = Duration::from_secs(5);

thread_local! {
    /// The database once it is open. It stays open, so that a save can begin within the very event that ends the page:
    /// to open it takes a turn that a page on its way out is not given.
    static OPENED: RefCell<Option<Rc<Database>>> = const { RefCell::new(None) };
    /// Those that were closed, for their handlers.
    static CLOSED: RefCell<Vec<Rc<Database>>> = const { RefCell::new(Vec::new()) };
}

pub(super) async fn database() -> Result<Rc<Database>, idb::Error> {
    if let Some(opened) = OPENED.with_borrow(Clone::clone) {
        return Ok(opened);
    }
    let opened = Rc::new(open().await?);
    // Others may have asked meanwhile: one stays, and of the other's handlers none may be called when it is gone.
    match OPENED.with_borrow(Clone::clone) {
        Some(first) => {
            put_away(opened);
            Ok(first)
        }
        None => {
            OPENED.set(Some(Rc::clone(&opened)));
            Ok(opened)
        }
    }
}

async fn open() -> Result<Database, idb::Error> {
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
    Ok(database)
}

/// Closes the database; the next question opens it again.
fn forget_database() {
    if let Some(database) = OPENED.with_borrow_mut(Option::take) {
        put_away(database);
    }
}

/// Closes a database. Its handlers may be what is running, and a store that fails calls them even later.
fn put_away(database: Rc<Database>) {
    database.close();
    CLOSED.with_borrow_mut(|closed| closed.push(database));
}

/// The database, unless it takes longer to open than is waited for.
async fn database_in_time() -> Option<Rc<Database>> {
    let opening = future_to_promise(async { Ok(database().await.is_ok().into()) });
    let late = Promise::new(&mut |done, _| {
        let done = move || {
            let _ = done.call0(&JsValue::UNDEFINED);
        };
        set_timeout(done, WAITED);
    });
    let _ = JsFuture::from(Promise::race(&js_sys::Array::of2(&opening, &late))).await;
    OPENED.with_borrow(Clone::clone)
}

/// Whether a plan is kept whole.
async fn is_whole(id: &str) -> Result<bool, idb::Error> {
    let transaction = database()
        .await?
        .transaction(&[PLANS], TransactionMode::ReadOnly)?;
    let there = transaction
        .object_store(PLANS)?
        .get_key(Query::Key(id.into()))?;
    Ok(there.await?.is_some())
}

/// The plan that is kept whole, as it is stored.
#[derive(Serialize, Deserialize)]
struct Whole {
    id: String,
    #[serde(default)]
    number: u32,
    plan: String,
}

pub(super) fn value(of: &impl Serialize) -> Result<JsValue, idb::Error> {
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
pub(super) fn ended(transaction: Transaction) -> Result<Promise, idb::Error> {
    let transaction = JsValue::from(transaction.commit()?);
    Ok(Promise::new(&mut |resolve, _| {
        for (event, well) in [("oncomplete", true), ("onabort", false)] {
            let told = resolve.bind1(&JsValue::UNDEFINED, &well.into());
            let _ = Reflect::set(&transaction, &event.into(), &told);
        }
    }))
}

pub(super) async fn is_committed(ended: Promise) -> bool {
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

/// Begins to save what a plan has become, where the database is open; `None` where nothing may be kept any more.
pub fn begin(record: &Record, writing: &Writing) -> Option<Option<Promise>> {
    let Writing {
        whole, steps, kept, ..
    } = writing;
    let noted = note(&Noted::of(record, whole.as_ref(), steps, *kept));
    let opened = OPENED.with_borrow(Clone::clone);
    noted.then(|| opened.and_then(|d| begin_put(&d, record, writing).ok()))
}

/// Saves where the page is in a plan that has not changed.
pub fn save_spot(record: &Record) {
    if note(&Noted::of(record, None, &[], (0, u32::MAX)))
        && let Some(opened) = OPENED.with_borrow(Clone::clone)
    {
        let _ = put_record(&opened, record);
    }
}

/// Writes with the database that is open, else opens it; whether it is written. Steps alone are nothing where the plan that they
/// begin with is gone: the device may have been cleared meanwhile.
pub async fn put(begun: Option<Promise>, record: &Record, writing: &Writing) -> bool {
    let begun = match begun {
        begun @ Some(_) => begun,
        None => {
            forget_database();
            let opened = database_in_time().await;
            opened.and_then(|d| begin_put(&d, record, writing).ok())
        }
    };
    let Some(begun) = begun else {
        return false;
    };
    is_committed(begun).await
        && (writing.whole.is_some() || matches!(is_whole(&record.id).await, Ok(true)))
}

pub(super) fn read<T: DeserializeOwned>(value: JsValue) -> Option<T> {
    serde_wasm_bindgen::from_value(value).ok()
}

/// Every record, the newest first.
///
/// # Errors
/// The browser keeps nothing for this page.
pub async fn records() -> Result<Vec<Record>, idb::Error> {
    let asked = async {
        let database = database().await?;
        let transaction = database.transaction(&[PLANS, RECORDS], TransactionMode::ReadOnly)?;
        let known = transaction.object_store(RECORDS)?.get_all(None, None)?;
        // A plan that was kept before there were records says the same of itself.
        let plans = transaction.object_store(PLANS)?.get_all(None, None)?;
        Ok::<_, idb::Error>((known.await?, plans.await?))
    };
    let (known, plans) = asked.await?;
    let mut out: Vec<Record> = known.into_iter().filter_map(read).collect();
    for plan in plans.into_iter().filter_map(read::<Record>) {
        if !out.iter().any(|known| known.id == plan.id) {
            out.push(plan);
        }
    }
    out.arrange_by(|a, b| b.saved_ms.total_cmp(&a.saved_ms));
    Ok(out)
}

/// The plan of that id with all that is kept of it, which is about to be opened.
pub async fn found(id: &str) -> Option<Found> {
    let found = kept(id).await?;
    // It may be what the program stops at.
    let Found {
        record,
        whole,
        steps,
    } = &found;
    note(&Noted::of(record, Some(whole), steps, (0, u32::MAX)));
    Some(found)
}

/// The same, only to be looked at.
pub async fn kept(id: &str) -> Option<Found> {
    let Raw {
        plan,
        record,
        steps,
        ..
    } = raw(id).await.ok()?;
    let plan = plan?;
    let record: Record = read(record.unwrap_or_else(|| plan.clone()))?;
    let whole: Whole = read(plan)?;
    Some(Found {
        record,
        whole: (whole.number, whole.plan),
        steps: steps.into_iter().filter_map(read).collect(),
    })
}

/// A record as the browser keeps it, whether or not it can be read.
pub struct Raw {
    plan: Option<JsValue>,
    record: Option<JsValue>,
    steps: Vec<JsValue>,
    numbers: Vec<JsValue>,
}

impl Raw {
    /// The text of the plan that is kept whole, or else all that there is.
    pub fn text(&self) -> String {
        let plan = self.plan.clone().unwrap_or(JsValue::NULL);
        let text = Reflect::get(&plan, &"plan".into()).ok();
        text.and_then(|t| t.as_string())
            .or_else(|| js_sys::JSON::stringify(&plan).ok()?.as_string())
            .unwrap_or_default()
    }
}

/// A record as it is kept.
pub async fn raw(id: &str) -> Result<Raw, idb::Error> {
    let database = database().await?;
    let transaction = database.transaction(&ALL, TransactionMode::ReadOnly)?;
    let of_id = || Query::Key(JsValue::from_str(id));
    let known = transaction.object_store(RECORDS)?.get(of_id())?;
    let plan = transaction.object_store(PLANS)?.get(of_id())?;
    let of_all = || steps_of(id, (0, false), (u32::MAX, false)).map(Some);
    let store = transaction.object_store(STEPS)?;
    let steps = store.get_all(of_all()?, None)?;
    let numbers = store.get_all_keys(of_all()?, None)?;
    Ok(Raw {
        record: known.await?,
        plan: plan.await?,
        steps: steps.await?,
        numbers: numbers.await?,
    })
}

/// Puts back a record that was taken off; whether it is there again.
pub async fn put_back(raw: &Raw) -> Result<bool, idb::Error> {
    let database = database().await?;
    let transaction = database.transaction(&ALL, TransactionMode::ReadWrite)?;
    for (name, value) in [(PLANS, &raw.plan), (RECORDS, &raw.record)] {
        if let Some(value) = value {
            transaction.object_store(name)?.put(value, None)?;
        }
    }
    let steps = transaction.object_store(STEPS)?;
    for (number, step) in raw.numbers.iter().zip(&raw.steps) {
        steps.put(step, Some(number))?;
    }
    Ok(is_committed(ended(transaction)?).await)
}

/// Writes a record that is not on the desk; whether it is written.
pub async fn write(record: &Record, writing: &Writing) -> bool {
    let begun = database().await;
    let begun = begun.and_then(|d| begin_put(&d, record, writing));
    put(begun.ok(), record, writing).await
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

/// The id of the record that was open last in any tab.
pub async fn open_of_all() -> Option<String> {
    let asked = async {
        let database = database().await?;
        let transaction = database.transaction(&[STEPS], TransactionMode::ReadOnly)?;
        let open = transaction.object_store(STEPS)?;
        open.get(Query::Key(OPEN.into()))?.await
    };
    asked.await.ok()??.as_string()
}

/// How often the record of that id was tried to be opened without an end.
pub async fn tried(id: &str) -> u32 {
    let asked = async {
        let database = database().await?;
        let transaction = database.transaction(&[STEPS], TransactionMode::ReadOnly)?;
        let store = transaction.object_store(STEPS)?;
        store.get(Query::Key(tried_key(id)))?.await
    };
    let told = asked.await.ok().flatten();
    told.and_then(|n| n.as_f64()).map_or(0, |n| n as u32)
}

/// Sets that, where the database is open. Whoever reads the record after this reads it when this is written.
pub fn set_tried(id: &str, count: u32) {
    let Some(database) = OPENED.with_borrow(Clone::clone) else {
        return;
    };
    let set = || {
        let transaction = database.transaction(&[STEPS], TransactionMode::ReadWrite)?;
        let store = transaction.object_store(STEPS)?;
        match count {
            0 => drop(store.delete(Query::Key(tried_key(id)))?),
            _ => drop(store.put(&count.into(), Some(&tried_key(id)))?),
        }
        ended(transaction)
    };
    let _ = set();
}

fn tried_key(id: &str) -> JsValue {
    format!("tried {id}").into()
}

/// Sets which record that is.
pub async fn set_open_of_all(id: Option<String>) {
    let id = id.map_or(JsValue::NULL, JsValue::from);
    let written = async {
        let database = database().await?;
        let transaction = database.transaction(&[STEPS], TransactionMode::ReadWrite)?;
        transaction
            .object_store(STEPS)?
            .put(&id, Some(&OPEN.into()))?;
        ended(transaction)
    };
    let _ = written.await;
}
