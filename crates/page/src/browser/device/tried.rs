//! Records that the program stopped at while they were opened: after two attempts without an end one is set aside, and not
//! opened again unless somebody asks for it.
//!
//! An attempt is written beside the records before it begins, and forgotten once the row stands on the wall: so it is known
//! of a page that was stopped, that hung and was killed, or that took more than the device has.

use super::records;
use leptos::prelude::*;
use std::cell::RefCell;
use std::time::Duration;

/// A page that is killed for another reason, as on a phone that needs the room, is no fault of the row.
const MOST: u32 = 2;
/// A row that is on the desk for so long has been drawn.
const DRAWN: Duration = Duration::from_secs(1);

thread_local! {
    static NOW: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Whether it is set aside.
pub async fn is_set_aside(id: &str) -> bool {
    records::tried(id).await >= MOST
}

/// Has it tried again.
pub fn forget(id: &str) {
    records::set_tried(id, 0);
}

/// An attempt to open it begins; whether it may.
pub async fn begins(id: &str) -> bool {
    let before = records::tried(id).await;
    if before >= MOST {
        return false;
    }
    records::set_tried(id, before + 1);
    NOW.set(Some(id.to_string()));
    true
}

/// The attempt has ended, well or with a refusal, or is given up by a page that goes as it should.
pub fn ends() {
    let is_stopped = document()
        .query_selector("#trapped[open]")
        .is_ok_and(|there| there.is_some());
    if !is_stopped && let Some(id) = NOW.with_borrow_mut(Option::take) {
        forget(&id);
    }
}

/// The same, once the row has been drawn.
pub fn ends_once_drawn() {
    set_timeout(ends, DRAWN);
}
