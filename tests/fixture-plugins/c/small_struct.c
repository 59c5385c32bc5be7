/* An analyzer that ends before its function: must be refused. */
#include "fixture.h"

static const analysis_analyzer small = {
    offsetof(analysis_analyzer, analyze), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-small"), TEXT("Fixture"), NULL,
    NULL, NULL, NULL, NULL, NULL, 0, 0, 0, 0, 0, 0, NULL};
static const analysis_analyzer *const the_analyzers[] = {&small};

EXPORT("fixture-small")
