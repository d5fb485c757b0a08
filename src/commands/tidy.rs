//! `byrnie tidy`

use super::{Outcome, Stop, files};
use byrnie::notation::{read, tidy};
use byrnie::text::Source;
use byrnie::{Library, Weave, report};
use std::path::{Path, PathBuf};

pub fn run(paths: &[PathBuf], check: bool) -> Outcome {
    let mut code = 0;
    for path in paths {
        let source = files::source(path)?;
        let text = source.text().to_owned();
        let tidied = match tidied(source) {
            Ok(tidied) => tidied,
            Err(stop) => {
                files::complain(&stop.message);
                code = code.max(stop.code);
                continue;
            }
        };
        let standard_input = path == Path::new("-");
        if check {
            if tidied != text {
                files::print(&format!("{}: not tidy\n", path.display()))?;
                code = code.max(1);
            }
        } else if standard_input {
            files::print(&tidied)?;
        } else if tidied != text {
            files::write(path, &tidied)?;
        }
    }
    Ok(code)
}

/// The tidy text of a source, read again and compared before anyone sees it.
fn tidied(source: Source) -> Result<String, Stop> {
    let (tree, faults) = read(0, source.text());
    if !faults.is_empty() {
        let mut sources = byrnie::text::Sources::default();
        sources.add(source);
        let shown = report::terminal(&sources, &faults, files::width(), files::colour_on_stderr());
        return Err(Stop::found(format!("{shown}not tidied: mend this first")));
    }
    let tidied = tidy(&tree);
    let again = Source::new(source.name(), tidied.clone());
    let (second, faults) = read(0, &tidied);
    // Bases do not matter here: both texts name the same ones.
    let graph = |source| byrnie::rings::graph_json(&Weave::compile(source, &Library), None);
    let name = source.name().to_owned();
    if !faults.is_empty() || tidy(&second) != tidied || graph(source) != graph(again) {
        return Err(Stop::usage(format!(
            "{name}: left as it is: its tidy text would not say the same. This is a fault of byrnie; please report it with the file"
        )));
    }
    Ok(tidied)
}
