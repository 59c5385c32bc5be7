//! Rounding of time and money by the rules of shop.toml. No other place rounds.

use model::shop_file::{BillingSection, HoursRounding, HoursUnit, MoneyRounding};
use rust_decimal::{Decimal, RoundingStrategy};

/// Decimals that hours are printed with where minutes do not make a whole tenth of an hour.
const HOUR_DIGITS: u32 = 6;
const MINUTES_PER_HOUR: Decimal = Decimal::from_parts(60, 0, 0, false, 0);

/// Rounding rule for working time.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TimeRule {
    pub(crate) direction: HoursRounding,
    pub(crate) unit: HoursUnit,
}

impl From<&BillingSection> for TimeRule {
    fn from(section: &BillingSection) -> TimeRule {
        TimeRule {
            direction: section.hours_rounding,
            unit: section.hours_unit,
        }
    }
}

/// Working time in whole minutes, already rounded: tenths of an hour are 6 of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct WorkTime {
    minutes: Decimal,
}

impl TimeRule {
    /// Rounds hours. Zero or more, at most [`crate::price_book::MAX_HOURS`].
    pub(crate) fn round_hours(self, hours: Decimal) -> WorkTime {
        self.round_minutes(hours * MINUTES_PER_HOUR)
    }

    /// Rounds minutes.
    pub(crate) fn round_minutes(self, minutes: Decimal) -> WorkTime {
        let unit = match self.unit {
            HoursUnit::Tenths => Decimal::from(6),
            HoursUnit::Minutes => Decimal::ONE,
        };
        let strategy = match self.direction {
            HoursRounding::Nearest => RoundingStrategy::MidpointAwayFromZero,
            HoursRounding::Up => RoundingStrategy::ToPositiveInfinity,
        };
        WorkTime {
            minutes: (minutes / unit).round_dp_with_strategy(0, strategy) * unit,
        }
    }
}

impl WorkTime {
    pub(crate) fn is_zero(self) -> bool {
        self.minutes.is_zero()
    }

    /// Hours for print: tenths exactly, other minutes with six decimals.
    pub(crate) fn hours(self) -> Decimal {
        let hours = (self.minutes / MINUTES_PER_HOUR)
            .round_dp(HOUR_DIGITS)
            .normalize();
        with_digits(hours, hours.scale().max(1))
    }

    /// Net price of the time at an hourly rate. Taken from the minutes, because 10 minutes in printed hours (0.166667)
    /// would round some amounts to the wrong side.
    pub(crate) fn price(self, rate: Decimal, money: Money) -> Decimal {
        money.round(self.minutes * rate / MINUTES_PER_HOUR)
    }
}

/// Rounding rule for amounts.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Money {
    pub(crate) digits: u32,
    pub(crate) rounding: MoneyRounding,
}

impl Money {
    /// Rounds to the currency's minor unit, and prints with all of its digits.
    pub(crate) fn round(self, amount: Decimal) -> Decimal {
        round_to(amount, self.digits, self.rounding)
    }
}

/// Rounds to so many decimals, and prints with all of them.
pub(crate) fn round_to(value: Decimal, digits: u32, rounding: MoneyRounding) -> Decimal {
    let strategy = match rounding {
        MoneyRounding::HalfUp => RoundingStrategy::MidpointAwayFromZero,
        MoneyRounding::HalfEven => RoundingStrategy::MidpointNearestEven,
    };
    with_digits(value.round_dp_with_strategy(digits, strategy), digits)
}

/// Returns the same value, printed with this many decimals.
pub(crate) fn with_digits(mut value: Decimal, digits: u32) -> Decimal {
    value.rescale(digits);
    value
}

#[cfg(test)]
mod tests {
    use super::*;

    fn d(text: &str) -> Decimal {
        Decimal::from_str_exact(text).unwrap()
    }

    #[test]
    fn halves_go_where_the_rule_says() {
        // Computed with Python 3.11 decimal, ROUND_HALF_UP and ROUND_HALF_EVEN.
        for (value, up, even) in [
            ("2.345", "2.35", "2.34"),
            ("2.355", "2.36", "2.36"),
            ("0.125", "0.13", "0.12"),
            ("1.005", "1.01", "1.00"),
            ("-2.345", "-2.35", "-2.34"),
        ] {
            let money = |rounding| Money {
                digits: 2,
                rounding,
            };
            assert_eq!(money(MoneyRounding::HalfUp).round(d(value)).to_string(), up);
            assert_eq!(
                money(MoneyRounding::HalfEven).round(d(value)).to_string(),
                even
            );
        }
    }

    #[test]
    fn amounts_have_the_currency_s_digits() {
        let round = |digits, v| {
            let rounding = MoneyRounding::HalfUp;
            Money { digits, rounding }.round(d(v)).to_string()
        };
        assert_eq!(round(0, "8165.5"), "8166");
        assert_eq!(round(2, "90"), "90.00");
        assert_eq!(round(3, "27.2505"), "27.251");
    }

    #[test]
    fn tenths_of_an_hour_are_six_minutes() {
        // 14 min = 0.2333 h: 0.2 to the nearest tenth, 0.3 when every begun tenth counts.
        let hours = |side, minutes: i64| {
            let rule = TimeRule {
                direction: side,
                unit: HoursUnit::Tenths,
            };
            rule.round_minutes(minutes.into()).hours().to_string()
        };
        for (minutes, nearest, up) in [
            (14, "0.2", "0.3"),
            (15, "0.3", "0.3"), // halfway
            (18, "0.3", "0.3"), // a whole tenth stays itself
            (2, "0.0", "0.1"),
            (0, "0.0", "0.0"),
            (138, "2.3", "2.3"),
        ] {
            assert_eq!(
                hours(HoursRounding::Nearest, minutes),
                nearest,
                "{minutes} min"
            );
            assert_eq!(hours(HoursRounding::Up, minutes), up, "{minutes} min");
        }
    }

    #[test]
    fn begun_minutes_count_only_where_the_rule_says_up() {
        // By hand: 851 s are 14.18 min, 870 s are 14.5 min.
        let minutes = |side, seconds: i64| {
            let rule = TimeRule {
                direction: side,
                unit: HoursUnit::Minutes,
            };
            let time = rule.round_minutes(Decimal::from(seconds) / Decimal::from(60));
            time.minutes.to_string()
        };
        for (seconds, nearest, up) in [
            (840, "14", "14"),
            (851, "14", "15"),
            (870, "15", "15"),
            (29, "0", "1"),
        ] {
            assert_eq!(
                minutes(HoursRounding::Nearest, seconds),
                nearest,
                "{seconds} s"
            );
            assert_eq!(minutes(HoursRounding::Up, seconds), up, "{seconds} s");
        }
    }

    #[test]
    fn minutes_are_priced_as_minutes() {
        // By hand: 50 min at 120.03/h are 100.025, so 100.03; from the printed 0.833333 h it would be 100.02.
        let rule = TimeRule {
            direction: HoursRounding::Nearest,
            unit: HoursUnit::Minutes,
        };
        let money = Money {
            digits: 2,
            rounding: MoneyRounding::HalfUp,
        };
        let time = rule.round_minutes(d("50"));
        assert_eq!(time.hours().to_string(), "0.833333");
        assert_eq!(time.price(d("120.03"), money).to_string(), "100.03");
        assert_eq!(rule.round_hours(d("0.25")).hours().to_string(), "0.25");
        assert_eq!(rule.round_hours(d("2")).hours().to_string(), "2.0");
    }
}
