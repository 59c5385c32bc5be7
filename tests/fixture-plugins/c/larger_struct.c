/* Made for a later minor version, with more in its declarations and its finding: must work. */
#include "fixture.h"

typedef struct later_analyzer {
  analysis_analyzer known;
  uint64_t later[4];
} later_analyzer;

typedef struct later_library {
  analysis_library known;
  uint64_t later[4];
} later_library;

typedef struct later_finding {
  analysis_finding known;
  double later[4];
} later_finding;

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const analysis_str unknown[] = {TEXT("no-such-extension/1"), TEXT("tracks/1"), TEXT("")};
  size_t i;
  later_finding finding = {
      {sizeof(later_finding), ANALYSIS_HAS_VALUE, ANALYSIS_GRADE_NORMAL, 0, TEXT("later"), NOTHING,
       TEXT("count"), TEXT("later"), TEXT("{\"word\":\"yes\"}"), 0, 0, 0, 0, 0, 0, NOTHING, NOTHING},
      {1, 2, 3, 4}};
  if (host->struct_size < sizeof(analysis_host) || input->struct_size < sizeof(analysis_input)) {
    return ANALYSIS_STATUS_BAD_INPUT;
  }
  for (i = 0; i < sizeof(unknown) / sizeof(unknown[0]); i++) {
    if (host->get_extension(host->ctx, unknown[i]) != NULL ||
        host->find_series(host->ctx, unknown[i], 0) != NULL) {
      return ANALYSIS_STATUS_BAD_INPUT;
    }
  }
  finding.known.value = (double)input->channel_count;
  return host->emit(host->ctx, &finding.known) == ANALYSIS_EMIT_OK ? ANALYSIS_STATUS_OK
                                                                   : ANALYSIS_STATUS_FAILED;
}

static const analysis_kind kind = {sizeof(analysis_kind), 0, TEXT("later"), TEXT("count")};
static const analysis_kind *const kinds[] = {&kind};
static const analysis_str args[] = {TEXT("word")};
static const analysis_message message = {sizeof(analysis_message), 1, TEXT("later"), args};
static const analysis_message *const messages[] = {&message};

static const later_analyzer analyzer = {
    {sizeof(later_analyzer), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-larger"), TEXT("Fixture"), NULL, NULL, NULL,
     kinds, messages, NULL, 0, 0, 0, 1, 1, 0, analyze},
    {1, 2, 3, 4}};
static const analysis_analyzer *const analyzers[] = {&analyzer.known};

static const later_library library = {
    {sizeof(later_library), 0, TEXT("fixture-larger"), TEXT("Fixture"), TEXT("1.0.0"), TEXT("baybrief tests"),
     analyzers, NULL, 1, 0},
    {1, 2, 3, 4}};

const analysis_library *get_analysis_plugin_v2(uint32_t host_minor) {
  (void)host_minor;
  return &library.known;
}
