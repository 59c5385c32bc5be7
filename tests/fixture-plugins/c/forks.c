/* Starts a process of its own. */
#include "fixture.h"

#include <unistd.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  if (fork() == 0) {
    _exit(0);
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-forks", analyze)
