//! A laboratory opens its record: its name, its owner, the owner's passphrase. One question after the other; Esc goes back to the one before.

use super::board::Board;
use crate::app::System;
use crate::app::laboratory::{Attendance, Founding as Asked, Laboratory, check_first};
use crate::people::{Name, Passphrase};
use crate::record::scope::Id;
use crate::report::record::{fingerprint, name_problem, text_problem, trouble};
use crate::tui::chosen_passphrase::ChosenPassphrase;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn, not_opened};

/// What is asked, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Question {
    Laboratory,
    Owner,
    Workstation,
    Accountability,
    Passphrase,
    Again,
}

const QUESTIONS: [Question; 6] = [
    Question::Laboratory,
    Question::Owner,
    Question::Workstation,
    Question::Accountability,
    Question::Passphrase,
    Question::Again,
];

/// Opens a record, question by question.
pub struct Founding {
    at: usize,
    laboratory: Field,
    owner: Field,
    workstation: Field,
    passphrase: ChosenPassphrase,
    /// The passphrase, while the record is being opened with it.
    ready: Option<Passphrase>,
    /// What is wrong with the answer to the open question, until it is changed.
    wrong: Vec<String>,
}

impl Founding {
    /// Begins with the first question.
    #[must_use]
    pub fn new<S: System>(desk: &Desk<S>) -> Founding {
        let workstation = Field {
            text: desk.say("office-founding-workstation-name", &[]),
        };
        Founding {
            at: 0,
            laboratory: Field::default(),
            owner: Field::default(),
            workstation,
            passphrase: ChosenPassphrase::default(),
            ready: None,
            wrong: Vec::new(),
        }
    }

    fn question(&self) -> Question {
        QUESTIONS[self.at.min(QUESTIONS.len() - 1)]
    }

    fn field(&mut self) -> Option<&mut Field> {
        match self.question() {
            Question::Laboratory => Some(&mut self.laboratory),
            Question::Owner => Some(&mut self.owner),
            Question::Workstation => Some(&mut self.workstation),
            _ => None,
        }
    }

    /// What is wrong with the answer to the open question, in words; nothing where it will do.
    fn wrong<S: System>(&self, desk: &Desk<S>) -> Option<Notice> {
        let words = &desk.words;
        let name = |field: &Field| {
            let name = field.text.parse::<Name>();
            name.err()
                .map(|problem| Notice::told(name_problem(problem, words)))
        };
        match self.question() {
            Question::Laboratory => name(&self.laboratory),
            Question::Owner => name(&self.owner),
            Question::Workstation => {
                let id = self.workstation.text.trim().parse::<Id>();
                id.err()
                    .map(|problem| Notice::told(text_problem(problem, words)))
            }
            Question::Accountability | Question::Passphrase | Question::Again => None,
        }
    }

    /// The passphrase is looked at, asked for again, or the record is opened with it.
    fn take_passphrase<S: System>(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let names = (self.owner.text.parse(), self.laboratory.text.parse());
        let given = self.passphrase.leave(desk, |passphrase, desk| {
            // Both were looked at when their questions were left.
            let (Ok(owner), Ok(laboratory)) = names else {
                return Ok(());
            };
            check_first(passphrase, &owner, &laboratory)
                .map_err(|problem| not_opened(&problem, &desk.words))
        });
        if given.is_some() {
            self.ready = given;
            return Turn::Work("office-founding-opens");
        }
        let asked = if self.passphrase.is_repeated() {
            Question::Again
        } else {
            Question::Passphrase
        };
        self.go_to(asked);
        Turn::Stay
    }

    fn go_to(&mut self, question: Question) {
        let at = QUESTIONS.iter().position(|one| *one == question);
        self.at = at.unwrap_or(0);
    }

    fn found<S: System>(&mut self, passphrase: Passphrase, desk: &mut Desk<S>) -> Turn<S> {
        self.go_to(Question::Passphrase);
        let (Ok(laboratory), Ok(owner), Ok(workstation)) = (
            self.laboratory.text.parse(),
            self.owner.text.parse(),
            self.workstation.text.trim().parse(),
        ) else {
            self.at = 0;
            return Turn::Stay;
        };
        let asked = Asked {
            laboratory,
            workstation,
            owner,
            passphrase,
            accountability: desk.say("laboratory-accountability", &[]),
        };
        let founded = desk
            .laboratory_folder()
            .map_err(|fault| Notice::new(crate::app::complain::machine(&fault, &desk.words)))
            .and_then(|folder| {
                let place = desk.system.place(&folder);
                place.map_err(|why| Notice::told(trouble(why, &desk.words)))
            })
            .and_then(|place| {
                Laboratory::found(place, &asked)
                    .map_err(|problem| not_opened(&problem, &desk.words))
            });
        let (laboratory, first) = match founded {
            Ok(founded) => founded,
            Err(notice) => return Turn::Tell(notice),
        };
        if let Err(notice) = desk.lay_open(laboratory) {
            return Turn::Tell(notice);
        }
        desk.here = Some(Attendance::of(first.person, desk.system.elapsed()));
        let values = [
            ("code", first.person.to_string().into()),
            ("seal", fingerprint(&first.founded.0).into()),
        ];
        let texts = vec![
            desk.say("laboratory-founded", &values),
            desk.say("office-founding-then", &[]),
        ];
        Turn::Restart(Box::new(Board::new(desk)), Some(Notice::new(texts)))
    }
}

impl<S: System> Screen<S> for Founding {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        match command {
            Command::Back if self.at == 0 => return Turn::Close,
            Command::Back => {
                self.at -= 1;
                self.passphrase.forget();
                self.wrong.clear();
            }
            Command::Take => match self.question() {
                Question::Passphrase | Question::Again => return self.take_passphrase(desk),
                _ => match self.wrong(desk) {
                    Some(wrong) => self.wrong = wrong.texts,
                    None => self.at += 1,
                },
            },
            Command::Type(_) | Command::Erase => {
                self.wrong.clear();
                match (self.field(), command) {
                    (Some(field), Command::Type(c)) => field.typed(c),
                    (Some(field), _) => field.erase(),
                    (None, _) => {}
                }
                if matches!(self.question(), Question::Passphrase | Question::Again) {
                    self.passphrase.handle(command);
                }
            }
            _ => {}
        }
        Turn::Stay
    }

    fn works(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        match self.ready.take() {
            Some(passphrase) => self.found(passphrase, desk),
            None => Turn::Stay,
        }
    }

    fn would_drop(&self) -> bool {
        self.at == 0 && !(self.laboratory.text.is_empty() && self.owner.text.is_empty())
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let wide = inside.wide.min(90);
        let (asks, about) = match self.question() {
            Question::Laboratory => (
                "office-founding-laboratory",
                "office-founding-laboratory-about",
            ),
            Question::Owner => ("office-founding-owner", "office-founding-owner-about"),
            Question::Workstation => (
                "office-founding-workstation",
                "office-founding-workstation-about",
            ),
            Question::Accountability => ("office-founding-binds", "laboratory-accountability"),
            Question::Passphrase => (
                "office-founding-passphrase",
                "office-founding-passphrase-about",
            ),
            Question::Again => ("office-founding-again", "office-passphrase-hidden"),
        };
        let place = [("at", (self.at + 1).into()), ("of", QUESTIONS.len().into())];
        let mut lines = prose::wrapped(
            Role::Faint,
            &desk.say("office-founding-place", &place),
            wide,
        );
        lines.push(prose::Line::new(Role::Plain, ""));
        lines.extend(prose::wrapped(Role::Strong, &desk.say(asks, &[]), wide));
        let typed = match self.question() {
            Question::Laboratory => Some(&self.laboratory),
            Question::Owner => Some(&self.owner),
            Question::Workstation => Some(&self.workstation),
            Question::Accountability | Question::Passphrase | Question::Again => None,
        };
        if matches!(self.question(), Question::Passphrase | Question::Again) {
            lines.extend(self.passphrase.lines(wide, desk));
        }
        lines.extend(typed.map(|typed| prose::Line::new(Role::Field, typed.shown())));
        lines.extend(prose::cautions(&self.wrong, wide));
        lines.push(prose::Line::new(Role::Plain, ""));
        lines.extend(prose::wrapped(Role::Plain, &desk.say(about, &[]), wide));
        prose::draw(frame, inside, &lines, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("office-founding-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let take = match self.question() {
            Question::Accountability => "office-founding-agree",
            Question::Again => "office-founding-open",
            _ => "office-founding-next",
        };
        vec![
            desk.hint(Key::Enter, take),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "office-founding-about"
    }

    fn is_typing(&self) -> bool {
        true
    }
}
