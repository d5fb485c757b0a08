//! Words of lying choose among the places an accent can take.

use super::settled;

fn bracelet(words: &str) -> &'static byrnie::settle::Settled {
    settled(&format!(
        "base \"half Persian 3-in-1\"\nring c accent\naccent every 3, from 2\nc[n] around eye(a[n], a[n+1]){words}\nrings\nmain wire 1.6 mm, inner 7 mm\naccent wire 1.6 mm, inner 6 mm"
    ))
    .1
}

/// Under the next b there is room for the accent, over it there is a place too, but a tighter one. Words that no
/// place satisfies are named.
#[test]
fn an_accent_goes_where_its_words_say() {
    let (free, under, over) = (bracelet(""), bracelet(", under b[n+1]"), bracelet(", over b[n+1]"));
    assert!(free.broken.is_empty() && under.broken.is_empty() && over.broken.is_empty());
    assert!((free.room().unwrap() - under.room().unwrap()).abs() < 1e-3, "{:?} {:?}", free.room(), under.room());
    assert!(over.room().unwrap() < under.room().unwrap() - 0.01, "{:?} {:?}", over.room(), under.room());
    assert!(!bracelet(", under a[n+2]").broken.is_empty());
}
