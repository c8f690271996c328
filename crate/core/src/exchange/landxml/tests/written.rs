//! Demo sites out and in again.

use super::super::mesh;
use super::*;
use crate::exchange::open;
use crate::geom::Point;
use crate::ground::Ground;
use crate::lot::{CourseShape, Traverse};
use crate::site::{Grid, GridUnit, Site};

/// What a round trip may cost, meters.
const ROUND_TRIP: f64 = 1e-4;

#[test]
fn a_moment_is_a_date_and_a_time() {
    let moment = |seconds| {
        let Moment { date, time } = Moment::of_unix(seconds);
        format!("{date}T{time}")
    };
    // As `date -u -d @SECONDS` of GNU coreutils says.
    assert_eq!(moment(0), "1970-01-01T00:00:00");
    assert_eq!(moment(951_782_399), "2000-02-28T23:59:59");
    assert_eq!(moment(951_868_800), "2000-03-01T00:00:00");
    assert_eq!(moment(1_790_000_000), "2026-09-21T14:13:20");
    assert_eq!(moment(4_107_542_400), "2100-03-01T00:00:00");
}

#[test]
fn every_demo_site_comes_back_as_it_was() {
    for (name, text) in DEMOS {
        for unit in [GridUnit::Feet, GridUnit::SurveyFeet, GridUnit::Metres] {
            let site = open(text).unwrap().site;
            let choice = Choice {
                unit,
                ..Choice::usual(&site)
            };
            let (survey, changes) = brought(&written(&site, choice));
            let odd: Vec<&Finding> = survey
                .draft
                .findings
                .iter()
                .filter(|it| it.is_fault())
                .collect();
            assert!(odd.is_empty(), "{name}: {odd:?}");
            same_lot(name, site.site(), &changes);
            same_ground(name, &site, &changes);
            let features = changes.features.unwrap();
            assert_eq!(features.len(), told_features(&site), "{name}");
            let mark = site.site().benchmark.as_ref().filter(|it| it.at.is_some());
            assert_eq!(changes.benchmark.is_some(), mark.is_some(), "{name}");
            if let (Some(before), Some(after)) = (mark, changes.benchmark) {
                assert!(before.at.unwrap().distance(after.at.unwrap()) < ROUND_TRIP);
                assert!((before.elevation - after.elevation).abs() < ROUND_TRIP);
            }
        }
    }
}

/// How many features a file has: what has neither area nor line is not written.
fn told_features(site: &CheckedSite) -> usize {
    let figures = crate::exchange::Figures::of(site, None);
    let told = figures.features.iter();
    told.filter(|it| it.line.len() > 1 || !it.areas.is_empty())
        .count()
}

fn same_lot(name: &str, site: &Site, changes: &Changes) {
    let corners = |lot: &crate::lot::LotRecord| match lot.balance {
        Some(_) => Traverse::of(lot).balanced(),
        None => Traverse::of(lot).vertices,
    };
    let lot = changes.lot.as_ref().unwrap();
    let (before, after) = (corners(&site.lot), corners(lot));
    assert_eq!(before.len(), after.len(), "{name}");
    for (corner, course) in before.iter().zip(&site.lot.courses) {
        let near = |it: &&crate::geom::Vertex| it.at.distance(corner.at) < ROUND_TRIP;
        assert!(after.iter().any(|it| near(&it)), "{name}: {corner:?}");
        // A true curve, of the same radius.
        if let CourseShape::Curve { radius, chord, .. } = course.shape {
            let same = |it: &crate::lot::Course| match it.shape {
                CourseShape::Curve {
                    radius: r,
                    chord: c,
                    ..
                } => (r - radius).abs() < 0.01 && (c - chord).abs() < 0.01,
                CourseShape::Line { .. } => false,
            };
            assert!(lot.courses.iter().any(same), "{name}: {:?}", course.shape);
        }
    }
    let curves = |lot: &crate::lot::LotRecord| {
        let curved = lot.courses.iter().map(|it| it.shape.bulge() != 0.0);
        curved.filter(|it| *it).count()
    };
    assert_eq!(curves(&site.lot), curves(lot), "{name}");
    let area = lot.stated_area.unwrap();
    let (checked, _) = crate::lot::Lot::check(lot).unwrap();
    assert!((checked.area - area).abs() < 0.01, "{name}: {area}");
}

/// The ground that comes back is as high as it was, wherever the lot is.
fn same_ground(name: &str, site: &CheckedSite, changes: &Changes) {
    let (ground, _) = Ground::check(changes.ground.as_ref().unwrap()).unwrap();
    let (low, high) = site.lot().region.bounds().unwrap();
    for i in 0..=40 {
        for j in 0..=40 {
            let part = |a: f64, b: f64, k: i32| a + (b - a) * f64::from(k) / 40.0;
            let p = Point::new(part(low.x, high.x, i), part(low.y, high.y, j));
            let before = site.ground().height(p);
            if before.known {
                let after = ground.height(p).elevation;
                let off = (before.elevation - after).abs();
                assert!(off < 1e-3, "{name}: {off} m at {p:?}");
            }
        }
    }
}

#[test]
fn a_survey_grid_comes_back_with_its_own_coordinates() {
    let mut site = Site::clone(open(DEMOS[1].1).unwrap().site.site());
    let grid = Grid {
        easting: 600_000.0,
        northing: 250_000.0,
        unit: GridUnit::SurveyFeet,
    };
    site.grid = Some(grid);
    let site = CheckedSite::check(site, None).unwrap();
    let text = written(&site, Choice::usual(&site));
    assert!(text.contains("linearUnit=\"USSurveyFoot\""));
    let (survey, changes) = brought(&text);
    let came = changes.grid.unwrap().unwrap();
    assert_eq!(came.unit, GridUnit::SurveyFeet);
    let corner = |lot: &crate::lot::LotRecord, grid: Grid| {
        Point::new(lot.start.x + grid.easting, lot.start.y + grid.northing)
    };
    let lot = changes.lot.unwrap();
    let apart = corner(&lot, came).distance(corner(&site.site().lot, grid));
    assert!(apart < ROUND_TRIP, "{apart}");
    assert_eq!(survey.draft.proposed.heights, GridUnit::SurveyFeet);
}

#[test]
fn the_surface_of_the_dig_holds_the_volume_of_the_dig() {
    for (name, text) in DEMOS {
        let site = open(text).unwrap().site;
        let analysis = analysis(&site);
        let mesh = mesh::dig(&site, &analysis).unwrap();
        let dig = analysis.dig.as_ref().unwrap();
        let (mut volume, mut area, mut lowest) = (0.0, 0.0, f64::INFINITY);
        for face in &mesh.faces {
            let corners = face.map(|i| mesh.points[i]);
            let [a, b, c] = corners.map(|[x, y, _]| Point::new(x, y));
            let plan = (b - a).cross(c - a) / 2.0;
            assert!(plan > 0.0);
            // The middles of the sides: exact for a depth that changes evenly.
            let depth = |i: usize, j: usize| {
                let [u, v] = [corners[i], corners[j]];
                let middle = Point::new((u[0] + v[0]) / 2.0, (u[1] + v[1]) / 2.0);
                site.ground().height(middle).elevation - (u[2] + v[2]) / 2.0
            };
            volume += plan * (depth(0, 1) + depth(1, 2) + depth(2, 0)) / 3.0;
            area += plan;
            lowest = corners.iter().fold(lowest, |low, p| low.min(p[2]));
        }
        let off = (volume / dig.bank_volume - 1.0).abs();
        assert!(off < 0.003, "{name}: {volume} m3, not {}", dig.bank_volume);
        let opened = dig.top_edge.area();
        assert!(
            (area / opened - 1.0).abs() < 1e-3,
            "{name}: {area} m2, not {opened}"
        );
        assert!(
            (lowest - dig.bottom_elevation).abs() < 1e-3,
            "{name}: {lowest}"
        );
    }
}
