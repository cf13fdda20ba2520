//! `cordonry link`: a plan as a link and back, and what is no link.

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn run(args: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_cordonry"));
    command.arg("link").args(args).output().unwrap()
}

fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).unwrap();
    path
}

fn example() -> String {
    let home = env!("CARGO_MANIFEST_DIR");
    format!("{home}/../../examples/two-cordons.json")
}

#[test]
fn a_plan_goes_as_a_link_and_comes_back() {
    let at = folder("link");
    let file = |name: &str| at.join(name).to_string_lossy().into_owned();
    let plan = fs::read(example()).unwrap();
    let base = ["--base", "https://cordonry.example/page/#old"];
    let ran = run(&[
        &example(),
        base[0],
        base[1],
        "-o",
        &file("code.svg"),
        "--json",
    ]);
    assert_eq!(ran.status.code(), Some(0), "{ran:?}");
    let told: Value = serde_json::from_slice(&ran.stdout).unwrap();
    let address = told["rows"][0]["link"].as_str().unwrap();
    assert!(
        address.starts_with("https://cordonry.example/page/#plan-1."),
        "{address}"
    );
    assert_eq!(told["rows"][0]["characters"], address.len());
    assert!(
        fs::read_to_string(at.join("code.svg"))
            .unwrap()
            .starts_with("<svg")
    );
    // Without an address it is what stands behind the #.
    let ran = run(&[&example()]);
    let bare = String::from_utf8(ran.stdout).unwrap();
    assert_eq!(address.split_once('#').unwrap().1, bare.trim());
    // As it is, as an address, and out of a file.
    fs::write(at.join("mail.txt"), &bare).unwrap();
    for (n, given) in [address, bare.trim(), &file("mail.txt")].iter().enumerate() {
        let out = file(&format!("{n}.json"));
        let ran = run(&["--open", given, "-o", &out]);
        assert_eq!(ran.status.code(), Some(0), "{ran:?}");
        assert_eq!(fs::read(&out).unwrap(), plan);
    }
}

#[test]
fn what_can_not_be_done_is_told() {
    let at = folder("link-refused");
    let file = |name: &str| at.join(name).to_string_lossy().into_owned();
    let out = file("out.json");
    let cases: [(&[&str], &str); 5] = [
        (&["--open", "plan-1.AAAA", "-o", &out], "cut off"),
        (&["--open", "plan-1.AAAA.end", "-o", &out], "damaged"),
        (&["--open", "plan-9.AAAA.end", "-o", &out], "form 9"),
        (&["--open", "nothing", "-o", &out], "no link"),
        (&[&example(), "-o", &file("code.png")], ".svg"),
    ];
    for (args, says) in cases {
        let ran = run(args);
        assert_eq!(ran.status.code(), Some(2), "{args:?}");
        let why = String::from_utf8(ran.stderr).unwrap();
        assert!(why.contains(says), "{args:?}: {why}");
    }
    assert!(!Path::new(&out).exists());
}
