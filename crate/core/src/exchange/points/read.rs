//! A list of points into a draft.

use super::columns::{is_blank, laid_out, order_of, told_from};
use super::heading::{self, Column, Heading};
use super::split::{Line, Separator, fields, lines, separator};
use crate::exchange::import::{
    Columns, Diagnostics, Draft, Form, Frame, ITEM_LIMIT, Item, Order, Position, Role, Settings,
    Shape, guess,
};
use crate::finding::Finding;
use crate::site::GridUnit;
use crate::units::{DecimalSign, decimal_sign, parse_coordinate, parse_place};

/// The most points of one list.
const LIMIT: usize = 50_000;

/// The widest list of latitudes and longitudes, degrees; wider ones are lengths.
const WIDEST: f64 = 0.5;

/// Reads a list of points.
///
/// # Errors
/// Every fault, when no line can be used.
pub fn read(text: &str, columns: Option<Columns>) -> Result<Draft, Vec<Finding>> {
    let lines = lines(text);
    if lines.len() > LIMIT {
        return Err(vec![Finding::fault(
            "too-many",
            format!(
                "There are {} lines; at most {LIMIT} points are read.",
                lines.len()
            ),
            "Thin out the list before bringing it in.",
        )]);
    }
    let by = separator(&lines);
    let mut diagnostics = Diagnostics::default();
    let list = if by == Separator::Globe {
        globe(&lines, &mut diagnostics)
    } else {
        columned(&lines, by, columns, &mut diagnostics)
    };
    let mut findings = diagnostics.into_findings();
    if list.items.is_empty() {
        findings.push(Finding::fault(
            "nothing-found",
            "No line of the text is a point.",
            "Give a point to a line: its number, northing, easting, elevation and description.",
        ));
        return Err(findings);
    }
    findings.extend(doubts(&list));
    Ok(Draft {
        form: Form::Points,
        proposed: Settings {
            frame: list.frame,
            order: list.order,
            heights: list.heights,
            columns: list.columns,
            lot: None,
            ring: None,
            fresh: false,
            keep_spots: true,
            spots_of_all: false,
        },
        items: list.items,
        findings,
    })
}

/// The points of a list and how they are meant.
struct List {
    items: Vec<Item>,
    frame: Frame,
    order: Order,
    heights: GridUnit,
    columns: Option<Columns>,
    /// Whether a heading named the columns.
    headed: bool,
}

/// A list of places on the globe.
fn globe(lines: &[Line<'_>], diagnostics: &mut Diagnostics) -> List {
    let mut items = Vec::new();
    for line in lines {
        match parse_place(line.text) {
            Ok(place) => items.push(item(
                line,
                "",
                "",
                Position {
                    first: place.latitude,
                    second: place.longitude,
                    height: None,
                },
            )),
            Err(fault) => diagnostics.add(
                &place_of(line),
                Finding::fault("place", fault.message, fault.remedy),
            ),
        }
    }
    List {
        items,
        frame: Frame::Degrees,
        order: Order::NorthFirst,
        heights: GridUnit::Metres,
        columns: None,
        headed: true,
    }
}

/// A list in columns.
fn columned(
    lines: &[Line<'_>],
    by: Separator,
    chosen: Option<Columns>,
    diagnostics: &mut Diagnostics,
) -> List {
    let heading = lines
        .first()
        .and_then(|line| heading::read(&fields(line.text, by)));
    let body: Vec<&Line<'_>> = lines.iter().skip(usize::from(heading.is_some())).collect();
    let rows: Vec<Vec<String>> = body.iter().map(|line| fields(line.text, by)).collect();
    let sign = match by {
        Separator::Comma => DecimalSign::Point,
        _ => decimal_sign(rows.iter().flatten().map(String::as_str)),
    };
    let (columns, laid_out) = match &heading {
        Some(heading) => (None, heading.columns.clone()),
        None => {
            let columns = chosen.unwrap_or_else(|| told_from(&rows, sign));
            (Some(columns), laid_out(columns))
        }
    };
    let mut items = Vec::new();
    for (line, row) in body.iter().zip(&rows) {
        match point(row, &laid_out, sign) {
            Ok((number, description, position)) => {
                items.push(item(line, &number, &description, position));
            }
            Err(message) => diagnostics.add(
                &place_of(line),
                Finding::fault(
                    "point",
                    message,
                    "Mend the line, or choose which columns the list has; this point was left out.",
                ),
            ),
        }
    }
    let order = heading
        .as_ref()
        .map_or(Order::NorthFirst, |h| order_of(&h.columns));
    let frame = heading
        .as_ref()
        .and_then(|h| h.frame)
        .unwrap_or_else(|| guessed_frame(&items));
    let heights = heading
        .as_ref()
        .and_then(|h| h.heights)
        .or(frame.unit())
        .unwrap_or(GridUnit::Metres);
    List {
        items,
        frame,
        order,
        heights,
        columns,
        headed: heading.is_some_and(|h: Heading| h.columns.len() > 1),
    }
}

/// A row as number, description and position, the coordinates in the order of the columns.
fn point(
    row: &[String],
    columns: &[Column],
    sign: DecimalSign,
) -> Result<(String, String, Position), String> {
    let mut number = String::new();
    let mut description: Vec<&str> = Vec::new();
    let mut coordinates = Vec::with_capacity(2);
    let mut height = None;
    for (i, field) in row.iter().enumerate() {
        match columns.get(i) {
            Some(Column::Point) => number.clone_from(field),
            Some(Column::North | Column::East) => {
                let value = parse_coordinate(field, sign)
                    .ok_or_else(|| format!("\"{}\" is not a coordinate.", shortened(field)))?;
                coordinates.push(value);
            }
            Some(Column::Elevation) if is_blank(field) => {}
            Some(Column::Elevation) => {
                let value = parse_coordinate(field, sign)
                    .ok_or_else(|| format!("\"{}\" is not an elevation.", shortened(field)))?;
                height = Some(value);
            }
            Some(Column::Description) => description.push(field),
            Some(Column::Other) => {}
            // What follows the last column belongs to the description.
            None if columns.last() == Some(&Column::Description) => description.push(field),
            None => {}
        }
    }
    match coordinates.as_slice() {
        [first, second] => Ok((
            number,
            description.join(" ").trim().to_owned(),
            Position {
                first: *first,
                second: *second,
                height,
            },
        )),
        _ => Err("The line has fewer than two coordinates.".to_owned()),
    }
}

fn shortened(field: &str) -> String {
    field.chars().take(40).collect()
}

/// Where a line stands, as findings say it.
fn place_of(line: &Line<'_>) -> String {
    format!("line {}", line.number)
}

fn item(line: &Line<'_>, number: &str, description: &str, position: Position) -> Item {
    let (group, proposed) = sort_of(description, position.height.is_some());
    Item {
        place: place_of(line),
        id: String::new(),
        name: number.to_owned(),
        group,
        words: description.to_owned(),
        shape: Shape::Points(vec![position]),
        proposed,
    }
}

/// What a point is grouped by, and what it is proposed to be; `high` where it has an elevation.
pub(in crate::exchange) fn sort_of(description: &str, high: bool) -> (String, Role) {
    let group = code(description);
    // What stands behind a comma is a name: a wall may be called after the house.
    let role = match guess(&group).or_else(|| guess(description)) {
        Some(Role::Lot) => Some(Role::Corner),
        other => other,
    };
    let proposed = match role {
        Some(Role::Spot | Role::Breakline | Role::Benchmark) if !high => Role::LeaveOut,
        Some(role) => role,
        None if high => Role::Spot,
        None => Role::LeaveOut,
    };
    (group, proposed)
}

/// What points of one sort have in common: the description up to its first comma, without the
/// numbers that count them.
fn code(description: &str) -> String {
    let lower = description.to_ascii_lowercase();
    let lower = lower.split([',', ';']).next().unwrap_or("");
    let code = lower.trim().trim_end_matches(|c: char| {
        c.is_ascii_digit() || c.is_whitespace() || matches!(c, '#' | '-' | '.')
    });
    if code.is_empty() {
        "no description".to_owned()
    } else {
        code.to_owned()
    }
}

/// Degrees when both numbers of every line can be, have four decimals or more, and lie close
/// together; otherwise feet. A survey's lengths have two or three decimals.
fn guessed_frame(items: &[Item]) -> Frame {
    let all: Vec<&Position> = items.iter().flat_map(|i| i.shape.positions()).collect();
    let spread = |pick: fn(&Position) -> f64| {
        let (low, high) = all
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
                (a.min(pick(p)), b.max(pick(p)))
            });
        high - low
    };
    let fine = |v: f64| {
        (v * 1000.0).round() != v * 1000.0 && ((v * 1000.0).round() / 1000.0 - v).abs() > 1e-9
    };
    let degrees = !all.is_empty()
        && all
            .iter()
            .all(|p| p.first.abs() <= 90.0 && p.second.abs() <= 180.0)
        && all
            .iter()
            .filter(|p| fine(p.first) && fine(p.second))
            .count()
            * 2
            > all.len()
        && spread(|p| p.first) <= WIDEST
        && spread(|p| p.second) <= WIDEST;
    if degrees { Frame::Degrees } else { Frame::Feet }
}

/// What is doubtful about a list as a whole.
fn doubts(list: &List) -> Vec<Finding> {
    let mut doubts = Vec::new();
    if !list.headed {
        doubts.push(Finding::note(
            "order-assumed",
            "No heading says which coordinate is which; the northing was taken as the first.",
            "If the picture is mirrored, choose easting first.",
        ));
        if list.frame == Frame::Feet {
            doubts.push(Finding::note(
                "unit-assumed",
                "No heading says which unit the list is in; feet were taken.",
                "Choose the unit of the survey. At two million feet the two kinds of foot differ by 4 ft.",
            ));
        }
    }
    let heights: Vec<f64> = list
        .items
        .iter()
        .flat_map(|i| i.shape.positions())
        .filter_map(|p| p.height)
        .collect();
    let zeros = heights.iter().filter(|h| **h == 0.0).count();
    let far = heights.iter().filter(|h| h.abs() > 20.0).count();
    if zeros > 0 && 2 * far > heights.len() {
        doubts.push(Finding::caution(
            "elevation-zero",
            format!("{zeros} points have the elevation 0 among others far above it."),
            "A collector writes 0 where it took no elevation: leave those points out of the ground.",
        ));
    }
    let mut names: Vec<&str> = list
        .items
        .iter()
        .map(|i| i.name.as_str())
        .filter(|n| !n.is_empty())
        .collect();
    names.sort();
    let count = names.len();
    names.dedup();
    if names.len() < count {
        doubts.push(Finding::caution(
            "point-repeated",
            format!(
                "{} points have a number that another has.",
                count - names.len()
            ),
            "See that no point was taken twice with different coordinates.",
        ));
    }
    if list.items.len() > ITEM_LIMIT {
        doubts.push(Finding::note(
            "many-points",
            format!("There are {} points.", list.items.len()),
            "They are chosen by their descriptions, not one by one.",
        ));
    }
    doubts
}
