/* Never comes back, and neither does a process that it starts where the system lets it. */
#include "fixture.h"

#include <stdio.h>
#include <unistd.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  volatile int forever = 1;
  pid_t child = fork();
  UNUSED(input, host);
  if (child > 0) {
    fprintf(stderr, "child %ld\n", (long)child);
  }
  while (forever) {
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-hangs", analyze)
