//! What can be done, as data: one list feeds menu, finder, keys, hover texts and the names of undo.

use std::{path::PathBuf, sync::Arc};

use egui::{Key, KeyboardShortcut, Modifiers};
use propwright_schema::build_list::BuildList;

use propwright_paper::sheet::Format;

use crate::{
    browse::{Browsed, Wish},
    edit::Edit,
    export::Kind,
    input::Input,
    money::Money,
    run_command::{deed_is_next, entering::Enter, importing::Table},
    state::{App, Cover, DocumentId, Entering, GraphLook, Help, Look, Page, Place, Then, Whose},
    worker::Answer,
};

/// A change of what the window holds.
pub enum Command {
    /// Does what the list of actions names.
    Do(DocumentId, Action),
    /// Edits a list.
    Edit(DocumentId, Edit),
    /// Edits a list while a control is held: all of it until the control is let go is one step of undo.
    Drag(DocumentId, Edit),
    /// Lets the control go.
    Drop(DocumentId),
    /// Takes what is being typed in a field; the list stays as it is until the field is left.
    Type(DocumentId, Input, String),
    /// Leaves a field: what was typed becomes an edit; what cannot be read stays in the field.
    Leave(DocumentId, Input),
    /// Gives up what was typed in a field.
    GiveUp(DocumentId, Input),
    /// Sets a place apart.
    Select(DocumentId, Option<Place>),
    /// Begins or ends the choice of a part.
    Pick(DocumentId, Option<Place>),
    /// Changes the words by which parts are filtered.
    Filter(DocumentId, String),
    /// Shows all parts of a slot, or only those that fit.
    OnlyFitting(DocumentId, bool),
    /// Moves to a row of the picker.
    Row(DocumentId, usize),
    /// Judges parts, those that came into view first.
    Try(DocumentId, Vec<String>),
    /// Something about the choice that is under way.
    Choosing(DocumentId, Choosing),
    /// Shows a document.
    Show(DocumentId),
    /// Shows a page.
    Page(Page),
    /// Covers the window, or uncovers it.
    Cover(Option<Cover>),
    /// Shows the help.
    Help(Help),
    /// Opens the system's file dialog for the cover's path.
    Browse(Wish),
    /// Opens a copy of a demo build, by the name of its file.
    Demo(&'static str),
    /// Reads a file as a new document.
    Read(PathBuf),
    /// Writes a document to a file.
    Write {
        /// The document.
        document: DocumentId,
        /// The file.
        path: PathBuf,
        /// Close the document afterwards.
        then_close: bool,
        /// Replace another file of this name.
        replace: bool,
    },
    /// The window was left and is looked at again: files may have changed meanwhile.
    Back,
    /// Settles whose state of a document counts after its file was changed by somebody else.
    Settle(DocumentId, Whose, Then),
    /// Asks under which name a document shall be saved.
    AskName {
        /// The document.
        document: DocumentId,
        /// Close the document afterwards.
        then_close: bool,
    },
    /// Lays a catalogue file over the others, or reads it again.
    LayOver(PathBuf),
    /// Lays a catalogue file in force over all others.
    OnTop(PathBuf),
    /// Takes a catalogue or policy file out of force.
    LeaveOut(PathBuf),
    /// Judges by the thresholds of a file.
    JudgeBy(PathBuf),
    /// Changes shelf, rates or the page of costs.
    Money(Money),
    /// Saves a document and closes it.
    SaveAndClose(DocumentId),
    /// Closes a document, saved or not.
    Discard(DocumentId),
    /// Chooses what is put on paper, and of which size.
    Paper(DocumentId, Kind, Format),
    /// Changes the file that paper is written to.
    PaperPath(DocumentId, String),
    /// Writes it.
    PaperWrite(DocumentId),
    /// Shows the graph in the place of the craft, or the craft again.
    Graph(DocumentId, Option<GraphLook>),
    /// Asks for the file into which the graph is drawn, or no longer.
    GraphFile(DocumentId, bool),
    /// Changes that file.
    GraphPath(DocumentId, String),
    /// Writes it.
    GraphWrite(DocumentId),
    /// Shows how a figure comes about, by the id of its derivation, or stops showing it.
    Follow(DocumentId, Option<&'static str>),
    /// Tries ways out again after a stop.
    Mend(DocumentId),
    /// Stops trying ways out.
    StopMending(DocumentId),
    /// Enters a part or kit into a catalogue of the user's own.
    Enter(Enter),
    /// Reads a table into a catalogue of the user's own, or writes one.
    Table(Table),
    /// Closes the form of a part or kit; asks first when something was entered.
    LeaveForm,
    /// Takes back the last deed beside the build lists.
    TakeBack,
    /// The worker has answered.
    Answered(Answer),
    /// The file dialog was answered.
    Browsed(Browsed),
}

/// What can be done with the parts of a choice.
#[derive(Debug, Clone, PartialEq)]
pub enum Choosing {
    /// Shows all parts, what stands in, or what was set side by side.
    Look(Look),
    /// Sets a part beside others, or takes it away again.
    Beside(String),
    /// Shows the craft with a part in the place, without a change of the list.
    Try(String),
    /// The same with a whole list, by its name.
    TryList(String, Arc<BuildList>),
    /// Shows the list itself again.
    TakeOff,
    /// Makes what is on trial the list.
    Keep,
    /// Stops the search.
    Stop,
}

/// What stands in the list of actions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
    /// A new, empty build.
    New,
    /// Open a file.
    Open,
    /// Save into the document's file.
    Save,
    /// Save under another name.
    SaveAs,
    /// Call the build otherwise.
    Rename,
    /// Close the document.
    Close,
    /// Take the last edit back.
    Undo,
    /// Do it again.
    Redo,
    /// Choose the part of the slot that is set apart.
    Choose,
    /// Take the part out that is set apart.
    TakeOut,
    /// Try the part of the row on, or take it off again.
    TryOn,
    /// Set the part of the row beside others, or take it away again.
    Beside,
    /// Show a page.
    Page(Page),
    /// The next document.
    Next,
    /// Find anything.
    Find,
    /// Light or dark.
    Appearance,
    /// Catalogues and thresholds of the user's own.
    Sources,
    /// What is checked, and which key does what.
    Help,
    /// Leave the program.
    Quit,
}

/// One line of the list of actions.
#[derive(Debug, Clone, Copy)]
pub struct Entry {
    /// What it does.
    pub action: Action,
    /// Its words in menu and finder.
    pub title: &'static str,
    /// What it does, in a sentence.
    pub about: &'static str,
    /// Its key.
    pub key: KeyboardShortcut,
    /// Does it stand in the menu, and a line above it?
    pub menu: Menu,
}

/// How an action stands in the menu.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Menu {
    /// Not at all.
    Nowhere,
    /// After the one before.
    Next,
    /// Below a line.
    Apart,
}

const fn key(modifiers: Modifiers, key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(modifiers, key)
}

const fn entry(action: Action, title: &'static str, about: &'static str, key: KeyboardShortcut, menu: Menu) -> Entry {
    Entry { action, title, about, key, menu }
}

const fn page(page: Page, title: &'static str, about: &'static str, number: Key) -> Entry {
    entry(Action::Page(page), title, about, key(CTRL, number), Menu::Nowhere)
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

/// All actions in the order of the menu.
pub const ACTIONS: [Entry; 24] = [
    entry(Action::New, "New build", "Begins an empty build list beside the open ones.", key(CTRL, Key::N), Menu::Next),
    entry(Action::Open, "Open…", "Reads a build list from a file.", key(CTRL, Key::O), Menu::Next),
    entry(Action::Save, "Save", "Writes the build list into its file.", key(CTRL, Key::S), Menu::Next),
    entry(Action::SaveAs, "Save as…", "Writes the build list into a file of another name.", key(CTRL_SHIFT, Key::S), Menu::Next),
    entry(Action::Rename, "Rename…", "Calls the build otherwise.", key(Modifiers::NONE, Key::F2), Menu::Next),
    entry(Action::Close, "Close", "Closes the build list.", key(CTRL, Key::W), Menu::Next),
    entry(
        Action::Sources,
        "Catalogues and thresholds…",
        "Lays catalogues and thresholds of your own over those of the program.",
        key(CTRL_SHIFT, Key::O),
        Menu::Next,
    ),
    entry(Action::Undo, "Undo", "Takes the last edit back.", key(CTRL, Key::Z), Menu::Apart),
    entry(Action::Redo, "Redo", "Does again what was taken back.", key(CTRL_SHIFT, Key::Z), Menu::Next),
    entry(
        Action::Choose,
        "Choose a part…",
        "Chooses another part for the slot that is set apart.",
        key(CTRL, Key::Enter),
        Menu::Next,
    ),
    entry(Action::TakeOut, "Take out", "Takes the part that is set apart out of the list.", key(CTRL, Key::Delete), Menu::Next),
    entry(
        Action::TryOn,
        "Try on, take off",
        "Shows the craft with the part of the row, and without it again; the list stays as it is.",
        key(CTRL, Key::T),
        Menu::Next,
    ),
    entry(
        Action::Beside,
        "Side by side",
        "Sets the part of the row beside others, or takes it away again.",
        key(CTRL, Key::B),
        Menu::Next,
    ),
    page(Page::Purpose, "Page Purpose", "Shows what the craft is for.", Key::Num1),
    page(Page::Parts, "Page Parts", "Shows the parts to choose from.", Key::Num2),
    page(Page::Together, "Page Together", "Shows what stands in the way.", Key::Num3),
    page(Page::Flight, "Page Flight", "Shows how the craft flies.", Key::Num4),
    page(Page::Cost, "Page Cost", "Shows what the craft costs.", Key::Num5),
    page(Page::Paper, "Page Paper", "Shows what is printed of the build, and writes it.", Key::Num6),
    entry(Action::Next, "Next build", "Shows the next open build list.", key(CTRL, Key::Tab), Menu::Nowhere),
    entry(Action::Find, "Find anything…", "Finds parts, slots, pages, findings and actions.", key(CTRL, Key::K), Menu::Apart),
    entry(
        Action::Appearance,
        "Light or dark",
        "Changes between ink on paper and paper on ink.",
        key(CTRL_SHIFT, Key::L),
        Menu::Next,
    ),
    entry(Action::Help, "Help", "Shows rules, thresholds, keys and cautions.", key(Modifiers::NONE, Key::F1), Menu::Next),
    entry(Action::Quit, "Quit", "Leaves; asks first where a build is not saved.", key(CTRL, Key::Q), Menu::Apart),
];

impl Action {
    /// Can it be done now?
    pub fn is_open(self, app: &App, id: DocumentId) -> bool {
        let document = app.document(id);
        match self {
            Self::Undo | Self::Redo => self.object(app, id).is_some(),
            Self::Save => {
                form(app).is_some()
                    || document
                        .is_some_and(|document| document.is_edited() || document.path.is_none() || !document.drafts.is_empty())
            }
            Self::Choose => document.is_some_and(|document| document.chosen.is_some()),
            Self::TakeOut => document.is_some_and(|document| document.chosen_line().is_some()),
            Self::TryOn => document.is_some_and(|document| document.picker.is_some() || document.tried.is_some()),
            Self::Beside => document.is_some_and(|document| document.picker.is_some()),
            Self::Next => app.documents.len() > 1,
            _ => true,
        }
    }

    /// What undo and redo would do, behind their titles.
    pub fn object(self, app: &App, id: DocumentId) -> Option<&str> {
        let back = match self {
            Self::Undo => true,
            Self::Redo => false,
            _ => return None,
        };
        if let Some(entering) = form(app) {
            let steps = if back { &entering.past } else { &entering.future };
            return steps.last().map(|(label, _)| label.as_str());
        }
        if deed_is_next(app, id, back) {
            let deeds = if back { &app.deeds_past } else { &app.deeds_future };
            return deeds.last().map(|deed| deed.label.as_str());
        }
        let document = app.document(id)?;
        let steps = if back { &document.past } else { &document.future };
        steps.last().map(|step| step.label.as_str())
    }
}

/// The form that takes undo and save, while it is shown.
fn form(app: &App) -> Option<&Entering> {
    app.entering.as_ref().filter(|_| app.page == Page::Parts)
}

impl Entry {
    /// Its title, with what undo and redo would do.
    pub fn title_now(&self, app: &App, id: DocumentId) -> String {
        let object = self.action.object(app, id);
        object.map_or_else(|| self.title.to_owned(), |object| format!("{}: {object}", self.title))
    }

    /// Its key in words: "Ctrl K".
    pub fn key_words(&self) -> String {
        key_words(self.key)
    }
}

/// The entry of an action; each has one.
pub fn of(action: Action) -> Option<&'static Entry> {
    ACTIONS.iter().find(|entry| entry.action == action)
}

fn key_words(shortcut: KeyboardShortcut) -> String {
    let modifiers = shortcut.modifiers;
    let held = [(modifiers.command || modifiers.ctrl, "Ctrl "), (modifiers.alt, "Alt "), (modifiers.shift, "Shift ")];
    let held: String = held.into_iter().filter(|(is, _)| *is).map(|(_, word)| word).collect();
    format!("{held}{}", shortcut.logical_key.name())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_actions_have_the_same_key() {
        for (at, one) in ACTIONS.iter().enumerate() {
            for other in &ACTIONS[at + 1..] {
                assert!(one.key != other.key, "{} and {}", one.title, other.title);
                assert_ne!(one.title, other.title);
                assert_ne!(one.action, other.action);
            }
        }
    }

    #[test]
    fn keys_are_said_as_printed_on_them() {
        assert_eq!(of(Action::SaveAs).unwrap().key_words(), "Ctrl Shift S");
        assert_eq!(of(Action::Help).unwrap().key_words(), "F1");
    }
}
