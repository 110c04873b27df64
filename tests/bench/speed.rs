//! Benchmarks by name: `cargo bench -- NAME`.

mod alignment;
mod performing;
mod rehearsing;

fn main() {
    divan::main();
}
