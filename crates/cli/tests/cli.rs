//! The program as it is called: what it prints, what it writes, how it ends.

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

struct Ran {
    status: i32,
    out: String,
    err: String,
}

fn run(args: &[&str]) -> Ran {
    let out = Command::new(env!("CARGO_BIN_EXE_cordonry"))
        .args(args)
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    Ran {
        status: out.status.code().unwrap(),
        out: text(out.stdout),
        err: text(out.stderr),
    }
}

fn json(ran: &Ran) -> Value {
    serde_json::from_str(&ran.out).unwrap_or_else(|e| panic!("{e}: {} {}", ran.out, ran.err))
}

/// A folder of this test's own.
fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(path.join("deep")).unwrap();
    path
}

/// A row of one tree whose leader of 2.2 m fills its stretch but for `gap` mm.
fn plan(gap: i32) -> String {
    // 500/sin 45° − the 19.4 mm that a bend of radius 450 mm saves, and then along the wire from x = 500.
    let to = 500 + 2200 - 688 + gap;
    format!(
        r#"{{"format": "cordonry-plan", "version": 1, "name": "one", "found": {{"leaf": 1, "from_mm": 500, "to_mm": {to},
        "trellis": {{"wires": [{{"height_mm": 500}}], "wall_height_mm": 2500}},
        "trees": [{{"id": 1, "foot_mm": 0, "planted": {{"angle_deg": 45, "toward": "right"}},
        "shoots": [{{"id": 0, "pose": "laid", "toward": "right", "diameter_dmm": 300, "units": [{{"leaf": 0, "grown_mm": 2200}}]}}]}}]}}}}"#
    )
}

#[test]
fn check_gives_the_figures_and_findings_of_every_row() {
    let at = folder("check");
    fs::write(at.join("b.json"), plan(400)).unwrap();
    fs::write(at.join("a.json"), plan(0)).unwrap();
    fs::write(at.join("deep/c.json"), plan(0)).unwrap();
    fs::write(at.join("notes.txt"), "no plan").unwrap();
    let ran = run(&["check", at.to_str().unwrap(), "--json"]);
    let got = json(&ran);
    assert_eq!(got["unreadable"], Value::Array(vec![]), "{}", ran.err);
    let rows = got["rows"].as_array().unwrap();
    let files: Vec<&str> = rows.iter().map(|r| r["file"].as_str().unwrap()).collect();
    assert!(files[0].ends_with("a.json") && files[1].ends_with("b.json"));
    assert!(files[2].ends_with("c.json") && files.len() == 3);
    for row in rows {
        assert_eq!(row["leaf"], 1);
        for figure in [
            "cordon_fill_share",
            "gap_total_m",
            "overlap_total_m",
            "trees",
            "uprights",
            "upright_spacing_mean_m",
            "upright_spacing_cv",
        ] {
            assert!(row["figures"][figure].is_number(), "{figure}");
        }
        for finding in row["findings"].as_array().unwrap() {
            for text in ["rule", "severity", "unit", "words"] {
                assert!(finding[text].is_string(), "{text}");
            }
            for number in ["x_m", "z_m", "measured", "allowed"] {
                assert!(finding[number].is_number(), "{number}");
            }
            for list in ["subjects", "remedies"] {
                assert!(finding[list].is_array(), "{list}");
            }
        }
    }
    let gap = &rows[1]["figures"]["gap_total_m"];
    assert!((gap.as_f64().unwrap() - 0.4).abs() < 0.001, "{gap}");
    let rules = |row: &Value| -> Vec<String> {
        let findings = row["findings"].as_array().unwrap().iter();
        findings
            .map(|f| f["rule"].as_str().unwrap().to_string())
            .collect()
    };
    assert!(rules(&rows[1]).contains(&"cordon-gap".to_string()));
    assert!(!rules(&rows[0]).contains(&"cordon-gap".to_string()));
    let grave = rows.iter().any(|r| {
        let mut findings = r["findings"].as_array().unwrap().iter();
        findings.any(|f| f["severity"] == "now")
    });
    assert_eq!(ran.status, i32::from(grave));
    let lines = run(&["check", at.to_str().unwrap(), "--json-lines"]);
    let each: Vec<Value> = lines
        .out
        .lines()
        .map(|l| serde_json::from_str(l).unwrap())
        .collect();
    assert_eq!(each, *rows);
    let words = run(&["check", at.to_str().unwrap()]);
    assert!(words.out.contains("leaf 1"), "{}", words.out);
}

#[test]
fn what_cannot_be_read_is_named_and_the_rest_is_done() {
    let at = folder("unreadable");
    fs::write(at.join("a.json"), plan(0)).unwrap();
    fs::write(at.join("cut.json"), &plan(0)[..100]).unwrap();
    let ran = run(&["check", at.to_str().unwrap(), "nowhere.json", "--json"]);
    assert_eq!(ran.status, 2);
    let got = json(&ran);
    assert_eq!(got["rows"].as_array().unwrap().len(), 1);
    let unreadable = got["unreadable"].as_array().unwrap();
    assert_eq!(unreadable.len(), 2);
    assert!(
        unreadable[0]["file"]
            .as_str()
            .unwrap()
            .ends_with("cut.json")
    );
    assert!(unreadable[0]["reason"].as_str().unwrap().contains("cut"));
    assert_eq!(unreadable[1]["file"], "nowhere.json");
    assert!(ran.err.contains("cut.json: ") && ran.err.contains("nowhere.json: "));
    let empty = folder("empty");
    let ran = run(&["check", empty.to_str().unwrap()]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("no *.json"), "{}", ran.err);
    assert_eq!(run(&["check"]).status, 2);
}

#[test]
fn a_measured_row_goes_in_and_out() {
    let at = folder("convert");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let csv = "tree,place (m),kind,length (m),diameter,season\n1,0,leader,2.2,30,0\n1,1,upright,0.8,9,1\n\
               1,x,upright,0.8,9,1\n2,1.5,leader,2.2,30,0\n";
    fs::write(file("row.csv"), csv).unwrap();
    let ran = run(&[
        "import",
        &file("row.csv"),
        "-o",
        &file("row.json"),
        "--json",
    ]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.err.contains("row.csv:4: tree 1: place"), "{}", ran.err);
    let row = &json(&ran)["rows"][0];
    assert_eq!((&row["lines_taken"], &row["trees"]), (&3.into(), &2.into()));
    assert_eq!(row["bad_lines"][0]["line"], 4);
    let plan = cordonry::file::read_plan(&fs::read(file("row.json")).unwrap()).unwrap();
    assert_eq!(plan.name, "row");

    let ran = run(&["export", &file("row.json"), "-o", &file("out.csv")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let ran = run(&["import", &file("out.csv"), "-o", &file("row2.json")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let again = cordonry::file::read_plan(&fs::read(file("row2.json")).unwrap()).unwrap();
    assert_eq!(again.found, plan.found);
    let ran = run(&["export", &file("row2.json"), "-o", &file("out2.csv")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let text = |name: &str| fs::read_to_string(file(name)).unwrap();
    assert_eq!(text("out2.csv"), text("out.csv"));
    // What the row is goes with it: the leaf, the wires, the site.
    let block = "coming leaf,3\nwire,0.62 m,plastic\nwire,9 m\nlatitude,45\n";
    fs::write(file("block.csv"), format!("{block}{csv}")).unwrap();
    let ran = run(&["import", &file("block.csv"), "-o", &file("block.json")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(
        ran.err
            .contains("block.csv:3: wire must be between 0.05 m and 6.00 m, not 9.00 m"),
        "{}",
        ran.err
    );
    let plan = cordonry::file::read_plan(text("block.json").as_bytes()).unwrap();
    assert_eq!((plan.found.leaf, plan.site.latitude_deg), (3, Some(45.0)));
    assert_eq!(plan.found.trellis.cordon_height(), cordonry::units::Mm(620));
    let ran = run(&["export", &file("block.json"), "-o", &file("block2.csv")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(text("block2.csv").starts_with("coming leaf,3\n"));
    assert!(text("block2.csv").contains("\nwire,0.620 m,plastic\n"));
    let us = run(&["export", &file("row.json"), "-o", &file("us.csv"), "--us"]);
    assert_eq!(us.status, 0);
    assert!(fs::read_to_string(file("us.csv")).unwrap().contains(" ft "));

    let ran = run(&["draw", &file("row.json"), "-o", &file("row.svg")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(
        fs::read_to_string(file("row.svg"))
            .unwrap()
            .contains("<svg")
    );

    let sheets = [
        "draw",
        &file("row.json"),
        "-o",
        &file("row.svg"),
        "--sheets",
    ];
    let mut told_sheets = 0;
    for (paper, width) in [("a4", "297mm"), ("letter", "279.4mm")] {
        let ran = run(&[&sheets[..], &[paper, "--json"]].concat());
        assert_eq!(ran.status, 0, "{}", ran.err);
        let told: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
        let names = told["rows"][0]["sheets"].as_array().unwrap();
        told_sheets = names.len();
        for (i, name) in names.iter().enumerate() {
            assert_eq!(*name, file(&format!("row-{}.svg", i + 1)));
            let page = fs::read_to_string(name.as_str().unwrap()).unwrap();
            assert!(page.contains(width) && page.contains(&format!("Page {} of", i + 1)));
        }
    }
    assert_eq!(run(&[&sheets[..], &["a0"]].concat()).status, 2);
    let in_one = ["draw", &file("row.json"), "-o", &file("row.PDF")];
    for (more, pages) in [(&["--sheets", "letter"][..], told_sheets), (&[], 1)] {
        let ran = run(&[&in_one[..], more].concat());
        assert_eq!(ran.status, 0, "{}", ran.err);
        let bytes = fs::read(file("row.PDF")).unwrap();
        let count = format!("/Count {pages}");
        assert!(
            bytes.starts_with(b"%PDF-")
                && bytes.windows(count.len()).any(|w| w == count.as_bytes())
        );
    }
}

#[test]
fn an_import_is_told_whether_growth_had_been_tipped_where_the_table_does_not_tell() {
    let at = folder("asked");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let names = "tree,place (m),kind,length (m),diameter,season";
    let untold = format!("{names}\n1,0,leader,2.2,30,0\n1,1,upright,0.8,9,1\n");
    let told = untold.replace(names, &format!("{names},cut"));
    for (table, answer, tipped, says) in [
        (&untold, None, None, "is not known"),
        (&untold, Some("yes"), Some(true), ""),
        (&untold, Some("no"), Some(false), ""),
        (&told, None, None, ""),
        (&told, Some("yes"), None, "changes nothing"),
    ] {
        fs::write(file("row.csv"), table).unwrap();
        let mut ask = vec![
            "import".to_string(),
            file("row.csv"),
            "-o".into(),
            file("row.json"),
        ];
        ask.extend(
            answer
                .into_iter()
                .flat_map(|a| ["--tipped".into(), a.to_string()]),
        );
        let ran = run(&ask.iter().map(|a| &**a).collect::<Vec<_>>());
        assert_eq!(ran.status, 0, "{}", ran.err);
        let plan = cordonry::file::read_plan(&fs::read(file("row.json")).unwrap()).unwrap();
        assert_eq!(plan.tipped, tipped, "{table} {answer:?}");
        assert!(ran.err.contains(says), "{}", ran.err);
        assert_eq!(ran.err.contains("tipped"), !says.is_empty(), "{}", ran.err);
    }
    let ran = run(&[
        "import",
        &file("row.csv"),
        "-o",
        &file("row.json"),
        "--tipped",
        "so",
    ]);
    assert_eq!(ran.status, 2);
}

#[test]
fn sheets_list_the_work_that_stands() {
    let at = folder("sheets-standing");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let old = include_str!("../../../examples/overdue-renewal.json");
    // The window in which nothing is done by the plan is given back to the rules.
    let ruled = old.replace("        {\"leaf\": 9, \"window\": \"dormant\"},\n", "");
    assert_ne!(old, ruled);
    for (plan, stands) in [(old, false), (&ruled, true)] {
        fs::write(file("row.json"), plan).unwrap();
        let out = file("row.svg");
        let ran = run(&["draw", &file("row.json"), "-o", &out, "--sheets", "a4"]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        let pages = fs::read_dir(&at).unwrap().flatten();
        let pages = pages.filter(|f| f.path().extension().is_some_and(|e| e == "svg"));
        let text: String = pages
            .map(|f| fs::read_to_string(f.path()).unwrap())
            .collect();
        assert_eq!(text.contains("stubbed to 0.15 m"), stands);
        assert_eq!(text.contains("Stands by rule"), stands);
    }
}

#[test]
fn what_cannot_be_done_ends_with_2_and_names_the_file() {
    let at = folder("refused");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    fs::write(file("bad.csv"), "tree,place,kind,length\nx,0,leader,2\n").unwrap();
    fs::write(file("plan.json"), plan(0)).unwrap();
    fs::write(file("plan.csv"), plan(0)).unwrap();
    for (args, says) in [
        (["import", "bad.csv", "a.json"], "no line could be taken"),
        (["import", "none.csv", "a.json"], "none.csv"),
        (["import", "plan.json", "a.json"], "no table: it is a plan"),
        (["export", "bad.csv", "a.csv"], "bad.csv"),
        (["export", "plan.csv", "plan.csv"], "replace"),
        (["export", "plan.json", "plan.json"], "ends in .csv"),
        (["export", "plan.json", "a.xlsx"], "ends in .csv"),
        (["import", "bad.csv", "a.csv"], "ends in .json"),
        (["export", "plan.json", "no/where.csv"], "where.csv"),
        (["draw", "plan.json", "a.png"], ".svg"),
    ] {
        let ran = run(&[args[0], &file(args[1]), "-o", &file(args[2])]);
        assert_eq!(ran.status, 2, "{args:?}");
        assert!(ran.err.contains(says), "{}", ran.err);
        assert!(ran.err.contains(args[1]), "{}", ran.err);
    }
    assert!(!Path::new(&file("a.json")).exists());
    assert_eq!(fs::read_to_string(file("plan.json")).unwrap(), plan(0));
}

#[test]
fn a_table_of_which_much_is_left_out_is_not_written_unless_asked_for() {
    let at = folder("left-out");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let csv = "tree,place (m),kind,length (m),season\n1,0,leader,2.2,0\n1,1,upright,0.8,1\n\
               1,1.2,upright,0.8,2\n";
    fs::write(file("row.csv"), csv).unwrap();
    let import = |more: &[&str]| {
        let (row, out) = (file("row.csv"), file("row.json"));
        let _ = fs::remove_file(&out);
        run(&[&["import", &row, "-o", &out][..], more].concat())
    };
    let sound = import(&[]);
    assert_eq!(sound.status, 0, "{}", sound.err);
    assert!(!sound.err.contains("left out"), "{}", sound.err);
    assert!(
        sound
            .out
            .ends_with(": 3 lines taken, 0 left out; one tree, 0 lost\n"),
        "{}",
        sound.out
    );
    // Before leaf 1 nothing of season 1 or 2 was there: more than half of the lines.
    let refused = import(&["--leaf", "1"]);
    assert_eq!(refused.status, 2, "{}", refused.err);
    let last = refused.err.lines().last().unwrap();
    assert!(
        last.contains("2 of 3 lines could not be taken") && last.contains("--anyway"),
        "{last}"
    );
    assert!(!Path::new(&file("row.json")).exists());
    let anyway = import(&["--leaf", "1", "--anyway"]);
    assert_eq!(anyway.status, 0, "{}", anyway.err);
    let last = anyway.err.lines().last().unwrap();
    assert!(last.ends_with("2 of 3 lines left out, each named above"));
    assert!(Path::new(&file("row.json")).exists());
    // Before leaf 2 but one is left out.
    let few = import(&["--leaf", "2"]);
    assert_eq!(few.status, 0, "{}", few.err);
    assert!(few.err.contains("1 of 3 lines left out"), "{}", few.err);
}

#[test]
fn the_examples_are_checked_and_the_measured_row_is_imported() {
    let examples = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");
    let ran = run(&["check", examples, "--json"]);
    let got = json(&ran);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let rows = got["rows"].as_array().unwrap();
    assert!(rows.len() >= 8 && got["unreadable"].as_array().unwrap().is_empty());
    let mut rules: Vec<&str> = rows
        .iter()
        .flat_map(|r| r["findings"].as_array().unwrap())
        .map(|f| f["rule"].as_str().unwrap())
        .collect();
    rules.sort();
    rules.dedup();
    assert!(rules.len() >= 15, "{rules:?}");
    let at = folder("measured");
    let out = at.join("plan.json");
    let csv = format!("{examples}/measured-40.csv");
    let ran = run(&["import", &csv, "-o", out.to_str().unwrap()]);
    assert_eq!(ran.status, 0);
    let named = ran.err.lines().filter(|l| l.contains(".csv:")).count();
    assert!(named >= 6 && out.exists(), "{}", ran.err);
}

#[test]
fn all_is_said_in_the_language_that_is_asked_for() {
    let at = folder("language");
    fs::write(at.join("a.json"), plan(400)).unwrap();
    let path = at.to_str().unwrap();
    let plain = run(&["check", path]);
    let asked = run(&["check", path, "--language", "en"]);
    assert_eq!((&asked.out, asked.status), (&plain.out, plain.status));
    let line = plain.out.lines().next().unwrap();
    assert!(
        line.ends_with(
            "a.json: one, leaf 1: 1 trees, 0 uprights, cordon filled to 79.1 %, 0.40 m bare"
        ),
        "{line}"
    );
    let unknown = run(&["check", path, "--language", "xx"]);
    assert_eq!((unknown.status, unknown.out.as_str()), (2, ""));
    assert!(
        unknown.err.contains("those there are: en"),
        "{}",
        unknown.err
    );
    let wire = run(&["import", "a.csv", "-o", "a.json", "--wire", "high"]);
    assert_eq!(wire.status, 2);
    assert!(
        wire.err.contains("wire: ") && wire.err.contains("high"),
        "{}",
        wire.err
    );
}

#[test]
fn light_tells_what_rows_catch() {
    let at = folder("light");
    fs::write(at.join("a.json"), plan(0)).unwrap();
    let path = at.to_str().unwrap();
    let got = json(&run(&["light", path, "--json"]));
    let row = &got["rows"][0];
    for key in [
        "interception_share",
        "beam_interception_share",
        "diffuse_interception_share",
        "renewal_zone_mean_share",
        "renewal_zone_min_share",
        "wall_under_30_share",
    ] {
        let share = row[key].as_f64().unwrap_or_else(|| panic!("{key}: {row}"));
        assert!((0.0..=1.0).contains(&share), "{key}");
    }
    assert!(row["leaf_area_index"].as_f64().unwrap() > 0.0);
    assert!(row["gaps"].is_array());
    assert_eq!(row["from"], "04-15");
    let july = run(&[
        "light",
        path,
        "--json-lines",
        "--from",
        "2026-07-01",
        "--to",
        "07-31",
    ]);
    let july = json(&july);
    assert_eq!(
        (&july["from"], &july["to"]),
        (&"07-01".into(), &"07-31".into())
    );
    assert_ne!(july["interception_share"], row["interception_share"]);
    for (wrong, says) in [
        (
            &["--from", "2026-07-32", "--to", "07-31"][..],
            "between 2026-07-01 and 2026-07-31, not '2026-07-32'",
        ),
        (
            &["--from", "2026-08-01", "--to", "2026-07-01"],
            "ends before it begins",
        ),
        (&["--from", "07-01"], "--to"),
    ] {
        let ran = run(&[&["light", path][..], wrong].concat());
        assert_eq!(ran.status, 2, "{}", ran.err);
        assert!(ran.err.contains(says), "{}", ran.err);
    }
}

#[test]
fn light_is_judged_only_when_asked_for() {
    let at = folder("check-light");
    fs::write(at.join("a.json"), plan(0)).unwrap();
    let path = at.to_str().unwrap();
    let of_light = |ran: &Ran| {
        let got = json(ran);
        let findings = got["rows"][0]["findings"].as_array().unwrap().clone();
        findings
            .iter()
            .filter(|f| f["rule"] == "light-under-filled")
            .count()
    };
    assert_eq!(of_light(&run(&["check", path, "--json"])), 0);
    assert_eq!(of_light(&run(&["check", path, "--json", "--light"])), 1);
}

/// Runs the program under a shell, with `before` said first: `"$0"` is the program.
#[cfg(unix)]
fn under_shell(at: &Path, line: &str) -> Ran {
    let out = Command::new("sh")
        .args(["-c", line, env!("CARGO_BIN_EXE_cordonry")])
        .current_dir(at)
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    Ran {
        status: out.status.code().unwrap_or(-1),
        out: text(out.stdout),
        err: text(out.stderr),
    }
}

/// A folder with the plan `one.json` and an older drawing of it.
#[cfg(unix)]
fn with_old_drawing(name: &str) -> (PathBuf, String) {
    let at = folder(name);
    fs::write(at.join("one.json"), plan(0)).unwrap();
    let drawn = under_shell(&at, r#""$0" draw one.json -o old.svg"#);
    assert_eq!(drawn.status, 0, "{}", drawn.err);
    let old = fs::read_to_string(at.join("old.svg")).unwrap();
    (at, old)
}

#[cfg(unix)]
fn names(at: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(at)
        .unwrap()
        .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

#[test]
#[cfg(unix)]
fn a_file_that_can_not_be_written_whole_leaves_the_old_one() {
    let (at, old) = with_old_drawing("limit");
    let there = names(&at);
    // The drawing is longer than 2 blocks of 512 bytes; whether the signal that goes with the limit is let pass or not.
    for limit in [
        r#"trap "" XFSZ; ulimit -f 2;"#,
        "ulimit -f 2;",
        "ulimit -f 0;",
    ] {
        let ran = under_shell(&at, &format!(r#"{limit} "$0" draw one.json -o old.svg"#));
        assert_eq!(ran.status, 2, "{limit} {}", ran.err);
        assert!(ran.err.contains("old.svg"), "{}", ran.err);
        assert!(!ran.err.contains(".cordonry-"), "{}", ran.err);
        assert_eq!(fs::read_to_string(at.join("old.svg")).unwrap(), old);
        assert_eq!(names(&at), there, "nothing half done is left");
    }
}

#[test]
#[cfg(target_os = "linux")]
fn a_pipe_in_a_folder_is_no_plan() {
    let (at, _) = with_old_drawing("pipe");
    let ran = under_shell(&at, r#"mkfifo two.json; timeout 20 "$0" check ."#);
    assert!(ran.status < 2, "{} {}", ran.status, ran.err);
    let ran = under_shell(&at, r#"timeout 20 "$0" draw one.json -o no/where.svg"#);
    assert_eq!(ran.status, 2);
    assert!(!ran.err.contains(".cordonry-"), "{}", ran.err);
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_device_ends_with_2() {
    let (at, _) = with_old_drawing("full");
    for line in [
        r#""$0" check one.json --json > /dev/full"#,
        r#""$0" check one.json > /dev/full"#,
        r#""$0" light one.json > /dev/full"#,
        r#""$0" draw one.json -o new.svg > /dev/full"#,
    ] {
        let ran = under_shell(&at, line);
        assert_eq!(ran.status, 2, "{line}: {}", ran.err);
        assert!(ran.err.contains("standard output"), "{line}: {}", ran.err);
    }
    // The device under the name of a drawing.
    std::os::unix::fs::symlink("/dev/full", at.join("full.svg")).unwrap();
    let ran = under_shell(&at, r#""$0" draw one.json -o full.svg"#);
    assert_eq!(ran.status, 2, "{}", ran.err);
}

#[test]
#[cfg(unix)]
fn a_pipe_that_is_closed_is_no_failure() {
    let (at, _) = with_old_drawing("pipe");
    let line = r#"{ "$0" check one.json --json; echo $? > status; } | true; cat status"#;
    let ran = under_shell(&at, line);
    assert_eq!(ran.out.trim(), "0", "{}", ran.err);
}

#[test]
#[cfg(unix)]
fn links_keep_their_source_and_their_place() {
    let (at, old) = with_old_drawing("links");
    let source = plan(0);
    // A second name of the source: the new file takes that name, the source is as it was.
    fs::hard_link(at.join("one.json"), at.join("hard.svg")).unwrap();
    let ran = under_shell(&at, r#""$0" draw one.json -o hard.svg"#);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert_eq!(fs::read_to_string(at.join("one.json")).unwrap(), source);
    assert_eq!(fs::read_to_string(at.join("hard.svg")).unwrap(), old);
    // A link to the source is not followed.
    std::os::unix::fs::symlink("one.json", at.join("soft.svg")).unwrap();
    let ran = under_shell(&at, r#""$0" draw one.json -o soft.svg"#);
    assert_eq!(ran.status, 2, "{}", ran.err);
    assert_eq!(fs::read_to_string(at.join("one.json")).unwrap(), source);
    // A link to another file stays a link, and that file is replaced; a link to nothing makes what it names.
    for (link, to) in [("kept.svg", "deep/kept.svg"), ("made.svg", "deep/made.svg")] {
        if link == "kept.svg" {
            fs::write(at.join(to), "an older one").unwrap();
        }
        std::os::unix::fs::symlink(to, at.join(link)).unwrap();
        let ran = under_shell(&at, &format!(r#""$0" draw one.json -o {link}"#));
        assert_eq!(ran.status, 0, "{}", ran.err);
        assert!(fs::symlink_metadata(at.join(link)).unwrap().is_symlink());
        assert_eq!(fs::read_to_string(at.join(to)).unwrap(), old);
    }
}

#[test]
#[cfg(unix)]
fn a_replaced_file_keeps_its_permissions() {
    use std::os::unix::fs::PermissionsExt as _;
    let (at, _) = with_old_drawing("permissions");
    let path = at.join("old.svg");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let ran = under_shell(
        &at,
        r#"umask 022; "$0" draw one.json -o old.svg; "$0" draw one.json -o new.svg"#,
    );
    assert_eq!(ran.status, 0, "{}", ran.err);
    let mode = |name: &str| fs::metadata(at.join(name)).unwrap().permissions().mode() & 0o777;
    assert_eq!((mode("old.svg"), mode("new.svg")), (0o640, 0o644));
}

#[test]
#[cfg(unix)]
fn a_file_that_may_not_be_written_is_not_replaced() {
    use std::os::unix::fs::PermissionsExt as _;
    let (at, old) = with_old_drawing("read-only");
    let path = at.join("old.svg");
    fs::write(at.join("row.csv"), ROW).unwrap();
    fs::write(at.join("kept.json"), plan(0)).unwrap();
    for name in ["old.svg", "kept.json"] {
        fs::set_permissions(at.join(name), fs::Permissions::from_mode(0o444)).unwrap();
    }
    for line in [
        r#""$0" draw one.json -o old.svg"#,
        r#""$0" import row.csv -o kept.json"#,
    ] {
        let ran = under_shell(&at, line);
        assert_eq!(ran.status, 2, "{line}");
        assert!(ran.err.contains("it may not be written"), "{}", ran.err);
    }
    assert_eq!(fs::read_to_string(&path).unwrap(), old);
    assert_eq!(fs::read_to_string(at.join("kept.json")).unwrap(), plan(0));
}

/// A table of a sound row.
const ROW: &str = "tree,place (m),kind,length (m),season\n1,0,leader,2.2,0\n1,1,upright,0.8,1\n2,1.5,leader,2.2,0\n";

#[test]
fn a_plan_with_work_in_it_is_replaced_only_when_asked_for() {
    let at = folder("worked");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let worked = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/overdue-renewal.json"
    );
    let text = fs::read_to_string(worked).unwrap();
    let mut marked: Value = serde_json::from_str(&text).unwrap();
    marked["marks"] = serde_json::json!([{"x_mm": 0, "z_mm": 100, "text": "look here"}]);
    fs::write(file("worked.json"), marked.to_string()).unwrap();
    fs::write(file("row.csv"), ROW).unwrap();
    let import = |more: &[&str]| {
        let (row, out) = (file("row.csv"), file("worked.json"));
        run(&[&["import", &row, "-o", &out][..], more].concat())
    };
    let ran = import(&[]);
    assert_eq!(ran.status, 2, "{}", ran.err);
    assert!(
        ran.err.contains("worked.json") && ran.err.contains("--replace"),
        "{}",
        ran.err
    );
    assert_eq!(
        fs::read_to_string(file("worked.json")).unwrap(),
        marked.to_string()
    );
    assert_eq!(import(&["--replace"]).status, 0);
    // What import made has no work, and may be made again.
    assert_eq!(import(&[]).status, 0);
}

#[test]
fn trees_too_near_to_each_other_are_told_at_the_end() {
    let at = folder("slip");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let lines: String = (0..10)
        .map(|n| format!("{n},{:.4},leader,2.2\n", 0.002 * f64::from(n)))
        .collect();
    fs::write(file("slip.csv"), format!("tree,place,kind,length\n{lines}")).unwrap();
    let ran = run(&["import", &file("slip.csv"), "-o", &file("slip.json")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(
        ran.out.contains("0 lost. Trees stand 2 mm apart"),
        "{}",
        ran.out
    );
    let first = ran.err.lines().next().unwrap();
    assert!(first.contains("Trees stand 2 mm apart"), "{first}");
}

#[test]
fn name_and_a_row_without_a_tree_go_out_and_in() {
    let at = folder("treeless");
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let mut bare: Value = serde_json::from_str(&plan(0)).unwrap();
    bare["found"]["trees"] = Value::Array(vec![]);
    bare["name"] = "North 4".into();
    fs::write(file("bare.json"), bare.to_string()).unwrap();
    let ran = run(&["export", &file("bare.json"), "-o", &file("bare.csv")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let ran = run(&["import", &file("bare.csv"), "-o", &file("again.json")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let again = cordonry::file::read_plan(&fs::read(file("again.json")).unwrap()).unwrap();
    assert_eq!((again.found.trees.len(), &*again.name), (0, "North 4"));
}

#[test]
fn a_file_that_is_too_large_says_how_large() {
    let at = folder("large");
    let large = at.join("large.csv");
    fs::File::create(&large).unwrap().set_len(40 << 20).unwrap();
    let out = at.join("o.json");
    let ran = run(&[
        "import",
        large.to_str().unwrap(),
        "-o",
        out.to_str().unwrap(),
    ]);
    assert_eq!(ran.status, 2);
    assert!(
        ran.err
            .contains("The file must have 32 MB at most, not 40.0"),
        "{}",
        ran.err
    );
    fs::File::create(&large)
        .unwrap()
        .set_len((32 << 20) + 1)
        .unwrap();
    let ran = run(&["check", large.to_str().unwrap()]);
    assert!(
        ran.err
            .contains("The file must have 32 MB at most, not 32.1"),
        "{}",
        ran.err
    );
}

#[test]
#[cfg(target_os = "linux")]
fn what_has_no_end_and_pipes_and_help_that_is_lost() {
    let (at, _) = with_old_drawing("endless");
    let ran = under_shell(&at, r#""$0" check /dev/zero"#);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("32 MB at most"), "{}", ran.err);
    let ran = under_shell(&at, r#"mkfifo two.json; timeout 20 "$0" check two.json"#);
    assert_eq!(ran.status, 2, "{}", ran.err);
    assert!(ran.err.contains("two.json: it is a pipe"), "{}", ran.err);
    // One that the shell has opened is read.
    let ran = under_shell(&at, r#"cat one.json | "$0" check /dev/stdin"#);
    assert!(ran.status < 2, "{}", ran.err);
    for asked in ["--help", "--version", "import --help"] {
        let ran = under_shell(&at, &format!(r#""$0" {asked} > /dev/full"#));
        assert_eq!(ran.status, 2, "{asked}");
        assert_eq!(under_shell(&at, &format!(r#""$0" {asked}"#)).status, 0);
    }
}

#[test]
#[cfg(unix)]
fn a_name_of_several_lines_is_printed_on_one() {
    let (at, _) = with_old_drawing("lines");
    for (command, name) in [("draw", "a\nb\u{202e}.svg"), ("export", "a\nb.csv")] {
        let out = at.join(name);
        let ran = run(&[
            command,
            at.join("one.json").to_str().unwrap(),
            "-o",
            out.to_str().unwrap(),
        ]);
        assert_eq!(
            (ran.status, ran.out.lines().count()),
            (0, 1),
            "{:?}",
            ran.out
        );
        assert!(!ran.out.contains('\u{202e}'), "{:?}", ran.out);
    }
}

/// Whether a text holds what a terminal would obey, but for the ends of its lines.
fn obeyed(text: &str) -> bool {
    text.chars()
        .any(|c| cordonry::said::is_obeyed(c) && c != '\n')
}

#[test]
fn nothing_that_is_printed_is_obeyed_by_a_terminal() {
    let at = folder("control");
    let name = "one\u{1b}[31m \u{9b}2J\u{7f}\r\u{202e}two\u{2066}";
    let quoted = serde_json::to_string(name).unwrap();
    let text = plan(400).replace("\"one\"", &quoted);
    let file = at.join("one.json");
    fs::write(&file, text).unwrap();
    let file = file.to_str().unwrap();
    for how in [
        &["check"][..],
        &["light"],
        &["check", "--json"],
        &["check", "--json-lines"],
    ] {
        let ran = run(&[how, &[file]].concat());
        assert!(
            ran.status < 2 && ran.out.contains("one"),
            "{how:?} {}",
            ran.err
        );
        assert!(!obeyed(&ran.out), "{how:?} {:?}", ran.out);
    }
    let told = json(&run(&["check", "--json", file]));
    assert_eq!(told["rows"][0]["name"], name);
    // A line of a table that can't be taken, and a file that is not there.
    let table = at.join("row.csv");
    let lines =
        "tree,place,kind,length\n1,0,leader,1.9\n1,1,\u{1b}]0;x\u{7},0.8\n1,1,tw\u{9b}ig,0.8\n";
    fs::write(&table, lines).unwrap();
    let made = at.join("row.json");
    let ran = run(&[
        "import",
        "--anyway",
        table.to_str().unwrap(),
        "-o",
        made.to_str().unwrap(),
    ]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(
        ran.err.contains("row.csv:3:") && !obeyed(&ran.err),
        "{:?}",
        ran.err
    );
    let ran = run(&["check", "no\u{1b}[2Jwhere.json"]);
    assert!(ran.status == 2 && !obeyed(&ran.err), "{:?}", ran.err);
}

#[test]
#[cfg(target_os = "linux")]
fn what_standard_error_does_not_take_ends_nothing() {
    let at = folder("deaf");
    let table = "tree,place,kind,length\n1,0,leader,1.9\n2,1.5,leader,1.9\n2,9,upright,0.8\n";
    fs::write(at.join("row.csv"), table).unwrap();
    let ran = under_shell(&at, r#""$0" import row.csv -o row.json 2> /dev/full"#);
    assert_eq!(ran.status, 0, "{}", ran.out);
    assert!(at.join("row.json").exists());
}

/// The plan of a long row: an example's trees over and over.
#[cfg(target_os = "linux")]
fn long_plan(trees: usize) -> String {
    let example = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/overdue-renewal.json");
    let text = fs::read_to_string(example).unwrap();
    let mut plan: Value = serde_json::from_str(&text).unwrap();
    let found = plan["found"]["trees"].as_array().unwrap().clone();
    let feet: Vec<i64> = found
        .iter()
        .map(|t| t["foot_mm"].as_i64().unwrap())
        .collect();
    let apart = (feet[feet.len() - 1] - feet[0]) / (feet.len() as i64 - 1);
    let copy = |n: usize| {
        let mut tree = found[n % found.len()].clone();
        tree["id"] = (n + 1).into();
        tree["foot_mm"] = (feet[0] + apart * n as i64).into();
        tree
    };
    plan["found"]["trees"] = (0..trees).map(copy).collect();
    plan["found"]["to_mm"] = (feet[0] + apart * trees as i64).into();
    plan["schemes"] = Value::Array(vec![]);
    plan.to_string()
}

#[test]
#[cfg(target_os = "linux")]
fn a_long_row_is_checked_in_200_megabytes() {
    let at = folder("long");
    fs::write(at.join("long.json"), long_plan(3_300)).unwrap();
    // In kilobytes, all that the program has mapped.
    let ran = under_shell(&at, r#"ulimit -v 195312; "$0" check long.json --json"#);
    assert!(
        ran.status == 0 || ran.status == 1,
        "{}: {}",
        ran.status,
        ran.err
    );
    let told = json(&ran);
    let findings = told["rows"][0]["findings"].as_array().unwrap().len();
    assert!(findings >= 3_300, "{findings}");
    assert_eq!(told["rows"][0]["figures"]["trees"], 3_300);
}

#[test]
fn forecast_tells_of_each_renewal_share_where_that_is_asked() {
    let lesson = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/lessons/renewal-a-fifth-or-never.json"
    );
    let args = ["forecast", lesson, "--scheme", "A fifth", "--to", "6"];
    let shares = |ran: &Ran| json(ran)["rows"][0]["schemes"][0]["renewal_shares"].clone();
    assert!(shares(&run(&[&args[..], &["--json"]].concat())).is_null());
    let told = shares(&run(&[&args[..], &["--json", "--shares"]].concat()));
    let told = told.as_array().expect("shares");
    let each: Vec<f64> = told.iter().filter_map(|s| s["share"].as_f64()).collect();
    assert_eq!(each, [0.0, 0.1, 0.125, 0.167, 0.2, 0.25]);
    assert_eq!(told[0]["stubs"], 0);
    assert!(told[4]["crop_mean_t_per_ha"].as_f64() > Some(0.0));
    let ran = run(&[&args[..], &["--shares"]].concat());
    assert_eq!(ran.out.matches("renewing no upright:").count(), 1);
    for of in [10, 8, 6, 5, 4] {
        let told = format!("renewing one in {of} uprights each winter:");
        assert_eq!(ran.out.matches(&told).count(), 1, "{of}");
    }
}

#[test]
fn advice_is_told_taken_and_then_there_is_none() {
    let at = folder("advise");
    let example = |name: &str| format!("{}/../../examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let row = example("opposed-leans");
    let taken = at.join("taken.json").display().to_string();
    let ran = run(&["advise", &row, "--json", "-o", &taken]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let told = json(&ran)["rows"][0].clone();
    let draft = &told["advice"][0];
    assert_eq!(draft["for"], "draft");
    let open = |key: &str| draft[key].as_f64().expect("a number");
    assert!(open("value_after") < open("value_before"), "{draft}");
    let works = draft["work"].as_array().expect("work").len();
    let pieces = draft["pieces"].as_array().expect("pieces");
    let each = pieces
        .iter()
        .map(|p| p["work"].as_array().expect("work").len());
    assert_eq!(each.sum::<usize>(), works);
    assert!(
        pieces
            .iter()
            .all(|p| p["why"].as_str().is_some_and(|w| !w.is_empty()))
    );
    let filled = |side: &str| draft["gain"][side]["cordon_fill_share"].as_f64();
    assert!(filled("after") > filled("before"));
    // The plan that was written has the work: nothing is left to propose.
    let again = json(&run(&["advise", &taken, "--json"]));
    assert_eq!(again["rows"][0]["advice"][0]["work"], Value::Array(vec![]));
    let ran = run(&["advise", &row]);
    assert!(
        ran.out.contains("Lay forward along the wire"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("Tensioned wire can whip"), "{}", ran.out);
    let kinds = json(&run(&[
        "advise",
        &row,
        "--json",
        "--for",
        "fill,uprights,tip,renew",
    ]));
    let kinds = kinds["rows"][0]["advice"]
        .as_array()
        .expect("advice")
        .clone();
    let names: Vec<&str> = kinds.iter().filter_map(|a| a["for"].as_str()).collect();
    assert_eq!(names, ["fill", "uprights", "tip", "renew"]);
    // A folder has no one plan to write, and a leaf before the row was found no work.
    let many = example("x").replace("/x.json", "");
    assert_eq!(run(&["advise", &many, "-o", &taken]).status, 2);
    assert_eq!(run(&["advise", &row, "--leaf", "1"]).status, 2);
    let ran = run(&["advise", &row, "--for", "wonders"]);
    assert_eq!(ran.status, 2);
}
