/* A descriptor that ends before its function: must be refused. */
#include "fixture.h"

static const analysis_descriptor small = {
    offsetof(analysis_descriptor, analyze), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-small"), TEXT("Fixture"),
    TEXT("1.0.0"), TEXT("baybrief tests"), NULL, NULL, 0, 0, NULL, NO_MORE};

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  (void)host_minor;
  return index == 0 ? &small : NULL;
}
