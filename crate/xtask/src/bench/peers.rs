//! The core beside other libraries: the same questions, the same answers, one run, one table.

use std::fs;
use std::io::Write;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};
use serde::Deserialize;

use crate::repo::Repo;
use crate::{node, python, sh, wasm};

/// By how much an answer of ours may be off, as a share: chords of 1 mm round edges of hundreds of meters.
const MOST_OFF: f64 = 1e-3;
/// Who is farther off than this answers something else and is no measure of ours.
const OTHER_ANSWER: f64 = 1e-2;
/// What we aim at, as a share of the best peer's time.
const AIM: f64 = 0.6;

/// What the core's program prints of a question.
#[derive(Deserialize)]
struct Asked {
    task: Task,
    answers: Vec<Answer>,
}

#[derive(Deserialize)]
struct Task {
    name: String,
    /// Why we are not far ahead, where somebody looked into it.
    why: Option<String>,
}

/// What somebody answered, and what it took where that is counted.
#[derive(Clone, Debug, PartialEq, Deserialize)]
struct Answer {
    #[serde(default)]
    name: String,
    who: String,
    ms: Option<f64>,
    answer: f64,
}

/// Where an answer was worked out: times are compared within one engine.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Engine {
    Native,
    Browser,
}

/// A question with all that was answered.
struct Row {
    task: Task,
    answers: Vec<(Engine, Answer)>,
}

/// Asks all of them and prints the table.
///
/// # Errors
/// When one cannot be run, or the core's answer is another.
pub fn run(repo: &Repo) -> Result<()> {
    sh::say("The core beside other libraries");
    let core = wasm::example(repo, "peers")?;
    let args = ["bench", "--package", "batterboard-core", "--bench", "peers"];
    let printed =
        sh::answer(&mut sh::cargo(repo.root(), &args)).context("the bench could not be run")?;
    let lines: Vec<&str> = printed.lines().filter(|it| it.starts_with('{')).collect();
    let questions = lines.join("\n");
    let mut rows = lines
        .iter()
        .map(|line| Row::of(line))
        .collect::<Result<Vec<_>>>()?;
    sh::say("Asking the libraries of Python");
    let python = python::environment(repo)?;
    let script = ["tests/peers/bench_peers.py"];
    let mut asked = sh::command(repo.root(), &python.to_string_lossy(), &script);
    put(&mut rows, Engine::Native, answers(&mut asked, &questions)?)?;
    sh::say("Asking the libraries of the browser's engine, and the core in it");
    let folder = repo.path("tests/peers");
    node::install(&folder)?;
    let core = core.to_string_lossy();
    let mut asked = sh::command(&folder, "node", &["bench_peers.mjs", &core]);
    put(&mut rows, Engine::Browser, answers(&mut asked, &questions)?)?;
    let text = table(&rows);
    let kept = repo.target().join("peers");
    fs::create_dir_all(&kept).context("cannot make target/peers")?;
    fs::write(kept.join("peers.md"), &text).context("cannot write target/peers/peers.md")?;
    print!("\n{text}");
    rows.iter().try_for_each(Row::hold)
}

/// What a program prints when it is handed the questions.
fn answers(program: &mut Command, questions: &str) -> Result<Vec<Answer>> {
    let mut child = program
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    let mut input = child.stdin.take().context("it takes no input")?;
    let questions = format!("{questions}\n");
    // Beside reading what it prints: neither waits for the other.
    let written = std::thread::spawn(move || input.write_all(questions.as_bytes()));
    let output = child.wait_with_output()?;
    if !output.status.success() {
        bail!("it ended with {}", output.status);
    }
    if !matches!(written.join(), Ok(Ok(()))) {
        bail!("it did not read the questions to their end");
    }
    let text = String::from_utf8(output.stdout)?;
    text.lines()
        .map(|line| Ok(serde_json::from_str(line)?))
        .collect()
}

/// Puts answers to their questions.
fn put(rows: &mut [Row], engine: Engine, answers: Vec<Answer>) -> Result<()> {
    for answer in answers {
        let row = rows.iter_mut().find(|row| row.task.name == answer.name);
        let row = row.context("an answer to no question")?;
        row.answers.push((engine, answer));
    }
    Ok(())
}

impl Row {
    fn of(line: &str) -> Result<Self> {
        let Asked { task, answers } =
            serde_json::from_str(line).context("a question cannot be read")?;
        let native = answers.into_iter().map(|it| (Engine::Native, it));
        Ok(Self {
            task,
            answers: native.collect(),
        })
    }

    /// What is taken for the truth: the reference, or the first peer's answer where there is none.
    fn truth(&self) -> Option<f64> {
        let by = |wanted: fn(&Answer) -> bool| {
            let found = self.answers.iter().find(|(_, it)| wanted(it));
            found.map(|(_, it)| it.answer)
        };
        by(Answer::is_reference).or_else(|| by(|it| !it.is_ours()))
    }

    /// How far an answer is off, as a share.
    fn off(&self, answer: &Answer) -> Option<f64> {
        let truth = self.truth()?;
        Some((answer.answer - truth).abs() / truth.abs().max(f64::MIN_POSITIVE))
    }

    /// What the core took in an engine, milliseconds.
    fn ours(&self, engine: Engine) -> Option<f64> {
        let mut all = self.answers.iter();
        let found = all.find(|(at, it)| *at == engine && it.is_ours());
        found.and_then(|(_, it)| it.ms)
    }

    /// The fastest peer in an engine that answers the same.
    fn best(&self, engine: Engine) -> Option<(&Answer, f64)> {
        let same = self.answers.iter().filter(|(at, it)| {
            *at == engine && !it.is_ours() && self.off(it).is_some_and(|off| off < OTHER_ANSWER)
        });
        let timed = same.filter_map(|(_, it)| Some((it, it.ms?)));
        timed.min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// What the core took as a share of the best peer's time.
    fn share(&self, engine: Engine) -> Option<f64> {
        Some(self.ours(engine)? / self.best(engine)?.1)
    }

    /// Whether the core answers as the truth is.
    fn hold(&self) -> Result<()> {
        for (_, answer) in self.answers.iter().filter(|(_, it)| it.is_ours()) {
            if self
                .off(answer)
                .is_some_and(|off| off.is_nan() || off > MOST_OFF)
            {
                bail!(
                    "{}: {} answers {}, which is not {}",
                    self.task.name,
                    answer.who,
                    answer.answer,
                    self.truth().unwrap_or(f64::NAN)
                );
            }
        }
        Ok(())
    }
}

impl Answer {
    fn is_ours(&self) -> bool {
        self.who.starts_with("batterboard")
    }

    fn is_reference(&self) -> bool {
        self.who == "reference"
    }
}

/// All answers in Markdown, and under them the questions where the core is not as far ahead as it aims to be.
fn table(rows: &[Row]) -> String {
    let mut text =
        "| question | answered by | ms | ours is | off by |\n|---|---|---:|---:|---:|\n".to_owned();
    for row in rows {
        let mut name = row.task.name.as_str();
        for (engine, answer) in row.answers.iter().filter(|(_, it)| !it.is_reference()) {
            let share = match (answer.is_ours(), row.ours(*engine), answer.ms) {
                (false, Some(ours), Some(theirs)) => format!("{:.3}", ours / theirs),
                _ => String::new(),
            };
            let ms = answer.ms.map_or(String::new(), |it| format!("{it:.4}"));
            let off = row
                .off(answer)
                .map_or(String::new(), |it| format!("{it:.0e}"));
            text += &format!("| {name} | {} | {ms} | {share} | {off} |\n", answer.who);
            name = "";
        }
    }
    text += "\nMedians. \"Ours is\": the core's time in the same engine as a share of that answer's. \"Off by\": from a closed \
             formula, an exact answer of another library, or the finest one of it.\n";
    for (engine, name) in [
        (Engine::Native, "natively"),
        (Engine::Browser, "in the browser's engine"),
    ] {
        let behind = rows.iter().filter_map(|row| {
            let share = row.share(engine).filter(|it| *it > AIM)?;
            let (best, _) = row.best(engine)?;
            let why = row.task.why.as_deref().unwrap_or("nobody looked into it");
            Some(format!(
                "- {}: {share:.2} of {}: {why}\n",
                row.task.name, best.who
            ))
        });
        let behind: String = behind.collect();
        if !behind.is_empty() {
            text += &format!("\nAbove {AIM} of the best peer {name}:\n\n{behind}");
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answer(who: &str, ms: Option<f64>, answer: f64) -> Answer {
        Answer {
            name: "a question".to_owned(),
            who: who.to_owned(),
            ms,
            answer,
        }
    }

    fn row(ours: f64) -> Row {
        let line = format!(
            r#"{{"task": {{"name": "a question", "ask": "offset", "why": "it is short"}}, "tolerance": 0.001,
                "answers": [{{"who": "batterboard, native", "ms": 3.0, "answer": {ours}}}]}}"#
        );
        let mut rows = [Row::of(&line).unwrap()];
        let native = vec![
            answer("reference", None, 100.0),
            answer("quick and wrong", Some(1.0), 150.0),
            answer("slow", Some(30.0), 100.0),
            answer("fast", Some(4.0), 100.001),
        ];
        put(&mut rows, Engine::Native, native).unwrap();
        let browser = vec![
            answer("batterboard, wasm", Some(5.0), 100.0),
            answer("other", Some(20.0), 100.0),
        ];
        put(&mut rows, Engine::Browser, browser).unwrap();
        let [row] = rows;
        row
    }

    #[test]
    fn the_best_peer_is_the_fastest_of_those_who_answer_the_same() {
        let row = row(100.0);
        assert_eq!(row.share(Engine::Native), Some(0.75));
        assert_eq!(row.share(Engine::Browser), Some(0.25));
    }

    #[test]
    fn another_answer_of_ours_is_refused() {
        assert!(row(100.05).hold().is_ok());
        let error = row(101.0).hold().unwrap_err().to_string();
        assert!(error.contains("101"), "{error}");
        let mut none = row(100.0);
        none.answers.iter_mut().for_each(|(_, it)| {
            if it.is_ours() {
                it.answer = f64::NAN;
            }
        });
        assert!(none.hold().is_err() && Row::of("{}").is_err());
        assert!(put(&mut [], Engine::Native, vec![answer("it", None, 1.0)]).is_err());
    }

    #[test]
    fn without_a_reference_the_first_peer_is_the_truth() {
        let mut row = row(100.0);
        row.answers.retain(|(_, it)| !it.is_reference());
        assert_eq!(row.truth(), Some(150.0));
    }

    #[test]
    fn the_table_has_shares_and_says_why_we_are_behind() {
        let text = table(&[row(100.0)]);
        assert!(
            text.contains("|  | slow | 30.0000 | 0.100 | 0e0 |"),
            "{text}"
        );
        assert!(
            text.contains("- a question: 0.75 of fast: it is short"),
            "{text}"
        );
        assert!(
            !text.contains("reference |") && !text.contains("browser's engine:"),
            "{text}"
        );
    }
}
