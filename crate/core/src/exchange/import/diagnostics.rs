//! Findings of one reading: with their places, and each sort in few words.

use crate::finding::Finding;

/// How many findings of one code are reported one by one before the rest are counted.
const EACH: usize = 10;

/// Findings as they come.
#[derive(Debug, Default)]
pub(in crate::exchange) struct Diagnostics {
    findings: Vec<Finding>,
    /// How often each code came beyond those reported.
    more: Vec<(&'static str, usize)>,
}

impl Diagnostics {
    /// Keeps a finding of a place, unless enough of its sort were told.
    pub fn add(&mut self, place: &str, finding: Finding) {
        let code = finding.code;
        let before = self.findings.iter().filter(|f| f.code == code).count();
        if before < EACH {
            self.findings.push(finding.under(place));
            return;
        }
        match self.more.iter_mut().find(|(c, _)| *c == code) {
            Some((_, count)) => *count += 1,
            None => self.more.push((code, 1)),
        }
    }

    /// Everything that was told, and how much more there was.
    pub fn into_findings(mut self) -> Vec<Finding> {
        for (code, count) in self.more {
            let severity = self
                .findings
                .iter()
                .find(|f| f.code == code)
                .map_or(crate::finding::Severity::Note, |f| f.severity);
            self.findings.push(Finding::new(
                severity,
                code,
                format!("The same was found in {count} more places."),
                "Mend them in the same way.",
            ));
        }
        self.findings
    }
}
