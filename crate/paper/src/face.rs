//! The two faces of the sheets and how long text is in them.
//!
//! They are cut from Barlow (SIL Open Font License 1.1, see `fonts/OFL.txt`): the letters of English and Spanish,
//! with figures of one width, so that columns of figures stand under each other (`fonts/make_faces.py`).

use std::sync::LazyLock;

/// A face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// For reading.
    Regular,
    /// For headings and what counts.
    SemiBold,
}

/// A face that was read.
type Parsed = LazyLock<Option<ttf_parser::Face<'static>>>;

static REGULAR: Parsed = LazyLock::new(|| ttf_parser::Face::parse(Face::Regular.bytes(), 0).ok());
static SEMI_BOLD: Parsed =
    LazyLock::new(|| ttf_parser::Face::parse(Face::SemiBold.bytes(), 0).ok());

impl Face {
    /// Every face.
    pub const ALL: [Self; 2] = [Self::Regular, Self::SemiBold];

    /// Height of a capital, as a part of the em.
    pub const CAPITAL: f64 = 0.7;

    /// The font file.
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../fonts/barlow-regular.ttf"),
            Self::SemiBold => include_bytes!("../fonts/barlow-semibold.ttf"),
        }
    }

    /// What files call it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Regular => "Barlow-Regular",
            Self::SemiBold => "Barlow-SemiBold",
        }
    }

    /// Its weight, as fonts count it.
    pub const fn weight(self) -> u16 {
        match self {
            Self::Regular => 400,
            Self::SemiBold => 600,
        }
    }

    /// The face as it was read.
    pub fn parsed(self) -> Option<&'static ttf_parser::Face<'static>> {
        match self {
            Self::Regular => REGULAR.as_ref(),
            Self::SemiBold => SEMI_BOLD.as_ref(),
        }
    }

    /// The glyph of a letter; that of a missing one where the face has none.
    pub fn glyph(self, letter: char) -> u16 {
        let face = self.parsed();
        face.and_then(|face| face.glyph_index(letter))
            .map_or(0, |glyph| glyph.0)
    }

    /// How wide a glyph is, as a part of the em.
    pub fn advance(self, glyph: u16) -> f64 {
        let Some(face) = self.parsed() else {
            return 0.5;
        };
        let advance = face.glyph_hor_advance(ttf_parser::GlyphId(glyph));
        f64::from(advance.unwrap_or(500)) / f64::from(face.units_per_em())
    }

    /// How long a text of a size is, in the unit of the size.
    pub fn length(self, text: &str, size: f64) -> f64 {
        let advances = text.chars().map(|letter| self.advance(self.glyph(letter)));
        advances.sum::<f64>() * size
    }

    /// A text as lines no longer than `width`, broken at spaces; a word that is longer is broken itself.
    pub fn wrapped(self, text: &str, size: f64, width: f64) -> Vec<String> {
        let mut lines = vec![String::new()];
        for word in text.split_whitespace() {
            let joined = match lines.last() {
                Some(line) if !line.is_empty() => format!("{line} {word}"),
                _ => word.to_owned(),
            };
            if self.length(&joined, size) <= width {
                lines.pop();
                lines.push(joined);
                continue;
            }
            let mut rest = word;
            if lines.last().is_some_and(String::is_empty) {
                lines.pop();
            }
            while self.length(rest, size) > width {
                let mut fits = rest.len();
                for (end, letter) in rest.char_indices() {
                    let end = end + letter.len_utf8();
                    if self.length(rest.get(..end).unwrap_or(rest), size) > width {
                        fits = (end - letter.len_utf8()).max(first_letter(rest));
                        break;
                    }
                }
                let (head, tail) = rest.split_at_checked(fits).unwrap_or((rest, ""));
                lines.push(head.to_owned());
                rest = tail;
            }
            lines.push(rest.to_owned());
        }
        lines.retain(|line| !line.is_empty());
        lines
    }
}

/// How many bytes the first letter takes.
fn first_letter(text: &str) -> usize {
    text.chars().next().map_or(0, char::len_utf8)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn both_faces_have_every_letter_and_sign_that_sheets_write() {
        let written = "AZaz09 .,:;()/%'\"°±×·–—’“”−≤≥≈½¼¾⅛⅜⅝⅞²³ñÑáéíóúü¿¡ ";
        for face in Face::ALL {
            assert!(face.parsed().is_some());
            for letter in written.chars() {
                assert!(face.glyph(letter) != 0, "{letter} in {face:?}");
            }
            let capital = face.parsed().unwrap().capital_height().unwrap();
            assert_eq!(f64::from(capital) / 1000.0, Face::CAPITAL);
        }
    }

    #[test]
    fn figures_are_of_one_width() {
        for face in Face::ALL {
            let widths = ('0'..='9').map(|c| face.advance(face.glyph(c)));
            let widths: Vec<f64> = widths.collect();
            assert!(widths.iter().all(|w| *w == widths[0]), "{widths:?}");
        }
    }

    #[test]
    fn text_is_broken_so_that_no_line_is_too_long_and_no_letter_is_lost() {
        let text = "the over-dig round a shell of a-kind-named-without-any-spaces-at-all feet";
        for width in [8.0, 20.0, 60.0, 500.0] {
            let lines = Face::Regular.wrapped(text, 3.0, width);
            let long = lines.iter().map(|line| Face::Regular.length(line, 3.0));
            assert!(long.fold(0.0, f64::max) <= width, "{width}: {lines:?}");
            let letters = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(text));
        }
        assert!(Face::Regular.wrapped("  ", 3.0, 10.0).is_empty());
    }
}
