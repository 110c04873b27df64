//! Attachments: found by digest, altered ones noticed, erasable ones gone when they are erased.

use std::fs;

use drybench::store::{AttachmentFolder, AttachmentKind, AttachmentProblem};
use drybench::units::Digest;

use super::digest;

const BOTH: [AttachmentKind; 2] = AttachmentKind::ALL;

#[test]
fn what_is_put_is_found_by_its_digest() {
    let folder = tempfile::tempdir().unwrap();
    let attachments = AttachmentFolder::at(&folder.path().join("attachments"));
    assert_eq!(attachments.list(), Ok(Vec::new()));
    assert_eq!(attachments.get(&digest("nothing")), Ok(None));
    assert_eq!(attachments.erase(&digest("nothing")), Ok(false));
    let mut put = Vec::new();
    for kind in BOTH {
        for bytes in [&b""[..], b"a text", &[0, 255, 10, 13]] {
            let bytes = [bytes, format!("{kind:?}").as_bytes()].concat();
            let digest = attachments.put(&bytes, kind).unwrap();
            assert_eq!(digest, Digest::of(&[&bytes]));
            assert_eq!(attachments.get(&digest), Ok(Some(bytes.clone())));
            assert_eq!(attachments.put(&bytes, kind), Ok(digest), "twice is once");
            put.push((kind, digest));
        }
    }
    put.sort_unstable();
    assert_eq!(attachments.list(), Ok(put));
}

#[test]
fn an_altered_attachment_is_never_returned() {
    let folder = tempfile::tempdir().unwrap();
    let attachments = AttachmentFolder::at(folder.path());
    let bytes = b"what an entry names".to_vec();
    for (kind, inside) in BOTH.into_iter().zip(["kept", "erasable"]) {
        let digest = attachments.put(&bytes, kind).unwrap();
        let path = folder.path().join(inside).join(digest.to_string());
        let mut changes: Vec<Vec<u8>> = (0..bytes.len()).map(|end| bytes[..end].to_vec()).collect();
        for at in 0..bytes.len() {
            let mut changed = bytes.clone();
            changed[at] ^= 1;
            changes.push(changed);
        }
        changes.push([&bytes[..], b"."].concat());
        for change in changes {
            fs::write(&path, change).unwrap();
            assert_eq!(attachments.get(&digest), Err(AttachmentProblem::Altered));
        }
        // A longer one is not even read to its end.
        let long = fs::File::create(&path).unwrap();
        long.set_len(1 << 40).unwrap();
        assert_eq!(attachments.get(&digest), Err(AttachmentProblem::Altered));
        assert_eq!(attachments.put(&bytes, kind), Ok(digest));
        assert_eq!(attachments.get(&digest), Ok(Some(bytes.clone())));
        fs::remove_file(path).unwrap();
    }
}

#[test]
fn only_what_is_erasable_can_be_erased() {
    let folder = tempfile::tempdir().unwrap();
    let attachments = AttachmentFolder::at(folder.path());
    let module = attachments.put(b"a module", AttachmentKind::Kept).unwrap();
    let remark = attachments
        .put(b"a remark", AttachmentKind::Erasable)
        .unwrap();
    assert_eq!(attachments.erase(&module), Err(AttachmentProblem::Kept));
    assert_eq!(attachments.get(&module), Ok(Some(b"a module".to_vec())));
    // What a kill in the midst of writing leaves goes with it.
    let erasable = folder.path().join("erasable");
    let draft = erasable.join(format!(".{remark}.77-0.draft"));
    fs::write(&draft, "a rem").unwrap();
    let other = erasable.join(format!(".{module}.77-0.draft"));
    fs::write(&other, "another's").unwrap();
    assert_eq!(attachments.erase(&remark), Ok(true));
    assert_eq!(attachments.get(&remark), Ok(None));
    assert_eq!(attachments.erase(&remark), Ok(false));
    assert!(!draft.exists() && other.exists());
    assert_eq!(attachments.list(), Ok(vec![(AttachmentKind::Kept, module)]));
    // The same bytes as both: erasing one would claim what is not so.
    let twice = attachments
        .put(b"a module", AttachmentKind::Erasable)
        .unwrap();
    assert_eq!(attachments.erase(&twice), Err(AttachmentProblem::Kept));
}

#[test]
fn an_attachment_may_be_sixteen_mebibytes_and_not_a_byte_more() {
    let folder = tempfile::tempdir().unwrap();
    let attachments = AttachmentFolder::at(folder.path());
    let mut bytes = vec![7; 16 << 20];
    let digest = attachments.put(&bytes, AttachmentKind::Kept).unwrap();
    assert_eq!(attachments.get(&digest), Ok(Some(bytes.clone())));
    bytes.push(7);
    let refused = attachments.put(&bytes, AttachmentKind::Kept);
    assert_eq!(refused, Err(AttachmentProblem::TooLarge(16 << 20)));
}
