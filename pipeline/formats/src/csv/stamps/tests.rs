//! Stamps written evenly, rounded, off by one, and in pieces.

use super::*;

fn read(cells: &[&str]) -> Stamps {
    let mut s = Stamps::new(NumberStyle::POINT, b';');
    for cell in cells {
        let row = format!("{cell};1.25;2.5;0000000");
        match s.matches(row.as_bytes()) {
            Some(n) if n == cell.len() => s.accept(),
            _ => s.read(cell.as_bytes()).unwrap(),
        }
    }
    s
}

fn texts(n: usize, from: f64, step: f64, decimals: usize) -> Vec<String> {
    (0..n)
        .map(|i| format!("{:.*}", decimals, from + i as f64 * step))
        .collect()
}

#[test]
fn even_stamps_are_one_run_whatever_digits_they_have() {
    for (from, step, decimals) in [
        (0.0, 0.0005, 4),
        (0.0, 250.0, 0),
        (9.9, 0.025, 3),
        (-0.01, 0.001, 5),
        (-3.0, 1.0, 0),
        (99_990.0, 7.0, 1),
    ] {
        let cells = texts(500, from, step, decimals);
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        let s = read(&cells);
        assert!(
            matches!(&s.form, Form::Runs { runs, .. } if runs.len() == 1),
            "{from} {step}: {:?}",
            s.form
        );
        let (
            TimeAxis::Even {
                start_s,
                step_s,
                len,
            },
            None,
        ) = s.axis(1.0)
        else {
            panic!()
        };
        assert_eq!((start_s, len), (from, 500));
        assert!((step_s / step - 1.0).abs() < 1e-12);
    }
}

#[test]
fn one_stamp_that_is_off_is_found() {
    for at in [1, 2, 3, 250, 498, 499] {
        let mut cells = texts(500, 0.0, 0.0005, 4);
        for c in &mut cells[at..] {
            *c = format!("{:.4}", c.parse::<f64>().unwrap() + 0.0003);
        }
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        let (axis, _) = read(&cells).axis(1.0);
        let TimeAxis::Listed(t) = axis else {
            panic!("{at}")
        };
        assert_eq!(t.len(), 500);
        assert_eq!(t[499], 0.2498);
    }
}

#[test]
fn rounded_stamps_are_even_within_their_rounding() {
    // 2.5 kS/s with three decimals.
    let cells: Vec<String> = (0..5000)
        .map(|i| format!("{:.3}", (i as f64 * 0.4).round() / 1000.0))
        .collect();
    let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
    let s = read(&cells);
    assert!(matches!(s.form, Form::List(_)));
    assert!(matches!(s.axis(1.0).0, TimeAxis::Even { len: 5000, .. }));
}

#[test]
fn pieces_join_as_if_they_were_one() {
    let cells = texts(900, 0.0, 0.0005, 4);
    let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
    for cut in [1, 2, 450, 899] {
        let mut s = read(&cells[..cut]);
        assert_eq!(s.append(read(&cells[cut..])), 0);
        assert!(
            matches!(s.axis(1.0).0, TimeAxis::Even { len: 900, .. }),
            "{cut}"
        );
    }
    let mut s = read(&cells[..500]);
    assert_eq!(s.append(read(&cells[490..])), 9);
    assert_eq!(s.len(), 500 + 410 - 9);
}

#[test]
fn a_clock_goes_past_midnight_between_two_pieces() {
    let mut s = read(&["23:59:58", "23:59:59"]);
    s.append(read(&["00:00:00", "00:00:01"]));
    assert!(matches!(
        s.axis(1.0).0,
        TimeAxis::Even {
            len: 4,
            step_s: 1.0,
            ..
        }
    ));
}
