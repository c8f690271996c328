//! Limits and tolerances that this project chose for itself.

use super::{Check, Group, Source, Sourced, figure};
use crate::analysis::coping_step;
use crate::clear_ground::EDGE_SLACK;
use crate::exchange::geodesy;
use crate::geom::validate::{BULGE_LIMIT, SMALLEST_AREA, SMALLEST_GAP};
use crate::geom::{COORDINATE_LIMIT, DRAWING_TOLERANCE, VOLUME_TOLERANCE};
use crate::grading::balance;
use crate::ground::contour::LEVEL_LIMIT;
use crate::lot::deed::AGREES;
use crate::math::TURN;
use crate::scene::heights::{BURIED, FENCE, HOUSE, OUTBUILDING, OVERHEAD, TREE, WALL};
use crate::site::shape::OPENING_TOLERANCE;
use crate::sketch::{square, walk};
use crate::sun;
use crate::units::Measure as M;

pub(super) fn figures() -> Vec<Sourced> {
    let height = "drawn so until somebody enters it, and told where it is";
    [
        (
            "Chords of arcs lie off by, in drawings and clearances",
            M::Misclosure,
            DRAWING_TOLERANCE,
            "a millimeter, which no tape tells",
        ),
        (
            "Chords of arcs lie off by, in areas and volumes",
            M::Misclosure,
            VOLUME_TOLERANCE,
            "a quarter of that",
        ),
        (
            "Room at the edge of clear ground counts as none within",
            M::Misclosure,
            EDGE_SLACK,
            "the chords of three figures",
        ),
        (
            "Coordinates reach from the site's origin to",
            M::LongLength,
            COORDINATE_LIMIT,
            "a lot is tens of meters across",
        ),
        (
            "Places of a map are taken up to",
            M::LongLength,
            geodesy::REACH,
            "the corner of what coordinates may fill; the error there is 11 mm",
        ),
        (
            "Corners nearer than this are one, in tenths of a millimeter",
            M::Ratio,
            1e4 * SMALLEST_GAP,
            "a tenth of what a tape shows",
        ),
        (
            "The least area of a shape, in square centimeters",
            M::Ratio,
            1e4 * SMALLEST_AREA,
            "smaller than any post or pipe",
        ),
        (
            "The roundest arc, its bulge",
            M::Ratio,
            BULGE_LIMIT,
            "330 degrees: what is rounder hangs on too short a chord",
        ),
        (
            "Contours that are traced at most",
            M::Count,
            LEVEL_LIMIT,
            "more could not be told apart",
        ),
        (
            "A chord's bearing agrees with its curve within",
            M::Angle,
            AGREES,
            "bearings are rounded, and so are the angles of curves",
        ),
        (
            "An edge is made square from as far as",
            M::Angle,
            square::TOLERANCE,
            "more is a slant that somebody meant",
        ),
        (
            "A walk round a house closes within",
            M::Length,
            walk::CLOSES_WITHIN,
            "a tape read to the inch on eight walls",
        ),
        (
            "A door or gate may lie off its wall by",
            M::Length,
            OPENING_TOLERANCE,
            "a thick wall",
        ),
        (
            "The coping at which earth is even is looked for within",
            M::Length,
            balance::RANGE,
            "farther up or down is another plan",
        ),
        (
            "What changes is told for a coping moved by",
            M::Length,
            coping_step::STEP,
            "an inch",
        ),
        (
            "Minutes from one look at the sun to the next",
            M::Count,
            sun::STEP,
            "finer changes no share of the day by a percent",
        ),
        ("A full turn in radians", M::Ratio, TURN, "by definition"),
        ("Height of a house", M::Length, HOUSE, height),
        ("Height of an outbuilding", M::Length, OUTBUILDING, height),
        ("Height of a wall", M::Length, WALL, height),
        ("Height of a fence", M::Length, FENCE, height),
        ("Height of a tree", M::Length, TREE, height),
        ("Height of an overhead line", M::Length, OVERHEAD, height),
        ("Depth of a buried line", M::Length, BURIED, height),
    ]
    .map(|(name, measure, value, why)| {
        let source = Source::choice(why);
        figure(
            Group::Choices,
            (name, measure, value),
            source,
            Check::Nothing,
        )
    })
    .into()
}
