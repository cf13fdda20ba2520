//! The colours of the light.

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
    let t = if light > 0.0 { light.min(1.0) } else { 0.0 };
    let mix = |i: usize| from[i] + (to[i] - from[i]) * t;
    let (lightness, a, b) = (mix(0), mix(1), mix(2));
    let cube = |v: f64| v * v * v;
    let l = cube(lightness + 0.396_337_777_4 * a + 0.215_803_757_3 * b);
    let m = cube(lightness - 0.105_561_345_8 * a - 0.063_854_172_8 * b);
    let s = cube(lightness - 0.089_484_177_5 * a - 1.291_485_548_0 * b);
    [
        4.076_741_662_1 * l - 3.307_711_591_3 * m + 0.230_969_929_2 * s,
        -1.268_438_004_6 * l + 2.609_757_401_1 * m - 0.341_319_396_5 * s,
        -0.004_196_086_3 * l - 0.703_418_614_7 * m + 1.707_614_701_0 * s,
    ]
    .map(|linear| {
        let linear = linear.clamp(0.0, 1.0);
        let v = if linear <= 0.003_130_8 {
            12.92 * linear
        } else {
            1.055 * linear.powf(1.0 / 2.4) - 0.055
        };
        (v * 255.0).round() as u8
    })
}

#[cfg(test)]
mod tests {
    use super::*;

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
