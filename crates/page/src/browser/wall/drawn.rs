//! What is drawn already is not drawn again.

use std::cell::RefCell;
use web_sys::Element;

/// An element, and the drawing that it holds.
pub struct Drawn {
    element: Element,
    holds: RefCell<String>,
}

impl Drawn {
    /// An element that holds nothing yet, and that nobody else draws in.
    pub fn new(element: Element) -> Self {
        Self {
            element,
            holds: RefCell::default(),
        }
    }

    /// The element.
    pub fn element(&self) -> &Element {
        &self.element
    }

    /// Draws it, unless that is what it holds: under a hand that moves one shoot most layers stay as they are.
    pub fn draw(&self, drawing: String) {
        if *self.holds.borrow() != drawing {
            self.element.set_inner_html(&drawing);
            self.holds.replace(drawing);
        }
    }
}

/// An element that holds drawings side by side, each of one element.
pub struct DrawnEach {
    element: Element,
    hold: RefCell<Vec<String>>,
}

impl DrawnEach {
    /// An element that holds nothing yet, and that nobody else draws in.
    pub fn new(element: Element) -> Self {
        Self {
            element,
            hold: RefCell::default(),
        }
    }

    /// Draws those that are not what stands in their place.
    pub fn draw(&self, drawings: Vec<String>) {
        let held = self.hold.replace(drawings);
        let drawings = self.hold.borrow();
        if held.len() != drawings.len() {
            self.element.set_inner_html(&drawings.concat());
            return;
        }
        let places = self.element.children();
        let pairs = held.iter().zip(drawings.iter());
        for (at, (_, new)) in pairs.enumerate().filter(|(_, (old, new))| old != new) {
            if let Some(place) = u32::try_from(at).ok().and_then(|at| places.item(at)) {
                place.set_outer_html(new);
            }
        }
    }
}
