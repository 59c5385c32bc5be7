/* A descriptor whose name is not UTF-8: must be refused. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

static const analysis_descriptor only = {
    sizeof(analysis_descriptor), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-bad-text"), TEXT("Fixt\xfcre"),
    TEXT("1.0.0"), TEXT("baybrief tests"), NULL, NULL, 0, 0, analyze, NO_MORE};

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  (void)host_minor;
  return index == 0 ? &only : NULL;
}
