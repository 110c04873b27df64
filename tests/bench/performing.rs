//! What one operation costs on the bench, and that its cost does not depend on how long it lasts.

use std::sync::Arc;

use divan::{Bencher, black_box};
use drybench::app::shelf::Shelf;
use drybench::bench::{Bench, Doing, Model};
use drybench::rng::Seed;
use drybench::syllabus::case::CaseCard;
use drybench::syllabus::operation::Operation;
use drybench::units::Millis;

/// The bench of the stock-teeth workflow with all operations of its steps.
fn stock_teeth() -> (Arc<Model>, Vec<Operation>) {
    let taken = Shelf::shipped()
        .take("stock-teeth", None)
        .expect("the module ships with the program");
    let card = CaseCard::combinations(&taken.module)
        .last()
        .expect("a module has a case");
    let model = Model::new(&taken.module, &card).expect("a shipped module has a bench");
    let steps = taken.module.steps.into_iter();
    (Arc::new(model), steps.flat_map(|step| step.does).collect())
}

/// Every operation of the workflow once, each for so many seconds.
#[divan::bench(args = [1, 1_560])]
fn perform_every_operation(bencher: Bencher<'_, '_>, seconds: i64) {
    let (model, operations) = stock_teeth();
    let doing = Doing {
        timed: Millis::seconds(seconds),
        ..Doing::default()
    };
    bencher
        .with_inputs(|| Bench::new(&model, Seed(1)))
        .bench_values(|mut bench| {
            for operation in &operations {
                bench.perform(std::slice::from_ref(operation), &doing);
            }
            bench
        });
}

#[divan::bench]
fn set_up(bencher: Bencher<'_, '_>) {
    let (model, _) = stock_teeth();
    bencher.bench(|| Bench::new(black_box(&model), Seed(1)));
}
