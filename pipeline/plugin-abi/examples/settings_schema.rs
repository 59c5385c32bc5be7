//! Prints the JSON schema of a call's settings: `cargo run -p baybrief-plugin-abi --example settings_schema >
//! pipeline/plugin-abi/include/settings.schema.json`.

fn main() -> Result<(), serde_json::Error> {
    let schema = schemars::schema_for!(baybrief_plugin_abi::Settings);
    println!("{}", serde_json::to_string_pretty(&schema)?);
    Ok(())
}
