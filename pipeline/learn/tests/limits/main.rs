//! Limits that proven jobs set: by how many vehicles, never by a few odd ones, never by the job itself.

mod shared;

use baybrief_learn::exchange::{self, KnownGood};
use baybrief_learn::sheet::{Adoption, Change, Origin, Own, Proposal, Reason, Wording, propose};
use baybrief_learn::unit::vehicle_id;
use baybrief_learn::{InForce, Job, LearnedSheet};
use model::limits_sheet::{LimitValue, LimitsSheet};
use model::outcome::Found;
use shared::{LIMIT, at, found, healthy, job, samples_of, spread, standing};

fn proposal(jobs: &[Job]) -> Proposal {
    let mut all = propose(&samples_of(jobs), Own::default(), &standing);
    assert_eq!(all.len(), 1, "{all:?}");
    all.remove(0)
}

fn adopted(jobs: &[Job]) -> Option<LearnedSheet> {
    let adoption = Adoption {
        by: "A. Technician",
        at: at(5),
        program: "0.1.0",
        named: None,
        included: &[],
    };
    adoption.of(&[&proposal(jobs)], None)
}

/// Limit in force for a job, the learned one or the one that stands.
fn limit_for(sheet: &LearnedSheet, job: &Job) -> LimitValue {
    let (in_force, stale) = InForce::new(vec![sheet.clone()], &standing);
    assert_eq!(stale, Vec::<String>::new());
    let stands = standing(&sheet.key, LIMIT).expect("a limit");
    let base = LimitsSheet {
        name: "pump-9".into(),
        value: [(LIMIT.to_owned(), stands.clone())].into(),
        ..LimitsSheet::default()
    };
    let vehicle = vehicle_id(&job.case.vehicle, &job.name);
    let learned = in_force.limits(&sheet.key, &vehicle, &base);
    learned.map_or(stands, |s| s.value[LIMIT].clone())
}

/// Wilks: 59 values carry one bound of 95 % coverage at 95 % confidence, 58 do not.
#[test]
fn fewer_than_59_vehicles_propose_and_do_not_move() {
    let few = proposal(&spread(58, 1.0, 3.0));
    assert!(!few.is_carried() && few.needed == 59);
    assert!((few.confidence - 0.948_95).abs() < 1e-5);
    assert_eq!(adopted(&spread(58, 1.0, 3.0)), None);
    let sheet = adopted(&spread(59, 1.0, 3.0)).expect("adopted");
    let value = &sheet.value[LIMIT];
    assert_eq!(
        (value.high, value.vehicles, value.by_word),
        (Some(3.0), 59, false)
    );
    assert!(
        value
            .source
            .starts_with("measured on 59 recordings of 59 vehicles of this shop, 2026-03"),
        "{}",
        value.source
    );
    assert!(
        value.source.contains("95.2 % confidence"),
        "{}",
        value.source
    );
}

/// Coverage in the long run, on a distribution that the method knows nothing of: of many shops with 59 vehicles each,
/// at least 95 % get a limit that holds 95 % of all units.
#[test]
fn the_promised_confidence_is_kept() {
    let mut state = 1_u64;
    let mut uniform = || {
        // SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, 2014).
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    };
    let shops = 200;
    let mut kept = 0;
    for _ in 0..shops {
        // An even spread from 2.2 to 3.2 s: the limit holds the share of units below it.
        let jobs: Vec<Job> = (0..59).map(|i| healthy(i, &[2.2 + uniform()])).collect();
        let sheet = adopted(&jobs).expect("adopted");
        kept += usize::from(sheet.value[LIMIT].high.expect("a bound") - 2.2 >= 0.95);
    }
    // 95.15 % of 200 are 190.3; three standard deviations below are 181.
    assert!(kept >= 181, "{kept} of {shops}");
}

#[test]
fn a_limit_is_not_narrowed_without_a_persons_word() {
    let jobs = spread(100, 0.5, 1.0);
    let p = proposal(&jobs);
    assert_eq!(p.bounds[0].change(), Change::Narrower);
    assert_eq!(p.reasons(&p.bounds[0]), [Reason::Narrower]);
    assert_eq!(p.adopted(Wording::Unnamed), None);
    let value = p.adopted(Wording::Named).expect("by word");
    assert!(value.by_word && value.high < Some(1.01), "{value:?}");
    assert!(
        value.source.ends_with("taken at a person's word"),
        "{}",
        value.source
    );
}

#[test]
fn jobs_of_one_vehicle_count_once() {
    let mut jobs = spread(58, 1.0, 3.0);
    for i in 0..20 {
        let again = job(&format!("K-{i}"), "VIN3", &[2.5], &[]);
        jobs.push(found(again, Found::Healthy, false));
    }
    let p = proposal(&jobs);
    assert_eq!((p.vehicles.len(), p.recordings()), (58, 78));
    assert!(!p.is_carried());
}

#[test]
fn a_verdict_alone_proves_nothing_and_a_mended_recording_is_marked() {
    // Nobody said what was found: no sample. Not opened, or only the part known to be sound: none either.
    assert!(samples_of(&[job("J-1", "V1", &[1.0], &[])]).is_empty());
    for what in [Found::NotOpened, Found::PartSound, Found::Confirmed] {
        let one = found(job("J-1", "V1", &[1.0], &[]), what, false);
        assert!(samples_of(&[one]).is_empty());
    }
    // The recording after the repair is healthy: good by the limit in force alone.
    let judged = samples_of(&[job("J-1", "V1", &[3.0], &[1.0, 1.2])]);
    assert_eq!(judged.len(), 1);
    assert!(judged[0].is_judged && judged[0].values == [1.0, 1.2]);
    // A person says that it is mended: good, whatever the limit says of it.
    let mended = found(job("J-1", "V1", &[3.0], &[2.4]), Found::Confirmed, true);
    let said = samples_of(&[mended]);
    assert!(!said[0].is_judged && said[0].values == [2.4]);
    // A person found the condemned part sound: the comparison of before and after proves nothing then.
    let sound = found(job("J-1", "V1", &[3.0], &[1.0]), Found::PartSound, false);
    assert!(samples_of(&[sound]).is_empty());
}

/// What is called good by a limit cannot be used to narrow that limit unnoticed.
#[test]
fn a_limit_from_jobs_that_it_judged_is_flagged() {
    let jobs: Vec<Job> = (0..70)
        .map(|i| {
            job(
                &format!("J-{i}"),
                &format!("V{i}"),
                &[3.0],
                &[1.0 + 0.01 * i as f64],
            )
        })
        .collect();
    let p = proposal(&jobs);
    assert_eq!(p.judged(), 70);
    assert_eq!(
        p.reasons(&p.bounds[0]),
        [Reason::Narrower, Reason::Judged(70)]
    );
    let value = p.adopted(Wording::Named).expect("by word");
    assert!(
        value
            .source
            .contains("70 of them called good by the former limit alone")
    );
}

/// A job's own values take no part in its limits: its own limit is that of the others, and with one vehicle less than
/// needed it is the one that stood before.
#[test]
fn a_job_is_not_judged_by_its_own_values() {
    let mut jobs = spread(80, 2.1, 3.0);
    jobs.push(healthy(900, &[3.2]));
    let sheet = adopted(&jobs).expect("adopted");
    assert_eq!(sheet.value[LIMIT].high, Some(3.2));
    let stranger = healthy(901, &[2.9]);
    assert_eq!(limit_for(&sheet, &stranger).high, Some(3.2));
    let own = limit_for(&sheet, &jobs[80]);
    assert_eq!(own.high, Some(3.0));
    assert!(
        own.source.ends_with("without this vehicle's own"),
        "{}",
        own.source
    );
    // Another job of the same vehicle is no stranger.
    let again = job("K-1", "vin-900", &[3.2], &[]);
    assert_eq!(limit_for(&sheet, &again).high, Some(3.0));
    let least = spread(59, 2.1, 3.0);
    let sheet = adopted(&least).expect("adopted");
    assert_eq!(limit_for(&sheet, &least[0]).high, Some(2.0));
}

/// One in ten outcomes is wrong, by chance or in a cluster, near or far: the limit does not move.
#[test]
fn one_in_ten_wrong_outcomes_move_no_limit() {
    for odd in [2.05, 2.3, 3.0, 50.0] {
        for n in [90, 180, 900] {
            let mut jobs = spread(n, 1.0, 1.9);
            jobs.extend((0..n / 9).map(|i| healthy(10_000 + i, &[odd + 0.001 * i as f64])));
            assert_eq!(adopted(&jobs), None, "{odd} s, {n} jobs");
        }
    }
}

/// Where a unit is truly different, a tenth of wrong outcomes far away is left out and shown.
#[test]
fn odd_vehicles_are_left_to_a_person() {
    let mut jobs = spread(90, 2.1, 2.6);
    jobs.extend((0..10).map(|i| healthy(10_000 + i, &[9.0])));
    let p = proposal(&jobs);
    assert_eq!((p.vehicles.len(), p.outliers.len()), (90, 10));
    assert!(p.outliers.iter().all(|v| v.range.high == 9.0));
    let sheet = adopted(&jobs).expect("adopted");
    assert!(sheet.value[LIMIT].high < Some(2.61));
    // A person knows one of them to be good.
    let included = ["J-10003".to_owned()];
    let own = Own {
        included: &included,
    };
    let p = propose(&samples_of(&jobs), own, &standing).remove(0);
    assert_eq!((p.vehicles.len(), p.outliers.len()), (91, 9));
}

#[test]
fn a_learned_limit_ends_with_the_limit_that_it_replaced() {
    let sheet = adopted(&spread(60, 2.1, 3.0)).expect("adopted");
    let other = |_: &baybrief_learn::UnitKey, _: &str| {
        Some(LimitValue {
            high: Some(2.5),
            unit: "s".into(),
            ..LimitValue::default()
        })
    };
    let (in_force, stale) = InForce::new(vec![sheet], &other);
    assert_eq!(stale.len(), 1, "{stale:?}");
    assert!(in_force.sheets()[0].value.is_empty());
}

#[test]
fn a_sheet_survives_its_file() {
    let sheet = adopted(&spread(59, 2.1, 3.0)).expect("adopted");
    let text = toml::to_string(&sheet).expect("TOML");
    let read: LearnedSheet = toml::from_str(&text).expect("reads");
    assert_eq!(read, sheet);
    assert!(text.contains("[value.run-time]"), "{text}");
}

fn shared(n: usize) -> KnownGood {
    exchange::export(
        &samples_of(&spread(n, 2.1, 3.0)),
        Vec::new(),
        ("0.1.0", "2026-03"),
        &standing,
    )
}

/// Nothing that tells of a person or a vehicle leaves: only values, counts, the kind of unit and months.
#[test]
fn what_is_given_away_names_nobody() {
    let text = serde_json::to_string(&shared(60)).expect("JSON");
    for private in [
        "VIN",
        "J-1",
        "Technician",
        "\"vehicle\"",
        "2026-03-",
        "before.csv",
    ] {
        assert!(!text.contains(private), "{private} in {text}");
    }
    assert!(
        shared(4).values.is_empty(),
        "too few vehicles to hide among"
    );
    let back = exchange::parse(text.as_bytes()).expect("reads");
    assert_eq!(back, shared(60));
    let torn = text.replace("baybrief.known-good/1", "baybrief.known-good/9");
    assert!(exchange::parse(torn.as_bytes()).is_err());
}

/// Another shop's vehicles count half, never narrow a limit, and yield to one's own.
#[test]
fn another_shops_values_weigh_less() {
    let origin = Origin {
        name: "hill-road".into(),
        key: "k".into(),
    };
    let of = |n| exchange::proposals(&shared(n), &origin, &standing).remove(0);
    assert!(!of(117).is_carried() && of(118).is_carried() && of(118).needed == 118);
    let value = of(118).adopted(Wording::Unnamed).expect("adopted");
    assert!(
        value.source.contains("of the shop hill-road (key k)"),
        "{}",
        value.source
    );
    let narrow = exchange::export(
        &samples_of(&spread(200, 0.5, 1.0)),
        Vec::new(),
        ("0.1.0", "2026-03"),
        &standing,
    );
    let narrow = exchange::proposals(&narrow, &origin, &standing).remove(0);
    assert_eq!(narrow.adopted(Wording::Named), None);
    // One's own sheet comes first.
    let adoption = Adoption {
        by: "A. Technician",
        at: at(6),
        program: "0.1.0",
        named: None,
        included: &[],
    };
    let foreign = adoption.of(&[&of(200)], None).expect("adopted");
    let own = adopted(&spread(70, 2.1, 2.5)).expect("adopted");
    let (in_force, _) = InForce::new(vec![foreign.clone(), own.clone()], &standing);
    let base = LimitsSheet::default();
    let limits = in_force.limits(&own.key, "nobody", &base).expect("limits");
    assert_eq!(limits.value[LIMIT].high, own.value[LIMIT].high);
}
