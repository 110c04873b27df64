//! Benchmarks by name: `cargo bench -- NAME`.

mod alignment;
mod performing;
mod recording;
mod rehearsing;
mod years;

fn main() {
    divan::main();
    recording::print_ratios();
}
