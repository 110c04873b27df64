//! Somebody who follows the guide on the screen by keys alone, knowing the module and reading what the screen shows.

use std::sync::Arc;

use drybench::app::shelf::Taken;
use drybench::rehearsal::drive::Prepared;
use drybench::syllabus::case::CaseCard;
use drybench::syllabus::module::{Disturbance, Step};
use drybench::syllabus::plan::TaskKeeping;
use drybench::tui::frame::Role;

use super::front::{Front, seen, words};

/// What has been come upon, before it is answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Met {
    /// The bench, with nothing over it.
    Bench,
    /// A question about a step, by the step's id and what is asked.
    Question(String, Asked),
    /// Something that came up, by id.
    Disturbance(String),
    /// The guide says that time has to pass.
    Wait,
    /// Whether to hand the work over.
    HandOver,
    /// The debrief.
    Debrief,
}

/// What is asked about a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    Places,
    Way(usize),
    Timer,
    Count,
    Counting,
    Watch,
    Watching,
    Judge,
}

/// Somebody who knows a module.
pub(super) struct Player {
    on: Arc<Prepared>,
}

/// What the questions begin with, in the shipped words.
const ASKED: [(&str, Asked); 8] = [
    ("Where? Its time is kept by hand", Asked::Places),
    ("Where? Mark one place", Asked::Places),
    ("Set the timer.", Asked::Timer),
    ("Count in your head:", Asked::Count),
    ("Counting.", Asked::Counting),
    ("Watch it:", Asked::Watch),
    ("Watch for the sign.", Asked::Watching),
    ("Go on until it looks right:", Asked::Judge),
];

impl Player {
    /// Knows the module as it is for the first value of each choice of its case card.
    pub(super) fn new(taken: &Taken) -> Player {
        let card = CaseCard::picked(&taken.module, |_| 0);
        Player {
            on: taken.prepare(&card).unwrap(),
        }
    }

    fn step(&self, id: &str) -> (usize, &Step) {
        let mut steps = self.on.module.steps.iter().enumerate();
        steps.find(|(_, step)| step.id.value == id).unwrap()
    }

    /// The title of a step.
    pub(super) fn title(&self, id: &str) -> &str {
        &self.step(id).1.title
    }

    fn disturbance(&self, text: &str) -> Option<&Disturbance> {
        let mut all = self.on.module.disturbances.iter();
        all.find(|one| text.contains(&words(&one.seen)))
    }

    /// Reads what is on the screen.
    pub(super) fn met(&self, front: &Front) -> Met {
        let text = front.text();
        let all = words(&text);
        if text.starts_with(" Debrief, ") {
            return Met::Debrief;
        }
        let Some((title, inside)) = boxed(&text) else {
            if all.contains("Not so yet:") {
                return Met::Wait;
            }
            return Met::Bench;
        };
        if title == "At the bench" {
            if inside.contains("Hand the work over?") {
                return Met::HandOver;
            }
            let one = self.disturbance(&inside);
            let one = one.unwrap_or_else(|| panic!("what came up is not known:\n{text}"));
            return Met::Disturbance(one.id.value.clone());
        }
        let step = self.on.module.steps.iter().find(|one| one.title == title);
        let step = step.unwrap_or_else(|| panic!("no step is called {title}:\n{text}"));
        let asked = ASKED.iter().find(|(begins, _)| inside.contains(begins));
        let asked = asked.map(|(_, asked)| *asked);
        let asked = asked.or_else(|| {
            let offered = |way: &usize| {
                let mut options = step.ways[*way].options.iter();
                options.all(|one| letter(&inside, &one.title).is_some())
            };
            (0..step.ways.len()).find(offered).map(Asked::Way)
        });
        let asked = asked.unwrap_or_else(|| panic!("what is asked is not known:\n{text}"));
        Met::Question(step.id.value.clone(), asked)
    }

    /// Goes on until something has been come upon, and stops before it is answered.
    pub(super) fn play_until(&self, front: &mut Front, is_it: impl Fn(&Met) -> bool) {
        for _ in 0..3_000 {
            let met = self.met(front);
            if is_it(&met) {
                return;
            }
            assert!(met != Met::Debrief, "it never came:\n{}", front.text());
            self.answer(front, &met);
        }
        panic!("no end comes:\n{}", front.text());
    }

    /// Answers what has been come upon as the module teaches.
    pub(super) fn answer(&self, front: &mut Front, met: &Met) {
        match met {
            Met::Bench | Met::HandOver => front.press("<enter>"),
            Met::Debrief => {}
            Met::Disturbance(id) => {
                let mut all = self.on.module.disturbances.iter();
                let one = all.find(|one| one.id.value == *id).unwrap();
                let (_, inside) = boxed(&front.text()).unwrap();
                let right = one.responses.iter().find(|one| one.wrong.is_none());
                let title = right.map_or("Go on working", |right| &right.title);
                front.press(&letter(&inside, title).unwrap());
            }
            Met::Wait => self.wait(front),
            Met::Question(id, asked) => self.answer_question(front, id, *asked),
        }
    }

    /// Lets time pass until what the guide asks for is seen.
    fn wait(&self, front: &mut Front) {
        let careful = seen(&front.frame(), Role::Caution);
        let careful: Vec<&str> = careful.iter().map(|one| one.text.as_str()).collect();
        let careful = words(&careful.join(" "));
        let wanted = careful.split("Not so yet:").nth(1).unwrap();
        front.press("/");
        front.type_text("Let time pass");
        front.press("<enter><enter>");
        for _ in 0..20 {
            let frame = front.frame();
            let chosen = seen(&frame, Role::Chosen);
            let mut chosen = chosen.iter().map(|one| one.text.trim());
            if chosen.any(|text| wanted.contains(text)) {
                front.press("<enter>");
                return;
            }
            front.press("<down>");
        }
        panic!("nothing to wait for fits {wanted}:\n{}", front.text());
    }

    fn answer_question(&self, front: &mut Front, id: &str, asked: Asked) {
        let (index, step) = self.step(id);
        let plan = &self.on.plan;
        let task = plan.tasks_of_step[index][0];
        let keeping = plan.tasks[task].keeping.as_ref();
        let target = keeping.and_then(TaskKeeping::window).map(|one| one.target);
        match asked {
            // What the guide names is marked already.
            Asked::Places => front.press("<enter>"),
            Asked::Way(way) => {
                let options = &step.ways[way].options;
                let (_, inside) = boxed(&front.text()).unwrap();
                let right = options.iter().find(|one| one.wrong.is_none()).unwrap();
                front.press(&letter(&inside, &right.title).unwrap());
            }
            Asked::Timer => {
                front.type_text(&target.unwrap().to_string());
                front.press("<enter>");
            }
            Asked::Count => front.press("<space>"),
            Asked::Counting => {
                front.press(&format!("<+{}><space>", target.unwrap().0));
            }
            Asked::Watch => front.press("<space>"),
            Asked::Watching => {
                let Some(TaskKeeping::Watch { sign, .. }) = keeping else {
                    panic!("{id} is not watched");
                };
                let looks = self.looks(std::slice::from_ref(sign));
                for _ in 0..4_000 {
                    let text = front.text();
                    let below = text.split('●').nth(1).unwrap_or_default();
                    if looks.iter().any(|looks| words(below).contains(looks)) {
                        front.press("<space>");
                        return;
                    }
                    front.press("<+200>");
                }
                panic!("the sign of {id} never comes:\n{}", front.text());
            }
            Asked::Judge => {
                let Some(TaskKeeping::Judge { until, .. }) = keeping else {
                    panic!("{id} is not judged");
                };
                let looks = self.looks(until);
                for _ in 0..100 {
                    let text = front.text();
                    let below = text.split("So far").nth(1).unwrap_or_default();
                    if looks.iter().any(|looks| words(below).contains(looks)) {
                        front.press("<enter>");
                        return;
                    }
                    front.press("<space>");
                }
                panic!("{id} never looks right:\n{}", front.text());
            }
        }
    }

    /// How the cells that meet conditions look.
    fn looks(&self, all: &[drybench::syllabus::plan::CellCondition]) -> Vec<String> {
        let looks = all.iter().flat_map(|one| {
            let values = self.on.module.aspects[one.aspect].values.iter().enumerate();
            values
                .filter(|(value, _)| one.allows(*value))
                .map(|(_, value)| words(&value.looks))
        });
        looks.collect()
    }
}

/// The letter before a title, if it stands in these words.
fn letter(inside: &str, title: &str) -> Option<String> {
    let title = words(title);
    let stands = |letter: &char| format!(" {inside} ").contains(&format!(" {letter} {title} "));
    ('a'..='z').find(stands).map(String::from)
}

/// The title of the box that lies over everything, and the words in it.
pub(super) fn boxed(text: &str) -> Option<(String, String)> {
    let rows: Vec<Vec<char>> = text.lines().map(|row| row.chars().collect()).collect();
    let top = rows.iter().position(|row| row.contains(&'┌'))?;
    let left = rows[top].iter().position(|&c| c == '┌')?;
    let right = rows[top].iter().position(|&c| c == '┐')?;
    let below = rows[top..].iter().take_while(|row| {
        row.get(left)
            .is_some_and(|corner| matches!(corner, '┌' | '│'))
    });
    let inside = below.skip(1).map(|row| {
        let row = row.iter().take(right).skip(left + 1);
        row.collect::<String>()
    });
    let inside = words(&inside.collect::<Vec<String>>().join(" "));
    let title: String = rows[top][left..=right].iter().collect();
    let title = title.trim_matches(['┌', '┐', '─', ' ']);
    Some((title.to_owned(), inside))
}
