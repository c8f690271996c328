//! What casts shade, with its height and the ground it stands on; and what casts none for want of a height.
//!
//! A structure is a box from the ground to its height, its eaves a flat sheet round it; a tree is a crown from its lowest
//! branches to its top, on a trunk where that was measured; fences and walls follow the ground. Gates count as closed. Under
//! what stands on the ground there is earth: it begins as low as anybody asks. Wires, equipment and what lies flat cast nothing here.

use super::shade::{Post, Solid};
use crate::geom::{DRAWING_TOLERANCE, Point, Region, offset};
use crate::site::shape::PartPlace;
use crate::site::{CheckedFeature, CheckedShape, CheckedSite, Facts, FeatureKind, FeaturePart};

/// Along a fence the ground is looked at so often, meters (our choice).
const GROUND_STEP: f64 = 2.0;

/// The lower end of what stands on the ground.
const IN_THE_GROUND: f64 = f64::NEG_INFINITY;

/// Ground that lies this near to the line between two posts is taken as on it, meters (our choice).
const STRAIGHT: f64 = 0.005;

/// One thing that casts shade.
#[derive(Debug, Clone, PartialEq)]
pub struct Caster {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// What it is.
    pub kind: FeatureKind,
    /// What the plan calls it.
    pub name: String,
    /// What of it light does not pass.
    pub solids: Vec<Solid>,
}

/// Everything that casts shade.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Casters {
    /// What casts shade.
    pub all: Vec<Caster>,
    /// What would, had anybody entered its height: its index in the site and what the plan calls it.
    pub without_height: Vec<(usize, String)>,
    /// Trees whose lowest branches nobody entered: their crowns reach to the ground.
    pub to_the_ground: Vec<String>,
    /// What stands on ground that nobody measured.
    pub on_unknown_ground: Vec<String>,
}

impl Casters {
    /// Those of a site.
    pub fn of(site: &CheckedSite) -> Self {
        let mut casters = Self::default();
        for feature in site.features().iter() {
            casters.add(site, feature);
        }
        casters
    }

    fn add(&mut self, site: &CheckedSite, feature: &CheckedFeature) {
        use FeatureKind as K;
        let records = &site.site().features;
        let Some(record) = records.get(feature.index) else {
            return;
        };
        let usual = matches!(
            feature.kind,
            K::House | K::Outbuilding | K::Wall | K::Fence | K::Tree
        );
        if !usual && feature.kind != K::Other {
            return;
        }
        let name = feature.label(records).to_owned();
        let Some(height) = record.facts.height else {
            if usual {
                self.without_height.push((feature.index, name));
            }
            return;
        };
        if height <= 0.0 {
            return;
        }
        let solids = match feature.kind {
            K::Fence | K::Wall => along_the_ground(site, &feature.shape, height),
            K::Tree => {
                if record.facts.clear_height.is_none() {
                    self.to_the_ground.push(name.clone());
                }
                tree(site, feature, &record.facts, height)
            }
            _ => structure(site, &feature.shape, &record.facts, height),
        };
        let known = |p: Point| site.ground().height(p).known;
        if !solids.iter().flat_map(Solid::posts).all(|it| known(it.at)) {
            self.on_unknown_ground.push(name.clone());
        }
        self.all.push(Caster {
            feature: feature.index,
            kind: feature.kind,
            name,
            solids,
        });
    }
}

fn ground(site: &CheckedSite, at: Point) -> f64 {
    site.ground().height(at).elevation
}

/// A box on the ground under its middle, with its eaves.
fn structure(site: &CheckedSite, shape: &CheckedShape, facts: &Facts, height: f64) -> Vec<Solid> {
    let CheckedShape::Area(_, region) = shape else {
        return along_the_ground(site, shape, height);
    };
    let Some(middle) = region.centroid() else {
        return Vec::new();
    };
    let base = ground(site, middle);
    let mut solids = vec![Solid::block(region, |_| (IN_THE_GROUND, base + height))];
    if let (Some(eaves), Some(overhang)) = (facts.clear_height, facts.overhang)
        && overhang > 0.0
        && eaves <= height
    {
        let sheet = offset::offset_region(region, overhang, DRAWING_TOLERANCE);
        solids.push(Solid::block(&sheet, |_| (base + eaves, base + eaves)));
    }
    solids
}

/// A crown between its lowest branches and its top, and the trunk under it.
fn tree(site: &CheckedSite, feature: &CheckedFeature, facts: &Facts, height: f64) -> Vec<Solid> {
    let CheckedShape::Area(_, crown) = &feature.shape else {
        return Vec::new();
    };
    let Some(middle) = crown.centroid() else {
        return Vec::new();
    };
    let base = ground(site, middle);
    let branches = facts.clear_height.unwrap_or(0.0).min(height);
    let low = if branches > 0.0 {
        base + branches
    } else {
        IN_THE_GROUND
    };
    let mut solids = vec![Solid::block(crown, |_| (low, base + height))];
    let trunk = feature.parts.iter().find_map(|it| match &it.place {
        PartPlace::Disc(trunk) if it.part == FeaturePart::TreeTrunk => Some(trunk),
        _ => None,
    });
    if let Some(trunk) = trunk.filter(|_| branches > 0.0) {
        solids.push(Solid::block(trunk, |_| (IN_THE_GROUND, base + branches)));
    }
    solids
}

/// Something as high everywhere above the ground beside it.
fn along_the_ground(site: &CheckedSite, shape: &CheckedShape, height: f64) -> Vec<Solid> {
    let levels = |p: Point| (IN_THE_GROUND, ground(site, p) + height);
    vec![match shape {
        CheckedShape::Area(_, region) => Solid::block(&stepped(region), levels),
        CheckedShape::Track(_, chain) => {
            Solid::Sheet(needed(chain, Solid::sheet(&steps(chain), levels)))
        }
    }]
}

/// A region with a corner at every step along its edges.
fn stepped(region: &Region) -> Region {
    let mut stepped = region.clone();
    for polygon in &mut stepped.polygons {
        for ring in core::iter::once(&mut polygon.outer).chain(&mut polygon.holes) {
            let mut points = steps(&ring.closed());
            points.pop();
            ring.0 = points;
        }
    }
    stepped
}

/// A chain with a point at every step.
fn steps(chain: &[Point]) -> Vec<Point> {
    let mut points: Vec<Point> = chain.first().copied().into_iter().collect();
    for [a, b] in chain.array_windows() {
        let parts = (a.distance(*b) / GROUND_STEP).ceil().max(1.0);
        let mut i = 1.0;
        while i < parts {
            points.push(*a + (*b - *a) * (i / parts));
            i += 1.0;
        }
        points.push(*b);
    }
    points
}

/// The posts of a sheet that stand at corners of its chain or where the ground bends.
fn needed(chain: &[Point], sheet: Solid) -> Vec<Post> {
    let Solid::Sheet(posts) = sheet else {
        return Vec::new();
    };
    let mut kept: Vec<Post> = Vec::with_capacity(posts.len());
    for (i, post) in posts.iter().enumerate() {
        let corner = chain.contains(&post.at);
        let bends = match (kept.last(), posts.get(i + 1)) {
            (Some(before), Some(after)) => {
                let whole = before.at.distance(after.at);
                let share = if whole > 0.0 {
                    before.at.distance(post.at) / whole
                } else {
                    0.0
                };
                let between = before.top + (after.top - before.top) * share;
                (between - post.top).abs() > STRAIGHT
            }
            _ => true,
        };
        if corner || bends {
            kept.push(*post);
        }
    }
    kept
}
