//! What was found, in site meters: each shape checked, measured, and proposed anew by where it lies.

use super::diagnostics::Diagnostics;
use super::draft::{Draft, Item, Piece, Shape};
use super::origin::{Carrying, decide};
use super::role::{Role, Settings};
use crate::finding::Finding;
use crate::geom::validate::SMALLEST_GAP;
use crate::geom::{Outline, Point, Track, Vertex};
use crate::site::{GeoOrigin, Grid, Site};

/// What lies farther than this from the lot is not proposed, meters: about the width of a street.
const BESIDE: f64 = 15.0;

/// A position on the site with its elevation, meters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Where.
    pub at: Point,
    /// The elevation, where told.
    pub height: Option<f64>,
}

/// A shape on the site.
pub type PlacedShape = Shape<Spot>;

/// A thing on the site.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedItem {
    /// Its shape; `None` when it cannot be used, which is told.
    pub shape: Option<PlacedShape>,
    /// Its area, m2; of what has none, 0.
    pub area: f64,
    /// The length of its lines or round its areas, meters.
    pub length: f64,
    /// What it is proposed to be.
    pub proposed: Role,
}

/// A thing that comes in.
#[derive(Clone, Copy)]
pub(super) struct Chosen<'a> {
    pub item: &'a Item,
    pub shape: &'a PlacedShape,
    pub role: Role,
}

/// Everything that was found, on the site. The items are those of the draft, in its order.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// The things.
    pub items: Vec<PlacedItem>,
    /// Where the site's origin lies, when that comes in with them.
    pub origin: Option<GeoOrigin>,
    /// What is taken off survey coordinates, when that changes: `Some(None)` is nothing.
    pub grid: Option<Option<Grid>>,
    /// What the placing had to say.
    pub findings: Vec<Finding>,
}

impl Placed {
    /// Places a draft on a site. `roles` are those chosen so far, one to an item; where there are
    /// none, the proposed ones count.
    pub fn of(draft: &Draft, settings: &Settings, roles: &[Role], site: &Site) -> Self {
        let proposed: Vec<Role> = draft.items.iter().map(|i| i.proposed).collect();
        let chosen = roles.len() == draft.items.len();
        let mut roles = if chosen { roles.to_vec() } else { proposed };
        let several = !chosen && only_one_lot(&mut roles, settings.lot);
        let carrying = decide(draft, settings, &roles, site);
        let mut diagnostics = Diagnostics::default();
        let mut items: Vec<PlacedItem> = draft
            .items
            .iter()
            .zip(&roles)
            .map(|(item, role)| {
                let shape = placed(&item.shape, settings, &carrying);
                let (shape, fault) = match shape {
                    None => (None, Some(too_far())),
                    Some(shape) => match faulty(&shape) {
                        None => (Some(shape), None),
                        Some(fault) => (None, Some(fault)),
                    },
                };
                let usable = shape.is_some();
                if let Some(fault) = fault {
                    diagnostics.add(&item.place, fault);
                }
                let (area, length) = shape.as_ref().map(measured).unwrap_or_default();
                PlacedItem {
                    shape,
                    area,
                    length,
                    proposed: if usable { *role } else { Role::LeaveOut },
                }
            })
            .collect();
        if !chosen {
            keep_to_the_lot(&mut items, several);
        }
        let lot_replaced = roles.iter().any(|r| matches!(r, Role::Lot | Role::Corner));
        let mut findings = carrying.told(site, lot_replaced || several);
        findings.extend(diagnostics.into_findings());
        if several {
            findings.push(Finding::note(
                "which-lot",
                "There are several parcels.",
                "Choose which one is the lot; what stands on it is then proposed.",
            ));
        }
        let (origin, grid) = match carrying {
            Carrying::Globe { origin, new, .. } => (new.then_some(origin), None),
            Carrying::Plane { grid, new, .. } => (None, new.then_some(grid)),
        };
        Self {
            items,
            origin,
            grid,
            findings,
        }
    }
}

/// Leaves one lot among the proposals: the chosen one, or the only one. Says whether there are
/// several and none was chosen.
fn only_one_lot(roles: &mut [Role], chosen: Option<usize>) -> bool {
    let lots = roles.iter().filter(|r| **r == Role::Lot).count();
    for (i, role) in roles.iter_mut().enumerate() {
        match chosen {
            Some(c) if c == i => *role = Role::Lot,
            Some(_) if *role == Role::Lot => *role = Role::LeaveOut,
            None if lots > 1 && *role == Role::Lot => *role = Role::LeaveOut,
            _ => {}
        }
    }
    chosen.is_none() && lots > 1
}

/// Proposes only what lies on or beside the lot, where there is one.
fn keep_to_the_lot(items: &mut [PlacedItem], several: bool) {
    let lot = items
        .iter()
        .find(|i| i.proposed == Role::Lot)
        .and_then(|i| bounds(i.shape.as_ref()?));
    for item in items.iter_mut() {
        let beside = match (lot, item.shape.as_ref().and_then(bounds)) {
            (Some((low, high)), Some((from, to))) => {
                from.x <= high.x + BESIDE
                    && to.x >= low.x - BESIDE
                    && from.y <= high.y + BESIDE
                    && to.y >= low.y - BESIDE
            }
            _ => !several,
        };
        if !beside && matches!(item.proposed, Role::Feature(_)) {
            item.proposed = Role::LeaveOut;
        }
    }
}

fn bounds(shape: &PlacedShape) -> Option<(Point, Point)> {
    let mut all = shape.positions().into_iter().map(|s| s.at);
    let first = all.next()?;
    Some(all.fold((first, first), |(low, high), p| {
        (
            Point::new(low.x.min(p.x), low.y.min(p.y)),
            Point::new(high.x.max(p.x), high.y.max(p.y)),
        )
    }))
}

/// A shape on the site, without positions that repeat the one before.
fn placed(shape: &Shape, settings: &Settings, carrying: &Carrying) -> Option<PlacedShape> {
    let metres = settings.heights.in_metres();
    let mut shape = shape.carried(|p| {
        Some(Spot {
            at: carrying.over(p, settings.order)?,
            height: p.height.map(|h| h * metres),
        })
    })?;
    let thin = |chain: &mut Vec<Spot>, closed: bool| {
        chain.dedup_by(|b, a| a.at.distance(b.at) < SMALLEST_GAP);
        let meets = |c: &[Spot]| matches!(c, [a, _, .., b] if a.at.distance(b.at) < SMALLEST_GAP);
        if closed && meets(chain) {
            chain.pop();
        }
    };
    match &mut shape {
        Shape::Points(_) => {}
        Shape::Lines(lines) => lines.iter_mut().for_each(|l| thin(l, false)),
        Shape::Areas(pieces) => {
            for piece in pieces {
                thin(&mut piece.outer, true);
                piece.holes.iter_mut().for_each(|h| thin(h, true));
            }
        }
    }
    Some(shape)
}

fn too_far() -> Finding {
    Finding::fault(
        "too-far",
        "This lies more than 10 km from the site's origin.",
        "Check the unit and the order of the coordinates, or set a new site origin.",
    )
}

/// The first thing that keeps a shape from being used.
fn faulty(shape: &PlacedShape) -> Option<Finding> {
    let first = |result: Result<(), Vec<Finding>>| result.err().and_then(|f| f.into_iter().next());
    match shape {
        Shape::Points(_) => None,
        Shape::Lines(lines) => lines
            .iter()
            .find_map(|l| first(Track::check(corners(l)).map(drop))),
        Shape::Areas(pieces) => pieces
            .iter()
            .flat_map(Piece::rings)
            .find_map(|r| first(Outline::check(corners(r)).map(drop))),
    }
    .map(|mut fault| {
        // Where in the ring it is says less than which thing it is.
        fault.pointer = String::new();
        fault
    })
}

/// A chain as corners with straight stretches between them.
pub(super) fn corners(chain: &[Spot]) -> Vec<Vertex> {
    chain.iter().map(|s| Vertex::line(s.at.x, s.at.y)).collect()
}

/// Area and length.
fn measured(shape: &PlacedShape) -> (f64, f64) {
    match shape {
        Shape::Points(_) => (0.0, 0.0),
        Shape::Lines(lines) => (0.0, lines.iter().map(|l| walked(l)).sum()),
        Shape::Areas(pieces) => {
            let ring = |ring: &Vec<Spot>| {
                let outline = Outline::check(corners(ring)).ok();
                outline.map_or((0.0, 0.0), |o| (o.area(), o.perimeter()))
            };
            pieces.iter().fold((0.0, 0.0), |sum, piece| {
                let (area, length) = ring(&piece.outer);
                piece
                    .holes
                    .iter()
                    .map(ring)
                    .fold((sum.0 + area, sum.1 + length), |(a, l), (hole, round)| {
                        (a - hole, l + round)
                    })
            })
        }
    }
}

fn walked(chain: &[Spot]) -> f64 {
    let steps = chain.iter().zip(chain.iter().skip(1));
    steps.map(|(a, b)| a.at.distance(b.at)).sum()
}
