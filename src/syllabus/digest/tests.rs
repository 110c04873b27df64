//! Tests of the digest: what changes it, and what does not.

use super::*;
use crate::syllabus::hazards::hazards;
use crate::syllabus::read::module::{Library, module};

const MODULE: &str = "\
module:
  id: small
  title: A small workflow
  about: Shows what counts.
  revision: 1
  effective: 2026-12-01
  language: en-US
  risk: low
  origin: our default
hazards: [alcohol]
bench: { sink: { title: Sink, kind: place } }
flow:
  - step: { id: rinse, title: Rinse, at: sink, takes: 20 s, hazards: [alcohol] }
  - stage: { use: tidy }
";
const STAGE: &str = "\
stage: { id: tidy, title: Tidy up, expects: [sink] }
steps:
  - { id: wipe, title: Wipe the sink, at: sink, takes: 30 s }
";
const HAZARDS: &str = "\
hazards:
  alcohol: { title: Alcohol, precautions: [Exhaust on], origin: our default }
  dust: { title: Dust, precautions: [Mask on], origin: our default }
";

fn digest_of(text: &str, stage: &str, list: &str) -> String {
    let library = Library::new().with("tidy", "stages/tidy.yaml", stage.as_bytes());
    let read = module("small.yaml", text.as_bytes(), &library).unwrap();
    let list = hazards("hazards.yaml", list.as_bytes()).unwrap();
    digest(&read.canonical, &read.module, &list)
}

#[test]
fn layout_comments_and_the_order_of_keys_change_nothing() {
    let own = digest_of(MODULE, STAGE, HAZARDS);
    assert_eq!(own.len(), 64);
    let other = "\
# The same in another layout.
bench:
  sink:
    kind: 'place'
    title: \"Sink\"
flow:
  - step:
      at: sink   # where the water is
      hazards:
        - alcohol
      takes: 20 s
      title: >
        Rinse
      id: rinse
  - stage: { use: tidy }
hazards: [alcohol]
module: { about: Shows what counts., id: small, revision: 1, title: A small workflow, risk: low, origin: our default, language: en-US, effective: 2026-12-01 }
";
    assert_eq!(digest_of(other, STAGE, HAZARDS), own);
}

#[test]
fn every_change_of_a_text_changes_it() {
    let own = digest_of(MODULE, STAGE, HAZARDS);
    for (from, to) in [
        ("takes: 20 s", "takes: 21 s"),
        ("title: Rinse", "title: Rinse it"),
        ("revision: 1", "revision: 2"),
        ("counts.", "counts!"),
        ("title: Sink", "title: The sink"),
        (
            ", hazards: [alcohol] }",
            ", critical: yes, hazards: [alcohol] }",
        ),
        (
            "use: tidy }",
            "use: tidy, adjust: { wipe: { takes: 31 s } } }",
        ),
    ] {
        let changed = MODULE.replacen(from, to, 1);
        assert_ne!(changed, MODULE, "{from}");
        assert_ne!(digest_of(&changed, STAGE, HAZARDS), own, "{from}");
    }
    let stage = STAGE.replace("30 s", "40 s");
    assert_ne!(digest_of(MODULE, &stage, HAZARDS), own);
    let named = HAZARDS.replace("Exhaust on", "Exhaust on, lids on");
    assert_ne!(digest_of(MODULE, STAGE, &named), own);
    // A hazard that the module does not name is none of its content.
    let foreign = HAZARDS.replace("Mask on", "Exhaust and mask on");
    assert_eq!(digest_of(MODULE, STAGE, &foreign), own);
}

#[test]
fn a_stage_written_out_is_the_same_module() {
    let whole = MODULE.replace(
        "  - stage: { use: tidy }\n",
        "  - step: { id: wipe, title: Wipe the sink, at: sink, takes: 30 s }\n",
    );
    assert_eq!(
        digest_of(&whole, STAGE, HAZARDS),
        digest_of(MODULE, STAGE, HAZARDS)
    );
}
