//! The bill as a draft invoice in UBL 2.1 (ISO/IEC 19845), with the fields of EN 16931.
//!
//! It is a draft for the billing system and no invoice issued: its number begins with `DRAFT-`, its type is 325,
//! proforma invoice (UNTDID 1001), its first note says so, and it claims no profile (BT-24), because what only the
//! billing system knows, the invoice's own number, the terms of payment, the full addresses, is not in it.

mod xml;

use crate::column_map::unit;
use crate::currency::minor_digits;
use crate::hand_over::open_rows;
use crate::rounding::Money;
use crate::totals::totals;
use crate::{Bill, BillingError, KeyPath};
use iso_country::Country;
use model::labour::{HandedRow, LineTax, OrderTexts, TaxTotal, Totals};
use model::shop_file::InvoiceDraftSection;
use model::{LabourLine, Parties, Party, ShopFile};
use rust_decimal::Decimal;
use xml::{Node, group, leaf};

/// Proforma invoice in UNTDID 1001.
const PROFORMA: &str = "325";

/// Input of a draft.
#[derive(Debug, Clone, Copy)]
pub struct DraftInput<'a> {
    /// Bill. What its account bills goes in.
    pub bill: &'a Bill,
    /// Taxes and their reasons, and the parties' countries.
    pub shop: &'a ShopFile,
    /// Seller (the shop) and buyer (the client who called).
    pub parties: &'a Parties,
    /// Statement that this is a draft, in the shop's language.
    pub note: &'a str,
    /// Complaint, cause and correction, as further notes.
    pub texts: Option<&'a OrderTexts>,
}

/// Makes `invoice_draft.xml`; `None` where nothing is billed yet, or shop.toml wants none.
///
/// It has the day of the newest row and the lines that the account bills, so that it and labour.csv cannot disagree.
///
/// # Errors
/// When the lines' currency is not known, or the document cannot be written.
pub fn invoice_draft(input: &DraftInput<'_>) -> Result<Option<Vec<u8>>, BillingError> {
    let mut rows: Vec<&HandedRow> = open_rows(&input.bill.account).into_values().collect();
    rows.sort_by_key(|row| row.line.line);
    let day = input.bill.account.iter().map(|row| row.day).max();
    let (Some(first), Some(day), true) = (rows.first(), day, input.shop.invoice_draft.enabled)
    else {
        return Ok(None);
    };
    let currency = first.line.currency.as_str();
    let money = Money {
        digits: minor_digits(currency)?,
        rounding: input.shop.billing.money_rounding,
    };
    let lines: Vec<&LabourLine> = (rows.iter().map(|row| &row.line))
        .filter(|l| l.currency == currency)
        .collect();
    let sums = totals(lines.iter().copied(), money);
    let draft = Draft {
        shop: input.shop,
        section: &input.shop.invoice_draft,
        currency,
    };
    let mut content = vec![
        leaf("cbc:ID", format!("DRAFT-{}", input.bill.number)),
        leaf("cbc:IssueDate", day.to_string()),
        leaf("cbc:InvoiceTypeCode", PROFORMA),
        leaf("cbc:Note", input.note),
    ];
    if let Some(texts) = input.texts {
        let notes = [&texts.complaint, &texts.cause, &texts.correction];
        content.extend(notes.map(|text| leaf("cbc:Note", text)));
    }
    content.push(leaf("cbc:DocumentCurrencyCode", draft.currency));
    content.push(draft.seller(&input.parties.shop));
    content.push(draft.buyer(input.parties.bill_to()));
    content.push(draft.taxes(&sums));
    content.push(draft.sums(&sums));
    content.extend(lines.into_iter().map(|line| draft.line(line)));
    Ok(Some(xml::document("Invoice", content)?))
}

/// Checks `[invoice_draft]`.
pub(crate) fn check(section: &InvoiceDraftSection) -> Result<(), BillingError> {
    for (key, code) in [
        ("seller_country", &section.seller_country),
        ("buyer_country", &section.buyer_country),
    ] {
        if let Some(code) = code
            && code.parse::<Country>().is_err()
        {
            return Err(BillingError::setting(
                KeyPath::new(["invoice_draft", key]),
                format!(
                    "{code:?} is no country of ISO 3166-1; expected two capitals, such as \"DE\""
                ),
            ));
        }
    }
    Ok(())
}

struct Draft<'a> {
    shop: &'a ShopFile,
    section: &'a InvoiceDraftSection,
    currency: &'a str,
}

impl Draft<'_> {
    fn amount(&self, name: &'static str, amount: Decimal) -> Node {
        leaf(name, amount.to_string()).with("currencyID", self.currency)
    }

    fn seller(&self, shop: &Party) -> Node {
        let tax_number = self.section.seller_tax_id.as_ref().map(|id| {
            group(
                "cac:PartyTaxScheme",
                [leaf("cbc:CompanyID", id), self.scheme()],
            )
        });
        let legal = group(
            "cac:PartyLegalEntity",
            [
                optional("cbc:RegistrationName", &shop.name),
                optional("cbc:CompanyID", &shop.registration),
            ],
        );
        let country = &self.section.seller_country;
        let party = [
            address(&shop.address, country),
            tax_number.unwrap_or_default(),
            legal,
            contact(&shop.phone),
        ];
        group("cac:AccountingSupplierParty", [group("cac:Party", party)]).kept()
    }

    fn buyer(&self, client: &Party) -> Node {
        let name = optional("cbc:RegistrationName", &client.name);
        let party = [
            address(&client.address, &self.section.buyer_country),
            group("cac:PartyLegalEntity", [name]),
            contact(&client.phone),
        ];
        group("cac:AccountingCustomerParty", [group("cac:Party", party)]).kept()
    }

    fn taxes(&self, totals: &Totals) -> Node {
        let subtotal = |t: &TaxTotal| {
            group(
                "cac:TaxSubtotal",
                [
                    self.amount("cbc:TaxableAmount", t.base),
                    self.amount("cbc:TaxAmount", t.amount),
                    self.category("cac:TaxCategory", &t.tax, self.reason(&t.tax)),
                ],
            )
        };
        if totals.by_tax.is_empty() {
            return Node::default();
        }
        let mut content = vec![self.amount("cbc:TaxAmount", totals.tax)];
        content.extend(totals.by_tax.iter().map(subtotal));
        group("cac:TaxTotal", content)
    }

    /// Reason why no tax is taken, as shop.toml says it for the category.
    fn reason(&self, tax: &LineTax) -> Option<&str> {
        let mut taxes = self.shop.billing.taxes.values();
        taxes
            .find(|t| t.category == tax.category && t.rate.0 == tax.rate)?
            .reason
            .as_deref()
    }

    fn category(&self, name: &'static str, tax: &LineTax, reason: Option<&str>) -> Node {
        // BR-O-05: what is outside the scope of the tax has no rate.
        let rate = (tax.category != "O").then(|| leaf("cbc:Percent", tax.rate.to_string()));
        let content = [
            leaf("cbc:ID", &tax.category),
            rate.unwrap_or_default(),
            reason.map_or_else(Node::default, |r| leaf("cbc:TaxExemptionReason", r)),
            self.scheme(),
        ];
        group(name, content)
    }

    /// Kind of tax: the stated one, or sales tax for a shop in the United States, which know no value added tax.
    fn scheme(&self) -> Node {
        let is_american = match self.section.seller_country.as_deref() {
            Some(country) => country == "US",
            None => self.currency == "USD",
        };
        // UN/ECE 5153, D.16A: STT is "State/provincial sales tax".
        let usual = if is_american { "STT" } else { "VAT" };
        let stated = self.section.tax_scheme.as_deref();
        group("cac:TaxScheme", [leaf("cbc:ID", stated.unwrap_or(usual))])
    }

    fn sums(&self, totals: &Totals) -> Node {
        group(
            "cac:LegalMonetaryTotal",
            [
                self.amount("cbc:LineExtensionAmount", totals.net),
                self.amount("cbc:TaxExclusiveAmount", totals.net),
                self.amount("cbc:TaxInclusiveAmount", totals.gross),
                self.amount("cbc:PayableAmount", totals.gross),
            ],
        )
    }

    fn line(&self, line: &LabourLine) -> Node {
        let quantity =
            leaf("cbc:InvoicedQuantity", line.quantity().to_string()).with("unitCode", unit(line));
        let tax = line
            .tax
            .as_ref()
            .map(|tax| self.category("cac:ClassifiedTaxCategory", tax, None));
        let item = group(
            "cac:Item",
            [
                leaf("cbc:Name", &line.description),
                group(
                    "cac:SellersItemIdentification",
                    [leaf("cbc:ID", &line.operation)],
                ),
                tax.unwrap_or_default(),
            ],
        );
        group(
            "cac:InvoiceLine",
            [
                leaf("cbc:ID", &line.line_id),
                quantity,
                self.amount("cbc:LineExtensionAmount", line.net_amount),
                item,
                group("cac:Price", [self.amount("cbc:PriceAmount", line.rate)]),
            ],
        )
    }
}

fn address(line: &Option<String>, country: &Option<String>) -> Node {
    let country = group("cac:Country", [optional("cbc:IdentificationCode", country)]);
    group(
        "cac:PostalAddress",
        [optional("cbc:StreetName", line), country],
    )
}

fn contact(phone: &Option<String>) -> Node {
    group("cac:Contact", [optional("cbc:Telephone", phone)])
}

fn optional(name: &'static str, text: &Option<String>) -> Node {
    text.as_deref()
        .map_or_else(Node::default, |t| leaf(name, t))
}
