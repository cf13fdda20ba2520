//! The bodies of `cordonry_tests::fuzz` under libFuzzer: CORDONRY_FUZZ_TARGET names which.
#![no_main]

use cordonry_tests::fuzz::{TARGETS, Target};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static BODY: LazyLock<fn(&[u8])> = LazyLock::new(|| {
    let name = std::env::var("CORDONRY_FUZZ_TARGET").unwrap_or_default();
    let found: Option<&Target> = TARGETS.iter().find(|t| t.name == name);
    found.expect("a target is named").body
});

fuzz_target!(|bytes: &[u8]| BODY(bytes));
