//! `byrnie explain`

use super::{Outcome, Stop, files};
use byrnie::lint::RULES;
use byrnie::lint::rule;
use byrnie::text::nearest;

pub fn run(name: Option<&str>) -> Outcome {
    let Some(name) = name else {
        let list: String = RULES.iter().map(|r| format!("{:24}{}\n", r.name, r.first_sentence())).collect();
        files::print(&list)?;
        return Ok(0);
    };
    if let Some(rule) = rule(name) {
        files::print(rule.page).map(|()| 0)
    } else {
        let near = nearest(name, RULES.iter().map(|r| r.name));
        let near =
            near.map_or_else(|| "`byrnie explain` lists them all".to_owned(), |n| format!("did you mean `{n}`?"));
        Err(Stop::usage(format!("there is no rule `{name}`; {near}")))
    }
}
