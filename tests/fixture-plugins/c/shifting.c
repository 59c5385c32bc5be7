/* Another descriptor at each call. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

static const analysis_descriptor both[] = {DESCRIPTOR("fixture-shifting", analyze),
                                           DESCRIPTOR("fixture-shifting", analyze)};

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  static uint32_t calls = 0;
  (void)host_minor;
  calls += 1;
  return index == 0 ? &both[calls % 2] : NULL;
}
