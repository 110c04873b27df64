//! The mistakes that new hires make, done on purpose: each is named as the root, with its severity and what it led to, and
//! nothing else is blamed.

use crate::support::expert::{Expert, start, stock_teeth, type_in};
use crate::support::faults::no_faults;
use drybench::app::rehearse::{Disturbances, Session};
use drybench::app::shelf::Taken;
use drybench::rehearsal::finding::{Finding, Found};
use drybench::rehearsal::replay::Replayed;
use drybench::syllabus::module::{Module, Never};
use drybench::syllabus::plan::Plan;

mod list;

use list::Slip::{self, Before, Drop, MoveBefore, Say, Time};
use list::{MISTAKES, Mistake};

fn slipped(lines: &[String], slips: &[Slip]) -> Vec<String> {
    let mut lines = lines.to_vec();
    for slip in slips {
        let begins = |line: &String, with: &str| {
            line == with
                || line
                    .strip_prefix(with)
                    .is_some_and(|rest| rest.starts_with([' ', '/']))
        };
        let used = match *slip {
            Say(line, _) | Time(line, _) | Drop(line) | Before(line, _) | MoveBefore(line, _) => {
                line
            }
        };
        assert!(
            lines.iter().any(|line| begins(line, used)),
            "no line begins with {used}: {lines:#?}"
        );
        match *slip {
            Say(with, words) => {
                for line in &mut lines {
                    if begins(line, with) {
                        let at = [" for ", " until "]
                            .iter()
                            .find_map(|word| line.find(word))
                            .unwrap_or(line.len());
                        line.insert_str(at, &format!(" {words}"));
                    }
                }
            }
            Time(with, time) => {
                for line in &mut lines {
                    if begins(line, with) {
                        let at = [" for ", " until "]
                            .iter()
                            .find_map(|word| line.find(word))
                            .unwrap();
                        line.truncate(at);
                        line.push_str(&format!(" {time}"));
                    }
                }
            }
            Drop(with) => lines.retain(|line| !begins(line, with)),
            Before(with, more) => {
                let at = lines.iter().position(|line| begins(line, with)).unwrap();
                lines.splice(at..at, more.iter().map(|line| (*line).to_owned()));
            }
            MoveBefore(with, other) => {
                let (moved, mut rest): (Vec<_>, Vec<_>) =
                    lines.into_iter().partition(|line| begins(line, with));
                let at = rest.iter().position(|line| begins(line, other)).unwrap();
                rest.splice(at..at, moved);
                lines = rest;
            }
        }
    }
    lines
}

/// A root in short: its kind and the step, item or act it is about.
fn told(module: &Module, plan: &Plan, finding: &Finding) -> String {
    let step = finding.tasks.first().map_or("", |&task| {
        module.steps[plan.tasks[task].step].id.value.as_str()
    });
    match &finding.what {
        Found::Skipped => format!("skipped {step}"),
        Found::Misplaced { .. } => format!("misplaced {step}"),
        Found::TooEarly { .. } => format!("too-early {step}"),
        Found::Again => format!("again {step}"),
        Found::Short { .. } => format!("short {step}"),
        Found::Long { .. } => format!("long {step}"),
        Found::BeforeSign { .. } => format!("before-sign {step}"),
        Found::AfterSign { .. } => format!("after-sign {step}"),
        Found::NotYetRight => format!("not-yet-right {step}"),
        Found::WrongWay { .. } => format!("wrong-way {step}"),
        Found::Unready { .. } => format!("unready {step}"),
        Found::Gap { .. } => "gap".to_owned(),
        Found::Cap { .. } => "cap".to_owned(),
        Found::Crowded { .. } => "crowded".to_owned(),
        Found::Forbidden { rule } => match &module.never[*rule] {
            Never::Act(act) => format!("forbidden {}", act.id.value),
            _ => "forbidden".to_owned(),
        },
        Found::Unprotected { guard, .. } => {
            format!("unprotected {}", module.guards[*guard].item.value)
        }
        Found::Stale { item, .. } => format!("stale {}", module.protection_items[*item].id.value),
        Found::WrongResponse { disturbance, .. } | Found::CarriedOn { disturbance } => {
            format!("disturbance {}", module.disturbances[*disturbance].id.value)
        }
        Found::Harm { harm, .. } => format!("harm {harm:?}"),
    }
}

fn roots(session: &Session, done: &Replayed) -> Vec<String> {
    let on = session.prepared();
    done.graded
        .roots
        .iter()
        .map(|root| {
            format!(
                "{} ({:?}) {:?}",
                told(&on.module, &on.plan, root),
                root.severity,
                root.what
            )
        })
        .collect()
}

/// Makes the mistake and says everything that is not as it should be.
fn wrong(taken: &Taken, case: &str, seed: u32, mistake: &Mistake) -> Vec<String> {
    let session = || start(taken, case, seed, Disturbances::None);
    let lines = slipped(&Expert::new(session()).script(), mistake.slips);
    let done = type_in(session(), &lines);
    let on = session();
    let on = on.prepared();
    let mut wrong = Vec::new();
    let found: Vec<&Finding> = done
        .graded
        .roots
        .iter()
        .filter(|root| told(&on.module, &on.plan, root) == mistake.root)
        .collect();
    let [root] = found.as_slice() else {
        return vec![format!("roots are {:?}", roots(&session(), &done))];
    };
    if done.graded.roots.len() > 1 {
        wrong.push(format!("also blamed: {:?}", roots(&session(), &done)));
    }
    if root.severity != mistake.severity {
        wrong.push(format!(
            "weighs {:?}, not {:?}",
            root.severity, mistake.severity
        ));
    }
    let consequence = on
        .module
        .consequences
        .iter()
        .position(|one| one.id.value == mistake.leads_to);
    let Some(consequence) = consequence else {
        wrong.push(format!(
            "the module has no consequence {}",
            mistake.leads_to
        ));
        return wrong;
    };
    if !root.leads_to.contains(&consequence) {
        wrong.push(format!("does not lead to {}", mistake.leads_to));
    }
    if mistake.shows && !root.shown().contains(&consequence) {
        let shown: Vec<&str> = root
            .shown()
            .iter()
            .map(|&one| on.module.consequences[one].id.value.as_str())
            .collect();
        wrong.push(format!(
            "{} does not show; shown are {shown:?}",
            mistake.leads_to
        ));
    }
    wrong
}

#[test]
fn every_mistake_is_the_root_and_nothing_else_is_blamed() {
    let taken = stock_teeth();
    let mut all = Vec::new();
    for mistake in MISTAKES {
        for (case, seed) in [
            ("wash=ultrasonic,teeth=6", 1),
            ("wash=orbital,teeth=7", 2),
            ("wash=ultrasonic,teeth=14", 3),
        ] {
            if mistake.number == "3" && !case.contains("orbital") {
                // The times of the ultrasonic unit are right there.
                continue;
            }
            for fault in wrong(taken, case, seed, mistake) {
                all.push(format!(
                    "{} {} ({case}): {fault}",
                    mistake.number, mistake.what
                ));
            }
        }
    }
    no_faults(&all);
}

/// Two mistakes of which one makes the other impossible or is part of it.
fn excludes(one: &Mistake, other: &Mistake) -> bool {
    let family = |mistake: &Mistake| {
        mistake
            .number
            .trim_end_matches(|c: char| c.is_ascii_lowercase())
            .to_owned()
    };
    let lines = |mistake: &Mistake| -> Vec<&'static str> {
        mistake
            .slips
            .iter()
            .flat_map(|slip| match *slip {
                Say(line, _) | Time(line, _) | Drop(line) | Before(line, _) => vec![line],
                MoveBefore(line, other) => vec![line, other],
            })
            .collect()
    };
    let touches = lines(one).iter().any(|here| {
        lines(other)
            .iter()
            .any(|there| here.split([' ', '/']).next() == there.split([' ', '/']).next())
    });
    family(one) == family(other) || touches
}

#[test]
fn any_two_mistakes_are_both_roots() {
    let taken = stock_teeth();
    let mut all = Vec::new();
    let mut pairs = 0;
    let case = "wash=orbital,teeth=7";
    let script = Expert::new(start(taken, case, 5, Disturbances::None)).script();
    for (at, one) in MISTAKES.iter().enumerate() {
        for other in &MISTAKES[at + 1..] {
            if excludes(one, other) {
                continue;
            }
            pairs += 1;
            let lines = slipped(&slipped(&script, one.slips), other.slips);
            let session = start(taken, case, 5, Disturbances::None);
            let on = session.prepared().clone();
            let done = type_in(session, &lines);
            let told: Vec<String> = done
                .graded
                .roots
                .iter()
                .map(|root| told(&on.module, &on.plan, root))
                .collect();
            let mut wanted = [one.root, other.root];
            wanted.sort_unstable();
            let mut found: Vec<&str> = told.iter().map(String::as_str).collect();
            found.sort_unstable();
            if found != wanted {
                all.push(format!(
                    "{} {} with {} {}: {told:?}",
                    one.number, one.what, other.number, other.what
                ));
            }
        }
    }
    assert!(pairs > 1_000, "only {pairs} pairs");
    assert!(
        all.is_empty(),
        "{} of {pairs} pairs:\n{}",
        all.len(),
        all.join("\n")
    );
}

#[test]
fn mistakes_are_told_apart_on_any_case_card_and_seed() {
    let taken = stock_teeth();
    let mut all = Vec::new();
    for mistake in MISTAKES {
        for seed in 100..125 {
            let wash = if mistake.number == "3" {
                "wash=orbital"
            } else {
                ""
            };
            for fault in wrong(taken, wash, seed, mistake) {
                all.push(format!(
                    "{} {} (seed {seed}): {fault}",
                    mistake.number, mistake.what
                ));
            }
        }
    }
    no_faults(&all);
}
