//! What is to be done at the chosen part, and what work stands on a chosen tree: in its card, for who looks at the wall, where the
//! lists are far below it.

use crate::browser::app::App;
use crate::desk::Desk;
use cordonry::check::{Finding, Part, Severity};
use cordonry::plan::Phase;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::work_line;
use leptos::prelude::*;

/// How many lines of each are told; the lists have all.
const MOST: usize = 6;

/// What is told of a part, and how many lines there are of it.
type Told = (Vec<(Severity, String)>, usize);

fn is_of(part: Part, subject: &Part) -> bool {
    subject.tree == part.tree && (part.shoot.is_none() || subject.shoot == part.shoot)
}

/// What was found at a part and is not left for the year, in the order of the list.
fn found(app: App, desk: &Desk, part: Part) -> Told {
    let (all, matters) = desk.matters();
    let open = matters.iter().filter(|m| m.left.is_none());
    let own = open.flat_map(|m| &m.findings).filter_map(|i| all.get(*i));
    let own = own.filter(|f| f.subjects.iter().any(|s| is_of(part, s)));
    let own: Vec<&&Finding> = own.collect();
    let first = own.iter().take(MOST);
    let told = first.map(|f| (f.severity, app.worded(|w| w.finding(f))));
    (told.collect(), own.len())
}

/// The work of the moment on a tree and its shoots; of a shoot its card tells it anyway.
fn work(app: App, desk: &Desk, part: Part) -> Told {
    let on = |work: &&Work| part.shoot.is_none() && work.subject().tree == Some(part.tree);
    let own: Vec<&Work> = desk.scene().work().filter(on).collect();
    if own.is_empty() {
        return Told::default();
    }
    let worked = desk.row_at(desk.scene(), Phase::After);
    let first = own.iter().take(MOST);
    let told = first.map(|work| {
        let words = app.worded(|w| work_line(work, &worked, w));
        (Severity::Note, words)
    });
    (told.collect(), own.len())
}

/// A title with lines under it, nothing where there are none.
fn list(app: App, title: &'static str, told: Memo<Told>) -> impl IntoView {
    move || {
        let (lines, count) = told.get();
        let more = count.saturating_sub(lines.len());
        (count > 0).then(|| {
            let line = |(severity, words): (Severity, String)| {
                let mark = match severity {
                    Severity::Now => "▲ ",
                    Severity::Soon => "◆ ",
                    Severity::Note => "",
                };
                view! {
                    <li>
                        <span class="severity" aria-hidden="true">{mark}</span>
                        {words}
                    </li>
                }
            };
            let more = (more > 0).then(|| {
                let more = [("count", Arg::Count(more as i64))];
                view! { <li>{app.text("card-more", &more)}</li> }
            });
            view! {
                <h3>{app.text(title, &[("count", Arg::Count(count as i64))])}</h3>
                <ul>{lines.into_iter().map(line).collect_view()} {more}</ul>
            }
        })
    }
}

/// What is to be done at a part, and what work stands there.
#[component]
pub fn AtPart(app: App, part: Part) -> impl IntoView {
    // While a hand is on the wall its lines wait.
    let told = move |tell: fn(App, &Desk, Part) -> Told| {
        Memo::new(move |old: Option<&Told>| {
            app.style.track();
            app.read(|d| match old {
                Some(old) if d.is_holding() => old.clone(),
                _ => tell(app, d, part),
            })
            .unwrap_or_default()
        })
    };
    view! {
        <div class="at-part">
            {list(app, "card-work", told(work))}
            {list(app, "card-found", told(found))}
        </div>
    }
}
