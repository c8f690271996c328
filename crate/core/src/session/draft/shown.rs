//! A drawing as the page shows it.

use super::{Draft, Drawn, Mode, NextPoint, Stretch, Wanted};
use crate::geom::{PathRecord, Point, Segment, Vector, Vertex};
use crate::math::wrap_half_turn;
use crate::sketch::arc;
use crate::units::{Measure, show};

impl Draft {
    /// The stretches that are placed, then those in hand, site meters.
    pub fn stretches(&self) -> (Vec<Segment>, Vec<Segment>) {
        let in_hand = self.at().zip(self.placed.last());
        let in_hand = in_hand.map_or_else(Vec::new, |(at, last)| self.in_hand(*last, at));
        (between(&self.placed), in_hand)
    }

    fn in_hand(&self, last: Vertex, at: Point) -> Vec<Segment> {
        if let Some(rectangle) = self.rectangle(at) {
            let mut round = rectangle.to_vec();
            round.extend(rectangle.first());
            return between(&round);
        }
        let bent = |at, bulge, to| Segment::between(Vertex { at, bulge }, to);
        if self.wanted == Wanted::Disc {
            let opposite = last.at + (last.at - at);
            return vec![bent(at, 1.0, opposite), bent(opposite, 1.0, at)];
        }
        let bulge = match self.through() {
            Some(through) => arc::bulge_through(last.at, through, at),
            None => Some(0.0),
        };
        bulge
            .map(|bulge| bent(last.at, bulge, at))
            .into_iter()
            .collect()
    }

    /// What the page shows.
    pub fn drawn(&self) -> Drawn {
        let shown = |measure, value| show(measure, value, self.system).text;
        let run = self.run().filter(|it| it.length() > 1e-9);
        let (_, hand) = self.stretches();
        let radius = hand.iter().find_map(|s| match s {
            Segment::Arc { radius, .. } => Some(shown(Measure::Length, *radius)),
            Segment::Line { .. } => None,
        });
        let turn = run.zip(self.came()).map(|(way, came)| {
            let by = wrap_half_turn(way.bearing() - came.bearing());
            let side = if by < 0.0 { "left" } else { "right" };
            format!("{} {side}", shown(Measure::Angle, by.abs()))
        });
        Drawn {
            points: PathRecord::from(self.placed.as_slice()),
            at: self.at(),
            mode: match self.stretch {
                Stretch::Straight => Mode::Straight,
                Stretch::Arc { .. } => Mode::Arc,
                Stretch::Rectangle => Mode::Rectangle,
            },
            wants: self.wants(),
            length: run.map(|it| shown(Measure::Length, it.length())),
            bearing: run.map(|it| shown(Measure::Bearing, it.bearing())),
            run: run.map(|it| (it.length(), it.bearing())),
            turn,
            radius,
            reason: self.caught().map(|caught| caught.reason.clone()),
            closes: self.closes(),
            ready: self.placed.len() >= if self.wanted == Wanted::Closed { 3 } else { 2 }
                || self.placed.iter().any(|v| v.bulge != 0.0),
        }
    }

    fn wants(&self) -> NextPoint {
        match (self.stretch, self.placed.len()) {
            (_, 0) => NextPoint::First,
            _ if self.wanted == Wanted::Disc => NextPoint::Rim,
            (Stretch::Arc { through: None }, _) => NextPoint::OnArc,
            (Stretch::Arc { through: Some(_) }, _) => NextPoint::ArcEnd,
            (Stretch::Rectangle, 1) => NextPoint::Opposite,
            (Stretch::Rectangle, 2) => NextPoint::Width,
            _ => NextPoint::Next,
        }
    }

    /// From the last point to the next; the width of a rectangle counts from its first edge.
    fn run(&self) -> Option<Vector> {
        let at = self.at()?;
        match (self.stretch, self.placed.as_slice()) {
            (Stretch::Rectangle, [a, b]) => {
                let left = (b.at - a.at).unit().unwrap_or_default().left();
                Some(left * (at - b.at).dot(left))
            }
            (_, placed) => placed.last().map(|last| at - last.at),
        }
    }
}

fn between(path: &[Vertex]) -> Vec<Segment> {
    let pairs = path.iter().zip(path.iter().skip(1));
    pairs.map(|(a, b)| Segment::between(*a, b.at)).collect()
}
