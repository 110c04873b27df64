//! What somebody looks for by typing a piece of it, on whatever keyboard is there.

/// Something that is looked for: capitals do not matter, nor do accents or scripts, so that `quynh` finds `Quỳnh` and `yarina` and `Ярина` find alike.
#[derive(Clone, Debug)]
pub struct Sought {
    lower: String,
    /// The same in the letters of every keyboard.
    plain: String,
}

impl Sought {
    /// What was typed.
    #[must_use]
    pub fn new(typed: &str) -> Sought {
        Sought {
            lower: typed.to_lowercase(),
            plain: plain(typed),
        }
    }

    /// Whether a text holds it. Every text holds nothing.
    #[must_use]
    pub fn is_in(&self, text: &str) -> bool {
        text.to_lowercase().contains(&self.lower)
            || (!self.plain.is_empty() && plain(text).contains(&self.plain))
    }
}

fn plain(text: &str) -> String {
    deunicode::deunicode(text).to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn holds(text: &str, typed: &str) -> bool {
        Sought::new(typed).is_in(text)
    }

    #[test]
    fn accents_capitals_and_scripts_do_not_matter() {
        for (text, typed) in [
            ("Quỳnh Lạc Vân Thủy", "quynh lac"),
            ("Tuomi Järvenhauta", "JARVEN"),
            ("Tuomi Järvenhauta", "jÄrven"),
            ("Ярина Сніговійко", "Сні"),
            ("Ярина Сніговійко", "rina"),
            ("Σμαράγδα Λιθοπλάτη", "smaragda"),
            ("Bríd Nic Fhionnlocha", ""),
        ] {
            assert!(holds(text, typed), "{text} {typed}");
        }
    }

    #[test]
    fn what_is_not_there_is_not_found() {
        assert!(!holds("Quỳnh Lạc Vân Thủy", "quyng"));
        // A character without a letter of its own finds itself alone.
        assert!(!holds("Tuomi Järvenhauta", "\u{e000}"));
        assert!(holds("a\u{e000}b", "\u{e000}"));
    }
}
