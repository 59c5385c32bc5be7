//! Answers of job.toml that a verdict waits for.

use model::case::{CaptureRecord, ChannelRecord};
use model::cause_sheet::AskedFor;
use model::knowledge::Knowledge;
use model::{Case, Role};
use page::Asked;

/// The answers that the verdict needs first, in its order. `untimed`: recordings whose time column has no known unit.
pub fn asked(case: &Case, untimed: &[&str], knowledge: &Knowledge) -> Vec<Asked> {
    let steps = case.verdict.next.iter();
    let asking = Asking {
        case,
        untimed,
        knowledge,
    };
    steps.flat_map(|next| asking.of_step(&next.step)).collect()
}

struct Asking<'a> {
    case: &'a Case,
    untimed: &'a [&'a str],
    knowledge: &'a Knowledge,
}

impl Asking<'_> {
    fn of_step(&self, step: &str) -> Vec<Asked> {
        match self.knowledge.asked_for(step) {
            Some(AskedFor::Selector) => self.of_captures("selector", |c| c.selector.is_none()),
            Some(AskedFor::Engine) => self.of_captures("engine", |c| c.engine.is_none()),
            Some(AskedFor::Teeth) => {
                self.of_channels("teeth", |c| self.role(c).is_some_and(Role::is_speed_sensor))
            }
            Some(AskedFor::Scale) => self.of_channels("amps_per_volt", |c| {
                self.role(c).is_some_and(Role::is_current)
            }),
            None => self.of_common_step(step),
        }
    }

    /// Answers that a step of the program's own asks for.
    fn of_common_step(&self, step: &str) -> Vec<Asked> {
        let of_vehicle = |key| Asked {
            file: None,
            channel: None,
            key,
        };
        match step {
            "next-state-time-unit" => (self.untimed.iter())
                .map(|file| Asked {
                    file: Some((*file).to_owned()),
                    ..of_vehicle("time_unit")
                })
                .collect(),
            "next-state-unit" => vec![of_vehicle("unit")],
            "next-state-systems" => vec![of_vehicle("systems")],
            "next-state-channels" => self.of_channels("role", |c| c.role.is_none()),
            _ => Vec::new(),
        }
    }

    fn of_captures(
        &self,
        key: &'static str,
        is_asked: impl Fn(&CaptureRecord) -> bool,
    ) -> Vec<Asked> {
        let captures = self.case.captures.iter().filter(|c| is_asked(c));
        let asked = |c: &CaptureRecord| Asked {
            file: Some(c.file.clone()),
            channel: None,
            key,
        };
        captures.map(asked).collect()
    }

    fn of_channels(
        &self,
        key: &'static str,
        is_asked: impl Fn(&ChannelRecord) -> bool,
    ) -> Vec<Asked> {
        let channels = self.case.captures.iter().flat_map(|capture| {
            let channels = capture.channels.iter();
            channels.map(move |channel| (capture, channel))
        });
        let asked = channels.filter(|(_, channel)| is_asked(channel));
        asked
            .map(|(capture, channel)| Asked {
                file: Some(capture.file.clone()),
                channel: Some(channel.name.clone()),
                key,
            })
            .collect()
    }

    fn role(&self, channel: &ChannelRecord) -> Option<&Role> {
        self.knowledge.roles.get(channel.role.as_deref()?)
    }
}
