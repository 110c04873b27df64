//! Arguments in, exit status out.

use std::process::ExitCode;

use drybench::app::Wish;
use drybench::cli::{self, Out};
use drybench::os::{self, Machine};
use drybench::text::{SOURCE_LANGUAGE, Words};
use drybench::tui;

fn main() -> ExitCode {
    let system = Machine::start();
    let language = os::preferred_language();
    let words = || Words::shipped(language.as_deref().unwrap_or(SOURCE_LANGUAGE));
    let screens = |wish: &Wish| tui::show(system, words(), wish, os::colours());
    let mut out = Out::standard();
    cli::run(std::env::args_os(), &system, &words(), &mut out, &screens)
}
