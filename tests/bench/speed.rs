//! Benchmarks by name: `cargo bench -- NAME`.

mod alignment;
mod performing;

fn main() {
    divan::main();
}
