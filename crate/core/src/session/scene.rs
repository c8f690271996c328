//! What a drawing hand can be led to on a site: sides and corners of the lot, edges and corners
//! of what stands on it, spots, the equipment pad.

use crate::geom::Point;
use crate::ground::GroundRecord;
use crate::site::{CheckedShape, CheckedSite, Feature, FeatureKind, ShapeRecord};
use crate::sketch::catch::{Mark, Rail, Scene};

/// Everything on the site that is not hidden, the lot first.
pub(super) fn scene(site: &CheckedSite) -> Scene {
    let mut scene = Scene::default();
    for side in &site.lot().lot.sides {
        scene.rails.push(Rail {
            segment: side.segment,
            name: side.label.to_string(),
            owner: "the lot".to_owned(),
        });
    }
    for checked in site.features().iter() {
        let Some(feature) = site.site().features.get(checked.index) else {
            continue;
        };
        if feature.hidden {
            continue;
        }
        if let ShapeRecord::Disc { at, .. } = feature.shape {
            scene.marks.push(mark(at, "middle of", feature.label()));
            continue;
        }
        let open = matches!(checked.shape, CheckedShape::Track(..));
        let name = edge_name(feature, open);
        for segment in checked.shape.segments() {
            scene.rails.push(Rail {
                segment,
                name: name.clone(),
                owner: feature.label().to_owned(),
            });
        }
    }
    if let GroundRecord::Spots { spots, .. } = &*site.site().ground {
        for [x, y, _] in spots {
            scene.marks.push(mark(Point::new(*x, *y), "at a", "spot"));
        }
    }
    if let Some(pad) = site.site().equipment {
        scene.marks.push(mark(pad.at, "middle of", "equipment pad"));
    }
    scene
}

fn mark(at: Point, before: &str, name: &str) -> Mark {
    Mark {
        at,
        reason: format!("{before} {name}"),
    }
}

/// What an edge of a feature is called: `house wall`, `driveway edge`, `fence`.
fn edge_name(feature: &Feature, open: bool) -> String {
    let what = match feature.kind {
        _ if open => "",
        FeatureKind::House | FeatureKind::Outbuilding => " wall",
        _ => " edge",
    };
    format!("{}{what}", feature.label())
}
