//! The figures of the light.

use super::beside::BesideDeep;
use crate::browser::app::App;
use crate::browser::panels::findings::FigureRows;
use crate::browser::parts::part;
use cordonry::check::renewal_zone_is_dark;
use cordonry::light::anchors::{ANCHORS, Anchor};
use cordonry::light::sky::USUAL_SKY_SHARE;
use cordonry::row::Limit;
use cordonry::said::Arg;
use cordonry_draw::{FigureLine, FigureTable};
use leptos::prelude::*;

part! {panels:
    /// The figures of the light, while they are shown.
    pub fn light_figures(app: App) -> AnyView {
        view! { <LightFiguresPanel app/> }.into_any()
    }
}

#[component]
fn LightFiguresPanel(app: App) -> impl IntoView {
    view! {
        <Show when=move || app.light.on.get()>
            <LightFigureTable app/>
            <BesideDeep app/>
        </Show>
    }
}

/// The figures of the light for paper, while they are shown.
pub fn on_paper(app: App) -> Option<FigureTable> {
    app.light.on.get().then(|| FigureTable {
        title: app.t("light-figures-title"),
        lines: lines(app),
        assumed: taken(app).unwrap_or_default(),
    })
}

fn lines(app: App) -> Vec<FigureLine> {
    app.light
        .read(|r| {
            let f = r.figures;
            let limit = |l| app.peek(|d| d.plan().targets.get(l)).unwrap_or_default();
            let (target, renewal) = (limit(Limit::LightTarget), limit(Limit::RenewalLight));
            let least = limit(Limit::LightFill);
            let share = |v: f64| {
                let value = app.text("value", &[("value", Arg::Share(v))]);
                match f.exact {
                    true => value,
                    false => app.text("about-value", &[("value", Arg::Text(value))]),
                }
            };
            let line = |key, value, asked, off| FigureLine {
                key,
                value,
                asked,
                off,
            };
            let mut out = vec![line(
                "figure-light-caught",
                share(f.caught),
                app.text("asked-light", &[("target", Arg::Share(target))]),
                false,
            )];
            if let Some(filled) = f.filled.filter(|filled| *filled > 0.0) {
                out.push(line(
                    "figure-light-filled",
                    share(f.caught / filled),
                    app.text(
                        "asked-light-filled",
                        &[("filled", Arg::Share(filled)), ("least", Arg::Share(least))],
                    ),
                    f.caught < least * filled,
                ));
            }
            if let Some((beam, sky)) = f.parts {
                out.push(line(
                    "figure-light-parts",
                    app.text(
                        "light-parts",
                        &[("beam", Arg::Share(beam)), ("sky", Arg::Share(sky))],
                    ),
                    String::new(),
                    false,
                ));
            }
            let zone_height = Arg::Length(limit(Limit::RenewalZone));
            if let Some((mean, least)) = f.zone {
                let asked = app.text(
                    "asked-zone",
                    &[("height", zone_height), ("least", Arg::Share(renewal))],
                );
                let dark = app.peek(|d| renewal_zone_is_dark(mean, &d.plan().targets));
                out.push(line(
                    "figure-zone-mean",
                    share(mean),
                    asked,
                    dark == Some(true),
                ));
                out.push(line(
                    "figure-zone-least",
                    share(least),
                    String::new(),
                    false,
                ));
            }
            let of = app.t(if f.whole {
                "of-whole-wall"
            } else {
                "of-wall-in-view"
            });
            out.push(line("figure-under-30", share(f.under.0), of.clone(), false));
            out.push(line("figure-under-50", share(f.under.1), of, false));
            out.push(line(
                "figure-leaf-area-index",
                app.text("value", &[("value", Arg::Number(f.leaf_area_index, 2))]),
                app.t("asked-leaf-area-index"),
                false,
            ));
            out
        })
        .unwrap_or_default()
}

/// What was taken for them.
fn taken(app: App) -> Option<String> {
    app.style.track();
    app.light.read(|r| {
        let a = r.around();
        let yes = |given: bool| Arg::Text(if given { "yes" } else { "no" }.into());
        app.text(
            "light-assumed",
            &[
                ("latitude", Arg::Number(a.site.latitude_deg.abs(), 1)),
                (
                    "side",
                    Arg::Text(
                        if a.site.latitude_deg < 0.0 {
                            "south"
                        } else {
                            "north"
                        }
                        .into(),
                    ),
                ),
                ("place", yes(a.place_given)),
                ("bearing", Arg::Angle(a.site.row_azimuth_deg)),
                ("way", yes(a.bearing_given)),
                ("spacing", Arg::Length(a.shape.row_spacing * 1000.0)),
                ("rows", yes(a.spacing_given)),
                ("thickness", Arg::Length(a.shape.thickness * 1000.0)),
                ("weather", Arg::Text(r.choice().weather.key().into())),
                ("sky", Arg::Share(USUAL_SKY_SHARE)),
            ],
        )
    })
}

#[component]
fn LightFigureTable(app: App) -> impl IntoView {
    let lines = Memo::new(move |_| lines(app));
    view! {
        <section class="figures light-figures" aria-labelledby="light-figures-title">
            <h2 id="light-figures-title">{app.t("light-figures-title")}</h2>
            <FigureRows app lines/>
            <p class="assumed">{move || taken(app)}</p>
            <details>
                <summary>{app.t("anchors-title")}</summary>
                <FigureRows app lines=Memo::new(move |_| anchors(app))/>
                <p class="assumed">{app.t("anchors-why")}</p>
            </details>
        </section>
    }
}

/// Published figures beside the model's.
fn anchors(app: App) -> Vec<FigureLine> {
    let line = |a: &Anchor| FigureLine {
        key: a.key,
        value: app.text(
            "anchor-model",
            &[
                ("low", Arg::Share(a.model.0)),
                ("high", Arg::Share(a.model.1)),
            ],
        ),
        asked: app.text(
            "anchor-published",
            &[
                ("published", Arg::Share(a.published)),
                (
                    "way",
                    Arg::Text(if a.off() > 0.0 { "more" } else { "less" }.into()),
                ),
                ("off", Arg::Share(a.off().abs())),
            ],
        ),
        off: false,
    };
    ANCHORS.iter().map(line).collect()
}
