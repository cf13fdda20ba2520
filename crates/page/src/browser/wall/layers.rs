//! The elements of the wall's layers, made in their order.

use crate::layers::{self, Layer, Surface};
use cordonry::sorted::Map;
use wasm_bindgen::JsCast;
use web_sys::{Document, Element, HtmlCanvasElement};

const SVG: &str = "http://www.w3.org/2000/svg";

/// The elements, by layer.
#[derive(Clone)]
pub struct Layers {
    elements: Map<Layer, Element>,
    wall: Element,
    map: HtmlCanvasElement,
}

impl Layers {
    /// Makes them in `host`, from the back to the front.
    pub fn new(host: &Element) -> Option<Self> {
        let document = host.owner_document()?;
        let map = picture(&document, host)?;
        let mut elements = Map::new();
        let (mut last, mut wall) = (None::<(Surface, Element)>, None);
        for layer in Layer::ALL {
            let surface = layers::surface(layer);
            let on = match &last {
                Some((same, on)) if *same == surface => on.clone(),
                _ => {
                    let on = drawing(&document)?;
                    on.set_attribute("class", surface.class()).ok()?;
                    host.append_child(&on).ok()?;
                    last = Some((surface, on.clone()));
                    on
                }
            };
            if surface == Surface::Wall {
                on.set_attribute("preserveAspectRatio", "none").ok()?;
                wall = Some(on.clone());
            }
            let element = group(&document, &layers::class(layer))?;
            on.append_child(&element).ok()?;
            elements.insert(layer, element);
        }
        Some(Self {
            elements,
            wall: wall?,
            map,
        })
    }

    /// A layer's element; of the light the beam, which lies over its map.
    pub fn get(&self, layer: Layer) -> Option<Element> {
        self.elements.get(&layer).cloned()
    }

    /// The picture of the light's map.
    pub fn map(&self) -> HtmlCanvasElement {
        self.map.clone()
    }

    /// The drawing of the wall itself.
    pub fn wall(&self) -> Element {
        self.wall.clone()
    }
}

/// The picture behind all else. The map is as long as the row; what lies beyond the wall's own place is cut off.
fn picture(document: &Document, host: &Element) -> Option<HtmlCanvasElement> {
    let clip = document.create_element("div").ok()?;
    clip.set_attribute("class", "light-clip").ok()?;
    let canvas: HtmlCanvasElement = document.create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_attribute("class", "light-map").ok()?;
    canvas.set_attribute("aria-hidden", "true").ok()?;
    clip.append_child(&canvas).ok()?;
    host.append_child(&clip).ok()?;
    Some(canvas)
}

/// A drawing that no screen reader looks into.
pub fn drawing(document: &Document) -> Option<Element> {
    let svg = document.create_element_ns(Some(SVG), "svg").ok()?;
    svg.set_attribute("aria-hidden", "true").ok()?;
    Some(svg)
}

/// A group of a class in a drawing.
pub fn group(document: &Document, class: &str) -> Option<Element> {
    let group = document.create_element_ns(Some(SVG), "g").ok()?;
    group.set_attribute("class", class).ok()?;
    Some(group)
}
