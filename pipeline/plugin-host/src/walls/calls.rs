//! Which calls of the system may be made: seccomp. What is not listed is answered with "not permitted".

use super::Tripwire;
use seccompiler::{
    BpfProgram, SeccompAction, SeccompCmpArgLen, SeccompCmpOp, SeccompCondition, SeccompFilter,
    SeccompRule, apply_filter_all_threads,
};
use std::collections::BTreeMap;

/// What a worker is about to do.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Phase {
    /// Load one library: the dynamic loader opens files.
    Loading,
    /// Run its plugins.
    Running,
}

/// What a plugin's computation, its threads and the line to the host need.
const RUNNING: &[i64] = &[
    // memory
    libc::SYS_brk,
    libc::SYS_madvise,
    libc::SYS_mincore,
    libc::SYS_mmap,
    libc::SYS_mprotect,
    libc::SYS_mremap,
    libc::SYS_munmap,
    // descriptors that are open already, among them the line to the host
    libc::SYS_close,
    libc::SYS_dup,
    libc::SYS_fcntl,
    libc::SYS_fstat,
    libc::SYS_lseek,
    libc::SYS_ppoll,
    libc::SYS_read,
    libc::SYS_readv,
    libc::SYS_recvfrom,
    libc::SYS_recvmsg,
    libc::SYS_sendmsg,
    libc::SYS_sendto,
    libc::SYS_write,
    libc::SYS_writev,
    // threads; what becomes of clone3 see below
    libc::SYS_clone3,
    libc::SYS_exit,
    libc::SYS_exit_group,
    libc::SYS_futex,
    libc::SYS_get_robust_list,
    libc::SYS_getpid,
    libc::SYS_gettid,
    libc::SYS_membarrier,
    libc::SYS_restart_syscall,
    libc::SYS_rseq,
    libc::SYS_rt_sigaction,
    libc::SYS_rt_sigprocmask,
    libc::SYS_rt_sigreturn,
    libc::SYS_sched_getaffinity,
    libc::SYS_sched_yield,
    libc::SYS_set_robust_list,
    libc::SYS_sigaltstack,
    libc::SYS_tgkill,
    // time and numbers
    libc::SYS_clock_getres,
    libc::SYS_clock_gettime,
    libc::SYS_clock_nanosleep,
    libc::SYS_getrandom,
    libc::SYS_getrusage,
    libc::SYS_gettimeofday,
    libc::SYS_nanosleep,
    libc::SYS_uname,
];

/// Older names that a C library may still use.
#[cfg(target_arch = "x86_64")]
const RUNNING_OLDER: &[i64] = &[libc::SYS_dup2, libc::SYS_poll, libc::SYS_time];
#[cfg(not(target_arch = "x86_64"))]
const RUNNING_OLDER: &[i64] = &[];

/// What the dynamic loader and the next wall need besides.
const LOADING: &[i64] = &[
    libc::SYS_faccessat,
    libc::SYS_getcwd,
    libc::SYS_getdents64,
    libc::SYS_newfstatat,
    libc::SYS_openat,
    libc::SYS_pread64,
    libc::SYS_prctl,
    libc::SYS_readlinkat,
    libc::SYS_seccomp,
    libc::SYS_statx,
    libc::SYS_landlock_add_rule,
    libc::SYS_landlock_create_ruleset,
    libc::SYS_landlock_restrict_self,
];

#[cfg(target_arch = "x86_64")]
const LOADING_OLDER: &[i64] = &[
    libc::SYS_access,
    libc::SYS_arch_prctl,
    libc::SYS_open,
    libc::SYS_readlink,
    libc::SYS_stat,
];
#[cfg(not(target_arch = "x86_64"))]
const LOADING_OLDER: &[i64] = &[];

/// Sets the name of a thread, or of a stretch of memory: prctl's first argument.
const HARMLESS_PRCTL: [u64; 2] = [libc::PR_SET_NAME as u64, 0x5356_4d41];

type Rules = BTreeMap<i64, Vec<SeccompRule>>;

/// Lets all threads make only the calls of this phase. Whether the kernel does so.
pub(super) fn allow(phase: Phase) -> bool {
    install(phase).is_some()
}

fn install(phase: Phase) -> Option<()> {
    let not_permitted = SeccompAction::Errno(libc::EPERM as u32);
    let filter = program(allowed(phase)?, not_permitted, SeccompAction::Allow)?;
    // A C library that is told "there is no such call" makes its threads with clone, whose flags can be read here;
    // those of clone3 lie in memory.
    let clone3 = Rules::from([(libc::SYS_clone3, Vec::new())]);
    let unknown = SeccompAction::Errno(libc::ENOSYS as u32);
    let clone3 = program(clone3, SeccompAction::Allow, unknown)?;
    apply_filter_all_threads(&clone3).ok()?;
    apply_filter_all_threads(&filter).ok()
}

/// Ends the process at a call of this kind.
pub(super) fn set(tripwire: Tripwire) -> bool {
    let rules = match tripwire {
        Tripwire::Files => all(&[FILES, FILES_OLDER]),
        Tripwire::Network => all(&[NETWORK]),
        Tripwire::Processes => {
            let mut rules = all(&[PROCESSES, PROCESSES_OLDER]);
            let Some(process) = clone_with(0) else {
                return false;
            };
            rules.insert(libc::SYS_clone, vec![process]);
            rules
        }
    };
    program(rules, SeccompAction::Allow, SeccompAction::KillProcess)
        .is_some_and(|p| apply_filter_all_threads(&p).is_ok())
}

const FILES: &[i64] = &[
    libc::SYS_linkat,
    libc::SYS_mkdirat,
    libc::SYS_openat,
    libc::SYS_openat2,
    libc::SYS_renameat2,
    libc::SYS_symlinkat,
    libc::SYS_truncate,
    libc::SYS_unlinkat,
];
#[cfg(target_arch = "x86_64")]
const FILES_OLDER: &[i64] = &[
    libc::SYS_creat,
    libc::SYS_link,
    libc::SYS_mkdir,
    libc::SYS_open,
    libc::SYS_rename,
    libc::SYS_rmdir,
    libc::SYS_symlink,
    libc::SYS_unlink,
];
#[cfg(not(target_arch = "x86_64"))]
const FILES_OLDER: &[i64] = &[];

const NETWORK: &[i64] = &[
    libc::SYS_accept4,
    libc::SYS_bind,
    libc::SYS_connect,
    libc::SYS_listen,
    libc::SYS_socket,
];

const PROCESSES: &[i64] = &[libc::SYS_execve, libc::SYS_execveat];
#[cfg(target_arch = "x86_64")]
const PROCESSES_OLDER: &[i64] = &[libc::SYS_fork, libc::SYS_vfork];
#[cfg(not(target_arch = "x86_64"))]
const PROCESSES_OLDER: &[i64] = &[];

fn all(lists: &[&[i64]]) -> Rules {
    let calls = lists.iter().copied().flatten();
    calls.map(|&call| (call, Vec::new())).collect()
}

/// The calls of a phase. `None` only for a rule that seccomp could not hold.
fn allowed(phase: Phase) -> Option<Rules> {
    let mut rules = all(&[RUNNING, RUNNING_OLDER]);
    // A thread, never a process.
    rules.insert(
        libc::SYS_clone,
        vec![clone_with(libc::CLONE_THREAD as u64)?],
    );
    // Its own process group, and its own limits.
    for call in [libc::SYS_kill, libc::SYS_prlimit64] {
        rules.insert(call, vec![argument(0, 0)?]);
    }
    let [name, memory] = HARMLESS_PRCTL.map(|option| argument(0, option));
    rules.insert(libc::SYS_prctl, vec![name?, memory?]);
    if phase == Phase::Loading {
        rules.extend(all(&[LOADING, LOADING_OLDER]));
    }
    Some(rules)
}

fn argument(index: u8, value: u64) -> Option<SeccompRule> {
    let is = SeccompCondition::new(index, SeccompCmpArgLen::Dword, SeccompCmpOp::Eq, value);
    SeccompRule::new(vec![is.ok()?]).ok()
}

/// `clone` whose flag for threads is as given.
fn clone_with(thread: u64) -> Option<SeccompRule> {
    let masked = SeccompCmpOp::MaskedEq(libc::CLONE_THREAD as u64);
    let is = SeccompCondition::new(0, SeccompCmpArgLen::Qword, masked, thread);
    SeccompRule::new(vec![is.ok()?]).ok()
}

/// `None` where seccomp does not know this processor.
fn program(rules: Rules, otherwise: SeccompAction, listed: SeccompAction) -> Option<BpfProgram> {
    let processor = std::env::consts::ARCH.try_into().ok()?;
    let filter = SeccompFilter::new(rules, otherwise, listed, processor).ok()?;
    filter.try_into().ok()
}
