//! Edits at the level of commands, in random sequences: each can be taken back and done again, and whatever comes of them can be
//! saved and read.

#![expect(clippy::unwrap_used, reason = "a test that cannot prepare its build has failed")]

use std::sync::{Arc, LazyLock};

use proptest::prelude::*;
use propwright::{
    browse::Dialogs,
    command::{Action, Command},
    edit::Edit,
    input::Input,
    run_command::{Outside, open, run},
    state::{App, DocumentId, Memory, Place},
    window::{demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_schema::{
    build_list::{Arrangement, BuildList, Feed},
    catalogue::Catalogue,
    load::load_build,
    save::write_build,
    slot::Slot,
};

static CATALOGUE: LazyLock<Arc<Catalogue>> = LazyLock::new(|| Arc::new(sample_catalogue().unwrap()));

/// Texts as people type them, good and bad.
const TEXTS: [&str; 14] =
    ["", " ", "0", "1", "12", "-3", "2,5 kg", "1000 ft", "80 %", "many", "1, 2, 3, 4", "4 4", "two\nlines", "99999999999999999"];

/// What a hand could do, by four numbers.
fn doing(build: &BuildList, [what, line, other, text]: [usize; 4]) -> Command {
    let id = DocumentId(1);
    let slot = Slot::ALL[other % Slot::ALL.len()];
    let edit = |edit: Edit| Command::Edit(id, edit);
    let parts: Vec<&str> = CATALOGUE.for_slot(slot).map(|part| part.id.as_str()).collect();
    let part = parts.get(text % parts.len().max(1)).map_or("nothing", |part| part).to_owned();
    let count = u32::try_from(other % 250).unwrap();
    match what % 18 {
        0 => edit(Edit::Choose { place: Place { slot, line: None }, part }),
        1 => edit(Edit::Choose { place: Place { slot, line: Some(line) }, part }),
        2 => edit(Edit::Remove { line }),
        3 => edit(Edit::Count { line, count }),
        4 => edit(Edit::Owned { line, owned: other % 2 == 0 }),
        5 => edit(Edit::Feed {
            line,
            feed: [None, Some(Feed::Pack), Some(Feed::Rail("5V".to_owned())), Some(Feed::Own)][other % 4].clone(),
        }),
        6 => edit(Edit::Uart { line, uart: [None, Some(1), Some(7), Some(21)][other % 4] }),
        7 => edit(Edit::Duplicate { line }),
        8 => edit(Edit::Swap { line, with: other % build.parts.len().max(1) }),
        9 => edit(Edit::Relist { line, slot }),
        10 => edit(Edit::Spare { part, arm: other % 2 == 0, count: count % 3 }),
        11 => edit(Edit::Packs { packs: [None, Some(Arrangement::Series), Some(Arrangement::InTurn)][other % 3] }),
        12 => edit(Edit::Rename { name: TEXTS[text % TEXTS.len()].to_owned() }),
        _ => {
            let inputs = [
                Input::Name,
                Input::Note,
                Input::Weighed,
                Input::OutputLimit,
                Input::Purpose("payload_g"),
                Input::Pilot("flown_h"),
                Input::Conditions("altitude_m"),
                Input::Count(line),
                Input::Outputs(line),
                Input::Between(line),
                Input::LineNote(line),
            ];
            Command::Type(id, inputs[other % inputs.len()].clone(), TEXTS[text % TEXTS.len()].to_owned())
        }
    }
}

fn outside() -> Outside {
    Outside { worker: Worker::Inline(Vec::new()), dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false }
}

fn build(app: &App) -> BuildList {
    (*app.documents[0].build).clone()
}

/// The list reads from its text as it is.
fn survives(build: &BuildList) {
    let text = write_build(None, build, build).unwrap();
    assert_eq!(load_build("trial", &text).as_ref(), Ok(build), "{text}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_edited_is_taken_back_done_again_and_saved(
        steps in proptest::collection::vec([0_usize..18, 0_usize..26, 0_usize..400, 0_usize..40], 1..14)
    ) {
        let mut outside = outside();
        let mut app = App::new(Arc::clone(&CATALOGUE), Arc::default(), Memory::default());
        let id = open(&mut app, &mut outside, demo_build());
        let mut states = vec![build(&app)];
        for step in steps {
            let command = doing(&build(&app), step);
            let typed = match &command {
                Command::Type(_, input, _) => Some(input.clone()),
                _ => None,
            };
            run(&mut app, &mut outside, command);
            if let Some(input) = typed {
                run(&mut app, &mut outside, Command::Leave(id, input));
            }
            if build(&app) != states[states.len() - 1] {
                states.push(build(&app));
            }
            survives(&build(&app));
        }
        prop_assert_eq!(app.documents[0].past.len() + 1, states.len());
        for before in states.iter().rev().skip(1) {
            run(&mut app, &mut outside, Command::Do(id, Action::Undo));
            prop_assert_eq!(&build(&app), before);
        }
        prop_assert!(!app.documents[0].is_edited());
        for after in states.iter().skip(1) {
            run(&mut app, &mut outside, Command::Do(id, Action::Redo));
            prop_assert_eq!(&build(&app), after);
        }
        prop_assert!(app.documents[0].future.is_empty());
    }
}
