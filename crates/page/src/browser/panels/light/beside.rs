//! The flat wall beside a deep canopy of the same leaf area.

use super::fields::Slider;
use crate::browser::app::App;
use crate::browser::controls::fields::radios;
use crate::browser::wall::light::dark_ground;
use crate::light::colour;
use cordonry::light::{Alike, Beside, DeepCanopy};
use cordonry::row::Limit;
use cordonry::said::Arg;
use leptos::prelude::*;
use std::fmt::Write;
use wasm_bindgen::prelude::*;
use web_sys::Element;

/// The flat wall beside a deep canopy of the same leaf area.
#[component]
pub fn BesideDeep(app: App) -> impl IntoView {
    let lit = app.light;
    let set = move |deep: DeepCanopy| {
        lit.deep.set(deep);
        app.redraw();
    };
    let depth = move || {
        app.style.track();
        let thickness = lit.deep.get().thickness;
        app.text("value", &[("value", Arg::Length(thickness * 1000.0))])
    };
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
            {move || {
                app.style.track();
                match lit.beside.get() {
                    None => view! { <p>{app.t("beside-waiting")}</p> }.into_any(),
                    Some(None) => view! { <p>{app.t("beside-leafless")}</p> }.into_any(),
                    Some(Some(both)) => {
                        let alike = lit.deep.get_untracked().alike;
                        view! { <BesideTable app both alike/> }.into_any()
                    }
                }
            }}
            <p class="assumed">{app.t("beside-about")}</p>
            <label class="depth">
                <span>{app.t("beside-depth")}</span>
                <Slider
                    act="beside-depth"
                    range=(1.5, 2.0, 0.05)
                    value=move || lit.deep.get().thickness
                    text=depth
                    set=move |thickness| set(DeepCanopy { thickness, ..lit.deep.get_untracked() })
                />
            </label>
            {radios(
                "beside-alike",
                app.t("beside-alike"),
                vec![
                    (app.t("beside-alike-alley"), Alike::Alley),
                    (app.t("beside-alike-rows"), Alike::RowSpacing),
                ],
                move || lit.deep.get().alike,
                move |alike| set(DeepCanopy { alike, ..lit.deep.get_untracked() }),
            )}
        </details>
    }
}

#[component]
fn BesideTable(app: App, both: Beside, alike: Alike) -> impl IntoView {
    let length = |m: f64| app.text("value", &[("value", Arg::Length(m * 1000.0))]);
    let share = |v: f64| app.text("value", &[("value", Arg::Share(v))]);
    let (flat, deep) = (&both.flat, &both.deep);
    let lines = [
        (
            "beside-thick",
            length(flat.thickness),
            length(deep.thickness),
        ),
        (
            "beside-rows",
            length(flat.row_spacing),
            length(deep.row_spacing),
        ),
        ("beside-alley", length(flat.alley()), length(deep.alley())),
        ("beside-plane", share(flat.plane), share(deep.plane)),
        ("beside-base", share(flat.base), share(deep.base)),
        ("beside-caught", share(flat.caught), share(deep.caught)),
    ];
    let least = 0.005;
    let than = match deep.base - flat.base {
        d if d < -least => "darker",
        d if d > least => "lighter",
        _ => "alike",
    };
    // As many rows on the same ground: what makes the canopy deep is taken from the alley.
    let spread = than == "lighter" && alike == Alike::RowSpacing;
    let zone = app
        .peek(|d| {
            let wire = d.scene().terms.geometry.wire / 1000.0;
            (
                wire,
                wire + d.plan().targets.get(Limit::RenewalZone) / 1000.0,
            )
        })
        .unwrap_or_default();
    // What a renewal cut lets in decides: it leads.
    let lead = [
        ("beside-flat", "beside-cut-flat", share(flat.cut)),
        ("beside-deep", "beside-cut-deep", share(deep.cut)),
    ];
    view! {
        <div class="beside-lead">
            <dl>
                {lead
                    .map(|(name, figure, value)| {
                        view! {
                            <div>
                                <dt>{app.t(name)}</dt>
                                <dd class="value" data-figure=figure>{value}</dd>
                            </div>
                        }
                    })
                    .collect_view()}
            </dl>
            <p>{app.t("beside-lead")}</p>
        </div>
        <div class="beside-drawings">
            {[("beside-flat", false), ("beside-deep", true)]
                .map(|(key, deep)| {
                    view! {
                        <figure>
                            <div inner_html=section(&both, deep, zone)></div>
                            <figcaption>{app.t(key)}</figcaption>
                        </figure>
                    }
                })
                .collect_view()}
        </div>
        <table class="beside-table">
            <thead>
                <tr>
                    <td></td>
                    <th scope="col">{app.t("beside-flat")}</th>
                    <th scope="col">{app.t("beside-deep")}</th>
                </tr>
            </thead>
            <tbody>
                {lines
                    .map(|(key, flat, deep)| {
                        view! {
                            <tr>
                                <th scope="row">{app.t(key)}</th>
                                <td class="value" data-figure=format!("{key}-flat")>{flat}</td>
                                <td class="value" data-figure=format!("{key}-deep")>{deep}</td>
                            </tr>
                        }
                    })
                    .collect_view()}
            </tbody>
        </table>
        <p data-figure="beside-says">
            {app
                .text(
                    "beside-says",
                    &[
                        ("than", Arg::Text(than.into())),
                        ("flat", Arg::Share(both.flat.base)),
                        ("deep", Arg::Share(both.deep.base)),
                    ],
                )}
        </p>
        {spread.then(|| {
            view! {
                <p data-figure="beside-why">
                    {app.text("beside-why", &[("alley", Arg::Length(deep.alley() * 1000.0))])}
                </p>
            }
        })}
        <p class="assumed">
            {app
                .text(
                    "beside-same",
                    &[
                        ("index", Arg::Number(both.flat.leaf_area_index, 2)),
                        ("length", Arg::Length(both.length * 1000.0)),
                    ],
                )}
        </p>
    }
}

/// Two rows of one canopy seen from their end, to a scale that both canopies share and in the colours of their light, the
/// renewal zone (m) framed.
fn section(both: &Beside, deep: bool, zone: (f64, f64)) -> String {
    let canopy = if deep { &both.deep } else { &both.flat };
    // Millimetres from the middle of the ground between two rows, as in the drawing of the wall.
    let mm = |m: f64| m * 1000.0;
    let dark = dark_ground();
    let reach = both.deep.row_spacing + both.deep.thickness;
    let top = both.z.last().copied().unwrap_or(0.0);
    let (wide, tall) = (mm(reach) + 400.0, mm(top) + 300.0);
    let mut out = String::new();
    let _ = write!(
        out,
        r#"<svg class="beside-drawing" shape-rendering="crispEdges" viewBox="{} {} {wide} {}" aria-hidden="true">"#,
        -wide / 2.0,
        100.0 - tall,
        tall + 20.0,
    );
    for side in [-0.5, 0.5] {
        let middle = mm(canopy.row_spacing) * side;
        let half = mm(canopy.thickness) / 2.0;
        let _ = write!(
            out,
            r#"<path class="trunk" d="M{middle} 0V{}"/>"#,
            -mm(zone.0)
        );
        for (edges, light) in both.z.windows(2).zip(&canopy.section) {
            let part = half / light.len() as f64;
            for (i, light) in light.iter().enumerate() {
                let [r, g, b] = colour(*light, dark);
                for x in [middle + part * i as f64, middle - part * (i + 1) as f64] {
                    let _ = write!(
                        out,
                        r#"<rect x="{x:.1}" y="{:.1}" width="{part:.1}" height="{:.1}" fill="rgb({r} {g} {b})"/>"#,
                        -mm(edges[1]),
                        mm(edges[1] - edges[0]),
                    );
                }
            }
        }
        for (class, low, high) in [("crown", both.z[0], top), ("base", zone.0, zone.1)] {
            let _ = write!(
                out,
                r#"<rect class="{class}" x="{}" y="{}" width="{}" height="{}"/>"#,
                middle - half,
                -mm(high),
                2.0 * half,
                mm(high - low),
            );
        }
    }
    let _ = write!(
        out,
        r#"<path class="beside-ground" d="M{} 0H{}"/></svg>"#,
        -wide / 2.0,
        wide / 2.0
    );
    out
}
