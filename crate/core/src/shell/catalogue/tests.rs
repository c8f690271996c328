//! What every shell of the catalogue promises.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::curve::end_directions;
use super::{all, find};
use crate::geom::{Outline, Point, Vertex};
use crate::shell::{FacetKind, Shell};
use crate::units::constants::{CUBIC_FOOT, FOOT, GALLON, POUND, SQUARE_FOOT};

/// Length and width that a shell's note names, meters.
fn nominal(note: &str) -> (f64, f64) {
    let words: Vec<&str> = note.split([' ', ',']).collect();
    let x = words.iter().position(|w| *w == "x").unwrap();
    let feet = |w: &str| w.parse::<f64>().unwrap() * FOOT;
    (feet(words[x + 1]), feet(words[x - 1]))
}

#[test]
fn every_shell_is_valid_without_a_word() {
    for record in all() {
        let (_, cautions) =
            Shell::check(record).unwrap_or_else(|f| panic!("{}: {f:?}", record.name));
        assert!(cautions.is_empty(), "{}: {cautions:?}", record.name);
    }
}

#[test]
fn names_are_unique_and_found_and_sizes_ascend() {
    assert!(all().len() >= 16);
    for (i, record) in all().iter().enumerate() {
        assert!(all()[..i].iter().all(|other| other.name != record.name));
        assert_eq!(find(&record.name), Some(record));
    }
    assert_eq!(find("no such shell"), None);
    let areas: Vec<f64> = all().iter().map(super::water_area).collect();
    assert!(areas.is_sorted(), "{areas:?}");
}

#[test]
fn figures_are_those_of_a_shell_of_its_size() {
    println!("name        ft x ft      ft2     ft      ft3  gallons     lb  facets vertices");
    for record in all() {
        let (shell, _) = Shell::check(record).unwrap();
        let (length, width) = nominal(&record.note);
        let (low, high) = shell.footprint.bounds().unwrap();
        let size = high - low;
        let middle = low.midpoint(high);
        let name = &record.name;
        let area = shell.outline.area();
        let volume = shell.water_volume();
        let weight = record.weight.unwrap() / POUND;
        println!(
            "{name:<11} {:>5.2} x {:>5.2} {:>6.1} {:>6.1} {:>8.1} {:>8.0} {weight:>6.0} {:>7} {:>8}",
            size.x / FOOT,
            size.y / FOOT,
            area / SQUARE_FOOT,
            shell.outline.perimeter() / FOOT,
            volume / CUBIC_FOOT,
            volume / GALLON,
            record.floor.len(),
            record.floor.iter().map(|f| f.depths.len()).sum::<usize>(),
        );
        // As long and as wide as it says, to the inch... except free forms, to half a foot.
        let slack = if record.note.starts_with("Free") {
            0.5
        } else {
            1.0 / 12.0
        } * FOOT;
        assert!(
            (size.x - length).abs() < slack,
            "{name} length {}",
            size.x / FOOT
        );
        assert!(
            (size.y - width).abs() < slack,
            "{name} width {}",
            size.y / FOOT
        );
        assert!(
            middle.distance(Point::default()) < slack,
            "{name} is off its middle"
        );
        assert!(area > 0.6 * length * width && area <= length * width);
        // The flattened footprint keeps the outline's area to a square centimetre or so.
        assert!((shell.footprint.area() - area).abs() < 2e-4, "{name}");
        let mean = volume / area;
        assert!((2.0 * FOOT..6.0 * FOOT).contains(&mean), "{name}: {mean}");
        // Depths are written to the micrometre.
        let deepest = shell.deepest();
        assert!(
            (4.5 * FOOT - 2e-6..=6.5 * FOOT + 2e-6).contains(&deepest),
            "{name}: {deepest}"
        );
        assert!(
            (6.0..9.0).contains(&(weight / (area / SQUARE_FOOT))),
            "{name}"
        );
    }
}

#[test]
fn every_shell_has_steps_and_the_deep_end_lies_along_x() {
    for record in all() {
        let (shell, _) = Shell::check(record).unwrap();
        let mean_x = |kind: FacetKind| {
            let own: Vec<f64> = shell
                .facets
                .iter()
                .filter(|f| f.kind == kind)
                .map(|f| f.region.centroid().unwrap().x)
                .collect();
            (!own.is_empty()).then(|| own.iter().sum::<f64>() / own.len() as f64)
        };
        let steps = mean_x(FacetKind::Step).unwrap();
        let deep = mean_x(FacetKind::Deep).unwrap();
        assert!(steps < deep, "{}", record.name);
    }
}

#[test]
fn facets_cover_the_footprint_and_no_more() {
    for record in all() {
        let (shell, _) = Shell::check(record).unwrap();
        let covered: f64 = shell.facets.iter().map(|f| f.region.area()).sum();
        let whole = shell.footprint.area();
        assert!(
            (covered - whole).abs() < 1e-4,
            "{}: {covered} {whole}",
            record.name
        );
    }
}

#[test]
fn curved_outlines_have_no_corner() {
    for name in [
        "Tansy", "Betony", "Sorrel", "Yarrow", "Campion", "Toadflax", "Burdock", "Mugwort",
        "Ragwort",
    ]
    .into_iter()
    .chain(["Comfrey", "Bracken", "Hawkweed"])
    {
        let vertices = find(name).unwrap().outline.vertices();
        let n = vertices.len();
        for i in 0..n {
            let (a, b, c) = (vertices[i], vertices[(i + 1) % n], vertices[(i + 2) % n]);
            let (_, arriving) = end_directions(a, b.at);
            let (leaving, _) = end_directions(b, c.at);
            let corner = arriving.cross(leaving);
            assert!(
                corner.abs() < 1e-9 && arriving.dot(leaving) > 0.0,
                "{name} at {i}: {corner}"
            );
        }
    }
}

#[test]
fn outlines_meant_to_be_symmetric_are() {
    for name in [
        "Pignut",
        "Vetch",
        "Sedge",
        "Fescue",
        "Comfrey",
        "Speedwell",
        "Bracken",
        "Knapweed",
    ]
    .into_iter()
    .chain(["Tansy", "Sorrel", "Yarrow", "Toadflax"])
    {
        let outline = Outline::check(find(name).unwrap().outline.vertices()).unwrap();
        let mirrored = |v: &Vertex| Point::new(v.at.x, -v.at.y);
        for vertex in outline.vertices() {
            let twin = mirrored(vertex);
            assert!(
                outline
                    .vertices()
                    .iter()
                    .any(|v| v.at.distance(twin) < 1e-9),
                "{name} at {:?}",
                vertex.at
            );
        }
    }
}
