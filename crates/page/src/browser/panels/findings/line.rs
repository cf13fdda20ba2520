//! Matters as they are listed.

use crate::browser::app::App;
use crate::browser::panels::card::noted;
use crate::desk::Desk;
use crate::look::NotOffered;
use cordonry::check::{Finding, Matter, Part, Remedy, Severity};
use cordonry::plan::Left;
use cordonry::said::Arg;
use cordonry::work::Work;

/// How many findings of one matter are listed at once.
const LISTED: usize = 40;

/// A remedy with its words, and what the finding that it is of is known by.
pub type Offer = (String, String, Remedy);

/// A finding as it is listed.
#[derive(Clone, PartialEq)]
pub struct Listed {
    pub key: String,
    pub severity: Severity,
    pub words: String,
    pub source: String,
    pub part: Option<Part>,
    pub x: f64,
    pub offers: Vec<Offer>,
}

/// A matter as it is listed.
#[derive(Clone, PartialEq)]
pub struct Line {
    pub key: String,
    pub words: String,
    /// The findings that are listed one by one, where it is opened.
    pub listed: Vec<Listed>,
    /// What it shows where it is pressed: its first finding.
    pub first: Listed,
    /// Whether that finding says it, with its remedies.
    pub says_first: bool,
    /// How many others there are.
    pub count: usize,
    /// The rules that see it, each once.
    pub rules: String,
    /// How many findings it has.
    pub all: usize,
    /// How many remedies are done by one press, and how many of its findings have one.
    pub mendable: (usize, usize),
    /// What is said where it has none.
    pub stuck: String,
    /// The one that is, where it is one.
    pub only: Option<Offer>,
    /// Whether they wait for a new answer about the row as it is now.
    pub waits: bool,
    /// Where it is left: its place among all that is, and the reason.
    pub left: Option<(usize, String)>,
}

/// What a finding is known by as it comes and goes.
pub fn key(finding: &Finding) -> String {
    let part = finding.subjects.first().copied();
    format!("{}:{:.0}:{:?}", finding.rule, finding.x, part)
}

/// What a matter is known by.
fn matter_key(matter: &Matter) -> String {
    match matter.left {
        Some(place) => format!("left-{place}"),
        None => matter.cause.to_string(),
    }
}

fn offer(app: App, desk: &Desk, finding: &Finding, remedy: &Remedy) -> Offer {
    let told = app.worded(|w| w.remedy(remedy));
    let words = noted(told, &notes(desk, remedy));
    (key(finding), words, remedy.clone())
}

fn listed(app: App, desk: &Desk, finding: &Finding, offers: bool) -> Listed {
    let info = finding.limit.info();
    let remedies = desk.remedies(finding).iter().filter(|_| offers);
    Listed {
        key: key(finding),
        severity: finding.severity,
        words: app.worded(|w| w.finding(finding)),
        source: crate::browser::panels::limits::source(app, info.status, info.source),
        part: finding.subjects.first().copied(),
        x: finding.x,
        offers: remedies.map(|r| offer(app, desk, finding, r)).collect(),
    }
}

/// What was noted of the shoots that a remedy is work on, or keeps.
fn notes(desk: &Desk, remedy: &Remedy) -> String {
    let mut notes: Vec<&str> = Vec::new();
    for work in &remedy.work {
        let subject = work.subject();
        let kept = match work {
            Work::Thin { keep, .. } => *keep,
            _ => subject.shoot,
        };
        for id in [subject.shoot, kept] {
            let shoot = subject.tree.and_then(|t| desk.scene().row.shoot(t, id));
            if let Some((_, shoot)) = shoot
                && !notes.contains(&&*shoot.note)
            {
                notes.push(&shoot.note);
            }
        }
    }
    notes.retain(|note| !note.is_empty());
    notes.join("; ")
}

/// Why nothing is offered of a matter's findings: the first of them that the moment's work does not mend says it.
fn stuck<'f>(app: App, desk: &Desk, mut own: impl Iterator<Item = &'f &'f Finding>) -> String {
    let mends = |f: &Finding| desk.is_planned(f) || *desk.not_offered(f) == NotOffered::Planned;
    let Some(open) = own.find(|f| !mends(f)) else {
        return app.t("stuck-planned");
    };
    match (desk.not_offered(open), open.severity) {
        (NotOffered::Harm(why), _) => why.clone(),
        (NotOffered::Waits, _) => app.t("stuck-waits"),
        _ if desk.holds_back(open) => app.t("stuck-graver"),
        (_, Severity::Note) => app.t("stuck-note"),
        _ => app.t("stuck-none"),
    }
}

/// All matters as they are listed; of those that are opened, with their findings.
pub fn lines(app: App, desk: &Desk, opened: &[String]) -> Vec<Line> {
    let (all, matters) = desk.matters();
    let line = |m: &Matter| {
        let own = || m.findings.iter().filter_map(|i| all.get(*i));
        let key = matter_key(m);
        let says_first = m.said.is_none() || m.findings.len() == 1;
        let first = listed(app, desk, own().next()?, says_first);
        let mut rules: Vec<&str> = own().map(|f| f.rule).collect();
        rules.dedup();
        let mend = m.first_remedies(|i| desk.remedies(all[i]));
        let mended = own().filter(|f| !desk.remedies(f).is_empty()).count();
        let of = m.findings.len();
        let only = match &mend[..] {
            [(i, remedy)] if !says_first => Some(offer(app, desk, all[*i], remedy)),
            _ => None,
        };
        let some = !m.is_mendable(&all, |i| desk.remedies(all[i]));
        let only = only.map(|(key, words, remedy)| {
            let words = match some {
                true => app.text(
                    "remedy-of-some",
                    &[
                        ("count", Arg::Count(mended as i64)),
                        ("of", Arg::Count(of as i64)),
                        ("remedy", Arg::Text(words)),
                    ],
                ),
                false => words,
            };
            (key, words, remedy)
        });
        let most = if opened.contains(&key) { LISTED } else { 0 };
        let others = m.others().iter().filter_map(|i| all.get(*i));
        Some(Line {
            listed: others
                .take(most)
                .map(|f| listed(app, desk, f, true))
                .collect(),
            words: app.worded(|w| w.matter(m, &all)),
            count: m.others().len(),
            says_first,
            rules: rules.join(" "),
            all: of,
            mendable: (mend.len(), mended),
            stuck: stuck(app, desk, own()),
            only,
            waits: own().any(|f| desk.is_out_of_date(f)),
            left: m.left.and_then(|place| {
                let left = desk.plan().left.get(place)?;
                Some((place, left.reason.clone()))
            }),
            first,
            key,
        })
    };
    matters.iter().filter_map(line).collect()
}

/// The matter that is known by a key, where it still is, with all that was found.
pub fn of_key<'d>(desk: &'d Desk, key: &str) -> Option<(Vec<&'d Finding>, Matter)> {
    let (all, matters) = desk.matters();
    let matter = matters.into_iter().find(|m| matter_key(m) == key)?;
    Some((all, matter))
}

/// Where the finding of that number is of a matter that is known by a key: its part, and its place along the row.
pub fn place(desk: &Desk, key: &str, number: usize) -> Option<(Option<Part>, f64)> {
    let (all, matter) = of_key(desk, key)?;
    let finding = all.get(*matter.findings.get(number)?)?;
    Some((finding.subjects.first().copied(), finding.x))
}

/// What one press does of a matter: the first remedy of each of its findings, with where that is.
pub fn first_remedies(desk: &Desk, all: &[&Finding], matter: &Matter) -> Vec<(f64, Remedy)> {
    let firsts = matter.first_remedies(|i| desk.remedies(all[i]));
    let own = firsts.into_iter();
    own.map(|(i, r)| (all[i].x, r.clone())).collect()
}

/// A matter as it is left for a reason, where it still is.
pub fn left(desk: &Desk, key: &str, reason: String) -> Option<Left> {
    let (all, matter) = of_key(desk, key)?;
    Some(matter.left(&all, desk.scene().row.leaf, reason))
}

/// Why a matter of its cause was left in this leaf before, as one is that came back because its part changed.
pub fn why_left(desk: &Desk, key: &str) -> Option<String> {
    let (_, matter) = of_key(desk, key)?;
    let leaf = desk.scene().row.leaf;
    Some(desk.plan().why_left(&matter.cause.to_string(), leaf).into())
}
