//! Calls of the system that may be made: seccomp. What is not listed is answered with "not permitted".

use super::KillRule;
use seccompiler::{
    BpfProgram, SeccompAction, SeccompCmpArgLen, SeccompCmpOp, SeccompCondition, SeccompFilter,
    SeccompRule, apply_filter_all_threads,
};
use std::collections::BTreeMap;
use std::os::fd::{AsRawFd, BorrowedFd, RawFd};

/// Next phase of a worker.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Phase {
    /// Load one library: the dynamic loader opens files.
    Loading,
    /// Run its plugins.
    Running,
}

/// System calls for a plugin's computation, its threads and the socket to the host.
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
    libc::SYS_dup,
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
const RUNNING_OLDER: &[i64] = &[libc::SYS_poll, libc::SYS_time];
#[cfg(not(target_arch = "x86_64"))]
const RUNNING_OLDER: &[i64] = &[];

/// Further system calls for the dynamic loader and the next filter.
const LOADING: &[i64] = &[
    libc::SYS_faccessat,
    libc::SYS_getcwd,
    libc::SYS_getdents64,
    libc::SYS_newfstatat,
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
    libc::SYS_readlink,
    libc::SYS_stat,
];
#[cfg(not(target_arch = "x86_64"))]
const LOADING_OLDER: &[i64] = &[];

/// Sets the name of a thread, or of a stretch of memory: prctl's first argument.
const HARMLESS_PRCTL: [u64; 2] = [libc::PR_SET_NAME as u64, 0x5356_4d41];

/// Permitted `fcntl` commands: flags of a descriptor, and another number for it.
const FCNTL: [i32; 5] = [
    libc::F_DUPFD,
    libc::F_DUPFD_CLOEXEC,
    libc::F_GETFD,
    libc::F_SETFD,
    libc::F_GETFL,
];

type Rules = BTreeMap<i64, Vec<SeccompRule>>;

/// Lets all threads make only the calls of this phase, and none close the lifeline; a call that breaks the rule, where
/// there is one, ends the process. True where the kernel does so.
pub(super) fn confine(phase: Phase, lifeline: BorrowedFd<'_>, kill_rule: Option<KillRule>) -> bool {
    // The rule first: the other filter lets no further ones in.
    kill_rule.is_none_or(|rule| kill_at(rule, phase).is_some())
        && allow(phase, lifeline.as_raw_fd()).is_some()
}

fn allow(phase: Phase, lifeline: RawFd) -> Option<()> {
    let not_permitted = SeccompAction::Errno(libc::EPERM as u32);
    let filter = program(
        allowed(phase, lifeline)?,
        not_permitted,
        SeccompAction::Allow,
    )?;
    // A C library that is told "there is no such call" makes its threads with clone, whose flags can be read here;
    // those of clone3 lie in memory.
    let clone3 = Rules::from([(libc::SYS_clone3, Vec::new())]);
    let unknown = SeccompAction::Errno(libc::ENOSYS as u32);
    let clone3 = program(clone3, SeccompAction::Allow, unknown)?;
    apply_filter_all_threads(&clone3).ok()?;
    apply_filter_all_threads(&filter).ok()
}

/// Ends the process at a call of this kind. `None` where the kernel does not.
fn kill_at(rule: KillRule, phase: Phase) -> Option<()> {
    let rules = match rule {
        KillRule::Files => {
            let mut rules = all(&[FILES, FILES_OLDER]);
            rules.extend(match phase {
                // The dynamic loader reads.
                Phase::Loading => writing_opens()?,
                Phase::Running => all(&[OPENS, OPENS_OLDER]),
            });
            rules
        }
        KillRule::Network => all(&[NETWORK]),
        KillRule::Processes => {
            let mut rules = all(&[PROCESSES, PROCESSES_OLDER]);
            rules.insert(libc::SYS_clone, vec![clone_with(0)?]);
            rules
        }
        KillRule::Signals => {
            let mut rules = all(&[OTHER_PROCESSES]);
            // A signal to itself ends nobody else.
            for call in [libc::SYS_kill, libc::SYS_tgkill] {
                rules.insert(call, vec![to_others()?]);
            }
            rules
        }
        KillRule::Limits => {
            let mut rules = all(&[LIMITS]);
            let sets = vec![compare(2, SeccompCmpOp::Ne, 0)?];
            rules.insert(libc::SYS_prlimit64, vec![SeccompRule::new(sets).ok()?]);
            rules
        }
    };
    let program = program(rules, SeccompAction::Allow, SeccompAction::KillProcess)?;
    apply_filter_all_threads(&program).ok()
}

const OPENS: &[i64] = &[libc::SYS_openat];
#[cfg(target_arch = "x86_64")]
const OPENS_OLDER: &[i64] = &[libc::SYS_open];
#[cfg(not(target_arch = "x86_64"))]
const OPENS_OLDER: &[i64] = &[];

const FILES: &[i64] = &[
    libc::SYS_linkat,
    libc::SYS_mkdirat,
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

/// Reaching into other processes, by whatever name.
const OTHER_PROCESSES: &[i64] = &[
    libc::SYS_pidfd_getfd,
    libc::SYS_pidfd_open,
    libc::SYS_pidfd_send_signal,
    libc::SYS_process_vm_readv,
    libc::SYS_process_vm_writev,
    libc::SYS_ptrace,
    libc::SYS_rt_sigqueueinfo,
    libc::SYS_rt_tgsigqueueinfo,
    libc::SYS_tkill,
];

const LIMITS: &[i64] = &[libc::SYS_setpriority, libc::SYS_setrlimit];

fn all(lists: &[&[i64]]) -> Rules {
    let calls = lists.iter().copied().flatten();
    calls.map(|&call| (call, Vec::new())).collect()
}

/// The calls of a phase. `None` only for a rule that seccomp could not hold.
fn allowed(phase: Phase, lifeline: RawFd) -> Option<Rules> {
    let mut rules = all(&[RUNNING, RUNNING_OLDER]);
    // A thread, never a process.
    rules.insert(
        libc::SYS_clone,
        vec![clone_with(libc::CLONE_THREAD as u64)?],
    );
    let own = std::process::id().into();
    // Signals to itself: abort and raise.
    for call in [libc::SYS_kill, libc::SYS_tgkill] {
        rules.insert(call, vec![SeccompRule::new(vec![is(0, own)?]).ok()?]);
    }
    // Its own limits may be read, not set.
    let read = vec![is(0, 0)?, is(2, 0)?];
    rules.insert(libc::SYS_prlimit64, vec![SeccompRule::new(read).ok()?]);
    let commands = FCNTL.map(|command| argument(1, command as u64));
    let commands: Option<Vec<SeccompRule>> = commands.into_iter().collect();
    rules.insert(libc::SYS_fcntl, commands?);
    let other = vec![compare(0, SeccompCmpOp::Ne, lifeline as u64)?];
    rules.insert(libc::SYS_close, vec![SeccompRule::new(other).ok()?]);
    let [name, memory] = HARMLESS_PRCTL.map(|option| argument(0, option));
    rules.insert(libc::SYS_prctl, vec![name?, memory?]);
    if phase == Phase::Loading {
        rules.extend(all(&[LOADING, LOADING_OLDER]));
        rules.insert(libc::SYS_openat, vec![reading(2)?]);
        #[cfg(target_arch = "x86_64")]
        rules.insert(libc::SYS_open, vec![reading(1)?]);
    }
    Some(rules)
}

fn argument(index: u8, value: u64) -> Option<SeccompRule> {
    SeccompRule::new(vec![is(index, value)?]).ok()
}

/// Opens a file to be read, not made or written to.
fn reading(flags: u8) -> Option<SeccompRule> {
    let write = (libc::O_ACCMODE | libc::O_CREAT | libc::O_TRUNC) as u64;
    let masked = SeccompCmpOp::MaskedEq(write);
    let is = SeccompCondition::new(flags, SeccompCmpArgLen::Dword, masked, 0);
    SeccompRule::new(vec![is.ok()?]).ok()
}

/// Opens a file to be made or written to.
fn writing_opens() -> Option<Rules> {
    let flags = [libc::O_WRONLY, libc::O_RDWR, libc::O_CREAT, libc::O_TRUNC];
    let with = |argument: u8| -> Option<Vec<SeccompRule>> {
        let rules = flags.map(|flag| {
            let set = SeccompCmpOp::MaskedEq(flag as u64);
            let is = SeccompCondition::new(argument, SeccompCmpArgLen::Dword, set, flag as u64);
            SeccompRule::new(vec![is.ok()?]).ok()
        });
        rules.into_iter().collect()
    };
    let mut rules = Rules::from([(libc::SYS_openat, with(2)?)]);
    #[cfg(target_arch = "x86_64")]
    rules.insert(libc::SYS_open, with(1)?);
    Some(rules)
}

/// A signal to another process than this one.
fn to_others() -> Option<SeccompRule> {
    let other = compare(0, SeccompCmpOp::Ne, std::process::id().into())?;
    SeccompRule::new(vec![other]).ok()
}

fn is(index: u8, value: u64) -> Option<SeccompCondition> {
    compare(index, SeccompCmpOp::Eq, value)
}

fn compare(index: u8, operator: SeccompCmpOp, value: u64) -> Option<SeccompCondition> {
    // Pointers are compared whole.
    let width = match value {
        0 => SeccompCmpArgLen::Qword,
        _ => SeccompCmpArgLen::Dword,
    };
    SeccompCondition::new(index, width, operator, value).ok()
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
