//! The flat wall beside a deep canopy of the same leaf area.

use super::scene::dark_ground;
use crate::browser::app::App;
use crate::light::colour;
use cordonry::light::row_light::Beside;
use cordonry::words::Arg;
use leptos::prelude::*;
use std::fmt::Write;
use wasm_bindgen::prelude::*;
use web_sys::Element;

/// The flat wall beside a deep canopy of the same leaf area.
#[component]
pub fn DeepCanopy(app: App) -> impl IntoView {
    let lit = app.light;
    view! {
        <details
            class="beside"
            data-act="beside"
            on:toggle=move |e| {
                let open = e
                    .target()
                    .and_then(|t| t.dyn_into::<Element>().ok())
                    .is_some_and(|t| t.has_attribute("open"));
                lit.beside_open.set(open);
                app.redraw();
            }
        >
            <summary>{app.t("beside-title")}</summary>
            <p class="assumed">{app.t("beside-about")}</p>
            <label class="depth">
                <span>{app.t("beside-depth")}</span>
                <input
                    type="range"
                    min="1.5"
                    max="2"
                    step="0.05"
                    data-act="beside-depth"
                    prop:value=move || lit.depth.get().to_string()
                    on:input=move |e| {
                        if let Ok(depth) = event_target_value(&e).parse() {
                            lit.depth.set(depth);
                            app.redraw();
                        }
                    }
                />
                <output>
                    {move || {
                        app.style.track();
                        app.text("value", &[("value", Arg::Length(lit.depth.get() * 1000.0))])
                    }}
                </output>
            </label>
            {move || {
                app.style.track();
                match lit.beside.get() {
                    None => view! { <p>{app.t("beside-waiting")}</p> }.into_any(),
                    Some(None) => view! { <p>{app.t("beside-leafless")}</p> }.into_any(),
                    Some(Some(both)) => view! { <BesideTable app both/> }.into_any(),
                }
            }}
        </details>
    }
}

#[component]
fn BesideTable(app: App, both: Beside) -> impl IntoView {
    let thick = |m: f64| app.text("beside-thick", &[("thickness", Arg::Length(m * 1000.0))]);
    let share = |v: f64| app.text("value", &[("value", Arg::Share(v))]);
    let lines = [
        ("beside-base", both.flat, both.deep),
        ("beside-cut", both.flat_cut, both.deep_cut),
        ("beside-caught", both.flat_caught, both.deep_caught),
    ];
    view! {
        <div inner_html=sections(&both)></div>
        <table class="beside-table">
            <thead>
                <tr>
                    <td></td>
                    <th scope="col">
                        {app.t("beside-flat")} <br/> <small>{thick(both.flat_thickness)}</small>
                    </th>
                    <th scope="col">
                        {app.t("beside-deep")} <br/> <small>{thick(both.deep_thickness)}</small>
                    </th>
                </tr>
            </thead>
            <tbody>
                {lines
                    .map(|(key, flat, deep)| {
                        view! {
                            <tr>
                                <th scope="row">{app.t(key)}</th>
                                <td class="value" data-figure=format!("{key}-flat")>{share(flat)}</td>
                                <td class="value" data-figure=format!("{key}-deep")>{share(deep)}</td>
                            </tr>
                        }
                    })
                    .collect_view()}
            </tbody>
        </table>
        <p class="assumed">
            {app
                .text(
                    "beside-same",
                    &[
                        ("index", Arg::Number(both.leaf_area_index, 2)),
                        ("length", Arg::Length(both.length * 1000.0)),
                    ],
                )}
        </p>
    }
}

/// Both seen from the row's end, their bases in the colours of the light that a renewal cut leaves there.
fn sections(both: &Beside) -> String {
    let dark = dark_ground();
    let mut out = String::from(
        r#"<svg class="beside-drawing" viewBox="0 0 300 120" aria-hidden="true"><path class="beside-ground" d="M0 110H300"/>"#,
    );
    for (middle, thickness, cut, deep) in [
        (75.0, both.flat_thickness, both.flat_cut, false),
        (225.0, both.deep_thickness, both.deep_cut, true),
    ] {
        let half = thickness * 20.0;
        let (left, width) = (middle - half, 2.0 * half);
        let [r, g, b] = colour(cut, dark);
        let round = if deep { 14.0 } else { 4.0 };
        let _ = write!(
            out,
            r#"<path class="trunk" d="M{middle} 110V84"/><rect class="crown" x="{left}" y="14" width="{width}" height="76" rx="{round}"/><rect class="base" x="{left}" y="78" width="{width}" height="12" fill="rgb({r} {g} {b})"/>"#,
        );
    }
    out.push_str("</svg>");
    out
}
