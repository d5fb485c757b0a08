//! Words, phrases and tables.

use byrnie::text::{Grid, Layout, count, fixed, half_up, list, round_up, short_name, singular_or_plural, trimmed};
use proptest::prelude::*;

#[test]
fn counts_agree_with_their_nouns() {
    for (n, one, words) in [
        (1, "ring", "1 ring"),
        (0, "ring", "0 rings"),
        (3, "ring", "3 rings"),
        (1, "pass", "1 pass"),
        (2, "pass", "2 passes"),
        (2, "mesh", "2 meshes"),
        (2, "box", "2 boxes"),
        (2, "family", "2 families"),
        (2, "way", "2 ways"),
    ] {
        assert_eq!(count(n, one), words);
    }
    assert_eq!(["is", "are"], [1_usize, 2].map(|n| singular_or_plural(n, "is", "are")));
    assert_eq!((count(2_usize, "ring"), count(1_u64, "ring")), ("2 rings".to_owned(), "1 ring".to_owned()));
}

#[test]
fn lists_end_in_their_joint() {
    assert_eq!(list::<&str>(&[], "and"), "");
    assert_eq!(list(&["a"], "and"), "a");
    assert_eq!(list(&["a", "b"], "or"), "a or b");
    assert_eq!(list(&["a".to_owned(), "b".to_owned(), "c".to_owned()], "and"), "a, b and c");
}

#[test]
fn numbers_are_rounded_the_way_people_round() {
    for (value, decimals, rounded) in [(9.525, 2, 9.53), (1.005, 2, 1.01), (-1.25, 1, -1.3), (2.4, 0, 2.0)] {
        assert!((half_up(value, decimals) - rounded).abs() < 1e-12, "{value}");
    }
    assert_eq!([fixed(Some(9.525), 2), fixed(Some(3.0), 1), fixed(None, 2)], ["9.53", "3.0", "?"]);
    let written = [(9.5, 2), (9.0, 2), (9.256, 2), (10.0, 0), (100.0, 1)].map(|(value, most)| trimmed(value, most));
    assert_eq!(written, ["9.5", "9", "9.26", "10", "100"]);
    // What is a multiple already stays, though it cannot be written in binary.
    for (value, step, up) in
        [(7.01, 0.5, 7.5), (7.5, 0.5, 7.5), (0.29, 0.01, 0.29), (0.291, 0.01, 0.3), (0.0, 1.0, 0.0)]
    {
        assert!((round_up(value, step) - up).abs() < 1e-9, "{value} {step}: {}", round_up(value, step));
    }
}

#[test]
fn names_of_files_are_short() {
    assert_eq!(short_name("Half Persian 3-in-1"), "half-persian-3-in-1");
    assert_eq!(short_name("  Überwurf, 2. Teil! "), "überwurf-2-teil");
    assert_eq!(short_name("!"), "");
}

#[test]
fn one_table_in_every_layout() {
    let shown = |layout| {
        let mut grid = Grid::new(layout).words(["kind", "colour"]).numbers(["rings"]).words(["remarks"]);
        grid.row(["main", "red|blue", "9", ""].map(str::to_owned));
        grid.row(["accent", "teal", "120", "open"].map(str::to_owned));
        grid.text()
    };
    assert_eq!(
        shown(Layout::Plain),
        "kind    colour    rings  remarks\nmain    red|blue      9\naccent  teal        120  open\n\n"
    );
    assert_eq!(
        shown(Layout::Markdown),
        "| kind   | colour    | rings | remarks |\n|--------|-----------|------:|---------|\n\
         | main   | red\\|blue |     9 |         |\n| accent | teal      |   120 | open    |\n\n"
    );
    assert_eq!(
        shown(Layout::CompactMarkdown),
        "| kind | colour | rings | remarks |\n| --- | --- | --: | --- |\n\
         | main | red\\|blue | 9 |  |\n| accent | teal | 120 | open |\n\n"
    );
}

proptest! {
    /// Rounding up gives no less than the value, and less than a step more.
    #[test]
    fn round_up_is_the_next_multiple(value in 0.0..1e4, step in 0.01..10.0) {
        let up = round_up(value, step);
        prop_assert!(up >= value - 2e-6 * step && up < value + step);
        prop_assert!((up / step - (up / step).round()).abs() < 1e-6);
    }

    #[test]
    fn trimming_changes_no_value(hundredths in 0_i32..1_000_000) {
        let value = f64::from(hundredths) / 100.0;
        prop_assert!((trimmed(value, 2).parse::<f64>().unwrap() - value).abs() < 1e-12);
    }
}
