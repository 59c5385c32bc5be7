//! Errors of the fleet.

/// An error of database or store, or of how they are set up.
#[derive(Debug, thiserror::Error)]
pub enum FleetError {
    /// The database cannot be reached or refuses.
    #[error("the database: {0}")]
    Database(#[from] sqlx::Error),
    /// The tables cannot be brought up to date.
    #[error("the database's tables: {0}")]
    Migration(#[from] sqlx::migrate::MigrateError),
    /// The object store cannot be reached or refuses.
    #[error("the object store: {0}")]
    Objects(#[from] object_store::Error),
    /// An address that cannot be used.
    #[error("{address}: {why}")]
    Address {
        /// Address without its password.
        address: String,
        /// Expected form.
        why: String,
    },
    /// A role that would see every shop's rows.
    #[error(
        "the database role {role} passes by row-level security (it is a superuser or has BYPASSRLS), so that nothing would \
         keep one shop's rows from another's: log in as baybrief_worker"
    )]
    RoleSeesAll {
        /// Name of the role.
        role: String,
    },
    /// Tables of another version.
    #[error(
        "the database's tables are of version {found}, this program works with {known} and {}: {}", known + 1,
        if found < known { "bring them up to date first (work --migrate, as baybrief_owner)" } else { "use a newer program" }
    )]
    Version {
        /// Version in the database; 0 for none.
        found: i64,
        /// Version of the program.
        known: i64,
    },
    /// Other bytes under a name that holds the digest of its content.
    #[error("{key}: the store has other bytes under this name than those that belong there")]
    OtherContent {
        /// Name in the store.
        key: String,
    },
    /// A file that a report does not have.
    #[error("{job}: report {number} has no file {name:?}")]
    NoResult {
        /// Job.
        job: String,
        /// Number of the report.
        number: u32,
        /// Name of the file.
        name: String,
    },
    /// A file of a worker's own folder.
    #[error("the worker's own folder: {0}")]
    Folder(#[from] std::io::Error),
}

impl FleetError {
    /// True where the same call may work later: servers that are away, connections that were cut.
    pub fn is_transient(&self) -> bool {
        match self {
            FleetError::Database(e) => match e {
                sqlx::Error::Io(_)
                | sqlx::Error::PoolTimedOut
                | sqlx::Error::PoolClosed
                | sqlx::Error::Protocol(_)
                | sqlx::Error::WorkerCrashed => true,
                // Class 08: connection; 40: rolled back; 53: resources; 57: ended by an operator or a crash.
                sqlx::Error::Database(e) => e.code().is_some_and(|c| {
                    ["08", "40", "53", "57"]
                        .iter()
                        .any(|class| c.starts_with(class))
                }),
                _ => false,
            },
            FleetError::Objects(e) => matches!(e, object_store::Error::Generic { .. }),
            FleetError::Folder(_) => true,
            _ => false,
        }
    }
}
