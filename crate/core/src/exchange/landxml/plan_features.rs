//! Plan features: outlines and lines of what stands on the lot.

use roxmltree::Node;

use super::context::Context;
use super::element::{all, attribute, children};
use super::geometry;
use crate::exchange::import::{Item, Piece, Role, Shape, guess};
use crate::finding::Finding;
use crate::site::FeatureKind;

/// Takes every plan feature. Their curves come as chords.
pub(super) fn read(context: &mut Context, root: Node<'_, '_>) {
    let mut curved = 0;
    for node in all(root, "PlanFeature") {
        if context.is_full() {
            return;
        }
        let (mut pieces, mut lines, mut points) = (Vec::new(), Vec::new(), Vec::new());
        for geometry in children(node, "CoordGeom") {
            let Some(path) = geometry::path(context, geometry) else {
                continue;
            };
            curved += path.arcs.len();
            if path.closed {
                pieces.push(Piece {
                    outer: path.places,
                    holes: Vec::new(),
                });
            } else {
                lines.push(path.places);
            }
        }
        for location in children(node, "Location") {
            points.extend(context.position(location));
        }
        let shapes = [
            Shape::Areas(pieces),
            Shape::Lines(lines),
            Shape::Points(points),
        ];
        for shape in shapes.into_iter().filter(|it| !it.positions().is_empty()) {
            take(context, node, shape);
        }
    }
    if curved > 0 {
        let message = format!("{curved} curves of plan features were taken as chords within 1 mm.");
        context
            .diagnostics
            .add("", Finding::note("curves-as-chords", message, ""));
    }
}

fn take(context: &mut Context, node: Node<'_, '_>, shape: Shape) {
    let (name, words) = (attribute(node, "name"), attribute(node, "desc"));
    let form = match &shape {
        Shape::Points(_) => "points",
        Shape::Lines(_) => "lines",
        Shape::Areas(_) => "areas",
    };
    // A kind as this planner writes it goes before a guess at what others write.
    let kind = FeatureKind::ALL.into_iter().find(|it| it.words() == words);
    let kind = kind.map(Role::Feature);
    let role = kind.or_else(|| guess(&words)).or_else(|| guess(&name));
    let (sort, proposed) = match role {
        Some(Role::Feature(kind)) => (kind.words(), Role::Feature(kind)),
        _ => ("plan feature", Role::LeaveOut),
    };
    context.items.push(Item {
        place: context.place(node),
        id: String::new(),
        group: format!("{sort}, {form}"),
        name,
        words,
        shape,
        proposed,
    });
}
