//! What the documents say is so.

use crate::common::findings;
use byrnie::lint::RULES;
use byrnie::notation::read;
use std::fs;
use std::path::Path;

fn text(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
}

/// Fences with the given info string.
fn fences(page: &str, info: &str) -> Vec<String> {
    let open = format!("```{info}\n");
    page.split(&open).skip(1).map(|rest| rest.split("```").next().unwrap().to_owned()).collect()
}

#[test]
fn every_weave_in_the_readme_is_clean() {
    let weaves = fences(&text("README.md"), "weave");
    assert!(!weaves.is_empty());
    for weave in weaves {
        assert_eq!(findings(&weave), "", "{weave}");
    }
}

#[test]
fn the_readme_starts_with_the_job_and_two_commands() {
    let readme = text("README.md");
    let commands = fences(&readme, "sh");
    assert_eq!(commands[0].lines().count(), 2, "{}", commands[0]);
    assert!(commands[0].contains("examples/tideline-bracelet.weave"));
    assert_eq!(commands[0].lines().last(), Some("cargo test"));
    assert!(text(".ci/run").contains("\nINSTA_UPDATE=no cargo test\n"), ".ci/run calls the same command");
}

#[test]
fn every_line_to_copy_in_the_grammar_can_be_read() {
    let grammar = text("grammar/weave.pest");
    let lines: Vec<&str> = grammar.lines().filter_map(|l| l.strip_prefix("//     ")).collect();
    assert!(lines.len() > 30);
    for line in lines {
        // Some lines show several forms, or a remark behind them.
        let line = line.split("     ").find(|part| !part.trim().is_empty()).unwrap().trim();
        for form in line.split(" · ") {
            let form = if form.starts_with(|c: char| c.is_ascii_digit()) {
                format!("main wire {form}")
            } else {
                form.to_owned()
            };
            let form =
                if line.starts_with("claim") && !form.starts_with("claim") { format!("claim {form}") } else { form };
            let (_, faults) = read(0, &form);
            assert!(faults.is_empty(), "{form}: {faults:?}");
        }
    }
}

#[test]
fn the_code_map_names_what_there_is() {
    let map = text("DEVELOPERS.md");
    for module in ["text", "notation", "pattern", "rings", "settle", "lint", "supply", "draw", "report", "commands"] {
        assert!(map.contains(&format!("`src/{module}/`")), "{module}");
    }
    for word in map
        .split('`')
        .skip(1)
        .step_by(2)
        .filter(|w| w.starts_with("src/") || w.starts_with("tests/") || w.starts_with("grammar/"))
    {
        let path = word.split('<').next().unwrap();
        assert!(Path::new(env!("CARGO_MANIFEST_DIR")).join(path).exists(), "{word}");
    }
}

#[test]
fn editors_know_the_words_of_the_notation() {
    let vim = text("editors/vim/syntax/weave.vim");
    for word in byrnie::notation::words() {
        let known = vim.lines().any(|l| l.split_whitespace().any(|w| w.eq_ignore_ascii_case(word)));
        assert!(known, "{word}");
    }
}

#[test]
fn the_changelog_speaks_of_this_version() {
    assert!(text("CHANGELOG.md").contains(&format!("## {}", env!("CARGO_PKG_VERSION"))));
}

#[test]
fn every_rule_has_a_name_of_its_own() {
    let mut names: Vec<&str> = RULES.iter().map(|r| r.name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), RULES.len());
}
