//! Writes the sample reports into the folder that is named, to be looked at.

#[path = "../tests/samples/mod.rs"]
mod samples;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args()
        .nth(1)
        .ok_or("name a folder to write the sample reports into")?;
    for sample in samples::all() {
        let path = std::path::Path::new(&folder)
            .join(sample.name)
            .with_extension("pdf");
        std::fs::write(&path, baybrief_report::render(&sample.input())?)?;
        println!("{}", path.display());
    }
    Ok(())
}
