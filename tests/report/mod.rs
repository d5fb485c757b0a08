//! Findings for machines: JSON by its schema, SARIF by that of the standard; and changes of text, made.

mod mended;

use crate::cli::{CHAIN, WRONG, byrnie, folder};
use crate::common::{self, compile, lint_json, page_fences, schema_can_fail, valid_json};
use byrnie::lint;
use byrnie::lint::{Needs, RULES};
use byrnie::report::{LintJson, Sarif};
use byrnie::text::Source;
use byrnie::tutorial::{Tutorial, WeaveIn, weave_in};
use serde_json::Value;

const SCHEMA: &str = include_str!("sarif-schema-2.1.0.json");

/// The log, after it was held against the schema and against what no schema says.
fn valid(printed: &str) -> Value {
    let log: Value = serde_json::from_str(printed).unwrap();
    holds(SCHEMA, &log);
    let run = &log["runs"][0];
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    for result in run["results"].as_array().unwrap() {
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(rules[index]["id"], result["ruleId"]);
    }
    for rule in rules {
        assert!(run["results"].as_array().unwrap().iter().any(|r| r["ruleId"] == rule["id"]), "{rule}");
    }
    log
}

fn validator(schema: &str) -> jsonschema::Validator {
    let mut schema: Value = serde_json::from_str(schema).unwrap();
    // The pattern of the standard for names of languages is no regular expression (it has a bracket too many). It is
    // taken out in memory; no log of ours names a language.
    for owner in ["run", "toolComponent"] {
        if let Some(language) = schema.pointer_mut(&format!("/definitions/{owner}/properties/language")) {
            language.as_object_mut().unwrap().remove("pattern").unwrap();
        }
    }
    jsonschema::validator_for(&schema).unwrap()
}

fn holds(schema: &str, value: &Value) {
    let validator = validator(schema);
    let faults: Vec<String> = validator.iter_errors(value).map(|e| format!("{}: {e}", e.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:?}");
}

/// A text with a fix of a log made in it as another program would: by lines and columns of characters.
fn made(text: &str, fix: &Value) -> String {
    let (mark, body) = text.strip_prefix('\u{FEFF}').map_or(("", text), |body| ("\u{FEFF}", body));
    let place = |region: &Value, line: &str, column: &str| {
        let number = |key: &str| usize::try_from(region[key].as_u64().unwrap()).unwrap();
        let start: usize = body.split_inclusive('\n').take(number(line) - 1).map(str::len).sum();
        start + body[start..].chars().take(number(column) - 1).map(char::len_utf8).sum::<usize>()
    };
    let mut out = body.to_owned();
    for replacement in fix["artifactChanges"][0]["replacements"].as_array().unwrap().iter().rev() {
        let region = &replacement["deletedRegion"];
        let (from, to) = (place(region, "startLine", "startColumn"), place(region, "endLine", "endColumn"));
        out.replace_range(from..to, replacement["insertedContent"]["text"].as_str().unwrap_or(""));
    }
    format!("{mark}{out}")
}

#[test]
fn a_log_says_all_that_was_found() {
    // Words of several bytes before the place, other line ends, a byte-order mark, a name that is no URI.
    let odd = "\u{FEFF}base \"simple chain\"\nrings\n  main inner 5 mm, \"grün 🔗\", wier 1 mm\n".replace('\n', "\r\n");
    let twice = CHAIN.replace("a[n], a[n+1]", "a[n], a[n], a[n+1]");
    let folder = folder(&[("größe 1:2 %.weave", &odd), ("twice.weave", &twice), ("ok.weave", CHAIN)]);
    let files = ["größe 1:2 %.weave", "twice.weave", "ok.weave"];
    let (code, out, err) = byrnie(folder.path(), &[&["lint", "--format", "sarif"], &files[..]].concat());
    assert_eq!((code, err.as_str()), (1, ""));
    let log = valid(&out);
    insta::assert_snapshot!("sarif", without_pages(&log));
    let (_, again, _) = byrnie(folder.path(), &[&["lint", "--format", "sarif"], &files[..]].concat());
    assert_eq!(out, again, "the same bytes every time");
    let results = log["runs"][0]["results"].as_array().unwrap();
    assert_eq!(
        results[0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"],
        "gr%C3%B6%C3%9Fe%201%3A2%20%25.weave"
    );
    assert_eq!(made(&odd, &results[0]["fixes"][0]), odd.replace("wier", "wire"));
    assert!(results.iter().any(|r| r["relatedLocations"].is_array()), "{out}");
    // By its whole path.
    let whole = folder.path().join("twice.weave");
    let (_, out, _) = byrnie(folder.path(), &["lint", "--format", "sarif", whole.to_str().unwrap()]);
    assert!(out.contains("\"uri\": \"file:///"), "{out}");
    valid(&out);
}

/// Texts that are no files have names of their own.
#[test]
fn texts_that_are_no_files_are_named_all_the_same() {
    let text = "base \"simple chain\"\nrings\n  small wire 1 mm, inner 5 mm\n";
    let mut command = assert_cmd::Command::cargo_bin("byrnie").unwrap();
    let output = command.args(["lint", "--format", "sarif", "-"]).write_stdin(text).output().unwrap();
    let log = valid(&String::from_utf8(output.stdout).unwrap());
    let uri = |place: &Value| place["physicalLocation"]["artifactLocation"]["uri"].clone();
    let results = log["runs"][0]["results"].as_array().unwrap();
    let result = results.iter().find(|r| r["ruleId"] == "unknown-kind").unwrap();
    assert_eq!(uri(&result["locations"][0]), "byrnie:standard-input");
    assert_eq!(uri(&result["relatedLocations"][0]), "byrnie:library/simple-chain");
}

/// The log without what is in the pages of rules already.
fn without_pages(log: &Value) -> String {
    let mut log = log.clone();
    for rule in log["runs"][0]["tool"]["driver"]["rules"].as_array_mut().unwrap() {
        let page = RULES.iter().find(|r| r.name == rule["id"]).unwrap().page;
        assert_eq!((&rule["help"]["text"], &rule["help"]["markdown"]), (&page.into(), &page.into()));
        rule["help"] = "…".into();
    }
    format!("{log:#}")
}

#[test]
fn a_log_is_whole_though_a_file_is_missing() {
    let folder = folder(&[("w.weave", WRONG)]);
    let (code, out, err) = byrnie(folder.path(), &["lint", "--format", "sarif", "no such.weave", "w.weave"]);
    assert_eq!((code, err.as_str()), (2, "no such.weave: there is no such file\n"));
    let log = valid(&out);
    let invocation = &log["runs"][0]["invocations"][0];
    assert_eq!(invocation["executionSuccessful"], false);
    let said = &invocation["toolExecutionNotifications"][0];
    assert_eq!(
        (&said["level"], &said["message"]["text"]),
        (&"error".into(), &"no such.weave: there is no such file".into())
    );
    assert_eq!(said["locations"][0]["physicalLocation"]["artifactLocation"]["uri"], "no%20such.weave");
    assert_eq!(log["runs"][0]["results"].as_array().unwrap().len(), 1);
    let (code, out, _) = byrnie(folder.path(), &["lint", "--format", "sarif", "no such.weave"]);
    assert_eq!(code, 2);
    assert_eq!(valid(&out)["runs"][0]["results"].as_array().unwrap().len(), 0);
}

#[test]
fn what_was_not_read_or_checked_is_noted() {
    let steps = "\n1. Thread a1 and a2 on a tie. Mind the cat.\n2. Open b1. Go down through a1 and a2. Close b1.\n3. Open b2. Pick up a3. Go down through a1 and a3. Close b2.\n";
    let claims = format!("{CHAIN}\nclaim fits\n");
    let text = format!("# Band\n\n```weave\n{claims}```\n{steps}");
    let folder =
        folder(&[("band.md", &text), ("w.weave", &claims), ("none.md", &format!("# Band\n\n```weave\n{CHAIN}```\n"))]);
    let files = ["band.md", "w.weave", "none.md"];
    let (code, out, _) = byrnie(folder.path(), &[&["lint", "--format", "sarif", "--unread"], &files[..]].concat());
    let log = valid(&out);
    let invocation = &log["runs"][0]["invocations"][0];
    assert!(code == 1 && invocation["executionSuccessful"] == true, "{out}");
    let notes = invocation["toolExecutionNotifications"].as_array().unwrap();
    assert!(notes.iter().all(|n| n["level"] == "note"));
    let said: Vec<&str> = notes.iter().map(|n| n["message"]["text"].as_str().unwrap()).collect();
    let claim = "not checked: claim fits (write in `rings` the wire and the inner diameter)";
    assert_eq!(
        said,
        [
            claim,
            "1 of 9 sentences in its steps could not be read",
            "not read: Mind the cat.",
            claim,
            "there are no numbered steps in it that could be checked"
        ]
    );
    assert_eq!(notes[0]["locations"][0]["physicalLocation"]["region"]["startLine"], 18);
    let result = &log["runs"][0]["results"][0];
    assert_eq!(
        (&result["ruleId"], &result["fixes"][0]["properties"]["safe"]),
        (&"step-wrong-ring".into(), &false.into())
    );
    assert!(made(&text, &result["fixes"][0]).contains("Go down through a2 and a3. Close b2."), "{result}");
    // The JSON says the same, by its schema.
    let (_, out, _) = byrnie(folder.path(), &[&["lint", "--format", "json", "--unread"], &files[..]].concat());
    let value: Value = serde_json::from_str(&out).unwrap();
    assert!(common::validator::<LintJson>().is_valid(&value), "{value}");
    let told: Vec<&str> = value["notes"].as_array().unwrap().iter().map(|n| n["message"].as_str().unwrap()).collect();
    assert_eq!(told, said);
}

/// Findings of every rule that finds without a pose, those of steps too, are valid in both forms.
#[test]
fn every_finding_keeps_to_both_schemas() {
    let mut log = Sarif::default();
    let mut rules = std::collections::BTreeSet::new();
    for text in page_fences() {
        let weave = compile(&text);
        let findings = lint::check_up_to(&weave, Needs::Graph);
        valid_json(&lint_json(weave.sources(), &findings));
        log.add(weave.sources(), &findings, &[]);
        rules.extend(findings.iter().map(|f| f.rule));
        if let Some(WeaveIn::BuiltIn(short)) = weave_in(&text) {
            let weave = compile(byrnie::Library::weaves().iter().find(|(n, _)| *n == short).unwrap().1);
            let found = Tutorial::up_to(Source::new("a page.md", text), &weave, Needs::Graph);
            valid_json(&lint_json(&found.sources, &found.findings));
            log.add(&found.sources, &found.findings, &[]);
            rules.extend(found.findings.iter().map(|f| f.rule));
        }
    }
    assert!(rules.len() > 40, "{rules:?}");
    valid(&log.log(&lint::pages()).to_string());
}

#[test]
fn the_schemas_can_fail() {
    let weave = compile(WRONG);
    let findings = lint::check_up_to(&weave, Needs::Graph);
    let mut log = Sarif::default();
    log.add(weave.sources(), &findings, &[]);
    let mut value = log.log(&lint::pages());
    *value.pointer_mut("/runs/0/results/0/level").unwrap() = "grave".into();
    assert!(!validator(SCHEMA).is_valid(&value));
    let printed = lint_json(weave.sources(), &findings);
    for pointer in ["/findings", "/findings/0/severity", "/findings/0/line", "/findings/0/fix/safe"] {
        schema_can_fail(&printed, pointer);
    }
}
