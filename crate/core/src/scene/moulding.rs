//! The shell as it is moulded, and the water in it.

use super::place::Placed;
use super::plan::{Layer, Lines};
use super::{Matter, Scene, Span, Stage};
use crate::geom::offset::offset_region;
use crate::geom::{Point, VOLUME_TOLERANCE};

/// Corners of arcs nearer than this to a straight edge are left out, meters.
pub(super) const THIN: f64 = 0.000_7;

/// The same within a rounded or leaning wall, meters.
const ROUNDED: f64 = 0.003;

/// A moulding is drawn at least so thick, meters: one whose thickness nobody entered would not be seen.
const LEAST: f64 = 0.004;

/// Lines at so many places across the foot of a wall that leans or is rounded.
const ACROSS: [f64; 3] = [0.15, 0.45, 1.0];

/// Adds them.
pub(super) fn build(scene: &mut Scene, placed: &Placed<'_>) {
    let (shell, coping) = (placed.shell, placed.coping);
    let wall = offset_region(&shell.footprint, shell.wall_width(), VOLUME_TOLERANCE);
    let mut lines = Lines::default();
    for region in [&shell.footprint, &wall, &shell.rim] {
        lines.shell_region(region, &placed.pose, THIN);
    }
    for edge in placed.floor_edges() {
        lines.chain(&edge, 0.0);
    }
    for by in insets(placed) {
        let inset = offset_region(&shell.footprint, -by, VOLUME_TOLERANCE);
        lines.shell_region(&inset, &placed.pose, ROUNDED);
    }
    let thickness = shell.record.wall_thickness.max(LEAST);
    let moulded = |q: Point| -> Layer {
        let top = coping - shell.inside_depth(q).unwrap_or(0.0);
        match shell.outside_depth(q) {
            Some(depth) => Some(((coping - depth).min(top - LEAST), top)),
            None => shell
                .rim
                .contains(q)
                .then_some((coping - thickness, coping)),
        }
    };
    let level = coping - shell.record.waterline;
    let water = |q: Point| -> Layer {
        let floor = coping - shell.inside_depth(q)?;
        (floor < level).then_some((floor, level))
    };
    let [body, held] = lines.part(scene.section.as_ref()).bodies(|p| {
        let q = placed.inward(p);
        [moulded(q), water(q)]
    });
    let name = format!("shell {}", shell.record.name);
    scene.add(Matter::Shell, name, Span::from(Stage::Set), body);
    let name = Matter::Water.words();
    scene.add(Matter::Water, name, Span::from(Stage::Backfilled), held);
}

/// How far inside the water's edge a leaning or rounded wall bends, meters.
pub(super) fn insets(placed: &Placed<'_>) -> Vec<f64> {
    let record = &placed.shell.record;
    let mut insets = Vec::new();
    if placed.shell.is_plain() {
        return insets;
    }
    let mut depths: Vec<f64> = placed
        .shell
        .facets
        .iter()
        .flat_map(|facet| [facet.depths().0, facet.depths().1])
        .collect();
    depths.sort_by(f64::total_cmp);
    depths.dedup_by(|b, a| *b - *a < 0.05);
    for depth in depths {
        let foot = record.draft * depth;
        insets.push(foot);
        let rounded = (record.cove > 0.0).then_some(ACROSS);
        insets.extend(
            rounded
                .into_iter()
                .flatten()
                .map(|it| foot + it * record.cove),
        );
    }
    insets.retain(|by| *by > 0.002);
    insets.sort_by(f64::total_cmp);
    insets.dedup_by(|b, a| *b - *a < 0.01);
    insets
}
