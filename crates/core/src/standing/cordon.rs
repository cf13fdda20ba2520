//! The cordon of one tree: which wood fills it, how far it is to reach, where along it uprights stand.

use super::Job;
use crate::arrange::arrange_numbers;
use crate::pose::{Course, course, course_of};
use crate::row::{Limit, Pose, Shoot, ShootId, Toward, Tree};
use crate::units::Deg;

/// The part of a tree's cordon that runs one way from its trunk. Distances along it are in mm, from where it begins.
pub(super) struct Side {
    toward: Toward,
    /// Where along the row it begins.
    from: f64,
    /// How far it is to reach: to the next tree, or half of that where there are two sides.
    pub reach: f64,
    /// How many uprights it is to have.
    pub places: usize,
    /// The wood that fills it, by its place among the tree's shoots, as it runs or will run once it is laid.
    pub wood: Vec<(usize, Course)>,
}

impl Side {
    /// How far along the side the place `at` mm along a course is.
    pub fn along(&self, course: &Course, at: f64) -> f64 {
        (course.point(at).x - self.from) * self.toward.sign()
    }

    /// How far along the side a course ends.
    pub fn end(&self, course: &Course) -> f64 {
        (course.tip().x - self.from) * self.toward.sign()
    }

    /// How far along a course the place that is `far` along the side is.
    pub fn at(&self, course: &Course, far: f64) -> Option<f64> {
        course.at_x(self.from + far * self.toward.sign())
    }

    /// Distance between its uprights.
    pub fn apart(&self) -> f64 {
        self.reach / self.places as f64
    }
}

/// Whether a shoot's sides count as wood of the cordon: it is laid, or it is stock that is still to be laid.
pub(super) fn carries(tree: &Tree, shoot: &Shoot) -> bool {
    shoot.pose.is_laid() || to_be_laid(tree, shoot).is_some()
}

/// The way in which stock is still to be laid: a stem that is the leader itself, or one of the two leaders of stock that forks.
pub(super) fn to_be_laid(tree: &Tree, shoot: &Shoot) -> Option<Toward> {
    let stem = tree.standing_stem()?;
    if let Some([left, right]) = tree.standing_leaders() {
        let is = |leader: &Shoot| leader.id == shoot.id;
        return match (is(left), is(right)) {
            (true, _) => Some(Toward::Left),
            (_, true) => Some(Toward::Right),
            _ => None,
        };
    }
    (stem.id == shoot.id && shoot.pose == Pose::Free).then_some(tree.planted.toward)
}

impl Job<'_> {
    /// The cordon's wood, by its place among the tree's shoots, as it runs or will run once it is laid.
    pub fn wood(&self) -> Vec<(usize, Course)> {
        let (tree, g) = (&*self.tree, self.terms.geometry);
        let mut out: Vec<(usize, Course)> = Vec::new();
        for (at, shoot) in tree.shoots.iter().enumerate() {
            if let Some(toward) = to_be_laid(tree, shoot) {
                let laid = Shoot {
                    pose: Pose::Laid {
                        toward,
                        rise: Deg::default(),
                    },
                    units: shoot.units.clone(),
                    diameter: shoot.diameter,
                    ..Shoot::bud(shoot.id, None, shoot.at)
                };
                let stem = shoot.parent.map(|_| course(tree, 0, g));
                out.push((at, course_of(tree, &laid, stem.as_ref(), g)));
            } else if shoot.pose.is_laid() {
                out.push((at, course(tree, at, g)));
            }
        }
        out
    }

    /// The sides of the cordon, that on which the stem or the first leader lies first.
    pub fn sides(&self) -> Vec<Side> {
        let tree = &*self.tree;
        let mut out: Vec<Side> = Vec::new();
        for (at, course) in self.wood() {
            let shoot = &tree.shoots[at];
            let toward = match shoot.pose {
                Pose::Laid { toward, .. } => toward,
                _ => to_be_laid(tree, shoot).unwrap_or(tree.planted.toward),
            };
            let from_trunk = shoot.parent.is_none_or(|p| {
                let parent = tree.shoot(p);
                parent.is_some_and(|p| p.parent.is_none() && !p.pose.is_laid())
            });
            match out.iter_mut().find(|s| s.toward == toward) {
                Some(known) => known.wood.push((at, course)),
                // What is laid back from a leader fills another tree's place: that is for who laid it to say.
                None if !from_trunk => {}
                None => out.push(Side {
                    toward,
                    from: match course.turn == 0.0 {
                        true => course.base.x,
                        false => course.corner().x,
                    },
                    reach: 0.0,
                    places: 1,
                    wood: vec![(at, course)],
                }),
            }
        }
        let sides = out.len() as f64;
        for side in &mut out {
            side.reach = self.terms.stand.tree_spacing / sides;
            let places = side.reach / self.limit(Limit::UprightSpacing);
            side.places = libm::floor(places + 0.5).max(1.0) as usize;
        }
        out
    }

    /// The shoots that hold an upright's place, each with its root on the cordon's wood: uprights, buds, and stubs that have
    /// not ceded theirs.
    pub fn holders(&self) -> Vec<(usize, usize)> {
        let (tree, shoots) = (&*self.tree, &self.tree.shoots);
        let parents = tree.parents();
        let roots = tree.roots_on(&parents, &|wood| carries(tree, wood));
        let ceded = tree.ceded(&parents);
        let holds = |at: usize| shoots[at].holds_upright_place() && !ceded[at];
        let rooted = roots.into_iter().enumerate();
        rooted
            .filter_map(|(at, root)| Some((at, root?)))
            .filter(|(at, _)| holds(*at))
            .collect()
    }

    /// Of the holders those that stand on a side, by how far along it, in order.
    pub fn held(&self, side: &Side, holders: &[(usize, usize)]) -> Vec<f64> {
        let shoots = &self.tree.shoots;
        let far = |(_, root): &(usize, usize)| {
            let root = &shoots[*root];
            let on = side
                .wood
                .iter()
                .find(|w| Some(shoots[w.0].id) == root.parent);
            on.map(|(_, course)| side.along(course, root.at))
        };
        let mut out: Vec<f64> = holders.iter().filter_map(far).collect();
        arrange_numbers(&mut out);
        out
    }

    pub fn id(&self, at: usize) -> ShootId {
        self.tree.shoots[at].id
    }
}
