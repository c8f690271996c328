//! Which column is which in a list without a heading, told from the numbers.

use super::heading::Column;
use crate::exchange::import::{Columns, Order};
use crate::units::{DecimalSign, parse_coordinate};

/// How many lines are looked at.
const LOOKED_AT: usize = 200;

/// The columns that a list seems to have.
///
/// The leading columns of numbers decide: two are coordinates; of three, the first is a number of
/// the point when it counts up in whole steps and the others have decimals, otherwise the third is
/// an elevation; of four or more all are there. A first column with letters names the points.
pub(super) fn told_from(rows: &[Vec<String>], sign: DecimalSign) -> Columns {
    let rows: Vec<&Vec<String>> = rows.iter().take(LOOKED_AT).collect();
    let mostly = |column: usize, test: &dyn Fn(&str) -> bool| {
        let field = |row: &&Vec<String>| row.get(column).is_some_and(|f| test(f));
        let count = rows.iter().filter(|r| field(r)).count();
        2 * count > rows.len()
    };
    let number = |f: &str| parse_coordinate(f, sign).is_some();
    let number_or_none = |f: &str| number(f) || is_blank(f);
    if !mostly(0, &number) {
        return Columns {
            point: true,
            elevation: mostly(3, &number_or_none),
        };
    }
    let numbers = (0..4)
        .take_while(|c| mostly(*c, if *c < 3 { &number } else { &number_or_none }))
        .count();
    let counts = counts_up(&rows, sign)
        && rows
            .iter()
            .any(|r| r.iter().skip(1).take(2).any(|f| f.contains(['.', ','])));
    match numbers {
        4 => Columns {
            point: true,
            elevation: true,
        },
        3 => Columns {
            point: counts,
            elevation: !counts,
        },
        _ => Columns {
            point: false,
            elevation: false,
        },
    }
}

/// Whether the first column is whole numbers that rise.
fn counts_up(rows: &[&Vec<String>], sign: DecimalSign) -> bool {
    let numbers: Vec<f64> = rows
        .iter()
        .filter_map(|row| row.first())
        .filter_map(|f| parse_coordinate(f, sign))
        .collect();
    let rises = numbers
        .iter()
        .zip(numbers.iter().skip(1))
        .all(|(a, b)| b > a);
    rises && numbers.iter().all(|n| n.fract() == 0.0)
}

/// Whether a field says that there is nothing.
pub(super) fn is_blank(field: &str) -> bool {
    matches!(
        field.to_ascii_lowercase().as_str(),
        "" | "-" | "--" | "?" | "na" | "n/a" | "none" | "null" | "nan"
    )
}

/// The columns in a row.
pub(super) fn laid_out(columns: Columns) -> Vec<Column> {
    let mut all = Vec::with_capacity(5);
    if columns.point {
        all.push(Column::Point);
    }
    // Which of the two goes north is settled where the points are placed.
    all.extend([Column::North, Column::East]);
    if columns.elevation {
        all.push(Column::Elevation);
    }
    all.push(Column::Description);
    all
}

/// The order of the two coordinates that a heading has.
pub(super) fn order_of(columns: &[Column]) -> Order {
    let at = |column| columns.iter().position(|c| *c == column);
    if at(Column::North) < at(Column::East) {
        Order::NorthFirst
    } else {
        Order::EastFirst
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(lines: &[&str]) -> (bool, bool) {
        let rows: Vec<Vec<String>> = lines
            .iter()
            .map(|l| l.split(',').map(str::to_owned).collect())
            .collect();
        let columns = told_from(&rows, DecimalSign::Point);
        (columns.point, columns.elevation)
    }

    #[test]
    fn columns_are_told_from_the_numbers() {
        assert_eq!(told(&["1,5000.1,2000.2,100.3,pin"]), (true, true));
        assert_eq!(told(&["1,5000.1,2000.2,,pin"]), (true, true));
        assert_eq!(told(&["5000.1,2000.2"]), (false, false));
        assert_eq!(told(&["5000.1,2000.2,pin"]), (false, false));
        assert_eq!(
            told(&["5000.1,2000.2,100.3", "5000.1,1990.2,99.3"]),
            (false, true)
        );
        assert_eq!(told(&["1,5000.1,2000.2", "2,4990.0,2010.5"]), (true, false));
        assert_eq!(
            told(&["A1,5000.1,2000.2", "A2,4990.0,2010.5"]),
            (true, false)
        );
        assert_eq!(
            told(&["A1,5000.1,2000.2,7.5", "A2,4990.0,2010.5,8"]),
            (true, true)
        );
        assert_eq!(told(&[]), (true, false));
    }
}
