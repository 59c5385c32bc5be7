/* Says that a supply current is all it needs, and judges nothing without a supply voltage. */
#include "fixture.h"

#include <string.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const analysis_str reason = TEXT("there is no supply voltage");
  static const char wanted[] = "supply-voltage";
  uint32_t i;
  for (i = 0; i < input->channel_count; i++) {
    const analysis_str role = input->channels[i]->role;
    if (role.len == sizeof(wanted) - 1 && memcmp(role.ptr, wanted, role.len) == 0) {
      return ANALYSIS_STATUS_OK;
    }
  }
  host->refuse(host->ctx, reason);
  return ANALYSIS_STATUS_REFUSED;
}

static const analysis_str needs[] = {TEXT("supply-current")};
static const analysis_str uses[] = {TEXT("supply-voltage")};

static const analysis_descriptor only = {
    sizeof(analysis_descriptor), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-lies"), TEXT("Fixture"),
    TEXT("1.0.0"), TEXT("baybrief tests"), needs, uses, 1, 1, analyze, NO_MORE};

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  (void)host_minor;
  return index == 0 ? &only : NULL;
}
