use super::same;
use byrnie::measure::{MATERIALS, material, materials_called, nearest_material, ring_grams};

/// Densities in g/cm³: least and most that the source gives.
const DENSITIES: [(&str, f64, f64); 18] = [
    // Element tables (`periodictable`, `mendeleev`).
    ("aluminium", 2.699, 2.699),
    ("copper", 8.96, 8.96),
    ("niobium", 8.57, 8.57),
    ("titanium", 4.51, 4.51),
    ("iron", 7.874, 7.874),
    ("fine silver", 10.49, 10.49),
    // Alloys by their number; brass by a producer's sheet.
    ("aluminium 1100", 2.71, 2.71),
    ("aluminium 5356", 2.64, 2.66),
    ("brass", 8.53, 8.53),
    ("phosphor bronze", 8.86, 8.86),
    ("sterling silver", 10.36, 10.36),
    ("stainless steel", 7.93, 8.00),
    ("stainless steel 316", 7.98, 8.00),
    ("mild steel", 7.85, 7.85),
    ("galvanised steel", 7.85, 7.85),
    ("14k gold", 13.07, 13.07),
    // From memory.
    ("rubber", 1.1, 1.3),
    ("nickel silver", 8.6, 8.8),
];

#[test]
fn densities_are_those_of_the_sources() {
    assert_eq!(DENSITIES.len(), MATERIALS.len());
    for (name, least, most) in DENSITIES {
        let found = material(name).unwrap_or_else(|| panic!("{name}"));
        assert!(same(found.density, f64::midpoint(least, most), 9), "{name}: {}", found.density);
        assert_eq!(
            least < most,
            found.source.contains("middle") || name == "nickel silver",
            "{name}: {}",
            found.source
        );
    }
}

/// Ideal mixing, 1/ρ = Σ wᵢ/ρᵢ, of 925 parts silver and 75 parts copper gives 10.357 g/cm³.
#[test]
fn sterling_is_nearly_an_ideal_mixture() {
    let mixed = 1.0 / (0.925 / 10.49 + 0.075 / 8.96);
    assert!(same(mixed, 10.357, 3), "{mixed}");
    assert!(same(material("sterling").unwrap().density, mixed, 2));
}

/// Sterling, wire 0.039 in, inner diameter 0.160 in: 0.1268 g, 223.6 rings an avoirdupois ounce
/// (28.349523125 g); a dealer's printed figure is 225.
#[test]
fn a_ring_weighs_what_a_torus_weighs() {
    let grams = ring_grams(material("sterling silver").unwrap().density, 0.039 * 25.4, 0.160 * 25.4);
    assert!(same(grams, 0.1268, 4), "{grams}");
    let an_ounce = 28.349_523_125 / grams;
    assert!(same(an_ounce, 223.6, 1), "{an_ounce}");
    assert!((an_ounce / 225.0 - 1.0).abs() < 0.01);
}

#[test]
fn names_are_as_makers_write_them() {
    for (words, name) in [
        ("Aluminum", "aluminium"),
        ("bright  aluminium", "aluminium"),
        ("anodised niobium", "niobium"),
        ("Enamelled Copper", "copper"),
        ("bronze", "phosphor bronze"),
        ("STERLING", "sterling silver"),
        ("EPDM", "rubber"),
        ("14k yellow gold", "14k gold"),
        ("galvanized steel", "galvanised steel"),
        ("stainless", "stainless steel"),
    ] {
        assert_eq!(material(words).map(|m| m.name), Some(name), "{words}");
    }
    for words in ["", "bright", "unobtainium", "steel", "silver", "gold"] {
        assert_eq!(material(words), None, "{words}");
    }
    assert_eq!(nearest_material("coper"), Some("copper"));
    assert_eq!(nearest_material("stirling silver"), Some("sterling silver"));
    assert_eq!(materials_called("silver"), ["fine silver", "nickel silver", "sterling silver"]);
}

/// Every name leads to one material only.
#[test]
fn no_two_materials_share_a_name() {
    let mut names: Vec<_> = MATERIALS.iter().flat_map(|m| m.also.iter().chain([&m.name])).collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
    assert!(MATERIALS.is_sorted_by_key(|m| m.name));
}
