/* A list of plugins without an end: must be refused. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

static const analysis_descriptor only = DESCRIPTOR("fixture-endless", analyze);

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  UNUSED(host_minor, index);
  return &only;
}
