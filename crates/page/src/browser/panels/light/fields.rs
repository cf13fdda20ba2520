//! What is looked at: period, hour and leaves; the colours' meaning; the value at a place.

use crate::browser::app::App;
use crate::browser::parts::{once_wanted, part};
use crate::browser::wall::light::dark_ground;
use crate::light::{Lighting, RowLight, When, colour};
use cordonry::light::Weather;
use cordonry::said::Arg;
use cordonry::units::decimal;
use leptos::prelude::*;

/// The band's own name and place.
#[component]
pub fn SkyBand(app: App, host: NodeRef<leptos::html::Div>) -> impl IntoView {
    let lit = app.light;
    view! {
        <div class="sky-band" class:off=move || !lit.on.get()>
            <p class="sky-name" id="sky-name">{app.t("sky-name")}</p>
            <div
                class="sky-host"
                node_ref=host
                role="img"
                aria-labelledby="sky-name"
                on:pointermove=move |e| {
                    lit.point(app, (e.client_x(), e.client_y()));
                    lit.mark(app);
                }
            ></div>
        </div>
    }
}

/// Shows the light or puts it away.
#[component]
pub fn LightToggle(app: App) -> impl IntoView {
    let lit = app.light;
    view! {
        <button
            data-act="light"
            class="light-toggle"
            aria-pressed=move || lit.on.get().to_string()
            title=app.t("light-toggle-help")
            on:click=move |_| lit.toggle(app)
        >
            <span aria-hidden="true">"☀ "</span>
            {app.t("light-toggle")}
        </button>
    }
}

/// What is looked at, the colours' meaning, and the value at a place, while light is shown.
#[component]
pub fn LightLine(app: App) -> impl IntoView {
    view! {
        <section class="light-line" aria-label=app.t("light-label")>
            {once_wanted(app, |app| app.light.on.get(), |app| Box::pin(light_fields(app)))}
        </section>
    }
}

part! {panels:
    /// What can be chosen of the light, the colours' meaning, and the value at a place, while light is shown.
    fn light_fields(app: App) -> AnyView {
        view! {
            <Show when=move || app.light.on.get()>
                <WhenFields app/>
                <WeatherField app/>
                <HourField app/>
                <LeafField app/>
            </Show>
            <Show when=move || app.light.on.get()>
                <div class="light-values">
                    <Legend app/>
                    <Readout app/>
                </div>
            </Show>
        }
        .into_any()
    }
}

const MONTHS: [&str; 12] = [
    "month-1", "month-2", "month-3", "month-4", "month-5", "month-6", "month-7", "month-8",
    "month-9", "month-10", "month-11", "month-12",
];

#[component]
fn WhenFields(app: App) -> impl IntoView {
    let lit = app.light;
    let set = move |when: When| {
        let choice = lit.choice.get_untracked();
        lit.choose(app, Lighting { when, ..choice });
    };
    let here = move || match lit.choice.get().when {
        When::Season => "season".to_string(),
        When::Month(m) => m.to_string(),
        When::Day(_) => "day".to_string(),
    };
    view! {
        <label>
            <span>{app.t("light-when")}</span>
            <select
                data-act="light-when"
                prop:value=here
                on:change=move |e| {
                    let value = event_target_value(&e);
                    set(match (value.as_str(), value.parse()) {
                        (_, Ok(month)) => When::Month(month),
                        ("day", _) => {
                            let latitude = lit.read(RowLight::latitude_deg).unwrap_or_default();
                            When::Day(lit.choice.get_untracked().day(latitude))
                        }
                        _ => When::Season,
                    });
                }
            >
                <option value="season">{app.t("light-season")}</option>
                {MONTHS
                    .iter()
                    .enumerate()
                    .map(|(i, key)| view! { <option value=(i + 1).to_string()>{app.t(key)}</option> })
                    .collect_view()}
                <option value="day">{app.t("light-day")}</option>
            </select>
        </label>
        {move || match lit.choice.get().when {
            When::Day(day) => {
                Some(view! {
                    <label>
                        <span>{app.t("light-day-of")}</span>
                        <Slider
                            act="light-day"
                            range=(1.0, 365.0, 1.0)
                            value=move || f64::from(day)
                            text=move || day_words(app, day)
                            set=move |day| set(When::Day(day as u32))
                        />
                    </label>
                })
            }
            _ => None,
        }}
    }
}

/// A number that is slid, with its words beside it; `range` is its least and largest value and its step.
#[component]
pub fn Slider(
    act: &'static str,
    range: (f64, f64, f64),
    /// Its name, where none stands beside it.
    #[prop(optional, into)]
    label: Option<String>,
    value: impl Fn() -> f64 + Send + 'static,
    text: impl Fn() -> String + Copy + Send + 'static,
    set: impl Fn(f64) + 'static,
) -> impl IntoView {
    let (min, max, step) = range;
    view! {
        <input
            type="range"
            min=min.to_string()
            max=max.to_string()
            step=step.to_string()
            data-act=act
            aria-label=label
            aria-valuetext=text
            prop:value=move || value().to_string()
            on:input=move |e| {
                if let Some(value) = decimal(&event_target_value(&e)) {
                    set(value);
                }
            }
        />
        <output>{text}</output>
    }
}

/// A day of the year in words.
fn day_words(app: App, day: u32) -> String {
    let month = (1..=12u32)
        .rev()
        .find(|m| cordonry::light::Period::month(*m).first <= day)
        .unwrap_or(1);
    let of_month = day + 1 - cordonry::light::Period::month(month).first;
    app.text(
        "light-date",
        &[
            ("day", Arg::Count(of_month.into())),
            ("month", Arg::Text(app.t(MONTHS[month as usize - 1]))),
        ],
    )
}

#[component]
fn WeatherField(app: App) -> impl IntoView {
    let lit = app.light;
    view! {
        <label>
            <span>{app.t("light-weather-label")}</span>
            <select
                data-act="light-weather"
                prop:value=move || lit.choice.get().weather.key()
                on:change=move |e| {
                    let weather = match event_target_value(&e) == Weather::Usual.key() {
                        true => Weather::Usual,
                        false => Weather::Clear,
                    };
                    let choice = lit.choice.get_untracked();
                    lit.choose(app, Lighting { weather, ..choice });
                }
            >
                <option value=Weather::Clear.key()>{app.t("light-weather-clear")}</option>
                <option value=Weather::Usual.key()>{app.t("light-weather-usual")}</option>
            </select>
        </label>
    }
}

#[component]
fn HourField(app: App) -> impl IntoView {
    let lit = app.light;
    let set = move |hour: Option<f64>| {
        let choice = lit.choice.get_untracked();
        lit.choose(app, Lighting { hour, ..choice });
    };
    let hour = move || lit.choice.get().hour;
    let text = move || match hour() {
        Some(h) => {
            let minutes = (h * 60.0).round() as i64;
            app.text(
                "light-hour",
                &[(
                    "time",
                    Arg::Text(format!("{}:{:02}", minutes / 60, minutes % 60)),
                )],
            )
        }
        None => app.t("light-all-day"),
    };
    view! {
        <label>
            <input
                type="checkbox"
                data-act="light-one-hour"
                prop:checked=move || hour().is_some()
                on:change=move |e| set(event_target_checked(&e).then_some(10.0))
            />
            <span>{app.t("light-one-hour")}</span>
        </label>
        <label class:off=move || hour().is_none()>
            <Slider
                act="light-hour"
                range=(0.0, 24.0, 0.25)
                label=app.t("light-hour-label")
                value=move || hour().unwrap_or(12.0)
                text=text
                set=move |h| set(Some(h))
            />
        </label>
        <span class="sun-words" role="status">
            {move || {
                lit.read(|r| match r.sun() {
                    Some(sun) => {
                        let height = sun.z.asin().to_degrees();
                        let off = sun.y.abs().atan2(sun.x.abs()).to_degrees();
                        app.text(
                            "light-sun",
                            &[("height", Arg::Angle(height)), ("off", Arg::Angle(off))],
                        )
                    }
                    None if r.is_night() => app.t("light-night"),
                    None => String::new(),
                })
            }}
        </span>
    }
}

#[component]
fn LeafField(app: App) -> impl IntoView {
    let lit = app.light;
    let out = move || lit.choice.get().out;
    let text = move || app.text("light-leaves", &[("share", Arg::Share(out()))]);
    view! {
        <label>
            <span>{app.t("light-leaves-label")}</span>
            <Slider
                act="light-leaves"
                range=(0.0, 1.0, 0.05)
                value=out
                text=text
                set=move |out| {
                    let choice = lit.choice.get_untracked();
                    lit.choose(app, Lighting { out, ..choice });
                }
            />
        </label>
    }
}

/// The colours and what they stand for.
#[component]
fn Legend(app: App) -> impl IntoView {
    let lit = app.light;
    let colours = move || {
        lit.tick.track();
        let dark = dark_ground();
        let stops: Vec<String> = (0..=10)
            .map(|i| {
                let [r, g, b] = colour(f64::from(i) / 10.0, dark);
                format!("rgb({r} {g} {b}) {}%", i * 10)
            })
            .collect();
        format!("linear-gradient(to right,{})", stops.join(","))
    };
    let mark = |share: f64| {
        let text = app.text("value", &[("value", Arg::Share(share))]);
        view! { <span class="legend-mark" style:left=format!("{}%", share * 100.0)>{text}</span> }
    };
    view! {
        <div class="legend" role="img" aria-label=app.t("legend-label")>
            <span class="legend-name">{app.t("legend-name")}</span>
            <span class="legend-scale">
                <span class="legend-bar" style:background=colours></span>
                {[0.0, 0.3, 0.5, 1.0].map(mark).collect_view()}
            </span>
        </div>
    }
}

/// The light at the pointer, or where the arrow keys have led.
#[component]
fn Readout(app: App) -> impl IntoView {
    let lit = app.light;
    let text = move || {
        app.style.track();
        let Some((x, z)) = lit.probe.get() else {
            return app.t("probe-none");
        };
        let values = lit.read(|r| (r.at(x, z), r.falls_at(x)));
        let Some((here, falls)) = values else {
            return String::new();
        };
        let place = [
            ("x", Arg::Length(x)),
            ("z", Arg::Length(z)),
            ("light", Arg::Share(here.unwrap_or(0.0))),
            ("falls", Arg::Share(falls.unwrap_or(0.0))),
        ];
        let key = match (here, falls) {
            (Some(_), Some(_)) => "probe-both",
            (None, Some(_)) => "probe-falls",
            _ => "probe-off",
        };
        app.text(key, &place)
    };
    view! {
        <div
            class="readout"
            data-readout=""
            tabindex="0"
            role="application"
            aria-label=app.t("probe-label")
            on:keydown=move |e| {
                if lit.step(app, &e) {
                    e.prevent_default();
                    e.stop_propagation();
                }
            }
        >
            <span role="status">{text}</span>
        </div>
    }
}
