//! Find anything: actions, slots, findings, open builds and parts by their words.

use propwright_engine::rules;
use propwright_schema::part::Role;

use crate::{
    command::{ACTIONS, Action, Command},
    demo,
    entering::KIT,
    run_command::entering::Enter,
    state::{App, Document, Help, Page, Place},
    view::Waiting,
};

/// How many lines are shown.
const MOST: usize = 12;

/// How a part is called beside its name; also a word by which it is found.
pub(super) const PART: &str = "part";

/// One line of the finder.
pub struct Hit {
    /// What it is: "action", "part", "finding".
    pub kind: &'static str,
    /// Its words.
    pub text: String,
    /// Beside it: a key, a mass.
    pub aside: String,
    /// What Enter does.
    pub commands: Vec<Command>,
}

/// The lines that hold all of the words, in the order: actions, slots, findings, builds, files, rules, parts.
pub fn hits(app: &App, words: &str) -> Vec<Hit> {
    let words: Vec<String> = words.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let Some(document) = app.shown() else { return Vec::new() };
    let any = !words.is_empty();
    let inside = actions(app, document).chain(slots(document)).chain(findings(document));
    let all = inside
        .chain(builds(app))
        .chain(files(app, document))
        .chain(rules(any))
        .chain(demos(any))
        .chain(kinds(any))
        .chain(kits(app, any));
    let matches = |hit: &Hit| {
        let text = format!("{} {}", hit.text, hit.kind).to_lowercase();
        words.iter().all(|word| text.contains(word))
    };
    all.filter(matches).chain(parts(app, document, &words)).take(MOST).collect()
}

fn actions<'a>(app: &'a App, document: &'a Document) -> impl Iterator<Item = Hit> + 'a {
    let open = ACTIONS.iter().filter(|entry| entry.action != Action::Find && entry.action.is_open(app, document.id));
    open.map(|entry| Hit {
        kind: "action",
        text: entry.title_now(app, document.id),
        aside: entry.key_words(),
        commands: vec![Command::Do(document.id, entry.action)],
    })
}

fn slots(document: &Document) -> impl Iterator<Item = Hit> + '_ {
    let rows = document.bench.parts.aboard.iter().chain(&document.bench.parts.ground);
    let filled = rows.map(|row| Hit {
        kind: "slot",
        text: format!("{}: {}", row.title, row.name),
        aside: row.mass.clone(),
        commands: vec![Command::Pick(document.id, Some(row.place))],
    });
    filled.chain(document.bench.parts.more.iter().map(|slot| Hit {
        kind: "slot",
        text: format!("{}: add one", slot.title()),
        aside: String::new(),
        commands: vec![Command::Pick(document.id, Some(Place { slot: *slot, line: None }))],
    }))
}

fn findings(document: &Document) -> impl Iterator<Item = Hit> + '_ {
    let findings = &document.bench.findings;
    // What waits for two figures is one finding.
    let mut waiting: Vec<&Waiting> = findings.questions.iter().flat_map(|question| &question.waiting).collect();
    waiting.sort_by_key(|waits| waits.at);
    waiting.dedup_by_key(|waits| waits.at);
    findings.open.iter().chain(waiting.into_iter().map(|waits| &waits.card)).map(|card| Hit {
        kind: "finding",
        text: format!("{} · {}", card.status.word(), card.about),
        aside: String::new(),
        commands: vec![
            Command::Page(Page::Together),
            Command::Select(document.id, card.slots.first().map(|slot| document.first_place(*slot))),
        ],
    })
}

fn builds(app: &App) -> impl Iterator<Item = Hit> + '_ {
    app.documents.iter().filter(|other| other.id != app.current).map(|other| Hit {
        kind: "open build",
        text: other.build.name.clone(),
        aside: String::new(),
        commands: vec![Command::Show(other.id)],
    })
}

/// Files used last.
fn files<'a>(app: &'a App, document: &'a Document) -> impl Iterator<Item = Hit> + 'a {
    app.memory.recent.iter().filter(|path| document.path.as_ref() != Some(path)).map(|path| Hit {
        kind: "file used last",
        text: path.file_name().unwrap_or_default().to_string_lossy().into_owned(),
        aside: path.parent().map(|folder| folder.display().to_string()).unwrap_or_default(),
        commands: vec![Command::Read(path.clone())],
    })
}

/// Rules only once there are words, each to be read in the help.
fn rules(any: bool) -> impl Iterator<Item = Hit> {
    rules::ALL.iter().filter(move |_| any).map(|rule| Hit {
        kind: "rule",
        text: rule.title.to_owned(),
        aside: rule.id.to_owned(),
        commands: vec![Command::Help(Help::on(rule.id))],
    })
}

/// The builds of the demo catalogue, to begin from.
fn demos(any: bool) -> impl Iterator<Item = Hit> {
    demo::builds().iter().filter(move |_| any).map(|(file, build)| Hit {
        kind: "demo build",
        text: build.name.clone(),
        aside: "opens a copy".to_owned(),
        commands: vec![Command::Demo(file)],
    })
}

/// Forms for parts and kits of the user's own.
fn kinds(any: bool) -> impl Iterator<Item = Hit> {
    Role::WORDS.iter().chain(std::iter::once(&KIT)).filter(move |_| any).map(|kind| Hit {
        kind: "form",
        text: format!("Enter a new {kind}"),
        aside: "your own catalogue".to_owned(),
        commands: vec![Command::Enter(Enter::New(kind))],
    })
}

/// The forms of kits, once there are words.
fn kits(app: &App, any: bool) -> impl Iterator<Item = Hit> + '_ {
    app.catalogue.kits().filter(move |_| any).flat_map(|kit| {
        let hit = |text: String, enter: Enter| Hit {
            kind: "kit",
            text,
            aside: kit.price.map_or_else(String::new, |price| price.to_string()),
            commands: vec![Command::Enter(enter)],
        };
        [
            hit(format!("Change the kit {}", kit.name), Enter::Kit(kit.id.clone())),
            hit(format!("Enter one like the kit {}", kit.name), Enter::CopyKit(kit.id.clone())),
        ]
    })
}

/// Parts only once there are words: a catalogue may be long.
fn parts<'a>(app: &'a App, document: &'a Document, words: &'a [String]) -> impl Iterator<Item = Hit> + 'a {
    app.words.parts(words).filter(move |_| !words.is_empty()).filter_map(|part| {
        let slot = *part.fills.first()?.slots().first()?;
        Some(Hit {
            kind: PART,
            text: part.name.clone(),
            aside: slot.title().to_owned(),
            commands: vec![
                Command::Pick(document.id, Some(document.first_place(slot))),
                Command::Filter(document.id, part.name.clone()),
            ],
        })
    })
}
