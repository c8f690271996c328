//! Findings of one reading: with their places, and each sort in few words.

use crate::finding::Finding;

/// How many findings of one check are told one by one before the rest are counted.
const EACH: usize = 10;

/// Findings as they come.
#[derive(Debug, Default)]
pub(in crate::exchange) struct Told {
    findings: Vec<Finding>,
    /// How often each check spoke beyond what was told.
    more: Vec<(&'static str, usize)>,
}

impl Told {
    /// Keeps a finding of a place, unless enough of its sort were told.
    pub fn tell(&mut self, place: &str, finding: Finding) {
        let check = finding.code;
        let before = self.findings.iter().filter(|f| f.code == check).count();
        if before < EACH {
            self.findings.push(finding.under(place));
            return;
        }
        match self.more.iter_mut().find(|(c, _)| *c == check) {
            Some((_, count)) => *count += 1,
            None => self.more.push((check, 1)),
        }
    }

    /// Everything that was told, and how much more there was.
    pub fn all(mut self) -> Vec<Finding> {
        for (check, count) in self.more {
            let severity = self
                .findings
                .iter()
                .find(|f| f.code == check)
                .map_or(crate::finding::Severity::Note, |f| f.severity);
            self.findings.push(Finding::new(
                severity,
                check,
                format!("The same was found in {count} more places."),
                "Mend them in the same way.",
            ));
        }
        self.findings
    }
}
