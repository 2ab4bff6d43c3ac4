//! Saving: whatever step fails, the file holds the earlier or the new state as a whole.

#![expect(clippy::unwrap_used, reason = "a test that cannot write its files has failed")]

use std::{fs, path::Path};

use propwright::files::{Disk, FileError, Since, Step, backup};
use propwright_tests::scratch::Scratch;

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap()
}

#[test]
fn saves_and_keeps_the_earlier_state() {
    let scratch = Scratch::new("saves_and_keeps_the_earlier_state");
    let path = scratch.folder().join("build.ron");
    let first = Disk::Real.save(&path, "one", None).unwrap();
    assert_eq!(scratch.holds().len(), 1, "no earlier state, no other file");
    let second = Disk::Real.save(&path, "two", Some(&first)).unwrap();
    Disk::Real.save(&path, "three", Some(&second)).unwrap();
    assert_eq!((text(&path), text(&backup(&path))), ("three".to_owned(), "two".to_owned()));
    assert_eq!(scratch.holds().len(), 2, "one earlier state, nothing temporary");
}

#[test]
fn a_failing_step_tears_nothing() {
    for step in Step::OF_A_SAVE {
        let scratch = Scratch::new("a_failing_step_tears_nothing");
        let path = scratch.file("build.ron", "old");
        let error = Disk::FailingAt(step).save(&path, "new", None).unwrap_err();
        assert!(matches!(&error, FileError::Failed { step: failed, .. } if *failed == step), "{step:?}: {error}");
        assert!(error.hint().contains("room"), "a full disk: {}", error.hint());
        // After the renaming the new state is there; that the folder may not be on the disk yet is still told.
        let expected = if step == Step::SyncFolder { "new" } else { "old" };
        assert_eq!(text(&path), expected, "{step:?}");
        assert!(scratch.holds().keys().all(|name| name.starts_with("build.ron")), "{step:?}: {:?}", scratch.holds().keys());
    }
}

#[test]
fn a_file_changed_by_somebody_else_is_left_alone() {
    let scratch = Scratch::new("a_file_changed_by_somebody_else_is_left_alone");
    let path = scratch.file("build.ron", "mine");
    let opened = Disk::Real.read(&path).unwrap();
    assert_eq!(Disk::Real.since(&path, &opened.stamp).unwrap(), Since::Same);
    // Same length, so that the length alone does not tell.
    fs::write(&path, "hers").unwrap();
    let later = fs::metadata(&path).unwrap().modified().unwrap() + std::time::Duration::from_secs(2);
    fs::File::options().write(true).open(&path).unwrap().set_modified(later).unwrap();
    assert_eq!(Disk::Real.since(&path, &opened.stamp).unwrap(), Since::Changed);
    assert!(matches!(Disk::Real.save(&path, "new", Some(&opened.stamp)), Err(FileError::Changed)));
    assert_eq!(text(&path), "hers");
    assert!(!backup(&path).is_file());
    fs::remove_file(&path).unwrap();
    assert_eq!(Disk::Real.since(&path, &opened.stamp).unwrap(), Since::Gone);
}

#[test]
fn a_file_touched_without_a_change_is_the_same() {
    let scratch = Scratch::new("a_file_touched_without_a_change_is_the_same");
    let path = scratch.file("build.ron", "mine");
    let opened = Disk::Real.read(&path).unwrap();
    let later = fs::metadata(&path).unwrap().modified().unwrap() + std::time::Duration::from_secs(2);
    fs::File::options().write(true).open(&path).unwrap().set_modified(later).unwrap();
    assert_eq!(Disk::Real.since(&path, &opened.stamp).unwrap(), Since::Same);
    Disk::Real.save(&path, "new", Some(&opened.stamp)).unwrap();
}

#[test]
fn a_read_only_file_is_left_alone() {
    let scratch = Scratch::new("a_read_only_file_is_left_alone");
    let path = scratch.file("build.ron", "old");
    let writable = fs::metadata(&path).unwrap().permissions();
    let mut permissions = writable.clone();
    permissions.set_readonly(true);
    fs::set_permissions(&path, permissions).unwrap();
    let saved = Disk::Real.save(&path, "new", None);
    fs::set_permissions(&path, writable).unwrap();
    assert!(matches!(saved, Err(FileError::ReadOnly)));
    assert_eq!(text(&path), "old");
}

#[cfg(unix)]
#[test]
fn the_file_behind_a_link_is_saved() {
    let scratch = Scratch::new("the_file_behind_a_link_is_saved");
    let path = scratch.file("build.ron", "old");
    let link = scratch.folder().join("link.ron");
    std::os::unix::fs::symlink(&path, &link).unwrap();
    Disk::Real.save(&link, "new", None).unwrap();
    assert_eq!(text(&path), "new");
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink(), "the link stays");
}

#[test]
fn a_folder_is_no_file() {
    let scratch = Scratch::new("a_folder_is_no_file");
    assert!(matches!(Disk::Real.read(scratch.folder()), Err(FileError::Folder)));
    assert!(matches!(Disk::Real.save(scratch.folder(), "new", None), Err(FileError::Folder)));
    let absent = scratch.folder().join("no-folder").join("build.ron");
    assert!(matches!(Disk::Real.save(&absent, "new", None), Err(FileError::Failed { step: Step::Create, .. })));
}
