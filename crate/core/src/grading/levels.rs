//! The heights of the finished ground, counted from the rim.

use crate::site::ConstructionSettings;

/// Heights and widths of deck, collar and banks; rises are meters above the rim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levels {
    /// Width of the collar outside the rim, meters.
    pub collar: f64,
    /// Width of the deck's band outside the rim, meters.
    pub deck: f64,
    /// Drop of the deck's top per meter away from the rim.
    pub fall: f64,
    /// Slab and bed, meters.
    pub under: f64,
    /// Depth of the collar's underside below the rim, to which stone reaches, meters.
    pub cap: f64,
    /// Rise of a bank per meter of run; infinite for a bank that stands upright.
    pub bank: f64,
}

impl Levels {
    /// Those of some settings.
    pub fn of(works: &ConstructionSettings) -> Self {
        Self {
            collar: works.collar.width,
            deck: works.deck.width,
            fall: works.deck.fall,
            under: works.deck.thickness + works.deck.bed,
            cap: works.collar.underside(),
            bank: 1.0 / works.grading.bank_slope.max(0.0),
        }
    }

    /// Distance of the outer edge of deck or collar from the rim: where banks start, meters.
    pub fn edge(&self) -> f64 {
        self.deck.max(self.collar)
    }

    /// Rise of the deck's top at a distance from the rim.
    pub fn top(&self, out: f64) -> f64 {
        -self.fall * out
    }

    /// Rise of the ground under slab and bed at a distance from the rim.
    pub fn subgrade(&self, out: f64) -> f64 {
        self.top(out) - self.under
    }
}
