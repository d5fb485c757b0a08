//! What must always hold, on made-up weaves, mutated examples and noise.

use crate::common::{compile_alone, examples, lint_json, page_fences, valid_json};
use byrnie::notation::{read, tidy};
use byrnie::text::Source;
use byrnie::weave::graph_json;
use byrnie::{lint, report};
use proptest::prelude::*;

/// Everything the program does with a text, short of writing files.
fn everything(text: &str) {
    let weave = compile_alone(text);
    // Without settling, which would take hours.
    let findings = lint::check_up_to(&weave, lint::Needs::Graph);
    report::plain(weave.sources(), &findings);
    valid_json(&lint_json(weave.sources(), &findings));
    let mut log = report::Sarif::default();
    log.add(weave.sources(), &findings, &[]);
    log.log(&lint::pages());
    let (tree, faults) = read(0, text);
    if faults.is_empty() {
        let once = tidy(&tree);
        let (again, faults) = read(0, &once);
        assert!(faults.is_empty(), "{text}\n---\n{once}\n{faults:?}");
        assert_eq!(tidy(&again), once, "{text}");
        assert_eq!(
            graph_json(&compile_alone(text), None),
            graph_json(&compile_alone(&once), None),
            "{text}\n---\n{once}"
        );
    }
    for fix in findings.iter().filter_map(|f| f.fix.as_ref()) {
        let _ = fix.apply(0, text);
    }
}

fn known_texts() -> Vec<String> {
    let mut texts: Vec<String> = examples().iter().map(|(_, t)| (*t).to_owned()).collect();
    texts.extend(page_fences());
    texts
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn noise_never_panics(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        match Source::from_bytes("noise", bytes) {
            Ok(source) => everything(source.text()),
            Err(error) => prop_assert!(error.to_string().contains("UTF-8")),
        }
    }

    #[test]
    fn noise_of_the_notation_never_panics(text in "([a-c ]|\\[n\\]|\\[n\\+1\\]|down |up |through |around |eye\\(|\\)|, |\n|ring |main|closed|repeat n|rings\n|wire 1 mm|3/8 in|18 gauge|measured inner |gauges swg\n|claim |make\n|repeats 3|far side|over |lay |behind |ends\n|drop |last|\"|#|:){0,60}") {
        everything(&text);
    }

    #[test]
    fn mutated_examples_never_panic(pick in any::<prop::sample::Index>(), at in any::<prop::sample::Index>(), cut in 0_usize..12, put in "\\PC{0,4}") {
        let texts = known_texts();
        let text = pick.get(&texts);
        let places: Vec<usize> = text.char_indices().map(|(i, _)| i).collect();
        let start = *at.get(&places);
        let end = places.iter().copied().filter(|p| *p >= start).nth(cut).unwrap_or(text.len());
        everything(&format!("{}{put}{}", &text[..start], &text[end..]));
    }

    #[test]
    fn shuffled_lines_of_examples_never_panic(pick in any::<prop::sample::Index>(), order in proptest::collection::vec(any::<u32>(), 40)) {
        let texts = known_texts();
        let mut lines: Vec<(u32, &str)> = pick.get(&texts).lines().enumerate().map(|(i, l)| (order[i % 40], l)).collect();
        lines.sort_unstable();
        everything(&lines.iter().map(|(_, l)| *l).collect::<Vec<_>>().join("\n"));
    }
}

/// A made-up chain: which ring passes which, how many repeats away, and whether down.
#[derive(Clone, Debug)]
struct Chain {
    rings: usize,
    links: Vec<(usize, usize, i32, bool)>,
}

impl Chain {
    /// The links without doubles and rings through themselves.
    fn clean(mut self) -> Self {
        let mut seen = std::collections::BTreeSet::new();
        self.links.retain(|(a, b, k, _)| {
            let key = if (a, b, *k) <= (b, a, -k) { (*a, *b, *k) } else { (*b, *a, -k) };
            (a != b || *k != 0) && seen.insert(key)
        });
        self
    }

    fn text(&self, names: &[&str]) -> String {
        let mut text = format!("ring {}\nrepeat n\n", names[..self.rings].join(", "));
        for (a, b, k, down) in &self.links {
            let word = if *down { "down" } else { "up" };
            text += &format!("{}[n] {word} {}[n{k:+}]\n", names[*a], names[*b]);
        }
        text
    }
}

fn chains(most: usize) -> impl Strategy<Value = Chain> {
    (1_usize..=most).prop_flat_map(|rings| {
        proptest::collection::vec((0..rings, 0..rings, -2_i32..3, any::<bool>()), 1..8)
            .prop_map(move |links| Chain { rings, links }.clean())
    })
}

const NAMES: [&str; 5] = ["a", "b", "c", "d", "e"];

proptest! {
    #![proptest_config(ProptestConfig { cases: 250, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_fingerprint_does_not_see_names_order_counting_or_turning_over(
        chain in chains(4),
        keys in proptest::collection::vec(any::<u32>(), 16),
        shifts in proptest::collection::vec(-3_i32..4, 5),
        over in proptest::collection::vec(any::<bool>(), 5),
        every_second in any::<bool>(),
        end_for_end in any::<bool>(),
        from_other_side in proptest::collection::vec(any::<bool>(), 8),
    ) {
        let one = compile_alone(&chain.text(&NAMES)).fingerprint();
        let mut names: Vec<(u32, &str)> = ["v", "w", "x", "y", "z"].iter().enumerate().map(|(i, n)| (keys[i], *n)).collect();
        names.sort_unstable();
        let names: Vec<&str> = names.into_iter().map(|(_, n)| n).collect();
        let mut other = chain.clone();
        for (i, (a, b, k, down)) in other.links.iter_mut().enumerate() {
            // Each family is counted from another repeat, some rings are turned over, the piece is turned.
            *k += shifts[*b] - shifts[*a];
            *down ^= over[*a] ^ over[*b] ^ (every_second && *k % 2 != 0);
            if end_for_end {
                *k = -*k;
            }
            if from_other_side[i] {
                (*a, *b, *k) = (*b, *a, -*k);
            }
        }
        let mut order: Vec<_> = other.links.iter().copied().enumerate().map(|(i, l)| (keys[i + 5], l)).collect();
        order.sort_unstable();
        other.links = order.into_iter().map(|(_, l)| l).collect();
        let two = compile_alone(&other.text(&names)).fingerprint();
        prop_assert_eq!(&one, &two, "{}\n{}", chain.text(&NAMES), other.text(&names));
        // Every sign turned is the mirror image.
        let mut mirror = chain.clone();
        mirror.links.iter_mut().for_each(|l| l.3 = !l.3);
        let mirrored = compile_alone(&mirror.text(&NAMES)).fingerprint();
        prop_assert_eq!(one.as_ref().map(|f| (&f.weave, &f.mirror)), mirrored.as_ref().map(|f| (&f.mirror, &f.weave)));
    }

    #[test]
    fn a_chain_written_over_two_repeats_is_the_same_chain(chain in chains(2)) {
        let one = compile_alone(&chain.text(&NAMES)).fingerprint();
        let mut text = format!("ring {}\nrepeat n\n", (0..chain.rings).map(|r| format!("{0}o, {0}e", NAMES[r])).collect::<Vec<_>>().join(", "));
        for (a, b, k, down) in &chain.links {
            for half in 0..2 {
                let to = half + k;
                let name = |ring: usize, half: i32| format!("{}{}", NAMES[ring], if half == 0 { "o" } else { "e" });
                text += &format!("{}[n] {} {}[n{:+}]\n", name(*a, half), if *down { "down" } else { "up" }, name(*b, to.rem_euclid(2)), to.div_euclid(2));
            }
        }
        let weave = compile_alone(&text);
        // A chain that falls into two strands is twice one chain of half the density; only joined ones compare.
        prop_assume!(!lint::check_up_to(&weave, lint::Needs::Graph).iter().any(|f| ["repeats-apart", "separate-parts", "unused-ring", "held-by-nothing"].contains(&f.rule)));
        prop_assert_eq!(one, weave.fingerprint(), "{}\n{}", chain.text(&NAMES), text);
    }
}
