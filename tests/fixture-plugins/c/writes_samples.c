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

static const analysis_str needs[] = {TEXT("supply-current")};

ANALYZER("fixture-writes-samples", analyze, "kind", "", "message", needs, 1, NULL, 0)
EXPORT("fixture-writes-samples")
