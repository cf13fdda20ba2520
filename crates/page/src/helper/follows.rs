//! What follows from the leaf before which a row is taken as found.

use cordonry::row::Row;
use cordonry::said::Arg;
use cordonry_words::Words;

/// How old the row's wood is, and how much of it grew last; of that, `taken` for want of a season. Nothing of one just planted.
pub fn leaf_follows(row: &Row, taken: i64, words: &Words) -> String {
    let shoots = || row.trees.iter().flat_map(|t| &t.shoots);
    let first = shoots().filter_map(|s| s.born()).min();
    let Some(first) = first.filter(|_| row.leaf > 1) else {
        return String::new();
    };
    let last = row.leaf.saturating_sub(1);
    let units = shoots().flat_map(|s| &s.units);
    let grew = units.filter(|u| u.leaf == last).count();
    let age = i64::from(row.leaf) - i64::from(first);
    let told = [
        ("last", Arg::Count(last.into())),
        ("age", Arg::Count(age)),
        ("grew", Arg::Count(grew as i64)),
        ("taken", Arg::Count(taken)),
    ];
    words.text("import-leaf-follows", &told)
}
