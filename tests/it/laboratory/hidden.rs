//! What must not be found in the files: erased names, passphrases, private keys.

use super::chain::files;
use super::{ADA, BO, Bench};

fn holds(files: &[(String, Vec<u8>)], what: &[u8]) -> Vec<String> {
    let found = files
        .iter()
        .filter(|(_, bytes)| bytes.windows(what.len()).any(|window| window == what));
    found.map(|(path, _)| path.clone()).collect()
}

#[test]
fn an_erased_person_leaves_a_record_that_verifies_and_no_name_in_any_file() {
    let bench = Bench::with_two();
    let before = files(&bench.laboratory());
    let named = holds(&before, b"Bo Sample");
    assert_eq!(named.len(), 1, "the register and nothing else: {named:?}");
    assert!(named[0].contains("register"));
    let early = bench.refused("person erase Bo --as Ada", &[ADA]);
    assert!(early.contains("still here"), "{early}");
    for line in [
        "person erase Ada --as Bo",
        "person rename Ada --name=Other --as Bo",
    ] {
        let refused = bench.refused(line, &[BO]);
        assert!(refused.contains("administer"), "{line}: {refused}");
    }
    let unasked = bench.run("person erase Bo", &[]);
    assert_eq!(
        unasked.status, 2,
        "nobody does that without a name: {unasked:#?}"
    );
    bench.done("person leave Bo --as Ada", &[ADA]);
    let list = bench.done("person list --all", &[]).results;
    let line = list
        .lines()
        .find(|line| line.contains("Bo Sample"))
        .expect("listed");
    let from = line.find("P-").expect("a code");
    let code = line[from..from + 8].to_owned();
    bench.done(&format!("person erase {code} --as Ada"), &[ADA]);
    let after = files(&bench.laboratory());
    assert_eq!(holds(&after, b"Bo Sample"), Vec::<String>::new());
    assert_eq!(holds(&after, b"Ada Example").len(), 1, "others keep theirs");
    bench.done("record verify", &[]);
    let file = bench.done(&format!("technician {code}"), &[]).results;
    assert!(file.contains("erased person"), "{file}");
}

#[test]
fn passphrases_and_private_keys_stand_in_no_file_and_no_message() {
    let bench = Bench::with_two();
    let wrong = "not the passphrase";
    let said = bench.run("policy set --due-days 30 --reason=x --as Ada", &[wrong]);
    assert!(!said.messages.contains(wrong) && !said.results.contains(wrong));
    let all = files(bench.data());
    assert!(!all.is_empty());
    for secret in [ADA, BO, wrong] {
        assert_eq!(
            holds(&all, secret.as_bytes()),
            Vec::<String>::new(),
            "{secret}"
        );
    }
    let keys: Vec<&(String, Vec<u8>)> = all
        .iter()
        .filter(|(path, _)| path.contains("keys"))
        .collect();
    assert_eq!(keys.len(), 2);
    for (path, bytes) in keys {
        let text = String::from_utf8_lossy(bytes);
        assert!(text.contains("ENCRYPTED PRIVATE KEY"), "{path}");
    }
}
