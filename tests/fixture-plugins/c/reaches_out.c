/* Tries to get out of its process, while it is loaded and when it runs, and says what it was let do: one finding for
 * each way, with the value 1 where the system let it. Needs no file but this one to be there: its own library, the
 * system's list of users, a file in the folder for temporary files, and a server that nobody runs. */
#include "fixture.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <pthread.h>
#include <signal.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <sys/wait.h>
#include <unistd.h>

static int reads(void) {
  int file = open("/etc/passwd", O_RDONLY);
  if (file < 0) {
    return 0;
  }
  close(file);
  return 1;
}

static int writes(void) {
  int file = open("/tmp/baybrief-fixture-reached-out", O_WRONLY | O_CREAT, 0600);
  if (file < 0) {
    return 0;
  }
  close(file);
  unlink("/tmp/baybrief-fixture-reached-out");
  return 1;
}

static int lists(void) {
  int folder = open("/", O_RDONLY | O_DIRECTORY);
  if (folder < 0) {
    return 0;
  }
  close(folder);
  return 1;
}

/* A datagram to this machine: nobody need listen. */
static int sends(void) {
  struct sockaddr_in to;
  int line = socket(AF_INET, SOCK_DGRAM, 0);
  long sent;
  if (line < 0) {
    return 0;
  }
  memset(&to, 0, sizeof(to));
  to.sin_family = AF_INET;
  to.sin_port = htons(9);
  to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  sent = (long)sendto(line, "x", 1, 0, (const struct sockaddr *)&to, sizeof(to));
  close(line);
  return sent == 1;
}

static int starts(void) {
  pid_t child = fork();
  if (child < 0) {
    return 0;
  }
  if (child == 0) {
    _exit(0);
  }
  waitpid(child, NULL, 0);
  return 1;
}

/* Another program in this process: comes back only when it is refused. */
static int becomes(void) {
  static char *const arguments[] = {(char *)"true", NULL};
  execv("/bin/true", arguments);
  return 0;
}

/* Signals to the host; none is sent. */
static int signals(void) {
  pid_t host = getppid();
  return kill(host, 0) == 0 || syscall(SYS_tgkill, host, host, 0) == 0 || syscall(SYS_tkill, host, 0) == 0 ||
         kill(-1, 0) == 0;
}

/* A descriptor of the host, by which it could be signalled. */
static int by_descriptor(void) {
  long fd = syscall(SYS_pidfd_open, getppid(), 0);
  if (fd >= 0) {
    close((int)fd);
  }
  return fd >= 0;
}

/* The memory of the host. */
static int looks_into(void) {
  char byte;
  struct iovec here = {&byte, 1}, there = {(void *)&byte, 1};
  return syscall(SYS_process_vm_readv, getppid(), &here, 1, &there, 1, 0) >= 0;
}

/* Limits of its own: to what they are already. */
static int limits(void) {
  struct rlimit limit;
  return getrlimit(RLIMIT_STACK, &limit) == 0 && setrlimit(RLIMIT_STACK, &limit) == 0;
}

/* What ends this process with the host. */
static int unties(void) {
  int fd;
  for (fd = 3; fd < 16; fd++) {
    if (fcntl(fd, F_GETFL) >= 0 && (fcntl(fd, F_GETFL) & O_ASYNC) && fcntl(fd, F_SETFL, 0) == 0) {
      return 1;
    }
  }
  return 0;
}

/* Descriptors beyond standard input and outputs, the line to the host and what ties it to the host. */
static int inherits(void) {
  int fd, open_ones = 0;
  for (fd = 3; fd < 1024; fd++) {
    if (fcntl(fd, F_GETFD) >= 0) {
      open_ones++;
    }
  }
  return open_ones > 2;
}

static void *nothing(void *argument) { return argument; }

/* What must work all the same. */
static int threads(void) {
  pthread_t thread;
  return pthread_create(&thread, NULL, nothing, NULL) == 0 && pthread_join(thread, NULL) == 0;
}

static int allocates(void) {
  void *memory = mmap(NULL, 1u << 24, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  return memory != MAP_FAILED && munmap(memory, 1u << 24) == 0;
}

static int while_loading[4];

/* A thread that was started while the library was loaded, and waits until it runs. */
static volatile int now = 0, done = 0, thread_reads = 0, thread_writes = 0;

static void *early(void *argument) {
  while (!now) {
    usleep(1000);
  }
  thread_reads = reads();
  thread_writes = writes();
  done = 1;
  return argument;
}

__attribute__((constructor)) static void on_load(void) {
  pthread_t thread;
  while_loading[0] = reads();
  while_loading[1] = writes();
  while_loading[2] = sends();
  while_loading[3] = starts();
  if (pthread_create(&thread, NULL, early, NULL) != 0) {
    done = 1;
  }
}

static void say(const analysis_host *host, const char *kind, int value) {
  analysis_finding finding = FINDING("x", 0);
  finding.kind.ptr = kind;
  finding.kind.len = strlen(kind);
  finding.value = value;
  host->emit(host->ctx, &finding);
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  (void)input;
  say(host, "loading-reads", while_loading[0]);
  say(host, "loading-writes", while_loading[1]);
  say(host, "loading-sends", while_loading[2]);
  say(host, "loading-starts", while_loading[3]);
  say(host, "reads", reads());
  say(host, "writes", writes());
  say(host, "lists", lists());
  say(host, "sends", sends());
  say(host, "starts", starts());
  say(host, "becomes", becomes());
  say(host, "signals", signals());
  say(host, "by-descriptor", by_descriptor());
  say(host, "looks-into", looks_into());
  say(host, "limits", limits());
  say(host, "unties", unties());
  say(host, "inherits", inherits());
  now = 1;
  while (!done) {
    usleep(1000);
  }
  say(host, "thread-reads", thread_reads);
  say(host, "thread-writes", thread_writes);
  say(host, "threads", threads());
  say(host, "allocates", allocates());
  return ANALYSIS_STATUS_OK;
}

#define WAY(name) {sizeof(analysis_kind), 0, TEXT(name), TEXT("")}

static const analysis_kind ways[] = {
    WAY("loading-reads"),
    WAY("loading-writes"),
    WAY("loading-sends"),
    WAY("loading-starts"),
    WAY("reads"),
    WAY("writes"),
    WAY("lists"),
    WAY("sends"),
    WAY("starts"),
    WAY("becomes"),
    WAY("signals"),
    WAY("by-descriptor"),
    WAY("looks-into"),
    WAY("limits"),
    WAY("unties"),
    WAY("inherits"),
    WAY("thread-reads"),
    WAY("thread-writes"),
    WAY("threads"),
    WAY("allocates"),
};
static const analysis_kind *const kinds[] = {
    &ways[0],
    &ways[1],
    &ways[2],
    &ways[3],
    &ways[4],
    &ways[5],
    &ways[6],
    &ways[7],
    &ways[8],
    &ways[9],
    &ways[10],
    &ways[11],
    &ways[12],
    &ways[13],
    &ways[14],
    &ways[15],
    &ways[16],
    &ways[17],
    &ways[18],
    &ways[19],
};
static const analysis_message message = {sizeof(analysis_message), 0, TEXT("x"), NULL};
static const analysis_message *const messages[] = {&message};
static const analysis_analyzer analyzer = {
    sizeof(analysis_analyzer), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-reaches-out"), TEXT("Fixture"), NULL, NULL,
    NULL, kinds, messages, NULL, 0, 0, 0, sizeof(kinds) / sizeof(kinds[0]), 1, 0, analyze};
static const analysis_analyzer *const the_analyzers[] = {&analyzer};

EXPORT("fixture-reaches-out")
