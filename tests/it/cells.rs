//! Texts of any origin drawn on a screen: nothing stops the program, and nothing comes out that a terminal would obey.

use cursive::Cursive;
use cursive::event::{Event, Key};
use cursive::theme::{Effect, Theme};
use cursive::traits::{Resizable as _, Scrollable as _};
use cursive::views::{Canvas, Dialog, EditView, SelectView, TextView};
use drybench::rng::{Seed, Stream};
use drybench::text::cell_safe;
use drybench::tui::theme::Theme as Ours;
use unicode_width::UnicodeWidthStr as _;

use crate::support::hostile_text::{hostile, is_raw};
use crate::support::memory_screen::MemoryScreen;

#[test]
fn forty_thousand_hostile_texts_are_drawn_and_none_comes_out_raw() {
    let mut stream = Stream::new(Seed(1), "texts");
    let mut screen = MemoryScreen::open(24, 30, Cursive::new());
    let mut told = 0;
    for round in 0..2_000_i64 {
        let texts: Vec<String> = (0..20).map(|_| cell_safe(&hostile(&mut stream))).collect();
        let shift = usize::try_from(round % 20).unwrap();
        told += texts.len();
        screen.views().pop_layer();
        screen.views().add_fullscreen_layer(
            Canvas::new(texts)
                .with_draw(move |texts, printer| {
                    for (row, text) in texts.iter().enumerate() {
                        // Whole, cut off on the right, and cut off on the left.
                        printer.print((0, row), text);
                        printer.print((shift, row), text);
                        printer
                            .content_offset((shift, 0))
                            .offset((0, 0))
                            .print((0, row), text);
                    }
                })
                .full_screen(),
        );
        screen.send([Event::Refresh]);
    }
    assert_eq!(told, 40_000);
    let printed = screen.printed();
    assert!(printed.len() > 100_000, "{}", printed.len());
    for text in printed {
        assert!(!text.chars().any(is_raw), "{text:?}");
        assert!(text.width() <= 2, "{text:?}");
    }
}

#[test]
fn views_of_the_library_show_hostile_texts_at_any_size() {
    let mut stream = Stream::new(Seed(2), "texts");
    for round in 0..300 {
        let mut safe = || cell_safe(&hostile(&mut stream));
        let mut menu = SelectView::<()>::new();
        for _ in 0..5 {
            menu.add_item(safe(), ());
        }
        let (title, paragraph, typed) =
            (safe(), (0..6).map(|_| safe()).collect::<Vec<_>>(), safe());
        let mut views = Cursive::new();
        views.add_layer(
            Dialog::around(
                cursive::views::LinearLayout::vertical()
                    .child(menu)
                    .child(TextView::new(paragraph.join(" ")))
                    .child(EditView::new().content(typed))
                    .scrollable(),
            )
            .title(title),
        );
        let mut screen = MemoryScreen::open(30, 12, views);
        for (columns, rows) in [(12, 5), (7, 3), (1, 1), (200, 60), (30, 12)] {
            screen.resize(columns, rows);
            screen.send([
                Event::Key(Key::Down),
                Event::Key(Key::Tab),
                Event::Char('x'),
            ]);
        }
        for text in screen.printed() {
            assert!(!text.chars().any(is_raw), "round {round}: {text:?}");
        }
    }
}

/// A list in a box, the second line chosen.
fn menu(theme: Theme) -> MemoryScreen {
    let mut views = Cursive::new();
    views.set_theme(theme);
    let mut list = SelectView::<()>::new();
    for item in ["Wash", "寸法", "Tack"] {
        list.add_item(item, ());
    }
    views.add_layer(Dialog::around(list).title("Steps"));
    let mut screen = MemoryScreen::open(40, 12, views);
    screen.send([Event::Key(Key::Down)]);
    screen
}

#[test]
fn the_plain_theme_sets_no_colour_and_still_shows_what_is_chosen() {
    let plain = menu(Ours::Colourless.whole());
    assert!(!plain.is_coloured());
    assert!(plain.effects().contains(&Effect::Reverse));
    assert!(plain.effects().contains(&Effect::Bold));
    assert!(menu(Theme::retro()).is_coloured());
}

#[test]
fn a_screen_in_memory_follows_its_size_and_its_keys() {
    let mut screen = menu(Ours::Colourless.whole());
    assert_eq!(screen.lines().len(), 12);
    assert!(screen.text().contains("Steps") && screen.text().contains("寸法"));
    screen.resize(80, 24);
    assert_eq!(screen.lines().len(), 24);
    let wide = screen.text();
    screen.resize(1, 1);
    assert_eq!(screen.lines().len(), 1);
    screen.resize(80, 24);
    assert_eq!(screen.text(), wide);
    screen.views().add_global_callback('q', Cursive::quit);
    assert!(screen.is_running());
    screen.type_text("q");
    assert!(!screen.is_running());
}
