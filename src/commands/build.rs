//! `byrnie build`: the whole job on one file.

use super::lint_report::verdict;
use super::{Outcome, busy, count, files};
use crate::cli::BuildArgs;
use byrnie::draw::picture::{Options, picture};
use byrnie::text::short_name;
use byrnie::{draw, lint, report};

pub fn run(args: &BuildArgs) -> Outcome {
    let BuildArgs { file, into } = args;
    let weave = files::weave(file)?;
    let findings = busy("checking", weave.name(), || lint::check(&weave));
    let drawn = report::terminal(weave.sources(), &findings, files::width(), files::colour_on_stdout());
    files::print(&format!("{drawn}{}\n\n", verdict(&weave, &findings)))?;
    if lint::graph_broken(&weave).is_some() {
        files::print("nothing is counted or drawn before this is mended\n")?;
        return Ok(1);
    }
    if weave.piece(weave.size()).is_ok() {
        files::print(&format!("{}\n", count::table(&weave)?))?;
    }
    if let Some(fingerprint) = weave.fingerprint() {
        files::print(&format!("fingerprint {}, its mirror image {}\n", fingerprint.weave, fingerprint.mirror))?;
    }
    files::folder(into)?;
    let name = match &weave.pattern().name {
        Some(name) => short_name(&name.value),
        None => file.file_stem().map_or_else(|| "weave".to_owned(), |s| short_name(&s.to_string_lossy())),
    };
    // File systems take names of 255 bytes.
    let name: String = if name.is_empty() { "weave".to_owned() } else { name.chars().take(50).collect() };
    let path = into.join(format!("{name}-chart.svg"));
    files::write(&path, draw::chart(&weave))?;
    files::print(&format!("chart       {}\n", path.display()))?;
    let options = Options::default();
    match weave.settled().map(|settled| picture(&weave, settled, weave.size(), &options)) {
        Ok(Ok(drawn)) => {
            let path = into.join(format!("{name}-picture.svg"));
            files::write(&path, &drawn)?;
            files::print(&format!("picture     {}\n", path.display()))?;
        }
        Ok(Err(why)) => files::print(&format!("no picture  {why}\n"))?,
        Err(why) => files::print(&format!("no picture  {why}\n"))?,
    }
    Ok(u8::from(!findings.is_empty()))
}
