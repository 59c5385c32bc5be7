fn main() -> anyhow::Result<()> {
    let a: Vec<String> = std::env::args().collect();
    baybrief_casebook::generate(std::path::Path::new(&a[1]), 1, a[2].parse()?, None)?;
    Ok(())
}
