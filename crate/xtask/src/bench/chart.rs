//! The picture of costs against sizes: one panel to the group, two beside each other, both axes by decades.

use anyhow::{Result, anyhow};
use plotters::coord::Shift;
use plotters::prelude::*;

use super::cost::{Group, Series};

/// Width of the picture and height of a row of it, pixels.
const WIDTH: u32 = 1120;
const ROW: u32 = 480;
/// How many panels stand in a row.
const BESIDE: usize = 2;

/// The colours of the series, and the marks that tell them apart without colour, as the legend
/// writes them.
const LOOKS: [(RGBColor, &str); 4] = [
    (RGBColor(11, 78, 122), "\u{25cf}"),
    (RGBColor(156, 33, 7), "\u{25b2}"),
    (RGBColor(20, 82, 58), "\u{25a0}"),
    (RGBColor(95, 58, 0), "\u{00d7}"),
];

/// What one frame may take, milliseconds.
const TARGET: f64 = 4.0;

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;
type Failure<'a> = <SVGBackend<'a> as DrawingBackend>::ErrorType;

/// Draws the groups, row by row.
///
/// # Errors
/// When the drawing library refuses, which finite figures give it no reason to.
pub fn svg(groups: &[Group]) -> Result<String> {
    let mut text = String::new();
    {
        let rows = groups.len().div_ceil(BESIDE);
        let size = (WIDTH, ROW * rows as u32);
        let paper = SVGBackend::with_string(&mut text, size).into_drawing_area();
        paper.fill(&WHITE).map_err(|error| anyhow!("{error}"))?;
        for (group, area) in groups.iter().zip(paper.split_evenly((rows, BESIDE))) {
            panel(&area, group).map_err(|error| anyhow!("{error}"))?;
        }
        paper.present().map_err(|error| anyhow!("{error}"))?;
    }
    Ok(text)
}

fn panel<'a>(area: &Area<'a>, group: &Group) -> Result<(), DrawingAreaErrorKind<Failure<'a>>> {
    let points = || group.series.iter().flat_map(|series| &series.points);
    let sizes = points().map(|(size, _)| f64::from(*size));
    let costs = points().map(|(_, ms)| *ms).chain([TARGET]);
    let (x, y) = (decades(sizes), decades(costs));
    // A decade more on top, for the legend.
    let y = (y.0, y.1 * 10.0);
    let mut chart = ChartBuilder::on(area)
        .margin(14)
        .x_label_area_size(46)
        .y_label_area_size(74)
        .build_cartesian_2d((x.0..x.1).log_scale(), (y.0..y.1).log_scale())?;
    chart
        .configure_mesh()
        .x_desc(group.counted)
        .y_desc("median, milliseconds")
        .label_style(("sans-serif", 14))
        .axis_desc_style(("sans-serif", 16))
        .light_line_style(BLACK.mix(0.06))
        .bold_line_style(BLACK.mix(0.18))
        .x_label_formatter(&decade)
        .y_label_formatter(&|ms| ms.to_string())
        .draw()?;
    let target = LineSeries::new([(x.0, TARGET), (x.1, TARGET)], BLACK.mix(0.55));
    chart
        .draw_series(target)?
        .label(format!("{TARGET} ms"))
        .legend(|(x, y)| PathElement::new([(x, y), (x + 18, y)], BLACK.mix(0.55)));
    let looks = LOOKS.iter().enumerate().cycle();
    for (series, (index, (colour, sign))) in group.series.iter().zip(looks) {
        let colour = *colour;
        let line = LineSeries::new(places(series), colour.stroke_width(2));
        chart.draw_series(line)?;
        let solid = colour.filled();
        let labelled = match index {
            0 => chart.draw_series(places(series).map(|at| Circle::new(at, 4, solid))),
            1 => chart.draw_series(places(series).map(|at| TriangleMarker::new(at, 6, solid))),
            2 => chart.draw_series(
                places(series)
                    .map(|at| EmptyElement::at(at) + Rectangle::new([(-4, -4), (4, 4)], solid)),
            ),
            _ => {
                let cross = colour.stroke_width(2);
                chart.draw_series(places(series).map(|at| Cross::new(at, 5, cross)))
            }
        };
        labelled?
            .label(format!("{sign} {}", series.name))
            .legend(move |(x, y)| PathElement::new([(x, y), (x + 18, y)], colour.stroke_width(2)));
    }
    chart
        .configure_series_labels()
        .position(SeriesLabelPosition::UpperLeft)
        .label_font(("sans-serif", 14))
        .background_style(WHITE.mix(0.9))
        .border_style(BLACK.mix(0.4))
        .draw()?;
    Ok(())
}

fn places(series: &Series) -> impl Iterator<Item = (f64, f64)> + '_ {
    let points = series.points.iter();
    points.map(|(size, ms)| (f64::from(*size), *ms))
}

/// The text at a size on the axis: of whole decades alone, the others would lie on each other.
fn decade(size: &f64) -> String {
    let text = format!("{size:.0}");
    let zeros = text.strip_prefix('1');
    let whole = zeros.is_some_and(|zeros| zeros.chars().all(|digit| digit == '0'));
    if whole { text } else { String::new() }
}

/// From the decade below the least to the one above the greatest.
fn decades(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let (least, greatest) = values.fold((f64::MAX, 0.0), |(low, high): (f64, f64), value| {
        (low.min(value), high.max(value))
    });
    let (mut low, mut high) = (1e-9, 1e-8);
    while low * 10.0 <= least && low < 1e9 {
        low *= 10.0;
    }
    while high < greatest || high <= low {
        high *= 10.0;
    }
    (low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_decades_are_named() {
        assert_eq!(decade(&100.0), "100");
        assert_eq!(decade(&1_000_000.0), "1000000");
        assert_eq!(
            (decade(&110.0), decade(&200.0)),
            (String::new(), String::new())
        );
    }

    #[test]
    fn axes_run_by_whole_decades() {
        let near = |(a, b): (f64, f64), (c, d): (f64, f64)| {
            assert!(
                (a / c - 1.0).abs() < 1e-9 && (b / d - 1.0).abs() < 1e-9,
                "{a} to {b}"
            );
        };
        near(decades([120.0, 31_623.0].into_iter()), (100.0, 100_000.0));
        near(decades([100.0].into_iter()), (100.0, 1000.0));
    }
}
