//! Benchmarks by name: `cargo bench -- NAME`.

mod alignment;

fn main() {
    divan::main();
}
