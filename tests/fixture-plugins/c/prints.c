/* Writes to standard output, which is not its to write to. */
#include "fixture.h"

#include <stdio.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  puts("all is well");
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-prints", analyze)
