//! Writes the sample reports into the folder that is named, to be looked at; a language may be named behind it, and a
//! paper. The templates are read from the tree, so that a change of the look needs no new build.

#[path = "../tests/samples/mod.rs"]
mod samples;

use baybrief_report::ReportTheme;
use std::path::Path;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments
        .next()
        .ok_or("name a folder to write the sample reports into")?;
    let language = arguments.next().unwrap_or_else(|| "en".into());
    let paper = arguments.next().unwrap_or_else(|| "a4".into());
    let settings = format!(
        "[report]\nlanguage = '{language}'\npaper = '{paper}'\ntemplate = 'customer'\ntechnician_template = 'technician'"
    );
    let shop: model::ShopFile = toml::from_str(&settings)?;
    let templates = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../report-templates");
    for sample in samples::all() {
        let theme = samples::with_systems(ReportTheme::open(&shop, &templates)?);
        let mut sample = sample.on(theme);
        sample.shop.report.paper = shop.report.paper;
        let path = Path::new(&folder).join(format!("{}-{language}-{paper}.pdf", sample.name));
        std::fs::write(&path, sample.render()?)?;
        println!("{}", path.display());
    }
    Ok(())
}
