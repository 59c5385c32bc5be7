//! Checked reading, against the rules that `analysis_plugin.h` states.

use baybrief_plugin_abi::read::{self, FindingView};
use baybrief_plugin_abi::{
    Channel, Finding, MAX_NAME_BYTES, MAX_TEXT_BYTES, Str, emit, format, grade, has,
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

fn finding(f: &Finding) -> Result<FindingView<'_>, i32> {
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
        (view.subject, view.unit),
        (Some("input-shaft-2"), Some("rpm"))
    );
    let limit = view.limit.expect("a limit");
    assert_eq!(
        (limit.low, limit.high, limit.source),
        (None, Some(30.0), "spec sheet")
    );
    assert_eq!(view.grade, grade::UNUSABLE);
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
        (emit::BAD_CHOICE, set(&|f| f.grade = 3)),
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

/// `analysis_descriptor` as version 1.0 had it.
#[repr(C)]
#[derive(Clone, Copy)]
struct DescriptorOf10 {
    struct_size: u32,
    scope: u32,
    texts: [Str; 4],
    needs: *const Str,
    uses: *const Str,
    needs_count: u32,
    uses_count: u32,
    analyze: Option<baybrief_plugin_abi::Analyze>,
}

/// A struct of an earlier version is read with zeros for what came later, one of a later version is cut down, and
/// nothing beyond `struct_size` is looked at.
#[test]
fn earlier_and_later_structs_are_read() {
    use baybrief_plugin_abi::Descriptor;
    #[repr(C)]
    struct Two {
        known: DescriptorOf10,
        // What lies behind an earlier struct in its library: must not be taken for members.
        behind: [u64; 16],
    }
    let mut two = Two {
        known: DescriptorOf10 {
            struct_size: size_of::<DescriptorOf10>() as u32,
            scope: 1,
            texts: [Str::new("one"), Str::new("two"), Str::EMPTY, Str::EMPTY],
            needs: ptr::null(),
            uses: ptr::null(),
            needs_count: 7,
            uses_count: 9,
            analyze: None,
        },
        behind: [u64::MAX; 16],
    };
    let read = |two: &Two| {
        // SAFETY: as large as struct_size says in every call below.
        unsafe { read::sized(ptr::from_ref(two).cast::<Descriptor>()) }
    };
    let earlier = read(&two).expect("1.0 is read");
    assert_eq!((earlier.scope, earlier.id.len), (1, 3));
    assert_eq!((earlier.needs_count, earlier.uses_count), (7, 9));
    assert!(earlier.gives.is_null() && earlier.takes.is_null() && earlier.texts.is_null());
    assert_eq!(
        (
            earlier.gives_count,
            earlier.takes_count,
            earlier.texts_count
        ),
        (0, 0, 0)
    );
    // An odd size leaves no half of a pointer.
    two.known.struct_size += 4;
    assert!(read(&two).expect("odd").gives.is_null());
    two.behind = [0; 16];
    two.known.struct_size = size_of::<Two>() as u32;
    assert!(read(&two).expect("later").gives.is_null());
    two.known.struct_size = size_of::<DescriptorOf10>() as u32 - 8;
    let error = read(&two).expect_err("too small");
    assert!(error.contains("version 1.0 needs at least 104"), "{error}");
}

#[test]
fn a_track_is_checked_member_by_member() {
    use baybrief_plugin_abi::{MAX_TRACK_VALUES, Track};
    let values = [800.0, f64::NAN, 812.5];
    let good = Track {
        struct_size: size_of::<Track>() as u32,
        reserved: 0,
        name: Str::new("input-shaft-1-rpm"),
        unit: Str::new("rpm"),
        start_s: -1.0,
        step_s: 0.02,
        values: values.as_ptr(),
        length: 3,
    };
    // SAFETY: a live struct whose pointers are good or null.
    let rule = |t: &Track| unsafe { read::track(t) }.map_err(|b| b.rule).err();
    let view = unsafe { read::track(&good) }.expect("good");
    assert_eq!(
        (view.name, view.unit, view.step_s),
        ("input-shaft-1-rpm", "rpm", 0.02)
    );
    assert_eq!(view.values.len(), 3);
    let infinite = [f64::INFINITY];
    for (bad, number) in [
        (
            Track {
                name: Str::new("Speed 1"),
                ..good
            },
            emit::BAD_TEXT,
        ),
        (
            Track {
                step_s: 0.0,
                ..good
            },
            emit::BAD_NUMBER,
        ),
        (
            Track {
                start_s: f64::NAN,
                ..good
            },
            emit::BAD_NUMBER,
        ),
        (
            Track {
                values: infinite.as_ptr(),
                length: 1,
                ..good
            },
            emit::BAD_NUMBER,
        ),
        (
            Track {
                values: ptr::null(),
                ..good
            },
            emit::BAD_STRUCT,
        ),
        (
            Track {
                reserved: 1,
                ..good
            },
            emit::BAD_STRUCT,
        ),
        (
            Track {
                length: MAX_TRACK_VALUES + 1,
                ..good
            },
            emit::TOO_MANY,
        ),
    ] {
        assert_eq!(rule(&bad), Some(number), "{bad:?}");
    }
}
