//! The sums over one row of cells after another.
//!
//! They run in four fixed lanes: the same order everywhere, so that native and WebAssembly
//! builds agree to the last bit, and wide registers are put to use.

/// Lanes in which sums run; rows are a whole number of them.
pub(super) const LANES: usize = 4;

type Lanes = [f64; LANES];

/// What bounds the cut from above.
#[derive(Debug, Clone, Copy)]
pub(super) struct Levels {
    /// The cap above the rim (negative: below it), metres.
    pub cap: f64,
    /// How far above the rim the sides were followed, metres.
    pub headroom: f64,
}

/// One row of the hole under the ground, as slices of the same length.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row<'a> {
    /// Ground above the rim, metres.
    pub rises: &'a [f64],
    /// Share of the cell that is hole.
    pub cover: &'a [f64],
    /// That share times the mean depth below the rim, metres.
    pub depths: &'a [f64],
}

/// Sums in lanes, in cells rather than square metres.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sums {
    bank: Lanes,
    below_cap: Lanes,
    open: Lanes,
    in_air: Lanes,
    deepest: Lanes,
    unclosed: Lanes,
}

impl Sums {
    pub fn new() -> Self {
        Self {
            bank: [0.0; LANES],
            below_cap: [0.0; LANES],
            open: [0.0; LANES],
            in_air: [0.0; LANES],
            deepest: [0.0; LANES],
            unclosed: [f64::NEG_INFINITY; LANES],
        }
    }

    /// Adds a row, and keeps what it found in every cell: the cut (not yet bounded by zero),
    /// and the same under the cap.
    pub fn add(&mut self, row: Row<'_>, levels: Levels, cuts: &mut [f64], under_cap: &mut [f64]) {
        let (rises, _) = row.rises.as_chunks::<LANES>();
        let (cover, _) = row.cover.as_chunks::<LANES>();
        let (depths, _) = row.depths.as_chunks::<LANES>();
        let (cuts, _) = cuts.as_chunks_mut::<LANES>();
        let (under, _) = under_cap.as_chunks_mut::<LANES>();
        let Levels { cap, headroom } = levels;
        let cells = rises.iter().zip(cover).zip(depths);
        for (((rise, cover), depth), (cut, under)) in cells.zip(cuts.iter_mut().zip(under)) {
            *cut = with(rise, cover, depth, |r, c, d| c * r + d);
            *under = with(rise, cover, depth, |r, c, d| c * r.min(cap) + d);
            into(&mut self.bank, cut, |sum, v| sum + v.max(0.0));
            into(&mut self.below_cap, under, |sum, v| sum + v.max(0.0));
            into(&mut self.deepest, cut, f64::max);
            let open = with(cut, cover, depth, |v, c, _| if v > 0.0 { c } else { 0.0 });
            into(&mut self.open, &open, |sum, v| sum + v);
            let in_air = with(rise, cover, depth, |r, c, d| {
                if r < cap && c * cap + d > 0.0 { c } else { 0.0 }
            });
            into(&mut self.in_air, &in_air, |sum, v| sum + v);
            let beyond = with(cover, depth, cut, |c, d, v| {
                if v > 0.0 && d < -headroom * c {
                    v - d
                } else {
                    f64::NEG_INFINITY
                }
            });
            into(&mut self.unclosed, &beyond, f64::max);
        }
    }

    pub fn bank(&self) -> f64 {
        self.bank.iter().sum()
    }

    pub fn below_cap(&self) -> f64 {
        self.below_cap.iter().sum()
    }

    /// Cells that the dig opens.
    pub fn open(&self) -> f64 {
        self.open.iter().sum()
    }

    /// Cells of the hole at the cap's level with the ground below that level.
    pub fn in_air(&self) -> f64 {
        self.in_air.iter().sum()
    }

    /// The greatest cut, metres.
    pub fn deepest(&self) -> f64 {
        self.deepest.iter().copied().fold(0.0, f64::max)
    }

    /// How far the ground stands above the rim where it is cut beyond the headroom, metres;
    /// minus infinity where the sides meet the ground everywhere.
    pub fn unclosed(&self) -> f64 {
        self.unclosed
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max)
    }
}

/// A function of three lanes.
#[inline]
fn with(a: &Lanes, b: &Lanes, c: &Lanes, f: impl Fn(f64, f64, f64) -> f64) -> Lanes {
    let mut out = [0.0; LANES];
    for (((out, a), b), c) in out.iter_mut().zip(a).zip(b).zip(c) {
        *out = f(*a, *b, *c);
    }
    out
}

/// Folds lanes into lanes.
#[inline]
fn into(sum: &mut Lanes, lanes: &Lanes, f: impl Fn(f64, f64) -> f64) {
    for (sum, lane) in sum.iter_mut().zip(lanes) {
        *sum = f(*sum, *lane);
    }
}
