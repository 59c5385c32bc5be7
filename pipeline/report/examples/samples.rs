//! Writes the sample reports into the folder that is named, to be looked at; a language may be named behind it.

#[path = "../tests/samples/mod.rs"]
mod samples;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments
        .next()
        .ok_or("name a folder to write the sample reports into")?;
    let language = arguments.next().unwrap_or_else(|| "en".into());
    for sample in samples::all() {
        let sample = sample.in_language(&language);
        let path = std::path::Path::new(&folder).join(format!("{}-{language}.pdf", sample.name));
        std::fs::write(&path, sample.render()?)?;
        println!("{}", path.display());
    }
    Ok(())
}
