//! The program as a person runs it: what it prints, what it writes, how it ends.

mod fit;
mod fix;
mod output;

use assert_cmd::Command;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

pub fn byrnie(folder: &Path, arguments: &[&str]) -> (i32, String, String) {
    let output = Command::cargo_bin("byrnie").unwrap().current_dir(folder).args(arguments).output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
}

pub fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

pub const CHAIN: &str = "weave \"Harbour chain\"\n\nring a main, closed\nring b main, open\n\nrepeat n\n  b[n] down a[n], a[n+1]\n\nends\n  drop b[last]\n\nmake\n  repeats 12\n";
pub const WRONG: &str = "weave \"Harbour chain\"\nring a main, closed\nring b main, open\nrepeat n\n  b[n] dwon a[n], a[n+1]\nends\n  drop b[last]\n";

fn example(name: &str) -> String {
    format!("{}/examples/{name}.weave", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn build_checks_counts_and_draws() {
    let folder = folder(&[]);
    let (code, out, err) = byrnie(folder.path(), &["build", &example("tideline-bracelet")]);
    assert_eq!((code, err.as_str()), (0, ""));
    insta::assert_snapshot!("build", out);
    let chart = fs::read_to_string(folder.path().join("out/tideline-bracelet-chart.svg")).unwrap();
    assert!(roxmltree::Document::parse(&chart).is_ok());
    let picture = fs::read_to_string(folder.path().join("out/tideline-bracelet-picture.svg")).unwrap();
    assert!(roxmltree::Document::parse(&picture).is_ok());
}

#[test]
fn build_draws_nothing_of_a_broken_weave() {
    let folder = folder(&[("w.weave", "ring a\nrepeat n\na[n] through")]);
    let (code, out, _) = byrnie(folder.path(), &["build", "w.weave"]);
    assert_eq!(code, 1);
    assert!(out.contains("nothing is counted or drawn"), "{out}");
    assert!(!folder.path().join("out").exists());
}

#[test]
fn lint_in_its_three_forms() {
    let folder = folder(&[("w.weave", WRONG), ("ok.weave", CHAIN)]);
    let (code, drawn, _) = byrnie(folder.path(), &["lint", "w.weave"]);
    assert_eq!(code, 1);
    insta::assert_snapshot!("lint_terminal", drawn);
    let (_, plain, _) = byrnie(folder.path(), &["lint", "w.weave", "--format", "plain"]);
    insta::assert_snapshot!("lint_plain", plain);
    let (code, json, _) = byrnie(folder.path(), &["lint", "w.weave", "ok.weave", "--format", "json"]);
    assert_eq!(code, 1);
    let value: serde_json::Value = serde_json::from_str(&json).unwrap();
    insta::assert_json_snapshot!("lint_json", value);
    let (code, out, err) = byrnie(folder.path(), &["lint", "ok.weave"]);
    assert_eq!((code, out.as_str(), err.as_str()), (0, "Harbour chain: nothing to mend\n", ""));
}

#[test]
fn a_fault_in_a_base_beside_the_file_is_shown_there() {
    let folder = folder(&[("harbour-chain.weave", WRONG), ("w.weave", "weave \"x\"\nbase \"Harbour chain\"\n")]);
    let (code, out, _) = byrnie(folder.path(), &["lint", "w.weave", "--format", "plain"]);
    assert_eq!(code, 1);
    assert!(out.starts_with("harbour-chain.weave:5:8: error[misspelled-word]"), "{out}");
    let (code, out, _) = byrnie(folder.path(), &["lint", "w.weave"]);
    assert_eq!(code, 1);
    assert!(out.contains("harbour-chain.weave:5:8"), "{out}");
}

#[test]
fn no_base_leads_out_of_the_folder_and_none_stands_on_itself() {
    let folder = folder(&[
        ("up.weave", "base \"../secret.weave\"\nring a\n"),
        ("one.weave", "base \"two.weave\"\n"),
        ("two.weave", "base \"one.weave\"\n"),
    ]);
    let (code, out, _) = byrnie(folder.path(), &["lint", "up.weave", "--format", "plain"]);
    assert_eq!(code, 1);
    assert!(out.contains("lies in the same folder"), "{out}");
    let (code, out, _) = byrnie(folder.path(), &["lint", "one.weave", "--format", "plain"]);
    assert_eq!(code, 1);
    assert!(out.contains("leads back to this weave"), "{out}");
}

#[test]
fn what_cannot_be_read_is_said_plainly() {
    let folder = folder(&[("empty.weave", ""), ("notes.weave", "# nothing yet\n\n")]);
    fs::write(folder.path().join("latin.weave"), b"weave \"K\xFCste\"\n").unwrap();
    fs::write(folder.path().join("huge.weave"), vec![b'a'; 50_000_000]).unwrap();
    fs::create_dir(folder.path().join("folder.weave")).unwrap();
    let mut shown = String::new();
    for file in ["empty", "notes", "latin", "huge", "folder", "missing"] {
        let (code, out, err) = byrnie(folder.path(), &["lint", &format!("{file}.weave")]);
        assert_eq!((code, out.as_str()), (2, ""), "{file}");
        shown += &err;
    }
    insta::assert_snapshot!("unreadable_files", shown);
    // One file that cannot be read does not keep the others from being checked.
    fs::write(folder.path().join("w.weave"), WRONG).unwrap();
    let (code, out, _) = byrnie(folder.path(), &["lint", "missing.weave", "w.weave", "--format", "plain"]);
    assert!(code == 2 && out.contains("misspelled-word"), "{code} {out}");
    assert_eq!(byrnie(folder.path(), &["lint"]).0, 2);
    assert_eq!(byrnie(folder.path(), &["wave", "x"]).0, 2);
    assert_eq!(byrnie(folder.path(), &["--help"]).0, 0);
}

#[test]
fn tidy_rewrites_checks_and_leaves_alone_what_it_cannot_read() {
    let untidy = CHAIN.replace("  b[n] down a[n], a[n+1]", "b[ n ]   DOWN a[n] ,a[n + 1]# yes");
    let folder = folder(&[("w.weave", &untidy), ("bad.weave", WRONG), ("ok.weave", CHAIN)]);
    let read = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    let (code, out, _) = byrnie(folder.path(), &["tidy", "--check", "ok.weave", "w.weave"]);
    assert_eq!((code, out.as_str(), read("w.weave")), (1, "w.weave: not tidy\n", untidy));
    assert_eq!(byrnie(folder.path(), &["tidy", "w.weave", "ok.weave"]).0, 0);
    assert_eq!(read("w.weave"), CHAIN.replace("a[n+1]", "a[n+1]  # yes"));
    assert_eq!(byrnie(folder.path(), &["tidy", "--check", "w.weave"]).0, 0);
    let (code, _, err) = byrnie(folder.path(), &["tidy", "bad.weave"]);
    assert_eq!((code, read("bad.weave").as_str()), (1, WRONG));
    assert!(err.contains("mend this first"), "{err}");
    let leftovers = fs::read_dir(folder.path()).unwrap().count();
    assert_eq!(leftovers, 3, "no temporary file is left behind");
    let piped = Command::cargo_bin("byrnie").unwrap().args(["tidy", "-"]).write_stdin("ring a").output().unwrap();
    assert_eq!(String::from_utf8(piped.stdout).unwrap(), "ring a main, open\n");
}

#[test]
fn tidy_knows_bases_beside_the_file() {
    let untidy = "base \"Harbour chain\"\nring c accent\naccent every 2, from 1\nc[n] down a[n]\nends\ndrop c[1]\n";
    let folder = folder(&[("harbour-chain.weave", CHAIN), ("w.weave", untidy)]);
    assert_eq!(byrnie(folder.path(), &["tidy", "w.weave"]).0, 0);
    let text = fs::read_to_string(folder.path().join("w.weave")).unwrap();
    assert!(text.contains("accent every 2, from 1\n  c[n] down a[n]\n\nends\n  drop c[1]\n"), "{text}");
}

#[test]
fn a_long_name_makes_a_file_all_the_same() {
    let folder = folder(&[("w.weave", &CHAIN.replace("Harbour chain", &"very long ".repeat(60)))]);
    assert_eq!(byrnie(folder.path(), &["build", "w.weave"]).0, 0);
}

#[cfg(unix)]
#[test]
fn tidy_keeps_permissions_and_follows_links() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder(&[("w.weave", "ring a")]);
    let file = folder.path().join("w.weave");
    fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
    std::os::unix::fs::symlink(&file, folder.path().join("link.weave")).unwrap();
    assert_eq!(byrnie(folder.path(), &["tidy", "link.weave"]).0, 0);
    assert!(folder.path().join("link.weave").is_symlink());
    assert_eq!(fs::read_to_string(&file).unwrap(), "ring a main, open\n");
    assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o640);
}

#[test]
fn count_takes_a_size_and_prints_both_forms() {
    let folder = folder(&[("w.weave", CHAIN)]);
    let (code, out, _) = byrnie(folder.path(), &["count", "w.weave", "--repeats", "30"]);
    assert_eq!(code, 0);
    assert!(out.contains("59 rings: 29 open, 30 closed"), "{out}");
    let (_, json, _) = byrnie(folder.path(), &["count", "w.weave", "--json"]);
    let value: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!((value["rings"].as_u64(), value["closed"].as_u64()), (Some(23), Some(12)));
    for wrong in [["--rows", "3"], ["--repeats", "0"], ["--repeats", "3000000"]] {
        let (code, _, err) = byrnie(folder.path(), &["count", "w.weave", wrong[0], wrong[1]]);
        assert_eq!(code, 2, "{wrong:?}: {err}");
    }
}

#[test]
fn graph_chart_weaves_and_explain() {
    let folder = folder(&[("w.weave", CHAIN), ("bad.weave", "ring a\nrepeat n\na[n] down x[n-1]")]);
    let (code, out, _) = byrnie(folder.path(), &["graph", "w.weave"]);
    assert_eq!(code, 0);
    assert_eq!(serde_json::from_str::<serde_json::Value>(&out).unwrap()["rings"].as_array().unwrap().len(), 23);
    let (code, out, _) = byrnie(folder.path(), &["graph", "w.weave", "--one-repeat", "--dot"]);
    assert!(code == 0 && out.starts_with("graph \"Harbour chain\" {"), "{out}");
    for command in ["graph", "chart", "count"] {
        let (code, out, err) = byrnie(folder.path(), &[command, "bad.weave"]);
        assert_eq!((code, out.as_str()), (1, ""), "{command}");
        assert!(err.contains("unknown-ring"), "{err}");
    }
    assert_eq!(byrnie(folder.path(), &["chart", "w.weave", "-o", "c.svg"]).0, 0);
    assert!(fs::read_to_string(folder.path().join("c.svg")).unwrap().starts_with("<svg"));
    let (code, _, err) = byrnie(folder.path(), &["chart", "w.weave", "-o", "no/such/folder/c.svg"]);
    assert_eq!(code, 2, "{err}");
    let (code, out, _) = byrnie(folder.path(), &["weaves"]);
    assert!(code == 0 && out.contains("half Persian 3-in-1\n"), "{out}");
    let (code, out, _) = byrnie(folder.path(), &["weaves", "half Persian 3-in-1"]);
    assert!(code == 0 && out.contains("through eye(a[n], a[n+1])"), "{out}");
    let (code, _, err) = byrnie(folder.path(), &["weaves", "half Persain 3-in-1"]);
    assert!(code == 2 && err.contains("did you mean `half Persian 3-in-1`?"), "{err}");
    let (code, out, err) = byrnie(folder.path(), &["weaves", "--charts", "charts"]);
    assert_eq!((code, out.as_str(), err.as_str()), (0, "", ""));
    let drawn = fs::read_dir(folder.path().join("charts")).unwrap().count();
    assert_eq!(drawn, byrnie::Library::weaves().len());
    let (code, _, err) = byrnie(folder.path(), &["weaves", "box chain", "--table"]);
    assert!(code == 2 && err.contains("cannot be used with"), "{err}");
    let (code, out, _) = byrnie(folder.path(), &["explain", "no-eye"]);
    assert!(code == 0 && out.starts_with("# no-eye"));
    let (code, _, err) = byrnie(folder.path(), &["explain", "no-eyes"]);
    assert!(code == 2 && err.contains("`no-eye`"), "{err}");
    let (code, out, _) = byrnie(folder.path(), &["explain"]);
    assert!(code == 0 && out.lines().count() == byrnie::lint::RULES.len());
}

#[test]
fn pictures_are_written_as_svg_and_as_png() {
    let folder = folder(&[("w.weave", SIZED), ("small.weave", &SIZED.replace("7 mm", "5 mm"))]);
    let run =
        |arguments: &[&str]| byrnie(folder.path(), &[&["picture", "w.weave", "--repeats", "3"], arguments].concat());
    let (code, out, err) = run(&[]);
    assert!(code == 0 && err.is_empty() && out.starts_with("<svg"), "{err}");
    assert_eq!(run(&["--from", "edge", "--look", "outline", "--fit", "80x60", "-o", "p.png"]).0, 0);
    let png = fs::read(folder.path().join("p.png")).unwrap();
    assert!(png.starts_with(b"\x89PNG"));
    // 80 mm at 300 dots to an inch.
    assert_eq!(u32::from_be_bytes(png[16..20].try_into().unwrap()), 945);
    let (code, out, _) = run(&["--scale", "1:1", "--turn", "-30", "--tilt", "20"]);
    assert!(code == 0 && out.contains("turned by -30 and tilted by 20 degrees"), "{out}");
    for wrong in [["--scale", "0:1"], ["--fit", "80"], ["--turn", "900"], ["--from", "above"]] {
        let (code, out, err) = run(&wrong);
        assert!(code == 2 && out.is_empty() && !err.is_empty(), "{wrong:?}");
    }
    let (code, out, err) = byrnie(folder.path(), &["picture", "small.weave"]);
    assert!(code == 1 && out.is_empty() && err.contains("does not close"), "{err}");
}

/// Words are drawn in PNG as well, in the font that comes with the program.
#[test]
fn words_are_called_out_in_svg_and_png() {
    let folder = folder(&[("w.weave", SIZED)]);
    let run = |arguments: &[&str]| {
        byrnie(folder.path(), &[&["picture", "w.weave", "--repeats", "4", "--fit", "80x60"], arguments].concat())
    };
    let (code, out, err) = run(&["--call-out", "ar"]);
    assert!(code == 0 && err.is_empty() && out.contains("AR 4.38 = 7 mm ÷ 1.6 mm"), "{out} {err}");
    assert_eq!(run(&["--call-out", "ar", "-o", "p.png"]).0, 0);
    let pixels = resvg::tiny_skia::Pixmap::load_png(folder.path().join("p.png")).unwrap();
    // The words stand in the uppermost 7 mm, over all else.
    let inked = |from: u32, to: u32| {
        let [from, to] = [from, to].map(|mm| mm * 300 * 10 / 254);
        (from..to)
            .flat_map(|y| (0..pixels.width()).map(move |x| (x, y)))
            .filter(|(x, y)| pixels.pixel(*x, *y).unwrap().red() < 90)
            .count()
    };
    assert!(inked(0, 7) > 400, "{}", inked(0, 7));
    for (wrong, code_wanted) in
        [(["--call-out", "lean", "--from", "back"], 1), (["--call-out", "nose", "--from", "back"], 2)]
    {
        let (code, out, err) = run(&wrong);
        assert!(code == code_wanted && out.is_empty() && !err.is_empty(), "{wrong:?} {err}");
    }
}

/// Pictures have the numbers of the instructions: 1 closes rings, 2 threads them, 5 is a repeat, 7 counts.
#[test]
fn every_step_that_adds_a_ring_is_pictured() {
    let folder = folder(&[("w.weave", SIZED)]);
    let run = |arguments: &[&str]| byrnie(folder.path(), &[&["picture", "w.weave"], arguments].concat());
    let (code, out, err) = run(&["--step", "4", "--repeats", "12"]);
    assert!(code == 0 && err.is_empty() && out.contains(">step 4</text>") && out.contains(">b2 is added"), "{err}");
    for step in ["1", "5", "40"] {
        let (code, out, err) = run(&["--step", step, "--repeats", "12"]);
        assert!(code == 2 && out.is_empty() && err.contains("these steps do: 3, 4, 6"), "{err}");
    }
    let (code, out, err) = run(&["--steps", "frames", "--repeats", "12"]);
    assert_eq!((code, out.as_str(), err.as_str()), (0, "3 pictures in frames\n", ""));
    let mut there: Vec<String> = fs::read_dir(folder.path().join("frames"))
        .unwrap()
        .map(|f| f.unwrap().file_name().into_string().unwrap())
        .collect();
    there.sort();
    assert_eq!(there, ["harbour-band-step-3.svg", "harbour-band-step-4.svg", "harbour-band-step-6.svg"]);
    // They are those that the instructions link to.
    let steps = ["steps", "w.weave", "--repeats", "12", "--pictures", "linked"];
    let (code, text, err) = byrnie(folder.path(), &steps);
    assert!(code == 0 && err.is_empty(), "{err}");
    let linked: Vec<&str> = text.split("](linked/").skip(1).map(|rest| rest.split(')').next().unwrap()).collect();
    assert_eq!(linked, there);
    let (code, _, err) = run(&["--steps", "more", "--step", "2"]);
    assert!(code == 2 && !err.is_empty());
}

#[test]
fn instructions_are_written_with_their_pictures() {
    let folder = folder(&[("w.weave", SIZED), ("closed.weave", "ring a, b closed\nrepeat n\nb[n] down a[n]\n")]);
    let run =
        |arguments: &[&str]| byrnie(folder.path(), &[&["steps", "w.weave", "--repeats", "60"], arguments].concat());
    let (code, out, err) = run(&[]);
    assert!(code == 0 && err.is_empty() && out.contains("until b59 is closed.") && !out.contains("!["), "{out} {err}");
    let (code, out, err) = run(&["-o", "steps.md", "--pictures", "frames"]);
    assert_eq!((code, out.as_str(), err.as_str()), (0, "", ""));
    let text = fs::read_to_string(folder.path().join("steps.md")).unwrap();
    let links: Vec<&str> = text.split("](").skip(1).map(|l| l.split(')').next().unwrap()).collect();
    assert_eq!(links.len(), 3, "{text}");
    for link in links {
        let drawn = fs::read_to_string(folder.path().join(link)).unwrap();
        // Of a short piece: the rings are large.
        assert!(roxmltree::Document::parse(&drawn).is_ok() && drawn.matches("data-ring").count() < 60, "{link}");
    }
    let work = byrnie::steps::follow(&byrnie::steps::read(&text), Some(byrnie::steps::Letters::default()));
    assert!(work.faults.is_empty() && work.unread.is_empty(), "{:?}", work.faults);
    let (code, out, err) = byrnie(folder.path(), &["steps", "closed.weave"]);
    assert!(code == 1 && out.is_empty() && err.contains("one must be open"), "{err}");
}

#[test]
fn tutorials_are_checked_with_the_weave_in_them_or_beside_them() {
    let steps = "\n1. Thread a1 and a2 on a tie. Mind the cat.\n2. Open b1. Go down through a1 and a2. Close b1.\n3. Open b2. Pick up a3. Go down through a1 and a3. Close b2.\n";
    let fence = format!("# Band\n\n```weave\n{CHAIN}```\n{steps}");
    let files = [
        ("chain.weave", CHAIN),
        ("fence.md", fence.as_str()),
        ("beside.md", &format!("# Band\n\nMade from `chain.weave`.\n{steps}")),
        ("known.md", &format!("# Simple chain\n{steps}")),
        ("none.md", &format!("# Band\n{steps}")),
        ("slip.md", &fence.replace("b[n] down", "b[n] dwon")),
        ("broken.md", &fence.replace("b[n] down a[n], a[n+1]", "b[n] through")),
        ("away.md", &format!("# Band\n\n[weave](../chain.weave)\n{steps}")),
    ];
    let folder = folder(&files);
    let run = |arguments: &[&str]| byrnie(folder.path(), &[&["lint", "--format", "plain"], arguments].concat());
    for (file, line) in [("fence.md", 21), ("beside.md", 7), ("known.md", 5)] {
        let (code, out, err) = run(&[file]);
        assert!(
            code == 1
                && err.is_empty()
                && out.starts_with(&format!(
                    "{file}:{line}:25: error[step-wrong-ring]: step 3, “Go down through a1 and a3”: b2 goes through a1"
                )),
            "{out} {err}"
        );
        assert!(out.ends_with("1 of 9 sentences in its steps could not be read; --unread lists them\n"), "{out}");
    }
    let (_, out, _) = run(&["known.md", "--unread"]);
    assert!(out.ends_with("known.md:3:31: not read: Mind the cat.\n"), "{out}");
    // A slip in the weave is mended and found in its place; where the weave is broken, no step is blamed.
    let (code, out, _) = run(&["slip.md"]);
    assert!(
        code == 1 && out.contains("slip.md:10:8: error[misspelled-word]") && out.contains("step-wrong-ring"),
        "{out}"
    );
    let (code, out, _) = run(&["broken.md"]);
    assert!(code == 1 && out.contains("broken.md:10:") && !out.contains("step-"), "{out}");
    for (file, says) in [("none.md", "fence marked `weave`"), ("away.md", "same folder")] {
        let (code, out, err) = run(&[file]);
        assert!(code == 2 && out.is_empty() && err.contains(says), "{out} {err}");
    }
    let (code, out, _) = byrnie(folder.path(), &["lint", "fence.md", "chain.weave", "--format", "json"]);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert!(
        code == 1 && value["findings"].as_array().unwrap().len() == 1 && value["findings"][0]["fix"].is_object(),
        "{out}"
    );
    let (code, drawn, _) = byrnie(folder.path(), &["lint", "fence.md"]);
    assert_eq!(code, 1);
    insta::assert_snapshot!("lint_tutorial", drawn);
    // What `steps` writes has nothing wrong with it.
    let (_, told, _) = byrnie(folder.path(), &["steps", &example("half-persian-3-in-1")]);
    fs::write(folder.path().join("told.md"), told).unwrap();
    let (code, out, _) = run(&["told.md"]);
    assert_eq!((code, out.as_str()), (0, "told.md: nothing to mend\n"));
    let (code, out, _) = run(&[concat!(env!("CARGO_MANIFEST_DIR"), "/examples/saturday-bracelet.md")]);
    assert!(code == 0 && out.contains("nothing to mend"), "{out}");
}

#[test]
fn models_are_written_as_binary_gltf() {
    let folder = folder(&[("w.weave", SIZED), ("small.weave", &SIZED.replace("7 mm", "5 mm"))]);
    let run = |arguments: &[&str]| byrnie(folder.path(), &[&["model", "w.weave"], arguments].concat());
    let (code, out, err) = run(&["--repeats", "3", "-o", "w.glb"]);
    assert_eq!((code, out.as_str(), err.as_str()), (0, "", ""));
    let read = gltf::Gltf::open(folder.path().join("w.glb")).unwrap();
    assert_eq!(read.nodes().filter(|n| n.mesh().is_some()).count(), 6);
    let (code, out, err) = run(&["-o", "w.obj"]);
    assert!(code == 2 && out.is_empty() && err.contains("`-o w.glb`"), "{err}");
    assert!(!folder.path().join("w.obj").exists());
    // Without a name for the file, and for a sheet's size, there is nothing to do either.
    for wrong in [&[][..], &["-o", "w.glb", "--rows", "3"], &["-o", "no/such/folder/w.glb", "--repeats", "3"]] {
        let (code, out, err) = run(wrong);
        assert!(code == 2 && out.is_empty() && !err.is_empty(), "{wrong:?}");
    }
    let (code, _, err) = run(&["-o", "w.glb", "--repeats", "900000"]);
    assert!(code == 1 && err.contains("holds up to 100000"), "{err}");
    let (code, out, err) = byrnie(folder.path(), &["model", "small.weave", "-o", "small.glb"]);
    assert!(code == 1 && out.is_empty() && err.contains("does not close"), "{err}");
}

const SIZED: &str =
    "weave \"Harbour band\"\nbase \"half Persian 3-in-1\"\nrings\n  main wire 1.6 mm, inner 7 mm, copper\n";

#[test]
fn settle_prints_both_forms_and_ends_as_it_found() {
    let small = SIZED.replace("7 mm", "5.6 mm");
    let bad = "ring a\nrepeat n\na[n] down x[n-1]";
    let folder = folder(&[("w.weave", SIZED), ("small.weave", &small), ("bad.weave", bad), ("one.weave", "ring a\n")]);
    let (code, out, err) = byrnie(folder.path(), &["settle", "w.weave"]);
    assert_eq!((code, err.as_str()), (0, ""));
    insta::assert_snapshot!("settle", out);
    let (code, out, _) = byrnie(folder.path(), &["settle", "w.weave", "--json"]);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &value["closes"], &value["lean"]), (0, &true.into(), &"left".into()));
    // What does not close is something found, and is printed all the same.
    let (code, out, err) = byrnie(folder.path(), &["settle", "small.weave"]);
    assert_eq!((code, err.as_str()), (1, ""));
    insta::assert_snapshot!("settle_too_small", out);
    let (code, out, _) = byrnie(folder.path(), &["settle", "small.weave", "--json"]);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &value["closes"], &value["pose"]), (1, &false.into(), &serde_json::Value::Null));
    // What cannot be settled goes to standard error.
    for (file, says) in [("bad.weave", "unknown-ring"), ("one.weave", "no linked rings")] {
        let (code, out, err) = byrnie(folder.path(), &["settle", file]);
        assert!(code == 1 && out.is_empty() && err.contains(says), "{file}: {code} {err}");
    }
    for wrong in [&["settle", "missing.weave"][..], &["settle"], &["settle", "--schema"]] {
        assert_eq!(byrnie(folder.path(), wrong).0, 2, "{wrong:?}");
    }
    let piped = Command::cargo_bin("byrnie").unwrap().args(["settle", "-"]).write_stdin(SIZED).output().unwrap();
    assert!(piped.status.success());
}

#[test]
fn a_length_alone_says_how_many() {
    let text = format!("{SIZED}make\n  length 190 mm, clasp 18 mm\n");
    let folder = folder(&[("w.weave", &text)]);
    let (code, out, _) = byrnie(folder.path(), &["count", "w.weave"]);
    assert!(code == 0 && out.contains("Computed: a pitch of "), "{out}");
    let (_, json, _) = byrnie(folder.path(), &["count", "w.weave", "--json"]);
    let value: serde_json::Value = serde_json::from_str(&json).unwrap();
    let (repeats, pitch) = (value["repeats"].as_f64().unwrap(), value["length"]["computed_pitch_mm"].as_f64().unwrap());
    assert!((repeats * pitch - 172.0).abs() <= pitch / 2.0, "{repeats} {pitch}");
    assert_eq!((&value["size_asked"], &value["length"]["by"]), (&true.into(), &"computed".into()));
    // A number on the command line counts before it.
    let (_, out, _) = byrnie(folder.path(), &["count", "w.weave", "--repeats", "5"]);
    assert!(out.starts_with("Harbour band: 5 repeats\n"), "{out}");
}
