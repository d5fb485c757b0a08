//! Words that are nearly right.

/// The word of `known` nearest to `word`, if it is near enough to be a slip of the finger: at most one edit in words of
/// three or four letters, two in words of up to seven, three in longer ones (optimal string alignment distance, so
/// swapped letters are one edit).
pub fn nearest<'k>(word: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
    let word = word.to_lowercase();
    let letters = word.chars().count();
    let allowed = match letters {
        0..=2 => return None,
        3..=4 => 1,
        5..=7 => 2,
        _ => 3,
    };
    known
        .into_iter()
        .map(|k| (strsim::osa_distance(&word, &k.to_lowercase()), k))
        .filter(|(distance, k)| *distance <= allowed && *distance < k.chars().count())
        .min_by_key(|(distance, k)| (*distance, k.len()))
        .map(|(_, k)| k)
}

/// Whether nothing but `meant` can have been meant by `word`: it is one slip of the finger away, and every other word
/// of `known` is farther.
pub fn plainly_meant<'k>(word: &str, meant: &str, known: impl IntoIterator<Item = &'k str>) -> bool {
    let word = word.to_lowercase();
    let slips = |other: &str| strsim::osa_distance(&word, &other.to_lowercase());
    slips(meant) == 1 && known.into_iter().all(|k| k.eq_ignore_ascii_case(meant) || slips(k) > 1)
}
