//! Numbers as they are shown, written into fields and read again.

use cordonry::said::Quantity;
use cordonry::units::LengthStyle::{self, FeetInches, Metric};
use cordonry_words::{Language, Words};

fn words(style: LengthStyle) -> Words {
    Words::strict().styled(style)
}

#[test]
fn lengths_shown() {
    let (metric, us) = (words(Metric), words(FeetInches));
    assert_eq!(metric.length(424.0), "0.42 m");
    assert_eq!(metric.length(-0.4), "0.00 m");
    assert_eq!(metric.length(-424.0), "−0.42 m");
    assert_eq!(metric.length(f64::NAN), "– m");
    assert_eq!(us.length(1676.4), "5 ft 6 in");
    assert_eq!(us.length(419.1), "1 ft 4½ in");
    assert_eq!(us.length(-419.1), "−1 ft 4½ in");
    assert_eq!(us.length(304.8), "1 ft");
    assert_eq!(us.length(-12.7), "−½ in");
    assert_eq!(us.length(12.7), "½ in");
    assert_eq!(metric.thickness(12.4), "12 mm");
    assert_eq!(us.thickness(12.7), "0.5 in");
}

#[test]
fn what_is_written_is_read_again() {
    let all = Language::all().flat_map(|language| {
        let words = Words::new(*language, Metric).made_strict();
        [words.styled(FeetInches), words]
    });
    for words in all {
        for mm in (-4000..30_000).step_by(7) {
            let mm = f64::from(mm);
            let text = words.field(Quantity::Length, mm);
            let back = words.read(Quantity::Length, &text).map(libm::round);
            assert_eq!(back, Ok(mm), "{text}");
        }
        for tenth in 0..5000 {
            let mm = f64::from(tenth) / 10.0;
            let text = words.field(Quantity::Thickness, mm);
            let back = words.read(Quantity::Thickness, &text);
            let back = back.map(|v| libm::round(v * 10.0) / 10.0);
            assert_eq!(back, Ok(mm), "{text}");
        }
        for n in [0.0, 999.0, 1000.0, 9999.0, 10_000.0, 1_234_567.0, -12_345.0] {
            for quantity in [Quantity::Count, Quantity::Number] {
                let text = words.field(quantity, n);
                assert_eq!(words.read(quantity, &text), Ok(n), "{text}");
            }
        }
    }
}

#[test]
fn spanish_numbers() {
    let language = Language::of("es").expect("a language");
    let metric = Words::new(language, Metric).made_strict();
    let us = metric.styled(FeetInches);
    assert_eq!(metric.length(1234.0), "1,23 m");
    assert_eq!(metric.number(1234.5, 1), "1234,5");
    // Four digits stand together, five and more are parted by a narrow space.
    assert_eq!(metric.number(12_345.6, 1), "12\u{202f}345,6");
    assert_eq!(metric.field(Quantity::Length, 1250.0), "1,25 m");
    assert_eq!(metric.to_type("2.5"), "2,5");
    assert_eq!(us.length(419.1), "1 ft 4½ in");
    let read = |quantity, text| metric.read(quantity, text).ok();
    for text in ["1,25 m", "1.25", "1,25", "125 cm", "125,0 cm"] {
        assert_eq!(read(Quantity::Length, text), Some(1250.0), "{text}");
    }
    for text in ["1 pie 4½ pulgadas", "1' 4½\"", "16,5 pulg"] {
        let read = us.read(Quantity::Length, text);
        assert!(read.is_ok_and(|v| (v - 419.1).abs() < 1e-9), "{text}");
    }
    assert_eq!(read(Quantity::Count, "12\u{202f}345"), Some(12_345.0));
    // Which of the two is meant is not guessed.
    assert_eq!(read(Quantity::Thickness, "1,500 mm"), None);
    assert_eq!(read(Quantity::Thickness, "1.500 mm"), None);
    assert_eq!(read(Quantity::Length, "1 25 m"), None);
}

#[test]
fn numbers_as_people_type_them() {
    let (metric, us) = (words(Metric), words(FeetInches));
    let read = |quantity, text| metric.read(quantity, text).ok();
    assert_eq!(read(Quantity::Length, "1,2"), Some(1200.0));
    assert_eq!(read(Quantity::Length, "80 cm"), Some(800.0));
    for text in ["1 ft 4½ in", "1 foot 4½ inches", "1' 4½\""] {
        let read = us.read(Quantity::Length, text);
        assert!(read.is_ok_and(|v| (v - 419.1).abs() < 1e-9), "{text}");
    }
    assert_eq!(read(Quantity::Thickness, "12"), Some(12.0));
    assert_eq!(read(Quantity::Share, "20 %"), Some(0.2));
    assert_eq!(read(Quantity::Share, "20"), Some(0.2));
    assert_eq!(read(Quantity::Angle, "−33.9°"), Some(-33.9));
    assert_eq!(read(Quantity::Count, "3"), Some(3.0));
    assert_eq!(read(Quantity::Count, "2.5"), None);
    assert_eq!(read(Quantity::Number, "1,1"), Some(1.1));
    for quantity in [
        Quantity::Length,
        Quantity::Thickness,
        Quantity::Share,
        Quantity::Count,
    ] {
        assert_eq!(read(quantity, ""), None);
        let why = metric.read(quantity, "much").expect_err("no value");
        assert!(metric.say(&why).contains("much"), "{why}");
    }
}

#[test]
fn fields_are_short() {
    let (metric, us) = (words(Metric), words(FeetInches));
    assert_eq!(metric.field(Quantity::Length, 1500.0), "1.50 m");
    assert_eq!(metric.field(Quantity::Length, 1234.0), "1.234 m");
    assert_eq!(us.field(Quantity::Length, 1524.0), "5 ft");
    assert_eq!(metric.field(Quantity::Thickness, 12.0), "12 mm");
    assert_eq!(metric.field(Quantity::Share, 0.95), "95 %");
    assert_eq!(metric.field(Quantity::Angle, -33.9), "−33.9°");
    assert_eq!(metric.field(Quantity::Number, 1.1), "1.1");
    let list = |text| metric.read_list(Quantity::Length, text).ok();
    assert_eq!(list("0; 7 m;14,5"), Some(vec![0.0, 7000.0, 14500.0]));
    assert_eq!(list(" "), Some(vec![]));
    assert_eq!(list("0; x"), None);
    let written = metric.field_list(Quantity::Length, [0.0, 7000.0]);
    assert_eq!(written, "0.00 m; 7.00 m");
}
