//! Trees and rows with where their shoots run, so that nobody lays out the same tree twice.

use super::{Course, Geometry, Name, layout};
use crate::arrange::Arrange;
use crate::row::{Role, Row, Shoot, Targets, Tree, TreeId};
use crate::units::Mm;
use kurbo::Point;
use std::borrow::Cow;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};

/// A tree and where its shoots run. What follows from it is worked out when it is first asked for.
#[derive(Clone, Debug)]
pub struct Posed {
    tree: Arc<Tree>,
    geometry: Geometry,
    /// As the crew finds it, where the work of the moment has made another of it.
    pub(super) before: Option<Arc<Posed>>,
    pub(super) names: OnceLock<Box<[Name]>>,
    courses: OnceLock<Box<[Course]>>,
    uprights: OnceLock<Box<[usize]>>,
    places: OnceLock<Box<[(usize, Point)]>>,
    far: OnceLock<f64>,
}

impl Posed {
    /// A tree in a geometry.
    pub fn new(tree: Arc<Tree>, geometry: Geometry) -> Self {
        Self {
            tree,
            geometry,
            before: None,
            names: OnceLock::new(),
            courses: OnceLock::new(),
            uprights: OnceLock::new(),
            places: OnceLock::new(),
            far: OnceLock::new(),
        }
    }

    /// A tree after a moment's work, of which the crew found that one.
    pub fn worked_on(tree: Arc<Tree>, geometry: Geometry, before: Arc<Posed>) -> Self {
        Self {
            before: Some(before),
            ..Self::new(tree, geometry)
        }
    }

    /// The same tree after more of the moment's work, of which the crew found what it found of this one.
    pub fn worked_on_more(self: &Arc<Self>, tree: Arc<Tree>) -> Self {
        let found = self.before.as_ref().unwrap_or(self);
        Self::worked_on(tree, self.geometry, Arc::clone(found))
    }

    /// The tree.
    pub fn tree(&self) -> &Arc<Tree> {
        &self.tree
    }

    /// The geometry that its shoots run in.
    pub fn geometry(&self) -> Geometry {
        self.geometry
    }

    /// The course of every shoot, in the order of the tree's shoots.
    pub fn courses(&self) -> &[Course] {
        self.courses
            .get_or_init(|| layout(&self.tree, self.geometry).into())
    }

    /// Every shoot with its course.
    pub fn pairs(&self) -> impl Iterator<Item = (&Shoot, &Course)> {
        self.tree.shoots.iter().zip(self.courses())
    }

    /// Where its grown uprights on the cordon stand among its shoots.
    pub fn uprights(&self) -> &[usize] {
        self.uprights.get_or_init(|| {
            let roles = self.tree.roles().into_iter().enumerate();
            roles
                .filter(|(_, role)| *role == Role::Upright)
                .map(|(i, _)| i)
                .collect()
        })
    }

    /// Which of its shoots hold a place among the uprights, in their order, with where that is: what came where another stood
    /// has its place on the cordon.
    pub fn places(&self) -> &[(usize, Point)] {
        self.places.get_or_init(|| {
            let roots = self.tree.roots(&self.tree.parents());
            let base = |(i, _): (usize, Role)| Some((i, self.courses().get(roots[i]?)?.base));
            let roles = self.tree.roles().into_iter().enumerate();
            let held = roles.filter(|(_, role)| role.holds_place());
            held.filter_map(base).collect()
        })
    }

    /// How far from its foot its wood is or can be laid, mm: at most three lengths end to end are laid anew.
    pub fn far(&self) -> f64 {
        *self.far.get_or_init(|| {
            let foot = self.tree.foot.f();
            let reach = |c: &Course| {
                let (base, tip) = (c.base.x - foot, c.tip().x - foot);
                (3.0 * c.length).max(base.abs()).max(tip.abs())
            };
            self.courses().iter().map(reach).fold(0.0, f64::max)
        })
    }

    /// Whether its parts are counted on that very tree as the crew finds it; on itself where none is.
    pub fn is_counted_on(&self, found: Option<&Arc<Tree>>) -> bool {
        match (&self.before, found) {
            (Some(own), Some(found)) => Arc::ptr_eq(&own.tree, found),
            (own, found) => own.is_none() && found.is_none(),
        }
    }

    /// Whether it is that very tree, in the same geometry.
    pub fn is(&self, tree: &Arc<Tree>, geometry: Geometry) -> bool {
        Arc::ptr_eq(&self.tree, tree) && self.geometry == geometry
    }
}

/// What is compared is what the courses follow from.
impl PartialEq for Posed {
    fn eq(&self, other: &Self) -> bool {
        self.tree == other.tree && self.geometry == other.geometry
    }
}

/// A row with where the shoots of all its trees run. It is a [`Row`] to whoever needs no more.
#[derive(Clone, Debug, PartialEq)]
pub struct PosedRow {
    row: Row,
    geometry: Geometry,
    posed: Vec<Arc<Posed>>,
}

impl PosedRow {
    /// A row in a geometry, its courses not worked out yet.
    pub fn new(row: Row, geometry: Geometry) -> Self {
        let posed = row.posed_in(geometry).into_owned();
        Self {
            row,
            geometry,
            posed,
        }
    }

    /// A row that belongs to no plan, under its limits.
    pub fn of(row: &Row, targets: &Targets) -> Self {
        Self::new(row.clone(), Geometry::of(row, targets))
    }

    /// As [`PosedRow::new`]; a tree that `known` has at the same place, in the same geometry, is taken from there.
    pub fn after(row: Row, geometry: Geometry, known: &Self) -> Self {
        let pose = |(i, tree): (usize, &Arc<Tree>)| match known.posed.get(i) {
            Some(posed) if posed.is(tree, geometry) => Arc::clone(posed),
            _ => Arc::new(Posed::new(Arc::clone(tree), geometry)),
        };
        let posed = row.trees.iter().enumerate().map(pose).collect();
        Self {
            row,
            geometry,
            posed,
        }
    }

    /// The row as a moment's work leaves it, of which the crew found `before`: its parts are counted there.
    pub fn worked_on(self, before: &Self) -> Self {
        let one = |(i, posed): (usize, &Arc<Posed>)| match before.posed.get(i) {
            Some(found) if found.tree.id == posed.tree.id && found.tree != posed.tree => {
                let tree = Arc::clone(&posed.tree);
                Arc::new(Posed::worked_on(tree, self.geometry, Arc::clone(found)))
            }
            _ => Arc::clone(posed),
        };
        Self {
            posed: self.posed.iter().enumerate().map(one).collect(),
            ..self
        }
    }

    /// A row of trees that are posed already: its own are put in place of those that `row` has, in order of place.
    pub(crate) fn from_posed(row: Row, geometry: Geometry, mut posed: Vec<Arc<Posed>>) -> Self {
        posed.arrange_by_key(|p| (p.tree.foot, p.tree.id));
        let trees = posed.iter().map(|p| Arc::clone(&p.tree)).collect();
        Self {
            row: Row { trees, ..row },
            geometry,
            posed,
        }
    }

    /// Where a tree stands, by its foot and number.
    pub(crate) fn index(&self, foot: Mm, id: TreeId) -> Option<usize> {
        let place = |p: &Arc<Posed>| (p.tree.foot, p.tree.id);
        self.posed.binary_search_by_key(&(foot, id), place).ok()
    }

    /// Puts a tree in the place of the one that stands at its foot under its number, and tells where that is; `None` where
    /// there is none.
    pub(crate) fn take(&mut self, tree: &Arc<Posed>) -> Option<usize> {
        let at = self.index(tree.tree.foot, tree.tree.id)?;
        self.row.trees[at] = Arc::clone(&tree.tree);
        self.posed[at] = Arc::clone(tree);
        Some(at)
    }

    /// The row alone.
    pub fn row(&self) -> &Row {
        &self.row
    }

    /// The row alone, for good.
    pub fn into_row(self) -> Row {
        self.row
    }

    /// The geometry that its shoots run in.
    pub fn geometry(&self) -> Geometry {
        self.geometry
    }

    /// A tree by its number.
    pub fn of_tree(&self, id: TreeId) -> Option<&Arc<Posed>> {
        self.posed.iter().find(|p| p.tree.id == id)
    }

    /// Its trees with their courses, in the order of the row's trees.
    pub fn posed(&self) -> &[Arc<Posed>] {
        &self.posed
    }
}

/// A row, posed already or not yet: whoever reads a whole row's courses takes either.
pub trait AnyRow {
    /// The row.
    fn row(&self) -> &Row;

    /// Its trees with their courses in a geometry, in the row's order. What is posed already in that geometry is borrowed.
    fn posed_in(&self, geometry: Geometry) -> Cow<'_, [Arc<Posed>]>;
}

/// A row that belongs to no plan: it is laid out here.
impl AnyRow for Row {
    fn row(&self) -> &Row {
        self
    }

    fn posed_in(&self, geometry: Geometry) -> Cow<'_, [Arc<Posed>]> {
        let pose = |tree: &Arc<Tree>| Arc::new(Posed::new(Arc::clone(tree), geometry));
        self.trees.iter().map(pose).collect()
    }
}

impl AnyRow for PosedRow {
    fn row(&self) -> &Row {
        &self.row
    }

    fn posed_in(&self, geometry: Geometry) -> Cow<'_, [Arc<Posed>]> {
        if self.geometry == geometry {
            return Cow::Borrowed(&self.posed);
        }
        self.row.posed_in(geometry)
    }
}

impl<T: AnyRow> AnyRow for Arc<T> {
    fn row(&self) -> &Row {
        (**self).row()
    }

    fn posed_in(&self, geometry: Geometry) -> Cow<'_, [Arc<Posed>]> {
        (**self).posed_in(geometry)
    }
}

impl Deref for PosedRow {
    type Target = Row;

    fn deref(&self) -> &Row {
        &self.row
    }
}
