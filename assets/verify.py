#!/usr/bin/env python3
"""Verifies a record without the program that wrote it: Python's standard library and the openssl command.

    python3 verify.py LABORATORY-FOLDER [--json]

What is checked, and what is not, stands in verify.md beside this file.
"""

import base64
import hashlib
import json
import pathlib
import sqlite3
import subprocess
import sys
import tempfile

# What stands before the 32 bytes of an Ed25519 public key in its DER form. Source: RFC 8410, sections 4 and 10.1.
ED25519 = bytes.fromhex("302a300506032b6570032100")
NONE = "0" * 64


def sha256(*pieces):
    return hashlib.sha256(b"".join(pieces)).digest()


def canonical(value):
    """RFC 8785 for whole numbers and texts, with names in ASCII."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def root(leaves):
    """The tree of RFC 9162, section 2.1.1, over leaves that are hashed already."""
    if not leaves:
        return sha256()
    if len(leaves) == 1:
        return leaves[0]
    split = 1
    while split * 2 < len(leaves):
        split *= 2
    return sha256(b"\x01", root(leaves[:split]), root(leaves[split:]))


def holds(key, body, signature):
    """Whether openssl finds that the signature was made of these bytes with this key."""
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        pem = base64.encodebytes(ED25519 + key).decode().replace("\n", "")
        (folder / "key.pem").write_text(f"-----BEGIN PUBLIC KEY-----\n{pem}\n-----END PUBLIC KEY-----\n")
        (folder / "body").write_bytes(body)
        (folder / "signature").write_bytes(signature)
        told = subprocess.run(
            ["openssl", "pkeyutl", "-verify", "-pubin", "-inkey", folder / "key.pem", "-rawin",
             "-in", folder / "body", "-sigfile", folder / "signature"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
        return told.returncode == 0


def rows(database):
    connection = sqlite3.connect(f"file:{database}?mode=ro", uri=True)
    return connection.execute("SELECT strand, number, seal, bytes FROM entries ORDER BY strand, number").fetchall()


def heads(file):
    if not file.exists():
        return []
    first, *lines = file.read_text().splitlines()
    if first != "drybench heads 1":
        raise SystemExit(f"{file}: not a file of heads that this knows")
    return [(strand, int(number), seal) for strand, number, seal in (line.split(" ") for line in lines)]


def main():
    if len(sys.argv) < 2:
        raise SystemExit(__doc__)
    folder = pathlib.Path(sys.argv[1])
    found, keys, strands, signatures = [], {}, {}, 0
    stored = rows(folder / "record.sqlite")
    # A key is known by its own digest, so it does not matter in which strand it was issued.
    for _, _, _, text in stored:
        try:
            fact = json.loads(text)["body"]["fact"]
            key = bytes.fromhex(fact["key"])
            keys[sha256(key).hex()] = key
        except (ValueError, KeyError, TypeError):
            continue
    for strand, number, seal, text in stored:
        leaves = strands.setdefault(strand, [])
        place = f"{strand}/{number}"
        if number != len(leaves) + 1:
            found.append((place, "out of sequence"))
        own = sha256(b"\x00", text)
        if own != seal:
            found.append((place, "the stored seal is not that of the bytes"))
        previous = leaves[-1].hex() if leaves else NONE
        leaves.append(own)
        try:
            whole = json.loads(text)
            body = whole["body"]
            if canonical(whole) != text:
                found.append((place, "not canonical"))
            if body["strand"] != strand or body["number"] != number:
                found.append((place, "misplaced"))
            if body["previous"] != previous:
                found.append((place, "the seal of the entry before differs"))
            if "signing" in body:
                signatures += 1
                key = keys.get(body["signing"]["key"])
                if key is None:
                    found.append((place, "signed with a key that was never issued"))
                elif not holds(key, canonical(body), bytes.fromhex(whole["signature"])):
                    found.append((place, "the signature does not hold"))
            elif "signature" in whole:
                found.append((place, "a signature by nobody"))
        except (ValueError, KeyError, TypeError):
            found.append((place, "no entry"))
    for strand, number, seal in heads(folder / "record.sqlite.heads"):
        leaves = strands.get(strand, [])
        if len(leaves) < number:
            found.append((f"{strand}/{len(leaves) + 1}", f"cut off: remembered up to {number}"))
        elif leaves[number - 1].hex() != seal:
            found.append((f"{strand}/{number}", "not the entry that is remembered"))
    result = {
        "strands": [{"strand": name, "entries": len(leaves), "root": root(leaves).hex()} for name, leaves in strands.items()],
        "signatures": signatures,
        "found": [{"entry": place, "what": what} for place, what in found],
    }
    if "--json" in sys.argv[2:]:
        print(json.dumps(result, indent=2))
    else:
        for one in result["strands"]:
            print(f"{one['strand']}: {one['entries']} entries, root {one['root']}")
        print(f"{signatures} signatures looked at")
        for one in result["found"]:
            print(f"{one['entry']}: {one['what']}")
        print("something is wrong" if found else "nothing wrong was found")
    raise SystemExit(1 if found else 0)


if __name__ == "__main__":
    main()
