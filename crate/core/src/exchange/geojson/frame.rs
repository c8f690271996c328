//! Whether the numbers are degrees at all.

use serde_json::Value;

use crate::exchange::import::{Frame, Item, Order, Shape};
use crate::finding::Finding;

/// The greatest extent of one thing that is still taken for degrees. A lot is a thousandth of a
/// degree across; a lot in feet or meters is tens of units.
const WIDEST: f64 = 0.5;

/// How the numbers of a file are meant, and what there is to say of it.
pub(super) struct Guess {
    /// Degrees, or a length whose unit the reader chooses.
    pub frame: Frame,
    /// Which goes east.
    pub order: Order,
    /// What there is to say; a fault bars the file.
    pub finding: Option<Finding>,
}

/// Looks at all numbers and at the `crs` member.
pub(super) fn guess(items: &[Item], crs: Option<&Value>) -> Guess {
    let crs = crs.filter(|c| !c.is_null());
    let named = crs.map(name);
    let other = named.as_deref().filter(|n| !is_wgs84(n));
    let degrees = |order, finding| Guess {
        frame: Frame::Degrees,
        order,
        finding,
    };
    if fit(items, Order::EastFirst) {
        return match other {
            None => degrees(Order::EastFirst, None),
            Some(name) => degrees(
                Order::EastFirst,
                Some(
                    Finding::fault(
                        "other-crs",
                        format!("The coordinates are of another reference system: {name}."),
                        "Fetch the file again as GeoJSON in WGS 84, longitude and latitude (RFC 7946 \
                         knows no other system).",
                    )
                    .under("/crs"),
                ),
            ),
        };
    }
    if fit(items, Order::NorthFirst) && other.is_none() {
        let message = "The numbers can be degrees only if latitude stands first.";
        let remedy = "RFC 7946 has longitude first. Latitude first was proposed; see in the picture \
                      whether that is right.";
        let finding = Finding::caution("latitude-first", message, remedy);
        return degrees(Order::NorthFirst, Some(finding));
    }
    let message = match other {
        Some(name) => format!("The coordinates are lengths of another reference system: {name}."),
        None => "The numbers cannot be degrees: they are too large, or one thing is wider than a \
                 county."
            .to_owned(),
    };
    let remedy = "They are offered as east and north on a plane. Choose the unit they are in, and \
                  measure a known side afterwards: lengths of a state or national grid differ a \
                  little from those of a tape.";
    let mut finding = Finding::caution("not-degrees", message, remedy);
    if other.is_some() {
        finding = finding.under("/crs");
    }
    Guess {
        frame: Frame::Metres,
        order: Order::EastFirst,
        finding: Some(finding),
    }
}

/// Whether all numbers may be degrees in an order.
fn fit(items: &[Item], order: Order) -> bool {
    items.iter().all(|item| {
        let mut low = [f64::INFINITY; 2];
        let mut high = [f64::NEG_INFINITY; 2];
        let mut base = None;
        for p in item.shape.positions() {
            let (mut east, north) = match order {
                Order::EastFirst => (p.first, p.second),
                Order::NorthFirst => (p.second, p.first),
            };
            if east.abs() > 180.0 || north.abs() > 90.0 {
                return false;
            }
            // Across the 180th meridian the numbers jump by a full turn.
            let base = *base.get_or_insert(east);
            east -= ((east - base) / 360.0).round() * 360.0;
            low = [low[0].min(east), low[1].min(north)];
            high = [high[0].max(east), high[1].max(north)];
        }
        // Points may lie all over the world; what is one figure may not.
        matches!(item.shape, Shape::Points(_))
            || high[1] - low[1] <= WIDEST && high[0] - low[0] <= WIDEST / cosine(low[1], high[1])
    })
}

/// The cosine of the latitude nearest to a pole, but not nothing.
fn cosine(low: f64, high: f64) -> f64 {
    crate::math::cos(low.abs().max(high.abs()).to_radians()).max(0.001)
}

/// What a `crs` member calls its system.
fn name(crs: &Value) -> String {
    let text = crs
        .pointer("/properties/name")
        .and_then(Value::as_str)
        .map_or_else(|| crs.to_string(), str::to_owned);
    text.chars().take(80).collect()
}

/// Whether a name means WGS 84 longitude and latitude.
fn is_wgs84(name: &str) -> bool {
    let upper = name.to_ascii_uppercase();
    upper.contains("CRS84")
        || upper.ends_with(":4326")
        || upper == "4326"
        || upper.contains("WGS84")
}
