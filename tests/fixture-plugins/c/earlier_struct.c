/* Built against the header of version 1.0, whose descriptor is smaller: must work. What lies behind the descriptor
 * must not be taken for members of it. */
#include "v1_0/analysis_plugin.h"

#include <stddef.h>

#define TEXT(literal) {literal, sizeof(literal) - 1}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  analysis_finding finding = {
      sizeof(analysis_finding), ANALYSIS_HAS_VALUE, ANALYSIS_GRADE_NORMAL, 0, TEXT("earlier"), {NULL, 0},
      TEXT("count"), TEXT("earlier"), {NULL, 0}, 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}};
  finding.value = (double)input->channel_count;
  return host->emit(host->ctx, &finding) == ANALYSIS_EMIT_OK ? ANALYSIS_STATUS_OK : ANALYSIS_STATUS_FAILED;
}

static const struct {
  analysis_descriptor known;
  uint64_t behind[8];
} earlier = {{sizeof(analysis_descriptor), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-earlier-struct"), TEXT("Fixture"),
              TEXT("1.0.0"), TEXT("baybrief tests"), NULL, NULL, 0, 0, analyze},
             {1, 2, 3, 4, 5, 6, 7, 8}};

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  (void)host_minor;
  return index == 0 ? &earlier.known : NULL;
}
