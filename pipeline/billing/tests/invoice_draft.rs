//! Fields of invoice_draft.xml. The rules of EN 16931 are in `invoice_rules.rs`; the README says how the document is
//! validated against the UBL 2.1 schema.

mod common;

use baybrief_billing::{Bill, DraftInput, invoice_draft};
use common::en16931::Element;
use common::{bill, clutch_2_drag, shop, three_operations};
use model::job_file::{ClientSection, CustomerSection};
use model::labour::OrderTexts;
use model::{Parties, ShopFile};

const SHOP: &str = r#"
    [shop]
    name = "Sample <Invented> & Co"
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

fn draft_for(shop: &ShopFile, bill: &Bill, client: &str) -> Option<Element> {
    let texts = OrderTexts {
        complaint: "Refuses \u{1}\u{FFFF}its relearn".into(),
        cause: "Clutch 2".into(),
        correction: "Opened".into(),
    };
    let name = |n: &str| (!n.is_empty()).then(|| n.to_string());
    let client = ClientSection {
        name: name(client),
        ..ClientSection::default()
    };
    let customer = CustomerSection {
        name: name("B. Invented"),
        ..CustomerSection::default()
    };
    let input = DraftInput {
        bill,
        shop,
        parties: &Parties::new(&shop.shop, &client, &customer),
        note: "DRAFT",
        texts: Some(&texts),
    };
    let bytes = invoice_draft(&input).unwrap()?;
    Some(Element::read(&String::from_utf8(bytes).unwrap()))
}

fn draft(shop: &ShopFile, bill: &Bill) -> Option<Element> {
    draft_for(shop, bill, "")
}

fn all_billed() -> Element {
    let shop = shop(SHOP);
    let bill = bill(&shop, &clutch_2_drag(), &["T", "R", "C"]);
    draft(&shop, &bill).unwrap()
}

#[test]
fn it_is_plainly_a_draft() {
    let draft = all_billed();
    assert_eq!(draft.texts("cbc:ID"), ["DRAFT-R-2041"]);
    // Proforma invoice in UNTDID 1001, from memory.
    assert_eq!(draft.texts("cbc:InvoiceTypeCode"), ["325"]);
    let notes = draft.texts("cbc:Note");
    assert_eq!(notes[0], "DRAFT");
    // XML 1.0, 2.2: no document can hold U+0001 or U+FFFF.
    assert_eq!(notes[1], "Refuses \u{FFFD}\u{FFFD}its relearn");
    assert_eq!(
        draft.texts("cbc:CustomizationID").len(),
        0,
        "it claims no profile"
    );
}

#[test]
fn the_fields_of_en_16931_are_where_ubl_has_them() {
    let draft = all_billed();
    // Bindings of EN 16931-3-2, from memory.
    for (path, values) in [
        ("cbc:IssueDate", vec!["2026-03-02"]),     // BT-2
        ("cbc:DocumentCurrencyCode", vec!["EUR"]), // BT-5
        (
            "cac:AccountingSupplierParty/cac:Party/cac:PartyLegalEntity/cbc:RegistrationName",
            vec!["Sample <Invented> & Co"],
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
        assert_eq!(draft.texts(path), values, "{path}");
    }
    // BT-130, UN/ECE Recommendation 20: hour, one.
    let units: Vec<&str> = draft
        .all("cac:InvoiceLine/cbc:InvoicedQuantity")
        .into_iter()
        .map(|q| q.attributes[0].1.as_str())
        .collect();
    assert_eq!(units, ["HUR", "C62", "HUR", "HUR", "C62"]);
}

/// UN/ECE 5153, D.16A: VAT, GST, and STT for "State/provincial sales tax", by a public copy of the list.
#[test]
fn the_kind_of_tax_is_that_of_the_shops_country() {
    for (country, currency, stated, scheme) in [
        (Some("DE"), "EUR", None, "VAT"),
        (Some("US"), "USD", None, "STT"),
        (None, "USD", None, "STT"),
        (None, "EUR", None, "VAT"),
        (Some("EC"), "USD", None, "VAT"),
        (Some("NZ"), "NZD", Some("GST"), "GST"),
    ] {
        let mut shop = shop(SHOP);
        shop.billing.currency = Some(currency.into());
        shop.invoice_draft.seller_country = country.map(str::to_owned);
        shop.invoice_draft.tax_scheme = stated.map(str::to_owned);
        let draft = draft(&shop, &bill(&shop, &clutch_2_drag(), &["T"])).unwrap();
        let seller =
            "cac:AccountingSupplierParty/cac:Party/cac:PartyTaxScheme/cac:TaxScheme/cbc:ID";
        assert_eq!(draft.texts(seller), [scheme], "{country:?}, {currency}");
    }
}

#[test]
fn the_client_who_called_is_the_buyer() {
    let shop = shop(SHOP);
    let bill = bill(&shop, &clutch_2_drag(), &["T"]);
    let draft = draft_for(&shop, &bill, "C. Invented Garage").unwrap();
    let path = "cac:AccountingCustomerParty/cac:Party/cac:PartyLegalEntity/cbc:RegistrationName";
    assert_eq!(draft.texts(path), ["C. Invented Garage"]);
}

#[test]
fn only_what_is_billed_is_in_it() {
    let shop = shop(SHOP);
    assert!(draft(&shop, &bill(&shop, &clutch_2_drag(), &[])).is_none());
    let some = draft(&shop, &bill(&shop, &clutch_2_drag(), &["R", "F"])).unwrap();
    let names = some.texts("cac:InvoiceLine/cac:Item/cbc:Name").join(", ");
    assert_eq!(names, "Replace the clutch pack, Deposit");
    let mut silent = shop.clone();
    silent.invoice_draft.enabled = false;
    assert!(draft(&silent, &bill(&silent, &clutch_2_drag(), &["R"])).is_none());
}

#[test]
fn without_a_tax_there_is_no_tax() {
    let mut shop = three_operations("JPY", "12345", "");
    shop.billing.taxes.clear();
    let bill = bill(&shop, &clutch_2_drag(), &["T"]);
    let draft = draft(&shop, &bill).unwrap();
    assert_eq!(draft.all("cac:TaxTotal").len(), 0);
    assert_eq!(
        draft.texts("cac:LegalMonetaryTotal/cbc:PayableAmount"),
        ["28394"],
        "yen have no decimals"
    );
}
