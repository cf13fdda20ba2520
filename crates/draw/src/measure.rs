//! How wide a text comes out. The reader's own font sets it, so widths are those of the widest of the families that common
//! systems take for `system-ui` (DejaVu Sans, measured in a browser): a line that fits by them fits everywhere.

use crate::element::clean;

/// A text's size and weight.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Face {
    /// Font size, pixels.
    pub size: f64,
    /// Weight 600 instead of 400.
    pub strong: bool,
}

/// Most text of a sheet: class `sheet-text`.
pub(crate) const TEXT: Face = Face {
    size: 12.0,
    strong: false,
};
/// A heading: class `sheet-text strong`.
pub(crate) const STRONG: Face = Face {
    size: 12.0,
    strong: true,
};
/// A sheet's title: class `sheet-title`.
pub(crate) const TITLE: Face = Face {
    size: 18.0,
    strong: true,
};

/// Widths of letters that come out about alike, in thousandths of the font's size: plain, then strong.
const THIN: (f64, f64) = (340.0, 400.0);
const NARROW: (f64, f64) = (415.0, 495.0);
const SMALL: (f64, f64) = (550.0, 660.0);
const COMMON: (f64, f64) = (640.0, 720.0);
const CAPITAL: (f64, f64) = (735.0, 820.0);
const BROAD: (f64, f64) = (850.0, 930.0);
const FULL: (f64, f64) = (1000.0, 1105.0);
/// Letters of other scripts, and pictures: no family is known, so room enough for any.
const FOREIGN: (f64, f64) = (1400.0, 1500.0);

fn letter(c: char) -> (f64, f64) {
    match c {
        ' ' | '\u{a0}' | '\'' | 'i' | 'j' | 'l' | 'í' | 'ì' | 'I' | 'J' | 'Í' | '.' | ',' | ':'
        | ';' | '/' | '\\' | '|' | '·' | '’' | '‘' => THIN,
        'f' | 'r' | 't' | '(' | ')' | '[' | ']' | '-' | '!' | '¡' | 'î' | 'ï' => NARROW,
        '"' | '*' | '_' | '`' | '°' | 'c' | 's' | 'z' | 'ç' | '–' | '?' | '¿' | '“' | '”' | 'ª'
        | 'º' => SMALL,
        'm' | 'M' | 'W' | '%' | '@' | '—' | '…' | '½' | '¼' | '¾' | 'æ' | 'Æ' | 'œ' | 'Œ' => {
            FULL
        }
        'w' | '+' | '=' | '<' | '>' | '^' | '~' | '#' | '&' | '−' | '×' | '→' | 'D' | 'G' | 'H'
        | 'N' | 'O' | 'Q' | 'Ñ' | 'Ó' | 'Ö' | 'Ø' => BROAD,
        'A'..='Z' | 'À'..='Þ' => CAPITAL,
        '!'..='~' | 'ß'..='ÿ' => COMMON,
        '\u{100}'..='\u{52f}' if c.is_lowercase() => FULL,
        '\u{100}'..='\u{52f}' => (1150.0, 1300.0),
        _ => FOREIGN,
    }
}

/// Width of a text at most, pixels.
pub(crate) fn width(content: &str, face: Face) -> f64 {
    let sum: f64 = content
        .chars()
        .map(letter)
        .map(|(plain, strong)| if face.strong { strong } else { plain })
        .sum();
    sum * face.size / 1000.0
}

/// The text in lines no wider than `most` pixels. A number stays with its unit; a word wider than a line is broken.
pub(crate) fn wrap(content: &str, face: Face, most: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words(&clean(content)) {
        for piece in pieces(&word, face, most) {
            let joined = lines.last().map(|line| format!("{line} {piece}"));
            match (joined, lines.last_mut()) {
                (Some(joined), Some(line)) if width(&joined, face) <= most => *line = joined,
                _ => lines.push(piece),
            }
        }
    }
    lines
}

/// The words of a text, a number and its unit being one.
fn words(content: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in content.split_whitespace() {
        let unit = word.trim_end_matches([',', '.', ';', ':', ')']);
        let is_unit = matches!(unit, "m" | "mm" | "cm" | "%" | "ft" | "in");
        let number = |w: &String| w.ends_with(|c: char| c.is_ascii_digit() || c == '½');
        match out.last_mut().filter(|last| is_unit && number(last)) {
            Some(last) => {
                last.push(' ');
                last.push_str(word);
            }
            None => out.push(word.into()),
        }
    }
    out
}

/// A word cut into pieces that each fit on a line.
fn pieces(word: &str, face: Face, most: f64) -> Vec<String> {
    let mut out = vec![String::new()];
    for c in word.chars() {
        let Some(last) = out.last_mut() else { break };
        let fits = width(last, face) + width(c.encode_utf8(&mut [0; 4]), face) <= most;
        if fits || last.is_empty() {
            last.push(c);
        } else {
            out.push(c.into());
        }
    }
    out
}

/// The first `most` lines of a text, the last with an ellipsis where some are left out.
pub(crate) fn first_lines(content: &str, face: Face, wide: f64, most: usize) -> Vec<String> {
    let mut lines = wrap(content, face, wide - width(" …", face));
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            last.push_str(" …");
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Widths in DejaVu Sans, thousandths of the font's size, as Chromium measures them.
    const MEASURED: &[(char, f64, f64)] = &[
        ('i', 278.0, 343.0),
        ('I', 295.0, 372.0),
        ('f', 352.0, 435.0),
        ('-', 361.0, 415.0),
        ('(', 390.0, 457.0),
        ('r', 411.0, 493.0),
        ('s', 521.0, 595.0),
        ('”', 518.0, 657.0),
        ('e', 615.0, 678.0),
        ('0', 636.0, 696.0),
        ('b', 635.0, 716.0),
        ('A', 684.0, 774.0),
        ('U', 732.0, 812.0),
        ('H', 752.0, 837.0),
        ('Q', 787.0, 850.0),
        ('w', 818.0, 924.0),
        ('−', 838.0, 838.0),
        ('m', 974.0, 1042.0),
        ('W', 989.0, 1103.0),
        ('½', 969.0, 1035.0),
        ('☐', 896.0, 896.0),
    ];

    #[test]
    fn no_letter_comes_out_wider_and_common_ones_hardly_narrower() {
        for (c, plain, strong) in MEASURED {
            let own = letter(*c);
            assert!(own.0 >= *plain && own.1 >= *strong, "{c}");
        }
        // A sentence as it is measured: 12 pixels, plain.
        let sentence = "upright 2 of 6, tree 3, at 4.20 m: stub to 0.15 m";
        let estimate = width(sentence, TEXT);
        assert!((286.6..286.6 * 1.1).contains(&estimate), "{estimate}");
    }

    fn check(content: &str, most: f64, expected: &[&str]) {
        let lines = wrap(content, TEXT, most);
        assert_eq!(lines, expected);
        assert!(lines.iter().all(|l| width(l, TEXT) <= most));
    }

    #[test]
    fn lines_break_between_words_and_long_words_within() {
        check("", 100.0, &[]);
        check("  one \n two ", 100.0, &["one two"]);
        check("one two three", 60.0, &["one two", "three"]);
        check("long 12.50 m, and", 62.0, &["long", "12.50 m,", "and"]);
        check("3 ft 6½ in 7 x", 45.0, &["3 ft", "6½ in", "7 x"]);
        check("aaaaaaaaaaaaaaaa b", 62.0, &["aaaaaaaa", "aaaaaaaa", "b"]);
        assert_eq!(
            first_lines("one two three four", TEXT, 75.0, 2),
            ["one two", "three …"]
        );
        // Narrower than any letter: one a line, and an end.
        assert_eq!(wrap("mm", TEXT, 1.0), ["m", "m"]);
    }
}
