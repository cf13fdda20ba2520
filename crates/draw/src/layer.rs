//! What lies over what on the wall, named once for the screen and for paper.

use svg::node::Node;
use svg::node::element::Element;

/// A layer of the wall. The order is that of drawing: what comes later lies over what came before.
///
/// The cordon band is no layer: it is a drawing of its own under the wall ([`crate::band`]).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// The map of the light, and the sun's beam.
    Light,
    /// Posts, wires and the line of the wall's height.
    Frame,
    /// The trees, each with its leaves under its wood, its buds and its cuts.
    Trees,
    /// Signs for work.
    Work,
    /// Notes pinned on the wall.
    Notes,
    /// The ground, and the heights of wires and wall.
    Ground,
    /// The trees' numbers.
    Numbers,
    /// What a hand needs: lengths as they change, handles.
    Hand,
    /// What a press would do where the pointer is.
    Aim,
    /// The place whose light is told.
    Probe,
}

impl Layer {
    /// Every layer, from the back to the front.
    pub const ALL: [Self; 10] = [
        Self::Light,
        Self::Frame,
        Self::Trees,
        Self::Work,
        Self::Notes,
        Self::Ground,
        Self::Numbers,
        Self::Hand,
        Self::Aim,
        Self::Probe,
    ];

    /// Its name, as a class of markup.
    pub fn name(self) -> &'static str {
        match self {
            Self::Light => "layer-light",
            Self::Frame => "layer-frame",
            Self::Trees => "layer-trees",
            Self::Work => "layer-work",
            Self::Notes => "layer-notes",
            Self::Ground => "layer-ground",
            Self::Numbers => "layer-numbers",
            Self::Hand => "layer-hand",
            Self::Aim => "layer-aim",
            Self::Probe => "layer-probe",
        }
    }

    /// Whether it tells something about the wall and so may stand out at a strip's ends; all else is cut off there.
    pub(crate) fn is_told(self) -> bool {
        matches!(self, Self::Ground | Self::Numbers)
    }
}

/// Elements of the wall by layer, put in as they come.
#[derive(Default)]
pub(crate) struct Layered(Vec<(Layer, Element)>);

impl Layered {
    pub(crate) fn put(&mut self, layer: Layer, element: Element) {
        self.0.push((layer, element));
    }

    /// Puts the layers that `takes` into `parent`, from the back to the front; within a layer as they came.
    pub(crate) fn lay(&self, parent: &mut Element, takes: impl Fn(Layer) -> bool) {
        for layer in Layer::ALL.into_iter().filter(|l| takes(*l)) {
            for (_, element) in self.0.iter().filter(|(own, _)| *own == layer) {
                parent.append(element.clone());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::element::group;
    use std::collections::BTreeSet;

    #[test]
    fn the_list_is_the_order_and_each_has_a_name() {
        assert!(Layer::ALL.is_sorted());
        let names: BTreeSet<_> = Layer::ALL.iter().map(|l| l.name()).collect();
        assert_eq!(names.len(), Layer::ALL.len());
    }

    #[test]
    fn what_is_put_in_late_lies_where_its_layer_is() {
        let mut layered = Layered::default();
        for (layer, class) in [
            (Layer::Numbers, "d"),
            (Layer::Trees, "b"),
            (Layer::Frame, "a"),
            (Layer::Trees, "c"),
        ] {
            layered.put(layer, group(class));
        }
        let mut wall = group("wall");
        layered.lay(&mut wall, |_| true);
        let markup = wall.to_string();
        let at = |class: &str| markup.find(&format!("\"{class}\"")).expect("drawn");
        assert!(at("a") < at("b") && at("b") < at("c") && at("c") < at("d"));
        let mut cut = group("wall");
        layered.lay(&mut cut, |l| !l.is_told());
        assert!(!cut.to_string().contains("\"d\""));
    }
}
