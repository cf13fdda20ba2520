//! The whole row as a strip over the wall: what of it is in sight, and the way to another part of it; and what a press on the
//! cordon band chooses.

use crate::browser::app::App;
use crate::browser::dom;
use crate::browser::hand::keys;
use crate::view::extent;
use cordonry::check::{Finding, Part, open_findings};
use cordonry::cover::Span;
use cordonry::row::TreeId;
use cordonry::said::Arg;
use cordonry_draw::{OVERVIEW_HEIGHT, overview};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, MouseEvent, PointerEvent};

/// Width in which the strip is drawn, px; it is stretched to the place that it has.
const WIDTH: f64 = 900.0;
/// How far beside an upright's tick a press on the band still means it, px.
const REACH: f64 = 8.0;

/// The row's whole length.
fn whole(app: App) -> Option<Span> {
    app.peek(|d| extent(&d.scene().row))
}

/// The strip, in which what is in sight is framed. Pressed or dragged it goes there.
#[component]
pub fn RowStrip(app: App) -> impl IntoView {
    let drawing = Memo::new(move |old: Option<&String>| {
        app.style.track();
        app.read(|d| match old {
            // While a hand is on the wall the strip waits.
            Some(old) if d.is_holding() => old.clone(),
            _ => {
                let scene = d.scene();
                let span = extent(&scene.row);
                let scale = WIDTH / span.length().max(1.0);
                let place = |f: &&Finding| (f.x, f.severity);
                let open = open_findings(d.all_findings(), &d.plan().left, scene.row.leaf);
                let found: Vec<_> = open.iter().map(place).collect();
                let (left, cover, targets) = (span.from * scale, &scene.cover, &scene.plan.targets);
                let drawn = app.worded(|w| overview(&scene.row, cover, span, &found, targets, w, scale));
                format!(
                    r#"<svg viewBox="{left:.1} 0 {WIDTH} {OVERVIEW_HEIGHT}" preserveAspectRatio="none">{drawn}</svg>"#
                )
            }
        })
        .unwrap_or_default()
    });
    // What is in sight, as shares of the whole.
    let seen = Memo::new(move |_| {
        app.tick.track();
        app.view_tick.track();
        let all = whole(app)?;
        let share = |x: f64| ((x - all.from) / all.length().max(1.0)).clamp(0.0, 1.0);
        app.with_wall(|wall, _| wall.view.span())
            .map(|seen| (share(seen.from), share(seen.to), seen))
    });
    let percent = move |of: fn((f64, f64, Span)) -> f64| {
        seen.get().map(|seen| format!("{:.2}%", 100.0 * of(seen)))
    };
    let told = move || {
        app.style.track();
        seen.get().map(|(_, _, seen)| {
            let ends = [
                ("from", Arg::Length(seen.from)),
                ("to", Arg::Length(seen.to)),
            ];
            app.text("strip-seen", &ends)
        })
    };
    let go = move |e: &PointerEvent| {
        let strip = e
            .current_target()
            .and_then(|t| t.dyn_into::<Element>().ok());
        if let (Some(strip), Some(all)) = (strip, whole(app)) {
            let place = strip.get_bounding_client_rect();
            let share = (f64::from(e.client_x()) - place.left()) / place.width().max(1.0);
            app.look_along(|_| all.from + share * all.length());
        }
    };
    view! {
        <div
            class="row-strip"
            role="scrollbar"
            tabindex="0"
            aria-controls="wall"
            aria-orientation="horizontal"
            aria-label=app.t("strip-label")
            aria-valuemin="0"
            aria-valuemax="100"
            aria-valuenow=move || seen.get().map(|(from, to, _)| format!("{:.0}", 50.0 * (from + to)))
            aria-valuetext=told
            title=app.t("strip-how")
            on:pointerdown=move |e| {
                if let Some(strip) = e.current_target().and_then(|t| t.dyn_into::<Element>().ok()) {
                    let _ = strip.set_pointer_capture(e.pointer_id());
                }
                go(&e);
            }
            on:pointermove=move |e| {
                if e.buttons() & 1 == 1 {
                    go(&e);
                }
            }
            on:keydown=move |e| {
                if keys::on_wall(app, &e) {
                    e.prevent_default();
                }
            }
        >
            <div inner_html=drawing></div>
            <i style:left=move || percent(|s| s.0) style:width=move || percent(|s| s.1 - s.0)></i>
        </div>
    }
}

/// The field by which a tree of a number is chosen and brought into sight.
#[component]
pub fn ToNumber(app: App) -> impl IntoView {
    let to = move |typed: String| {
        let tree = typed.trim().parse().ok().map(TreeId);
        let tree = tree.filter(|t| app.peek(|d| d.scene().row.tree(*t).is_some()) == Some(true));
        match tree {
            Some(tree) => {
                app.choose(Some(Part { tree, shoot: None }));
                app.show_chosen();
                dom::focus(".stage");
            }
            None => app.say(
                app.text("to-number-none", &[("tree", Arg::Text(typed))]),
                true,
            ),
        }
    };
    view! {
        <label class="to-number">
            {app.t("parts-tree")} " "
            <input
                data-field="to-number"
                inputmode="numeric"
                autocomplete="off"
                size="3"
                maxlength="9"
                title=app.t("to-number")
                on:change=move |e| {
                    let typed = event_target_value(&e);
                    if !typed.trim().is_empty() {
                        to(typed);
                    }
                }
                on:blur=move |e| {
                    if let Some(field) = e.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok()) {
                        field.set_value("");
                    }
                }
            />
        </label>
    }
}

/// Chooses what the band shows where it is pressed.
pub fn press_band(app: App, event: &MouseEvent) {
    let at = app.with_wall(|wall, desk| {
        let x = wall.local(f64::from(event.client_x()), 0.0).x;
        let x = wall.view.to_mm(kurbo::Point::new(x, 0.0)).x;
        desk.scene().on_band(x, REACH / wall.view.scale)
    });
    if let Some(part @ Some(_)) = at {
        app.choose(part);
    }
}
