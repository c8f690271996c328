//! The elements of a LandXML file, with places in its unit.

use super::mesh::Mesh;
use super::xml::Xml;
use super::{NAMESPACE, VERSION};
use crate::geom::{Point, Segment};
use crate::site::GridUnit;
use crate::units::format_coordinate;

/// Decimals of what is written, of feet as of meters: a micrometer, so that curves keep their centers.
const DECIMALS: u32 = 6;

/// When a file is written: the schema asks for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Moment {
    /// Year, month and day: `2026-09-21`.
    pub date: String,
    /// Hours, minutes and seconds: `14:13:20`.
    pub time: String,
}

impl Moment {
    /// The moment so many seconds after 1970 began, UTC.
    pub fn of_unix(seconds: u64) -> Self {
        let (days, rest) = (seconds / 86_400, seconds % 86_400);
        // Days to a date of the Gregorian calendar, by its cycles of 400, 100 and 4 years; years begin
        // on March 1.
        let days = days + 719_468;
        let (cycle, day) = (days / 146_097, days % 146_097);
        let year = (day - day / 1_460 + day / 36_524 - day / 146_096) / 365;
        let of_year = day - (365 * year + year / 4 - year / 100);
        let month = (5 * of_year + 2) / 153;
        let of_month = of_year - (153 * month + 2) / 5 + 1;
        let (month, later) = match month {
            0..=9 => (month + 3, 0),
            _ => (month - 9, 1),
        };
        let year = year + 400 * cycle + later;
        Self {
            date: format!("{year:04}-{month:02}-{of_month:02}"),
            time: format!("{:02}:{:02}:{:02}", rest / 3_600, rest / 60 % 60, rest % 60),
        }
    }
}

/// A file as it is written.
pub(super) struct File {
    pub xml: Xml,
    pub unit: GridUnit,
    /// Northing and easting of the site's origin, meters.
    pub grid: [f64; 2],
}

impl File {
    /// The root, the units and who wrote it.
    pub fn head(&mut self, name: &str, moment: &Moment) {
        let schema = format!("{NAMESPACE} {NAMESPACE}/LandXML-1.2.xsd");
        let root = [
            ("xmlns", NAMESPACE),
            ("xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance"),
            ("xsi:schemaLocation", &schema),
            ("date", &moment.date),
            ("time", &moment.time),
            ("version", VERSION),
            ("language", "English"),
            ("readOnly", "false"),
        ];
        self.xml.open("LandXML", &root);
        let imperial = |linear: &'static str| {
            let told = [
                ("areaUnit", "squareFoot"),
                ("linearUnit", linear),
                ("volumeUnit", "cubicYard"),
                ("temperatureUnit", "fahrenheit"),
                ("pressureUnit", "inHG"),
            ];
            ("Imperial", told)
        };
        let (system, units) = match self.unit {
            GridUnit::Feet => imperial("foot"),
            GridUnit::SurveyFeet => imperial("USSurveyFoot"),
            GridUnit::Metres => {
                let told = [
                    ("areaUnit", "squareMeter"),
                    ("linearUnit", "meter"),
                    ("volumeUnit", "cubicMeter"),
                    ("temperatureUnit", "celsius"),
                    ("pressureUnit", "milliBars"),
                ];
                ("Metric", told)
            }
        };
        self.xml.open("Units", &[]);
        self.xml.leaf(system, &units, "");
        self.xml.close();
        let name = if name.trim().is_empty() { "site" } else { name };
        self.xml.leaf("Project", &[("name", name)], "");
        let version = env!("CARGO_PKG_VERSION");
        let about = [
            ("name", "batterboard"),
            ("desc", "a plan, not a survey"),
            ("version", version),
        ];
        self.xml.leaf("Application", &about, "");
    }

    fn number(&self, metres: f64) -> String {
        format_coordinate(metres / self.unit.in_metres(), DECIMALS)
    }

    /// Northing, easting and elevation.
    fn place(&self, at: Point, elevation: Option<f64>) -> String {
        let [north, east] = self.grid;
        let plan = format!("{} {}", self.number(at.y + north), self.number(at.x + east));
        match elevation {
            Some(z) => format!("{plan} {}", self.number(z)),
            None => plan,
        }
    }

    pub fn point(
        &mut self,
        name: &'static str,
        about: &[(&'static str, &str)],
        at: Point,
        elevation: Option<f64>,
    ) {
        let place = self.place(at, elevation);
        self.xml.leaf(name, about, &place);
    }

    pub fn segment(&mut self, segment: &Segment, label: &str) {
        let length = self.number(segment.length());
        let (from, to) = (segment.from(), segment.to());
        match *segment {
            Segment::Line { .. } => {
                self.xml
                    .open("Line", &[("desc", label), ("length", &length)]);
                self.point("Start", &[], from, None);
            }
            Segment::Arc {
                centre,
                radius,
                sweep,
                ..
            } => {
                let turn = if sweep > 0.0 { "ccw" } else { "cw" };
                let radius = self.number(radius);
                let about = [
                    ("rot", turn),
                    ("crvType", "arc"),
                    ("desc", label),
                    ("length", &length),
                    ("radius", &radius),
                ];
                self.xml.open("Curve", &about);
                self.point("Start", &[], from, None);
                self.point("Center", &[], centre, None);
            }
        }
        self.point("End", &[], to, None);
        self.xml.close();
    }

    /// A line through places; with elevations where all are known.
    pub fn irregular(&mut self, chain: &[(Point, Option<f64>)]) {
        let (Some((from, _)), Some((to, _))) = (chain.first(), chain.last()) else {
            return;
        };
        self.xml.open("IrregularLine", &[]);
        self.point("Start", &[], *from, None);
        self.point("End", &[], *to, None);
        let high: Option<Vec<[f64; 3]>> = chain
            .iter()
            .map(|(p, z)| z.map(|z| [p.x, p.y, z]))
            .collect();
        match high {
            Some(high) => self.list(&high),
            None => {
                let places: Vec<String> = chain.iter().map(|(p, _)| self.place(*p, None)).collect();
                self.xml.leaf("PntList2D", &[], &places.join(" "));
            }
        }
        self.xml.close();
    }

    fn list(&mut self, line: &[[f64; 3]]) {
        let places: Vec<String> = line
            .iter()
            .map(|[x, y, z]| self.place(Point::new(*x, *y), Some(*z)))
            .collect();
        self.xml.leaf("PntList3D", &[], &places.join(" "));
    }

    pub fn surface(&mut self, [name, desc, state]: [&str; 3], mesh: &Mesh) {
        self.xml.open(
            "Surface",
            &[("name", name), ("desc", desc), ("state", state)],
        );
        if !mesh.lines.is_empty() {
            self.xml.open("SourceData", &[]);
            self.xml.open("Breaklines", &[]);
            for (i, line) in mesh.lines.iter().enumerate() {
                let name = format!("{} {}", name, i + 1);
                self.xml
                    .open("Breakline", &[("brkType", "standard"), ("name", &name)]);
                self.list(line);
                self.xml.close();
            }
            self.xml.close();
            self.xml.close();
        }
        if !mesh.faces.is_empty() {
            self.xml.open("Definition", &[("surfType", "TIN")]);
            self.xml.open("Pnts", &[]);
            for (i, [x, y, z]) in mesh.points.iter().enumerate() {
                let id = (i + 1).to_string();
                self.point("P", &[("id", &id)], Point::new(*x, *y), Some(*z));
            }
            self.xml.close();
            self.xml.open("Faces", &[]);
            for [a, b, c] in &mesh.faces {
                self.xml
                    .leaf("F", &[], &format!("{} {} {}", a + 1, b + 1, c + 1));
            }
            self.xml.close();
            self.xml.close();
        }
        self.xml.close();
    }
}
