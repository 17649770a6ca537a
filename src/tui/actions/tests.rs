use super::*;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Deed {
    Next,
    Top,
    Strike,
    Quit,
    Close,
    Save,
}

const LIST: Place = Place::screen("list");
const HELP: Place = Place::overlay("help");
const FORM: Place = Place::screen("form").with_typing();

const fn action(
    id: &'static str,
    act: Deed,
    places: &'static [Place],
    keys: &'static [&'static str],
) -> Action<bool, Deed> {
    Action {
        id,
        act,
        places,
        keys,
        label: "do",
        sentence: "Does something.",
        group: "all",
        rank: 5,
        when: |struck| {
            if *struck {
                Availability::No("it is struck already".into())
            } else {
                Availability::Yes
            }
        },
    }
}

static TABLE: &[Action<bool, Deed>] = &[
    action("list.next", Deed::Next, &[LIST], &["j", "down"]),
    action("list.top", Deed::Top, &[LIST], &["g g", "home"]),
    action("list.strike", Deed::Strike, &[LIST], &["x"]),
    action("app.quit", Deed::Quit, &[Place::GLOBAL], &["q", "ctrl-q"]),
    action("help.close", Deed::Close, &[HELP], &["q", "esc"]),
    action("form.save", Deed::Save, &[FORM], &["ctrl-s"]),
];

fn map(rebindings: &[(&str, &[&str])]) -> (KeyMap<bool, Deed>, Vec<String>) {
    let rebindings: Vec<Rebinding> = rebindings
        .iter()
        .map(|(id, keys)| Rebinding {
            id: (*id).to_owned(),
            keys: keys.iter().map(|key| (*key).to_owned()).collect(),
        })
        .collect();
    let (map, problems) = KeyMap::new(TABLE, &rebindings);
    (map, problems.iter().map(KeyMapProblem::to_string).collect())
}

fn pressed(map: &KeyMap<bool, Deed>, places: &[Place], keys: &str) -> Option<Deed> {
    let mut begun = None;
    let mut last = None;
    for key in keys.split(' ') {
        last = match map.press(places, &mut begun, key.parse().unwrap(), &false) {
            Pressed::Do(deed) => Some(deed),
            _ => None,
        };
    }
    last
}

#[test]
fn a_key_that_cannot_do_its_deed_now_says_why() {
    let (map, _) = map(&[]);
    assert_eq!(
        map.press(&[LIST], &mut None, Chord::char('x'), &true),
        Pressed::Cannot("it is struck already".into())
    );
}

#[test]
fn a_second_key_that_does_not_go_on_ends_the_sequence_and_does_nothing() {
    let (map, _) = map(&[]);
    let mut begun = None;
    let mut press = |c| map.press(&[LIST], &mut begun, Chord::char(c), &false);
    assert_eq!(press('g'), Pressed::Begun);
    assert_eq!(press('x'), Pressed::Nothing);
    assert_eq!(press('x'), Pressed::Do(Deed::Strike));
}

#[test]
fn the_sample_table_has_no_faults() {
    assert_eq!(faults(TABLE), Vec::<String>::new());
}

#[test]
fn faults_of_a_table_are_named() {
    static BAD: &[Action<bool, Deed>] = &[
        action("a.a", Deed::Next, &[LIST], &["alt-x", "nokey"]),
        Action {
            label: "a label too long",
            sentence: "no sentence",
            ..action("a.a", Deed::Top, &[LIST], &["q"])
        },
        action("a.q", Deed::Quit, &[Place::GLOBAL], &["q"]),
    ];
    let faults = faults(BAD).join("\n");
    for part in [
        "not every terminal can send alt-x",
        "\"nokey\" is not a key",
        "stands twice",
        "takes 16 cells",
        "is not a sentence",
        "\"q\" is wanted by \"a.a\" and by \"a.q\"",
    ] {
        assert!(faults.contains(part), "{part} in\n{faults}");
    }
}

#[test]
fn keys_and_sequences_find_their_action() {
    let (map, problems) = map(&[]);
    assert_eq!(problems, Vec::<String>::new());
    let places = [LIST, Place::GLOBAL];
    assert_eq!(pressed(&map, &places, "down"), Some(Deed::Next));
    assert_eq!(pressed(&map, &places, "g g"), Some(Deed::Top));
    assert_eq!(pressed(&map, &places, "g x"), None);
    assert_eq!(pressed(&map, &places, "q"), Some(Deed::Quit));
    assert_eq!(pressed(&map, &[Place::GLOBAL], "x"), None);
}

#[test]
fn an_overlay_keeps_keys_from_what_lies_under_it() {
    let (map, _) = map(&[]);
    let places = [HELP, LIST, Place::GLOBAL];
    assert_eq!(pressed(&map, &places, "q"), Some(Deed::Close));
    assert_eq!(pressed(&map, &places, "x"), None);
    assert_eq!(pressed(&map, &places, "ctrl-q"), None);
}

#[test]
fn characters_are_typed_where_a_field_has_the_focus() {
    let (map, _) = map(&[]);
    let places = [FORM, Place::GLOBAL];
    assert_eq!(pressed(&map, &places, "q"), None);
    assert_eq!(pressed(&map, &places, "ctrl-q"), Some(Deed::Quit));
    assert_eq!(pressed(&map, &places, "ctrl-s"), Some(Deed::Save));
}

#[test]
fn own_keys_replace_the_defaults_of_their_action() {
    let (map, problems) = map(&[("list.next", &["n"]), ("list.strike", &[])]);
    assert_eq!(problems, Vec::<String>::new());
    let places = [LIST, Place::GLOBAL];
    assert_eq!(pressed(&map, &places, "n"), Some(Deed::Next));
    assert_eq!(pressed(&map, &places, "j"), None);
    assert_eq!(pressed(&map, &places, "x"), None);
    assert_eq!(map.key_of("list.next").as_deref(), Some("n"));
    assert_eq!(map.key_of("list.strike"), None);
}

#[test]
fn an_own_key_wins_over_a_default_and_the_loss_is_told() {
    let (map, problems) = map(&[("list.next", &["x"])]);
    assert_eq!(pressed(&map, &[LIST, Place::GLOBAL], "x"), Some(Deed::Next));
    assert_eq!(
        problems,
        [
            "keys: \"x\" is wanted by \"list.next\" and by \"list.strike\" (list); \"list.next\" has it"
        ]
    );
}

#[test]
fn a_key_of_a_screen_clashes_with_one_that_works_everywhere() {
    let (_, problems) = map(&[("list.next", &["q"])]);
    assert!(
        problems[0].contains("\"list.next\" and by \"app.quit\""),
        "{problems:?}"
    );
    // An overlay has its keys for itself.
    let (_, problems) = map(&[("help.close", &["ctrl-q"])]);
    assert_eq!(problems, Vec::<String>::new());
}

#[test]
fn a_key_that_begins_a_sequence_clashes_with_it() {
    let (map, problems) = map(&[("list.strike", &["g"])]);
    assert!(problems[0].contains("\"list.top\""), "{problems:?}");
    assert_eq!(pressed(&map, &[LIST], "g"), Some(Deed::Strike));
    assert_eq!(pressed(&map, &[LIST], "home"), Some(Deed::Top));
}

#[test]
fn mistakes_in_the_settings_are_told_and_the_rest_works() {
    let (map, problems) = map(&[
        ("list.nxt", &["n"]),
        ("list.top", &["entr", "t"]),
        ("form.save", &["s", "f2"]),
    ]);
    assert_eq!(
        problems,
        [
            "keys: there is no action \"list.nxt\", perhaps \"list.next\" was meant; it is left out",
            "keys for \"list.top\": \"entr\" is not a key: write for example \"x\", \"G\", \
             \"ctrl-z\", \"enter\", \"pgdn\" or \"f1\"; it is left out",
            "keys for \"form.save\": \"s\" is typed into the field there (form); choose a key with \
             ctrl or a function key",
        ]
    );
    assert_eq!(pressed(&map, &[LIST], "t"), Some(Deed::Top));
    assert_eq!(pressed(&map, &[FORM], "f2"), Some(Deed::Save));
}

#[test]
fn offers_come_by_rank_and_say_why_not() {
    let (map, _) = map(&[]);
    let offers = map.offers(&[LIST, Place::GLOBAL], &true);
    assert_eq!(offers.len(), 4);
    assert_eq!(offers[1].keys, ["g g", "home"]);
    assert_eq!(
        offers[0].available,
        Availability::No("it is struck already".into())
    );
    let offers = map.offers(&[HELP, LIST, Place::GLOBAL], &false);
    assert_eq!(
        offers.iter().map(|o| o.id).collect::<Vec<_>>(),
        ["help.close"]
    );
}
