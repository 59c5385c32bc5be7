//! Price of work by its rule.

use crate::rounding::{Money, WorkTime};
use model::LabourLine;
use model::labour::PriceRule;
use rust_decimal::Decimal;

/// Returns the line with the quantity, rate and net amount of its work at that time. `rate` is that of an hour, or
/// the price of the whole where the rule is a flat fee.
pub(crate) fn price_work(
    line: LabourLine,
    rule: PriceRule,
    rate: Decimal,
    time: WorkTime,
    money: Money,
) -> LabourLine {
    let flat = |price: Decimal| (Some(Decimal::ONE), price, money.round(price));
    let by_the_hour = time.price(rate, money);
    let (pieces, rate, net_amount) = match rule {
        PriceRule::FlatFee => flat(rate),
        PriceRule::Minimum { charge, .. } if by_the_hour < money.round(charge) => flat(charge),
        PriceRule::Minimum { .. } | PriceRule::PerUnit => (None, rate, by_the_hour),
    };
    LabourLine {
        hours: time.hours(),
        pieces,
        rate,
        net_amount,
        price_rule: rule,
        ..line
    }
}

/// Returns the line with the price of other hours than those that were agreed.
pub(crate) fn reprice(line: &LabourLine, time: WorkTime, money: Money) -> LabourLine {
    let rate = match line.price_rule {
        PriceRule::Minimum { hourly_rate, .. } => hourly_rate,
        PriceRule::PerUnit | PriceRule::FlatFee => line.rate,
    };
    price_work(line.clone(), line.price_rule, rate, time, money)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rounding::TimeRule;
    use model::shop_file::{HoursRounding, HoursUnit, MoneyRounding};

    fn d(text: &str) -> Decimal {
        Decimal::from_str_exact(text).unwrap()
    }

    #[test]
    fn quantity_times_rate_is_the_net_amount_under_every_rule() {
        let money = Money {
            digits: 2,
            rounding: MoneyRounding::HalfUp,
        };
        let time = |hours: &str| {
            let rule = TimeRule {
                direction: HoursRounding::Nearest,
                unit: HoursUnit::Tenths,
            };
            rule.round_hours(d(hours))
        };
        let minimum = PriceRule::Minimum {
            charge: d("95.00"),
            hourly_rate: d("129.95"),
        };
        // By hand: 0.7 h * 129.95 = 90.965 -> 90.97, below the charge; 0.8 h = 103.96, above it.
        for (rule, rate, hours, expected) in [
            (
                PriceRule::PerUnit,
                "129.95",
                "2.3",
                ("2.3", "129.95", "298.89"),
            ),
            (
                PriceRule::FlatFee,
                "180.00",
                "2.3",
                ("1", "180.00", "180.00"),
            ),
            (minimum, "129.95", "0.7", ("1", "95.00", "95.00")),
            (minimum, "129.95", "0.8", ("0.8", "129.95", "103.96")),
            (minimum, "129.95", "0", ("1", "95.00", "95.00")),
        ] {
            let line = price_work(LabourLine::default(), rule, d(rate), time(hours), money);
            let got = [line.quantity(), line.rate, line.net_amount].map(|v| v.to_string());
            assert_eq!(
                got,
                [expected.0, expected.1, expected.2],
                "{rule:?} {hours}"
            );
            assert_eq!(money.round(line.quantity() * line.rate), line.net_amount);
            assert_eq!(line.hours, time(hours).hours());
        }
        // A line that fell to the charge comes back to its hourly rate.
        let short = price_work(
            LabourLine::default(),
            minimum,
            d("129.95"),
            time("0.7"),
            money,
        );
        let long = reprice(&short, time("1.1"), money);
        assert_eq!((long.pieces, long.net_amount), (None, d("142.95")));
    }
}
