/* Aborts when the settings say "crash", else does well. */
#include "fixture.h"

#include <stdlib.h>
#include <string.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  (void)host;
  if (input->settings_json.len == 5 && memcmp(input->settings_json.ptr, "crash", 5) == 0) {
    abort();
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-moody", analyze)
