//! Published roots and proofs, and every proof of small trees.

use super::{Root, consistency, grew, includes, inclusion, node, root};
use crate::record::seal::Seal;
use crate::units::{Digest, from_hex};

// The leaves, roots and proofs of this file: test constants of the reference implementation of RFC 6962 (certificate transparency), whose
// hashing RFC 9162 keeps.
const LEAVES: [&[u8]; 8] = [
    b"",
    b"\x00",
    b"\x10",
    b"\x20\x21",
    b"\x30\x31",
    b"\x40\x41\x42\x43",
    b"\x50\x51\x52\x53\x54\x55\x56\x57",
    b"\x60\x61\x62\x63\x64\x65\x66\x67\x68\x69\x6a\x6b\x6c\x6d\x6e\x6f",
];

fn seals(count: usize) -> Vec<Seal> {
    LEAVES[..count].iter().map(|leaf| Seal::of(leaf)).collect()
}

fn digest(text: &str) -> Digest {
    text.parse().unwrap()
}

fn digests(texts: &[&str]) -> Vec<Digest> {
    texts.iter().map(|text| digest(text)).collect()
}

#[test]
fn published_roots_come_out() {
    for (count, expected) in [
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
        "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
        "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
        "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
        "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
        "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
        "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
        "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
    ]
    .into_iter()
    .enumerate()
    {
        assert_eq!(root(&seals(count)).digest, digest(expected), "{count}");
    }
}

#[test]
fn published_hashes_of_a_leaf_and_a_node_come_out() {
    assert_eq!(
        Seal::of(b"L123456").to_string(),
        "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56"
    );
    // The published node has children of four bytes; ours are digests, so the hash is made as `node` makes it.
    assert_eq!(
        Digest::of(&[&[1], b"N123", b"N456"]).to_string(),
        "aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb"
    );
    let (left, right) = (Digest([1; 32]), Digest([2; 32]));
    assert_eq!(node(&left, &right), Digest::of(&[&[1], &left.0, &right.0]));
}

#[test]
fn published_proofs_come_out() {
    for (index, count, expected) in [
        (
            0,
            8,
            &[
                "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
                "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
                "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
            ][..],
        ),
        (
            5,
            8,
            &[
                "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
                "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
                "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
            ],
        ),
        (
            1,
            5,
            &[
                "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
                "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
                "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
            ],
        ),
        (
            2,
            3,
            &["fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125"],
        ),
    ] {
        assert_eq!(inclusion(index, &seals(count)), Some(digests(expected)));
    }
    for (size, count, expected) in [
        (
            6,
            8,
            &[
                "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a",
                "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
                "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
            ][..],
        ),
        (
            2,
            5,
            &[
                "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
                "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
            ],
        ),
    ] {
        assert_eq!(consistency(size, &seals(count)), Some(digests(expected)));
    }
    assert_eq!(consistency(1, &seals(8)), inclusion(0, &seals(8)));
}

#[test]
fn every_proof_of_a_small_tree_holds_and_no_other_does() {
    for count in 1..=8 {
        let all = seals(count);
        let whole = root(&all);
        for index in 0..count {
            let mut proof = inclusion(index, &all).unwrap();
            for place in 0..=count {
                let held = includes(whole, place as u64, all[index], &proof);
                assert_eq!(held, place == index, "{index} of {count} at {place}");
            }
            assert!(!includes(whole, index as u64, Seal::of(b"other"), &proof));
            proof.push(Digest([0; 32]));
            assert!(!includes(whole, index as u64, all[index], &proof));
            proof.pop();
            if proof.pop().is_some() {
                assert!(!includes(whole, index as u64, all[index], &proof));
            }
        }
        for size in 1..=count {
            let earlier = root(&all[..size]);
            let mut proof = consistency(size, &all).unwrap();
            assert!(grew(earlier, whole, &proof), "{size} of {count}");
            let other = Root {
                digest: Digest([7; 32]),
                ..earlier
            };
            assert!(!grew(other, whole, &proof));
            if size < count {
                let other = Root {
                    digest: Digest([7; 32]),
                    ..whole
                };
                assert!(!grew(earlier, other, &proof));
            }
            proof.push(Digest([0; 32]));
            assert!(!grew(earlier, whole, &proof));
        }
        assert!(grew(root(&[]), whole, &[]));
        assert_eq!(inclusion(count, &all), None);
        assert_eq!(consistency(count + 1, &all), None);
    }
}

// Made for this project: three lines, their seals not used; the tree over the lines themselves as leaves, and a changed line.
// Calculated with another implementation.
#[test]
fn three_lines_have_their_root_and_a_changed_one_another() {
    let zeros = "0".repeat(64);
    let first = format!(
        r#"{{"kind":"trained","person":"P-001","prev":"{zeros}","rev":"3","seq":1,"time":"2026-02-03T09:15:00+01:00","workflow":"WF-WASH"}}"#
    );
    let plain = |line: &str| Digest::of(&[line.as_bytes()]).to_string();
    assert_eq!(
        plain(&first),
        "624deb776e109b117e7d40218311493fba3a3bc6974d2cd0d1d618ced9b6faad"
    );
    let second = format!(
        r#"{{"kind":"observed","person":"P-001","prev":"{}","result":"acceptable","seq":2,"time":"2026-02-04T10:40:00+01:00","workflow":"WF-WASH"}}"#,
        plain(&first)
    );
    assert_eq!(
        plain(&second),
        "407184a90528cb1d760b480c11ea2ebf0c9cb70f6b7704cc475291b093c45301"
    );
    let third = format!(
        r#"{{"kind":"signed-off","meaning":"approval","person":"P-001","prev":"{}","seq":3,"signer":"P-900","time":"2026-02-05T16:00:00+01:00","workflow":"WF-WASH"}}"#,
        plain(&second)
    );
    assert_eq!(
        plain(&third),
        "68c41b53b435125828bfb9e296d331e962cf3a40b9c5e41391e11fbdfdd1631a"
    );
    for line in [&first, &second, &third] {
        let read = crate::record::canonical::parse(line.as_bytes()).unwrap();
        assert_eq!(read.canonical(), *line, "the lines are canonical");
    }
    let over = |lines: [&str; 3]| root(&lines.map(|line| Seal::of(line.as_bytes())));
    let whole = over([&first, &second, &third]);
    assert_eq!(
        whole.digest.to_string(),
        "6801ca337ad1388fd52205d2410eaa8a4ca4aa1555fc20b4a7a664a8c2e10eab"
    );
    let changed = second.replace("acceptable", "unacceptable");
    assert_eq!(
        plain(&changed),
        "a6e1540f922b70ab7248c3a1f34477beed3bf8a5ecff92c91ff5a06dccf8ba26"
    );
    assert_eq!(
        over([&first, &changed, &third]).digest.to_string(),
        "3891626364e39aa2908972b66a2bc231028f58a674add6d4556c3a310b978050"
    );
    let seed =
        from_hex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60").unwrap();
    let signed = crate::record::signature::SecretKey::from_seed(&seed).sign(&whole.digest.0);
    assert_eq!(
        signed.to_string(),
        "31b0493379383535c1ad68e5b7affc6e444d6d977816f73937d09e26be6a420cb8212845360a1d403f460eea8e54b8a0670467ec9fc606a28c320cf9953e4b01"
    );
}
