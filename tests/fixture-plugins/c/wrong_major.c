/* Made for another major version: must be refused, by name of that version. */
#include "fixture.h"

ANALYSIS_PLUGIN_EXPORT const void *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index);

const void *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  UNUSED(host_minor, index);
  return NULL;
}
