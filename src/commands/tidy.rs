//! `byrnie tidy`

use super::{Outcome, Stop, files};
use crate::cli::TidyArgs;
use byrnie::count::Counts;
use byrnie::notation::{read, tidy};
use byrnie::report;
use byrnie::text::Source;
use byrnie::weave::graph_json;
use std::path::Path;

pub fn run(args: &TidyArgs) -> Outcome {
    let mut code = 0;
    for path in &args.files {
        let both = files::source(path).and_then(|source| Ok((source.text().to_owned(), tidied(path, source)?)));
        let (text, tidied) = match both {
            Ok(both) => both,
            Err(stop) => {
                files::complain(&stop.to_string());
                code = code.max(stop.code());
                continue;
            }
        };
        if args.check {
            if tidied != text {
                files::print(&format!("{}: not tidy\n", path.display()))?;
                code = code.max(1);
            }
        } else if files::is_standard(path) {
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
        return Err(Stop::NotTidied { shown });
    }
    let tidied = tidy(&tree);
    let again = Source::new(source.name(), tidied.clone());
    let (second, faults) = read(0, &tidied);
    let name = source.name().to_owned();
    if !faults.is_empty() || tidy(&second) != tidied || meaning(file, source) != meaning(file, again) {
        return Err(Stop::TidyChangesMeaning { name });
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
        (graph_json(&weave, Some(&piece)), format!("{:?} {length:?}", Counts::without_length(&weave, &piece)))
    });
    (graph_json(&weave, None), whole)
}
