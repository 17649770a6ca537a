//! The vocabulary of faults against the training texts it names.

use notchbook::reference::{NegativeFault, Reference, Stage, Standing};

fn fault<'r>(reference: &'r Reference, name: &str) -> &'r NegativeFault {
    let fault = reference.fault(name);
    fault.unwrap_or_else(|| panic!("{name} is in the vocabulary"))
}

/// Published: US Army Signal Center, Laboratory Procedures, subcourse SS0509, lesson 3, pp. 84-85.
/// Reticulation comes of more than 5 degrees Fahrenheit between solutions; air bells are small round clear
/// spots that tapping prevents; frilling of warm developer, poor fixer or long warm washing; a negative
/// turned partly positive of white light or hypo in the developer; yellow stain of too little fixing.
#[test]
fn faults_have_the_causes_the_army_course_names() {
    let reference = Reference::built_in().expect("the built-in reference");
    let says = |name: &str, words: &str| {
        let fault = fault(&reference, name);
        assert_eq!(fault.standing, Standing::Published, "{name}");
        assert!(fault.source.contains("SS0509"), "{name}: {}", fault.source);
        let all = [
            fault.causes.join("; "),
            fault.instead.clone(),
            fault.looks.clone(),
        ]
        .join("; ");
        assert!(all.contains(words), "{name}: {all}");
    };
    says("reticulation", "5 F");
    says("air bells", "round clear spots");
    says("air bells", "tap film or hanger");
    says("frilling", "warm developer");
    says("frilling", "does not harden");
    says("partly positive", "white light");
    says("partly positive", "fixer in the developer");
    says("yellow stain", "exhausted fixer");
    says("light leak", "a holder that is not light-tight");
}

/// Published: US Navy, Photography (Basic), NAVEDTRA 14209, table 10-1. Fine black lines come of friction on
/// the emulsion; streaks and patches of too little agitation; drying marks of drops left on the film, which
/// a wetting agent prevents.
#[test]
fn faults_have_the_causes_the_navy_table_names() {
    let reference = Reference::built_in().expect("the built-in reference");
    let of = |name: &str| fault(&reference, name);
    for name in ["abrasion", "uneven", "drying marks"] {
        assert!(of(name).source.contains("table 10-1"), "{name}");
    }
    assert!(
        of("uneven")
            .causes
            .iter()
            .any(|cause| cause == "too little agitation")
    );
    assert!(of("drying marks").instead.contains("wetting agent"));
    assert_eq!(of("drying marks").when, Stage::Drying);
}
