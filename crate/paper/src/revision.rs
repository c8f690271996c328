//! What matches paper to file: a short hash of the site file, and the square code that carries it.

use batterboard_core::geom::Point;
use qrcodegen::{QrCode, QrCodeEcc};
use sha2::{Digest, Sha256};

use crate::mark::{Area, Color, Ink, Mark, Outline};

/// The first eight hexadecimal figures of the SHA-256 of a site file's bytes.
pub fn of(file: &str) -> String {
    let hash = Sha256::digest(file.as_bytes());
    hash.iter()
        .take(4)
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

/// A square code (ISO/IEC 18004) that says a text, in an area with a quiet zone of four cells round it; `None` for a text
/// too long.
pub fn code(text: &str, area: Area) -> Option<Mark> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let cells = code.size();
    let side = area.width.min(area.height) / f64::from(cells + 8);
    let mut outlines = Vec::new();
    for y in 0..cells {
        let mut x = 0;
        while x < cells {
            let from = x;
            while x < cells && code.get_module(x, y) {
                x += 1;
            }
            if x > from {
                // Runs along a row, so that no hair lines part them.
                let at = |i: i32, j: i32| {
                    Point::new(
                        area.x + f64::from(i + 4) * side,
                        area.y + f64::from(j + 4) * side,
                    )
                };
                let corners = [at(from, y), at(x, y), at(x, y + 1), at(from, y + 1)];
                outlines.extend(Outline::through(corners, true));
            }
            x += 1;
        }
    }
    Some(Mark::Shape(outlines, Ink::filled(Color::BLACK)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_that_of_the_published_algorithm() {
        // FIPS 180-4 examples (NIST, SHA-256 of "abc"): ba7816bf...
        assert_eq!(of("abc"), "ba7816bf");
    }
}
