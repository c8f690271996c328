//! The shape of a pile of loose soil.

/// Half a turn, radians.
const PI: f64 = core::f64::consts::PI;

/// A pile: a cone at its slope of repose, or one whose top is cut off level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heap {
    /// Its volume, m3, loose.
    pub volume: f64,
    /// Radius of its footprint, meters.
    pub radius: f64,
    /// Its height, meters.
    pub height: f64,
    /// Radius of its level top, meters; 0 for a cone.
    pub top: f64,
}

impl Heap {
    /// The pile of a volume (m3) that comes to rest at `repose` (run per unit of rise) and stands
    /// `most` meters high at most. `None` of no volume.
    ///
    /// A cone of height `h` has the radius `repose x h` and the volume `pi repose^2 h^3 / 3`. One
    /// cut off at `h` has `pi h / 3 (R^2 + R r + r^2)` with `r = R - repose h`.
    pub fn of(volume: f64, repose: f64, most: f64) -> Option<Self> {
        if !(volume > 0.0 && repose > 0.0 && most > 0.0) {
            return None;
        }
        let height = crate::math::powf(3.0 * volume / (PI * repose * repose), 1.0 / 3.0);
        if height <= most {
            return Some(Self {
                volume,
                radius: repose * height,
                height,
                top: 0.0,
            });
        }
        let run = repose * most;
        let radius = run / 2.0 + (volume / (PI * most) - run * run / 12.0).max(0.0).sqrt();
        Some(Self {
            volume,
            radius,
            height: most,
            top: (radius - run).max(0.0),
        })
    }

    /// The volume that a pile of this footprint's radius holds, m3.
    pub fn volume_on(radius: f64, repose: f64, most: f64) -> f64 {
        let radius = radius.max(0.0);
        let height = (radius / repose).min(most);
        let top = radius - repose * height;
        PI * height / 3.0 * (radius * radius + radius * top + top * top)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cone 2 m high at 1 1/2 : 1: radius 3 m, volume 6 pi.
    #[test]
    fn a_small_heap_is_a_cone() {
        let heap = Heap::of(6.0 * PI, 1.5, 2.5).unwrap();
        assert!((heap.height - 2.0).abs() < 1e-12 && (heap.radius - 3.0).abs() < 1e-12);
        assert_eq!(heap.top, 0.0);
    }

    /// Cut off at 2 m with radii 5 and 2 m: pi 2/3 (25 + 10 + 4) = 26 pi.
    #[test]
    fn a_large_heap_has_a_level_top() {
        let heap = Heap::of(26.0 * PI, 1.5, 2.0).unwrap();
        assert!((heap.radius - 5.0).abs() < 1e-12 && (heap.top - 2.0).abs() < 1e-12);
        assert_eq!(heap.height, 2.0);
    }

    #[test]
    fn volume_and_radius_go_both_ways() {
        for volume in [0.01, 3.0, 18.8, 60.0, 400.0] {
            let heap = Heap::of(volume, 1.5, 1.83).unwrap();
            let back = Heap::volume_on(heap.radius, 1.5, 1.83);
            assert!((back - volume).abs() < 1e-9 * volume, "{volume}: {back}");
        }
        assert!(Heap::of(0.0, 1.5, 2.0).is_none() && Heap::of(f64::NAN, 1.5, 2.0).is_none());
    }
}
