//! Cyclic redundancy checks of CAN frames.
//!
//! Polynomials and start values: ISO 11898-1 as the catalogue of parametrised CRC algorithms lists them (CRC-15/CAN,
//! CRC-17/CAN-FD, CRC-21/CAN-FD). Frames of ISO CAN FD start from 1 in the highest bit, not from 0.

/// A check of `width` bits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crc {
    /// Number of bits, 1 to 31.
    pub width: u32,
    /// Generator polynomial without its highest term.
    pub polynomial: u32,
    /// Value of the register before the first bit.
    pub start: u32,
}

/// The check of a classic frame, over the bits without their stuff bits.
pub const CRC15: Crc = Crc {
    width: 15,
    polynomial: 0x4599,
    start: 0,
};

/// The check of a CAN FD frame of up to 16 bytes, over bits and dynamic stuff bits.
pub const CRC17: Crc = Crc {
    width: 17,
    polynomial: 0x1_685B,
    start: 0x1_0000,
};

/// The check of a CAN FD frame of 20 to 64 bytes, over bits and dynamic stuff bits.
pub const CRC21: Crc = Crc {
    width: 21,
    polynomial: 0x10_2899,
    start: 0x10_0000,
};

impl Crc {
    /// Remainder of the bits, the first sent first.
    pub fn of(&self, bits: impl IntoIterator<Item = bool>) -> u32 {
        let mask = (1 << self.width) - 1;
        bits.into_iter().fold(self.start, |register, bit| {
            let out = register >> (self.width - 1) & 1 == 1;
            let shifted = register << 1 & mask;
            if bit != out {
                shifted ^ self.polynomial
            } else {
                shifted
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(crc: Crc) -> u32 {
        let bits = b"123456789"
            .iter()
            .flat_map(|&byte| (0..8).rev().map(move |k| byte >> k & 1 == 1));
        crc.of(bits)
    }

    /// Check values of the catalogue of parametrised CRC algorithms (start value 0), which crccheck 1.3.1 (PyPI) also
    /// gives.
    #[test]
    fn check_values_of_the_catalogue() {
        assert_eq!(check(CRC15), 0x059E);
        assert_eq!(check(Crc { start: 0, ..CRC17 }), 0x0_4F03);
        assert_eq!(check(Crc { start: 0, ..CRC21 }), 0x0E_D841);
    }
}
