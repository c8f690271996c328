//! Surfaces: triangles, breaklines, data points, contours.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::Node;

use super::context::{Context, Width, numbers};
use super::element::{all, attribute, child, children, text};
use super::tin::{kept_edges, uncovered};
use crate::exchange::import::{Item, Position, Role, Shape};
use crate::finding::Finding;
use crate::geom::Point;
use crate::site::limits::BREAKLINE_POINTS;
use crate::units::format_decimal;

/// Words in the name of a surface that is planned, not found.
const PLANNED: [&str; 8] = [
    "proposed", "design", "finish", "dig", "subgrade", "final", "datum", "future",
];

/// A greater share of a surface that is filled in is told: less is the ragged edge of any survey (arbitrary).
const FILLED: f64 = 0.02;

/// What one surface tells.
#[derive(Default)]
struct Told {
    points: Vec<Position>,
    /// Lines by what they are called in a file, with a name.
    lines: Vec<(String, &'static str, Vec<Position>)>,
    /// Breaklines that follow from the triangles.
    edges: Vec<Vec<Position>>,
    /// The points are those of triangles.
    triangulated: bool,
    /// The share of the area between the outermost points that no triangle covers.
    uncovered: f64,
}

/// Takes every surface; says whether the ground is proposed from one of them.
pub(super) fn read(context: &mut Context, root: Node<'_, '_>) -> bool {
    let mut ground = false;
    let mut more = Vec::new();
    for node in all(root, "Surface") {
        if context.is_full() {
            return ground;
        }
        let mut told = Told::default();
        if let Some(source) = child(node, "SourceData") {
            read_source(context, source, &mut told);
        }
        for definition in children(node, "Definition") {
            read_definition(context, definition, &mut told);
        }
        let planned = is_planned(node);
        let has_ground = !told.points.is_empty() || !told.lines.is_empty();
        let takes = has_ground && !planned && !ground;
        if has_ground && !planned && ground {
            more.push(attribute(node, "name"));
        }
        take(context, node, told, takes);
        ground |= takes;
    }
    if !more.is_empty() {
        let message = format!(
            "There is more than one surface of the ground; left out: {}.",
            more.join(", ")
        );
        let remedy = "See which one is the ground as it is today, and take that one alone.";
        context
            .diagnostics
            .add("", Finding::caution("which-surface", message, remedy));
    }
    ground
}

fn is_planned(node: Node<'_, '_>) -> bool {
    if attribute(node, "state") == "existing" {
        return false;
    }
    let name = format!("{} {}", attribute(node, "name"), attribute(node, "desc"));
    let name = name.to_lowercase();
    let mut words = name.split(|c: char| !c.is_alphanumeric());
    attribute(node, "state") == "proposed" || words.any(|word| PLANNED.contains(&word))
}

fn read_source(context: &mut Context, source: Node<'_, '_>, told: &mut Told) {
    for node in all(source, "DataPoints") {
        for list in children(node, "PntList3D") {
            let places = context.list(list, Width::High);
            told.points.extend(places.unwrap_or_default());
        }
    }
    for node in all(source, "Breakline") {
        let places = match (child(node, "PntList3D"), child(node, "PntList2D")) {
            (Some(list), _) => context.list(list, Width::High),
            (None, Some(list)) => context.list(list, Width::Plan),
            (None, None) => None,
        };
        let what = match attribute(node, "brkType").as_str() {
            "wall" => "wall breakline",
            _ => "breakline",
        };
        told.lines
            .extend(places.map(|it| (context.place(node), what, it)));
    }
    for node in all(source, "Contour") {
        let height = attribute(node, "elev").parse::<f64>().ok();
        let Some(height) = height.filter(|it| it.is_finite()) else {
            let message = "The elevation of this contour is missing.";
            let remedy = "Mend the file; this was left out.";
            context.tell(node, Finding::fault("contour", message, remedy));
            continue;
        };
        let height = context.height(height);
        let lists: Vec<Node<'_, '_>> = children(node, "PntList2D").collect();
        for list in lists {
            let mut places = context.list(list, Width::Plan).unwrap_or_default();
            places.iter_mut().for_each(|p| p.height = Some(height));
            if places.len() > 1 {
                told.lines.push((context.place(node), "contour", places));
            }
        }
    }
    for (name, words) in [
        ("RetWall", "Retaining walls of a surface"),
        ("PointFile", "Files of points that a surface names"),
        ("Chain", "Chains of a surface"),
    ] {
        if let Some(first) = all(source, name).next() {
            let message = format!("{words} are not read.");
            let remedy = "Have them written as breaklines or data points.";
            context.tell(first, Finding::caution("surface-part", message, remedy));
        }
    }
    let mut bounds = all(source, "Boundary");
    let open = bounds.find(|it| attribute(*it, "bndType") == "void");
    if let Some(open) = open {
        let message = "The surface has a void; the ground is taken as going on through it.";
        let remedy = "Check the ground there.";
        context.tell(open, Finding::caution("surface-void", message, remedy));
    }
}

/// Points and triangles. Of faces that are marked invisible, and of points that belong to no other,
/// nothing is taken.
fn read_definition(context: &mut Context, node: Node<'_, '_>, told: &mut Told) {
    let mut ids: BTreeMap<String, usize> = BTreeMap::new();
    let mut places: Vec<Position> = Vec::new();
    for point in children(node, "Pnts").flat_map(|it| children(it, "P")) {
        if context.is_full() {
            return;
        }
        let Some(at) = context.position(point) else {
            continue;
        };
        if at.height.is_none() {
            let message = "A point of the surface has no elevation.";
            let remedy = "Mend the file; this was left out.";
            context.tell(point, Finding::fault("no-elevation", message, remedy));
            continue;
        }
        ids.insert(attribute(point, "id"), places.len());
        places.push(at);
    }
    let grid = attribute(node, "surfType") == "grid";
    let (mut faces, mut marks) = (Vec::new(), Vec::new());
    let mut used = vec![false; places.len()];
    let mut any = false;
    for face in children(node, "Faces").flat_map(|it| children(it, "F")) {
        any = true;
        if attribute(face, "i") == "1" {
            continue;
        }
        let words = text(face);
        let corners: Option<Vec<usize>> = words
            .split_ascii_whitespace()
            .map(|id| ids.get(id).copied())
            .collect();
        let corners = corners.unwrap_or_default();
        for corner in &corners {
            if let Some(used) = used.get_mut(*corner) {
                *used = true;
            }
        }
        match *corners.as_slice() {
            [a, b, c] if !grid => {
                faces.push([a, b, c]);
                let mark = numbers(&attribute(face, "b")).unwrap_or_default();
                marks.push(match mark.as_slice() {
                    [mark] if (1.0..=7.0).contains(mark) => *mark as u8,
                    _ => 0,
                });
            }
            [_, _, _, _] if grid => {}
            _ => {
                let message = "A face of the surface names points that are not there.";
                let remedy = "Mend the file; this face was left out.";
                context.tell(face, Finding::fault("face", message, remedy));
            }
        }
    }
    if !any {
        used.iter_mut().for_each(|it| *it = true);
    }
    let metres = context.units.unit.in_metres();
    let base = places.first().copied();
    let plan: Vec<Point> = places
        .iter()
        .filter_map(|p| {
            let base = base?;
            let (east, north) = (p.second - base.second, p.first - base.first);
            Some(Point::new(east * metres, north * metres))
        })
        .collect();
    told.uncovered = told.uncovered.max(uncovered(&plan, &faces));
    let kept = kept_edges(&plan, &faces, &marks);
    let at = |i: &usize| places.get(*i).copied();
    told.edges.extend(
        kept.iter()
            .map(|chain| chain.iter().filter_map(at).collect()),
    );
    if !told.triangulated {
        told.points.clear();
    }
    told.triangulated = true;
    let taken = places.iter().zip(&used).filter(|(_, used)| **used);
    told.points.extend(taken.map(|(p, _)| *p));
}

/// The things that a surface becomes.
fn take(context: &mut Context, node: Node<'_, '_>, told: Told, takes: bool) {
    let name = attribute(node, "name");
    let place = context.place(node);
    let Told {
        points,
        lines,
        edges,
        triangulated,
        uncovered,
    } = told;
    let mut item = |place: String, group: &str, shape: Shape, proposed: Role| {
        context.items.push(Item {
            place,
            id: String::new(),
            group: format!("{group}, surface {name}"),
            name: name.clone(),
            words: group.to_owned(),
            shape,
            proposed: if takes { proposed } else { Role::LeaveOut },
        });
    };
    let bare = points.is_empty();
    let is_wanted = |what: &str, line: &[Position]| {
        // Triangles have what the contours told.
        (what != "contour" || bare) && line.iter().all(|p| p.height.is_some())
    };
    let wanted = lines.iter().filter(|(_, what, line)| is_wanted(what, line));
    let told_lines = wanted.clone().any(|(_, what, _)| *what != "contour");
    let mut count: usize = wanted.map(|(.., line)| line.len()).sum();
    // Breaklines that the file tells have every edge along them already.
    let told_edges = !edges.is_empty() && !told_lines;
    if told_edges {
        count += edges.iter().map(Vec::len).sum::<usize>();
    }
    let fits = count <= BREAKLINE_POINTS;
    let role = |wanted: bool| match wanted && fits {
        true => Role::Breakline,
        false => Role::LeaveOut,
    };
    let points = match fits {
        true => beside(
            points,
            lines.iter().filter(|(_, what, line)| is_wanted(what, line)),
        ),
        false => points,
    };
    if !points.is_empty() {
        item(place.clone(), "spots", Shape::Points(points), Role::Spot);
    }
    for (place, what, line) in lines {
        let role = role(is_wanted(what, &line));
        item(place, what, Shape::Lines(vec![line]), role);
    }
    if !edges.is_empty() {
        item(
            place,
            "edges of triangles",
            Shape::Lines(edges),
            role(told_edges),
        );
    }
    if !takes {
        return;
    }
    if uncovered > FILLED {
        let message = format!(
            "Its triangles leave out {} % of the area between its outermost points.",
            format_decimal(100.0 * uncovered, 0)
        );
        let remedy =
            "The ground there is taken as going on evenly: check it where the work comes near.";
        context.tell(node, Finding::caution("surface-filled", message, remedy));
    }
    if !fits {
        let message = format!(
            "The lines of this surface have {count} points; a site has at most {BREAKLINE_POINTS}."
        );
        let remedy = "Take the lines on and beside the lot, or have the surface thinned out.";
        context.tell(
            node,
            Finding::caution("too-many-breaklines", message, remedy),
        );
    } else if told_edges {
        let message =
            "Some of its triangles lie otherwise than a fresh triangulation would lay them.";
        let remedy =
            "Their edges are offered as breaklines, so that the surface stays as it was surveyed.";
        context.tell(node, Finding::note("triangles-kept", message, remedy));
    } else if triangulated && !told_lines {
        let message = "The surface has no breaklines; its points are triangulated afresh.";
        context.tell(node, Finding::note("no-breaklines", message, ""));
    }
}

/// The points that no breakline passes: those of the lines are in the surface with them.
fn beside<'a>(
    points: Vec<Position>,
    lines: impl Iterator<Item = &'a (String, &'static str, Vec<Position>)>,
) -> Vec<Position> {
    let key = |p: &Position| [p.first, p.second, p.height.unwrap_or_default()].map(f64::to_bits);
    let passed: BTreeSet<[u64; 3]> = lines.flat_map(|(.., line)| line.iter().map(key)).collect();
    points
        .into_iter()
        .filter(|p| !passed.contains(&key(p)))
        .collect()
}
