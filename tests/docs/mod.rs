//! What the documents say is so.

use crate::common::findings;
use assert_cmd::Command;
use byrnie::lint::RULES;
use byrnie::notation::read;
use std::fs;
use std::path::Path;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn text(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap()
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
fn every_command_in_the_readme_exists() {
    let mut seen = 0;
    for line in fences(&text("README.md"), "sh").iter().flat_map(|fence| fence.lines()) {
        let Some(arguments) = line.strip_prefix("byrnie ") else { continue };
        let (verb, rest) = arguments.split_once(' ').unwrap_or((arguments, ""));
        let output = Command::cargo_bin("byrnie").unwrap().args([verb, "--help"]).output().unwrap();
        assert!(output.status.success(), "{line}");
        let help = String::from_utf8(output.stdout).unwrap();
        let known: Vec<&str> = help.split([' ', ',', '\n']).collect();
        for word in rest.split(' ') {
            assert!(!word.starts_with('-') || known.contains(&word), "{line}: {word}");
            assert!(!word.starts_with("examples/") || root().join(word).exists(), "{line}: {word}");
        }
        seen += 1;
    }
    assert!(seen > 10);
}

#[test]
fn the_documents_link_to_what_there_is() {
    for (page, folder) in [("README.md", ""), ("DEVELOPERS.md", ""), ("examples/README.md", "examples")] {
        let page_text = text(page);
        let links = page_text.split("](").skip(1).filter_map(|rest| rest.split(')').next());
        for link in links.filter(|link| !link.starts_with("https:")) {
            assert!(root().join(folder).join(link).exists(), "{page}: {link}");
        }
    }
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
fn the_developers_page_names_what_there_is() {
    let page = text("DEVELOPERS.md");
    for entry in fs::read_dir(root().join("src")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap();
        assert!(!path.is_dir() || page.contains(&format!("`src/{name}/`")), "{name}");
    }
    let parts = ["src/", "tests/", "grammar/", "examples/", "editors/"];
    for word in page.split('`').skip(1).step_by(2).filter(|w| parts.iter().any(|part| w.starts_with(part))) {
        assert!(root().join(word).exists(), "{word}");
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
