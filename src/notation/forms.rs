//! Which form a line has, which words it may hold, and what it looks like when it is right.

use crate::notation::Rule;

/// Every sign that opens or closes a name in quotes.
pub(super) const QUOTES: [char; 6] = ['"', '“', '”', '„', '«', '»'];

/// Which heading a line is under, as far as that changes how it is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Section {
    /// Passes: a repeat, an accent, or the open top of a unit.
    #[default]
    Passes,
    /// `ends`
    Ends,
    /// `rings`
    Rings,
    /// `colours`
    Colours,
    /// `make`
    Make,
}

/// One form of line.
pub(super) struct Form {
    pub rule: Rule,
    /// Words that only a line of this form begins with.
    pub opens: &'static [&'static str],
    /// Words of the notation it may contain.
    pub words: &'static [&'static str],
    /// What messages call it.
    pub called: &'static str,
    /// A line to copy.
    pub example: &'static str,
}

const fn form(
    rule: Rule,
    opens: &'static [&'static str],
    words: &'static [&'static str],
    called: &'static str,
    example: &'static str,
) -> Form {
    Form { rule, opens, words, called, example }
}

const PASS_WORDS: &[&str] =
    &["through", "around", "down", "up", "over", "under", "between", "far", "near", "side", "eye", "and", "last"];

/// Every form of line, in the order of the reference.
pub(super) const FORMS: &[Form] = &[
    form(Rule::weave_line, &["weave"], &["weave"], "the weave's name", "weave \"Tideline bracelet\""),
    form(Rule::base_line, &["base"], &["base"], "a base", "base \"half Persian 3-in-1\""),
    form(Rule::mirrored_line, &["mirrored"], &["mirrored"], "`mirrored`", "mirrored"),
    form(Rule::spiral_line, &["spiral"], &["spiral"], "`spiral`, `spiral left` or `spiral right`", "spiral"),
    form(Rule::gauges_line, &["gauges"], &["gauges", "awg", "swg"], "a line `gauges`", "gauges swg"),
    form(Rule::ring_line, &["ring"], &["ring", "closed", "open"], "a ring line", "ring a main, closed"),
    form(Rule::repeat_line, &["repeat"], &["repeat", "row", "column"], "a repeat", "repeat n"),
    form(
        Rule::accent_line,
        &[],
        &["accent", "every", "from", "row", "rows", "column", "columns"],
        "an accent heading",
        "accent every 3, from 2",
    ),
    form(Rule::pass_line, &[], PASS_WORDS, "a pass", "b[n] through eye(a[n], a[n+1]), over b[n-1]"),
    form(
        Rule::lay_line,
        &["lay"],
        &["lay", "behind", "in", "front", "of", "last"],
        "a `lay` line",
        "lay a[n] behind a[n-1]",
    ),
    form(Rule::fold_line, &["fold"], &["fold", "and", "back", "last"], "a fold", "fold a[n], b[n] back"),
    form(Rule::lean_line, &["lean"], &["lean", "left", "right"], "a lean", "lean left"),
    form(Rule::ends_line, &["ends"], &["ends"], "the heading `ends`", "ends"),
    form(
        Rule::end_line,
        &["add", "drop", "close", "open"],
        &["add", "drop", "close", "open", "last", "all"],
        "a line of `ends`",
        "drop b[last]",
    ),
    form(Rule::rings_line, &["rings"], &["rings"], "the heading `rings`", "rings"),
    form(
        Rule::kind_line,
        &[],
        &["wire", "inner", "AR", "mm", "in", "inch", "inches", "awg", "swg", "gauge", "ga", "measured"],
        "a size",
        "main  wire 1.6 mm, inner 9.5 mm, copper",
    ),
    form(Rule::colours_line, &["colours"], &["colours"], "the heading `colours`", "colours"),
    form(Rule::colour_line, &[], &["by", "row", "column"], "a colour line", "c: teal, teal, silver"),
    form(Rule::make_heading, &["make"], &["make"], "the heading `make`", "make"),
    form(
        Rule::make_line,
        &["length", "clasp", "repeats", "rows", "columns", "height", "width", "pieces", "spares", "measured"],
        &[
            "length", "clasp", "repeats", "rows", "columns", "height", "width", "pieces", "spares", "measured",
            "rings", "mm", "in", "inch", "inches",
        ],
        "a line of `make`",
        "length 190 mm, clasp 18 mm",
    ),
    form(
        Rule::claim_line,
        &["claim"],
        &[
            "claim", "lean", "left", "right", "held", "upright", "AR", "in", "for", "rings", "closed", "open",
            "length", "pitch", "weight", "fits", "straight", "weave", "mm", "inch", "inches", "g",
        ],
        "a claim",
        "claim 3 in 1 for a, b",
    ),
];

/// The form read by `rule`.
pub(super) fn form_of(rule: Rule) -> Option<&'static Form> {
    FORMS.iter().find(|f| f.rule == rule)
}

/// The form that a line has by its first words and the heading it is under.
pub(super) fn choose(line: &str, section: Section) -> Rule {
    let mut words = line.split(|c: char| !(c.is_alphanumeric() || c == '_')).filter(|w| !w.is_empty());
    // Only the line of a bag starts with a quote, and its name must not be taken for a word. A name by itself may be
    // the name of the weave.
    let alone = line.trim_end().ends_with(QUOTES) && line.matches(QUOTES).count() == 2;
    if line.starts_with(QUOTES) && (section == Section::Make || !alone) {
        return Rule::make_line;
    }
    let first = words.next().unwrap_or("").to_lowercase();
    let second = words.next().unwrap_or("").to_lowercase();
    let third = words.next().unwrap_or("").to_lowercase();
    let measured = second == "measured" && ["wire", "inner"].contains(&third.as_str());
    let sized = measured || ["wire", "inner", "ar"].contains(&second.as_str());
    // `accent` opens a heading, but is also a natural name for a kind.
    if first == "accent" && (section != Section::Rings || second == "every") && !sized && !line.contains(':') {
        return Rule::accent_line;
    }
    if sized && first != "claim" && section != Section::Colours {
        return Rule::kind_line;
    }
    let opening = if first == "colors" { "colours" } else { first.as_str() };
    let opened = FORMS.iter().find(|f| f.opens.contains(&opening));
    let names_ring = line.trim_start().get(first.len()..).is_some_and(|rest| rest.trim_start().starts_with('['));
    if let Some(form) = opened.filter(|_| !names_ring) {
        return form.rule;
    }
    let quote_free: String = line.split(QUOTES).step_by(2).collect();
    if quote_free.contains(':') || section == Section::Colours {
        Rule::colour_line
    } else if names_ring || PASS_WORDS.contains(&second.as_str()) {
        Rule::pass_line
    } else {
        match section {
            Section::Rings => Rule::kind_line,
            Section::Make => Rule::make_line,
            Section::Ends => Rule::end_line,
            Section::Colours | Section::Passes => Rule::pass_line,
        }
    }
}

/// What a maker would call the thing a grammar rule stands for.
pub(super) fn phrase(rule: Rule) -> Option<&'static str> {
    Some(match rule {
        Rule::EOI => "the end of the line",
        Rule::comma => "a comma",
        Rule::colon => "a colon",
        Rule::open_round => "`(`",
        Rule::close_round => "`)`",
        Rule::open_square | Rule::index => "a place in square brackets such as `[n]`",
        Rule::close_square => "`]`",
        Rule::step => "`+` or `-` and a number",
        Rule::position => "a place such as `n`, `n+1`, `last` or a number",
        Rule::ring => "a ring such as `a[n]`",
        Rule::name | Rule::kind_name => "a name (a letter first, no hyphens)",
        Rule::eye | Rule::kw_eye => "an eye such as `eye(a[n], a[n+1])`",
        Rule::place => "a ring or an eye",
        Rule::clause => {
            "a word for what the ring does (`through`, `around`, `down`, `up`, `over`, `under`, `between`, `far side`, `near side`)"
        }
        Rule::state => "`closed` or `open`",
        Rule::hand => "`left` or `right`",
        Rule::behind | Rule::front => "`behind` or `in front of`",
        Rule::quoted => "a name in quotes",
        Rule::count => "a whole number",
        Rule::decimal => "a number such as 5.9",
        Rule::size | Rule::mixed | Rule::fraction => "a size such as `1.6 mm`, `3/8 in` or `18 swg`",
        Rule::unit => "a unit: `mm`, `in`, `awg` or `swg`",
        Rule::kind_part => "`wire`, `inner`, `AR`, `measured`, a material or a colour in quotes",
        Rule::system => "`awg` (American) or `swg` (British)",
        Rule::also => "the same size again in brackets",
        Rule::colour => "a colour",
        Rule::make_part | Rule::bag_part => {
            "`length`, `clasp`, `repeats`, `rows`, `columns`, `height`, `width`, `pieces`, `spares` or `measured` and a number"
        }
        Rule::claim => {
            "something to claim (`3 in 1`, `48 rings`, `AR 5.9`, `lean left`, `length`, `pitch`, `weight`, `fits`, `straight`, `weave \"…\"`)"
        }
        Rule::ring_word => "`closed`, `open`, a kind or a family",
        Rule::claim_for => "`for` and names",
        Rule::claim_of => "`in` and the name of a bag, or `in all`",
        Rule::bag => "the name of a bag in quotes",
        Rule::bag_rings => "`rings` and the name of a set of rings",
        Rule::upright => "`held upright`",
        Rule::accent_from => "`from` and the first repeat",
        Rule::sheet_names => "`row r, column c`",
        word => return word_phrase(word),
    })
}

/// The same for rules that are a single word.
fn word_phrase(rule: Rule) -> Option<&'static str> {
    Some(match rule {
        Rule::kw_wire => "`wire`",
        Rule::kw_inner => "`inner`",
        Rule::kw_repeats | Rule::kw_repeat => "`repeats`",
        Rule::kw_rows => "`rows`",
        Rule::kw_columns => "`columns`",
        Rule::kw_column => "`column` and a name",
        Rule::kw_row => "`row`",
        Rule::kw_every => "`every` and a number",
        Rule::kw_side => "`side`",
        Rule::kw_back => "`back`",
        Rule::kw_and => "`and`",
        Rule::kw_in => "`in`",
        Rule::kw_rings => "`rings`",
        Rule::kw_g => "`g`",
        Rule::kw_of => "`of`",
        Rule::kw_front => "`front of`",
        Rule::kw_upright => "`upright`",
        _ => return None,
    })
}
