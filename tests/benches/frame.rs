//! What a frame costs in CPU time with 20 000 parts, page by page, without a graphics driver: layout, the commands of the
//! frame, and tessellation. Fails when a usual frame of any page takes more than 4 ms.

#![expect(clippy::unwrap_used, reason = "a bench that cannot prepare its window has failed")]

use std::{
    io::Write as _,
    process::ExitCode,
    sync::Arc,
    thread,
    time::{Duration, Instant},
};

use egui::{Context, Event, Modifiers, MouseWheelUnit, Pos2, RawInput, Rect, TouchPhase, pos2, vec2};
use propwright::{
    browse::Dialogs,
    command::{Action, Command},
    entering::Spot,
    panel,
    run_command::{self, Outside, entering::Enter},
    state::{App, Cover, DocumentId, Help, Memory, Page, Topic},
    theme::{self, Theme},
    window::sample_catalogue,
    worker::Worker,
};
use propwright_engine::policy::Policy;
use propwright_schema::{catalogue::CatalogueFile, load::load_catalogue, slot::Slot, table::write_catalogue, version::CURRENT};
use propwright_tests::{many_parts, sample, scratch::Scratch};

/// What a usual frame may take.
const MOST: Duration = Duration::from_millis(4);
/// Frames that are timed for each line.
const FRAMES: usize = 100;
const SIZE: [f32; 2] = [1920.0, 1080.0];

struct Bench {
    ctx: Context,
    app: App,
    outside: Outside,
    at: f64,
}

impl Bench {
    fn new() -> Self {
        let mut catalogue = sample_catalogue().unwrap();
        let many = many_parts::catalogue_text(many_parts::MANY, many_parts::SEED);
        catalogue.lay_over(&load_catalogue("many.ron", &many).unwrap());
        let ctx = Context::default();
        theme::install(&ctx, &Theme::embedded().unwrap());
        let worker = Worker::threaded(|| {}).unwrap();
        let mut outside = Outside { worker, dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false };
        let mut app = App::new(Arc::new(catalogue), Arc::new(Policy::default()), Memory::default());
        run_command::open(&mut app, &mut outside, sample::demo());
        Self { ctx, app, outside, at: 0.0 }
    }

    fn id(&self) -> DocumentId {
        self.app.current
    }

    fn run(&mut self, command: Command) {
        run_command::run(&mut self.app, &mut self.outside, command);
    }

    /// One frame as the window draws it; the evaluation itself runs on the worker's thread.
    fn frame(&mut self, events: Vec<Event>) -> Duration {
        self.at += 1.0 / 60.0;
        let screen_rect = Some(Rect::from_min_size(Pos2::ZERO, SIZE.into()));
        let input = RawInput { screen_rect, time: Some(self.at), events, ..RawInput::default() };
        let begun = Instant::now();
        for answer in self.outside.worker.answers() {
            self.run(Command::Answered(answer));
        }
        let mut commands = Vec::new();
        let output = self.ctx.run_ui(input, |ui| panel::show(ui, &self.app, &mut commands));
        for command in commands {
            self.run(command);
        }
        let drawn = self.ctx.tessellate(output.shapes, output.pixels_per_point);
        let took = begun.elapsed();
        assert!(!drawn.is_empty());
        took
    }

    /// Draws until the worker has nothing more to say.
    fn settle(&mut self) {
        for _ in 0..40 {
            self.frame(Vec::new());
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Times frames; says the line's median and its slowest tenth, and whether the median keeps to the limit.
    fn time(&mut self, name: &str, mut events: impl FnMut(usize) -> Vec<Event>) -> bool {
        self.settle();
        let mut took: Vec<Duration> = (0..FRAMES).map(|at| self.frame(events(at))).collect();
        took.sort();
        let (median, tenth) = (took[FRAMES / 2], took[FRAMES * 9 / 10]);
        let millis = |time: Duration| time.as_secs_f64() * 1000.0;
        let _ = writeln!(std::io::stdout(), "{name:<44} {:6.2} ms   slowest tenth {:6.2} ms", millis(median), millis(tenth));
        median <= MOST
    }
}

/// The mouse goes over the window.
fn over(at: usize) -> Vec<Event> {
    let share = at as f32 / FRAMES as f32;
    vec![Event::PointerMoved(pos2(SIZE[0] * share, SIZE[1] * (0.1 + 0.8 * share)))]
}

/// The wheel turns over what stands beside the drawing.
fn turn(_: usize) -> Vec<Event> {
    let wheel = Event::MouseWheel {
        unit: MouseWheelUnit::Point,
        delta: vec2(0.0, -40.0),
        phase: TouchPhase::Move,
        source: egui::MouseWheelSource::Wheel,
        modifiers: Modifiers::NONE,
    };
    vec![Event::PointerMoved(pos2(SIZE[0] - 100.0, SIZE[1] * 0.5)), wheel]
}

fn pages(bench: &mut Bench) -> bool {
    let mut good = true;
    for page in Page::ALL {
        bench.run(Command::Page(page));
        good &= bench.time(&format!("page {}, the mouse moves", page.word()), over);
    }
    good
}

fn picker(bench: &mut Bench) -> bool {
    let mut good = true;
    for slot in [Slot::Motor, Slot::Battery] {
        let place = bench.app.document(bench.id()).unwrap().first_place(slot);
        bench.run(Command::Pick(bench.id(), Some(place)));
        let many = bench.app.document(bench.id()).unwrap().picker.as_ref().unwrap().parts.len();
        good &= bench.time(&format!("{many} of {}, scrolled", slot.title().to_lowercase()), turn);
        let letters = ["k", "v", " ", "2"];
        let typed = |at: usize| vec![Event::Text(if at % 8 < 4 { letters[at % 4] } else { "" }.to_owned())];
        good &= bench.time(&format!("{many} of {}, filter typed", slot.title().to_lowercase()), typed);
    }
    bench.run(Command::Pick(bench.id(), None));
    good
}

fn covers(bench: &mut Bench) -> bool {
    let mut good = true;
    for words in ["", "motor", "no part is called so"] {
        bench.run(Command::Cover(Some(Cover::Finder { words: words.to_owned(), line: 0 })));
        good &= bench.time(&format!("finder, “{words}”"), over);
    }
    for topic in Topic::ALL {
        bench.run(Command::Help(Help { topic, ..Help::default() }));
        good &= bench.time(&format!("help, {}", topic.word().to_lowercase()), over);
    }
    bench.run(Command::Do(bench.id(), Action::Sources));
    good &= bench.time("catalogues and thresholds", over);
    bench.run(Command::Cover(None));
    good
}

/// Rows of the table that is read.
const ROWS: usize = 5_000;

/// The user's own catalogue: forms, and a table all of whose rows are there already.
fn own(bench: &mut Bench) -> bool {
    let mut good = true;
    for kind in ["motor", "flight controller"] {
        bench.run(Command::Enter(Enter::New(kind)));
        good &= bench.time(&format!("form of a {kind}, scrolled"), turn);
        let name = Spot::of(None, "name");
        let mut typed = String::new();
        bench.settle();
        let mut took: Vec<Duration> = Vec::new();
        for _ in 0..FRAMES {
            typed.push('m');
            let begun = Instant::now();
            bench.run(Command::Enter(Enter::Type(name, typed.clone())));
            took.push(begun.elapsed() + bench.frame(Vec::new()));
        }
        took.sort();
        let _ = writeln!(std::io::stdout(), "form of a {kind}, typed: {:.2} ms", took[FRAMES / 2].as_secs_f64() * 1000.0);
        good &= took[FRAMES / 2] <= MOST;
        bench.run(Command::Enter(Enter::Close));
    }
    let scratch = Scratch::new("bench of a table");
    let parts = many_parts::parts(ROWS, many_parts::SEED).into_iter().map(Into::into).collect();
    let table = write_catalogue(&CatalogueFile { version: CURRENT, parts, kits: Vec::new() }).unwrap();
    bench.run(Command::Read(scratch.file("many.csv", table)));
    while bench.app.importing.as_ref().unwrap().read.is_none() {
        bench.settle();
    }
    assert!(bench.app.importing.as_ref().unwrap().same.len() > ROWS / 2);
    good & bench.time(&format!("table of {ROWS} rows, scrolled"), turn)
}

fn main() -> ExitCode {
    let mut bench = Bench::new();
    let good = [pages(&mut bench), picker(&mut bench), covers(&mut bench), own(&mut bench)];
    if good.into_iter().all(|good| good) { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
