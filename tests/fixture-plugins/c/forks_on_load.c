/* Starts another process while it is loaded. */
#include "fixture.h"

#include <sys/wait.h>
#include <unistd.h>

__attribute__((constructor)) static void on_load(void) {
  pid_t child = fork();
  if (child == 0) {
    _exit(0);
  }
  if (child > 0) {
    waitpid(child, NULL, 0);
  }
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-forks-on-load", analyze)
