//! All ground that the water may cover: what clear ground means to whoever looks at the pool and not at its middle.

use super::bounds::Bounds;
use crate::geom::boolean::positive_winding;
use crate::geom::convolution::{Tracing, convolution};
use crate::geom::{Point, Pose, Region};

impl Bounds<'_> {
    /// Every point that lies under water for some place of the shell's middle on clear ground at one heading, site
    /// meters. What only a hole of clear ground smaller than the shell leaves out is in it too. Empty where the shell
    /// fits nowhere.
    ///
    /// # Tolerance
    /// That of [`Bounds::region`].
    pub fn water_may_cover(&self, heading: f64, mirrored: bool) -> Region {
        let clear = self.region(heading, mirrored);
        let [water, _] = self.figures();
        let water = water.posed(&Pose::new(Point::default(), heading, mirrored));
        let mut rings = Vec::new();
        for polygon in &clear.polygons {
            let places = Tracing::of_ring(&polygon.outer.0);
            for figure in &water.polygons {
                rings.extend(convolution(&places, &Tracing::of_ring(&figure.outer.0)));
            }
        }
        positive_winding(&rings)
    }
}

#[cfg(test)]
mod tests {
    use crate::analysis::Cache;
    use crate::clear_ground::Bounds;
    use crate::geom::boolean::difference;
    use crate::geom::{Pose, Vector};
    use crate::site::{CheckedSite, Site};

    #[test]
    fn the_water_at_any_clear_place_is_covered_and_what_is_covered_lies_in_the_lot() {
        let demo = include_str!("../../../../demo-sites/level-suburban.json");
        let site: Site = serde_json::from_str(demo).unwrap();
        let site = CheckedSite::check(site, None).unwrap();
        let bounds = Bounds::where_it_stands(&site, &mut Cache::default()).unwrap();
        for heading in [0.0, 0.7, 2.0] {
            let covered = bounds.water_may_cover(heading, false);
            let clear = bounds.region(heading, false);
            assert_eq!(covered.is_empty(), clear.is_empty());
            let outside = difference(&covered, &site.lot().region).area();
            assert!(outside < 1e-6, "{outside}");
            let [water, _] = bounds.figures();
            for ring in clear.polygons.iter().map(|it| &it.outer) {
                for at in ring.0.iter().step_by(7) {
                    let pose = Pose::new(*at + Vector::default(), heading, false);
                    let missing = difference(&water.posed(&pose), &covered).area();
                    assert!(missing < 1e-4, "{missing} at {at:?}");
                }
            }
        }
    }
}
