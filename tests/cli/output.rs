//! Where commands write, what they need, and the schemas of their JSON.

use super::{CHAIN, byrnie, folder};
use serde_json::Value;
use std::fs;

const VERBS: [&str; 15] = [
    "build", "chart", "count", "explain", "fit", "graph", "lint", "model", "picture", "schema", "settle", "size",
    "steps", "tidy", "weaves",
];

#[test]
fn what_a_command_needs_is_shown_as_needed() {
    let folder = folder(&[]);
    for verb in ["build", "chart", "count", "fit", "graph", "lint", "model", "picture", "settle", "steps", "tidy"] {
        let (code, out, _) = byrnie(folder.path(), &[verb, "--help"]);
        assert!(code == 0 && out.contains(" <FILE>") && !out.contains("[FILE]"), "{out}");
        let (code, out, err) = byrnie(folder.path(), &[verb]);
        assert!(code == 2 && out.is_empty() && err.contains("<FILE>"), "{verb}: {err}");
    }
}

/// One line for each command, which says in the imperative what it does.
#[test]
fn every_command_is_listed_with_what_it_does() {
    let (_, out, _) = byrnie(folder(&[]).path(), &["--help"]);
    let list = out.split("Commands:\n").nth(1).unwrap().split("\n\n").next().unwrap();
    let lines: Vec<(&str, &str)> = list.lines().map(|line| line.trim().split_once(' ').unwrap()).collect();
    assert!(VERBS.iter().all(|verb| lines.iter().any(|(name, _)| name == verb)), "{list}");
    let verbs = ["Check", "Explain", "Tidy", "Count", "Print", "Find", "Convert", "Draw", "Write", "List"];
    for (name, does) in lines {
        let does = does.trim();
        assert!(verbs.contains(&does.split(' ').next().unwrap()) && !does.contains("  "), "{name}: {does}");
    }
}

#[test]
fn the_ending_of_a_drawing_is_its_format() {
    let folder = folder(&[("w.weave", CHAIN)]);
    let read = |name: &str| fs::read(folder.path().join(name)).unwrap();
    for verb in ["chart", "picture"] {
        for name in ["d.svg", "d.png", "D.PNG"] {
            let (code, out, err) = byrnie(folder.path(), &[verb, "w.weave", "-o", name]);
            assert_eq!((code, out.as_str(), err.as_str()), (0, "", ""), "{verb} {name}");
        }
        assert!(read("d.svg").starts_with(b"<svg") && read("d.png").starts_with(b"\x89PNG"), "{verb}");
        assert_eq!(read("d.png"), read("D.PNG"));
    }
    for verb in ["chart", "picture", "fit"] {
        for name in ["d.jpg", "d", "d.svg.txt"] {
            let (code, out, err) = byrnie(folder.path(), &[verb, "w.weave", "-o", name]);
            assert!(code == 2 && out.is_empty() && err.contains(".svg or .png"), "{verb} {name}: {err}");
            assert!(!folder.path().join(name).exists(), "{verb} {name}");
        }
    }
}

#[test]
fn a_hyphen_is_standard_output() {
    let folder = folder(&[("w.weave", CHAIN)]);
    for (verb, start) in [("chart", "<svg"), ("picture", "<svg"), ("steps", "# ")] {
        let (code, out, err) = byrnie(folder.path(), &[verb, "w.weave", "-o", "-"]);
        assert!(code == 0 && err.is_empty() && out.starts_with(start), "{verb}: {out} {err}");
        assert_eq!(byrnie(folder.path(), &[verb, "w.weave"]).1, out, "{verb}");
    }
    // The answer stands aside of the map.
    let (code, out, err) = byrnie(folder.path(), &["fit", "w.weave", "-o", "-"]);
    assert!(code == 0 && out.starts_with("<svg") && err.contains("room"), "{out} {err}");
    assert!(roxmltree::Document::parse(&out).is_ok());
    let mut command = assert_cmd::Command::cargo_bin("byrnie").unwrap();
    let model = command.current_dir(folder.path()).args(["model", "w.weave", "-o", "-"]).output().unwrap();
    assert!(model.status.success() && model.stdout.starts_with(b"glTF"));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "no file is called `-`");
}

#[test]
fn what_the_command_line_asks_for_is_no_example() {
    let open = CHAIN.replace("\nmake\n  repeats 12\n", "");
    let folder = folder(&[("w.weave", CHAIN), ("open.weave", &open)]);
    let heading = |arguments: &[&str]| {
        let (_, out, _) = byrnie(folder.path(), &[&["count"], arguments].concat());
        out.lines().next().unwrap().to_owned()
    };
    let example = "Harbour chain: 8 repeats, as an example: the file does not say how many to make";
    assert_eq!(heading(&["open.weave"]), example);
    assert_eq!(heading(&["open.weave", "--repeats", "8"]), "Harbour chain: 8 repeats");
    assert_eq!(heading(&["w.weave"]), "Harbour chain: 12 repeats");
    assert_eq!(heading(&["w.weave", "--repeats", "30"]), "Harbour chain: 30 repeats");
    // It is not what the text asks for either.
    let (_, out, _) = byrnie(folder.path(), &["count", "w.weave", "--repeats", "30", "--json"]);
    assert_eq!(serde_json::from_str::<Value>(&out).unwrap()["size_asked"], false);
}

#[test]
fn every_schema_is_listed_and_printed() {
    let folder = folder(&[]);
    let (code, list, err) = byrnie(folder.path(), &["schema"]);
    assert_eq!((code, list.lines().count(), err.as_str()), (0, 6, ""));
    for line in list.lines() {
        let (name, what) = line.split_once(' ').unwrap();
        assert!(what.contains(&format!("`byrnie {name}")), "{line}");
        let (code, out, _) = byrnie(folder.path(), &["schema", name]);
        let schema: Value = serde_json::from_str(&out).unwrap();
        assert!(code == 0 && jsonschema::meta::is_valid(&schema) && schema["title"].is_string(), "{name}");
    }
    let (code, out, err) = byrnie(folder.path(), &["schema", "steps"]);
    assert!(code == 2 && out.is_empty() && err.contains("count, fit, graph, lint, settle, weaves"), "{err}");
}
