//! The one place that touches files: reading within bounds, saving so that no moment leaves a torn file, and noticing that
//! somebody else changed one.

use std::{
    fs::{self, File, Permissions},
    hash::{DefaultHasher, Hasher as _},
    io::{self, Read as _, Write as _},
    path::{Path, PathBuf},
    time::SystemTime,
};

use propwright_schema::{
    diagnostic::Diagnostic,
    load::{MOST_BYTES, decode},
};

/// A step of file work, so that each can be made to fail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Reading the file.
    Read,
    /// Keeping the file as it was under `.bak`.
    Backup,
    /// Creating the temporary file beside the file.
    Create,
    /// Writing into it.
    Write,
    /// Handing it to the system.
    Flush,
    /// Waiting until it is on the disk.
    Sync,
    /// Putting it in the file's place.
    Rename,
    /// Waiting until the folder is on the disk.
    SyncFolder,
}

impl Step {
    /// The steps of a save, in order.
    pub const OF_A_SAVE: [Self; 8] =
        [Self::Read, Self::Backup, Self::Create, Self::Write, Self::Flush, Self::Sync, Self::Rename, Self::SyncFolder];

    const fn words(self) -> &'static str {
        match self {
            Self::Read => "reading it",
            Self::Backup => "keeping the earlier state beside it",
            Self::Create => "creating a file in its folder",
            Self::Write | Self::Flush | Self::Sync => "writing it to the disk",
            Self::Rename => "putting the new state in its place",
            Self::SyncFolder => "writing its folder to the disk",
        }
    }
}

/// Why a file could not be read or saved.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// There is none.
    #[error("there is no such file")]
    NoSuchFile,
    /// It is a folder.
    #[error("this is a folder, not a file")]
    Folder,
    /// It is larger than what is read.
    #[error("the file is larger than {MOST_BYTES} bytes")]
    TooLarge,
    /// It must not be written.
    #[error("the file is read-only")]
    ReadOnly,
    /// Somebody changed it since it was read.
    #[error("the file was changed on the disk since it was read")]
    Changed,
    /// Its bytes are no text that is read here.
    #[error("{}", .0.first().map_or("this is no text", |first| &first.reason))]
    Text(Vec<Diagnostic>),
    /// The system refused a step.
    #[error("{} failed: {error}", step.words())]
    Failed {
        /// The step.
        step: Step,
        /// What the system says.
        error: io::Error,
    },
}

impl FileError {
    /// What to do about it.
    pub fn hint(&self) -> &str {
        match self {
            Self::NoSuchFile => "look for a slip in the name, or for another folder",
            Self::Folder => "name a file in it",
            Self::TooLarge => "split it into several files; parts of all files are laid over one another",
            Self::ReadOnly => "save under another name, or allow writing to the file",
            Self::Changed => "read it again, or save under another name",
            Self::Text(problems) => problems.iter().find_map(|problem| problem.hint.as_deref()).unwrap_or_default(),
            Self::Failed { error, .. } => match error.kind() {
                io::ErrorKind::PermissionDenied => "choose a file and a folder that you are allowed to use",
                io::ErrorKind::StorageFull => "make room on the disk, or save on another one",
                io::ErrorKind::ReadOnlyFilesystem => "save on a disk that can be written",
                _ => "try again, or choose another folder",
            },
        }
    }

    /// The same as problems of the file, at its beginning unless a place in the text is known.
    pub fn problems(self, path: &Path) -> Vec<Diagnostic> {
        let (reason, hint) = (self.to_string(), Some(self.hint().to_owned()));
        match self {
            Self::Text(problems) => problems,
            _ => vec![Diagnostic { file: name(path), line: 1, column: 1, part: None, field: None, reason, hint }],
        }
    }
}

/// Today by the system's clock (UTC), for the age of a price.
pub fn today() -> Option<jiff::civil::Date> {
    let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).ok()?;
    let days = i64::try_from(since.as_secs() / 86_400).ok()?;
    jiff::civil::date(1970, 1, 1).checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}

/// Do two paths lead to one file?
pub fn same(one: &Path, other: &Path) -> bool {
    matches!((fs::canonicalize(one), fs::canonicalize(other)), (Ok(one), Ok(other)) if one == other)
}

/// The name by which messages call a file.
pub fn name(path: &Path) -> String {
    path.display().to_string()
}

/// One name for each file: whole, and behind all links where the file is there.
pub fn whole(path: &Path) -> PathBuf {
    fs::canonicalize(path).or_else(|_| std::path::absolute(path)).unwrap_or_else(|_| path.to_owned())
}

/// Is there anything of this name?
pub fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// A name of which nothing is there: the one asked for, or with a number before its ending.
pub fn free(path: &Path) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let (stem, ending) =
        name.rsplit_once('.').map_or((name.as_str(), String::new()), |(stem, ending)| (stem, format!(".{ending}")));
    let numbered = (2..).map(|number: u32| path.with_file_name(format!("{stem}-{number}{ending}")));
    std::iter::once(path.to_owned()).chain(numbered).find(|path| !is_there(path)).unwrap_or_else(|| path.to_owned())
}

/// The state of a file when it was read or saved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    length: u64,
    modified: Option<SystemTime>,
    hash: u64,
}

/// A file that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opened {
    /// Its text.
    pub text: String,
    /// Its state.
    pub stamp: Stamp,
}

/// What became of a file since a stamp.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Since {
    /// It holds the same.
    Same,
    /// It holds something else.
    Changed,
    /// It is gone.
    Gone,
}

/// The disk, or one on which a step fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Disk {
    /// The disk as it is.
    #[default]
    Real,
    /// A step fails as if the disk were full: for tests of what comes after.
    FailingAt(Step),
}

struct Found {
    bytes: Vec<u8>,
    stamp: Stamp,
    permissions: Permissions,
}

impl Disk {
    /// Reads a text file.
    ///
    /// # Errors
    /// When there is none, it is a folder, too large, no UTF-8, or the system refuses.
    pub fn read(self, path: &Path) -> Result<Opened, FileError> {
        let found = self.find(path)?;
        let text = decode(&name(path), &found.bytes).map_err(FileError::Text)?;
        Ok(Opened { text, stamp: found.stamp })
    }

    /// Saves a text: a reader sees the earlier or the new state, never a part; the earlier one stays beside it under `.bak`.
    ///
    /// With the stamp of an earlier read or save, a file that holds something else by now is left alone.
    ///
    /// # Errors
    /// When it was changed, is read-only or a folder, or the system refuses. Up to the renaming the file holds what it held.
    pub fn save(self, path: &Path, text: &str, since: Option<&Stamp>) -> Result<Stamp, FileError> {
        // The file behind a link is saved, the link stays.
        let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let earlier = match self.find(&path) {
            Ok(found) => Some(found),
            Err(FileError::NoSuchFile) => None,
            Err(error) => return Err(error),
        };
        if let Some(earlier) = &earlier {
            // What holds the very text already loses nothing: an earlier save may have failed after its renaming.
            if since.is_some_and(|since| since.hash != earlier.stamp.hash) && earlier.bytes != text.as_bytes() {
                return Err(FileError::Changed);
            }
            if earlier.permissions.readonly() {
                return Err(FileError::ReadOnly);
            }
            let kept = || {
                self.step(Step::Backup)?;
                Self::Real.put(&backup(&path), &earlier.bytes, Some(&earlier.permissions)).map_err(|(_, error)| error)
            };
            kept().map_err(|error| FileError::Failed { step: Step::Backup, error })?;
        }
        let permissions = earlier.map(|earlier| earlier.permissions);
        let put = self.put(&path, text.as_bytes(), permissions.as_ref());
        put.map_err(|(step, error)| FileError::Failed { step, error })?;
        let modified = fs::metadata(&path).and_then(|metadata| metadata.modified()).ok();
        Ok(Stamp { length: text.len() as u64, modified, hash: hash(text.as_bytes()) })
    }

    /// Writes a file that is made anew each time, such as a sheet: whole or not at all, in the place of an earlier one.
    ///
    /// # Errors
    /// When it is a folder or read-only, or the system refuses; an earlier file then holds what it held.
    pub fn export(self, path: &Path, bytes: &[u8]) -> Result<(), FileError> {
        match fs::metadata(path) {
            Ok(metadata) if metadata.is_dir() => return Err(FileError::Folder),
            Ok(metadata) if metadata.permissions().readonly() => return Err(FileError::ReadOnly),
            _ => {}
        }
        self.put(path, bytes, None).map_err(|(step, error)| FileError::Failed { step, error })
    }

    /// What became of a file since it was read or saved; it is read again only when its length or time differ.
    ///
    /// # Errors
    /// As [`Disk::read`], but for a file that is gone.
    pub fn since(self, path: &Path, stamp: &Stamp) -> Result<Since, FileError> {
        let metadata = match fs::metadata(path) {
            Ok(metadata) => metadata,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Since::Gone),
            Err(error) => return Err(FileError::Failed { step: Step::Read, error }),
        };
        if metadata.len() == stamp.length && stamp.modified.is_some() && metadata.modified().ok() == stamp.modified {
            return Ok(Since::Same);
        }
        let same = self.find(path)?.stamp.hash == stamp.hash;
        Ok(if same { Since::Same } else { Since::Changed })
    }

    fn step(self, step: Step) -> io::Result<()> {
        if self == Self::FailingAt(step) { Err(io::ErrorKind::StorageFull.into()) } else { Ok(()) }
    }

    fn find(self, path: &Path) -> Result<Found, FileError> {
        let failed = |error: io::Error| match error.kind() {
            io::ErrorKind::NotFound => FileError::NoSuchFile,
            io::ErrorKind::IsADirectory => FileError::Folder,
            _ => FileError::Failed { step: Step::Read, error },
        };
        let read = || {
            let file = File::open(path)?;
            let metadata = file.metadata()?;
            if metadata.is_dir() {
                return Err(io::ErrorKind::IsADirectory.into());
            }
            self.step(Step::Read)?;
            let mut bytes = Vec::new();
            // One byte more than is read tells that there is more.
            file.take(MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
            Ok((bytes, metadata))
        };
        let (bytes, metadata) = read().map_err(failed)?;
        if bytes.len() > MOST_BYTES {
            return Err(FileError::TooLarge);
        }
        let stamp = Stamp { length: bytes.len() as u64, modified: metadata.modified().ok(), hash: hash(&bytes) };
        Ok(Found { bytes, stamp, permissions: metadata.permissions() })
    }

    /// Puts bytes in a file's place by way of a temporary file beside it.
    fn put(self, path: &Path, bytes: &[u8], permissions: Option<&Permissions>) -> Result<(), (Step, io::Error)> {
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or_else(|| Path::new("."));
        let temporary = temporary(path);
        let renamed = self.fill(&temporary, bytes, permissions).and_then(|()| {
            let renamed = self.step(Step::Rename).and_then(|()| fs::rename(&temporary, path));
            renamed.map_err(|error| (Step::Rename, error))
        });
        if renamed.is_err() {
            // What could not be finished is cleared away; what cannot be cleared does no harm.
            let _ = fs::remove_file(&temporary);
        }
        renamed?;
        let synced = self.step(Step::SyncFolder).and_then(|()| sync_folder(folder));
        synced.map_err(|error| (Step::SyncFolder, error))
    }

    fn fill(self, temporary: &Path, bytes: &[u8], permissions: Option<&Permissions>) -> Result<(), (Step, io::Error)> {
        let at = |step: Step| move |error: io::Error| (step, error);
        let create = || {
            self.step(Step::Create)?;
            let file = File::create(temporary)?;
            permissions.map_or(Ok(()), |permissions| file.set_permissions(permissions.clone()))?;
            Ok(file)
        };
        let mut file = create().map_err(at(Step::Create))?;
        self.step(Step::Write).and_then(|()| file.write_all(bytes)).map_err(at(Step::Write))?;
        self.step(Step::Flush).and_then(|()| file.flush()).map_err(at(Step::Flush))?;
        self.step(Step::Sync).and_then(|()| file.sync_all()).map_err(at(Step::Sync))
    }
}

/// Where the earlier state of a file is kept: its name with `.bak` behind.
pub fn backup(path: &Path) -> PathBuf {
    beside(path, "", ".bak")
}

fn temporary(path: &Path) -> PathBuf {
    beside(path, ".", &format!(".{}.part", std::process::id()))
}

fn beside(path: &Path, before: &str, after: &str) -> PathBuf {
    let mut name = std::ffi::OsString::from(before);
    name.push(path.file_name().unwrap_or_default());
    name.push(after);
    path.with_file_name(name)
}

/// A folder can be opened and waited for on Unix only.
fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

fn hash(bytes: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    hasher.write(bytes);
    hasher.finish()
}
