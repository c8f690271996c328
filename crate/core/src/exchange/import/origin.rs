//! From the numbers of a text to site meters: where the site's origin lies, or by how much the
//! coordinates of a survey are brought nearer.

use super::draft::{Draft, Position};
use super::role::{Frame, Order, Role, Settings};
use crate::exchange::geodesy::{LocalPlane, Place, beside};
use crate::finding::Finding;
use crate::geom::{COORDINATE_LIMIT, Point};
use crate::site::{GeoOrigin, Grid, GridUnit, Site};
use crate::units::{format_decimal, format_place};

/// Coordinates no farther out than this are taken as they stand, meters: the site's own, or a
/// survey that began at 5,000, 5,000 ft.
const AS_THEY_STAND: f64 = 2_000.0;

/// What is taken off survey coordinates is a whole number of this many units, so that the digits
/// that people read stay the same.
const WHOLE: f64 = 1_000.0;

/// How positions are carried onto the site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Carrying {
    /// Down from the globe.
    Globe {
        /// The plane of the site.
        plane: LocalPlane,
        /// Where its origin lies.
        origin: GeoOrigin,
        /// Whether the site did not have this origin before.
        new: bool,
    },
    /// Along a plane.
    Plane {
        /// Meters in one of the text's units.
        unit: GridUnit,
        /// What is taken off; the site has it, or gets it.
        grid: Option<Grid>,
        /// Whether the site did not have this grid before.
        new: bool,
    },
}

/// Decides how positions are carried: by what the site has, or anew.
pub(super) fn decide(draft: &Draft, settings: &Settings, roles: &[Role], site: &Site) -> Carrying {
    let lot_replaced = roles.iter().any(|r| matches!(r, Role::Lot | Role::Corner));
    match settings.frame.unit() {
        None => {
            let kept = site.origin.filter(|_| !settings.fresh);
            let origin = kept.unwrap_or_else(|| {
                let [east, north] = corner(draft, settings, roles);
                let down = |degrees: f64| (degrees * 1e6).floor() / 1e6;
                let east = down(east);
                GeoOrigin {
                    longitude: (east - ((east - 180.0) / 360.0).ceil() * 360.0).to_radians(),
                    latitude: down(north).to_radians(),
                }
            });
            let true_north = if lot_replaced && kept.is_none() {
                0.0
            } else {
                site.lot.basis.true_north.unwrap_or(0.0)
            };
            let place = Place {
                longitude: origin.longitude,
                latitude: origin.latitude,
            };
            Carrying::Globe {
                plane: LocalPlane::new(place, true_north),
                origin,
                new: kept.is_none(),
            }
        }
        Some(unit) => {
            let kept = site.grid.filter(|_| !settings.fresh);
            let grid = kept.or_else(|| {
                let [east, north] = corner(draft, settings, roles);
                let m = unit.in_metres();
                let far = east.abs().max(north.abs()) * m > AS_THEY_STAND;
                let whole = |v: f64| (v / WHOLE).floor() * WHOLE * m;
                far.then(|| Grid {
                    easting: whole(east),
                    northing: whole(north),
                    unit,
                })
            });
            Carrying::Plane {
                unit,
                grid,
                new: kept != grid,
            }
        }
    }
}

impl Carrying {
    /// A position on the site, meters; `None` too far off.
    pub fn over(&self, p: &Position, order: Order) -> Option<Point> {
        let [east, north] = ordered(p, order);
        let at = match self {
            Self::Globe { plane, .. } => plane.site_from_globe(Place::degrees(east, north))?,
            Self::Plane { unit, grid, .. } => {
                let m = unit.in_metres();
                let (e, n) = grid.map_or((0.0, 0.0), |g| (g.easting, g.northing));
                Point::new(east * m - e, north * m - n)
            }
        };
        let near = at.x.abs() <= COORDINATE_LIMIT && at.y.abs() <= COORDINATE_LIMIT;
        near.then_some(at)
    }

    /// Import messages.
    pub fn told(&self, site: &Site, lot_replaced: bool) -> Vec<Finding> {
        let mut told = Vec::new();
        let stands = !site.features.is_empty() || site.placement.is_some();
        let new = match self {
            Self::Globe { origin, new, .. } => {
                if *new {
                    let [lon, lat] = [origin.longitude, origin.latitude].map(f64::to_degrees);
                    told.push(Finding::note(
                        "origin-chosen",
                        format!("The site's origin is laid at {}.", format_place(lat, lon, 6)),
                        "Distances are those on the ellipsoid: a tape reads 16 mm more in 100 m for \
                         each 1,000 m of elevation.",
                    ));
                }
                *new
            }
            Self::Plane {
                grid: Some(g),
                new: true,
                ..
            } => {
                let (m, unit) = (g.unit.in_metres(), g.unit.words());
                told.push(Finding::note(
                    "local-origin",
                    format!(
                        "{} {unit} north and {} {unit} east were taken off every coordinate.",
                        format_decimal(g.northing / m, 0),
                        format_decimal(g.easting / m, 0)
                    ),
                    "The site keeps them, and a list written from it has them again.",
                ));
                true
            }
            Self::Plane { .. } => false,
        };
        if new && !lot_replaced {
            told.push(Finding::caution(
                "no-common-origin",
                "Nothing says how these coordinates lie to the lot that is there.",
                "Bring the lot in from the same source, or check where the new things stand.",
            ));
        } else if new && stands {
            told.push(Finding::caution(
                "others-stay",
                "What stands on the lot now keeps its place on the plan, not on the ground.",
                "Move or remove what belongs to the lot before.",
            ));
        }
        told
    }
}

/// The plane of a site whose place on the globe is known, turned to where its lot has true north.
pub fn plane_of(site: &Site) -> Option<LocalPlane> {
    let origin = site.origin?;
    let place = Place {
        longitude: origin.longitude,
        latitude: origin.latitude,
    };
    let true_north = site.lot.basis.true_north.unwrap_or(0.0);
    Some(LocalPlane::new(place, true_north))
}

/// East and north of a position, in the unit of the text.
fn ordered(p: &Position, order: Order) -> [f64; 2] {
    match order {
        Order::EastFirst => [p.first, p.second],
        Order::NorthFirst => [p.second, p.first],
    }
}

/// The south-west corner of the lot; or else of what comes in; or else of everything.
fn corner(draft: &Draft, settings: &Settings, roles: &[Role]) -> [f64; 2] {
    let of = |wanted: &dyn Fn(Role) -> bool| {
        let mut low: Option<[f64; 2]> = None;
        let mut base = None;
        let items = draft.items.iter().zip(roles);
        for p in items
            .filter(|(_, role)| wanted(**role))
            .flat_map(|(item, _)| item.shape.positions())
        {
            let [mut east, north] = ordered(p, settings.order);
            if settings.frame == Frame::Degrees {
                let base = *base.get_or_insert(east);
                east = beside(east.to_radians(), f64::to_radians(base)).to_degrees();
            }
            low = Some(low.map_or([east, north], |[e, n]| [e.min(east), n.min(north)]));
        }
        low
    };
    of(&|r| matches!(r, Role::Lot | Role::Corner))
        .or_else(|| of(&|r| r != Role::LeaveOut))
        .or_else(|| of(&|_| true))
        .unwrap_or_default()
}
