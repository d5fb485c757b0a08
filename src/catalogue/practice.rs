//! What makers take: aspect ratios that are commonly used. Common practice, from memory, no source; nothing computed
//! rests on them. They are there to be held against what is computed, and a weave that does not agree is marked.

/// Aspect ratios in common use, least and greatest.
pub type Practice = [f64; 2];

const PRACTICE: &[(&str, Practice)] = &[
    ("2-in-2-chain", [3.0, 5.0]),
    ("box-chain", [3.9, 4.5]),
    ("byzantine-chain", [3.3, 4.0]),
    ("european-4-in-1-sheet", [3.1, 5.0]),
    ("european-4-in-1-strip", [3.1, 5.0]),
    ("european-6-in-1-sheet", [4.5, 6.0]),
    ("full-persian-6-in-1", [4.9, 6.0]),
    ("half-persian-3-in-1", [4.0, 5.0]),
    ("half-persian-3-in-1-leaning-right", [4.0, 5.0]),
    ("half-persian-4-in-1", [4.7, 5.8]),
    ("half-persian-4-in-1-leaning-right", [4.7, 5.8]),
    ("half-persian-sheet", [5.0, 6.0]),
    ("japanese-4-in-1-sheet", [2.8, 6.0]),
    ("japanese-6-in-1-sheet", [3.2, 6.0]),
    ("japanese-12-in-2-sheet", [4.5, 7.0]),
    ("loose-three-ring-spiral", [3.9, 5.5]),
    ("simple-chain", [2.5, 6.0]),
    ("three-ring-spiral", [2.8, 3.2]),
];

/// The aspect ratios makers commonly take for a built-in weave, by its short name; `None` where none are known.
pub fn practice(short: &str) -> Option<Practice> {
    PRACTICE.iter().find(|(name, _)| *name == short).map(|(_, practice)| *practice)
}
