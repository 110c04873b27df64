//! placeholder
use zeroize::Zeroizing;
/// p
pub struct Passphrase(Zeroizing<String>);
/// p
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassphraseProblem {
    /// p
    TooShort(usize),
}
impl Passphrase {
    /// p
    #[must_use]
    pub fn typed(text: String) -> Passphrase {
        Passphrase(Zeroizing::new(text))
    }
    /// p
    ///
    /// # Errors
    /// p
    pub fn check_new(&self, _names: &[&str]) -> Result<(), PassphraseProblem> {
        if self.0.chars().count() < 12 {
            return Err(PassphraseProblem::TooShort(12));
        }
        Ok(())
    }
    /// p
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}
/// p
#[must_use]
pub fn delay(refused: u16) -> u32 {
    if refused <= 2 {
        0
    } else {
        (2_u32 << (refused - 3).min(9)).min(900)
    }
}
