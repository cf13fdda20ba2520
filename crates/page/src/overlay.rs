//! What lies over the wall in screen pixels: labels, lengths in the hand, handles, the choice.

use crate::look::Scene;
use crate::view::View;
use cordonry::check::Part;
use cordonry::pose::Course;
use cordonry::row::{Limit, ShootId, TreeId};
use cordonry::work::{asks_to_bend, can_bend};
use cordonry_draw::{ToldStretch, Window, stretch_marks};
use cordonry_words::Words;
use kurbo::Point;

/// Smallest scale, px per mm, at which the handles of laid shoots are shown.
const HANDLES_FROM: f64 = 0.05;

/// Text made safe for markup.
pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

fn n(v: f64) -> String {
    if v.is_finite() {
        format!("{v:.1}")
    } else {
        "0".into()
    }
}

/// What is chosen on the wall, and what is in the hand.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Marked {
    /// The part that is chosen.
    pub chosen: Option<Part>,
    /// The shoot whose tip is in the hand.
    pub held: Option<(TreeId, ShootId)>,
}

/// The overlay's drawings.
pub fn drawings(scene: &Scene, marked: Marked, view: View, words: &Words) -> Vec<String> {
    let mut out = stretches(scene, marked, view, words);
    handles(&mut out, scene, marked, view, words);
    out
}

fn stretches(scene: &Scene, marked: Marked, view: View, words: &Words) -> Vec<String> {
    let targets = &scene.plan.targets;
    let kinds = [
        (true, &scene.cover.gaps, targets.let_pass(Limit::GapMax)),
        (
            false,
            &scene.cover.overlaps,
            targets.let_pass(Limit::OverlapMax),
        ),
    ];
    let mut told = Vec::new();
    for (bare, list, limit) in kinds {
        for stretch in list {
            // In the hand even a stretch within its limit is told, so that its end can be aimed at.
            let in_hand = marked.held.is_some_and(|held| stretch.by.contains(&held));
            if stretch.span.length() > limit || in_hand {
                told.push(ToldStretch {
                    stretch,
                    bare,
                    in_hand,
                });
            }
        }
    }
    let View {
        x,
        top,
        scale,
        width,
        ..
    } = view;
    let window = Window {
        x,
        top,
        scale,
        width,
    };
    stretch_marks(&told, scene.terms.geometry.wire, window, words)
}

/// A shoot whose tip can be taken in the hand, where that tip is.
fn handle(
    out: &mut Vec<String>,
    view: View,
    words: &Words,
    scene: &Scene,
    part: (TreeId, ShootId),
    course: &Course,
    (chosen, held): (bool, bool),
) {
    let tip = view.to_px(course.tip());
    if tip.x < -20.0 || tip.x > view.width + 20.0 {
        return;
    }
    let name = escape(&words.part(&scene.row, part.0, Some(part.1)));
    out.push(format!(
        r#"<g class="handle{}{}" data-handle="tip" data-of="{}/{}"><circle class="reach" cx="{x}" cy="{y}" r="16"/><circle class="knob" cx="{x}" cy="{y}" r="{r}"/><title>{name}</title></g>"#,
        if chosen { " chosen" } else { "" },
        if held { " held" } else { "" },
        part.0,
        part.1,
        x = n(tip.x),
        y = n(tip.y),
        r = if chosen || held { "8" } else { "5" },
    ));
}

fn handles(out: &mut Vec<String>, scene: &Scene, marked: Marked, view: View, words: &Words) {
    if view.scale < HANDLES_FROM {
        return;
    }
    let span = view.span();
    let margin = 4000.0;
    for posed in scene.row.posed() {
        let tree = posed.tree();
        let foot = tree.foot.f();
        if foot < span.from - margin || foot > span.to + margin || tree.is_lost() {
            continue;
        }
        for (shoot, course) in posed.pairs() {
            let part = (tree.id, shoot.id);
            let chosen = marked
                .chosen
                .is_some_and(|c| c.tree == tree.id && c.shoot == Some(shoot.id));
            if asks_to_bend(tree, shoot) || (chosen && can_bend(shoot)) {
                let held = marked.held == Some(part);
                handle(out, view, words, scene, part, course, (chosen, held));
            }
        }
    }
}

/// The bud that a press would keep: a ghost under the pointer.
pub fn ghost(view: View, at: Point, text: &str) -> String {
    let p = view.to_px(at);
    format!(
        r#"<path class="ghost-bud" d="M{x} {y}l-4 -3q0 -7 4 -11q4 4 4 11z"/><text class="ghost-text" x="{x}" y="{t}">{text}</text>"#,
        x = n(p.x),
        y = n(p.y),
        t = n(p.y - 20.0),
        text = escape(text),
    )
}
