//! What lies over the bench, drawn.

use super::Sitting;
use super::over::{Ask, Over};
use crate::app::System;
use crate::report::Running;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::rows::{self, Look};
use crate::tui::screen::Desk;

impl<S: System> Sitting<S> {
    pub(super) fn draw_over(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        match &self.over {
            Over::Nothing => {
                if let Some(sheet) = &self.sheet {
                    self.draw_sheet(frame, area, sheet, desk);
                }
            }
            Over::Ask(ask) => self.draw_ask(frame, area, ask, desk),
            Over::Wait(field, choice, wrong) => {
                let inside = frame.boxed(
                    self.box_area(area, desk),
                    &desk.say("screens-sitting-wait", &[]),
                );
                let how = desk.say("screens-sitting-wait-how", &[]);
                let how = prose::wrapped(Role::Plain, &how, inside.wide);
                let (head, below) = inside.split_rows(how.len());
                prose::draw(frame, head, &how, Scroll::default());
                frame.put(below, 0, 0, Role::Field, &field.shown());
                let (_, below) = below.split_rows(2);
                let texts = wrong.iter().flat_map(|one| &one.texts);
                let mut lines: Vec<Line> = Vec::new();
                for text in texts {
                    lines.extend(prose::wrapped(Role::Caution, text, below.wide));
                }
                lines.extend(prose::wrapped(
                    Role::Plain,
                    &desk.say("screens-sitting-wait-until", &[]),
                    below.wide,
                ));
                let used = lines.len();
                prose::draw(frame, below, &lines, Scroll::default());
                let running = Running::on_screen(self.session.rehearsal(), &desk.words);
                let (_, below) = below.split_rows(used);
                let signs: Vec<String> = running.waits().into_iter().map(|one| one.1).collect();
                rows::draw(frame, below, &signs, choice.at, Look::of(3, false));
            }
            Over::Find(field, choice) => {
                let inside = frame.boxed(
                    self.box_area(area, desk),
                    &desk.say("screens-sitting-find", &[]),
                );
                let (head, below) = inside.split_rows(2);
                frame.put(head, 0, 0, Role::Field, &field.shown());
                let found = self.found(&field.text).into_iter();
                let titles: Vec<String> = found
                    .map(|(group, _, title)| {
                        let values = [
                            ("what", title.into()),
                            ("station", self.groups[group].title.as_str().into()),
                        ];
                        desk.say("screens-sitting-found", &values)
                    })
                    .collect();
                rows::draw(frame, below, &titles, choice.at, Look::of(3, false));
            }
            Over::Look(scroll) => {
                let inside = frame.boxed(
                    self.box_area(area, desk),
                    &desk.say("screens-sitting-look", &[]),
                );
                prose::draw(frame, inside, &self.look_lines(inside.wide, desk), *scroll);
            }
        }
    }

    fn draw_ask(&self, frame: &mut Frame, area: Area, ask: &Ask, desk: &Desk<S>) {
        let wide = area.wide.saturating_sub(8).min(76);
        let mut lines: Vec<Line> = Vec::new();
        for (number, text) in ask.texts.iter().enumerate() {
            let role = if number == 0 {
                Role::Strong
            } else {
                Role::Plain
            };
            lines.extend(prose::wrapped(role, text, wide - 4));
        }
        lines.push(Line::new(Role::Plain, ""));
        let answers: Vec<String> = ask.answers.iter().map(|one| one.1.clone()).collect();
        let rows: usize = answers
            .iter()
            .map(|text| prose::wrapped(Role::Plain, text, wide - 8).len())
            .sum();
        let outside = area.middle(wide, lines.len() + rows + 2);
        let inside = frame.boxed(outside, &desk.say("screens-sitting-ask", &[]));
        prose::draw(frame, inside, &lines, Scroll::default());
        let (_, below) = inside.split_rows(lines.len());
        rows::draw(frame, below, &answers, ask.choice.at, Look::of(3, true));
    }
}
