//! Light on the page: what is looked at and what is known of it.

use crate::browser::app::App;
use crate::browser::wall::layers::Layers;
use crate::browser::wall::light::LightLayer;
use crate::helper::{Awaited, OnWall, Question};
use crate::light::{Exact, Lighting, RowLight};
use crate::view::View;
use cordonry::check::{LightFound, Offered, check_light, take_offers};
use cordonry::light::{Alike, Beside, DeepCanopy};
use leptos::prelude::*;
use std::ops::Range;
use web_sys::{Element, KeyboardEvent};

/// The last question of a kind.
pub type LastAsked<T> = StoredValue<Option<Awaited<T>>, LocalStorage>;

/// What an exact answer was asked about.
#[derive(Clone, PartialEq)]
struct Key {
    shown: OnWall,
    choice: Lighting,
    columns: Range<usize>,
}

/// Handles to the page's light; copied freely.
#[derive(Clone, Copy)]
pub struct Lit {
    row: StoredValue<Option<RowLight>, LocalStorage>,
    scene: StoredValue<Option<LightLayer>, LocalStorage>,
    /// Whether it waits to be brought up to date.
    behind: StoredValue<bool, LocalStorage>,
    /// What the exact light was asked about last.
    asked: LastAsked<Key>,
    /// What the deep canopy was asked about last.
    beside_asked: LastAsked<(OnWall, Lighting, DeepCanopy)>,
    /// Whether light is looked at.
    pub on: RwSignal<bool>,
    /// What is looked at.
    pub choice: RwSignal<Lighting>,
    /// Counts changes of the light.
    pub tick: RwSignal<u64>,
    /// The place that is told, mm.
    pub probe: RwSignal<Option<(f64, f64)>>,
    /// Whether the deep canopy is looked at.
    pub beside_open: RwSignal<bool>,
    /// What it is.
    pub deep: RwSignal<DeepCanopy>,
    /// Flat and deep, once they are worked out.
    pub beside: RwSignal<Option<Option<Beside>>, LocalStorage>,
}

impl Lit {
    /// No light looked at.
    pub fn new() -> Self {
        Self {
            row: StoredValue::new_local(None),
            scene: StoredValue::new_local(None),
            behind: StoredValue::new_local(false),
            asked: StoredValue::new_local(None),
            beside_asked: StoredValue::new_local(None),
            on: RwSignal::new(false),
            choice: RwSignal::new(Lighting::default()),
            tick: RwSignal::new(0),
            probe: RwSignal::new(None),
            beside_open: RwSignal::new(false),
            deep: RwSignal::new(DeepCanopy {
                thickness: 1.75,
                alike: Alike::Alley,
            }),
            beside: RwSignal::new_local(None),
        }
    }

    /// Looks at the light, or no longer.
    pub fn toggle(self, app: App) {
        self.on.update(|on| *on = !*on);
        if !self.on.get_untracked() {
            self.row.set_value(None);
            self.asked.set_value(None);
            app.judge(LightFound::default());
        }
        app.redraw();
    }

    /// Looks at something else.
    pub fn choose(self, app: App, choice: Lighting) {
        self.choice.set(choice);
        app.peek(|d| {
            self.row.update_value(|row| {
                if let Some(row) = row {
                    row.choose(&d.scene().row, d.plan(), choice);
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
    pub fn set_scene(self, layers: &Layers, band: &Element) {
        self.scene.set_value(LightLayer::new(layers, band));
    }

    /// Forgets the row, with the page that showed it.
    pub fn drop_row(self) {
        self.scene.set_value(None);
        self.forget_row();
    }

    /// Forgets the row: another comes on the desk.
    pub fn forget_row(self) {
        self.row.set_value(None);
        self.asked.set_value(None);
        self.probe.set(None);
        self.beside.set(None);
        self.beside_asked.set_value(None);
    }

    /// Whether light is looked at and has been worked out.
    pub fn is_shown(self) -> bool {
        self.on.get_untracked() && self.row.with_value(Option::is_some)
    }

    /// From now on it waits until it is brought up to date; whether it did not already.
    pub fn waits(self) -> bool {
        !self
            .behind
            .try_update_value(|b| std::mem::replace(b, true))
            .unwrap_or(true)
    }

    /// Follows the desk and the view, and draws what changed.
    pub fn follow(self, app: App, view: View) {
        self.behind.set_value(false);
        let on = self.on.get_untracked();
        let changed = on
            && app
                .peek(|d| {
                    self.row
                        .try_update_value(|row| match row {
                            Some(light) => {
                                let scene = d.scene();
                                light.follow(&scene.row, &scene.terms, d.plan(), view.span())
                            }
                            None => {
                                let choice = self.choice.get_untracked();
                                *row = Some(RowLight::new(
                                    &d.scene().row,
                                    &d.scene().terms,
                                    d.plan(),
                                    choice,
                                    view.span(),
                                ));
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

    /// The light at a place of the wall, while it is shown and mapped there.
    pub fn at(self, place: kurbo::Point) -> Option<f64> {
        self.row
            .with_value(|row| row.as_ref()?.at(place.x, place.y))
    }

    /// Reads the light, and is told of its changes.
    pub fn read<T>(self, f: impl FnOnce(&RowLight) -> T) -> Option<T> {
        self.tick.track();
        super::once(f, |f| self.with_row(f))
    }

    #[inline(never)]
    fn with_row(self, f: &mut dyn FnMut(&RowLight)) {
        self.row.with_value(|r| {
            if let Some(row) = r {
                f(row);
            }
        });
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
    pub fn step(self, app: App, event: &KeyboardEvent) -> bool {
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
            (span.middle(), desk.scene().terms.geometry.wire + 150.0)
        });
        let Some((x, z)) = self.probe.get_untracked().or(start) else {
            return false;
        };
        let (x, z) = (x + column * dx, (z + level * 100.0).max(0.0));
        self.probe.set(Some((x, z)));
        app.show(x);
        true
    }

    /// The question whose answer is exact, where it is neither known nor asked already.
    pub fn question(self, app: App, number: u32) -> Option<Question> {
        let key = self.key(app)?;
        asked_anew(self.asked, number, &key).then_some(Question::Light {
            look: key.shown.look(),
            lighting: key.choice,
            columns: key.columns,
        })
    }

    /// Forgets what was asked of another row than is on the wall.
    pub fn forget_other_question(self, app: App) {
        if let Some(key) = self.key(app) {
            forget_other(self.asked, Some(&key));
        }
    }

    /// Forgets what was asked of a helper that is gone.
    pub fn forget_questions(self) {
        self.asked.set_value(None);
        self.beside_asked.set_value(None);
    }

    fn key(self, app: App) -> Option<Key> {
        if !self.on.get_untracked() {
            return None;
        }
        let columns = self.row.with_value(|r| r.as_ref().map(RowLight::mapped))?;
        app.peek(|d| Key {
            shown: OnWall::of(d),
            choice: self.choice.get_untracked(),
            columns,
        })
    }

    /// The question about the deep canopy, while it is looked at.
    pub fn beside_question(self, app: App, number: u32) -> Option<Question> {
        if !(self.on.get_untracked() && self.beside_open.get_untracked()) {
            return None;
        }
        let key = self.beside_key(app)?;
        asked_anew(self.beside_asked, number, &key).then_some(Question::Beside {
            look: key.0.look(),
            lighting: key.1,
            canopy: key.2,
        })
    }

    fn beside_key(self, app: App) -> Option<(OnWall, Lighting, DeepCanopy)> {
        let (choice, deep) = (self.choice.get_untracked(), self.deep.get_untracked());
        app.peek(|d| (OnWall::of(d), choice, deep))
    }

    /// Takes the answer about the deep canopy, if it is about what is on the wall.
    pub fn hear_beside(self, app: App, number: u32, both: Option<Beside>) {
        let now = self.beside_key(app);
        if fits(self.beside_asked, number, now.as_ref()) {
            self.beside.set(Some(both));
        }
    }

    /// Takes an exact answer, if it is about what is on the wall.
    pub fn hear(self, app: App, number: u32, exact: &Exact, offers: &[Offered]) {
        let now = self.key(app);
        if !fits(self.asked, number, now.as_ref()) {
            return;
        }
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
            let scene = d.scene();
            check_light(&scene.context(), &exact.season, &scene.findings)
        });
        let mut found = found.unwrap_or_default();
        found.findings = take_offers(found.findings, offers);
        app.judge(found);
        app.redraw();
    }
}

/// Whether it is another thing than was asked about last; from now on that was.
pub fn asked_anew<T>(asked: LastAsked<T>, number: u32, about: &T) -> bool
where
    T: Clone + PartialEq + 'static,
{
    let anew = asked.with_value(|last| last.as_ref().map(Awaited::about) != Some(about));
    if anew {
        asked.set_value(Some(Awaited::now(number, about.clone())));
    }
    anew
}

/// Forgets what was asked about another thing than is there now. Its answer is lost with it: where that thing comes back,
/// as with a step that is taken back at once, it is asked about again.
pub fn forget_other<T: PartialEq + 'static>(asked: LastAsked<T>, now: Option<&T>) {
    if asked.with_value(|last| last.as_ref().map(Awaited::about) != now) {
        asked.set_value(None);
    }
}

/// Whether an answer is the one that is waited for, and still about what it was asked about.
pub fn fits<T: PartialEq + 'static>(asked: LastAsked<T>, number: u32, now: Option<&T>) -> bool {
    asked
        .try_update_value(|asked| {
            asked
                .as_mut()
                .is_some_and(|asked| Some(asked.about()) == now && asked.take(number))
        })
        .unwrap_or(false)
}
