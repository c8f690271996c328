//! Sections of plain holes, worked out by hand.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::analysis::{self, Cache, Detail, Scenario};
use crate::geom::Vector;
use crate::ground::GroundRecord;
use crate::shell::ShellRecord;
use crate::site::{Placement, ShellChoice, Site};
use crate::units::constants::INCH;
use std::sync::Arc;

/// A shell of 8 x 4 m, 1 m deep at x = -4 and 2 m at x = 4, heading east, its rim at 10 m.
fn site(change: impl FnOnce(&mut Site)) -> CheckedSite {
    let record = serde_json::json!({
        "name": "plain",
        "outline": [[-4.0, -2.0], [4.0, -2.0], [4.0, 2.0], [-4.0, 2.0]],
        "stations": [{ "at": -4.0, "depth": 1.0 }, { "at": 0.0, "depth": 1.0 }, { "at": 1.0, "depth": 2.0 }, { "at": 4.0, "depth": 2.0 }],
        "coping_width": 0.25,
        "waterline": 0.15,
        "wall_thickness": 0.01,
    });
    let record: ShellRecord = serde_json::from_value(record).unwrap();
    let mut site = crate::site::starter::blank_lot();
    site.ground = Arc::new(GroundRecord::Level { elevation: 9.8 });
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Own(record)),
        at: Point::new(10.0, 12.0),
        heading: crate::math::TURN / 4.0,
        mirrored: false,
        coping_elevation: 10.0,
    });
    let mut works = (*site.works).clone();
    works.dig.side_slope = Some(1.0);
    works.dig.over_dig = 0.2;
    works.dig.base_thickness = 0.1;
    site.works = Arc::new(works);
    change(&mut site);
    CheckedSite::check(site, None).unwrap()
}

fn made(site: &CheckedSite) -> Analysis {
    let mut cache = Cache::default();
    analysis::run(&Scenario::of(site), Detail::Complete, &mut cache)
}

fn cut(site: &CheckedSite, line: Option<SectionLine>) -> Section {
    let analysis = made(site);
    let edges = Edges::of(site, &analysis, None);
    let line = line.or_else(|| standard(site, &analysis)).unwrap();
    Section::along(site, &analysis, edges.as_ref(), line).unwrap()
}

fn area(section: &Section, piece: Piece) -> f64 {
    section.region(piece).map_or(0.0, Region::area)
}

fn value(section: &Section, label: &str) -> Vec<f64> {
    let found = section.dimensions.iter().filter(|d| d.label == label);
    found.map(|d| d.value).collect()
}

/// A figure that is told for each side, A first.
fn both_sides(section: &Section, label: &str) -> Vec<f64> {
    let of = |side: &str| value(section, &format!("{label}, on the side of {side}"));
    ["A", "A′"].into_iter().flat_map(of).collect()
}

/// Run of the banks on level ground 0.2 m below the rim: the deck falls 1 in 48 over 48 in, and
/// the bank takes 3 m for every meter of what is left.
const RUN: f64 = 3.0 * (0.2 - INCH);

#[track_caller]
fn close(found: f64, wanted: f64, tolerance: f64) {
    assert!(
        (found - wanted).abs() <= tolerance,
        "{found} is not {wanted}"
    );
}

#[test]
fn the_standard_line_runs_along_the_shell_beyond_the_hole() {
    let site = site(|_| {});
    let section = cut(&site, None);
    close(section.line.from.y, 12.0, 1e-6);
    // From the middle 4 m, wall 0.01, over-dig 0.2; 0.91 and 1.91 m of side at 1:1. The rim at
    // 4.25, the deck 48 in beyond, its bank at 3:1: the toe lies farther out than the shallow end
    // of the hole, and less far than its deep end. 1.5 m more.
    close(
        section.line.from.x,
        10.0 - (4.25 + 48.0 * INCH + RUN + 1.5),
        0.02,
    );
    close(section.line.to.x, 10.0 + (4.21 + 1.91 + 1.5), 0.02);
}

#[test]
fn pieces_have_the_areas_of_a_cut_by_hand() {
    let section = cut(&site(|_| {}), None);
    // Inside: 4 x 1, 1 x 1.5, 3 x 2, less 0.15 m of air.
    close(area(&section, Piece::Water), 11.5 - 8.0 * 0.15, 1e-4);
    // Two walls to the floor and the floor 0.01 m plumb; the copings 0.25 x 0.01 each, over the wall.
    let walls = 0.01 * (1.01 + 2.01) + 8.0 * 0.01 + 2.0 * 0.24 * 0.01;
    close(area(&section, Piece::Shell), walls, 2e-4);
    // Collar 0.3048 square at both ends.
    close(
        area(&section, Piece::Collar),
        2.0 * 144.0 * INCH * INCH,
        1e-6,
    );
    close(
        area(&section, Piece::Deck),
        2.0 * 48.0 * 4.0 * INCH * INCH,
        1e-6,
    );
    close(
        area(&section, Piece::DeckBed),
        2.0 * 36.0 * 4.0 * INCH * INCH,
        1e-6,
    );
    // The base: 0.1 m plumb over 8.42 m; the reach makes the side of the slope thicker.
    let base = area(&section, Piece::Base);
    assert!(base > 0.842 && base < 0.842 + 0.4, "{base}");
    // The dig: under ground 0.2 m below the rim.
    let dig = area(&section, Piece::Dig);
    let shell = section.region(Piece::Shell).unwrap();
    assert!(shell.bounds().unwrap().0.y < 8.0);
    // Everything in the hole adds up: dig below the collar's underside is stone and body.
    let cap = 10.0 - 16.0 * INCH;
    let (stone, base) = (area(&section, Piece::Backfill), area(&section, Piece::Base));
    let body = 4.02 * (1.01 - 16.0 * INCH) + 4.0 * (2.01 - 16.0 * INCH) - 0.5;
    let above = dig - stone - base - body;
    // Above it the hole is 8.42 + 0.6036 + 1.6036 m wide at the cap and 0.4128 m more at the ground.
    let width = 8.42 + (1.11 - 16.0 * INCH) + (2.11 - 16.0 * INCH);
    let rise = 16.0 * INCH - 0.2;
    close(above, width * rise + rise * rise, 0.03);
    let _ = cap;
}

#[test]
fn dimensions_are_those_of_the_settings() {
    let section = cut(&site(|_| {}), None);
    close(
        value(&section, "depth of the hole, deepest")[0],
        2.11 - 0.2,
        1e-4,
    );
    close(
        value(&section, "depth of the hole, shallow end")[0],
        1.11 - 0.2,
        1e-4,
    );
    for side in ["A", "A′"] {
        let over = value(&section, &format!("over-dig, on the side of {side}"));
        assert_eq!(over.len(), 1);
        close(over[0], 0.2, 1e-4);
    }
    close(value(&section, "base")[0], 0.1, 1e-4);
    close(value(&section, "water")[0], 1.85, 1e-4);
    close(value(&section, "freeboard")[0], 0.15, 1e-9);
    for side in ["A", "A′"] {
        let label = format!("coping above the ground, on the side of {side}");
        let coping = value(&section, &label);
        assert_eq!(coping.len(), 1);
        close(coping[0], 0.2, 1e-9);
    }
    // No figure is told twice under one name.
    let mut labels: Vec<&str> = section.dimensions.iter().map(|d| d.label).collect();
    labels.sort_unstable();
    labels.dedup();
    assert_eq!(labels.len(), section.dimensions.len());
    assert_eq!(section.dimensions[0].text, "6'-3 3/16\"");
}

#[test]
fn a_line_across_and_one_beside_the_shell() {
    let across = SectionLine {
        from: Point::new(13.0, 4.0),
        to: Point::new(13.0, 20.0),
    };
    let section = cut(&site(|_| {}), Some(across));
    close(area(&section, Piece::Water), 4.0 * 1.85, 1e-4);
    close(section.length, 16.0, 1e-9);
    let beside = SectionLine {
        from: Point::new(-9.0, 30.0),
        to: Point::new(30.0, 31.0),
    };
    let section = cut(&site(|_| {}), Some(beside));
    assert_eq!(section.pieces.len(), 1);
    assert_eq!(section.dimensions, []);
}

#[test]
fn the_ground_bends_where_its_surface_does() {
    let site = site(|site| {
        let spots = vec![
            [-20.0, -20.0, 9.0],
            [40.0, -20.0, 9.0],
            [40.0, 40.0, 10.0],
            [-20.0, 40.0, 10.0],
            [10.0, 11.0, 9.6],
        ];
        site.ground = Arc::new(GroundRecord::of_spots(spots));
    });
    let section = cut(&site, None);
    for p in &section.ground {
        let at = section.line.from + (section.line.to - section.line.from) * (p.x / section.length);
        close(p.y, site.ground().height(at).elevation, 1e-9);
    }
    assert!(section.ground.len() >= 4);
    // Pieces under the ground stay under it.
    let dig = section.region(Piece::Dig).unwrap();
    let highest = section.ground.iter().map(|p| p.y).fold(0.0, f64::max);
    assert!(dig.bounds().unwrap().1.y <= highest + 1e-6);
}

/// Depths in the hole, one by one, against those of its shape.
#[test]
fn the_hole_is_as_deep_as_its_shape_says() {
    let site = site(|_| {});
    let analysis = made(&site);
    let edges = Edges::of(&site, &analysis, None).unwrap();
    let (shell, placement) = site.placed_shell().unwrap();
    let shape = crate::dig::DigShape::new(shell, &site.site().works.dig, 1.0);
    let pose = placement.pose();
    for (a, b) in [
        ((2.0, 12.5), (18.0, 11.0)),
        ((4.0, 5.0), (16.0, 20.0)),
        ((13.5, 0.0), (12.0, 25.0)),
    ] {
        let ends = [a, b].map(|(x, y)| pose.shell_from_site(Point::new(x, y)));
        let cut = super::line::Cut::between(ends[0], ends[1]).unwrap();
        let hole = edges.along(&cut);
        for k in 0..200 {
            let s = cut.length * f64::from(k) / 200.0;
            let depth = shape.depth(cut.at(s));
            if depth < 0.05 {
                continue;
            }
            let inside = |depth: f64| hole.contains(Point::new(s, -depth));
            assert!(inside(depth - 0.006), "at {s}: less than {depth}");
            assert!(!inside(depth + 0.006), "at {s}: more than {depth}");
        }
    }
}

#[test]
fn a_shell_that_leans_and_is_rounded_is_cut_so() {
    let site = site(|site| {
        let mut placement = site.placement.clone().unwrap();
        let ShellChoice::Own(record) = &*placement.shell else {
            return;
        };
        let mut record = record.clone();
        (record.draft, record.cove) = (0.1, 0.2);
        placement.shell = Arc::new(ShellChoice::Own(record));
        site.placement = Some(placement);
    });
    let across = SectionLine {
        from: Point::new(13.0, 4.0),
        to: Point::new(13.0, 20.0),
    };
    let section = cut(&site, Some(across));
    let water = area(&section, Piece::Water);
    // A trapezium of 4 m less twice the lean, less two fillets.
    let fillet = 0.2
        * 0.2
        * (crate::math::tan(core::f64::consts::FRAC_PI_4 - crate::math::atan(0.1) / 2.0)
            - (core::f64::consts::FRAC_PI_2 - crate::math::atan(0.1)) / 2.0);
    let widths = (4.0 - 0.2 * 0.15) + (4.0 - 0.2 * 2.0);
    close(water, widths / 2.0 * 1.85 - 2.0 * fillet, 2e-3);
}

#[test]
fn no_shell_leaves_the_ground_alone() {
    let site = site(|site| site.placement = None);
    let analysis = made(&site);
    assert_eq!(standard(&site, &analysis), None);
    let line = SectionLine {
        from: Point::new(0.0, 0.0),
        to: Point::new(10.0, 0.0),
    };
    let section = Section::along(&site, &analysis, None, line).unwrap();
    assert_eq!(section.pieces.len(), 1);
    let nowhere = SectionLine {
        to: line.from,
        ..line
    };
    assert_eq!(Section::along(&site, &analysis, None, nowhere), None);
}

#[test]
fn ticks_stand_at_whole_steps() {
    use crate::units::{Measure, System};
    let found = ticks(Measure::LongLength, 0.2, 3.0, 0.9, System::Metres);
    let at: Vec<f64> = found.iter().map(|t| t.at).collect();
    assert_eq!(at, [1.0, 2.0, 3.0]);
    let found = ticks(Measure::LongLength, 0.0, 6.0, 1.0, System::Feet);
    assert_eq!(found[1].text, "5.00 ft");
    assert_eq!(ticks(Measure::Length, 3.0, 1.0, 0.1, System::Feet), []);
}

#[test]
fn banks_run_out_from_the_deck_to_their_toes() {
    let section = cut(&site(|_| {}), None);
    assert_eq!(section.banks.len(), 2);
    let runs = both_sides(&section, "bank of fill, out to its toe");
    assert_eq!(runs.len(), 2);
    for run in runs {
        close(run, RUN, 2e-3);
    }
    let left = section.banks.first().unwrap();
    let (toe, edge) = (left.first().unwrap(), left.last().unwrap());
    close(toe.y, 9.8, 1e-3);
    close(edge.y, 10.0 - INCH, 1e-3);
    // In the middle of the left bank fill, and none above it.
    let fill = section.region(Piece::Fill).unwrap();
    let (x, y) = (toe.x.midpoint(edge.x), toe.y.midpoint(edge.y));
    assert!(fill.contains(Point::new(x, y - 0.005)));
    assert!(!fill.contains(Point::new(x, y + 0.005)));
    // The ground stays up to the toe, and beyond the hole at the other end.
    let (first, last) = (
        section.stays.first().unwrap(),
        section.stays.last().unwrap(),
    );
    close(first.1, toe.x, 2e-3);
    close(section.length - last.0, 1.5, 0.02);
    // Ground above the deck is cut back.
    let high = site(|site| site.ground = Arc::new(GroundRecord::Level { elevation: 10.4 }));
    let section = cut(&high, None);
    for run in both_sides(&section, "bank of cut, out to its top") {
        close(run, 3.0 * (0.4 + INCH), 2e-3);
    }
    let upright = site(|site| {
        let mut works = (*site.works).clone();
        works.grading.bank_slope = 0.0;
        site.works = Arc::new(works);
    });
    assert!(cut(&upright, None).banks.is_empty());
}

/// A site whose deck is drawn out to the east, with an opening and steps, on ground that falls.
fn drawn() -> CheckedSite {
    site(|site| {
        let area = |id: &str, kind: &str, [x, y, u, v]: [f64; 4]| {
            serde_json::json!({ "id": id, "kind": kind,
                                "shape": { "area": [[x, y], [u, y], [u, v], [x, v]] } })
        };
        let features = serde_json::json!([
            area("d", "deck", [12.0, 10.0, 19.0, 17.0]),
            area("o", "deck-opening", [16.0, 11.5, 16.5, 12.5]),
            area("s", "deck-steps", [18.0, 11.0, 19.0, 13.0]),
        ]);
        site.features = Arc::new(serde_json::from_value(features).unwrap());
        let spots = vec![
            [-20.0, -20.0, 10.3],
            [40.0, -20.0, 9.2],
            [40.0, 40.0, 8.9],
            [-20.0, 40.0, 10.1],
            [9.0, 20.0, 9.6],
            [20.0, 9.0, 9.7],
        ];
        site.ground = Arc::new(GroundRecord::of_spots(spots));
    })
}

#[test]
fn a_drawn_deck_stands_at_its_level_but_for_its_openings() {
    let section = cut(&drawn(), None);
    let inch = INCH;
    // At the left the ring's 48 in; at the right from the rim at 14.25 to the steps at 18.
    let slab = 48.0 * inch + (18.0 - 14.25) - 0.5;
    close(area(&section, Piece::Deck), slab * 4.0 * inch, 1e-4);
    close(area(&section, Piece::Steps), 4.0 * inch, 1e-4);
    // The collar takes 12 in of the bed at either end.
    let bed = slab + 1.0 - 24.0 * inch;
    close(area(&section, Piece::DeckBed), bed * 4.0 * inch, 1e-4);
    // 2.5 m from the rim it has fallen 1 in 48 of that.
    let deck = section.region(Piece::Deck).unwrap();
    let s = 10.0 + 4.25 + 2.5 - section.line.from.x;
    let top = 10.0 - 2.5 / 48.0;
    assert!(deck.contains(Point::new(s, top - 0.002)));
    assert!(!deck.contains(Point::new(s, top + 0.002)));
    assert!(!deck.contains(Point::new(
        16.25 - section.line.from.x,
        10.0 - 2.0 / 48.0 - 0.02
    )));
    // The bank starts at the drawn edge.
    let bank = section.banks.last().unwrap();
    close(bank.first().unwrap().x, 19.0 - section.line.from.x, 2e-3);
    close(bank.first().unwrap().y, 10.0 - 4.75 / 48.0, 2e-3);
}

/// Cut and fill of sections side by side, summed up, against those of the grading, which goes over
/// the site cell by cell; and the ends of banks against its lines.
#[test]
fn the_finished_ground_is_that_of_the_grading() {
    let site = drawn();
    let analysis = made(&site);
    let grading = analysis.grading.as_ref().unwrap();
    let edges = Edges::of(&site, &analysis, None);
    let pose = site.placed_shell().unwrap().1.pose();
    let plan = analysis.deck.as_ref().unwrap();
    let paved = plan.steps.iter().fold(plan.slab.clone(), |all, flight| {
        crate::geom::boolean::union(&all, &flight.region)
    });
    let deck = crate::geom::Edges::of_region(&paved.posed(&pose));
    let apart = 0.1;
    let (mut fill, mut moved, mut ends) = (0.0, 0.0, 0);
    // Askew to every edge, so that none of them falls between two lines all along.
    let along = Vector::along_bearing(1.0);
    for k in 0..360 {
        let aside = along.left() * (apart * (f64::from(k) - 179.5));
        let middle = Point::new(13.0, 12.0) + aside;
        let line = SectionLine {
            from: middle - along * 18.0,
            to: middle + along * 18.0,
        };
        let made = &analysis;
        let section = Section::along(&site, made, edges.as_ref(), line).unwrap();
        let soil = section.region(Piece::Soil).unwrap();
        let bottom = soil.bounds().unwrap().0.y;
        let pairs = section.ground.windows(2);
        let whole: f64 = pairs
            .map(|w| (w[1].x - w[0].x) * (w[0].y.midpoint(w[1].y) - bottom))
            .sum();
        fill += area(&section, Piece::Fill) * apart;
        moved += (whole - soil.area() - area(&section, Piece::Dig)) * apart;
        for bank in &section.banks {
            for end in [bank[0], bank[bank.len() - 1]] {
                let at = line.from + along * end.x;
                // Where a bank ends off the deck the plan has its line.
                if deck.distance(at) < 0.15 {
                    continue;
                }
                let lines = grading.toe.lines.iter().chain(&grading.crest.lines);
                let off = lines.map(|chain| crate::geom::Edges::of_chain(chain).distance(at));
                let off = off.fold(f64::INFINITY, f64::min);
                assert!(off < 0.06, "at {at:?}: {off}");
                ends += 1;
            }
        }
    }
    assert!(ends > 100, "{ends}");
    close(fill / grading.fill(), 1.0, 0.01);
    close(moved, grading.cut(), 0.01 * grading.fill());
}
