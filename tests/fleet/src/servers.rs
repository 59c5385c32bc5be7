//! A PostgreSQL cluster and an S3-compatible store of the tests' own, which can be killed and started again.

use anyhow::{Context, Result, bail, ensure};
use fleet::{Database, Objects, ROLES};
use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Bucket of the tests.
pub const BUCKET: &str = "s3://fleet";

/// Time for a server to come up, a busy machine included.
const START: Duration = Duration::from_secs(120);

/// Distance from a port of SeaweedFS to the one on which its servers speak to each other.
const SECOND_PORT: u16 = 10_000;

/// Returns a port that is free now, as is the second one that SeaweedFS takes with it.
///
/// # Errors
/// When the system gives none.
pub fn free_port() -> Result<u16> {
    for _ in 0..100 {
        let port = TcpListener::bind("127.0.0.1:0")?.local_addr()?.port();
        let second = port.checked_add(SECOND_PORT);
        if second.is_some_and(|second| TcpListener::bind(("127.0.0.1", second)).is_ok()) {
            return Ok(port);
        }
    }
    bail!("no port is free")
}

fn run(command: &mut Command) -> Result<String> {
    let out = command
        .output()
        .with_context(|| format!("{command:?} cannot be run: is it installed?"))?;
    ensure!(
        out.status.success(),
        "{command:?}: {}{}",
        String::from_utf8_lossy(&out.stdout),
        String::from_utf8_lossy(&out.stderr)
    );
    Ok(String::from_utf8_lossy(&out.stdout).trim().to_owned())
}

/// Asks again until it works.
fn wait_for(what: &str, mut is_up: impl FnMut() -> bool) -> Result<()> {
    let start = Instant::now();
    while !is_up() {
        ensure!(
            start.elapsed() < START,
            "{what} does not come up within {} s",
            START.as_secs()
        );
        std::thread::sleep(Duration::from_millis(100));
    }
    Ok(())
}

/// A PostgreSQL cluster, made by Debian's own tools.
#[derive(Debug)]
pub struct Postgres {
    version: String,
    name: String,
    data: PathBuf,
    /// Port on this machine.
    pub port: u16,
}

impl Postgres {
    /// Makes a cluster with the roles and tables of a fleet, and starts it.
    ///
    /// # Errors
    /// When PostgreSQL is missing or does not come up.
    pub fn start() -> Result<Postgres> {
        let versions =
            std::fs::read_dir("/usr/lib/postgresql").context("PostgreSQL is not installed")?;
        let mut versions: Vec<String> = versions
            .filter_map(|e| e.ok()?.file_name().into_string().ok())
            .collect();
        versions.sort();
        let version = versions.pop().context("PostgreSQL is not installed")?;
        let port = free_port()?;
        let name = format!("fleet{port}");
        let data = PathBuf::from(format!("/var/lib/postgresql/{version}/{name}"));
        run(Command::new("pg_createcluster").args([
            &version,
            &name,
            "-p",
            &port.to_string(),
            "--",
            "--auth-host=trust",
            "--auth-local=trust",
        ]))?;
        let cluster = Postgres {
            version,
            name,
            data,
            port,
        };
        cluster.control("start")?;
        cluster.sql("postgres", "CREATE DATABASE fleet")?;
        let roles = tempfile::NamedTempFile::new()?;
        std::fs::write(&roles, ROLES)?;
        run(cluster
            .psql("fleet")
            .args(["-v", "database=fleet", "-f"])
            .arg(roles.path()))?;
        tokio_block(Database::migrate(&cluster.url("baybrief_owner")))??;
        Ok(cluster)
    }

    /// Makes a further database with the tables of a fleet, while nobody is connected to the first.
    ///
    /// # Errors
    /// When the server refuses.
    pub fn copy_database(&self, name: &str) -> Result<()> {
        let copy = format!("CREATE DATABASE {name} TEMPLATE fleet");
        self.sql("postgres", &copy).map(drop)
    }

    fn control(&self, action: &str) -> Result<()> {
        run(Command::new("pg_ctlcluster").args([&self.version, &self.name, action])).map(drop)
    }

    fn psql(&self, database: &str) -> Command {
        let mut psql = Command::new("psql");
        psql.args([
            "-qAt",
            "-v",
            "ON_ERROR_STOP=1",
            "-d",
            &self.url_of("postgres", database, self.port),
        ]);
        psql
    }

    fn url_of(&self, role: &str, database: &str, port: u16) -> String {
        format!("postgres://{role}@127.0.0.1:{port}/{database}?sslmode=disable")
    }

    /// Address of a database for a role.
    pub fn url_in(&self, database: &str, role: &str) -> String {
        self.url_of(role, database, self.port)
    }

    /// Address of the fleet's database for a role.
    pub fn url(&self, role: &str) -> String {
        self.url_of(role, "fleet", self.port)
    }

    /// The same through another port: a proxy's.
    pub fn url_by(&self, role: &str, port: u16) -> String {
        self.url_of(role, "fleet", port)
    }

    /// Runs SQL as the server's superuser, who sees every shop's rows.
    ///
    /// # Errors
    /// When the server refuses.
    pub fn sql(&self, database: &str, sql: &str) -> Result<String> {
        run(self.psql(database).args(["-c", sql]))
    }

    /// Kills the postmaster as a power cut would, and waits until it is gone.
    ///
    /// # Errors
    /// When it does not run.
    pub fn kill(&self) -> Result<()> {
        let file =
            std::fs::read_to_string(self.data.join("postmaster.pid")).context("no postmaster")?;
        let pid = file.lines().next().context("no postmaster")?.to_owned();
        run(Command::new("kill").args(["-9", &pid]))?;
        wait_for("the end of the postmaster", || {
            !PathBuf::from(format!("/proc/{pid}")).exists()
        })
    }

    /// Starts it again after [`Postgres::kill`]; the first attempts may fail on what the dead one left.
    ///
    /// # Errors
    /// When it does not come up.
    pub fn start_again(&self) -> Result<()> {
        wait_for("PostgreSQL", || {
            self.control("start").is_ok() || self.sql("postgres", "SELECT 1").is_ok()
        })
    }
}

impl Drop for Postgres {
    fn drop(&mut self) {
        let _ = run(Command::new("pg_dropcluster").args(["--stop", &self.version, &self.name]));
    }
}

fn tokio_block<T>(work: impl Future<Output = T>) -> Result<T> {
    Ok(tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()?
        .block_on(work))
}

/// SeaweedFS with its S3 interface.
#[derive(Debug)]
pub struct Store {
    folder: TempDir,
    ports: [u16; 4],
    process: Option<Child>,
}

const KEY: &str = "fleet";
const SECRET: &str = "of-these-tests-alone";

impl Store {
    /// Starts the program that the environment variable SEAWEEDFS names, on an empty folder, with the bucket.
    ///
    /// # Errors
    /// When it is missing or does not come up.
    pub fn start() -> Result<Store> {
        let folder = tempfile::tempdir()?;
        let identity = serde_json::json!({"identities": [{
            "name": "fleet",
            "credentials": [{"accessKey": KEY, "secretKey": SECRET}],
            "actions": ["Admin"],
        }]});
        std::fs::write(folder.path().join("s3.json"), identity.to_string())?;
        std::fs::create_dir(folder.path().join("data"))?;
        let mut store = Store {
            folder,
            ports: [free_port()?, free_port()?, free_port()?, free_port()?],
            process: None,
        };
        store.start_again()?;
        Ok(store)
    }

    /// Starts it again on the same folder.
    ///
    /// # Errors
    /// When it does not come up.
    pub fn start_again(&mut self) -> Result<()> {
        let program = std::env::var_os("SEAWEEDFS")
            .context("SEAWEEDFS must name SeaweedFS's program, `weed`")?;
        let [master, volume, filer, s3] = self.ports;
        let log = std::fs::File::create(self.folder.path().join("log"))?;
        let process = Command::new(program)
            .args([
                "server",
                "-ip=127.0.0.1",
                "-ip.bind=127.0.0.1",
                "-filer",
                "-s3",
                "-volume.max=50",
            ])
            .args(["-master.telemetry=false", "-master.volumeSizeLimitMB=64"])
            .arg(format!(
                "-dir={}",
                self.folder.path().join("data").display()
            ))
            .arg(format!(
                "-s3.config={}",
                self.folder.path().join("s3.json").display()
            ))
            .arg(format!("-master.port={master}"))
            .arg(format!("-volume.port={volume}"))
            .arg(format!("-filer.port={filer}"))
            .arg(format!("-s3.port={s3}"))
            // Further listeners of the store, on fixed ports.
            .args(["-s3.port.iceberg=0", "-s3.port.lance=0"])
            .stdout(Stdio::null())
            .stderr(log)
            .spawn()
            .context("SEAWEEDFS names no program that can be run")?;
        self.process = Some(process);
        wait_for("SeaweedFS", || {
            self.make_bucket().is_ok() && self.is_writable()
        })
    }

    /// A bucket is a folder of its file server.
    fn make_bucket(&self) -> Result<()> {
        let mut connection = TcpStream::connect(("127.0.0.1", self.ports[2]))?;
        connection.set_read_timeout(Some(Duration::from_secs(5)))?;
        let name = BUCKET.trim_start_matches("s3://");
        write!(
            connection,
            "POST /buckets/{name}/ HTTP/1.0\r\nContent-Length: 0\r\n\r\n"
        )?;
        let mut answer = String::new();
        connection.read_to_string(&mut answer)?;
        // 409: it is there already, after a start on the same folder.
        let status = answer.split(' ').nth(1).unwrap_or_default();
        ensure!(status.starts_with('2') || status == "409", "{answer}");
        Ok(())
    }

    fn is_writable(&self) -> bool {
        let key = format!("up/{}", std::process::id() ^ u32::from(self.ports[3]));
        let put = async {
            self.objects()?
                .put_once(&key.as_str().into(), b"up".as_slice().into())
                .await
                .map_err(anyhow::Error::from)
        };
        tokio_block(put).is_ok_and(|put| put.is_ok())
    }

    /// Environment by which programs find it.
    pub fn environment(&self) -> [(&'static str, String); 5] {
        [
            (
                "AWS_ENDPOINT_URL",
                format!("http://127.0.0.1:{}", self.ports[3]),
            ),
            ("AWS_ACCESS_KEY_ID", KEY.into()),
            ("AWS_SECRET_ACCESS_KEY", SECRET.into()),
            ("AWS_REGION", "us-east-1".into()),
            ("AWS_ALLOW_HTTP", "true".into()),
        ]
    }

    /// Opens the bucket.
    ///
    /// # Errors
    /// When the address cannot be used.
    pub fn objects(&self) -> Result<Objects> {
        let settings = self
            .environment()
            .map(|(name, value)| (name.to_owned(), value));
        Ok(Objects::open(BUCKET, settings)?)
    }

    /// Kills it as a power cut would.
    ///
    /// # Errors
    /// When it does not run.
    pub fn kill(&mut self) -> Result<()> {
        let Some(mut process) = self.process.take() else {
            bail!("SeaweedFS does not run")
        };
        process.kill()?;
        process.wait()?;
        Ok(())
    }
}

impl Drop for Store {
    fn drop(&mut self) {
        let _ = self.kill();
    }
}
