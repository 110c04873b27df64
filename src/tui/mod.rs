//! Edge: the screens. Keys become commands, commands change a screen's state, and every picture is drawn anew from it.
//!
//! `handle(command)` and `frame()` need no terminal (`ui`); the drawing library only carries events in and pieces out (`view`).
//! Left out: rules about modules, runs and grades, which `app` and the pure rooms know; and the words, which `text` says.

mod chosen_passphrase;
pub mod command;
mod credentials;
mod field;
pub mod frame;
mod hidden;
pub mod house;
mod list;
mod prose;
mod rows;
pub mod screen;
pub mod screens;
pub mod terminal;
pub mod theme;
pub mod ui;
pub mod view;

use cursive::Cursive;
use cursive::view::{Nameable as _, Resizable as _};

use crate::app::shelf::Shelf;
use crate::app::{Begin, Colours, NoScreens, Shown, System, Wish};
use crate::report::plain::Glyphs;
use crate::text::Words;
use frame::Area;
use screen::{AtTheTop, Desk, Screen, not_opened};
use screens::laboratory::opening::Opening;
use screens::laboratory::welcome::{Welcome, open_demonstration};
use screens::start::Start;
use terminal::NoTerminal;
use theme::Theme;
use ui::Ui;
use view::Screens;

/// The name of the one view.
const VIEW: &str = "screens";

/// Builds the screens on their first one, for a terminal of any size.
#[must_use]
pub fn first<S: System>(system: S, words: Words, wish: &Wish, colours: Colours) -> Ui<S> {
    let mut desk = desk(system, words, wish, colours);
    let first = first_screen(wish.begin, &mut desk);
    Ui::new(desk, first)
}

/// What all screens share, before any of them is open: no laboratory, nobody signed in.
#[must_use]
pub fn desk<S: System>(system: S, words: Words, wish: &Wish, colours: Colours) -> Desk<S> {
    let theme = match (colours, wish.light) {
        (Colours::None, _) => Theme::Colourless,
        (Colours::Full, true) => Theme::Light,
        (Colours::Full, false) => Theme::Dark,
    };
    Desk {
        system,
        words: words.on_screens(),
        shelf: Shelf::shipped(),
        data: wish.data.clone(),
        area: Area::whole(80, 24),
        theme,
        glyphs: if wish.ascii {
            Glyphs::Ascii
        } else {
            Glyphs::Braille
        },
        house: None,
        here: None,
        before_demonstration: None,
        thrown_away: Vec::new(),
        at_the_top: AtTheTop::default(),
    }
}

fn first_screen<S: System>(begin: Begin, desk: &mut Desk<S>) -> Box<dyn Screen<S>> {
    match begin {
        Begin::Practice => Box::new(Start::new(desk)),
        Begin::Demonstration => match open_demonstration(desk) {
            Ok(asks) => Box::new(asks),
            Err(notice) => Box::new(Welcome::instead(notice)),
        },
        Begin::Laboratory => match Opening::begin(desk) {
            Ok(Some(opening)) => Box::new(opening),
            Ok(None) => Box::new(Welcome::new()),
            Err(problem) => Box::new(Welcome::instead(not_opened(&problem, &desk.words))),
        },
    }
}

/// Puts the screens into the drawing library.
#[must_use]
pub fn views<S>(ui: Ui<S>) -> Cursive
where
    S: System + Send + Sync + 'static,
{
    let mut views = Cursive::new();
    // Every key is a command of ours; the library's own way out would skip the screens.
    views.clear_global_callbacks(cursive::event::Event::CtrlChar('c'));
    views.set_theme(ui.desk().theme.whole());
    views.add_fullscreen_layer(Screens::new(ui).with_name(VIEW).full_screen());
    views
}

/// Whether time passes on the open screen.
pub fn is_live<S>(views: &mut Cursive) -> bool
where
    S: System + Send + Sync + 'static,
{
    let live = views.call_on_name(VIEW, |view: &mut Screens<S>| view.ui().is_live());
    live.unwrap_or(false)
}

/// Shows the screens until somebody leaves them or a signal ends them.
///
/// # Errors
/// When there is no terminal, or it breaks off.
pub fn show<S>(system: S, words: Words, wish: &Wish, colours: Colours) -> Result<Shown, NoScreens>
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    let terminal = terminal::open(colours).map_err(|problem| match problem {
        NoTerminal::Input | NoTerminal::Output => NoScreens::NoTerminal,
        NoTerminal::Refused(error) => NoScreens::Refused(error),
    })?;
    let mut views = views(first(system, words, wish, colours));
    let ended = terminal::run(terminal, &mut views, is_live::<S>);
    let farewell = views.call_on_name(VIEW, |view: &mut Screens<S>| {
        view.ui().clear_away();
        view.ui().farewell()
    });
    let ended = ended.map_err(NoScreens::Broken)?;
    Ok(Shown {
        status: ended.status(),
        farewell: farewell.flatten(),
    })
}
