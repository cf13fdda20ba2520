//! Maps and sets as sorted lists.
//!
//! The standard library's ordered maps are written out for each pair of types that they are used with, some six kilobytes a
//! time; a browser's module with twenty of them is a twentieth larger. A row has hundreds of trees, and what is told of them
//! comes mostly in order: a sorted list is as quick there, and little code. What comes in tens of thousands and in any order
//! is no matter for it: each that comes before others moves them all.

use serde::{Serialize, Serializer};
use std::borrow::Borrow;
use std::cmp::Ordering;
use std::fmt;
use std::ops::{Bound, Index, RangeBounds};

/// Where something stands, or would. Most that comes is the last.
fn place<T>(all: &[T], compare: impl Fn(&T) -> Ordering) -> Result<usize, usize> {
    match all.last() {
        Some(last) if compare(last).is_ge() => all.binary_search_by(compare),
        _ => Err(all.len()),
    }
}

/// Values by key, in the order of the keys.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Map<K, V>(Vec<(K, V)>);

/// Goes through a map.
pub type Items<'a, K, V> =
    std::iter::Map<std::slice::Iter<'a, (K, V)>, fn(&'a (K, V)) -> (&'a K, &'a V)>;

impl<K, V> Default for Map<K, V> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<K: fmt::Debug, V: fmt::Debug> fmt::Debug for Map<K, V> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_map().entries(self).finish()
    }
}

impl<K, V> Map<K, V> {
    /// Without any.
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Every key with its value.
    pub fn iter(&self) -> Items<'_, K, V> {
        self.0.iter().map(|(key, value)| (key, value))
    }

    /// Every key.
    pub fn keys(&self) -> impl DoubleEndedIterator<Item = &K> + ExactSizeIterator + Clone {
        self.0.iter().map(|(key, _)| key)
    }

    /// Every value.
    pub fn values(&self) -> impl DoubleEndedIterator<Item = &V> + ExactSizeIterator + Clone {
        self.0.iter().map(|(_, value)| value)
    }

    /// Every value, to be changed.
    pub fn values_mut(&mut self) -> impl Iterator<Item = &mut V> {
        self.0.iter_mut().map(|(_, value)| value)
    }

    /// Every value, of keys that go.
    pub fn into_values(self) -> impl DoubleEndedIterator<Item = V> + ExactSizeIterator {
        self.0.into_iter().map(|(_, value)| value)
    }

    /// Keeps what the answer is yes for.
    pub fn retain(&mut self, mut keep: impl FnMut(&K, &mut V) -> bool) {
        self.0.retain_mut(|(key, value)| keep(key, value));
    }

    /// Takes all out.
    pub fn clear(&mut self) {
        self.0.clear();
    }
}

impl<K: Ord, V> Map<K, V> {
    fn place<Q: Ord + ?Sized>(&self, key: &Q) -> Result<usize, usize>
    where
        K: Borrow<Q>,
    {
        place(&self.0, |(k, _)| k.borrow().cmp(key))
    }

    /// The value of a key.
    pub fn get<Q: Ord + ?Sized>(&self, key: &Q) -> Option<&V>
    where
        K: Borrow<Q>,
    {
        self.place(key).ok().map(|at| &self.0[at].1)
    }

    /// The value of a key, to be changed.
    pub fn get_mut<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<&mut V>
    where
        K: Borrow<Q>,
    {
        self.place(key).ok().map(|at| &mut self.0[at].1)
    }

    /// Whether a key has a value.
    pub fn contains_key<Q: Ord + ?Sized>(&self, key: &Q) -> bool
    where
        K: Borrow<Q>,
    {
        self.place(key).is_ok()
    }

    /// Puts a value to a key, and gives the one that it had.
    pub fn insert(&mut self, key: K, value: V) -> Option<V> {
        match self.place(&key) {
            Ok(at) => Some(std::mem::replace(&mut self.0[at].1, value)),
            Err(at) => {
                self.0.insert(at, (key, value));
                None
            }
        }
    }

    /// Takes out a key, and gives the value that it had.
    pub fn remove<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<V>
    where
        K: Borrow<Q>,
    {
        self.place(key).ok().map(|at| self.0.remove(at).1)
    }

    /// The value of a key, there or to be made.
    pub fn entry(&mut self, key: K) -> Entry<'_, K, V> {
        Entry { map: self, key }
    }

    /// What stands within bounds.
    pub fn range(&self, bounds: impl RangeBounds<K>) -> Items<'_, K, V> {
        let from = self.0.partition_point(|(k, _)| match bounds.start_bound() {
            Bound::Included(low) => k < low,
            Bound::Excluded(low) => k <= low,
            Bound::Unbounded => false,
        });
        let rest = &self.0[from..];
        let count = rest.partition_point(|(k, _)| match bounds.end_bound() {
            Bound::Included(high) => k <= high,
            Bound::Excluded(high) => k < high,
            Bound::Unbounded => true,
        });
        rest[..count].iter().map(|(key, value)| (key, value))
    }
}

/// A value that is there or to be made.
pub struct Entry<'m, K, V> {
    map: &'m mut Map<K, V>,
    key: K,
}

impl<'m, K: Ord, V> Entry<'m, K, V> {
    /// Made where there is none.
    pub fn or_insert_with(self, make: impl FnOnce() -> V) -> &'m mut V {
        let all = &mut self.map.0;
        let at = match place(all, |(key, _)| key.cmp(&self.key)) {
            Ok(at) => at,
            Err(at) => {
                all.insert(at, (self.key, make()));
                at
            }
        };
        &mut all[at].1
    }

    /// That one where there is none.
    pub fn or_insert(self, value: V) -> &'m mut V {
        self.or_insert_with(|| value)
    }

    /// The usual one where there is none.
    pub fn or_default(self) -> &'m mut V
    where
        V: Default,
    {
        self.or_insert_with(V::default)
    }
}

impl<K: Ord, V> Index<&K> for Map<K, V> {
    type Output = V;
    fn index(&self, key: &K) -> &V {
        self.get(key).expect("a key that is there")
    }
}

impl<K: Ord, V> Extend<(K, V)> for Map<K, V> {
    fn extend<I: IntoIterator<Item = (K, V)>>(&mut self, items: I) {
        for (key, value) in items {
            self.insert(key, value);
        }
    }
}

/// Of equal keys the last one's value stays.
impl<K: Ord, V> FromIterator<(K, V)> for Map<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(items: I) -> Self {
        let mut out = Self::new();
        out.extend(items);
        out
    }
}

impl<K: Ord, V, const N: usize> From<[(K, V); N]> for Map<K, V> {
    fn from(items: [(K, V); N]) -> Self {
        items.into_iter().collect()
    }
}

impl<K: Serialize, V: Serialize> Serialize for Map<K, V> {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_map(self)
    }
}

impl<'a, K, V> IntoIterator for &'a Map<K, V> {
    type Item = (&'a K, &'a V);
    type IntoIter = Items<'a, K, V>;
    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<K, V> IntoIterator for Map<K, V> {
    type Item = (K, V);
    type IntoIter = std::vec::IntoIter<(K, V)>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

/// Items in order, each once.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Set<T>(Vec<T>);

impl<T> Default for Set<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T: fmt::Debug> fmt::Debug for Set<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self).finish()
    }
}

impl<T> Set<T> {
    /// Without any.
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Every item.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }

    /// The first.
    pub fn first(&self) -> Option<&T> {
        self.0.first()
    }

    /// The last.
    pub fn last(&self) -> Option<&T> {
        self.0.last()
    }

    /// Keeps what the answer is yes for.
    pub fn retain(&mut self, keep: impl FnMut(&T) -> bool) {
        self.0.retain(keep);
    }
}

impl<T: Ord> Set<T> {
    fn place(&self, item: &T) -> Result<usize, usize> {
        place(&self.0, |i| i.cmp(item))
    }

    /// Whether an item is there.
    pub fn contains(&self, item: &T) -> bool {
        self.place(item).is_ok()
    }

    /// Puts an item in; whether it was not there.
    pub fn insert(&mut self, item: T) -> bool {
        let place = self.place(&item);
        if let Err(at) = place {
            self.0.insert(at, item);
        }
        place.is_err()
    }

    /// Takes an item out; whether it was there.
    pub fn remove(&mut self, item: &T) -> bool {
        self.place(item).map(|at| self.0.remove(at)).is_ok()
    }

    /// What stands before an item.
    pub fn before(&self, end: &T) -> &[T] {
        &self.0[..self.0.partition_point(|item| item < end)]
    }

    /// What stands here and not there.
    pub fn difference<'a>(&'a self, other: &'a Self) -> impl Iterator<Item = &'a T> {
        self.0.iter().filter(|item| !other.contains(item))
    }

    /// Whether nothing stands in both.
    pub fn is_disjoint(&self, other: &Self) -> bool {
        !self.0.iter().any(|item| other.contains(item))
    }

    /// Whether all stands there too.
    pub fn is_subset(&self, other: &Self) -> bool {
        self.0.iter().all(|item| other.contains(item))
    }
}

impl<T: Ord> Extend<T> for Set<T> {
    fn extend<I: IntoIterator<Item = T>>(&mut self, items: I) {
        for item in items {
            self.insert(item);
        }
    }
}

impl<T: Ord> FromIterator<T> for Set<T> {
    fn from_iter<I: IntoIterator<Item = T>>(items: I) -> Self {
        let mut out = Self::new();
        out.extend(items);
        out
    }
}

impl<'a, T> IntoIterator for &'a Set<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl<T> IntoIterator for Set<T> {
    type Item = T;
    type IntoIter = std::vec::IntoIter<T>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

#[cfg(test)]
mod tests {
    use super::{Map, Set};
    use proptest::prelude::*;
    use std::collections::{BTreeMap, BTreeSet};

    proptest! {
        // Source: the standard library's own ordered map and set.
        #[test]
        fn as_the_standard_librarys(steps in prop::collection::vec((any::<bool>(), 0u8..30), 0..200), low in 0u8..30, high in 0u8..30) {
            let (mut map, mut theirs) = (Map::new(), BTreeMap::new());
            let (mut set, mut their_set) = (Set::new(), BTreeSet::new());
            for (n, (put, key)) in steps.into_iter().enumerate() {
                if put {
                    prop_assert_eq!(map.insert(key, n), theirs.insert(key, n));
                    prop_assert_eq!(set.insert(key), their_set.insert(key));
                } else {
                    prop_assert_eq!(map.remove(&key), theirs.remove(&key));
                    prop_assert_eq!(set.remove(&key), their_set.remove(&key));
                }
                prop_assert_eq!(map.get(&key), theirs.get(&key));
                prop_assert_eq!(set.contains(&key), their_set.contains(&key));
            }
            prop_assert!(map.range(low..).eq(theirs.range(low..)));
            prop_assert!(map.range(..=high).eq(theirs.range(..=high)));
            *map.entry(high).or_default() += 1;
            *theirs.entry(high).or_default() += 1;
            prop_assert!(map.iter().eq(theirs.iter()));
            prop_assert!(set.iter().eq(their_set.iter()));
        }
    }
}
