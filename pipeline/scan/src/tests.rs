//! Scan texts in layouts of our own making, in five languages. Vehicle numbers are invented.

use super::parse;
use model::CodeStatus::{self, Active, Confirmed, History, NotTested, Pending, Permanent};
use model::ScanRecord;
use model::scan::LiveQuantity;

type Row<'a> = (&'a str, Option<&'a str>, &'a [CodeStatus], Option<&'a str>);

#[track_caller]
fn check(text: &str, want: &[Row]) -> ScanRecord {
    let record = parse("scan.txt", text);
    let got: Vec<Row> = record
        .codes
        .iter()
        .map(|c| {
            (
                c.code.as_str(),
                c.failure_type.as_deref(),
                c.status.as_slice(),
                c.module.as_deref(),
            )
        })
        .collect();
    assert_eq!(got, want, "\n{text}");
    record
}

fn live(record: &ScanRecord, quantity: LiveQuantity) -> Option<String> {
    record
        .live
        .iter()
        .find(|i| i.quantity == Some(quantity))
        .map(|i| i.text.clone())
}

#[test]
fn a_table_with_bars() {
    let r = check(
        "Fehlerspeicher\nFahrzeug-Ident.-Nr.: ZZZEG000000000012\nTeilenummer: P05 111 222\n\n\
         Steuergerät | Code  | Status            | Bedeutung\n\
         TCM         | P0900 | aktuell vorhanden | Steller Stromkreis offen\n\
         BCM         | C0040 | früher aufgetreten | Raddrehzahlsensor\n\n\
         Wählhebel: P\nMotordrehzahl: 0 1/min\nSpannung Steuergerät: 12,5 V\n",
        &[
            ("P0900", None, &[Active], Some("TCM")),
            ("C0040", None, &[History], Some("BCM")),
        ],
    );
    assert_eq!(r.vin, Some(("ZZZEG000000000012".into(), 2)));
    assert_eq!(r.codes[0].line, 6);
    assert_eq!(r.codes[0].text.as_deref(), Some("Steller Stromkreis offen"));
    assert_eq!(
        live(&r, LiveQuantity::SelectorPosition).as_deref(),
        Some("P")
    );
    assert_eq!(
        live(&r, LiveQuantity::ModuleVoltage).as_deref(),
        Some("12,5 V")
    );
}

#[test]
fn a_table_with_a_status_byte() {
    check(
        "Module;DTC;Status byte;Description;Count\nTCM;P073E:77;AF;\"Unable to engage\";8\n\
         ECM;P0700:00;0B;\"Lamp request\";2\nECM;P0562:00;20;\"Voltage low\";12\nTCM;P0810:00;50;\"x y\";1\n\n\
         Part;P05 946 172;;;\n",
        &[
            (
                "P073E",
                Some("77"),
                &[Active, Pending, Confirmed][..],
                Some("TCM"),
            ),
            ("P0700", Some("00"), &[Active, Confirmed], Some("ECM")),
            ("P0562", Some("00"), &[History], Some("ECM")),
            ("P0810", Some("00"), &[NotTested], Some("TCM")),
        ],
    );
}

#[test]
fn aligned_columns_with_a_missing_cell() {
    check(
        "UNIT   CODE      STATE        TEXT\n-----------------------\n\
         TCM    P0902-13  Stored       Actuator low\n       P0810     active       Position control\n",
        &[
            ("P0902", Some("13"), &[Confirmed], Some("TCM")),
            ("P0810", None, &[Active], None),
        ],
    );
}

#[test]
fn numbered_keys() {
    check(
        "vin: ZZZEG000000000012\nhardware: P01 531 102\ndtc.1.status: Stored\ndtc.1.code: P0810\n\
         dtc.1.failure_type: 0x77\ndtc.1.module: TCM\ndtc.2.code: P0700\ndtc.2.failure_type: none\n\
         dtc.2.status: pending\ndtc.2.module: ECM\nlive.engine_speed: 776 rpm\n",
        &[
            ("P0810", Some("77"), &[Confirmed], Some("TCM")),
            ("P0700", None, &[Pending], Some("ECM")),
        ],
    );
}

#[test]
fn sections_by_module() {
    let r = check(
        "== MODULE TCM\n   Code:   P0810\n   Text:   Position control\n   Status: confirmed\n\
         \x20  Odometer at first entry: 121233 km\n\n== MODULE ABS\n   memory empty\n\n\
         Frame number ZZZEG000000000012; spare part P06 418 888\n",
        &[("P0810", None, &[Confirmed], Some("TCM"))],
    );
    assert_eq!(r.odometer_km, None);
    assert!(r.vin.is_some());
    check(
        "[TCM]\n  P080A-54  0x2F  Not learned\n  P0902-13  0x08  Low\n[ECM]\n  P0700-00  0x8B  Lamp\n",
        &[
            (
                "P080A",
                Some("54"),
                &[Active, Pending, Confirmed],
                Some("TCM"),
            ),
            ("P0902", Some("13"), &[Confirmed], Some("TCM")),
            ("P0700", Some("00"), &[Active, Confirmed], Some("ECM")),
        ],
    );
}

#[test]
fn groups_by_status() {
    check(
        "Present codes: none\n\nConfirmed codes: 2\n   - P080A  Position not learned\n   - P0902  Low\n\n\
         Pending codes: 1\n   - P0810  Control error\n\nPermanent codes: 1\n - P0700 Lamp\n\nHistory codes: none\n",
        &[
            ("P080A", None, &[Confirmed], None),
            ("P0902", None, &[Confirmed], None),
            ("P0810", None, &[Pending], None),
            ("P0700", None, &[Permanent], None),
        ],
    );
}

#[test]
fn sentences() {
    let r = check(
        "Visit of 2026-03-02, Invented make, Box van 300, 161610 km.\n\nI connected to the vehicle (VIN ZZZEG000000000012).\n\
         The TCM reported P0884 (controller supply intermittent), present; P0810 (position control), confirmed.\n\
         The ECM reported P0700 (lamp request), stored.\n\
         No codes were returned by the airbag unit. The unit carries label P0482-13A.\n\
         Selector position read P.\nEngine speed read 776 rpm.\n",
        &[
            ("P0884", None, &[Active], Some("TCM")),
            ("P0810", None, &[Confirmed], Some("TCM")),
            ("P0700", None, &[Confirmed], Some("ECM")),
        ],
    );
    assert_eq!(r.odometer_km, Some(161_610.0));
    assert_eq!(r.date.unwrap().to_string(), "2026-03-02");
    check(
        "FIN ZZZEG000000000012, Laufleistung 171604 km\n\
         Im Steuergerät TCM ist P073E abgelegt (Gang lässt sich nicht einlegen), Zustand: aktiv.\n\
         Im Steuergerät ECM ist P0700 abgelegt (Lampe an), Zustand: bestätigt.\nSoftwarestand P0428-40A.\n",
        &[
            ("P073E", None, &[Active], Some("TCM")),
            ("P0700", None, &[Confirmed], Some("ECM")),
        ],
    );
}

#[test]
fn wrapped_sentences() {
    check(
        "The TCM reported P0902 (actuator circuit\nlow), confirmed. The ECM\nreported P0700 (lamp\nrequest), pending.\n",
        &[
            ("P0902", None, &[Confirmed], Some("TCM")),
            ("P0700", None, &[Pending], Some("ECM")),
        ],
    );
}

/// Columns too narrow for a sentence; a count is no status byte.
#[test]
fn wrapped_descriptions_with_a_key_behind() {
    let r = check(
        "TCM / P0902: Actuator circuit\n    low. State: confirmed. Seen 5\n    times since the memory was\n    last cleared.\n\
         TCM / P0810: Clutch position not\n    learned. State: stored. Seen 11\n    times.\n",
        &[
            ("P0902", None, &[Confirmed], Some("TCM")),
            ("P0810", None, &[Confirmed], Some("TCM")),
        ],
    );
    let texts: Vec<_> = r.codes.iter().map(|c| c.text.as_deref()).collect();
    assert_eq!(
        texts,
        [
            Some("Actuator circuit low"),
            Some("Clutch position not learned")
        ]
    );
}

#[test]
fn lists_in_spanish_french_and_italian() {
    check(
        "Lectura de memoria de averías\n1) [TCM] P073E - No entra la marcha atrás\n   estado: confirmado\n\
         2) [ECM] P0700 - Testigo\n   estado: pendiente\nReferencia pieza: P08 732 397\n",
        &[
            ("P073E", None, &[Confirmed], Some("TCM")),
            ("P0700", None, &[Pending], Some("ECM")),
        ],
    );
    check(
        "Mémoire des défauts\nCalculateur : TCM\n  P0810 - Régulation de position (mémorisé)\n\
         Calculateur : ECM\n  P0700 - Demande de voyant (présent)\nRéférence pièce : P0312\n",
        &[
            ("P0810", None, &[Confirmed], Some("TCM")),
            ("P0700", None, &[Active], Some("ECM")),
        ],
    );
    check(
        "Memoria guasti\nCentralina: TCM\n  Codice: P0902\n  Tipo di guasto: 13\n  Stato: memorizzato\n\n\
         Centralina: ECM\n  Codice: P0700\n  Stato: storico\n",
        &[
            ("P0902", Some("13"), &[Confirmed], Some("TCM")),
            ("P0700", None, &[History], Some("ECM")),
        ],
    );
}

#[test]
fn the_same_code_counts_once_in_a_module() {
    check(
        "[TCM]\nP0902 stored\nP0902 active\n[ECM]\nP0902 pending\n",
        &[
            ("P0902", None, &[Active, Confirmed], Some("TCM")),
            ("P0902", None, &[Pending], Some("ECM")),
        ],
    );
}

#[test]
fn freeze_frames_are_neither_codes_nor_live_data() {
    let r = check(
        "[TCM]\nP0902-13  active\nFreeze frame P0902-13\n  Engine speed: 3200 rpm\n\n[Live data]\nEngine speed: 700 rpm\n",
        &[("P0902", Some("13"), &[Active], Some("TCM"))],
    );
    assert_eq!(r.live.len(), 1);
    assert_eq!(
        live(&r, LiveQuantity::EngineSpeed).as_deref(),
        Some("700 rpm")
    );
}

#[test]
fn what_is_no_code() {
    let r = check(
        "SW P0421-51A\nlabel P0410-43A\ncalibration P0462-28A\nP4123 fault\nController P/N: P05 747 765\n\
         Selector position            P\n",
        &[],
    );
    assert!(r.problems[0].message.contains("P4123"));
    assert_eq!(r.problems[0].place.as_deref(), Some("line 4"));
}

#[test]
fn a_line_for_each_code_with_keys_in_it() {
    check(
        "Code #1: P0902 (FTB 13) - Actuator low [TCM] - status 0x2F\nCode #2: P0700 (FTB 00) - Lamp [ECM] - status 0x08\n",
        &[
            (
                "P0902",
                Some("13"),
                &[Active, Pending, Confirmed],
                Some("TCM"),
            ),
            ("P0700", Some("00"), &[Confirmed], Some("ECM")),
        ],
    );
    check(
        "module=TCM;code=P0902;ftb=13;status=active\nmodule=ECM;code=P0700;ftb=00;status=pending\n",
        &[
            ("P0902", Some("13"), &[Active], Some("TCM")),
            ("P0700", Some("00"), &[Pending], Some("ECM")),
        ],
    );
    check(
        "Modul 2 Antrieb (TCM): 2 Einträge\n -> P0902 13 [aktiv, bestätigt] Steller\nModul 1 Motor (ECM): 1 Eintrag\n\
         \x20-> P0700 00 [früher aufgetreten] Lampe\n",
        &[
            ("P0902", Some("13"), &[Active, Confirmed], Some("TCM")),
            ("P0700", Some("00"), &[History], Some("ECM")),
        ],
    );
}

#[test]
fn records_that_name_the_module_last() {
    check(
        "1. Code ......... P0902\n   Failure type . 13\n   Module ....... TCM\n   State ........ confirmed\n\n\
         2. Code ......... P0700\n   Module ....... ECM\n   State ........ pending\n",
        &[
            ("P0902", Some("13"), &[Confirmed], Some("TCM")),
            ("P0700", None, &[Pending], Some("ECM")),
        ],
    );
}

#[test]
fn codes_in_a_row_and_modules_without_any() {
    check(
        "TCM: P0902, P080A (both confirmed)\nECM: P0700 pending\nControl module: Brakes\nCodes: none\nP0902: Actuator low\n",
        &[
            ("P0902", None, &[Confirmed], Some("TCM")),
            ("P080A", None, &[Confirmed], Some("TCM")),
            ("P0700", None, &[Pending], Some("ECM")),
        ],
    );
}

#[test]
fn a_text_in_a_quoted_notation() {
    check(
        "{\"modules\": [{\"module\": \"TCM\", \"dtcs\": [\n {\"code\": \"P0902\", \"failureType\": \"13\", \"status\": \"active\"}]},\n\
         {\"module\": \"ECM\", \"dtcs\": [{\"code\": \"P0700\", \"status\": \"pending\"}]}]}\n",
        &[
            ("P0902", Some("13"), &[Active], Some("TCM")),
            ("P0700", None, &[Pending], Some("ECM")),
        ],
    );
}

/// The status bits by the names that ISO 14229-1 D.2 gives them, in the layouts that tools write.
#[test]
fn status_bits_by_their_names() {
    check(
        "Module: TCM\nDTC: P0902-13\ntestFailed: 1\npendingDTC: 0\nconfirmedDTC: 1\ntestFailedSinceLastClear: 1\n\n\
         DTC: P0700-00\ntestFailed: 0\npendingDTC: 0\nconfirmedDTC: 0\ntestNotCompletedSinceLastClear: 1\n",
        &[
            ("P0902", Some("13"), &[Active, Confirmed], Some("TCM")),
            ("P0700", Some("00"), &[NotTested], Some("TCM")),
        ],
    );
    check(
        "[TCM]\nP0902-13 [testFailed, confirmedDTC, warningIndicatorRequested]\n\
         P0810-77 (pendingDTC, testFailedThisOperationCycle)\n\
         P0700-00 testFailedSinceLastClear\nP0562-00 testNotCompletedThisOperationCycle\n",
        &[
            ("P0902", Some("13"), &[Active, Confirmed], Some("TCM")),
            ("P0810", Some("77"), &[Pending], Some("TCM")),
            ("P0700", Some("00"), &[History], Some("TCM")),
            ("P0562", Some("00"), &[NotTested], Some("TCM")),
        ],
    );
    check(
        "Code;Status;Module\nP0902;testFailed confirmedDTC;TCM\nP0810;testFailed=false pendingDTC=true;TCM\n",
        &[
            ("P0902", None, &[Active, Confirmed], Some("TCM")),
            ("P0810", None, &[Pending], Some("TCM")),
        ],
    );
}
