//! What a frame costs in CPU time while a condition is dragged on page Flight: the edit, the whole report, all curves with their
//! bands, layout and tessellation, on one thread. Fails when more than a tenth of the frames of a build take more than 16 ms.
//!
//! In the window the report and the curves are computed beside the frames, and what a later frame has overtaken is dropped: this
//! is the most that a frame can cost.

#![expect(clippy::unwrap_used, reason = "a bench that cannot prepare its window has failed")]

use std::{
    fs,
    io::Write as _,
    process::ExitCode,
    sync::Arc,
    thread,
    time::{Duration, Instant},
};

use egui::{Context, Pos2, RawInput, Rect};
use propwright::{
    browse::Dialogs,
    command::Command,
    edit::Edit,
    panel,
    run_command::{self, Outside},
    state::{App, Memory, Page},
    theme::{self, Theme},
    window::sample_catalogue,
    worker::Worker,
};
use propwright_engine::{evaluate, policy::Policy, sweep::sweep};
use propwright_schema::{
    build_list::{BuildList, Conditions},
    quantity::MetresPerSecond,
};
use propwright_tests::sample;

/// What a frame may take.
const MOST: Duration = Duration::from_millis(16);
const FRAMES: usize = 60;
const SIZE: [f32; 2] = [1920.0, 1080.0];

/// CPU time of this thread; where the system does not tell it, the time that has passed.
///
/// Linux brings the count up to date when it takes the processor away from the thread, else every 4 ms only: hence the offer.
fn cpu(begun: Instant) -> Duration {
    thread::yield_now();
    let told = fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanos = told.and_then(|text| text.split_whitespace().next().and_then(|first| first.parse().ok()));
    nanos.map_or_else(|| begun.elapsed(), Duration::from_nanos)
}

struct Bench {
    ctx: Context,
    app: App,
    outside: Outside,
    begun: Instant,
    frames: u32,
}

impl Bench {
    fn new(build: BuildList) -> Self {
        let ctx = Context::default();
        theme::install(&ctx, &Theme::embedded().unwrap());
        let worker = Worker::Inline(Vec::new());
        let mut outside = Outside { worker, dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false };
        let mut app = App::new(Arc::new(sample_catalogue().unwrap()), Arc::new(Policy::default()), Memory::default());
        run_command::open(&mut app, &mut outside, build);
        let mut bench = Self { ctx, app, outside, begun: Instant::now(), frames: 0 };
        bench.run(Command::Page(Page::Flight));
        for _ in 0..8 {
            bench.frame(None);
        }
        bench
    }

    fn run(&mut self, command: Command) {
        run_command::run(&mut self.app, &mut self.outside, command);
    }

    /// One frame, with the wind dragged to so many tenths of a metre a second before it.
    fn frame(&mut self, wind: Option<u32>) -> Duration {
        self.frames += 1;
        let before = cpu(self.begun);
        if let Some(wind) = wind {
            let wind_ms = MetresPerSecond::from_decimal(f64::from(wind) / 10.0).ok();
            let conditions = self.app.shown().unwrap().build.conditions.clone();
            let edit = Edit::Conditions(Box::new(Conditions { wind_ms, ..conditions }));
            self.run(Command::Drag(self.app.current, edit));
        }
        loop {
            let answers = self.outside.worker.answers();
            if answers.is_empty() {
                break;
            }
            for answer in answers {
                self.run(Command::Answered(answer));
            }
        }
        let screen_rect = Some(Rect::from_min_size(Pos2::ZERO, SIZE.into()));
        let input = RawInput { screen_rect, time: Some(f64::from(self.frames) / 60.0), ..RawInput::default() };
        let mut commands = Vec::new();
        let output = self.ctx.run_ui(input, |ui| panel::show(ui, &self.app, &mut commands));
        for command in commands {
            self.run(command);
        }
        assert!(!self.ctx.tessellate(output.shapes, output.pixels_per_point).is_empty());
        cpu(self.begun).saturating_sub(before)
    }
}

/// Prints the times, and gives the least of the slowest tenth.
fn said(name: &str, mut took: Vec<Duration>) -> Duration {
    took.sort();
    let millis = |time: Duration| time.as_secs_f64() * 1000.0;
    let (median, tenth) = (took[took.len() / 2], took[took.len() * 9 / 10]);
    let _ = writeln!(std::io::stdout(), "{name:<52} {:6.2} ms   slowest tenth {:6.2} ms", millis(median), millis(tenth));
    tenth
}

fn main() -> ExitCode {
    let mut good = true;
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    for (name, build) in sample::reference() {
        let mut bench = Bench::new(build.clone());
        let build = Arc::new(build);
        let begun = Instant::now();
        let timed = |work: &dyn Fn()| {
            let before = cpu(begun);
            work();
            cpu(begun).saturating_sub(before)
        };
        let report = evaluate(&catalogue, &build, &policy);
        said(
            &format!("{name}: report"),
            (0..FRAMES / 4).map(|_| timed(&|| drop(evaluate(&catalogue, &build, &policy)))).collect(),
        );
        said(&format!("{name}: curves"), (0..FRAMES / 4).map(|_| timed(&|| drop(sweep(&report, &policy)))).collect());
        said(&format!("{name}: frame at rest"), (0..FRAMES).map(|_| bench.frame(None)).collect());
        let dragged = (0..FRAMES).map(|at| bench.frame(Some(u32::try_from(at % 40).unwrap_or(0))));
        good &= said(&format!("{name}: frame while the wind is dragged"), dragged.collect()) <= MOST;
        let document = bench.app.shown().unwrap();
        assert!(document.curves.are_of(document.report().unwrap()), "the curves follow");
    }
    if good { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
