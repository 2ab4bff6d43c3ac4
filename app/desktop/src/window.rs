//! The window: takes keys, files and answers, draws the panels, and runs what was done.

use std::{
    io::Write as _,
    path::Path,
    sync::Arc,
    time::{Duration, Instant},
};

use eframe::CreationContext;
use egui::{Key, ThemePreference, Ui, ViewportCommand};
use propwright_engine::policy::Policy;
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, load::load_catalogue};

use crate::{
    browse::Dialogs,
    command::{ACTIONS, Action, Command, Entry},
    demo,
    files::Disk,
    panel::{self, Commands},
    run_command::{self, Outside, importing::Table},
    state::{App, Appearance, Memory, Page},
    stored,
    theme::{self, Theme},
    worker::Worker,
};

/// Under which name the window's memory is kept.
const MEMORY: &str = "memory";
/// Prints the time to the first frame on standard error when this variable is set.
const TRACE: &str = "PROPWRIGHT_TRACE";
/// How much work a sudden end can cost at most.
const REMEMBERED_EVERY: Duration = Duration::from_secs(10);
/// A report may ask for another; no more than this often in one frame.
const ROUNDS: usize = 8;

/// Opens the window on a build file, or on the last document.
///
/// # Errors
/// When no window can be opened, with the reason in a few words.
pub fn open_window(file: Option<&Path>) -> Result<(), String> {
    let begun = Instant::now();
    let viewport = egui::ViewportBuilder::default()
        .with_app_id("propwright")
        .with_inner_size([1280.0, 800.0])
        .with_min_inner_size([900.0, 600.0])
        .with_icon(eframe::icon_data::from_png_bytes(include_bytes!("../../../assets/icon.png")).unwrap_or_default());
    let options = eframe::NativeOptions { viewport, renderer: eframe::Renderer::Glow, ..eframe::NativeOptions::default() };
    let file = file.map(Path::to_owned);
    let create = move |cc: &CreationContext<'_>| -> Result<Box<dyn eframe::App>, Box<dyn std::error::Error + Send + Sync>> {
        let ctx = cc.egui_ctx.clone();
        let worker = Worker::threaded(move || ctx.request_repaint())?;
        let mut window = Window::new(cc, sample_catalogue()?, worker)?;
        window.restore();
        match &file {
            Some(file) => window.read(file),
            None => window.begin(),
        }
        window.trace = std::env::var_os(TRACE).map(|_| begun);
        Ok(Box::new(window))
    };
    eframe::run_native("propwright", options, Box::new(create)).map_err(|error| error.to_string())
}

/// The demo parts.
///
/// # Errors
/// The first problem of the texts; a test holds that there is none.
pub fn sample_catalogue() -> Result<Catalogue, String> {
    let mut catalogue = Catalogue::default();
    for (file, text) in propwright_sample::CATALOGUE {
        let read =
            load_catalogue(file, text).map_err(|problems| problems.first().map_or_else(String::new, ToString::to_string))?;
        catalogue.lay_over(&read);
    }
    Ok(catalogue)
}

/// The demo build; an empty one should its text not be read.
pub fn demo_build() -> BuildList {
    demo::build(propwright_sample::DEMO).unwrap_or_else(|| BuildList::empty(demo::NEW))
}

/// The window's content and what lies outside it.
pub struct Window {
    app: App,
    outside: Outside,
    trace: Option<Instant>,
    title: String,
    /// Had the window the keys in the last frame?
    focused: bool,
}

impl Window {
    /// A window without a document.
    ///
    /// # Errors
    /// When the theme cannot be read; a test holds that it can.
    pub fn new(cc: &CreationContext<'_>, catalogue: Catalogue, worker: Worker) -> Result<Self, ron::error::SpannedError> {
        let memory = cc.storage.and_then(|storage| eframe::get_value::<Memory>(storage, MEMORY)).unwrap_or_default();
        Self::with_memory(cc, catalogue, worker, memory)
    }

    /// The same with what is remembered from the last start.
    ///
    /// # Errors
    /// As [`Window::new`].
    pub fn with_memory(
        cc: &CreationContext<'_>,
        catalogue: Catalogue,
        worker: Worker,
        memory: Memory,
    ) -> Result<Self, ron::error::SpannedError> {
        theme::install(&cc.egui_ctx, &Theme::embedded()?);
        let ctx = cc.egui_ctx.clone();
        let outside = Outside { worker, dialogs: Dialogs::default(), wake: Arc::new(move || ctx.request_repaint()), dark: false };
        Ok(Self {
            app: App::new(Arc::new(catalogue), Arc::new(Policy::default()), memory),
            outside,
            trace: None,
            title: String::new(),
            focused: true,
        })
    }

    /// Puts in force and opens again what is remembered from the last start.
    pub fn restore(&mut self) {
        run_command::restore(&mut self.app, &mut self.outside);
    }

    /// What the window holds.
    pub const fn app(&self) -> &App {
        &self.app
    }

    /// Opens a build list that is in no file.
    pub fn open(&mut self, build: BuildList) {
        run_command::open(&mut self.app, &mut self.outside, build);
    }

    /// Writes on a disk from now on, such as one that fails.
    pub const fn write_on(&mut self, disk: Disk) {
        self.app.disk = disk;
    }

    /// Opens a file; the demo build beside the reason when it cannot be read.
    pub fn read(&mut self, file: &Path) {
        run_command::run(&mut self.app, &mut self.outside, Command::Read(file.to_owned()));
        if self.app.documents.is_empty() {
            self.open(demo_build());
        }
    }

    /// Opens the file used last, or the demo build.
    fn begin(&mut self) {
        match self.app.memory.recent.first().cloned() {
            _ if !self.app.documents.is_empty() => {}
            Some(file) => self.read(&file),
            None => self.open(demo_build()),
        }
    }

    /// What the keys, the system and the worker say, as commands.
    fn heard(&mut self, ui: &Ui) -> Commands {
        let mut commands = keys(ui, &self.app);
        let dropped = ui.input(|input| input.raw.dropped_files.clone());
        commands.extend(dropped.iter().map(|file| Command::Read(file.path().to_owned())));
        let focused = ui.input(|input| input.focused);
        if focused && !self.focused {
            commands.push(Command::Back);
        }
        self.focused = focused;
        commands.extend(self.outside.dialogs.answers().into_iter().map(Command::Browsed));
        if ui.input(|input| input.viewport().close_requested()) && !self.app.left {
            ui.send_viewport_cmd(ViewportCommand::CancelClose);
            commands.push(Command::Do(self.app.current, Action::Quit));
        }
        commands
    }

    /// The window's title follows the document.
    fn entitle(&mut self, ui: &Ui) {
        let Some(document) = self.app.shown() else { return };
        let edited = if document.is_edited() { ", edited" } else { "" };
        let title = format!("{}{edited} – Propwright", document.build.name);
        if title != self.title {
            ui.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    /// Does a command, as a panel asks for it.
    pub fn command(&mut self, command: Command) {
        self.run(vec![command]);
    }

    fn run(&mut self, commands: Commands) {
        for command in commands {
            run_command::run(&mut self.app, &mut self.outside, command);
        }
        for _ in 0..ROUNDS {
            let answers = self.outside.worker.answers();
            if answers.is_empty() {
                break;
            }
            for answer in answers {
                run_command::run(&mut self.app, &mut self.outside, Command::Answered(answer));
            }
        }
    }
}

/// The actions whose keys were pressed. A text field keeps the keys that delete and enter; undo takes an edit of the list
/// back even while the filter is typed.
fn keys(ui: &Ui, app: &App) -> Commands {
    let typing = ui.ctx().text_edit_focused();
    // Undo goes through what is being typed in a field of the list first.
    let in_form = app.entering.as_ref().filter(|_| app.page == Page::Parts);
    let drafts = app.shown().is_some_and(|document| !document.drafts.is_empty())
        || in_form.is_some_and(|entering| !entering.drafts.is_empty());
    let in_field = drafts && panel::is_typing(ui.ctx());
    let mut commands = Commands::new();
    // A shortcut is found even with more keys held than it asks for: the one that asks for most goes first.
    let asks =
        |entry: &&Entry| std::cmp::Reverse(usize::from(entry.key.modifiers.shift) + usize::from(entry.key.modifiers.command));
    let mut entries: Vec<&Entry> = ACTIONS.iter().collect();
    entries.sort_by_key(asks);
    for entry in entries {
        let kept = typing && matches!(entry.action, Action::TakeOut | Action::Choose)
            || in_field && matches!(entry.action, Action::Undo | Action::Redo);
        let covered = app.cover.is_some() && entry.action != Action::Quit;
        if kept || covered {
            continue;
        }
        if ui.input_mut(|input| input.consume_shortcut(&entry.key)) && entry.action.is_open(app, app.current) {
            commands.push(Command::Do(app.current, entry.action));
        }
    }
    let picking = app.shown().is_some_and(|document| document.picker.is_some());
    let choosing = app.cover.is_none() && (picking || in_form.is_some() || app.importing.is_some());
    if choosing
        && app.page == Page::Parts
        && !panel::is_typing(ui.ctx())
        && !egui::Popup::is_any_open(ui.ctx())
        && ui.input(|input| input.key_pressed(Key::Escape))
    {
        commands.push(if in_form.is_some() {
            Command::LeaveForm
        } else if app.importing.is_some() {
            Command::Table(Table::Close)
        } else {
            Command::Pick(app.current, None)
        });
    }
    commands
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        let preference = match self.app.memory.appearance {
            Appearance::System => ThemePreference::System,
            Appearance::Light => ThemePreference::Light,
            Appearance::Dark => ThemePreference::Dark,
        };
        ui.ctx().set_theme(preference);
        self.outside.dark = ui.visuals().dark_mode;
        let heard = self.heard(ui);
        self.run(heard);
        let mut commands = Commands::new();
        panel::show(ui, &self.app, &mut commands);
        if !commands.is_empty() {
            // What was done shows in the next frame.
            ui.ctx().request_repaint();
        }
        self.run(commands);
        self.entitle(ui);
        if self.app.left {
            ui.send_viewport_cmd(ViewportCommand::Close);
        }
        if let Some(begun) = self.trace.take() {
            // Nobody may be listening; that is no reason to stop.
            let _ = writeln!(std::io::stderr(), "first-frame {}", begun.elapsed().as_millis());
        }
    }

    fn auto_save_interval(&self) -> Duration {
        REMEMBERED_EVERY
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        let unsaved = stored::unsaved(&self.app.documents);
        let entering = run_command::entering::unkept(&self.app);
        eframe::set_value(storage, MEMORY, &Memory { unsaved, entering, page: self.app.page, ..self.app.memory.clone() });
    }
}
