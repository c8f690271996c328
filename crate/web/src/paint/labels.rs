//! Which pieces of text are shown: the important ones, and of the others those that find room.
//!
//! Text is measured roughly (an average width a character) and set greedily by importance; a
//! piece that would lie on one already set is left out until the view is closer.

use batterboard_core::drawing::{Item, Layer};
use batterboard_core::site::FeatureKind;

use super::View;
use super::ink::{Ink, ink};
use super::pen::{Pen, Place};
use super::sign;

/// Average width of a character, as a part of the text's size (semibold sans serif).
const CHARACTER: f64 = 0.6;

/// How near to the edge of the canvas text comes, CSS pixels.
const EDGE: f64 = 8.0;

/// A piece of text with its place on the canvas.
struct Piece<'a> {
    rank: u8,
    at: Place,
    along: f64,
    text: &'a str,
    ink: Ink,
}

/// The space a piece takes, as a row of discs along it: `(x, y)` and their common radius.
struct Space {
    discs: Vec<Place>,
    radius: f64,
}

/// How far round a knob no text is set, CSS pixels.
const KNOB_ROOM: f64 = 16.0;

/// Sets all text of the given items, the most important first, and leaves the knobs of handles
/// free.
pub fn set<'a>(
    pen: &mut Pen<'_>,
    view: &View,
    items: impl Iterator<Item = &'a Item>,
    knobs: &[Place],
) {
    let pieces: Vec<Piece<'a>> = items
        .filter_map(|item| piece(view, item))
        .map(|piece| drawn_in(view, piece))
        .collect();
    let knob = |at: &Place| Space {
        discs: vec![*at],
        radius: KNOB_ROOM,
    };
    let mut taken: Vec<Space> = knobs.iter().map(knob).collect();
    for rank in 0..=LAST_RANK {
        // Later items lie on top and matter more among equals.
        for piece in pieces.iter().rev().filter(|piece| piece.rank == rank) {
            let space = space(piece);
            if rank == 0 || !taken.iter().any(|other| overlap(&space, other)) {
                pen.text(piece.at, piece.along, piece.text, &piece.ink);
                taken.push(space);
            }
        }
    }
}

fn piece<'a>(view: &View, item: &'a Item) -> Option<Piece<'a>> {
    match item {
        Item::Label {
            layer,
            at,
            along,
            text,
        } => {
            let ink = ink(*layer);
            let shown = view.scale >= ink.text_from_scale;
            let at = view.place(*at);
            shown.then_some(Piece {
                rank: rank(*layer),
                at,
                along: *along,
                text,
                ink,
            })
        }
        Item::Measured {
            layer,
            from,
            to,
            text,
        } => {
            let (at, along) = sign::dimension_place(view.place(*from), view.place(*to));
            Some(Piece {
                rank: rank(*layer),
                at,
                along,
                text,
                ink: ink(*layer),
            })
        }
        _ => None,
    }
}

/// A piece whose place is on the canvas, shifted so that none of its text is cut off.
fn drawn_in<'a>(view: &View, mut piece: Piece<'a>) -> Piece<'a> {
    let (dx, dy) = sign::direction(piece.along);
    let (half, size) = (length(&piece) / 2.0, piece.ink.text_size / 2.0);
    let within = |at: f64, reach: f64, most: f64| {
        if at < 0.0 || at > most || 2.0 * (reach + EDGE) > most {
            return at;
        }
        // A little more than reckoned: letters differ in width.
        at.clamp(reach + EDGE, most - reach - EDGE)
    };
    let (x, y) = piece.at;
    piece.at = (
        within(x, dx.abs() * half + dy.abs() * size, view.width),
        within(y, dy.abs() * half + dx.abs() * size, view.height),
    );
    piece
}

/// About how long a piece of text is, CSS pixels.
#[allow(clippy::cast_precision_loss)] // A label has few characters.
fn length(piece: &Piece<'_>) -> f64 {
    piece.text.chars().count() as f64 * piece.ink.text_size * CHARACTER
}

/// The rank of the least important text.
const LAST_RANK: u8 = 7;

/// How much a layer's text matters: 0 is always shown, [`LAST_RANK`] comes last.
fn rank(layer: Layer) -> u8 {
    match layer {
        Layer::Shortfall => 0,
        Layer::Clearance => 1,
        Layer::LotLine => 2,
        Layer::SideKind | Layer::Monument(_) => 3,
        Layer::Feature(FeatureKind::House | FeatureKind::Easement | FeatureKind::SepticField) => 3,
        Layer::Feature(_) | Layer::Buried(_) | Layer::Equipment | Layer::Pile | Layer::Bank => 4,
        Layer::Pipe { .. } => 4,
        Layer::UnknownGround | Layer::Benchmark | Layer::Contour { index: true } => 4,
        Layer::Mark(_) | Layer::OverheadMark => 5,
        Layer::Setback => 6,
        _ => LAST_RANK,
    }
}

fn space(piece: &Piece<'_>) -> Space {
    let radius = piece.ink.text_size * 0.55;
    let reach = (length(piece) / 2.0 - radius).max(0.0);
    let (dx, dy) = sign::direction(piece.along);
    let count = (2.0 * reach / radius).ceil().clamp(1.0, 64.0);
    let mut discs = Vec::new();
    let mut i = 0.0;
    while i <= count {
        let t = reach * (2.0 * i / count - 1.0);
        discs.push((piece.at.0 + dx * t, piece.at.1 + dy * t));
        i += 1.0;
    }
    Space { discs, radius }
}

fn overlap(a: &Space, b: &Space) -> bool {
    let near = a.radius + b.radius;
    a.discs.iter().any(|p| {
        b.discs.iter().any(|q| {
            let (dx, dy) = (p.0 - q.0, p.1 - q.1);
            dx * dx + dy * dy < near * near
        })
    })
}
