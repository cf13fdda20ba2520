//! The elements of the wall's layers, made in their order.

use crate::layers::{Layer, Surface};
use std::collections::BTreeMap;
use wasm_bindgen::JsCast;
use web_sys::{Document, Element, HtmlCanvasElement};

const SVG: &str = "http://www.w3.org/2000/svg";

/// The elements, by layer.
#[derive(Clone)]
pub struct Layers {
    elements: BTreeMap<Layer, Element>,
    wall: Element,
}

impl Layers {
    /// Makes them in `host`, from the lowest to the highest.
    pub fn new(host: &Element) -> Option<Self> {
        let document = host.owner_document()?;
        let mut elements = BTreeMap::new();
        let (mut last, mut wall) = (None::<(Surface, Element)>, None);
        for layer in Layer::ALL {
            let surface = layer.surface();
            let on = match &last {
                Some((same, on)) if *same == surface => on.clone(),
                _ => {
                    let on = match surface {
                        // The map is as long as the row; what lies beyond the wall's own place is cut off.
                        Surface::Picture => document.create_element("div").ok()?,
                        _ => drawing(&document)?,
                    };
                    on.set_attribute("class", surface.class()).ok()?;
                    host.append_child(&on).ok()?;
                    if surface == Surface::Wall {
                        on.set_attribute("preserveAspectRatio", "none").ok()?;
                        wall = Some(on.clone());
                    }
                    last = Some((surface, on.clone()));
                    on
                }
            };
            let element = match surface {
                Surface::Picture => {
                    let canvas = document.create_element("canvas").ok()?;
                    canvas.set_attribute("aria-hidden", "true").ok()?;
                    canvas
                }
                _ => document.create_element_ns(Some(SVG), "g").ok()?,
            };
            element.set_attribute("class", layer.class()).ok()?;
            on.append_child(&element).ok()?;
            elements.insert(layer, element);
        }
        Some(Self {
            elements,
            wall: wall?,
        })
    }

    /// A layer's element.
    pub fn get(&self, layer: Layer) -> Option<Element> {
        self.elements.get(&layer).cloned()
    }

    /// The canvas of a layer that is a picture.
    pub fn canvas(&self, layer: Layer) -> Option<HtmlCanvasElement> {
        self.get(layer)?.dyn_into().ok()
    }

    /// The drawing of the wall itself.
    pub fn wall(&self) -> Element {
        self.wall.clone()
    }
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
