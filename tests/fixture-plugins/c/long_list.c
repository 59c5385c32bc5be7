/* More analyzers than a library may have: must be refused. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

ANALYZER("fixture-long-list", analyze, "kind", "", "message", NULL, 0, NULL, 0)

static const analysis_library long_list = {
    sizeof(analysis_library), 0, TEXT("fixture-long-list"), TEXT("Fixture"), TEXT("1.0.0"),
    TEXT("baybrief tests"), the_analyzers, NULL, ANALYSIS_MAX_ANALYZERS + 1, 0};

const analysis_library *get_analysis_plugin_v2(uint32_t host_minor) {
  (void)host_minor;
  return &long_list;
}
