//! Money: what it is counted in, and how sums are written.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::System;
use super::measure::{Measure, Shown, show};

/// The most characters of a currency.
pub const LONGEST_CURRENCY: usize = 8;

/// What money is counted in, as the user types it: a symbol (`$`) or a code (`CAD`).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(transparent)]
pub struct Currency(String);

impl Default for Currency {
    fn default() -> Self {
        Self("$".to_owned())
    }
}

impl Currency {
    /// A currency by its symbol or code; blanks round it are dropped.
    pub fn new(text: &str) -> Self {
        Self(text.trim().to_owned())
    }

    /// Its symbol or code.
    pub fn symbol(&self) -> &str {
        &self.0
    }

    /// Whether it is the one that is meant where none is given.
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }

    /// Whether it can be told from the figure beside it: short, and without digits or signs of a
    /// number.
    pub fn is_sound(&self) -> bool {
        let of_numbers = |c: char| c.is_numeric() || c.is_control() || "+-.,".contains(c);
        (1..=LONGEST_CURRENCY).contains(&self.0.chars().count())
            && self.0.trim() == self.0
            && !self.0.contains(of_numbers)
    }

    /// A figure with it in front: `$14.00`, `CAD 14.00`, `-$3.00`.
    pub fn before(&self, figure: &str) -> String {
        let (sign, figure) = match figure.strip_prefix('-') {
            Some(figure) => ("-", figure),
            None => ("", figure),
        };
        let space = if self.0.ends_with(char::is_alphabetic) {
            " "
        } else {
            ""
        };
        format!("{sign}{}{space}{figure}", self.0)
    }
}

/// A sum of money as it is read: `$1,234.50`.
pub fn show_money(sum: f64, currency: &Currency) -> Shown {
    let mut shown = show(Measure::Money, sum, System::default());
    if sum.is_finite() {
        shown.text = currency.before(&shown.text);
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_symbol_is_glued_and_a_code_stands_apart() {
        for (currency, sum, text) in [
            ("$", 1234.5, "$1,234.50"),
            (" $ ", -3.0, "-$3.00"),
            ("€", 0.0, "€0.00"),
            ("CAD", 14.0, "CAD 14.00"),
            ("US$", 14.0, "US$14.00"),
            ("kr", 14.0, "kr 14.00"),
        ] {
            let currency = Currency::new(currency);
            assert!(currency.is_sound());
            assert_eq!(show_money(sum, &currency).text, text);
        }
        for odd in ["", "5", "a.b", "-", "dollars of Canada"] {
            assert!(!Currency::new(odd).is_sound(), "{odd}");
        }
        assert!(Currency::default().is_usual() && !Currency::new("€").is_usual());
    }
}
