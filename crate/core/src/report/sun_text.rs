//! The sun on the water, as plain text.

use super::sun::{SampleFigures, SunFigures};
use super::table::Lean::{Left, Right};
use super::table::{columns, findings, heading, pairs};
use crate::finding::Finding;
use crate::sun::clock;
use crate::units::{Measure, System, nearest_eighth, show};

/// The list of the day has a row at every so many minutes.
const ROW: f64 = 30.0;

impl SunFigures {
    /// Everything as plain text, cautions first.
    pub fn to_text(&self) -> String {
        let mut out = format!("{}\n", self.name);
        heading("Sun on the water", &mut out);
        findings(&self.findings.iter().collect::<Vec<&Finding>>(), &mut out);
        let (Some(in_sun), Some(daylight)) = (&self.in_sun, &self.daylight) else {
            return out;
        };
        out.push('\n');
        let mut lines = vec![
            (
                "Day",
                format!("{}, clock UTC{}", self.date, self.utc_offset),
            ),
            ("Sun on the water", in_sun.shown.text.clone()),
            ("Daylight", daylight.shown.text.clone()),
        ];
        lines.extend(self.spells.iter().map(|it| ("Sun up", it.words.clone())));
        pairs(&lines, &mut out);
        if !self.shaders.is_empty() {
            heading("What shades it", &mut out);
            let head = ["", "Shades", "Alone", ""].map(str::to_owned).to_vec();
            let rows = self.shaders.iter().map(|it| {
                vec![
                    it.name.clone(),
                    it.takes.shown.text.clone(),
                    it.alone.shown.text.clone(),
                    it.words.clone(),
                ]
            });
            let rows: Vec<Vec<String>> = core::iter::once(head).chain(rows).collect();
            columns(2, &[Left, Right, Right, Left], &rows, &mut out);
        }
        heading("Through the day", &mut out);
        let head = ["", "In sun", "Sun high", "in the", "Shade of"];
        let head = head.map(str::to_owned).to_vec();
        let ends = |at: usize| at == 0 || at + 1 == self.samples.len();
        let rows = self
            .samples
            .iter()
            .enumerate()
            .filter(|(at, it)| ends(*at) || it.minutes % ROW == 0.0)
            .map(|(_, it)| self.row(it));
        let rows: Vec<Vec<String>> = core::iter::once(head).chain(rows).collect();
        columns(2, &[Right, Right, Right, Left, Left], &rows, &mut out);
        out
    }

    fn row(&self, it: &SampleFigures) -> Vec<String> {
        // Both read the same in feet and in meters.
        let text = |measure, value| show(measure, value, System::Metres).text;
        let name = |feature: &usize| {
            let found = self.shaders.iter().find(|it| it.feature == *feature);
            found.map(|it| it.name.as_str())
        };
        let names: Vec<&str> = it.by.iter().filter_map(|(by, _)| name(by)).collect();
        vec![
            clock(it.minutes),
            text(Measure::Fraction, it.share),
            text(Measure::Heading, it.altitude.max(0.0)),
            nearest_eighth(it.azimuth).to_owned(),
            names.join(", "),
        ]
    }
}
