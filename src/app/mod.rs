//! Use cases: the one place where things happen. One file each; front ends are thin callers.
//!
//! Files, clocks and journals are reached through ports, which the edge implements. Left out: cursive, clap, SQL, printing.

pub mod rehearse;
pub mod shelf;

/// A place where lines are kept one by one; acknowledged means kept.
pub trait Journal {
    /// Why a line could not be kept.
    type Failure;

    /// Keeps one line. When this returns, the line survives a kill and a power cut.
    ///
    /// # Errors
    /// When the line may not have been kept.
    fn append(&mut self, line: &str) -> Result<(), Self::Failure>;
}

/// A journal that keeps nothing, for practice without a folder.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoJournal;

impl Journal for NoJournal {
    type Failure = std::convert::Infallible;

    fn append(&mut self, _line: &str) -> Result<(), Self::Failure> {
        Ok(())
    }
}
