//! The ground against slower ways to know it.

use batterboard_core::geom::{Point, Vector};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::math;
use proptest::prelude::*;

fn spots() -> impl Strategy<Value = Vec<[f64; 3]>> {
    prop::collection::vec([-50.0..50.0_f64, -50.0..50.0_f64, 95.0..105.0_f64], 3..40)
}

fn ground(spots: &[[f64; 3]]) -> Option<Ground> {
    let spots = spots.to_vec();
    Ground::check(&GroundRecord::of_spots(spots))
        .ok()
        .map(|g| g.0)
}

/// The nearest place of a segment and how far along it that is.
fn nearest(p: Point, a: Point, b: Point) -> (f64, f64) {
    let along = b - a;
    let t = ((p - a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
    (p.distance(a + along * t), t)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Inside the spots: the plane of the one surveyed triangle round the point, by its shares.
    /// Outside: the elevation at the nearest place of the surveyed area's edge.
    #[test]
    fn heights_are_those_of_the_nearest_known_ground(
        spots in spots(),
        x in -120.0..120.0_f64,
        y in -120.0..120.0_f64,
    ) {
        let Some(ground) = ground(&spots) else { return Ok(()) };
        let p = Point::new(x, y);
        let height = ground.height(p);
        let surveyed = ground.surveyed().unwrap();
        let edge = &surveyed.polygons[0].outer;
        let elevation = |at: Point| {
            let same = |s: &&[f64; 3]| s[0] == at.x && s[1] == at.y;
            spots.iter().find(same).unwrap()[2]
        };
        let by_edge = edge
            .edges()
            .map(|(a, b)| {
                let (distance, t) = nearest(p, a, b);
                (distance, elevation(a) * (1.0 - t) + elevation(b) * t)
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .unwrap();
        if by_edge.0 < 1e-6 {
            return Ok(());
        }
        prop_assert_eq!(height.known, surveyed.contains(p));
        if height.known {
            let facet = ground.surveyed_facets().find_map(|f| {
                let [a, b, c] = f.corners;
                let whole = (b - a).cross(c - a);
                let shares = [(b, c), (c, a), (a, b)].map(|(u, v)| (u - p).cross(v - p) / whole);
                let inside = shares.iter().all(|s| *s >= -1e-12);
                inside.then(|| f.elevations.iter().zip(shares).map(|(z, s)| z * s).sum::<f64>())
            });
            prop_assert!((height.elevation - facet.unwrap()).abs() < 1e-6);
        } else {
            // Two edges may be equally near; a tenth of a millimetre decides nothing there.
            let near = height.elevation - by_edge.1;
            prop_assert!(near.abs() < 1e-6, "{} {}", height.elevation, by_edge.1);
        }
    }

    /// Triangles tile the plane: their areas add up, and each place lies in one of them.
    #[test]
    fn the_triangles_tile_the_surveyed_area(spots in spots()) {
        let Some(ground) = ground(&spots) else { return Ok(()) };
        let sum: f64 = ground.surveyed_facets().map(|f| f.plan_area()).sum();
        let area = ground.surveyed().unwrap().area();
        prop_assert!((sum - area).abs() < 1e-9 * area.max(1.0));
        prop_assert!(ground.facets().iter().all(|f| f.plan_area() >= 0.0));
    }

    /// Looking near a window finds every triangle that has a corner in it or covers it.
    #[test]
    fn no_triangle_near_a_window_is_missed(spots in spots(), x in -60.0..60.0_f64, y in -60.0..60.0_f64) {
        let Some(ground) = ground(&spots) else { return Ok(()) };
        let half = Vector::new(4.0, 3.0);
        let middle = Point::new(x, y);
        let (low, high) = (middle - half, middle + half);
        let near: Vec<_> = ground.facets_near(low, high).collect();
        for facet in ground.facets() {
            let within = |p: &Point| (low.x..high.x).contains(&p.x) && (low.y..high.y).contains(&p.y);
            let [a, b, c] = facet.corners;
            let covers = [(a, b), (b, c), (c, a)].iter().all(|(u, v)| (*v - *u).cross(middle - *u) > 0.0);
            if covers || facet.corners.iter().any(within) {
                prop_assert!(near.contains(&facet));
            }
        }
    }

    /// Whatever comes in, an answer comes out.
    #[test]
    fn any_spots_are_answered(spots in prop::collection::vec([any::<f64>(), any::<f64>(), any::<f64>()], 0..12)) {
        match Ground::check(&GroundRecord::of_spots(spots)) {
            Ok((ground, _)) => prop_assert!(ground.height(Point::new(1.0, 1.0)).elevation.is_finite()),
            Err(faults) => prop_assert!(!faults.is_empty() && faults.iter().all(|f| f.is_fault())),
        }
    }
}

/// A plane to take elevations from, so that lines agree wherever they cross.
fn on_plane(x: f64, y: f64) -> f64 {
    100.0 + 0.07 * x - 0.04 * y
}

/// Points of the plan, as lines of two to five.
fn plan_lines<T: core::fmt::Debug>(
    coordinate: impl Strategy<Value = T> + Clone,
) -> impl Strategy<Value = Vec<Vec<(T, T)>>> {
    let point = (coordinate.clone(), coordinate);
    prop::collection::vec(prop::collection::vec(point, 2..6), 0..8)
}

type Lines = Vec<Vec<[f64; 3]>>;

/// The convex hull's area, by Andrew's monotone chain.
fn hull_area(mut points: Vec<Point>) -> f64 {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = &Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for &p in points {
            while let [.., a, b] = chain[..]
                && (b - a).cross(p - a) <= 0.0
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain
    };
    let mut ring = half(&mut points.iter());
    ring.pop();
    ring.extend(half(&mut points.iter().rev()));
    ring.pop();
    let next = ring.iter().cycle().skip(1);
    let origin = Point::new(0.0, 0.0);
    ring.iter()
        .zip(next)
        .map(|(a, b)| (*a - origin).cross(*b - origin) / 2.0)
        .sum()
}

/// What holds of every surface with breaklines, whatever they are.
fn check_surface(spots: &[[f64; 3]], lines: &Lines) -> Result<Option<Ground>, TestCaseError> {
    let Ok((ground, _)) = Ground::surveyed_by(spots, lines) else {
        return Ok(None);
    };
    // The triangles tile the hull, but for slivers of a millimetre along its edge.
    let sum: f64 = ground.surveyed_facets().map(|f| f.plan_area()).sum();
    let area = ground.surveyed().unwrap().area();
    prop_assert!((sum - area).abs() < 1e-9 * area.max(1.0), "{sum} {area}");
    let all = spots.iter().chain(lines.iter().flatten());
    let hull = hull_area(all.map(|[x, y, _]| Point::new(*x, *y)).collect());
    let within = 0.002 * ground.surveyed().unwrap().perimeter();
    prop_assert!((area - hull).abs() < within, "{area} {hull}");
    // Every stretch of a line is an edge of the surface.
    let mut edges: Vec<[[u64; 2]; 2]> = Vec::new();
    for facet in ground.surveyed_facets() {
        let [a, b, c] = facet.corners.map(|p| [p.x.to_bits(), p.y.to_bits()]);
        edges.extend([[a, b], [b, a], [b, c], [c, b], [c, a], [a, c]]);
    }
    edges.sort_unstable();
    for chain in ground.breaklines() {
        for pair in chain.windows(2) {
            let [a, b] = [pair[0], pair[1]].map(|p| [p.x.to_bits(), p.y.to_bits()]);
            prop_assert!(edges.binary_search(&[a, b]).is_ok(), "{pair:?} is no edge");
        }
    }
    Ok(Some(ground))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// Elevations of a plane: the surface is that plane, and along every line as it was given.
    #[test]
    fn lines_that_agree_lie_in_the_surface(
        plan in prop::collection::vec((-50.0..50.0_f64, -50.0..50.0_f64), 0..25),
        paths in plan_lines(-50.0..50.0_f64),
        t in 0.0..1.0_f64,
    ) {
        let raise = |&(x, y): &(f64, f64)| [x, y, on_plane(x, y)];
        let spots: Vec<_> = plan.iter().map(raise).collect();
        let lines: Lines = paths.iter().map(|p| p.iter().map(raise).collect()).collect();
        let Some(ground) = check_surface(&spots, &lines)? else { return Ok(()) };
        prop_assert_eq!(ground.breaklines().len(), lines.len());
        for line in &lines {
            for pair in line.windows(2) {
                let [x, y, z] = core::array::from_fn(|k| pair[0][k] + (pair[1][k] - pair[0][k]) * t);
                let height = ground.height(Point::new(x, y));
                prop_assert!((height.elevation - z).abs() < 1e-3, "{} {z}", height.elevation);
            }
        }
    }

    /// Any elevations: between two nodes of a line the surface runs straight.
    #[test]
    fn the_surface_is_straight_along_every_stretch_of_a_line(
        spots in prop::collection::vec([-50.0..50.0_f64, -50.0..50.0_f64, 95.0..105.0_f64], 0..25),
        lines in prop::collection::vec(
            prop::collection::vec([-50.0..50.0_f64, -50.0..50.0_f64, 95.0..105.0_f64], 2..6), 0..8),
        t in 0.0..1.0_f64,
    ) {
        let Some(ground) = check_surface(&spots, &lines)? else { return Ok(()) };
        for chain in ground.breaklines() {
            for pair in chain.windows(2) {
                let at = |t: f64| ground.height(pair[0] + (pair[1] - pair[0]) * t).elevation;
                let expected = at(0.0) * (1.0 - t) + at(1.0) * t;
                prop_assert!((at(t) - expected).abs() < 1e-6, "{} {expected}", at(t));
            }
        }
    }

    /// Lattice points: lines that overlap, touch, run through each other's points and cross in
    /// places no number holds exactly. Neither order nor direction matters.
    #[test]
    fn lines_that_overlap_and_touch_are_joined_whatever_their_order(
        plan in prop::collection::vec((0..7_i32, 0..7_i32), 0..12),
        paths in plan_lines(0..7_i32),
        turn in 0.0..6.3_f64,
    ) {
        let (sin, cos) = (math::sin(turn), math::cos(turn));
        let raise = |&(i, j): &(i32, i32)| {
            let (u, v) = (3.1 * f64::from(i), 3.1 * f64::from(j));
            let (x, y) = (u * cos - v * sin, u * sin + v * cos);
            [x, y, on_plane(x, y)]
        };
        let mut spots: Vec<_> = plan.iter().map(raise).collect();
        let mut lines: Lines = paths.iter().map(|p| p.iter().map(raise).collect()).collect();
        let Some(ground) = check_surface(&spots, &lines)? else { return Ok(()) };
        spots.reverse();
        let half = lines.len() / 2;
        lines.rotate_left(half);
        for line in lines.iter_mut().step_by(2) {
            line.reverse();
        }
        let again = check_surface(&spots, &lines)?.unwrap();
        prop_assert_eq!(ground.facets(), again.facets());
    }

    /// Whatever lines come in, an answer comes out.
    #[test]
    fn any_breaklines_are_answered(
        spots in prop::collection::vec([-9.0..9.0_f64, -9.0..9.0_f64, 0.0..2.0_f64], 0..6),
        lines in prop::collection::vec(
            prop::collection::vec([any::<f64>(), any::<f64>(), any::<f64>()], 0..4), 0..4),
        near in prop::collection::vec(
            prop::collection::vec([-2e-3..2e-3_f64, -2e-3..2e-3_f64, 0.0..0.01_f64], 2..5), 0..6),
    ) {
        if let Err(faults) = Ground::surveyed_by(&spots, &lines) {
            prop_assert!(!faults.is_empty() && faults.iter().all(|f| f.is_fault()));
        }
        // All within the width of a line.
        check_surface(&spots, &near)?;
    }
}

/// A figure without a mark is the same whatever the unknown ground is like.
#[test]
fn every_figure_that_leans_on_unknown_ground_is_marked() {
    use batterboard_core::finding::Caveat;
    use batterboard_core::session::{Command, Session};
    let text = include_str!("../../demo-sites/level-suburban.json");
    let mut session = Session::new().unwrap();
    session.open(text).unwrap();
    let at = session.site().placed_shell().unwrap().1.at;
    let rim = session.site().placed_shell().unwrap().1.coping_elevation;
    let mut works = std::sync::Arc::clone(&session.site().site().works);
    let settings = std::sync::Arc::make_mut(&mut works);
    settings.dig.side_slope = Some(1.0);
    // A pile that may grow: one at its greatest height leans on nothing.
    settings.spoil.most_height = 20.0;
    session.apply(Command::SetWorks(works)).unwrap();
    // Known up to the shell's middle; beyond it the ground is as it may be.
    let known = [
        [at.x - 40.0, at.y - 40.0, rim],
        [at.x, at.y - 40.0, rim],
        [at.x, at.y + 40.0, rim],
        [at.x - 40.0, at.y + 40.0, rim],
    ];
    let mut with = |beyond: &[f64]| {
        let mut spots = known.to_vec();
        for z in beyond {
            spots.push([at.x + 40.0, at.y - 40.0, *z]);
            spots.push([at.x + 40.0, at.y + 40.0, *z]);
        }
        session
            .apply(Command::SetGround(GroundRecord::of_spots(spots)))
            .unwrap();
        session.analysis().clone()
    };
    let leaning = with(&[]);
    let mut moved = Vec::new();
    for z in [rim - 8.0, rim + 3.0] {
        let other = with(&[z]);
        let (mine, others) = (&leaning.takeoff, &other.takeoff);
        assert_eq!(mine.len(), others.len());
        for (ours, theirs) in mine.iter().zip(others) {
            let marked = ours.caveats.contains(&Caveat::UnknownGround);
            let same = (ours.value - theirs.value).abs() < 1e-6;
            assert!(same || marked, "{} has no mark", ours.key);
            let mistaken = theirs.caveats.contains(&Caveat::UnknownGround);
            assert!(!mistaken, "{} has a mark", theirs.key);
            if !same {
                moved.push(ours.key);
            }
        }
        for ours in &leaning.clearances {
            let same_one = |c: &&batterboard_core::clearance::Clearance| {
                (c.rule, c.subject) == (ours.rule, ours.subject)
            };
            let theirs = other.clearances.iter().find(same_one).unwrap();
            let marked = ours.caveats.contains(&Caveat::UnknownGround);
            assert!(
                marked || (ours.distance - theirs.distance).abs() < 1e-6,
                "{}",
                ours.name
            );
        }
    }
    // And no mark stands where nothing ever moves.
    for line in leaning
        .takeoff
        .iter()
        .filter(|l| l.caveats.contains(&Caveat::UnknownGround))
    {
        assert!(moved.contains(&line.key), "{} is marked in vain", line.key);
    }
}
