/* Another declaration at each call. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

ANALYZER("fixture-shifting", analyze, "kind", "", "message", NULL, 0, NULL, 0)

static const analysis_library both[] = {THE_LIBRARY("fixture-shifting"), THE_LIBRARY("fixture-shifting")};

const analysis_library *get_analysis_plugin_v2(uint32_t host_minor) {
  static uint32_t calls = 0;
  (void)host_minor;
  calls += 1;
  return &both[calls % 2];
}
