//! Digs against closed forms, printed examples and other people's worked answers.

use batterboard_core::dig::{Dig, DigShape, excavate};
use batterboard_core::geom::{PathRecord, Point, Pose, Vertex};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::shell::{FacetKind, FacetRecord, Shell, ShellRecord};
use batterboard_core::site::DigSettings;
use batterboard_core::units::constants::{CUBIC_YARD, FOOT, SQUARE_FOOT};

use crate::close;

/// A shell with upright walls on a closed path (metres) and floor pieces with their depths.
fn shell(outline: &[Vertex], floor: &[(&[Vertex], &[f64])]) -> Shell {
    let record = ShellRecord {
        name: "Test".into(),
        note: String::new(),
        outline: PathRecord::from(outline),
        floor: floor
            .iter()
            .map(|(path, depths)| FacetRecord {
                kind: FacetKind::Deep,
                outline: PathRecord::from(*path),
                depths: depths.to_vec(),
            })
            .collect(),
        coping_width: 0.3,
        waterline: 0.1,
        wall_thickness: 0.0,
        weight: None,
    };
    Shell::check(&record).unwrap().0
}

/// A rectangle about the origin, feet.
fn rectangle(length: f64, width: f64) -> Vec<Vertex> {
    let (x, y) = (length / 2.0 * FOOT, width / 2.0 * FOOT);
    [(-x, -y), (x, -y), (x, y), (-x, y)]
        .map(|(x, y)| Vertex::line(x, y))
        .to_vec()
}

/// A box with a level floor, feet.
fn boxed(length: f64, width: f64, depth: f64) -> Shell {
    let outline = rectangle(length, width);
    shell(&outline, &[(&outline, &[depth * FOOT; 4])])
}

/// No over-dig, no base: the floor is the bottom.
fn bare(slope: f64) -> DigSettings {
    DigSettings {
        over_dig: 0.0,
        base_thickness: 0.0,
        side_slope: Some(slope),
        ..DigSettings::default()
    }
}

fn cut(shape: &DigShape, ground: &GroundRecord, heading: f64) -> Dig {
    let ground = Ground::check(ground).unwrap().0;
    let pose = Pose::new(Point::new(3.217, -8.453), heading, false);
    excavate(shape, &ground, &pose, 0.0, 0.3)
}

const LEVEL: GroundRecord = GroundRecord::Level { elevation: 0.0 };

/// Rounded corners: V = A h + P s h^2/2 + pi s^2 h^3/3, for 32 ft by 16 ft, 6 ft deep, at
/// every slope (closed form; figures in cubic yards computed independently).
#[test]
fn a_rectangular_dig_with_rounded_corners_has_its_closed_form() {
    let shell = boxed(32.0, 16.0, 6.0);
    for (slope, yards) in [
        (0.5, 147.872),
        (0.75, 166.490),
        (1.0, 186.155),
        (1.5, 228.627),
        (0.0, 113.778),
    ] {
        let (a, p, h) = (512.0, 96.0, 6.0_f64);
        let third = core::f64::consts::PI / 3.0;
        let exact = (a * h + p * slope * h * h / 2.0 + third * slope * slope * h * h * h) / 27.0;
        close("closed form", exact, yards, 0.0005);
        let shape = DigShape::new(&shell, &bare(slope), 0.0);
        for heading in [0.0, 0.3, 1.9] {
            let dig = cut(&shape, &LEVEL, heading);
            let name = format!("slope {slope} heading {heading}");
            close(&name, dig.bank_volume / CUBIC_YARD, exact, 1e-4 * exact);
            close("depth", dig.greatest_depth / FOOT, 6.0, 1e-9);
            let run = slope * h;
            let top = a + p * run + core::f64::consts::PI * run * run;
            close("top", dig.top_area / SQUARE_FOOT, top, 2e-4 * top);
            close("edge", dig.top_edge.area() / SQUARE_FOOT, top, 2e-3 * top);
            assert!(dig.closed);
        }
        let contours = shape.level_volume(0.0) / CUBIC_YARD;
        close("contours", contours, exact, 2e-5 * exact);
    }
}
