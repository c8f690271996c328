//! Volumes of shells, reached a second way: by the areas of their contours.

use batterboard_core::geom::boolean::intersection;
use batterboard_core::geom::path::VertexRecord;
use batterboard_core::geom::{PathRecord, Point, Region, Ring, Vector};
use batterboard_core::shell::{
    Facet, FacetKind, FacetRecord, Shell, ShellRecord, StationRecord, catalogue,
};
use proptest::prelude::*;

use crate::shapes;

/// A simple polygon round the origin, convex or not, counter-clockwise.
fn star() -> impl Strategy<Value = Vec<Point>> {
    prop::collection::vec((0.4..1.0_f64, 1.5..6.0_f64), 4..9)
        .prop_map(|spokes| shapes::star(Point::default(), &spokes))
}

fn path(points: &[Point]) -> PathRecord {
    PathRecord(
        points
            .iter()
            .map(|p| VertexRecord::Line([p.x, p.y]))
            .collect(),
    )
}

fn upright(x0: f64, x1: f64, reach: f64) -> Vec<Point> {
    vec![
        Point::new(x0, -reach),
        Point::new(x1, -reach),
        Point::new(x1, reach),
        Point::new(x0, reach),
    ]
}

/// A shallow floor, a slope and a deep floor, in strips that reach over the outline. The slope
/// begins and ends at fractions of the length.
fn shell(outline: &[Point], shallow: f64, fall: f64, (from, run): (f64, f64)) -> Shell {
    let deep = shallow + fall;
    let strip = |kind, x0: f64, x1: f64, d0: f64, d1: f64| FacetRecord {
        kind,
        outline: path(&upright(x0, x1, 10.0)),
        depths: vec![d0, d1, d1, d0],
    };
    let record = ShellRecord {
        name: "Star".to_owned(),
        note: String::new(),
        outline: path(outline),
        floor: vec![
            strip(FacetKind::Shallow, -10.0, from, shallow, shallow),
            strip(FacetKind::Slope, from, from + run, shallow, deep),
            strip(FacetKind::Deep, from + run, 10.0, deep, deep),
        ],
        coping_width: 0.3,
        waterline: 0.1,
        wall_thickness: 0.01,
        draft: 0.0,
        cove: 0.0,
        stations: Vec::new(),
        drain: None,
        weight: None,
    };
    Shell::check(&record).unwrap().0
}

/// Where the slope begins and how long it runs, for fractions of the outline's length.
fn stations(outline: &[Point], from: f64, run: f64) -> (f64, f64) {
    let xs = outline.iter().map(|p| p.x);
    let (low, high) = xs.fold((f64::MAX, f64::MIN), |(l, h), x| (l.min(x), h.max(x)));
    (low + from * (high - low), run * (high - low))
}

/// Area of the facet at or below a depth: cut by a half plane with the boolean engine.
fn area_below(facet: &Facet, depth: f64) -> f64 {
    let slope = facet.plane.gradient;
    let Some(down) = slope.unit() else {
        return if facet.plane.at_origin >= depth {
            facet.region.area()
        } else {
            0.0
        };
    };
    // Farther off than 40 m the line leaves the facet wholly on one side.
    let off = (depth - facet.plane.at_origin) / slope.length();
    let on_line = down * off.clamp(-40.0, 40.0);
    let (far, wide) = (down * 90.0, down.left() * 90.0);
    let start = Point::new(on_line.x, on_line.y);
    let half = vec![
        start + -wide,
        start + far + -wide,
        start + far + wide,
        start + wide,
    ];
    intersection(&facet.region, &Region::from_ring(Ring(half))).area()
}

/// Volume of the facet below a level: the areas of its contours summed by Simpson's rule,
/// exact because between the depths of its vertices the area is a quadratic of the depth.
fn by_contours(facet: &Facet, level: f64) -> f64 {
    let mut depths: Vec<f64> = facet
        .region
        .rings()
        .flat_map(|ring| &ring.0)
        .map(|p| facet.plane.depth(*p).max(level))
        .collect();
    depths.push(level);
    depths.sort_by(f64::total_cmp);
    depths
        .windows(2)
        .filter(|pair| pair[1] - pair[0] > 1e-9)
        .map(|pair| {
            let (a, b) = (pair[0], pair[1]);
            let area = |d| area_below(facet, d);
            // Just inside the ends, where a level facet or edge would make the area jump.
            let nudge = (b - a) * 1e-9;
            (b - a) / 6.0 * (area(a + nudge) + 4.0 * area((a + b) / 2.0) + area(b - nudge))
        })
        .sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn a_volume_is_the_sum_of_its_contours(
        outline in star(),
        shallow in 0.8..1.3_f64,
        fall in 0.1..1.2_f64,
        from in 0.1..0.5_f64,
        run in 0.1..0.4_f64,
        level in -0.2..2.4_f64,
    ) {
        let (from, run) = stations(&outline, from, run);
        let shell = shell(&outline, shallow, fall, (from, run));
        let summed: f64 = shell.facets.iter().map(|f| by_contours(f, level)).sum();
        let volume = shell.volume_below(level);
        prop_assert!((volume - summed).abs() < 1e-6 * (1.0 + summed), "{volume} {summed}");
    }

    /// A vertical wall over a plane floor: the area times the depth at its centroid.
    #[test]
    fn a_plane_floor_is_as_deep_as_under_its_centroid(
        outline in star(),
        depth in 1.5..2.0_f64,
        tilt in -0.15..0.15_f64,
        across in -0.15..0.15_f64,
    ) {
        let record = ShellRecord {
            name: "Plane".to_owned(),
            note: String::new(),
            outline: path(&outline),
            floor: vec![FacetRecord {
                kind: FacetKind::Slope,
                outline: path(&outline),
                depths: outline.iter().map(|p| depth + tilt * p.x + across * p.y).collect(),
            }],
            coping_width: 0.0,
            waterline: 0.0,
            wall_thickness: 0.0,
            draft: 0.0,
            cove: 0.0,
            stations: Vec::new(),
            drain: None,
            weight: None,
        };
        // A tilt may lift a far corner above the rim: then the door speaks, and rightly.
        prop_assume!(record.floor[0].depths.iter().all(|d| *d >= 0.0));
        let (shell, _) = Shell::check(&record).unwrap();
        let middle = shell.footprint.centroid().unwrap();
        let expected = shell.footprint.area() * (depth + tilt * middle.x + across * middle.y);
        let volume = shell.volume_below(0.0);
        prop_assert!((volume - expected).abs() < 1e-6 * expected, "{volume} {expected}");
    }

    /// The wall meets the floor everywhere: its area is the perimeter times the mean depth.
    #[test]
    fn the_wall_goes_all_the_way_round(
        outline in star(),
        shallow in 0.8..1.3_f64,
        fall in 0.1..1.2_f64,
        from in 0.1..0.5_f64,
        run in 0.1..0.4_f64,
    ) {
        let (from, run) = stations(&outline, from, run);
        let shell = shell(&outline, shallow, fall, (from, run));
        let length: f64 = shell.walls.iter().map(|w| w.length()).sum();
        let round = shell.footprint.perimeter();
        prop_assert!((length - round).abs() < 1e-5, "{length} {round}");
        let sampled: f64 = shell
            .footprint
            .rings()
            .flat_map(|ring| ring.edges())
            .map(|(a, b)| {
                let n = 2_000;
                let step = (b - a) * (1.0 / f64::from(n));
                let depth = |i: i32| {
                    let x = (a + step * (f64::from(i) + 0.5)).x;
                    shallow + fall * ((x - from) / run).clamp(0.0, 1.0)
                };
                step.length() * (0..n).map(depth).sum::<f64>()
            })
            .sum();
        let wall = shell.wall_area(0.0);
        prop_assert!((wall - sampled).abs() < 1e-4 * sampled, "{wall} {sampled}");
    }

    /// A deeper level holds less, never less than nothing, and changes by area times step.
    #[test]
    fn water_falls_as_the_level_does(which in 0..64_usize, level in 0.0..1.9_f64, step in 0.001..0.1_f64) {
        let all = catalogue::all();
        let (shell, _) = Shell::check(&all[which % all.len()]).unwrap();
        // The overlay engine's grid leaves facets and footprint a few square millimetres apart.
        let (above, below) = (shell.volume_below(level), shell.volume_below(level + step));
        prop_assert!(below >= 0.0 && above >= below);
        prop_assert!(above - below <= shell.footprint.area() * step + 1e-6);
        let body = shell.displacement_below(level);
        prop_assert!(body >= above, "the body holds its own inside: {body} {above}");
    }
}

/// A number that a broken or hostile file may hold.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => -8.0..8.0_f64,
        2 => (-8..8_i32).prop_map(f64::from),
        1 => any::<f64>(),
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(0.0), Just(1e-9)],
    ]
}

fn any_path() -> impl Strategy<Value = PathRecord> {
    let vertex = prop_oneof![
        (any_number(), any_number()).prop_map(|(x, y)| VertexRecord::Line([x, y])),
        (any_number(), any_number(), any_number())
            .prop_map(|(x, y, b)| VertexRecord::Arc([x, y, b])),
    ];
    let good = star().prop_map(|points| path(&points));
    prop_oneof![
        prop::collection::vec(vertex, 0..7).prop_map(PathRecord),
        good
    ]
}

fn any_shell() -> impl Strategy<Value = ShellRecord> {
    let depths = prop_oneof![
        prop::collection::vec(any_number(), 0..9),
        (0.5..2.0_f64, 3..9_usize).prop_map(|(depth, n)| vec![depth; n]),
    ];
    let facet = (any_path(), depths).prop_map(|(outline, depths)| FacetRecord {
        kind: FacetKind::Slope,
        outline,
        depths,
    });
    let floor = prop::collection::vec(facet, 0..4);
    let rest = prop_oneof![
        Just([0.2, 0.1, 0.01]),
        [any_number(), any_number(), any_number()]
    ];
    (any_path(), floor, rest, any::<bool>()).prop_map(|(outline, mut floor, rest, whole)| {
        // Half of them have one facet of the outline's own shape, so that some pass the door.
        if whole {
            let depths = vec![1.2; outline.0.len()];
            let kind = FacetKind::Deep;
            floor = vec![FacetRecord {
                kind,
                outline: outline.clone(),
                depths,
            }];
        }
        let [coping_width, waterline, wall_thickness] = rest;
        ShellRecord {
            name: "Any".to_owned(),
            note: String::new(),
            outline,
            floor,
            coping_width,
            waterline,
            wall_thickness,
            draft: 0.0,
            cove: 0.0,
            stations: Vec::new(),
            drain: None,
            weight: Some(coping_width * 1000.0),
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Whatever comes in is either refused, with a place and a remedy, or has sound numbers.
    #[test]
    fn the_door_refuses_or_the_numbers_are_sound(record in any_shell()) {
        match Shell::check(&record) {
            Ok((shell, cautions)) => {
                prop_assert!(cautions.iter().all(|f| !f.is_fault()));
                let area = shell.footprint.area();
                prop_assert!(area > 0.0 && area.is_finite());
                let volume = shell.water_volume();
                prop_assert!(volume > 0.0 && volume <= area * shell.deepest() + 1e-6);
                prop_assert!(shell.displacement_below(0.0) + 1e-6 >= volume);
                prop_assert!(shell.rim.area() + 1e-4 >= area);
            }
            Err(faults) => {
                prop_assert!(!faults.is_empty());
                for fault in faults {
                    prop_assert!(fault.is_fault());
                    prop_assert!(fault.pointer.starts_with('/') && !fault.remedy.is_empty());
                }
            }
        }
    }
}

/// Every shell of the catalogue, its water reached by contours too.
#[test]
fn catalogue_volumes_are_sums_of_contours() {
    for record in catalogue::all() {
        let (shell, _) = Shell::check(record).unwrap();
        let summed: f64 = shell
            .facets
            .iter()
            .map(|f| by_contours(f, record.waterline))
            .sum();
        let volume = shell.water_volume();
        assert!(
            (volume - summed).abs() < 1e-6 * summed,
            "{}: {volume} {summed}",
            record.name
        );
    }
}

/// A shell told by stations with widths, leaning walls and a cove, in a rectangle whose corners
/// are cut or square.
fn shaped() -> impl Strategy<Value = ShellRecord> {
    let size = (6.0..11.0_f64, 3.2..5.0_f64, 0.0..0.9_f64);
    let floor = (
        0.9..1.3_f64,
        0.1..1.2_f64,
        0.3..0.9_f64,
        0.3..0.9_f64,
        0.5..1.0_f64,
    );
    let walls = (0.0..0.2_f64, 0.0..0.25_f64, any::<bool>(), any::<bool>());
    (size, floor, walls).prop_map(
        |((length, width, cut), (shallow, fall, near, far, wall), (draft, cove, lean, round))| {
            let (x, y) = (length / 2.0, width / 2.0);
            let ring = shapes::cut_rectangle(x, y, cut);
            let station = |at: f64, depth: f64, share: f64| StationRecord {
                at,
                depth,
                width: Some(share * (width - 2.0 * cut.max(0.01))),
                wall: Some(wall * shallow),
            };
            ShellRecord {
                name: "Shaped".to_owned(),
                note: String::new(),
                outline: path(&ring),
                floor: Vec::new(),
                coping_width: 0.3,
                waterline: 0.1,
                wall_thickness: 0.01,
                draft: if lean { draft } else { 0.0 },
                cove: if round { cove } else { 0.0 },
                stations: vec![
                    station(-x, shallow, near),
                    station(0.2 * x, shallow + fall, far),
                    station(x, shallow + fall, far),
                ],
                drain: None,
                weight: None,
            }
        },
    )
}

/// The volume of the inner face below a level: its depths, one by one over cells that are parted
/// again and again where the depth is not even within them, and all along the outline, where a wall
/// may lean by less than any cell.
struct Depths<'a> {
    shell: &'a Shell,
    level: f64,
}

impl Depths<'_> {
    /// Cells across and along to begin with.
    const CELLS: (i32, i32) = (20, 40);

    /// How often a cell is parted at most: down to a few millimetres.
    const PARTINGS: u32 = 6;

    /// A depth that is off the plane of its cell by no more is even, meters.
    const EVEN: f64 = 5e-5;

    fn volume(&self) -> f64 {
        let (low, high) = self.shell.footprint.bounds().unwrap();
        let (across, along) = Self::CELLS;
        let half = Vector::new(
            (high - low).x / f64::from(2 * along),
            (high - low).y / f64::from(2 * across),
        );
        let middles = (0..along).flat_map(|i| (0..across).map(move |k| (i, k)));
        let middles = middles.map(|(i, k)| {
            let (i, k) = (f64::from(2 * i + 1), f64::from(2 * k + 1));
            low + Vector::new(i * half.x, k * half.y)
        });
        middles.map(|at| self.cell(at, half, Self::PARTINGS)).sum()
    }

    fn depth(&self, at: Point) -> f64 {
        (self.shell.inside_depth(at).unwrap_or(0.0) - self.level).max(0.0)
    }

    /// The part over the cell of these half sides.
    fn cell(&self, at: Point, half: Vector, partings: u32) -> f64 {
        let corner = |x: f64, y: f64| at + Vector::new(x * half.x, y * half.y);
        let middle = self.depth(at);
        let pair = |x: f64, y: f64| self.depth(corner(x, y)) + self.depth(corner(-x, -y));
        let off = |sum: f64| (sum / 2.0 - middle).abs() > Self::EVEN;
        if partings == 0
            || !(self.on_outline(at, half) || off(pair(1.0, 1.0)) || off(pair(1.0, -1.0)))
        {
            return middle * 4.0 * half.x * half.y;
        }
        let quarter =
            |x: f64, y: f64| self.cell(corner(x / 2.0, y / 2.0), half * 0.5, partings - 1);
        quarter(-1.0, -1.0) + quarter(1.0, -1.0) + quarter(1.0, 1.0) + quarter(-1.0, 1.0)
    }

    /// Whether the outline may pass a cell or lie on its edge.
    fn on_outline(&self, at: Point, half: Vector) -> bool {
        let edges = self.shell.footprint.rings().flat_map(Ring::edges);
        let away = edges.map(|(a, b)| {
            let along = (b - a).dot(at - a) / (b - a).dot(b - a);
            at.distance(a + (b - a) * along.clamp(0.0, 1.0))
        });
        away.fold(f64::INFINITY, f64::min) <= half.length() * 1.000_001
    }
}

/// That a shaped shell's volume is the sum of its depths, and that its facets part its floor.
fn check_shaped(record: &ShellRecord, level: f64) -> Result<(), TestCaseError> {
    let shell = Shell::check(record).unwrap().0;
    let depths = Depths {
        shell: &shell,
        level,
    };
    let (summed, volume) = (depths.volume(), shell.volume_below(level));
    prop_assert!(
        (summed - volume).abs() < 1e-3 * shell.volume_below(0.0),
        "{summed} {volume}"
    );
    let area: f64 = shell.facets.iter().map(|f| f.region.area()).sum();
    prop_assert!((area - shell.footprint.area()).abs() < 1e-4, "{area}");
    for (i, a) in shell.facets.iter().enumerate() {
        for b in shell.facets.iter().take(i) {
            prop_assert!(intersection(&a.region, &b.region).area() < 1e-5);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// The depths of the inner face, one by one, against areas and quadrature.
    #[test]
    fn a_shaped_volume_is_the_sum_of_its_depths(record in shaped(), level in 0.0..0.8_f64) {
        check_shaped(&record, level)?;
    }
}

/// Walls that lean by 6 to 12 mm in all: less than a cell of an even grid fine enough for the rest.
#[test]
fn a_wall_that_hardly_leans_counts() {
    let ring = shapes::cut_rectangle(3.0, 1.6, 0.0);
    let station = |at: f64, depth: f64| StationRecord {
        at,
        depth,
        width: Some(0.954),
        wall: Some(0.45),
    };
    let record = ShellRecord {
        name: "Shaped".to_owned(),
        note: String::new(),
        outline: path(&ring),
        floor: Vec::new(),
        coping_width: 0.3,
        waterline: 0.1,
        wall_thickness: 0.01,
        draft: 0.012_368_661_989_757_378,
        cove: 0.0,
        stations: vec![station(-3.0, 0.9), station(0.6, 1.0), station(3.0, 1.0)],
        drain: None,
        weight: None,
    };
    check_shaped(&record, 0.0).unwrap();
}
