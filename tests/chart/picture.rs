//! A chart read back from its SVG.

use roxmltree::Document;

/// A circle of a row: name, centre and radius in mm.
pub struct Circle {
    pub name: String,
    pub at: [f64; 2],
    pub radius: f64,
}

/// A mark: the ring that goes, those it goes through, down or up, and where.
pub struct Mark {
    pub ring: String,
    pub passes: Vec<String>,
    pub sense: String,
    pub at: [f64; 2],
}

impl Circle {
    /// How deep a point lies inside, in radii.
    pub fn depth(&self, at: [f64; 2]) -> f64 {
        1.0 - libm::hypot(at[0] - self.at[0], at[1] - self.at[1]) / self.radius
    }
}

fn number(node: &roxmltree::Node, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

/// Width and height of the view box.
pub fn view_box(svg: &Document) -> [f64; 2] {
    let parts: Vec<f64> =
        svg.root_element().attribute("viewBox").unwrap().split(' ').map(|n| n.parse().unwrap()).collect();
    assert_eq!(parts[..2], [0.0, 0.0]);
    [parts[2], parts[3]]
}

/// Every circle.
pub fn circles(svg: &Document) -> Vec<Circle> {
    let drawn = svg.descendants().filter(|n| n.has_attribute("data-cx"));
    let circle = |n: roxmltree::Node| Circle {
        name: n.attribute("data-ring").unwrap().to_owned(),
        at: [number(&n, "data-cx"), number(&n, "data-cy")],
        radius: number(&n, "data-r"),
    };
    drawn.map(circle).collect()
}

/// Every mark.
pub fn marks(svg: &Document) -> Vec<Mark> {
    let drawn = svg.descendants().filter(|n| n.has_attribute("data-sense"));
    let mark = |n: roxmltree::Node| Mark {
        ring: n.attribute("data-ring").unwrap().to_owned(),
        passes: n.attribute("data-passes").unwrap().split("; ").map(str::to_owned).collect(),
        sense: n.attribute("data-sense").unwrap().to_owned(),
        at: [number(&n, "data-x"), number(&n, "data-y")],
    };
    drawn.map(mark).collect()
}

/// The corners of the box round an element: all numbers of a path lie in its hull; words are reckoned
/// at half an em a letter.
pub fn corners(node: &roxmltree::Node) -> Option<[[f64; 2]; 2]> {
    let round = |points: Vec<[f64; 2]>, by: f64| {
        let fold = |f: fn(f64, f64) -> f64, i: usize| points.iter().map(|p| p[i]).reduce(f).unwrap();
        [[fold(f64::min, 0) - by, fold(f64::min, 1) - by], [fold(f64::max, 0) + by, fold(f64::max, 1) + by]]
    };
    match node.tag_name().name() {
        "path" => {
            let data = node.attribute("d").unwrap().replace(['M', 'C', 'L', 'Z'], " ");
            let numbers: Vec<f64> = data.split_whitespace().map(|n| n.parse().unwrap()).collect();
            let points = numbers.chunks(2).map(|p| [p[0], p[1]]).collect();
            Some(round(points, number(node, "stroke-width") / 2.0))
        }
        "text" => {
            let size = number(node, "font-size");
            let wide = 0.5 * size * node.text().unwrap_or("").chars().count() as f64;
            let left = if node.has_attribute("text-anchor") { wide / 2.0 } else { 0.0 };
            let (x, y) = (number(node, "x") - left, number(node, "y"));
            Some([[x, y - size * 0.8], [x + wide, y + size * 0.25]])
        }
        "rect" => Some(round(vec![[0.0, 0.0], [number(node, "width"), number(node, "height")]], 0.0)),
        _ => None,
    }
}
