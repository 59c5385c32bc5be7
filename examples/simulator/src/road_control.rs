//! The gearbox controller during a drive: when it shifts and what it asks of the clutches.

use crate::feed::{Command, Feed};
use crate::road::{ENGINE_INERTIA, GearSpan, RAD, Road, RoadLog};
use crate::traces::Mechanism::{self, Clutch1, Clutch2, Gear1, Gear2};

/// Phase of the controller's work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Phase {
    /// Waiting for the driver.
    Waiting,
    /// Moving off with a slipping clutch.
    Launch,
    /// One gear drives.
    InGear,
    /// The load passes to the other clutch.
    Transfer,
    /// The engine passes to the new gear's speed.
    Synchronise,
}

/// Speed to which the engine is limited, rpm.
const LIMIT: f64 = 4200.0;
/// Speed to which it is limited while moving off, rpm.
const LAUNCH_LIMIT: f64 = 2300.0;
/// Share of the driver's demand that the engine gives during a shift.
const SHIFT_TORQUE: f64 = 0.8;
/// Torque taken back per rad/s of unwanted slip, N m s/rad.
const SLIP_TORQUE: f64 = 1.1;
/// Time until the clutch carries the driver's demand when moving off, s.
const LAUNCH_RAMP: f64 = 0.3;
/// When the controller takes the vehicle as moving though the clutch still slips, s.
const LAUNCH_END: f64 = 2.4;
/// Torques with which the oncoming and the offgoing clutch hold in a tie-up, as shares of the demand: the engine
/// goes slowly from one shaft's speed to the other's while both brake the vehicle.
const TIED: [f64; 2] = [6.0, 4.6];
/// Slip that counts as none, rad/s.
const LOCKED: f64 = 2.5;
/// Time from a shift to the selection of the next gear on the free shaft, s.
const PRESELECT: f64 = 0.5;

pub(crate) struct Control {
    phase: Phase,
    since: f64,
    gear: usize,
    gap: f64,
    held_until: f64,
    sought: Option<(usize, f64)>,
    engaged: [Option<usize>; 2],
    capacity: [f64; 2],
    log: RoadLog,
}

fn shaft_of(gear: usize) -> usize {
    gear % 2
}

const CLUTCH: [Mechanism; 2] = [Clutch1, Clutch2];
const GEAR: [Mechanism; 2] = [Gear1, Gear2];

impl Control {
    pub fn new(road: &Road) -> Self {
        Control {
            phase: Phase::Waiting,
            since: road.start_s,
            gear: 0,
            gap: 0.0,
            held_until: f64::NEG_INFINITY,
            sought: None,
            engaged: [Some(0), (road.ratios.len() > 1).then_some(1)],
            capacity: [0.0; 2],
            log: RoadLog::default(),
        }
    }

    /// Torque capacity of the clutches, N m.
    pub fn capacity(&self) -> [f64; 2] {
        self.capacity
    }

    /// The gear that is engaged on each shaft.
    pub fn engaged(&self) -> [Option<usize>; 2] {
        self.engaged
    }

    /// The gear to whose speed a shaft is being brought.
    pub fn synchronising(&self, shaft: usize) -> Option<usize> {
        self.sought
            .filter(|(gear, _)| shaft_of(*gear) == shaft)
            .map(|(gear, _)| gear)
    }

    /// Torque of the engine, N m.
    pub fn engine_torque(&self, road: &Road, engine: f64, input: &[f64; 2]) -> f64 {
        let limit = |rpm: f64| ((rpm - engine / RAD) / 400.0).clamp(0.0, 1.0);
        let slip = engine - input[shaft_of(self.gear)];
        let cut = |beyond: f64| SLIP_TORQUE * (slip - beyond).max(0.0);
        match self.phase {
            Phase::Waiting => 2.0 * (road.idle_rpm * RAD - engine),
            Phase::Launch => limit(LAUNCH_LIMIT) * road.demand,
            Phase::InGear => limit(LIMIT) * (road.demand - cut(LOCKED)).max(0.0),
            Phase::Transfer => limit(LIMIT) * SHIFT_TORQUE * road.demand,
            Phase::Synchronise => {
                limit(LIMIT) * (SHIFT_TORQUE * road.demand - cut(self.gap)).max(0.0)
            }
        }
    }

    /// Decides what to do at `t`.
    pub fn advance(&mut self, road: &Road, t: f64, engine: f64, input: &[f64; 2], feed: &mut Feed) {
        let (on, age) = (shaft_of(self.gear), t - self.since);
        let slip = engine - input[on];
        match self.phase {
            Phase::Waiting if t >= road.launch_s => {
                feed.order(Command::new(t, CLUTCH[on], 1.0));
                self.enter(Phase::Launch, t);
            }
            Phase::Waiting => {}
            Phase::Launch => {
                let wanted = road.demand * (age / LAUNCH_RAMP).min(1.0);
                self.capacity[on] = wanted.min(road.clutch_limit[on]);
                if age > LAUNCH_RAMP && slip < LOCKED || age > LAUNCH_END {
                    self.drive(t);
                }
            }
            Phase::InGear => {
                self.capacity[on] = (3.0 * road.demand).min(road.clutch_limit[on]);
                self.preselect(road, t, age, feed);
                if age > road.in_gear_s && self.gear + 1 < road.ratios.len() {
                    self.begin_shift(road, t, feed);
                }
            }
            Phase::Transfer => {
                let done = (age / road.torque_phase_s).min(1.0);
                let wanted = SHIFT_TORQUE * road.demand;
                self.capacity[on] = (done * wanted).min(road.clutch_limit[on]);
                self.hold_or_open(road, t, 1.5 * (1.0 - done) * wanted);
                if done >= 1.0 {
                    self.gap = slip;
                    self.log.shifts.push((t, t));
                    self.enter(Phase::Synchronise, t);
                }
            }
            Phase::Synchronise => {
                let pull = ENGINE_INERTIA * self.gap / road.inertia_phase_s;
                let wanted = SHIFT_TORQUE * road.demand + pull.max(0.0);
                self.capacity[on] = wanted.min(road.clutch_limit[on]);
                self.hold_or_open(road, t, 0.0);
                if slip < LOCKED || age > 2.0 * road.inertia_phase_s {
                    if let Some(shift) = self.log.shifts.last_mut() {
                        shift.1 = t;
                    }
                    self.drive(t);
                }
            }
        }
        if self.phase == Phase::InGear {
            self.hold_or_open(road, t, 0.0);
        }
    }

    /// The controller's log once the drive is over.
    pub fn into_log(self) -> RoadLog {
        self.log
    }

    fn enter(&mut self, phase: Phase, t: f64) {
        self.phase = phase;
        self.since = t;
    }

    fn drive(&mut self, t: f64) {
        self.enter(Phase::InGear, t);
        self.log.gears.push(GearSpan {
            gear: self.gear,
            from_s: t,
            to_s: f64::NEG_INFINITY,
        });
    }

    /// Selects the next gear on the shaft that is free.
    fn preselect(&mut self, road: &Road, t: f64, age: f64, feed: &mut Feed) {
        let next = self.gear + 1;
        let shaft = shaft_of(next);
        if next >= road.ratios.len() || self.engaged[shaft] == Some(next) || t < self.held_until {
            return;
        }
        match self.sought {
            None if age > PRESELECT => {
                feed.order(Command::new(
                    t,
                    GEAR[shaft],
                    if next % 4 < 2 { 0.0 } else { 1.0 },
                ));
                self.engaged[shaft] = None;
                self.sought = Some((next, t));
            }
            Some((gear, since)) if t - since > 0.25 => {
                self.engaged[shaft] = Some(gear);
                self.sought = None;
            }
            _ => {}
        }
    }

    fn begin_shift(&mut self, road: &Road, t: f64, feed: &mut Feed) {
        if self.engaged[shaft_of(self.gear + 1)] != Some(self.gear + 1) {
            return;
        }
        if let Some(span) = self.log.gears.last_mut() {
            span.to_s = t;
        }
        let index = self.gear;
        feed.order(Command::new(t, CLUTCH[shaft_of(index + 1)], 1.0));
        match road.tie_up.filter(|(shift, _)| *shift == index) {
            Some((_, long)) => {
                let from = t + road.torque_phase_s;
                self.held_until = from + long;
                feed.order(Command::new(from + long, CLUTCH[shaft_of(index)], 0.0));
                self.log.tied_up = Some((from, from + long));
            }
            None => feed.order(Command::new(t + 0.06, CLUTCH[shaft_of(index)], 0.0)),
        }
        self.gear += 1;
        self.enter(Phase::Transfer, t);
    }

    /// Opens the clutch that does not drive to `capacity`, unless both stay closed where they should not.
    fn hold_or_open(&mut self, road: &Road, t: f64, capacity: f64) {
        self.capacity[1 - shaft_of(self.gear)] = capacity;
        if t < self.held_until && self.phase != Phase::Transfer {
            let on = shaft_of(self.gear);
            self.capacity[on] = TIED[0] * road.demand;
            self.capacity[1 - on] = TIED[1] * road.demand;
        }
    }
}
