//! A formula with its numbers put in: `area x thickness` becomes `302.1 sq ft x 4" = ...`.

/// Writes the numbers into a formula: each input's name, as a whole word and the longest
/// names first, is replaced by its text. Where a name does not occur in the formula, the
/// inputs are listed instead. Empty where nothing went in: the figure was measured.
pub(super) fn fill_in(formula: &str, inputs: &[(&str, &str)], result: &str) -> String {
    if inputs.is_empty() {
        return String::new();
    }
    let mut named: Vec<(usize, usize, &str)> = Vec::new();
    let mut by_length: Vec<&(&str, &str)> = inputs.iter().collect();
    by_length.sort_by_key(|(name, _)| core::cmp::Reverse(name.len()));
    for (name, text) in by_length {
        let places = whole_words(formula, name);
        let free: Vec<usize> = places
            .into_iter()
            .filter(|at| {
                let end = at + name.len();
                named.iter().all(|(from, to, _)| end <= *from || *to <= *at)
            })
            .collect();
        if free.is_empty() {
            return listed(inputs, result);
        }
        named.extend(free.into_iter().map(|at| (at, at + name.len(), *text)));
    }
    named.sort_unstable();
    let mut filled = String::new();
    let mut done = 0;
    for (from, to, text) in named {
        filled.push_str(formula.get(done..from).unwrap_or_default());
        filled.push_str(text);
        done = to;
    }
    filled.push_str(formula.get(done..).unwrap_or_default());
    format!("{filled} = {result}")
}

fn listed(inputs: &[(&str, &str)], result: &str) -> String {
    let inputs: Vec<String> = inputs
        .iter()
        .map(|(name, text)| format!("{name} {text}"))
        .collect();
    format!("{}: {result}", inputs.join(", "))
}

/// Where a name occurs with no letter or digit on either side.
fn whole_words(text: &str, name: &str) -> Vec<usize> {
    if name.is_empty() {
        return Vec::new();
    }
    let apart = |c: Option<char>| !c.is_some_and(char::is_alphanumeric);
    text.match_indices(name)
        .map(|(at, _)| at)
        .filter(|at| {
            let before = text.get(..*at).and_then(|t| t.chars().next_back());
            let after = text.get(at + name.len()..).and_then(|t| t.chars().next());
            apart(before) && apart(after)
        })
        .collect()
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
