//! Lines and curves of a file, joined to paths.

use roxmltree::Node;

use super::context::{Context, Width};
use super::element::{attribute, child, is_ours, text};
use crate::exchange::import::Position;
use crate::finding::Finding;
use crate::geom::flatten::flatten_segment;
use crate::geom::path::bulge_of_angle;
use crate::geom::{DRAWING_TOLERANCE, Point, Segment, Vector, Vertex};
use crate::math::{TURN, asin, tan, wrap_turn};
use crate::units::{Measure, System, show};

/// Ends nearer to each other than this meet, meters (2 in; arbitrary: a deed's rounding is less).
const JOINED: f64 = 0.0508;

/// A gap greater than this between ends that are joined is told, meters (0.01 ft).
const GAP: f64 = 0.003_048;

/// A curve whose two ends lie at radii that differ by more than this does not fit its center, meters.
const MISFIT: f64 = 0.02;

/// The shortest radius of a curve, meters.
const LEAST_RADIUS: f64 = 0.001;

/// A stretch of a path.
struct Stretch {
    from: Position,
    /// What follows, the end last.
    along: Vec<Position>,
    /// Bulge of the arc (see [`crate::geom::path`]); 0 where it is straight.
    bulge: f64,
}

/// A path through places, arcs as chords within 1 mm.
pub(super) struct Path {
    /// The places; a closed path does not repeat its first.
    pub places: Vec<Position>,
    /// Whether it comes back to its beginning.
    pub closed: bool,
    /// The arcs that the chords stand for.
    pub arcs: Vec<PathArc>,
    /// From its end to its beginning, meters.
    pub gap: f64,
}

/// An arc of a path.
pub(super) struct PathArc {
    pub from: Position,
    pub to: Position,
    pub bulge: f64,
    /// How many chords stand for it.
    pub chords: usize,
}

/// The path of a `CoordGeom`; none where any of it cannot be read, which is told.
pub(super) fn path(context: &mut Context, node: Node<'_, '_>) -> Option<Path> {
    let mut stretches = Vec::new();
    for part in node.children().filter(|it| it.is_element() && is_ours(*it)) {
        match part.tag_name().name() {
            "Line" => stretches.push(line(context, part)?),
            "Curve" => stretches.extend(curve(context, part)?),
            "IrregularLine" => stretches.push(irregular(context, part)?),
            "Chain" => stretches.push(chain(context, part)?),
            "Feature" => {}
            "Spiral" => {
                let message = "A spiral stands in this line; spirals are not read.";
                let remedy = "Have it written as a curve or an irregular line; this was left out.";
                context.tell(part, Finding::fault("spiral", message, remedy));
                return None;
            }
            _ => {
                let message = "This is no line, curve, irregular line or chain.";
                let remedy = "Have it written as one of them; this was left out.";
                context.tell(part, Finding::fault("geometry-unknown", message, remedy));
                return None;
            }
        }
        if context.is_full() {
            return None;
        }
    }
    if stretches.is_empty() {
        let message = "There is no line or curve in it.";
        let remedy = "Mend the file; this was left out.";
        context.tell(node, Finding::fault("geometry-missing", message, remedy));
        return None;
    }
    turn_to_meet(context, &mut stretches);
    joined(context, node, &stretches)
}

/// Turns round what runs against the stretch before it.
fn turn_to_meet(context: &Context, stretches: &mut [Stretch]) {
    let meet = |a: &Position, b: &Position| context.apart(a, b) <= JOINED;
    if let [first, second, ..] = stretches
        && !meet(&end(first), &second.from)
        && !meet(&end(first), &end(second))
        && (meet(&first.from, &second.from) || meet(&first.from, &end(second)))
    {
        turn_round(first);
    }
    let mut at: Option<Position> = None;
    for stretch in stretches {
        if let Some(at) = at
            && !meet(&at, &stretch.from)
            && meet(&at, &end(stretch))
        {
            turn_round(stretch);
        }
        at = Some(end(stretch));
    }
}

fn end(stretch: &Stretch) -> Position {
    stretch.along.last().copied().unwrap_or(stretch.from)
}

fn turn_round(stretch: &mut Stretch) {
    let last = end(stretch);
    stretch.along.pop();
    stretch.along.reverse();
    stretch.along.push(stretch.from);
    stretch.from = last;
    stretch.bulge = -stretch.bulge;
}

/// The stretches one after another.
fn joined(context: &mut Context, node: Node<'_, '_>, stretches: &[Stretch]) -> Option<Path> {
    let first = stretches.first()?.from;
    let mut path = Path {
        places: vec![first],
        closed: false,
        arcs: Vec::new(),
        gap: 0.0,
    };
    let mut at = first;
    for stretch in stretches {
        let gap = context.apart(&at, &stretch.from);
        if gap > JOINED {
            let gap = told(gap);
            let message = format!("Two of its parts do not meet: there are {gap} between them.");
            let remedy =
                "Mend the file: each part begins where the one before ends. This was left out.";
            context.tell(node, Finding::fault("not-joined", message, remedy));
            return None;
        }
        if gap > GAP {
            let message = format!("There is a gap of {} in it.", told(gap));
            let remedy = "It was closed; ask for a file whose parts meet.";
            context.tell(node, Finding::caution("gap", message, remedy));
        }
        if stretch.bulge != 0.0 {
            path.arcs.push(PathArc {
                from: at,
                to: end(stretch),
                bulge: stretch.bulge,
                chords: stretch.along.len(),
            });
        }
        path.places.extend(&stretch.along);
        at = end(stretch);
    }
    path.gap = context.apart(&at, &first);
    path.closed = path.gap <= JOINED && path.places.len() > 3;
    if path.closed {
        path.places.pop();
        if let Some(arc) = path.arcs.last_mut()
            && context.apart(&arc.to, &first) <= JOINED
            && context.apart(&at, &arc.to) == 0.0
        {
            arc.to = first;
        }
    }
    Some(path)
}

fn told(metres: f64) -> String {
    let [feet, metres] =
        [System::Feet, System::Metres].map(|it| show(Measure::Length, metres, it).text);
    format!("{feet} ({metres})")
}

/// The point of a part by its name; told where it is missing.
fn point(context: &mut Context, node: Node<'_, '_>, name: &'static str) -> Option<Position> {
    match child(node, name) {
        Some(point) => context.position(point),
        None => {
            let message = format!("It has no {name}.");
            let remedy = "Mend the file; this was left out.";
            context.tell(node, Finding::fault("point-missing", message, remedy));
            None
        }
    }
}

fn line(context: &mut Context, node: Node<'_, '_>) -> Option<Stretch> {
    Some(Stretch {
        from: point(context, node, "Start")?,
        along: vec![point(context, node, "End")?],
        bulge: 0.0,
    })
}

fn irregular(context: &mut Context, node: Node<'_, '_>) -> Option<Stretch> {
    let list = match (child(node, "PntList3D"), child(node, "PntList2D")) {
        (Some(list), _) => context.list(list, Width::High)?,
        (None, Some(list)) => context.list(list, Width::Plan)?,
        (None, None) => Vec::new(),
    };
    let mut places = Vec::new();
    if let Some(start) = child(node, "Start") {
        places.push(context.position(start)?);
    }
    places.extend(list);
    if let Some(last) = child(node, "End") {
        places.push(context.position(last)?);
    }
    // The list repeats start and end.
    places.dedup_by(|b, a| context.apart(a, b) == 0.0);
    if places.len() < 2 {
        let message = "It has fewer than two points.";
        let remedy = "Mend the file; this was left out.";
        context.tell(node, Finding::fault("point-missing", message, remedy));
        return None;
    }
    let mut places = places.into_iter();
    Some(Stretch {
        from: places.next()?,
        along: places.collect(),
        bulge: 0.0,
    })
}

fn chain(context: &mut Context, node: Node<'_, '_>) -> Option<Stretch> {
    let names = text(node);
    let mut places = Vec::new();
    for name in names.split_ascii_whitespace() {
        let Some(at) = context.named(name) else {
            let message = format!("It passes the point \"{name}\", which is not in the file.");
            let remedy = "Have the points written into the file too; this was left out.";
            context.tell(node, Finding::fault("point-missing", message, remedy));
            return None;
        };
        places.push(at);
    }
    let mut places = places.into_iter();
    Some(Stretch {
        from: places.next()?,
        along: places.collect(),
        bulge: 0.0,
    })
}

/// A curve as one arc, or as two where it goes more than half round.
fn curve(context: &mut Context, node: Node<'_, '_>) -> Option<Vec<Stretch>> {
    let from = point(context, node, "Start")?;
    let to = point(context, node, "End")?;
    let left = match attribute(node, "rot").as_str() {
        "ccw" => true,
        "cw" => false,
        _ => {
            let message = "Nothing says which way the curve turns (rot is cw or ccw).";
            let remedy = "Mend the file; this was left out.";
            context.tell(node, Finding::fault("curve-turn", message, remedy));
            return None;
        }
    };
    let metres = context.units.unit.in_metres();
    let local = |p: &Position| {
        Point::new(
            (p.second - from.second) * metres,
            (p.first - from.first) * metres,
        )
    };
    let (a, b) = (Point::default(), local(&to));
    let centre = match child(node, "Center") {
        Some(centre) => local(&context.position(centre)?),
        None => center_of_radius(context, node, (a, b), left)?,
    };
    let (radius, other) = (a.distance(centre), b.distance(centre));
    if radius < LEAST_RADIUS {
        let message = "The center of the curve lies at its start.";
        let remedy = "Mend the file; this was left out.";
        context.tell(node, Finding::fault("curve", message, remedy));
        return None;
    }
    if (radius - other).abs() > MISFIT {
        let message = format!(
            "Start and end of the curve lie {} and {} from its center.",
            told(radius),
            told(other)
        );
        let remedy = "Compare radius and chord with the plat: start, end and the angle were taken.";
        context.tell(node, Finding::caution("curve-misfit", message, remedy));
    }
    let round = a.distance(b) < LEAST_RADIUS;
    let start = (a - centre).angle();
    let turned = wrap_turn((b - centre).angle() - start);
    let sweep = match (round, left) {
        (true, true) => TURN,
        (true, false) => -TURN,
        (false, true) => turned,
        (false, false) => turned - TURN,
    };
    let file = |p: Point| Position {
        first: from.first + p.y / metres,
        second: from.second + p.x / metres,
        height: None,
    };
    if sweep.abs() <= TURN / 2.0 * (1.0 + 1e-9) {
        return Some(vec![arc(from, to, sweep, (a, b), &file)]);
    }
    let middle = centre + Vector::at_angle(start + sweep / 2.0) * radius;
    let halfway = file(middle);
    Some(vec![
        arc(from, halfway, sweep / 2.0, (a, middle), &file),
        arc(halfway, to, sweep / 2.0, (middle, b), &file),
    ])
}

/// The center of a curve that tells its radius alone: of the lesser of the two arcs.
fn center_of_radius(
    context: &mut Context,
    node: Node<'_, '_>,
    (a, b): (Point, Point),
    left: bool,
) -> Option<Point> {
    let radius = attribute(node, "radius").parse::<f64>().ok();
    let radius = radius.map(|it| context.height(it) * context.units.unit.in_metres());
    let chord = b - a;
    let half = chord.length() / 2.0;
    let fits = radius.filter(|r| half > 0.0 && r.is_finite() && *r >= half);
    let Some(radius) = fits else {
        point(context, node, "Center");
        return None;
    };
    let bulge = tan(asin(half / radius) / 2.0) * if left { 1.0 } else { -1.0 };
    match Segment::between(Vertex { at: a, bulge }, b) {
        Segment::Arc { centre, .. } => Some(centre),
        Segment::Line { .. } => None,
    }
}

/// An arc of at most half a turn, as chords.
fn arc(
    from: Position,
    to: Position,
    sweep: f64,
    (a, b): (Point, Point),
    file: &dyn Fn(Point) -> Position,
) -> Stretch {
    let bulge = bulge_of_angle(sweep);
    let mut chords = Vec::new();
    flatten_segment(
        &Segment::between(Vertex { at: a, bulge }, b),
        DRAWING_TOLERANCE,
        &mut chords,
    );
    chords.pop();
    let along = chords.into_iter().map(file).chain([to]).collect();
    Stretch { from, along, bulge }
}
