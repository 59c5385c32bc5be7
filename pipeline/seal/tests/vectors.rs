//! Keys and signatures against the vectors of their standards.

use baybrief_seal::{PublicKey, ShopKey, sign, verify};

fn bytes<const N: usize>(hex: &str) -> [u8; N] {
    let mut bytes = [0; N];
    for (i, byte) in bytes.iter_mut().enumerate() {
        *byte = u8::from_str_radix(&hex[2 * i..2 * i + 2], 16).expect("hexadecimal");
    }
    bytes
}

/// RFC 8032, 7.1, tests 1 to 3: secret, public key, message, signature.
const RFC_8032: [(&str, &str, &str, &str); 3] = [
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
];

#[test]
fn signatures_are_those_of_rfc_8032() {
    for (secret, public, message, signature) in RFC_8032 {
        let key = ShopKey::from_secret(&bytes(secret));
        let message: Vec<u8> = (0..message.len() / 2)
            .map(|i| u8::from_str_radix(&message[2 * i..2 * i + 2], 16).expect("hexadecimal"))
            .collect();
        assert_eq!(key.public().to_bytes(), bytes(public));
        assert_eq!(key.sign(&message), bytes(signature));
        assert!(key.public().holds(&message, &bytes(signature)));
        let mut other = message.clone();
        other.push(0);
        assert!(!key.public().holds(&other, &bytes(signature)));
    }
}

/// RFC 8037, appendix A.4 and A.5: the signature of a key that the reader has to know. Appendix A.3: its thumbprint.
#[test]
fn the_example_of_rfc_8037_holds() {
    let text = "eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc.hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6\
                dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg";
    let key = PublicKey::from_bytes(&bytes(RFC_8032[0].1)).expect("a key");
    assert_eq!(key.x(), "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo");
    assert_eq!(
        key.thumbprint(),
        "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k"
    );
    let signed = verify(text, Some(key)).expect("it holds");
    assert_eq!(signed.payload, b"Example of Ed25519 signing");
    assert!(verify(text, None).is_err(), "its header has no key");
}

#[test]
fn what_was_changed_does_not_hold() {
    let key = ShopKey::from_secret(&[7; 32]);
    let text = sign(b"{\"a\":1}", &key);
    let signed = verify(&text, None).expect("it holds");
    assert_eq!(
        (signed.payload.as_slice(), signed.key),
        (&b"{\"a\":1}"[..], key.public())
    );
    for i in 0..text.len() {
        let mut changed = text.clone().into_bytes();
        changed[i] = if changed[i] == b'A' { b'B' } else { b'A' };
        let changed = String::from_utf8(changed).expect("ASCII");
        // The last letter of 64 bytes has bits that mean nothing: the decoder refuses them.
        assert!(verify(&changed, None).is_err(), "letter {i}");
    }
    // No signature at all, as the algorithm "none" would have it.
    let payload = text.split('.').nth(1).expect("a payload");
    assert!(verify(&format!("eyJhbGciOiJub25lIn0.{payload}."), None).is_err());
}
