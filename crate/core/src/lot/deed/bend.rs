//! A curve from whatever a deed tells of it, and whether what it tells agrees.

use super::super::curve::{Elements, chord_fits};
use crate::math::{TURN, acos, asin, atan, sin, tan};
use crate::units::constants::FOOT;
use crate::units::{Measure, System, show};

/// How far a stated figure of a curve may lie from the others: 0.02 ft, or 1 part in 5,000
/// where that is more (our choice: figures printed to the hundredth).
const AGREES: f64 = 0.02 * FOOT;
const AGREES_SHARE: f64 = 1.0 / 5000.0;

/// A stated figure and how far rounding alone may carry it (half its last digit).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stated {
    /// Meters or radians.
    pub value: f64,
    /// Meters or radians.
    pub rounding: f64,
}

/// What a deed states of a curve.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bend {
    /// Radius, meters.
    pub radius: Option<Stated>,
    /// Central angle, radians.
    pub delta: Option<Stated>,
    /// Length along the arc, meters.
    pub arc: Option<Stated>,
    /// Chord, meters.
    pub chord: Option<Stated>,
    /// From either end to the meeting point of the tangents, meters.
    pub tangent: Option<Stated>,
}

/// A curve worked out from the two figures named.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// The curve.
    pub elements: Elements,
    /// The two figures it was worked out from.
    pub from: [&'static str; 2],
    /// What disagrees with it, each in words with both figures; empty when all agree.
    pub against: Vec<String>,
}

impl Bend {
    /// Takes what is missing here from another.
    pub fn or(self, other: Self) -> Self {
        Self {
            radius: self.radius.or(other.radius),
            delta: self.delta.or(other.delta),
            arc: self.arc.or(other.arc),
            chord: self.chord.or(other.chord),
            tangent: self.tangent.or(other.tangent),
        }
    }

    /// The curve from the first two figures that fix it, those first from which rounding
    /// carries least. `None` when fewer than two are stated or no circle has them.
    pub fn solve(&self, system: System) -> Option<Solved> {
        let pairs = [
            ("radius", self.radius, "central angle", self.delta),
            ("radius", self.radius, "arc", self.arc),
            ("central angle", self.delta, "arc", self.arc),
            ("radius", self.radius, "chord", self.chord),
            ("central angle", self.delta, "chord", self.chord),
            ("radius", self.radius, "tangent", self.tangent),
            ("central angle", self.delta, "tangent", self.tangent),
            ("chord", self.chord, "tangent", self.tangent),
            ("arc", self.arc, "tangent", self.tangent),
            ("arc", self.arc, "chord", self.chord),
        ];
        let (first, a, second, b) = pairs
            .into_iter()
            .find_map(|(first, a, second, b)| Some((first, a?.value, second, b?.value)))?;
        let (radius, delta) = radius_and_angle(first, a, second, b)?;
        let elements = Elements::from_angle(radius, delta)?;
        let mut solved = Solved {
            elements,
            from: [first, second],
            against: Vec::new(),
        };
        self.compare(&mut solved, system);
        Some(solved)
    }

    fn compare(&self, solved: &mut Solved, system: System) {
        let it = solved.elements;
        let lengths = [
            ("radius", self.radius, Some(it.radius)),
            ("arc", self.arc, Some(it.arc)),
            ("chord", self.chord, Some(it.chord)),
            ("tangent", self.tangent, it.tangent),
        ];
        for (name, stated, computed) in lengths {
            let Some(stated) = stated else { continue };
            let computed = computed.unwrap_or(f64::INFINITY);
            if (stated.value - computed).abs() > bound(stated) {
                let text = |v| show(Measure::LongLength, v, system).text;
                solved.against.push(format!(
                    "the {name} is stated as {} but works out at {}",
                    text(stated.value),
                    text(computed)
                ));
            }
        }
        if let Some(stated) = self.delta {
            let off = (stated.value - it.delta).abs() * it.radius;
            if off
                > bound(Stated {
                    value: it.arc,
                    rounding: 0.0,
                })
            {
                let text = |v| show(Measure::Angle, v, system).text;
                solved.against.push(format!(
                    "the central angle is stated as {} but works out at {}",
                    text(stated.value),
                    text(it.delta)
                ));
            }
        }
    }
}

/// How far a stated length may lie from what the other figures make of it.
fn bound(stated: Stated) -> f64 {
    AGREES.max(stated.value * AGREES_SHARE).max(stated.rounding)
}

impl Solved {
    /// Chord, radius and whether it is the longer arc, as a course keeps them: the chord as
    /// stated where it agrees, since the next corner stands at its end.
    pub fn shape(&self, stated: &Bend) -> (f64, f64, bool) {
        let it = self.elements;
        let long_way = it.delta > TURN / 2.0;
        let chord = match stated.chord {
            Some(chord) if (chord.value - it.chord).abs() <= bound(chord) => chord.value,
            _ => it.chord,
        };
        // Near a half circle the chord hardly fixes the angle: there the radius gives way.
        let kept = Elements::from_chord(chord, it.radius, long_way);
        let give = stated.chord.map_or(AGREES, |chord| 2.0 * bound(chord));
        let keeps = kept.is_some_and(|k| (k.arc - it.arc).abs() <= give);
        if keeps && chord_fits(chord, it.radius) {
            return (chord, it.radius, long_way);
        }
        (chord, chord / (2.0 * sin(it.delta / 2.0)), long_way)
    }
}

/// Radius and central angle from two stated figures.
fn radius_and_angle(first: &str, a: f64, second: &str, b: f64) -> Option<(f64, f64)> {
    if !(a > 0.0 && b > 0.0) {
        return None;
    }
    let half = match (first, second) {
        ("radius", "central angle") => return Some((a, b)),
        ("radius", "arc") => return Some((a, b / a)),
        ("radius", "chord") if chord_fits(b, a) => asin(b / (2.0 * a)),
        ("radius", "tangent") => atan(b / a),
        ("central angle", "arc") => return Some((b / a, a)),
        ("central angle", "chord") => return Some((b / (2.0 * sin(a / 2.0)), a)),
        ("central angle", "tangent") => return Some((b / tan(a / 2.0), a)),
        ("chord", "tangent") => {
            let half = acos(a / (2.0 * b));
            return Some((b / tan(half), 2.0 * half));
        }
        // Half the angle from the share of the arc that the chord (or the tangent) is.
        ("arc", "chord") => {
            return steadily(b / a, 1e-4, TURN / 2.0, |h| sin(h) / h)
                .map(|h| (a / (2.0 * h), 2.0 * h));
        }
        ("arc", "tangent") => {
            return steadily(2.0 * b / a, 1e-4, TURN / 4.0 * (1.0 - 1e-9), |h| tan(h) / h)
                .map(|h| (a / (2.0 * h), 2.0 * h));
        }
        _ => return None,
    };
    let short = 2.0 * half;
    short.is_finite().then_some((a, short))
}

/// Where a steadily rising or falling function has a value, by halving; `None` when it is
/// not between the ends.
fn steadily(value: f64, low: f64, high: f64, of: impl Fn(f64) -> f64) -> Option<f64> {
    let (mut low, mut high) = (low, high);
    let rising = of(high) > of(low);
    let above = |at: f64| (of(at) > value) == rising;
    if above(low) || !above(high) {
        return None;
    }
    for _ in 0..80 {
        let middle = (low + high) / 2.0;
        if above(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some((low + high) / 2.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn stated(value: f64) -> Option<Stated> {
        Some(Stated {
            value,
            rounding: 0.0,
        })
    }

    #[test]
    fn any_two_figures_give_the_same_curve() {
        for delta in [0.3, 1.2, 2.5] {
            let curve = Elements::from_angle(15.0, delta).unwrap();
            let all = [
                Bend {
                    radius: stated(curve.radius),
                    ..Bend::default()
                },
                Bend {
                    delta: stated(curve.delta),
                    ..Bend::default()
                },
                Bend {
                    arc: stated(curve.arc),
                    ..Bend::default()
                },
                Bend {
                    chord: stated(curve.chord),
                    ..Bend::default()
                },
                Bend {
                    tangent: stated(curve.tangent.unwrap()),
                    ..Bend::default()
                },
            ];
            for (i, a) in all.iter().enumerate() {
                for b in all.iter().skip(i + 1) {
                    let both = a.or(*b);
                    let solved = both.solve(System::Feet).unwrap();
                    assert!((solved.elements.radius - 15.0).abs() < 1e-8, "{both:?}");
                    assert!((solved.elements.delta - delta).abs() < 1e-9, "{both:?}");
                    assert!(solved.against.is_empty());
                    let (chord, radius, long_way) = solved.shape(&both);
                    assert!((chord - curve.chord).abs() < 1e-8 && (radius - 15.0).abs() < 1e-8);
                    assert!(!long_way);
                }
                assert!(a.solve(System::Feet).is_none());
            }
        }
    }

    #[test]
    fn an_arc_that_belongs_to_another_curve_is_named() {
        let bend = Bend {
            radius: stated(50.0 * FOOT),
            delta: stated(TURN / 8.0),
            arc: stated(45.0 * FOOT),
            ..Bend::default()
        };
        let against = bend.solve(System::Feet).unwrap().against;
        assert_eq!(
            against,
            ["the arc is stated as 45.00 ft but works out at 39.27 ft"]
        );
    }

    #[test]
    fn what_no_circle_has_is_refused() {
        for (radius, chord) in [(1.0, 3.0), (0.0, 1.0), (f64::NAN, 1.0), (-1.0, 1.0)] {
            let bend = Bend {
                radius: stated(radius),
                chord: stated(chord),
                ..Bend::default()
            };
            assert!(bend.solve(System::Feet).is_none());
        }
        let bend = Bend {
            arc: stated(1.0),
            chord: stated(2.0),
            ..Bend::default()
        };
        assert!(bend.solve(System::Feet).is_none());
    }

    #[test]
    fn the_longer_arc_is_kept() {
        let curve = Elements::from_angle(10.0, 4.0).unwrap();
        let bend = Bend {
            radius: stated(10.0),
            arc: stated(curve.arc),
            chord: stated(curve.chord),
            ..Bend::default()
        };
        let solved = bend.solve(System::Feet).unwrap();
        assert!(solved.against.is_empty() && solved.shape(&bend).2);
    }
}
