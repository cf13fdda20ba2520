//! Numbers and lengths as SVG writes them.

use crate::Foreign;
use kurbo::Affine;

/// A number.
pub fn number(text: &str) -> Result<f64, Foreign> {
    let value = text.trim().parse::<f64>().ok().filter(|n| n.is_finite());
    value.ok_or_else(|| Foreign(format!("`{text}` for a number")))
}

/// A length in the drawing's own unit, with or without `px`; in `em` where a size of letters is known.
pub fn length(text: &str, em: f64) -> Result<f64, Foreign> {
    let text = text.trim();
    match text.strip_suffix("em") {
        Some(n) => Ok(number(n)? * em),
        None => number(text.strip_suffix("px").unwrap_or(text)),
    }
}

/// Numbers between spaces or commas.
pub fn list(text: &str) -> Result<Vec<f64>, Foreign> {
    let parts = text.split([' ', ',']).filter(|part| !part.is_empty());
    parts.map(|part| length(part, 0.0)).collect()
}

/// `translate(1 2) rotate(30) scale(2)` as one.
pub fn transform(text: &str) -> Result<Affine, Foreign> {
    let mut out = Affine::IDENTITY;
    let mut rest = text.trim();
    while let Some((name, after)) = rest.split_once('(') {
        let foreign = || Foreign(format!("the transform `{text}`"));
        let (values, after) = after.split_once(')').ok_or_else(foreign)?;
        let values = list(values)?;
        out *= match (name.trim(), values.as_slice()) {
            ("translate", [x, y]) => Affine::translate((*x, *y)),
            ("translate", [x]) => Affine::translate((*x, 0.0)),
            ("rotate", [degrees]) => Affine::rotate(degrees.to_radians()),
            ("scale", [by]) => Affine::scale(*by),
            ("scale", [x, y]) => Affine::scale_non_uniform(*x, *y),
            _ => return Err(foreign()),
        };
        rest = after.trim_start_matches([' ', ',']);
    }
    match rest {
        "" => Ok(out),
        _ => Err(Foreign(format!("the transform `{text}`"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    #[test]
    fn lengths_have_units_or_none() {
        for (text, expected) in [("12", 12.0), ("1.5px", 1.5), ("-.3em", -3.0), (" 7 ", 7.0)] {
            assert_eq!(length(text, 10.0), Ok(expected), "{text}");
        }
        for text in ["", "1in", "NaN", "inf", "calc(1px)"] {
            assert!(length(text, 10.0).is_err(), "{text}");
        }
        assert_eq!(list("0 0, 3px 4"), Ok(vec![0.0, 0.0, 3.0, 4.0]));
    }

    #[test]
    fn transforms_come_one_after_the_other() {
        let at = |text: &str| transform(text).map(|t| t * Point::new(1.0, 0.0));
        assert_eq!(at(""), Ok(Point::new(1.0, 0.0)));
        assert_eq!(at("translate(5 6) scale(2)"), Ok(Point::new(7.0, 6.0)));
        let turned = at("translate(1 1) rotate(90) scale(3)").unwrap();
        assert!((turned - Point::new(1.0, 4.0)).hypot() < 1e-9, "{turned}");
        for text in ["skewX(3)", "rotate(1 2 3)", "scale(1", "scale(1) 2"] {
            assert!(at(text).is_err(), "{text}");
        }
    }
}
