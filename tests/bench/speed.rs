//! Benchmarks by name: `cargo bench -- NAME`.

fn main() {
    divan::main();
}
