//! Copies of plans that were sent, by their fingerprints: what comes back is compared with them. They stand beside the steps.

use super::records::{STEPS, database, ended, is_committed, read, value};
use cordonry::arrange::Arrange;
use idb::{KeyRange, Query, TransactionMode};
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;

/// What their keys begin with, as those of the steps do with a record's id.
const SENT: &str = "sent";
/// How many are kept; the oldest goes.
const MOST: usize = 40;

#[derive(Serialize, Deserialize)]
struct Copy {
    fingerprint: String,
    sent_ms: f64,
    plan: String,
}

fn key(fingerprint: &str) -> JsValue {
    js_sys::Array::of2(&SENT.into(), &fingerprint.into()).into()
}

fn hex(fingerprint: u64) -> String {
    format!("{fingerprint:016x}")
}

/// Keeps the text of a copy that is sent; whether it is kept.
pub async fn keep(fingerprint: u64, plan: String) -> bool {
    let copy = Copy {
        fingerprint: hex(fingerprint),
        sent_ms: js_sys::Date::now(),
        plan,
    };
    let written = async {
        let database = database().await?;
        let transaction = database.transaction(&[STEPS], TransactionMode::ReadWrite)?;
        let store = transaction.object_store(STEPS)?;
        let range = KeyRange::bound(&key(""), &key("g"), None, None)?;
        let all = store.get_all(Some(Query::KeyRange(range)), None)?.await?;
        let mut all: Vec<Copy> = all.into_iter().filter_map(read).collect();
        all.arrange_by(|a, b| a.sent_ms.total_cmp(&b.sent_ms));
        let over = (all.len() + 1).saturating_sub(MOST);
        for old in &all[..over] {
            store.delete(Query::Key(key(&old.fingerprint)))?;
        }
        store.put(&value(&copy)?, Some(&key(&copy.fingerprint)))?;
        Ok::<_, idb::Error>(is_committed(ended(transaction)?).await)
    };
    written.await.unwrap_or(false)
}

/// The text of the newest copy of those fingerprints that this device has sent.
pub async fn of(fingerprints: &[u64]) -> Option<String> {
    let database = database().await.ok()?;
    for fingerprint in fingerprints.iter().rev() {
        let transaction = database
            .transaction(&[STEPS], TransactionMode::ReadOnly)
            .ok()?;
        let asked = transaction
            .object_store(STEPS)
            .ok()?
            .get(Query::Key(key(&hex(*fingerprint))))
            .ok()?;
        if let Some(Copy { plan, .. }) = asked.await.ok()?.and_then(read) {
            return Some(plan);
        }
    }
    None
}
