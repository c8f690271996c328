//! Whether a tape can be pulled straight: what stands in its way.

use crate::geom::{Edges, Point, Region, clip};
use crate::site::{CheckedShape, CheckedSite, FeatureKind};

/// A tape may run along a wall's face, and its end is at a corner: what lies this little within is
/// not in the way, meters.
const GRAZING: f64 = 0.02;

/// What a tape cannot be pulled through.
pub(super) struct Obstacles<'a>(Vec<Obstacle<'a>>);

struct Obstacle<'a> {
    feature: usize,
    figure: Figure<'a>,
}

enum Figure<'a> {
    Area(&'a Region, Edges),
    Chain(&'a [Point]),
}

impl<'a> Obstacles<'a> {
    /// Buildings, walls, fences and equipment of a site.
    pub fn of(site: &'a CheckedSite) -> Self {
        use FeatureKind as K;
        let features = site.features().iter().filter(|f| {
            matches!(
                f.kind,
                K::House | K::Outbuilding | K::Wall | K::Fence | K::Equipment
            )
        });
        let obstacles = features.map(|feature| Obstacle {
            feature: feature.index,
            figure: match &feature.shape {
                CheckedShape::Area(_, region) => Figure::Area(region, Edges::of_region(region)),
                CheckedShape::Track(_, chain) => Figure::Chain(chain),
            },
        });
        Self(obstacles.collect())
    }

    /// The first feature that stands between two points, by its index in the site.
    pub fn between(&self, from: Point, to: Point) -> Option<usize> {
        let blocks = |it: &&Obstacle<'_>| match &it.figure {
            Figure::Area(region, edges) => {
                let within = clip::inside(&[from, to], region);
                within.iter().any(|part| is_within(part, region, edges))
            }
            Figure::Chain(chain) => crosses(chain, from, to),
        };
        self.0.iter().find(blocks).map(|it| it.feature)
    }

    /// Whether one of them stands at a place.
    pub fn stand_at(&self, p: Point) -> bool {
        self.0.iter().any(|it| match &it.figure {
            Figure::Area(region, _) => region.contains(p),
            Figure::Chain(_) => false,
        })
    }
}

/// Whether a straight part of a tape lies deeper in a region than along its face.
fn is_within(part: &[Point], region: &Region, edges: &Edges) -> bool {
    let (Some(a), Some(b)) = (part.first(), part.last()) else {
        return false;
    };
    let middle = a.midpoint(*b);
    a.distance(*b) > GRAZING && edges.distance(middle) > GRAZING / 2.0 && region.contains(middle)
}

/// Whether a tape passes through a chain other than at its own ends.
fn crosses(chain: &[Point], from: Point, to: Point) -> bool {
    let way = to - from;
    let Some(along) = way.unit() else {
        return false;
    };
    let length = way.length();
    chain.array_windows().any(|[p, q]| {
        let (a, b) = (along.cross(*p - from), along.cross(*q - from));
        if (a > 0.0) == (b > 0.0) {
            return false;
        }
        let at = *p + (*q - *p) * (a / (a - b));
        let at = along.dot(at - from);
        at > GRAZING && at < length - GRAZING
    })
}
