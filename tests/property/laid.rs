//! What is laid round a shell, each figure reached a second way: rings by their widened outline,
//! lifts by the whole, slabs by counting points, ways by walking them.

use batterboard_core::deck::{DeckPlan, Drawn};
use batterboard_core::dig::{DigShape, excavate};
use batterboard_core::geom::clip::{inside, length, lines_through, outside};
use batterboard_core::geom::distance::{Figure, nearest};
use batterboard_core::geom::offset::offset_region;
use batterboard_core::geom::parallel::offset_measure;
use batterboard_core::geom::{Point, Pose, Region, Ring, Vector};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::pipe::{Around, Closed};
use batterboard_core::shell::{Shell, catalogue};
use batterboard_core::site::ConstructionSettings;
use batterboard_core::takeoff::Fill;
use proptest::prelude::*;

use super::shapes::star;

fn shell(index: usize) -> Shell {
    let all = catalogue::all();
    Shell::check(&all[index % all.len()]).unwrap().0
}

/// A figure drawn somewhere round the shell.
fn drawn() -> impl Strategy<Value = Region> {
    let spokes = prop::collection::vec((0.3..1.0_f64, 1.0..4.0_f64), 4..9);
    (-8.0..8.0_f64, -6.0..6.0_f64, spokes)
        .prop_map(|(x, y, spokes)| Region::from_ring(Ring(star(Point::new(x, y), &spokes))))
}

fn near(what: &str, value: f64, expected: f64, within: f64) -> Result<(), TestCaseError> {
    prop_assert!(
        (value - expected).abs() <= within,
        "{what}: {value} is not {expected}"
    );
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Rings round every outline of the catalogue by the closed form, and by a fine polygon.
    #[test]
    fn a_ring_is_that_of_the_widened_polygon(index in 0_usize..40, by in 0.05..3.0_f64) {
        let shell = shell(index);
        let wide = offset_measure(&shell.outline, by);
        let polygon = offset_region(&shell.outline.region(1e-5), by, 1e-5);
        let within = if wide.exact { 5e-5 * wide.length } else { 1e-3 * wide.length };
        near("area", wide.area, polygon.area(), within)?;
        near("length", wide.length, polygon.perimeter(), 2e-3)?;
    }

    /// The lifts hold together what the whole hole holds, by a grid of cells.
    #[test]
    fn lifts_add_up_to_the_whole(
        index in 0_usize..40,
        slope in prop_oneof![Just(0.0), Just(0.75), Just(1.5), 0.2..2.0_f64],
        base in 0.0..0.3_f64,
        lift in 0.15..0.6_f64,
        over_dig in 0.1..0.5_f64,
    ) {
        let shell = shell(index);
        let mut works = ConstructionSettings::default();
        works.dig.side_slope = Some(slope);
        works.dig.base_thickness = base;
        works.dig.over_dig = over_dig;
        works.stone.lift = lift;
        let shape = DigShape::new(&shell, &works.dig, 0.5);
        let fill = Fill::new(&shell, &works, &shape);
        let cap = works.collar.underside();
        let ground = Ground::check(&GroundRecord::Level { elevation: 0.0 }).unwrap().0;
        let pose = Pose::new(Point::new(3.0, -2.0), 0.4, false);
        let dig = excavate(&shape, &ground, &pose, 0.1, cap);
        let whole = dig.volume_below_cap;
        near("hole", fill.hole, whole, 5e-4 * whole)?;
        let backfill = whole - shell.displacement_below(cap) - fill.base_below;
        prop_assert!(fill.base_below <= fill.base + 1e-6);
        let lifts: f64 = fill.lifts.iter().map(|lift| lift.volume).sum();
        near("lifts", lifts, backfill, 5e-4 * whole)?;
        for pair in fill.lifts.windows(2) {
            prop_assert!(pair[0].to > pair[1].to && pair[0].to == pair[1].from);
        }
        prop_assert!(fill.lifts.iter().all(|l| l.from - l.to <= lift + base + 1e-9));
    }

    /// A slab is what lies in ring or drawn deck and in none of what leaves it: by counting.
    #[test]
    fn a_slab_is_counted_point_by_point(
        index in 0_usize..40, width in 0.0..2.0_f64, deck in drawn(), opening in drawn(),
    ) {
        let shell = shell(index);
        let mut works = ConstructionSettings::default();
        works.deck.width = width;
        let rim = shell.record.coping_width;
        let ring = offset_region(&shell.footprint, rim + width, 1e-4);
        let all = Drawn {
            decks: vec![deck.clone()], openings: vec![opening.clone()], ..Drawn::default()
        };
        let plan = DeckPlan::new(&shell, &works, &all);
        let step = 0.21;
        let mut missed = 0;
        for (i, j) in (-60..60).flat_map(|i| (-60..60).map(move |j| (i, j))) {
            let p = Point::new(f64::from(i) * step + 0.03, f64::from(j) * step + 0.05);
            let poured = (ring.contains(p) || deck.contains(p))
                && !shell.rim.contains(p) && !opening.contains(p);
            missed += usize::from(poured != plan.slab.contains(p));
        }
        // A point on an edge may count either way.
        prop_assert!(missed <= 4, "{missed} points differ");
        let beyond = plan.figures.drawn_area;
        prop_assert!(beyond >= 0.0 && beyond <= deck.area() + 1e-6);
    }

    /// Every joint lies in the slab, none is longer than its grid allows the panels to be, and
    /// ties stay in the slab too.
    #[test]
    fn joints_and_ties_lie_in_the_slab(index in 0_usize..40, deck in drawn(), opening in drawn()) {
        let shell = shell(index);
        let works = ConstructionSettings::default();
        let all = Drawn { decks: vec![deck], openings: vec![opening], ..Drawn::default() };
        let plan = DeckPlan::new(&shell, &works, &all);
        for joint in &plan.joints {
            for (a, b) in joint.iter().zip(joint.iter().skip(1)) {
                let middle = [a.midpoint(*b)];
                let off = nearest(Figure::Chain(&middle), Figure::Area(&plan.slab)).unwrap();
                prop_assert!(off.distance < 2e-3, "{middle:?} is {} off", off.distance);
            }
        }
        let longest = plan.joints.iter().map(|joint| length(joint)).sum::<f64>();
        near("joints", plan.figures.joints, longest, 1e-9)?;
        for tie in &plan.ties {
            prop_assert!(plan.slab.contains(tie.at + tie.out * 0.05));
        }
    }

    /// Lines through an area at a spacing are, on the whole, the area over the spacing.
    #[test]
    fn lines_measure_area(figure in drawn(), angle in 0.0..6.3_f64) {
        let spacing = 0.01;
        let lines = lines_through(&figure, Vector::at_angle(angle), spacing);
        near("area", lines * spacing, figure.area(), 2e-3 * figure.area())?;
    }

    /// What a chain leaves inside and outside is all of it.
    #[test]
    fn a_chain_is_inside_or_outside(figure in drawn(), other in drawn()) {
        let ring = &other.polygons[0].outer;
        let mut chain = ring.0.clone();
        chain.extend(ring.0.first());
        let parts = |parts: Vec<Vec<Point>>| parts.iter().map(|p| length(p)).sum::<f64>();
        let sum = parts(inside(&chain, &figure)) + parts(outside(&chain, &figure));
        near("length", sum, length(&chain), 1e-3)?;
    }

    /// The way round is the shorter one, and keeps its distance from the wall.
    #[test]
    fn pipe_keeps_its_distance(index in 0_usize..40, from in 0.0..1.0_f64, to in 0.0..1.0_f64) {
        let shell = shell(index);
        let works = ConstructionSettings::default();
        let around = Around::new(&shell, &works);
        let round = around.way.length();
        let way = around.way.between(from * round, to * round);
        let apart = (from - to).abs() * round;
        near("way", length(&way), apart.min(round - apart), 1e-6)?;
        let off = works.pipe.off_wall + shell.record.wall_thickness;
        let edge = Closed::of(&shell.footprint);
        for p in &way {
            let (_, at) = edge.nearest(*p).unwrap();
            prop_assert!(at.distance(*p) > off - 2e-3);
        }
    }
}
