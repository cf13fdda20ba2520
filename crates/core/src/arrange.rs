//! Sorting, compiled once.
//!
//! The standard library's stable sort is written out for each type and comparison that it is used with, some four kilobytes a
//! time; a browser's module with fifty of them is a tenth larger. Here indices are sorted, by one copy, and the items follow.

use crate::sorted::{Map, Set};
use std::cmp::Ordering;

/// Puts items in order; those that compare equal stay as they stood.
pub trait Arrange<T> {
    /// By a comparison.
    fn arrange_by(&mut self, compare: impl FnMut(&T, &T) -> Ordering);

    /// By what is made of each item, made anew for every comparison.
    fn arrange_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        self.arrange_by(|a, b| key(a).cmp(&key(b)));
    }

    /// By the items' own order.
    fn arrange(&mut self)
    where
        T: Ord,
    {
        self.arrange_by(T::cmp);
    }
}

impl<T> Arrange<T> for [T] {
    fn arrange_by(&mut self, mut compare: impl FnMut(&T, &T) -> Ordering) {
        // Much of what is put in order stands so already.
        if self.windows(2).all(|two| compare(&two[0], &two[1]).is_le()) {
            return;
        }
        let mut from: Vec<usize> = (0..self.len()).collect();
        sort_indices(&mut from, &mut |a, b| compare(&self[a], &self[b]));
        follow(&mut from, &mut |a, b| self.swap(a, b));
    }
}

/// Collects into an ordered set or map item by item; of equal keys the last one's value stays. The standard library's
/// `collect` sorts first, by a copy of its own for each type.
pub trait Gather: Iterator + Sized {
    /// All items, each once.
    fn gathered_set(self) -> Set<Self::Item>
    where
        Self::Item: Ord,
    {
        let mut out = Set::new();
        for item in self {
            out.insert(item);
        }
        out
    }

    /// All pairs by their first.
    fn gathered_map<K: Ord, V>(self) -> Map<K, V>
    where
        Self: Iterator<Item = (K, V)>,
    {
        let mut out = Map::new();
        for (key, value) in self {
            out.insert(key, value);
        }
        out
    }
}

impl<I: Iterator> Gather for I {}

/// Puts numbers in order.
#[inline(never)]
pub fn arrange_numbers(numbers: &mut [f64]) {
    numbers.sort_unstable_by(f64::total_cmp);
}

/// The middle one of numbers in order, of an even count the upper; none of none.
pub fn middle_of(mut numbers: Vec<f64>) -> Option<f64> {
    arrange_numbers(&mut numbers);
    numbers.get(numbers.len() / 2).copied()
}

#[inline(never)]
fn sort_indices(from: &mut [usize], compare: &mut dyn FnMut(usize, usize) -> Ordering) {
    from.sort_by(|a, b| compare(*a, *b));
}

/// Swaps until each place holds the item that stood at `from[place]`, a cycle at a time.
#[inline(never)]
fn follow(from: &mut [usize], swap: &mut dyn FnMut(usize, usize)) {
    for start in 0..from.len() {
        let mut at = start;
        loop {
            let next = std::mem::replace(&mut from[at], at);
            if next == start {
                break;
            }
            swap(at, next);
            at = next;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Arrange;
    use proptest::prelude::*;

    proptest! {
        // Source: the standard library's own stable sort.
        #[test]
        fn as_the_standard_librarys_stable_sort(keys in prop::collection::vec(0u8..20, 0..200)) {
            let items: Vec<(u8, usize)> = keys.into_iter().zip(0..).collect();
            let (mut ours, mut theirs) = (items.clone(), items);
            ours.arrange_by_key(|i| i.0);
            theirs.sort_by_key(|i| i.0);
            prop_assert_eq!(ours, theirs);
        }
    }
}
