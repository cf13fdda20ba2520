//! What a table says of the row as a whole, in lines above the names of its columns; and that a row written as a table
//! is read back the same: to the byte, with the same leaf, wires and findings.

use cordonry::check::{Context, Finding, check};
use cordonry::file::csv::{Measured, Options, Style, read, write};
use cordonry::file::read_plan;
use cordonry::plan::Plan;
use cordonry::pose::PosedRow;
use cordonry::row::{
    Covering, Kind, Moment, Origin, Row, ShootId, Site, Targets, Tree, Trellis, Window, Wire,
};
use cordonry::terms::Terms;
use cordonry::units::{LengthStyle, Mm};
use cordonry_fixture::{random, wild};
use cordonry_words::Words;
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

fn taken(text: &str) -> Measured {
    read(text.as_bytes(), &Options::default()).unwrap_or_else(|e| panic!("{e}\n{text}"))
}

fn styles() -> [Style; 4] {
    let style = |lengths, decimal_comma| Style {
        lengths,
        decimal_comma,
    };
    [
        style(LengthStyle::Metric, false),
        style(LengthStyle::Metric, true),
        style(LengthStyle::FeetInches, false),
        style(LengthStyle::FeetInches, true),
    ]
}

/// The row with its shoots in the order of a table: by level, then along the parent.
fn renumbered(row: &Row) -> Row {
    let tree = |tree: &Arc<Tree>| {
        let mut new: BTreeMap<ShootId, (usize, ShootId)> = BTreeMap::new();
        let mut shoots: Vec<_> = tree.shoots.clone();
        let level = |s: &cordonry::row::Shoot| {
            let parents = std::iter::successors(s.parent, |p| tree.shoot(*p)?.parent);
            parents.count()
        };
        let deepest = shoots.iter().map(level).max().unwrap_or(0);
        let mut out: Vec<cordonry::row::Shoot> = Vec::new();
        for depth in 0..=deepest {
            let mut here: Vec<_> = shoots.extract_if(.., |s| level(s) == depth).collect();
            let parent = |s: &cordonry::row::Shoot| s.parent.map(|p| new[&p].0);
            here.sort_by(|a, b| parent(a).cmp(&parent(b)).then(a.at.total_cmp(&b.at)));
            for mut shoot in here {
                let id = ShootId::found(out.len() as u32);
                let old = std::mem::replace(&mut shoot.id, id);
                shoot.parent = shoot.parent.map(|p| new[&p].1);
                new.insert(old, (out.len(), id));
                out.push(shoot);
            }
        }
        Arc::new(Tree {
            shoots: out,
            ..(**tree).clone()
        })
    };
    Row {
        trees: row.trees.iter().map(tree).collect(),
        ..row.clone()
    }
}

fn findings(row: &Row, site: &Site, targets: &Targets) -> Vec<Finding> {
    let terms = Terms::on(row, targets, site);
    check(&Context::found(
        &PosedRow::of(row, targets),
        &terms,
        targets,
    ))
}

/// What was assumed of a table.
fn assumed(measured: &Measured) -> Vec<&str> {
    measured.said.iter().map(|s| s.key).collect()
}

/// What was assumed of a table of a random row. Whether its numbers are in another unit, or its lines slips, is only asked:
/// random wood may be as thin as that.
fn assumed_of_random(measured: &Measured) -> Vec<&str> {
    let mut keys = assumed(measured);
    keys.retain(|k| *k != "file-said-unit-doubt" && !k.starts_with("file-said-unlikely"));
    keys
}

/// The found row of a plan, written and read and written again.
fn check_same(name: &str, plan: &Plan, assumed: fn(&Measured) -> Vec<&str>) {
    let found = renumbered(&plan.found);
    for style in styles() {
        let text = write(&plan.found, &plan.name, &plan.site, plan.tipped, style);
        let again = taken(&text);
        assert_eq!(again.bad, vec![], "{name}");
        assert_eq!(again.row, found, "{name}, {style:?}");
        assert_eq!(again.site, *plan.site, "{name}, {style:?}");
        assert_eq!(again.title.as_deref(), Some(&*plan.name), "{name}");
        let second = write(&again.row, &plan.name, &again.site, again.tipped, style);
        assert!(second == text, "{name}, {style:?}:\n{text}\n{second}");
        // Everything that could be assumed is said.
        assert_eq!(assumed(&again), Vec::<&str>::new(), "{name}");
        assert_eq!(
            findings(&again.row, &again.site, &plan.targets),
            findings(&found, &plan.site, &plan.targets),
            "{name}"
        );
    }
}

#[test]
fn every_example_comes_back_from_a_table_as_it_was() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples");
    let mut seen = 0;
    let lessons = std::fs::read_dir(folder.join("lessons")).unwrap();
    for entry in std::fs::read_dir(folder).unwrap().chain(lessons) {
        let path = entry.unwrap().path();
        if path.is_dir() {
            continue;
        }
        let name = path.file_name().unwrap().to_string_lossy().to_string();
        let bytes = std::fs::read(&path).unwrap();
        let plan = match path.extension().and_then(|e| e.to_str()) {
            Some("json") => read_plan(&bytes).unwrap(),
            Some("csv") => read(&bytes, &Options::default()).unwrap().plan("measured"),
            _ => continue,
        };
        check_same(&name, &plan, assumed);
        let table = write(&plan.found, &plan.name, &plan.site, None, Style::default());
        assert_eq!(taken(&table).doubt, None, "{name}");
        seen += 1;
    }
    assert!(seen >= 20);
}

/// As a plan file may hold them: no season before its own, one growth a season.
fn measurable(row: &Row) -> bool {
    row.trees.iter().flat_map(|t| &t.shoots).all(|s| {
        s.units.iter().all(|u| u.leaf < row.leaf)
            && s.units.windows(2).all(|u| u[0].leaf < u[1].leaf)
    })
}

proptest! {
    #![proptest_config(random::cases(150))]

    /// Whatever the row: what is written is read without a remark, and is written the same.
    #[test]
    fn a_written_row_is_written_the_same_again(row in prop_oneof![random::row(), wild::row()], style in 0usize..4) {
        let style = styles()[style];
        let row = grown(&row);
        let text = write(&row, "", &Site::default(), None, style);
        let again = taken(&text);
        prop_assert_eq!(&again.bad, &vec![], "{}", text);
        prop_assert_eq!(assumed_of_random(&again), Vec::<&str>::new(), "{}", text);
        prop_assert_eq!(&again.row.trellis, &row.trellis);
        prop_assert_eq!((again.row.from, again.row.to), (row.from, row.to));
        prop_assert_eq!(write(&again.row, "", &again.site, None, style), text);
    }

    #[test]
    fn a_measured_row_comes_back_as_it_was(mut row in random::row(), targets in random::targets()) {
        row.leaf = 5;
        prop_assume!(measurable(&row));
        let mut plan = Plan::new("random", row);
        plan.targets = Arc::new(targets);
        check_same("random", &plan, assumed_of_random);
    }
}

/// The row without shoots of which nothing has grown, but buds: a table has no line for them.
fn grown(row: &Row) -> Row {
    let tree = |tree: &Arc<Tree>| {
        let mut tree = (**tree).clone();
        tree.remove_with_descendants(|s| s.units.is_empty() && s.kind() != Kind::Bud);
        Arc::new(tree)
    };
    Row {
        trees: row.trees.iter().map(tree).collect(),
        ..row.clone()
    }
}

const HEAD: &str = "tree,place,kind,length,diameter,season,rubbed,cut\n";
const TREES: &str =
    "1,0,leader,1.900 m,30,0,,\n1,1.0,upright,0.80 m + 0.55 m,14.5,1,yes,0 + 0.15 m\n";

#[test]
fn a_note_stays_with_the_line_that_it_stood_in() {
    let text = "tree,place,kind,length,diameter,pose,note\n\
        1,0.00,leader,2.2,30,45,late\n\
        1,0.80,upright,1.2,14,,canker at the base\n\
        1,1.00,upright,1.2,14,,\n\
        2,1.50,lost,,,,dead\n";
    let taken = taken(text);
    let notes = |row: &Row| -> Vec<(String, Vec<String>)> {
        let of_shoots = |t: &Tree| t.shoots.iter().map(|s| s.note.clone()).collect();
        let trees = row.trees.iter();
        trees.map(|t| (t.note.clone(), of_shoots(t))).collect()
    };
    let expected = [
        ("late", vec!["", "canker at the base", ""]),
        ("dead", vec![]),
    ];
    let expected = expected.map(|(tree, shoots)| {
        let shoots = shoots.into_iter().map(String::from).collect::<Vec<_>>();
        (tree.to_string(), shoots)
    });
    assert_eq!(notes(&taken.row), expected);
    let written = write(&taken.row, "", &taken.site, None, styles()[0]);
    let again = read(written.as_bytes(), &Options::default()).expect("what was written");
    assert_eq!(notes(&again.row), expected);
    let plan = taken.plan("noted");
    let file = cordonry::file::write_plan(&plan);
    assert_eq!(read_plan(file.as_bytes()), Ok(plan));
}

#[test]
fn a_block_says_what_the_row_is() {
    let block = "Block 7, by hand\n\
        Coming leaf:,5,,\n\
        row from,0.6 m\nrow to (cm),300\n\
        wire,1.1 m\nwire,50 cm,plastic\nWire,5'6\",Bare\n\
        wall height,2.2\n\
        posts,7 m,0\npost,-0.5 m\n\
        latitude,-45.5°\nlongitude,8.25\nrow bearing,90\nrow spacing,2.8 m\n";
    for mark in [",", ";", "\t"] {
        let text = format!("{block}{HEAD}{TREES}").replace(',', mark);
        let got = taken(&text);
        assert_eq!(got.bad, vec![], "{text}");
        let row = &got.row;
        assert_eq!((row.leaf, row.from, row.to), (5, Mm(600), Mm(3000)));
        let wire = |height, covering| Wire {
            height: Mm(height),
            covering,
        };
        let expected = Trellis {
            wires: vec![
                wire(500, Covering::Plastic),
                wire(1100, Covering::Bare),
                wire(1676, Covering::Bare),
            ],
            posts: vec![Mm(-500), Mm(0), Mm(7000)],
            wall_height: Mm(2200),
        };
        assert_eq!(row.trellis, expected);
        let site = Site {
            latitude_deg: Some(-45.5),
            longitude_deg: Some(8.25),
            row_bearing_deg: Some(90.0),
            row_spacing: Some(Mm(2800)),
        };
        assert_eq!(got.site, site);
        let upright = &row.trees[0].shoots[1];
        assert!(upright.rubbed && !row.trees[0].shoots[0].rubbed);
        let units: Vec<_> = upright
            .units
            .iter()
            .map(|u| (u.leaf, u.kept, u.grown))
            .collect();
        assert_eq!(units, [(1, 800.0, 800.0), (2, 550.0, 700.0)]);
        let keys: Vec<&str> = got.said.iter().map(|s| s.key).collect();
        assert!(keys.contains(&"file-said-above"), "{keys:?}");
        assert!(!keys.contains(&"file-said-leaf"), "{keys:?}");
        assert!(!keys.contains(&"file-said-stretch"), "{keys:?}");
        assert_eq!(got.plan("A").site.row_spacing, Some(Mm(2800)));
    }
}

/// A plan without a tree, of that name.
fn treeless(name: &str) -> Plan {
    let example = include_str!("../../examples/third-leaf.json");
    let mut plan = read_plan(example.as_bytes()).unwrap();
    Arc::make_mut(&mut plan.found).trees.clear();
    plan.name = name.into();
    plan
}

#[test]
fn a_table_carries_the_name_of_its_row() {
    for (name, back) in [
        ("North 4", "North 4"),
        ("coming leaf,3", "coming leaf,3"),
        ("tree,place,kind,length", "tree,place,kind,length"),
        ("sep=;", "sep=;"),
        ("# 7 \"old\"; new", "# 7 \"old\"; new"),
        ("=1+1", "=1+1"),
        ("two\nlines", "two lines"),
        ("größer", "größer"),
    ] {
        let plan = treeless(name);
        for style in styles() {
            let text = write(&plan.found, name, &plan.site, None, style);
            let again = taken(&text);
            assert_eq!(again.title.as_deref(), Some(back), "{text}");
            assert_eq!(assumed(&again), Vec::<&str>::new(), "{text}");
        }
    }
    assert!(
        !write(
            &treeless("").found,
            " ",
            &Site::default(),
            None,
            styles()[0]
        )
        .contains("name")
    );
    // By hand, with other lines beside it.
    let got = taken("Orchard\nrow name,North, 4\nby Ida\ntree,place,kind,length\n1,0,leader,2\n");
    assert_eq!(got.title.as_deref(), Some("North, 4"));
    let said = Words::strict().say(&got.said[0]);
    assert_eq!(
        said,
        "2 lines above the names of the columns are passed over"
    );
    let long = format!(
        "row name,{}\ntree,place,kind,length\n1,0,leader,2\n",
        "n".repeat(4_001)
    );
    let why = Words::strict().refusal(&taken(&long).bad[0].why);
    assert_eq!(
        why,
        "row name: there must be 4000 characters at most, not 4001"
    );
}

#[test]
fn a_row_without_a_tree_comes_back() {
    let plan = treeless("bare");
    for style in styles() {
        let again = taken(&write(
            &plan.found,
            &plan.name,
            &plan.site,
            plan.tipped,
            style,
        ));
        assert!(again.treeless);
        assert_eq!(
            again.plan("file"),
            Plan {
                schemes: Plan::new("", Row::clone(&plan.found)).begun().schemes,
                targets: Plan::new("", Row::clone(&plan.found)).targets,
                marks: vec![],
                note: String::new(),
                ..plan.clone()
            }
        );
    }
    // Names of columns alone, or lines that can't be taken, are no row.
    for none in [
        "tree,place,kind,length\n",
        "coming leaf,3\ntree,place,kind,length\nx,0,leader,2\n",
    ] {
        assert!(!taken(none).treeless, "{none}");
    }
}

#[test]
fn lines_above_the_names_are_up_to_a_thousand() {
    let table = |wires: usize| {
        let above = "wire,0.5 m\n".repeat(wires);
        read(
            format!("{above}tree,place,kind,length\n1,0,leader,2\n").as_bytes(),
            &Options::default(),
        )
    };
    assert_eq!(table(1_000).unwrap().bad.len(), 999);
    let why = Words::strict().refusal(&table(1_001).unwrap_err());
    assert_eq!(
        why,
        "There must be 1000 lines above the names of the columns at most"
    );
    let posts = format!(
        "posts,{}\ntree,place,kind,length\n1,0,leader,2\n",
        "1, ".repeat(9_000)
    );
    let why = Words::strict().refusal(&taken(&posts).bad[0].why);
    assert!(
        why.contains("posts must be between 0 and 5000, not 5001"),
        "{why}"
    );
}

#[test]
fn what_is_asked_for_is_more_than_what_the_table_says() {
    let text = format!("coming leaf,5\nwire,0.6 m\n{HEAD}{TREES}");
    let options = Options {
        leaf: Some(4),
        trellis: Some(Trellis::default()),
        ..Options::default()
    };
    let got = read(text.as_bytes(), &options).unwrap();
    assert_eq!((got.row.leaf, &got.row.trellis), (4, &Trellis::default()));
    let got = taken(&text);
    assert_eq!(
        (got.row.leaf, got.row.trellis.cordon_height()),
        (5, Mm(600))
    );
}

#[test]
fn one_end_of_the_row_alone_moves_the_other_only_where_it_must() {
    let ends = |block: &str| {
        let got = taken(&format!("{block}{HEAD}{TREES}"));
        assert!(got.said.iter().any(|s| s.key == "file-said-stretch"));
        (got.row.from.0, got.row.to.0)
    };
    assert_eq!(ends(""), (500, 2000));
    assert_eq!(ends("row from,0.2 m\n"), (200, 2000));
    assert_eq!(ends("row from,4 m\n"), (4000, 4000));
    assert_eq!(ends("row to,0.1 m\n"), (100, 100));
}

#[test]
fn a_wrong_value_is_a_remark_with_its_line_and_loses_nothing_else() {
    let plain = taken(&format!("{HEAD}{TREES}"));
    for (line, says) in [
        (
            "coming leaf,0",
            "coming leaf must be between 1 and 40, not 0",
        ),
        ("coming leaf,41", "between 1 and 40"),
        (
            "coming leaf,three",
            "coming leaf must be a whole number, not 'three'",
        ),
        ("coming leaf", "coming leaf is empty"),
        (
            "wire,9 m",
            "wire must be between 0.05 m and 6.00 m, not 9.00 m",
        ),
        (
            "wire,0.5 m,rust",
            "wire must be one of bare, plastic, not 'rust'",
        ),
        ("wire,0,5 m,plastic", "4 cells for 3 columns"),
        (
            "wire,half a metre",
            "wire must be a length: 'half a metre' is a word; a number is wanted",
        ),
        ("wall height,2,5 m", "3 cells for 2 columns"),
        (
            "wall height,0.05 m",
            "wall height must be between 0.10 m and 6.00 m, not 0.05 m",
        ),
        ("posts,0 m,x", "posts: "),
        ("posts,", "posts is empty"),
        (
            "posts,9000 m",
            "posts must be between −5000.00 m and 5000.00 m, not 9000.00 m",
        ),
        (
            "latitude,91",
            "latitude must be between −90° and 90°, not 91°",
        ),
        (
            "latitude,north",
            "latitude must be a number of degrees: 'north' is no number",
        ),
        (
            "row bearing,-1",
            "row bearing must be between 0° and 360°, not −1°",
        ),
        (
            "row spacing,3 mm",
            "row spacing must be between 0.50 m and 100.00 m, not 0.00 m",
        ),
    ] {
        let text = format!("# remark\n\n{line},,\n{HEAD}{TREES}");
        let got = taken(&text);
        assert_eq!(got.row, plain.row, "{line}");
        assert_eq!((got.taken, got.bad.len()), (plain.taken, 1), "{line}");
        let bad = &got.bad[0];
        assert_eq!(
            (bad.line, bad.text.as_str()),
            (3, line.trim_end_matches(',')),
            "{line}"
        );
        let why = Words::strict().refusal(&bad.why);
        assert!(why.contains(says), "{line}: '{why}' does not say '{says}'");
    }
    for (lines, says) in [
        ("coming leaf,4\ncoming leaf,5\n", "coming leaf stands twice"),
        (
            "wire,0.5 m\nwire,500 mm,plastic\n",
            "wire 500 mm stands twice",
        ),
        (
            "row from,5 m\nrow to,4 m\n",
            "row to must be between 5.00 m and 5000.00 m, not 4.00 m",
        ),
        (
            "row to,4 m\nrow from,5 m\n",
            "row from must be between −5000.00 m and 4.00 m, not 5.00 m",
        ),
    ] {
        let got = taken(&format!("{lines}{HEAD}{TREES}"));
        let bad: Vec<_> = got
            .bad
            .iter()
            .map(|b| (b.line, Words::strict().refusal(&b.why)))
            .collect();
        assert_eq!(bad.len(), 1, "{lines}");
        assert!(bad[0].0 == 2 && bad[0].1.contains(says), "{bad:?}");
    }
    // In the table itself.
    for (lines, says) in [
        (
            "1,1.2,upright,0.8 m,9,1,perhaps,\n",
            "rubbed must be one of yes, no, not 'perhaps'",
        ),
        (
            "1,1.2,upright,0.8 m,9,1,,0 + 0.1 m\n",
            "cut must be between 0.00 m and 0.00 m, not 0.10 m",
        ),
        (
            "1,1.2,upright,0.8 m,9,1,,20 m\n",
            "cut must be between 0.00 m and 19.20 m, not 20.00 m",
        ),
        (
            "1,1.2,upright,0.8 m,9,1,,x\n",
            "cut must be a length such as 0.60 m",
        ),
    ] {
        let got = taken(&format!("{HEAD}{TREES}{lines}"));
        let bad: Vec<_> = got
            .bad
            .iter()
            .map(|b| (b.line, Words::strict().refusal(&b.why)))
            .collect();
        assert_eq!((bad.len(), &got.row), (1, &plain.row), "{lines}");
        assert!(bad[0].0 == 4 && bad[0].1.contains(says), "{bad:?}");
    }
}

#[test]
fn cuts_origins_and_bends_are_taken_as_they_are_told() {
    let head = "coming leaf,5\ntree,place (m),kind,length (m),diameter (mm),season,cut,when cut,origin,bend radius,note\n";
    let table = "1,0,leader,1.9 + 0.3,30,0,,2 dormant,,450.5,\n\
        1,1.0,upright,0.8 + 0.55 + 0.2,14.5,1,0 + 0.15,none + 3 Bud  Swell + 5 dormant,kept bud,,\n";
    let got = taken(&format!("{head}{table}"));
    assert_eq!(got.bad, vec![]);
    let [leader, upright] = &got.row.trees[0].shoots[..] else {
        panic!("{:?}", got.row.trees)
    };
    let at = |leaf, window| Some(Moment { leaf, window });
    assert_eq!(leader.bend_radius, Some(450.5));
    assert_eq!(leader.units[0].cut, at(2, Window::Dormant));
    assert_eq!((leader.origin, leader.units[1].cut), (None, None));
    let cuts: Vec<_> = upright.units.iter().map(|u| u.cut).collect();
    let expected = [None, at(3, Window::BudSwell), at(5, Window::Dormant)];
    assert_eq!(cuts, expected);
    assert_eq!(upright.origin, Some(Origin::KeptBud));
    for (line, says) in [
        (
            "1,1.2,upright,0.8,9,1,,yesterday,,,",
            "when cut must be none, or a leaf and a window (dormant, bud swell, early summer, after harvest) for each length, as in none + 4 dormant, not 'yesterday'",
        ),
        (
            "1,1.2,upright,0.8,9,1,,3 autumn,,,",
            "as in none + 4 dormant, not '3 autumn'",
        ),
        (
            "1,1.2,upright,0.8,9,2,,1 dormant,,,",
            "when cut must be between 2 and 5, not 1",
        ),
        (
            "1,1.2,upright,0.8,9,2,,6 dormant,,,",
            "when cut must be between 2 and 5, not 6",
        ),
        (
            "1,1.2,upright,0.8,9,1,,none + 3 dormant,,,",
            "when cut must be none for a season without a length, not 'none + 3 dormant'",
        ),
        (
            "1,1.2,bud,,,,,3 dormant,,,",
            "when cut must be none for a season without a length, not '3 dormant'",
        ),
        (
            "1,1.2,upright,0.8,9,1,,,a wild one,,",
            "origin must be one of kept bud, return, end growth, cut-back bud, wild bud, notch, not 'a wild one'",
        ),
        (
            "1,1.2,upright,0.8,9,1,,,,300,",
            "bend radius must be empty, not '300': this is neither laid nor an upright stem",
        ),
        (
            "2,1.2,leader,0.8,9,1,,,,20001,",
            "bend radius must be between 0 mm and 20000 mm, not 20001 mm",
        ),
    ] {
        let got = taken(&format!("{head}{table}{line}\n"));
        let why = Words::strict().refusal(&got.bad[0].why);
        assert_eq!(got.bad.len(), 1, "{line}");
        assert!(why.contains(says), "{line}: '{why}' does not say '{says}'");
    }
    // Where nobody says the leaf, a cut is not made after it.
    let unsaid = "tree,place (m),kind,length (m),season,when cut\n1,0,leader,1.9,0,4 dormant\n";
    assert_eq!(taken(unsaid).row.leaf, 4);
}

#[test]
fn a_title_that_only_looks_like_a_block_is_passed_over() {
    for title in [
        "Wire work of March",
        "Posts: new",
        "the coming leaf",
        "from,to",
    ] {
        let got = taken(&format!("{title}\n{HEAD}{TREES}"));
        assert_eq!(got.bad, vec![], "{title}");
        assert_eq!(got.said[0].key, "file-said-above", "{title}");
    }
    // A block alone is no table, and is not taken for its line of names.
    let why = read(b"coming leaf,3\nwire,0.5 m\n", &Options::default()).unwrap_err();
    assert_eq!(why.key, "refusal-file-empty");
    let why = read(b"coming leaf,3\na,b\n1,2\n", &Options::default()).unwrap_err();
    assert!(
        Words::strict().refusal(&why).starts_with("Line 2:"),
        "{why}"
    );
}

#[test]
fn no_thickness_is_not_an_estimate() {
    let at = |diameter: &str| {
        let text = format!("{HEAD}1,0,leader,1.9 m,{diameter},0,,\n");
        taken(&text).row.trees[0].shoots[0].diameter
    };
    assert_eq!(at("none"), 0.0);
    assert!(at("") > 0.0);
    assert_eq!(at("0"), at(""));
    assert_eq!(at("30.04"), 30.0);
}
