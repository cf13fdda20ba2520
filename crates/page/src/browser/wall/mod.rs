//! The wall on the screen: a hand-kept SVG scene. Only trees in view are there, and an edit
//! replaces only the groups that changed.

mod drawn;
pub mod layers;
pub mod light;

use crate::browser::dom;
use crate::desk::Desk;
use crate::layers::Layer;
use crate::look::{Look, Redraw, Scene};
use crate::overlay::{self, Marked};
use crate::view::View;
use cordonry::arrange::Gather;
use cordonry::check::Part;
use cordonry::row::{Tree, TreeId};
use cordonry::sorted::Map;
use cordonry::work::{Stage, Subject, Work};
use cordonry_draw::{BAND_HEIGHT, ColourBy, Detail, LightAt, Paint, painted_group};
use cordonry_words::Words;
use drawn::{Drawn, DrawnEach};
use layers::{Layers, drawing};
use std::sync::Arc;
use wasm_bindgen::JsCast;
use web_sys::{Document, Element, HtmlElement};

const SVG: &str = "http://www.w3.org/2000/svg";

/// Farthest, in mm, that a tree's wood is taken to reach from its foot.
const REACH: f64 = 4_000.0;

/// The scene's elements and what of it is drawn.
pub struct WallScreen {
    scene: Element,
    frame: Drawn,
    trees: Element,
    signs: Drawn,
    /// What a remedy would do, while it is aimed at.
    tried: Drawn,
    notes: Drawn,
    ground: Drawn,
    numbers: Drawn,
    upright_numbers: DrawnEach,
    overlay: DrawnEach,
    ghost: Drawn,
    band: Element,
    on_band: DrawnEach,
    host: Element,
    document: Document,
    mounted: Map<TreeId, Element>,
    detail: Option<Detail>,
    drawn: Option<View>,
    /// The height that it is held to, px.
    most: Option<f64>,
    look: Option<Look>,
    /// Whether of the work that alone has signs which a class is asked for.
    pub asked_alone: bool,
    /// The window on the wall.
    pub view: View,
}

impl WallScreen {
    /// Draws on layers of `host`, and the band in `band_host`.
    pub fn new(layers: &Layers, host: &Element, band_host: &Element) -> Option<Self> {
        let document = host.owner_document()?;
        let band = drawing(&document)?;
        band.set_attribute("class", "band-drawing").ok()?;
        band_host.append_child(&band).ok()?;
        let on_band = layers::group(&document, "band")?;
        band.append_child(&on_band).ok()?;
        let signs = layers.get(Layer::Work)?;
        let tried = layers::group(&document, "tried")?;
        signs.after_with_node_1(&tried).ok()?;
        let numbers = layers.get(Layer::Numbers)?;
        let [of_uprights, of_trees] = ["upright-numbers", "tree-numbers"].map(|class| {
            let group = layers::group(&document, class)?;
            numbers.append_child(&group).ok()?;
            Some(group)
        });
        Some(Self {
            scene: layers.wall(),
            frame: Drawn::new(layers.get(Layer::Frame)?),
            trees: layers.get(Layer::Trees)?,
            signs: Drawn::new(signs),
            tried: Drawn::new(tried),
            notes: Drawn::new(layers.get(Layer::Notes)?),
            ground: Drawn::new(layers.get(Layer::Ground)?),
            numbers: Drawn::new(of_trees?),
            upright_numbers: DrawnEach::new(of_uprights?),
            overlay: DrawnEach::new(layers.get(Layer::Hand)?),
            ghost: Drawn::new(layers.get(Layer::Aim)?),
            on_band: DrawnEach::new(on_band),
            band,
            host: host.clone(),
            document,
            mounted: Map::new(),
            detail: None,
            drawn: None,
            most: None,
            look: None,
            asked_alone: false,
            view: View::empty(),
        })
    }

    /// Takes the size of the place on the screen; whether it changed.
    pub fn measure(&mut self) -> bool {
        let rect = self.host.get_bounding_client_rect();
        let zoom = dom::zoom_of(&self.host);
        let width = (rect.width() / zoom).max(1.0);
        let height = (rect.height() / zoom).max(1.0);
        let changed = (self.view.width, self.view.height) != (width, height);
        self.view.width = width;
        self.view.height = height;
        changed
    }

    /// Whether it is held to less height than there is.
    pub fn is_held(&self) -> bool {
        self.most.is_some()
    }

    /// Holds it, and the one beside it, to so many px of height, or lets it have what there is; and measures it.
    pub fn set_most(&mut self, most: Option<f64>) {
        if self.most == most {
            return;
        }
        self.most = most;
        let desk = self.host.closest(".desk").ok().flatten();
        if let Some(desk) = desk.and_then(|d| d.dyn_into::<HtmlElement>().ok()) {
            let value = most.map_or_else(|| "none".into(), |px| format!("{:.0}px", px.ceil()));
            let _ = desk.style().set_property("--wall-most", &value);
            let row = most.map_or("100vh", |_| value.as_str());
            let _ = desk.style().set_property("--wall-row", row);
        }
        self.measure();
    }

    /// Its upper and lower edge on the screen, px.
    pub fn edges(&self) -> (f64, f64) {
        let rect = self.host.get_bounding_client_rect();
        (rect.top(), rect.bottom())
    }

    /// Where a pointer event lies, in px from the wall's top left corner.
    pub fn local(&self, client_x: f64, client_y: f64) -> kurbo::Point {
        let rect = self.host.get_bounding_client_rect();
        let zoom = dom::zoom_of(&self.host);
        kurbo::Point::new(
            (client_x - rect.left()) / zoom,
            (client_y - rect.top()) / zoom,
        )
    }

    /// Whether nothing has been drawn on it yet.
    pub fn is_bare(&self) -> bool {
        self.drawn.is_none()
    }

    /// Brings the scene up to date. `under` and `over` are laid over its trees, under the signs of work and over them, `marks` over
    /// those.
    pub fn render(
        &mut self,
        scene: &Scene,
        marked: Marked,
        redraw: &Redraw,
        [under, over, marks]: [&str; 3],
        words: &Words,
        colours: (ColourBy, LightAt<'_>),
    ) {
        let view = self.view;
        let detail = Detail::for_scale(view.scale);
        if redraw.all || self.detail != Some(detail) {
            for (_, element) in std::mem::take(&mut self.mounted) {
                element.remove();
            }
            self.detail = Some(detail);
        }
        self.place_trees(scene, &redraw.trees, detail, colours);
        let span = view.span();
        if self.drawn != Some(view) || redraw.all {
            self.frame.draw(cordonry_draw::backdrop(&scene.row, span));
            let ground = cordonry_draw::foreground(&scene.row, span, view.scale, words);
            self.ground.draw(ground);
        }
        // Another moment counts the same trees otherwise.
        let look = self.look.replace(scene.look);
        let same = self.drawn == Some(view) && look == self.look;
        if !same || redraw.all || !redraw.trees.is_empty() {
            let numbers = cordonry_draw::tree_numbers(&scene.row, span, view.scale, words);
            self.numbers.draw(numbers);
            let uprights = cordonry_draw::upright_numbers(&scene.row, span, view.scale);
            self.upright_numbers.draw(uprights);
        }
        if self.drawn != Some(view) {
            self.set_window(view);
        }
        self.choose(marked.chosen);
        let mut signs = under.to_string();
        signs += &cordonry_draw::diseased_marks(&scene.row);
        if scene.is_before() {
            let works = match self.asked_alone {
                true => scene.asked_works(),
                false => scene.works(),
            };
            let works = self.in_view(scene, works);
            let field = scene.plan.schemes.get(scene.look.scheme).map(|s| &s.field);
            signs +=
                &cordonry_draw::work_marks(&scene.row, &works, scene.moment, &scene.terms, field);
        }
        signs += over;
        self.signs.draw(signs);
        self.tried.draw(String::new());
        self.notes.draw(marks.to_string());
        self.overlay
            .draw(overlay::drawings(scene, marked, view, words));
        self.on_band.draw(cordonry_draw::cordon_band(
            &scene.cover,
            &scene.places,
            span,
            &scene.plan.targets,
            words,
            view.scale,
        ));
        self.drawn = Some(view);
    }

    fn set_window(&self, view: View) {
        let (w, h) = (view.width / view.scale, view.height / view.scale);
        let _ = self.scene.set_attribute(
            "viewBox",
            &format!("{:.2} {:.2} {w:.2} {h:.2}", view.x, -view.top),
        );
        let _ = self.band.set_attribute(
            "viewBox",
            &format!(
                "{:.2} 0 {:.2} {BAND_HEIGHT}",
                view.x * view.scale,
                view.width
            ),
        );
        // One screen pixel in mm, for lines that keep their width on the screen.
        if let Some(style) = self
            .scene
            .dyn_ref::<web_sys::SvgElement>()
            .map(web_sys::SvgElement::style)
        {
            let _ = style.set_property("--px", &format!("{:.3}", 1.0 / view.scale));
        }
    }

    /// Draws the trees in view in other colours.
    pub fn repaint(
        &mut self,
        scene: &Scene,
        chosen: Option<Part>,
        colours: (ColourBy, LightAt<'_>),
    ) {
        for (_, element) in std::mem::take(&mut self.mounted) {
            element.remove();
        }
        self.place_trees(scene, &[], Detail::for_scale(self.view.scale), colours);
        self.choose(chosen);
    }

    /// Which of the trees, which stand in order of place, have wood in view: the first of them, and the first beyond.
    fn near(&self, trees: &[Arc<Tree>]) -> (usize, usize) {
        let span = self.view.span();
        let first = trees.partition_point(|t| t.foot.f() < span.from - REACH);
        let beyond = trees.partition_point(|t| t.foot.f() <= span.to + REACH);
        (first, beyond)
    }

    /// The work that is done in view; and all that plants a tree, takes one out or changes the wires, wherever that is, for other work
    /// may hang on it.
    fn in_view(&self, scene: &Scene, mut works: Vec<Work>) -> Vec<Work> {
        let trees = &scene.row.trees;
        let (first, beyond) = self.near(trees);
        let beside = trees[..first].iter().chain(&trees[beyond..]);
        let beside = beside.map(|t| t.id).gathered_set();
        works.retain(|work| {
            let Subject { tree, kind, .. } = work.subject();
            kind == Stage::Tree || tree.is_none_or(|id| !beside.contains(&id))
        });
        works
    }

    /// Has the trees in view on the wall, those that changed drawn anew in their place.
    fn place_trees(
        &mut self,
        scene: &Scene,
        changed: &[TreeId],
        detail: Detail,
        (by, light): (ColourBy, LightAt<'_>),
    ) {
        let paint = Paint {
            by,
            moment: scene.moment,
            terms: &scene.terms,
            light,
            px_per_mm: self.view.scale,
        };
        let row = &scene.row;
        let (first, beyond) = self.near(&row.trees);
        let near = row.posed()[first..beyond].iter();
        let ids = near.clone().map(|p| p.tree().id).gathered_set();
        self.mounted.retain(|id, element| {
            let stays = ids.contains(id);
            if !stays {
                element.remove();
            }
            stays
        });
        for posed in near {
            let tree = posed.tree();
            if let Some(group) = self.mounted.get(&tree.id) {
                if changed.contains(&tree.id) {
                    group.set_inner_html(&painted_group(posed, detail, &paint));
                }
                continue;
            }
            if let Ok(group) = self.document.create_element_ns(Some(SVG), "g") {
                group.set_inner_html(&painted_group(posed, detail, &paint));
                let _ = self.trees.append_child(&group);
                self.mounted.insert(tree.id, group);
            }
        }
    }

    fn choose(&self, chosen: Option<Part>) {
        let layers = [&self.trees, self.numbers.element()];
        for old in layers
            .iter()
            .filter_map(|l| l.query_selector_all(".chosen").ok())
        {
            for i in 0..old.length() {
                if let Some(e) = old.item(i).and_then(|n| n.dyn_into::<Element>().ok()) {
                    let _ = e.class_list().remove_1("chosen");
                }
            }
        }
        let Some(part) = chosen else { return };
        // A tree as a whole has its wood marked and its number: of a lost one there is no more.
        let selector = match part.shoot {
            Some(shoot) => format!("[data-part=\"{}/{shoot}\"]", part.tree),
            None => format!("[data-tree=\"{}\"]", part.tree),
        };
        for layer in layers {
            if let Ok(Some(e)) = layer.query_selector(&selector) {
                let _ = e.class_list().add_1("chosen");
            }
        }
    }

    /// Shows what work would do, over the wall as it is, or nothing.
    pub fn show_tried(&self, desk: &Desk, works: &[Work]) {
        let scene = desk.scene();
        let works = self.in_view(scene, works.to_vec());
        let mut drawn = String::new();
        for (before, after) in desk.tried(&works) {
            drawn += &cordonry_draw::tried_wood(before.as_deref(), &after);
        }
        drawn += &cordonry_draw::work_marks(&scene.row, &works, scene.moment, &scene.terms, None);
        self.tried.draw(drawn);
    }

    /// Shows where a press would keep a bud, or nothing.
    pub fn show_ghost(&self, at: Option<(kurbo::Point, String)>) {
        let markup = at.map_or_else(String::new, |(p, text)| overlay::ghost(self.view, p, &text));
        self.ghost.draw(markup);
    }
}
