/* Hands over a finding that is smaller than any version's. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  analysis_finding finding = FINDING("size", 1);
  (void)input;
  finding.struct_size = 64;
  host->emit(host->ctx, &finding);
  return ANALYSIS_STATUS_OK;
}

LIBRARY_OF("fixture-small-finding", analyze, "size")
