//! Work that is handed out by the program as it is called.

use serde_json::Value;
use std::process::Command;

fn run(args: &[&str]) -> (i32, String, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_cordonry"))
        .args(args)
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    let status = out.status.code().unwrap();
    (status, text(out.stdout), text(out.stderr))
}

const EXAMPLE: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../../examples/third-leaf.json"
);

fn passes(args: &[&str]) -> (Value, Vec<Value>) {
    let all = [&["crew", EXAMPLE, "--json"], args].concat();
    let (status, out, err) = run(&all);
    assert_eq!(status, 0, "{err}");
    let document: Value = serde_json::from_str(&out).unwrap();
    let row = document["rows"][0].clone();
    let passes = row["passes"].as_array().unwrap().clone();
    (row, passes)
}

#[test]
fn passes_are_listed_with_their_counts_by_tree() {
    let (row, all) = passes(&["--leaf", "3"]);
    assert_eq!(row["leaf"], 3);
    assert_eq!(row["usual"], false);
    // The example's work: four stubs, twelve uprights freed of laterals, and a bud at bud swell.
    let told: Vec<(&str, u64, &str)> = all
        .iter()
        .map(|p| {
            let text = |key| p[key].as_str().unwrap();
            (text("pass"), p["count"].as_u64().unwrap(), text("window"))
        })
        .collect();
    let expected = [
        ("stub", 4, "dormant"),
        ("laterals", 12, "dormant"),
        ("buds", 1, "bud_swell"),
    ];
    assert_eq!(told, expected);
    for pass in &all {
        let trees = pass["trees"].as_array().unwrap();
        let sum: u64 = trees.iter().map(|t| t["count"].as_u64().unwrap()).sum();
        assert_eq!(Some(sum), pass["count"].as_u64());
        for tree in trees {
            let work = tree["work"].as_array().unwrap();
            assert_eq!(Some(work.len() as u64), tree["count"].as_u64());
            assert!(work.iter().all(|w| w["tree"] == tree["tree"]));
        }
        assert!(!pass["cautions"].as_array().unwrap().is_empty());
    }
    // 4 × 18 s, and the way to four trees.
    assert_eq!(all[0]["minutes"], 1.4);
    assert_eq!(all[0]["trees"][0]["bay"], 1);
}

#[test]
fn rates_people_and_diseased_trees_can_be_said() {
    let (row, all) = passes(&["--rate", "stub=60", "--people", "stub=2", "--diseased", "1"]);
    assert_eq!(row["rates"]["stub"], 60.0);
    let stubs: Vec<&Value> = all.iter().filter(|p| p["pass"] == "stub").collect();
    assert_eq!(stubs.len(), 2, "{all:?}");
    // Three at 60 s and three ways of 3.2 s, shared by two.
    assert_eq!(stubs[0]["minutes"], 3.2);
    assert_eq!(stubs[0]["minutes_each"], 1.6);
    assert_eq!(stubs[1]["diseased"], true);
    assert_eq!(stubs[1]["trees"][0]["tree"], 1);
    assert_eq!(all.iter().filter(|p| p["diseased"] == true).count(), 2);
    for wrong in [
        ["--rate", "saw=3"],
        ["--rate", "stub=-1"],
        ["--rate", "stub"],
        ["--people", "stub=0"],
        ["--people", "cook=1"],
        ["--scheme", "None such"],
    ] {
        let (status, _, err) = run(&[&["crew", EXAMPLE], &wrong[..]].concat());
        assert_eq!(status, 2, "{wrong:?}");
        assert!(err.contains("third-leaf.json"), "{err}");
    }
}

#[test]
fn a_leaf_without_work_says_that_it_gets_the_usual_work() {
    let bare = std::fs::read_to_string(EXAMPLE).unwrap();
    let mut plan: Value = serde_json::from_str(&bare).unwrap();
    let scheme = &mut plan["schemes"][0];
    let scheme = scheme.as_object_mut().unwrap();
    scheme.remove("standing");
    scheme.remove("planned");
    scheme.remove("seasons");
    let at = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("usual.json");
    std::fs::write(&at, plan.to_string()).unwrap();
    let at = at.to_str().unwrap();
    let (status, out, err) = run(&["crew", at, "--leaf", "3", "--json"]);
    assert_eq!(status, 0, "{err}");
    let document: Value = serde_json::from_str(&out).unwrap();
    let row = &document["rows"][0];
    assert_eq!(row["usual"], true);
    assert!(!row["passes"].as_array().unwrap().is_empty());
    let (_, out, _) = run(&["crew", at, "--leaf", "3"]);
    assert!(out.contains("leaf 3 has no work in this scheme"), "{out}");
}

fn json(args: &[&str]) -> Value {
    let (status, out, err) = run(args);
    assert_eq!(status, 0, "{err}");
    serde_json::from_str(&out).unwrap()
}

#[test]
fn materials_tell_trees_wires_and_what_they_bear() {
    let delivered = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("delivered.csv");
    std::fs::write(&delivered, "length\n2,30\n1.9 m;headed\n2.1\n").unwrap();
    let args = [
        "materials",
        EXAMPLE,
        "--json",
        "--price",
        "tree=9.5",
        "--price",
        "post=4",
    ];
    let all = json(&[&args[..], &["--currency", "EUR", "--leaf", "3"]].concat());
    let row = &all["rows"][0];
    // Nine places and 5 % to spare; three posts.
    assert_eq!(row["trees"]["order"], 10);
    assert_eq!(row["posts"], 3);
    assert_eq!(row["cost"], 10.0 * 9.5 + 3.0 * 4.0);
    assert_eq!(row["crop_kg_per_m"], 6.0);
    assert_eq!(row["coil_m"], 648.8);
    assert_eq!(row["stretch_mm_per_kn_per_100m"], 101.9);
    assert_eq!(row["wires"].as_array().unwrap().len(), 5);
    // A bud at bud swell and cuts take nothing.
    assert_eq!(row["leaf"]["ties"], 0);
    let at = delivered.to_str().unwrap();
    let (_, out, err) = run(&["materials", EXAMPLE, "--delivered", at]);
    assert!(
        err.is_empty() && out.contains("delivered tree 2"),
        "{out}{err}"
    );
    let placed = json(&["materials", EXAMPLE, "--delivered", at, "--json"]);
    let placed = &placed["rows"][0]["delivered"];
    // Nine places want some 2.2 m: 2.30 m lacks nothing, 2.1 m some 0.1 m, 1.9 m some 0.3 m and its head.
    let lacking = placed["lacking_mm"].as_i64().unwrap();
    assert!((540..=590).contains(&lacking), "{placed}");
    let got = placed["places"].as_array().unwrap();
    let headed: Vec<&Value> = got.iter().filter(|p| p["headed"] == true).collect();
    assert_eq!(headed.len(), 1);
    assert_eq!(headed[0]["delivered"], 2);
    for wrong in [
        ["--price", "saw=1"],
        ["--price", "tree"],
        ["--wire", "0.2"],
        ["--spares", "-5"],
        ["--delivered", "no such file"],
    ] {
        let (status, _, err) = run(&[&["materials", EXAMPLE], &wrong[..]].concat());
        assert_eq!(status, 2, "{wrong:?}: {err}");
    }
}

#[test]
fn schemes_are_compared_by_crop_hours_cuts_and_materials() {
    let lesson = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/lessons/renewal-a-fifth-or-never.json"
    );
    let all = json(&["compare", lesson, "--to", "6", "--json"]);
    let schemes = all["rows"][0]["schemes"].as_array().unwrap();
    assert_eq!(schemes.len(), 2);
    for scheme in schemes {
        let leaves = scheme["leaves"].as_array().unwrap();
        let sum = |key: &str| leaves.iter().map(|l| l[key].as_f64().unwrap()).sum::<f64>();
        assert_eq!(scheme["cuts"].as_f64().unwrap(), sum("cuts"));
        assert_eq!(scheme["pieces"].as_f64().unwrap(), sum("pieces"));
        let hours = scheme["hours"].as_f64().unwrap();
        assert!((hours - sum("minutes") / 60.0).abs() < 0.02, "{scheme}");
        // The crew's own counts are the same.
        for leaf in leaves {
            let number = leaf["leaf"].to_string();
            let name = scheme["name"].as_str().unwrap();
            let crew = json(&[
                "crew", lesson, "--scheme", name, "--leaf", &number, "--json",
            ]);
            let passes = crew["rows"][0]["passes"].as_array().unwrap().clone();
            let count: u64 = passes.iter().map(|p| p["count"].as_u64().unwrap()).sum();
            assert_eq!(
                Some(count),
                leaf["pieces"].as_u64(),
                "{name}, leaf {number}"
            );
        }
    }
    let one = json(&["compare", lesson, "--schemes", "Never", "--json"]);
    assert_eq!(one["rows"][0]["schemes"].as_array().unwrap().len(), 1);
    let (status, _, err) = run(&["compare", lesson, "--schemes", "A fifth,None such"]);
    assert_eq!(status, 2);
    assert!(err.contains("None such"), "{err}");
}

#[test]
fn two_schemes_are_laid_on_one_page() {
    let lesson = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/lessons/renewal-a-fifth-or-never.json"
    );
    let at = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("two-schemes");
    let _ = std::fs::remove_dir_all(&at);
    std::fs::create_dir_all(&at).unwrap();
    let file = |name: &str| at.join(name).display().to_string();
    let asked = ["compare", lesson, "--schemes", "Never,A fifth", "--to", "6"];
    let svg = file("two.svg");
    let told = json(&[&asked[..], &["-o", &svg, "--json"]].concat());
    let row = &told["rows"][0];
    assert_eq!(row["written"].as_array().unwrap().len(), 1);
    let page = std::fs::read_to_string(at.join("two-1.svg")).unwrap();
    // What the page says of hours and cuts is what is printed, in the order in which they were asked for.
    let decimals = |n: &Value| format!("{:.1}", n.as_f64().unwrap());
    let at_of = |name: String, after: usize| {
        let place = page[after..].find(&format!(">{name}<"));
        after + place.unwrap_or_else(|| panic!("{name} stands nowhere"))
    };
    let schemes = row["schemes"].as_array().unwrap();
    let mut place = at_of("Hours to leaf 6, from memory".into(), 0);
    for scheme in schemes {
        place = at_of(decimals(&scheme["hours"]), place);
    }
    place = at_of("Cuts up to leaf 6".into(), place);
    for scheme in schemes {
        place = at_of(scheme["cuts"].to_string(), place);
    }
    // The crop of both is drawn with the range in which it lies.
    assert_eq!(page.matches("class=\"range").count(), 2);
    let (status, _, err) =
        run(&[&asked[..], &["-o", &file("two.pdf"), "--paper", "letter"]].concat());
    assert_eq!(status, 0, "{err}");
    assert!(
        std::fs::read(at.join("two.pdf"))
            .unwrap()
            .starts_with(b"%PDF")
    );
    // One scheme is not two, nor are several rows one.
    let one = [
        "compare",
        lesson,
        "--schemes",
        "Never",
        "-o",
        &file("one.pdf"),
    ];
    assert_eq!(run(&one).0, 2);
    assert!(!at.join("one.pdf").exists());
    let rows = ["compare", lesson, lesson, "-o", &file("rows.pdf")];
    assert_eq!(run(&rows).0, 2);
}

/// Puts a text in the place of every one that somebody may type: names, notes, reasons. How many there are.
fn typed(at: &mut Value, text: &str) -> usize {
    match at {
        Value::Object(fields) => fields
            .iter_mut()
            .map(|(name, value)| match (&**name, &value) {
                ("name" | "note" | "text" | "reason", Value::String(_)) => {
                    *value = text.into();
                    1
                }
                _ => typed(value, text),
            })
            .sum(),
        Value::Array(all) => all.iter_mut().map(|value| typed(value, text)).sum(),
        _ => 0,
    }
}

#[test]
fn sheets_and_a_table_are_written() {
    let at = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("crew-sheets");
    let _ = std::fs::remove_dir_all(&at);
    std::fs::create_dir_all(&at).unwrap();
    let file = |name: &str| at.join(name).to_str().unwrap().to_string();
    let svg = file("crew.svg");
    let told = json(&[
        "crew", EXAMPLE, "--leaf", "3", "-o", &svg, "--paper", "letter", "--json",
    ]);
    let written = told["rows"][0]["written"].as_array().unwrap().clone();
    assert!(written.len() >= 6, "{written:?}");
    let read = |p: &Value| std::fs::read_to_string(p.as_str().unwrap()).unwrap();
    let pages: Vec<String> = written.iter().map(read).collect();
    assert!(pages.iter().all(|p| p.contains("width=\"279.4mm\"")));
    let boxes: usize = pages
        .iter()
        .map(|p| p.matches("\"tick-box\"").count())
        .sum();
    // 17 pieces, and a box a tree on the marking sheet of the stubs.
    assert_eq!(boxes, 17 + 4);
    let csv = file("crew.csv");
    json(&["crew", EXAMPLE, "--leaf", "3", "-o", &csv, "--json"]);
    let table = std::fs::read_to_string(&csv).unwrap();
    assert_eq!(table.lines().count(), 1 + 17);
    assert!(
        table
            .lines()
            .nth(1)
            .unwrap()
            .starts_with("1,stub,dormant,no,1,1,1,stub,\""),
        "{table}"
    );
    // Whatever is typed into a plan, no cell is a formula.
    let mut hostile: Value = serde_json::from_slice(&std::fs::read(EXAMPLE).unwrap()).unwrap();
    assert!(typed(&mut hostile, "=HYPERLINK(\"x\")") > 2);
    let plan = file("typed.json");
    std::fs::write(&plan, hostile.to_string()).unwrap();
    json(&["crew", &plan, "--leaf", "3", "-o", &csv, "--json"]);
    let table = std::fs::read_to_string(&csv).unwrap();
    assert_eq!(table.lines().count(), 1 + 17);
    let cells = table
        .split([',', ';', '\n', '\t'])
        .map(|c| c.trim_matches('"'));
    for cell in cells {
        assert!(!cell.starts_with(['=', '+', '@', '-']), "{cell}");
    }
    let both = ["--language", "en,es", "-o", &csv, "--json"];
    let told = json(&[&["crew", EXAMPLE, "--leaf", "3"], &both[..]].concat());
    assert_eq!(told["rows"][0]["written"].as_array().unwrap().len(), 2);
    let spanish = std::fs::read_to_string(file("crew-es.csv")).unwrap();
    assert!(
        spanish.contains("rebajar a tocón") && !table.contains("tocón"),
        "{spanish}"
    );
    assert_eq!(std::fs::read_to_string(file("crew-en.csv")).unwrap(), table);
    let (status, _, err) = run(&["check", EXAMPLE, "--language", "en,es"]);
    assert_eq!(status, 2, "{err}");
    // All sheets in one file, in each language; its count stands in it, in plain.
    let pdf = file("crew.pdf");
    let told = json(
        &[
            &["crew", EXAMPLE, "--leaf", "3"],
            &["--language", "en,es", "-o", &pdf, "--json"][..],
        ]
        .concat(),
    );
    assert_eq!(
        told["rows"][0]["written"],
        serde_json::json!([file("crew-en.pdf"), file("crew-es.pdf")])
    );
    for language in ["en", "es"] {
        let drawn = file(&format!("drawn-{language}.svg"));
        let told = json(
            &[
                &["crew", EXAMPLE, "--leaf", "3"],
                &["--language", language, "-o", &drawn, "--json"][..],
            ]
            .concat(),
        );
        let written = told["rows"][0]["written"].as_array().unwrap().len();
        let bytes = std::fs::read(file(&format!("crew-{language}.pdf"))).unwrap();
        let holds = |text: &str| bytes.windows(text.len()).any(|w| w == text.as_bytes());
        assert!(
            bytes.starts_with(b"%PDF-") && holds(&format!("/Count {written}")),
            "{language}"
        );
    }
    for wrong in [file("crew.png"), file("crew")] {
        let (status, _, _) = run(&["crew", EXAMPLE, "-o", &wrong]);
        assert_eq!(status, 2, "{wrong}");
    }
    let (status, _, _) = run(&["crew", EXAMPLE, EXAMPLE, "-o", &csv]);
    assert_eq!(status, 2);
}

#[test]
fn a_report_is_written_and_told_in_the_language_that_is_asked_for() {
    let folder = std::env::temp_dir().join(format!("cordonry-report-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = |name: &str| folder.join(name).display().to_string();
    let svg = file("report.svg");
    let asked = [
        "report",
        EXAMPLE,
        "-o",
        &svg,
        "--by",
        "A. <b>",
        "--language",
        "es",
        "--json",
    ];
    let (status, out, err) = run(&asked);
    assert_eq!(status, 0, "{err}");
    let document: Value = serde_json::from_str(&out).unwrap();
    let row = &document["rows"][0];
    assert_eq!(
        (row["leaf"].clone(), row["changes"].clone()),
        (3.into(), 17.into())
    );
    let counts = row["passes"].as_array().unwrap().iter();
    let counts: Vec<u64> = counts.map(|p| p["count"].as_u64().unwrap()).collect();
    assert_eq!(counts, [4, 12, 1]);
    let written = row["written"].as_array().unwrap();
    let read = |page: &Value| std::fs::read_to_string(page.as_str().unwrap()).unwrap();
    let all: String = written.iter().map(read).collect();
    assert!(written.len() > 2 && all.contains("Informe") && all.contains("A. &lt;b&gt;"));
    let (status, _, _) = run(&[
        "report",
        EXAMPLE,
        "-o",
        &file("report.pdf"),
        "--paper",
        "letter",
    ]);
    assert_eq!(status, 0);
    assert!(
        std::fs::read(file("report.pdf"))
            .unwrap()
            .starts_with(b"%PDF-")
    );
    // A leaf before the row was found has none, and nothing else is written than what is asked.
    let early = ["report", EXAMPLE, "-o", &file("early.pdf"), "--leaf", "1"];
    assert_eq!(run(&early).0, 2);
    assert_eq!(run(&["report", EXAMPLE, "-o", &file("report.txt")]).0, 2);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn an_order_and_a_planting_sheet_are_written_as_their_names_say() {
    let folder = std::env::temp_dir().join(format!("cordonry-order-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let at = |name: &str| folder.join(name).display().to_string();
    for (order, planting) in [("o.csv", "p.csv"), ("o.pdf", "p.pdf"), ("o.svg", "p.svg")] {
        let (order, planting) = (at(order), at(planting));
        let args = [
            "materials",
            EXAMPLE,
            "--price",
            "tree=2",
            "-o",
            &order,
            "--planting",
            &planting,
        ];
        let (status, out, err) = run(&args);
        assert_eq!(status, 0, "{out}{err}");
    }
    let read = |name: &str| std::fs::read(folder.join(name)).unwrap();
    let text = |name: &str| String::from_utf8(read(name)).unwrap();
    assert!(text("o.csv").starts_with("item,what,amount,unit,price,cost,currency"));
    let trees = text("o.csv")
        .lines()
        .filter(|l| l.starts_with("tree,"))
        .count();
    assert!(trees >= 1 && text("o.csv").contains(",2,"));
    // A line a place, each with its foot, and the head.
    let places = text("p.csv");
    assert!(
        places.starts_with("tree,foot_m,angle_deg,side,length_m"),
        "{places}"
    );
    let (_, out, _) = run(&["materials", EXAMPLE, "--json"]);
    let told: Value = serde_json::from_str(&out).unwrap();
    let told = told["rows"][0]["trees"]["places"].as_u64().unwrap();
    assert_eq!(places.lines().count() as u64, told + 1);
    assert!(read("o.pdf").starts_with(b"%PDF") && read("p.pdf").starts_with(b"%PDF"));
    assert!(text("o-1.svg").contains("<svg") && text("p-1.svg").contains("<svg"));
    // One row to a file.
    let both = ["materials", EXAMPLE, EXAMPLE, "-o", &at("q.csv")];
    assert_eq!(run(&both).0, 2);
    assert!(!folder.join("q.csv").exists());
    std::fs::remove_dir_all(&folder).unwrap();
}
