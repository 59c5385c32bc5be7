//! Recordings that cannot carry a decision, and recordings whose evidence was taken away or misstated.

use crate::decoys::idle_bench;
use crate::draft::{Capture, Draft, FileKind, TimeUnitIs, capture, codes, verdict};
use crate::jams::{jam_feed, jam_feed_in};
use crate::measures::{self, shaft_name};
use crate::params::Params;
use crate::scenario::Scenario;
use crate::standstill::{
    cause, drag_bench, drag_capture, drag_codes, drag_stall, healthy, healthy_in, mild_capture,
    relearn, take_away, which,
};
use simulator::csv::{TimeStyle, TimeUnit};
use simulator::recorder::{Clamp, Probe};
use simulator::scan_text::ScanCode;

/// Fault of a clamp or of what is said of it.
#[derive(Debug, Clone, Copy)]
pub enum ClampFault {
    /// Not zeroed.
    Offset,
    /// The wrong way round.
    Reversed,
    /// Beyond the recorder's range.
    Clipped,
}

/// A healthy relearn through a clamp that lies.
pub fn clamp(p: &mut Params, fault: ClampFault) -> Draft {
    let mut scenario = Scenario::standstill(p);
    match fault {
        ClampFault::Offset => {
            let sign = p.pick("offset's sign", &[-1.0, 1.0]);
            scenario.clamp.offset = sign * p.between("offset", 4.0, 15.0);
        }
        ClampFault::Reversed => scenario.clamp.reversed = true,
        ClampFault::Clipped => {
            scenario.clamp = Clamp {
                range: p.between("clipped range", 5.0, 9.0),
                noise: 0.03,
                ..scenario.clamp
            };
        }
    }
    let mut bench = idle_bench(&scenario, p);
    let end = relearn(&mut bench, p, scenario.start_s + 0.7);
    bench.duration_s = end + 0.8 - scenario.start_s;
    let probes = scenario.plan(false, false);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[]);
    capture.measures = vec![measures::present(
        "signal-quality",
        Some("supply-current"),
        true,
    )];
    capture.forbidden.clear();
    let said = codes(p, &[("P0810", "00")]);
    let states = ["open", "nothing-found", "probable"];
    let causes = ["relearn-not-completed".to_string()];
    unusable(capture, said, &states, &causes)
        .noted("a recording problem: 'open' is expected, the true answer is tolerated")
}

fn unusable(capture: Capture, said: Vec<ScanCode>, states: &[&str], causes: &[String]) -> Draft {
    Draft::new(capture, said, verdict(states, causes, "forbidden")).complete()
}

/// A drag that is sampled so slowly that the teeth cannot be counted.
pub fn undersampled(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::standstill(p), which(p));
    // Less than two samples in a tooth's period at the drag's speed.
    let teeth_hz = 0.3 * scenario.idle / 60.0 * f64::from(scenario.shaft[k].wheel.positions);
    scenario.rate_hz = (1.6 * teeth_hz).floor();
    let mut capture = mild_capture(&scenario, p, k);
    capture.measures.clear();
    capture
        .forbidden
        .retain(|f| f.kind == "shaft-turning-at-rest");
    let said = codes(p, &drag_codes(k));
    let causes = [cause("clutch", k, "drag")];
    unusable(capture, said, &["open", "probable"], &causes)
        .noted("the tooth rate is beyond half the sample rate: no speed may be claimed")
}

/// Too short a record, in which nothing happens.
pub fn short(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    let mut bench = idle_bench(&scenario, p);
    bench.duration_s = p.between("short record", 0.2, 0.5);
    let probes = scenario.plan(false, false);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture.measures = vec![measures::present("signal-quality", None, true)];
    let said = codes(p, &[("P080A", "00")]);
    unusable(capture, said, &["open"], &[]).noted("less than half a second, nothing happens in it")
}

/// A shaft turns, but nobody says whether the engine runs or where the selector stands.
pub fn nothing_known(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut bench = idle_bench(&scenario, p);
    bench.shafts[k].drag = bench.shafts[k].drag_for(0.3, scenario.idle);
    bench.spinning[k] = 0.3 * scenario.idle;
    bench.duration_s = 7.0;
    let probes = scenario.plan(false, false);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[1 - k]);
    capture.selector = None;
    capture.engine = None;
    let said = codes(p, &[("P080A", "00")]);
    let mut draft = unusable(capture, said, &["open"], &[]);
    draft.live = false;
    draft.noted("neither engine nor selector is known: turning alone proves nothing")
}

/// One of three plain scenes: a drag with a stall, a jam on the feed, health.
fn scene(p: &mut Params) -> (usize, Draft) {
    let which = p.index("scene", 3);
    let draft = match which {
        0 => drag_stall(p),
        1 => jam_feed(p),
        _ => healthy(p),
    };
    (which, draft.complete())
}

/// Amperes cannot be known, so no measure in amperes or ohms is wanted.
fn without_amperes(draft: &mut Draft) {
    for capture in &mut draft.captures {
        for m in &mut capture.measures {
            let amperes = |unit: Option<&str>| matches!(unit, Some("A" | "ohm"));
            m.fields.retain(|_, w| !amperes(w.unit.as_deref()));
        }
        capture.measures.retain(|m| !m.fields.is_empty());
    }
}

/// job.toml states a clamp factor that is wrong by 10 or 100, or with the wrong sign; of a current that is recorded in
/// amperes, a scale.
pub fn wrong_factor(p: &mut Params) -> Draft {
    let factor = p.pick("stated factor", &[0.01, 0.1, 10.0, 100.0, -1.0]);
    let (which, mut draft) = scene(p);
    for c in draft.captures[0].recording.channels.iter_mut() {
        if c.role.contains("current") {
            match &mut c.section.amps_per_volt {
                Some(stated) => *stated *= factor,
                None => c.section.scale = Some(factor),
            }
        }
    }
    without_amperes(&mut draft);
    draft.captures[0].forbidden.clear();
    draft.verdict = verdict(&["open", "probable"], &draft.verdict.causes, "forbidden");
    if which == 2 {
        draft.verdict.states = vec!["open".into(), "nothing-found".into()];
    }
    draft.noted("a factor that no such unit can show: 'open' is expected, never a teardown")
}

/// Neither file nor job.toml gives units or factors: numbers only.
pub fn no_units(p: &mut Params) -> Draft {
    let (which, mut draft) = scene(p);
    let capture = &mut draft.captures[0];
    capture.file = FileKind::Unitless;
    for c in &mut capture.recording.channels {
        c.section.amps_per_volt = None;
    }
    without_amperes(&mut draft);
    let (states, teardown): (&[&str], _) = match which {
        // The rotation rests on voltages that may be read as volts.
        0 => (&["probable", "established", "open"], "either"),
        1 => (&["probable", "open"], "forbidden"),
        _ => (&["open", "nothing-found"], "forbidden"),
    };
    draft.verdict = verdict(states, &draft.verdict.causes, teardown);
    draft.noted("no unit, no factor: no limit in amperes applies")
}

/// A time column without unit whose steps are whole numbers: a counter, milliseconds or seconds.
pub fn time_unknown(p: &mut Params) -> Draft {
    let (_, mut draft) = scene(p);
    thin(&mut draft, p);
    let time = TimeUnitIs {
        unit: TimeUnit::Milliseconds,
        stated: None,
    };
    let capture = &mut draft.captures[0];
    capture.file = FileKind::Time(TimeStyle::BareWhole, time);
    capture.measures.clear();
    capture.forbidden.clear();
    draft.verdict = verdict(&["open"], &[], "forbidden");
    draft
        .without_fault()
        .noted("whole steps without a unit: the unit must be asked for")
}

/// A time column without unit whose steps are fractions of a millisecond: read as seconds, every event lasts a thousand
/// times too long.
pub fn time_fraction_of_ms(p: &mut Params) -> Draft {
    let (_, mut draft) = scene(p);
    let time = TimeUnitIs {
        unit: TimeUnit::Milliseconds,
        stated: None,
    };
    let capture = &mut draft.captures[0];
    capture.file = FileKind::Time(TimeStyle::Bare, time);
    capture.measures.clear();
    capture.forbidden.clear();
    draft.verdict = verdict(&["open"], &[], "forbidden");
    draft
        .without_fault()
        .noted("fractions of milliseconds without a unit: no such unit moves so slowly")
}

/// Whole milliseconds with their unit stated in job.toml.
pub fn time_stated(p: &mut Params) -> Draft {
    let (_, mut draft) = scene(p);
    thin(&mut draft, p);
    let time = TimeUnitIs {
        unit: TimeUnit::Milliseconds,
        stated: Some(model::job_file::TimeUnit::Ms),
    };
    draft.captures[0].file = FileKind::Time(TimeStyle::BareWhole, time);
    draft.noted("job.toml states the unit of the time column")
}

/// A time column without unit whose steps are fractions of one: seconds, said so on the file's line.
pub fn time_fraction(p: &mut Params) -> Draft {
    let (_, mut draft) = scene(p);
    let time = TimeUnitIs {
        unit: TimeUnit::Seconds,
        stated: None,
    };
    draft.captures[0].file = FileKind::Time(TimeStyle::Bare, time);
    draft.noted("fractions without a unit: taken as seconds, said so")
}

/// A row counter stands beside a clock: the clock gives the time.
pub fn time_clock(p: &mut Params) -> Draft {
    let (_, mut draft) = scene(p);
    let time = TimeUnitIs {
        unit: TimeUnit::Seconds,
        stated: None,
    };
    draft.captures[0].file = FileKind::Time(TimeStyle::CounterAndClock, time);
    draft.noted("a counter beside a clock: the clock gives the time")
}

/// Thins the samples out to 1000 or 500 a second, so that whole milliseconds tell them apart; the shafts' sensors are
/// slow enough for it.
fn thin(draft: &mut Draft, p: &mut Params) {
    let to_hz = p.pick("thinned to", &[1000.0, 500.0]);
    for capture in &mut draft.captures {
        let r = &mut capture.recording;
        let ratio = r.rate_hz / to_hz;
        let count = (r.len() as f64 / ratio) as usize;
        for c in &mut r.channels {
            let at = |i: usize| c.values[((i as f64 * ratio) as usize).min(c.values.len() - 1)];
            c.values = (0..count).map(at).collect();
        }
        r.rate_hz = to_hz;
        // Teeth quicker than a third of the new rate cannot be told.
        capture
            .measures
            .retain(|m| !m.subject.as_deref().is_some_and(|s| s.contains("shaft")));
    }
    if !draft.verdict.states.contains(&"open".to_string()) {
        draft.verdict.states.push("open".into());
    }
    // Where the teeth cannot be told, a jam is a true answer, though not the whole one.
    if draft
        .true_cause
        .as_deref()
        .is_some_and(|c| c.ends_with("drag"))
    {
        let jams = ["actuation-jam", "clutch-actuator-jam"].map(String::from);
        draft.verdict.causes.extend(jams);
    }
}

/// job.toml names a unit that nobody knows: measurements, no causes.
pub fn unknown_unit(p: &mut Params) -> Draft {
    let units = ["six-speed-automatic", "dual-dry-cluch", "transfer-case"];
    let unit = p.pick("unknown unit", &units);
    let (_, mut draft) = scene(p);
    draft.unit = unit;
    draft.verdict = verdict(&["open"], &[], "forbidden");
    draft
        .without_fault()
        .noted("no limits of such a unit: measurements, never causes")
}

/// The shafts' channels are flat (0.000 V) and their codes say "no signal"; a clutch drags and its actuator stalls.
pub fn flat_sensors(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let bench = drag_bench(&scenario, p, k);
    let noise = p.pick("recorder's own noise", &[0.0, 0.0, 0.001, 0.01]);
    let mut probes = scenario.plan(p.chance("supply recorded", 0.5), false);
    for (j, s) in scenario.shaft.iter().enumerate() {
        probes[1 + j] = Probe::NotConnected(j, s.clone(), noise);
    }
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    for j in 0..2 {
        capture
            .forbidden
            .push(measures::forbidden("shaft-at-rest", Some(shaft_name(j))));
    }
    let said = codes(p, &[("P0717", "31"), ("P2767", "31")]);
    let states = ["open", "probable", "established"];
    let causes = ["actuation-jam".to_string(), "clutch-actuator-jam".into()];
    let mut draft = unusable(capture, said, &states, &causes)
        .noted("flat channels prove nothing: neither rest nor a sensor's health");
    draft.untested = [0, 1]
        .iter()
        .flat_map(|&j| {
            [
                cause("clutch", j, "drag"),
                cause("shaft-sensor", j, "fault"),
            ]
        })
        .collect();
    draft
}

/// Interchanges the leads of two channels: each shows what the other is named for.
fn interchange(capture: &mut Capture, one: &str, other: &str) {
    let channels = &mut capture.recording.channels;
    let at = |role: &str| channels.iter().position(|c| c.role == role);
    if let (Some(a), Some(b)) = (at(one), at(other)) {
        let milli = |unit: &str| if unit == "mV" { 1000.0 } else { 1.0 };
        let factor = milli(channels[a].unit) / milli(channels[b].unit);
        let to_b: Vec<f64> = channels[a].values.iter().map(|v| v / factor).collect();
        channels[a].values = channels[b].values.iter().map(|v| v * factor).collect();
        channels[b].values = to_b;
    }
}

/// The leads of the feed's clamp and of a shaft's sensor are interchanged.
pub fn swapped_leads(p: &mut Params) -> Draft {
    let (_, mut draft) = scene(p);
    let shaft = shaft_name(which(p));
    let capture = &mut draft.captures[0];
    interchange(capture, "supply-current", shaft);
    capture.measures.clear();
    capture.forbidden.clear();
    draft.verdict = verdict(&["open"], &[], "forbidden");
    draft
        .without_fault()
        .noted("feed and shaft are interchanged: nothing may be concluded")
}

/// The leads of the two shafts are interchanged, and the clutch motors' own clamps contradict them.
pub fn swapped_shafts(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let bench = drag_bench(&scenario, p, k);
    let mut probes = scenario.plan(false, true);
    probes.extend(scenario.own(true));
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[]);
    interchange(&mut capture, shaft_name(0), shaft_name(1));
    capture
        .measures
        .retain(|m| !m.subject.as_deref().is_some_and(|s| s.contains("shaft")));
    let said = codes(p, &drag_codes(k));
    let causes = [
        cause("clutch-actuator", k, "jam"),
        cause("clutch", k, "drag"),
        cause("clutch", 1 - k, "drag"),
        "clutch-actuator-jam".into(),
        "actuation-jam".into(),
    ];
    unusable(capture, said, &["open", "probable"], &causes)
        .noted("the stalled actuator is not that of the turning shaft: leads or two faults")
}

/// Evidence that can be taken away.
#[derive(Debug, Clone, Copy)]
pub enum Evidence {
    /// The clamp on the feed.
    Feed,
    /// The sensor of the shaft that rests.
    OtherShaft,
    /// The engine's state and speed.
    Engine,
    /// The selector's position.
    Selector,
}

/// A drag with a stall of which one piece of evidence is taken away.
pub fn drag_without(p: &mut Params, evidence: Evidence) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut capture = match evidence {
        Evidence::Engine => {
            let mut bench = drag_bench(&scenario, p, k);
            bench.engine.crank = None;
            let probes = scenario.plan(false, false);
            crate::draft::capture(&scenario, p, &bench.run(), probes, &[1 - k])
        }
        _ => drag_capture(&scenario, p, k, |_| {}),
    };
    let other = shaft_name(1 - k);
    match evidence {
        Evidence::Feed => take_away(&mut capture, "supply-current"),
        Evidence::OtherShaft => take_away(&mut capture, other),
        Evidence::Engine => capture.engine = None,
        Evidence::Selector => capture.selector = None,
    }
    let said = codes(p, &drag_codes(k));
    let drag = cause("clutch", k, "drag");
    let jams = ["actuation-jam".to_string(), "clutch-actuator-jam".into()];
    let (verdict, untested) = match evidence {
        Evidence::Feed => {
            let untested = [
                "actuation-jam",
                "clutch-actuator-jam",
                "gear-actuator-jam",
                "actuator-open-circuit",
            ];
            let untested = untested.map(String::from).to_vec();
            (
                verdict(&["established", "probable", "open"], &[drag], "either"),
                untested,
            )
        }
        Evidence::OtherShaft => {
            let untested = vec![
                cause("clutch", 1 - k, "drag"),
                cause("shaft-sensor", 1 - k, "fault"),
            ];
            (
                verdict(&["established", "probable", "open"], &[drag], "either"),
                untested,
            )
        }
        // The jam is proven all the same; which mechanism is not.
        _ => {
            let causes = [&[drag][..], &jams].concat();
            (
                verdict(&["open", "probable", "established"], &causes, "forbidden"),
                Vec::new(),
            )
        }
    };
    let mut draft = Draft::new(capture, said, verdict).complete();
    draft.live = !matches!(evidence, Evidence::Engine | Evidence::Selector);
    draft.untested = untested;
    if matches!(evidence, Evidence::OtherShaft) {
        draft.verdict.causes.extend(jams);
    }
    draft.noted("a piece of evidence was taken away")
}

/// A healthy relearn without one of the shafts' sensors: what was not recorded is not cleared.
pub fn healthy_without_shaft(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p).with_hall(), which(p));
    let mut draft = healthy_in(&scenario, p).complete();
    take_away(&mut draft.captures[0], shaft_name(k));
    draft.captures[0]
        .forbidden
        .retain(|f| f.subject.as_deref() != Some(shaft_name(k)));
    draft.verdict = verdict(&["open", "nothing-found"], &[], "forbidden");
    draft.untested = vec![
        cause("clutch", k, "drag"),
        cause("shaft-sensor", k, "fault"),
    ];
    draft.noted("one shaft was not recorded: it is not cleared")
}

/// A healthy relearn without the clamp on the feed: no actuation was seen.
pub fn healthy_without_feed(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p).with_hall();
    let mut draft = healthy_in(&scenario, p).complete();
    take_away(&mut draft.captures[0], "supply-current");
    draft.verdict = verdict(&["open"], &[], "forbidden");
    let untested = [
        "actuation-jam",
        "clutch-actuator-jam",
        "actuator-open-circuit",
    ];
    draft.untested = untested.map(String::from).to_vec();
    draft.noted("no current was recorded: no actuator was tested")
}

/// A jam on the feed of which the shafts were not recorded: the jam stands, nothing is said of the clutches.
pub fn jam_without_shafts(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    let mut draft = jam_feed_in(&scenario, p).complete();
    for k in 0..2 {
        take_away(&mut draft.captures[0], shaft_name(k));
        draft.untested.push(cause("clutch", k, "drag"));
        draft.untested.push(cause("shaft-sensor", k, "fault"));
    }
    draft.verdict.states.push("open".into());
    draft.noted("no shaft was recorded")
}
