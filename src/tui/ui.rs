//! All screens together: which one is open, what lies over it, and what a command does. No terminal is needed for any of it.

use super::command::Command;
use super::frame::{Area, Frame, Role};
use super::list::Scroll;
use super::prose::{self, Line};
use super::screen::{AtTheTop, Desk, Hint, Key, Leaving, Notice, Screen, Turn};
use super::screens::laboratory::sign_in::SignIn;
use crate::app::System;
use crate::report::plain::Glyphs;
use crate::text::wrap::columns;

/// The smallest screen that everything fits on; below it the program says so.
pub const SMALLEST: (usize, usize) = (60, 20);

/// What the front end has to do after a command.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effect {
    /// Draw again.
    Draw,
    /// End the program.
    Leave,
}

/// What lies over the open screen.
enum Over {
    Nothing,
    Notice(Notice),
    Help(Scroll),
    /// The screen is about to do something that takes a while: this is said until it is done.
    Work(String),
    /// Whether what was filled in on the screen is to be dropped.
    Drop,
    /// Whether the program is left, and the demonstration with all that was done in it thrown away.
    ThrowAway,
}

/// The screens of a sitting.
pub struct Ui<S: System> {
    desk: Desk<S>,
    screens: Vec<Box<dyn Screen<S>>>,
    over: Over,
    /// Whether somebody has just been told what leaving would lose.
    warned: bool,
    /// Whether the screen on top asks who is there, because nobody was for too long.
    locked: bool,
}

impl<S: System> Ui<S> {
    /// Begins with a screen.
    #[must_use]
    pub fn new(desk: Desk<S>, first: Box<dyn Screen<S>>) -> Ui<S> {
        let mut ui = Ui {
            desk,
            screens: vec![first],
            over: Over::Nothing,
            warned: false,
            locked: false,
        };
        ui.say_where();
        ui
    }

    /// What has to be said when the program has been left, if anything: where a rehearsal under way is kept.
    #[must_use]
    pub fn farewell(&self) -> Option<String> {
        self.screens
            .iter()
            .find_map(|screen| match screen.leaving() {
                Leaving::Kept(path) => {
                    let path = path.to_string_lossy().replace('\\', "/");
                    Some(self.desk.say(screen.farewell(), &[("path", path.into())]))
                }
                Leaving::Fine | Leaving::Lost => None,
            })
    }

    /// Clears away what was made to be thrown away.
    pub fn clear_away(&self) {
        for folder in &self.desk.thrown_away {
            self.desk.system.clear_away(folder);
        }
    }

    /// What all screens share.
    #[must_use]
    pub fn desk(&self) -> &Desk<S> {
        &self.desk
    }

    /// Takes note of the size of the terminal.
    pub fn resize(&mut self, wide: usize, tall: usize) {
        self.desk.area = Area::whole(wide, tall);
    }

    /// Whether time passes on the open screen.
    #[must_use]
    pub fn is_live(&self) -> bool {
        let lives = self.screens.last().is_some_and(|one| one.is_live());
        matches!(self.over, Over::Nothing) && lives || self.is_at_work() || self.is_left_alone()
    }

    /// Whether the open screen waits for the next tick to do something that takes a while. The picture that says so has to be drawn before.
    #[must_use]
    pub fn is_at_work(&self) -> bool {
        matches!(self.over, Over::Work(_))
    }

    /// Whether somebody is signed in who has not pressed a key for too long.
    fn is_left_alone(&self) -> bool {
        let watched = self.screens.iter().any(|one| one.is_watched());
        let mut here = self.desk.here;
        let now = self.desk.system.elapsed();
        !watched && !self.locked && here.as_mut().is_some_and(|here| here.looks(now))
    }

    /// Asks who is there, over everything that is open.
    fn lock(&mut self) {
        self.locked = true;
        self.over = Over::Nothing;
        let asks = SignIn::again(&mut self.desk);
        self.screens.push(Box::new(asks));
    }

    /// Writes into the bar which laboratory is open and who is signed in.
    fn say_where(&mut self) {
        let person = self.desk.person();
        let said = self.desk.office().map(|(house, words)| {
            let who = person.map_or_else(String::new, |code| house.name_of(code));
            let say = |here: &str| {
                let values = [
                    ("who", who.as_str().into()),
                    ("name", house.name().into()),
                    ("here", here.into()),
                ];
                if house.is_demonstration() {
                    words.say("office-bar-demonstration", &values)
                } else {
                    words.say("office-bar", &values)
                }
            };
            AtTheTop {
                whole: say(if person.is_some() {
                    "somebody"
                } else {
                    "nobody"
                }),
                short: say("nobody"),
            }
        });
        self.desk.at_the_top = said.unwrap_or_default();
    }

    fn is_too_small(&self) -> bool {
        self.desk.area.wide < SMALLEST.0 || self.desk.area.tall < SMALLEST.1
    }

    /// Takes a command.
    pub fn handle(&mut self, command: Command) -> Effect {
        if self.is_left_alone() {
            self.lock();
            return Effect::Draw;
        }
        let now = self.desk.system.elapsed();
        if let Some(here) = self.desk.here.as_mut().filter(|_| command != Command::Tick) {
            here.key(now);
        }
        let effect = self.take(command);
        self.say_where();
        effect
    }

    fn take(&mut self, command: Command) -> Effect {
        self.warned &= matches!(command, Command::Leave | Command::Tick);
        match command {
            Command::Theme => self.desk.theme = self.desk.theme.other(),
            Command::Glyphs => {
                self.desk.glyphs = match self.desk.glyphs {
                    Glyphs::Ascii => Glyphs::Braille,
                    Glyphs::Braille => Glyphs::Ascii,
                }
            }
            // What is kept is kept already; what is not kept is not lost without a word.
            Command::Leave => return self.leave(),
            // What cannot be seen is not acted on.
            _ if self.is_too_small() => {
                if matches!(command, Command::Type('q')) {
                    return Effect::Leave;
                }
            }
            _ => return self.send_on(command),
        }
        Effect::Draw
    }

    /// Leaves the program, after a warning where that would lose something.
    fn leave(&mut self) -> Effect {
        match self.would_lose() {
            Some(message) if !self.warned => {
                self.warned = true;
                let text = self.desk.say(message, &[]);
                self.over = Over::Notice(Notice::new(vec![text]));
                Effect::Draw
            }
            _ => Effect::Leave,
        }
    }

    /// The message that says what leaving the program would lose, if anything.
    fn would_lose(&self) -> Option<&'static str> {
        let any = |loses: fn(&dyn Screen<S>) -> bool| {
            let mut screens = self.screens.iter();
            screens.any(|screen| loses(screen.as_ref()))
        };
        if any(|screen| screen.leaving() == Leaving::Lost) {
            Some("screens-leave-loses")
        } else if any(|screen| screen.would_drop()) {
            Some("screens-leave-drops")
        } else {
            None
        }
    }

    fn send_on(&mut self, command: Command) -> Effect {
        match &mut self.over {
            // Whoever types on meanwhile loses neither the notice nor a letter of something else.
            Over::Notice(_) => {
                if matches!(command, Command::Take | Command::Back) {
                    self.over = Over::Nothing;
                }
                return Effect::Draw;
            }
            // A key that comes before the work has begun was meant for what was there before.
            Over::Work(_) => {
                if command != Command::Tick {
                    return Effect::Draw;
                }
                self.over = Over::Nothing;
                let Some(top) = self.screens.last_mut() else {
                    return Effect::Leave;
                };
                let turn = top.works(&mut self.desk);
                return self.turn(turn);
            }
            Over::Drop => {
                match command {
                    Command::Back => {
                        self.over = Over::Nothing;
                        return self.close();
                    }
                    Command::Take => self.over = Over::Nothing,
                    _ => {}
                }
                return Effect::Draw;
            }
            // Whoever came here by a slip goes back as from everywhere: only the same key once more leaves.
            Over::ThrowAway => {
                match command {
                    Command::Type('q') => return self.leave(),
                    Command::Take | Command::Back => self.over = Over::Nothing,
                    _ => {}
                }
                return Effect::Draw;
            }
            Over::Help(scroll) => {
                let scroll = *scroll;
                let inside = self.help_area();
                let lines = self.help_lines(inside.wide).len();
                let mut moved = scroll;
                self.over = if moved.moved(command, lines, inside.tall) {
                    Over::Help(moved)
                } else {
                    match command {
                        Command::Take | Command::Back | Command::Help | Command::Type('?') => {
                            Over::Nothing
                        }
                        _ => Over::Help(scroll),
                    }
                };
                return Effect::Draw;
            }
            Over::Nothing => {}
        }
        let Some(top) = self.screens.last_mut() else {
            return Effect::Leave;
        };
        if command == Command::Help || command == Command::Type('?') && !top.is_typing() {
            self.over = Over::Help(Scroll::default());
            return Effect::Draw;
        }
        if command == Command::Back && top.would_drop() && !top.closes_first() {
            self.over = Over::Drop;
            return Effect::Draw;
        }
        let turn = top.handle(command, &mut self.desk);
        self.turn(turn)
    }

    /// Does what a screen says comes next.
    fn turn(&mut self, turn: Turn<S>) -> Effect {
        match turn {
            Turn::Stay => {}
            Turn::Open(mut next) => {
                next.comes_up(&mut self.desk);
                self.screens.push(next);
            }
            Turn::Replace(mut next) => {
                self.screens.pop();
                next.comes_up(&mut self.desk);
                self.screens.push(next);
            }
            Turn::Restart(mut next, notice) => {
                self.locked = false;
                next.comes_up(&mut self.desk);
                self.screens = vec![next];
                self.over = notice.map_or(Over::Nothing, Over::Notice);
            }
            Turn::Close => return self.close(),
            Turn::CloseWith(notice) => {
                let effect = self.close();
                self.over = Over::Notice(notice);
                return effect;
            }
            Turn::Tell(notice) => self.over = Over::Notice(notice),
            Turn::Work(message) => self.over = Over::Work(self.desk.say(message, &[])),
            Turn::Leave if self.desk.is_thrown_away() => self.over = Over::ThrowAway,
            Turn::Leave => return self.leave(),
        }
        Effect::Draw
    }

    fn close(&mut self) -> Effect {
        self.screens.pop();
        self.locked = false;
        match self.screens.last_mut() {
            Some(under) => {
                let turn = under.comes_back(&mut self.desk);
                self.turn(turn)
            }
            None => Effect::Leave,
        }
    }

    /// The picture of everything.
    #[must_use]
    pub fn frame(&self) -> Frame {
        let desk = &self.desk;
        let mut frame = Frame::new(desk.area, desk.glyphs == Glyphs::Braille);
        let area = desk.area;
        frame.clear(area);
        let Some(top) = self.screens.last() else {
            return frame;
        };
        if self.is_too_small() {
            let values = [("wide", SMALLEST.0.into()), ("tall", SMALLEST.1.into())];
            let text = desk.say("screens-too-small", &values);
            let lines = prose::wrapped(Role::Plain, &text, area.wide);
            prose::draw(&mut frame, area, &lines, Scroll::default());
            return frame;
        }
        let (bar, below) = area.split_rows(1);
        frame.put_row(bar, 0, Role::Bar, "");
        let title = top.title(desk);
        let room_beside = |said: &str| match columns(said) {
            0 => bar.wide,
            said => bar.wide.saturating_sub(said + 3),
        };
        let AtTheTop { whole, short } = &desk.at_the_top;
        // Who is signed in gives way to a title that would be cut.
        let said = if columns(&title) + 1 > room_beside(whole) {
            short
        } else {
            whole
        };
        let (left, _) = bar.split_columns(room_beside(said));
        frame.put(left, 0, 1, Role::Bar, &title);
        let (right, _) = bar.split_columns(bar.wide.saturating_sub(1));
        frame.put_right(right, 0, Role::Bar, said);
        let (body, foot) = below.split_rows(below.tall - 2);
        top.draw(&mut frame, body, desk);
        frame.rule(foot, 0);
        self.draw_keys(&mut frame, foot.split_rows(1).1, top.as_ref());
        match &self.over {
            Over::Nothing => {}
            Over::Notice(notice) => {
                let close = desk.say("screens-notice-close", &[]);
                self.draw_box(
                    &mut frame,
                    body,
                    "screens-notice-title",
                    &notice.texts,
                    &close,
                );
            }
            Over::Work(text) => {
                let texts = std::slice::from_ref(text);
                self.draw_box(&mut frame, body, "screens-work-title", texts, "");
            }
            Over::Drop => {
                let text = desk.say("screens-drop", &[]);
                let keys = desk.say("screens-drop-keys", &[]);
                self.draw_box(&mut frame, body, "screens-drop-title", &[text], &keys);
            }
            Over::ThrowAway => {
                let text = desk.say("screens-throw-away", &[]);
                let keys = desk.say("screens-throw-away-keys", &[]);
                self.draw_box(&mut frame, body, "screens-throw-away-title", &[text], &keys);
            }
            Over::Help(scroll) => {
                let inside = self.help_area();
                let outside = Area {
                    x: inside.x - 2,
                    y: inside.y - 1,
                    wide: inside.wide + 4,
                    tall: inside.tall + 2,
                };
                frame.boxed(outside, &desk.say("screens-help-title", &[]));
                prose::draw(&mut frame, inside, &self.help_lines(inside.wide), *scroll);
            }
        }
        frame
    }

    fn draw_keys(&self, frame: &mut Frame, row: Area, top: &dyn Screen<S>) {
        let desk = &self.desk;
        let help_key = if top.is_typing() {
            Key::F1
        } else {
            Key::Letter('?')
        };
        let help = Hint {
            command: Command::Help,
            ..desk.hint(help_key, "screens-key-help")
        };
        let wide = |hint: &Hint| columns(&hint.key) + 1 + columns(&hint.says);
        let room = row.wide.saturating_sub(wide(&help) + 3);
        let mut at = 1;
        let put = |frame: &mut Frame, hint: &Hint, at: usize| {
            let key = &hint.key;
            frame.put(row, 0, at, Role::Key, key);
            frame.put(row, 0, at + columns(key) + 1, Role::Plain, &hint.says);
            let hot = Area {
                x: row.x + at,
                y: row.y,
                wide: wide(hint),
                tall: 1,
            };
            frame.hot(hot, hint.command);
        };
        // The way back is always in sight; the others come in their order as far as there is room.
        let (back, others): (Vec<Hint>, Vec<Hint>) = top
            .hints(desk)
            .into_iter()
            .partition(|hint| hint.command == Command::Back);
        let mut room = room;
        for hint in &back {
            room = room.saturating_sub(wide(hint) + 3);
            put(frame, hint, room + 2);
        }
        for hint in others {
            if at + wide(&hint) <= room {
                put(frame, &hint, at);
                at += wide(&hint) + 3;
            }
        }
        put(frame, &help, row.wide.saturating_sub(wide(&help) + 1));
    }

    /// A box over the screen: its title, paragraphs, and the keys that close it where some do.
    fn draw_box(&self, frame: &mut Frame, body: Area, title: &str, texts: &[String], keys: &str) {
        let wide = body.wide.min(96);
        let mut lines: Vec<Line> = Vec::new();
        for text in texts {
            lines.extend(prose::wrapped(Role::Plain, text, wide - 4));
            lines.push(Line::new(Role::Plain, ""));
        }
        if keys.is_empty() {
            lines.pop();
        } else {
            lines.extend(prose::wrapped(Role::Key, keys, wide - 4));
        }
        let outside = body.middle(wide, lines.len() + 2);
        let inside = frame.boxed(outside, &self.desk.say(title, &[]));
        prose::draw(frame, inside, &lines, Scroll::default());
        frame.hot(outside, Command::Take);
    }

    fn help_area(&self) -> Area {
        // What stands in the last rows of a screen stays in sight.
        let body = self.desk.body();
        let (body, _) = body.split_rows(body.tall.saturating_sub(2));
        let wide = if body.wide < 92 { body.wide } else { 88 };
        body.middle(wide, body.tall).within(2, 1)
    }

    fn help_lines(&self, wide: usize) -> Vec<Line> {
        let Some(top) = self.screens.last() else {
            return Vec::new();
        };
        let desk = &self.desk;
        let mut lines = prose::wrapped(Role::Plain, &desk.say(top.about(), &[]), wide);
        lines.push(Line::new(Role::Plain, ""));
        let everywhere = [
            desk.hint(Key::CtrlT, "screens-key-theme"),
            desk.hint(Key::CtrlG, "screens-key-glyphs"),
            desk.hint(Key::CtrlQ, "screens-key-leave"),
            desk.hint(Key::F1, "screens-key-help"),
        ];
        let all: Vec<Hint> = top.hints(desk).into_iter().chain(everywhere).collect();
        let keys: Vec<String> = all.iter().map(|one| one.key.clone()).collect();
        let column = keys.iter().map(|key| columns(key)).max().unwrap_or(0) + 2;
        for (hint, key) in all.iter().zip(&keys) {
            let blank = " ".repeat(column - columns(key));
            let texts =
                crate::text::wrap::wrap_behind(&format!("{key}{blank}"), &hint.explains, wide);
            lines.extend(texts.into_iter().map(|text| Line::new(Role::Plain, text)));
        }
        lines.push(Line::new(Role::Plain, ""));
        lines.extend(prose::wrapped(
            Role::Faint,
            &desk.say("screens-help-mouse", &[]),
            wide,
        ));
        lines
    }
}
