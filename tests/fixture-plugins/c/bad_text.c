/* A library whose name is not UTF-8: must be refused. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

ANALYZER("fixture-bad-text", analyze, "kind", "", "message", NULL, 0, NULL, 0)

static const analysis_library bad = {
    sizeof(analysis_library), 0, TEXT("fixture-bad-text"), TEXT("Fixt\xfcre"), TEXT("1.0.0"),
    TEXT("baybrief tests"), the_analyzers, NULL, 1, 0};

const analysis_library *get_analysis_plugin_v2(uint32_t host_minor) {
  (void)host_minor;
  return &bad;
}
