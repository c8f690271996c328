//! Tapes: the reading by the geometry of edges against the edges sampled densely.

use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::clearance::tape::{Lie, Taped};
use batterboard_core::geom::path::VertexRecord;
use batterboard_core::geom::{
    DRAWING_TOLERANCE, PathRecord, Point, Region, Segment, Vector, Vertex,
};
use batterboard_core::shell::catalogue;
use batterboard_core::site::{
    CheckedSite, Feature, FeatureKind, MeasuredFrom, Placement, ShapeRecord, ShellChoice, Site,
    Tape, TapeEnd, starter,
};
use proptest::prelude::*;
use std::sync::Arc;

/// Points so far apart along an edge at most, meters.
const STEP: f64 = 0.02;

fn sampled(segments: impl IntoIterator<Item = Segment>) -> Vec<Point> {
    let mut points = Vec::new();
    for segment in segments {
        let parts = (segment.length() / STEP).ceil().max(1.0);
        let mut i = 0.0;
        while i <= parts {
            points.push(segment.point_at(i / parts));
            i += 1.0;
        }
    }
    points
}

fn edges(region: &Region) -> Vec<Point> {
    let line = |(from, to)| Segment::Line { from, to };
    sampled(region.rings().flat_map(|ring| ring.edges()).map(line))
}

fn least(a: &[Point], b: &[Point]) -> f64 {
    let pairs = a.iter().flat_map(|p| b.iter().map(move |q| p.distance(*q)));
    pairs.fold(f64::INFINITY, f64::min)
}

/// A feature with an arc, a round one, a track with an arc, and a shell, placed at random.
fn site(house: Point, bulge: f64, tree: (Point, f64), shell: (Point, f64), which: usize) -> Site {
    let [x, y] = [house.x, house.y];
    let outline = PathRecord(vec![
        VertexRecord::Line([x, y]),
        VertexRecord::Arc([x + 6.0, y, bulge]),
        VertexRecord::Line([x + 6.0, y + 4.0]),
        VertexRecord::Line([x, y + 4.0]),
    ]);
    let track = PathRecord(vec![
        VertexRecord::Line([1.0, 2.0]),
        VertexRecord::Arc([9.0, 3.0, -bulge]),
        VertexRecord::Line([20.0, 9.0]),
    ]);
    let (at, radius) = tree;
    let all = catalogue::all();
    Site {
        features: Arc::new(vec![
            Feature::of("house", FeatureKind::House, ShapeRecord::Area(outline)),
            Feature::of("tree", FeatureKind::Tree, ShapeRecord::Disc { at, radius }),
            Feature::of("line", FeatureKind::BuriedLine, ShapeRecord::Track(track)),
        ]),
        placement: Some(Placement {
            shell: Arc::new(ShellChoice::Catalogue(all[which % all.len()].name.clone())),
            at: shell.0,
            heading: shell.1,
            mirrored: false,
            coping_elevation: 0.1,
        }),
        ..starter::blank_lot()
    }
}

fn end(which: usize, at: Point) -> TapeEnd {
    let feature = |id: &str| TapeEnd::Feature(id.to_owned());
    match which {
        0 => feature("house"),
        1 => feature("tree"),
        2 => feature("line"),
        3 => TapeEnd::Side(1),
        4 => TapeEnd::At(at),
        5 => TapeEnd::Work(MeasuredFrom::WatersEdge),
        6 => TapeEnd::Work(MeasuredFrom::Rim),
        7 => TapeEnd::Work(MeasuredFrom::DeckEdge),
        _ => TapeEnd::Work(MeasuredFrom::Dig),
    }
}

/// The edge of an end, sampled without the code that tapes use.
fn points(site: &CheckedSite, end: &TapeEnd, dig: &Region) -> Vec<Point> {
    match end {
        TapeEnd::At(at) => vec![*at],
        TapeEnd::Side(course) => sampled([site.lot().lot.sides[*course].segment]),
        TapeEnd::Feature(id) => {
            let index = site.site().features.iter().position(|f| f.id == *id);
            sampled(site.features()[index.unwrap()].shape.segments())
        }
        TapeEnd::Work(MeasuredFrom::Dig) => edges(dig),
        TapeEnd::Work(part) => {
            let (shell, placement) = site.placed_shell().unwrap();
            let out = match part {
                MeasuredFrom::WatersEdge => 0.0,
                MeasuredFrom::Rim => shell.record.coping_width,
                _ => shell.record.coping_width + site.site().works.deck.width,
            };
            widened(shell.outline.posed(&placement.pose()).vertices(), out)
        }
    }
}

/// A closed path widened with round corners: circles round its points, those that lie within
/// another's circle left out.
fn widened(vertices: &[Vertex], out: f64) -> Vec<Point> {
    let next = vertices.iter().cycle().skip(1);
    let pairs = vertices.iter().zip(next);
    let along = sampled(pairs.map(|(from, to)| Segment::between(*from, to.at)));
    if out == 0.0 {
        return along;
    }
    let inside = Region::from_ring(batterboard_core::geom::Ring(along.clone()));
    let round = |p: &Point| {
        let p = *p;
        (0..180).map(move |i| p + Vector::along_bearing(f64::from(i) * 0.034_906_585) * out)
    };
    let coarse: Vec<Point> = along.iter().step_by(2).copied().collect();
    let ring = coarse.iter().flat_map(round);
    let kept =
        ring.filter(|p| !inside.contains(*p) && coarse.iter().all(|q| q.distance(*p) > out - 1e-3));
    kept.collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]
    #[test]
    fn a_tape_reads_the_shortest_way_between_two_edges(
        house in (2.0..20.0, 2.0..30.0),
        bulge in -0.9..0.9f64,
        tree in ((2.0..28.0, 2.0..38.0), 0.3..4.0f64),
        shell in ((9.0..20.0, 14.0..30.0), 0.0..6.2f64),
        which in 0usize..20,
        ends in (0usize..9, 0usize..9),
        at in (1.0..29.0, 1.0..40.0),
    ) {
        let point = |(x, y): (f64, f64)| Point::new(x, y);
        let mut site = site(point(house), bulge, (point(tree.0), tree.1), (point(shell.0), shell.1), which);
        let (from, to) = (end(ends.0, point(at)), end(ends.1, point(at)));
        prop_assume!(from != to);
        site.tapes = vec![
            Tape { from: from.clone(), to: to.clone() },
            Tape { from: to.clone(), to: from.clone() },
        ];
        let Ok(site) = CheckedSite::check(site, None) else {
            return Ok(());
        };
        let analysis = analysis::run(&Scenario::of(&site), Detail::Complete, &mut Cache::default());
        let [there, back]: [Taped; 2] = [0, 1].map(|i| analysis.tapes[i].unwrap());
        prop_assert!((there.distance - back.distance).abs() < 1e-9, "{there:?} {back:?}");
        let gap = there.from.distance(there.to);
        prop_assert!((gap - there.distance).abs() < 1e-6, "{there:?}");
        let dig = &analysis.work.dig;
        let (a, b) = (points(&site, &from, dig), points(&site, &to, dig));
        // Between samples an edge runs at most half a step away from one; a widened one is a
        // little rougher.
        let wide = |end: &TapeEnd| matches!(
            end,
            TapeEnd::Work(MeasuredFrom::Rim | MeasuredFrom::DeckEdge)
        );
        let rough = if wide(&from) || wide(&to) { 0.12 } else { STEP };
        let sampled = least(&a, &b);
        // Circles a double step apart dip between each other, at the narrowest coping by 1 mm, and
        // are cut a millimeter within.
        let under = if rough > STEP { 3.0 } else { 2.0 } * DRAWING_TOLERANCE;
        prop_assert!(there.distance <= sampled + under, "{there:?} {sampled}");
        prop_assert!(sampled <= there.distance + rough, "{there:?} {sampled}");
        if there.lie == Lie::Meeting {
            prop_assert!(sampled <= rough);
        }
    }
}
