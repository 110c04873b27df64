//! The one way to print. A reader that has seen enough (`drybench … | head -1`) ends the program quietly.

use std::io::{self, BufWriter, Write};

/// Results on one stream, messages on another.
pub struct Out {
    results: Box<dyn Write>,
    messages: Box<dyn Write>,
    /// Whether the work goes on when nobody reads its results any more.
    unread: bool,
}

/// Why printing stopped.
#[derive(Debug)]
pub enum Stop {
    /// Nobody reads any more. Nothing went wrong.
    Closed,
    /// The stream could not be written to.
    Broken(io::Error),
}

impl From<io::Error> for Stop {
    fn from(error: io::Error) -> Stop {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Stop::Closed,
            _ => Stop::Broken(error),
        }
    }
}

impl Out {
    /// Prints to the streams that the program was started with.
    #[must_use]
    pub fn standard() -> Out {
        Out::new(BufWriter::new(io::stdout()), io::stderr())
    }

    /// Prints to any two streams.
    #[must_use]
    pub fn new(results: impl Write + 'static, messages: impl Write + 'static) -> Out {
        Out {
            results: Box::new(results),
            messages: Box::new(messages),
            unread: false,
        }
    }

    /// From now on the work goes on to its end when nobody reads any more: its exit status is a result too.
    pub fn go_on_unread(&mut self) {
        self.unread = true;
    }

    fn came_of(&self, written: io::Result<()>) -> Result<(), Stop> {
        match written.map_err(Stop::from) {
            Err(Stop::Closed) if self.unread => Ok(()),
            other => other,
        }
    }

    /// Prints a line of results.
    ///
    /// # Errors
    ///
    /// Nobody reads any more, or the stream is broken.
    pub fn line(&mut self, text: &str) -> Result<(), Stop> {
        let written = writeln!(self.results, "{text}");
        self.came_of(written)
    }

    /// Prints a question without a line end and shows it at once.
    ///
    /// # Errors
    ///
    /// As for `line`.
    pub fn ask(&mut self, text: &str) -> Result<(), Stop> {
        let written = write!(self.results, "{text}");
        self.came_of(written)?;
        self.flush()
    }

    /// Prints a line of messages: problems, progress, hints. What was printed before stands before it.
    ///
    /// # Errors
    ///
    /// As for `line`.
    pub fn message(&mut self, text: &str) -> Result<(), Stop> {
        // The message is shown even where results no longer can be: it may be the one that says so.
        let results = self.flush();
        writeln!(self.messages, "{text}")?;
        self.messages.flush()?;
        results
    }

    /// Shows everything printed so far.
    ///
    /// # Errors
    ///
    /// As for `line`.
    pub fn flush(&mut self) -> Result<(), Stop> {
        let written = self.results.flush();
        self.came_of(written)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A stream that fails in one way.
    struct Failing(io::ErrorKind);

    impl Write for Failing {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(self.0.into())
        }

        fn flush(&mut self) -> io::Result<()> {
            Err(self.0.into())
        }
    }

    #[test]
    fn a_closed_pipe_is_told_from_a_full_disk() {
        let mut closed = Out::new(Failing(io::ErrorKind::BrokenPipe), io::sink());
        assert!(matches!(closed.line("result"), Err(Stop::Closed)));
        closed.go_on_unread();
        assert!(closed.line("result").is_ok());
        let mut full = Out::new(Failing(io::ErrorKind::StorageFull), io::sink());
        assert!(matches!(full.line("result"), Err(Stop::Broken(_))));
        full.go_on_unread();
        assert!(matches!(full.line("result"), Err(Stop::Broken(_))));
    }
}
