//! invoice_draft.xml, read back by quick-xml and held against the elements of UBL 2.1 and the rules of EN 16931.
//!
//! The same document was validated by hand against the UBL 2.1 schema: see `tests/README.md`.

mod common;

use baybrief_billing::{Bill, BillingError, DraftInput, invoice_draft};
use common::{bill, clutch_2_drag, shop, three_operations};
use model::ShopFile;
use model::job_file::CustomerSection;
use model::labour::OrderTexts;
use quick_xml::Reader;
use quick_xml::events::Event;
use rust_decimal::Decimal;

const SHOP: &str = r#"
    [shop]
    name = "Alder Mill <Invented> & Co"
    address = "1 Sample Yard"
    phone = "+1 555 0100"
    registration = "EX-0000"
    [invoice_draft]
    seller_country = "DE"
    seller_tax_id = "DE000000000"
    buyer_country = "AT"
    [billing]
    currency = "EUR"
    default_tax = "standard"
    rates = { m = "129.95" }
    [billing.taxes]
    standard = { category = "S", rate = 19 }
    exempt = { category = "E", rate = 0, reason = "Invented reason" }
    outside = { category = "O", rate = 0, reason = "Another one" }
    [[billing.operation]]
    code = "T"
    step = "teardown"
    description = "Open the gearbox"
    hours = 2.3
    [[billing.operation.part]]
    number = "P-7"
    description = "Seal kit"
    pieces = 2
    price = "12.345"
    [[billing.operation]]
    code = "R"
    step = "repair"
    description = "Replace the clutch pack"
    hours = "0.7"
    tax = "exempt"
    [[billing.operation]]
    code = "C"
    step = "reassembly"
    description = "Close the gearbox"
    hours = 1.1
    [[billing.fee]]
    code = "F"
    description = "Deposit"
    price = 10
    tax = "outside"
"#;

fn draft(shop: &ShopFile, bill: &Bill) -> Option<String> {
    let texts = OrderTexts {
        complaint: "Refuses \u{1}\u{FFFF}its relearn".into(),
        cause: "Clutch 2".into(),
        correction: "Opened".into(),
    };
    let input = DraftInput {
        bill,
        opened: chrono::NaiveDate::from_ymd_opt(2026, 3, 2),
        shop,
        customer: &CustomerSection {
            name: Some("B. Invented".into()),
            ..CustomerSection::default()
        },
        note: "DRAFT",
        texts: Some(&texts),
    };
    let bytes = invoice_draft(&input).unwrap()?;
    Some(String::from_utf8(bytes).unwrap())
}

/// Each text of a document with the way to it, in order: `Invoice/cbc:ID=...`; attributes as `@name`.
fn texts(xml: &str) -> Vec<(String, String)> {
    let mut reader = Reader::from_str(xml);
    let mut way: Vec<String> = Vec::new();
    let mut found: Vec<(String, String)> = Vec::new();
    loop {
        match reader.read_event().unwrap() {
            Event::Start(e) => {
                way.push(e.name().as_ref().to_string());
                for attribute in e.attributes() {
                    let attribute = attribute.unwrap();
                    let name = attribute.key.as_ref().to_string();
                    if !name.starts_with("xmlns") {
                        let value = attribute.value.to_string();
                        found.push((format!("{}@{name}", way.join("/")), value));
                    }
                }
                found.push((way.join("/"), String::new()));
            }
            Event::End(_) => {
                way.pop();
            }
            Event::Text(text) => add(&mut found, &way, &text),
            Event::GeneralRef(name) => {
                let text = match &*name {
                    "lt" => "<",
                    "gt" => ">",
                    "amp" => "&",
                    "quot" => "\"",
                    "apos" => "'",
                    other => panic!("&{other};"),
                };
                add(&mut found, &way, text);
            }
            Event::Eof => return found,
            _ => {}
        }
    }
}

fn add(found: &mut [(String, String)], way: &[String], text: &str) {
    let path = way.join("/");
    if let Some((_, so_far)) = found.iter_mut().rfind(|(p, _)| *p == path) {
        so_far.push_str(text);
    }
}

fn all<'t>(texts: &'t [(String, String)], path: &str) -> Vec<&'t str> {
    let path = format!("Invoice/{path}");
    texts
        .iter()
        .filter(|(p, _)| *p == path)
        .map(|(_, t)| t.as_str())
        .collect()
}

fn all_billed() -> String {
    let shop = shop(SHOP);
    let bill = bill(&shop, &clutch_2_drag(), &["T", "R", "C"]);
    draft(&shop, &bill).unwrap()
}

#[test]
fn it_is_plainly_a_draft() {
    let texts = texts(&all_billed());
    assert_eq!(all(&texts, "cbc:ID"), ["DRAFT-R-2041"]);
    // Proforma invoice in UNTDID 1001, from memory.
    assert_eq!(all(&texts, "cbc:InvoiceTypeCode"), ["325"]);
    let notes = all(&texts, "cbc:Note");
    assert_eq!(notes[0], "DRAFT");
    // XML 1.0, 2.2: no document can hold U+0001 or U+FFFF.
    assert_eq!(notes[1], "Refuses \u{FFFD}\u{FFFD}its relearn");
    assert_eq!(
        all(&texts, "cbc:CustomizationID").len(),
        0,
        "it claims no profile"
    );
}

#[test]
fn the_fields_of_en_16931_are_where_ubl_has_them() {
    let texts = texts(&all_billed());
    // Bindings of EN 16931-3-2, from memory.
    for (path, values) in [
        ("cbc:IssueDate", vec!["2026-03-02"]),     // BT-2
        ("cbc:DocumentCurrencyCode", vec!["EUR"]), // BT-5
        (
            "cac:AccountingSupplierParty/cac:Party/cac:PartyLegalEntity/cbc:RegistrationName",
            vec!["Alder Mill <Invented> & Co"],
        ), // BT-27
        (
            "cac:AccountingSupplierParty/cac:Party/cac:PostalAddress/cac:Country/cbc:IdentificationCode",
            vec!["DE"],
        ), // BT-40
        (
            "cac:AccountingSupplierParty/cac:Party/cac:PartyTaxScheme/cbc:CompanyID",
            vec!["DE000000000"],
        ), // BT-31
        (
            "cac:AccountingCustomerParty/cac:Party/cac:PartyLegalEntity/cbc:RegistrationName",
            vec!["B. Invented"],
        ), // BT-44
        (
            "cac:AccountingCustomerParty/cac:Party/cac:PostalAddress/cac:Country/cbc:IdentificationCode",
            vec!["AT"],
        ), // BT-55
        (
            "cac:InvoiceLine/cbc:InvoicedQuantity",
            vec!["2.3", "2", "0.7", "1.1", "1"],
        ), // BT-129
        // BT-130, UN/ECE Recommendation 20: hour, one.
        (
            "cac:InvoiceLine/cbc:InvoicedQuantity@unitCode",
            vec!["HUR", "C62", "HUR", "HUR", "C62"],
        ),
        // BT-131; by hand: 298.885, 24.69, 90.965, 142.945, 10.
        (
            "cac:InvoiceLine/cbc:LineExtensionAmount",
            vec!["298.89", "24.69", "90.97", "142.95", "10.00"],
        ),
        (
            "cac:InvoiceLine/cac:Price/cbc:PriceAmount",
            vec!["129.95", "12.345", "129.95", "129.95", "10.00"],
        ), // BT-146
        (
            "cac:InvoiceLine/cac:Item/cac:ClassifiedTaxCategory/cbc:ID",
            vec!["S", "S", "E", "S", "O"],
        ), // BT-151
        // BT-152; BR-O-05: none outside the scope of the tax.
        (
            "cac:InvoiceLine/cac:Item/cac:ClassifiedTaxCategory/cbc:Percent",
            vec!["19", "19", "0", "19"],
        ),
        (
            "cac:InvoiceLine/cac:Item/cac:SellersItemIdentification/cbc:ID",
            vec!["T", "P-7", "R", "C", "F"],
        ), // BT-155
        (
            "cac:TaxTotal/cac:TaxSubtotal/cac:TaxCategory/cbc:ID",
            vec!["E", "O", "S"],
        ), // BT-118
        (
            "cac:TaxTotal/cac:TaxSubtotal/cac:TaxCategory/cbc:TaxExemptionReason",
            vec!["Invented reason", "Another one"],
        ), // BT-120
        // BT-116; by hand: 298.89 + 24.69 + 142.95.
        (
            "cac:TaxTotal/cac:TaxSubtotal/cbc:TaxableAmount",
            vec!["90.97", "10.00", "466.53"],
        ),
        // BT-117; by hand: 466.53 * 19 % = 88.6407.
        (
            "cac:TaxTotal/cac:TaxSubtotal/cbc:TaxAmount",
            vec!["0.00", "0.00", "88.64"],
        ),
        ("cac:TaxTotal/cbc:TaxAmount", vec!["88.64"]), // BT-110
        (
            "cac:LegalMonetaryTotal/cbc:LineExtensionAmount",
            vec!["567.50"],
        ), // BT-106
        (
            "cac:LegalMonetaryTotal/cbc:TaxInclusiveAmount",
            vec!["656.14"],
        ), // BT-112
        ("cac:LegalMonetaryTotal/cbc:PayableAmount", vec!["656.14"]), // BT-115
    ] {
        assert_eq!(all(&texts, path), values, "{path}");
    }
    let decimals = |path: &str| -> Decimal {
        let amounts = all(&texts, path);
        amounts
            .iter()
            .map(|t| Decimal::from_str_exact(t).unwrap())
            .sum()
    };
    let lines = decimals("cac:InvoiceLine/cbc:LineExtensionAmount");
    let net = decimals("cac:LegalMonetaryTotal/cbc:LineExtensionAmount");
    assert_eq!(lines, net, "BR-CO-10");
    assert_eq!(
        decimals("cac:TaxTotal/cac:TaxSubtotal/cbc:TaxAmount"),
        decimals("cac:TaxTotal/cbc:TaxAmount"),
        "BR-CO-14"
    );
    let gross = decimals("cac:LegalMonetaryTotal/cbc:TaxInclusiveAmount");
    assert_eq!(
        net + decimals("cac:TaxTotal/cbc:TaxAmount"),
        gross,
        "BR-CO-15"
    );
    let ids = all(&texts, "cac:InvoiceLine/cbc:ID");
    let unique: std::collections::BTreeSet<_> = ids.iter().collect();
    assert_eq!(unique.len(), 5, "BR-21: every line has an id of its own");
}

#[test]
fn only_what_may_be_billed_is_in_it() {
    let shop = shop(SHOP);
    assert_eq!(draft(&shop, &bill(&shop, &clutch_2_drag(), &[])), None);
    let some = draft(&shop, &bill(&shop, &clutch_2_drag(), &["R"])).unwrap();
    let names = all(&texts(&some), "cac:InvoiceLine/cac:Item/cbc:Name").join(", ");
    assert_eq!(names, "Replace the clutch pack, Deposit");
    let mut silent = shop.clone();
    silent.invoice_draft.write = false;
    assert_eq!(
        draft(&silent, &bill(&silent, &clutch_2_drag(), &["R"])),
        None
    );
}

#[test]
fn without_a_tax_there_is_no_tax_and_without_a_date_no_draft() {
    let mut shop = three_operations("JPY", "12345", "");
    shop.billing.taxes.clear();
    let bill = bill(&shop, &clutch_2_drag(), &["T"]);
    let texts = texts(&draft(&shop, &bill).unwrap());
    assert_eq!(all(&texts, "cac:TaxTotal").len(), 0);
    assert_eq!(
        all(&texts, "cac:LegalMonetaryTotal/cbc:PayableAmount"),
        ["28394"],
        "yen have no decimals"
    );
    let input = DraftInput {
        bill: &bill,
        opened: None,
        shop: &shop,
        customer: &CustomerSection::default(),
        note: "DRAFT",
        texts: None,
    };
    let error = invoice_draft(&input).unwrap_err();
    assert!(
        matches!(error, BillingError::NoDay) && error.to_string().contains("opened = "),
        "{error}"
    );
}
