//! Things from outside as features of the site.

use super::diagnostics::Diagnostics;
use super::draft::{Piece, Shape};
use super::place::{Chosen, PlacedShape, Spot, corners};
use super::role::{Joined, Role};
use crate::finding::Finding;
use crate::geom::validate::SMALLEST_GAP;
use crate::geom::{Outline, PathRecord, Point};
use crate::site::{Facts, Feature, FeatureKind, PieceRecord, ShapeRecord};

/// The radius of what came as a point and has no size, meters (1 ft; arbitrary).
const POINT_RADIUS: f64 = 0.3048;

/// The features of a site after things came in.
pub(super) struct Newcomers {
    /// All of them.
    pub all: Vec<Feature>,
    /// How many are new.
    pub added: usize,
    /// How many were there and got another shape.
    pub replaced: usize,
}

/// The features that the chosen things make, among those that are there.
pub(super) fn of(
    chosen: &[Chosen<'_>],
    present: &[Feature],
    diagnostics: &mut Diagnostics,
) -> Newcomers {
    let mut out = Newcomers {
        all: present.to_vec(),
        added: 0,
        replaced: 0,
    };
    let mut discs = 0;
    let mut joined: Vec<(FeatureKind, &str, &str, Vec<Spot>)> = Vec::new();
    for c in chosen {
        let Role::Feature(kind) = c.role else {
            continue;
        };
        match (c.shape, Joined::of(kind)) {
            (Shape::Points(points), Joined::Each) => {
                for spot in points {
                    discs += 1;
                    out.take(c, kind, disc(spot.at));
                }
            }
            (Shape::Points(points), _) => {
                let group = c.item.group.as_str();
                match joined
                    .iter_mut()
                    .find(|(k, g, ..)| *k == kind && *g == group)
                {
                    Some((.., row)) => row.extend(points),
                    None => joined.push((kind, group, &c.item.place, points.clone())),
                }
            }
            (shape, _) => {
                for record in records(shape, kind) {
                    out.take(c, kind, record);
                }
            }
        }
    }
    for (kind, group, place, row) in joined {
        match in_order(&row, kind) {
            Ok(shape) => out.add(kind, named(group), shape),
            Err(fault) => diagnostics.add(place, fault),
        }
    }
    if discs > 0 {
        diagnostics.add(
            "",
            Finding::note(
                "points-without-size",
                format!("{discs} things came as points; a disc of 1 ft radius stands for each."),
                "Give each its true size: of a tree, the radius of its canopy.",
            ),
        );
    }
    out
}

impl Newcomers {
    /// A thing of the file: in place of the feature that it was written from, or new.
    fn take(&mut self, c: &Chosen<'_>, kind: FeatureKind, shape: ShapeRecord) {
        let own = !c.item.id.is_empty();
        let same = self.all.iter_mut().find(|f| own && f.id == c.item.id);
        if let Some(feature) = same {
            feature.kind = kind;
            feature.shape = shape;
            self.replaced += 1;
            return;
        }
        let list = c.item.place.starts_with("line ");
        let name = if list { &c.item.words } else { &c.item.name };
        let id = own.then(|| c.item.id.clone());
        self.put(id, kind, name.clone(), shape);
    }

    fn add(&mut self, kind: FeatureKind, name: String, shape: ShapeRecord) {
        self.put(None, kind, name, shape);
    }

    fn put(&mut self, id: Option<String>, kind: FeatureKind, name: String, shape: ShapeRecord) {
        let id = id.unwrap_or_else(|| self.fresh(kind));
        self.added += 1;
        self.all.push(Feature {
            id,
            kind,
            name,
            shape,
            hidden: false,
            locked: false,
            facts: Facts::default(),
            note: String::new(),
        });
    }

    /// An identifier that no feature has yet: the kind, and a number from the second on.
    fn fresh(&self, kind: FeatureKind) -> String {
        let stem = kind.words().replace(' ', "-");
        let taken = |id: &str| self.all.iter().any(|f| f.id == id);
        if !taken(&stem) {
            return stem;
        }
        let mut n = 2;
        loop {
            let id = format!("{stem}-{n}");
            if !taken(&id) {
                return id;
            }
            n += 1;
        }
    }
}

/// A description as a name, empty when it is none.
fn named(group: &str) -> String {
    if group == "no description" {
        String::new()
    } else {
        group.to_owned()
    }
}

fn disc(at: Point) -> ShapeRecord {
    ShapeRecord::Disc {
        at,
        radius: POINT_RADIUS,
    }
}

fn path(chain: &[Spot]) -> PathRecord {
    PathRecord::from(corners(chain).as_slice())
}

/// Lines and areas as shapes of features: polygons with holes and those of several parts stay one.
fn records(shape: &PlacedShape, kind: FeatureKind) -> Vec<ShapeRecord> {
    match shape {
        Shape::Points(points) => points.iter().map(|s| disc(s.at)).collect(),
        Shape::Lines(lines) => lines.iter().map(|l| line(l, kind)).collect(),
        Shape::Areas(pieces) => vec![match pieces.as_slice() {
            [one] if one.holes.is_empty() => ShapeRecord::Area(path(&one.outer)),
            several => ShapeRecord::Compound(several.iter().map(piece).collect()),
        }],
    }
}

fn piece(piece: &Piece<Spot>) -> PieceRecord {
    PieceRecord {
        outer: path(&piece.outer),
        holes: piece.holes.iter().map(|h| path(h)).collect(),
    }
}

/// A line; one that comes back to where it began is an area where the kind is one.
fn line(chain: &[Spot], kind: FeatureKind) -> ShapeRecord {
    let back = matches!(chain, [a, _, _, .., b] if a.at.distance(b.at) < SMALLEST_GAP);
    if back && Joined::of(kind) == Joined::Area {
        let open = chain.get(..chain.len() - 1).unwrap_or(chain);
        if Outline::check(corners(open)).is_ok() {
            return ShapeRecord::Area(path(open));
        }
    }
    ShapeRecord::Track(path(chain))
}

/// Points in the order of the list as a line or an area.
fn in_order(row: &[Spot], kind: FeatureKind) -> Result<ShapeRecord, Finding> {
    let few = |least: usize, what: &str| {
        Finding::fault(
            "too-few-points",
            format!(
                "A {} from points needs at least {least} of one description, {what}.",
                kind.words()
            ),
            "Give its points the same description, or leave them out.",
        )
    };
    match Joined::of(kind) {
        Joined::Area if row.len() < 3 => Err(few(3, "in order round it")),
        Joined::Line if row.len() < 2 => Err(few(2, "in order along it")),
        Joined::Area => match Outline::check(corners(row)) {
            Ok(_) => Ok(ShapeRecord::Area(path(row))),
            Err(faults) => {
                let message = faults.into_iter().next().map(|f| f.message);
                Err(Finding::fault(
                    "points-out-of-order",
                    format!(
                        "The points do not go round one {}: {}",
                        kind.words(),
                        message.unwrap_or_default()
                    ),
                    "Put them in order round it, and give each thing its own description.",
                ))
            }
        },
        Joined::Line => Ok(ShapeRecord::Track(path(row))),
        Joined::Each => Ok(disc(row.first().map(|s| s.at).unwrap_or_default())),
    }
}
