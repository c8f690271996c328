//! Grading by exact prisms, the pile's place by looking everywhere, even earth by its quantities.

use batterboard_core::analysis::coping_step::{self, coping_step};
use batterboard_core::analysis::{self, Analysis, Cache, Detail, Scenario, balance};
use batterboard_core::clearance::WorkFigures;
use batterboard_core::exchange;
use batterboard_core::geom::path::VertexRecord;
use batterboard_core::geom::{Edges, PathRecord, Point, Pose, Region, Ring, Vector};
use batterboard_core::grading::{Drawn, Layout, Levels};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::shell::{FacetKind, FacetRecord, Shell, ShellRecord};
use batterboard_core::site::{
    CheckedSite, ConstructionSettings, Feature, FeatureKind, ShapeRecord, Site,
};
use batterboard_core::stockpile::{Obstacles, Work, nearest_fit};
use proptest::prelude::*;

/// Half the length and width of the rim.
const HALF: (f64, f64) = (4.0, 2.0);

/// A shell whose rim is its outline.
fn shell() -> Shell {
    let (x, y) = HALF;
    let square = PathRecord(vec![
        VertexRecord::Line([-x, -y]),
        VertexRecord::Line([x, -y]),
        VertexRecord::Line([x, y]),
        VertexRecord::Line([-x, y]),
    ]);
    let record = ShellRecord {
        name: "Plain".to_owned(),
        note: String::new(),
        outline: square.clone(),
        floor: vec![FacetRecord {
            kind: FacetKind::Deep,
            outline: square,
            depths: vec![1.5; 4],
        }],
        coping_width: 0.0,
        waterline: 0.15,
        wall_thickness: 0.01,
        draft: 0.0,
        cove: 0.0,
        stations: Vec::new(),
        drain: None,
        weight: None,
    };
    Shell::check(&record).unwrap().0
}

/// Spots over rolling ground no steeper than the banks, elevations about 0.
fn rolling() -> impl Strategy<Value = Ground> {
    let spot = [-20.0..20.0_f64, -20.0..20.0_f64, -0.5..0.5_f64];
    let fall = [-0.06..0.06_f64, -0.06..0.06_f64];
    let spots = (prop::collection::vec(spot, 3..12), fall);
    spots.prop_filter_map("spots too near to each other", |(mut spots, [fx, fy])| {
        spots.extend(
            [(-40.0, -40.0), (40.0, -41.0), (42.0, 40.0), (-39.0, 43.0)].map(|(x, y)| [x, y, 0.0]),
        );
        for spot in &mut spots {
            spot[2] += fx * spot[0] + fy * spot[1];
        }
        let (ground, _) = Ground::check(&GroundRecord::of_spots(spots)).ok()?;
        let steepest = ground.surveyed_facets().filter_map(|f| f.gradient());
        let steepest = steepest.map(Vector::length).fold(0.0, f64::max);
        (steepest < 0.2).then_some(ground)
    })
}

/// A corner of a piece with the height of ground and of the finished ground there.
type Corner = (Point, f64);

/// The part of a convex polygon where `value` is positive.
fn clip(polygon: &[Point], value: impl Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::new();
    for (i, p) in polygon.iter().enumerate() {
        let q = polygon[(i + 1) % polygon.len()];
        let (a, b) = (value(*p), value(q));
        if a >= 0.0 {
            kept.push(*p);
        }
        if (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0) {
            kept.push(*p + (q - *p) * (a / (a - b)));
        }
    }
    kept
}

/// The integral of a function that is a plane over a convex polygon.
fn prism(polygon: &[Point], height: impl Fn(Point) -> f64) -> f64 {
    let corners: Vec<Corner> = polygon.iter().map(|p| (*p, height(*p))).collect();
    let fan = corners.windows(2).skip(1);
    let Some((apex, h)) = corners.first() else {
        return 0.0;
    };
    fan.map(|pair| {
        let ((p, a), (q, b)) = (pair[0], pair[1]);
        (p - *apex).cross(q - *apex) / 2.0 * (h + a + b) / 3.0
    })
    .sum()
}

/// Cut and fill over a convex piece of the shell's frame between two finished planes: ground
/// above `high` is cut to it, ground below `low` filled to it.
fn moved(
    piece: &[Point],
    ground: &[([Point; 3], [f64; 3])],
    low: &dyn Fn(Point) -> f64,
    high: &dyn Fn(Point) -> f64,
) -> (f64, f64) {
    let (mut cut, mut fill) = (0.0, 0.0);
    for (corners, rises) in ground {
        let [a, b, c] = *corners;
        let (u, v) = (b - a, c - a);
        let (du, dv) = (rises[1] - rises[0], rises[2] - rises[0]);
        let area = u.cross(v);
        let slope = Vector::new((du * v.y - dv * u.y) / area, (dv * u.x - du * v.x) / area);
        let surface = |p: Point| rises[0] + slope.dot(p - a);
        let inside = |p: Point, from: Point, to: Point| area.signum() * (to - from).cross(p - from);
        let mut part = clip(piece, |p| inside(p, a, b));
        part = clip(&part, |p| inside(p, b, c));
        part = clip(&part, |p| inside(p, c, a));
        let above = |p: Point| surface(p) - high(p);
        let below = |p: Point| low(p) - surface(p);
        cut += prism(&clip(&part, above), above);
        fill += prism(&clip(&part, below), below);
    }
    (cut, fill)
}

/// Wedges of a quarter circle.
const WEDGES: u32 = 60;

/// Cut and fill round the rim, by exact prisms over strips along its sides and wedges at its
/// corners.
fn by_prisms(levels: &Levels, bank: f64, ground: &[([Point; 3], [f64; 3])]) -> (f64, f64) {
    let zones = [
        (0.0, levels.collar),
        (levels.collar, levels.deck),
        (levels.deck, levels.deck + 6.0),
    ];
    let finished = |zone: usize, d: f64, way: f64| match zone {
        0 => -levels.cap,
        1 => -levels.fall * d - levels.under,
        _ => -levels.fall * levels.deck + way * (d - levels.deck) / bank,
    };
    let (hx, hy) = HALF;
    let mut sum = (0.0, 0.0);
    let mut add = |piece: Vec<Point>, zone: usize, from: Point, out: Vector| {
        let d = |p: Point| (p - from).dot(out);
        let low = |p: Point| finished(zone, d(p), -1.0);
        let high = |p: Point| finished(zone, d(p), 1.0);
        let (cut, fill) = moved(&piece, ground, &low, &high);
        sum = (sum.0 + cut, sum.1 + fill);
    };
    for (zone, (from, to)) in zones.into_iter().enumerate() {
        let corners = [(hx, hy), (-hx, hy), (-hx, -hy), (hx, -hy)].map(|(x, y)| Point::new(x, y));
        for side in 0..4 {
            let (a, b) = (corners[(side + 3) % 4], corners[side]);
            let out = -((b - a).unit().unwrap().left());
            let piece = vec![a + out * from, a + out * to, b + out * to, b + out * from];
            let piece = if (piece[1] - piece[0]).cross(piece[2] - piece[0]) < 0.0 {
                piece.into_iter().rev().collect()
            } else {
                piece
            };
            add(piece, zone, a, out);
            for k in 0..WEDGES {
                let angle = |k: f64| {
                    let quarter = core::f64::consts::FRAC_PI_2;
                    let start = out.angle();
                    Vector::at_angle(start + quarter * k / f64::from(WEDGES))
                };
                let k = f64::from(k);
                let (u, v) = (angle(k), angle(k + 1.0));
                let piece = vec![b + u * from, b + u * to, b + v * to, b + v * from];
                add(piece, zone, b, angle(k + 0.5));
            }
        }
    }
    sum
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Cells against prisms: two ways to the same volumes, within 0.1 % of what is moved.
    #[test]
    fn cut_and_fill_are_those_of_exact_prisms(
        ground in rolling(),
        x in -5.0..5.0_f64,
        heading in 0.0..6.3_f64,
        mirrored: bool,
        coping in -0.5..0.6_f64,
        deck in 0.6..1.6_f64,
    ) {
        let mut works = ConstructionSettings::default();
        works.deck.width = deck;
        let shell = shell();
        let layout = Layout::new(&shell, &works, None, 6.0, 0.1);
        let pose = Pose::new(Point::new(x, 1.0), heading, mirrored);
        let graded = layout.grade(&Drawn::default(), &ground, &pose, coping);
        prop_assume!(graded.closed);
        let facets: Vec<([Point; 3], [f64; 3])> = ground
            .facets()
            .iter()
            .map(|f| (f.corners.map(|p| pose.shell_from_site(p)), f.elevations.map(|z| z - coping)))
            .collect();
        let bank = works.grading.bank_slope;
        let (cut, fill) = by_prisms(&Levels::of(&works), bank, &facets);
        let allowed = 1e-3 * (cut + fill);
        prop_assert!((graded.cut() - cut).abs() <= allowed, "cut {} is not {cut}", graded.cut());
        prop_assert!((graded.fill() - fill).abs() <= allowed, "fill {} is not {fill}", graded.fill());
    }

    /// The place that is found has the room, and no place on a fine grid lies nearer.
    #[test]
    fn no_place_for_the_pile_lies_nearer(
        blocks in prop::collection::vec((0.0..26.0_f64, 0.0..36.0_f64, 1.0..6.0_f64, 1.0..6.0_f64), 0..7),
        radius in 1.0..6.0_f64,
        east in 9.0..21.0_f64,
    ) {
        let feature = |(i, (x, y, w, h)): (usize, &(f64, f64, f64, f64))| {
            let corners = [[*x, *y], [x + w, *y], [x + w, y + h], [*x, y + h]];
            let shape = ShapeRecord::Area(PathRecord(corners.map(VertexRecord::Line).to_vec()));
            let kinds = [FeatureKind::House, FeatureKind::SepticField, FeatureKind::Watercourse];
            Feature::of(format!("b{i}"), kinds[i % 3], shape)
        };
        let features: Vec<Feature> = blocks.iter().enumerate().map(feature).collect();
        let mut site = batterboard_core::site::starter::blank_lot();
        site.features = std::sync::Arc::new(features);
        let site = CheckedSite::check(site, None).unwrap();
        let lot = &site.lot().region;
        let (low, high) = lot.bounds().unwrap();
        let middle = Point::new(low.x + east.min(high.x - low.x - 8.0), low.y.midpoint(high.y));
        let block = |w: f64, h: f64| {
            let (x, y) = (middle.x, middle.y);
            let corners = [(x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h)];
            Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()))
        };
        let figures = WorkFigures {
            waters_edge: block(4.0, 2.0),
            rim: 0.3,
            deck_edge: 1.5,
            drawn_decks: Region::default(),
            equipment: None,
            dig: block(6.0, 3.5),
            ..WorkFigures::default()
        };
        let back = 0.61;
        let obstacles = Obstacles::of(site.lot(), site.features(), &site.site().features);
        let work = Work::of(&figures, back, middle);
        let found = nearest_fit(&obstacles, &work, radius);
        // Everything once more, one thing after another.
        let signed = |area: &Region, p: Point| {
            let away = Edges::of_region(area).distance(p);
            if area.contains(p) { -away } else { away }
        };
        let areas: Vec<Region> = blocks.iter().map(|(x, y, w, h)| {
            let corners = [(*x, *y), (x + w, *y), (x + w, y + h), (*x, y + h)];
            Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()))
        }).collect();
        let room = |p: Point| {
            let rooms = [
                -signed(lot, p),
                signed(&figures.dig, p) - back,
                signed(&figures.waters_edge, p) - figures.deck_edge,
            ];
            let things = areas.iter().map(|area| signed(area, p));
            rooms.into_iter().chain(things).fold(f64::INFINITY, f64::min)
        };
        if let Some(at) = found {
            prop_assert!(room(at) >= radius - 1e-9, "{at:?} has room for {}", room(at));
        }
        let nearest = found.map_or(f64::INFINITY, |at| at.distance(middle));
        let steps = 160_i32;
        for k in 0..steps * steps {
            let share = |k: i32| f64::from(k) / f64::from(steps);
            let p = Point::new(
                low.x + (high.x - low.x) * share(k % steps),
                low.y + (high.y - low.y) * share(k / steps),
            );
            // A place that fits with a little to spare.
            if p.distance(middle) < nearest - 0.02 {
                prop_assert!(room(p) < radius + 0.02, "{p:?} is nearer than {found:?}");
            }
        }
    }
}

/// At the coping where earth is even the job yields what its fill takes, told by its own lines.
#[test]
fn even_earth_is_even_in_the_takeoff() {
    let text = include_str!("../../demo-sites/sloping-hillside.json");
    let site = exchange::open(text).unwrap().site;
    let balance = balance::balance(&site).unwrap();
    let at = |coping: f64| {
        let mut next = Site::clone(site.site());
        next.placement.as_mut().unwrap().coping_elevation = coping;
        let site = CheckedSite::check(next, Some(&site)).unwrap();
        analysis::run(
            &Scenario::of(&site),
            Detail::Complete,
            &mut Cache::default(),
        )
    };
    let left = |it: &Analysis| it.value("cut").unwrap() - it.value("fill-bank").unwrap();
    let now = at(balance.present);
    assert!((left(&now) - balance.left.all).abs() < 1e-9);
    let even = balance.whole.coping().expect("it is even within 5 ft");
    // Half a millimetre over the opening and the deck.
    assert!(left(&at(even)).abs() < 0.2, "{}", left(&at(even)));
    let alone = balance
        .alone
        .coping()
        .expect("deck and banks are even as well");
    assert!(alone < even, "without the hole's spoil the deck lies lower");
    let changes = coping_step(&site);
    let cut = changes.iter().find(|it| it.key == "bank-cut").unwrap();
    assert!(cut.up < cut.present && cut.present < cut.down);
    let by_hand = at(balance.present + coping_step::STEP);
    assert_eq!(cut.up, by_hand.value("bank-cut").unwrap());
}
