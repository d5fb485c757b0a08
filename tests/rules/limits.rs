//! A limit is the largest number that is allowed: that many are no fault, and one more is.

use byrnie::pattern::{Bases, Found, MOST_BAGS, MOST_BASES, MOST_EXTRAS, MOST_FAMILIES, MOST_SETS};
use byrnie::text::Source;
use byrnie::{Library, Weave, lint};

const CHAIN: &str =
    "weave \"Harbour chain\"\nring a main, closed\nring b main, open\nrepeat n\n  b[n] down a[n], a[n+1]\n";

/// A name of letters alone, since the digits at the end of a name are those of a repeat.
fn name(mut number: usize) -> String {
    let mut letters = String::from("z");
    while number > 0 {
        letters.push(char::from(b'a' + u8::try_from(number % 10).unwrap()));
        number /= 10;
    }
    letters
}

fn lines(head: &str, how_many: usize, line: impl Fn(usize) -> String) -> String {
    head.to_owned() + &(1..=how_many).map(|n| line(n) + "\n").collect::<String>()
}

/// What the rule on numbers of rings says of a text.
fn blamed(text: &str) -> Vec<String> {
    let weave = Weave::compile(Source::new("test.weave", text), &Library);
    let found = lint::check(&weave);
    found.into_iter().filter(|f| f.rule == "too-many-rings").map(|f| f.message).collect()
}

#[test]
fn each_limit_is_the_largest_number_allowed() {
    type Text<'t> = &'t dyn Fn(usize) -> String;
    let sets = format!("{CHAIN}make\n  repeats 9\n");
    let ends = format!("{CHAIN}make\n  repeats 900\nends\n");
    let families: Text<'_> = &|n| lines("weave \"x\"\n", n, |i| format!("ring {} main, open", name(i)));
    let sets: Text<'_> = &|n| lines(&sets, n, |i| format!("rings \"s{i}\"\n  main AR {}", 5 + i));
    let bags: Text<'_> = &|n| lines(&format!("{CHAIN}make\n  repeats 3\n"), n, |i| format!("  \"bag {i}\" pieces 2"));
    let ends: Text<'_> = &|n| lines(&ends, n, |i| format!("  close b[{i}]"));
    let accents: Text<'_> = &|n| lines(CHAIN, n, |_| "accent every 1, from 1\n  b[n] over a[n+2]".to_owned());
    for (most, text, message) in [
        (MOST_FAMILIES, families, "more than 500 families of rings"),
        (MOST_SETS, sets, "more than 12 sets of rings"),
        (MOST_BAGS, bags, "more than 200 bags"),
        (MOST_EXTRAS, ends, "more than 200 accents or rings named in `ends`"),
        (MOST_EXTRAS, accents, "more than 200 accents or rings named in `ends`"),
    ] {
        assert_eq!(blamed(&text(most)), [] as [&str; 0]);
        assert_eq!(blamed(&text(most + 1)), [message]);
    }
}

/// Weaves called 1, 2, 3 and so on, each built on the next, as far as `0`.
struct Tower(usize);

impl Bases for Tower {
    fn find(&self, name: &str) -> Found {
        let number: usize = name.parse().unwrap();
        let base = if number < self.0 { format!("base \"{}\"\n", number + 1) } else { String::new() };
        Found::Text(Source::new(name, format!("{base}ring {} main, open\n", self::name(number))))
    }
}

#[test]
fn bases_go_as_deep_as_the_limit() {
    let blamed = |bases: usize| -> Vec<String> {
        let weave = Weave::compile(Source::new("test.weave", "base \"1\"\n"), &Tower(bases));
        let found = lint::check(&weave);
        found.into_iter().filter(|f| f.rule == "unknown-base").map(|f| f.message).collect()
    };
    assert_eq!(blamed(MOST_BASES), [] as [&str; 0]);
    assert_eq!(blamed(MOST_BASES + 1), ["more than 16 weaves are based on one another"]);
}
