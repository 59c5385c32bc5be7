//! The published schema of a call's settings is the one that the types give.

#[test]
fn the_published_schema_is_current() {
    let published: serde_json::Value =
        serde_json::from_str(include_str!("../include/settings.schema.json"))
            .expect("the published schema is JSON");
    let generated = schemars::schema_for!(baybrief_plugin_abi::Settings).to_value();
    assert!(
        published == generated,
        "write it anew: cargo run -p baybrief-plugin-abi --example settings_schema > \
         pipeline/plugin-abi/include/settings.schema.json"
    );
}
