//! The way a curve sets out: from its chord bearing, from the course before it, from the
//! bearing of its tangent or of its radius, and whether all that is told agrees.

use super::super::record::Turn;
use super::radial::Sense;
use crate::math::{TURN, sin, wrap_half_turn, wrap_turn};
use crate::units::constants::DEGREE;
use crate::units::{Measure, System, show};

/// How far a stated chord bearing may lie from the one that tangency or a radius asks:
/// 0.1 degree (our choice; bearings are rounded, and so are the angles of both curves).
pub const AGREES: f64 = 0.1 * DEGREE;

/// "Concave northerly" says no side of a direction within 12 degrees of north (our choice: the
/// eight directions of such words stand 45 degrees apart).
const CLEAR: f64 = 0.2;

/// A quarter of a turn, radians.
const QUARTER: f64 = TURN / 4.0;

/// What is stated of the way a curve runs; bearings in radians.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct StatedBearings {
    /// Bearing of the chord.
    pub chord: Option<f64>,
    /// Whether the curve runs on from the course before.
    pub tangent: bool,
    /// The direction in which the course before ends.
    pub before: Option<f64>,
    /// Bearing of the tangent where the curve begins.
    pub heading: Option<f64>,
    /// Bearing of the radius where the curve begins.
    pub radial: Option<(f64, Sense)>,
    /// The bearing to which the curve is concave, roughly.
    pub concave_to: Option<f64>,
    /// The eighth of the compass toward which the curve runs.
    pub runs_toward: Option<f64>,
}

/// The way a curve runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Direction {
    /// Bearing of its chord, radians clockwise from north.
    pub chord_bearing: f64,
    /// What is told and does not agree, each as a check's name and a sentence.
    pub cautions: Vec<(&'static str, String)>,
}

impl StatedBearings {
    /// Takes what is missing here from another.
    pub fn or(self, other: Self) -> Self {
        Self {
            chord: self.chord.or(other.chord),
            tangent: self.tangent || other.tangent,
            before: self.before.or(other.before),
            heading: self.heading.or(other.heading),
            radial: self.radial.or(other.radial),
            concave_to: self.concave_to.or(other.concave_to),
            runs_toward: self.runs_toward.or(other.runs_toward),
        }
    }

    /// The way the curve bends, where no word says left or right but its concave side or its
    /// center does.
    pub fn turn(&self) -> Option<Turn> {
        let run = self
            .chord
            .or(self.heading)
            .or(self.before.filter(|_| self.tangent))
            .or(self.runs_toward);
        let centre = match self.radial {
            Some((bearing, Sense::ToCentre)) => Some(bearing),
            Some((bearing, Sense::FromCentre)) => Some(bearing + TURN / 2.0),
            _ => None,
        };
        side(run?, centre.or(self.concave_to)?)
    }

    /// The bearing of the chord of a curve that turns by `delta` (radians).
    pub fn direction(&self, turn: Turn, delta: f64, system: System) -> Option<Direction> {
        let half = match turn {
            Turn::Left => -delta / 2.0,
            Turn::Right => delta / 2.0,
        };
        let mut cautions = Vec::new();
        let by_tangent = self.before.filter(|_| self.tangent).map(|b| b + half);
        let by_heading = self.heading.map(|b| b + half);
        let by_radius = self
            .radial
            .and_then(|(bearing, sense)| self.by_radius(bearing, sense, turn, half, &mut cautions));
        let all = [self.chord, by_tangent, by_heading, by_radius];
        let chord_bearing = wrap_turn(all.into_iter().flatten().next()?);
        for (check, other, words) in [
            ("deed-tangency", by_tangent, "is called tangent, which"),
            (
                "deed-tangency",
                by_heading,
                "has a bearing for its tangent, which",
            ),
            (
                "deed-radial",
                by_radius,
                "has a bearing for its radius, which",
            ),
        ] {
            let off = |asked: f64| wrap_half_turn(chord_bearing - asked).abs() > AGREES;
            if let Some(asked) = other.filter(|asked| off(*asked)) {
                let text = |v| show(Measure::Bearing, wrap_turn(v), system).text;
                let from = if self.chord.is_some() {
                    "stated"
                } else {
                    "told by its tangent"
                };
                cautions.push((
                    check,
                    format!(
                        "The curve {words} asks for a chord bearing of {}, but {} is {from} and was used.",
                        text(asked),
                        text(chord_bearing)
                    ),
                ));
            }
        }
        if let Some(concave) = self.concave_to
            && side(chord_bearing, concave).is_some_and(|other| other != turn)
        {
            let message = "The side to which the curve is said to be concave is not the side to which it bends.";
            cautions.push(("deed-concave", message.to_owned()));
        }
        Some(Direction {
            chord_bearing,
            cautions,
        })
    }

    /// The chord bearing that the bearing of a radius asks for; `None` when it may look either
    /// way and nothing says which.
    fn by_radius(
        &self,
        bearing: f64,
        sense: Sense,
        turn: Turn,
        half: f64,
        cautions: &mut Vec<(&'static str, String)>,
    ) -> Option<f64> {
        let quarter = match turn {
            Turn::Left => QUARTER,
            Turn::Right => -QUARTER,
        };
        let towards = bearing + quarter + half;
        let away = towards + TURN / 2.0;
        match sense {
            Sense::ToCentre => return Some(towards),
            Sense::FromCentre => return Some(away),
            Sense::Either => {}
        }
        let nearer = |to: f64, of: f64| wrap_half_turn(to - of).abs() < QUARTER;
        let pick = |is_towards: bool| if is_towards { towards } else { away };
        if let Some(stated) = self.chord.or(self.heading.map(|b| b + half)) {
            return Some(pick(nearer(towards, stated)));
        }
        if let Some(concave) = self.concave_to {
            return Some(pick(nearer(bearing, concave)));
        }
        let before = self.before?;
        let on = pick(nearer(towards - half, before));
        // Square to the course before, neither way turns back on it.
        if wrap_half_turn(on - half - before).abs() > TURN / 6.0 {
            return None;
        }
        cautions.push((
            "deed-radial",
            "It is not told whether the bearing of the radius looks to the centre or from it. It was taken so \
             that the curve does not turn back on the course before it."
                .to_owned(),
        ));
        Some(on)
    }
}

/// On which side of a direction another lies; `None` when hardly on either.
fn side(run: f64, towards: f64) -> Option<Turn> {
    let right = sin(towards - run);
    (right.abs() > CLEAR).then_some(if right > 0.0 { Turn::Right } else { Turn::Left })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn chord(told: StatedBearings, turn: Turn) -> Option<(f64, usize)> {
        let found = told.direction(turn, 40.0 * DEGREE, System::Feet)?;
        Some((
            (found.chord_bearing / DEGREE * 1e6).round() / 1e6,
            found.cautions.len(),
        ))
    }

    fn radial(degrees: f64, sense: Sense) -> StatedBearings {
        StatedBearings {
            radial: Some((degrees * DEGREE, sense)),
            ..StatedBearings::default()
        }
    }

    #[test]
    fn a_radius_gives_the_way_a_curve_sets_out() {
        // Center in the south, the curve to the right: it sets out to the east.
        let south = radial(180.0, Sense::ToCentre);
        assert_eq!(chord(south, Turn::Right), Some((110.0, 0)));
        assert_eq!(chord(south, Turn::Left), Some((250.0, 0)));
        let from = radial(0.0, Sense::FromCentre);
        assert_eq!(chord(from, Turn::Right), Some((110.0, 0)));
    }

    #[test]
    fn a_radius_that_may_look_either_way_needs_more() {
        let either = radial(180.0, Sense::Either);
        assert_eq!(chord(either, Turn::Right), None);
        let concave = StatedBearings {
            concave_to: Some(TURN / 2.0),
            ..either
        };
        assert_eq!(chord(concave, Turn::Right), Some((110.0, 0)));
        let before = StatedBearings {
            before: Some(80.0 * DEGREE),
            ..either
        };
        assert_eq!(chord(before, Turn::Right), Some((110.0, 1)));
        let square = StatedBearings {
            before: Some(0.0),
            ..either
        };
        assert_eq!(chord(square, Turn::Right), None);
    }

    #[test]
    fn what_does_not_agree_is_told() {
        let told = StatedBearings {
            chord: Some(115.0 * DEGREE),
            ..radial(180.0, Sense::ToCentre)
        };
        assert_eq!(chord(told, Turn::Right), Some((115.0, 1)));
        let told = StatedBearings {
            chord: Some(90.0 * DEGREE),
            concave_to: Some(0.0),
            ..StatedBearings::default()
        };
        assert_eq!(chord(told, Turn::Right), Some((90.0, 1)));
        assert_eq!(chord(told, Turn::Left), Some((90.0, 0)));
        assert_eq!(told.turn(), Some(Turn::Left));
        assert_eq!(chord(StatedBearings::default(), Turn::Left), None);
    }
}
