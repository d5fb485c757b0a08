//! `byrnie tidy`

use super::{Outcome, Stop, files};
use byrnie::count::Counts;
use byrnie::notation::{read, tidy};
use byrnie::report;
use byrnie::text::Source;
use byrnie::weave::graph_json;
use std::path::{Path, PathBuf};

pub fn run(paths: &[PathBuf], check: bool) -> Outcome {
    let mut code = 0;
    for path in paths {
        let both = files::source(path).and_then(|source| Ok((source.text().to_owned(), tidied(path, source)?)));
        let (text, tidied) = match both {
            Ok(both) => both,
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
fn tidied(file: &Path, source: Source) -> Result<String, Stop> {
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
    let name = source.name().to_owned();
    if !faults.is_empty() || tidy(&second) != tidied || meaning(file, source) != meaning(file, again) {
        return Err(Stop::usage(format!(
            "{name}: left as it is: its tidy text would not say the same. This is a fault of byrnie; please report it with the file"
        )));
    }
    Ok(tidied)
}

/// What a text comes to: the graph of one repeat, and the piece with its ends, counts, sizes and colours.
fn meaning(file: &Path, source: Source) -> (String, Option<(String, String)>) {
    let weave = files::compile(file, source);
    // A length alone would have to be settled to say how many repeats; that it is the same length will do.
    let mut make = weave.pattern().make.clone();
    let length = make.length.take().map(|l| (l.number.text, l.unit));
    let weave = weave.with_make(make);
    let piece = weave.piece(weave.size()).ok();
    let whole = piece.map(|piece| {
        let counts = Counts::without_length(&weave, &piece).json();
        (graph_json(&weave, Some(&piece)), format!("{counts} {length:?}"))
    });
    (graph_json(&weave, None), whole)
}
