//! Invented systems put together: sheets, roles, limits, and which system a job examines.

use baybrief_model::job_file::VehicleSection;
use baybrief_model::knowledge::{Knowledge, Recorded, ShopSheets, Source};

const SHARED: &str = "name = \"shared\"\nshared = true\n[[role]]\nname = \"feed\"\nquantity = \"current\"\nunit = \"A\"\nplot_order = 1\n\
    [[hazard]]\nname = \"running-vehicle\"\ncautions = [\"caution-fan\"]\n[[hazard]]\nname = \"high-voltage-unknown\"\ncautions = [\"caution-orange\"]\n";

const PUMP: &str = "name = \"pump\"\nuses = [\"feed\"]\n[[role]]\nname = \"pump-current\"\nquantity = \"current\"\nunit = \"A\"\nplot_order = 2\n\
    [[hazard]]\nname = \"wet\"\ncautions = [\"caution-slip\", \"caution-fan\"]\nhigh_voltage = true\n\
    [[meets]]\nstep = \"repair-pump-*\"\nhazards = [\"wet\", \"running-vehicle\"]\n[[meets]]\nstep = \"next-state-*\"\nhazards = []\n";

const LAMP: &str = "name = \"lamp\"\nbus_log = true\nuses = [\"feed\"]\n[[role]]\nname = \"lamp-voltage\"\nquantity = \"voltage\"\nunit = \"V\"\nplot_order = 3\n";

const CAUSES: &str = "[[cause]]\nfor = [{ n = \"1\", other = \"2\" }, { n = \"2\", other = \"1\" }]\nname = \"pump-{n}-worn\"\nteardown = true\n\
    specializes = [\"pump-{other}-worn\"]\n[[cause.row]]\nname = \"weak\"\nwhen = { kind = \"flow\", subject = \"pump-{n}\" }\n\
    weight_dban = 5.0\nreason = \"pump {n} is weak\"\nsource = \"judgement\"\n";

fn source(name: &str, texts: &[(&str, &str)]) -> Source {
    Source {
        name: format!("lib{name}"),
        built_in: true,
        texts: texts
            .iter()
            .map(|(n, t)| ((*n).into(), (*t).into()))
            .collect(),
    }
}

fn built_in() -> Vec<Source> {
    let value = |name: &str, nominal: u32, from: &str| {
        format!("[value.{name}]\nnominal = {nominal}.0\nunit = \"A\"\nsource = \"{from}\"\n")
    };
    let limits = |name: &str, values: &[String]| format!("name = \"{name}\"\n{}", values.concat());
    let shared = limits(
        "shared",
        &[value("common", 1, "shared"), value("peak", 2, "shared")],
    );
    let pump = limits(
        "pump",
        &[value("peak", 3, "pump"), value("rest", 4, "pump")],
    );
    let inhibitor = "[[inhibitor]]\nname = \"clipped\"\nwhen = { kind = \"clipped\" }\nblocks = \"role\"\nreason = \"r\"\n";
    vec![
        source(
            "pump",
            &[
                ("system.toml", PUMP),
                ("limits.toml", &pump),
                ("causes.toml", CAUSES),
            ],
        ),
        source("lamp", &[("system.toml", LAMP)]),
        source(
            "shared",
            &[
                ("system.toml", SHARED),
                ("limits.toml", &shared),
                ("causes.toml", inhibitor),
            ],
        ),
    ]
}

#[track_caller]
fn read(sources: &[Source], shop: &ShopSheets) -> (Knowledge, Vec<String>) {
    Knowledge::read(sources, shop).unwrap_or_else(|e| panic!("{e}"))
}

#[test]
fn an_entry_for_several_is_written_out() {
    let (knowledge, refused) = read(&built_in(), &ShopSheets::default());
    assert!(refused.is_empty());
    let causes = &knowledge.system("pump").expect("the pump").causes.causes;
    let told: Vec<_> = causes
        .iter()
        .map(|c| {
            let row = &c.rows[0];
            (
                &*c.name,
                &*c.specializes[0],
                row.when.subject.as_deref(),
                &*row.reason,
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            (
                "pump-1-worn",
                "pump-2-worn",
                Some("pump-1"),
                "pump 1 is weak"
            ),
            (
                "pump-2-worn",
                "pump-1-worn",
                Some("pump-2"),
                "pump 2 is weak"
            ),
        ]
    );
}

/// Shared sheets reach each system; a system's own values replace the shared ones, a shop's replace both.
#[test]
fn sheets_are_filled_from_their_system_and_from_what_all_share() {
    let unit = "name = \"our-pump\"\nsystem = \"pump\"\n[value.rest]\nnominal = 9.0\nunit = \"A\"\nsource = \"maker\"\n";
    let shop = ShopSheets {
        limits: vec![("our.toml".into(), unit.into())],
        ..ShopSheets::default()
    };
    let (knowledge, _) = read(&built_in(), &shop);
    let of = |sheet: &str, value: &str| {
        let sheet = knowledge.limits_sheet(sheet).expect("a sheet");
        sheet.value.get(value).map(|v| v.source.as_str())
    };
    assert_eq!(of("our-pump", "rest"), Some("maker"));
    assert_eq!(of("our-pump", "peak"), Some("pump"));
    assert_eq!(of("our-pump", "common"), Some("shared"));
    assert_eq!(of("lamp", "peak"), Some("shared"));
    assert!(
        knowledge.limits_sheet("shared").is_none(),
        "no unit is called so"
    );
    for system in &knowledge.systems {
        assert_eq!(system.causes.inhibitors[0].name, "clipped");
    }
}

#[test]
fn a_shops_sheet_replaces_what_has_its_name() {
    let cause = "system = \"pump\"\n[[cause]]\nname = \"pump-1-worn\"\nteardown = false\n[[cause]]\nname = \"pump-leaks\"\nteardown = false\n";
    let shop = ShopSheets {
        causes: vec![("own.toml".into(), cause.into())],
        ..ShopSheets::default()
    };
    let (knowledge, _) = read(&built_in(), &shop);
    let causes = &knowledge.system("pump").expect("the pump").causes.causes;
    let names: Vec<_> = causes.iter().map(|c| (&*c.name, c.teardown)).collect();
    assert_eq!(
        names,
        [
            ("pump-2-worn", true),
            ("pump-1-worn", false),
            ("pump-leaks", false)
        ]
    );
    let nowhere = ShopSheets {
        causes: vec![("own.toml".into(), cause.replace("\"pump\"", "\"pomp\""))],
        ..ShopSheets::default()
    };
    let error = Knowledge::read(&built_in(), &nowhere).expect_err("no such system");
    assert!(
        error.starts_with("own.toml, key system:") && error.contains("lamp, pump"),
        "{error}"
    );
}

#[test]
fn systems_that_contradict_each_other_are_refused_by_name() {
    let with = |system: &str| {
        let mut sources = built_in();
        sources.push(source("third", &[("system.toml", system)]));
        Knowledge::read(&sources, &ShopSheets::default()).expect_err("refused")
    };
    let role = "name = \"third\"\n[[role]]\nname = \"feed\"\nquantity = \"voltage\"\nunit = \"V\"\nplot_order = 1\n";
    assert_eq!(
        with(role),
        "the systems shared and third declare the role feed differently"
    );
    let twice = with("name = \"lamp\"\n");
    assert!(
        twice.contains("liblamp") && twice.contains("libthird"),
        "{twice}"
    );
    let unknown = with("name = \"third\"\nuses = [\"flow\"]\n");
    assert!(
        unknown.contains("libthird") && unknown.contains("flow"),
        "{unknown}"
    );
}

#[test]
fn a_foreign_library_adds_causes_and_rules_nothing() {
    let foreign = |causes: &str| {
        let mut sources = built_in();
        sources.push(Source {
            built_in: false,
            ..source("foreign", &[("causes.toml", causes)])
        });
        read(&sources, &ShopSheets::default())
    };
    let cause = |keys: &str| {
        format!("system = \"lamp\"\n[[cause]]\nname = \"bulb-dark\"\nteardown = true\n{keys}")
    };
    let (knowledge, refused) = foreign(&cause(""));
    assert!(refused.is_empty());
    let lamp = knowledge.system("lamp").expect("the lamp");
    assert!(lamp.causes.causes[0].foreign);
    for (causes, why) in [
        (cause("").replace("bulb-dark", "pump-1-worn"), "known already"),
        (cause("specializes = [\"pump-1-worn\"]"), "specializes"),
        (cause("fallback = true"), "fallback"),
        (
            "system = \"lamp\"\n[[inhibitor]]\nname = \"i\"\nwhen = {}\nblocks = \"all\"\nreason = \"r\"\n".into(),
            "inhibitor",
        ),
        (cause("").replace("lamp", "lump"), "there is no \"lump\""),
        ("nonsense".into(), "causes.toml"),
    ] {
        let (knowledge, refused) = foreign(&causes);
        assert!(refused[0].contains(why) && refused[0].contains("libforeign"), "{refused:?}");
        assert!(knowledge.system("lamp").expect("the lamp").causes.causes.is_empty());
    }
}

#[test]
fn a_negated_row_must_say_how_it_would_have_been_seen() {
    let causes = CAUSES.replace("weight_dban", "negated = true\nweight_dban");
    let mut sources = built_in();
    sources[0].texts[2].1 = causes;
    let error = Knowledge::read(&sources, &ShopSheets::default()).expect_err("refused");
    assert!(
        error.contains("pump-1-worn") && error.contains("alive"),
        "{error}"
    );
}

/// Named systems, else the unit's, else each of which a role that it alone declares was recorded.
#[test]
#[allow(clippy::type_complexity)] // A table of cases, read once.
fn a_job_examines_what_it_names_else_its_units_system_else_what_was_recorded() {
    let (knowledge, _) = read(&built_in(), &ShopSheets::default());
    let table: [(&[&str], Option<&str>, &[&str], bool, &[&str], bool); 8] = [
        (&["lamp", "pump"], None, &[], false, &["lamp", "pump"], true),
        (
            &["lamp"],
            Some("pump"),
            &["pump-current"],
            false,
            &["lamp"],
            true,
        ),
        (&[], Some("pump"), &["lamp-voltage"], false, &["pump"], true),
        (
            &[],
            None,
            &["pump-current", "feed"],
            false,
            &["pump"],
            false,
        ),
        (
            &[],
            None,
            &["pump-current", "lamp-voltage"],
            false,
            &["lamp", "pump"],
            false,
        ),
        (&[], None, &["feed"], false, &[], false),
        (&[], None, &[], true, &["lamp"], false),
        (
            &[],
            Some("pomp"),
            &["pump-current"],
            false,
            &["pump"],
            false,
        ),
    ];
    for (systems, unit, roles, bus_log, examined, lead) in table {
        let vehicle = VehicleSection {
            systems: systems.iter().map(|s| (*s).into()).collect(),
            unit: unit.map(Into::into),
            ..VehicleSection::default()
        };
        let recorded = Recorded {
            roles: roles.to_vec(),
            bus_log,
        };
        let plan = knowledge.plan(&vehicle, &recorded);
        let names: Vec<_> = plan
            .examined
            .iter()
            .map(|e| &*e.system.sheet.name)
            .collect();
        assert_eq!(
            (&*names, plan.lead_is_named),
            (examined, lead),
            "{systems:?} {unit:?} {roles:?}"
        );
        assert_eq!(plan.unit_is_unknown(), unit == Some("pomp"));
    }
}

#[test]
fn cautions_are_those_of_what_a_step_meets() {
    let (knowledge, _) = read(&built_in(), &ShopSheets::default());
    let pump = knowledge.system("pump");
    let of = |step: &str, high_voltage| knowledge.cautions(pump, &[step.into()], high_voltage);
    assert_eq!(
        of("repair-pump-2", Some(false)),
        ["caution-slip", "caution-fan"]
    );
    // Nobody said that there is no high voltage.
    assert_eq!(
        of("repair-pump-2", None),
        ["caution-slip", "caution-fan", "caution-orange"]
    );
    assert!(of("next-state-engine", None).is_empty());
    // A step that nobody placed is work on the running vehicle, never nothing.
    assert_eq!(of("next-invented", None), ["caution-fan"]);
}
