//! The published schema of case.json is the one that the types give.

#[test]
fn the_published_schema_is_current() {
    let published: serde_json::Value = serde_json::from_str(include_str!("../case.schema.json"))
        .expect("the published schema is JSON");
    let generated = schemars::schema_for!(baybrief_model::Case).to_value();
    assert!(
        published == generated,
        "write it anew: baybrief schema > pipeline/model/case.schema.json"
    );
}
