//! Somebody in front of the screens who knows the groundwork module by heart, and sees what anybody sees.

use std::path::Path;

use drybench::text::Words;

use crate::support::expert::{stock_teeth, wet_resin};
use crate::support::pseudo_terminal::PseudoTerminal;

/// What the shell had on the screen.
const BEFORE: &str = "what the shell said";

/// What a message of the screens says.
pub(super) fn says(id: &str) -> String {
    Words::shipped("en-US").say(id, &[])
}

/// The first words of what a message says, few enough to stand in one line.
pub(super) fn first_words(id: &str) -> String {
    let text = Words::shipped("en-US").say(id, &[("count", 1_usize.into()), ("path", "".into())]);
    let words: Vec<&str> = text.split_whitespace().take(3).collect();
    words.join(" ")
}

/// Somebody with a terminal.
pub(super) struct Person {
    pub(super) terminal: PseudoTerminal,
}

impl Person {
    /// Starts the program from a shell, on a terminal of 80 by 24, with a folder for data of its own.
    pub(super) fn sits_down(home: &Path, arguments: &[&str], variables: &[(&str, &str)]) -> Person {
        let program = env!("CARGO_BIN_EXE_drybench");
        let set: String = variables
            .iter()
            .map(|(name, value)| format!("{name}={value} "))
            .collect();
        let line = format!(
            "echo {BEFORE}; {set}exec '{program}' practise --data data {}",
            arguments.join(" ")
        );
        let terminal = PseudoTerminal::start_shell(&line, home, 80, 24);
        terminal.wait_for(&says("screens-start-question"));
        terminal.settle();
        Person { terminal }
    }

    pub(super) fn screen(&self) -> String {
        self.terminal.screen()
    }

    pub(super) fn sees(&self, text: &str) -> bool {
        self.screen().contains(text)
    }

    /// Presses a key and waits until the screen has changed and stands.
    pub(super) fn press(&mut self, key: &str) {
        let before = self.terminal.sight();
        self.terminal.send(key);
        self.terminal.wait_for_another(&before);
        self.terminal.settle();
    }

    /// Clicks on a text in the lowest line where it stands (the coordinates that terminals send since xterm's mode 1006).
    pub(super) fn clicks(&mut self, text: &str) {
        let screen = self.screen();
        let lines = screen.lines().enumerate();
        let found = lines.filter_map(|(row, line)| Some((row, line.find(text)?, line)));
        let found = found.last();
        let (row, at, line) = found.unwrap_or_else(|| panic!("{text}:\n{screen}"));
        let (column, row) = (line[..at].chars().count() + 1, row + 1);
        let before = self.terminal.raw().len();
        self.terminal.send(&format!(
            "\u{1b}[<0;{column};{row}M\u{1b}[<0;{column};{row}m"
        ));
        self.terminal.wait_for_more_than(before);
        self.terminal.settle();
    }

    /// Changes the size of the terminal, and waits until the picture follows.
    pub(super) fn pulls_the_window(&mut self, columns: u16, rows: u16) {
        let before = self.terminal.raw().len();
        self.terminal.resize(columns, rows);
        self.terminal.wait_for_more_than(before);
        self.terminal.settle();
    }

    /// From the first screen to the bench: guided, with this case number, and nothing comes in between.
    pub(super) fn begins(&mut self, seed: &str) {
        self.press("\r");
        assert!(
            self.sees(&says("screens-setup-question")),
            "{}",
            self.screen()
        );
        // From the end: the number, whether it is kept, whether things come in between.
        self.press("\u{1b}[F");
        self.press(seed);
        self.press("\u{1b}[A");
        self.press("\u{1b}[A");
        self.press("\u{1b}[C");
        let row = self.row(&says("screens-setup-disturbances"));
        assert!(row.contains(&says("screens-setup-undisturbed")), "{row}");
        self.press("\r");
        assert!(
            self.sees(&says("screens-sitting-guide")),
            "{}",
            self.screen()
        );
    }

    /// The line that holds a text.
    fn row(&self, text: &str) -> String {
        let screen = self.screen();
        let line = screen.lines().find(|line| line.contains(text));
        line.unwrap_or_else(|| panic!("{text}:\n{screen}"))
            .to_owned()
    }

    /// The clock of the bench.
    pub(super) fn clock(&self) -> String {
        let screen = self.screen();
        screen.split_whitespace().next().unwrap().to_owned()
    }

    /// The letter of the right answer to the question on the screen, if one is asked.
    fn answer(&self) -> Option<char> {
        let screen = self.screen();
        let steps = wet_resin()
            .module
            .steps
            .iter()
            .chain(&stock_teeth().module.steps);
        let ways = steps.flat_map(|step| &step.ways);
        for way in ways {
            // Rows wrap: the first words tell them apart.
            let letter = |title: &str| {
                let words: String = title.chars().take(22).collect();
                let lines = screen
                    .lines()
                    .filter_map(|line| line.find(&words).map(|at| &line[..at]));
                let mut letters = lines.filter_map(|before| {
                    let before: Vec<char> = before.chars().rev().take(3).collect();
                    match before[..] {
                        [' ', letter @ 'a'..='z', ' '] => Some(letter),
                        _ => None,
                    }
                });
                letters.next()
            };
            let mut titles = way.options.iter();
            let right = way.options.iter().find(|one| one.wrong.is_none());
            if let Some(right) = right
                && titles.all(|one| letter(&one.title).is_some())
            {
                return letter(&right.title);
            }
        }
        None
    }

    /// Does what the guide says next, or answers what is asked.
    pub(super) fn goes_on(&mut self) {
        match self.answer() {
            Some(letter) => self.press(&letter.to_string()),
            None => self.press("\r"),
        }
    }

    /// Goes on until a text is on the screen.
    pub(super) fn answers_until(&mut self, text: &str) {
        for _ in 0..20 {
            if self.sees(text) {
                return;
            }
            self.goes_on();
        }
        panic!("{text} never shows:\n{}", self.screen());
    }

    /// Follows the guide, hands the work over and sees the debrief.
    pub(super) fn works_to_the_end(&mut self) {
        for _ in 0..80 {
            if self.sees(&says("screens-debrief-outcome")) {
                return;
            }
            self.goes_on();
        }
        panic!("the work never gets done:\n{}", self.screen());
    }

    /// Hands the work over as it is.
    pub(super) fn hands_over(&mut self) {
        self.press("/");
        self.press(&says("screens-sitting-finish"));
        self.press("\r");
        self.press("\r");
        self.press("a");
        assert!(
            self.sees(&says("screens-debrief-outcome")),
            "{}",
            self.screen()
        );
    }

    /// The texts that stand reversed below the bar at the top.
    pub(super) fn reversed(&self) -> String {
        self.terminal
            .cells(|row, cell| (row > 0 && cell.inverse()).then(|| cell.contents().to_owned()))
    }

    /// The colours of letter and ground of an ordinary text, which stands in the last row.
    pub(super) fn ground(&self) -> (vt100::Color, vt100::Color) {
        let screen = self.screen();
        let row = screen.lines().count() - 1;
        let line = screen.lines().last().unwrap();
        let column = line.find(&says("screens-start-take")).unwrap();
        let number = |at: usize| u16::try_from(at).unwrap();
        self.terminal.colours_at(number(row), number(column))
    }

    /// Presses a key that leaves the program.
    pub(super) fn leaves(&mut self, key: &str, status: u32) {
        self.terminal.send(key);
        self.has_left(status);
    }

    /// Checks that the program has ended with a status, and that the shell has its terminal back with what it had said.
    pub(super) fn has_left(&mut self, status: u32) {
        assert_eq!(
            self.terminal.wait().exit_code(),
            status,
            "{}",
            self.screen()
        );
        assert!(!self.terminal.is_on_second_screen());
        assert!(
            self.sees(BEFORE) && !self.sees("Drybench:"),
            "{}",
            self.screen()
        );
        assert!(self.terminal.shows_the_cursor() && !self.terminal.hears_the_mouse());
        assert!(self.terminal.modes_are_as_before());
    }
}
