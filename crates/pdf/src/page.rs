//! A drawing, read from its first element to its last and drawn on a page.

use crate::Foreign;
use crate::canvas::Canvas;
use crate::numbers::{length, list, number, transform};
use crate::style::{Look, Rules};
use kurbo::{Affine, BezPath, Circle, Point, Rect, Shape as _, Size, Vec2};
use roxmltree::{Document, Node};

/// Points, of which a PDF has 72 to the inch, in a millimetre.
const POINTS: f64 = 72.0 / 25.4;

/// Draws a drawing, and gives the page's width and height in points.
pub fn draw(svg: &str, canvas: &mut Canvas<'_>) -> Result<Size, Foreign> {
    let tree = Document::parse(svg).map_err(|why| Foreign(why.to_string()))?;
    let root = tree.root_element();
    let is_style = |n: &Node<'_, '_>| n.tag_name().name() == "style";
    let css: String = root
        .descendants()
        .filter(is_style)
        .filter_map(|n| n.text())
        .collect();
    let page = Page {
        rules: Rules::read(&css)?,
    };
    let side = |name: &str| -> Result<f64, Foreign> {
        let own = root.attribute(name).and_then(|v| v.strip_suffix("mm"));
        let own = own.ok_or_else(|| Foreign(format!("no {name} in millimetres")))?;
        Ok(number(own)? * POINTS)
    };
    let size = Size::new(side("width")?, side("height")?);
    let seen = seen(root)?.ok_or_else(|| Foreign("no viewBox".into()))?;
    // A PDF measures upwards from the lower edge.
    let upright = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, size.height]);
    let place = upright * fitted(seen, size.to_rect(), CENTRED);
    let look = page.rules.look(root, &Look::default())?;
    canvas.within(place, None, |canvas| page.children(root, &look, canvas))?;
    Ok(size)
}

/// The part of its own measures that a drawing shows.
fn seen(node: Node<'_, '_>) -> Result<Option<Rect>, Foreign> {
    let Some(text) = node.attribute("viewBox") else {
        return Ok(None);
    };
    match list(text)?.as_slice() {
        [x, y, wide, high] if *wide > 0.0 && *high > 0.0 => {
            Ok(Some(Rect::new(*x, *y, x + wide, y + high)))
        }
        _ => Err(Foreign(format!("the viewBox `{text}`"))),
    }
}

/// How much of the room that is left stands before a drawing.
const CENTRED: f64 = 0.5;

/// What lays one box into another, as large as it goes without being pulled out of shape.
fn fitted(seen: Rect, into: Rect, before: f64) -> Affine {
    let scale = (into.width() / seen.width()).min(into.height() / seen.height());
    let left = Vec2::new(
        into.width() - seen.width() * scale,
        into.height() - seen.height() * scale,
    );
    let corner = into.origin().to_vec2() + left * before;
    Affine::translate(corner) * Affine::scale(scale) * Affine::translate(-seen.origin().to_vec2())
}

struct Page<'a> {
    rules: Rules<'a>,
}

impl Page<'_> {
    fn children(
        &self,
        of: Node<'_, '_>,
        around: &Look,
        canvas: &mut Canvas<'_>,
    ) -> Result<(), Foreign> {
        let mut all = of.children().filter(Node::is_element);
        all.try_for_each(|child| self.element(child, around, canvas))
    }

    fn element(
        &self,
        node: Node<'_, '_>,
        around: &Look,
        canvas: &mut Canvas<'_>,
    ) -> Result<(), Foreign> {
        let name = node.tag_name().name();
        if matches!(name, "title" | "desc" | "style") {
            return Ok(());
        }
        let look = self.rules.look(node, around)?;
        let at = match node.attribute("transform") {
            Some(text) => transform(text)?,
            None => Affine::IDENTITY,
        };
        match at == Affine::IDENTITY {
            true => self.shown(name, node, &look, canvas),
            false => canvas.within(at, None, |canvas| self.shown(name, node, &look, canvas)),
        }
    }

    fn shown(
        &self,
        name: &str,
        node: Node<'_, '_>,
        look: &Look,
        canvas: &mut Canvas<'_>,
    ) -> Result<(), Foreign> {
        let own = |name: &str| match node.attribute(name) {
            Some(text) => length(text, look.size),
            None => Ok(0.0),
        };
        match name {
            "g" => self.children(node, look, canvas)?,
            "svg" => {
                let corner = Point::new(own("x")?, own("y")?);
                let into = Rect::from_origin_size(corner, (own("width")?, own("height")?));
                let before = match node.attribute("preserveAspectRatio") {
                    None => CENTRED,
                    Some("xMinYMin") => 0.0,
                    Some(other) => return Err(Foreign(format!("the fit `{other}`"))),
                };
                let seen = seen(node)?.ok_or_else(|| Foreign("no viewBox".into()))?;
                let place = fitted(seen, into, before);
                let whole = node.attribute("overflow") == Some("visible");
                let clipped = (!whole).then(|| place.inverse().transform_rect_bbox(into));
                canvas.within(place, clipped, |canvas| self.children(node, look, canvas))?;
            }
            "path" => {
                let data = node.attribute("d").unwrap_or_default();
                let path = BezPath::from_svg(data);
                let path = path.map_err(|why| Foreign(format!("a path: {why}")))?;
                canvas.path(&path, look);
            }
            "circle" => {
                let circle = Circle::new((own("cx")?, own("cy")?), own("r")?);
                canvas.path(&circle.to_path(0.01 * circle.radius.max(0.01)), look);
            }
            "text" => {
                if node.first_element_child().is_some() {
                    return Err(Foreign("an element in a text".into()));
                }
                let at = Point::new(own("x")? + own("dx")?, own("y")? + own("dy")?);
                let all: String = node.children().filter_map(|n| n.text()).collect();
                let words: Vec<&str> = all.split([' ', '\n', '\t', '\r']).collect();
                let words = words.into_iter().filter(|w| !w.is_empty());
                canvas.text(&words.collect::<Vec<_>>().join(" "), at, look);
            }
            _ => return Err(Foreign(format!("an element `{name}`"))),
        }
        Ok(())
    }
}
