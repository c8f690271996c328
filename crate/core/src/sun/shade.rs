//! The shade that a solid with upright sides casts on a level plane, exact but for chords.
//!
//! Shade is a sweep: every point of the solid goes along the shade of a meter by its height above the plane. The
//! shade of an upright side is the figure between its lower and its upper edge, that of the whole the union of those of its
//! sides, its top and its bottom. What lies below the plane casts nothing on it.

use crate::geom::boolean::{positive_winding, union};
use crate::geom::point::Vector;
use crate::geom::{Point, Region, Ring, region};

/// A corner of a solid: where it stands, and from which elevation up to which, meters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Post {
    /// Where it stands, site meters.
    pub at: Point,
    /// Elevation of its lower end; minus infinity of what stands in the ground.
    pub bottom: f64,
    /// Elevation of its upper end.
    pub top: f64,
}

/// Something that light does not pass.
#[derive(Debug, Clone, PartialEq)]
pub enum Solid {
    /// Upright sides round areas: outer rings counter-clockwise, holes clockwise.
    Block(Vec<Vec<Post>>),
    /// A thin upright sheet along a chain.
    Sheet(Vec<Post>),
}

impl Solid {
    /// A block over a region, as high everywhere as `levels` has it there.
    pub fn block(footprint: &Region, levels: impl Fn(Point) -> (f64, f64)) -> Self {
        let rings = footprint.rings();
        Self::Block(rings.map(|ring| posts(&ring.0, &levels)).collect())
    }

    /// A sheet along a chain.
    pub fn sheet(chain: &[Point], levels: impl Fn(Point) -> (f64, f64)) -> Self {
        Self::Sheet(posts(chain, &levels))
    }

    /// Its corners.
    pub fn posts(&self) -> impl Iterator<Item = &Post> {
        let (rings, chain): (&[Vec<Post>], &[Post]) = match self {
            Self::Block(rings) => (rings, &[]),
            Self::Sheet(chain) => (&[], chain),
        };
        rings.iter().flatten().chain(chain)
    }

    /// Its shade.
    pub fn shade(&self, light: &Light) -> Region {
        if !self.rises_above(light.plane) {
            return Region::default();
        }
        let cast = |post: &Post| light.cast(post);
        match self {
            Self::Sheet(chain) => {
                let chain: Vec<Cast> = chain.iter().map(cast).collect();
                let sides = chain.array_windows().filter_map(|[a, b]| side(a, b));
                positive_winding(&sides.collect::<Vec<Ring>>())
            }
            Self::Block(rings) => {
                let rings: Vec<Vec<Cast>> = rings
                    .iter()
                    .map(|ring| ring.iter().map(cast).collect())
                    .collect();
                of_block(&rings, light.direction)
            }
        }
    }

    /// The smallest upright rectangle round that shade, without working it out; `None` where there is none.
    pub fn shade_bounds(&self, light: &Light) -> Option<(Point, Point)> {
        if !self.rises_above(light.plane) {
            return None;
        }
        let casts = self.posts().map(|post| light.cast(post));
        region::bounds(casts.flat_map(|it| [it.low, it.high]))
    }

    fn rises_above(&self, plane: f64) -> bool {
        self.posts().any(|it| it.top > plane)
    }
}

/// The light that shade is cast by, and the level plane that it is cast on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Light {
    /// Elevation of the plane, meters.
    pub plane: f64,
    /// Which way shade falls, a unit vector.
    pub direction: Vector,
    /// How long the shade of a meter is, meters; none of a sun on the horizon.
    pub a_meter: Option<f64>,
    /// Shade farther than this from its foot is left out, meters.
    pub reach: f64,
}

impl Light {
    fn cast(&self, post: &Post) -> Cast {
        let run = |level: f64| match (level - self.plane, self.a_meter) {
            (height, _) if height <= 0.0 => 0.0,
            (height, Some(a_meter)) => (height * a_meter).min(self.reach),
            (_, None) => self.reach,
        };
        let at = |level: f64| post.at + self.direction * run(level);
        Cast {
            low: at(post.bottom),
            high: at(post.top),
        }
    }
}

fn posts(points: &[Point], levels: &impl Fn(Point) -> (f64, f64)) -> Vec<Post> {
    let post = |at: &Point| {
        let (bottom, top) = levels(*at);
        Post {
            at: *at,
            bottom,
            top,
        }
    };
    points.iter().map(post).collect()
}

/// Where the two ends of a post are thrown.
#[derive(Debug, Clone, Copy)]
struct Cast {
    low: Point,
    high: Point,
}

/// The shade of the upright side between two posts, counter-clockwise; `None` where it has no area: the sun is in line.
fn side(a: &Cast, b: &Cast) -> Option<Ring> {
    let ring = Ring(vec![a.low, b.low, b.high, a.high]);
    let area = ring.signed_area();
    match area {
        _ if area > 0.0 => Some(ring),
        _ if area < 0.0 => Some(ring.reversed()),
        _ => None,
    }
}

fn of_block(rings: &[Vec<Cast>], direction: Vector) -> Region {
    if let [ring] = rings
        && let Some(swept) = swept_convex(ring, direction)
    {
        return Region::from_ring(swept);
    }
    let closed = |ring: &Vec<Cast>| {
        let next = ring.iter().cycle().skip(1);
        let sides = ring.iter().zip(next).filter_map(|(a, b)| side(a, b));
        sides.collect::<Vec<Ring>>()
    };
    let level = |of: fn(&Cast) -> Point| {
        let rings: Vec<Ring> = rings
            .iter()
            .map(|ring| Ring(ring.iter().map(of).collect()))
            .collect();
        positive_winding(&rings)
    };
    let sides = positive_winding(&rings.iter().flat_map(closed).collect::<Vec<Ring>>());
    union(&union(&level(|it| it.low), &level(|it| it.high)), &sides)
}

/// The sweep of a convex ring whose posts are all thrown alike; `None` of any other.
fn swept_convex(ring: &[Cast], direction: Vector) -> Option<Ring> {
    /// Thrown alike to this, meters.
    const ALIKE: f64 = 1e-9;
    let first = ring.first()?;
    let by = first.high - first.low;
    let alike = |it: &Cast| (it.high - it.low - by).length() < ALIKE;
    let base: Vec<Point> = ring.iter().map(|it| it.low).collect();
    if !ring.iter().all(alike) || !is_convex(&base) {
        return None;
    }
    let mut swept = Vec::with_capacity(base.len() + 2);
    let next = base.iter().cycle().skip(1);
    for (a, b) in base.iter().zip(next) {
        // On the far side of the ring the edge goes along, on the near one it stays.
        let far = direction.cross(*b - *a) > 0.0;
        let moved = |p: Point| if far { p + by } else { p };
        for p in [moved(*a), moved(*b)] {
            if swept
                .last()
                .is_none_or(|last: &Point| last.distance(p) > 0.0)
            {
                swept.push(p);
            }
        }
    }
    if swept.len() > 1 && swept.first() == swept.last() {
        swept.pop();
    }
    let swept = Ring(swept);
    (swept.signed_area() > 0.0).then_some(swept)
}

/// Whether a counter-clockwise ring turns left at every corner and once round.
fn is_convex(ring: &[Point]) -> bool {
    let corners = ring
        .iter()
        .zip(ring.iter().cycle().skip(1))
        .zip(ring.iter().cycle().skip(2));
    let left = corners
        .clone()
        .all(|((a, b), c)| (*b - *a).cross(*c - *b) >= 0.0);
    // Edges that go eastward begin once on the way round, unless it winds more than once.
    let east = |a: &Point, b: &Point| b.x > a.x;
    let turns = corners
        .filter(|((a, b), c)| !east(a, b) && east(b, c))
        .count();
    left && turns == 1
}
