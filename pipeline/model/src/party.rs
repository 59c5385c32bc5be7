//! Parties of a job: who called, who owns the vehicle, who examines it.

use crate::job_file::{ClientSection, CustomerSection};
use crate::shop_file::ShopSection;

/// One party with what a letterhead or an address needs.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Party {
    /// Name.
    pub name: Option<String>,
    /// Postal address.
    pub address: Option<String>,
    /// Telephone.
    pub phone: Option<String>,
    /// Registration or licence number, where the place asks for one.
    pub registration: Option<String>,
}

impl Party {
    fn is_empty(&self) -> bool {
        *self == Party::default()
    }
}

impl From<&ClientSection> for Party {
    fn from(s: &ClientSection) -> Party {
        Party {
            name: s.name.clone(),
            address: s.address.clone(),
            phone: s.phone.clone(),
            registration: None,
        }
    }
}

impl From<&CustomerSection> for Party {
    fn from(s: &CustomerSection) -> Party {
        Party {
            name: s.name.clone(),
            address: s.address.clone(),
            phone: s.phone.clone(),
            registration: None,
        }
    }
}

impl From<&ShopSection> for Party {
    fn from(s: &ShopSection) -> Party {
        Party {
            name: s.name.clone(),
            address: s.address.clone(),
            phone: s.phone.clone(),
            registration: s.registration.clone(),
        }
    }
}

/// Parties of a job. One person who is two of them fills in one section.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parties {
    /// Examiner: `[shop]` of shop.toml.
    pub shop: Party,
    /// Caller: `[client]` of job.toml, the owner where it is left out.
    pub client: Party,
    /// Owner of the vehicle: `[customer]` of job.toml, the client where it is left out.
    pub owner: Party,
}

impl Parties {
    /// Takes each party from its section, and from the other one where it is left out.
    pub fn new(shop: &ShopSection, client: &ClientSection, customer: &CustomerSection) -> Parties {
        let (client, owner) = (Party::from(client), Party::from(customer));
        Parties {
            shop: shop.into(),
            client: if client.is_empty() {
                owner.clone()
            } else {
                client.clone()
            },
            owner: if owner.is_empty() { client } else { owner },
        }
    }

    /// Returns whether somebody other than the owner called, such as another workshop.
    pub fn has_client_of_its_own(&self) -> bool {
        self.client != self.owner
    }

    /// Party that the shop bills: the client who called.
    pub fn bill_to(&self) -> &Party {
        &self.client
    }

    /// Party that offers the repair and receives its authorisation: the client where there is one of its own, else
    /// the shop.
    pub fn estimate_from(&self) -> &Party {
        match self.has_client_of_its_own() {
            true => &self.client,
            false => &self.shop,
        }
    }

    /// Party that the repair is offered to and that authorises it: the owner.
    pub fn estimate_to(&self) -> &Party {
        &self.owner
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parties(client: &str, customer: &str) -> Parties {
        let name = |n: &str| (!n.is_empty()).then(|| n.to_string());
        let shop = ShopSection {
            name: name("Shop"),
            ..ShopSection::default()
        };
        let client = ClientSection {
            name: name(client),
            ..ClientSection::default()
        };
        let customer = CustomerSection {
            name: name(customer),
            ..CustomerSection::default()
        };
        Parties::new(&shop, &client, &customer)
    }

    /// Who pays the diagnosis, who offers the repair, who authorises it.
    fn roles(p: &Parties) -> [&str; 3] {
        [p.bill_to(), p.estimate_from(), p.estimate_to()]
            .map(|party| party.name.as_deref().unwrap_or("-"))
    }

    #[test]
    fn each_document_names_its_parties() {
        assert_eq!(
            roles(&parties("Garage", "Owner")),
            ["Garage", "Garage", "Owner"]
        );
        assert_eq!(roles(&parties("", "Owner")), ["Owner", "Shop", "Owner"]);
        assert_eq!(roles(&parties("Garage", "")), ["Garage", "Shop", "Garage"]);
        assert_eq!(roles(&parties("", "")), ["-", "Shop", "-"]);
        assert_eq!(roles(&parties("Same", "Same")), ["Same", "Shop", "Same"]);
    }
}
