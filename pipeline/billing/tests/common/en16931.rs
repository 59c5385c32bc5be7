//! Business rules of EN 16931 on UBL invoices, those that need nothing but the document.
//!
//! Rules and their numbers: eInvoicing-EN16931, version 1.3.16 (commit b6c9e06), `EN16931-UBL-model.sch`; the pass and
//! fail values of their unit cases stand in `tests/invoice_rules.rs`. Amounts are compared exactly, where the published
//! expressions of BR-CO-17 and BR-S-09 let a difference of less than 1.00 pass.
//!
//! Checked: BR-01 to BR-16, BR-21 to BR-27, BR-45 to BR-48, BR-CO-04, -09, -10, -13 to -18, -25, -26, BR-DEC-09 to
//! -20 and -23, BR-S/Z/E/AE/K/G/O-01, -05, -08, -09, -10 as far as the document alone decides, code lists of
//! categories, units and type. Not checked: allowances and charges (the drafts have none), code lists of countries and
//! currencies (held by crates when shop.toml is read), rules of national profiles.

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use rust_decimal::{Decimal, RoundingStrategy};
use std::collections::BTreeSet;

/// An element with its text.
#[derive(Debug, Default)]
pub struct Element {
    pub name: String,
    pub attributes: Vec<(String, String)>,
    pub text: String,
    pub children: Vec<Element>,
}

impl Element {
    /// Reads a document.
    pub fn read(xml: &str) -> Element {
        let mut reader = Reader::from_str(xml);
        let mut open = vec![Element::default()];
        loop {
            match reader.read_event().unwrap() {
                Event::Start(e) => open.push(start(&e)),
                Event::Empty(e) => open.last_mut().unwrap().children.push(start(&e)),
                Event::End(_) => {
                    let done = open.pop().unwrap();
                    open.last_mut().unwrap().children.push(done);
                }
                Event::Text(text) => open.last_mut().unwrap().text.push_str(&text),
                Event::GeneralRef(name) => {
                    open.last_mut().unwrap().text.push_str(match &*name {
                        "lt" => "<",
                        "gt" => ">",
                        "amp" => "&",
                        "quot" => "\"",
                        "apos" => "'",
                        other => panic!("&{other};"),
                    });
                }
                Event::Eof => return open.pop().unwrap().children.pop().unwrap(),
                _ => {}
            }
        }
    }

    /// All elements on a path of names below this one.
    pub fn all(&self, path: &str) -> Vec<&Element> {
        let mut found = vec![self];
        for name in path.split('/') {
            found = found
                .into_iter()
                .flat_map(|e| e.children.iter().filter(|c| c.name == name))
                .collect();
        }
        found
    }

    /// Texts of the elements on a path.
    pub fn texts(&self, path: &str) -> Vec<&str> {
        self.all(path)
            .into_iter()
            .map(|e| e.text.as_str())
            .collect()
    }

    fn text_of(&self, path: &str) -> Option<&str> {
        let text = self.texts(path).first().copied()?.trim();
        (!text.is_empty()).then_some(text)
    }

    fn number(&self, path: &str) -> Option<Decimal> {
        Decimal::from_str_exact(self.text_of(path)?).ok()
    }

    fn sum(&self, path: &str) -> Decimal {
        let texts = self.texts(path);
        let numbers = texts
            .iter()
            .filter_map(|t| Decimal::from_str_exact(t.trim()).ok());
        numbers.sum()
    }

    fn attribute(&self, name: &str) -> Option<&str> {
        let (_, value) = self.attributes.iter().find(|(n, _)| n == name)?;
        Some(value)
    }
}

fn start(e: &BytesStart<'_>) -> Element {
    let attributes = e.attributes().map(|a| {
        let a = a.unwrap();
        (a.key.as_ref().to_string(), a.value.to_string())
    });
    Element {
        name: e.name().as_ref().to_string(),
        attributes: attributes.collect(),
        ..Element::default()
    }
}

const SELLER: &str = "cac:AccountingSupplierParty/cac:Party";
const BUYER: &str = "cac:AccountingCustomerParty/cac:Party";
const TOTALS: &str = "cac:LegalMonetaryTotal";
const SUBTOTAL: &str = "cac:TaxTotal/cac:TaxSubtotal";

/// Numbers of the rules that the invoice breaks.
pub fn broken_rules(invoice: &Element) -> BTreeSet<&'static str> {
    let mut broken = BTreeSet::new();
    presence(invoice, &mut broken);
    lines(invoice, &mut broken);
    sums(invoice, &mut broken);
    taxes(invoice, &mut broken);
    decimals(invoice, &mut broken);
    broken
}

type Broken = BTreeSet<&'static str>;

fn hold(broken: &mut Broken, rule: &'static str, holds: bool) {
    if !holds {
        broken.insert(rule);
    }
}

fn presence(i: &Element, broken: &mut Broken) {
    for (rule, path) in [
        ("BR-01", "cbc:CustomizationID".to_string()),
        ("BR-02", "cbc:ID".into()),
        ("BR-03", "cbc:IssueDate".into()),
        ("BR-04", "cbc:InvoiceTypeCode".into()),
        ("BR-05", "cbc:DocumentCurrencyCode".into()),
        (
            "BR-06",
            format!("{SELLER}/cac:PartyLegalEntity/cbc:RegistrationName"),
        ),
        (
            "BR-07",
            format!("{BUYER}/cac:PartyLegalEntity/cbc:RegistrationName"),
        ),
        (
            "BR-09",
            format!("{SELLER}/cac:PostalAddress/cac:Country/cbc:IdentificationCode"),
        ),
        (
            "BR-11",
            format!("{BUYER}/cac:PostalAddress/cac:Country/cbc:IdentificationCode"),
        ),
        ("BR-12", format!("{TOTALS}/cbc:LineExtensionAmount")),
        ("BR-13", format!("{TOTALS}/cbc:TaxExclusiveAmount")),
        ("BR-14", format!("{TOTALS}/cbc:TaxInclusiveAmount")),
        ("BR-15", format!("{TOTALS}/cbc:PayableAmount")),
    ] {
        hold(broken, rule, i.text_of(&path).is_some());
    }
    let has = |path: &str| !i.all(path).is_empty();
    hold(broken, "BR-08", has(&format!("{SELLER}/cac:PostalAddress")));
    hold(broken, "BR-10", has(&format!("{BUYER}/cac:PostalAddress")));
    hold(broken, "BR-16", has("cac:InvoiceLine"));
    let due = i
        .number(&format!("{TOTALS}/cbc:PayableAmount"))
        .unwrap_or_default();
    let has_terms = has("cbc:DueDate") || has("cac:PaymentTerms/cbc:Note");
    hold(broken, "BR-CO-25", due <= Decimal::ZERO || has_terms);
    let identified = [
        "cac:PartyTaxScheme/cbc:CompanyID",
        "cac:PartyLegalEntity/cbc:CompanyID",
        "cac:PartyIdentification/cbc:ID",
    ]
    .iter()
    .any(|p| i.text_of(&format!("{SELLER}/{p}")).is_some());
    hold(broken, "BR-CO-26", identified);
    for scheme in i.all(&format!("{SELLER}/cac:PartyTaxScheme")) {
        if scheme.text_of("cac:TaxScheme/cbc:ID") == Some("VAT") {
            let id = scheme.text_of("cbc:CompanyID").unwrap_or_default();
            hold(broken, "BR-CO-09", has_country_prefix(id));
        }
    }
}

/// ISO 3166-1 alpha-2, and EL for Greece.
fn has_country_prefix(id: &str) -> bool {
    let prefix = id.get(..2).unwrap_or_default();
    prefix == "EL" || prefix.parse::<iso_country::Country>().is_ok()
}

fn lines(i: &Element, broken: &mut Broken) {
    let all = i.all("cac:InvoiceLine");
    let mut ids = BTreeSet::new();
    for line in &all {
        let quantity = line.all("cbc:InvoicedQuantity");
        let unit = quantity.first().and_then(|q| q.attribute("unitCode"));
        let id = line.text_of("cbc:ID");
        hold(broken, "BR-21", id.is_some_and(|id| ids.insert(id)));
        hold(
            broken,
            "BR-22",
            line.number("cbc:InvoicedQuantity").is_some(),
        );
        hold(broken, "BR-23", unit.is_some());
        hold(
            broken,
            "BR-CL-23",
            unit.is_some_and(|u| ["HUR", "C62"].contains(&u)),
        );
        hold(
            broken,
            "BR-24",
            line.number("cbc:LineExtensionAmount").is_some(),
        );
        hold(broken, "BR-25", line.text_of("cac:Item/cbc:Name").is_some());
        let price = line.number("cac:Price/cbc:PriceAmount");
        hold(broken, "BR-26", price.is_some());
        hold(broken, "BR-27", price.is_none_or(|p| p >= Decimal::ZERO));
        let category = line.text_of("cac:Item/cac:ClassifiedTaxCategory/cbc:ID");
        hold(broken, "BR-CO-04", category.is_some());
    }
}

fn sums(i: &Element, broken: &mut Broken) {
    let total = |name: &str| i.number(&format!("{TOTALS}/{name}"));
    let net = total("cbc:LineExtensionAmount");
    let exclusive = total("cbc:TaxExclusiveAmount");
    let inclusive = total("cbc:TaxInclusiveAmount");
    let of = |name: &str| total(name).unwrap_or_default();
    hold(
        broken,
        "BR-CO-10",
        net == Some(i.sum("cac:InvoiceLine/cbc:LineExtensionAmount")),
    );
    let less = of("cbc:AllowanceTotalAmount") - of("cbc:ChargeTotalAmount");
    hold(broken, "BR-CO-13", exclusive == net.map(|n| n - less));
    let tax = i.sum("cac:TaxTotal/cbc:TaxAmount");
    hold(
        broken,
        "BR-CO-14",
        tax == i.sum(&format!("{SUBTOTAL}/cbc:TaxAmount")),
    );
    hold(broken, "BR-CO-15", inclusive == exclusive.map(|e| e + tax));
    let owed = inclusive.map(|g| g - of("cbc:PrepaidAmount") + of("cbc:PayableRoundingAmount"));
    hold(broken, "BR-CO-16", total("cbc:PayableAmount") == owed);
}

fn taxes(i: &Element, broken: &mut Broken) {
    let groups = i.all(SUBTOTAL);
    hold(broken, "BR-CO-18", !groups.is_empty());
    let mut known = BTreeSet::new();
    for group in &groups {
        let category = group.text_of("cac:TaxCategory/cbc:ID");
        let rate = group.number("cac:TaxCategory/cbc:Percent");
        let base = group.number("cbc:TaxableAmount");
        let amount = group.number("cbc:TaxAmount");
        hold(broken, "BR-45", base.is_some());
        hold(broken, "BR-46", amount.is_some());
        hold(broken, "BR-47", category.is_some());
        hold(broken, "BR-48", rate.is_some() || category == Some("O"));
        let code = category.unwrap_or_default();
        hold(
            broken,
            "BR-CL-17",
            ["S", "Z", "E", "AE", "K", "G", "O", "L", "M"].contains(&code),
        );
        let exact = base.unwrap_or_default() * rate.unwrap_or_default() / Decimal::ONE_HUNDRED;
        let rounded = exact.round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
        hold(broken, "BR-CO-17", amount == Some(rounded));
        // BR-S-08 and its like: the base is the sum of its lines, by category and rate.
        let of_group = i.all("cac:InvoiceLine").into_iter().filter(|line| {
            line.text_of("cac:Item/cac:ClassifiedTaxCategory/cbc:ID") == category
                && line.number("cac:Item/cac:ClassifiedTaxCategory/cbc:Percent") == rate
        });
        let sum: Decimal = of_group.map(|l| l.sum("cbc:LineExtensionAmount")).sum();
        hold(broken, "BR-S-08", base == Some(sum));
        known.insert((code.to_string(), rate.map(|r| r.normalize())));
        let reason = group.text_of("cac:TaxCategory/cbc:TaxExemptionReason");
        let wants_reason = ["E", "AE", "K", "G", "O"].contains(&code);
        hold(broken, "BR-E-10", !wants_reason || reason.is_some());
        hold(broken, "BR-S-10", wants_reason || reason.is_none());
    }
    for line in i.all("cac:InvoiceLine") {
        let category = line.text_of("cac:Item/cac:ClassifiedTaxCategory/cbc:ID");
        let rate = line.number("cac:Item/cac:ClassifiedTaxCategory/cbc:Percent");
        let zero = rate.is_none_or(|r| r.is_zero());
        match category {
            Some("S") => hold(broken, "BR-S-05", rate.is_some_and(|r| r > Decimal::ZERO)),
            Some("O") => hold(broken, "BR-O-05", rate.is_none()),
            Some("Z" | "E" | "AE" | "K" | "G") => hold(broken, "BR-E-05", rate.is_some() && zero),
            _ => {}
        }
        let group = (
            category.unwrap_or_default().to_string(),
            rate.map(|r| r.normalize()),
        );
        hold(broken, "BR-S-01", known.contains(&group));
    }
    // Both categories in one invoice: BR-O-11 to BR-O-14.
    let outside = known.iter().filter(|(c, _)| c == "O").count();
    hold(broken, "BR-O-11", outside == 0 || outside == known.len());
}

/// BR-DEC-09 to -20 and -23: amounts have two decimals at most; a price may have more.
fn decimals(e: &Element, broken: &mut Broken) {
    if e.attribute("currencyID").is_some() && e.name != "cbc:PriceAmount" {
        let digits = e.text.trim().split_once('.').map_or(0, |(_, d)| d.len());
        hold(broken, "BR-DEC", digits <= 2);
    }
    for child in &e.children {
        decimals(child, broken);
    }
}
