//! Where the screens meet the drawing library: events in, pieces out. Holds no state but the screens and the last picture.

use cursive::event::{Event, EventResult};
use cursive::view::View;
use cursive::{Cursive, Printer, Vec2};

use super::command::command;
use super::ui::{Effect, Ui};
use crate::app::System;

/// The one view of the program.
pub struct Screens<S: System> {
    ui: Ui<S>,
}

impl<S> Screens<S>
where
    S: System + Send + Sync + 'static,
{
    /// A view of these screens.
    #[must_use]
    pub fn new(ui: Ui<S>) -> Screens<S> {
        Screens { ui }
    }

    /// The screens.
    #[must_use]
    pub fn ui(&self) -> &Ui<S> {
        &self.ui
    }
}

impl<S> View for Screens<S>
where
    S: System + Send + Sync + 'static,
{
    fn draw(&self, printer: &Printer<'_, '_>) {
        // Views are drawn once before they have a size.
        if printer.size.x == 0 || printer.size.y == 0 {
            return;
        }
        for piece in self.ui.frame().pieces() {
            let style = self.ui.desk().theme.style(piece.role);
            printer.with_style(style, |printer| {
                printer.print((piece.x, piece.y), &piece.text);
            });
        }
    }

    fn layout(&mut self, size: Vec2) {
        self.ui.resize(size.x, size.y);
    }

    fn required_size(&mut self, room: Vec2) -> Vec2 {
        room
    }

    fn take_focus(
        &mut self,
        _from: cursive::direction::Direction,
    ) -> Result<EventResult, cursive::view::CannotFocus> {
        Ok(EventResult::consumed())
    }

    fn on_event(&mut self, event: Event) -> EventResult {
        let frame = || self.ui.frame();
        let Some(command) = command(&event, |x, y| frame().clicked(x, y)) else {
            return EventResult::Ignored;
        };
        let theme = self.ui.desk().theme;
        match self.ui.handle(command) {
            Effect::Leave => EventResult::with_cb(Cursive::quit),
            Effect::Draw if self.ui.desk().theme != theme => {
                let whole = self.ui.desk().theme;
                EventResult::with_cb(move |siv| siv.set_theme(whole.whole()))
            }
            Effect::Draw => EventResult::consumed(),
        }
    }
}
