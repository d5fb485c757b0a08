//! `byrnie fit`

use super::{Outcome, Stop, busy, files, image, shelf, sound_weave};
use crate::cli::{Drawing, FitArgs, Output};
use byrnie::fit::{fit, fit_kind};

/// Which rings of a shelf, or of the sizes in common use, make a weave.
pub fn run(args: &FitArgs) -> Outcome {
    let weave = sound_weave(&args.file)?;
    let shelf = args.shelf.as_deref().map(shelf::shelf).transpose()?;
    let most = usize::from(args.most);
    let fit = busy("trying rings for", weave.name(), || match &args.kind {
        Some(kind) => fit_kind(&weave, kind, shelf.as_ref(), most),
        None => fit(&weave, shelf.as_ref(), most),
    });
    let fit = fit.map_err(Stop::of(&weave))?;
    if let Some(map) = &args.output {
        image::put(map, &byrnie::draw::fit_map(&fit))?;
    }
    let answer = if args.json { files::json(&fit.json())? } else { fit.table(most, args.markdown) };
    match &args.output {
        // The map is there already.
        Some(Drawing::Svg(Output::Standard)) => files::complain(&answer),
        _ => files::print(&answer)?,
    }
    let unread = shelf.is_some_and(|shelf| !shelf.faults.is_empty());
    Ok(u8::from(fit.rows.is_empty() || unread))
}
