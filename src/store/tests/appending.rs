//! What an act leaves in the file, and what a refused one does not.

use super::Darkroom;
use crate::logbook::Kind;

fn shelf(room: &mut Darkroom) {
    room.log(
        Kind::BoxAdded,
        &[("film", "FP4 Plus"), ("size", "8x10"), ("sheets", "25")],
    );
    room.log(Kind::HolderAdded, &[("size", "8x10"), ("sides", "2")]);
    room.log(Kind::LensAdded, &[("name", "the long one")]);
}

#[test]
fn an_entry_is_there_with_all_that_is_made_from_it() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let row = room.log(
        Kind::Exposed,
        &[
            ("side", "h1a"),
            ("lens", "L1"),
            ("aperture", "f/22"),
            ("time", "6s"),
            ("subject", "north wall, thaw"),
        ],
    );
    assert_eq!(row, 5);
    assert_eq!(
        room.text("SELECT state FROM sheet WHERE reference = 'S-0001'"),
        "exposed"
    );
    assert_eq!(
        room.text("SELECT subject FROM exposure"),
        "north wall, thaw"
    );
    assert_eq!(room.count("SELECT remaining FROM film_box"), 24);
    let found = "SELECT rowid FROM words WHERE words MATCH '\"thaw\"'";
    assert_eq!(room.count(found), 5);
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
    assert_eq!(checked.entries, 5);
}
