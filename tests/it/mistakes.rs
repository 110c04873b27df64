//! The mistakes that new hires make, done on purpose: each is named as the root, with its severity and what it led to, and
//! nothing else is blamed.
//!
//! The list is common practice, no source: the mistakes that practitioners name.

use crate::support::expert::{Expert, start, stock_teeth, type_in};
use drybench::app::rehearse::{Disturbances, Session};
use drybench::app::shelf::Taken;
use drybench::rehearsal::finding::{Finding, Found};
use drybench::rehearsal::replay::Replayed;
use drybench::syllabus::module::Module;
use drybench::syllabus::module::{Never, Severity};
use drybench::syllabus::plan::Plan;

/// One change of a correct script.
#[derive(Clone, Copy)]
enum Slip {
    /// Adds words to every line that begins so.
    Say(&'static str, &'static str),
    /// Replaces the time of every line that begins so.
    Time(&'static str, &'static str),
    /// Leaves out every line that begins so.
    Drop(&'static str),
    /// Puts lines before the first line that begins so.
    Before(&'static str, &'static [&'static str]),
    /// Takes the lines that begin so out and puts them before the first line that begins like the other.
    MoveBefore(&'static str, &'static str),
}

/// A mistake: how it is made, and what the debrief must say.
struct Mistake {
    number: &'static str,
    what: &'static str,
    slips: &'static [Slip],
    /// The root, as `kind step` (see `told`).
    root: &'static str,
    severity: Severity,
    /// A consequence that the root must lead to.
    leads_to: &'static str,
    /// Whether the bench must show it in every seed.
    shows: bool,
}

use Severity::{Critical, Major, Minor};
use Slip::{Before, Drop, MoveBefore, Say, Time};

const MISTAKES: &[Mistake] = &[
    Mistake {
        number: "1a",
        what: "second bath used again",
        slips: &[Say("set-baths", "stage-two=once-used")],
        root: "wrong-way set-baths",
        severity: Major,
        leads_to: "white-veil",
        shows: true,
    },
    Mistake {
        number: "1b",
        what: "second bath topped up",
        slips: &[Say("set-baths", "stage-two=topped-up")],
        root: "wrong-way set-baths",
        severity: Major,
        leads_to: "white-veil",
        shows: true,
    },
    Mistake {
        number: "2",
        what: "vessels swapped",
        slips: &[
            Say("fill-first", "liquor=once-used"),
            Say("set-baths", "placing=swapped"),
        ],
        root: "wrong-way set-baths",
        severity: Major,
        leads_to: "white-veil",
        shows: true,
    },
    Mistake {
        number: "4a",
        what: "outside brushed only",
        slips: &[Say("brush-inside", "where=outside")],
        root: "wrong-way brush-inside",
        severity: Major,
        leads_to: "white-veil",
        shows: true,
    },
    Mistake {
        number: "4b",
        what: "air trapped",
        slips: &[Say("first-wash", "air=trapped")],
        root: "wrong-way first-wash",
        severity: Major,
        leads_to: "socket-gel",
        shows: true,
    },
    Mistake {
        number: "5",
        what: "forgotten in solvent",
        slips: &[Time("first-wash", "for 12 min")],
        root: "long first-wash",
        severity: Major,
        leads_to: "softened",
        shows: true,
    },
    Mistake {
        number: "6",
        what: "bonded damp",
        slips: &[Time("dry-base", "for 1 min")],
        root: "not-yet-right dry-base",
        severity: Critical,
        leads_to: "milky-joint",
        shows: true,
    },
    Mistake {
        number: "7a",
        what: "no dry fit",
        slips: &[Drop("dry-fit")],
        root: "skipped dry-fit",
        severity: Critical,
        leads_to: "wrong-tooth",
        shows: false,
    },
    Mistake {
        number: "7b",
        what: "tooth swapped",
        slips: &[Say("lay-out", "order=swapped")],
        root: "wrong-way lay-out",
        severity: Critical,
        leads_to: "wrong-tooth",
        shows: true,
    },
    Mistake {
        number: "8",
        what: "looks away",
        slips: &[Time("warm-primer", "until sign + 3 min")],
        root: "after-sign warm-primer",
        severity: Critical,
        leads_to: "spoiled-teeth",
        shows: true,
    },
    Mistake {
        number: "9a",
        what: "lifted early",
        slips: &[Time("warm-primer", "until sign - 1 min")],
        root: "before-sign warm-primer",
        severity: Major,
        leads_to: "weak-bond",
        shows: true,
    },
    Mistake {
        number: "9b",
        what: "not covered",
        slips: &[Say("load-vessel", "level=low")],
        root: "wrong-way load-vessel",
        severity: Major,
        leads_to: "weak-bond",
        shows: true,
    },
    Mistake {
        number: "9c",
        what: "floating",
        slips: &[Say("load-vessel", "rest=floating")],
        root: "wrong-way load-vessel",
        severity: Major,
        leads_to: "weak-bond",
        shows: true,
    },
    Mistake {
        number: "9d",
        what: "plate not ready",
        slips: &[Drop("wait"), MoveBefore("plate-on", "warm-primer")],
        root: "unready warm-primer",
        severity: Major,
        leads_to: "weak-bond",
        shows: false,
    },
    Mistake {
        number: "10",
        what: "primer left out",
        slips: &[
            Drop("plate-on"),
            Drop("shake-primer"),
            Drop("load-vessel"),
            Drop("warm-primer"),
            Drop("teeth-out"),
            Drop("dry-teeth"),
            Drop("close-vessel"),
            Drop("wait"),
        ],
        root: "skipped load-vessel",
        severity: Critical,
        leads_to: "unprimed",
        shows: true,
    },
    Mistake {
        number: "11",
        what: "primer still wet",
        slips: &[Time("dry-teeth", "for 30 s")],
        root: "not-yet-right dry-teeth",
        severity: Major,
        leads_to: "bubbles",
        shows: true,
    },
    Mistake {
        number: "12a",
        what: "wrong bottle",
        slips: &[Say("pick-bottle", "bottle=other-kind")],
        root: "wrong-way pick-bottle",
        severity: Critical,
        leads_to: "wrong-product",
        shows: true,
    },
    Mistake {
        number: "12b",
        what: "wrong shade",
        slips: &[Say("pick-bottle", "bottle=other-shade")],
        root: "wrong-way pick-bottle",
        severity: Critical,
        leads_to: "wrong-product",
        shows: true,
    },
    Mistake {
        number: "12c",
        what: "expired",
        slips: &[Say("pick-bottle", "bottle=expired")],
        root: "wrong-way pick-bottle",
        severity: Critical,
        leads_to: "wrong-product",
        shows: true,
    },
    Mistake {
        number: "13",
        what: "three sockets",
        slips: &[MoveBefore("fill 3", "seat 1")],
        root: "crowded",
        severity: Major,
        leads_to: "gelled-socket",
        shows: true,
    },
    Mistake {
        number: "14",
        what: "starved joint",
        slips: &[Say("fill 3", "amount=starved")],
        root: "wrong-way fill",
        severity: Critical,
        leads_to: "starved-joint",
        shows: true,
    },
    Mistake {
        number: "15a",
        what: "not wiped",
        slips: &[Drop("wipe 3"), Drop("wipe 4")],
        root: "skipped wipe",
        severity: Major,
        leads_to: "hard-flash",
        shows: true,
    },
    Mistake {
        number: "15b",
        what: "neighbours open",
        slips: &[Say("tack 3-4/facial", "neighbors=open")],
        root: "wrong-way tack",
        severity: Major,
        leads_to: "hard-flash",
        shows: true,
    },
    Mistake {
        number: "16a",
        what: "one side only",
        slips: &[Drop("tack 3-4/lingual")],
        root: "skipped tack",
        severity: Critical,
        leads_to: "moved-tooth",
        shows: true,
    },
    Mistake {
        number: "16b",
        what: "fast count",
        slips: &[Time("tack 3-4/facial", "for 7 s")],
        root: "short tack",
        severity: Minor,
        leads_to: "moved-tooth",
        shows: false,
    },
    Mistake {
        number: "16c",
        what: "far too fast count",
        slips: &[Time("tack 3-4/facial", "for 4 s")],
        root: "short tack",
        severity: Major,
        leads_to: "moved-tooth",
        shows: true,
    },
    Mistake {
        number: "16d",
        what: "light far",
        slips: &[Say("tack 3-4/facial", "distance=far")],
        root: "wrong-way tack",
        severity: Major,
        leads_to: "moved-tooth",
        shows: true,
    },
    Mistake {
        number: "16e",
        what: "tooth not held",
        slips: &[Say("tack 3-4/facial", "hold=let-go")],
        root: "wrong-way tack",
        severity: Critical,
        leads_to: "moved-tooth",
        shows: true,
    },
    Mistake {
        number: "17a",
        what: "sealer before all tacked",
        slips: &[MoveBefore("seal facial", "fill 5")],
        root: "too-early seal",
        severity: Major,
        leads_to: "open-seam",
        shows: true,
    },
    Mistake {
        number: "17b",
        what: "lingual forgotten",
        slips: &[Drop("seal lingual")],
        root: "skipped seal",
        severity: Major,
        leads_to: "open-seam",
        shows: true,
    },
    Mistake {
        number: "18b",
        what: "turn forgotten",
        slips: &[Drop("turn")],
        root: "skipped turn",
        severity: Critical,
        leads_to: "under-cured",
        shows: true,
    },
    Mistake {
        number: "18c",
        what: "done after run one",
        slips: &[Drop("turn"), Drop("cure-second"), Drop("cool-second")],
        root: "skipped cure-second",
        severity: Critical,
        leads_to: "under-cured",
        shows: true,
    },
    Mistake {
        number: "19a",
        what: "posts cut early",
        slips: &[
            MoveBefore("cut-posts", "load-unit"),
            Before(
                "cut-posts",
                &["wear goggles", "wear dust-mask", "run extraction"],
            ),
        ],
        root: "too-early cut-posts",
        severity: Critical,
        leads_to: "warped",
        shows: true,
    },
    Mistake {
        number: "19b",
        what: "steam",
        slips: &[Before("last-clean", &["steam"])],
        root: "forbidden steam",
        severity: Critical,
        leads_to: "warped",
        shows: true,
    },
    Mistake {
        number: "20a",
        what: "bare hands",
        slips: &[Drop("wear nitrile-gloves")],
        root: "unprotected nitrile-gloves",
        severity: Critical,
        leads_to: "sensitised",
        shows: false,
    },
    Mistake {
        number: "20c",
        what: "phone with wet gloves",
        slips: &[Before("dry-base", &["use-phone"])],
        root: "forbidden use-phone",
        severity: Critical,
        leads_to: "sensitised",
        shows: false,
    },
    Mistake {
        number: "3",
        what: "ultrasonic times on the orbital unit",
        slips: &[
            Time("first-wash", "for 2 min"),
            Time("second-wash", "for 1 min"),
        ],
        root: "short first-wash",
        severity: Major,
        leads_to: "white-veil",
        shows: true,
    },
    Mistake {
        number: "7c",
        what: "tooth proud",
        slips: &[Say("seat 3", "seating=proud")],
        root: "wrong-way seat",
        severity: Critical,
        leads_to: "moved-tooth",
        shows: true,
    },
    Mistake {
        number: "12d",
        what: "bonding resin for sealer",
        slips: &[Say("seal facial", "bottle=other-kind")],
        root: "wrong-way seal",
        severity: Critical,
        leads_to: "wrong-product",
        shows: true,
    },
    Mistake {
        number: "17c",
        what: "no sealer at all",
        slips: &[Drop("seal")],
        root: "skipped seal",
        severity: Major,
        leads_to: "open-seam",
        shows: true,
    },
    Mistake {
        number: "18a",
        what: "tissue side up first",
        slips: &[Say("load-unit", "up=tissue-side")],
        root: "wrong-way load-unit",
        severity: Critical,
        leads_to: "under-cured",
        shows: false,
    },
    Mistake {
        number: "18d",
        what: "wrong programme",
        slips: &[Say("load-unit", "program=other")],
        root: "wrong-way load-unit",
        severity: Critical,
        leads_to: "under-cured",
        shows: true,
    },
    Mistake {
        number: "19c",
        what: "prised off",
        slips: &[Say("lift-off", "grip=prised")],
        root: "wrong-way lift-off",
        severity: Critical,
        leads_to: "warped",
        shows: true,
    },
    Mistake {
        number: "19d",
        what: "handled hot",
        slips: &[Time("cool-first", "for 30 s")],
        root: "short cool-first",
        severity: Critical,
        leads_to: "warped",
        shows: true,
    },
    Mistake {
        number: "20b",
        what: "dust without extraction",
        slips: &[Before("contour", &["stop extraction"])],
        root: "unprotected extraction",
        severity: Major,
        leads_to: "dust-in-lungs",
        shows: false,
    },
    Mistake {
        number: "20d",
        what: "gloves off at the turn",
        slips: &[Before("turn", &["take-off nitrile-gloves"])],
        root: "unprotected nitrile-gloves",
        severity: Critical,
        leads_to: "sensitised",
        shows: false,
    },
    Mistake {
        number: "+a",
        what: "tissue side polished",
        slips: &[Say("final-polish", "side=tissue-too")],
        root: "wrong-way final-polish",
        severity: Critical,
        leads_to: "polished-tissue",
        shows: true,
    },
    Mistake {
        number: "+b",
        what: "two cases mixed",
        slips: &[Before("lay-out", &["second-case"])],
        root: "forbidden second-case",
        severity: Critical,
        leads_to: "mixed-cases",
        shows: false,
    },
    Mistake {
        number: "+c",
        what: "recovered into the new bottle",
        slips: &[Say("recover-resin", "bottle=new-one")],
        root: "wrong-way recover-resin",
        severity: Major,
        leads_to: "spoiled",
        shows: false,
    },
    Mistake {
        number: "+d",
        what: "recovered unfiltered",
        slips: &[Say("recover-resin", "filter=straight")],
        root: "wrong-way recover-resin",
        severity: Major,
        leads_to: "spoiled",
        shows: false,
    },
    Mistake {
        number: "+e",
        what: "bath to the drain",
        slips: &[Say("hand-down", "old=drain")],
        root: "wrong-way hand-down",
        severity: Major,
        leads_to: "spoiled",
        shows: true,
    },
    Mistake {
        number: "+f",
        what: "alcohol into the tank",
        slips: &[Say("set-baths", "tank=into-tank")],
        root: "wrong-way set-baths",
        severity: Critical,
        leads_to: "fire",
        shows: false,
    },
    Mistake {
        number: "+g",
        what: "no second bath",
        slips: &[Drop("second-wash")],
        root: "skipped second-wash",
        severity: Critical,
        leads_to: "white-veil",
        shows: true,
    },
];

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
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
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
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}
