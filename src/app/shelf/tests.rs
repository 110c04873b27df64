//! What is taken from the shelf, and what is refused.

use super::*;

#[test]
fn what_is_not_there_is_named_with_what_is() {
    let shelf = Shelf::shipped();
    assert!(shelf.modules().contains(&"stock-teeth".to_owned()));
    let problem = shelf.take("stock-tooth", None).err();
    assert!(
        matches!(problem, Some(ShelfProblem::NoSuchModule { known, .. }) if known == shelf.modules())
    );
    let problem = shelf.take("stock-teeth", Some("nobody's")).err();
    assert!(matches!(problem, Some(ShelfProblem::NoSuchProfile { .. })));
}

fn shipped(path: &str) -> String {
    let shelf = Shelf::shipped();
    String::from_utf8(shelf.file(path).unwrap().to_vec()).unwrap()
}

const GROUNDWORK: &str = "modules/groundwork/wet-resin.yaml";

#[test]
fn a_module_of_ones_own_keeps_its_numbers_under_the_default_profile() {
    let mut shelf = Shelf::shipped();
    let text = shipped(GROUNDWORK).replace("wet-resin-and-solvent", "our-groundwork");
    shelf.lay("own/groundwork.yaml", text.into_bytes());
    for profile in [None, Some(DEFAULT_PROFILE)] {
        let taken = shelf.take("our-groundwork", profile).unwrap();
        assert_eq!(taken.module.identity.id.value, "our-groundwork");
    }
    assert!(shelf.is_own("our-groundwork") && !shelf.is_own("stock-teeth"));
}

#[test]
fn a_module_of_ones_own_stands_in_the_place_of_the_shipped_one_wherever_it_lies() {
    for path in ["/a/first.yaml", "own/last.yaml", "zeroth.yaml"] {
        let mut shelf = Shelf::shipped();
        let text = shipped(GROUNDWORK).replace("revision: 1", "revision: 9");
        shelf.lay(path, text.into_bytes());
        let taken = shelf.take("wet-resin-and-solvent", None).unwrap();
        assert_eq!(taken.module.identity.revision, 9, "{path}");
        assert!(shelf.take_sound("wet-resin-and-solvent").is_ok());
    }
}

#[test]
fn a_stage_of_ones_own_leaves_shipped_modules_as_they_are() {
    let mut shelf = Shelf::shipped();
    let before = shelf.take("stock-teeth", None).unwrap().digest;
    shelf.lay("own/stages/two-baths.yaml", b"stage: nothing".to_vec());
    assert_eq!(shelf.take("stock-teeth", None).unwrap().digest, before);
    let text = shipped("modules/constructions/stock-teeth.yaml");
    shelf.lay("own/stock-teeth.yaml", text.into_bytes());
    let problem = shelf.take("stock-teeth", None).err();
    assert!(matches!(problem, Some(ShelfProblem::Unreadable(_))));
}

#[test]
fn two_of_ones_own_with_one_id_are_told() {
    let mut shelf = Shelf::shipped();
    for path in ["own/one.yaml", "own/other.yaml"] {
        shelf.lay(path, shipped(GROUNDWORK).into_bytes());
    }
    let problem = shelf.take("wet-resin-and-solvent", None).err();
    assert!(matches!(problem, Some(ShelfProblem::Twice { files, .. }) if files.len() == 2));
}

#[test]
fn what_means_nothing_is_not_worked_by() {
    let mut shelf = Shelf::shipped();
    let text = shipped(GROUNDWORK).replace(
        "needs: [ { hands: degloved } ]",
        "needs: [ { hands: far } ]",
    );
    shelf.lay("own/groundwork.yaml", text.into_bytes());
    assert!(shelf.take("wet-resin-and-solvent", None).is_ok());
    let problem = shelf.take_sound("wet-resin-and-solvent").err();
    assert!(matches!(problem, Some(ShelfProblem::NotSound(checked)) if !checked.is_sound()));
}

/// The shipped numbers under another name, with other times.
fn profile_called(id: &str) -> Vec<u8> {
    let text = shipped("modules/profiles/common-practice.yaml");
    let text = text.replace("id: common-practice", &format!("id: {id}"));
    text.replace("most: 15 s", "most: 14 s").into_bytes()
}

/// The numbers of the shipped profile in another place.
fn laid(files: &[(&str, &str)]) -> Shelf {
    let mut shelf = Shelf::shipped();
    for (path, id) in files {
        shelf.lay_of_folder(path, profile_called(id));
    }
    shelf
}

#[test]
fn a_profile_of_ones_own_is_found_by_its_name_and_says_which_numbers_it_means() {
    for path in [
        "d/modules/profiles/ours.yaml",
        "d/modules/profiles/ours.yml",
    ] {
        let shelf = laid(&[(path, "ours")]);
        let taken = shelf.take("stock-teeth", Some("ours")).unwrap();
        assert_eq!(taken.profile, "ours");
        assert_eq!(taken.numbers.map(|digest| digest.len()), Some(64));
        assert_eq!(shelf.covering("stock-teeth"), [DEFAULT_PROFILE, "ours"]);
        assert_eq!(shelf.modules(), Shelf::shipped().modules());
    }
    let shipped = Shelf::shipped().take("stock-teeth", None).unwrap();
    assert_eq!(shipped.numbers, None);
}

#[test]
fn one_name_never_means_two_sets_of_numbers() {
    let shelf = laid(&[("d/profiles/common-practice.yml", "common-practice")]);
    for profile in [None, Some(DEFAULT_PROFILE)] {
        let problem = shelf.take("stock-teeth", profile).err();
        assert!(
            matches!(&problem, Some(ShelfProblem::ProfileOfShippedName { file, .. }) if file.ends_with(".yml")),
            "{problem:?}"
        );
    }
    let shelf = laid(&[
        ("d/profiles/ours.yaml", "ours"),
        ("d/profiles/ours.yml", "ours"),
    ]);
    let problem = shelf.profile("ours").err();
    assert!(matches!(problem, Some(ShelfProblem::ProfileTwice { files, .. }) if files.len() == 2));
    let shelf = laid(&[("d/profiles/ours.yaml", "theirs")]);
    let problem = shelf.profile("ours").err();
    assert!(matches!(problem, Some(ShelfProblem::ProfileOfOtherName(one)) if one.id == "theirs"));
    assert!(matches!(
        shelf.profile("theirs").err(),
        Some(ShelfProblem::NoSuchProfile { .. })
    ));
}

#[test]
fn a_copy_of_a_shipped_profile_is_the_shipped_one() {
    let mut shelf = Shelf::shipped();
    let text = shipped("modules/profiles/common-practice.yaml");
    shelf.lay_of_folder("d/profiles/common-practice.yaml", text.into_bytes());
    let taken = shelf.take("stock-teeth", None).unwrap();
    assert_eq!(taken.numbers, None);
}

#[test]
fn a_profile_named_by_its_path_is_not_taken_for_another_of_its_name() {
    let mut shelf = laid(&[("d/profiles/ours.yaml", "ours")]);
    assert_eq!(
        shelf.lay_profile("./d/profiles/ours.yaml", profile_called("ours")),
        "ours"
    );
    assert!(shelf.profile("ours").is_ok());
    let other = profile_called("ours").to_ascii_uppercase();
    shelf.lay_profile("elsewhere/ours.yaml", other);
    assert!(matches!(
        shelf.profile("ours").err(),
        Some(ShelfProblem::ProfileTwice { .. })
    ));
}

#[test]
fn what_covers_a_module_is_what_lists_it_or_fits_it() {
    let mut shelf = Shelf::shipped();
    let head = |id: &str, modules: &str| {
        format!("profile: {{ id: {id}, title: T, origin: our default, set: S{modules} }}\n")
    };
    for (id, text) in [
        (
            "others",
            head("others", ", modules: [wet-resin-and-solvent]"),
        ),
        (
            "fits",
            head("fits", "") + "stations: { plate: { set: 80 °C } }\n",
        ),
        (
            "misfits",
            head("misfits", "") + "stations: { kiln: { set: 80 °C } }\n",
        ),
        ("broken", "profile: no".to_owned()),
    ] {
        shelf.lay_of_folder(&format!("d/profiles/{id}.yaml"), text.into_bytes());
    }
    assert_eq!(
        shelf.covering("stock-teeth"),
        [DEFAULT_PROFILE, "broken", "fits"]
    );
    assert!(shelf.suits("stock-teeth", "others").is_err());
    assert!(shelf.suits("stock-teeth", "fits").is_ok());
    // Where the module is not here, that the profile is has to do.
    assert!(shelf.suits("milled-arch", "others").is_ok());
    assert!(shelf.suits("milled-arch", "nobodys").is_err());
}

#[test]
fn what_a_profile_names_in_vain_is_told() {
    let mut shelf = Shelf::shipped();
    let text = "profile: { id: ours, title: T, origin: our default, set: S, modules: [stock-teeth, stock-tooth] }\n\
        steps: { tackk: { target: 10 s, least: 8 s, most: 15 s } }\n";
    shelf.lay_of_folder("d/profiles/ours.yaml", text.as_bytes().to_vec());
    let problems = shelf.checked_profile("d/profiles/ours.yaml").unwrap();
    let [module, step] = problems.as_slice() else {
        panic!("{problems:?}");
    };
    use crate::syllabus::profile::ProfileFault;
    assert!(
        matches!(&module.what, ProfileFault::NoSuchModule { suggestion: Some(meant), .. } if meant == "stock-teeth")
    );
    assert!(
        matches!(&step.what, ProfileFault::Unknown { suggestion: Some(meant), .. } if meant == "tack")
    );
    let shipped = "modules/profiles/common-practice.yaml";
    assert_eq!(shelf.checked_profile(shipped).unwrap(), []);
}
