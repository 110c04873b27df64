//! Pictures of everything that can be signed: each form as it opens, filled in, and what is shown before it is signed.
//!
//! `DRYBENCH_BLESS=1 cargo test --test it -- screens::forms` draws them anew. A deed without keys here fails.

use std::path::Path;

use drybench::app::laboratory::Number;
use drybench::text::Words;
use drybench::tui::screens::laboratory::deeds::What;

use super::album::{Album, SIZES};
use super::front::{Front, words};
use super::laboratory::{ASSESSOR, OWNER, QUALITY, TRAINEE, at};
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

/// A deed: its word, who signs it, and the keys that fill in its form.
pub(super) const FORMS: [(&str, &str, &str); 26] = [
    (
        "assign",
        OWNER,
        "inti<enter>stock<enter><down>ultrasonic<enter>light-chamber<enter>",
    ),
    ("read", TRAINEE, "stock<enter>"),
    ("change", ASSESSOR, "stock<enter>"),
    (
        "train",
        ASSESSOR,
        "inti<enter>stock<enter><down*2>Shown on the second wash.",
    ),
    ("protection", ASSESSOR, "inti<enter>stock<enter>"),
    (
        "supervise",
        ASSESSOR,
        "inti<enter>stock<enter><down>2026-07-31",
    ),
    (
        "check-case",
        ASSESSOR,
        "inti<enter>stock<enter><down>c-0701<down><right>",
    ),
    (
        "evaluate",
        ASSESSOR,
        "inti<enter>wet<enter><down><right><down><right>",
    ),
    ("sign-off", OWNER, "inti<enter>wet<enter>"),
    (
        "first-assessor",
        OWNER,
        "inti<enter>stock<enter><down><right><down>certificate.pdf",
    ),
    (
        "outside",
        OWNER,
        "inti<enter>stock<enter><down><right><down>Ana Example<down>certificate.pdf",
    ),
    (
        "call-in",
        QUALITY,
        "teodorico<enter>wet<enter><right><down>Two remakes in June.",
    ),
    (
        "suspend",
        QUALITY,
        "teodorico<enter>wet<enter><right><down>Goggles off at the bath.",
    ),
    (
        "reinstate",
        OWNER,
        "teodorico<enter><right><down*3>Trained and watched again.",
    ),
    (
        "withdraw",
        OWNER,
        "teodorico<enter>wet<enter>Works in plaster from now on.",
    ),
    ("countersign", OWNER, "front-desk/736<down><right>"),
    (
        "correct",
        ASSESSOR,
        "front-desk/724<down>judgement<enter><right*2><down>The wrong line was ticked.",
    ),
    (
        "void",
        ASSESSOR,
        "front-desk/735<down>It was another person.",
    ),
    (
        "adopt",
        QUALITY,
        "wet<enter>2026-08-01<down><right><down>Blind samples as well.<down*5><backspace>1",
    ),
    (
        "retire",
        QUALITY,
        "wet<enter>Nobody pours resin here any more.",
    ),
    (
        "policy",
        OWNER,
        "<home><backspace*2>30<down><backspace>45<down*2><right><down>More time to renew.",
    ),
    ("review", QUALITY, "2026-06-01<down*2><right>"),
    (
        "grant",
        OWNER,
        "teodorico<enter><enter><down*2><enter><down><enter><esc>",
    ),
    (
        "revoke",
        OWNER,
        "tuomi<enter>train<enter><down>Works less from now on.",
    ),
    ("leave", OWNER, "teodorico<enter>Moves away."),
    ("key-lost", OWNER, "teodorico<enter>The stick is gone."),
];

/// Lists over a form: a name, the deed, who signs it, and the keys in its form.
const LISTS: [(&str, &str, &str, &str); 7] = [
    ("person", "assign", OWNER, "<enter>"),
    ("person-sought", "assign", OWNER, "te"),
    (
        "unit",
        "assign",
        OWNER,
        "teodorico<enter>stock<enter><down><enter>",
    ),
    (
        "unit-named",
        "assign",
        OWNER,
        "teodorico<enter>stock<enter><down>bath-2",
    ),
    ("member", "correct", ASSESSOR, "front-desk/724<down><enter>"),
    (
        "new-value",
        "correct",
        ASSESSOR,
        "front-desk/724<down>judgement<enter><enter>",
    ),
    (
        "evidence",
        "sign-off",
        OWNER,
        "inti<enter>wet<enter><down><enter><down><enter>",
    ),
];

/// What is signed before a form can be filled in: nobody is suspended in the demonstration as it stands.
pub(super) fn before(word: &str) -> String {
    if word != "reinstate" {
        return String::new();
    }
    let (opens, signs) = (opens("suspend"), OWNER);
    let filled = "teodorico<enter>wet<enter><right><down>Goggles off at the bath.<end><enter>";
    format!("{opens}{filled}<end><enter>{signs}<enter><esc>")
}

/// The keys from the first screen to a form.
pub(super) fn opens(word: &str) -> String {
    let at = What::all().position(|one| one.word() == word);
    let at = at.unwrap_or_else(|| panic!("nothing is called {word}"));
    format!("s<home><down*{at}><enter>").replace("<down*0>", "")
}

/// The screens of the demonstration, at the keys' end.
pub(super) fn front(keys: &[&str]) -> Front {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    machine.put(Path::new("certificate.pdf"), b"a certificate");
    at(&machine, &[&["<tick>"], keys].concat())
}

#[test]
fn every_form_looks_as_it_did() {
    let said = Words::shipped("en-US");
    let mut album = Album::open("form-screens");
    for (word, who, keys) in FORMS {
        let opens = opens(word);
        let mut front = front(&[who, &before(word), &opens]);
        let title = said.part("deeds-title", word);
        assert!(front.text().contains(&title), "{word}:\n{}", front.text());
        album.compare(word, &mut front);
        front.resize(SIZES[0]);
        front.press(keys);
        front.press("<end>");
        album.compare(&format!("{word}-filled"), &mut front);
        front.resize(SIZES[0]);
        front.press("<enter>");
        // Everything that is asked for was filled in, so that it is shown before it is signed, or refused by a rule.
        let missing = said.say("deeds-missing", &[("field", "".into())]);
        assert!(!front.text().contains(missing.trim()), "{word}");
        album.compare_at(&format!("{word}-shown"), &mut front, &SIZES[..1]);
    }
    for (name, word, who, keys) in LISTS {
        album.compare(
            &format!("list-{name}"),
            &mut front(&[who, &opens(word), keys]),
        );
    }
    album.close();
}

#[test]
fn in_a_form_longer_than_the_screen_the_chosen_row_and_what_it_is_for_are_in_sight() {
    let said = Words::shipped("en-US");
    let mut front = front(&[QUALITY, &opens("adopt"), "wet<enter>"]);
    for size in [(60, 20), (80, 24)] {
        front.resize(size);
        for (at, number) in Number::ALL.into_iter().enumerate() {
            front.press(&format!("<home><down*{}>", at + 4));
            let text = front.text();
            let name = said.part("deeds-field", number.word());
            let begin: String = name.chars().take(12).collect();
            let chosen = format!("▸ {begin}");
            assert!(text.contains(&chosen), "{size:?} {chosen}:\n{text}");
            let about = words(&said.part("deeds-about", number.word()));
            assert!(words(&text).contains(&about), "{size:?} {name}:\n{text}");
        }
        front.press("<end>");
        let go_on = said.say("deeds-go-on", &[]);
        assert!(front.text().contains(&go_on), "{}", front.text());
    }
    // What is out of sight above and below is marked.
    front.resize((60, 20));
    assert!(front.text().contains('▲'), "{}", front.text());
    front.press("<home>");
    let text = front.text();
    assert!(text.contains('▼') && !text.contains('▲'), "{text}");
}

#[test]
fn what_is_set_in_the_form_is_told_and_an_emptied_number_is_the_modules_again() {
    let filled = "wet<enter><down><right><down>Our own numbers.";
    let shown = |numbers: &str| {
        let mut front = front(&[QUALITY, &opens("adopt"), filled, numbers, "<end><enter>"]);
        front.resize((80, 200));
        words(&front.text())
    };
    let departs = "Otherwise than the module says";
    let off = shown("<down>0<down>0<down*6>2<down>2<down*2>0");
    for says in [
        departs,
        "Clean rehearsals: 0. The module asks for 3.",
        "Rehearsal days: 0. The module asks for 3.",
        "Renewal, assessors: 2. The module says nothing of it; the default is 1.",
        "Effect asked, days: never. The module asks for 30, 90.",
    ] {
        assert!(off.contains(says), "{says}: {off}");
    }
    let emptied = shown("<down><backspace><down*10><backspace*6>");
    assert!(!emptied.contains(departs), "{emptied}");
}

#[test]
fn the_list_says_who_could_do_what_somebody_may_not() {
    let said = Words::shipped("en-US");
    let at = opens("adopt");
    let list = at.trim_end_matches("<enter>");
    let has = said.say("deeds-not-yours-has", &[("people", "".into())]);
    let (has, _) = has.split_once(':').unwrap();
    let theirs = words(&front(&[TRAINEE, list]).text());
    assert!(theirs.contains(&format!("{has}: Quỳnh")), "{theirs}");
    let own = words(&front(&[QUALITY, list]).text());
    assert!(!own.contains(has), "{own}");
}

#[test]
fn a_value_that_is_one_of_a_list_of_words_is_chosen_and_no_other_can_be_typed() {
    let judgement = "front-desk/724<down>judgement<enter>";
    let mut chosen = front(&[ASSESSOR, &opens("correct"), judgement, "<enter>"]);
    let text = chosen.text();
    assert!(
        text.contains("acceptable") && text.contains("not acceptable"),
        "{text}"
    );
    // What is typed seeks among the words.
    chosen.press("nota word");
    let text = chosen.text();
    assert!(
        !text.contains("not acceptable") && text.contains("Nothing is called so"),
        "{text}"
    );
    chosen.press("<backspace*9>not<enter>A slip of the finger.<end><enter>");
    chosen.resize((80, 200));
    let text = words(&chosen.text());
    assert!(text.contains("Before you sign"), "{text}");
    assert!(text.contains("from acceptable to not acceptable"), "{text}");
    // A member that is no word is typed as before.
    let mut typed = front(&[
        ASSESSOR,
        &opens("correct"),
        "front-desk/724<down>case<enter>",
    ]);
    typed.press("c-0999<down>The ticket was misread.<end><enter>");
    typed.resize((80, 200));
    let text = words(&typed.text());
    assert!(
        text.contains("Before you sign") && text.contains("c-0999"),
        "{text}"
    );
}

#[test]
fn what_a_row_begins_with_gives_way_to_the_first_character_and_is_changed_after_an_erasure() {
    let second = |keys: &str| {
        let front = front(&[OWNER, &opens("policy"), "<home>", keys]);
        let row = front.text();
        let row = row.lines().find(|row| row.contains('_')).unwrap();
        let typed = row.split_whitespace().last().unwrap().to_owned();
        typed.trim_end_matches('_').to_owned()
    };
    let begins = second("");
    assert_eq!(begins.len(), 2, "{begins}");
    let rest = &begins[..1];
    assert_eq!(second("3"), "3");
    assert_eq!(second("36"), "36");
    // It has been typed in before, so it goes on from there.
    assert_eq!(second("3<down><up>6"), "36");
    assert_eq!(second("<backspace>"), rest);
    assert_eq!(second("<backspace>7"), format!("{rest}7"));
    // What was typed and happens to be what it began with stays.
    assert_eq!(second(&format!("{begins}0")), format!("{begins}0"));
}

#[test]
fn single_pieces_of_evidence_are_left_out_and_all_are_taken_as_a_default() {
    let shown = |keys: &str| {
        let filled = "inti<enter>wet<enter><down>";
        let mut front = front(&[OWNER, &opens("sign-off"), filled, keys, "<end><enter>"]);
        let size = (80, 200);
        front.resize(size);
        words(&front.text())
    };
    // What it rests on stands behind what follows from it.
    let of_two = |text: &str| {
        let (_, signed) = text.split_once("You are about to sign").unwrap();
        ["front-desk/709", "front-desk/725"].map(|one| signed.contains(one))
    };
    assert_eq!(of_two(&shown("")), [true, true]);
    // Each is named by its day, what it was, how it was judged and by whom.
    let mut list = front(&[
        OWNER,
        &opens("sign-off"),
        "inti<enter>wet<enter><down><enter>",
    ]);
    list.resize((120, 40));
    let text = words(&list.text());
    let piece = "[x] 2026-06-08, observed, case";
    assert!(text.contains(piece), "{text}");
    assert!(text.contains(": clean, by Tuomi"), "{text}");
    assert!(text.contains(": failed, by Tuomi"), "{text}");
    // The last one is left out; taken in again, it is there again.
    let left = "<enter><end><enter><esc>";
    let refused = shown(left);
    assert!(
        refused.contains("Reason is still to be filled in") && !refused.contains("Before you sign"),
        "{refused}"
    );
    let because = "<down><down>Asked before the training ended.";
    let without = shown(&format!("{left}{because}"));
    assert_eq!(of_two(&without), [true, false]);
    let (before, _) = without.split_once("You are about to sign").unwrap();
    let (_, left_out) = before.split_once("are left out").unwrap();
    assert!(
        left_out.contains("training evaluated: it worked"),
        "{left_out}"
    );
    assert!(left_out.contains("front-desk/725"), "{left_out}");
    assert!(!left_out.contains("front-desk/709"), "{left_out}");
    assert!(!shown("").contains("are left out"));
    assert_eq!(
        of_two(&shown("<enter><end><enter><space><esc>")),
        [true, true]
    );
    // With none left the rules still decide on all that the record holds.
    let none = format!("<enter>{}<esc>{because}", "<enter><down>".repeat(8));
    assert_eq!(of_two(&shown(&none)), [false, false]);
}

#[test]
fn every_deed_has_its_pictures() {
    let deeds: Vec<&str> = What::all().map(What::word).collect();
    let mut pictured: Vec<&str> = FORMS.iter().map(|(word, ..)| *word).collect();
    for deed in &deeds {
        assert!(pictured.contains(deed), "no picture of the form of {deed}");
    }
    pictured.sort_unstable();
    pictured.dedup();
    assert_eq!(pictured.len(), deeds.len());
}
