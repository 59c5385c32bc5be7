/* Asks whether it may signal the process that started it; no signal is sent. */
#include "fixture.h"

#include <signal.h>
#include <unistd.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  (void)kill(getppid(), 0);
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-signals", analyze)
