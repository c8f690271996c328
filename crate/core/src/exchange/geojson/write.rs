//! A site as GeoJSON.

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use crate::exchange::geodesy::LocalPlane;
use crate::exchange::import::plane_of;
use crate::finding::Finding;
use crate::geom::distance::Figure;
use crate::geom::{Point, Polygon, Region};
use crate::ground::GroundRecord;
use crate::pretty;
use crate::results::Results;
use crate::site::{CheckedSite, Site};
use crate::units::round_to;

/// Decimals of a degree that are written: 0.1 mm.
const DECIMALS: u32 = 9;

/// Decimals of an elevation that are written: 0.1 mm.
const HEIGHT_DECIMALS: u32 = 4;

/// What is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Parts {
    /// The lot.
    pub lot: bool,
    /// What stands on it.
    pub features: bool,
    /// The edge of the shell.
    pub shell: bool,
    /// Where the sides of the dig meet the ground.
    pub dig: bool,
    /// Spot elevations, breaklines and the benchmark.
    pub ground: bool,
}

impl Default for Parts {
    fn default() -> Self {
        Self {
            lot: true,
            features: true,
            shell: true,
            dig: true,
            ground: true,
        }
    }
}

/// A site as a FeatureCollection in WGS 84 degrees (RFC 7946: longitude first, outer rings
/// counter-clockwise, no `crs`). Arcs become chords that stay within 1 mm inside them
/// ([`crate::geom::DRAWING_TOLERANCE`]).
///
/// # Errors
/// When nothing says where the site lies on the globe.
pub fn write(site: &CheckedSite, results: &Results, parts: Parts) -> Result<String, Vec<Finding>> {
    let plane = plane_of(site.site()).ok_or_else(|| vec![no_origin()])?;
    let globe = Globe(plane);
    let document: &Site = site.site();
    let mut all = Vec::new();
    if parts.lot {
        let outline = globe.region(&site.lot().region);
        all.push(feature(
            "",
            json!({ "role": "lot", "name": document.name }),
            outline,
        ));
    }
    if parts.features {
        for checked in site.features().iter() {
            let Some(record) = document.features.get(checked.index) else {
                continue;
            };
            let geometry = match checked.shape.figure() {
                Figure::Chain(chain) => {
                    json!({ "type": "LineString", "coordinates": globe.chain(chain) })
                }
                Figure::Area(region) => globe.region(region),
            };
            let about = json!({ "role": "feature", "kind": record.kind, "name": record.label() });
            all.push(feature(&record.id, about, geometry));
        }
    }
    if let (true, Some((shell, placement))) = (parts.shell, site.placed_shell()) {
        let edge = shell.footprint.posed(&placement.pose());
        let about = json!({ "role": "shell", "name": shell.record.name });
        all.push(feature("", about, globe.region(&edge)));
    }
    if let (true, Some(dig)) = (parts.dig, &results.dig) {
        let about = json!({ "role": "dig-edge" });
        all.push(feature("", about, globe.region(&dig.top_edge)));
    }
    if parts.ground {
        ground(document, &globe, &mut all);
    }
    Ok(pretty::to_string(
        &json!({ "type": "FeatureCollection", "features": all }),
    ))
}

fn no_origin() -> Finding {
    Finding::fault(
        "no-origin",
        "Nothing says where the site lies on the globe.",
        "Give the latitude and longitude of the site's origin, or bring the lot in from a map.",
    )
    .under("/origin")
}

fn ground(site: &Site, globe: &Globe, all: &mut Vec<Value>) {
    if let GroundRecord::Spots { spots, breaklines } = site.ground.as_ref() {
        for spot in spots {
            let geometry = json!({ "type": "Point", "coordinates": globe.high(spot) });
            all.push(feature("", json!({ "role": "spot" }), geometry));
        }
        for line in breaklines {
            let line: Vec<Value> = line.iter().map(|p| globe.high(p)).collect();
            let geometry = json!({ "type": "LineString", "coordinates": line });
            all.push(feature("", json!({ "role": "breakline" }), geometry));
        }
    }
    if let Some(mark) = &site.benchmark
        && let Some(at) = mark.at
    {
        let coordinates = globe.high(&[at.x, at.y, mark.elevation]);
        let geometry = json!({ "type": "Point", "coordinates": coordinates });
        let about = json!({ "role": "benchmark", "name": mark.name });
        all.push(feature("", about, geometry));
    }
}

fn feature(id: &str, about: Value, geometry: Value) -> Value {
    if id.is_empty() {
        json!({ "type": "Feature", "properties": about, "geometry": geometry })
    } else {
        json!({ "type": "Feature", "id": id, "properties": about, "geometry": geometry })
    }
}

/// The way from the site to degrees.
struct Globe(LocalPlane);

impl Globe {
    fn point(&self, at: Point) -> [f64; 2] {
        self.0
            .globe_from_site(at)
            .in_degrees()
            .map(|degrees| round_to(degrees, DECIMALS))
    }

    fn high(&self, spot: &[f64; 3]) -> Value {
        let [x, y, z] = *spot;
        let [longitude, latitude] = self.point(Point::new(x, y));
        json!([longitude, latitude, round_to(z, HEIGHT_DECIMALS)])
    }

    fn chain(&self, points: &[Point]) -> Vec<[f64; 2]> {
        points.iter().map(|p| self.point(*p)).collect()
    }

    fn polygon(&self, polygon: &Polygon) -> Vec<Vec<[f64; 2]>> {
        core::iter::once(&polygon.outer)
            .chain(&polygon.holes)
            .map(|ring| {
                let mut closed = self.chain(&ring.0);
                closed.extend(closed.first().copied());
                closed
            })
            .collect()
    }

    fn region(&self, region: &Region) -> Value {
        match region.polygons.as_slice() {
            [one] => json!({ "type": "Polygon", "coordinates": self.polygon(one) }),
            several => {
                let all: Vec<_> = several.iter().map(|p| self.polygon(p)).collect();
                json!({ "type": "MultiPolygon", "coordinates": all })
            }
        }
    }
}
