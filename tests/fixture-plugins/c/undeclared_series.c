/* Hands on a series that it does not declare. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const double values[] = {1, 2};
  static const analysis_column column = {
      sizeof(analysis_column), ANALYSIS_COLUMN_F64, TEXT("rate"), TEXT("Hz"), values};
  static const analysis_column *const columns[] = {&column};
  const analysis_series series = {sizeof(analysis_series), ANALYSIS_FORM_TRACK, TEXT("secret-rate"),
                                  ANALYSIS_NO_CHANNEL, 1, columns, 2, 0, 0.02};
  (void)input;
  return host->put_series(host->ctx, &series) == ANALYSIS_EMIT_UNDECLARED ? ANALYSIS_STATUS_OK
                                                                          : ANALYSIS_STATUS_BAD_INPUT;
}

LIBRARY("fixture-undeclared-series", analyze)
