//! Measured rows as CSV: what people write is read, what is wrong is named by its line, and what was read and
//! written is read the same again.

use cordonry::file::csv::{Measured, Options, Style, read, write};
use cordonry::row::{Face, Kind, Pose, Row, Shoot, Toward, Tree, TreeId};
use cordonry::units::{Deg, LengthStyle, Mm};
use cordonry_words::Words;
use std::sync::Arc;

const HEAD: &str = "tree,place,kind,parent,length,diameter,side,pose,season,laterals,note\n";

fn taken(text: &str) -> Measured {
    read(text.as_bytes(), &Options::default()).unwrap_or_else(|e| panic!("{e}"))
}

/// The row of a text without a bad line.
fn clean(text: &str) -> Measured {
    let got = taken(text);
    assert_eq!(got.bad, vec![], "{text}");
    got
}

fn tree(measured: &Measured, id: u32) -> &Tree {
    measured.row.tree(TreeId(id)).unwrap()
}

/// The one bad line of a table is the last, and says so.
fn check_bad(lines: &str, says: &str) {
    let text = format!("{HEAD}{lines}");
    let got = taken(&text);
    let bad: Vec<_> = got
        .bad
        .iter()
        .map(|b| (b.line, Words::strict().say(&b.reason())))
        .collect();
    assert_eq!(bad.len(), 1, "{lines}: {bad:?}");
    assert_eq!(bad[0].0, text.lines().count(), "{lines}");
    assert!(
        bad[0].1.contains(says),
        "'{}' does not say '{says}'",
        bad[0].1
    );
    assert_eq!(got.taken, text.lines().count() - 2);
}

const TREE: &str = "1,0,leader,,1.900,30,right,,0,,\n2,1.5,leader,,1.9,30,right,,0,,\n";

#[test]
fn a_line_is_a_shoot() {
    let got = clean(&format!(
        "{HEAD}{TREE}1,1.000,upright,,0.8 + 0.55,14.5,,-5,1,5/1.2 m,strong\n\
         1,0.800,bud,,,,,,,,\n1,1.2,stub,,0.15,16,,,1,,\n1,1.400,shoot,,0.4,6,under,,2,,\n3,3,lost,,,,,,,,frost\n"
    ));
    let row = &got.row;
    assert_eq!((got.taken, row.leaf, row.trees.len()), (7, 3, 3));
    let one = tree(&got, 1);
    assert_eq!(one.planted.angle, Deg::new(45.0));
    let kinds: Vec<Kind> = one.shoots.iter().map(Shoot::kind).collect();
    let expected = [
        Kind::Leader,
        Kind::Bud,
        Kind::Upright,
        Kind::Stub,
        Kind::Shoot,
    ];
    assert_eq!(kinds, expected);
    let upright = &one.shoots[2];
    assert_eq!(
        upright.pose,
        Pose::Upright {
            lean: Deg::new(-5.0)
        }
    );
    let units: Vec<_> = upright.units.iter().map(|u| (u.leaf, u.kept)).collect();
    assert_eq!(units, [(1, 800.0), (2, 550.0)]);
    assert_eq!(
        (upright.laterals.count, upright.laterals.total),
        (5, 1200.0)
    );
    assert_eq!(one.shoots[4].face, Face::Under);
    // What is noted of a shoot stays with it.
    assert_eq!((one.note.as_str(), upright.note.as_str()), ("", "strong"));
    assert!(tree(&got, 3).is_lost());
    assert_eq!(tree(&got, 3).note, "frost");
    // From where the first stem meets the wire over one spacing beyond the last's.
    assert_eq!((row.from, row.to), (Mm(500), Mm(5000)));
}

#[test]
fn a_place_is_read_off_one_tape_along_the_row() {
    // A stem of 30 mm at 45° bends with a radius of 15 diameters, 450 mm: the corner at 707 mm of wood becomes two
    // tangents of 450·tan 22.5° = 186.4 mm and an arc of 450·π/4 = 353.4 mm, so wood on the wire is 19.4 mm shorter.
    let got = clean(&format!(
        "{HEAD}{TREE}1,1.5,upright,,0.8,9,,,1,,\n1,0.2,shoot,,0.2,5,,,1,,\n"
    ));
    let at: Vec<f64> = tree(&got, 1).shoots.iter().map(|s| s.at).collect();
    let on_wire = 1500.0 - 500.0 + 707.107 - 2.0 * 186.396 + 353.429;
    assert_eq!(
        at,
        [0.0, libm_round(200.0 * 2f64.sqrt()), libm_round(on_wire)]
    );
}

fn libm_round(x: f64) -> f64 {
    x.round()
}

#[test]
fn two_leaders_fork_from_a_stem() {
    let got = clean(&format!(
        "{HEAD}1,1.5,stem,,0.42,40,,90,0,,\n1,1.5,leader,,1.4,20,left,2,1,,\n1,,leader,,1.3,20,,,1,,\n\
         1,0.6,upright,,0.8,9,,,2,,\n1,2.4,upright,,0.8,9,,,2,,\n1,along 0.3,shoot,stem,0.2,4,,,2,,\n"
    ));
    let one = tree(&got, 1);
    let laid = |s: &Shoot| match s.pose {
        Pose::Laid { toward, rise } => Some((toward, rise.degrees(), s.at)),
        _ => None,
    };
    let leaders: Vec<_> = one.shoots.iter().filter_map(laid).collect();
    assert_eq!(
        leaders,
        [(Toward::Left, 2.0, 420.0), (Toward::Right, 0.0, 420.0)]
    );
    let parents: Vec<_> = one
        .shoots
        .iter()
        .map(|s| s.parent.map(|p| p.number()))
        .collect();
    assert_eq!(parents, [None, Some(0), Some(0), Some(0), Some(2), Some(3)]);
    assert_eq!(one.shoots[1].at, 300.0);
    // Half the usual spacing of two-leader trees to either side.
    assert_eq!((got.row.from, got.row.to), (Mm(0), Mm(3000)));
}

#[test]
fn parents_by_name_and_by_line() {
    let got = clean(&format!(
        "{HEAD}1,along 0.2,shoot,3,0.3,5,,,2,,\n1,0,leader,,1.9,30,,,0,,\n1,1.0,upright,2,0.8,9,,,1,,\n\
         1,along 0.4,shoot,upright,0.3,5,,,2,,\n1,1.2,upright,leader,0.8,9,,,1,,\n"
    ));
    let parents: Vec<_> = tree(&got, 1)
        .shoots
        .iter()
        .map(|s| (s.parent.map(|p| p.number()), s.at))
        .collect();
    assert_eq!(parents.len(), 5);
    assert_eq!(parents[3], (Some(1), 200.0));
    assert_eq!(parents[4], (Some(1), 400.0));
}

#[test]
fn a_stem_that_reaches_the_wire_is_laid_unless_it_says_otherwise() {
    let pose = |pose: &str| {
        let got = clean(&format!("{HEAD}1,0,stem,,1.9,30,,{pose},0,,\n"));
        let said = got.said.iter().any(|s| s.key == "file-said-laid");
        (tree(&got, 1).shoots[0].pose.is_laid(), said)
    };
    assert_eq!(pose("60"), (true, true));
    assert_eq!(pose("90"), (false, false));
    assert_eq!(pose("planted 60 free"), (false, false));
    assert_eq!(pose("planted 60 laid 3"), (true, false));
}

#[test]
fn columns_in_any_order_units_and_marks() {
    let expected = clean(&format!(
        "{HEAD}1,0,leader,,1.900,30,,,0,,\n1,1.000,upright,,0.8,9.5,,,1,,\n"
    ))
    .row;
    for text in [
        "Kind;Tree;Length (cm);Place [m];Diameter;Season\nleader;1;190;0;30;0\nupright;1;80;1,0;9,5;1\n",
        "kind\ttree\tlength_mm\tplace_mm\tdiameter cm\tleaf\nleader\t1\t1900\t0\t3\t0\nupright\t1\t800\t1000\t0,95\t1\n",
        "\u{feff}sep=;\r\n\"TREE\";\"place\";\"kind\";\"length\";\"diameter\";\"season\"\r\n1;0;leader;1,9;30;0\r\n\r\n;;;;;\r\n1;1;upright;0,8;9,5;1\r\n",
        "# measured by nobody\ntree,place,kind,length,diameter,season\n1,0 m,leader,190 cm,30 mm,0\n1,100 cm,upright,80cm,\"9,5\",1\n",
        "tree,place,kind,length,diameter,season\r1,0,leader,1.9,30,0\r1,1,upright,.8,9.5,1\r",
    ] {
        assert_eq!(clean(text).row, expected, "{text}");
    }
    let feet = "tree,place (ft),kind,length,diameter (in),season\n1,0,leader,6'2 7/8\",1.18,0\n1,\"3'3\"\"\",upright,2 ft 7.5 in,0.374,1\n";
    let got = clean(feet);
    assert_eq!(tree(&got, 1).shoots[0].length(), 1902.0);
    assert_eq!(tree(&got, 1).shoots[1].length(), 800.0);
    assert_eq!(tree(&got, 1).shoots[1].diameter, 9.5);
}

#[test]
fn units_are_guessed_and_said() {
    let said = |text: &str| -> Vec<String> {
        let words = Words::strict();
        clean(text).said.iter().map(|s| words.say(s)).collect()
    };
    let mm = said("tree,place,kind,length\n1,0,leader,1900\n2,1500,leader,1900\n");
    assert!(
        mm.contains(&"place: numbers without a unit are taken as mm".to_string()),
        "{mm:?}"
    );
    assert!(
        mm.contains(&"length: numbers without a unit are taken as mm".to_string()),
        "{mm:?}"
    );
    assert!(
        mm.contains(&"2 diameters were not measured and are estimated from the length".to_string()),
        "{mm:?}"
    );
    let units =
        said("tree,place (m),kind,length (m),diameter (mm),colour\n1,0,leader,1.9,30,red\n");
    assert!(
        units.iter().all(|s| !s.contains("without a unit")),
        "{units:?}"
    );
    assert!(units.iter().any(|s| s.contains("'colour'")), "{units:?}");
    assert!(
        units
            .iter()
            .any(|s| s == "The row is taken as found before leaf 1"),
        "{units:?}"
    );
}

/// What is said of a table, as it is worded.
fn said(bytes: &[u8]) -> Vec<String> {
    let words = Words::strict();
    let got = read(bytes, &Options::default()).unwrap_or_else(|e| panic!("{e}"));
    got.said.iter().map(|s| words.say(s)).collect()
}

#[test]
fn tables_are_read_as_spreadsheets_save_them() {
    let text = "tree;place;kind;length;note\r\n1;0,5;leader;1,9;Bäume größer\r\n";
    let utf16 = |bytes: fn(u16) -> [u8; 2]| -> Vec<u8> {
        "\u{feff}"
            .encode_utf16()
            .chain(text.encode_utf16())
            .flat_map(bytes)
            .collect()
    };
    let western: Vec<u8> = text.chars().map(|c| u8::try_from(c).unwrap()).collect();
    let expected = taken(text);
    assert_eq!(tree(&expected, 1).note, "Bäume größer");
    for (bytes, encoding) in [
        (utf16(u16::to_le_bytes), "UTF-16"),
        (utf16(u16::to_be_bytes), "UTF-16"),
        (western, "Windows-1252"),
    ] {
        let got = read(&bytes, &Options::default()).unwrap();
        assert_eq!((&got.row, got.taken), (&expected.row, 1));
        let first = said(&bytes).swap_remove(0);
        assert_eq!(
            first,
            format!("The file is not in UTF-8; it was read as {encoding}")
        );
    }
    assert!(said(text.as_bytes()).iter().all(|s| !s.contains("UTF-8")));
}

#[test]
fn the_first_line_above_the_names_of_columns_is_the_name_of_the_row() {
    let plain = taken("tree,place,kind,length\n1,0,leader,1.9\n1,x,upright,0.8\n");
    for (above, line, says) in [
        (
            "Block 7 Müller\t\t\t\n",
            4,
            "‘Block 7 Müller’, above the names of the columns, is taken as the row's name",
        ),
        (
            "\n\"Row 3; by hand\";;\n\n# remark\nMeasured in March\n",
            8,
            "The first of 2 lines above the names of the columns, ‘Row 3; by hand’, is taken as the row's name; the others are passed over",
        ),
    ] {
        for (mark, end) in [("\t", "\n"), (";", "\r\n")] {
            let table = "tree,place,kind,length\n1,0,leader,1.9\n1,x,upright,0.8\n";
            let text = format!("{above}{table}").replace('\n', end);
            let text = text.replace(',', mark);
            let got = taken(&text);
            assert_eq!(got.row, plain.row, "{text}");
            assert_eq!(got.bad[0].line, line, "{text}");
            assert_eq!(said(text.as_bytes())[0], says);
            let name = says.split(['‘', '’']).nth(1).unwrap();
            assert_eq!(got.plan("file").name, name);
        }
    }
    assert_eq!(plain.plan("file").name, "file");
    // Where no line names columns, the first is told as it is.
    let why = read(b"Block 7\n1,0,leader,1.9\n", &Options::default()).unwrap_err();
    assert_eq!(why.key, "refusal-csv-columns");
    assert!(
        Words::strict().refusal(&why).starts_with("Line 1:"),
        "{why}"
    );
}

#[test]
fn names_of_columns_that_are_not_known_are_told_by_their_own_line() {
    for (above, line) in [
        ("", 1),
        ("Reihe 5 Nord;;;;;\n", 2),
        ("Reihe 5 Nord\n\nim März, mit Ida\n", 4),
    ] {
        for names in [
            "Gehölz;Abstand;Organ;Höhe;Stärke",
            "Baum;Abstand;Organ;Höhe;Stärke",
        ] {
            let text = format!("{above}{names}\n1;0;leader;1,9;30\n1;1;upright;0,8;9\n");
            let why = read(text.as_bytes(), &Options::default()).unwrap_err();
            let why = Words::strict().refusal(&why);
            assert!(why.starts_with(&format!("Line {line}:")), "{why}");
            assert!(why.contains("Höhe"), "{why}");
        }
    }
}

#[test]
fn wires_and_wall_that_nothing_says_are_said() {
    let about = |above: &str| {
        let mut all = said(format!("{above}tree,place,kind,length\n1,0,leader,1.9\n").as_bytes());
        all.retain(|s| s.contains("wall") || s.to_lowercase().contains("wire"));
        all
    };
    let wires = "No line says the wires: 5 bare ones are taken, from 0.50 m to 2.50 m (‘wire,0.60 m,plastic’ says one)";
    let wall = "No line says the wall's height: 2.50 m is taken";
    let bare = "Wires of which nothing says what covers them are taken as bare";
    assert_eq!(about(""), [wires, wall]);
    assert_eq!(about("wall height,2.4 m\n"), [wires]);
    assert_eq!(about("wire,0.5 m,plastic\nwire,1 m\n"), [bare, wall]);
    let said = "wire,0.5 m,plastic\nwire,1 m,bare\nwall height,2.4 m\n";
    assert_eq!(about(said), [] as [&str; 0]);
}

#[test]
fn posts_in_one_cell_are_parted_by_a_comma_and_a_space() {
    let table = "tree;place;kind;length\n1;0;leader;1,9\n";
    let posts = |line: &str| taken(&format!("{line}\n{table}"));
    for line in [
        "posts;0 m, 8,20 m, 16,50 m, 25 m",
        "posts;0, 8,20, 16,50, 25",
        "posts;0 m; 8,20 m, 16,50 m;25 m",
        "posts (cm);0, 820, 1650;2500",
    ] {
        let got = posts(line);
        assert_eq!(got.bad, vec![], "{line}");
        let expected = [0, 8_200, 16_500, 25_000].map(Mm);
        assert_eq!(got.row.trellis.posts, expected, "{line}");
    }
    for bad in ["posts;0,8,20", "posts;0 m/8,20 m", "posts;0 8,20 16,50"] {
        let got = posts(bad);
        let why = Words::strict().refusal(&got.bad[0].why);
        let how = "A post has a cell of its own, or a comma and a space stand between two";
        assert!(why.ends_with(how), "{why}");
        assert_eq!(got.row.trellis.posts, [] as [Mm; 0]);
    }
}

#[test]
fn only_a_table_with_letters_beyond_ascii_is_marked_as_utf_8() {
    let table = |note: &str| {
        let got = clean(&format!("{HEAD}1,0,leader,,1.9,30,right,,0,,{note}\n"));
        check_stable(&got);
        write(&got.row, "", &got.site, None, Style::default())
    };
    assert!(table("kräftig").starts_with("\u{feff}coming leaf,"));
    assert!(table("strong").starts_with("coming leaf,"));
}

#[test]
fn a_column_in_another_unit_than_its_name_says_is_asked_about_once() {
    let doubts = |text: &str| -> Vec<String> {
        let mut all = said(text.as_bytes());
        all.retain(|s| s.contains("look like"));
        all
    };
    let in_cm = "tree,place (m),kind,length (m),diameter (mm)\n1,0,leader,220,32\n1,0.7,upright,120,14\n1,0.9,upright,130,14\n";
    assert_eq!(
        doubts(in_cm),
        [
            "length: the numbers are taken as m, but look like cm. Are these cm? Then write ‘length (cm)’ above them"
        ]
    );
    let thin = "tree,place (m),kind,length (m),diameter\n1,0,leader,2.2,3.2\n1,0.7,upright,1.2,1.4\n1,0.9,upright,1.2,1.4\n";
    assert_eq!(
        doubts(thin),
        [
            "diameter: the numbers are taken as mm, but look like cm. Are these cm? Then write ‘diameter (cm)’ above them"
        ]
    );
    for sound in [
        "tree,place (m),kind,length (m),diameter (mm)\n1,0,leader,2.2,32\n1,0.7,upright,1.2,14\n",
        "tree,place,kind,length,diameter\n1,0,leader,220,32\n2,150,leader,220,32\n1,70,upright,120,14\n",
        "tree,place (ft),kind,length (ft),diameter (in)\n1,0,leader,7,1.2\n1,2.2,upright,4,0.5\n",
        "tree,place (m),kind,length (m)\n1,0,leader,2.2\n",
        "tree,place (m),kind,length (m)\n",
    ] {
        assert_eq!(doubts(sound), [] as [&str; 0], "{sound}");
    }
}

/// What is said of a table's lines that are taken, but are more likely a slip.
fn unlikely(lines: &str) -> Vec<String> {
    let text = format!("tree,place,kind,length (cm),diameter (mm)\n{lines}");
    let mut all = said(text.as_bytes());
    assert_eq!(clean(&text).bad, vec![]);
    all.retain(|s| s.starts_with("Line ") || s.contains("unlikely"));
    all
}

#[test]
fn lines_that_are_likely_slips_are_taken_and_named() {
    let tree = "1,0,leader,190,30\n";
    for (line, says) in [
        // Meant 64.
        (
            "1,1,upright,640,9",
            &[
                "Line 3: A length of 6.40 m is unusual; 0.02 m to 4.00 m is usual. Did you mean 0.64 m?",
            ][..],
        ),
        (
            "1,1,upright,588,15",
            &[
                "Line 3: A length of 5.88 m is unusual; 0.02 m to 4.00 m is usual. Did you mean 0.588 m?",
            ],
        ),
        (
            "1,1,upright,80,0.9",
            &[
                "Line 3: An upright 0.9 mm thick at its base is unusual; 4 mm to 60 mm is usual. Did you mean 9 mm (0.9 cm)?",
            ],
        ),
        // 707 mm of wood to the wire reach 500 mm, and the bend spares 19: 16,000 − 707 + 500 + 19.
        (
            "2,1.5,leader,1600,30",
            &[
                "Line 3: A leader that reaches 15.812 m is unusual; 0.30 m to 4.00 m is usual. Did you mean 1.581 m?",
            ],
        ),
        (
            "2,1.5,leader,190,3",
            &[
                "Line 3: A leader 3 mm thick is unusual; 8 mm to 150 mm is usual. Did you mean 30 mm (3 cm)?",
            ],
        ),
        // A step inside the limits; and a thickness that is estimated is nobody's slip.
        ("1,1,upright,400,60", &[]),
        ("1,1,upright,2,4", &[]),
        ("1,1,shoot,10,2", &[]),
        ("1,1,upright,15,", &[]),
    ] {
        assert_eq!(unlikely(&format!("{tree}{line}\n")), says, "{line}");
    }
}

#[test]
fn trees_out_of_their_places_are_named_and_taken() {
    let row = |feet: &[(u32, f64)]| {
        let line = |(tree, foot): &(u32, f64)| format!("{tree},{foot},leader,190,30\n");
        unlikely(&feet.iter().map(line).collect::<String>())
    };
    let sound = [(1, 0.0), (2, 1.5), (3, 3.0), (4, 4.5), (5, 6.0)];
    assert_eq!(row(&sound), [] as [&str; 0]);
    // 7.5 without its point.
    let far = [&sound[..], &[(6, 75.0)]].concat();
    assert_eq!(
        row(&far),
        ["Line 7: Tree 6 would stand 69.00 m on from the one before it; 1.50 m is expected."]
    );
    // Trees 6 and 7 were not measured; and a row of every fifth tree, numbered from its other end.
    let apart = [&sound[..], &[(8, 10.5)]].concat();
    assert_eq!(row(&apart), [] as [&str; 0]);
    let fifth = [(21, 0.0), (16, 7.5), (11, 15.0), (6, 22.5), (1, 30.0)];
    assert_eq!(row(&fifth), [] as [&str; 0]);
}

#[test]
fn trees_nearer_than_any_are_planted_are_asked_about() {
    let doubt = |unit: &str, feet: &[f64]| {
        let line = |(n, foot): (usize, &f64)| format!("{},{foot},leader,1.9\n", n + 1);
        let lines: String = feet.iter().enumerate().map(line).collect();
        let got = clean(&format!("tree,place{unit},kind,length (m)\n{lines}"));
        got.doubt.map(|d| Words::strict().say(&d))
    };
    let apart = |by: f64| -> Vec<f64> { (0..100).map(|n| f64::from(n) * by).collect() };
    let crowded = "Trees stand 2 mm apart; 1.20 m to 2.00 m is usual. Are their places in another unit? Then write it above them, as in ‘place (cm)’";
    assert_eq!(doubt("", &apart(0.002)).as_deref(), Some(crowded));
    assert_eq!(doubt(" (m)", &apart(0.002)).as_deref(), Some(crowded));
    let likely = "place: the numbers are taken as mm, but look like m. Are these m? Then write ‘place (m)’ above them";
    assert_eq!(doubt(" (mm)", &apart(1.5)).as_deref(), Some(likely));
    // Feet in pairs, one tree, two that are planted as one, and rows as they are.
    let pairs: Vec<f64> = (0..20)
        .flat_map(|n| [3.0 * f64::from(n), 3.0 * f64::from(n) + 0.1])
        .collect();
    for (unit, feet) in [
        ("", pairs),
        ("", vec![0.0]),
        ("", apart(1.5)),
        ("", apart(0.3)),
        (" (cm)", apart(150.0)),
    ] {
        assert_eq!(doubt(unit, &feet), None, "{unit} {feet:?}");
    }
}

#[test]
fn what_a_cell_and_a_line_may_hold_is_bounded_and_named() {
    let why = |length: &str, note: &str| {
        let got = taken(&format!(
            "tree,place,kind,length (m),note\n1,0,leader,{length},{note}\n"
        ));
        Words::strict().refusal(&got.bad[0].why)
    };
    let long = "9".repeat(100);
    assert_eq!(
        why(&long, ""),
        format!(
            "length must be a length such as 0.60 m, or one a season, as in 0.60 + 0.45: '{}… (100 characters)' is longer than 10 km",
            &long[..60]
        )
    );
    let word = "w".repeat(3_000);
    let got = taken(&format!(
        "tree,place,kind,length\n{word},0,leader,2\n1,0,{word},2\n"
    ));
    for bad in &got.bad {
        let why = Words::strict().refusal(&bad.why);
        assert!(
            why.contains("w… (3000 characters)") && why.len() < 300,
            "{why}"
        );
    }
    assert_eq!(
        why(&"1+".repeat(5_000), ""),
        "length: there must be 4000 characters at most, not 10000"
    );
    assert_eq!(
        why(&vec!["0.1"; 41].join("+"), ""),
        "length: there must be 40 seasons at most, not 41"
    );
    assert_eq!(
        why("2", &"ü".repeat(4_001)),
        "note: there must be 4000 characters at most, not 4001"
    );
    clean(&format!(
        "tree,place,kind,length (m),note\n1,0,leader,2,{}\n",
        "ü".repeat(4_000)
    ));
    // A line of many cells, among the names and elsewhere.
    let refused = |text: &str| {
        Words::strict().refusal(&read(text.as_bytes(), &Options::default()).unwrap_err())
    };
    let names: String = (0..300).map(|n| format!(",c{n}")).collect();
    assert_eq!(
        refused(&format!("tree,place,kind,length{names}\n1,0,leader,2\n")),
        "Line 1: there must be 200 cells at most"
    );
    let commas = ",".repeat(20_000);
    assert_eq!(
        refused(&format!("tree,place,kind,length\n1,0,leader,2\n{commas}\n")),
        "Line 3: there must be 20000 cells at most"
    );
    // Empty cells at the ends of lines, as sheets have them, are none too many.
    clean(&format!(
        "tree,place,kind,length{0}\n1,0,leader,2{0}\n",
        ",".repeat(16_000)
    ));
}

#[test]
fn no_cell_of_a_table_is_obeyed_by_a_terminal() {
    let mut row = clean(&format!("{HEAD}{VARIED}")).row;
    let note = "a\u{1b}[2J\u{9b}m\u{7f}\u{202e}b\u{2066}\tc\nd";
    Arc::make_mut(&mut row.trees[0]).note = note.into();
    let text = write(&row, "\u{7}n", &Default::default(), None, Style::default());
    let signs = |c: char| c.is_control() && !matches!(c, '\n' | '\t');
    assert!(
        !text.contains(signs) && !text.contains(['\u{202e}', '\u{2066}']),
        "{text:?}"
    );
    let again = taken(&text);
    let shown = "a\u{fffd}[2J\u{fffd}m\u{fffd}\u{fffd}b\u{fffd}\tc\nd";
    assert_eq!(again.row.trees[0].note, shown);
    assert_eq!(again.title.as_deref(), Some("\u{fffd}n"));
}

#[test]
fn no_cell_is_a_formula_where_cells_are_parted_elsewhere() {
    let mut row = clean(&format!("{HEAD}{VARIED}")).row;
    let notes = [
        "a;=1+1", "a\t+4", "a,@sum", "a\n-x", "a;'=1", "a;\"=1\"", "cut; -2",
    ];
    for (tree, note) in row.trees.iter_mut().zip(notes) {
        Arc::make_mut(tree).note = note.into();
    }
    let count = row.trees.len().min(notes.len());
    for decimal_comma in [false, true] {
        let style = Style {
            decimal_comma,
            ..Style::default()
        };
        let text = write(&row, "", &Default::default(), None, style);
        let other = if decimal_comma { ',' } else { ';' };
        for mark in [other, '\t', '\n'] {
            for part in text.split(mark).map(|p| p.trim_start_matches('"')) {
                let formula = part.starts_with(['=', '+', '@']) || part.starts_with("-x");
                assert!(!formula, "{mark:?} {part}");
            }
        }
        let again = taken(&text);
        for (tree, note) in again.row.trees.iter().zip(notes).take(count) {
            assert_eq!(tree.note, note);
        }
    }
}

#[test]
fn of_many_unlikely_lines_the_first_are_named() {
    let lines: String = (0..40)
        .map(|n| format!("1,{},upright,500,9\n", 0.55 + 0.01 * f64::from(n)))
        .collect();
    let all = unlikely(&format!("1,0,leader,190,30\n{lines}"));
    assert_eq!(all.len(), 13, "{all:?}");
    assert!(all[11].starts_with("Line 14: "), "{}", all[11]);
    assert_eq!(all[12], "28 more lines are as unlikely");
}

#[test]
fn only_lines_that_are_taken_have_a_say_in_the_leaf() {
    let leaf = |lines: &str| {
        let got = taken(&format!("{HEAD}{TREE}{lines}"));
        (got.row.leaf, got.bad.len())
    };
    assert_eq!(leaf("1,1,upright,,0.8,9,,,1,,\n"), (2, 0));
    // Tree 5 has no leader that could be taken, so that nothing of it is.
    let five = "5,6,leader,,,30,right,45,0,,\n5,6.7,upright,,1.2,12,,,9,,\n";
    assert_eq!(leaf(&format!("1,1,upright,,0.8,9,,,1,,\n{five}")), (2, 2));
    assert_eq!(leaf(five), (1, 2));
    // Off its parent, with a season of its own.
    assert_eq!(
        leaf("1,1,upright,,0.8,9,,,2,,\n1,9.5,upright,,0.8,9,,,7,,\n"),
        (3, 1)
    );
    // Nothing of a lost tree grows.
    assert_eq!(leaf("3,3,lost,,,,,,38,,frost\n"), (1, 0));
    // What is asked for stays.
    let options = Options {
        leaf: Some(4),
        ..Options::default()
    };
    let text = format!("{HEAD}{TREE}{five}");
    assert_eq!(read(text.as_bytes(), &options).unwrap().row.leaf, 4);
}

#[test]
fn every_bad_line_is_named() {
    let cases = [
        (
            "x,1,upright,,0.8,9,,,1,,\n",
            "tree must be a whole number, not 'x'",
        ),
        (",1,upright,,0.8,9,,,1,,\n", "tree is empty"),
        (
            "1,1,twig,,0.8,9,,,1,,\n",
            "kind must be one of stem, leader, upright, shoot, bud, stub, lost, not 'twig'",
        ),
        (
            "1,O.9,upright,,0.8,9,,,1,,\n",
            "tree 1: place must be a place such as 2.40 m, or along 0.30 m: ",
        ),
        ("1,,upright,,0.8,9,,,1,,\n", "place is empty"),
        (
            "1,9.5,upright,,0.8,9,,,1,,\n",
            "place must be between 0.00 m and 1.71 m: 9.50 m is beyond the end of its parent (leader, tree 1) at 1.71 m",
        ),
        (
            "1,-0.5,upright,,0.8,9,,,1,,\n",
            "−0.50 m is before the beginning of its parent (leader, tree 1) at 0.00 m",
        ),
        (
            "1,along 3,upright,,0.8,9,,,1,,\n",
            "place must be between along 0.00 m and along 1.90 m: along 3.00 m is beyond the end of its parent (leader, tree 1)",
        ),
        ("1,9999999,upright,,0.8,9,,,1,,\n", "is longer than 10 km"),
        ("1,1,upright,,,9,,,1,,\n", "length is empty"),
        ("1,1,upright,,80 furlongs,9,,,1,,\n", "furlongs"),
        (
            "1,1,upright,,-0.8,9,,,1,,\n",
            "length must be more than 0, and 20.00 m at most, not −0.80 m",
        ),
        (
            "1,1,upright,,30,9,,,1,,\n",
            "length must be more than 0, and 20.00 m at most, not 30.00 m",
        ),
        (
            "1,1,upright,,0,9,,,1,,\n",
            "length must be more than 0, and 20.00 m at most, not 0.00 m",
        ),
        (
            "1,1,upright,,0.8,9,,free 30,1,,\n",
            "tree 1: pose of kind upright must be one of upright, a lean such as -5, not 'free 30'",
        ),
        (
            "1,1,shoot,,0.8,9,,free 30,1,,\n",
            "pose of kind shoot must be one of laid 3, upright -5, free, stub, not 'free 30'",
        ),
        (
            "2,1.5,leader,,1.9,30,right,45,0,,\n",
            "tree 2 has its first line already, line 3",
        ),
        (
            "2,1.51,leader,,1.9,30,right,,0,,\n",
            "tree 2 has its first line already, line 3",
        ),
        (
            "2,9,leader,,1.9,30,right,planted 45,0,,\n",
            "tree 2 has its first line already, line 3",
        ),
        (
            "1,1,bud,,0.8,9,,,1,,\n",
            "length must be no length for what has not grown, not '0.8'",
        ),
        (
            "1,1,upright,,0.8,900,,,1,,\n",
            "diameter must be between 0 mm and 500 mm, not 900 mm",
        ),
        (
            "1,1,upright,,0.8,9,up,,1,,\n",
            "side must be one of left, right, top, side, under, not 'up'",
        ),
        (
            "1,1,upright,,0.8,9,,laid,1,,\n",
            "pose of kind upright must be one of upright, a lean such as -5, not 'laid'",
        ),
        (
            "1,1,upright,,0.8,9,,100,1,,\n",
            "pose must be between −90° and 90°, not 100°",
        ),
        (
            "1,1,upright,,0.8,9,,,2023,,\n",
            "tree 1: season must be between 0 and 39, not 2023",
        ),
        (
            "1,1,upright,,0.8,9,,,1,many,\n",
            "tree 1: laterals must be a count such as 5, or a count and a length, as in 5/1.20 m: 'many' is no",
        ),
        (
            "1,1,upright,7,0.8,9,,,1,,\n",
            "parent must be among the lines of tree 1 that could be taken; '7' is not",
        ),
        (
            "1,1,upright,leader 2,0.8,9,,,1,,\n",
            "parent must be among the lines of tree 1 that could be taken; 'leader 2' is not",
        ),
        (
            "1,1,upright,3,0.8,9,,,1,,\n",
            "parent must be among the lines of tree 1",
        ),
        (
            "1,1,upright,branch,0.8,9,,,1,,\n",
            "parent must be one of stem, leader, leader 2, upright 3 or a line's number in its tree, not 'branch'",
        ),
        (
            "9,1,upright,,0.8,9,,,1,,\n",
            "tree 9 has no stem or leader line",
        ),
        ("1,1,upright,,0,8,9,,,1,,x\n", "12 cells for 11 columns"),
        (
            "9,3,leader,,1.9,30,,planted 5,0,,\n",
            "pose must be between 10° and 90°, not 5°",
        ),
    ];
    for (line, says) in cases {
        check_bad(&format!("{TREE}{line}"), says);
    }
    let upright = "1,1,upright,,0.8,9,,,1,,\n";
    check_bad(
        &format!("{TREE}{upright}1,1,shoot,upright,0.2,9,,,1,,\n"),
        "along 0.30 m",
    );
    check_bad(
        "3,3,lost,,,,,,,,\n3,3,leader,,1.9,30,,,0,,\n",
        "tree 3 is lost by line 2; a lost tree must have no other line",
    );
    check_bad(
        "1,0,stem,,0.4,30,,90 free,0,,\n1,0.1,stem,,0.4,30,,,0,,\n",
        "tree 1 has a stem already, line 2; it must have one",
    );
}

#[test]
fn lines_are_counted_as_in_the_file() {
    let text = format!(
        "# remark\n\n{HEAD}1,0,leader,,1.9,30,,,0,,\"two\nlines\"\n\n# more\n\nx,,,,,,,,,,\n\n1,1,twig,,,,,,,,\n"
    );
    let got = taken(&text);
    let lines: Vec<usize> = got.bad.iter().map(|b| b.line).collect();
    assert_eq!(lines, [9, 11]);
    assert_eq!(got.bad[1].text, "1,1,twig,,,,,,,,");
    assert_eq!(got.taken, 1);
}

#[test]
fn a_file_that_is_no_measured_row_is_refused() {
    let check = |bytes: &[u8], key: &str, says: &str| {
        let why = read(bytes, &Options::default()).unwrap_err();
        assert_eq!(why.key, key, "{why}");
        assert!(Words::strict().refusal(&why).contains(says), "{why}");
    };
    check(b"", "refusal-file-empty", "");
    check(b"\n\n# only a remark\n", "refusal-file-empty", "");
    check(
        b"a,b\n1,2\n",
        "refusal-csv-columns",
        "tree, place, kind, length; the columns there are: a, b",
    );
    check(
        b"tree,place,kind,length,tree\n",
        "refusal-csv-column-twice",
        "tree",
    );
    check(
        b"tree,place,kind,length\n1,0,leader,1.9\n1,1,upright,0.8,k\xe9\0\n",
        "refusal-file-text",
        "Line 3",
    );
    check(b"\xff\xfet\0r\0e\0e", "refusal-file-text", "UTF-8");
    for (bytes, says) in [
        (&b"PK\x03\x04\x14\0\x06"[..], "a workbook or another"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1", "Save the sheet as CSV"),
        (b"%PDF-1.7\n", "a printed document"),
        (b"\x89PNG\r\n\x1a\n", "a picture"),
        (b"<!doctype html>\n<p>tree, place</p>\n", "a web page"),
        (b"<?xml version=\"1.0\"?><svg>", "a drawing"),
        (b"[]", "a list in JSON"),
        (b"{\"format\": \"cordonry-plan\"}", "a plan"),
    ] {
        check(bytes, "refusal-file-kind", says);
        check(bytes, "refusal-file-kind", "This is no table");
    }
    check(
        "tree,place,kind,length\n".repeat(20_000).as_bytes(),
        "refusal-csv-bad-lines",
        "10",
    );
    check(
        "a,b\n".repeat(600_000).as_bytes(),
        "refusal-csv-lines",
        "500",
    );
    let far: String = (0..11_000)
        .map(|n| format!("{n},6000,leader,2\n"))
        .collect();
    check(
        format!("tree,place (m),kind,length (m)\n{far}").as_bytes(),
        "refusal-csv-bad-lines",
        "11000 lines can't be taken, line 2 the first: place must be between −5000.00 m and 5000.00 m, not 6000.00 m",
    );
    let trees: String = (0..6_000).map(|n| format!("{n},0,leader,1.9\n")).collect();
    check(
        format!("tree,place,kind,length\n{trees}").as_bytes(),
        "refusal-csv-trees",
        "6000",
    );
    let options = Options {
        leaf: Some(41),
        ..Options::default()
    };
    assert_eq!(read(b"x", &options).unwrap_err().key, "refusal-csv-leaf");
}

#[test]
fn a_line_that_stands_twice_is_named_with_the_first() {
    let upright = "1,1.0,upright,,0.8,9,,,1,,\n";
    check_bad(
        &format!("{TREE}{upright}{upright}"),
        "this line is the same as line 4",
    );
    check_bad(
        "3,3,lost,,,,,,,,\n3,3,lost,,,,,,,,\n",
        "this line is the same as line 2",
    );
    // Two shoots that are alike in all are told in two ways, and both come back.
    let got = clean(&format!(
        "{HEAD}{TREE}{upright}1,1.0,upright,leader,0.8,9,,,1,,\n1,1.0,upright,1,0.8,9,,,1,,\n"
    ));
    assert_eq!(tree(&got, 1).shoots.len(), 4);
    check_stable(&got);
}

#[test]
fn thousands_are_understood_or_refused_in_words() {
    let head = "tree;place (mm);kind;length (mm);diameter (mm);season\n1;0;leader;1.900;14,500;0\n";
    let got = taken(head);
    let why = Words::strict().refusal(&got.bad[0].why);
    assert!(
        why.contains("'1.900' in millimetres may be thousands or decimals"),
        "{why}"
    );
    let plain = "tree;place (mm);kind;length (mm);diameter (mm);season\n1;0;leader;1.900,0;14,500;0\n1;1.060,3;upright;800;9;1\n";
    let got = clean(plain);
    let one = tree(&got, 1);
    assert_eq!(
        (one.shoots[0].length(), one.shoots[0].diameter),
        (1900.0, 14.5)
    );
    let metres = "tree,place (m),kind,length (m),diameter (mm),season\n1,0,leader,1.9,14.5,0\n1,1.060,upright,0.8,9,1\n";
    assert_eq!(got.row, clean(metres).row);
}

#[test]
fn names_of_columns_are_understood_in_german_and_spanish() {
    let expected = clean("tree;place (m);kind;parent;length (m);diameter (mm);side;pose;season;laterals;cut;note\n1;0;leader;;1,9;30;right;45;0;;;a\n1;1;upright;;0,8;9;;;1;2;0,1;\n").row;
    for names in [
        "Baum;Stelle (m);Art;Wächst aus;Länge (m);Durchmesser (mm);Seite;Haltung;Jahr;Seitentriebe;Abgeschnitten;Notiz",
        "Árbol;Posición (m);Tipo;Crece de;Longitud (m);Diámetro (mm);Lado;Postura;Año;Laterales;Cortado;Notas",
    ] {
        let got = clean(&format!(
            "{names}\n1;0;leader;;1,9;30;right;45;0;;;a\n1;1;upright;;0,8;9;;;1;2;0,1;\n"
        ));
        assert_eq!(got.row, expected, "{names}");
        assert!(
            got.said.iter().all(|s| s.key != "file-said-column"),
            "{:?}",
            got.said
        );
    }
}

#[test]
fn trees_marked_as_diseased_come_and_go_in_a_column() {
    let table = |first: &str, later: &str, lost: &str| {
        format!(
            "tree,place,kind,length,season,diseased\n1,0.0 m,leader,1.9 m,0,{first}\n1,1.0 m,upright,0.8 m,1,{later}\n\
             2,2.0 m,leader,1.9 m,0,no\n3,4.0 m,lost,,,{lost}\n"
        )
    };
    for (first, later, lost, ill) in [
        ("", "", "", vec![]),
        ("yes", "", "", vec![1]),
        ("", "x", "", vec![1]),
        ("no", "", "yes", vec![3]),
    ] {
        let got = clean(&table(first, later, lost));
        let marked = |row: &cordonry::row::Row| -> Vec<u32> {
            let ill = row.trees.iter().filter(|t| t.diseased);
            ill.map(|t| t.id.0).collect()
        };
        assert_eq!(marked(&got.row), ill);
        let plan = got.plan("A");
        let text = write(&plan.found, &plan.name, &plan.site, None, Style::default());
        // A row without such a tree needs no column for it.
        assert_eq!(text.contains(",diseased,"), !ill.is_empty(), "{text}");
        assert_eq!(marked(&clean(&text).row), ill, "{text}");
    }
}

#[test]
fn words_of_cells_are_understood_in_spanish() {
    let english = clean(
        "wall height;2,2 m\nwire;0,5 m;plastic\nwires;1,1 m;bare\nrow name;North\ncoming leaf;3\n\
         tree;place;kind;parent;length;diameter;side;pose;season;rubbed\n\
         1;0,0 m;stem;;1,9 m;30 mm;right;planted 45 laid 3;0;yes\n\
         1;1,0 m;upright;leader;0,8 m;9 mm;left;upright -2;1;\n\
         1;along 1,2 m;bud;stem;;none;under;;2;no\n\
         2;2,0 m;leader;;1,9 m;30 mm;right;45;0;\n\
         2;3,0 m;stub;;0,1 m;9 mm;;;2;\n\
         3;4,0 m;lost;;;;;;;\n",
    );
    let spanish = clean(
        "Altura del muro;2,2 m\nAlambre;0,5 m;plástico\nAlambres;1,1 m;desnudo\nNombre de la hilera;North\nHoja que viene;3\n\
         Árbol;Lugar;Tipo;Crece de;Largo;Grosor;Lado;Postura;Temporada;rubbed\n\
         1;0,0 m;Tallo;;1,9 m;30 mm;derecha;plantado 45 tumbado 3;0;sí\n\
         1;1,0 m;vertical;guía;0,8 m;9 mm;izquierda;parado -2;1;\n\
         1;a lo largo 1,2 m;yema;tallo;;ninguno;abajo;;2;no\n\
         2;2,0 m;guia;;1,9 m;30 mm;der;45;0;\n\
         2;3,0 m;tocón;;0,1 m;9 mm;;;2;\n\
         3;4,0 m;perdido;;;;;;;\n",
    );
    assert_eq!(spanish.row, english.row);
    assert_eq!(spanish.said, english.said);
}

#[test]
fn the_line_of_names_is_found_under_titles_that_look_like_one() {
    let table = "tree,place,kind,length\n1,0,leader,1.9\n";
    let plain = clean(table).row;
    let many = "A title\n".repeat(90);
    for above in ["Length,Place\n", "Kind,Tree,Remark\n\nby hand\n", &many] {
        assert_eq!(clean(&format!("{above}{table}")).row, plain, "{above}");
    }
}

#[test]
fn no_cell_of_a_table_is_a_formula() {
    let mut row = clean(&format!("{HEAD}{VARIED}")).row;
    for (tree, note) in row
        .trees
        .iter_mut()
        .zip(["=1+1", "+4", "@sum", "-2+3", "'=1", "\t=2", "-7"])
    {
        Arc::make_mut(tree).note = note.into();
        let foot = tree.foot;
        Arc::make_mut(tree).foot = foot - Mm(20_000);
    }
    row.from = Mm(-20_000);
    row.trellis.posts = vec![Mm(-20_500), Mm(0)];
    for lengths in [LengthStyle::Metric, LengthStyle::FeetInches] {
        for decimal_comma in [false, true] {
            let style = Style {
                lengths,
                decimal_comma,
            };
            let text = write(&row, "", &Default::default(), None, style);
            let delimiter = if decimal_comma { b';' } else { b',' };
            let mut cells = csv::ReaderBuilder::new();
            let cells = cells.delimiter(delimiter).flexible(true).has_headers(false);
            let mut seen = 0;
            for record in cells.from_reader(text.as_bytes()).records() {
                for cell in &record.unwrap() {
                    let number = cell.replace(',', ".").parse::<f64>().is_ok();
                    let live = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
                    assert!(number || !live, "{cell}");
                    seen += usize::from(cell.starts_with('\''));
                }
            }
            assert!(seen >= 5, "{seen}\n{text}");
            let again = taken(&text);
            let notes = |row: &Row| -> Vec<String> {
                row.trees.iter().map(|t| t.note.trim().into()).collect()
            };
            assert_eq!(notes(&again.row), notes(&row), "{text}");
            assert_eq!(
                (again.row.from, &again.row.trellis.posts),
                (row.from, &row.trellis.posts)
            );
        }
    }
}

const VARIED: &str = "\
1,0,leader,,1.900 + 0.3,30,right,planted 50 laid 3,0,,first
1,1.003,upright,,0.8 + 0.55,14.5,,-5,1,5/1.2 m,strong
1,0.777,bud,,,,,,,,
1,1.234,stub,,0.15,16,,,1,,
1,1.401,shoot,,0.4,6,under,,2,2,
1,along 0.3,shoot,upright,0.25,4,,,2,,
1,0.21,upright,,0.25,4,,12,2,,
2,1.49,lost,,,,left,60,,,frost
4,4.52,leader,,1.87,30,left,60,0,,
4,3.5,upright,,0.9,11,,,1,,
7,7.5,stem,,0.42,41.5,,90,0,,
7,,leader,,1.4,20,left,2,1,,
7,,leader,,1.3,20,right,-1.5,1,,
7,7.4,upright,,0.8,9,,,2,,
7,6.6,upright,,0.8 + 0 + 0.2,9,,,1,,
7,8.4,shoot,,0.9,9,right,laid,2,,
7,9.11,upright,,0.2,9,,,2,,
8,9,stem,,0.9,12.3,left,planted 70 upright -3,0,,
9,10.5,stem,,2,25,right,planted 45 laid left 4,0,,
9,10.2,upright,,0.7,8,,,1,,
";

fn check_stable(first: &Measured) {
    for lengths in [LengthStyle::Metric, LengthStyle::FeetInches] {
        for decimal_comma in [false, true] {
            let style = Style {
                lengths,
                decimal_comma,
            };
            let text = write(&first.row, "", &first.site, None, style);
            let again = taken(&text);
            assert_eq!(again.bad, vec![], "{text}");
            assert_eq!(again.row, first.row, "{style:?}\n{text}");
            assert_eq!(again.site, first.site, "{style:?}\n{text}");
            assert_eq!(write(&again.row, "", &again.site, None, style), text);
        }
    }
    for tree in &first.row.trees {
        assert_eq!(tree.broken_rule(), None);
    }
}

#[test]
fn read_and_written_it_is_read_the_same() {
    let got = clean(&format!("{HEAD}{VARIED}"));
    assert_eq!(got.row.leaf, 4);
    check_stable(&got);
}

mod hostile {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

        /// Cells from a small store of good, odd and bad ones: whatever is read is a sound row and stable.
        #[test]
        fn whatever_is_read_is_sound_and_stable(lines in proptest::collection::vec((0usize..4, 0usize..12, 0usize..8, 0usize..10, 0usize..9, 0usize..6, 0usize..7, 0usize..12, 0usize..5), 1..40)) {
            let mut text = HEAD.to_string();
            for (tree, place, kind, parent, length, diameter, side, pose, season) in lines {
                let places = ["0", "1.5", "0.33", "0.9", "1.234", "2.71", "along 0.3", "along 0", "", "4 ft 2 in", "-0.4", "x"];
                let kinds = ["stem", "leader", "upright", "shoot", "bud", "stub", "lost", "leader"];
                let parents = ["", "", "", "stem", "leader", "leader 2", "1", "2", "3", "upright 2"];
                let lengths = ["1.9", "0.8", "0.15", "0.4 + 0.5", "2.5", "", "0.001", "190 cm", "0 + 0.3 + 0 + 0.1"];
                let diameters = ["", "9", "30", "0", "4.44", "1/2 in"];
                let sides = ["", "left", "right", "under", "side left", "", "up"];
                let poses = ["", "", "45", "90", "planted 60 laid 3", "laid", "laid left -4", "upright 30", "free", "stub", "-12.5", "planted 10"];
                let seasons = ["", "0", "1", "2", "38"];
                text += &format!("{},{},{},{},{},{},{},{},{},,n\n", tree + 1, places[place], kinds[kind], parents[parent], lengths[length], diameters[diameter], sides[side], poses[pose], seasons[season]);
            }
            let got = taken(&text);
            prop_assert_eq!(got.taken + got.bad.len(), text.lines().count() - 1);
            check_stable(&got);
        }

        #[test]
        fn no_bytes_crash_the_reader(seed in any::<Vec<(usize, u8)>>(), cut in 0usize..3_000) {
            let mut bytes = format!("{HEAD}{VARIED}").into_bytes();
            for (at, byte) in seed {
                let at = at % bytes.len();
                bytes[at] = byte;
            }
            bytes.truncate(cut.max(1));
            let _ = read(&bytes, &Options::default());
        }
    }
}
