//! Every key that a form names does something, in every row and in the list over it; and what was filled in is not dropped without a question.

use drybench::text::Words;

use super::forms::{FORMS, before, front, opens};
use super::front::Front;
use super::hints::{bar_of, meant};
use super::laboratory::OWNER;

/// Wide enough for all keys to stand at the bottom.
const WIDE: (usize, usize) = (300, 40);

/// What shows of a state, and what is chosen in it.
fn state(front: &mut Front) -> String {
    format!("{:?}", front.frame().pieces())
}

/// Tries each key that is named at the bottom but the way back. `again` leads back to where it was tried.
fn idle_keys(front: &mut Front, mut again: impl FnMut(&mut Front)) -> (usize, Vec<String>) {
    let named = bar_of(&front.frame());
    assert!(named.len() > 1, "{named:?}:\n{}", front.text());
    let mut idle = Vec::new();
    let mut tried = 0;
    for (name, says) in named {
        if name == "Esc" || says == "help" {
            continue;
        }
        tried += 1;
        let does = meant(&name).into_iter().any(|key| {
            let was = state(front);
            front.press(&key);
            let does = state(front) != was;
            again(front);
            does
        });
        if !does {
            idle.push(format!("{name} {says}"));
        }
    }
    (tried, idle)
}

#[test]
fn every_key_that_a_form_names_does_something_in_every_row() {
    let said = Words::shipped("en-US");
    let (list, notice) = (
        said.say("deeds-key-take", &[]),
        said.say("screens-notice-title", &[]),
    );
    let (leave_out, signing) = (
        said.say("deeds-key-leave-out", &[]),
        said.say("office-signing-title", &[]),
    );
    let is_list = |front: &mut Front| {
        let named = bar_of(&front.frame());
        named
            .iter()
            .any(|(_, says)| *says == list || *says == leave_out)
    };
    let mut idle = Vec::new();
    let (mut tried, mut lists) = (0, 0);
    for (word, who, _) in FORMS {
        let mut front = front(&[who, &before(word), &opens(word), "<home>"]);
        front.resize(WIDE);
        for row in 0.. {
            // From wherever a key has led, back to this row.
            let again = |front: &mut Front| {
                let text = front.text();
                if text.contains(&notice) {
                    front.press("<enter>");
                } else if text.contains(&signing) || is_list(front) {
                    front.press("<esc>");
                }
                front.press("<home>");
                front.press(&format!("<down*{row}>").replace("<down*0>", ""));
            };
            let (count, found) = idle_keys(&mut front, again);
            tried += count;
            idle.extend(found.iter().map(|key| format!("{word}, row {row}: {key}")));
            front.press("<enter>");
            if is_list(&mut front) {
                lists += 1;
                let (count, found) = idle_keys(&mut front, |front| {
                    again(front);
                    front.press("<enter>");
                });
                tried += count;
                idle.extend(
                    found
                        .iter()
                        .map(|key| format!("{word}, list of row {row}: {key}")),
                );
            }
            again(&mut front);
            let was = state(&mut front);
            front.press("<down>");
            if state(&mut front) == was {
                break;
            }
        }
        let was = state(&mut front);
        front.press("<esc>");
        if state(&mut front) == was {
            idle.push(format!("{word}: Esc"));
        }
    }
    assert!(idle.is_empty(), "nothing happens:\n{}", idle.join("\n"));
    assert!(tried > 300 && lists > 40, "{tried} keys, {lists} lists");
}

#[test]
fn leaving_asks_first_too_while_a_list_is_laid_open() {
    let said = Words::shipped("en-US");
    let asked = said.say("screens-notice-title", &[]);
    let (drops, list) = (
        said.say("screens-drop-title", &[]),
        said.say("deeds-key-take", &[]),
    );
    let opens = opens("assign");
    let mut front = front(&[OWNER, &opens, "inti<enter><enter>"]);
    assert!(front.text().contains(&list), "{}", front.text());
    front.press("<ctrl-q>");
    assert!(front.text().contains(&asked), "{}", front.text());
    // The list is still there; going back closes it and asks nothing.
    front.press("<enter>");
    assert!(front.text().contains(&list), "{}", front.text());
    front.press("<esc>");
    let text = front.text();
    assert!(!text.contains(&list) && !text.contains(&drops), "{text}");
    front.press("<esc>");
    assert!(front.text().contains(&drops), "{}", front.text());
}

#[test]
fn what_was_filled_in_is_dropped_only_after_a_question() {
    let said = Words::shipped("en-US");
    let asked = said.say("screens-drop-keys", &[]);
    for (word, who, keys) in FORMS {
        // Untouched, it closes at once.
        let mut front = front(&[who, &before(word), "s"]);
        let under = front.text();
        front.press("<esc>");
        front.press(&opens(word));
        let form = front.text();
        front.press("<esc>");
        assert!(!front.text().contains(&asked), "{word}:\n{}", front.text());
        assert_ne!(front.text(), form, "{word}");
        front.press("<esc>");
        front.press(&opens(word));
        front.press(keys);
        let filled = front.text();
        front.press("<esc>");
        assert!(front.text().contains(&asked), "{word}:\n{}", front.text());
        // No other key answers the question, and none reaches the form.
        front.press("x q<down><backspace>");
        assert!(front.text().contains(&asked), "{word}:\n{}", front.text());
        front.press("<enter>");
        assert_eq!(front.text(), filled, "{word}");
        front.press("<esc><esc>");
        assert!(!front.text().contains(&asked), "{word}");
        assert_eq!(
            front.text().lines().next(),
            under.lines().next(),
            "{word}:\n{}",
            front.text()
        );
    }
}
