//! Places of the rim at which a rod is read after setting: both ends, and three along either side.

use serde::Serialize;

use super::offset::across;
use crate::geom::{Point, Pose, Region};

/// A place of the rim by its name, seen toward the deep end.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RimStation {
    /// What it is called.
    pub place: &'static str,
    /// Where it is, shell frame, meters.
    pub in_shell: Point,
}

/// Along the shell from the shallow end, as a share of the length; and what the place is called on the
/// left and on the right.
const ALONG: [(f64, [&str; 2]); 3] = [
    (0.25, ["left, shallow", "right, shallow"]),
    (0.5, ["left, middle", "right, middle"]),
    (0.75, ["left, deep", "right, deep"]),
];

/// The places, from the shallow end round by the left. `rim`: inside the outer edge of the coping, shell
/// frame.
pub(super) fn rim_stations(rim: &Region, pose: &Pose) -> Vec<RimStation> {
    let (Some((low, high)), Some(polygon)) = (rim.bounds(), rim.polygons.first()) else {
        return Vec::new();
    };
    let ring = &polygon.outer;
    let end = |x: f64| {
        let by = |p: &&Point| (p.x - x).abs();
        ring.0
            .iter()
            .min_by(|a, b| by(a).total_cmp(&by(b)))
            .copied()
    };
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for (share, names) in ALONG {
        let x = low.x + (high.x - low.x) * share;
        let Some((low, high)) = across(rim, x) else {
            continue;
        };
        let sides = if pose.mirrored {
            [low, high]
        } else {
            [high, low]
        };
        for ((list, place), in_shell) in [&mut left, &mut right].into_iter().zip(names).zip(sides) {
            list.push(RimStation { place, in_shell });
        }
    }
    let named = |place, at: Option<Point>| at.map(|in_shell| RimStation { place, in_shell });
    let mut all = Vec::with_capacity(2 * ALONG.len() + 2);
    all.extend(named("shallow end", end(low.x)));
    all.extend(left);
    all.extend(named("deep end", end(high.x)));
    all.extend(right.into_iter().rev());
    all
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::geom::{Ring, Vector};

    fn rectangle() -> Region {
        let corners = [(-4.0, -2.0), (4.0, -2.0), (4.0, 2.0), (-4.0, 2.0)];
        Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()))
    }

    #[test]
    fn eight_places_lie_on_the_rim_and_left_is_left_of_the_way_to_the_deep_end() {
        let straight = Pose::new(Point::new(0.0, 0.0), 0.0, false);
        for pose in [straight, Pose::new(Point::new(3.0, 1.0), 0.4, true)] {
            let all = rim_stations(&rectangle(), &pose);
            assert_eq!(all.len(), 8);
            let of = |name: &str| all.iter().find(|it| it.place == name).unwrap().in_shell;
            let site = |name: &str| pose.site_from_shell(of(name));
            let ahead: Vector = site("deep end") - site("shallow end");
            for along in ["shallow", "middle", "deep"] {
                let [left, right] = ["left", "right"].map(|side| site(&format!("{side}, {along}")));
                assert!(ahead.cross(left - right) > 0.0, "{along}");
            }
            for it in &all {
                let on = (it.in_shell.y.abs() - 2.0).abs() < 1e-9
                    || (it.in_shell.x.abs() - 4.0).abs() < 1e-9;
                assert!(on, "{it:?}");
            }
        }
    }
}
