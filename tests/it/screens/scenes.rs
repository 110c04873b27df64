//! Every screen in every state worth seeing: a machine with what was kept, and the keys from the first screen.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::OnceLock;

use drybench::app::rehearse::read_run;
use drybench::rehearsal::action::{Action, Help};
use drybench::rehearsal::replay;
use drybench::rng::Seed;
use drybench::text::Words;
use drybench::tui::ui::Ui;

use super::front::{Front, press, ui};
use super::places::resumed;
use super::player::{Asked, Met, Player};
use super::sittings::{Begin, Workflow};
use crate::support::machine::TestMachine;
use crate::support::profiles::ours;

/// A state of the screens.
#[derive(Clone, Debug)]
pub(super) struct Scene {
    /// What it is called, and the file of its picture.
    pub(super) name: String,
    /// The files of the machine.
    files: Vec<(PathBuf, String)>,
    /// Whether the machine refuses folders.
    is_refused: bool,
    /// The rehearsal that is gone on with; without it the first screen comes first.
    resumed: Option<Workflow>,
    /// The keys from there on, the same in every language.
    pub(super) keys: String,
}

impl Scene {
    fn new(name: &str, keys: &str) -> Scene {
        Scene {
            name: name.to_owned(),
            files: Vec::new(),
            is_refused: false,
            resumed: None,
            keys: keys.to_owned(),
        }
    }

    /// A machine of its own, as it is before the first key.
    pub(super) fn machine(&self) -> TestMachine {
        let machine = TestMachine::default();
        for (path, text) in &self.files {
            machine.put(path, text.as_bytes());
        }
        machine.refuse(self.is_refused);
        machine
    }

    /// The screens before the first key: the first one, or the bench with a rehearsal gone on with.
    pub(super) fn begun(&self, machine: &TestMachine, words: Words) -> Ui<TestMachine> {
        match self.resumed {
            None => ui(machine, words),
            Some(workflow) => {
                let run = read_run(&self.files[0].1).unwrap();
                resumed(machine, workflow.taken(), &run, words)
            }
        }
    }

    /// The screens as they are then, without a drawing library.
    pub(super) fn opened(&self, words: Words, (wide, tall): (usize, usize)) -> Ui<TestMachine> {
        let mut ui = self.begun(&self.machine(), words);
        ui.resize(wide, tall);
        assert!(press(&mut ui, &self.keys), "{} was left", self.name);
        ui
    }

    /// What comes before the first dash of its name: on which screen it is.
    pub(super) fn family(&self) -> &str {
        self.name.split('-').next().unwrap_or_default()
    }

    /// Whether something lies over the screen that has to be closed first.
    pub(super) fn is_covered(&self) -> bool {
        let ends = [
            "-help",
            "-refused",
            "-not-found",
            "-no-hint",
            "-no-page",
            "-saved",
        ];
        ends.iter().any(|end| self.name.ends_with(end))
    }

    /// Whether the picture is one of a rehearsal under way.
    pub(super) fn is_rehearsal(&self) -> bool {
        self.name.starts_with("bench-") && !self.name.ends_with("-page")
    }
}

/// A rehearsal that was kept up to a place.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    workflow: Workflow,
    files: Vec<(PathBuf, String)>,
    /// The step that has been begun, and the keys since.
    begun: Option<(String, String)>,
}

impl Kept {
    /// What was done.
    pub(super) fn actions(&self) -> Vec<Action> {
        let (_, text) = &self.files[0];
        read_run(text).unwrap().actions
    }

    /// The same run with other help. What was done is the same.
    fn with(&self, help: &str) -> Kept {
        let mut kept = self.clone();
        for (_, text) in &mut kept.files {
            let changed = text.replacen("\"help\":\"guided\"", &format!("\"help\":\"{help}\""), 1);
            assert!(changed != *text || help == "guided", "{text}");
            *text = changed;
        }
        kept
    }

    /// A scene at the bench, some keys later.
    fn bench(&self, name: &str, keys: &str) -> Scene {
        Scene {
            files: self.files.clone(),
            resumed: Some(self.workflow),
            ..Scene::new(name, keys)
        }
    }

    /// A scene at the question that the step asks, some keys later.
    fn question(&self, name: &str, keys: &str) -> Scene {
        let (title, since) = self.begun.as_ref().unwrap();
        self.bench(name, &format!("/{title}<enter><enter>{since}{keys}"))
    }
}

/// Runs that were kept, each just before something was met for the first time: by the name of what was met.
fn kept() -> &'static BTreeMap<String, Kept> {
    static KEPT: OnceLock<BTreeMap<String, Kept>> = OnceLock::new();
    KEPT.get_or_init(|| {
        let mut all = BTreeMap::new();
        for workflow in Workflow::ALL {
            let name = match workflow {
                Workflow::WetResin => "resin",
                Workflow::StockTeeth => "teeth",
            };
            note(&mut all, name, Begin::guided(workflow));
        }
        let disturbed = |seed: &u32| {
            let drawn = replay::drawn(&Workflow::StockTeeth.taken().module, Seed(*seed));
            drawn.len() == 1
        };
        let begin = Begin {
            disturbed: true,
            seed: (1..100).find(disturbed).unwrap(),
            ..Begin::guided(Workflow::StockTeeth)
        };
        note(&mut all, "disturbed", begin);
        all
    })
}

/// The run that was kept just before something was met.
pub(super) fn kept_before(name: &str) -> &'static Kept {
    let known = || kept().keys().map(String::as_str).collect::<Vec<&str>>();
    let found = kept().get(name);
    found.unwrap_or_else(|| panic!("{name} was never met, only {:?}", known()))
}

/// Plays a rehearsal and notes what was kept whenever something new is met.
fn note(all: &mut BTreeMap<String, Kept>, name: &str, begin: Begin) {
    let machine = TestMachine::default();
    let mut front = Front::open(&machine, (120, 40));
    front.press(&begin.keys());
    let player = Player::new(begin.workflow.taken());
    let mut since = String::new();
    let mut steps = 0;
    loop {
        let met = player.met(&front);
        let what = match &met {
            Met::Bench => {
                since.clear();
                steps += 1;
                match steps {
                    1 => "begin",
                    40 => "middle",
                    _ => "",
                }
            }
            Met::Wait => "wait",
            Met::Disturbance(_) => "disturbance",
            Met::HandOver => "end",
            Met::Question(_, asked) => match asked {
                Asked::Places => "places",
                Asked::Way(_) => "way",
                Asked::Timer => "timer",
                Asked::Count => "count",
                Asked::Watch => "watch",
                Asked::Judge => "judge",
                Asked::Counting | Asked::Watching => "",
            },
            Met::Debrief => return,
        };
        if !what.is_empty() {
            let begun = match &met {
                Met::Question(id, _) => {
                    let since = since.strip_prefix("<enter>").unwrap();
                    Some((player.title(id).to_owned(), since.to_owned()))
                }
                _ => None,
            };
            let entry = all.entry(format!("{name}-{what}"));
            entry.or_insert_with(|| Kept {
                workflow: begin.workflow,
                files: machine.files("run"),
                begun,
            });
        }
        front.forget();
        player.answer(&mut front, &met);
        since += front.pressed();
    }
}

/// All scenes.
pub(super) fn scenes() -> Vec<Scene> {
    let mut all = before();
    all.extend(bench());
    all.extend(questions());
    all.extend(ended());
    all
}

/// The first screen, the set-up and the read-through.
fn before() -> Vec<Scene> {
    let teeth = Workflow::StockTeeth.set_up();
    let read = "<down>r";
    let mut all: Vec<Scene> = [
        ("first", String::new()),
        ("first-second-row", "<down>".to_owned()),
        ("first-help", "?".to_owned()),
        ("setup-guided", teeth.to_owned()),
        ("setup-prompted", format!("{teeth}<right>")),
        ("setup-unaided", format!("{teeth}<left>")),
        ("setup-case", format!("{teeth}<down*2><right*3>")),
        ("setup-disturbances", format!("{teeth}<down*6><right>")),
        ("setup-kept", format!("{teeth}<down*7><right>")),
        ("setup-seed", format!("{teeth}<end>4711")),
        ("setup-seed-left", format!("{teeth}<end>4711<up>")),
        ("setup-help", format!("{teeth}<f1>")),
        ("reading-overview", read.to_owned()),
        ("reading-overview-end", format!("{read}<end>")),
        ("reading-step", format!("{read}<right*5>")),
        ("reading-step-scrolled", format!("{read}<right*5><pgdn>")),
        ("reading-last-step", format!("{read}c<end><enter>")),
        ("reading-contents", format!("{read}c<down*7>")),
        ("reading-search", format!("{read}/primer")),
        ("reading-found", format!("{read}/primer<enter>")),
        ("reading-not-found", format!("{read}/xyzzy<enter>")),
        ("reading-help", format!("{read}?")),
    ]
    .into_iter()
    .map(|(name, keys)| Scene::new(name, &keys))
    .collect();
    let begun = kept_before("resin-begin");
    all.push(Scene {
        files: kept_before("resin-end").files.clone(),
        ..Scene::new("first-broken-off", "")
    });
    let two = kept_before("resin-end").files.iter().chain(&begun.files);
    let two = two.enumerate().map(|(number, (path, text))| {
        let name = format!(
            "2026030{}-080000-wet-resin-and-solvent-7-00.run",
            number + 1
        );
        (path.with_file_name(name), text.clone())
    });
    let two: Vec<_> = two.collect();
    let mut later = two[0].clone();
    later
        .0
        .set_file_name("20260303-093000-wet-resin-and-solvent-8-00.run");
    let waiting = Scene {
        files: two.into_iter().chain([later]).collect(),
        ..Scene::new("waiting", "c")
    };
    all.push(waiting);
    all.push(Scene {
        files: begun.files.clone(),
        is_refused: true,
        ..Scene::new("first-refused", "c")
    });
    for (name, keys) in [
        ("setup-profile", "<down><left>"),
        ("setup-profile-faulty", "<down><right>"),
    ] {
        all.push(Scene {
            files: own_profiles(),
            ..Scene::new(name, &format!("{teeth}{keys}"))
        });
    }
    all.push(Scene {
        is_refused: true,
        ..Scene::new("setup-refused", &format!("{teeth}<enter>"))
    });
    all
}

/// Two profiles of the laboratory's own: one that cannot be read, and a sound one.
fn own_profiles() -> Vec<(PathBuf, String)> {
    let folder = PathBuf::from("data/modules/profiles");
    vec![
        (
            folder.join("broken.yaml"),
            "profile: { id: broken }\n".to_owned(),
        ),
        (folder.join("ours.yaml"), ours("ours")),
    ]
}

/// The bench, and what lies over it.
fn bench() -> Vec<Scene> {
    let mut all = Vec::new();
    for help in [Help::Guided, Help::Prompted, Help::Unaided] {
        let begin = Begin {
            help,
            ..Begin::guided(Workflow::StockTeeth)
        };
        let name = format!("bench-{}-begin", named(help));
        all.push(Scene::new(&name, &begin.keys()));
        let middle = kept_before("teeth-middle").with(named(help));
        all.push(middle.bench(&format!("bench-{}-middle", named(help)), ""));
    }
    let unkept = Begin {
        kept: false,
        ..Begin::guided(Workflow::StockTeeth)
    };
    all.push(Scene::new(
        "bench-leave-unkept",
        &format!("{}<esc>", unkept.keys()),
    ));
    let middle = kept_before("teeth-middle");
    let (prompted, unaided) = (middle.with("prompted"), middle.with("unaided"));
    all.push(prompted.bench("bench-prompted-hint", "<space>"));
    all.push(unaided.bench("bench-unaided-no-hint", "<space>"));
    for (name, keys) in [
        ("protection", "A"),
        ("protection-taken-off", "A<down><enter>"),
        ("time", "A<left>"),
        ("look", "A<left>a"),
        ("look-end", "A<left>a<end>"),
        ("wait", "A<left>b"),
        ("wait-wrong", "A<left>bsoon<enter>"),
        ("wait-never", "A<left>b<enter>"),
        ("wait-over", "A<left>b2 min<enter>"),
        ("hand-over", "A<left>c"),
        ("give-up", "A<left>d"),
        ("leave", "<esc>"),
        ("find", "/"),
        ("find-words", "/primer"),
        ("find-nothing", "/xyzzy"),
        ("no-page", "A<tab>"),
        ("step-page", "<tab>"),
        ("help", "?"),
    ] {
        all.push(middle.bench(&format!("bench-{name}"), keys));
    }
    let disturbance = kept_before("disturbed-disturbance");
    all.push(disturbance.bench("bench-disturbance", ""));
    all.push(disturbance.bench("bench-disturbance-put-off", "<esc>"));
    all.push(disturbance.bench("bench-disturbance-answered", "a"));
    all.push(
        disturbance
            .with("unaided")
            .bench("bench-disturbance-unaided", ""),
    );
    all.push(kept_before("teeth-wait").bench("bench-has-to-wait", ""));
    all
}

fn named(help: Help) -> &'static str {
    match help {
        Help::Guided => "guided",
        Help::Prompted => "prompted",
        Help::Unaided => "unaided",
    }
}

/// What is asked about steps.
fn questions() -> Vec<Scene> {
    let mut all = Vec::new();
    for (kept_as, name, keys) in [
        ("places", "places", ""),
        ("places", "places-marked", "<space><down><space>"),
        ("way", "way", ""),
        ("timer", "timer", ""),
        ("timer", "timer-wrong", "soon<enter>"),
        ("timer", "timer-out-of-range", "200 h<enter>"),
        ("count", "count", ""),
        ("count", "counting", "<space><+3000>"),
        ("watch", "watch", ""),
        ("watch", "watching", "<space><+3000>"),
        ("watch", "watch-sign", "<space><+50000>"),
        ("judge", "judge", ""),
        ("judge", "judge-looked-at", "<space*3>"),
    ] {
        let one = kept_before(&format!("teeth-{kept_as}"));
        for help in ["guided", "prompted", "unaided"] {
            all.push(
                one.with(help)
                    .question(&format!("bench-{help}-{name}"), keys),
            );
        }
    }
    all
}

/// The debrief.
fn ended() -> Vec<Scene> {
    let end = "A<left>c<enter>";
    let (clean, not_clean) = (kept_before("teeth-end"), kept_before("teeth-timer"));
    let mut all = Vec::new();
    for (kind, one) in [("clean", clean), ("not-clean", not_clean)] {
        for (tab, name) in [(1, "outcome"), (2, "findings"), (3, "figures"), (4, "more")] {
            all.push(one.bench(&format!("debrief-{kind}-{name}"), &format!("{end}{tab}")));
        }
    }
    for (name, keys) in [
        ("second-finding", "2<down>"),
        ("finding-end", "2<pgdn*9>"),
        ("figures-end", "3<end>"),
        ("more-end", "4<end>"),
        ("saved", "s"),
        ("finding-page", "2<enter>"),
        ("page-and-back", "2<enter><esc>"),
        ("help", "?"),
    ] {
        all.push(not_clean.bench(&format!("debrief-{name}"), &format!("{end}{keys}")));
    }
    all.push(clean.bench("debrief-given-up", "A<left>d<enter>"));
    all
}
