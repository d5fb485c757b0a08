//! Words and numbers in sentences: counts, lists, rounding, short names.

use std::fmt::Display;

/// How tables show what is not known.
pub const UNKNOWN: &str = "?";

/// A number and what it counts: "1 ring", "3 rings", "2 passes", "2 families". `one` is the singular; its plural must
/// be regular, and for any other there is [`singular_or_plural`].
pub fn count<N: Copy + Display + PartialEq + From<u8>>(n: N, one: &str) -> String {
    let word = if n == N::from(1) { one.to_owned() } else { plural(one) };
    format!("{n} {word}")
}

/// The word that agrees with a number: "is" with 1 and "are" with all others.
pub fn singular_or_plural<'w, N: Copy + PartialEq + From<u8>>(n: N, one: &'w str, many: &'w str) -> &'w str {
    if n == N::from(1) { one } else { many }
}

fn plural(one: &str) -> String {
    let consonant_before_y = |stem: &str| !stem.is_empty() && !stem.ends_with(['a', 'e', 'i', 'o', 'u']);
    match one.strip_suffix('y') {
        Some(stem) if consonant_before_y(stem) => format!("{stem}ies"),
        _ if ["s", "x", "ch", "sh"].iter().any(|end| one.ends_with(end)) => format!("{one}es"),
        _ => format!("{one}s"),
    }
}

/// Words one after another: "a", "a and b", "a, b and c". `joint` is "and" or "or".
pub fn list<S: AsRef<str>>(words: &[S], joint: &str) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.as_slice() {
        [most @ .., last] if !most.is_empty() => format!("{} {joint} {last}", most.join(", ")),
        one => one.concat(),
    }
}

/// A number with this many decimals, rounded half up; [`UNKNOWN`] for none.
pub fn fixed(value: Option<f64>, decimals: usize) -> String {
    value.map_or(UNKNOWN.to_owned(), |v| format!("{:.decimals$}", half_up(v, decimals)))
}

/// A number with as many decimals as it needs, `most` at the most: "9.5", "9".
pub fn trimmed(value: f64, most: usize) -> String {
    let text = format!("{value:.most$}");
    if most == 0 { text } else { text.trim_end_matches('0').trim_end_matches('.').to_owned() }
}

/// Rounded the way people round: 9.525 to 9.53.
pub fn half_up(value: f64, decimals: usize) -> f64 {
    let scale = (0..decimals).fold(1.0, |s, _| s * 10.0);
    // A hair more, since 9.525 cannot be written in binary and comes out a hair less.
    let rounded = libm::round(value * scale * (1.0 + 1e-12)) / scale;
    if rounded.is_finite() { rounded } else { value }
}

/// The smallest multiple of `step` that is not below `value`, but for a millionth of a step.
pub fn round_up(value: f64, step: f64) -> f64 {
    libm::ceil(value / step - 1e-6) * step
}

/// A weave's name as a file name: lower-case letters and digits, hyphens for everything else.
pub fn short_name(name: &str) -> String {
    let mut short = String::new();
    for c in name.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            short.push(c);
        } else if !short.is_empty() && !short.ends_with('-') {
            short.push('-');
        }
    }
    short.trim_end_matches('-').to_owned()
}
