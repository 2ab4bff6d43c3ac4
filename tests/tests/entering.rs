//! Any sequence of form edits, saves, undos and reloads loses nothing and keeps the bytes of records that were not touched.

#![expect(clippy::unwrap_used, reason = "a test without its catalogue has failed")]

use std::{fs, path::Path, sync::Arc};

use proptest::prelude::*;
use propwright::{
    browse::Dialogs,
    command::{Action, Command},
    entering::{Article, KIT, Spot},
    files::{Disk, Step},
    run_command::{self, Outside, entering::Enter, importing::Table},
    state::{App, Cover, Memory},
    window::sample_catalogue,
    worker::Worker,
};
use propwright_schema::{
    catalogue::CatalogueFile,
    load::load_catalogue,
    part::{Basis, Role},
};
use propwright_tests::scratch::Scratch;

/// Written by hand, in nobody's usual form.
const UNTOUCHED: &str =
    "( id : \"scale\",  // weighed twice\n   name: \"Scale\" , mass_g: 11.50, /* as printed */ fills: [ Strap( ) ] )";
const HEAD: &str =
    "// parts of mine\n(version: 1, parts: [\n  (id: \"first\", name: \"First\", fills: [Motor(kv_rpm_per_v: 1800)]),\n  ";
const TAIL: &str = ",\n  // the last one\n  (id: \"last\", name: \"Last\", mass_g: 4, fills: [Propeller(pitch_in: 4.3)]),\n])\n";

/// One thing that a user does.
#[derive(Debug, Clone)]
enum Deed {
    New(usize),
    Change(bool),
    Type(usize, usize),
    Vouch(usize, Option<Basis>),
    Add(usize),
    Keep,
    TakeOut,
    Close,
    Undo,
    Redo,
    Reload,
}

/// Texts of every sort: sound, in other units, not to be read, awkward.
const TEXTS: [&str; 12] = [
    "",
    "12",
    "1.5 oz",
    "0,87 in",
    "17,90 €",
    "2026-11-02",
    "Long \"name\"",
    "ids-and-dashes",
    "-4",
    "1, 2, 3",
    "M3\\,x",
    "// ha */ (",
];

fn deed() -> impl Strategy<Value = Deed> {
    let basis = prop_oneof![Just(None), Just(Some(Basis::Measured)), Just(Some(Basis::Estimate)), Just(Some(Basis::Unpublished))];
    prop_oneof![
        2 => (0..=Role::WORDS.len()).prop_map(Deed::New),
        2 => any::<bool>().prop_map(Deed::Change),
        12 => (0..60_usize, 0..TEXTS.len()).prop_map(|(field, text)| Deed::Type(field, text)),
        2 => (0..60_usize, basis).prop_map(|(field, basis)| Deed::Vouch(field, basis)),
        1 => (0..60_usize).prop_map(Deed::Add),
        4 => Just(Deed::Keep),
        1 => Just(Deed::TakeOut),
        1 => Just(Deed::Close),
        2 => Just(Deed::Undo),
        2 => Just(Deed::Redo),
        1 => Just(Deed::Reload),
    ]
}

/// The places of an article, in one row.
fn spots(article: &Article) -> Vec<Spot> {
    let roles = std::iter::once(None).chain((0..article.roles().len()).map(Some));
    roles.flat_map(|role| article.fields(role).iter().map(move |field| Spot::of(role, field.name))).collect()
}

fn holds(file: &CatalogueFile, article: &Article) -> bool {
    match article {
        Article::Part(part) => file.parts.iter().any(|held| **held == **part),
        Article::Kit(kit) => file.kits.iter().any(|held| **held == **kit),
    }
}

fn outside() -> Outside {
    Outside { worker: Worker::Inline(Vec::new()), dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false }
}

/// Does a command, and all that the worker answers.
fn done(app: &mut App, outside: &mut Outside, command: Command) {
    run_command::run(app, outside, command);
    loop {
        let answers = outside.worker.answers();
        if answers.is_empty() {
            return;
        }
        for answer in answers {
            run_command::run(app, outside, Command::Answered(answer));
        }
    }
}

/// A window in which a table was read whose rows go into a file.
fn reading(table: &Path, into: &Path) -> (App, Outside) {
    let mut app = App::new(Arc::new(sample_catalogue().unwrap()), Arc::default(), Memory::default());
    let mut outside = outside();
    run_command::open(&mut app, &mut outside, propwright_schema::build_list::BuildList::empty("none"));
    done(&mut app, &mut outside, Command::Table(Table::Read(table.to_owned())));
    done(&mut app, &mut outside, Command::Table(Table::Into(into.display().to_string())));
    (app, outside)
}

#[test]
fn rows_that_cannot_be_written_leave_the_file_as_it_was_and_can_be_taken_again() {
    // With a row to be kept aside it is that file which cannot be written.
    let rows = ["Kind,Name,Weight (g)\nstrap,Long,12\n", "Kind,Name,Weight (g)\nstrap,Long,12\nstrap,Heavy,much\n"];
    for (step, rows) in Step::OF_A_SAVE.into_iter().flat_map(|step| rows.map(|rows| (step, rows))) {
        let scratch = Scratch::new("rows not written");
        let table = scratch.file("shop.csv", rows);
        let held = format!("{HEAD}{UNTOUCHED}{TAIL}");
        let file = scratch.file("own.ron", &held);
        let (mut app, mut outside) = reading(&table, &file);
        app.disk = Disk::FailingAt(step);
        done(&mut app, &mut outside, Command::Table(Table::Take));
        let importing = app.importing.as_ref().unwrap();
        assert!(app.taking.is_none() && importing.read.is_some() && !importing.told.is_empty(), "{step:?}");
        if step == Step::SyncFolder {
            // The new state is in its place, only the folder may not be on the disk yet.
            continue;
        }
        assert_eq!(fs::read_to_string(&file).unwrap(), held, "{step:?}");
        assert!(app.deeds_past.is_empty(), "{step:?}");
        app.disk = Disk::Real;
        done(&mut app, &mut outside, Command::Table(Table::Take));
        assert!(fs::read_to_string(&file).unwrap().contains(UNTOUCHED));
        assert!(app.catalogue.part("long").is_some() && app.deeds_past.len() == 1, "{step:?}");
    }
}

#[test]
fn while_rows_are_written_nothing_else_changes_the_files_and_a_closed_table_is_told_of() {
    let scratch = Scratch::new("rows under way");
    let table = scratch.file("shop.csv", "Kind,Name\nstrap,Long\n");
    let file = scratch.file("own.ron", format!("{HEAD}{UNTOUCHED}{TAIL}"));
    let (mut app, mut outside) = reading(&table, &file);
    run_command::run(&mut app, &mut outside, Command::Table(Table::Take));
    assert!(app.taking.is_some(), "the answer waits");
    run_command::run(&mut app, &mut outside, Command::Enter(Enter::New("strap")));
    run_command::run(&mut app, &mut outside, Command::Enter(Enter::Into(file.display().to_string())));
    run_command::run(&mut app, &mut outside, Command::Enter(Enter::Type(Spot::of(None, "name"), "Short".to_owned())));
    run_command::run(&mut app, &mut outside, Command::Enter(Enter::Keep));
    assert!(app.entering.as_ref().unwrap().problems[0].contains("being written"));
    for answer in outside.worker.answers() {
        run_command::run(&mut app, &mut outside, Command::Answered(answer));
    }
    assert!(app.taking.is_none() && app.catalogue.part("long").is_some());
    assert!(matches!(app.cover, Some(Cover::Message { .. })), "the form had taken the place of the table");
    run_command::run(&mut app, &mut outside, Command::Enter(Enter::Keep));
    assert!(app.entering.is_none());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]
    #[test]
    fn nothing_is_lost_and_what_was_not_touched_stays_byte_for_byte(deeds in prop::collection::vec(deed(), 1..40)) {
        let scratch = Scratch::new("entering laws");
        let file = scratch.file("own.ron", format!("{HEAD}{UNTOUCHED}{TAIL}"));
        let mut app = App::new(Arc::new(sample_catalogue().unwrap()), Arc::default(), Memory::default());
        let mut outside =
            Outside { worker: Worker::Inline(Vec::new()), dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false };
        let id = run_command::open(&mut app, &mut outside, propwright_schema::build_list::BuildList::empty("none"));
        run_command::run(&mut app, &mut outside, Command::LayOver(file.clone()));
        for deed in deeds {
            let place = |app: &App, at: usize| {
                let spots = app.entering.as_ref().map(|entering| spots(&entering.article))?;
                spots.get(at % spots.len().max(1)).copied()
            };
            let kept = matches!(deed, Deed::Keep).then(|| app.entering.clone()).flatten();
            let commands = match deed {
                Deed::New(kind) => vec![Command::Enter(Enter::New(Role::WORDS.get(kind).copied().unwrap_or(KIT)))],
                Deed::Change(first) => vec![Command::Enter(Enter::Part(if first { "first" } else { "last" }.to_owned()))],
                Deed::Type(at, text) => place(&app, at).map_or_else(Vec::new, |spot| {
                    vec![Command::Enter(Enter::Type(spot, TEXTS[text].to_owned())), Command::Enter(Enter::Leave(spot))]
                }),
                Deed::Vouch(at, basis) => {
                    place(&app, at).map_or_else(Vec::new, |spot| vec![Command::Enter(Enter::Vouch(spot, basis))])
                }
                Deed::Add(at) => place(&app, at).map_or_else(Vec::new, |spot| vec![Command::Enter(Enter::Add(spot))]),
                Deed::Keep => vec![Command::Enter(Enter::Keep)],
                Deed::TakeOut => vec![Command::Enter(Enter::TakeOut)],
                Deed::Close => vec![Command::Enter(Enter::Close)],
                Deed::Undo => vec![Command::Do(id, Action::Undo)],
                Deed::Redo => vec![Command::Do(id, Action::Redo)],
                Deed::Reload => vec![Command::LayOver(file.clone())],
            };
            for command in commands {
                run_command::run(&mut app, &mut outside, command);
            }
            let text = fs::read_to_string(&file).unwrap();
            prop_assert!(text.contains(UNTOUCHED), "{text}");
            let held = load_catalogue("own.ron", &text);
            prop_assert!(held.is_ok(), "{held:?}\n{text}");
            let held = held.unwrap();
            if let Some(entering) = kept {
                if app.entering.is_none() {
                    let mut article = entering.article.clone();
                    article.keep_price_of(&entering.from);
                    prop_assert!(entering.drafts.is_empty() && holds(&held, &article) || !entering.drafts.is_empty(), "{text}");
                } else {
                    prop_assert!(app.entering.as_ref().is_some_and(|now| !now.form.hindered.is_empty() || !now.problems.is_empty()));
                }
            }
            let in_force = app.sources.catalogues[0].content.as_ref().unwrap();
            prop_assert_eq!(&held, &**in_force);
        }
    }
}
