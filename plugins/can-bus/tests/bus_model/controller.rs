//! A controller, one bit at a time; true is recessive.

use baybrief_plugin_can_bus::measure::frame::{Frame, Identifier};

pub struct Controller {
    ids: Vec<Identifier>,
    /// The bus level at the sampling point of the bit that just passed.
    pub seen: bool,
    /// It sends nothing of its own accord.
    pub mute: bool,
    /// It never acknowledges.
    pub deaf: bool,
    pending: Option<Frame>,
    state: State,
    errors: u32,
}

enum State {
    /// Recessive bits seen, and how many are wanted before a frame may begin.
    Idle(usize, usize),
    /// Bits of the own frame, and how many were sent.
    Sending(Vec<bool>, usize),
    /// Bits seen since start of frame; the place of the acknowledge slot once it is known.
    Receiving(Vec<bool>, Option<usize>),
    /// Bits of the error flag left.
    Flag(usize),
    BusOff,
}

pub enum Event {
    None,
    /// A frame was sent; its number of bits.
    Sent(Frame, usize),
    Broken,
}

impl Controller {
    pub fn new(ids: Vec<Identifier>) -> Self {
        Controller {
            ids,
            seen: true,
            mute: false,
            deaf: false,
            pending: None,
            state: State::Idle(0, 11),
            errors: 0,
        }
    }

    pub fn ids(&self) -> &[Identifier] {
        &self.ids
    }

    /// The frame that it is sending.
    pub fn current(&self) -> Option<Frame> {
        match self.state {
            State::Sending(..) => self.pending.clone(),
            _ => None,
        }
    }

    /// True where it drives the bus in the bit that begins.
    pub fn drives(&self) -> bool {
        match &self.state {
            State::Sending(bits, sent) => !bits[*sent],
            State::Receiving(seen, Some(slot)) => !self.deaf && seen.len() == *slot,
            State::Flag(_) => self.errors < 128,
            _ => false,
        }
    }

    /// Goes on by one bit.
    pub fn advance(
        &mut self,
        frames: &[Option<Frame>],
        wants: bool,
        number: u32,
        data: [u32; 2],
        spoil: bool,
    ) -> Event {
        if self.pending.is_none() && wants && !self.mute && !self.ids.is_empty() {
            let id = self.ids[number as usize % self.ids.len()];
            let length = (number >> 8) as usize % 9;
            let bytes: Vec<u8> = data.iter().flat_map(|d| d.to_be_bytes()).collect();
            self.pending = Some(Frame {
                id,
                remote: false,
                dlc: length as u8,
                data: bytes[..length].to_vec(),
                fd: None,
            });
        }
        let seen = self.seen;
        if spoil && matches!(self.state, State::Receiving(..)) {
            self.state = State::Flag(6);
            return Event::None;
        }
        match &mut self.state {
            State::Idle(quiet, wanted) => {
                if !seen {
                    // Somebody begins; before the bus is idle that is a leftover.
                    let begins = *quiet + 1 >= *wanted;
                    self.state = if begins {
                        State::Receiving(vec![false], None)
                    } else {
                        State::Idle(0, *wanted)
                    };
                    return Event::None;
                }
                *quiet += 1;
                if let Some(frame) = self.pending.as_ref().filter(|_| *quiet >= *wanted) {
                    let mut bits = frame.bits();
                    bits.extend([true; 10]);
                    self.state = State::Sending(bits, 0);
                }
                Event::None
            }
            State::Sending(bits, sent) => {
                let own = bits[*sent];
                *sent += 1;
                let slot = bits.len() - 9;
                if own != seen {
                    let arbitration = *sent <= 33;
                    if *sent - 1 == slot && own {
                        // Acknowledged.
                    } else if own && arbitration {
                        let mut history = bits[..*sent].to_vec();
                        history[*sent - 1] = seen;
                        self.state = State::Receiving(history, None);
                        return Event::None;
                    } else {
                        return self.fail();
                    }
                } else if *sent - 1 == slot {
                    // Nobody acknowledged.
                    return self.fail();
                }
                if *sent == bits.len() {
                    let length = bits.len();
                    self.errors = self.errors.saturating_sub(1);
                    self.state = State::Idle(0, 3);
                    let frame = self.pending.take();
                    return frame.map_or(Event::None, |f| Event::Sent(f, length));
                }
                Event::None
            }
            State::Receiving(history, slot) => {
                let stuffed = slot.is_none_or(|s| history.len() + 1 < s);
                history.push(seen);
                let n = history.len();
                if stuffed && n >= 6 && history[n - 6..].iter().all(|&b| b == seen) {
                    return self.fail();
                }
                if slot.is_none() {
                    *slot = frames.iter().flatten().find_map(|f| {
                        let bits = f.bits();
                        (n + 1 >= bits.len() && n <= bits.len() && bits.starts_with(&history[..n]))
                            .then_some(bits.len() + 1)
                    });
                }
                if slot.is_some_and(|s| n == s + 9) {
                    self.state = State::Idle(0, 3);
                }
                if n > 160 {
                    self.state = State::Idle(0, 11);
                }
                Event::None
            }
            State::Flag(left) => {
                *left -= 1;
                if *left == 0 {
                    self.state = match self.errors {
                        0..128 => State::Idle(0, 11),
                        128..256 => State::Idle(0, 19),
                        _ => State::BusOff,
                    };
                }
                Event::None
            }
            State::BusOff => Event::None,
        }
    }

    fn fail(&mut self) -> Event {
        let sending = matches!(self.state, State::Sending(..));
        self.errors += if sending { 8 } else { 1 };
        self.state = State::Flag(6);
        if sending { Event::Broken } else { Event::None }
    }
}
