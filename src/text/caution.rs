//! Sentences that have to stand wherever something hazardous or something modelled is shown.

use super::Words;

/// A caution in fixed words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// What outranks this program: data sheet, maker, law, licence. Shown with every hazardous step or sum.
    OthersComeFirst,
    /// Shown with every plot and every predicted fault.
    TeachingModel,
}

impl Caution {
    /// Every caution there is.
    pub const ALL: [Caution; 2] = [Caution::OthersComeFirst, Caution::TeachingModel];

    /// Words the caution.
    #[must_use]
    pub fn say(self, words: &Words) -> String {
        words.say(
            match self {
                Caution::OthersComeFirst => "caution-others-come-first",
                Caution::TeachingModel => "caution-teaching-model",
            },
            &[],
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_caution_is_left_unworded() {
        let words = Words::shipped("en-US");
        for caution in Caution::ALL {
            let text = caution.say(&words);
            assert!(!text.starts_with('['), "{text}");
            assert!(text.len() > 40, "{text}");
        }
    }
}
