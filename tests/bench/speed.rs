//! Benchmarks by name: `cargo bench -- NAME`.

mod alignment;
mod crowd;
mod looking;
mod performing;
mod recording;
mod rehearsing;
mod still;
mod years;

fn main() {
    divan::main();
    recording::print_ratios();
}
