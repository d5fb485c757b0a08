//! `byrnie explain`

use super::{Outcome, Stop, files};
use crate::cli::ExplainArgs;
use byrnie::lint::{RULES, rule};
use byrnie::text::nearest;

pub fn run(args: &ExplainArgs) -> Outcome {
    let Some(name) = args.rule.as_deref() else {
        let list: String = RULES.iter().map(|r| format!("{:24}{}\n", r.name, r.first_sentence())).collect();
        files::print(&list)?;
        return Ok(0);
    };
    let rule = rule(name).ok_or_else(|| Stop::NoSuchRule {
        name: name.to_owned(),
        near: nearest(name, RULES.iter().map(|r| r.name)).map(str::to_owned),
    })?;
    files::print(rule.page)?;
    Ok(0)
}
