//! The rules of EN 16931 hold for every draft, and the checker itself tells right from wrong: its pass and fail values
//! are those of the unit cases of eInvoicing-EN16931, `test/Invoice-unit-UBL/BR-*.xml` (version 1.3.16).

mod common;

use baybrief_billing::{Bill, DraftInput, invoice_draft};
use common::en16931::{Element, broken_rules};
use common::{Visit, clutch_2_drag, shop};
use model::job_file::{ClientSection, CustomerSection};
use model::{Parties, ShopFile};
use proptest::prelude::*;

/// True where a snippet of an invoice keeps a rule.
fn keeps(rule: &str, content: &str) -> bool {
    let invoice = Element::read(&format!("<Invoice>{content}</Invoice>"));
    !broken_rules(&invoice).contains(rule)
}

fn totals(parts: &[(&str, &str)]) -> String {
    let content: String = (parts.iter())
        .map(|(name, v)| format!("<cbc:{name}>{v}</cbc:{name}>"))
        .collect();
    format!("<cac:LegalMonetaryTotal>{content}</cac:LegalMonetaryTotal>")
}

fn line(net: &str) -> String {
    format!(
        "<cac:InvoiceLine><cbc:LineExtensionAmount>{net}</cbc:LineExtensionAmount></cac:InvoiceLine>"
    )
}

fn subtotal(base: &str, rate: &str, tax: &str) -> String {
    format!(
        "<cac:TaxSubtotal><cbc:TaxableAmount>{base}</cbc:TaxableAmount><cbc:TaxAmount>{tax}</cbc:TaxAmount>\
         <cac:TaxCategory><cbc:ID>S</cbc:ID><cbc:Percent>{rate}</cbc:Percent></cac:TaxCategory></cac:TaxSubtotal>"
    )
}

fn tax_total(total: &str, groups: &str) -> String {
    format!("<cac:TaxTotal><cbc:TaxAmount>{total}</cbc:TaxAmount>{groups}</cac:TaxTotal>")
}

#[test]
fn sums_are_told_right_from_wrong() {
    let line_total = |lines: [&str; 2], total| {
        let lines: String = lines.map(line).concat();
        keeps(
            "BR-CO-10",
            &format!("{lines}{}", totals(&[("LineExtensionAmount", total)])),
        )
    };
    assert!(line_total(["110", "90"], "200"));
    assert!(line_total(["110", "-90"], "20"));
    assert!(!line_total(["110", "90"], "200.01"));
    let exclusive = |total| {
        let parts = [
            ("LineExtensionAmount", "1000"),
            ("TaxExclusiveAmount", total),
            ("AllowanceTotalAmount", "100"),
            ("ChargeTotalAmount", "100"),
        ];
        keeps("BR-CO-13", &totals(&parts))
    };
    assert!(exclusive("1000") && !exclusive("1000.01"));
    let taxes = |total| {
        let groups = subtotal("1000", "25", "250") + &subtotal("600", "25", "150");
        keeps("BR-CO-14", &tax_total(total, &groups))
    };
    assert!(taxes("400") && !taxes("300"));
    let inclusive = |total| {
        let parts = [
            ("TaxExclusiveAmount", "1000"),
            ("TaxInclusiveAmount", total),
        ];
        keeps("BR-CO-15", &(tax_total("300", "") + &totals(&parts)))
    };
    assert!(inclusive("1300") && !inclusive("1250.01"));
    let payable = |gross, rounding, total| {
        let parts = [
            ("TaxInclusiveAmount", gross),
            ("PrepaidAmount", "1000"),
            ("PayableRoundingAmount", rounding),
            ("PayableAmount", total),
        ];
        keeps("BR-CO-16", &totals(&parts))
    };
    assert!(payable("1200", "0", "200"));
    assert!(payable("1200.78", "0.22", "201"));
    assert!(!payable("1200.78", "0", "201"));
}

#[test]
fn a_tax_is_exact_to_the_cent() {
    for (base, rate, tax, is_right) in [
        ("1000", "25", "250", true),
        ("-6491.34", "25", "-1622.84", true),
        ("2141.05", "14", "299.75", true),
        ("2141.19", "2.1", "44.96", true),
        ("-2141.19", "5.5", "-117.77", true),
        ("1000", "25", "251", false),
        ("2141.19", "2.1", "43.91", false),
        // The published expression lets this one pass.
        ("1000", "25", "250.99", false),
    ] {
        let group = tax_total(tax, &subtotal(base, rate, tax));
        assert_eq!(
            keeps("BR-CO-17", &group),
            is_right,
            "{base} at {rate} % is {tax}"
        );
    }
    assert!(!keeps("BR-CO-18", ""));
}

#[test]
fn a_tax_number_has_the_prefix_of_its_country() {
    let with = |id: &str| {
        keeps(
            "BR-CO-09",
            &format!(
                "<cac:AccountingSupplierParty><cac:Party><cac:PartyTaxScheme><cbc:CompanyID>{id}</cbc:CompanyID>\
                 <cac:TaxScheme><cbc:ID>VAT</cbc:ID></cac:TaxScheme></cac:PartyTaxScheme></cac:Party>\
                 </cac:AccountingSupplierParty>"
            ),
        )
    };
    assert!(with("DE000000000") && with("EL000000000"));
    assert!(!with("000000000") && !with("XX000000000"));
}

#[test]
fn decimals_are_told_right_from_wrong() {
    let amount = |v: &str| {
        let total =
            format!("<cbc:TaxExclusiveAmount currencyID=\"EUR\">{v}</cbc:TaxExclusiveAmount>");
        keeps(
            "BR-DEC",
            &format!("<cac:LegalMonetaryTotal>{total}</cac:LegalMonetaryTotal>"),
        )
    };
    assert!(amount("10.55") && amount("10") && !amount("10.555"));
}

/// Bases, rates and taxes of whole invoices: `ubl-tc434-example1.xml` and `-example2.xml` of the same repository.
#[test]
fn taxes_of_published_invoices_come_out() {
    for (nets, rates, taxes, gross) in [
        (
            ["183.23", "46.37"],
            ["6", "21"],
            ["10.99", "9.74"],
            "250.33",
        ),
        (
            ["1460.50", "1.00"],
            ["25", "15"],
            ["365.13", "0.15"],
            "1826.78",
        ),
    ] {
        let visit = Visit::new(&by_the_piece(&nets, &rates), &clutch_2_drag());
        let totals = done(visit).totals.unwrap().done;
        let got: Vec<String> = totals.by_tax.iter().map(|t| t.amount.to_string()).collect();
        let mut expected = taxes.map(String::from);
        // Groups are in the order of their rates.
        expected.sort_by_key(|t| {
            totals
                .by_tax
                .iter()
                .position(|g| g.amount.to_string() == *t)
        });
        assert_eq!(got, expected);
        assert_eq!(totals.gross.to_string(), gross);
    }
}

/// A shop whose one operation costs nothing worth naming but its parts.
fn by_the_piece(nets: &[&str], rates: &[&str]) -> ShopFile {
    let mut text = String::from(
        "[billing]\ncurrency = \"EUR\"\ndefault_tax = \"t0\"\nrates = { m = 1 }\n[billing.taxes]\n",
    );
    for (i, rate) in rates.iter().enumerate() {
        text += &format!("t{i} = {{ category = \"S\", rate = {rate} }}\n");
    }
    for (i, net) in nets.iter().enumerate() {
        text += &format!(
            "[[billing.operation]]\ncode = \"O{i}\"\nstep = \"repair\"\ndescription = \"work\"\nflat_fee = \"{net}\"\n\
             tax = \"t{i}\"\n"
        );
    }
    shop(&text)
}

fn done(mut visit: Visit) -> Bill {
    visit.carry_out(&["repair"]);
    visit.bill()
}

fn draft(shop: &ShopFile, bill: &Bill) -> Element {
    let name = |n: &str| Some(n.to_string());
    let customer = CustomerSection {
        name: name("B. Invented"),
        ..CustomerSection::default()
    };
    let xml = invoice_draft(&DraftInput {
        bill,
        shop,
        parties: &Parties::new(&shop.shop, &ClientSection::default(), &customer),
        note: "DRAFT",
        texts: None,
    });
    Element::read(&String::from_utf8(xml.unwrap().unwrap()).unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// A draft breaks two rules, because it is a draft: it claims no profile (BR-01) and knows no terms of payment
    /// (BR-CO-25). All others hold for any prices, rates and rounding.
    #[test]
    fn every_draft_keeps_the_rules(
        prices in prop::collection::vec((1..10_000_000i64, 0..3usize), 1..8),
        hours in 1..9_999i64,
    ) {
        let mut text = String::from(
            "[shop]\nname = \"Invented\"\nregistration = \"EX-1\"\naddress = \"1 Sample Yard\"\n\
             [invoice_draft]\nseller_country = \"DE\"\nbuyer_country = \"AT\"\nseller_tax_id = \"DE000000000\"\n\
             [billing]\ncurrency = \"EUR\"\nrates = { m = \"129.95\" }\ndefault_tax = \"t0\"\n[billing.taxes]\n\
             t0 = { category = \"S\", rate = 19 }\nt1 = { category = \"S\", rate = \"2.1\" }\n\
             t2 = { category = \"E\", rate = 0, reason = \"Invented\" }\n",
        );
        for (i, (price, tax)) in prices.iter().enumerate() {
            text += &format!(
                "[[billing.operation]]\ncode = \"O{i}\"\nstep = \"repair\"\ndescription = \"work\"\n\
                 hours = \"{}.{:02}\"\ntax = \"t{tax}\"\n[[billing.operation.part]]\nnumber = \"P\"\n\
                 description = \"part\"\npieces = 3\nprice = \"{}.{:04}\"\n",
                hours / 100 + 1, hours % 100, price / 10_000, price % 10_000,
            );
        }
        let shop = shop(&text);
        let draft = draft(&shop, &done(Visit::new(&shop, &clutch_2_drag())));
        let broken: Vec<&str> = broken_rules(&draft).into_iter().collect();
        prop_assert_eq!(broken, ["BR-01", "BR-CO-25"]);
        schema_order(&draft);
    }
}

/// Elements of the drafts in the order of the UBL 2.1 schema (`UBL-Invoice-2.1.xsd` and
/// `UBL-CommonAggregateComponents-2.1.xsd`, OASIS), as far as the drafts use them.
const ORDER: [(&str, &[&str]); 12] = [
    (
        "Invoice",
        &[
            "cbc:ID",
            "cbc:IssueDate",
            "cbc:InvoiceTypeCode",
            "cbc:Note",
            "cbc:DocumentCurrencyCode",
            "cac:AccountingSupplierParty",
            "cac:AccountingCustomerParty",
            "cac:TaxTotal",
            "cac:LegalMonetaryTotal",
            "cac:InvoiceLine",
        ],
    ),
    ("cac:AccountingSupplierParty", &["cac:Party"]),
    ("cac:AccountingCustomerParty", &["cac:Party"]),
    (
        "cac:Party",
        &[
            "cac:PostalAddress",
            "cac:PartyTaxScheme",
            "cac:PartyLegalEntity",
            "cac:Contact",
        ],
    ),
    ("cac:PostalAddress", &["cbc:StreetName", "cac:Country"]),
    (
        "cac:PartyLegalEntity",
        &["cbc:RegistrationName", "cbc:CompanyID"],
    ),
    ("cac:TaxTotal", &["cbc:TaxAmount", "cac:TaxSubtotal"]),
    (
        "cac:TaxSubtotal",
        &["cbc:TaxableAmount", "cbc:TaxAmount", "cac:TaxCategory"],
    ),
    (
        "cac:TaxCategory",
        &[
            "cbc:ID",
            "cbc:Percent",
            "cbc:TaxExemptionReason",
            "cac:TaxScheme",
        ],
    ),
    (
        "cac:LegalMonetaryTotal",
        &[
            "cbc:LineExtensionAmount",
            "cbc:TaxExclusiveAmount",
            "cbc:TaxInclusiveAmount",
            "cbc:PayableAmount",
        ],
    ),
    (
        "cac:InvoiceLine",
        &[
            "cbc:ID",
            "cbc:InvoicedQuantity",
            "cbc:LineExtensionAmount",
            "cac:Item",
            "cac:Price",
        ],
    ),
    (
        "cac:Item",
        &[
            "cbc:Name",
            "cac:SellersItemIdentification",
            "cac:ClassifiedTaxCategory",
        ],
    ),
];

#[track_caller]
fn schema_order(e: &Element) {
    if let Some((_, order)) = ORDER.iter().find(|(name, _)| *name == e.name) {
        let places: Vec<_> = (e.children.iter())
            .map(|c| order.iter().position(|n| *n == c.name))
            .collect();
        assert!(
            places.iter().all(Option::is_some),
            "{}: {:?}",
            e.name,
            e.children
        );
        assert!(places.is_sorted(), "{} is out of order", e.name);
    }
    e.children.iter().for_each(schema_order);
}
