//! What a guide says on a screen: never that all is done while something is left, and not on from what does not look right yet.

use drybench::app::rehearse::{Disturbances, Session};
use drybench::report::{Guidance, Running, Turn};
use drybench::text::Words;

use crate::support::expert::{start, stock_teeth, typed, wet_resin};

fn guidance(session: &Session) -> Guidance {
    let words = Words::shipped("en-US");
    Running::on_screen(session.rehearsal(), &words).guidance()
}

fn step(session: &Session, guidance: &Guidance) -> String {
    let suggested = guidance.suggested.as_ref().expect("something is suggested");
    session.rehearsal().module().steps[suggested.step]
        .id
        .value
        .clone()
}

#[test]
fn nothing_is_called_done_while_something_is_left() {
    let session = typed(
        start(wet_resin(), "", 7, Disturbances::None),
        &["hand-over".to_owned()],
    );
    let said = guidance(&session);
    assert!(
        said.suggested
            .as_ref()
            .is_some_and(|one| one.turn == Turn::PassedBy),
        "{said:?}"
    );
    assert!(said.next.starts_with("Passed by"), "{said:?}");
}

#[test]
fn what_does_not_look_right_yet_is_suggested_once_more() {
    let session = typed(
        start(stock_teeth(), "", 7, Disturbances::None),
        &["read-ticket", "ready-bench", "dry-teeth for 1 s"].map(str::to_owned),
    );
    let said = guidance(&session);
    assert!(said.next.starts_with("Once more"), "{said:?}");
    assert_eq!(step(&session, &said), "dry-teeth");
}

#[test]
fn a_wrong_answer_is_explained_at_once() {
    let mut wrong = 0;
    for one in &stock_teeth().module.disturbances {
        for response in one.responses.iter().filter(|one| one.wrong.is_some()) {
            let id = one.id.value.clone();
            let come = Disturbances::Named(vec![id]);
            let (drybench::syllabus::module::Comes::Before(at)
            | drybench::syllabus::module::Comes::After(at)) = &one.comes;
            let fresh = start(stock_teeth(), "", 7, come);
            let all = fresh.rehearsal().plan().tasks_of_step.iter();
            let index = fresh.rehearsal().module().steps.iter();
            let (step, tasks) = index
                .zip(all)
                .find(|(step, _)| step.id.value == at.value)
                .expect("the step is there");
            let places = if tasks.len() > 1 { " all" } else { "" };
            let time = if step.keeping.is_some() {
                " for 5 s"
            } else {
                ""
            };
            let lines = [
                format!("{}{places}{time}", at.value),
                format!("respond {}", response.id.value),
            ];
            let session = typed(fresh, &lines);
            let words = Words::shipped("en-US");
            let running = Running::new(session.rehearsal(), &words);
            let trace = session.rehearsal().trace();
            let answered = trace
                .iter()
                .position(|event| {
                    matches!(event.what, drybench::rehearsal::trace::What::Answered(..))
                })
                .expect("it was answered");
            let said = running.events(answered..answered + 1, true);
            assert!(
                said.iter().any(|line| line.starts_with("Careful:")),
                "{said:?}"
            );
            assert_eq!(running.events(answered..answered + 1, false).len(), 1);
            wrong += 1;
        }
    }
    assert!(wrong > 10, "only {wrong} wrong answers");
}
