//! The folders of `src` are floors: each may use only those above it in this list.

use std::collections::BTreeSet;
use std::path::Path;

/// From the top down. `weave` is one file with a folder, `commands` and `cli` are the binary.
const FLOORS: [&str; 17] = [
    "text",
    "report",
    "notation",
    "measure",
    "pattern",
    "rings",
    "settle",
    "weave",
    "library",
    "count",
    "shelf",
    "steps",
    "lint",
    "fit",
    "draw",
    "tutorial",
    "catalogue",
];

/// Every `crate::folder` that the files of a folder name outside of comments.
fn used(at: &Path, found: &mut BTreeSet<(String, String)>) {
    if at.is_dir() {
        return std::fs::read_dir(at).unwrap().for_each(|entry| used(&entry.unwrap().path(), found));
    }
    let text = std::fs::read_to_string(at).unwrap();
    for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
        for rest in line.split("crate::").skip(1) {
            let first =
                |path: &str| path.trim().split(|c: char| !(c.is_alphanumeric() || c == '_')).next().map(str::to_owned);
            let names: Vec<Option<String>> = match rest.strip_prefix('{') {
                Some(several) => several.split(',').map(first).collect(),
                None => vec![first(rest)],
            };
            // The library's own door.
            let door = |name: String| if name == "Weave" { "weave".to_owned() } else { name };
            found.extend(names.into_iter().flatten().map(|name| (door(name), at.display().to_string())));
        }
    }
}

#[test]
fn no_folder_uses_one_below_it() {
    let mut wrong = Vec::new();
    for (floor, folder) in FLOORS.iter().enumerate() {
        let mut found = BTreeSet::new();
        for place in [format!("src/{folder}"), format!("src/{folder}.rs")] {
            let place = Path::new(env!("CARGO_MANIFEST_DIR")).join(place);
            if place.exists() {
                used(&place, &mut found);
            }
        }
        assert!(!found.is_empty() || *folder == "text", "{folder} is not in src");
        let below = |name: &str| FLOORS.iter().position(|f| *f == name).is_none_or(|number| number > floor);
        wrong.extend(
            found.into_iter().filter(|(name, _)| below(name)).map(|(name, file)| format!("{file} uses {name}")),
        );
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_folder_is_a_floor() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let folders = std::fs::read_dir(src).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_dir());
    let names = folders.map(|path| path.file_name().unwrap().to_str().unwrap().to_owned());
    let strange: Vec<String> = names.filter(|n| n != "commands" && !FLOORS.contains(&n.as_str())).collect();
    assert!(strange.is_empty(), "{strange:?} have no place among the floors");
}
