//! What is asked of the core and of other libraries alike: figures made by formulas, the same on every machine and in
//! the browser's engine, so that no figure has to cross over.

use std::hint::black_box;

use batterboard_core::clear_ground::ClearGround;
use batterboard_core::dig::{DigShape, excavate};
use batterboard_core::geom::distance::{Figure, nearest};
use batterboard_core::geom::{
    DRAWING_TOLERANCE, PathRecord, Point, Pose, Region, Ring, Vertex, boolean, offset,
};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::math::{self, TURN};
use batterboard_core::shell::{FacetKind, FacetRecord, Shell, ShellRecord};
use batterboard_core::site::DigSettings;
use serde::Serialize;

use crate::clear_ground::{self, Scene};
use crate::scene::{bean, ground};

/// A question with its name in the table.
#[derive(Serialize)]
pub struct Task {
    /// What it is called.
    pub name: String,
    /// Why the core is not far ahead of the best peer, where it is not.
    pub why: Option<&'static str>,
    /// What is asked.
    #[serde(flatten)]
    pub question: Question,
}

/// What is asked. Meters; chords within [`DRAWING_TOLERANCE`] of arcs.
#[derive(Serialize)]
#[serde(tag = "ask", rename_all = "kebab-case")]
pub enum Question {
    /// The area of a figure widened (or narrowed, less than 0) all round.
    Offset {
        /// The figure.
        ring: Vec<Point>,
        /// By how much.
        distance: f64,
    },
    /// The area of two figures taken together.
    Union {
        /// The one.
        a: Vec<Point>,
        /// The other.
        b: Vec<Point>,
    },
    /// How far two figures are apart.
    Distance {
        /// The one.
        a: Vec<Point>,
        /// The other.
        b: Vec<Point>,
    },
    /// The area of the places where a figure keeps off a lot's edge and all obstacles.
    ClearGround(Box<Scene>),
    /// How many triangles join surveyed spots.
    Triangles {
        /// The spots with their elevations.
        spots: Vec<[f64; 3]>,
    },
    /// The volume between the triangles of surveyed spots and a level: ground above it less room below.
    Volume {
        /// The spots with their elevations.
        spots: Vec<[f64; 3]>,
        /// The level.
        level: f64,
    },
    /// The volume of a hole with a flat floor and sides that rise evenly.
    Dig(Box<Hole>),
}

/// A hole with a flat floor.
#[derive(Serialize)]
pub struct Hole {
    /// The foot of the sides, site frame.
    floor: Vec<Point>,
    /// Its elevation.
    bottom: f64,
    /// Run of the sides for each unit of rise.
    run: f64,
    /// Spots of the ground; none where it is level.
    spots: Vec<[f64; 3]>,
    /// The elevation of level ground.
    level: f64,
    #[serde(skip)]
    shell: ShellRecord,
}

/// The shell's place on the ground, and the elevation of its rim.
const PLACE: (Point, f64) = (Point { x: 15.0, y: 24.0 }, 0.3);
const RIM: f64 = 29.3;
/// How far below the rim backfill ends, and how far above it the ground is followed.
const CAP: f64 = 0.4;
const HEADROOM: f64 = 1.5;

/// Everything that is asked.
pub fn all() -> Vec<Task> {
    let task = |name: String, question| Task {
        why: why(&question),
        name,
        question,
    };
    let mut all = Vec::new();
    for (vertices, distance) in [
        (160, 0.2),
        (160, 2.0),
        (160, 4.0),
        (160, -0.3),
        (160, -1.9),
        (200, 2.0),
        (200, -1.0),
        (2_000, 0.2),
        (2_000, 2.0),
        (2_000, -1.0),
    ] {
        let side = if distance > 0.0 { "out" } else { "in" };
        let name = format!(
            "offset {vertices} vertices, {} m {side}",
            f64::abs(distance)
        );
        let ring = bean(vertices);
        all.push(task(name, Question::Offset { ring, distance }));
    }
    for vertices in [160, 2_000] {
        let (a, b) = (bean(vertices), moved(&bean(vertices), 3.0, 1.3));
        all.push(task(
            format!("union, {vertices} vertices each"),
            Question::Union { a, b },
        ));
    }
    for vertices in [160, 2_000] {
        let (a, b) = (bean(vertices), moved(&bean(vertices), 11.0, 2.2));
        all.push(task(
            format!("distance, {vertices} vertices each"),
            Question::Distance { a, b },
        ));
    }
    for count in [10, 32, 100, 316, 1_000] {
        let scene = Box::new(Scene::of(count));
        all.push(task(
            format!("clear ground, {count} obstacles"),
            Question::ClearGround(scene),
        ));
    }
    for count in [1_000, 10_000, 100_000] {
        let spots = spots(count);
        all.push(task(
            format!("triangles of {count} spots"),
            Question::Triangles { spots },
        ));
    }
    for count in [1_000, 10_000, 100_000] {
        let (spots, level) = (spots(count), 28.0);
        all.push(task(
            format!("volume over {count} spots"),
            Question::Volume { spots, level },
        ));
    }
    // Straight from vertex to vertex and nowhere turned in, so that its volume has a closed formula.
    let oval = |i: usize| {
        let angle = TURN * i as f64 / 160.0;
        Point::new(4.5 * math::cos(angle), 2.3 * math::sin(angle))
    };
    let oval = (0..160).map(oval).collect();
    all.push(task(
        "dig in level ground".to_owned(),
        Question::Dig(Box::new(Hole::of(oval, 0))),
    ));
    for count in [500, 5_000] {
        let hole = Box::new(Hole::of(bean(160), count));
        all.push(task(
            format!("dig in ground of {count} spots"),
            Question::Dig(hole),
        ));
    }
    all
}

/// Looked into where the table shows that the core is not far ahead.
fn why(question: &Question) -> Option<&'static str> {
    match question {
        Question::Offset { ring, distance } if *distance < -1.5 => Some(
            "nearly all of the figure goes, and its edges moved inward cross each other everywhere: every crossing is worked \
             out, where GEOS thins the edges first by a share of the distance",
        ),
        Question::Offset { ring, .. } if ring.len() > 1_000 => Some(
            "the moved edges are united by i_overlay, which sorts all of them; GEOS thins them first by a share of the distance",
        ),
        Question::Union { .. } => Some(
            "i_overlay, under geo, sorts every edge of both figures; GEOS leaves those alone that lie outside both boxes",
        ),
        Question::Triangles { .. } => Some(
            "the time holds what no peer makes: every spot checked, facets with their gradients, and the tree by which the \
             ground is found under a point",
        ),
        _ => None,
    }
}

fn spots(count: usize) -> Vec<[f64; 3]> {
    match ground(count) {
        GroundRecord::Spots { spots, .. } => spots,
        _ => Vec::new(),
    }
}

fn moved(ring: &[Point], x: f64, turned: f64) -> Vec<Point> {
    let pose = Pose::new(Point::new(x, 0.0), turned, false);
    let region = Region::from_ring(Ring(ring.to_vec())).posed(&pose);
    outer(&region)
}

fn outer(region: &Region) -> Vec<Point> {
    let first = region.polygons.first();
    first.map_or_else(Vec::new, |it| it.outer.0.clone())
}

fn region(ring: &[Point]) -> Region {
    Region::from_ring(Ring(ring.to_vec()))
}

impl Hole {
    fn of(outline: Vec<Point>, count: usize) -> Self {
        let shell = flat(&outline);
        let (shape, pose) = shape(&shell);
        Self {
            floor: outer(&shape.floor().posed(&pose)),
            bottom: RIM - shape.deepest(),
            run: 1.0,
            spots: if count > 0 { spots(count) } else { Vec::new() },
            level: RIM + 0.1,
            shell,
        }
    }

    fn ground(&self) -> Ground {
        let record = match self.spots.is_empty() {
            true => GroundRecord::Level {
                elevation: self.level,
            },
            false => GroundRecord::of_spots(self.spots.clone()),
        };
        Ground::check(&record).unwrap().0
    }
}

/// A shell of even depth, its outline straight from vertex to vertex.
fn flat(outline: &[Point]) -> ShellRecord {
    let path = |points: &[Point]| {
        let vertices: Vec<Vertex> = points.iter().map(|p| Vertex::line(p.x, p.y)).collect();
        PathRecord::from(vertices.as_slice())
    };
    let corners = [(-5.0, -4.0), (5.0, -4.0), (5.0, 4.0), (-5.0, 4.0)];
    let floor = FacetRecord {
        kind: FacetKind::Shallow,
        outline: path(&corners.map(|(x, y)| Point::new(x, y))),
        depths: vec![1.5; 4],
    };
    ShellRecord {
        name: "flat".to_owned(),
        note: String::new(),
        outline: path(outline),
        floor: vec![floor],
        coping_width: 0.3,
        waterline: 0.1,
        wall_thickness: 0.01,
        weight: None,
        draft: 0.0,
        cove: 0.0,
        drain: None,
        stations: Vec::new(),
    }
}

fn shape(shell: &ShellRecord) -> (DigShape, Pose) {
    let settings = DigSettings {
        side_slope: Some(1.0),
        ..DigSettings::default()
    };
    let shape = DigShape::new(&Shell::check(shell).unwrap().0, &settings, HEADROOM);
    (shape, Pose::new(PLACE.0, PLACE.1, false))
}

/// A question made ready: what the core keeps from one frame to the next stands.
pub enum Ready {
    /// See [`Question::Offset`].
    Offset(Region, f64),
    /// See [`Question::Union`].
    Union(Region, Region),
    /// See [`Question::Distance`].
    Distance(Region, Region),
    /// See [`Question::ClearGround`].
    ClearGround(Box<ClearGround>),
    /// See [`Question::Triangles`].
    Triangles(GroundRecord),
    /// See [`Question::Volume`].
    Volume(Ground, f64),
    /// See [`Question::Dig`].
    Dig(Box<(DigShape, Pose, Ground)>),
}

impl Ready {
    /// Makes a question ready.
    pub fn of(question: &Question) -> Self {
        match question {
            Question::Offset { ring, distance } => Self::Offset(region(ring), *distance),
            Question::Union { a, b } => Self::Union(region(a), region(b)),
            Question::Distance { a, b } => Self::Distance(region(a), region(b)),
            Question::ClearGround(scene) => Self::ClearGround(Box::new(scene.ready())),
            Question::Triangles { spots } => Self::Triangles(GroundRecord::of_spots(spots.clone())),
            Question::Volume { spots, level } => {
                let record = GroundRecord::of_spots(spots.clone());
                Self::Volume(Ground::check(&record).unwrap().0, *level)
            }
            Question::Dig(hole) => {
                let (shape, pose) = shape(&hole.shell);
                Self::Dig(Box::new((shape, pose, hole.ground())))
            }
        }
    }

    /// The answer, worked out once.
    pub fn once(&self) -> f64 {
        match self {
            Self::Offset(region, distance) => {
                offset::offset_region(black_box(region), *distance, DRAWING_TOLERANCE).area()
            }
            Self::Union(a, b) => boolean::union(black_box(a), b).area(),
            Self::Distance(a, b) => {
                let found = nearest(Figure::Area(black_box(a)), Figure::Area(b));
                found.map_or(f64::NAN, |it| it.distance)
            }
            Self::ClearGround(ground) => ground
                .region(black_box(clear_ground::HEADING), false)
                .area(),
            Self::Triangles(record) => {
                let (ground, _) = Ground::check(black_box(record)).unwrap();
                ground.surveyed_facets().count() as f64
            }
            Self::Volume(ground, level) => black_box(ground).surveyed_volume_above(*level),
            Self::Dig(held) => {
                let (shape, pose, ground) = black_box(held.as_ref());
                let dig = excavate(shape, ground, pose, RIM, CAP);
                assert!(dig.closed, "the headroom is too small");
                dig.bank_volume
            }
        }
    }
}
