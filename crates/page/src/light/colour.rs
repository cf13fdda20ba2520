//! The colours of the light.

use color::{Oklab, OpaqueColor, Srgb};

/// The colour of a share of light, 0 to 1, as red, green and blue. On paper from a dusky blue to the paper's own warmth, on
/// a dark ground from night blue to a warm light.
///
/// A straight line in the OKLab colour space (Ottosson 2020), whose distances are even to the eye; along lightness and
/// from blue to yellow, which every common kind of colour-blindness tells apart.
pub fn colour(light: f64, dark_ground: bool) -> [u8; 3] {
    let (from, to) = if dark_ground {
        ([0.25, -0.01, -0.075], [0.64, 0.005, 0.075])
    } else {
        ([0.55, -0.02, -0.10], [0.97, 0.0, 0.04])
    };
    // A comparison with NaN is false.
    let share = if light > 0.0 { light.min(1.0) } else { 0.0 };
    let [from, to] = [from, to].map(OpaqueColor::<Oklab>::new);
    let rgb = from
        .lerp_rect(to, share as f32)
        .convert::<Srgb>()
        .to_rgba8();
    [rgb.r, rgb.g, rgb.b]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked out from the definition of OKLab and sRGB in double precision.
    const EXPECTED: [(f64, bool, [u8; 3]); 10] = [
        (0.0, false, [76, 114, 173]),
        (0.25, false, [119, 146, 186]),
        (0.5, false, [163, 179, 197]),
        (0.75, false, [209, 212, 207]),
        (1.0, false, [255, 245, 215]),
        (0.0, true, [12, 31, 69]),
        (0.25, true, [46, 58, 78]),
        (0.5, true, [82, 84, 84]),
        (0.75, true, [120, 111, 87]),
        (1.0, true, [160, 137, 85]),
    ];

    #[test]
    fn colours_are_those_of_the_colour_space() {
        for (light, dark_ground, expected) in EXPECTED {
            let own = colour(light, dark_ground);
            let off = own.iter().zip(expected).map(|(a, b)| a.abs_diff(b)).max();
            assert!(off <= Some(1), "{light} {dark_ground}: {own:?}");
        }
    }

    #[test]
    fn colours_are_even_and_rise_in_brightness() {
        for dark in [false, true] {
            let bright = |t: f64| {
                let [r, g, b] = colour(t, dark).map(f64::from);
                0.2126 * r + 0.7152 * g + 0.0722 * b
            };
            for i in 0..100 {
                let t = f64::from(i) / 100.0;
                assert!(bright(t + 0.01) > bright(t) - 0.3, "{t}");
            }
            assert!(bright(1.0) > bright(0.0) + 80.0);
        }
        assert_eq!(colour(f64::NAN, false), colour(0.0, false));
        assert_eq!(colour(2.0, true), colour(1.0, true));
    }
}
