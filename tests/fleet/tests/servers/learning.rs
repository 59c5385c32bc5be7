//! What a shop's jobs teach: on the servers the same, byte for byte, as the same jobs in a folder.

use crate::block_on;
use anyhow::{Context, Result, ensure};
use baybrief_evaluation::draft::Draft;
use baybrief_evaluation::params::{Overrides, Params};
use baybrief_evaluation::{drives, standstill};
use baybrief_fleet_tests::servers::{BUCKET, Postgres, Store};
use fleet::Objects;
use model::JobFile;
use model::job_file::VehicleSection;
use object_store::path::Path as Key;
use simulator::csv::CsvDialect;
use simulator::folder::JobFolder;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// Vehicles without a fault: enough for a limit that 95 % of all vehicles keep, 95 % sure (ISO 16269-6, from memory: 59).
const HEALTHY: u64 = 60;

/// Vehicles with a fault, so that weights are counted on both kinds.
const FAULTY: u64 = 6;

/// Weights that so many outcomes make adoptable, CAUSE/ROW.
const WEIGHTS: &str = "clutch-1-slip/slips,clutch-2-slip/slips";

/// Highest peak of a sound clutch actuation by the sheet that comes with the program, A.
const GENERAL_PEAK: f64 = 19.0;

const SETTINGS: &str = "[report]\nlanguage = \"en\"\ntechnician = false\n";

/// A job: its name, its files, and what was found when the unit was opened.
struct Job {
    name: String,
    files: BTreeMap<String, Vec<u8>>,
    found: &'static str,
}

impl Job {
    fn new(name: String, make: fn(&mut Params) -> Draft, seed: u64) -> Result<Job> {
        let mut p =
            Params::with_overrides(seed, Overrides::from([("noise level".to_string(), 0.0)]));
        let draft = make(&mut p);
        let mut folder = JobFolder::default();
        let mut captures = Vec::new();
        for (n, capture) in draft.captures.iter().enumerate() {
            let file = format!("drive-{n}.csv");
            let mut section = folder.add_csv(&file, &capture.recording, &CsvDialect::default());
            section.selector = capture.selector;
            section.engine = capture.engine;
            captures.push(section);
        }
        // All of one kind, or nothing is learned of any.
        let vehicle = VehicleSection {
            make: Some("Meadow".into()),
            model: Some("Six".into()),
            ..Default::default()
        };
        let job = JobFile {
            vehicle,
            captures,
            ..Default::default()
        };
        folder.add_job_file(&job)?;
        let found = match draft.verdict.causes.is_empty() {
            true => "healthy",
            false => "confirmed",
        };
        Ok(Job {
            name,
            files: folder.files,
            found,
        })
    }
}

/// The jobs of the shop.
fn jobs() -> Result<Vec<Job>> {
    let healthy = (0..HEALTHY).map(|n| Job::new(format!("H-{n:02}"), drives::healthy, n + 1));
    let faulty = (0..FAULTY).map(|n| Job::new(format!("S-{n}"), drives::slip, n + 1));
    healthy.chain(faulty).collect()
}

/// A shop's place on one machine: its settings, and where its jobs lie.
struct Desk {
    program: PathBuf,
    folder: TempDir,
    /// Arguments that name the store of the jobs.
    place: Vec<String>,
    environment: Vec<(&'static str, String)>,
}

impl Desk {
    fn new(program: &Path) -> Result<Desk> {
        let folder = tempfile::tempdir()?;
        std::fs::write(folder.path().join("shop.toml"), SETTINGS)?;
        Ok(Desk {
            program: program.into(),
            folder,
            place: Vec::new(),
            environment: Vec::new(),
        })
    }

    fn path(&self, name: &str) -> String {
        self.folder.path().join(name).display().to_string()
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(&self.program);
        command
            .args(arguments)
            .envs(self.environment.iter().cloned());
        command
    }

    /// Calls the program on the shop's jobs, which must end well. Returns what it printed.
    fn call(&self, arguments: &[&str]) -> Result<String> {
        let mut command = self.command(arguments);
        let out = command.args(&self.place).output()?;
        let said = String::from_utf8(out.stdout)?;
        ensure!(
            out.status.success(),
            "{arguments:?}: {}\n{said}\n{}",
            out.status,
            String::from_utf8_lossy(&out.stderr)
        );
        Ok(said)
    }

    /// The same, with the shop's settings.
    fn call_shop(&self, arguments: &[&str]) -> Result<String> {
        self.call(&[arguments, &["--shop", &self.path("shop.toml")]].concat())
    }

    fn record_outcomes(&self, jobs: &[Job]) -> Result<()> {
        for job in jobs {
            let outcome = ["outcome", &job.name, "--by", "T. Invented", "--found"];
            self.call(&[&outcome[..], &[job.found]].concat())?;
        }
        Ok(())
    }

    /// What was adopted: the files of the learned folder, without the time of adoption.
    fn adopted(&self) -> Result<BTreeMap<String, String>> {
        let mut files = BTreeMap::new();
        for entry in intake::gather(&self.folder.path().join("learned"))? {
            let text = std::fs::read_to_string(&entry.location)?;
            let lines = text.lines().filter(|l| !l.starts_with("at = "));
            files.insert(entry.path, lines.collect::<Vec<_>>().join("\n"));
        }
        Ok(files)
    }
}

async fn put_job(objects: &Objects, shop: &str, job: &Job) -> Result<()> {
    for (name, bytes) in &job.files {
        let key = Key::from_iter(["inbox", shop, &job.name, name]);
        objects.put_once(&key, bytes.clone().into()).await?;
    }
    Ok(())
}

pub fn adoption() -> Result<()> {
    let program = std::env::var_os("BAYBRIEF").map(PathBuf::from);
    let program =
        program.context("BAYBRIEF must name the program, built with the feature fleet")?;
    let (postgres, store) = (Postgres::start()?, Store::start()?);
    postgres.sql(
        "fleet",
        "CREATE ROLE hill_road LOGIN IN ROLE baybrief_technician; \
         INSERT INTO baybrief.technician (login, shop) VALUES ('hill_road', 'hill-road')",
    )?;
    let objects = store.objects()?;
    let jobs = jobs()?;
    block_on(async {
        for shop in ["hill-road", "lake-street"] {
            let key = Key::from_iter(["shops", shop, "shop.toml"]);
            objects.put_once(&key, SETTINGS.into()).await?;
        }
        for job in &jobs {
            put_job(&objects, "hill-road", job).await?;
        }
        // Of another shop nothing may be learned.
        for n in 0..3 {
            let job = Job::new(format!("L-{n}"), drives::healthy, n + 100)?;
            put_job(&objects, "lake-street", &job).await?;
        }
        Ok(())
    })?;

    let mut shared = Desk::new(&program)?;
    let environment = store.environment().into_iter();
    shared.environment = environment
        .chain([("BAYBRIEF_OBJECTS", BUCKET.into())])
        .collect();
    let url = postgres.url("baybrief_worker");
    let work = ["work", "--store", &url, "--settle", "1", "--rescan", "1"];
    shared.call(&[&work[..], &["--until-idle"]].concat())?;
    shared.place = [
        "--store",
        &postgres.url("hill_road"),
        "--tenant",
        "hill-road",
    ]
    .map(String::from)
    .into();

    let mut alone = Desk::new(&program)?;
    alone.place = vec!["--out".into(), alone.path("out")];
    let mut run = vec!["run".to_owned()];
    for job in &jobs {
        let folder = alone.path(&format!("jobs/{}", job.name));
        std::fs::create_dir_all(&folder)?;
        for (name, bytes) in &job.files {
            std::fs::write(Path::new(&folder).join(name), bytes)?;
        }
        run.push(folder);
    }
    alone.call_shop(&run.iter().map(String::as_str).collect::<Vec<_>>())?;

    let both = [&alone, &shared];
    let mut said = Vec::new();
    for desk in both {
        desk.record_outcomes(&jobs)?;
        let by = ["--by", "T. Invented"];
        let limits = desk.call_shop(&["learn", "limits"])?;
        let weights = desk.call_shop(&["learn", "weights"])?;
        let record = desk.call_shop(&["learn", "record"])?;
        desk.call_shop(&[&["learn", "limits", "--adopt"], &by[..]].concat())?;
        let adopt = ["learn", "weights", "--adopt", "--value", WEIGHTS];
        let adopted = desk.call_shop(&[&adopt[..], &by[..]].concat())?;
        let is_told = adopted.contains("bucket");
        ensure!(is_told == (desk.place[0] == "--store"), "{adopted}");
        said.push((limits, weights, record, desk.adopted()?));
    }
    println!("{}", said[1].0);
    ensure!(
        said[0] == said[1],
        "in a folder {:#?}, on the servers {:#?}",
        said[0],
        said[1]
    );
    let sheets = said[1].3.len();
    ensure!(sheets >= 2, "limits and weights: {:?}", said[1].3.keys());

    // Signed with one key, the known-good values are the same bytes.
    alone.call_shop(&[
        "export",
        "--known-good",
        "--to",
        &alone.path("known-good.jws"),
    ])?;
    std::fs::copy(alone.path("shop-key.pem"), shared.path("shop-key.pem"))?;
    shared.call_shop(&[
        "export",
        "--known-good",
        "--to",
        &shared.path("known-good.jws"),
    ])?;
    let [of_folder, of_servers] = both.map(|desk| std::fs::read(desk.path("known-good.jws")));
    ensure!(of_folder? == of_servers?, "the exports differ");

    // Once they lie in the bucket, the workers judge by them.
    let later = Job::new("D-90".into(), standstill::drag_stall, 90)?;
    block_on(async {
        for entry in intake::gather(&shared.folder.path().join("learned"))? {
            let parts = ["shops", "hill-road", "learned"].into_iter();
            let key = Key::from_iter(parts.chain(entry.path.split('/')));
            let bytes = std::fs::read(&entry.location)?;
            objects.put_once(&key, bytes.into()).await?;
        }
        put_job(&objects, "hill-road", &later).await
    })?;
    let place = std::mem::take(&mut shared.place);
    shared.call(&[&work[..], &["--until-idle"]].concat())?;
    shared.place = place;
    let fetched = shared.path("fetched");
    shared.call(&["status", &later.name, "--fetch", &fetched])?;
    let case = std::fs::read_to_string(Path::new(&fetched).join("case.json"))?;
    let case: serde_json::Value = serde_json::from_str(&case)?;
    let findings = case["findings"].as_array().context("findings")?;
    let high = findings
        .iter()
        .find_map(|f| f["args"]["good_high"].as_f64())
        .context("a stall beside which the report draws a sound unit's peak")?;
    ensure!(
        high > GENERAL_PEAK,
        "judged by {high} A: the limit that was learned is not in force"
    );
    Ok(())
}
