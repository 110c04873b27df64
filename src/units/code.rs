//! The code that stands for a person wherever a name may not stand.

use std::fmt;
use std::str::FromStr;

/// The 32 digits of Crockford's base 32: no I, L, O, U. Source: Douglas Crockford, "Base 32".
const DIGITS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// How many digits are drawn at random.
const DRAWN: usize = 5;

/// A person's code: `P-`, five random Crockford digits and a check digit, as in `P-7K3MQ4`.
///
/// The check digit is the sum of the digits' values, each times its place counted from 1, modulo 31 (our default): a prime
/// modulus, so that a wrong digit and an exchange of neighbours are noticed, except that it cannot tell the digits 0 and Z apart.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PersonCode([u8; DRAWN]);

/// Why a text is no person's code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CodeProblem {
    /// It is not `P-` and six digits of Crockford's base 32.
    Shape,
    /// The check digit is wrong: something was mistyped.
    Check,
}

impl PersonCode {
    /// Makes a code of random bytes; three bits of each are left out.
    #[must_use]
    pub fn from_random(bytes: [u8; DRAWN]) -> PersonCode {
        PersonCode(bytes.map(|byte| byte % 32))
    }

    fn check(self) -> usize {
        let weighed = (1..)
            .zip(self.0)
            .map(|(place, digit)| place * usize::from(digit));
        weighed.sum::<usize>() % 31
    }
}

impl fmt::Display for PersonCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "P-")?;
        for digit in self.0 {
            write!(f, "{}", char::from(DIGITS[usize::from(digit)]))?;
        }
        write!(f, "{}", char::from(DIGITS[self.check()]))
    }
}

impl fmt::Debug for PersonCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

impl FromStr for PersonCode {
    type Err = CodeProblem;

    fn from_str(text: &str) -> Result<PersonCode, CodeProblem> {
        let digits = text.strip_prefix("P-").ok_or(CodeProblem::Shape)?;
        let digits: [u8; DRAWN + 1] = digits
            .as_bytes()
            .try_into()
            .map_err(|_| CodeProblem::Shape)?;
        let mut values = [0; DRAWN + 1];
        for (value, byte) in values.iter_mut().zip(digits) {
            let place = DIGITS.iter().position(|&digit| digit == byte);
            let place = place.and_then(|place| u8::try_from(place).ok());
            *value = place.ok_or(CodeProblem::Shape)?;
        }
        let [a, b, c, d, e, check] = values;
        let code = PersonCode([a, b, c, d, e]);
        if code.check() == usize::from(check) {
            Ok(code)
        } else {
            Err(CodeProblem::Check)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_prints_and_is_read_back() {
        // 1·7 + 2·19 + 3·3 + 4·20 + 5·23 = 249 = 8·31 + 1. Calculated by hand.
        let code = PersonCode::from_random([7, 19, 3, 20, 23]);
        assert_eq!(code.to_string(), "P-7K3MQ1");
        assert_eq!("P-7K3MQ1".parse(), Ok(code));
        assert_eq!(
            PersonCode::from_random([7 + 32, 19 + 64, 3, 20, 23 + 224]),
            code
        );
    }

    #[test]
    fn what_is_no_code_says_why() {
        for text in [
            "",
            "P-",
            "7K3MQ1",
            "P-7K3MQ",
            "P-7K3MQ11",
            "P-7K3MI1",
            "p-7K3MQ1",
            "P-7k3mq1",
            "P-7K3MÖ1",
        ] {
            assert_eq!(
                text.parse::<PersonCode>(),
                Err(CodeProblem::Shape),
                "{text}"
            );
        }
        assert_eq!("P-7K3MQ2".parse::<PersonCode>(), Err(CodeProblem::Check));
    }

    proptest::proptest! {
        #[test]
        fn a_wrong_digit_and_an_exchange_are_noticed(bytes in proptest::array::uniform5(0_u8..31), at in 0_usize..5, more in 1_u8..31) {
            let code = PersonCode::from_random(bytes);
            let mut wrong = bytes;
            wrong[at] = (wrong[at] + more) % 31;
            let check = |digits| PersonCode(digits).check();
            proptest::prop_assert_ne!(check(wrong), code.check());
            let mut exchanged = bytes;
            exchanged.swap(at, (at + 1) % 5);
            proptest::prop_assert!(exchanged == bytes || check(exchanged) != code.check());
        }
    }
}
