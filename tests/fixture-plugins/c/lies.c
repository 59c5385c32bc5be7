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

ANALYZER("fixture-lies", analyze, "kind", "", "message", needs, 1, uses, 1)
EXPORT("fixture-lies")
