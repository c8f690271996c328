//! What draft and cove take from the volumes of one shell, kept once it is worked out.

use std::sync::OnceLock;

/// What draft and cove take from the volumes of one shell, worked out once: integrals cost far
/// more than reading them off. It changes how soon a volume comes, never what it is; two shells
/// are equal whether or not anybody asked.
#[derive(Debug, Clone, Default)]
pub(super) struct Losses {
    /// Of the inside.
    pub inner: FaceLosses,
    /// Of the outer face.
    pub outer: FaceLosses,
}

impl PartialEq for Losses {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// What one face has lost, from layer to layer downward.
#[derive(Debug, Clone, Default)]
pub(super) struct FaceLosses(OnceLock<Vec<Loss>>);

/// What a face has lost below a depth, m3, and how fast that shrinks with the depth, m2, just
/// above and just below it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Loss {
    /// Below the rim, meters.
    pub depth: f64,
    /// Lost below that depth, m3.
    pub below: f64,
    /// How fast that shrinks, m2.
    pub rate: (f64, f64),
}

impl FaceLosses {
    /// The loss below a depth, m3: between two layers' ends by the cubic through both with
    /// their rates. `integrate` gives the layers when they are first asked for.
    pub fn below(&self, depth: f64, integrate: impl FnOnce() -> Vec<Loss>) -> f64 {
        let losses = self.0.get_or_init(integrate);
        let Some(first) = losses.first() else {
            return 0.0;
        };
        if depth <= first.depth {
            return first.below + (depth - first.depth) * first.rate.1;
        }
        let mut layers = losses.iter().zip(losses.iter().skip(1));
        let Some((a, b)) = layers.find(|(a, b)| a.depth <= depth && depth <= b.depth) else {
            return 0.0;
        };
        let height = b.depth - a.depth;
        let t = (depth - a.depth) / height;
        let (s, r) = (a.rate.1 * height, b.rate.0 * height);
        let (t2, t3) = (t * t, t * t * t);
        a.below * (2.0 * t3 - 3.0 * t2 + 1.0)
            + s * (t3 - 2.0 * t2 + t)
            + b.below * (3.0 * t2 - 2.0 * t3)
            + r * (t3 - t2)
    }
}
