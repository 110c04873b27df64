//! Wherever a hazardous step is shown, its protection is shown, and what comes before this program.

use crate::support::expert::{Expert, start, stock_teeth, type_in, typed, wet_resin};
use crate::support::faults::no_faults;
use drybench::app::rehearse::{Disturbances, Session};
use drybench::app::shelf::Taken;
use drybench::report::pages::pages;
use drybench::report::plain::{Glyphs, plain};
use drybench::report::{Block, Running, debrief};
use drybench::syllabus::module::Step;
use drybench::text::{Caution, Words};

/// Text without its line ends, so that a sentence can be looked for that was wrapped.
fn flat(lines: &[String]) -> String {
    let text = lines.join(" ");
    let words: Vec<&str> = text
        .split_whitespace()
        .filter(|word| *word != "!")
        .collect();
    words.join(" ")
}

fn flat_blocks(blocks: &[Block]) -> String {
    flat(&plain(blocks, 200, Glyphs::Ascii))
}

/// The titles of what must be worn or running at a step's station.
fn protection<'t>(taken: &'t Taken, step: &'t Step) -> Vec<&'t str> {
    let guards = taken.module.guards.iter().filter(|guard| {
        guard.during.is_empty() || guard.during.iter().any(|at| at.value == step.at.value)
    });
    let titles = guards.filter_map(|guard| {
        let mut items = taken.module.protection_items.iter();
        items
            .find(|item| item.id.value == guard.item.value)
            .map(|item| item.title.as_str())
    });
    titles.collect()
}

fn session(taken: &Taken) -> Session {
    start(taken, "", 31, Disturbances::None)
}

/// Complains about everything of a hazardous step that a text does not hold.
fn missing(
    taken: &Taken,
    step: &Step,
    text: &str,
    precautions: bool,
    words: &Words,
) -> Vec<String> {
    let mut wanted = vec![Caution::OthersComeFirst.say(words)];
    wanted.extend(protection(taken, step).into_iter().map(str::to_owned));
    if precautions {
        for hazard in &step.hazards {
            let found = taken
                .hazards
                .iter()
                .find(|one| one.id.value == hazard.value);
            wanted.extend(found.into_iter().flat_map(|one| one.precautions.clone()));
        }
    }
    wanted
        .into_iter()
        .map(|one| flat(&[one]))
        .filter(|one| !text.contains(one.as_str()))
        .map(|one| format!("{} lacks: {one}", step.id.value))
        .collect()
}

#[test]
fn hazardous_steps_are_read_and_guided_with_their_protection() {
    let words = Words::shipped("en-US");
    let mut faults = Vec::new();
    let mut count = 0;
    for taken in [stock_teeth(), wet_resin()] {
        let session = session(taken);
        let on = session.prepared();
        let find = |id: &str| taken.hazard(id);
        let pages = pages(&on.module, &on.plan, &find, &words);
        for step in on
            .module
            .steps
            .iter()
            .filter(|step| !step.hazards.is_empty())
        {
            count += 1;
            let page = pages
                .iter()
                .find(|page| page.step.as_ref() == Some(&step.id.value));
            let page = flat_blocks(&page.expect("every step has a page").blocks);
            faults.extend(missing(taken, step, &page, true, &words));
            let why = Running::new(session.rehearsal(), &words).why(&step.id.value);
            let why = flat(&why.expect("every step can be asked for"));
            faults.extend(missing(taken, step, &why, false, &words));
        }
    }
    assert!(count > 50, "only {count} hazardous steps");
    no_faults(&faults);
}

#[test]
fn a_run_begins_with_what_comes_first() {
    let words = Words::shipped("en-US");
    for taken in [stock_teeth(), wet_resin()] {
        let session = session(taken);
        let opening = flat(&Running::new(session.rehearsal(), &words).opening(31));
        for caution in Caution::ALL {
            assert!(opening.contains(&flat(&[caution.say(&words)])), "{opening}");
        }
    }
}

#[test]
fn a_debrief_of_a_hazardous_step_holds_its_precautions() {
    let words = Words::shipped("en-US");
    let mut faults = Vec::new();
    let mut count = 0;
    for taken in [stock_teeth(), wet_resin()] {
        let script = Expert::new(session(taken)).script();
        let find = |id: &str| taken.hazard(id);
        for step in taken
            .module
            .steps
            .iter()
            .filter(|step| !step.hazards.is_empty())
        {
            let lines: Vec<String> = script
                .iter()
                .filter(|line| line.split(' ').next() != Some(&step.id.value))
                .cloned()
                .collect();
            let done = type_in(session(taken), &lines);
            if done.graded.roots.is_empty() {
                continue;
            }
            count += 1;
            let session = typed(session(taken), &lines);
            let of = session.debriefed(&done);
            let text = flat_blocks(&debrief(&of, &find, &words));
            faults.extend(missing(taken, step, &text, true, &words));
            for caution in &of.module.identity.cautions {
                if !text.contains(&flat(std::slice::from_ref(caution))) {
                    faults.push(format!("{}: no caution of the module", step.id.value));
                }
            }
        }
    }
    faults.dedup();
    assert!(count > 50, "only {count} debriefs");
    no_faults(&faults);
}

/// Everything that the shipped modules teach, without what they offer as a temptation.
fn taught() -> Vec<String> {
    let mut all = Vec::new();
    for taken in [stock_teeth(), wet_resin()] {
        for step in &taken.module.steps {
            all.extend([step.title.clone(), step.why.clone(), step.good.clone()]);
            for way in &step.ways {
                let right = way.options.iter().filter(|option| option.wrong.is_none());
                all.extend(right.map(|option| option.title.clone()));
            }
        }
        for disturbance in &taken.module.disturbances {
            let right = disturbance
                .responses
                .iter()
                .filter(|one| one.wrong.is_none());
            all.extend(right.map(|one| one.title.clone()));
        }
        for hazard in &taken.hazards {
            all.extend(hazard.precautions.clone());
            all.extend(hazard.first_aid.clone());
        }
        for fault in &taken.faults {
            all.extend([
                fault.tell_apart.join(" "),
                fault.remedy.clone(),
                fault.prevention.clone(),
            ]);
        }
    }
    all
}

#[test]
fn nobody_is_told_to_sniff_or_to_hold_skin_in_the_beam() {
    let all = taught();
    assert!(all.len() > 200, "only {} texts", all.len());
    for text in &all {
        let lower = text.to_lowercase();
        for word in ["sniff", "smell it", "bare skin"] {
            if lower.contains(word) {
                let forbids = ["never", "not", "no "].iter().any(|no| lower.contains(no));
                assert!(forbids, "{text}");
            }
        }
    }
}

#[test]
fn whoever_warms_primer_has_its_data_sheet_exhaust_and_a_watching_eye() {
    let taken = stock_teeth();
    let primer = taken.hazards.iter().find(|one| one.id.value == "primer");
    let precautions = primer
        .expect("primer is a hazard")
        .precautions
        .join(" ")
        .to_lowercase();
    for word in ["data sheet", "exhaust", "eye on it"] {
        assert!(precautions.contains(word), "{word}: {precautions}");
    }
    let warms: Vec<&Step> = taken
        .module
        .steps
        .iter()
        .filter(|step| {
            step.does
                .iter()
                .any(|one| matches!(one, drybench::syllabus::operation::Operation::Warm { .. }))
        })
        .collect();
    assert!(!warms.is_empty(), "no step warms primer");
    for step in warms {
        assert!(
            step.hazards.iter().any(|one| one.value == "primer"),
            "{}",
            step.id.value
        );
    }
}
