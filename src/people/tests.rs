//! The register's rules, one after the other.

use super::{Known, Name, NameProblem, NameVersion, Register, RegisterFault, Salt};
use crate::units::{Digest, Instant, PersonCode};

fn version(name: &str, salt: u8, since: i64) -> NameVersion {
    NameVersion {
        name: name
            .parse()
            .unwrap_or_else(|problem| panic!("{name}: {problem:?}")),
        salt: Salt([salt; 32]),
        since: Instant::from_epoch(since),
    }
}

fn nobody(_: PersonCode) -> bool {
    false
}

fn printed(known: Known<'_>) -> &str {
    match known {
        Known::Name(name) => name.as_str(),
        Known::Erased => "(erased)",
        Known::Nobody => "(nobody)",
    }
}

#[test]
fn a_code_is_never_issued_again() {
    let mut register = Register::new();
    let draw = [[1, 2, 3, 4, 5], [5, 4, 3, 2, 1]];
    let first = register.issue(&draw[..1], &nobody, version("Invented One", 1, 0));
    let first = first.unwrap();
    let again = register.issue(&draw[..1], &nobody, version("Invented Two", 2, 0));
    assert_eq!(again, Err(RegisterFault::NoFreeCode));
    let second = register
        .issue(&draw, &nobody, version("Invented Two", 2, 0))
        .unwrap();
    assert_eq!(second, PersonCode::from_random(draw[1]));
    assert_eq!(register.erase(first), Ok(()));
    let again = register.issue(&draw, &nobody, version("Invented Three", 3, 0));
    assert_eq!(
        again,
        Err(RegisterFault::NoFreeCode),
        "not even when it is erased"
    );
    // A register that was lost does not free the codes of the record.
    let known = |code| code == first;
    let again = Register::new().issue(&draw[..1], &known, version("Invented One", 1, 0));
    assert_eq!(again, Err(RegisterFault::NoFreeCode));
}

#[test]
fn a_name_that_changed_stays_for_what_was_signed_under_it() {
    let mut register = Register::new();
    let code = register
        .issue(&[[9; 5]], &nobody, version("Before", 1, 100))
        .unwrap();
    let before = version("Before", 1, 100).commitment();
    register.rename(code, version("After", 2, 200)).unwrap();
    for (at, name) in [(0, "Before"), (199, "Before"), (200, "After")] {
        assert_eq!(printed(register.name(code, Instant::from_epoch(at))), name);
    }
    assert_eq!(printed(register.committed(code, &before)), "Before");
    assert_eq!(
        printed(register.committed(code, &Digest([0; 32]))),
        "(nobody)"
    );
    let earlier = register.rename(code, version("Odd", 3, 199));
    assert_eq!(earlier, Err(RegisterFault::BeforeLast));
}

#[test]
fn every_version_has_a_salt_of_its_own() {
    let mut register = Register::new();
    let code = register
        .issue(&[[9; 5]], &nobody, version("Before", 1, 100))
        .unwrap();
    assert_eq!(
        register.rename(code, version("After", 1, 200)),
        Err(RegisterFault::SaltUsed)
    );
    let other = register.issue(&[[8; 5]], &nobody, version("Other", 1, 100));
    assert_eq!(other, Err(RegisterFault::SaltUsed));
    let name: Name = "Same".parse().unwrap();
    assert_ne!(
        name.commitment(&Salt([1; 32])),
        name.commitment(&Salt([2; 32]))
    );
}

#[test]
fn nothing_of_an_erased_person_is_left_but_the_code() {
    let mut register = Register::new();
    let code = register
        .issue(&[[9; 5]], &nobody, version("Gone", 1, 100))
        .unwrap();
    let commitment = version("Gone", 1, 100).commitment();
    register.erase(code).unwrap();
    assert_eq!(
        printed(register.name(code, Instant::from_epoch(100))),
        "(erased)"
    );
    assert_eq!(printed(register.committed(code, &commitment)), "(erased)");
    assert!(register.rows().all(|(_, names)| names.is_empty()));
    assert_eq!(register.erase(code), Err(RegisterFault::Erased(code)));
    assert_eq!(
        register.rename(code, version("Back", 2, 200)),
        Err(RegisterFault::Erased(code))
    );
}

#[test]
fn a_register_is_put_back_as_it_was() {
    let mut register = Register::new();
    let code = register
        .issue(&[[9; 5]], &nobody, version("Before", 1, 100))
        .unwrap();
    register.rename(code, version("After", 2, 200)).unwrap();
    let gone = register
        .issue(&[[8; 5]], &nobody, version("Gone", 3, 100))
        .unwrap();
    register.erase(gone).unwrap();
    let mut back = Register::new();
    for (code, names) in register.rows() {
        back.restore(code, names.to_vec()).unwrap();
    }
    assert!(back == register);
    assert_eq!(
        back.restore(code, Vec::new()),
        Err(RegisterFault::CodeTaken(code))
    );
}

#[test]
fn names_are_one_line_of_what_shows() {
    assert_eq!(
        " Ana Maria "
            .parse::<Name>()
            .map(|name| name.as_str().len()),
        Ok(9)
    );
    for (text, problem) in [
        ("", NameProblem::Empty),
        (" \t", NameProblem::Empty),
        ("a\u{1b}[1m", NameProblem::Character),
        ("a\u{202e}b", NameProblem::Character),
        ("a\u{200b}b", NameProblem::Character),
    ] {
        assert_eq!(text.parse::<Name>().err(), Some(problem), "{text:?}");
    }
    assert_eq!(
        "x".repeat(121).parse::<Name>().err(),
        Some(NameProblem::TooLong(120))
    );
}
