//! Hands on the wall: pressing, dragging, panning, pinching, the wheel. One finger up and down is the page's.

use crate::browser::app::{App, Offer};
use crate::browser::dom;
use crate::browser::wall::WallScreen;
use crate::desk::Desk;
use cordonry::check::Part;
use cordonry::row::{ShootId, TreeId};
use cordonry::said::Arg;
use cordonry::sorted::Map;
use cordonry_draw::Detail;
use kurbo::Point;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent, WheelEvent};

/// What the hand is doing.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Doing {
    Nothing,
    /// Pressed on this, not moved yet.
    Pressing(Hit),
    /// A tip is taken, not moved yet.
    Taking(TreeId, ShootId),
    Bending,
    Panning,
    Pinching,
}

/// What lies under the pointer.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Hit {
    Handle(TreeId, ShootId),
    Shoot(TreeId, ShootId),
    Tree(TreeId),
    /// A tree's name under it, by which no other part can be meant.
    Name(TreeId),
    Ground,
}

/// Pointers on the wall.
#[derive(Clone, Copy)]
pub struct Hand {
    app: App,
    state: StoredValue<State, LocalStorage>,
}

struct State {
    doing: Doing,
    start: Point,
    last: Point,
    pointers: Map<i32, Point>,
}

/// How far beside a shoot, in px, a press on a small wall still means it.
const NEAR: f64 = 24.0;
/// How far, in px, a pointer may wander within a press.
const SLOP: f64 = 5.0;

impl Hand {
    /// A hand for the page's wall.
    pub fn new(app: App) -> Self {
        Self {
            app,
            state: StoredValue::new_local(State {
                doing: Doing::Nothing,
                start: Point::ORIGIN,
                last: Point::ORIGIN,
                pointers: Map::new(),
            }),
        }
    }

    fn local(self, x: i32, y: i32) -> Point {
        self.app
            .with_wall(|wall, _| wall.local(f64::from(x), f64::from(y)))
            .unwrap_or_default()
    }

    fn to_wall(self, px: Point) -> Point {
        self.app
            .with_wall(|wall, _| wall.view.to_mm(px))
            .unwrap_or_default()
    }

    /// A pointer goes down.
    pub fn down(self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let Some(target) = event.target().and_then(|t| t.dyn_into::<Element>().ok()) else {
            return;
        };
        if matches!(target.closest(".part-card, .offer"), Ok(Some(_))) {
            return;
        }
        let at = self.local(event.client_x(), event.client_y());
        if let Some(host) = event
            .current_target()
            .and_then(|t| t.dyn_into::<Element>().ok())
        {
            let _ = host.set_pointer_capture(event.pointer_id());
        }
        let hit = hit(&target);
        let two = self
            .state
            .try_update_value(|s| {
                s.pointers.insert(event.pointer_id(), at);
                s.start = at;
                s.last = at;
                s.pointers.len() >= 2
            })
            .unwrap_or(false);
        if two {
            self.app.turn(Desk::drop_hold);
            self.set(Doing::Pinching);
        } else if let (Hit::Handle(tree, shoot), None) = (hit, self.app.marking.get_untracked()) {
            // Nothing is drawn before it moves: of a ring that is gone from the page a browser no longer knows that a
            // finger on it does not scroll.
            self.set(Doing::Taking(tree, shoot));
        } else {
            self.set(Doing::Pressing(hit));
        }
        self.app.with_wall(|wall, _| wall.show_ghost(None));
    }

    fn set(self, doing: Doing) {
        self.state.update_value(|s| s.doing = doing);
    }

    fn doing(self) -> Doing {
        self.state.with_value(|s| s.doing)
    }

    /// A pointer moves.
    pub fn moved(self, event: &PointerEvent) {
        let at = self.local(event.client_x(), event.client_y());
        match self.doing() {
            Doing::Nothing => self.hover(event, at),
            Doing::Taking(tree, shoot) => {
                self.take(tree, shoot);
                self.moved(event);
            }
            Doing::Bending => {
                let to = self.to_wall(at);
                let snap = !event.alt_key();
                self.app.turn(|d| d.drag(to, snap));
            }
            Doing::Pinching => self.pinch(event.pointer_id(), at),
            Doing::Pressing(_) => {
                let start = self.state.with_value(|s| s.start);
                if (at - start).hypot() > SLOP {
                    self.set(Doing::Panning);
                    self.pan(at);
                }
            }
            Doing::Panning => self.pan(at),
        }
    }

    fn take(self, tree: TreeId, shoot: ShootId) {
        self.app.turn(|d| {
            d.choose(Some(Part {
                tree,
                shoot: Some(shoot),
            }));
            d.take(tree, shoot);
        });
        self.set(Doing::Bending);
    }

    fn pan(self, at: Point) {
        let moved = self
            .state
            .try_update_value(|s| {
                let moved = at - s.last;
                s.last = at;
                moved
            })
            .unwrap_or_default();
        self.app.with_wall(|wall, desk| {
            wall.view = wall.view.moved(moved.x, moved.y).held_to(&desk.scene().row);
        });
        self.app.reframe();
    }

    fn pinch(self, id: i32, at: Point) {
        let step = self.state.try_update_value(|s| {
            let other = s
                .pointers
                .iter()
                .find(|(k, _)| **k != id)
                .map(|(_, p)| *p)?;
            let before = s.pointers.insert(id, at)?;
            Some((other, before))
        });
        let Some(Some((other, before))) = step else {
            return;
        };
        let (old, new) = ((before - other).hypot(), (at - other).hypot());
        if old < 1.0 {
            return;
        }
        let slide = (at - before) / 2.0;
        self.app.with_wall(|wall, desk| {
            let row = &desk.scene().row;
            wall.view = wall
                .view
                .zoomed_on(new / old, at.midpoint(other), row)
                .moved(slide.x, slide.y)
                .held_to(row);
        });
        self.app.suit_soon();
        self.app.reframe();
    }

    fn hover(self, event: &PointerEvent, at: Point) {
        let target = event.target().and_then(|t| t.dyn_into::<Element>().ok());
        let over = target.as_ref().map_or(Hit::Ground, hit);
        let ghost = match over {
            Hit::Shoot(tree, shoot) => self.bud_place(tree, shoot, at),
            _ => None,
        };
        self.app.with_wall(|wall, _| wall.show_ghost(ghost));
    }

    /// Where a press at `at` would keep a bud on a shoot: on laid wood, over the wire, clear of uprights.
    fn bud_place(self, tree: TreeId, shoot: ShootId, at: Point) -> Option<(Point, String)> {
        let x = self.to_wall(at).x;
        let (place, bud) = self
            .app
            .peek(|d| d.scene().bud_place(tree, shoot, x))
            .flatten()?;
        let key = if self.correcting() {
            "record-upright-here"
        } else {
            bud
        };
        let text = self.app.text(key, &[("place", Arg::Length(place.x))]);
        Some((place, text))
    }

    /// A pointer is lifted.
    pub fn up(self, event: &PointerEvent) {
        let at = self.local(event.client_x(), event.client_y());
        let left = self
            .state
            .try_update_value(|s| {
                s.pointers.remove(&event.pointer_id());
                s.pointers.len()
            })
            .unwrap_or(0);
        let doing = self.doing();
        if left > 0 {
            return;
        }
        self.set(Doing::Nothing);
        match doing {
            Doing::Bending => self.app.turn(Desk::let_go),
            Doing::Taking(tree, shoot) => {
                self.app.choose(Some(Part {
                    tree,
                    shoot: Some(shoot),
                }));
            }
            Doing::Pressing(hit) => self.press(hit, at),
            _ => {}
        }
    }

    fn correcting(self) -> bool {
        self.app.peek(Desk::is_found).unwrap_or(false)
    }

    /// The shoot that a press beside it means, where the wall is too small to have wide edges around each.
    fn near(self, at: Point) -> Option<Part> {
        let near = |wall: &mut WallScreen, desk: &Desk| {
            let view = wall.view;
            let small = Detail::for_scale(view.scale) < Detail::Full;
            small.then(|| desk.scene().nearest(view.to_mm(at), NEAR / view.scale))
        };
        self.app.with_wall(near).flatten().flatten()
    }

    /// While the record is corrected: chooses what was pressed, and offers what could be added there.
    fn press_record(self, hit: Hit, at: Point) {
        let on = match hit {
            Hit::Shoot(tree, shoot) if self.bud_place(tree, shoot, at).is_some() => {
                Some((tree, shoot))
            }
            _ => None,
        };
        self.app.choose(match hit {
            Hit::Shoot(tree, shoot) | Hit::Handle(tree, shoot) => Some(Part {
                tree,
                shoot: Some(shoot),
            }),
            Hit::Tree(tree) | Hit::Name(tree) => Some(Part { tree, shoot: None }),
            Hit::Ground => None,
        });
        if on.is_some() || hit == Hit::Ground {
            self.app.offer.set(Some(Offer {
                on,
                x: self.to_wall(at).x,
                at: (at.x, at.y),
            }));
        }
    }

    fn press(self, hit: Hit, at: Point) {
        if self.app.mark_at(self.to_wall(at)) {
            return;
        }
        // On an empty row there is nothing else that a press could mean.
        if self.app.peek(|d| d.scene().row.trees.is_empty()) == Some(true) {
            let x = self.to_wall(at).x;
            self.app.edit_from(|d| Ok(Some(d.scene().record_tree(x))));
            return;
        }
        if self.correcting() {
            self.press_record(hit, at);
            return;
        }
        if self.app.presented.asks.get_untracked() {
            if let Hit::Shoot(tree, shoot) | Hit::Handle(tree, shoot) = hit {
                let shoot = Some(shoot);
                self.app.point_out(Part { tree, shoot });
            }
            return;
        }
        // Of a small wall no shoot is easily hit: the nearest is meant.
        if let (Hit::Ground | Hit::Tree(_), Some(near)) = (hit, self.near(at)) {
            self.app.choose(Some(near));
            return;
        }
        match hit {
            Hit::Shoot(tree, shoot) if self.bud_place(tree, shoot, at).is_some() => {
                let x = self.to_wall(at).x;
                self.app.edit_from(|d| {
                    d.scene().may_press_bud(x)?;
                    d.scene().keep_bud(tree, shoot, x).map(Some)
                });
            }
            Hit::Shoot(tree, shoot) | Hit::Handle(tree, shoot) => {
                self.app.choose(Some(Part {
                    tree,
                    shoot: Some(shoot),
                }));
            }
            Hit::Tree(tree) | Hit::Name(tree) => {
                self.app.choose(Some(Part { tree, shoot: None }));
            }
            Hit::Ground => self.app.choose(None),
        }
    }

    /// A finger goes down: one on the bare wall may scroll the page up and down, one that bends or two that pinch
    /// may not.
    pub fn touched(self, event: &web_sys::Event) {
        if matches!(self.doing(), Doing::Taking(..) | Doing::Pinching) && event.cancelable() {
            event.prevent_default();
        }
    }

    /// The system takes the pointer away, as for scrolling the page: what was in the hand goes back.
    pub fn cancelled(self, event: &PointerEvent) {
        let held = self.doing() == Doing::Bending;
        self.state.update_value(|s| {
            s.pointers.remove(&event.pointer_id());
            s.doing = Doing::Nothing;
        });
        if held {
            self.app.turn(Desk::drop_hold);
        }
    }

    /// The pointer leaves the wall.
    pub fn left(self) {
        self.app.with_wall(|wall, _| wall.show_ghost(None));
    }

    /// The wheel turns: larger and smaller with Ctrl, as which two fingers on a pad come too; along the row with Shift
    /// or sideways; else it scrolls the page as anywhere, or goes along the row too where the page is all in sight.
    pub fn wheel(self, event: &WheelEvent) {
        let resize = event.ctrl_key() || event.meta_key();
        let sideways = event.shift_key()
            || event.delta_x().abs() > event.delta_y().abs()
            || !dom::page_scrolls();
        if !sideways && !resize {
            return;
        }
        event.prevent_default();
        let at = self.local(event.client_x(), event.client_y());
        let unit = match event.delta_mode() {
            WheelEvent::DOM_DELTA_LINE => 30.0,
            WheelEvent::DOM_DELTA_PAGE => 300.0,
            _ => 1.0,
        };
        let (dx, dy) = (event.delta_x() * unit, event.delta_y() * unit);
        self.app.with_wall(|wall, desk| {
            let row = &desk.scene().row;
            wall.view = if resize {
                // Fingers on a pad come in small steps, a wheel in large ones.
                let rate = if dy.abs() < 40.0 { 0.008 } else { 0.0015 };
                wall.view.zoomed_on((-dy * rate).exp(), at, row)
            } else {
                wall.view
                    .moved(-(if dx == 0.0 { dy } else { dx }), 0.0)
                    .held_to(row)
            };
        });
        if resize {
            self.app.suit_soon();
        }
        self.app.reframe();
    }
}

fn hit(target: &Element) -> Hit {
    let pair = |text: String| {
        let (tree, shoot) = text.split_once('/')?;
        Some((
            TreeId(tree.parse().ok()?),
            ShootId::from_number(shoot.parse().ok()?)?,
        ))
    };
    let near = |selector: &str, name: &str| {
        target
            .closest(selector)
            .ok()
            .flatten()
            .and_then(|e| e.get_attribute(name))
    };
    if let Some((tree, shoot)) = near("[data-handle]", "data-of").and_then(pair) {
        return Hit::Handle(tree, shoot);
    }
    if let Some((tree, shoot)) = near("[data-part]", "data-part").and_then(pair) {
        return Hit::Shoot(tree, shoot);
    }
    let tree = |text: Option<String>| Some(TreeId(text?.parse().ok()?));
    if let Some(tree) = tree(near("text[data-tree]", "data-tree")) {
        return Hit::Name(tree);
    }
    if let Some(tree) = tree(
        near("[data-tree]", "data-tree").or_else(|| near("[data-tree-number]", "data-tree-number")),
    ) {
        return Hit::Tree(tree);
    }
    Hit::Ground
}
