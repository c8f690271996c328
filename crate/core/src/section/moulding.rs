//! The moulded shell along a line: its two faces, and what lies between them.

use super::chain::sampled;
use super::placed::Placed;
use crate::geom::boolean::{difference, positive_winding};
use crate::geom::offset::offset_region;
use crate::geom::{DRAWING_TOLERANCE, Point, Region, Ring};
use crate::shell::Shell;

/// The shell along a line, section frame.
pub(super) struct Moulding {
    /// Everything inside its outer face, up to the rim.
    pub outer: Region,
    /// Everything inside its inner face, up to the rim.
    pub inner: Region,
    /// Wall, floor and coping.
    pub body: Region,
}

impl Moulding {
    pub fn of(placed: &Placed<'_>) -> Self {
        let shell = placed.shell;
        let wall = offset_region(&shell.footprint, shell.wall_width(), DRAWING_TOLERANCE);
        let outer = face(placed, &wall, |shell, p| shell.outside_depth(p));
        let inner = face(placed, &shell.footprint, |shell, p| shell.inside_depth(p));
        let parts = [difference(&outer, &inner), coping(placed)];
        let rings: Vec<Ring> = parts.iter().flat_map(Region::rings).cloned().collect();
        Self {
            outer,
            inner,
            body: positive_winding(&rings),
        }
    }
}

/// What lies inside a face that reaches down to a depth all over a region of the shell's frame.
fn face(placed: &Placed<'_>, over: &Region, depth: fn(&Shell, Point) -> Option<f64>) -> Region {
    let (breaks, coping) = (placed.floor_breaks(), placed.coping);
    let at = |station: f64| coping - depth(placed.shell, placed.cut.at(station)).unwrap_or(0.0);
    let stretches = placed.cut.inside(over).into_iter();
    let rings: Vec<Ring> = stretches
        .map(|stretch| {
            let mut chain = vec![Point::new(stretch.0, coping)];
            chain.extend(sampled(stretch, &breaks, &at));
            chain.push(Point::new(stretch.1, coping));
            Ring(chain)
        })
        .collect();
    positive_winding(&rings)
}

/// The coping: from the water's edge to the rim, as thick as the wall.
fn coping(placed: &Placed<'_>) -> Region {
    let shell = placed.shell;
    difference(
        &placed.slab(&shell.rim, 0.0, shell.record.wall_thickness),
        &placed.column(&shell.footprint),
    )
}
