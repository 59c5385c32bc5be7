//! Checked reading, against the rules that `analysis_plugin.h` states.

use baybrief_plugin_abi::raw::{self, Channel, Finding};
use baybrief_plugin_abi::read;
use baybrief_plugin_abi::{
    Grade, Grid, KindDeclaration, MAX_NAME_BYTES, MAX_SERIES_VALUES, MAX_TEXT_BYTES,
    MessageDeclaration, NO_CHANNEL, Observation, Outputs, SeriesDeclaration, Str, Values, emit,
    format, grade, has,
};
use std::ptr;

fn good() -> Finding {
    Finding {
        struct_size: size_of::<Finding>() as u32,
        present: 0,
        grade: grade::NORMAL,
        reserved: 0,
        kind: Str::new("kind"),
        subject: Str::EMPTY,
        unit: Str::EMPTY,
        message: Str::new("message"),
        args_json: Str::EMPTY,
        start_s: f64::NAN,
        end_s: f64::NAN,
        value: f64::NAN,
        uncertainty: f64::NAN,
        limit_low: f64::NAN,
        limit_high: f64::NAN,
        limit_unit: Str::EMPTY,
        limit_source: Str::EMPTY,
    }
}

fn finding(f: &Finding) -> Result<Observation, i32> {
    // SAFETY: a live struct whose strings are literals or owned by the test.
    unsafe { read::finding(f) }.map_err(|b| b.rule)
}

#[test]
fn numbers_without_their_bit_are_not_read() {
    let f = good();
    let view = finding(&f).expect("good");
    assert_eq!((view.value, view.start_s, view.limit), (None, None, None));
    assert_eq!((view.subject, view.unit), (None, None));
}

#[test]
fn everything_that_is_set_is_read() {
    let all = has::START | has::END | has::VALUE | has::UNCERTAINTY;
    let f = Finding {
        present: all | has::LIMIT | has::LIMIT_HIGH,
        grade: grade::UNUSABLE,
        subject: Str::new("input-shaft-2"),
        unit: Str::new("rpm"),
        start_s: -1.0,
        end_s: -1.0,
        value: 412.6,
        uncertainty: 0.0,
        limit_high: 30.0,
        limit_unit: Str::new("rpm"),
        limit_source: Str::new("spec sheet"),
        ..good()
    };
    let view = finding(&f).expect("good");
    assert_eq!((view.start_s, view.end_s), (Some(-1.0), Some(-1.0)));
    assert_eq!((view.value, view.uncertainty), (Some(412.6), Some(0.0)));
    assert_eq!(
        (view.subject.as_deref(), view.unit.as_deref()),
        (Some("input-shaft-2"), Some("rpm"))
    );
    let limit = view.limit.expect("a limit");
    assert_eq!(
        (limit.low, limit.high, limit.source.as_str()),
        (None, Some(30.0), "spec sheet")
    );
    assert_eq!(view.grade, Grade::Unusable);
}

#[test]
fn each_broken_rule_has_its_number() {
    let long_name = "a".repeat(MAX_NAME_BYTES as usize + 1);
    let long_text = "a".repeat(MAX_TEXT_BYTES as usize + 1);
    let bytes = [0xff_u8];
    let not_utf8 = Str {
        ptr: bytes.as_ptr(),
        len: 1,
    };
    let set = |change: &dyn Fn(&mut Finding)| {
        let mut f = good();
        change(&mut f);
        f
    };
    let span = has::START | has::END;
    let limits = has::LIMIT | has::LIMIT_LOW | has::LIMIT_HIGH;
    let cases = [
        (emit::BAD_STRUCT, set(&|f| f.struct_size -= 1)),
        (emit::BAD_STRUCT, set(&|f| f.struct_size = 0)),
        (emit::BAD_STRUCT, set(&|f| f.reserved = 1)),
        (emit::BAD_TEXT, set(&|f| f.kind = Str::EMPTY)),
        (emit::BAD_TEXT, set(&|f| f.kind = not_utf8)),
        (
            emit::BAD_TEXT,
            set(&|f| {
                f.kind = Str {
                    ptr: ptr::null(),
                    len: 4,
                }
            }),
        ),
        (emit::BAD_TEXT, set(&|f| f.kind = Str::new(&long_name))),
        (
            emit::BAD_TEXT,
            set(&|f| {
                f.kind = Str {
                    ptr: bytes.as_ptr(),
                    len: u64::MAX,
                }
            }),
        ),
        (emit::BAD_TEXT, set(&|f| f.message = Str::new("It turns."))),
        (emit::BAD_TEXT, set(&|f| f.args_json = Str::new(&long_text))),
        (
            emit::BAD_TEXT,
            set(&|f| (f.present, f.limit_source) = (has::LIMIT, not_utf8)),
        ),
        (emit::BAD_NUMBER, set(&|f| f.present = has::VALUE)),
        (
            emit::BAD_NUMBER,
            set(&|f| (f.present, f.value) = (has::VALUE, f64::INFINITY)),
        ),
        (
            emit::BAD_NUMBER,
            set(&|f| (f.present, f.start_s, f.end_s) = (span, 1.0, 0.9)),
        ),
        (
            emit::BAD_NUMBER,
            set(&|f| (f.present, f.uncertainty) = (has::UNCERTAINTY, -1.0)),
        ),
        (
            emit::BAD_NUMBER,
            set(&|f| (f.present, f.limit_low, f.limit_high) = (limits, 2.0, 1.0)),
        ),
        (emit::BAD_CHOICE, set(&|f| f.grade = 5)),
        (emit::BAD_CHOICE, set(&|f| f.present = 0x80)),
        (emit::BAD_CHOICE, set(&|f| f.present = has::LIMIT_LOW)),
    ];
    for (i, (rule, f)) in cases.iter().enumerate() {
        assert_eq!(finding(f).err(), Some(*rule), "case {i}");
    }
    // SAFETY: null is among what is checked.
    let null = unsafe { read::finding(ptr::null()) };
    assert_eq!(null.map_err(|b| b.rule), Err(emit::BAD_STRUCT));
}

#[test]
fn a_larger_struct_is_cut_down_and_a_misaligned_one_refused() {
    #[repr(C)]
    struct Later(Finding, [u64; 8]);
    let mut later = Later(good(), [7; 8]);
    later.0.struct_size = size_of::<Later>() as u32;
    assert_eq!(finding(&later.0).expect("good").kind, "kind");
    let odd = ptr::from_ref(&later).wrapping_byte_add(1).cast::<Finding>();
    // SAFETY: misalignment is among what is checked.
    assert!(unsafe { read::sized(odd) }.is_err());
}

#[test]
fn samples_are_checked_before_they_are_read() {
    let values = [1.0_f64, f64::NAN];
    let channel = Channel {
        struct_size: size_of::<Channel>() as u32,
        sample_format: format::F64,
        quantity: 0,
        reserved: 0,
        role: Str::EMPTY,
        name: Str::EMPTY,
        unit: Str::EMPTY,
        samples: values.as_ptr().cast(),
        length: 2,
        scale: 1.0,
        offset: 0.0,
        start_s: 0.0,
        step_s: 1.0,
        times_s: ptr::null(),
    };
    // SAFETY: `values` lives; everything else is among what is checked.
    let read = |c: Channel| unsafe { read::samples(&c) };
    assert!(matches!(read(channel), Ok(read::Samples::F64([one, _])) if *one == 1.0));
    assert!(matches!(
        read(Channel {
            length: 0,
            samples: ptr::null(),
            ..channel
        }),
        Ok(read::Samples::F64([]))
    ));
    assert!(
        read(Channel {
            samples: ptr::null(),
            ..channel
        })
        .is_err()
    );
    assert!(
        read(Channel {
            sample_format: 3,
            ..channel
        })
        .is_err()
    );
    assert!(
        read(Channel {
            length: u64::MAX,
            ..channel
        })
        .is_err()
    );
    assert!(
        read(Channel {
            length: u64::MAX / 8,
            ..channel
        })
        .is_err()
    );
    let odd = channel.samples.wrapping_byte_add(1);
    assert!(
        read(Channel {
            samples: odd,
            ..channel
        })
        .is_err()
    );
}

/// A struct of a later version is cut down, and nothing beyond `struct_size` is looked at.
#[test]
fn later_structs_are_read_and_smaller_ones_are_not() {
    #[repr(C)]
    struct Later {
        known: raw::Kind,
        later: [u64; 16],
    }
    let mut later = Later {
        known: raw::Kind {
            struct_size: size_of::<Later>() as u32,
            reserved: 0,
            name: Str::new("shaft-speed"),
            unit: Str::new("rpm"),
        },
        later: [u64::MAX; 16],
    };
    let read = |later: &Later| {
        // SAFETY: as large as struct_size says in every call below.
        unsafe { read::sized(ptr::from_ref(later).cast::<raw::Kind>()) }
    };
    assert_eq!(read(&later).expect("later").unit.len, 3);
    later.known.struct_size = size_of::<raw::Kind>() as u32 + 4;
    assert_eq!(read(&later).expect("odd").name.len, 11);
    later.known.struct_size = size_of::<raw::Kind>() as u32 - 8;
    let error = read(&later).expect_err("too small");
    assert!(error.contains("version 2.0 needs at least 40"), "{error}");
}

fn column(name: &'static str, ty: u32, values: *const std::ffi::c_void) -> raw::Column {
    raw::Column {
        struct_size: size_of::<raw::Column>() as u32,
        r#type: ty,
        name: Str::new(name),
        unit: Str::new("Hz"),
        values,
    }
}

fn series(columns: &[*const raw::Column]) -> raw::Series {
    raw::Series {
        struct_size: size_of::<raw::Series>() as u32,
        form: raw::form::TABLE,
        name: Str::new("tooth-segments"),
        channel: 1,
        columns_count: columns.len() as u32,
        columns: columns.as_ptr(),
        rows: 2,
        start_s: f64::NAN,
        step_s: 0.0,
    }
}

#[test]
fn a_series_is_checked_member_by_member() {
    let (numbers, counts) = ([800.0, f64::NAN], [i64::MIN, 7]);
    let words = [Str::new("decay"), Str::EMPTY];
    let rate = column("rate", raw::column::F64, numbers.as_ptr().cast());
    let count = column("count", raw::column::I64, counts.as_ptr().cast());
    let word = column("ending", raw::column::TEXT, words.as_ptr().cast());
    let columns: [*const raw::Column; 3] = [&rate, &count, &word];
    let good = series(&columns);
    // SAFETY (both): live structs whose pointers are good or null.
    let read = |s: &raw::Series| unsafe { read::series(s) };
    let rule = |s: &raw::Series| unsafe { read::series(s) }.map_err(|b| b.rule).err();
    let view = read(&good).expect("good");
    assert_eq!(
        (view.name.as_str(), view.channel, view.rows()),
        ("tooth-segments", Some(1), 2)
    );
    assert_eq!(view.numbers("rate").expect("numbers")[0], 800.0);
    assert_eq!(view.counts("count"), Some(&counts[..]));
    assert_eq!(
        view.words("ending"),
        Some(&["decay".to_string(), String::new()][..])
    );
    assert_eq!((view.grid, view.numbers("ending")), (None, None));
    let track = raw::Series {
        form: raw::form::TRACK,
        channel: NO_CHANNEL,
        start_s: -1.0,
        step_s: 0.02,
        ..good
    };
    let view = read(&track).expect("a track");
    let grid = Grid {
        start_s: -1.0,
        step_s: 0.02,
    };
    assert_eq!((view.grid, view.channel), (Some(grid), None));

    let infinite = [1.0, f64::INFINITY];
    let infinite = column("rate", raw::column::F64, infinite.as_ptr().cast());
    let nothing = column("rate", raw::column::F64, ptr::null());
    let shouting = column("Rate", raw::column::F64, numbers.as_ptr().cast());
    let strange = column("rate", 9, numbers.as_ptr().cast());
    let one = |c: &raw::Column| rule(&series(&[ptr::from_ref(c)]));
    assert_eq!(one(&infinite), Some(emit::BAD_NUMBER));
    assert_eq!(one(&nothing), Some(emit::BAD_STRUCT));
    assert_eq!(one(&shouting), Some(emit::BAD_TEXT));
    assert_eq!(one(&strange), Some(emit::BAD_CHOICE));
    for (bad, number) in [
        (
            raw::Series {
                name: Str::new("Speed 1"),
                ..good
            },
            emit::BAD_TEXT,
        ),
        (raw::Series { form: 2, ..good }, emit::BAD_CHOICE),
        (
            raw::Series {
                step_s: 0.0,
                ..track
            },
            emit::BAD_NUMBER,
        ),
        (
            raw::Series {
                start_s: f64::NAN,
                ..track
            },
            emit::BAD_NUMBER,
        ),
        (
            raw::Series {
                columns: ptr::null(),
                ..good
            },
            emit::BAD_STRUCT,
        ),
        (
            raw::Series {
                rows: MAX_SERIES_VALUES,
                ..good
            },
            emit::TOO_MANY,
        ),
        (
            raw::Series {
                rows: u64::MAX,
                ..good
            },
            emit::TOO_MANY,
        ),
    ] {
        assert_eq!(rule(&bad), Some(number), "{bad:?}");
    }
}

#[test]
fn what_is_not_declared_is_refused() {
    let texts = |t: &[&str]| t.iter().map(|t| t.to_string()).collect::<Vec<_>>();
    let outputs = Outputs {
        kinds: vec![
            KindDeclaration {
                name: "shaft-speed".into(),
                units: texts(&["rpm", "Hz"]),
            },
            KindDeclaration {
                name: "seen".into(),
                units: Vec::new(),
            },
        ],
        messages: vec![MessageDeclaration {
            name: "speed".into(),
            args: texts(&["jitter"]),
        }],
        series: vec![SeriesDeclaration {
            name: "rate".into(),
            ..Default::default()
        }],
    };
    let check = |o: &Observation| outputs.check_finding(o);
    let speed = || Observation::new("shaft-speed", "speed");
    check(&speed()).expect("without a value");
    check(&speed().value(1.0, 0.1, "Hz").arg("jitter", 0.1)).expect("declared");
    check(&Observation::new("seen", "speed")).expect("a kind without a value");
    let no_unit = Observation {
        value: Some(1.0),
        ..speed()
    };
    for (bad, said) in [
        (Observation::new("other", "speed"), "kind other"),
        (speed().value(1.0, 0.1, "V"), "unit \"V\""),
        (no_unit, "unit \"\""),
        (
            Observation::new("seen", "speed").value(1.0, 0.1, "V"),
            "unit \"V\"",
        ),
        (Observation::new("seen", "other"), "message other"),
        (speed().arg("peak", 1), "argument peak"),
    ] {
        let refused = check(&bad).expect_err(said);
        assert!(refused.contains(said), "{refused}");
    }
    let columns: [*const raw::Column; 0] = [];
    let raw = raw::Series {
        name: Str::new("rate"),
        rows: 0,
        ..series(&columns)
    };
    // SAFETY: a live struct without columns.
    let declared = unsafe { read::series(&raw) }.expect("good");
    outputs.check_series(&declared).expect("declared");
    let mut other = declared.clone();
    other.columns.push(baybrief_plugin_abi::Column {
        name: "more".into(),
        unit: String::new(),
        values: Values::I64(Vec::new()),
    });
    assert!(outputs.check_series(&other).is_err());
    other = declared;
    other.grid = Some(Grid {
        start_s: 0.0,
        step_s: 1.0,
    });
    assert!(outputs.check_series(&other).is_err());
    other.name = "other".into();
    assert!(outputs.check_series(&other).is_err());
}
