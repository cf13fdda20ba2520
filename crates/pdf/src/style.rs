//! How things look: a style sheet's rules, and what they come to for one element.

use crate::Foreign;
use crate::numbers::{length, list, number};
use roxmltree::Node;
use simplecss::{AttributeOperator, Element, PseudoClass, Selector, StyleSheet};

/// A colour, each part from 0 to 1.
pub type Colour = [f32; 3];

/// The end of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cap {
    Butt,
    Round,
}

/// Where two lines meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Join {
    Miter,
    Round,
}

/// Which place of a text stands where it is put.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    Start,
    Middle,
    End,
}

/// What an element looks like.
#[derive(Clone, Debug)]
pub struct Look {
    pub fill: Option<Colour>,
    pub stroke: Option<Colour>,
    pub width: f64,
    pub dashes: Vec<f64>,
    pub cap: Cap,
    pub join: Join,
    /// Whether the line is drawn under the filling.
    pub line_first: bool,
    /// How much covers what is beneath, with that of the groups around it.
    pub opacity: f64,
    /// Size and weight of letters.
    pub size: f64,
    pub strong: bool,
    pub anchor: Anchor,
}

impl Default for Look {
    fn default() -> Self {
        Self {
            fill: Some([0.0; 3]),
            stroke: None,
            width: 1.0,
            dashes: Vec::new(),
            cap: Cap::Butt,
            join: Join::Miter,
            line_first: false,
            opacity: 1.0,
            size: 16.0,
            strong: false,
            anchor: Anchor::Start,
        }
    }
}

/// One thing that a rule says.
#[derive(Clone, Debug)]
enum Said {
    Fill(Option<Colour>),
    Stroke(Option<Colour>),
    Width(f64),
    Dashes(Vec<f64>),
    Cap(Cap),
    Join(Join),
    LineFirst(bool),
    Opacity(f64),
    Font(f64, bool),
    Size(f64),
    Strong(bool),
    Anchor(Anchor),
}

/// What paper shows nothing of.
const IDLE: [&str; 3] = ["cursor", "pointer-events", "font-variant-numeric"];

fn said(name: &str, value: &str) -> Result<Option<Said>, Foreign> {
    let value = value.trim();
    let foreign = || Foreign(format!("`{name}:{value}`"));
    Ok(Some(match name {
        "fill" => Said::Fill(colour(value).ok_or_else(foreign)?),
        "stroke" => Said::Stroke(colour(value).ok_or_else(foreign)?),
        "stroke-width" => Said::Width(length(value, 0.0)?),
        "stroke-dasharray" => Said::Dashes(match value {
            "none" => Vec::new(),
            _ => list(value)?,
        }),
        "stroke-linecap" => Said::Cap(match value {
            "butt" => Cap::Butt,
            "round" => Cap::Round,
            _ => return Err(foreign()),
        }),
        "stroke-linejoin" => Said::Join(match value {
            "miter" => Join::Miter,
            "round" => Join::Round,
            _ => return Err(foreign()),
        }),
        "paint-order" => Said::LineFirst(match value {
            "stroke" => true,
            "normal" => false,
            _ => return Err(foreign()),
        }),
        "opacity" => Said::Opacity(number(value)?),
        "font" => {
            let mut words = value.split(' ');
            let first = words.next().unwrap_or_default();
            match first.ends_with("px") {
                true => Said::Font(length(first, 0.0)?, false),
                false => {
                    let size = words.next().ok_or_else(foreign)?;
                    Said::Font(length(size, 0.0)?, weight(first)?)
                }
            }
        }
        "font-size" => Said::Size(length(value, 0.0)?),
        "font-weight" => Said::Strong(weight(value)?),
        "text-anchor" => Said::Anchor(match value {
            "start" => Anchor::Start,
            "middle" => Anchor::Middle,
            "end" => Anchor::End,
            _ => return Err(foreign()),
        }),
        _ if IDLE.contains(&name) => return Ok(None),
        _ => return Err(foreign()),
    }))
}

/// Whether a weight is a bold one: of the two that there are the nearer.
fn weight(text: &str) -> Result<bool, Foreign> {
    match text {
        "normal" => Ok(false),
        "bold" => Ok(true),
        _ => Ok(number(text)? > 500.0),
    }
}

/// `none` is no colour; what is no colour at all is none of these.
fn colour(text: &str) -> Option<Option<Colour>> {
    if matches!(text, "none" | "transparent") {
        return Some(None);
    }
    let digits = text.strip_prefix('#')?;
    let part = |at: usize, wide: usize| {
        let own = u8::from_str_radix(digits.get(at * wide..(at + 1) * wide)?, 16).ok()?;
        Some(f32::from(if wide == 1 { own * 17 } else { own }) / 255.0)
    };
    let wide = match digits.len() {
        3 => 1,
        6 => 2,
        _ => return None,
    };
    Some(Some([part(0, wide)?, part(1, wide)?, part(2, wide)?]))
}

/// The rules of a drawing, the weaker first.
pub struct Rules<'a> {
    rules: Vec<(Selector<'a>, Vec<Said>)>,
}

impl<'a> Rules<'a> {
    /// Every rule is understood, whether something looks by it or not.
    pub fn read(css: &'a str) -> Result<Self, Foreign> {
        if css.contains('@') {
            return Err(Foreign("a rule that holds only at times".into()));
        }
        let mut rules = Vec::new();
        for rule in StyleSheet::parse(css).rules {
            let mut all = Vec::new();
            for declared in rule.declarations {
                all.extend(said(declared.name, declared.value)?);
            }
            rules.push((rule.selector, all));
        }
        Ok(Self { rules })
    }

    /// What an element looks like that stands in one that looks like `around`.
    pub fn look(&self, node: Node<'_, '_>, around: &Look) -> Result<Look, Foreign> {
        let mut out = around.clone();
        for attribute in node.attributes() {
            // The sheet's rules are stronger than these.
            let name = attribute.name();
            let beside = ["data-", "aria-"].iter().any(|b| name.starts_with(b));
            if !beside && !PLACES.contains(&name) {
                out.take(said(name, attribute.value())?.as_ref(), around);
            }
        }
        let own = Asked(node);
        for (selector, all) in &self.rules {
            if selector.matches(&own) {
                all.iter().for_each(|s| out.take(Some(s), around));
            }
        }
        Ok(out)
    }
}

/// Attributes that say what and where an element is, not how it looks.
const PLACES: [&str; 18] = [
    "class",
    "id",
    "role",
    "d",
    "x",
    "y",
    "dx",
    "dy",
    "r",
    "cx",
    "cy",
    "width",
    "height",
    "viewBox",
    "transform",
    "overflow",
    "preserveAspectRatio",
    "version",
];

impl Look {
    fn take(&mut self, said: Option<&Said>, around: &Self) {
        match said {
            None => {}
            Some(Said::Fill(colour)) => self.fill = *colour,
            Some(Said::Stroke(colour)) => self.stroke = *colour,
            Some(Said::Width(width)) => self.width = *width,
            Some(Said::Dashes(dashes)) => self.dashes.clone_from(dashes),
            Some(Said::Cap(cap)) => self.cap = *cap,
            Some(Said::Join(join)) => self.join = *join,
            Some(Said::LineFirst(first)) => self.line_first = *first,
            Some(Said::Opacity(own)) => self.opacity = around.opacity * own,
            Some(Said::Font(size, strong)) => (self.size, self.strong) = (*size, *strong),
            Some(Said::Size(size)) => self.size = *size,
            Some(Said::Strong(strong)) => self.strong = *strong,
            Some(Said::Anchor(anchor)) => self.anchor = *anchor,
        }
    }
}

/// An element as a selector asks for it.
struct Asked<'a, 'i>(Node<'a, 'i>);

impl Element for Asked<'_, '_> {
    fn parent_element(&self) -> Option<Self> {
        self.0.parent_element().map(Self)
    }

    fn prev_sibling_element(&self) -> Option<Self> {
        self.0.prev_sibling_element().map(Self)
    }

    fn has_local_name(&self, name: &str) -> bool {
        self.0.tag_name().name() == name
    }

    fn attribute_matches(&self, name: &str, operator: AttributeOperator<'_>) -> bool {
        self.0.attribute(name).is_some_and(|v| operator.matches(v))
    }

    fn pseudo_class_matches(&self, class: PseudoClass<'_>) -> bool {
        matches!(class, PseudoClass::FirstChild) && self.prev_sibling_element().is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looked(css: &str, svg: &str) -> Look {
        let tree = roxmltree::Document::parse(svg).unwrap();
        let rules = Rules::read(css).unwrap();
        let mut look = Look::default();
        let mut node = tree.root_element();
        loop {
            look = rules.look(node, &look).unwrap();
            match node.first_element_child() {
                Some(child) => node = child,
                None => return look,
            }
        }
    }

    #[test]
    fn the_stronger_rule_holds_and_what_is_not_said_is_that_around() {
        let css = ".a text{fill:#f00;font:600 20px x,y}\ntext{fill:#00f;text-anchor:end}.a{stroke:#0000ff;opacity:.5}";
        let own = looked(css, "<g class='a'><text fill='none' stroke-width='3'/></g>");
        assert_eq!(own.fill, Some([1.0, 0.0, 0.0]));
        assert_eq!((own.size, own.strong), (20.0, true));
        assert_eq!(own.anchor, Anchor::End);
        assert_eq!(own.stroke, Some([0.0, 0.0, 1.0]));
        assert_eq!((own.width, own.opacity), (3.0, 0.5));
    }

    #[test]
    fn what_is_not_known_is_named() {
        for css in [
            ".a{filter:blur(2px)}",
            ".a{fill:url(#x)}",
            ".a{stroke-width:calc(1px*2)}",
            ".a{stroke-linejoin:bevel}",
            "@media print{.a{fill:none}}",
        ] {
            assert!(Rules::read(css).is_err(), "{css}");
        }
    }
}
