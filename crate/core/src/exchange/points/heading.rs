//! The heading of a list: which column is which, and in which unit.

use crate::exchange::import::Frame;
use crate::site::GridUnit;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    Point,
    North,
    East,
    Elevation,
    Description,
    Other,
}

/// A heading that was understood.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Heading {
    /// What each column holds.
    pub columns: Vec<Column>,
    /// What the coordinates are, where the heading says so.
    pub frame: Option<Frame>,
    /// The unit of the elevations, where the heading says so.
    pub heights: Option<GridUnit>,
}

/// Words for each column.
const WORDS: [(Column, &[&str]); 5] = [
    (
        Column::Point,
        &[
            "point",
            "pt",
            "p",
            "no",
            "nr",
            "number",
            "pointno",
            "pointnumber",
            "id",
            "name",
            "#",
        ],
    ),
    (
        Column::North,
        &[
            "northing",
            "north",
            "n",
            "y",
            "lat",
            "latitude",
            "northings",
        ],
    ),
    (
        Column::East,
        &[
            "easting",
            "east",
            "e",
            "x",
            "lon",
            "lng",
            "long",
            "longitude",
            "eastings",
        ],
    ),
    (
        Column::Elevation,
        &["elevation", "elev", "el", "z", "h", "height", "level"],
    ),
    (
        Column::Description,
        &[
            "description",
            "desc",
            "d",
            "code",
            "note",
            "notes",
            "remark",
            "remarks",
            "feature",
        ],
    ),
];

/// Reads a first line as a heading: it must name a northing and an easting, and hold no number.
pub(super) fn read(fields: &[String]) -> Option<Heading> {
    if fields
        .iter()
        .any(|f| f.starts_with(|c: char| c.is_ascii_digit()))
    {
        return None;
    }
    let mut heading = Heading {
        columns: Vec::with_capacity(fields.len()),
        frame: None,
        heights: None,
    };
    for field in fields {
        let lower = field.to_ascii_lowercase();
        let (words, unit) = parted(&lower);
        let column = WORDS
            .iter()
            .find(|(_, names)| names.contains(&words.as_str()))
            .map_or(Column::Other, |(column, _)| *column);
        let column = if column != Column::Other && heading.columns.contains(&column) {
            Column::Other
        } else {
            column
        };
        match column {
            Column::North | Column::East if words.starts_with('l') => {
                heading.frame = Some(Frame::Degrees);
            }
            Column::North | Column::East => {
                heading.frame = heading.frame.or(unit.map(Frame::from));
            }
            Column::Elevation => heading.heights = unit,
            _ => {}
        }
        heading.columns.push(column);
    }
    let names = |column| heading.columns.contains(&column);
    (names(Column::North) && names(Column::East)).then_some(heading)
}

/// The letters before a unit in brackets or behind an underscore, and the unit.
fn parted(field: &str) -> (String, Option<GridUnit>) {
    let cut = field.find(['(', '[', '_']).unwrap_or(field.len());
    let (name, rest) = field.split_at_checked(cut).unwrap_or((field, ""));
    let letters = |text: &str| -> String {
        text.chars()
            .filter(|c| c.is_ascii_alphanumeric() || *c == '#')
            .collect()
    };
    let unit = match letters(rest).as_str() {
        "m" | "metre" | "metres" | "meter" | "meters" => Some(GridUnit::Metres),
        "ft" | "feet" | "foot" | "ift" | "internationalfeet" => Some(GridUnit::Feet),
        "usft" | "ftus" | "sft" | "ussurveyfeet" | "surveyfeet" | "ussurveyft" | "surveyft" => {
            Some(GridUnit::SurveyFeet)
        }
        _ => None,
    };
    (letters(name), unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heading(text: &str) -> Option<Heading> {
        let fields: Vec<String> = text.split(',').map(str::to_owned).collect();
        read(&fields)
    }

    #[test]
    fn columns_are_named_in_many_ways() {
        use Column::*;
        let told =
            heading("Point,Northing (US survey ft),Easting (US survey ft),Elev (ft),Description")
                .unwrap();
        assert_eq!(told.columns, [Point, North, East, Elevation, Description]);
        assert_eq!(told.frame, Some(Frame::SurveyFeet));
        assert_eq!(told.heights, Some(GridUnit::Feet));
        let told = heading("id,X,Y,Z").unwrap();
        assert_eq!(told.columns, [Point, East, North, Elevation]);
        assert_eq!(told.frame, None);
        let told = heading("Latitude,Longitude").unwrap();
        assert_eq!(told.frame, Some(Frame::Degrees));
        assert_eq!(heading("a,b,c"), None);
        assert_eq!(heading("1,2,3"), None);
        assert_eq!(heading("1,x,y"), None);
        assert_eq!(heading("north"), None);
    }
}
