//! `byrnie fit` and `byrnie size` as a person runs them.

use super::{byrnie, example, folder};
use std::fs;

const SHELF: &str = "material,wire,inner,on hand\ncopper,1.6 mm,7 mm,200\nbrass,1.6 mm,9 mm,200\n";

#[test]
fn fit_from_a_shelf() {
    let folder = folder(&[("rings.csv", SHELF), ("bad.csv", "wire,inner\n1.6 mm,7 mm\n1.6,7 mm\n")]);
    let weave = example("half-persian-3-in-1");
    let (code, out, err) = byrnie(folder.path(), &["fit", &weave, "--shelf", "rings.csv"]);
    assert_eq!((code, err.as_str()), (0, ""));
    insta::assert_snapshot!("fit", out);
    // A bad line is named, the rest is answered, and the exit code tells.
    let (code, out, err) = byrnie(folder.path(), &["fit", &weave, "--shelf", "bad.csv"]);
    assert_eq!(code, 1);
    assert!(err.starts_with("bad.csv: line 3, column 1 (wire): `1.6` has no unit;"), "{err}");
    assert!(out.contains("1.6 mm × 7 mm"), "{out}");
    let (code, out, _) = byrnie(folder.path(), &["fit", &weave, "--shelf", "rings.csv", "--json"]);
    assert_eq!(code, 0);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(value["rows"].as_array().unwrap().len(), 2);
    // Nothing fits: said, with exit code 1.
    let (code, out, _) = byrnie(folder.path(), &["fit", &example("half-persian-5-in-1"), "--shelf", "rings.csv"]);
    assert_eq!(code, 1);
    assert!(out.contains("Nothing on the shelf was found to make this weave."), "{out}");
}

#[test]
fn fit_draws_a_map() {
    let folder = folder(&[("rings.csv", SHELF)]);
    let weave = example("half-persian-3-in-1");
    for name in ["map.svg", "map.png"] {
        let (code, out, err) = byrnie(folder.path(), &["fit", &weave, "--shelf", "rings.csv", "-o", name]);
        assert_eq!((code, err.as_str()), (0, ""));
        assert!(out.contains("room"));
    }
    let map = fs::read_to_string(folder.path().join("map.svg")).unwrap();
    assert!(roxmltree::Document::parse(&map).is_ok());
    assert_eq!(fs::read(folder.path().join("map.png")).unwrap().get(..4), Some(b"\x89PNG".as_slice()));
}

#[test]
fn fit_used_wrongly() {
    let folder = folder(&[("none.csv", "1.6 mm,7 mm\n"), ("empty.csv", "")]);
    let weave = example("simple-chain");
    let (code, _, err) = byrnie(folder.path(), &["fit", &weave, "--shelf", "none.csv"]);
    assert_eq!(code, 2);
    assert!(err.starts_with("none.csv: line 1 has no column `wire` and no column `inner`;"), "{err}");
    assert_eq!(byrnie(folder.path(), &["fit", &weave, "--shelf", "empty.csv"]).0, 2);
    assert_eq!(byrnie(folder.path(), &["fit", &weave, "--shelf", "gone.csv"]).0, 2);
    assert_eq!(byrnie(folder.path(), &["fit", "gone.weave"]).0, 2);
    assert_eq!(byrnie(folder.path(), &["fit"]).0, 2);
    // A file of any length is given up on early.
    let huge = folder.path().join("huge.csv");
    fs::File::create(&huge).unwrap().set_len(100 * 1024 * 1024).unwrap();
    let (code, _, err) = byrnie(folder.path(), &["fit", &weave, "--shelf", "huge.csv"]);
    assert_eq!(code, 2);
    assert!(err.contains("longer than 1 MB"), "{err}");
}

#[test]
fn size_says_which_wire_it_is() {
    let folder = folder(&[]);
    let (code, out, err) = byrnie(folder.path(), &["size", "18", "swg"]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.starts_with("18 swg is 1.219 mm"), "{out}");
    let (code, out, _) = byrnie(folder.path(), &["size", "5 mm", "--coil", "sterling"]);
    assert_eq!(code, 0);
    assert!(out.contains("Estimate (makers' measurements)"), "{out}");
    let (code, _, err) = byrnie(folder.path(), &["size", "18", "ga"]);
    assert_eq!(code, 2);
    assert!(err.starts_with("`18 ga` may be 1.02 mm (AWG, American) or 1.22 mm"), "{err}");
}
