//! Shops, verdicts and visits for the tests.
#![allow(dead_code)]

pub mod en16931;
pub mod handed;

use baybrief_billing::{
    Bill, BillingError, BillingInput, Export, NamedLines, Statement, WorkError, authorise,
    complete, decline, labour_csv, make_bill, reopen,
};
use chrono::{NaiveDate, NaiveDateTime, TimeDelta};
use model::labour::{
    ConsentMethod, HandedRow, LineState, OrderTexts, SumBasis, SumLimit, WorkEvent,
};
use model::shop_file::LabourCsvSection;
use model::{LabourLine, ShopFile, Verdict};

/// Reads a shop.toml.
pub fn shop(toml: &str) -> ShopFile {
    toml::from_str(toml).unwrap()
}

/// A verdict; a teardown only where asked for.
pub fn verdict(state: &str, cause: Option<&str>, teardown: bool) -> Verdict {
    let cause = cause.map_or(String::new(), |c| format!("cause = {c:?}\n"));
    let text = format!("state = {state:?}\n{cause}teardown = {teardown}\nnext = []");
    toml::from_str(&text).unwrap()
}

/// The typical case: a dragging clutch, established, behind a teardown.
pub fn clutch_2_drag() -> Verdict {
    verdict("established", Some("clutch-2-drag"), true)
}

/// Verdict of a repair that a recording proves.
pub fn proven() -> Verdict {
    toml::from_str(
        "state = \"nothing-found\"\nteardown = false\nnext = []\nrepair = { proven = true, compared = [] }",
    )
    .unwrap()
}

/// An invented morning; the n-th minute of it.
pub fn at(minute: i64) -> NaiveDateTime {
    let day = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
    day.and_hms_opt(9, 0, 0).unwrap() + TimeDelta::minutes(minute)
}

/// One job over time, with what its ledger has.
#[derive(Clone)]
pub struct Visit {
    pub shop: ShopFile,
    pub verdict: Verdict,
    pub events: Vec<WorkEvent>,
    pub handed: Vec<HandedRow>,
    pub job: String,
    pub number: String,
    pub technician: String,
    pub hours: Option<f64>,
    pub is_reported: bool,
    pub is_job_file_sound: bool,
    pub number_taken_by: Vec<String>,
    clock: i64,
}

impl Visit {
    pub fn new(shop: &ShopFile, verdict: &Verdict) -> Visit {
        Visit {
            shop: shop.clone(),
            verdict: verdict.clone(),
            events: Vec::new(),
            handed: Vec::new(),
            job: "R-2041".into(),
            number: "R-2041".into(),
            technician: "A. Invented".into(),
            hours: None,
            is_reported: true,
            is_job_file_sound: true,
            number_taken_by: Vec::new(),
            clock: 0,
        }
    }

    /// The bill of now, not published.
    pub fn try_bill(&self) -> Result<Bill, BillingError> {
        make_bill(
            &BillingInput {
                job: &self.job,
                number: &self.number,
                opened: NaiveDate::from_ymd_opt(2026, 3, 2),
                technician: Some(&self.technician),
                verdicts: &[&self.verdict],
                diagnosis_hours: self.hours,
                is_reported: self.is_reported,
                is_job_file_sound: self.is_job_file_sound,
                events: &self.events,
                handed: &self.handed,
                number_taken_by: &self.number_taken_by,
                now: at(self.clock),
            },
            &self.shop,
        )
    }

    #[track_caller]
    pub fn bill(&self) -> Bill {
        self.try_bill().unwrap()
    }

    /// Makes the bill, and adds to the ledger what it gives.
    #[track_caller]
    pub fn publish(&mut self) -> Bill {
        let bill = self.bill();
        self.handed.extend(bill.rows.iter().cloned());
        self.events.extend(bill.offer.clone());
        self.clock += 1;
        bill
    }

    fn record(
        &mut self,
        names: &[&str],
        make: impl FnOnce(NamedLines<'_>, Statement<'_>) -> Result<WorkEvent, WorkError>,
    ) -> Result<(), WorkError> {
        let lines = self.bill().lines;
        let names: Vec<String> = names.iter().map(|n| n.to_string()).collect();
        let named = NamedLines {
            job: &self.job,
            lines: &lines,
            names: &names,
            shop: &self.shop,
        };
        let statement = Statement {
            by: "C. Invented",
            at: at(self.clock),
            recorded_by: None,
            note: None,
        };
        self.events.push(make(named, statement)?);
        self.clock += 1;
        Ok(())
    }

    pub fn authorise(&mut self, names: &[&str]) -> Result<(), WorkError> {
        let how = ConsentMethod::Telephone;
        self.record(names, |named, by| authorise(named, how, None, by))
    }

    pub fn authorise_up_to(
        &mut self,
        names: &[&str],
        sum: &str,
        basis: SumBasis,
    ) -> Result<(), WorkError> {
        let limit = SumLimit {
            sum: sum.parse().unwrap(),
            basis,
        };
        let how = ConsentMethod::Signed;
        self.record(names, |named, by| authorise(named, how, Some(limit), by))
    }

    pub fn decline(&mut self, names: &[&str]) -> Result<(), WorkError> {
        let how = ConsentMethod::Message;
        self.record(names, |named, by| decline(named, how, by))
    }

    pub fn complete(&mut self, names: &[&str], hours: Option<&str>) -> Result<(), WorkError> {
        let hours = hours.map(|h| h.parse().unwrap());
        self.record(names, |named, by| complete(named, hours, by))
    }

    pub fn reopen(&mut self, names: &[&str]) -> Result<(), WorkError> {
        self.record(names, reopen)
    }

    /// Authorises and does some work.
    #[track_caller]
    pub fn carry_out(&mut self, names: &[&str]) {
        if !names.is_empty() {
            self.authorise(names).unwrap();
            self.complete(names, None).unwrap();
        }
    }
}

/// The bill of job R-2041 with these operations done.
#[track_caller]
pub fn bill(shop: &ShopFile, verdict: &Verdict, done: &[&str]) -> Bill {
    let mut visit = Visit::new(shop, verdict);
    visit.carry_out(done);
    // Who did the work is of no interest here.
    for line in visit.events.iter_mut().flat_map(|e| &mut e.lines) {
        line.technician = Some("A. Invented".into());
    }
    visit.bill()
}

/// Code and state of each line: `+` authorised, `*` done or billed, `-` declined, `!` held, nothing where offered.
pub fn codes(bill: &Bill) -> String {
    let code = |l: &LabourLine| {
        let state = match l.state {
            LineState::Offered => "",
            LineState::Declined => "-",
            LineState::Authorised => "+",
            LineState::Done | LineState::Billed => "*",
        };
        let hold = if l.life.hold.is_some() { "!" } else { "" };
        format!("{}{state}{hold}", l.operation)
    };
    bill.lines.iter().map(code).collect::<Vec<_>>().join(" ")
}

/// Messages of a bill.
pub fn problems(bill: &Bill) -> String {
    let messages = bill.problems.iter().map(|p| p.message.as_str());
    messages.collect::<Vec<_>>().join("\n")
}

/// labour.csv of a bill.
pub fn csv(bill: &Bill, map: &LabourCsvSection) -> Result<Vec<u8>, BillingError> {
    let texts = OrderTexts {
        complaint: "No relearn".into(),
        cause: "Clutch 2".into(),
        correction: "Opened".into(),
    };
    let rows: Vec<&HandedRow> = bill.account.iter().collect();
    let export = Export {
        texts: Some(&texts),
        rows: &rows,
    };
    labour_csv(&export, &with_map(map))
}

/// A shop of nothing but a column map.
pub fn with_map(map: &LabourCsvSection) -> ShopFile {
    ShopFile {
        labour_csv: map.clone(),
        ..ShopFile::default()
    }
}

/// Three operations of 2.3 h, 0.7 h and 1.1 h at one rate, taxed at 19 %.
pub fn three_operations(currency: &str, rate: &str, rules: &str) -> ShopFile {
    shop(&format!(
        r#"
        [billing]
        currency = "{currency}"
        {rules}
        rates = {{ mechanical = "{rate}" }}
        taxes = {{ standard = {{ category = "S", rate = 19 }} }}
        [[billing.operation]]
        code = "T"
        step = "teardown"
        description = "Open the gearbox"
        hours = 2.3
        [[billing.operation]]
        code = "R"
        step = "repair"
        description = "Replace the clutch pack"
        hours = "0.7"
        needs_teardown = true
        causes = ["clutch-2-drag"]
        [[billing.operation]]
        code = "C"
        step = "reassembly"
        description = "Close the gearbox"
        hours = 1.1
        "#
    ))
}
