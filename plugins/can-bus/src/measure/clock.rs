//! Bits from edges: a receiver's sampling with resynchronisation.

use super::edges::Logic;

/// Sampling point of a bit (CiA 601-3 and CANopen ask for 75 to 87.5 %; earlier tolerates less delay of the
/// recessive edge and more jitter of the recorder's clock).
const SAMPLING_POINT: f64 = 0.7;
/// Share of the phase error that one edge corrects: several edges average out the recorder's own grid.
const GAIN: f64 = 0.4;
/// Largest correction by one edge, in bits.
const LARGEST_STEP: f64 = 0.25;
/// Share of a nominal bit after which the rate switches (80 % in the bit timing of ISO 11898-1 users; Microchip's
/// CAN FD documentation gives 80 % for 500 kbit/s). Used only where no edge tells.
const SWITCHING_POINT: f64 = 0.8;

/// Takes bit after bit from a logic signal. Times are in samples.
#[derive(Debug, Clone)]
pub struct Clock<'a> {
    logic: &'a Logic,
    /// Next edge that was not passed.
    next: usize,
    /// Start of the bit that is taken next.
    boundary: f64,
    /// Length of a bit.
    bit: f64,
}

impl<'a> Clock<'a> {
    /// Begins with the bit that edge `index` opens.
    pub fn at_edge(logic: &'a Logic, index: usize, bit: f64) -> Self {
        Clock {
            logic,
            next: index + 1,
            boundary: logic.edges[index].at,
            bit,
        }
    }

    /// Start of the bit that is taken next.
    pub fn position(&self) -> f64 {
        self.boundary
    }

    /// Index of the first edge that was not passed.
    pub fn next_edge(&self) -> usize {
        self.next
    }

    /// The next bit: true is recessive. `None` at the end of the record.
    pub fn bit(&mut self) -> Option<bool> {
        let edges = &self.logic.edges;
        while let Some(edge) = edges.get(self.next) {
            if edge.at > self.boundary + SAMPLING_POINT * self.bit {
                break;
            }
            if edge.dominant {
                let error = (edge.at - self.boundary) * GAIN;
                let most = LARGEST_STEP * self.bit;
                self.boundary += error.clamp(-most, most);
            }
            self.next += 1;
        }
        if self.boundary + SAMPLING_POINT * self.bit >= self.logic.samples as f64 {
            return None;
        }
        self.boundary += self.bit;
        Some(!self.is_dominant())
    }

    fn is_dominant(&self) -> bool {
        match self.next.checked_sub(1) {
            Some(last) => self.logic.edges[last].dominant,
            None => self.logic.starts_dominant,
        }
    }

    /// Changes to bits of another length after the bit that was taken last, in whose middle the rate switches. A
    /// dominant edge that ends this bit sets the grid anew, as in a receiver.
    pub fn switch(&mut self, bit: f64) {
        let start = self.boundary - self.bit;
        self.boundary = start + SWITCHING_POINT * self.bit + (1.0 - SWITCHING_POINT) * bit;
        self.bit = bit;
        let next = self.logic.edges.get(self.next);
        let longest = self.boundary.max(start) + bit;
        if let Some(edge) = next.filter(|e| e.dominant && e.at < longest && e.at > start) {
            self.boundary = edge.at;
        }
    }
}
