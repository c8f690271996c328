//! Names as people type them: found whatever their letters' case, and the nearest one proposed where none is that.

/// How like a name has to be to be proposed, 0 to 1 (our choice: a letter or two of a word apart).
const ALIKE: f64 = 0.75;

/// The one of some names that is meant.
///
/// # Errors
/// When none is: the one that may have been meant, as words that end a sentence; empty where none is like it.
pub fn meant<'a>(
    typed: &str,
    names: impl Iterator<Item = &'a str> + Clone,
) -> Result<&'a str, String> {
    let typed = typed.trim().to_lowercase();
    if let Some(name) = names.clone().find(|it| it.to_lowercase() == typed) {
        return Ok(name);
    }
    let likeness = |name: &str| {
        let name = name.to_lowercase();
        match !typed.is_empty() && name.contains(&typed) {
            true => 1.0,
            false => strsim::jaro_winkler(&name, &typed),
        }
    };
    let nearest = names
        .map(|name| (likeness(name), name))
        .filter(|(likeness, _)| *likeness >= ALIKE)
        .reduce(|a, b| if b.0 > a.0 { b } else { a });
    Err(nearest.map_or_else(String::new, |(_, name)| {
        format!("; did you mean \"{name}\"?")
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    const NAMES: [&str; 3] = ["Cove 24", "Long Lane 35", "Round Pond"];

    fn told(typed: &str) -> Result<&'static str, String> {
        meant(typed, NAMES.into_iter())
    }

    #[test]
    fn a_name_is_found_whatever_its_case() {
        assert_eq!(told(" cove 24 "), Ok("Cove 24"));
        assert_eq!(told("LONG LANE 35"), Ok("Long Lane 35"));
    }

    #[test]
    fn the_nearest_name_is_proposed_and_no_other() {
        let proposed = |typed| told(typed).unwrap_err();
        assert_eq!(proposed("Long Lan 35"), "; did you mean \"Long Lane 35\"?");
        assert_eq!(proposed("pond"), "; did you mean \"Round Pond\"?");
        assert_eq!(proposed("xyzzy"), "");
        assert_eq!(proposed(""), "");
    }
}
