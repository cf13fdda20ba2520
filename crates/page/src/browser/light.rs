//! Light on the page: the map under the drawing, the sky band over it, the figures, and what is looked at.

use crate::browser::app::App;
use crate::light::{Choice, Exact, RowLight, When, colour};
use crate::message::Question;
use crate::view::View;
use cordonry::check::{Context, check_light};
use cordonry::light::Direction;
use cordonry::light::row_light::Beside;
use cordonry::plan::{Moment, Plan};
use cordonry::row::Limit;
use cordonry::words::{Arg, Words};
use kurbo::Point;
use leptos::prelude::*;
use std::fmt::Write;
use std::ops::Range;
use std::sync::Arc;
use wasm_bindgen::prelude::*;
use web_sys::{CanvasRenderingContext2d, Element, HtmlCanvasElement, ImageData, KeyboardEvent};

const SVG: &str = "http://www.w3.org/2000/svg";

/// What an exact answer was asked about.
#[derive(Clone)]
struct Key {
    plan: Arc<Plan>,
    moment: Moment,
    choice: Choice,
    columns: Range<usize>,
}

impl PartialEq for Key {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan)
            && (self.moment, self.choice, &self.columns)
                == (other.moment, other.choice, &other.columns)
    }
}

/// Handles to the page's light; copied freely.
#[derive(Clone, Copy)]
pub struct Lit {
    row: StoredValue<Option<RowLight>, LocalStorage>,
    scene: StoredValue<Option<Scene>, LocalStorage>,
    /// What the newest exact answer was about.
    answered: StoredValue<Option<Key>, LocalStorage>,
    /// Whether light is looked at.
    pub on: RwSignal<bool>,
    /// What is looked at.
    pub choice: RwSignal<Choice>,
    /// Counts changes of the light.
    tick: RwSignal<u64>,
    /// The place that is told, mm.
    probe: RwSignal<Option<(f64, f64)>>,
    /// Whether the deep canopy is looked at.
    pub beside_open: RwSignal<bool>,
    /// Thickness of the deep canopy, m.
    pub depth: RwSignal<f64>,
    /// Flat and deep, once they are worked out.
    pub beside: RwSignal<Option<Option<Beside>>, LocalStorage>,
}

impl Lit {
    /// No light looked at.
    pub fn new() -> Self {
        Self {
            row: StoredValue::new_local(None),
            scene: StoredValue::new_local(None),
            answered: StoredValue::new_local(None),
            on: RwSignal::new(false),
            choice: RwSignal::new(Choice::default()),
            tick: RwSignal::new(0),
            probe: RwSignal::new(None),
            beside_open: RwSignal::new(false),
            depth: RwSignal::new(1.75),
            beside: RwSignal::new_local(None),
        }
    }

    /// Looks at the light, or no longer.
    pub fn toggle(self, app: App) {
        self.on.update(|on| *on = !*on);
        if !self.on.get_untracked() {
            self.row.set_value(None);
            self.answered.set_value(None);
            app.judge(Vec::new());
        }
        app.redraw();
    }

    /// Looks at something else.
    pub fn choose(self, app: App, choice: Choice) {
        self.choice.set(choice);
        app.peek(|d| {
            self.row.update_value(|row| {
                if let Some(row) = row {
                    row.choose(&d.row, d.plan(), choice);
                }
            });
        });
        self.scene.update_value(|scene| {
            if let Some(scene) = scene {
                scene.stale = true;
            }
        });
        app.redraw();
    }

    /// Has the elements of the wall and the band.
    pub fn set_scene(self, host: &Element, band: &Element) {
        self.scene.set_value(Scene::new(host, band));
    }

    /// Forgets the row, with the page that showed it.
    pub fn drop_row(self) {
        self.row.set_value(None);
        self.scene.set_value(None);
        self.answered.set_value(None);
        self.probe.set(None);
        self.beside.set(None);
    }

    /// Follows the desk and the view, and draws what changed.
    pub fn follow(self, app: App, view: View) {
        let on = self.on.get_untracked();
        let changed = on
            && app
                .peek(|d| {
                    self.row
                        .try_update_value(|row| match row {
                            Some(light) => light.follow(&d.row, d.plan(), view.span()),
                            None => {
                                let choice = self.choice.get_untracked();
                                *row = Some(RowLight::new(&d.row, d.plan(), choice, view.span()));
                                true
                            }
                        })
                        .unwrap_or(false)
                })
                .unwrap_or(false);
        self.scene.update_value(|scene| {
            if let Some(scene) = scene {
                scene.stale |= changed;
            }
        });
        self.draw(app, view);
        self.tick.update(|t| *t += 1);
    }

    fn draw(self, app: App, view: View) {
        let probe = self.probe.get_untracked();
        self.scene.update_value(|scene| {
            if let Some(scene) = scene {
                self.row.with_value(|row| {
                    app.worded(|words| scene.draw(row.as_ref(), view, probe, words));
                });
            }
        });
    }

    /// Reads the light, and is told of its changes.
    fn read<T>(self, f: impl FnOnce(&RowLight) -> T) -> Option<T> {
        self.tick.track();
        self.row.with_value(|r| r.as_ref().map(f))
    }

    /// A pointer over the wall or the band.
    pub fn point(self, app: App, client: (i32, i32)) {
        if !self.on.get_untracked() {
            return;
        }
        let at = app.with_wall(|wall, _| {
            let at = wall.local(f64::from(client.0), f64::from(client.1));
            (wall.view, wall.view.to_mm(at))
        });
        if let Some((_, at)) = at {
            self.probe.set(Some((at.x, at.y)));
        }
    }

    /// Draws the place that is told. Apart from pointing: what measures the page comes before what changes it.
    pub fn mark(self, app: App) {
        let view = app.with_wall(|wall, _| wall.view);
        if let (true, Some(view)) = (self.on.get_untracked(), view) {
            let probe = self.probe.get_untracked();
            self.scene.update_value(|scene| {
                if let Some(scene) = scene {
                    scene.draw_probe(view, probe);
                }
            });
        }
    }

    /// Moves the place that is told by columns and levels, from the middle of the view at first. Whether the key was one.
    fn step(self, app: App, event: &KeyboardEvent) -> bool {
        let far = if event.shift_key() { 10.0 } else { 1.0 };
        let Some((column, level)) = (match event.key().as_str() {
            "ArrowLeft" => Some((-far, 0.0)),
            "ArrowRight" => Some((far, 0.0)),
            "ArrowUp" => Some((0.0, far)),
            "ArrowDown" => Some((0.0, -far)),
            _ => None,
        }) else {
            return false;
        };
        let dx = self
            .row
            .with_value(|r| r.as_ref().map_or(50.0, |r| r.columns_mm().1));
        let start = app.with_wall(|wall, desk| {
            let span = wall.view.span();
            (span.middle(), desk.geometry.wire + 150.0)
        });
        let Some((x, z)) = self.probe.get_untracked().or(start) else {
            return false;
        };
        let (x, z) = (x + column * dx, (z + level * 100.0).max(0.0));
        self.probe.set(Some((x, z)));
        app.show(x);
        true
    }

    /// The question whose answer is exact, where it is not known yet.
    pub fn question(self, app: App) -> Option<Question> {
        let key = self.key(app)?;
        if self
            .answered
            .with_value(|answered| answered.as_ref() == Some(&key))
        {
            return None;
        }
        Some(Question::Light {
            moment: key.moment,
            choice: key.choice,
            columns: key.columns,
        })
    }

    fn key(self, app: App) -> Option<Key> {
        if !self.on.get_untracked() {
            return None;
        }
        let columns = self.row.with_value(|r| r.as_ref().map(RowLight::mapped))?;
        app.peek(|d| Key {
            plan: Arc::clone(d.plan()),
            moment: d.moment(),
            choice: self.choice.get_untracked(),
            columns,
        })
    }

    /// The question about the deep canopy, while it is looked at.
    pub fn beside_question(self, app: App) -> Option<Question> {
        if !(self.on.get_untracked() && self.beside_open.get_untracked()) {
            return None;
        }
        app.peek(|d| Question::Beside {
            moment: d.moment(),
            choice: self.choice.get_untracked(),
            thickness: self.depth.get_untracked(),
        })
    }

    /// Takes an exact answer about the state that the page is in.
    pub fn hear(self, app: App, exact: &Exact) {
        let Some(key) = self.key(app) else { return };
        self.answered.set_value(Some(key));
        self.row.update_value(|row| {
            if let Some(row) = row {
                row.take(&exact.chosen);
            }
        });
        self.scene.update_value(|scene| {
            if let Some(scene) = scene {
                scene.stale = true;
            }
        });
        let found = app.peek(|d| {
            check_light(
                &Context {
                    row: &d.row,
                    site: &d.plan().site,
                    targets: &d.plan().targets,
                    void: &[],
                },
                &exact.season,
            )
        });
        app.judge(found.unwrap_or_default());
        app.redraw();
    }
}

/// The elements that show light.
struct Scene {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    over: Element,
    band: Element,
    marks: Element,
    band_mark: Element,
    /// Whether the map's picture is out of date.
    stale: bool,
    dark: bool,
    shown: bool,
}

/// Height of the sky band, px.
const BAND: f64 = 56.0;
/// Room in it above the full light's line, px.
const BAND_TOP: f64 = 6.0;
/// Room in it under the ground's line, px.
const BAND_FOOT: f64 = 2.0;

/// Whether the page is on a dark ground.
fn dark_ground() -> bool {
    window()
        .match_media("(prefers-color-scheme: dark)")
        .ok()
        .flatten()
        .is_some_and(|m| m.matches())
}

impl Scene {
    fn new(host: &Element, band_host: &Element) -> Option<Self> {
        let document = host.owner_document()?;
        let canvas: HtmlCanvasElement = document.create_element("canvas").ok()?.dyn_into().ok()?;
        canvas.set_attribute("class", "light-map").ok()?;
        canvas.set_attribute("aria-hidden", "true").ok()?;
        let context = canvas.get_context("2d").ok()??.dyn_into().ok()?;
        let make = |name: &str, class: &str| {
            let element = document.create_element_ns(Some(SVG), name).ok()?;
            element.set_attribute("class", class).ok()?;
            Some(element)
        };
        let beam_svg = make("svg", "light-over")?;
        beam_svg.set_attribute("aria-hidden", "true").ok()?;
        let over = make("g", "beam")?;
        beam_svg.append_child(&over).ok()?;
        // The map is as long as the row; what lies beyond the wall's own place is cut off.
        let clip = document.create_element("div").ok()?;
        clip.set_attribute("class", "light-clip").ok()?;
        clip.append_child(&canvas).ok()?;
        host.prepend_with_node_2(&clip, &beam_svg).ok()?;
        let mark_svg = make("svg", "light-over")?;
        mark_svg.set_attribute("aria-hidden", "true").ok()?;
        let marks = make("g", "probe-mark")?;
        mark_svg.append_child(&marks).ok()?;
        host.append_child(&mark_svg).ok()?;
        let band_svg = make("svg", "sky-drawing")?;
        band_svg.set_attribute("aria-hidden", "true").ok()?;
        let band = make("g", "sky")?;
        let band_mark = make("g", "probe-mark")?;
        band_svg.append_child(&band).ok()?;
        band_svg.append_child(&band_mark).ok()?;
        band_host.append_child(&band_svg).ok()?;
        Some(Self {
            canvas,
            context,
            over,
            band,
            marks,
            band_mark,
            stale: true,
            dark: false,
            shown: false,
        })
    }

    fn draw(
        &mut self,
        light: Option<&RowLight>,
        view: View,
        probe: Option<(f64, f64)>,
        words: &Words,
    ) {
        let Some(light) = light else {
            if self.shown {
                self.shown = false;
                let _ = web_sys::HtmlElement::style(&self.canvas).set_property("display", "none");
                self.over.set_inner_html("");
                self.band.set_inner_html("");
                self.draw_probe(view, None);
            }
            return;
        };
        self.shown = true;
        let dark = dark_ground();
        if self.stale || dark != self.dark {
            self.paint(light, dark);
            self.stale = false;
            self.dark = dark;
        }
        self.place(light, view);
        self.over
            .set_inner_html(&light.sun().map_or_else(String::new, |s| beam(s, view)));
        self.band.set_inner_html(&sky_band(light, view, words));
        self.draw_probe(view, probe);
    }

    /// One picture element a cell; the browser stretches it over the wall.
    fn paint(&self, light: &RowLight, dark: bool) {
        let width = light.map.columns.len();
        let levels = light.shown_levels();
        if width == 0 || levels == 0 {
            return;
        }
        let table: Vec<[u8; 3]> = (0..=255)
            .map(|i| colour(f64::from(i) / 255.0, dark))
            .collect();
        let mut pixels = Vec::with_capacity(4 * width * levels);
        for level in (0..levels).rev() {
            for share in &light.map.light[level * width..(level + 1) * width] {
                let [r, g, b] = table[(share * 255.0) as usize & 255];
                pixels.extend_from_slice(&[r, g, b, 255]);
            }
        }
        let (w, h) = (width as u32, levels as u32);
        if (self.canvas.width(), self.canvas.height()) != (w, h) {
            self.canvas.set_width(w);
            self.canvas.set_height(h);
        }
        if let Ok(image) =
            ImageData::new_with_u8_clamped_array_and_sh(wasm_bindgen::Clamped(&pixels), w, h)
        {
            let _ = self.context.put_image_data(&image, 0.0, 0.0);
        }
    }

    fn place(&self, light: &RowLight, view: View) {
        let style = web_sys::HtmlElement::style(&self.canvas);
        let columns = &light.map.columns;
        let levels = light.shown_levels();
        if columns.is_empty() || levels == 0 {
            let _ = style.set_property("display", "none");
            return;
        }
        let (low, high) = (light.map.z[0], light.map.z[levels]);
        let (x0, dx) = light.columns_mm();
        let corner = view.to_px(Point::new(x0 + dx * columns.start as f64, high * 1000.0));
        let width = dx * columns.len() as f64 * view.scale;
        let height = (high - low) * 1000.0 * view.scale;
        for (name, value) in [
            ("left", corner.x),
            ("top", corner.y),
            ("width", width),
            ("height", height),
        ] {
            let _ = style.set_property(name, &format!("{value:.2}px"));
        }
        let _ = style.set_property("display", "block");
    }

    fn draw_probe(&self, view: View, probe: Option<(f64, f64)>) {
        let Some((x, z)) = probe else {
            self.marks.set_inner_html("");
            self.band_mark.set_inner_html("");
            return;
        };
        let p = view.to_px(Point::new(x, z));
        self.marks.set_inner_html(&format!(
            r#"<path d="M{:.1} {y:.1}h9M{:.1} {y:.1}h-9M{x:.1} {:.1}v9M{x:.1} {:.1}v-9"/>"#,
            p.x + 4.0,
            p.x - 4.0,
            p.y + 4.0,
            p.y - 4.0,
            x = p.x,
            y = p.y,
        ));
        self.band_mark
            .set_inner_html(&format!(r#"<path d="M{:.1} 0v{BAND}"/>"#, p.x));
    }
}

/// What falls through, place by place, as a curve over the wall: the higher, the more.
fn sky_band(light: &RowLight, view: View, words: &Words) -> String {
    let (x0, dx) = light.columns_mm();
    let falls = &light.fall_through;
    let at = |x: f64| ((x - x0) / dx).clamp(0.0, falls.len() as f64) as usize;
    let span = view.span();
    let (first, last) = (at(span.from), (at(span.to) + 1).min(falls.len()));
    // Several columns to a step where they are narrower than two pixels.
    let step = (2.0 / (dx * view.scale)).ceil().max(1.0) as usize;
    let ground = BAND - BAND_FOOT;
    let height = |share: f64| ground - share * (ground - BAND_TOP);
    let px = |c: usize| (x0 + dx * c as f64 - view.x) * view.scale;
    let mut line = String::new();
    for c in (first / step * step..last).step_by(step) {
        let part = &falls[c..(c + step).min(falls.len())];
        let mean = part.iter().map(|v| f64::from(*v)).sum::<f64>() / part.len() as f64;
        let from = px(c);
        let end = px(c + part.len());
        let y = height(mean);
        let _ = match line.is_empty() {
            true => write!(line, "M{from:.1} {y:.1}H{end:.1}"),
            false => write!(line, "V{y:.1}H{end:.1}"),
        };
    }
    let mut out = String::new();
    if !line.is_empty() {
        let start = px(first / step * step);
        let _ = write!(
            out,
            r#"<path class="sky-fill" d="{line}V{ground}H{start:.1}Z"/><path class="sky-line" d="{line}"/>"#
        );
    }
    for share in [0.0, 0.5, 1.0] {
        let y = height(share);
        let text = words.text("value", &[("value", Arg::Share(share))]);
        let _ = write!(
            out,
            r#"<path class="sky-rule" d="M0 {y:.1}H{:.1}"/><text x="4" y="{:.1}">{}</text>"#,
            view.width,
            (y + 4.0).clamp(10.0, BAND - 2.0),
            crate::overlay::escape(&text),
        );
    }
    out
}

/// The sun's beam as it falls on the wall's plane.
fn beam(sun: Direction, view: View) -> String {
    let flat = sun.x.hypot(sun.z).max(1e-6);
    let (dx, dy) = (-sun.x / flat, sun.z / flat);
    let mut out = String::new();
    // From the picture's upper edge to the ground.
    let ground = view.top * view.scale;
    let long = (ground / dy.max(0.05)).min(4.0 * view.width);
    let apart = 150.0;
    let slope = dx / dy.max(0.05) * ground;
    let (from, to) = (slope.max(0.0), view.width + (-slope).max(0.0));
    let mut x = -from + apart / 2.0;
    while x < to {
        let _ = write!(
            out,
            r#"<path class="ray" d="M{x:.1} 0l{:.1} {:.1}"/>"#,
            dx * long,
            dy * long
        );
        x += apart;
    }
    // The sun itself, at the upper edge, with an arrow the way its light goes.
    let (cx, cy) = (view.width / 2.0, 22.0);
    let (tx, ty) = (cx + dx * 52.0, cy + dy * 52.0);
    let _ = write!(
        out,
        r#"<circle class="sun" cx="{cx:.1}" cy="{cy:.1}" r="9"/><path class="arrow" d="M{:.1} {:.1}L{tx:.1} {ty:.1}M{:.1} {:.1}L{tx:.1} {ty:.1}L{:.1} {:.1}"/>"#,
        cx + dx * 13.0,
        cy + dy * 13.0,
        tx - dx * 9.0 - dy * 5.0,
        ty - dy * 9.0 + dx * 5.0,
        tx - dx * 9.0 + dy * 5.0,
        ty - dy * 9.0 - dx * 5.0,
    );
    out
}

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

/// What is looked at, the colours' meaning, and the value at a place.
#[component]
pub fn LightLine(app: App) -> impl IntoView {
    let lit = app.light;
    view! {
        <section class="light-line" aria-label=app.t("light-label")>
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
            <Show when=move || lit.on.get()>
                <WhenFields app/>
                <HourField app/>
                <LeafField app/>
            </Show>
            <Show when=move || lit.on.get()>
                <div class="light-values">
                    <Legend app/>
                    <Readout app/>
                </div>
            </Show>
        </section>
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
        lit.choose(app, Choice { when, ..choice });
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
                        <input
                            type="range"
                            min="1"
                            max="365"
                            data-act="light-day"
                            prop:value=day.to_string()
                            aria-valuetext=day_words(app, day)
                            on:input=move |e| {
                                if let Ok(day) = event_target_value(&e).parse() {
                                    set(When::Day(day));
                                }
                            }
                        />
                        <output>{day_words(app, day)}</output>
                    </label>
                })
            }
            _ => None,
        }}
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
fn HourField(app: App) -> impl IntoView {
    let lit = app.light;
    let set = move |hour: Option<f64>| {
        let choice = lit.choice.get_untracked();
        lit.choose(app, Choice { hour, ..choice });
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
            <input
                type="range"
                min="0"
                max="24"
                step="0.25"
                data-act="light-hour"
                aria-label=app.t("light-hour-label")
                aria-valuetext=text
                prop:value=move || hour().unwrap_or(12.0).to_string()
                on:input=move |e| {
                    if let Ok(h) = event_target_value(&e).parse() {
                        set(Some(h));
                    }
                }
            />
            <output>{text}</output>
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
            <input
                type="range"
                min="0"
                max="1"
                step="0.05"
                data-act="light-leaves"
                prop:value=move || out().to_string()
                aria-valuetext=text
                on:input=move |e| {
                    if let Ok(out) = event_target_value(&e).parse() {
                        let choice = lit.choice.get_untracked();
                        lit.choose(app, Choice { out, ..choice });
                    }
                }
            />
            <output>{text}</output>
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

/// The figures of the light.
#[component]
pub fn LightFigures(app: App) -> impl IntoView {
    view! {
        <Show when=move || app.light.on.get()>
            <FigureTable app/>
            <DeepCanopy app/>
        </Show>
    }
}

#[component]
fn FigureTable(app: App) -> impl IntoView {
    let lit = app.light;
    let lines = Memo::new(move |_| {
        lit.read(|r| {
            let f = r.figures;
            let limit = |l| app.peek(|d| d.plan().targets.get(l)).unwrap_or_default();
            let (target, renewal) = (limit(Limit::LightTarget), limit(Limit::RenewalLight));
            let share = |v: f64| {
                let value = app.text("value", &[("value", Arg::Share(v))]);
                match f.exact {
                    true => value,
                    false => app.text("about-value", &[("value", Arg::Text(value))]),
                }
            };
            let mut out = vec![(
                "figure-light-caught",
                share(f.caught),
                app.text("asked-light", &[("target", Arg::Share(target))]),
                false,
            )];
            if let Some((beam, sky)) = f.parts {
                out.push((
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
                out.push(("figure-zone-mean", share(mean), asked, mean < renewal));
                out.push(("figure-zone-least", share(least), String::new(), false));
            }
            let of = app.t(if f.whole {
                "of-whole-wall"
            } else {
                "of-wall-in-view"
            });
            out.push(("figure-under-30", share(f.under.0), of.clone(), false));
            out.push(("figure-under-50", share(f.under.1), of, false));
            out.push((
                "figure-leaf-area-index",
                app.text("value", &[("value", Arg::Number(f.leaf_area_index, 2))]),
                app.t("asked-leaf-area-index"),
                false,
            ));
            out
        })
        .unwrap_or_default()
    });
    let taken = move || {
        app.style.track();
        lit.read(|r| {
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
                ],
            )
        })
    };
    view! {
        <section class="figures light-figures" aria-labelledby="light-figures-title">
            <h2 id="light-figures-title">{app.t("light-figures-title")}</h2>
            <table>
                <tbody>
                    {move || {
                        lines
                            .get()
                            .into_iter()
                            .map(|(key, value, asked, off)| {
                                view! {
                                    <tr class:off=off>
                                        <th scope="row">{app.t(key)}</th>
                                        <td class="value" data-figure=key>
                                            {off.then_some("▲ ")}
                                            {value}
                                        </td>
                                        <td class="asked">{asked}</td>
                                    </tr>
                                }
                            })
                            .collect_view()
                    }}
                </tbody>
            </table>
            <p class="assumed">{taken}</p>
        </section>
    }
}

/// The flat wall beside a deep canopy of the same leaf area.
#[component]
fn DeepCanopy(app: App) -> impl IntoView {
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
