//! Lessons: pairs of schemes on one newly planted row that differ in one piece of work or one rule alone.

use super::INVENTED;
use super::build::shoot;
use cordonry::plan::{Moment, Plan, Scheme, Window};
use cordonry::row::{GrowthUnit, Planted, Pose, Row, ShootId, Site, Toward, Tree, TreeId, Trellis};
use cordonry::standing::Rule;
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use std::sync::Arc;

/// Trees of a lesson's row, and how far apart they stand, mm.
const TREES: u32 = 4;
const APART: i32 = 1500;

/// One lesson.
pub struct Lesson {
    /// File name without its ending.
    pub name: &'static str,
    /// The row's name.
    title: &'static str,
    /// What is asked, what comes of it, what to look at, and how far the model can be trusted.
    about: &'static str,
    /// The names of the two schemes.
    schemes: [&'static str; 2],
    /// What is set in each.
    set: [&'static [Set]; 2],
    /// Whether the trees stand upright.
    upright: bool,
}

/// What a lesson sets in a scheme.
#[derive(Clone, Copy)]
enum Set {
    /// A rule of its standing work.
    Rule(Rule, f64),
    /// The first leaf that is let bear.
    CropFrom(u8),
    /// The stock headed at planting to so many mm.
    Headed(i32),
    /// Each stem laid to the right, or each second one to the left.
    AllRight,
    Opposed,
}

use Set::{AllRight, CropFrom, Headed, Opposed};

const fn rule(rule: Rule, value: f64) -> Set {
    Set::Rule(rule, value)
}

/// Every lesson.
pub const ALL: &[Lesson] = &[
    Lesson {
        name: "buds-removed-or-missed",
        title: "Lesson: bud removal done, or missed and set right",
        about: "Question: what does it cost when the buds on the sides and the underside are not rubbed out in the first leaf? \
                Answer: fewer and less even uprights at the end of leaf 1, and less crop in leaves 3 to 5, although all is set \
                right before leaf 2. Look at: uprights and their lengths in leaf 1, crop in leaves 3 to 5. How sure: at the usual values it holds in ten rows of ten. That side buds come off is common practice, no source.",
        schemes: ["Done", "Missed, set right"],
        set: [&[], &[rule(Rule::BudsFrom, 2.0)]],
        upright: false,
    },
    Lesson {
        name: "buds-set-right-or-never",
        title: "Lesson: missed buds set right, or never",
        about: "Question: what becomes of side and underside shoots that nobody takes off? Answer: the wall has fewer uprights of \
                its own, and they are hidden among shoots that reach into the alley. Look at: uprights in leaves 2 to 6. How \
                sure: the loss of uprights is. The model has the side shoots bear, and more crop in leaves 3 to 5 with them: that \
                can't be trusted, since shade does not act on fruit in it; a published trial (HortScience 2016, abstract) found \
                more crop by leaf 5 where buds were selected.",
        schemes: ["Set right before leaf 2", "Never"],
        set: [&[rule(Rule::BudsFrom, 2.0)], &[rule(Rule::BudsFrom, 0.0)]],
        upright: false,
    },
    Lesson {
        name: "structure-or-crop-first",
        title: "Lesson: structure first or crop first, on a row with missed buds",
        about: "Question: is it worth taking what leaf 2 would bear, and mending the row later? Answer: no; a row that is set \
                right before leaf 2 bears far more in leaves 4 and 5 than one that is cropped and cleaned before leaf 4. Look \
                at: crop in leaves 2 to 5. How sure: at the usual values it holds in ten rows of ten; on a clean row only \
                flowers are at stake, and there the sum of three years may turn. That structure goes before crop is common \
                practice, no source.",
        schemes: ["Structure first", "Crop first"],
        set: [
            &[rule(Rule::BudsFrom, 2.0)],
            &[rule(Rule::BudsFrom, 4.0), CropFrom(2)],
        ],
        upright: false,
    },
    Lesson {
        name: "unheaded-or-headed",
        title: "Lesson: stock left whole, or headed at planting",
        about: "Question: what does heading the stock at 0.9 m cost? Answer: a year; the cordon is filled later, and leaves 3 to \
                5 bear far less. Look at: cordon fill in leaves 1 and 2, crop in leaves 3 to 5. How sure: at the usual values it holds in ten rows of ten. That stock is as long as the spacing is common practice, no source.",
        schemes: ["Whole", "Headed at 0.9 m"],
        set: [&[], &[Headed(900)]],
        upright: false,
    },
    Lesson {
        name: "headed-laid-at-once-or-later",
        title: "Lesson: headed stock laid at once, or a leaf later",
        about: "Question: when is headed stock laid? Answer: a leaf later; what stands grows more than what lies, so the \
                cordon is filled more by the end of leaf 2 and leaves 3 to 5 bear some more. Look at: cordon fill in leaf 2, \
                crop in leaves 3 to 5. How sure: strong growth fills both; that steeper wood grows more is published \
                (extension, rules of shoot growth), how much is assumed.",
        schemes: ["A leaf later", "At once"],
        set: [&[Headed(900)], &[Headed(900), rule(Rule::LayShort, 1.0)]],
        upright: false,
    },
    Lesson {
        name: "renewal-a-fifth-or-never",
        title: "Lesson: renewal of a fifth, or none",
        about: "Question: is crop lost by cutting a fifth of the uprights each winter? Answer: in leaves 3 to 6 it is; in \
                leaves 8 to 10 the renewed wall bears larger fruit, and by the usual values more. Look at: crop, fruit mass and oldest wood in \
                leaves 4 to 10. How sure: more large fruit is; more crop is not, and most draws say less: it hangs on how fast old wood declines, which is assumed \
                (a marked fall from the fourth year is reported in a trade article, 2024).",
        schemes: ["A fifth", "Never"],
        set: [&[], &[rule(Rule::RenewFrom, 0.0)]],
        upright: false,
    },
    Lesson {
        name: "renewal-a-fifth-or-a-quarter",
        title: "Lesson: renewal of a fifth, or a quarter",
        about: "Question: does more renewal bring more? Answer: no; a quarter keeps the wood younger, and costs crop in leaves \
                8 to 10, since a stub bears nothing for two seasons. Look at: crop and oldest wood in leaves 8 to 10. How sure: \
                at the usual values it holds in ten rows of ten. A fifth is common practice, no source; an eighth is \
                published too.",
        schemes: ["A fifth", "A quarter"],
        set: [&[], &[rule(Rule::RenewShare, 0.25)]],
        upright: false,
    },
    Lesson {
        name: "renewal-a-fifth-or-an-eighth",
        title: "Lesson: renewal of a fifth, or an eighth",
        about: "Question: is an eighth a year enough? Answer: in the model it bears a little more in leaves 8 to 10, and its oldest \
                wood is older. Look at: crop, oldest wood and the age at which wood is cut in leaves 8 to 10. How sure: the ages follow from \
                the shares; the crop is told as found. An eighth is published (trade article on whole-tree renewal), a fifth \
                common practice.",
        schemes: ["A fifth", "An eighth"],
        set: [&[], &[rule(Rule::RenewShare, 0.125)]],
        upright: false,
    },
    Lesson {
        name: "renewal-early-or-late",
        title: "Lesson: renewal begun before leaf 3, or before leaf 5",
        about: "Question: does it matter when renewal begins? Answer: begun late it cuts older wood, by one or two years, and \
                the wall is renewed later. Look at: oldest wood and the age at which it is cut. How sure: at the usual values it holds in ten rows of ten; many failing buds turn it.",
        schemes: ["Before leaf 3", "Before leaf 5"],
        set: [&[rule(Rule::RenewFrom, 3.0)], &[rule(Rule::RenewFrom, 5.0)]],
        upright: false,
    },
    Lesson {
        name: "tipped-until-height-or-always",
        title: "Lesson: tipped until the wall has its height, or every winter",
        about: "Question: is tipping every winter worth it beside renewal? Answer: no; a fifth off the length takes near half of \
                the future sites, and with renewal that costs a quarter to half of the crop; the fruit is larger. Look at: crop \
                and fruit mass in leaves 5 to 10. How sure: at the usual values it holds in ten rows of ten. The shares are \
                published (training lecture, 2013).",
        schemes: ["Until it has its height", "Every winter"],
        set: [&[], &[rule(Rule::TipUntil, 40.0)]],
        upright: false,
    },
    Lesson {
        name: "rising-or-flat",
        title: "Lesson: laid with a slight rise, or dead flat",
        about: "Question: why is the leader laid with a slight rise? Answer: dead flat, the uprights near the trunk get more and \
                grow uneven. Look at: the uprights' lengths in leaves 1 to 3. How sure: the sign is in growers' guides, how much \
                is assumed.",
        schemes: ["Rising 3°", "Flat"],
        set: [&[], &[rule(Rule::Rise, 0.0)]],
        upright: false,
    },
    Lesson {
        name: "one-way-or-opposed",
        title: "Lesson: all leaders one way, or by turns",
        about: "Question: why do all single leaders run the same way? Answer: laid by turns at even spacing they cover one space \
                twice and leave the next bare. Look at: the cordon band and cordon fill. How sure: it is geometry.",
        schemes: ["One way", "By turns"],
        set: [&[AllRight], &[Opposed]],
        upright: true,
    },
];

/// How often each line of a lesson holds over the ranges of the model's values, worked out in tests/tests/lessons.rs.
const HOLDS: &str = include_str!("../../snapshots/lessons.txt");

/// Between how often it holds and of how many.
pub(super) const OF: &str = " of ";

/// That in words, between which the first scheme's name and its lines stand.
pub(super) const HOW_OFTEN: &str =
    "How often {} had more when every value of the model was drawn from its range: {}.";

/// What is said of a lesson, in the words that `say` has for it.
pub(super) fn note(lesson: &Lesson, say: fn(&'static str) -> &'static str) -> String {
    let lines = HOLDS.lines().filter_map(|line| {
        let mut of = line.split('\t');
        (of.next() == Some(lesson.name)).then_some(())?;
        let what = say(of.next()?);
        let (times, tries) = of.next()?.split_once(OF)?;
        Some(format!("{what}: {times}{}{tries}", say(OF)))
    });
    let lines: Vec<String> = lines.collect();
    let often = say(HOW_OFTEN).replacen("{}", say(lesson.schemes[0]), 1);
    let often = often.replacen("{}", &lines.join("; "), 1);
    format!("{} {often} {}", say(lesson.about), say(INVENTED))
}

/// The lesson as a plan. Trees are numbered from `first`: chance is by a tree's number, so another first one is another row.
pub fn plan(lesson: &Lesson, first: u32) -> Plan {
    let trees = (0..TREES).map(|i| {
        let foot = Mm(APART * i as i32);
        let planted = Planted {
            angle: Deg::new(if lesson.upright { 90.0 } else { 45.0 }),
            toward: Toward::Right,
        };
        let mut tree = Tree::lost(TreeId(first + i), foot, planted);
        let mut stem = shoot(None, 0.0, Pose::Free, vec![GrowthUnit::whole(0, 2000.0)]);
        stem.diameter = 18.0;
        tree.shoots = vec![stem];
        Arc::new(tree)
    });
    let beyond = if lesson.upright { 0 } else { 500 };
    let row = Row {
        leaf: 1,
        from: Mm(beyond),
        to: Mm(beyond + APART * TREES as i32),
        trellis: Trellis::default(),
        trees: trees.collect(),
    };
    let mut plan = Plan::new(lesson.title, row);
    plan.note = note(lesson, |english| english);
    plan.site = Arc::new(Site {
        latitude_deg: Some(45.0),
        row_bearing_deg: Some(0.0),
        row_spacing: Some(Mm(3000)),
        ..Site::default()
    });
    let scheme = |name: &&str| {
        Arc::new(Scheme {
            name: (*name).into(),
            ..Scheme::default()
        })
    };
    plan.schemes = lesson.schemes.iter().map(scheme).collect();
    for (i, all) in lesson.set.iter().enumerate() {
        for set in *all {
            plan = planned(plan, i, *set);
        }
    }
    plan = plan.with_all_standing();
    for (i, all) in lesson.set.iter().enumerate() {
        for set in *all {
            if let Set::Rule(rule, value) = set {
                let with = plan.with_rule(i, *rule, Some(*value));
                plan = with.expect("a value that the rule can have");
            }
        }
    }
    plan
}

/// The plan with what is set done as work.
fn planned(plan: Plan, scheme: usize, set: Set) -> Plan {
    let (window, each): (Window, Box<dyn Fn(usize, TreeId) -> Work>) = match set {
        Set::Rule(..) => return plan,
        CropFrom(leaf) => {
            let with = plan.with_crop_from(scheme, Some(leaf.into()));
            return with.expect("a leaf that a scheme can have");
        }
        Headed(keep) => (
            Window::Dormant,
            Box::new(move |_, tree| Work::CutBack {
                tree,
                shoot: ShootId::found(0),
                keep_mm: Mm(keep),
            }),
        ),
        AllRight | Opposed => (
            Window::EarlySummer,
            Box::new(move |i, tree| Work::Lay {
                tree,
                shoot: ShootId::found(0),
                toward: match set {
                    Opposed if i % 2 == 1 => Toward::Left,
                    _ => Toward::Right,
                },
                rise_deg: Deg::new(3.0),
            }),
        ),
    };
    let trees = plan.found.trees.iter().enumerate();
    let work = trees.map(|(i, tree)| each(i, tree.id)).collect();
    let moment = Moment { leaf: 1, window };
    let with = plan.with_works(scheme, moment, work);
    with.expect("work that can be done")
}

/// Every lesson's file name and plan.
pub fn all() -> Vec<(String, Plan)> {
    let file = |l: &Lesson| format!("lessons/{}.json", l.name);
    ALL.iter().map(|l| (file(l), plan(l, 1))).collect()
}
