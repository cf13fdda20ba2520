//! What has been taken down of the tree at hand, in words.

use super::Walk;
use super::state::Draft;
use crate::row::Toward;
use crate::said::Arg;
use crate::words::Words;

impl Walk {
    /// What has been taken down of the tree at hand, or of the last one: one line a part. Empty before the first.
    pub fn so_far(&self, words: &Words) -> Vec<String> {
        self.state
            .drafts
            .last()
            .map_or_else(Vec::new, |d| lines(d, words))
    }
}

fn lines(draft: &Draft, words: &Words) -> Vec<String> {
    let place = |mm: f64| {
        let shown = words.text("value", &[("value", Arg::Length(mm))]);
        // A number and its unit stay on one line.
        shown.replace(' ', "\u{a0}")
    };
    let mut out = vec![words.text(
        "walk-so-foot",
        &[
            ("tree", Arg::Count(draft.number.into())),
            ("place", Arg::Length(draft.foot.f())),
        ],
    )];
    for leader in &draft.leaders {
        let toward = match leader.toward {
            Toward::Left => "left",
            Toward::Right => "right",
        };
        let mut args = vec![
            ("toward", Arg::Text(toward.into())),
            ("place", Arg::Length(leader.end.f())),
        ];
        match leader.thick {
            Some(dmm) => args.push(("thick", Arg::Thickness(f64::from(dmm) / 10.0))),
            None => args.push(("thick", Arg::Text("none".into()))),
        }
        out.push(words.text("walk-so-leader", &args));
    }
    if !draft.uprights.is_empty() {
        let places: Vec<String> = draft.uprights.iter().map(|u| place(u.x.f())).collect();
        out.push(words.text(
            "walk-so-uprights",
            &[
                ("count", Arg::Count(places.len() as i64)),
                ("places", Arg::Text(places.join(" · "))),
            ],
        ));
    }
    out
}
