//! The header compiles as C11 and as C++17, and the Rust mirror has its sizes, offsets and constants.

use baybrief_plugin_abi::{self as abi, raw};
use std::mem::offset_of;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Rows of (expression in C, value by Rust), written once for both sides.
fn rows() -> Vec<(String, u64)> {
    let mut rows = Vec::new();
    macro_rules! layout {
        ($($c:literal = $rust:ident { $($member:ident),+ $(,)? })+) => {$(
            rows.push((format!("sizeof({})", $c), size_of::<raw::$rust>() as u64));
            $(rows.push((
                format!("offsetof({}, {})", $c, stringify!($member).trim_start_matches("r#")),
                offset_of!(raw::$rust, $member) as u64,
            ));)+
        )+};
    }
    layout! {
        "analysis_str" = Str { ptr, len }
        "analysis_channel" = Channel {
            struct_size, sample_format, quantity, reserved, role, name, unit, samples, length, scale, offset, start_s,
            step_s, times_s,
        }
        "analysis_input" = Input { struct_size, channel_count, file, settings_json, channels }
        "analysis_finding" = Finding {
            struct_size, present, grade, reserved, kind, subject, unit, message, args_json, start_s, end_s, value,
            uncertainty, limit_low, limit_high, limit_unit, limit_source,
        }
        "analysis_column" = Column { struct_size, r#type, name, unit, values }
        "analysis_series" = Series {
            struct_size, form, name, channel, columns_count, columns, rows, start_s, step_s,
        }
        "analysis_host" = Host {
            struct_size, minor, ctx, emit, put_series, find_series, refuse, log, progress, is_cancelled, get_extension,
        }
        "analysis_kind" = Kind { struct_size, reserved, name, unit }
        "analysis_message" = Message { struct_size, args_count, name, args }
        "analysis_analyzer" = Analyzer {
            struct_size, scope, id, name, needs, uses, inputs, kinds, messages, series, needs_count, uses_count,
            inputs_count, kinds_count, messages_count, series_count, analyze,
        }
        "analysis_asset" = Asset { struct_size, reserved, name, body }
        "analysis_library" = Library {
            struct_size, reserved, system, name, version, vendor, analyzers, assets, analyzers_count, assets_count,
        }
    }
    macro_rules! constants {
        ($($c:ident = $rust:expr),+ $(,)?) => {
            $(rows.push((stringify!($c).to_string(), $rust as u64));)+
        };
    }
    constants! {
        ANALYSIS_PLUGIN_MAJOR = abi::MAJOR,
        ANALYSIS_PLUGIN_MINOR = abi::MINOR,
        ANALYSIS_MAX_ANALYZERS = abi::MAX_ANALYZERS,
        ANALYSIS_MAX_LIST = abi::MAX_LIST,
        ANALYSIS_MAX_NAME_BYTES = abi::MAX_NAME_BYTES,
        ANALYSIS_MAX_TEXT_BYTES = abi::MAX_TEXT_BYTES,
        ANALYSIS_MAX_ASSET_BYTES = abi::MAX_ASSET_BYTES,
        ANALYSIS_MAX_FINDINGS = abi::MAX_FINDINGS,
        ANALYSIS_MAX_SERIES = abi::MAX_SERIES,
        ANALYSIS_MAX_SERIES_VALUES = abi::MAX_SERIES_VALUES,
        ANALYSIS_MAX_CALL_VALUES = abi::MAX_CALL_VALUES,
        ANALYSIS_STATUS_OK = abi::status::OK,
        ANALYSIS_STATUS_REFUSED = abi::status::REFUSED,
        ANALYSIS_STATUS_PANICKED = abi::status::PANICKED,
        ANALYSIS_STATUS_BAD_INPUT = abi::status::BAD_INPUT,
        ANALYSIS_STATUS_CANCELLED = abi::status::CANCELLED,
        ANALYSIS_STATUS_FAILED = abi::status::FAILED,
        ANALYSIS_SCOPE_CAPTURE = raw::scope::CAPTURE,
        ANALYSIS_SCOPE_JOB = raw::scope::JOB,
        ANALYSIS_FORMAT_F32 = abi::format::F32,
        ANALYSIS_FORMAT_F64 = abi::format::F64,
        ANALYSIS_FORMAT_I16 = abi::format::I16,
        ANALYSIS_QUANTITY_OTHER = abi::quantity::OTHER,
        ANALYSIS_QUANTITY_CURRENT = abi::quantity::CURRENT,
        ANALYSIS_QUANTITY_VOLTAGE = abi::quantity::VOLTAGE,
        ANALYSIS_QUANTITY_TOOTH_SIGNAL = abi::quantity::TOOTH_SIGNAL,
        ANALYSIS_QUANTITY_STATE = abi::quantity::STATE,
        ANALYSIS_FORM_TRACK = raw::form::TRACK,
        ANALYSIS_FORM_TABLE = raw::form::TABLE,
        ANALYSIS_COLUMN_F64 = raw::column::F64,
        ANALYSIS_COLUMN_I64 = raw::column::I64,
        ANALYSIS_COLUMN_TEXT = raw::column::TEXT,
        ANALYSIS_NO_CHANNEL = abi::NO_CHANNEL,
        ANALYSIS_HAS_START = abi::has::START,
        ANALYSIS_HAS_END = abi::has::END,
        ANALYSIS_HAS_VALUE = abi::has::VALUE,
        ANALYSIS_HAS_UNCERTAINTY = abi::has::UNCERTAINTY,
        ANALYSIS_HAS_LIMIT = abi::has::LIMIT,
        ANALYSIS_HAS_LIMIT_LOW = abi::has::LIMIT_LOW,
        ANALYSIS_HAS_LIMIT_HIGH = abi::has::LIMIT_HIGH,
        ANALYSIS_GRADE_NORMAL = abi::grade::NORMAL,
        ANALYSIS_GRADE_ABNORMAL = abi::grade::ABNORMAL,
        ANALYSIS_GRADE_UNUSABLE = abi::grade::UNUSABLE,
        ANALYSIS_GRADE_UNREADABLE = abi::grade::UNREADABLE,
        ANALYSIS_GRADE_NOT_TESTED = abi::grade::NOT_TESTED,
        ANALYSIS_EMIT_OK = abi::emit::OK,
        ANALYSIS_EMIT_BAD_STRUCT = abi::emit::BAD_STRUCT,
        ANALYSIS_EMIT_BAD_TEXT = abi::emit::BAD_TEXT,
        ANALYSIS_EMIT_BAD_NUMBER = abi::emit::BAD_NUMBER,
        ANALYSIS_EMIT_BAD_CHOICE = abi::emit::BAD_CHOICE,
        ANALYSIS_EMIT_BAD_ARGS = abi::emit::BAD_ARGS,
        ANALYSIS_EMIT_TOO_MANY = abi::emit::TOO_MANY,
        ANALYSIS_EMIT_BAD_THREAD = abi::emit::BAD_THREAD,
        ANALYSIS_EMIT_UNDECLARED = abi::emit::UNDECLARED,
        ANALYSIS_LOG_DEBUG = abi::severity::DEBUG,
        ANALYSIS_LOG_INFO = abi::severity::INFO,
        ANALYSIS_LOG_WARNING = abi::severity::WARNING,
        ANALYSIS_LOG_ERROR = abi::severity::ERROR,
    }
    rows
}

fn header_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("include")
}

/// A program that prints every row's value as the header has it.
fn program() -> String {
    let mut text = String::from(
        "#include \"analysis_plugin.h\"\n#include <stddef.h>\n#include <stdio.h>\nint main(void) {\n",
    );
    for (expression, _) in rows() {
        text +=
            &format!("  printf(\"{expression}=%llu\\n\", (unsigned long long)({expression}));\n");
    }
    text + "  return 0;\n}\n"
}

fn compare(compiler: &str, standard: &str, extension: &str) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let source = folder.path().join("layout").with_extension(extension);
    let executable = folder.path().join("layout");
    std::fs::write(&source, program()).expect("the source is written");
    let compiled = Command::new(compiler)
        .args([standard, "-Wall", "-Wextra", "-Wpedantic", "-Werror", "-I"])
        .arg(header_folder())
        .arg(&source)
        .arg("-o")
        .arg(&executable)
        .output()
        .unwrap_or_else(|e| {
            panic!("this test needs the system's compiler `{compiler}` on the PATH, and it did not start: {e}")
        });
    assert!(
        compiled.status.success(),
        "{compiler} {standard} refuses the header:\n{}",
        String::from_utf8_lossy(&compiled.stderr)
    );
    let printed = Command::new(&executable)
        .output()
        .expect("the compiled program runs");
    let printed = String::from_utf8(printed.stdout).expect("it prints ASCII");
    let expected: String = rows().iter().map(|(c, v)| format!("{c}={v}\n")).collect();
    assert_eq!(
        printed, expected,
        "header (left) and Rust mirror (right) differ"
    );
}

#[test]
fn header_is_c11_and_matches_the_mirror() {
    compare("cc", "-std=c11", "c");
}

#[test]
fn header_is_cpp17_and_matches_the_mirror() {
    compare("c++", "-std=c++17", "cpp");
}

/// A constant that the header has and the comparison forgot would drift unseen.
#[test]
fn no_constant_and_no_member_of_the_header_is_forgotten() {
    let header =
        std::fs::read_to_string(header_folder().join("analysis_plugin.h")).expect("the header");
    let compared: Vec<String> = rows().into_iter().map(|(c, _)| c).collect();
    let defined = header
        .lines()
        .filter_map(|l| l.strip_prefix("#define "))
        .filter_map(|l| l.split_whitespace().next())
        .filter(|n| {
            // Not numbers.
            let others = ["ANALYSIS_PLUGIN_H", "ANALYSIS_PLUGIN_EXPORT"];
            !others.contains(n)
        });
    for name in defined {
        assert!(compared.iter().any(|c| c == name), "{name} is not compared");
    }
    // Members stand two spaces in and end in a semicolon; comments and continued lines stand otherwise.
    let members = header
        .lines()
        .filter_map(|l| l.strip_prefix("  "))
        .filter(|l| l.starts_with(|c: char| c.is_ascii_alphabetic()) && l.ends_with(';'))
        .count();
    let offsets = compared
        .iter()
        .filter(|c| c.starts_with("offsetof"))
        .count();
    assert_eq!(
        members, offsets,
        "members in the header and members compared"
    );
}

#[test]
fn the_exported_name_carries_the_major_version() {
    assert_eq!(abi::SYMBOL, format!("get_analysis_plugin_v{}", abi::MAJOR));
}

fn header() -> String {
    std::fs::read_to_string(header_folder().join("analysis_plugin.h")).expect("the header")
}

/// The comment that ends on the line before `line`.
fn comment_before(lines: &[&str], line: usize) -> String {
    let end = lines[..line].iter().rposition(|l| l.contains("*/"));
    assert_eq!(
        end,
        line.checked_sub(1),
        "no comment before {:?}",
        lines[line]
    );
    let begin = lines[..line].iter().rposition(|l| l.contains("/*"));
    lines[begin.expect("a comment begins")..line].join(" ")
}

/// Who owns a thing, until when it may be followed, and which thread may call: on every struct and function.
#[test]
fn every_struct_and_function_says_owner_life_and_thread() {
    let header = header();
    let lines: Vec<&str> = header.lines().collect();
    let threads = ["[call thread]", "[any thread]", "[one thread]", "[always]"];
    let (mut structs, mut functions) = (0, 0);
    for (i, line) in lines.iter().enumerate() {
        if line.starts_with("typedef struct ") {
            structs += 1;
            let said = comment_before(&lines, i);
            assert!(said.contains("Owner: "), "{line}: no owner");
            assert!(
                said.to_lowercase().contains("valid until"),
                "{line}: no life"
            );
        }
        if line.contains("(*") || line.starts_with("ANALYSIS_PLUGIN_EXPORT ") {
            functions += 1;
            let said = comment_before(&lines, i);
            assert!(
                threads.iter().any(|t| said.contains(t)),
                "{line}: no thread in {said}"
            );
            // What a function returns by pointer has an owner and a life, too.
            if line.trim_start().starts_with("const ") || line.contains("const analysis_library *")
            {
                assert!(
                    said.contains("owner: ") && said.to_lowercase().contains("valid until"),
                    "{line}: {said}"
                );
            }
        }
    }
    assert_eq!((structs, functions), (12, 10));
}
