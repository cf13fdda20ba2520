//! What must hold whatever is given, on some hundred inputs a body; `cargo xtask fuzz` gives more.

use cordonry_tests::fuzz::{TARGETS, run};

#[test]
fn no_body_fails_on_damaged_seeds() {
    for (target, rounds) in TARGETS.iter().zip([150, 150, 300, 400]) {
        let figures = run(
            target,
            7,
            &|work| {
                work();
                0
            },
            &|runs| runs < rounds,
        );
        println!("{}: {figures}", target.name);
        let seeds = target.all_seeds().len() as u64;
        assert!(rounds > seeds, "{}: {seeds} seeds", target.name);
        assert!(
            figures.panics.is_empty(),
            "{}: {:?}",
            target.name,
            figures.panics[0]
        );
    }
}

/// A body that can't fail tests nothing.
#[test]
fn a_failing_body_is_told() {
    let target = cordonry_tests::fuzz::Target {
        body: |bytes| assert!(!bytes.contains(&b'{'), "found"),
        ..TARGETS[0]
    };
    let figures = run(
        &target,
        1,
        &|work| {
            work();
            0
        },
        &|runs| runs < 50,
    );
    assert_eq!(figures.panics.len(), 3);
}
