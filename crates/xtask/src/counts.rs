//! How many tests passed and failed, read from what the test programs say.

use std::ops::AddAssign;

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    pub passed: u64,
    pub failed: u64,
}

impl Counts {
    pub const PASSED: Counts = Counts {
        passed: 1,
        failed: 0,
    };
    pub const FAILED: Counts = Counts {
        passed: 0,
        failed: 1,
    };

    /// A program that ended badly has failed, even where it counted no failure.
    pub fn ended(mut self, success: bool) -> Counts {
        if self.failed == 0 && !success {
            self.failed = 1;
        }
        self
    }

    /// Whether all went well, and anything did.
    pub fn good(self) -> bool {
        self.failed == 0 && self.passed > 0
    }
}

impl AddAssign for Counts {
    fn add_assign(&mut self, other: Counts) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

impl std::fmt::Display for Counts {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} passed, {} failed", self.passed, self.failed)
    }
}

/// Sums every `test result:` line of `cargo test`.
pub fn of_cargo_test(output: &str) -> Counts {
    let mut counts = Counts::default();
    for line in output.lines() {
        // A test program that writes without a line's end can stand before it.
        let Some((_, result)) = line.split_once("test result: ") else {
            continue;
        };
        let number = |word: &str| {
            result
                .split(['.', ';'])
                .find_map(|part| part.trim().strip_suffix(word)?.trim().parse::<u64>().ok())
                .unwrap_or(0)
        };
        counts += Counts {
            passed: number("passed"),
            failed: number("failed"),
        };
    }
    counts
}

/// Reads the closing figures of a TAP report by Node's test runner. Skipped tests are neither.
pub fn of_tap(report: &str) -> Counts {
    let number = |name: &str| {
        report
            .lines()
            .rev()
            .find_map(|line| {
                line.strip_prefix("# ")?
                    .strip_prefix(name)?
                    .trim()
                    .parse::<u64>()
                    .ok()
            })
            .unwrap_or(0)
    };
    Counts {
        passed: number("pass "),
        failed: number("fail ") + number("cancelled "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn counts(passed: u64, failed: u64) -> Counts {
        Counts { passed, failed }
    }

    #[test]
    fn cargo_test_is_summed() {
        let output = "running 3 tests\ntest a ... ok\n\
            test result: ok. 3 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.00s\n\
            the words: 9 passed\n\
            no line's endtest result: FAILED. 12 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out; finished in 1.20s\n";
        assert_eq!(of_cargo_test(output), counts(15, 2));
        assert_eq!(of_cargo_test("error: could not compile"), counts(0, 0));
    }

    #[test]
    fn tap_is_read_from_its_end() {
        let report = "TAP version 13\n# Subtest: a\nok 1 - a\n# pass 99\n1..1\n# tests 7\n# suites 0\n# pass 4\n# fail 1\n\
            # cancelled 1\n# skipped 1\n# todo 0\n# duration_ms 61.5\n";
        assert_eq!(of_tap(report), counts(4, 2));
        assert_eq!(of_tap(""), counts(0, 0));
    }

    #[test]
    fn a_bad_end_is_a_failure() {
        for (given, success, expected) in [
            (counts(3, 0), true, counts(3, 0)),
            (counts(3, 0), false, counts(3, 1)),
            (counts(3, 2), false, counts(3, 2)),
            (counts(0, 0), true, counts(0, 0)),
            (counts(0, 0), false, counts(0, 1)),
        ] {
            assert_eq!(given.ended(success), expected);
        }
        assert!(counts(1, 0).good() && !counts(1, 1).good() && !counts(0, 0).good());
    }

    #[test]
    fn the_closing_line() {
        assert_eq!(counts(12, 0).to_string(), "12 passed, 0 failed");
    }
}
