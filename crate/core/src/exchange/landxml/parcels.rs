//! Parcels: the lot, its neighbors, easements.

use roxmltree::Node;

use super::context::Context;
use super::curves::Arc;
use super::element::{all, attribute, child, children};
use super::geometry;
use crate::exchange::import::{Item, Piece, Role, Shape, guess};
use crate::finding::Finding;
use crate::site::FeatureKind;

/// States of a parcel that is none of today's, or a neighbor's.
const ELSEWHERE: [&str; 3] = ["adjoining", "extinguished", "referenced"];

/// Takes every parcel that has a boundary.
pub(super) fn read(context: &mut Context, root: Node<'_, '_>) {
    for node in all(root, "Parcel") {
        if context.is_full() {
            return;
        }
        if child(node, "VolumeGeom").is_some() {
            let message = "This parcel is told as a volume; volumes are not read.";
            let remedy = "Take the boundary of the ground parcel.";
            context.tell(node, Finding::caution("parcel-volume", message, remedy));
        }
        parcel(context, node);
    }
}

fn parcel(context: &mut Context, node: Node<'_, '_>) {
    let mut pieces = Vec::new();
    let mut arcs = Vec::new();
    for geometry in children(node, "CoordGeom") {
        let Some(path) = geometry::path(context, geometry) else {
            continue;
        };
        if !path.closed {
            let message = "The boundary of this parcel does not come back to where it begins.";
            let remedy = "Mend the file, or take its corners; this was left out.";
            context.tell(node, Finding::fault("parcel-open", message, remedy));
            continue;
        }
        arcs.extend(path.arcs);
        pieces.push(Piece {
            outer: path.places,
            holes: Vec::new(),
        });
    }
    if pieces.is_empty() {
        return;
    }
    let item = context.items.len();
    context.arcs.extend(arcs.into_iter().map(|arc| Arc {
        item,
        from: arc.from,
        to: arc.to,
        bulge: arc.bulge,
        chords: arc.chords,
    }));
    let area = attribute(node, "area").parse::<f64>().ok();
    let area = area.filter(|it| it.is_finite() && *it > 0.0);
    if let (Some(area), Some(unit)) = (area, context.units.area) {
        context.areas.push((item, area * unit));
    }
    let state = attribute(node, "state");
    let told = ["desc", "class", "parcelType", "useOfParcel", "state"];
    let words: Vec<String> = told
        .iter()
        .map(|name| attribute(node, name))
        .filter(|it| !it.is_empty())
        .collect();
    let words = words.join(", ");
    let name = attribute(node, "name");
    // A lot may be called after its street; only what says its use makes it one.
    let uses = ["class", "parcelType", "useOfParcel"].map(|it| attribute(node, it));
    let street = guess(&uses.join(" ")) == Some(Role::Feature(FeatureKind::StreetEdge));
    let (sort, proposed) = match guess(&format!("{name} {words}")) {
        _ if ELSEWHERE.contains(&state.as_str()) => (state.as_str(), Role::LeaveOut),
        Some(Role::Feature(FeatureKind::Easement)) => {
            ("easement", Role::Feature(FeatureKind::Easement))
        }
        _ if street => ("street", Role::LeaveOut),
        _ => ("lot", Role::Lot),
    };
    context.items.push(Item {
        place: context.place(node),
        id: String::new(),
        group: format!("parcel, {sort}"),
        name,
        words,
        shape: Shape::Areas(pieces),
        proposed,
    });
}
