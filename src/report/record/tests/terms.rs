//! Every stored word has words, and every meaning its sentence.

use std::collections::BTreeSet;

use super::super::*;
use super::{check_text, words};
use crate::record::entry::{
    Allowed, Cause, Effect, Ending, Found, Help, HowEstablished, Impact, Independence, Judgement,
    Method, OutsideWay, Seen, Stage,
};
use crate::record::scope::{Authority, Meaning};
use crate::standing::{Run, Standing};

#[test]
fn no_stored_word_is_left_unworded() {
    let words = words();
    macro_rules! check {
        ($($type:ident $word:ident $message:literal;)*) => {$(
            let mut seen = BTreeSet::new();
            for value in $type::ALL {
                let id = format!("{}.{}", $message, value.word());
                assert!(words.knows(&id), "{id}");
                let said = $word(*value, &words);
                check_text(&said);
                assert!(seen.insert(said), "{id} is said like another");
            }
        )*};
    }
    check! {
        Allowed allowed "record-allowed";
        Authority authority "record-authority";
        Cause cause "record-cause";
        Effect effect "record-effect";
        Ending ending "record-ending";
        Found found "record-result";
        Help help "record-help";
        HowEstablished how_established "record-how";
        Impact impact "record-impact";
        Independence independence "record-independence";
        Judgement judgement "record-judgement";
        Meaning meaning "record-meaning";
        Method method "record-method";
        OutsideWay outside_way "record-way";
        Seen seen "record-seen";
        Stage stage "record-stage";
    }
    for one in [Run::Clean, Run::NotClean, Run::Failed, Run::NotCounted] {
        check_text(&run(one, &words));
    }
    for authority in Authority::ALL {
        let id = format!("record-right.{}", authority.word());
        assert!(words.knows(&id), "{id}");
    }
}

#[test]
fn every_meaning_has_a_sentence_of_its_own_to_stand_by() {
    let words = words();
    let mut seen = BTreeSet::new();
    for meaning in Meaning::ALL {
        let sentence = declaration(*meaning, &words);
        check_text(&sentence);
        assert!(sentence.starts_with("I "), "{sentence}");
        assert!(
            sentence.ends_with("I answer for it with my name."),
            "{sentence}"
        );
        assert!(seen.insert(sentence));
    }
}

#[test]
fn standings_have_words_letters_and_a_meaning() {
    let words = words();
    let mut seen = BTreeSet::new();
    for word in Standing::WORDS.into_iter().chain(["cannot-be-shown"]) {
        for message in ["word", "short", "means", "told"] {
            let id = format!("standing-{message}.{word}");
            assert!(words.knows(&id), "{id}");
        }
        let short = standing_short(word, &words);
        assert!(seen.insert(short.clone()), "{short} is there twice");
        assert!(short.len() <= 7, "{short}");
        let letters = short.bytes().all(|byte| byte.is_ascii_lowercase());
        assert!(short == "-" || letters && short.len() > 2, "{short}");
        assert_eq!(
            standing(word, &words),
            word.replace('-', " ").replace("sign off", "sign-off")
        );
    }
}
