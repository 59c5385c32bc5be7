//! Sheets and sentences of the folder: all that the analyzers and the cause sheet name exists in every language, with
//! the arguments that the analyzers give.

use baybrief_plugin_start_and_charge::outputs::ALL;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement, Resource};
use std::collections::{BTreeMap, BTreeSet};

const LANGUAGES: [(&str, &str); 3] = [
    ("en", include_str!("../lang/en.ftl")),
    ("de", include_str!("../lang/de.ftl")),
    ("es", include_str!("../lang/es.ftl")),
];
const LABOUR_AND_ROLES: &str = include_str!("../system.toml");
const CAUSES: &str = include_str!("../causes.toml");
const LIMITS: &str = include_str!("../limits.toml");

/// Variables that every sentence may use besides its own arguments.
const COMMON: [&str; 4] = ["value", "subject-name", "start_s", "end_s"];

/// Variables of each message.
fn messages(text: &str) -> BTreeMap<String, BTreeSet<String>> {
    let resource: Resource<&str> = fluent_syntax::parser::parse(text).expect("Fluent");
    let mut all = BTreeMap::new();
    for entry in &resource.body {
        if let Entry::Message(m) = entry {
            let mut variables = BTreeSet::new();
            if let Some(p) = &m.value {
                pattern(p, &mut variables);
            }
            let twice = all.insert(m.id.name.to_owned(), variables);
            assert!(twice.is_none(), "{} twice", m.id.name);
        }
    }
    all
}

fn pattern(p: &Pattern<&str>, out: &mut BTreeSet<String>) {
    for element in &p.elements {
        if let PatternElement::Placeable { expression } = element {
            match expression {
                Expression::Inline(e) => inline(e, out),
                Expression::Select { selector, variants } => {
                    inline(selector, out);
                    for v in variants {
                        pattern(&v.value, out);
                    }
                }
            }
        }
    }
}

fn inline(e: &InlineExpression<&str>, out: &mut BTreeSet<String>) {
    match e {
        InlineExpression::VariableReference { id } => {
            out.insert(id.name.to_owned());
        }
        InlineExpression::FunctionReference { arguments, .. } => {
            for a in &arguments.positional {
                inline(a, out);
            }
        }
        InlineExpression::Placeable { expression } => {
            if let Expression::Inline(e) = &**expression {
                inline(e, out);
            }
        }
        _ => {}
    }
}

#[test]
fn every_language_says_the_same_things() {
    let english = messages(LANGUAGES[0].1);
    for (tag, text) in &LANGUAGES[1..] {
        let other = messages(text);
        assert_eq!(
            english.keys().collect::<Vec<_>>(),
            other.keys().collect::<Vec<_>>(),
            "{tag}"
        );
        for (key, variables) in &english {
            assert_eq!(variables, &other[key], "{tag}: {key}");
        }
    }
}

#[test]
fn every_kind_and_message_has_a_sentence_with_its_arguments() {
    let english = messages(LANGUAGES[0].1);
    for (kind, _) in ALL.iter().flat_map(|o| o.kinds) {
        assert!(english.contains_key(&format!("kind-{kind}")), "kind-{kind}");
    }
    for (message, arguments) in ALL.iter().flat_map(|o| o.messages) {
        let used = english
            .get(*message)
            .unwrap_or_else(|| panic!("no sentence {message}"));
        for variable in used {
            let known =
                COMMON.contains(&variable.as_str()) || arguments.contains(&variable.as_str());
            assert!(known, "{message} uses {variable}");
        }
    }
}

fn texts<'a>(value: &'a toml::Value, key: &str) -> Vec<&'a str> {
    let list = value.get(key).and_then(toml::Value::as_array);
    list.into_iter()
        .flatten()
        .filter_map(toml::Value::as_str)
        .collect()
}

#[test]
fn every_cause_is_said_and_rests_on_what_is_given() {
    let english = messages(LANGUAGES[0].1);
    let said: BTreeSet<String> = english.keys().cloned().collect();
    let sheet: toml::Table = CAUSES.parse().expect("a cause sheet");
    let kinds: Vec<&str> = ALL.iter().flat_map(|o| o.kinds).map(|k| k.0).collect();
    let given: Vec<&str> = ALL.iter().flat_map(|o| o.messages).map(|m| m.0).collect();
    let sentences: BTreeSet<&str> = LANGUAGES[0]
        .1
        .lines()
        .filter(|l| l.starts_with("sheet-"))
        .filter_map(|l| l.split_once(" = ").map(|s| s.1))
        .collect();
    let pattern = |p: &toml::Value| {
        for kind in p["kind"].as_str().expect("a kind").split('|') {
            assert!(kinds.contains(&kind), "kind {kind}");
        }
        let messages = p
            .get("message")
            .and_then(toml::Value::as_str)
            .unwrap_or_default();
        for m in messages.split('|').filter(|m| !m.is_empty()) {
            assert!(given.contains(&m), "message {m}");
        }
    };
    for cause in sheet["cause"].as_array().expect("causes") {
        let name = cause["name"].as_str().expect("a name");
        assert_eq!(cause["teardown"].as_bool(), Some(false), "{name}");
        for key in [
            "cause-NAME",
            "cause-NAME-plain",
            "cause-NAME-ruled-out",
            "repair-NAME-1",
            "proof-NAME",
        ] {
            let key = key.replace("NAME", name);
            assert!(said.contains(&key), "{key}");
        }
        for step in texts(cause, "next") {
            assert!(said.contains(step), "{step}");
        }
        let why = cause["untested"].as_str().expect("a reason");
        assert!(said.contains(&format!("why-{why}")), "why-{why}");
        let rows = cause["row"].as_array().expect("rows");
        assert!(rows.iter().any(|r| r.get("required").is_some()), "{name}");
        for row in rows {
            pattern(&row["when"]);
            row.get("unless").into_iter().for_each(pattern);
            let weight = row["weight_dban"].as_float().expect("a weight");
            assert!(weight.abs() <= 25.0, "{name}: {weight}");
            let reason = row["reason"].as_str().expect("a reason");
            assert!(sentences.contains(reason), "{name}: {reason}");
        }
        for test in cause["tested_by"].as_array().expect("tests") {
            pattern(test);
        }
    }
}

#[test]
fn limits_name_their_source_and_the_system_its_sentences() {
    let english = messages(LANGUAGES[0].1);
    let limits: toml::Table = LIMITS.parse().expect("a limits sheet");
    for (name, value) in limits["value"].as_table().expect("values") {
        assert!(
            !value["source"].as_str().expect("a source").is_empty(),
            "{name}"
        );
        let ends = [value.get("low"), value.get("high")].map(|v| v.and_then(toml::Value::as_float));
        if let [Some(low), Some(high)] = ends {
            assert!(low < high, "{name}");
        }
    }
    let system: toml::Table = LABOUR_AND_ROLES.parse().expect("a system");
    for role in system["role"].as_array().expect("roles") {
        let name = role["name"].as_str().expect("a name");
        assert!(english.contains_key(&format!("subject-{name}")), "{name}");
        let names = role["names"].as_table().expect("names");
        for tag in ["en", "de", "es", "fr", "it"] {
            let said = names.values().any(|n| !texts(n, tag).is_empty());
            assert!(said, "{name}: {tag}");
        }
    }
    for step in system["labour"].as_array().expect("labour") {
        assert!(
            english.contains_key(step["description"].as_str().expect("a key")),
            "{step}"
        );
    }
    for first in system["first"].as_array().expect("recordings") {
        assert!(
            english.contains_key(first["step"].as_str().expect("a key")),
            "{first}"
        );
    }
    assert!(english.contains_key(&format!(
        "system-{}",
        system["name"].as_str().expect("a name")
    )));
}
