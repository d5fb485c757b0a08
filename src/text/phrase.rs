//! Words and numbers in sentences: counts, rounding, short names.

pub(crate) fn count(n: u64, one: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") }
}

/// Words one after another: "a", "a and b", "a, b and c". `joint` is "and" or "or".
pub fn list<S: AsRef<str>>(words: &[S], joint: &str) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.as_slice() {
        [most @ .., last] if !most.is_empty() => format!("{} {joint} {last}", most.join(", ")),
        one => one.concat(),
    }
}

pub(crate) fn fixed(value: Option<f64>, decimals: usize) -> String {
    value.map_or("?".to_owned(), |v| format!("{:.decimals$}", half_up(v, decimals)))
}

/// Rounded the way people round: 9.525 to 9.53.
pub(crate) fn half_up(value: f64, decimals: usize) -> f64 {
    let scale = (0..decimals).fold(1.0, |s, _| s * 10.0);
    // A hair more, since 9.525 cannot be written in binary and comes out a hair less.
    let rounded = libm::round(value * scale * (1.0 + 1e-12)) / scale;
    if rounded.is_finite() { rounded } else { value }
}

/// The smallest multiple of `step` that is not below `value`, but for a millionth of a step.
pub fn round_up(value: f64, step: f64) -> f64 {
    libm::ceil(value / step - 1e-6) * step
}

/// A weave's name as a file name: small letters and digits, hyphens for all else.
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
