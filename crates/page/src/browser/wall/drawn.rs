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

    /// Draws those that are not what stands in their place. Where there are more or fewer, those before and after what is another stay.
    pub fn draw(&self, drawings: Vec<String>) {
        let held = self.hold.replace(drawings);
        let drawings = self.hold.borrow();
        let same = |pairs: &mut dyn Iterator<Item = (&String, &String)>| {
            pairs.take_while(|(a, b)| a == b).count()
        };
        let before = same(&mut held.iter().zip(drawings.iter()));
        let (held, drawings) = (&held[before..], &drawings[before..]);
        let after = same(&mut held.iter().rev().zip(drawings.iter().rev()));
        let (held, drawings) = (
            &held[..held.len() - after],
            &drawings[..drawings.len() - after],
        );
        let place = |at: usize| {
            self.element
                .children()
                .item(u32::try_from(before + at).ok()?)
        };
        if held.len() == drawings.len() {
            for (at, (_, new)) in held
                .iter()
                .zip(drawings)
                .enumerate()
                .filter(|(_, (old, new))| old != new)
            {
                if let Some(place) = place(at) {
                    place.set_outer_html(new);
                }
            }
            return;
        }
        for _ in held {
            if let Some(gone) = place(0) {
                gone.remove();
            }
        }
        let new = drawings.concat();
        let _ = match place(0) {
            Some(next) => next.insert_adjacent_html("beforebegin", &new),
            None => self.element.insert_adjacent_html("beforeend", &new),
        };
    }
}
