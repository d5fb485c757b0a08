//! `byrnie lint --fix`: what it mends, what it leaves alone, and that no text is lost.

use super::{CHAIN, WRONG, byrnie, folder};
use assert_cmd::Command;
use std::fs;
use std::path::Path;

fn read(folder: &Path, name: &str) -> String {
    fs::read_to_string(folder.join(name)).unwrap()
}

#[test]
fn what_is_plainly_meant_is_mended_and_the_rest_is_shown() {
    let both = WRONG.replace("ring b main", "ring b mian");
    let both = format!("{both}rings\n  main wire 1.6 mm, inner 7 mm, copper\n");
    let folder = folder(&[("w.weave", &both), ("slip.weave", WRONG), ("ok.weave", CHAIN)]);
    let (code, out, err) = byrnie(folder.path(), &["lint", "--fix", "slip.weave", "ok.weave"]);
    assert_eq!(
        (code, out.as_str(), err.as_str()),
        (
            0,
            "slip.weave: 1 mended: line 5: write `down`\nHarbour chain: nothing to mend\nHarbour chain: nothing to mend\n",
            ""
        )
    );
    let mended = WRONG.replace("dwon", "down");
    assert_eq!((read(folder.path(), "slip.weave"), read(folder.path(), "ok.weave")), (mended, CHAIN.to_owned()));
    // Which kind a ring is of is for the maker to say, however likely.
    let (code, out, _) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "--format", "plain"]);
    assert!(
        code == 1 && out.starts_with("w.weave: 1 mended: line 5: write `down`\nw.weave:3:8: warning[unknown-kind]")
    );
    assert_eq!(read(folder.path(), "w.weave"), both.replace("dwon", "down"));
    // Once more does nothing.
    let (code, again, _) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "--format", "plain"]);
    assert_eq!((code, again.as_str()), (1, out.split_once('\n').unwrap().1));
    assert_eq!(read(folder.path(), "w.weave"), both.replace("dwon", "down"));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 3, "no temporary file is left behind");
}

/// What goes in and what comes out; the same where it is left alone.
const TABLE: &[(&str, &str)] = &[
    // Said so by makers.
    ("ring a, b\nrepeat n\n  b[n] thru eye(a[n], a[n+1])\n", "ring a, b\nrepeat n\n  b[n] through eye(a[n], a[n+1])\n"),
    // One slip from two words: `under` and `inner`.
    ("ring a, b\nrepeat n\n  b[n] inder a[n]\n", "ring a, b\nrepeat n\n  b[n] inder a[n]\n"),
    // A heading and an end.
    (
        "ring a, b\nrepaet n\n  b[n] down a[n], a[n+1]\nends\n  drop b[lsat]\n",
        "ring a, b\nrepeat n\n  b[n] down a[n], a[n+1]\nends\n  drop b[last]\n",
    ),
    // The only index there is, and the index of the base; a comment stays as it is.
    (
        "ring a, b\nrepeat n\n  b[m] down a[n], a[m+1] # dwon\n",
        "ring a, b\nrepeat n\n  b[n] down a[n], a[n+1] # dwon\n",
    ),
    (
        "base \"simple chain\"\nring c\nrepeat k\n  c[k] down a[k]\n",
        "base \"simple chain\"\nring c\nrepeat n\n  c[n] down a[n]\n",
    ),
    // Row and column the wrong way about: perhaps the names are meant, perhaps the places.
    (
        "ring a, b\nrepeat row r, column c\n  b[r,c] down a[r,c], a[c+1,r]\n",
        "ring a, b\nrepeat row r, column c\n  b[r,c] down a[r,c], a[c+1,r]\n",
    ),
    (
        "base \"Japanese 4-in-1 sheet\"\nring e\nrepeat row x, column r\n  e[x,r] down a[x,r]\n",
        "base \"Japanese 4-in-1 sheet\"\nring e\nrepeat row x, column r\n  e[x,r] down a[x,r]\n",
    ),
    (
        "base \"simple chain\"\nrepeat row r, column c # mine\n",
        "base \"simple chain\"\nrepeat row r, column c # mine\n",
    ),
    ("base \"simple chain\"\nrepeat k # mine\n", "base \"simple chain\"\nrepeat n # mine\n"),
    // A line in which other faults come to light once it can be read is left alone, and the others are mended.
    (
        "ring a, b, c\nrepeat n\n  b[n] dwon a[n], dwon a[n+1], dwon a[n+2], dwon a[n+3], dwon x[n]\n  c[n] dwon a[n]\n",
        "ring a, b, c\nrepeat n\n  b[n] dwon a[n], dwon a[n+1], dwon a[n+2], dwon a[n+3], dwon x[n]\n  c[n] down a[n]\n",
    ),
    // A ring without its place, a ring nobody declares, a unit where none belongs: a choice.
    ("ring a, b\nrepeat n\n  b[n] down a, a[n+1]\n", "ring a, b\nrepeat n\n  b[n] down a, a[n+1]\n"),
    ("ring left, b\nrepeat n\n  b[n] down lfet[n]\n", "ring left, b\nrepeat n\n  b[n] down lfet[n]\n"),
    (
        "base \"simple chain\"\nrings\n  main wire 1.6 mm, AR 5.9 mm, coper\n",
        "base \"simple chain\"\nrings\n  main wire 1.6 mm, AR 5.9 mm, coper\n",
    ),
];

#[test]
fn only_what_is_safe_is_mended_and_to_the_byte() {
    for (wrong, right) in TABLE {
        // As it is, with line ends of another system, and with a byte-order mark.
        for form in [|t: &str| t.to_owned(), |t: &str| t.replace('\n', "\r\n"), |t: &str| format!("\u{FEFF}{t}")] {
            let folder = folder(&[("w.weave", &form(wrong))]);
            let (code, out, err) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "--format", "plain"]);
            assert!(code < 2 && err.is_empty(), "{wrong}{out}{err}");
            assert_eq!(read(folder.path(), "w.weave"), form(right), "{out}");
            assert_eq!(out.contains(" mended: line "), wrong != right, "{out}");
            byrnie(folder.path(), &["lint", "--fix", "w.weave"]);
            assert_eq!(read(folder.path(), "w.weave"), form(right), "once more: {out}");
        }
    }
}

#[test]
fn files_that_were_not_named_are_left_alone() {
    let files = [("harbour-chain.weave", WRONG), ("w.weave", "weave \"x\"\nbase \"Harbour chain\"\n")];
    let folder = folder(&files);
    let (code, out, _) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "--format", "plain"]);
    assert!(code == 1 && out.starts_with("harbour-chain.weave:5:8: error[misspelled-word]"), "{out}");
    assert_eq!(read(folder.path(), "harbour-chain.weave"), WRONG);
    // All are mended before any is checked.
    let (code, out, _) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "harbour-chain.weave"]);
    assert!(code == 0 && out.starts_with("harbour-chain.weave: 1 mended"), "{out}");
    assert_eq!(read(folder.path(), "w.weave"), files[1].1);
}

#[test]
fn the_weave_in_a_tutorial_is_mended_and_its_steps_are_not() {
    let steps = "\n1. Thread a1 and a2 on a tie.\n2. Open b1. Go down through a1 and a2. Close b1.\n3. Open b2. Pick up a3. Go down through a1 and a3. Close b2.\n";
    let text = format!("# Band of Larkspur Lane\r\n\nIt is dwon, clsoed.\n\n```weave\n{WRONG}```\n{steps}");
    let beside = format!("# Band\n\nMade from `w.weave`.\n{steps}");
    let folder = folder(&[("band.md", &text), ("beside.md", &beside), ("w.weave", WRONG)]);
    let (code, out, err) = byrnie(folder.path(), &["lint", "--fix", "band.md", "beside.md", "--format", "plain"]);
    assert!(code == 1 && err.is_empty() && out.starts_with("band.md: 1 mended: line 10: write `down`\n"), "{out}{err}");
    assert!(out.contains("band.md:17:25: error[step-wrong-ring]") && !out.contains("band.md:10"), "{out}");
    assert_eq!(read(folder.path(), "band.md"), text.replace("b[n] dwon", "b[n] down"));
    assert_eq!((read(folder.path(), "beside.md"), read(folder.path(), "w.weave")), (beside, WRONG.to_owned()));
}

#[test]
fn standard_input_is_mended_to_standard_output() {
    let run = |text: &str, arguments: &[&str]| {
        let mut command = Command::cargo_bin("byrnie").unwrap();
        let output = command.args([&["lint", "--fix", "-"], arguments].concat()).write_stdin(text).output().unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
    };
    let (code, out, err) = run(WRONG, &[]);
    assert_eq!((code, out), (0, WRONG.replace("dwon", "down")));
    assert_eq!(err, "standard input: 1 mended: line 5: write `down`\nHarbour chain: nothing to mend\n");
    // What has nothing to mend comes out as it went in; the report is aside all the same.
    let (code, out, err) = run("ring a\nrepeat n\na[n] down x[n-1]", &["--format", "plain"]);
    assert_eq!((code, out.as_str()), (1, "ring a\nrepeat n\na[n] down x[n-1]"));
    assert!(err.contains("error[unknown-ring]"), "{err}");
    for wrong in [&["--format", "json"][..], &["--format", "sarif"]] {
        let (code, out, err) = run(WRONG, wrong);
        assert!(code == 2 && out.is_empty() && !err.is_empty(), "{out} {err}");
    }
    let (code, out, _) = run("", &[]);
    assert_eq!((code, out.as_str()), (2, ""));
}

#[test]
fn reports_for_machines_stay_whole() {
    let folder = folder(&[("w.weave", &WRONG.replace("a[n+1]", "ax[n+1]"))]);
    let (code, out, err) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "missing.weave", "--format", "json"]);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, value["findings"].as_array().unwrap().len()), (2, 1), "{out}");
    assert_eq!(
        err,
        "missing.weave: there is no such file\nw.weave: 1 mended: line 5: write `down`\n"
            .lines()
            .rev()
            .map(|l| format!("{l}\n"))
            .collect::<String>()
    );
}

/// One line that cannot be mended does not keep hundreds from it.
#[test]
fn many_are_mended_around_one_that_is_not() {
    let line = "  b[n] dwon a[n], dwon a[n+1], dwon a[n+2], dwon a[n+3], dwon x[n]\n";
    let text = |word: &str| {
        let lines = format!("  b[n] {word} a[n]\n").repeat(300);
        format!("ring a, b\nrepeat n\n{lines}{line}{lines}")
    };
    let folder = folder(&[("w.weave", &text("dwon"))]);
    let (code, out, _) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "--format", "plain"]);
    assert!(code == 1 && out.starts_with("w.weave: 600 mended: line 3: "), "{out}");
    assert_eq!(read(folder.path(), "w.weave"), text("down"));
}

#[test]
fn a_text_that_is_all_slips_is_left_alone() {
    let text = format!("ring a, b\nrepeat n\n{}", "  b[n] dwon a[n]\n".repeat(1200));
    let folder = folder(&[("w.weave", &text)]);
    let (code, _, err) = byrnie(folder.path(), &["lint", "--fix", "w.weave", "--format", "plain"]);
    assert!(code == 1 && err == "w.weave: not mended: there are 1000 findings, or more; is this a weave?\n", "{err}");
    assert_eq!(read(folder.path(), "w.weave"), text);
}

#[cfg(unix)]
#[test]
fn write_protected_files_and_pipes_are_not_replaced() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder(&[("w.weave", WRONG), ("ok.weave", CHAIN)]);
    let file = folder.path().join("w.weave");
    fs::set_permissions(&file, fs::Permissions::from_mode(0o444)).unwrap();
    let (code, out, err) = byrnie(folder.path(), &["lint", "--fix", "w.weave"]);
    assert!(code == 2 && err == "w.weave: not mended: the file is write-protected\n", "{err}");
    assert!(out.contains("misspelled-word") && read(folder.path(), "w.weave") == WRONG);
    std::os::unix::fs::symlink("/dev/null", folder.path().join("null.svg")).unwrap();
    let (code, _, err) = byrnie(folder.path(), &["chart", "ok.weave", "-o", "null.svg"]);
    assert!(code == 2 && err.contains("null.svg: cannot be written: it is no plain file"), "{err}");
}

/// A full disk, as far as the program can see; permissions would not stop a test run as root.
#[cfg(target_os = "linux")]
#[test]
fn a_file_that_cannot_be_written_stays_as_it_was() {
    let folder = folder(&[("w.weave", WRONG)]);
    let script = format!("trap '' XFSZ; ulimit -f 0; exec '{}' lint --fix w.weave", env!("CARGO_BIN_EXE_byrnie"));
    let output = Command::new("sh").current_dir(folder.path()).args(["-c", &script]).output().unwrap();
    let (out, err) = (String::from_utf8(output.stdout).unwrap(), String::from_utf8(output.stderr).unwrap());
    assert!(output.status.code() == Some(2) && err.contains("w.weave: cannot be written"), "{out} {err}");
    // Nothing is said to be mended, and what is wrong is shown.
    assert!(!out.contains(" mended: ") && out.contains("misspelled-word"), "{out}");
    assert_eq!(read(folder.path(), "w.weave"), WRONG);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "no temporary file is left behind");
}
