//! Times as whole numbers, before 1970 too: a machine without a battery for its clock may start there.

use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// Milliseconds since 1970-01-01 UTC, negative before it.
pub(crate) fn to_millis(at: SystemTime) -> i64 {
    whole(at, |d| d.as_millis())
}

/// Time from milliseconds since 1970-01-01 UTC.
pub(crate) fn from_millis(millis: i64) -> SystemTime {
    shift(millis, Duration::from_millis)
}

/// Nanoseconds since 1970-01-01 UTC, negative before it.
pub(crate) fn to_nanos(at: SystemTime) -> i64 {
    whole(at, |d| d.as_nanos())
}

/// Time from nanoseconds since 1970-01-01 UTC.
pub(crate) fn from_nanos(nanos: i64) -> SystemTime {
    shift(nanos, Duration::from_nanos)
}

fn whole(at: SystemTime, unit: fn(Duration) -> u128) -> i64 {
    match at.duration_since(UNIX_EPOCH) {
        Ok(since) => i64::try_from(unit(since)).unwrap_or(i64::MAX),
        Err(e) => i64::try_from(unit(e.duration())).map_or(i64::MIN, |n| -n),
    }
}

fn shift(count: i64, unit: fn(u64) -> Duration) -> SystemTime {
    let span = unit(count.unsigned_abs());
    let shifted = match count < 0 {
        true => UNIX_EPOCH.checked_sub(span),
        false => UNIX_EPOCH.checked_add(span),
    };
    shifted.unwrap_or(UNIX_EPOCH)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_before_1970_come_back_as_they_were() {
        // By hand: 1969-12-31 23:59:58.5 UTC is 1500 ms before the epoch.
        let early = UNIX_EPOCH - Duration::from_millis(1500);
        assert_eq!(to_millis(early), -1500);
        assert_eq!(to_nanos(early), -1_500_000_000);
        for at in [early, UNIX_EPOCH, UNIX_EPOCH + Duration::from_millis(1)] {
            assert_eq!(from_millis(to_millis(at)), at);
            assert_eq!(from_nanos(to_nanos(at)), at);
        }
        assert_eq!(
            from_nanos(i64::MIN),
            UNIX_EPOCH - Duration::from_nanos(1 << 63)
        );
    }
}
