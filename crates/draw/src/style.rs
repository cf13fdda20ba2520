//! The look: colours as custom properties, light and dark, and rules that use them.

use cordonry::units::decimal;

/// Colours on paper.
macro_rules! light {
    () => {
        "--paper:#fbfaf6;--ink:#2a2622;--quiet:#655f56;--wood:#463830;--young:#6d5546;--cut:#d9c6a3;--leaf:#7c9a68;--wire:#8d9398;--cordon-wire:#585e63;--post:#ddd7c9;--post-edge:#a59d8d;--earth:#a59d8d;--filled:#d3c8b4;--twice:#7b6d57;--accent:#0072b2;--wrong:#d55e00;--wrong-ink:#a84600"
    };
}

/// The tone of the ground in [`light`], which is left out in print: there it is the paper's own.
const PAPER_TONE: &str = "#fbfaf6";

/// Colours on a dark ground: the wood turns light.
macro_rules! dark {
    () => {
        "--paper:#1c1a18;--ink:#ebe6dd;--quiet:#aba498;--wood:#c8b199;--young:#ab8f76;--cut:#fff1d6;--leaf:#7f9f6b;--wire:#6d7378;--cordon-wire:#9aa1a6;--post:#35322c;--post-edge:#6b655a;--earth:#6b655a;--filled:#534b3f;--twice:#9c8c70;--accent:#56b4e9;--wrong:#e69f00;--wrong-ink:#f0b429"
    };
}

macro_rules! rules {
    () => {
        include_str!("style.css")
    };
}

/// The style sheet of the drawing. An `svg` with the class `wall` holds the wall and sets `--px`, the
/// millimetres in a pixel; the band needs no more than its own group. Dark follows the reader's system, or
/// `data-theme="dark"` or `"light"` on the root element; print is light.
pub const STYLE: &str = concat!(
    ":root{--px:8;",
    light!(),
    "}\n",
    "@media (prefers-color-scheme:dark){:root:not([data-theme=light]){",
    dark!(),
    "}}\n",
    ":root[data-theme=dark]{",
    dark!(),
    "}\n",
    "@media print{:root:root:root{",
    light!(),
    "}}\n",
    "@media (forced-colors:active){:root:root:root{--paper:Canvas;--ink:CanvasText;--quiet:CanvasText;",
    "--wood:CanvasText;--young:CanvasText;--cut:Canvas;--wire:GrayText;--cordon-wire:CanvasText;--post:Canvas;",
    "--post-edge:GrayText;--earth:GrayText;--filled:GrayText;--twice:CanvasText;--accent:Highlight;--wrong:LinkText;--wrong-ink:LinkText}}\n",
    rules!(),
    include_str!("schemes.css"),
);

/// The style sheet for one scale, in light colours and without custom properties: programs that
/// draw files know none.
pub fn fixed(px: f64) -> String {
    fixed_from(rules!(), px)
}

fn fixed_from(rules: &str, px: f64) -> String {
    // Signs come at their size, and nothing is pressed.
    let mut css = rules
        .lines()
        .filter(|rule| !rule.contains(".sized") && !rule.starts_with("@media"))
        .collect::<Vec<_>>()
        .join("\n");
    css = css.replace("var(--px)", "1");
    for pair in light!().split(';') {
        if let Some((name, value)) = pair.split_once(':') {
            css = css.replace(&format!("var({name})"), value);
        }
    }
    sizes(&css, px)
}

/// The style of sheets for print: as [`fixed`], on white, with the rules that only sheets need.
pub fn sheets(px: f64) -> String {
    sheets_from("", px)
}

/// The same for a sheet with two schemes on it.
pub fn sheet_of_schemes(px: f64) -> String {
    sheets_from(include_str!("schemes.css"), px)
}

/// The same for the sheets of a pass.
pub fn sheets_of_crew(px: f64) -> String {
    sheets_from(include_str!("crew.css"), px)
}

fn sheets_from(more: &str, px: f64) -> String {
    let rules = [rules!(), include_str!("sheets.css"), more];
    fixed_from(rules.join("\n").trim_end(), px).replace(PAPER_TONE, "#fff")
}

/// Works out `calc(A * 1)` and `max(A, B * 1)`, where lengths before `* 1` are multiplied by `px`.
fn sizes(css: &str, px: f64) -> String {
    let mut out = String::with_capacity(css.len());
    let mut rest = css;
    while let Some(at) = rest
        .find("calc(")
        .into_iter()
        .chain(rest.find("max("))
        .min()
    {
        out.push_str(&rest[..at]);
        let Some(open) = rest[at..].find('(').map(|i| at + i + 1) else {
            break;
        };
        let Some(close) = rest[open..].find(')').map(|i| open + i) else {
            break;
        };
        let value = rest[open..close]
            .split(',')
            .map(|term| {
                let (length, times) = match term.split_once('*') {
                    Some((length, _)) => (length, px),
                    None => (term, 1.0),
                };
                let number = length.trim().trim_end_matches("px");
                decimal(number).unwrap_or(0.0) * times
            })
            .fold(0.0, f64::max);
        let unit = if rest[open..close].contains("px") {
            "px"
        } else {
            ""
        };
        out.push_str(&format!("{}{unit}", crate::pen::num(value)));
        rest = &rest[close + 1..];
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fixed_style_holds_no_properties() {
        let css = fixed(10.0);
        for word in ["var(", "calc(", "max(", "clamp(", "--"] {
            assert!(!css.contains(word), "{word}");
        }
        assert!(
            css.contains(".wire{fill:none;stroke:#8d9398;stroke-width:9px}"),
            "{css}"
        );
        assert!(css.contains(".ground-line{fill:none;stroke:#2a2622;stroke-width:15px}"));
    }

    #[test]
    fn sheets_are_white_and_fixed() {
        let css = sheets(40.0);
        assert!(light!().starts_with(&format!("--paper:{PAPER_TONE};")));
        assert!(css.contains(".paper{fill:#fff}") && css.contains(".tick-box{"));
        for word in ["var(", "calc(", "@media", PAPER_TONE] {
            assert!(!css.contains(word), "{word}");
        }
    }

    #[test]
    fn no_selector_needs_escaping() {
        assert!(!STYLE.contains(['<', '>', '&']));
    }

    #[test]
    fn both_themes_name_the_same_colours() {
        let names =
            |s: &'static str| -> Vec<_> { s.split(';').map(|p| p.split(':').next()).collect() };
        assert_eq!(names(light!()), names(dark!()));
        for used in rules!()
            .split("var(")
            .skip(1)
            .filter_map(|s| s.split(')').next())
        {
            assert!(
                used == "--px" || light!().contains(&format!("{used}:")),
                "{used}"
            );
        }
    }
}
