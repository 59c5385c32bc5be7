/* Aborts when the settings state the phase "crash", else does well. */
#include "fixture.h"

#include <stdlib.h>
#include <string.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const char crash[] = "\"phase\":\"crash\"";
  const analysis_str json = input->settings_json;
  uint64_t i;
  (void)host;
  for (i = 0; i + sizeof(crash) - 1 <= json.len; i++) {
    if (memcmp(json.ptr + i, crash, sizeof(crash) - 1) == 0) {
      abort();
    }
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-moody", analyze)
