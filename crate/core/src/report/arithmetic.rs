//! A formula with its numbers put in: `area x thickness` becomes `302.1 sq ft x 4" = ...`.

/// Writes the numbers into a formula: each input's name, as a whole word and the longest
/// names first, is replaced by its text. Where a name does not occur in the formula, the
/// inputs are listed instead. Empty where nothing went in: the figure was measured.
pub(super) fn fill_in(formula: &str, inputs: &[(&str, &str)], result: &str) -> String {
    if inputs.is_empty() {
        return String::new();
    }
    let mut unused: Vec<&str> = inputs.iter().map(|(name, _)| *name).collect();
    let mut filled = String::new();
    let mut rest = formula;
    let mut inside_word = false;
    while let Some(first) = rest.chars().next() {
        let name = (!inside_word).then(|| longest_name(rest, inputs)).flatten();
        let taken = match name {
            Some((name, text)) => {
                filled.push_str(text);
                unused.retain(|other| *other != name);
                name.len()
            }
            None => {
                filled.push(first);
                first.len_utf8()
            }
        };
        inside_word = name.is_some() || first.is_alphanumeric();
        rest = rest.get(taken..).unwrap_or_default();
    }
    if unused.is_empty() {
        format!("{filled} = {result}")
    } else {
        listed(inputs, result)
    }
}

/// The longest name that the text begins with as a whole word, and what stands for it.
fn longest_name<'a>(text: &str, inputs: &[(&'a str, &'a str)]) -> Option<(&'a str, &'a str)> {
    let begins_with = |name: &str| {
        let after = text.strip_prefix(name).map(|rest| rest.chars().next());
        !name.is_empty() && after.is_some_and(|c| !c.is_some_and(char::is_alphanumeric))
    };
    let names = inputs.iter().filter(|(name, _)| begins_with(name));
    names.max_by_key(|(name, _)| name.len()).copied()
}

fn listed(inputs: &[(&str, &str)], result: &str) -> String {
    let inputs: Vec<String> = inputs
        .iter()
        .map(|(name, text)| format!("{name} {text}"))
        .collect();
    format!("{}: {result}", inputs.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_give_way_to_numbers_the_longest_first() {
        let inputs = [("area", "10"), ("area of the deck", "20"), ("waste", "5%")];
        assert_eq!(
            fill_in("area of the deck x area x (1 + waste)", &inputs, "210"),
            "20 x 10 x (1 + 5%) = 210"
        );
    }

    #[test]
    fn a_name_inside_a_word_or_missing_is_not_forced() {
        assert_eq!(
            fill_in("areas x t", &[("area", "10"), ("t", "2")], "20"),
            "area 10, t 2: 20"
        );
        assert_eq!(fill_in("measured", &[], "3 m²"), "");
    }
}
