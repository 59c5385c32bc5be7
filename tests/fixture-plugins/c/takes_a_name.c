/* Declares a kind of finding that a built-in library has: must be refused. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

LIBRARY_OF("fixture-takes-a-name", analyze, "signal-quality")
