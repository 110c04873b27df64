//! Why the machine did not do what was asked, as a value.

use std::io;
use std::path::{Path, PathBuf};

/// What happened, to which path, what is still there, and what would help.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What happened.
    pub happened: Happened,
    /// The file or folder it happened to.
    pub path: PathBuf,
    /// What is certain about the data afterwards.
    pub kept: Kept,
    /// What a person can do.
    pub remedy: Remedy,
}

/// What happened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Happened {
    /// There is no such file or folder.
    Missing,
    /// The file is longer than what is read; holds the limit in bytes.
    TooLong(u64),
    /// The file is no UTF-8 text.
    NotText,
    /// Reading was refused or broke off.
    NotRead(io::ErrorKind),
    /// Writing was refused or broke off.
    NotWritten(io::ErrorKind),
    /// The file was put in place, but the machine would not confirm that it stays after a power cut.
    NotConfirmed(io::ErrorKind),
    /// Another running program holds the file.
    InUse,
    /// The line to append holds a line end of its own.
    SeveralLines,
    /// The machine names no folder for a person's data.
    NoHome,
}

/// What is certain about the data after a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// Nothing was touched; whatever was there before is whole.
    Everything,
    /// All earlier lines are there; the last one is not.
    EarlierLines,
    /// The new content is in place, but a power cut now could bring back the old one.
    NewOrOld,
    /// The last line may be there, whole or in part. Opening the file again tells.
    LookAgain,
}

/// What a person can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// Check the path.
    CheckPath,
    /// Make room on the disk.
    MakeRoom,
    /// Allow reading or writing there, or choose another place.
    AllowOrMove,
    /// Choose a smaller or a different file.
    OtherFile,
    /// End the other program that has it open.
    CloseOther,
    /// Name a folder with `--data`.
    NameFolder,
    /// Try again; if it stays, look at the disk.
    TryAgain,
}

impl Fault {
    /// A fault that touched nothing.
    pub(crate) fn harmless(happened: Happened, path: &Path, remedy: Remedy) -> Fault {
        Fault {
            happened,
            path: path.to_owned(),
            kept: Kept::Everything,
            remedy,
        }
    }

    /// Reading failed.
    pub(crate) fn reading(error: &io::Error, path: &Path) -> Fault {
        let happened = match error.kind() {
            io::ErrorKind::NotFound => Happened::Missing,
            kind => Happened::NotRead(kind),
        };
        Fault::harmless(happened, path, remedy_for(error))
    }

    /// Writing failed and left `kept` behind.
    pub(crate) fn writing(error: &io::Error, path: &Path, kept: Kept) -> Fault {
        Fault {
            happened: Happened::NotWritten(error.kind()),
            path: path.to_owned(),
            kept,
            remedy: remedy_for(error),
        }
    }
}

fn remedy_for(error: &io::Error) -> Remedy {
    use io::ErrorKind as Kind;
    match error.kind() {
        Kind::NotFound | Kind::NotADirectory | Kind::AlreadyExists | Kind::InvalidFilename => {
            Remedy::CheckPath
        }
        Kind::StorageFull | Kind::QuotaExceeded | Kind::FileTooLarge => Remedy::MakeRoom,
        Kind::PermissionDenied | Kind::ReadOnlyFilesystem => Remedy::AllowOrMove,
        Kind::IsADirectory => Remedy::OtherFile,
        _ => Remedy::TryAgain,
    }
}

impl std::fmt::Display for Fault {
    /// Prints the fault for a log, not for a person.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{:?} at {:?}, kept {:?}",
            self.happened, self.path, self.kept
        )
    }
}

impl std::error::Error for Fault {}
