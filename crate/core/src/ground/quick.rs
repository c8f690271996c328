//! The quick ways to tell the ground from what the lot already tells: an elevation at every
//! corner, or an even fall toward the rear, a side or a bearing.
//!
//! Both give an ordinary [`GroundRecord`], which can then be edited like any other.

use serde::{Deserialize, Serialize};

use super::record::GroundRecord;
use super::spots::ONE_PLACE;
use crate::finding::Finding;
use crate::geom::{Point, Segment, Vector};
use crate::lot::{LineKind, Lot, Side};
use crate::math::{TURN, cos};
use crate::order::put_in_order_by;

/// A curved side gets a spot for every piece of it that turns no more than this, radians: the
/// spots then stand at most a hundredth of the radius outside the curve.
const PIECE: f64 = TURN / 24.0;

/// A corner of the lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "LotCorner", missing_as_null)
)]
pub struct Corner {
    /// The course that starts there.
    pub course: usize,
    /// What it is called: the sides that meet there.
    pub name: String,
    /// Where it is, site meters.
    pub at: Point,
    /// Its elevation, meters, where the ground tells it there: by its figures or by a spot.
    pub elevation: Option<f64>,
}

/// The lot's corners in the order of its courses.
pub fn corners(lot: &Lot, ground: &GroundRecord) -> Vec<Corner> {
    let mut corners: Vec<Corner> = lot
        .sides
        .iter()
        .enumerate()
        .map(|(i, side)| {
            let other = neighbour(lot, i);
            let at = start_of_course(lot, side);
            Corner {
                course: side.course,
                name: format!(
                    "{} and {}",
                    other.map_or("", |s| s.label.as_str()),
                    side.label
                ),
                at,
                elevation: told_at(ground, at),
            }
        })
        .collect();
    put_in_order_by(&mut corners, |corner| corner.course);
    corners
}

/// Where the course of a side starts: the side runs counter-clockwise, the course perhaps not.
fn start_of_course(lot: &Lot, side: &Side) -> Point {
    if lot.outline.was_clockwise() {
        side.segment.to()
    } else {
        side.segment.from()
    }
}

/// The side before the course of this side.
fn neighbour(lot: &Lot, index: usize) -> Option<&Side> {
    let count = lot.sides.len();
    let step = if lot.outline.was_clockwise() {
        1
    } else {
        count.saturating_sub(1)
    };
    lot.sides.get((index + step) % count.max(1))
}

fn told_at(ground: &GroundRecord, p: Point) -> Option<f64> {
    match ground {
        GroundRecord::Level { elevation } => Some(*elevation),
        GroundRecord::Plane {
            at,
            elevation,
            fall,
            towards,
        } => Some(elevation - fall * Vector::along_bearing(*towards).dot(p - *at)),
        GroundRecord::Spots { spots, .. } => {
            let mut here = spots.iter().filter(|s| stands_at(s, p));
            here.next().map(|[.., elevation]| *elevation)
        }
    }
}

fn stands_at([x, y, _]: &[f64; 3], at: Point) -> bool {
    Point::new(*x, *y).distance(at) < ONE_PLACE
}

/// The ground with these elevations at the lot's corners, in the order of its courses; a corner
/// without one is left as it was. Spots and breaklines elsewhere stay.
///
/// Along a side that bows outwards further spots stand just outside the curve, their elevations
/// in step along it between its two corners, so that the surveyed area covers the lot to its
/// line.
///
/// # Errors
/// No elevation at all, or none that a surface could be made of together with the spots there.
pub fn by_corners(
    lot: &Lot,
    elevations: &[Option<f64>],
    ground: &GroundRecord,
) -> Result<GroundRecord, Vec<Finding>> {
    let corners = corners(lot, ground);
    let mut new: Vec<[f64; 3]> = Vec::new();
    for (corner, elevation) in corners.iter().zip(elevations) {
        new.extend(elevation.map(|z| [corner.at.x, corner.at.y, z]));
    }
    let (mut spots, breaklines) = match ground {
        GroundRecord::Spots { spots, breaklines } => (spots.clone(), breaklines.clone()),
        _ => (Vec::new(), Vec::new()),
    };
    let height = |p: Point| new.iter().find(|s| stands_at(s, p)).map(|[.., z]| *z);
    let mut along = Vec::new();
    for side in &lot.sides {
        if let (Some(from), Some(to)) = (height(side.segment.from()), height(side.segment.to())) {
            along.extend(outside(&side.segment, from, to));
        }
    }
    new.extend(along);
    spots.retain(|s| !new.iter().any(|n| stands_at(s, Point::new(n[0], n[1]))));
    if new.is_empty() || new.len() + spots.len() < 3 {
        return Err(vec![Finding::fault(
            "corner-heights",
            "A surface needs the elevations of three corners or more.",
            "Give the elevation of each corner; take them with a level from one benchmark.",
        )]);
    }
    new.append(&mut spots);
    Ok(GroundRecord::Spots {
        spots: new,
        breaklines,
    })
}

/// Spots on the tangents of a curve that bows outwards (the boundary runs counter-clockwise).
fn outside(segment: &Segment, from: f64, to: f64) -> Vec<[f64; 3]> {
    let Segment::Arc {
        centre,
        radius,
        start_angle,
        sweep,
        ..
    } = *segment
    else {
        return Vec::new();
    };
    if sweep <= 0.0 {
        return Vec::new();
    }
    let pieces = (sweep / PIECE).ceil().max(1.0);
    let half = sweep / (2.0 * pieces);
    (0..pieces as u32)
        .map(|k| {
            let share = (2.0 * f64::from(k) + 1.0) / (2.0 * pieces);
            let at = centre + Vector::at_angle(start_angle + sweep * share) * (radius / cos(half));
            [at.x, at.y, from + (to - from) * share]
        })
        .collect()
}

/// Where an even fall goes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Towards {
    /// From the front line to the rear.
    Rear,
    /// Square to the side that a course makes.
    Side {
        /// Index of the course.
        course: usize,
    },
    /// Along a bearing, across the whole lot.
    Bearing {
        /// Radians clockwise from north.
        bearing: f64,
    },
}

/// An even fall across the lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fall {
    /// The plane.
    pub ground: GroundRecord,
    /// Horizontal distance over which it drops, meters.
    pub run: f64,
    /// Where the run starts and ends, in words.
    pub words: String,
}

/// The plane that stands at `elevation` where the run starts and lies lower by `drop` meters at
/// its end (higher, where the drop is negative).
///
/// Toward the rear the run goes from the middle of the front line to the middle of the rear
/// line; where no side is the rear, square to the front as far as the lot goes.
///
/// # Errors
/// No front line, no such course, figures that are not finite.
pub fn by_fall(
    lot: &Lot,
    elevation: f64,
    drop: f64,
    towards: Towards,
) -> Result<Fall, Vec<Finding>> {
    let Run {
        at,
        along,
        length,
        words,
    } = run(lot, towards).map_err(|fault| vec![fault])?;
    if !(length > ONE_PLACE && drop.is_finite() && elevation.is_finite()) {
        return Err(vec![Finding::fault(
            "even-fall",
            "The fall has no length or is not a number.",
            "Give the elevation, the drop and a direction across the lot.",
        )]);
    }
    Ok(Fall {
        ground: GroundRecord::Plane {
            at,
            elevation,
            fall: drop / length,
            towards: along.bearing(),
        },
        run: length,
        words,
    })
}

/// The run of a fall: its start, its direction and its length.
struct Run {
    at: Point,
    along: Vector,
    length: f64,
    words: String,
}

fn run(lot: &Lot, towards: Towards) -> Result<Run, Finding> {
    match towards {
        Towards::Rear => {
            let (front, square) = line(lot, LineKind::Front).ok_or_else(no_front)?;
            let Some((rear, _)) = line(lot, LineKind::Rear) else {
                let length = reach(lot, front, square);
                let words = "square to the front line, as far as the lot goes".to_owned();
                return Ok(Run {
                    at: front,
                    along: square,
                    length,
                    words,
                });
            };
            Ok(Run {
                at: front,
                along: rear - front,
                length: front.distance(rear),
                words: "from the middle of the front line to the middle of the rear line"
                    .to_owned(),
            })
        }
        Towards::Side { course } => {
            let side = lot.sides.iter().find(|s| s.course == course);
            let side = side.ok_or_else(|| {
                Finding::fault(
                    "even-fall",
                    format!("There is no side {}.", course + 1),
                    "Choose one of the lot's sides.",
                )
            })?;
            // The side runs counter-clockwise: outside is to its right.
            let out = -chord(side).left();
            let out = out.unit().unwrap_or(out);
            let middle = side.segment.point_at(0.5);
            let length = reach(lot, middle, -out);
            Ok(Run {
                at: middle - out * length,
                along: out,
                length,
                words: format!("across the lot, square to the {}", side.label),
            })
        }
        Towards::Bearing { bearing } => {
            let along = Vector::along_bearing(bearing);
            let middle = middle(lot.sides.iter()).unwrap_or_default();
            let (ahead, behind) = (reach(lot, middle, along), reach(lot, middle, -along));
            Ok(Run {
                at: middle - along * behind,
                along,
                length: ahead + behind,
                words: "across the whole lot along the bearing".to_owned(),
            })
        }
    }
}

fn no_front() -> Finding {
    Finding::fault(
        "no-front",
        "No side of the lot is its front, so nobody knows which way the rear lies.",
        "Say on the Lot step which side is the front, or give the side or the bearing it falls to.",
    )
}

fn chord(side: &Side) -> Vector {
    side.segment.to() - side.segment.from()
}

/// The middle of all sides of a kind and the unit vector square to them, into the lot.
fn line(lot: &Lot, kind: LineKind) -> Option<(Point, Vector)> {
    let of_kind = || lot.sides.iter().filter(move |s| s.kind == kind);
    let along = of_kind().fold(Vector::default(), |sum, side| sum + chord(side));
    Some((middle(of_kind())?, along.left().unit()?))
}

/// The middle of sides, each weighted by its length.
fn middle<'a>(sides: impl Iterator<Item = &'a Side>) -> Option<Point> {
    let (mut sum, mut length) = (Vector::default(), 0.0);
    for side in sides {
        let weight = side.segment.length();
        sum = sum + (side.segment.point_at(0.5) - Point::default()) * weight;
        length += weight;
    }
    (length > 0.0).then(|| Point::default() + sum * (1.0 / length))
}

/// How far the lot reaches from a point in a direction (a unit vector), meters.
fn reach(lot: &Lot, from: Point, along: Vector) -> f64 {
    let places = lot.sides.iter().flat_map(|side| {
        // A curve by points along it: a fall does not depend on its last millimetres.
        let parts = match side.segment {
            Segment::Line { .. } => 1,
            Segment::Arc { .. } => 64,
        };
        (0..=parts).map(move |k| side.segment.point_at(f64::from(k) / f64::from(parts)))
    });
    places.map(|p| along.dot(p - from)).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Vertex;
    use crate::geom::flatten::{ChordSide, flatten};
    use crate::ground::Ground;
    use crate::lot::LotRecord;
    use LineKind::{Front, Rear, Side as Flank};

    /// 30 m wide, 40 m deep, the front in the south.
    fn lot(kinds: &[LineKind], clockwise: bool) -> Lot {
        let mut corners = vec![(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)];
        if clockwise {
            corners = vec![(30.0, 0.0), (0.0, 0.0), (0.0, 40.0), (30.0, 40.0)];
        }
        let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
        Lot::check(&LotRecord::from_outline(&corners, kinds))
            .unwrap()
            .0
    }

    fn level() -> GroundRecord {
        GroundRecord::Level { elevation: 0.0 }
    }

    #[test]
    fn corner_heights_become_spots_whichever_way_the_deed_runs() {
        for clockwise in [false, true] {
            let lot = lot(&[Front, Flank, Rear, Flank], clockwise);
            let heights = [Some(10.0), Some(11.0), Some(14.0), Some(12.0)];
            let made = by_corners(&lot, &heights, &level()).unwrap();
            let ground = Ground::check(&made).unwrap().0;
            let start = if clockwise { 30.0 } else { 0.0 };
            let at = |x: f64, y: f64| ground.height(Point::new(x, y)).elevation;
            assert_eq!((at(start, 0.0), at(30.0 - start, 0.0)), (10.0, 11.0));
            assert_eq!((at(30.0 - start, 40.0), at(start, 40.0)), (14.0, 12.0));
            let told: Vec<_> = corners(&lot, &made).iter().map(|c| c.elevation).collect();
            assert_eq!(told, heights);
        }
        let names: Vec<_> = corners(&lot(&[Front, Flank, Rear, Flank], true), &level())
            .into_iter()
            .map(|c| c.name)
            .collect();
        assert_eq!(names[0], "side line (east) and front line (south)");
        assert_eq!(names[1], "front line (south) and side line (west)");
    }

    #[test]
    fn other_spots_stay_and_a_corner_without_a_height_is_left_alone() {
        let lot = lot(&[Front], false);
        let before = GroundRecord::Spots {
            spots: vec![[0.0, 0.0, 5.0], [15.0, 20.0, 9.0]],
            breaklines: vec![vec![[1.0, 1.0, 5.0], [9.0, 9.0, 6.0]]],
        };
        let some = [Some(10.0), Some(11.0), None, None];
        let made = by_corners(&lot, &some, &before).unwrap();
        let GroundRecord::Spots { spots, breaklines } = made else {
            panic!("spots");
        };
        let heights_there: Vec<f64> = spots.iter().map(|s| s[2]).collect();
        assert_eq!(heights_there, [10.0, 11.0, 9.0]);
        assert!(stands_at(&spots[1], Point::new(30.0, 0.0)));
        assert_eq!(breaklines.len(), 1);
        let fault = by_corners(&lot, &some, &level()).unwrap_err();
        assert_eq!(fault[0].code, "corner-heights");
        assert!(by_corners(&lot, &[], &before).is_err());
    }

    #[test]
    fn the_surface_covers_a_side_that_bows_outwards() {
        // A half disc of 20 m: the round side bows to the north.
        let corners = [Vertex::line(0.0, 0.0), Vertex::arc(20.0, 0.0, 1.0)];
        let (lot, _) = Lot::check(&LotRecord::from_outline(&corners, &[])).unwrap();
        let made = by_corners(&lot, &[Some(10.0), Some(12.0)], &level()).unwrap();
        let ground = Ground::check(&made).unwrap().0;
        let ring = flatten(&lot.outline, 1e-3, ChordSide::Inscribed);
        for p in &ring.0 {
            let height = ground.height(*p);
            assert!(height.known || p.y.abs() < 1e-9, "{p:?}");
            assert!((10.0..=12.0).contains(&height.elevation));
        }
        let top = ground.height(Point::new(10.0, 10.0)).elevation;
        assert!((top - 11.0).abs() < 0.02, "{top}");
    }

    #[test]
    fn three_feet_towards_the_rear() {
        let drop = 3.0 * 0.304_8;
        for clockwise in [false, true] {
            let lot = lot(&[Front, Flank, Rear, Flank], clockwise);
            let fall = by_fall(&lot, 100.0, drop, Towards::Rear).unwrap();
            assert!((fall.run - 40.0).abs() < 1e-9);
            let ground = Ground::check(&fall.ground).unwrap().0;
            let at = |x, y| ground.height(Point::new(x, y)).elevation;
            assert!((at(15.0, 0.0) - 100.0).abs() < 1e-9);
            assert!((at(15.0, 40.0) - (100.0 - drop)).abs() < 1e-9);
            assert!((at(0.0, 20.0) - (100.0 - drop / 2.0)).abs() < 1e-9);
        }
        // No rear: square to the front as far as the lot goes.
        let fall = by_fall(&lot(&[Front], false), 100.0, drop, Towards::Rear).unwrap();
        assert!((fall.run - 40.0).abs() < 1e-9);
        assert!(fall.words.starts_with("square to the front"));
    }

    #[test]
    fn a_fall_goes_to_a_side_or_along_a_bearing_and_up_as_well() {
        let lot = lot(&[Front, Flank, Rear, Flank], false);
        let height = |fall: &Fall, x, y| {
            let ground = Ground::check(&fall.ground).unwrap().0;
            ground.height(Point::new(x, y)).elevation
        };
        let fall = by_fall(&lot, 50.0, -0.6, Towards::Side { course: 1 }).unwrap();
        assert!((height(&fall, 0.0, 7.0) - 50.0).abs() < 1e-9);
        assert!((height(&fall, 30.0, 7.0) - 50.6).abs() < 1e-9);
        let bearing = TURN / 8.0;
        let fall = by_fall(&lot, 50.0, 1.0, Towards::Bearing { bearing }).unwrap();
        assert!((height(&fall, 0.0, 0.0) - 50.0).abs() < 1e-9);
        assert!((height(&fall, 30.0, 40.0) - 49.0).abs() < 1e-9);
    }

    #[test]
    fn a_lot_without_a_front_says_so() {
        let lot = lot(&[], false);
        let fault = by_fall(&lot, 1.0, 1.0, Towards::Rear).unwrap_err();
        assert_eq!(fault[0].code, "no-front");
        let none = by_fall(&lot, 1.0, 1.0, Towards::Side { course: 9 }).unwrap_err();
        assert_eq!(none[0].code, "even-fall");
        assert!(by_fall(&lot, f64::NAN, 1.0, Towards::Side { course: 0 }).is_err());
    }
}
