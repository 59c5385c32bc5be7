/*
 * analysis_plugin.h: the interface between baybrief and its analysis plugins, version 2.0.
 *
 * This header is the specification. It is written by hand, is valid C11 and C++17, and needs nothing
 * but <stdint.h>. A plugin is a shared library that exports one function, get_analysis_plugin_v2. The
 * JSON schema of settings_json lies beside it: settings.schema.json.
 *
 * Words used below
 *   host           the program that loads the library
 *   library        all analyzers of one system (a gearbox, a starting system) and what they bring along
 *   analyzer       one function that looks at a recording or at a whole job, and what it declares
 *   [call thread]  may be called only by the thread that called analyze, and only until it returns
 *   [any thread]   may be called by any thread, but only between the start of analyze and its return
 *   [one thread]   is called by one thread at a time, not always the same one
 *   [always]       may be called by any thread at any time, also by several at once
 *   Owner          who allocates and frees a thing. Neither side ever frees what the other made.
 *   Valid until    when a pointer must no longer be followed. What a struct points at has the owner and the
 *                  life of the struct, unless its member says otherwise.
 *
 * Versions
 *   1    one plugin after the other, each with texts of its own. No longer spoken.
 *   2.0  a library holds its system's analyzers in their order, and its assets once. Analyzers declare their
 *        outputs; the host refuses others. Series have columns. Two grades and the quantity of a channel are new.
 *
 * Rules that hold everywhere
 *   - Every struct but analysis_str begins with struct_size. Its maker sets it to sizeof of the struct as
 *     it knew it. Later minor versions add members at the end only; a reader must not look beyond
 *     struct_size, and takes a member that is missing, or zero, as the behaviour before it existed.
 *     A struct_size smaller than version 2.0's is refused.
 *   - Structs that may grow travel as arrays of pointers, never as arrays of structs.
 *   - Strings are a pointer and a length in bytes, UTF-8, not ended by NUL. A length of 0 is the empty
 *     string, whatever the pointer. Each side checks what it receives.
 *   - A list is a pointer and a count; the pointer may be NULL when the count is 0.
 *   - No function of this interface may be left by an exception, a panic or longjmp.
 *   - An analyzer reads no file, clock, locale, environment variable or random number and writes nothing to
 *     standard output: the same input and settings give the same findings.
 *   - The host never unloads a library. It may run it in a process of its own and end that process at any
 *     time.
 */
#ifndef ANALYSIS_PLUGIN_H
#define ANALYSIS_PLUGIN_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Major version: part of the exported function's name. Another major version is another interface. */
#define ANALYSIS_PLUGIN_MAJOR 2
/* Minor version that this header describes. */
#define ANALYSIS_PLUGIN_MINOR 0

/* Put before the definition of get_analysis_plugin_v2 so that the library exports it. */
#if defined(_WIN32)
#define ANALYSIS_PLUGIN_EXPORT __declspec(dllexport)
#else
#define ANALYSIS_PLUGIN_EXPORT __attribute__((visibility("default")))
#endif

/* Limits that the host holds a library to. */
#define ANALYSIS_MAX_ANALYZERS 64u          /* analyzers of one library */
#define ANALYSIS_MAX_LIST 256u              /* entries of every other list of a declaration */
#define ANALYSIS_MAX_NAME_BYTES 256u        /* each string of a declaration; kind, subject, units, message */
#define ANALYSIS_MAX_TEXT_BYTES 65536u      /* args_json, limit_source, a log line, a refusal's reason */
#define ANALYSIS_MAX_ASSET_BYTES 1048576u   /* body of an analysis_asset */
#define ANALYSIS_MAX_FINDINGS 100000u       /* findings of one call */
#define ANALYSIS_MAX_SERIES 1024u           /* series of one call */
#define ANALYSIS_MAX_SERIES_VALUES 8000000u /* rows times columns of one series */
#define ANALYSIS_MAX_CALL_VALUES 32000000u  /* the same of all series of one call together */

/* A string: UTF-8, len bytes, no NUL at the end. Owner: that of the struct it is in, or the caller where it is
 * an argument. Valid until: as the struct, or until the call returns. */
typedef struct analysis_str {
  const char *ptr;
  uint64_t len;
} analysis_str;

/* What analyze returns. Anything else counts as ANALYSIS_STATUS_FAILED. */
#define ANALYSIS_STATUS_OK 0        /* findings and series count */
#define ANALYSIS_STATUS_REFUSED 1   /* this input cannot be judged; say why with analysis_host.refuse */
#define ANALYSIS_STATUS_PANICKED 2  /* a defect of the library, caught by the library */
#define ANALYSIS_STATUS_BAD_INPUT 3 /* the host broke a rule of this header; say which with refuse */
#define ANALYSIS_STATUS_CANCELLED 4 /* is_cancelled said so */
#define ANALYSIS_STATUS_FAILED 5    /* any other defect of the library */

/* analysis_analyzer.scope */
#define ANALYSIS_SCOPE_CAPTURE 0u /* called once for every recording that meets its needs */
#define ANALYSIS_SCOPE_JOB 1u     /* called once, after all recordings, without channels */

/* analysis_channel.sample_format */
#define ANALYSIS_FORMAT_F32 0u /* float, IEEE 754 binary32, native byte order */
#define ANALYSIS_FORMAT_F64 1u /* double, IEEE 754 binary64, native byte order */
#define ANALYSIS_FORMAT_I16 2u /* int16_t */

/* analysis_channel.quantity */
#define ANALYSIS_QUANTITY_OTHER 0u        /* none of these, or not known */
#define ANALYSIS_QUANTITY_CURRENT 1u      /* a current */
#define ANALYSIS_QUANTITY_VOLTAGE 2u      /* a voltage */
#define ANALYSIS_QUANTITY_TOOTH_SIGNAL 3u /* pulses of a speed sensor, whatever it signals with */
#define ANALYSIS_QUANTITY_STATE 4u        /* a position or a state */

/* analysis_finding.present: which of the optional numbers have been set. */
#define ANALYSIS_HAS_START 0x01u
#define ANALYSIS_HAS_END 0x02u
#define ANALYSIS_HAS_VALUE 0x04u
#define ANALYSIS_HAS_UNCERTAINTY 0x08u
#define ANALYSIS_HAS_LIMIT 0x10u      /* limit_unit and limit_source are set */
#define ANALYSIS_HAS_LIMIT_LOW 0x20u  /* only together with ANALYSIS_HAS_LIMIT */
#define ANALYSIS_HAS_LIMIT_HIGH 0x40u /* only together with ANALYSIS_HAS_LIMIT */

/* analysis_finding.grade */
#define ANALYSIS_GRADE_NORMAL 0u     /* as it should be */
#define ANALYSIS_GRADE_ABNORMAL 1u   /* beyond its limit by more than its uncertainty */
#define ANALYSIS_GRADE_UNUSABLE 2u   /* seen, but no conclusion may rest on it */
#define ANALYSIS_GRADE_UNREADABLE 3u /* a signal is there that could not be read */
#define ANALYSIS_GRADE_NOT_TESTED 4u /* the recording could not have shown it */

/* analysis_series.form */
#define ANALYSIS_FORM_TRACK 0u /* row i belongs to start_s + i * step_s */
#define ANALYSIS_FORM_TABLE 1u /* rows with instants, where they have any, in columns of their own */

/* analysis_column.type: what values points at. */
#define ANALYSIS_COLUMN_F64 0u  /* double; NaN where there is no value, never an infinity */
#define ANALYSIS_COLUMN_I64 1u  /* int64_t: counts, indices, 0 and 1 for no and yes */
#define ANALYSIS_COLUMN_TEXT 2u /* analysis_str: short words, each at most ANALYSIS_MAX_NAME_BYTES */

/* analysis_series.channel of a series that belongs to the whole recording */
#define ANALYSIS_NO_CHANNEL 0xffffffffu

/* What emit and put_series return: 0, or the first rule that is broken. */
#define ANALYSIS_EMIT_OK 0
#define ANALYSIS_EMIT_BAD_STRUCT 1   /* NULL, struct_size too small, reserved not 0 */
#define ANALYSIS_EMIT_BAD_TEXT 2     /* not UTF-8, too long, kind, message or name not a machine name */
#define ANALYSIS_EMIT_BAD_NUMBER 3   /* infinite, NaN in a finding, end before start, uncertainty below 0 */
#define ANALYSIS_EMIT_BAD_CHOICE 4   /* unknown grade, form, type or channel, contradictory bit in present */
#define ANALYSIS_EMIT_BAD_ARGS 5     /* args_json is no JSON object of numbers, words, true and false */
#define ANALYSIS_EMIT_TOO_MANY 6     /* beyond a limit above */
#define ANALYSIS_EMIT_BAD_THREAD 7   /* not the thread that called analyze */
#define ANALYSIS_EMIT_UNDECLARED 8   /* a kind, unit, message, argument, series or column that is not declared */

/* severity of a log line */
#define ANALYSIS_LOG_DEBUG 0
#define ANALYSIS_LOG_INFO 1
#define ANALYSIS_LOG_WARNING 2
#define ANALYSIS_LOG_ERROR 3

/*
 * One channel of a recording. Owner: host. Valid until analyze returns. Nothing in it may be written to;
 * the samples may lie in memory that cannot be written.
 */
typedef struct analysis_channel {
  uint32_t struct_size;
  /* ANALYSIS_FORMAT_*: what samples points at. */
  uint32_t sample_format;
  /* ANALYSIS_QUANTITY_* of its role. */
  uint32_t quantity;
  /* Must be 0. */
  uint32_t reserved;
  /* What the channel measures: a role that a system declares in its system.toml. More may come. */
  analysis_str role;
  /* The channel's name in the file; text from outside. */
  analysis_str name;
  /* Unit of the calibrated values: A, V; empty when not known. */
  analysis_str unit;
  /* length samples as they were recorded, aligned for their type; may be NULL when length is 0.
   * In floats NaN is a missing value and an infinity is an over-range mark. */
  const void *samples;
  uint64_t length;
  /* calibrated value = recorded sample * scale + offset */
  double scale;
  double offset;
  /* When times_s is NULL, sample i was taken at start_s + i * step_s, with step_s greater than 0. */
  double start_s;
  double step_s;
  /* Otherwise length instants, s, never decreasing. */
  const double *times_s;
} analysis_channel;

/* What one call looks at. Owner: host. Valid until analyze returns. */
typedef struct analysis_input {
  uint32_t struct_size;
  /* Entries of channels; 0 for ANALYSIS_SCOPE_JOB. */
  uint32_t channel_count;
  /* The recording's file name, without folders; empty for ANALYSIS_SCOPE_JOB. */
  analysis_str file;
  /* What is known besides the samples, as one JSON object. Unknown keys must be ignored, missing ones
   * mean "not known". Its "channels" array is in the order of channels below. settings.schema.json describes it. */
  analysis_str settings_json;
  /* channel_count pointers, none NULL. */
  const analysis_channel *const *channels;
} analysis_input;

/*
 * One observation. Owner: library. Valid until emit returns: the host copies it, so it may lie on the
 * stack and be used again. Set all of it to zero before filling it in.
 */
typedef struct analysis_finding {
  uint32_t struct_size;
  /* ANALYSIS_HAS_* bits. A number whose bit is not set is not read. */
  uint32_t present;
  /* ANALYSIS_GRADE_* */
  uint32_t grade;
  /* Must be 0. */
  uint32_t reserved;
  /* Kind of observation, a machine name (a-z, 0-9, hyphen) that the analyzer declares. */
  analysis_str kind;
  /* What was observed, a role's name for the most part; empty for the whole recording. */
  analysis_str subject;
  /* Unit of value and uncertainty; empty for none. */
  analysis_str unit;
  /* Sentence that says it: a declared machine name, a key of lang/TAG.ftl. Never prose. */
  analysis_str message;
  /* The sentence's arguments: one JSON object whose values are numbers, short words, true or false;
   * empty for none. The numbers duration_s and charge_as become fields of the finding. */
  analysis_str args_json;
  /* Time span in seconds of the recording's own time. */
  double start_s;
  double end_s;
  /* Measured value and its standard uncertainty (k = 1). */
  double value;
  double uncertainty;
  /* What the value is held against: lowest and highest good value. */
  double limit_low;
  double limit_high;
  analysis_str limit_unit;
  /* Where the limit comes from, for the record. */
  analysis_str limit_source;
} analysis_finding;

/*
 * One column of a series. Owner: as the series. Valid until: as the series.
 */
typedef struct analysis_column {
  uint32_t struct_size;
  /* ANALYSIS_COLUMN_* */
  uint32_t type;
  /* A name of a-z, 0-9 and _, beginning with a letter: start_s, rpm. */
  analysis_str name;
  /* Unit of its values: s, rpm; empty for none, or for that of the channel. */
  analysis_str unit;
  /* As many values of its type as the series has rows; NULL in a declaration and where there is no row. */
  const void *values;
} analysis_column;

/*
 * A series that one analyzer derives and others use: computed once, it is handed to all. Owner: library where it is
 * declared or put, host where it is found. Valid until the process ends where it is declared, until put_series
 * returns, or until analyze returns.
 */
typedef struct analysis_series {
  uint32_t struct_size;
  /* ANALYSIS_FORM_* */
  uint32_t form;
  /* Machine name (a-z, 0-9, hyphen). */
  analysis_str name;
  /* Index of the channel in analysis_input.channels that it was derived from, or ANALYSIS_NO_CHANNEL. */
  uint32_t channel;
  uint32_t columns_count;
  /* columns_count pointers, none NULL. */
  const analysis_column *const *columns;
  /* Values of each column; 0 in a declaration. */
  uint64_t rows;
  /* Of a track: row i belongs to start_s + i * step_s, s of the recording's own time; step_s is greater than 0. */
  double start_s;
  double step_s;
} analysis_series;

/*
 * What the host offers during one call. Owner: host. Valid until analyze returns. ctx is passed back
 * as the first argument of every function. No function pointer of version 2.0 is NULL.
 */
typedef struct analysis_host {
  uint32_t struct_size;
  /* The host's minor version: members that came with a later one are not there. */
  uint32_t minor;
  void *ctx;

  /* [call thread] Hands over one finding. Returns ANALYSIS_EMIT_OK once it is copied, or which rule it
   * breaks. A finding that is refused spoils the call: none of its findings will count, even if analyze
   * returns ANALYSIS_STATUS_OK, because a lost observation must not look like a clean bill. */
  int32_t (*emit)(void *ctx, const analysis_finding *finding);

  /* [call thread] Hands a declared series on to the analyzers that run later on this recording and list its name
   * in inputs. Returns ANALYSIS_EMIT_OK once it is copied. As with emit, a series that is refused spoils the
   * call, and series are handed on only once analyze returned ANALYSIS_STATUS_OK. */
  int32_t (*put_series)(void *ctx, const analysis_series *series);

  /* [call thread] The series of that name and channel that an earlier analyzer handed on, or NULL: it is not in
   * inputs, nobody derived it, or who should have failed. An analyzer must then say what it cannot judge. The
   * result's owner: host. Valid until analyze returns. */
  const analysis_series *(*find_series)(void *ctx, analysis_str name, uint32_t channel);

  /* [call thread] Says in one English sentence why analyze is about to return something other than OK.
   * The last one said counts. reason is copied before the call returns. */
  void (*refuse)(void *ctx, analysis_str reason);

  /* [any thread] A line for the log, copied before the call returns. severity is ANALYSIS_LOG_*. */
  void (*log)(void *ctx, int32_t severity, analysis_str text);

  /* [call thread] How much of the call is done, 0 to 1. Calls that come too often are dropped. */
  void (*progress)(void *ctx, double fraction);

  /* [any thread] Not 0 once the call's result is no longer wanted. Ask at least every 50 ms, then return
   * ANALYSIS_STATUS_CANCELLED. A call that runs on is ended together with its process. */
  int32_t (*is_cancelled)(void *ctx);

  /* [call thread] A table of further functions by name and revision ("name/1"), or NULL when the host has
   * none of that name and revision. Another revision is another table; one that works with several asks for
   * the newest first. The result's owner: host. Valid until analyze returns. None is known in 2.0. */
  const void *(*get_extension)(void *ctx, analysis_str name);
} analysis_host;

/*
 * A kind of finding that an analyzer may hand over. Owner: library. Valid until the process ends.
 */
typedef struct analysis_kind {
  uint32_t struct_size;
  /* Must be 0. */
  uint32_t reserved;
  /* As in analysis_finding.kind. */
  analysis_str name;
  /* Unit of the value, or several with | between them of which one is used; empty where it has no value. */
  analysis_str unit;
} analysis_kind;

/*
 * A sentence that an analyzer may ask for. Owner: library. Valid until the process ends.
 */
typedef struct analysis_message {
  uint32_t struct_size;
  uint32_t args_count;
  /* As in analysis_finding.message. */
  analysis_str name;
  /* Names of all arguments that args_json may hold with it. */
  const analysis_str *args;
} analysis_message;

/*
 * What an analyzer says of itself. Owner: library. Constant. Valid until the process ends.
 */
typedef struct analysis_analyzer {
  uint32_t struct_size;
  /* ANALYSIS_SCOPE_* */
  uint32_t scope;
  /* Machine name (a-z, 0-9, hyphen, beginning with a letter), unique and never changed. */
  analysis_str id;
  /* Name for people. May change. */
  analysis_str name;
  /* Requirements, all of which must be met before analyze is called. Each is a role, or several with |
   * between them of which one will do. */
  const analysis_str *needs;
  /* Further roles that it can use. */
  const analysis_str *uses;
  /* Names of the series that it can use: it runs after the analyzers that put them. */
  const analysis_str *inputs;
  /* Its outputs. Every list of pointers has none that is NULL. The series are declarations, without rows. */
  const analysis_kind *const *kinds;
  const analysis_message *const *messages;
  const analysis_series *const *series;
  uint32_t needs_count;
  uint32_t uses_count;
  uint32_t inputs_count;
  uint32_t kinds_count;
  uint32_t messages_count;
  uint32_t series_count;

  /* [one thread] Looks at one input and hands over its findings and series through host. Returns
   * ANALYSIS_STATUS_*. Must keep no state between calls and no pointer after it returned, and must have ended
   * every thread it started. The owner of both arguments is the host. Valid until analyze returns. */
  int32_t (*analyze)(const analysis_input *input, const analysis_host *host);
} analysis_analyzer;

/*
 * A file that a library brings along, so that a new system needs no change in the host. Owner: library. Valid until
 * the process ends.
 */
typedef struct analysis_asset {
  uint32_t struct_size;
  /* Must be 0. */
  uint32_t reserved;
  /* What it is: "system.toml" (roles, presence, first recordings, labour steps), "limits.toml" (normal values with
   * their sources), "causes.toml" (what explains what), or "lang/TAG.ftl" (sentences of a language, TAG as in
   * BCP 47: lang/en.ftl). Others are ignored. */
  analysis_str name;
  /* Its content, at most ANALYSIS_MAX_ASSET_BYTES. The host checks it, and never lets it replace what the host
   * or another library has under the same name. */
  analysis_str body;
} analysis_asset;

/*
 * What a library says of itself. Owner: library. Constant, the same at every call. Valid until the process ends.
 */
typedef struct analysis_library {
  uint32_t struct_size;
  /* Must be 0. */
  uint32_t reserved;
  /* Machine name of the system that it examines, unique and never changed. */
  analysis_str system;
  /* Name for people. May change. */
  analysis_str name;
  /* Version of the library: major.minor.patch. */
  analysis_str version;
  /* Who made it. */
  analysis_str vendor;
  /* Its analyzers in the order in which they run, and its assets; no pointer is NULL. */
  const analysis_analyzer *const *analyzers;
  const analysis_asset *const *assets;
  uint32_t analyzers_count;
  uint32_t assets_count;
} analysis_library;

/*
 * [always] The one function that a library exports. host_minor is the host's minor version. Called any number of
 * times, and must do no work beyond returning the pointer: hosts call it for every library they come across. Returns
 * NULL for a host that is too old for it. The result's owner: library. Valid until the process ends.
 */
ANALYSIS_PLUGIN_EXPORT const analysis_library *get_analysis_plugin_v2(uint32_t host_minor);

#ifdef __cplusplus
}
#endif

#endif /* ANALYSIS_PLUGIN_H */
