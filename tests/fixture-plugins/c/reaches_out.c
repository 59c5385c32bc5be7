/* Tries to get out of its process, while it is loaded and when it runs, and says what it was let do: one finding for
 * each way, with the value 1 where the system let it. Needs no file but this one to be there: its own library, the
 * system's list of users, a file in the folder for temporary files, and a server that nobody runs. */
#include "fixture.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <pthread.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/socket.h>
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

__attribute__((constructor)) static void on_load(void) {
  while_loading[0] = reads();
  while_loading[1] = writes();
  while_loading[2] = sends();
  while_loading[3] = starts();
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
  say(host, "threads", threads());
  say(host, "allocates", allocates());
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-reaches-out", analyze)
