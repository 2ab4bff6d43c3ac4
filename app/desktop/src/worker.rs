//! Evaluates off the window's thread, or, for tests, at once.
//!
//! Curves of a flight come after the reports: while a condition is dragged, a state that was overtaken is neither judged nor drawn.
//! A report is asked for with its revision; whoever takes the answer drops it when the list has changed since. A search over the
//! parts of a place goes on in small steps after all else (see `desk`). A job that panics answers so.

mod catalogue;
mod desk;
mod taking;

use std::{
    any::Any,
    panic::{AssertUnwindSafe, catch_unwind},
    path::{Path, PathBuf},
    sync::{Arc, mpsc},
    thread,
};

use propwright_engine::{
    Report,
    bill::{
        Given, kit,
        path::{Course, Stage, Wear, course},
    },
    evaluate_with,
    fit::{
        Means, Replacement,
        compare::{self, compare},
        repair::{Repair, Repairs},
    },
    policy::Policy,
    sweep::{Sweep, sweep},
};
use propwright_paper::sheet::{Format, Sheet};
use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    table::{Duplicate, Imported},
};

use crate::{
    export::{self, Kind},
    files::{self, Disk},
    fitting::Fit,
    state::{DocumentId, Place, Section, Stop, Use, UseKey},
};
pub use catalogue::{Rows, Used};
use catalogue::{imported, uses};
use desk::{Hunt, work};
pub use taking::{Take, Taken};

/// What shall be computed.
#[derive(Clone)]
pub enum Order {
    /// The report of the list.
    Report,
    /// The curves of the craft of a report.
    Curves(Arc<Report>),
    /// The ways out of what stands in the way, until told to stop.
    Repairs(Arc<Report>, Stop),
    /// A document on paper: laid out, or written to a file, in the place of an earlier one where that is said.
    Paper(OnPaper, Option<(PathBuf, bool)>),
    /// Writes the graph, drawn as SVG, to a file, in the place of an earlier one where that is said.
    Graph(String, PathBuf, bool),
    /// The report of a list that is on trial.
    Try,
    /// How every part goes in a place.
    Fits(Asked),
    /// What stands in for the part of a place.
    StandIns(Asked),
    /// Takes these parts before all others in the search that is under way.
    First(Vec<String>),
    /// Ends the search that is under way.
    Stop,
    /// What an article as it is entered changes in builds.
    Used(Used),
    /// What comes of the rows of a table.
    Rows(Rows),
    /// Lays the rows of a table into a catalogue file.
    Take(Take),
    /// What a section of the page of costs shows.
    Costing {
        /// The section.
        section: Section,
        /// The states of the builds that it is about.
        key: Vec<(DocumentId, u64)>,
        /// What is wanted.
        wanted: Wanted,
    },
}

/// What a search asks for.
#[derive(Clone)]
pub struct Asked {
    /// The place.
    pub place: Place,
    /// The report of the list as it is.
    pub now: Arc<Report>,
    /// The parts that are taken before all others.
    pub first: Vec<String>,
}

/// What is worked out about money beside the bill.
#[derive(Clone)]
pub enum Wanted {
    /// Each kit against separate parts.
    Kits(Arc<Report>),
    /// The cost of flying builds one after the other.
    Course(Vec<Arc<BuildList>>),
    /// Reports side by side.
    Compared(Vec<Arc<Report>>),
}

/// What was worked out.
pub enum Worked {
    /// Each kit against separate parts.
    Kits(Vec<kit::Comparison>),
    /// The cost of flying builds one after the other.
    Course(Box<Course>),
    /// Reports side by side.
    Compared(Vec<Arc<Report>>, Box<compare::Comparison>),
}

/// What is put on paper.
#[derive(Clone)]
pub struct OnPaper {
    /// Which document.
    pub kind: Kind,
    /// Size of the paper.
    pub format: Format,
    /// The builds on it.
    pub reports: Vec<Arc<Report>>,
    /// The day that is printed.
    pub day: Option<jiff::civil::Date>,
}

impl OnPaper {
    fn wanted<'a>(&self, reports: &'a [&'a Report], policy: &'a Policy) -> export::Wanted<'a> {
        export::Wanted { kind: self.kind, reports, policy, format: self.format, day: self.day }
    }
}

/// What became of writing a document.
pub enum Written {
    /// The files that hold it.
    Done(Vec<String>),
    /// A file of that name is there.
    There,
    /// Why it was not written.
    Failed(String),
}

/// A task with all that it needs.
#[derive(Clone)]
pub struct Job {
    /// For which document.
    pub document: DocumentId,
    /// For which of its states.
    pub revision: u64,
    /// The parts.
    pub catalogue: Arc<Catalogue>,
    /// The thresholds.
    pub policy: Arc<Policy>,
    /// The list.
    pub build: Arc<BuildList>,
    /// The user's shelf and rates.
    pub given: Arc<Given>,
    /// What to do.
    pub order: Order,
}

impl Job {
    /// All by which it judges besides the list.
    fn means(&self) -> Means<'_> {
        Means { catalogue: &self.catalogue, policy: &self.policy, given: &self.given }
    }
}

/// What came of a job.
pub enum Outcome {
    /// A report.
    Report(Box<Report>),
    /// The curves of a report.
    Curves(Arc<Report>, Box<Sweep>),
    /// Leaves of paper.
    Sheet(Kind, Format, Box<Sheet>),
    /// What became of writing them.
    Written(Written),
    /// What became of writing the graph.
    GraphWritten(Written),
    /// The report of a list that is on trial.
    Tried(Box<Report>),
    /// How some parts go in a place, and how many are left.
    Fits(Place, Vec<Fit>, usize),
    /// Some parts that stand in, and how many are left.
    StandIns(Place, Vec<Replacement>, usize),
    /// Nothing to tell.
    Nothing,
    /// What a section of the page of costs shows, for these states of builds.
    Costing(Section, Vec<(DocumentId, u64)>, Worked),
    /// What came of the rows of a table, by its serial number, and which of them are there already.
    Rows(u64, Box<(Imported, Vec<Duplicate>)>),
    /// What became of rows on their way into a catalogue file, or why nothing was written.
    Taken(Result<Box<Taken>, String>),
    /// What an article changes in builds, for a state of its form.
    Used(UseKey, Vec<Use>),
    /// The ways out; absent when the search was stopped.
    Repairs(Option<Box<Repairs>>),
    /// The job failed; why, as far as it said.
    Failed(String),
}

/// A job that is done.
pub struct Answer {
    /// For which document.
    pub document: DocumentId,
    /// For which of its states.
    pub revision: u64,
    /// What came of it.
    pub outcome: Outcome,
}

/// Where jobs are done.
pub enum Worker {
    /// On a thread of its own.
    Threaded(Threaded),
    /// At once, on the caller's thread.
    Inline(Vec<Answer>),
}

/// The ends of a thread.
pub struct Threaded {
    jobs: mpsc::Sender<Job>,
    answers: mpsc::Receiver<Answer>,
}

impl Worker {
    /// A thread that calls `wake` after each answer.
    ///
    /// # Errors
    /// When the system starts no thread.
    pub fn threaded(wake: impl Fn() + Send + 'static) -> std::io::Result<Self> {
        let (jobs, asked) = mpsc::channel();
        let (done, answers) = mpsc::channel();
        thread::Builder::new().name("worker".to_owned()).spawn(move || work(&asked, &done, &wake))?;
        Ok(Self::Threaded(Threaded { jobs, answers }))
    }

    /// Asks for a job.
    pub fn ask(&mut self, job: Job) {
        match self {
            // A thread that is gone answers nothing; the window then shows what it has.
            Self::Threaded(threaded) => drop(threaded.jobs.send(job)),
            Self::Inline(answers) => answers.extend(done(&job)),
        }
    }

    /// All answers since the last call.
    pub fn answers(&mut self) -> Vec<Answer> {
        match self {
            Self::Threaded(threaded) => threaded.answers.try_iter().collect(),
            Self::Inline(answers) => std::mem::take(answers),
        }
    }
}

/// Leaves out what a later state of the same document has overtaken.
fn drop_stale(waiting: &mut Vec<Job>) {
    let latest = |document: DocumentId, jobs: &[Job]| {
        let revisions = jobs.iter().filter(|job| job.document == document).map(|job| job.revision);
        revisions.max().unwrap_or(0)
    };
    let all = waiting.clone();
    // A table is of no list.
    let of_none = |job: &Job| matches!(job.order, Order::Rows(_) | Order::Take(_));
    waiting.retain(|job| job.revision >= latest(job.document, &all) || of_none(job));
}

/// Does a job as a whole; nothing comes of what only steers a search.
fn done(job: &Job) -> Option<Answer> {
    let outcome = guarded(|| match &job.order {
        Order::Report => Outcome::Report(Box::new(evaluate_with(&job.catalogue, &job.build, &job.policy, &job.given))),
        Order::Curves(report) => Outcome::Curves(Arc::clone(report), Box::new(sweep(report, &job.policy))),
        Order::Repairs(report, stop) => Outcome::Repairs(repairs(job, report, stop)),
        Order::Paper(paper, None) => {
            let reports: Vec<&Report> = paper.reports.iter().map(AsRef::as_ref).collect();
            match paper.wanted(&reports, &job.policy).sheet() {
                Some(sheet) => Outcome::Sheet(paper.kind, paper.format, Box::new(sheet)),
                None => Outcome::Failed("no report to put on paper".to_owned()),
            }
        }
        Order::Paper(paper, Some((path, replace))) => Outcome::Written(written(paper, &job.policy, path, *replace)),
        Order::Graph(text, path, replace) => {
            Outcome::GraphWritten(put(vec![(path.clone(), text.clone().into_bytes())], *replace))
        }
        Order::Try => Outcome::Tried(Box::new(evaluate_with(&job.catalogue, &job.build, &job.policy, &job.given))),
        Order::Fits(asked) => Hunt::fits(job, asked).finish(),
        Order::StandIns(asked) => Hunt::stand_ins(job, asked).finish(),
        Order::First(_) | Order::Stop => Outcome::Nothing,
        Order::Rows(rows) => match imported(job, rows) {
            Some(read) => Outcome::Rows(rows.serial, Box::new(read)),
            None => Outcome::Nothing,
        },
        Order::Take(take) => Outcome::Taken(taking::take(take).map(Box::new)),
        Order::Used(used) => Outcome::Used(used.key.clone(), uses(job, used)),
        Order::Costing { section, key, wanted } => Outcome::Costing(*section, key.clone(), worked(job, wanted)),
    });
    // A slip in a curve takes the curves, not the report.
    let outcome = match (outcome, &job.order) {
        (Outcome::Failed(reason), Order::Take(_)) => Outcome::Taken(Err(reason)),
        (Outcome::Failed(_), Order::Repairs(..)) => Outcome::Repairs(Some(Box::default())),
        (Outcome::Failed(reason), Order::Curves(report)) => Outcome::Curves(Arc::clone(report), Box::new(Sweep::failed(&reason))),
        (Outcome::Nothing, _) => return None,
        (outcome, _) => outcome,
    };
    Some(Answer { document: job.document, revision: job.revision, outcome })
}

/// Tries ways out step by step; `None` as soon as it is told to stop.
fn repairs(job: &Job, report: &Report, stop: &Stop) -> Option<Box<Repairs>> {
    let mut search = Repair::new(job.means(), report);
    while !search.is_done() {
        if stop.is_stopped() {
            return None;
        }
        search.next_chunk(1);
    }
    Some(Box::new(search.finish()))
}

/// Writes a document to its files.
fn written(paper: &OnPaper, policy: &Policy, path: &Path, replace: bool) -> Written {
    let reports: Vec<&Report> = paper.reports.iter().map(AsRef::as_ref).collect();
    match export::files(&paper.wanted(&reports, policy), path, &[]) {
        Ok(files) => put(files, replace),
        Err(error) => Written::Failed(error.to_string()),
    }
}

/// Writes files, or none where one is there that shall stay.
fn put(files: Vec<(PathBuf, Vec<u8>)>, replace: bool) -> Written {
    if !replace && files.iter().any(|(path, _)| files::is_there(path)) {
        return Written::There;
    }
    let mut done = Vec::new();
    for (path, bytes) in files {
        if let Err(error) = Disk::Real.export(&path, &bytes) {
            return Written::Failed(format!("{}: {error} – {}", files::name(&path), error.hint()));
        }
        done.push(files::name(&path));
    }
    Written::Done(done)
}

fn worked(job: &Job, wanted: &Wanted) -> Worked {
    match wanted {
        Wanted::Kits(report) => Worked::Kits(kit::compare(&job.catalogue, report, &job.policy, &job.given)),
        Wanted::Course(builds) => {
            let wear = Wear::of(job.build.training.as_ref());
            let stages: Vec<Stage> =
                builds.iter().map(|build| Stage { build: Arc::clone(build), flown_h: wear.flown_h }).collect();
            Worked::Course(Box::new(course(&job.catalogue, &stages, &job.policy, &job.given, wear)))
        }
        Wanted::Compared(reports) => {
            let each: Vec<&Report> = reports.iter().map(|report| &**report).collect();
            Worked::Compared(reports.clone(), Box::new(compare(&each)))
        }
    }
}

/// Does the work; should it panic, that is the outcome.
fn guarded(work: impl FnOnce() -> Outcome) -> Outcome {
    catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|panic| Outcome::Failed(said(&*panic)))
}

fn said(panic: &(dyn Any + Send)) -> String {
    let text = panic.downcast_ref::<String>().map(String::as_str).or_else(|| panic.downcast_ref::<&str>().copied());
    text.unwrap_or("no reason given").to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job(document: u64, revision: u64, order: Order) -> Job {
        Job {
            document: DocumentId(document),
            revision,
            catalogue: Arc::default(),
            policy: Arc::default(),
            build: Arc::new(BuildList::empty("trial")),
            given: Arc::default(),
            order,
        }
    }

    #[test]
    fn a_panic_is_an_outcome() {
        let outcome = guarded(|| panic!("a slip in a model"));
        assert!(matches!(outcome, Outcome::Failed(reason) if reason == "a slip in a model"));
    }

    #[test]
    fn what_is_overtaken_is_not_done() {
        let mut waiting =
            vec![job(1, 1, Order::Report), job(2, 1, Order::Report), job(1, 3, Order::Report), job(1, 2, Order::Report)];
        drop_stale(&mut waiting);
        let left: Vec<_> = waiting.iter().map(|job| (job.document.0, job.revision)).collect();
        assert_eq!(left, [(2, 1), (1, 3)]);
    }

    #[test]
    fn a_thread_answers_and_wakes() {
        let (woken, wakes) = mpsc::channel();
        let mut worker = Worker::threaded(move || woken.send(()).unwrap_or_default()).unwrap();
        worker.ask(job(1, 1, Order::Report));
        wakes.recv_timeout(std::time::Duration::from_mins(1)).unwrap();
        let answers = worker.answers();
        assert!(matches!(answers.as_slice(), [Answer { revision: 1, outcome: Outcome::Report(_), .. }]));
    }
}
