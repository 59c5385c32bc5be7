/* Writes to the samples, which it must not. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  uint32_t i;
  (void)host;
  for (i = 0; i < input->channel_count; i++) {
    if (input->channels[i]->length > 0) {
      *(volatile char *)(uintptr_t)input->channels[i]->samples = 1;
    }
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-writes-samples", analyze)
