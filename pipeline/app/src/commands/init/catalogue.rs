//! Operations that nearly every shop bills, to begin with.

use model::labour::WorkStep;

/// Language of the descriptions, which stand in the reports.
#[derive(Debug, Clone, Copy)]
pub(super) enum Language {
    English,
    German,
    Spanish,
}

impl Language {
    /// Language of a code: `en`, `de`, `es`.
    pub(super) fn new(code: &str) -> Language {
        match code {
            "de" => Language::German,
            "es" => Language::Spanish,
            _ => Language::English,
        }
    }
}

/// One operation.
pub(super) struct Operation {
    pub(super) code: &'static str,
    pub(super) step: WorkStep,
    /// English, German, Spanish.
    descriptions: [&'static str; 3],
}

impl Operation {
    pub(super) fn description(&self, language: Language) -> &'static str {
        self.descriptions[language as usize]
    }

    /// Returns whether its hours are stated job by job.
    pub(super) fn is_by_the_clock(&self) -> bool {
        self.step == WorkStep::Diagnosis
    }

    /// Returns whether it is priced as diagnosis.
    pub(super) fn is_diagnostic(&self) -> bool {
        matches!(self.step, WorkStep::Diagnosis | WorkStep::ProofRecording)
    }
}

pub(super) const OPERATIONS: [Operation; 7] = [
    Operation {
        code: "D100",
        step: WorkStep::Diagnosis,
        descriptions: [
            "Recording and diagnosis",
            "Messung und Diagnose",
            "Grabación y diagnóstico",
        ],
    },
    Operation {
        code: "A100",
        step: WorkStep::FirstStep,
        descriptions: [
            "Check feed, ground and wiring, repeat the learning procedure",
            "Versorgung, Masse und Leitungen prüfen, Lernvorgang wiederholen",
            "Comprobar alimentación, masa y cableado, repetir el aprendizaje",
        ],
    },
    Operation {
        code: "A200",
        step: WorkStep::Teardown,
        descriptions: [
            "Remove and open the unit",
            "Aggregat ausbauen und öffnen",
            "Desmontar y abrir el conjunto",
        ],
    },
    Operation {
        code: "A300",
        step: WorkStep::Repair,
        descriptions: [
            "Repair what was found",
            "Festgestellten Schaden beheben",
            "Reparar la avería hallada",
        ],
    },
    Operation {
        code: "A400",
        step: WorkStep::Reassembly,
        descriptions: [
            "Close and refit the unit",
            "Aggregat schließen und einbauen",
            "Cerrar y montar el conjunto",
        ],
    },
    Operation {
        code: "A500",
        step: WorkStep::Relearn,
        descriptions: [
            "Learning procedure",
            "Lernvorgang",
            "Procedimiento de aprendizaje",
        ],
    },
    Operation {
        code: "D900",
        step: WorkStep::ProofRecording,
        descriptions: [
            "Repeat the recording to prove the repair",
            "Messung wiederholen, um die Reparatur nachzuweisen",
            "Repetir la grabación para demostrar la reparación",
        ],
    },
];
