//! Files that cannot be read, by accident or by intent: named, and no harm to the others.

use notchbook::reference::ReferenceError;
use proptest::prelude::*;
use tempfile::TempDir;

use super::processes::SALT;
use super::{BUILT_IN, folder, load, write};

#[test]
fn one_bad_file_is_named_and_the_others_are_read() {
    let folder = folder(&[
        (
            "films.toml",
            "[[film]]\nname = \"Quarry Ortho\"\nspeed = \"six\"\n",
        ),
        ("processes/a.toml", "id = \"a\"\nname = "),
        ("processes/salt.toml", SALT),
        ("processes/notes.txt", "not a process"),
    ]);
    let (reference, problems) = load(folder.path());
    assert!(reference.process("salt").is_some());
    assert!(reference.film("fp4").is_some());
    assert_eq!(problems.len(), 2, "{problems:?}");
    assert!(problems[0].file().ends_with("films.toml"));
    assert_eq!(problems[0].line(), Some(3));
    assert!(problems[1].file().ends_with("a.toml"));
    assert_eq!(problems[1].line(), Some(2));
}

#[test]
fn hostile_files_are_named_and_do_no_harm() {
    let deep = format!("id = {}1{}", "[".repeat(100_000), "]".repeat(100_000));
    let wide = format!("id = \"{}\"", "a".repeat(500_000));
    let cases: [(&str, Vec<u8>); 9] = [
        ("empty", Vec::new()),
        ("only a mark", vec![0xef, 0xbb, 0xbf]),
        ("not text", vec![b'i', b'd', b'\n', 0xff, 0xfe, 0x00]),
        ("nul", b"id = \"a\0b\"".to_vec()),
        ("escape", b"id = \"a\"\n\x1b[31m = 1\n".to_vec()),
        ("deep", deep.into_bytes()),
        ("wide", wide.into_bytes()),
        ("large", vec![b'\n'; 1_000_001]),
        ("wrong shape", b"step = 3\n".to_vec()),
    ];
    for (name, bytes) in cases {
        let folder = TempDir::new().expect("a temporary folder");
        write(folder.path(), "processes/odd.toml", &bytes);
        let (reference, problems) = load(folder.path());
        assert_eq!(reference.processes().len(), BUILT_IN, "{name}");
        assert_eq!(problems.len(), 1, "{name}: {problems:?}");
        assert!(problems[0].file().ends_with("odd.toml"), "{name}");
        let sentence = problems[0].to_string();
        assert!(sentence.contains("odd.toml"), "{name}: {sentence}");
        assert!(sentence.len() < 2_000, "{name}: {} bytes", sentence.len());
    }
    let folder = folder(&[]);
    write(folder.path(), "films.toml", b"# first\n# second \xff\n");
    let (_, problems) = load(folder.path());
    assert!(
        matches!(problems[..], [ReferenceError::NotText { line: 2, .. }]),
        "{problems:?}"
    );
}

#[test]
fn a_folder_in_the_place_of_a_file_is_named() {
    let folder = folder(&[("films.toml/inside", "")]);
    let (reference, problems) = load(folder.path());
    assert!(reference.film("fp4").is_some());
    assert!(
        matches!(problems[..], [ReferenceError::Unreadable { .. }]),
        "{problems:?}"
    );
    assert!(problems[0].to_string().contains("films.toml"));
}

/// A built-in file to be damaged.
const BLUE: &str = include_str!("../../assets/processes/cyanotype.toml");

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Whatever bytes change in a file, it is either refused by name or gives a process that can be
    /// worked from its first step to a finished print.
    #[test]
    fn a_damaged_file_is_refused_by_name_or_can_be_worked(
        damage in prop::collection::vec((0..BLUE.len(), any::<u8>(), 0..3_u8), 1..6)
    ) {
        let mut bytes = BLUE.as_bytes().to_vec();
        for (place, byte, how) in damage {
            let place = place.min(bytes.len().saturating_sub(1));
            match how {
                0 => bytes[place] = byte,
                1 => bytes.insert(place, byte),
                _ => drop(bytes.drain(place..(place + usize::from(byte)).min(bytes.len()))),
            }
        }
        let folder = TempDir::new().expect("a temporary folder");
        write(folder.path(), "processes/damaged.toml", &bytes);
        let (reference, problems) = load(folder.path());
        match &problems[..] {
            [] => {
                let damaged = reference.processes().iter().find(|process| process.origin.is_own());
                let damaged = damaged.expect("read, as nothing was refused");
                let mut done: Vec<&str> = Vec::new();
                for step in damaged.required() {
                    prop_assert_eq!(damaged.may_follow(&done, &step.id), Ok(()));
                    done.push(&step.id);
                }
                prop_assert!(damaged.is_complete(&done));
            }
            [one] => {
                prop_assert!(one.to_string().contains("damaged.toml"));
                prop_assert_eq!(reference.processes().len(), BUILT_IN);
            }
            many => prop_assert!(false, "{:?}", many),
        }
    }
}
