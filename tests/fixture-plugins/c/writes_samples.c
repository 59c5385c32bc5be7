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

static const analysis_descriptor only = {
    sizeof(analysis_descriptor), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-writes-samples"), TEXT("Fixture"),
    TEXT("1.0.0"), TEXT("baybrief tests"), needs, NULL, 1, 0, analyze, NO_MORE};

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  (void)host_minor;
  return index == 0 ? &only : NULL;
}
