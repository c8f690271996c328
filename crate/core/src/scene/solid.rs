//! Slender bodies along a line in space: wires, buried lines.

use super::mesh::{Corner, Mesh, cross};
use crate::geom::{Point, Vector};
use crate::math::{TURN, cos, sin};
use crate::site::SectionLine;

/// Sides of a slender body: enough to look round from a few meters (our choice).
const SIDES: usize = 5;

/// Stretches shorter than this are left out, meters.
const NOTHING: f64 = 1e-3;

/// A body of a radius along a chain, each stretch closed by itself; cut along a section.
pub(super) fn tube(chain: &[Corner], radius: f64, section: Option<&SectionLine>) -> Mesh {
    let cut = section.and_then(|line| Some((line.from, (line.to - line.from).unit()?)));
    let mut corners: Vec<Corner> = Vec::new();
    let mut lots: [Vec<[u32; 3]>; 4] = Default::default();
    for (a, b) in chain.iter().zip(chain.iter().skip(1)) {
        for (from, to) in parted(*a, *b, cut) {
            let Some(rings) = rings(from, to, radius) else {
                continue;
            };
            let middle = Point::new(f64::midpoint(from[0], to[0]), f64::midpoint(from[1], to[1]));
            let before = cut.is_some_and(|(at, along)| along.cross(middle - at) < 0.0);
            let [lot, _, after, _] = &mut lots;
            let lot = if before { lot } else { after };
            let first = corners.len() as u32;
            corners.extend(rings);
            prism(first, lot);
        }
    }
    Mesh::of(corners, lots)
}

/// A stretch, in two where the section's line crosses it.
fn parted(a: Corner, b: Corner, cut: Option<(Point, Vector)>) -> Vec<(Corner, Corner)> {
    let Some((at, along)) = cut else {
        return vec![(a, b)];
    };
    let off = |c: Corner| along.cross(Point::new(c[0], c[1]) - at);
    let (u, v) = (off(a), off(b));
    if u * v >= 0.0 {
        return vec![(a, b)];
    }
    let share = u / (u - v);
    let [x, y, z] = a;
    let [s, t, w] = b;
    let middle = [
        x + (s - x) * share,
        y + (t - y) * share,
        z + (w - z) * share,
    ];
    vec![(a, middle), (middle, b)]
}

/// The corners round both ends of a stretch.
fn rings(from: Corner, to: Corner, radius: f64) -> Option<Vec<Corner>> {
    let [x, y, z] = from;
    let along = unit([to[0] - x, to[1] - y, to[2] - z])?;
    let up = if along[2].abs() < 0.9 {
        [0.0, 0.0, 1.0]
    } else {
        [1.0, 0.0, 0.0]
    };
    let side = unit(cross(along, up))?;
    let over = cross(side, along);
    let ring = |[x, y, z]: Corner| {
        (0..SIDES).map(move |i| {
            let angle = TURN * i as f64 / SIDES as f64;
            let (u, v) = (radius * cos(angle), radius * sin(angle));
            [
                x + side[0] * u + over[0] * v,
                y + side[1] * u + over[1] * v,
                z + side[2] * u + over[2] * v,
            ]
        })
    };
    Some(ring(from).chain(ring(to)).collect())
}

fn unit([x, y, z]: Corner) -> Option<Corner> {
    let length = (x * x + y * y + z * z).sqrt();
    (length > NOTHING).then(|| [x / length, y / length, z / length])
}

/// The triangles of a prism whose two rings of corners begin at a number.
fn prism(first: u32, out: &mut Vec<[u32; 3]>) {
    let sides = SIDES as u32;
    for i in 0..sides {
        let next = (i + 1) % sides;
        let (a, b) = (first + i, first + next);
        let (c, d) = (a + sides, b + sides);
        out.extend([[a, c, b], [b, c, d]]);
    }
    for i in 1..sides - 1 {
        out.push([first, first + i, first + i + 1]);
        let far = first + sides;
        out.push([far, far + i + 1, far + i]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tube_is_closed_outward_and_cut_in_two() {
        let chain = [[0.0, 0.0, 1.0], [10.0, 0.0, 1.0], [10.0, 5.0, 3.0]];
        let line = SectionLine {
            from: Point::new(4.0, -1.0),
            to: Point::new(4.0, 1.0),
        };
        let mesh = tube(&chain, 0.1, Some(&line));
        assert!(mesh.is_closed(mesh.whole()) && mesh.is_closed(mesh.cut()));
        // A regular pentagon's area, as far as the chain is long.
        let area = 0.5 * 5.0 * 0.01 * sin(TURN / 5.0);
        let long = 10.0 + 29.0_f64.sqrt();
        assert!(
            (mesh.volume() - area * long).abs() < 1e-9,
            "{}",
            mesh.volume()
        );
        // The line runs north: what lies east of it is taken away.
        assert!((mesh.volume_of(mesh.cut()) - area * 4.0).abs() < 1e-9);
        assert_eq!(tube(&[[0.0; 3], [0.0; 3]], 0.1, None).triangles.len(), 0);
    }
}
