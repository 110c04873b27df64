//! Key files and the `openssl` command: it opens what we write, and we open what it writes.

use std::fs;
use std::io::{ErrorKind, Write as _};
use std::path::Path;
use std::process::{Command, Output, Stdio};

use drybench::people::Passphrase;
use drybench::record::signature::{KeyId, PublicKey, SecretKey, Signature};
use drybench::store::{KeyFolder, KeyProblem};

const WORDS: &str = "a key that two programs know";

/// Before the 32 bytes of a public key in its DER form. Source: RFC 8410, section 10.1.
const BEFORE_PUBLIC: [u8; 12] = [
    0x30, 0x2a, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x03, 0x21, 0x00,
];

fn passphrase() -> Passphrase {
    Passphrase::typed(WORDS.to_owned())
}

/// Runs the `openssl` command in a folder, with the passphrase on its input. These tests are not passed without it.
fn openssl(folder: &Path, words: &[&str]) -> Output {
    let started = Command::new("openssl")
        .args(words)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let mut child = match started {
        Err(error) if error.kind() == ErrorKind::NotFound => {
            panic!(
                "this test needs the command-line tool `openssl`, version 3 or newer, on the path: install it"
            )
        }
        started => started.unwrap(),
    };
    let mut input = child.stdin.take().unwrap();
    // Where it asks for no passphrase it may have ended already.
    let _ignored = writeln!(input, "{WORDS}");
    drop(input);
    child.wait_with_output().unwrap()
}

/// What it prints, after it succeeded.
fn printed(folder: &Path, words: &[&str]) -> Vec<u8> {
    let output = openssl(folder, words);
    assert!(
        output.status.success(),
        "openssl {words:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    output.stdout
}

/// The public key of a private one, as the tool works it out.
fn public_key(folder: &Path, file: &str) -> PublicKey {
    let words = [
        "pkey", "-in", file, "-passin", "stdin", "-pubout", "-outform", "DER",
    ];
    let printed = printed(folder, &words);
    let bytes = printed.strip_prefix(&BEFORE_PUBLIC).unwrap();
    PublicKey::from_bytes(bytes.try_into().unwrap()).unwrap()
}

fn file_of(id: KeyId) -> String {
    format!("{}.pem", id.0)
}

#[test]
fn the_openssl_command_opens_our_keys_and_no_other_passphrase_does() {
    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(folder.path());
    let secret = SecretKey::from_seed(&[77; 32]);
    let id = keys.make(&secret, &passphrase()).unwrap();
    assert_eq!(public_key(folder.path(), &file_of(id)), secret.public());
    let other = Passphrase::typed("words that it is not given".to_owned());
    keys.change(id, &passphrase(), &other).unwrap();
    let refused = openssl(
        folder.path(),
        &["pkey", "-in", &file_of(id), "-passin", "stdin"],
    );
    assert!(!refused.status.success());
}

#[test]
fn what_the_openssl_command_signs_with_our_key_verifies() {
    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(folder.path());
    let secret = SecretKey::from_seed(&[78; 32]);
    let id = keys.make(&secret, &passphrase()).unwrap();
    let text = b"the canonical bytes of an entry";
    fs::write(folder.path().join("text"), text).unwrap();
    let file = file_of(id);
    let words = [
        "pkeyutl", "-sign", "-rawin", "-in", "text", "-inkey", &file, "-passin", "stdin",
    ];
    let signature = printed(folder.path(), &words);
    let signature: String = signature.iter().map(|byte| format!("{byte:02x}")).collect();
    let signature: Signature = signature.parse().unwrap();
    assert!(secret.public().verifies(text, &signature));
    assert!(!secret.public().verifies(b"another text", &signature));
    assert_eq!(signature, secret.sign(text), "RFC 8032 leaves no choice");
}

#[test]
fn we_open_what_the_openssl_command_encrypts_with_scrypt() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path();
    printed(path, &["genpkey", "-algorithm", "ed25519", "-out", "plain"]);
    let words = [
        "pkcs8", "-topk8", "-in", "plain", "-scrypt", "-passout", "stdin", "-out", "theirs",
    ];
    printed(path, &words);
    let public = public_key(path, "theirs");
    let keys = KeyFolder::at(&path.join("keys"));
    fs::create_dir(keys.path()).unwrap();
    let kept = keys.path().join(file_of(public.id()));
    fs::rename(path.join("theirs"), kept).unwrap();
    let secret = keys.open(public.id(), &passphrase()).unwrap();
    assert_eq!(secret.public(), public);
    let wrong = Passphrase::typed("something else".to_owned());
    let refused = keys.open(public.id(), &wrong);
    assert_eq!(refused.err(), Some(KeyProblem::Refused));
    // With another derivation it is no key file of ours.
    let words = [
        "pkcs8", "-topk8", "-in", "plain", "-passout", "stdin", "-out", "weaker",
    ];
    printed(path, &words);
    fs::rename(path.join("weaker"), keys.path().join(file_of(public.id()))).unwrap();
    let refused = keys.open(public.id(), &passphrase());
    assert_eq!(refused.err(), Some(KeyProblem::Damaged));
}
