//! Whether texts fit a screen of 80 columns.

use unicode_width::UnicodeWidthStr as _;

use super::references::misses;
use super::{CheckFault, Found, note};
use crate::syllabus::module::{Miss, Module, Never};
use crate::syllabus::read::Place;

/// The most columns of a title and of a word: what a line of 80 columns holds beside frames, marks and times.
const MOST: usize = 60;

/// How much of a long word is quoted.
const QUOTED: usize = 20;

pub(super) fn check(module: &Module, found: &mut Found) {
    let mut look = Look { found };
    let identity = &module.identity;
    let at = identity.id.at;
    look.title(at, &identity.title);
    look.text(at, &identity.about);
    identity.cautions.iter().for_each(|it| look.text(at, it));
    identity.sources.values().for_each(|it| look.text(at, it));
    for it in &module.case {
        look.title(it.id.at, &it.title);
    }
    for it in &module.parts {
        look.title(it.id.at, &it.title);
    }
    for it in &module.stations {
        look.title(it.id.at, &it.title);
    }
    for it in &module.products {
        look.title(it.id.at, &it.title);
    }
    for it in &module.protection_items {
        look.title(it.id.at, &it.title);
    }
    for aspect in &module.aspects {
        look.title(aspect.id.at, &aspect.title);
        aspect
            .values
            .iter()
            .for_each(|it| look.text(it.id.at, &it.looks));
    }
    for step in &module.steps {
        let at = step.id.at;
        look.title(at, &step.title);
        look.text(at, &step.why);
        look.text(at, &step.good);
        step.tools.iter().for_each(|it| look.text(at, it));
        for way in &step.ways {
            look.title(way.id.at, &way.title);
            way.options
                .iter()
                .for_each(|it| look.title(it.id.at, &it.title));
        }
    }
    for never in &module.never {
        if let Never::Act(act) = never {
            look.title(act.id.at, &act.title);
        }
    }
    for one in &module.disturbances {
        look.text(one.id.at, &one.seen);
        one.responses
            .iter()
            .for_each(|it| look.title(it.id.at, &it.title));
    }
    for one in &module.consequences {
        look.text(one.id.at, &one.text);
    }
    for Miss { leads_to, text, .. } in misses(module) {
        let at = leads_to.first().map_or(at, |it| it.at);
        look.text(at, text);
    }
}

struct Look<'f> {
    found: &'f mut Found,
}

impl Look<'_> {
    fn title(&mut self, at: Place, title: &str) {
        let columns = title.width();
        if columns > MOST {
            let most = MOST;
            note(self.found, at, CheckFault::TitleTooLong { columns, most });
        } else {
            self.text(at, title);
        }
    }

    fn text(&mut self, at: Place, text: &str) {
        if let Some(word) = text.split_whitespace().find(|it| it.width() > MOST) {
            let word = word.chars().take(QUOTED).collect();
            note(self.found, at, CheckFault::WordTooLong { word, most: MOST });
        }
    }
}
