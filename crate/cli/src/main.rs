//! `batterboard`: reports on a site file from the command line, over the same core as the page.
//!
//! | command | prints |
//! |---|---|
//! | `report SITE...` | every figure and every finding, as text or JSON |
//! | `takeoff SITE...` | the quantities and their cost, as text, as JSON or for a spreadsheet |
//! | `balance SITE` | the coping at which cut and fill are even, and what an inch changes |
//! | `compare SITE` | the shell as placed beside the placements kept in the file |
//! | `check SITE...` | verdict, clearances and findings; says by its exit code whether it holds |
//! | `book [BOOK]` | a company's book as a list, or what a site took from it; without one, the examples |
//! | `stakes SITE` | stakes with two-tape ties, offset stakes, levels, and what was read back |
//! | `way-in SITE...` | the widest way from the street to the dig, who fits through it, and the crane |
//! | `sun SITE...` | the share of the water in sun through a day, and what shades it |
//! | `sheet SITE` | a sheet to scale as PDF or SVG: permit plan, dig sheet, takeoff, homeowner's, record, report |
//! | `fit SITE` | the shells that fit on the lot, where, and with how much room |
//! | `clear-ground SITE` | every place of the shell's middle at one heading |
//! | `schema` | the JSON Schema of the site file |
//! | `shells [NAME]` | the catalogue of shells, or one of them in full |
//! | `sources` | every figure that the work rests on, where it comes from, how it was checked |
//! | `deed FILE` | the courses, the closure and the area of a description by bearings and distances |
//! | `completions SHELL` | what a command shell needs to complete the commands |
//! | `manual` | the manual page |
//! | `import FILE` | a site with what is in a map (GeoJSON), a list of points or a surveyor's LandXML |
//! | `export SITE` | a site as a map, as a list of points or as LandXML |
//!
//! # Exit codes
//! 0: done, and for `check` everything measured holds. 1: `check` found work that reaches where it
//! must not, or a clearance that falls short; `deed` a description that makes no lot. 2: the command or the file cannot be read. 3: `check`
//! could not tell: no shell is placed, or something that decides was not measured (no rules, sides
//! of the lot without a kind).

mod book;
mod deed;
mod export;
mod fit;
mod folder;
mod import;
mod input;
mod manual;
mod names;
mod sheet;
mod shells;
mod sources;
mod stakes;
mod sun;
mod way_in;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::{Context, Result, bail};
use batterboard_core::analysis::{self, Cache, Detail, Scenario, Standing};
use batterboard_core::exchange::{Opened, schema};
use batterboard_core::json;
use batterboard_core::report::Report;
use batterboard_core::site::CheckedSite;
use batterboard_core::study::{Answer, Question, Study};
use batterboard_core::units::System;
use clap::{Args, CommandFactory, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;

/// The work reaches where it must not, or a clearance falls short.
const WRONG: u8 = 1;

/// The command or the file cannot be read.
const UNREADABLE: u8 = 2;

/// Nothing found wrong, but not everything that decides was measured.
const UNCHECKED: u8 = 3;

/// How a command ends, as its help says it.
const EXIT_CODES: &str = "\
Exit codes:
  0  done; for check: everything measured holds
  1  check: the work reaches where it must not, or a clearance falls short; deed: no lot can be read
  2  the command or a file cannot be read
  3  check: no shell is placed, or something that decides was not measured";

/// Checks and reports on the site file of a one-piece pool shell.
///
/// A planning aid, not a survey: the local authority's own rules govern, and before anyone
/// digs, the utility-locating service marks the lines in the ground.
#[derive(Parser)]
#[command(version, arg_required_else_help = true, after_help = EXIT_CODES)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Print every figure and every finding of a site.
    ///
    /// Of a folder of sites, or of several, it prints one after the other; with --json one line each.
    Report {
        #[command(flatten)]
        sites: SitesArgs,
        /// Print JSON with SI values, display values, units and working; of several sites one line each, with its file.
        #[arg(long)]
        json: bool,
    },
    /// Print the quantities of a site with low, high and cost.
    ///
    /// Of a folder of sites, or of several, it prints one after the other; with --json one line each.
    Takeoff {
        #[command(flatten)]
        sites: SitesArgs,
        /// Print a list for a spreadsheet: RFC 4180, UTF-8. Of one site.
        #[arg(long, conflicts_with = "json")]
        csv: bool,
        /// Print JSON with SI values, display values, units and working; of several sites one line each, with its file.
        #[arg(long)]
        json: bool,
    },
    /// Find the coping at which cut and fill are even, and print what an inch more or less changes.
    ///
    /// Floors, doors and drainage come before even earth.
    Balance {
        #[command(flatten)]
        site: SiteArgs,
        /// Print JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print the shell as placed beside the placements kept in the site file.
    Compare {
        #[command(flatten)]
        site: SiteArgs,
        /// Print JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print the stakes of a site: two-tape ties, offset stakes, diagonals, levels, what was read back.
    Stakes(stakes::StakesArgs),
    /// Print the widest way from the street to the dig, who fits through it, and the crane's lift.
    ///
    /// Of a folder of sites, or of several, it prints one after the other; with --json one line each.
    WayIn(way_in::WayInArgs),
    /// Print the share of the water in sun through a day, and which structures and trees shade it for how long.
    ///
    /// Of a folder of sites, or of several, it prints one after the other; with --json one line each.
    Sun(sun::SunArgs),
    /// Write a sheet of a site to scale, as PDF or SVG.
    ///
    /// Its site file is inside the PDF. Print it at full size: the square on it proves the print.
    Sheet(Box<sheet::SheetArgs>),
    /// List the shells that fit on a lot by its rules, where, at which heading, and with how much room.
    ///
    /// Of a folder, one line of JSON for each site in it.
    Fit(fit::FitArgs),
    /// Print every place that the shell's middle may take at one heading.
    ///
    /// Of a folder, one line of JSON for each site in it.
    ClearGround(fit::ClearGroundArgs),
    /// Print verdict, clearances and findings of a site.
    ///
    /// Exits with 1 when the work reaches where it must not or a clearance falls short, with 3
    /// when no shell is placed or something that decides was not measured. Of a folder of sites, or of several, it prints
    /// one after the other and exits with the gravest: 2 when a file cannot be read, then 1, then 3.
    Check {
        #[command(flatten)]
        sites: SitesArgs,
    },
    /// List a company's book, or print what a site took from it and what has changed since.
    ///
    /// Without a file it prints the book of examples, a start for one of your own.
    Book(book::BookArgs),
    /// Print the JSON Schema of the site file.
    Schema {
        /// Print that of the shell file instead.
        #[arg(long)]
        shell: bool,
        /// Print that of the company's book instead.
        #[arg(long, conflicts_with = "shell")]
        book: bool,
    },
    /// Bring a map (GeoJSON), a list of points or LandXML onto a site and print the new site file.
    ///
    /// What was found becomes what it is proposed to be, unless --as says otherwise. What happened
    /// is said on standard error.
    Import(Box<import::ImportArgs>),
    /// Print a site as a map (GeoJSON), a list of points or LandXML, with the stakes and lines of the work.
    Export(export::ExportArgs),
    /// Read the description of a lot by bearings and distances: its courses, closure and area.
    ///
    /// What was not understood is told line by line. Exits with 1 where that keeps the courses from being a lot.
    Deed(deed::DeedArgs),
    /// List the catalogue of shells, or print one of them in full.
    Shells(shells::ShellsArgs),
    /// Print every figure that the work rests on: its value, where it comes from, how it was checked.
    Sources(sources::SourcesArgs),
    /// Print the script with which a command shell completes commands and options.
    Completions {
        /// The command shell.
        shell: Shell,
    },
    /// Print the manual page, for man.
    Manual,
}

#[derive(Args)]
struct SitesArgs {
    /// Site files, or folders of them; - reads standard input.
    #[arg(required = true, value_name = "SITE")]
    sites: Vec<PathBuf>,
    /// The units to print, in place of each site's own.
    #[arg(long, value_enum)]
    units: Option<Units>,
}

#[derive(Args)]
struct SiteArgs {
    /// The site file; - reads standard input.
    site: PathBuf,
    /// The units to print, in place of the site's own.
    #[arg(long, value_enum)]
    units: Option<Units>,
}

/// The units a report is printed in.
#[derive(Clone, Copy, ValueEnum)]
enum Units {
    /// Feet and inches, cubic yards, gallons, short tons.
    Feet,
    /// Meters, cubic meters, litres, tonnes.
    Metres,
}

impl From<Units> for System {
    fn from(units: Units) -> Self {
        match units {
            Units::Feet => Self::Feet,
            Units::Metres => Self::Metres,
        }
    }
}

fn main() -> ExitCode {
    match run(Cli::parse().command) {
        Ok(code) => code,
        Err(error) => {
            eprintln!("batterboard: {error:#}");
            ExitCode::from(UNREADABLE)
        }
    }
}

fn run(command: Command) -> Result<ExitCode> {
    match command {
        Command::Report { sites, json } => {
            let question = match json {
                true => Question::ReportJson,
                false => Question::ReportText,
            };
            return sites.print(question, json);
        }
        Command::Takeoff { sites, csv, json } => {
            let question = match (csv, json) {
                (true, _) => Question::TakeoffList,
                (_, true) => Question::TakeoffJson,
                _ => Question::TakeoffText,
            };
            if csv && folder::only_file(&sites.sites).is_none() {
                bail!("a list for a spreadsheet is of one site; use --json for several");
            }
            return sites.print(question, json);
        }
        Command::Balance { site, json } => {
            let opened = input::open(&site.site)?;
            let (balance, step) = (Question::Balance, Question::CopingStep);
            let answers = (site.ask(opened.clone(), balance), site.ask(opened, step));
            let (Answer::Balance(Some(balance)), Answer::CopingStep(nudge)) = answers else {
                bail!("no shell is placed yet");
            };
            print(&if json {
                json::to_string(&serde_json::json!({ "balance": balance, "nudge": nudge }))
            } else {
                format!("{}\n{}", balance.to_text(), nudge.to_text())
            })?;
        }
        Command::Compare { site, json } => {
            let opened = input::open(&site.site)?;
            if let Answer::Comparison(compared) = site.ask(opened, Question::Comparison) {
                print(&if json {
                    compared.to_json()
                } else {
                    compared.to_text()
                })?;
            }
        }
        Command::Stakes(args) => print(&stakes::run(&args)?)?,
        Command::Fit(args) => fit::run(&args)?,
        Command::ClearGround(args) => fit::clear_ground(&args)?,
        Command::WayIn(args) => return Ok(read(way_in::run(&args)?)),
        Command::Sun(args) => return Ok(read(sun::run(&args)?)),
        Command::Sheet(args) => print(&sheet::run(&args)?)?,
        Command::Check { sites } => return sites.check(),
        Command::Book(args) => print(&book::run(&args)?)?,
        Command::Schema { shell, book } => {
            let schema = match (shell, book) {
                (true, _) => schema::shell(),
                (_, true) => schema::book(),
                _ => schema::site(),
            };
            print(&json::to_string(&schema))?;
        }
        Command::Import(args) => {
            let imported = import::run(&args)?;
            if !imported.told.is_empty() {
                eprintln!("{}", imported.told.trim_start());
            }
            print(&imported.text)?;
        }
        Command::Export(args) => print(&export::run(&args)?)?,
        Command::Deed(args) => {
            let read = deed::run(&args)?;
            if !read.told.is_empty() {
                eprintln!("{}", read.told.trim_start());
            }
            print(&read.text)?;
            return Ok(read.code);
        }
        Command::Shells(args) => print(&shells::run(&args)?)?,
        Command::Sources(args) => print(&sources::run(&args)?)?,
        Command::Completions { shell } => {
            print(&manual::completions(shell, Cli::command())?)?;
        }
        Command::Manual => print(&manual::page(&Cli::command())?)?,
    }
    Ok(ExitCode::SUCCESS)
}

impl SitesArgs {
    /// Prints the texts that answer a question: of one file as it is, of several each with its file.
    fn print(&self, question: Question, as_json: bool) -> Result<ExitCode> {
        let text = |file: &Path| match ask(input::open(file)?, question, self.units) {
            Answer::Text(text) => Ok(text),
            _ => bail!("that is not answered with a text"),
        };
        if let Some(file) = folder::only_file(&self.sites) {
            print(&text(file)?)?;
            return Ok(ExitCode::SUCCESS);
        }
        let whole = folder::each(&self.sites, text, |name, text| match as_json {
            true => folder::as_a_line(name, text),
            false => Ok(folder::under_its_name(name, text)),
        })?;
        Ok(read(whole))
    }

    /// Prints what a check says of each site, and ends with the gravest of it.
    fn check(&self) -> Result<ExitCode> {
        if let Some(file) = folder::only_file(&self.sites) {
            let report = self.report(file)?;
            print(&report.to_check_text())?;
            return Ok(ExitCode::from(code(&report)));
        }
        let mut codes = Vec::new();
        let report = |file: &Path| self.report(file).map(|it| (code(&it), it.to_check_text()));
        folder::each(&self.sites, report, |name, answer| {
            codes.push(answer.as_ref().map_or(UNREADABLE, |(code, _)| *code));
            Ok(folder::under_its_name(name, answer.map(|(_, text)| text)))
        })?;
        let gravest = [UNREADABLE, WRONG, UNCHECKED]
            .into_iter()
            .find(|it| codes.contains(it));
        Ok(gravest.map_or(ExitCode::SUCCESS, ExitCode::from))
    }

    /// Opens a site and computes everything that a check prints.
    fn report(&self, file: &Path) -> Result<Report> {
        let Opened { site, findings, .. } = input::open(file)?;
        let mut cache = Cache::default();
        let mut analysis = analysis::run(&Scenario::of(&site), Detail::Complete, &mut cache);
        analysis.findings.extend(findings);
        Ok(Report::new(&site, &analysis, units(self.units, &site)))
    }
}

/// What a check says by its exit code.
fn code(report: &Report) -> u8 {
    match report.verdict.standing {
        Standing::Conflict | Standing::Short => WRONG,
        Standing::NotPlaced | Standing::Unchecked => UNCHECKED,
        Standing::Reserved | Standing::Holds => 0,
    }
}

/// How a command ends that could read every file, or could not.
fn read(whole: bool) -> ExitCode {
    if whole {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(UNREADABLE)
    }
}

impl SiteArgs {
    /// Asks a question of a site.
    fn ask(&self, opened: Opened, question: Question) -> Answer {
        ask(opened, question, self.units)
    }
}

/// Asks a question of a site, in the units wanted or in its own.
fn ask(opened: Opened, question: Question, wanted: Option<Units>) -> Answer {
    let Opened { site, findings, .. } = opened;
    let units = units(wanted, &site);
    let study = Study::new(site, question).in_units(units);
    study.with_findings(findings).run()
}

/// The units to print.
fn units(wanted: Option<Units>, site: &CheckedSite) -> System {
    wanted.map_or(site.site().display, System::from)
}

/// Whether somebody reads what is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reader {
    There,
    Gone,
}

/// Writes to standard output. A reader that has gone away (`batterboard report s | head`) is
/// no error.
fn print(text: &str) -> Result<()> {
    tell(text)?;
    Ok(())
}

/// Writes to standard output, and gives whether somebody reads on.
fn tell(text: &str) -> Result<Reader> {
    let mut out = std::io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    match written {
        Ok(()) => Ok(Reader::There),
        Err(e) if e.kind() == std::io::ErrorKind::BrokenPipe => Ok(Reader::Gone),
        Err(e) => Err(e).context("cannot write the output"),
    }
}
