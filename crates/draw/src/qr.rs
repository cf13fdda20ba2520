//! A text as a code that a camera reads (QR Code, ISO/IEC 18004), black on white whatever the page is.

use crate::element::{el, text};
use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write as _;
use svg::node::Node;

/// Most bytes of a text that is drawn so: more make squares that are too small for a telephone before a screen.
pub const MAX_QR: usize = 2_900;

/// Squares that stay white around it, as the standard asks for.
const QUIET: i32 = 4;

/// The code of a text as a drawing of its own, named for who can't see it; `None` where the text is too long.
pub fn qr(content: &str, name: &str) -> Option<String> {
    if content.len() > MAX_QR {
        return None;
    }
    // The most room for the text; where it leaves some, that mends more.
    let code = QrCode::encode_text(content, QrCodeEcc::Low).ok()?;
    let side = code.size();
    let mut dark = String::new();
    for y in 0..side {
        let mut x = 0;
        while x < side {
            let from = x;
            while code.get_module(x, y) {
                x += 1;
            }
            if x > from {
                let (at, run) = (from + QUIET, x - from);
                let _ = write!(dark, "M{at} {}h{run}v1h-{run}z", y + QUIET);
            }
            x += 1;
        }
    }
    let whole = (side + 2 * QUIET).to_string();
    let mut out = el(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("viewBox", &format!("0 0 {whole} {whole}")),
            ("role", "img"),
            ("shape-rendering", "crispEdges"),
        ],
    );
    if !name.is_empty() {
        out.append(text("title", &[], name));
    }
    let ground = [("width", &*whole), ("height", &whole), ("fill", "#ffffff")];
    out.append(el("rect", &ground));
    out.append(el("path", &[("d", &dark), ("fill", "#000000")]));
    Some(out.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_short_enough_is_drawn_and_names_are_escaped() {
        let drawn = qr(
            "https://cordonry.example/#plan-1.AA.end",
            "<script>\"&\u{7}",
        )
        .unwrap();
        assert!(drawn.contains("&lt;script&gt;"), "{drawn}");
        assert!(!drawn.contains("<script") && !drawn.contains('\u{7}'));
        assert!(qr(&"x".repeat(MAX_QR), "").is_some());
        assert_eq!(qr(&"x".repeat(MAX_QR + 1), ""), None);
    }

    #[test]
    fn the_finder_stands_in_its_corner() {
        let drawn = qr("A", "").unwrap();
        // Version 1 has 21 squares a side; the first row begins with seven dark ones.
        assert!(drawn.contains(r#"viewBox="0 0 29 29""#), "{drawn}");
        assert!(
            drawn.contains("\"M4 4h7v1h-7z") || drawn.contains("d=\"M4 4h7"),
            "{drawn}"
        );
    }
}
