//! Which file names which, and the circles in that.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Files and the first line in which each names another.
#[derive(Debug, Default)]
pub struct Graph<'a> {
    named: BTreeMap<&'a str, BTreeMap<&'a str, usize>>,
}

/// Files each of which names the next, and the last the first.
#[derive(Debug, PartialEq)]
pub struct Circle<'a> {
    /// From the first by name.
    pub files: Vec<&'a str>,
    /// In which line each names the next.
    lines: Vec<usize>,
}

impl<'a> Graph<'a> {
    /// Notes that `from` names `to`.
    pub fn add(&mut self, from: &'a str, to: &'a str, line: usize) {
        self.named
            .entry(from)
            .or_default()
            .entry(to)
            .or_insert(line);
    }

    /// Every two files that name each other; and longer circles, of each knot the shortest one, in
    /// what is left when no two do.
    pub fn circles(&self) -> Vec<Circle<'a>> {
        let mut found = Vec::new();
        let mut rest = Self::default();
        for (from, others) in &self.named {
            for (to, line) in others {
                if self.names(to, from).is_none() {
                    rest.add(from, to, *line);
                } else if from < to {
                    found.push(self.circle(vec![from, to]));
                }
            }
        }
        let mut seen = BTreeSet::new();
        for start in rest.named.keys() {
            if let Some(files) = rest.way_back(start, &seen) {
                seen.extend(files.iter().copied());
                found.push(self.circle(files));
            }
        }
        found
    }

    fn names(&self, from: &str, to: &str) -> Option<usize> {
        self.named.get(from)?.get(to).copied()
    }

    fn circle(&self, mut files: Vec<&'a str>) -> Circle<'a> {
        let first = (files.iter().enumerate())
            .min_by_key(|(_, file)| **file)
            .map_or(0, |(at, _)| at);
        files.rotate_left(first);
        let next = files.iter().cycle().skip(1);
        let line = |(from, to): (&&str, &&str)| self.names(from, to).unwrap_or_default();
        Circle {
            lines: files.iter().zip(next).map(line).collect(),
            files,
        }
    }

    /// The shortest way from a file back to itself that meets none of `shunned`.
    fn way_back(&self, start: &'a str, shunned: &BTreeSet<&str>) -> Option<Vec<&'a str>> {
        let mut came_from: BTreeMap<&str, &str> = BTreeMap::new();
        let mut waiting = VecDeque::from([start]);
        while let Some(file) = waiting.pop_front() {
            for next in self.named.get(file).into_iter().flat_map(BTreeMap::keys) {
                if *next == start && !shunned.contains(start) {
                    let mut way = vec![file];
                    while let Some(before) = came_from.get(way.last()?) {
                        way.push(before);
                    }
                    way.reverse();
                    return Some(way);
                }
                if !shunned.contains(next) && !came_from.contains_key(next) && *next != start {
                    came_from.insert(next, file);
                    waiting.push_back(next);
                }
            }
        }
        None
    }
}

impl<'a> Circle<'a> {
    /// Which file names which, and in which line.
    pub fn uses(&self) -> Vec<(&'a str, &'a str, usize)> {
        let next = self.files.iter().cycle().skip(1);
        let pairs = self.files.iter().zip(next).zip(&self.lines);
        pairs
            .map(|((from, to), line)| (*from, *to, *line))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn circles(edges: &[(&'static str, &'static str)]) -> Vec<String> {
        let mut graph = Graph::default();
        for (line, (from, to)) in edges.iter().enumerate() {
            graph.add(from, to, line + 1);
        }
        graph
            .circles()
            .iter()
            .map(|it| it.files.join(" "))
            .collect()
    }

    #[test]
    fn a_list_has_no_circle() {
        assert_eq!(
            circles(&[("a", "b"), ("a", "c"), ("b", "c"), ("c", "d")]),
            [""; 0]
        );
    }

    #[test]
    fn every_two_that_name_each_other_are_found() {
        let edges = [("b", "a"), ("a", "b"), ("b", "c"), ("c", "b"), ("c", "d")];
        assert_eq!(circles(&edges), ["a b", "b c"]);
    }

    #[test]
    fn a_longer_circle_is_found_once_and_by_its_shortest_way() {
        let edges = [("c", "a"), ("a", "b"), ("b", "c"), ("b", "d"), ("d", "c")];
        assert_eq!(circles(&edges), ["a b c"]);
    }

    #[test]
    fn a_circle_knows_its_lines() {
        let mut graph = Graph::default();
        graph.add("b", "a", 7);
        graph.add("b", "a", 9);
        graph.add("a", "b", 3);
        let [circle] = graph.circles().try_into().unwrap();
        assert_eq!(circle.uses(), [("a", "b", 3), ("b", "a", 7)]);
    }
}
