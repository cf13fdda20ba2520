//! What befalls a file on its way, drawn from a seed.

use cordonry::seed::Seeded;

/// The same damage on every machine.
pub struct Dice(pub Seeded);

impl Dice {
    /// A number below that one.
    pub fn roll(&mut self, below: usize) -> usize {
        (self.0.bits() % below.max(1) as u64) as usize
    }
}

/// Values put where others stood.
const STRANGE: &[&str] = &[
    "NaN",
    "-1",
    "1e999",
    "1000000000",
    "99999999999999999999",
    "null",
    "[]",
    "{}",
    "true",
    "\"x\"",
    "0",
    "0.5",
    "-2147483648",
    "\"\\u0000\"",
    "",
];

/// What one accident makes of a text.
pub fn damage(text: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut out = text.to_vec();
    if text.is_empty() {
        return vec![dice.roll(256) as u8];
    }
    match dice.roll(7) {
        0 => out.truncate(dice.roll(text.len())),
        1 => {
            for _ in 0..=dice.roll(8) {
                let at = dice.roll(out.len());
                out[at] ^= 1 << dice.roll(8);
            }
        }
        2 => {
            // A number becomes something else.
            let digits: Vec<usize> = (1..out.len())
                .filter(|i| out[*i].is_ascii_digit() && !out[i - 1].is_ascii_digit())
                .collect();
            if !digits.is_empty() {
                let from = digits[dice.roll(digits.len())];
                let to = (from..out.len())
                    .find(|i| !out[*i].is_ascii_digit())
                    .unwrap_or(out.len());
                let strange = STRANGE[dice.roll(STRANGE.len())];
                out.splice(from..to, strange.bytes());
            }
        }
        6 => {
            // A digit becomes another.
            let digits: Vec<usize> = (0..out.len())
                .filter(|i| out[*i].is_ascii_digit())
                .collect();
            if !digits.is_empty() {
                let at = digits[dice.roll(digits.len())];
                out[at] = b'0' + dice.roll(10) as u8;
            }
        }
        3 => {
            // A stretch stands twice.
            let from = dice.roll(out.len());
            let to = (from + dice.roll(400)).min(out.len());
            let again = out[from..to].to_vec();
            out.splice(from..from, again);
        }
        4 => {
            // A stretch is gone.
            let from = dice.roll(out.len());
            let to = (from + dice.roll(400)).min(out.len());
            out.drain(from..to);
        }
        _ => {
            // Lines change places.
            let mut lines: Vec<&[u8]> = text.split(|b| *b == b'\n').collect();
            for _ in 0..3 {
                let (a, b) = (dice.roll(lines.len()), dice.roll(lines.len()));
                lines.swap(a, b);
            }
            out = lines.join(&b'\n');
        }
    }
    out
}
