//! A program on a terminal of its own, with somebody who types and somebody who looks.

#![expect(
    clippy::disallowed_methods,
    reason = "somebody looks while the program runs, and waits in real time"
)]

use std::io::{Read as _, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::process::Command;
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};

/// How long something may take to show. Generous: other tests run at the same time.
const PATIENCE: Duration = Duration::from_secs(20);

/// Between two looks.
const LOOK: Duration = Duration::from_millis(5);

/// A picture stands when nothing has come for so long.
const REST: Duration = Duration::from_millis(80);

/// A program that runs on a terminal.
pub(crate) struct PseudoTerminal {
    master: Option<Box<dyn MasterPty + Send>>,
    keyboard: Option<Box<dyn Write + Send>>,
    child: Box<dyn Child + Send + Sync>,
    seen: Arc<Mutex<Seen>>,
    /// The modes of the terminal before the program changed them.
    modes: String,
}

/// What the program has sent.
struct Seen {
    screen: vt100::Parser,
    raw: Vec<u8>,
    /// Whether nobody looks any more.
    closing: bool,
    ended: bool,
}

impl PseudoTerminal {
    /// Starts the real program.
    pub(crate) fn start(arguments: &[&str], home: &Path, columns: u16, rows: u16) -> Self {
        let mut command = clean(env!("CARGO_BIN_EXE_drybench"), home);
        command.args(arguments);
        Self::start_command(command, columns, rows)
    }

    /// Starts a line of a shell.
    pub(crate) fn start_shell(line: &str, home: &Path, columns: u16, rows: u16) -> Self {
        let mut command = clean("/bin/sh", home);
        command.args(["-c", line]);
        Self::start_command(command, columns, rows)
    }

    /// Starts any program.
    pub(crate) fn start_command(command: CommandBuilder, columns: u16, rows: u16) -> Self {
        let pair = native_pty_system().openpty(size(columns, rows)).unwrap();
        let modes = modes(&*pair.master);
        let mut output = pair.master.try_clone_reader().unwrap();
        let keyboard = pair.master.take_writer().unwrap();
        let child = pair.slave.spawn_command(command).unwrap();
        let seen = Arc::new(Mutex::new(Seen {
            screen: vt100::Parser::new(nonzero(rows), nonzero(columns), 0),
            raw: Vec::new(),
            closing: false,
            ended: false,
        }));
        let seer = Arc::clone(&seen);
        thread::spawn(move || {
            let mut bytes = [0_u8; 4096];
            // A terminal whose program has ended gives an error rather than an end.
            while let Ok(read @ 1..) = output.read(&mut bytes) {
                let mut seen = seer.lock().unwrap();
                if seen.closing {
                    break;
                }
                seen.screen.process(&bytes[..read]);
                seen.raw.extend_from_slice(&bytes[..read]);
            }
            drop(output);
            seer.lock().unwrap().ended = true;
        });
        PseudoTerminal {
            master: Some(pair.master),
            keyboard: Some(keyboard),
            child,
            seen,
            modes,
        }
    }

    /// Sends what a keyboard sends.
    pub(crate) fn send(&mut self, keys: &str) {
        let keyboard = self.keyboard.as_mut().unwrap();
        keyboard.write_all(keys.as_bytes()).unwrap();
        keyboard.flush().unwrap();
    }

    /// What can be seen, line by line, without blanks at the ends.
    ///
    /// The eyes skip U+FFFD, which a terminal shows: look for that in what was sent.
    pub(crate) fn screen(&self) -> String {
        let seen = self.seen.lock().unwrap();
        let contents = seen.screen.screen().contents();
        let lines: Vec<&str> = contents.lines().map(str::trim_end).collect();
        lines.join("\n")
    }

    /// Tells whether the program shows its second screen.
    pub(crate) fn is_on_second_screen(&self) -> bool {
        let seen = self.seen.lock().unwrap();
        seen.screen.screen().alternate_screen()
    }

    /// Tells whether the terminal sends what the mouse does.
    pub(crate) fn hears_the_mouse(&self) -> bool {
        let seen = self.seen.lock().unwrap();
        seen.screen.screen().mouse_protocol_mode() != vt100::MouseProtocolMode::None
    }

    /// Tells whether the cursor is to be seen.
    pub(crate) fn shows_the_cursor(&self) -> bool {
        !self.seen.lock().unwrap().screen.screen().hide_cursor()
    }

    /// Everything that was sent since the start.
    pub(crate) fn raw(&self) -> Vec<u8> {
        self.seen.lock().unwrap().raw.clone()
    }

    /// Waits until the screen is as wanted.
    ///
    /// # Panics
    /// With the screen, when it takes too long.
    pub(crate) fn wait_until(&self, what: &str, wanted: impl Fn(&str) -> bool) {
        let start = Instant::now();
        while !wanted(&self.screen()) {
            assert!(
                start.elapsed() < PATIENCE,
                "waited for {what}; the screen is\n{}",
                self.screen()
            );
            thread::sleep(LOOK);
        }
    }

    /// Waits until a text is on the screen.
    ///
    /// # Panics
    /// With the screen, when it takes too long.
    pub(crate) fn wait_for(&self, text: &str) {
        self.wait_until(&format!("{text:?}"), |screen| screen.contains(text));
    }

    /// Waits until more has been sent than so many bytes.
    ///
    /// # Panics
    /// With the screen, when it takes too long.
    pub(crate) fn wait_for_more_than(&self, bytes: usize) {
        self.wait_until("something to be drawn", |_| self.raw().len() > bytes);
    }

    /// What can be seen with its colours and effects, to be compared.
    pub(crate) fn sight(&self) -> String {
        let seen = self.seen.lock().unwrap();
        seen.screen.screen().contents_formatted()
    }

    /// Waits until something else is to be seen, if only another colour.
    ///
    /// # Panics
    /// With the screen, when it takes too long.
    pub(crate) fn wait_for_another(&self, sight: &str) {
        self.wait_until("something else", |_| self.sight() != sight);
    }

    /// Waits until nothing comes any more: what is seen is a whole picture.
    ///
    /// # Panics
    /// With the screen, when it never comes to rest.
    pub(crate) fn settle(&self) {
        let start = Instant::now();
        let mut bytes = self.raw().len();
        let mut since = Instant::now();
        while since.elapsed() < REST {
            assert!(start.elapsed() < PATIENCE, "no rest:\n{}", self.screen());
            thread::sleep(LOOK);
            let now = self.raw().len();
            if now != bytes {
                (bytes, since) = (now, Instant::now());
            }
        }
    }

    /// The cells of which something is told, row by row from the top, as one text.
    pub(crate) fn cells(&self, tell: impl Fn(u16, &vt100::Cell) -> Option<String>) -> String {
        let seen = self.seen.lock().unwrap();
        let screen = seen.screen.screen();
        let (rows, columns) = screen.size();
        let places =
            (0..rows.get()).flat_map(|row| (0..columns.get()).map(move |column| (row, column)));
        places
            .filter_map(|(row, column)| tell(row, screen.cell(row, column)?))
            .collect()
    }

    /// The colours of letter and ground of the cell in a row and a column, counted from 0.
    pub(crate) fn colours_at(&self, row: u16, column: u16) -> (vt100::Color, vt100::Color) {
        let seen = self.seen.lock().unwrap();
        let cell = seen.screen.screen().cell(row, column).unwrap();
        (cell.fgcolor(), cell.bgcolor())
    }

    /// Changes the size; the program is told as a window tells it.
    pub(crate) fn resize(&mut self, columns: u16, rows: u16) {
        // The eyes first: what comes for the new size must not meet the old one.
        self.seen
            .lock()
            .unwrap()
            .screen
            .set_size(nonzero(rows), nonzero(columns));
        let master = self.master.as_ref().unwrap();
        master.resize(size(columns, rows)).unwrap();
    }

    /// Sends a signal by its name, such as `TERM`.
    pub(crate) fn signal(&self, name: &str) {
        let process = self.child.process_id().unwrap().to_string();
        let sent = Command::new("kill")
            .args(["-s", name, &process])
            .status()
            .unwrap();
        assert!(sent.success());
    }

    /// Closes the window, as soon as the program sends the next thing.
    pub(crate) fn close(&mut self) {
        self.seen.lock().unwrap().closing = true;
        self.keyboard = None;
        self.master = None;
    }

    /// Waits for the end, and until everything that was sent has been seen.
    ///
    /// # Panics
    /// With the screen, when it takes too long.
    pub(crate) fn wait(&mut self) -> ExitStatus {
        let start = Instant::now();
        loop {
            let status = self.child.try_wait().unwrap();
            if let Some(status) = status
                && self.seen.lock().unwrap().ended
            {
                return status;
            }
            assert!(
                start.elapsed() < PATIENCE,
                "waited for the end; the screen is\n{}",
                self.screen()
            );
            thread::sleep(LOOK);
        }
    }

    /// Tells whether the terminal reads lines and echoes as it did before the program started.
    pub(crate) fn modes_are_as_before(&self) -> bool {
        modes(&**self.master.as_ref().unwrap()) == self.modes
    }
}

impl Drop for PseudoTerminal {
    fn drop(&mut self) {
        // A test that failed leaves no program behind.
        if matches!(self.child.try_wait(), Ok(None)) {
            let _ended = self.child.kill();
            let _ended = self.child.wait();
        }
    }
}

/// A command with nothing in its environment but what a terminal needs.
pub(crate) fn clean(program: &str, home: &Path) -> CommandBuilder {
    let mut command = CommandBuilder::new(program);
    command.env_clear();
    command.env("HOME", home);
    command.env("LANG", "C.UTF-8");
    command.env("TERM", "xterm-256color");
    command.cwd(home);
    command
}

fn modes(master: &dyn MasterPty) -> String {
    format!("{:?}", master.get_termios().unwrap())
}

fn size(columns: u16, rows: u16) -> PtySize {
    PtySize {
        rows,
        cols: columns,
        pixel_width: 0,
        pixel_height: 0,
    }
}

fn nonzero(number: u16) -> NonZeroU16 {
    NonZeroU16::new(number).unwrap()
}
