//! What took how long, part by part.

use std::time::{Duration, Instant};

/// A clock that is read at the end of each part.
pub struct Clock {
    start: Instant,
    last: Instant,
    parts: Vec<(&'static str, Duration)>,
}

impl Clock {
    /// Starts the first part.
    pub fn start() -> Self {
        let now = Instant::now();
        Self {
            start: now,
            last: now,
            parts: Vec::new(),
        }
    }

    /// Ends a part, by its name, and starts the next.
    pub fn lap(&mut self, part: &'static str) {
        let now = Instant::now();
        self.parts.push((part, now - self.last));
        self.last = now;
    }

    /// All of it and each part, in seconds.
    pub fn summary(&self) -> String {
        let seconds = |time: &Duration| format!("{:.0} s", time.as_secs_f64());
        let parts: Vec<String> = self
            .parts
            .iter()
            .map(|(part, time)| format!("{part} {}", seconds(time)))
            .collect();
        let all = seconds(&(self.last - self.start));
        format!("{all}: {}", parts.join(", "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_stand_behind_the_whole() {
        let mut clock = Clock::start();
        clock.lap("a");
        clock.lap("b");
        assert_eq!(clock.summary(), "0 s: a 0 s, b 0 s");
    }
}
