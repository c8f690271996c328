//! A site as GeoJSON.

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use crate::exchange::geodesy::LocalPlane;
use crate::exchange::import::plane_of;
use crate::exchange::layout::{Layout, LayoutPart};
use crate::exchange::{Areas, Figures};
use crate::finding::Finding;
use crate::geom::{Point, Polygon, Region};
use crate::ground::GroundRecord;
use crate::json;
use crate::site::{Site, StakedLine};
use crate::units::round_to;

/// Decimals of a degree that are written: 0.1 mm.
const DECIMALS: u32 = 9;

/// Decimals of an elevation that are written: 0.1 mm.
const HEIGHT_DECIMALS: u32 = 4;

/// What is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "MapParts")
)]
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
/// counter-clockwise, no `crs`).
///
/// # Errors
/// When nothing says where the site lies on the globe.
pub fn write(site: &Site, figures: &Figures, parts: Parts) -> Result<String, Vec<Finding>> {
    let globe = Globe(plane_of(site).ok_or_else(|| vec![no_origin()])?);
    Ok(collection(features(site, figures, parts, &globe)))
}

/// The same with what an instrument operator stakes: the lines of the work and every stake, each with its
/// name, its code and its elevation. The layout's top of dig stands in place of the plain one.
///
/// # Errors
/// As [`write`].
pub fn write_laid_out(
    site: &Site,
    figures: &Figures,
    parts: Parts,
    layout: &Layout,
) -> Result<String, Vec<Finding>> {
    let globe = Globe(plane_of(site).ok_or_else(|| vec![no_origin()])?);
    let others = Parts {
        dig: false,
        ..parts
    };
    let mut all = features(site, figures, others, &globe);
    for line in &layout.lines {
        let points = line.points.iter().chain(line.points.first());
        let ring: Vec<Value> = points.map(|(at, z)| globe.level(*at, *z)).collect();
        let role = match line.part {
            LayoutPart::Line(StakedLine::Top) => "dig-edge",
            _ => "shell",
        };
        let about = json!({ "role": role, "part": "line", "code": line.part.code() });
        let geometry = json!({ "type": "Polygon", "coordinates": [ring] });
        all.push(feature("", about, geometry));
    }
    for point in &layout.points {
        let mut about = json!({ "role": "shell", "part": "stake", "name": point.name,
            "code": point.part.code() });
        if let (false, Some(about)) = (point.serves.is_empty(), about.as_object_mut()) {
            about.insert("serves".to_owned(), json!(point.serves));
        }
        let coordinates = globe.level(point.at, point.elevation);
        let geometry = json!({ "type": "Point", "coordinates": coordinates });
        all.push(feature("", about, geometry));
    }
    Ok(collection(all))
}

/// An area that follows from a site, with what there is to say about it.
///
/// # Errors
/// As [`write`].
pub fn write_area(site: &Site, region: &Region, about: Value) -> Result<String, Vec<Finding>> {
    let globe = Globe(plane_of(site).ok_or_else(|| vec![no_origin()])?);
    let rings = |polygon: &Polygon| {
        let rings = core::iter::once(&polygon.outer).chain(&polygon.holes);
        rings.map(|ring| ring.0.clone()).collect()
    };
    let areas: Areas = region.polygons.iter().map(rings).collect();
    Ok(collection(vec![feature("", about, globe.areas(&areas))]))
}

fn collection(all: Vec<Value>) -> String {
    json::to_string(&json!({ "type": "FeatureCollection", "features": all }))
}

fn features(site: &Site, figures: &Figures, parts: Parts, globe: &Globe) -> Vec<Value> {
    let mut all = Vec::new();
    if parts.lot {
        let about = json!({ "role": "lot", "name": site.name });
        all.push(feature("", about, globe.areas(&figures.lot)));
    }
    if parts.features {
        for (record, figure) in site.features.iter().zip(&figures.features) {
            let geometry = if figure.areas.is_empty() {
                json!({ "type": "LineString", "coordinates": globe.chain(&figure.line) })
            } else {
                globe.areas(&figure.areas)
            };
            let about = json!({ "role": "feature", "kind": record.kind, "name": record.label() });
            all.push(feature(&record.id, about, geometry));
        }
    }
    if parts.shell && !figures.shell.is_empty() {
        let about = json!({ "role": "shell" });
        all.push(feature("", about, globe.areas(&figures.shell)));
    }
    if parts.dig && !figures.dig.is_empty() {
        let about = json!({ "role": "dig-edge" });
        all.push(feature("", about, globe.areas(&figures.dig)));
    }
    if parts.ground {
        ground(site, globe, &mut all);
    }
    all
}

fn no_origin() -> Finding {
    Finding::fault(
        "no-origin",
        "The site is not georeferenced.",
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

    /// A place with its elevation, where that is known.
    fn level(&self, at: Point, elevation: Option<f64>) -> Value {
        match elevation {
            Some(z) => self.high(&[at.x, at.y, z]),
            None => json!(self.point(at)),
        }
    }

    fn chain(&self, points: &[Point]) -> Vec<[f64; 2]> {
        points.iter().map(|p| self.point(*p)).collect()
    }

    fn polygon(&self, rings: &[Vec<Point>]) -> Vec<Vec<[f64; 2]>> {
        rings
            .iter()
            .map(|ring| {
                let mut closed = self.chain(ring);
                closed.extend(closed.first().copied());
                closed
            })
            .collect()
    }

    fn areas(&self, areas: &Areas) -> Value {
        match areas.as_slice() {
            [one] => json!({ "type": "Polygon", "coordinates": self.polygon(one) }),
            several => {
                let all: Vec<_> = several.iter().map(|p| self.polygon(p)).collect();
                json!({ "type": "MultiPolygon", "coordinates": all })
            }
        }
    }
}
