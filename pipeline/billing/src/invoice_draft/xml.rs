//! Elements of a UBL document.

use crate::BillingError;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use std::io;

const NAMESPACES: [(&str, &str); 3] = [
    (
        "xmlns",
        "urn:oasis:names:specification:ubl:schema:xsd:Invoice-2",
    ),
    (
        "xmlns:cac",
        "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2",
    ),
    (
        "xmlns:cbc",
        "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2",
    ),
];

/// One element. The default one is nothing and is not written.
#[derive(Debug, Default)]
pub(super) struct Node {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    text: String,
    content: Vec<Node>,
    kept: bool,
}

/// An element with a text; none for a blank text, which UBL does not allow.
pub(super) fn leaf(name: &'static str, text: impl AsRef<str>) -> Node {
    Node {
        name,
        text: allowed(text.as_ref()),
        ..Node::default()
    }
}

/// An element with further elements; none when they are all nothing.
pub(super) fn group(name: &'static str, content: impl IntoIterator<Item = Node>) -> Node {
    Node {
        name,
        content: content.into_iter().filter(Node::is_something).collect(),
        ..Node::default()
    }
}

impl Node {
    /// With an attribute.
    pub(super) fn with(mut self, name: &'static str, value: &str) -> Node {
        self.attributes.push((name, value.into()));
        self
    }

    /// Written even when it holds nothing.
    pub(super) fn kept(mut self) -> Node {
        self.kept = true;
        self
    }

    fn is_something(&self) -> bool {
        self.kept || !self.content.is_empty() || !self.text.trim().is_empty()
    }

    fn write(&self, writer: &mut Writer<Vec<u8>>) -> io::Result<()> {
        let attributes = self.attributes.iter().map(|(k, v)| (*k, v.as_str()));
        let element = writer.create_element(self.name).with_attributes(attributes);
        match (self.content.is_empty(), self.text.is_empty()) {
            (true, true) => element.write_empty()?,
            (true, false) => element.write_text_content(BytesText::new(&self.text))?,
            (false, _) => element.write_inner_content(|writer| {
                self.content.iter().try_for_each(|node| node.write(writer))
            })?,
        };
        Ok(())
    }
}

/// The whole document in UTF-8.
pub(super) fn document(name: &'static str, content: Vec<Node>) -> Result<Vec<u8>, BillingError> {
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 2);
    writer.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    let root = Node {
        attributes: NAMESPACES.map(|(k, v)| (k, v.to_string())).into(),
        ..group(name, content)
    };
    root.write(&mut writer)?;
    let mut bytes = writer.into_inner();
    bytes.push(b'\n');
    Ok(bytes)
}

/// The text without the characters that XML 1.0 has no way to write (2.2, Char), each a replacement character.
fn allowed(text: &str) -> String {
    let fits = |c: char| matches!(c, '\t' | '\n' | '\r' | ' '..='\u{FFFD}' | '\u{10000}'..);
    text.chars()
        .map(|c| {
            if fits(c) {
                c
            } else {
                char::REPLACEMENT_CHARACTER
            }
        })
        .collect()
}
