//! What has been taken down of the tree at hand, in words.

use super::state::Draft;
use super::{Ask, Walk};
use crate::row::Toward;
use crate::said::{Arg, Said};

impl Walk {
    /// What has been taken down of the tree at hand, or of the last one: one line a part. Empty before the first.
    pub fn so_far(&self) -> Vec<Said> {
        // Of one that stands nothing but its foot is known while its way is asked for.
        let asked = matches!(self.ask(), Ask::Way { .. });
        self.state
            .drafts
            .last()
            .map_or_else(Vec::new, |draft| lines(draft, asked))
    }
}

fn lines(draft: &Draft, way_is_asked: bool) -> Vec<Said> {
    let foot = match draft.way.is_some() || way_is_asked {
        true => "walk-so-foot",
        false => "walk-so-missing",
    };
    let mut out = vec![Said::new(
        foot,
        vec![
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
        out.push(Said::new("walk-so-leader", args));
    }
    if !draft.uprights.is_empty() {
        let places = draft.uprights.iter().map(|u| Arg::Length(u.x.f()));
        out.push(Said::new(
            "walk-so-uprights",
            vec![
                ("count", Arg::Count(places.len() as i64)),
                ("places", Arg::List(places.collect())),
            ],
        ));
    }
    let heights = draft.uprights.iter().filter_map(|u| u.height);
    let heights: Vec<Arg> = heights.map(|h| Arg::Length(h.f())).collect();
    let laterals = draft.uprights.iter().filter_map(|u| u.laterals);
    let laterals: Vec<Arg> = laterals.map(|n| Arg::Number(n.into(), 0)).collect();
    for (key, list) in [("walk-so-heights", heights), ("walk-so-laterals", laterals)] {
        out.extend((!list.is_empty()).then(|| Said::new(key, vec![("list", Arg::List(list))])));
    }
    out
}
