//! The rules: a file and a page each, and one line here.

use super::Context;
use crate::notation::{MISSPELLED, UNREADABLE};
use crate::report::Diagnostic;

/// What a rule needs to be sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Needs {
    /// Any text, even with lines lost.
    Text,
    /// The whole weave: every line read and every name known.
    Graph,
}

/// One rule.
pub struct Rule {
    /// Its name; reads after "allow".
    pub name: &'static str,
    /// Its page.
    pub page: &'static str,
    /// What it needs.
    pub needs: Needs,
    /// Whether a finding means that the ring graph is not what the maker meant, so that rules on the
    /// graph would only repeat it.
    pub breaks_graph: bool,
    /// Adds its findings.
    pub check: fn(&Context<'_>, &mut Vec<Diagnostic>),
}

/// Declares the modules and the table of rules. A line reads: module, name, what it needs, and
/// `breaks` where a finding of it spoils the graph for other rules.
macro_rules! rules {
    ($($module:ident $name:literal $needs:ident $($breaks:ident)?;)*) => {
        $(mod $module;)*
        /// Every rule, in the order of the alphabet; reading comes first.
        pub const RULES: &[Rule] = &[
            Rule { name: MISSPELLED, page: include_str!("misspelled_word.md"), needs: Needs::Text, breaks_graph: false, check: |_, _| {} },
            Rule { name: UNREADABLE, page: include_str!("unreadable_line.md"), needs: Needs::Text, breaks_graph: true, check: |_, _| {} },
            $(Rule {
                name: $name,
                page: include_str!(concat!(stringify!($module), ".md")),
                needs: Needs::$needs,
                breaks_graph: rules!(@breaks $($breaks)?),
                check: $module::check,
            },)*
        ];
    };
    (@breaks breaks) => { true };
    (@breaks) => { false };
}

rules! {
    unknown_ring "unknown-ring" Text breaks;
}
