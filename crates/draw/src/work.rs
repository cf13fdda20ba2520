//! Signs for work that is to be done, drawn over the row as it is before it. Each kind has a shape of its own.

use crate::element::{add, group, markup, path};
use crate::key::{Sign, is_done};
use crate::pen::Pen;
use crate::tree::{Options, bud_shape, level, part, signs, sized, twigs};
use crate::wood::{Wood, along, on_page};
use cordonry::plan::Field;
use cordonry::pose::{Course, PosedRow, layout};
use cordonry::row::{Moment, Pose, Row, ShootId, Tree};
use cordonry::terms::Terms;
use cordonry::work::{Work, apply_to_tree};
use kurbo::Point;
use std::f64::consts::FRAC_PI_2;
use svg::node::Node;
use svg::node::element::Element;

/// Least size of a sign, millimetres to its unit.
const LEAST: f64 = 2.0;
/// Where the sign of laterals stands on wood that they are drawn on, as a share of its length.
const UNDER_LATERALS: f64 = 0.08;

/// Signs for `work` on the row as it stands before it, one group an item: a slanted stroke where wood is cut
/// (two for a stub), a cross where a shoot comes off, an arrow along the way of a tip that is bent, a
/// bud with a stroke under it where one is kept. Wood that goes is struck through with dashes. Work without
/// a subject in this row draws nothing. What `field` tells of as done is quiet and ticked.
pub fn work_marks(
    row_before: &Row,
    work: &[Work],
    moment: Moment,
    terms: &Terms,
    field: Option<&Field>,
) -> String {
    let options = Options::default();
    markup(elements(row_before, work, moment, terms, field, options))
}

/// A flag at the foot of each tree that is marked as diseased.
pub fn diseased_marks(row: &PosedRow) -> String {
    markup(diseased(row, Options::default()))
}

pub(crate) fn diseased(row: &PosedRow, options: Options) -> impl Iterator<Item = Element> {
    let marked = row.posed().iter().filter(|t| t.tree().diseased);
    marked.filter_map(move |tree| {
        let stem = tree.courses().first()?;
        let mut out = group(Sign::Diseased.class());
        sign_at(&mut out, stem.base, FRAC_PI_2, Sign::Diseased, options);
        Some(out)
    })
}

/// A sign at a point: first its ground in the paper's tone, so that it stands off the wood.
fn sign_at(out: &mut Element, at: Point, heading: f64, sign: Sign, options: Options) {
    let (mut place, class) = sized(on_page(at), heading, "sign", options, LEAST);
    let ground = class.replacen("sign", "sign-ground", 1);
    add(&mut place, path(&ground, &sign.shape()));
    add(&mut place, path(&class, &sign.shape()));
    out.append(place);
}

pub(crate) fn elements(
    row: &Row,
    work: &[Work],
    moment: Moment,
    terms: &Terms,
    field: Option<&Field>,
    options: Options,
) -> Vec<Element> {
    work.iter()
        .filter_map(|w| {
            let tree = row.tree(w.tree()?)?;
            let index = tree.index(w.subject().shoot)?;
            let courses = layout(tree, terms.geometry);
            Some(
                Marks {
                    tree,
                    courses: &courses,
                    index,
                    moment,
                    terms,
                    options,
                    done: is_done(field, moment, w),
                }
                .of(w),
            )
        })
        .collect()
}

struct Marks<'a> {
    tree: &'a Tree,
    courses: &'a [Course],
    index: usize,
    moment: Moment,
    terms: &'a Terms,
    options: Options,
    done: bool,
}

impl Marks<'_> {
    fn of(&self, work: &Work) -> Element {
        // Planting and the wires have no sign.
        let class = match (work, Sign::of(work)) {
            (Work::Stand { .. }, _) => "work work-lay work-stand",
            (_, Some(sign)) => sign.class(),
            (_, None) => "work",
        };
        let done = if self.done { " work-done" } else { "" };
        let part = part(self.tree, &self.tree.shoots[self.index]);
        let mut out = signs(&format!("{class}{done}"), &part);
        match work {
            Work::Lay { .. } | Work::Stand { .. } => self.bend(&mut out, work),
            Work::CutBack { keep_mm, .. } => self.cut(&mut out, keep_mm.f(), Sign::Cut),
            Work::Stub { keep_mm, .. } => self.cut(&mut out, keep_mm.f(), Sign::Stub),
            Work::CutToBuds { .. } | Work::Tip { .. } | Work::HoldHeight { .. } => {
                if let Ok(after) = apply_to_tree(self.tree, self.moment, self.terms, work) {
                    self.cut(&mut out, after.shoots[self.index].length(), Sign::Cut);
                }
            }
            Work::Remove { .. } | Work::RemoveTree { .. } | Work::ReplaceTree { .. } => {
                self.remove(&mut out);
            }
            Work::KeepBud { at_mm, .. } => self.bud(&mut out, at_mm.f(), Sign::Bud),
            Work::Notch { at_mm, .. } => self.bud(&mut out, at_mm.f(), Sign::Notch),
            Work::MoveBud { at_mm, .. } => {
                let parent = self.tree.shoots[self.index].parent;
                if let Some(index) = parent.and_then(|p| self.tree.index(p)) {
                    Marks { index, ..*self }.bud(&mut out, at_mm.f(), Sign::Bud);
                }
            }
            Work::Thin { keep, shoot, .. } => {
                let goes = |s: &cordonry::row::Shoot| s.parent == Some(*shoot) && s.id != *keep;
                for (index, _) in self.tree.shoots.iter().enumerate().filter(|(_, s)| goes(s)) {
                    Marks { index, ..*self }.remove(&mut out);
                }
            }
            Work::TakeLaterals { .. } => {
                // Each of them, in the sign's colour.
                let mut pen = Pen::default();
                let shoot = &self.tree.shoots[self.index];
                twigs(&mut pen, shoot, &self.course(), &self.wood(self.index));
                add(&mut out, path("twigs-off", &pen));
                // Under the lowest that is drawn: among them its strokes would be taken for more.
                let share = if pen.is_empty() { 0.5 } else { UNDER_LATERALS };
                self.beside(&mut out, share, Sign::Laterals);
            }
            Work::RubOut { .. } => self.beside(&mut out, 0.7, Sign::Rub),
            Work::Plant { .. }
            | Work::AddWire { .. }
            | Work::MoveWire { .. }
            | Work::RemoveWire { .. }
            | Work::CoverWire { .. } => {}
        }
        out
    }

    fn course(&self) -> Course {
        self.courses[self.index]
    }

    fn wood(&self, index: usize) -> Wood {
        Wood::of(&self.tree.shoots[index], self.courses[index])
    }

    fn sign(&self, out: &mut Element, at: Point, heading: f64, sign: Sign) {
        sign_at(out, at, heading, sign, self.options);
        self.tick(out, at);
    }

    /// A tick beside the sign at a point, upright whatever the wood's way, where the work is done.
    fn tick(&self, out: &mut Element, at: Point) {
        if self.done {
            sign_at(out, at, 0.0, Sign::Done, self.options);
        }
    }

    /// Strikes through the wood beyond `from` and all that grows there.
    fn going(&self, out: &mut Element, from: f64) {
        let mut pen = Pen::default();
        let mut gone: Vec<ShootId> = Vec::new();
        for (i, shoot) in self.tree.shoots.iter().enumerate() {
            let start = if i == self.index {
                from
            } else {
                let own = shoot.parent == Some(self.tree.shoots[self.index].id) && shoot.at > from;
                if !own && !shoot.parent.is_some_and(|p| gone.contains(&p)) {
                    continue;
                }
                gone.push(shoot.id);
                0.0
            };
            if self.courses[i].length > start + 1.0 {
                self.wood(i).spine(&mut pen, start);
            }
        }
        add(out, path("going", &pen));
    }

    fn cut(&self, out: &mut Element, keep: f64, sign: Sign) {
        let course = self.course();
        let keep = keep.clamp(0.0, course.length);
        self.going(out, keep);
        self.sign(out, course.point(keep), course.heading(keep), sign);
    }

    fn remove(&self, out: &mut Element) {
        let course = self.course();
        self.going(out, 0.0);
        let s = 70.0_f64.min(course.length / 2.0);
        self.sign(out, course.point(s), course.heading(s), Sign::Off);
    }

    /// Short strokes on either side of the wood: what stands out from it comes off.
    fn beside(&self, out: &mut Element, share: f64, sign: Sign) {
        let course = self.course();
        let s = course.length * share;
        self.sign(out, course.point(s), course.heading(s), sign);
    }

    fn bud(&self, out: &mut Element, at: f64, sign: Sign) {
        let course = self.course();
        let at = at.clamp(0.0, course.length);
        let heading = course.heading(at);
        // The face that looks up.
        let up = if libm::cos(heading) >= 0.0 {
            FRAC_PI_2
        } else {
            -FRAC_PI_2
        };
        let normal = along(heading + up);
        let top = course.point(at) + normal * self.wood(self.index).radius(at);
        let (mut place, class) = sized(on_page(top), FRAC_PI_2, "sign-fill", self.options, LEAST);
        add(&mut place, path(&class, &bud_shape()));
        add(
            &mut place,
            path(&class.replacen("sign-fill", "sign", 1), &sign.shape()),
        );
        out.append(place);
        self.tick(out, top);
    }

    fn bend(&self, out: &mut Element, work: &Work) {
        let Ok(after) = apply_to_tree(self.tree, self.moment, self.terms, work) else {
            return;
        };
        let new = layout(&after, self.terms.geometry)[self.index];
        let mut ghost = Pen::default();
        Wood::axis(new).spine(&mut ghost, 0.0);
        add(out, path("new-place", &ghost));
        let old = self.course();
        let (from, to) = (old.end_heading(), self.end_heading(&after, &new));
        if (from - to).abs() < 0.02 {
            return;
        }
        // The way of the tip, by bending the shoot in small steps.
        const STEPS: u32 = 12;
        let mut trial = after;
        let mut tips = Vec::new();
        for i in 0..=STEPS {
            let h = from + (to - from) * f64::from(i) / f64::from(STEPS);
            trial.shoots[self.index].pose = Pose::from_heading(h.to_degrees());
            tips.push(layout(&trial, self.terms.geometry)[self.index].tip());
        }
        let mut sweep = Pen::default();
        sweep.move_to(on_page(tips[0]));
        for k in 1..tips.len() {
            // A Catmull–Rom curve through the tips.
            let tip = |i: usize| on_page(tips[i.min(tips.len() - 1)]);
            let (before, a, b, next) = (tip(k.saturating_sub(2)), tip(k - 1), tip(k), tip(k + 1));
            sweep.curve_to(a + (b - before) / 6.0, b - (next - a) / 6.0, b);
        }
        add(out, path("sweep", &sweep));
        let last = tips.len() - 1;
        let way = tips[last] - tips[last - 1];
        let heading = if way.hypot() > 1e-6 {
            libm::atan2(way.y, way.x)
        } else {
            level(cordonry::row::Toward::Right)
        };
        self.sign(out, tips[last], heading, Sign::Bend);
    }

    /// The end heading after the work, as the pose gives it.
    fn end_heading(&self, after: &Tree, course: &Course) -> f64 {
        after.shoots[self.index]
            .pose
            .heading()
            .map_or(course.end_heading(), f64::to_radians)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cordonry::plan::{Plan, Told};
    use cordonry::row::{Laterals, Targets, TreeId};
    use cordonry_fixture::wall::{row, upright_stem};
    use std::sync::Arc;

    #[test]
    fn what_is_done_is_ticked_and_what_is_open_is_not() {
        let trees = vec![upright_stem(1, 1000, 1400.0), upright_stem(2, 2000, 1400.0)];
        let row = row(0, 3000, trees);
        let shoot = ShootId::found(0);
        let (tree, other) = (TreeId(1), TreeId(2));
        let off = Work::Remove { tree, shoot };
        let rub = Work::RubOut { tree: other, shoot };
        let plan = Plan::new("", row);
        let moment = plan.start();
        let told = plan.with_told(0, moment, std::slice::from_ref(&off), &Told::Done);
        let told = told.unwrap();
        let work = [off, rub];
        let terms = plan.terms(&plan.found.trellis);
        let drawn = |plan: &Plan| {
            let field = Some(&plan.schemes[0].field);
            let marks = work_marks(&plan.found, &work, moment, &terms, field);
            let tick = Sign::Done.shape();
            let tick = marks.matches(tick.data().to_string().as_str()).count();
            let classes = ["work work-remove work-done\"", "work work-rub\""];
            (classes.map(|c| marks.contains(c)), tick)
        };
        assert_eq!(drawn(&plan), ([false, true], 0));
        // Its ground, and the tick itself.
        assert_eq!(drawn(&told), ([true, true], 2));
        let keyed = |plan: &Plan| {
            let field = Some(&plan.schemes[0].field);
            Sign::all_on(&plan.found, &work, moment, field).contains(&Sign::Done)
        };
        assert_eq!((keyed(&plan), keyed(&told)), (false, true));
    }

    #[test]
    fn the_sign_of_laterals_stands_under_those_that_are_drawn() {
        let shoot = ShootId::found(0);
        let drawn = |count: u16| {
            let total = 250.0 * f64::from(count);
            let mut row = row(0, 3000, vec![upright_stem(1, 1000, 1400.0)]);
            let own = Arc::make_mut(&mut row.trees[0]);
            let at = own.index(shoot).unwrap();
            own.shoots[at].laterals = Laterals { count, total };
            let plan = Plan::new("", row);
            let take = [Work::TakeLaterals {
                tree: TreeId(1),
                shoot,
            }];
            let terms = plan.terms(&plan.found.trellis);
            work_marks(&plan.found, &take, plan.start(), &terms, None)
        };
        // Down a page y grows.
        let sign = |marks: &str| -> f64 {
            let at = marks.split("translate(").nth(1).unwrap();
            let (_, y) = at.split_once(')').unwrap().0.split_once(' ').unwrap();
            y.parse().unwrap()
        };
        let marks = drawn(6);
        let twigs = marks.split("class=\"twigs-off\" d=\"").nth(1).unwrap();
        // The lowest comes first: `M1002-330q…`.
        let first = twigs.split(['M', 'q']).nth(1).unwrap();
        let lowest = -first.split_once('-').unwrap().1.parse::<f64>().unwrap();
        assert!(sign(&marks) > lowest + 50.0, "{marks}");
        // Where none are drawn it stands halfway up.
        let (none, some) = (sign(&drawn(0)), sign(&marks));
        assert!(none < some - 300.0, "{none} {some}");
    }

    #[test]
    fn a_diseased_tree_has_a_sign_at_its_foot_and_one_that_is_lost_has_none() {
        let mut row = row(
            0,
            6000,
            [1000, 3000, 5000]
                .map(|x| upright_stem(x as u32 / 1000, x, 1400.0))
                .into(),
        );
        let drawn = |row: &Row| {
            let posed = PosedRow::of(row, &Targets::default());
            let key = Sign::all_on(row, &[], Moment::dormant(row.leaf), None);
            (diseased_marks(&posed), key)
        };
        assert_eq!(drawn(&row), (String::new(), vec![]));
        let mut mark = |at: usize, lost: bool| {
            let mut tree = Tree::clone(&row.trees[at]);
            tree.diseased = true;
            if lost {
                tree.shoots.clear();
            }
            row.trees[at] = tree.into();
            drawn(&row)
        };
        assert_eq!(mark(0, true), (String::new(), vec![]));
        let (marks, key) = mark(1, false);
        assert_eq!(marks.matches("work-diseased").count(), 1);
        assert!(marks.contains("translate(3000"), "{marks}");
        assert_eq!(key, [Sign::Diseased]);
    }
}
