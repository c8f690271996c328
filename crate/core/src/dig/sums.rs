//! The sums over one row of cells after another.
//!
//! They run in four fixed lanes: the same order everywhere, so that native and WebAssembly
//! builds agree to the last bit. The lanes are those of the `wide` crate, which puts wide
//! registers to use even in a module that is built for size.

use wide::f64x4;

/// Lanes in which sums run; rows are a whole number of them.
pub(super) const LANES: usize = 4;

/// What bounds the cut from above.
#[derive(Debug, Clone, Copy)]
pub(super) struct Levels {
    /// The cap above the rim (negative: below it), meters.
    pub cap: f64,
    /// How far above the rim the sides were followed, meters.
    pub headroom: f64,
}

/// One row of the hole under the ground, as slices of the same length.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row<'a> {
    /// Ground above the rim, meters.
    pub rises: &'a [f64],
    /// Share of the cell that is hole.
    pub cover: &'a [f64],
    /// That share times the mean depth below the rim, meters.
    pub depths: &'a [f64],
    /// Share of the cell that is hole below the cap.
    pub capped_cover: &'a [f64],
    /// That share times the mean depth below the rim, meters.
    pub capped_depths: &'a [f64],
}

/// Sums in lanes, in cells rather than square meters.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sums {
    bank: f64x4,
    below_cap: f64x4,
    open: f64x4,
    in_air: f64x4,
    deepest: f64x4,
    unclosed: f64x4,
}

impl Sums {
    pub fn new() -> Self {
        let zero = f64x4::splat(0.0);
        Self {
            bank: zero,
            below_cap: zero,
            open: zero,
            in_air: zero,
            deepest: zero,
            unclosed: f64x4::splat(f64::NEG_INFINITY),
        }
    }

    /// Adds a row, and keeps what it found in every cell: the cut (not yet bounded by zero),
    /// and the same under the cap.
    pub fn add(&mut self, row: Row<'_>, levels: Levels, cuts: &mut [f64], under_cap: &mut [f64]) {
        let (rises, _) = row.rises.as_chunks::<LANES>();
        let (cover, _) = row.cover.as_chunks::<LANES>();
        let (depths, _) = row.depths.as_chunks::<LANES>();
        let (capped_cover, _) = row.capped_cover.as_chunks::<LANES>();
        let (capped_depths, _) = row.capped_depths.as_chunks::<LANES>();
        let (cuts, _) = cuts.as_chunks_mut::<LANES>();
        let (under, _) = under_cap.as_chunks_mut::<LANES>();
        let zero = f64x4::splat(0.0);
        let cap = f64x4::splat(levels.cap);
        let headroom = f64x4::splat(-levels.headroom);
        let nowhere = f64x4::splat(f64::NEG_INFINITY);
        let cells = rises.iter().zip(cover.iter().zip(depths));
        let capped = capped_cover.iter().zip(capped_depths);
        for (((rise, (cover, depth)), (capped_cover, capped_depth)), (kept_cut, kept_under)) in
            cells.zip(capped).zip(cuts.iter_mut().zip(under))
        {
            let (rise, cover, depth) =
                (f64x4::from(*rise), f64x4::from(*cover), f64x4::from(*depth));
            let (capped_cover, capped_depth) =
                (f64x4::from(*capped_cover), f64x4::from(*capped_depth));
            let cut = cover * rise + depth;
            let under = capped_cover * rise.fast_min(cap) + capped_depth;
            self.bank += cut.fast_max(zero);
            self.below_cap += under.fast_max(zero);
            self.deepest = self.deepest.fast_max(cut);
            let open = cut.simd_gt(zero);
            self.open += open & cover;
            let in_air = rise.simd_lt(cap) & (capped_cover * cap + capped_depth).simd_gt(zero);
            self.in_air += in_air & capped_cover;
            let beyond = open & depth.simd_lt(headroom * cover);
            let rise_there = beyond.select(cut - depth, nowhere);
            self.unclosed = self.unclosed.fast_max(rise_there);
            *kept_cut = cut.to_array();
            *kept_under = under.to_array();
        }
    }

    pub fn bank(&self) -> f64 {
        sum(self.bank)
    }

    pub fn below_cap(&self) -> f64 {
        sum(self.below_cap)
    }

    /// Cells that the dig opens.
    pub fn open(&self) -> f64 {
        sum(self.open)
    }

    /// Cells of the hole at the cap's level with the ground below that level.
    pub fn in_air(&self) -> f64 {
        sum(self.in_air)
    }

    /// The greatest cut, meters.
    pub fn deepest(&self) -> f64 {
        self.deepest.to_array().into_iter().fold(0.0, f64::max)
    }

    /// How far the ground stands above the rim where it is cut beyond the headroom, meters;
    /// minus infinity where the sides meet the ground everywhere.
    pub fn unclosed(&self) -> f64 {
        self.unclosed
            .to_array()
            .into_iter()
            .fold(f64::NEG_INFINITY, f64::max)
    }
}

/// The lanes added up, first to last.
fn sum(lanes: f64x4) -> f64 {
    lanes.to_array().into_iter().sum()
}
