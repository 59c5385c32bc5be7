/* Crashes while it is loaded: must be refused, and nothing else may happen. */
#include "fixture.h"

#include <stdlib.h>

__attribute__((constructor)) static void on_load(void) { abort(); }

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-crash-on-load", analyze)
