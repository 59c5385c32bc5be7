//! Words of scan texts in four languages. Layouts and wordings are our own; the codes' meanings are the general
//! ones of SAE J2012-DA, paraphrased.

/// Language of a scan text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Language {
    English,
    German,
    French,
    Spanish,
}

/// State of a code as a scan text tells it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CodeState {
    /// Failing now.
    Active,
    /// Failed in this cycle or the last.
    Pending,
    /// Stored.
    Confirmed,
    /// Not failing now.
    History,
}

impl CodeState {
    /// The word of case.json.
    pub fn name(self) -> &'static str {
        ["active", "pending", "confirmed", "history"][self as usize]
    }

    /// The word of a language.
    pub fn word(self, language: Language) -> &'static str {
        let words = match language {
            Language::English => ["present", "pending", "confirmed", "history"],
            Language::German => ["aktiv", "vorläufig", "bestätigt", "historisch"],
            Language::French => ["présent", "en attente", "confirmé", "historique"],
            Language::Spanish => ["activo", "pendiente", "confirmado", "histórico"],
        };
        words[self as usize]
    }

    /// A status byte of ISO 14229-1 that says it.
    pub fn byte(self) -> u8 {
        [0x2F, 0x26, 0x2B, 0x28][self as usize]
    }

    /// The words of case.json for this state's status byte.
    pub fn names_of_byte(self) -> &'static [&'static str] {
        match self {
            CodeState::Active => &["active", "pending", "confirmed"],
            CodeState::Pending => &["pending"],
            CodeState::Confirmed => &["active", "confirmed"],
            CodeState::History => &["confirmed", "history"],
        }
    }
}

/// Labels of a scan text.
pub(crate) struct Labels {
    pub title: &'static str,
    pub vin: &'static str,
    pub date: &'static str,
    pub odometer: &'static str,
    pub module: &'static str,
    pub code: &'static str,
    pub state: &'static str,
    pub meaning: &'static str,
    pub engine_speed: &'static str,
    pub selector: &'static str,
    pub voltage: &'static str,
    pub none: &'static str,
}

impl Language {
    pub(crate) fn labels(self) -> Labels {
        match self {
            Language::English => Labels {
                title: "Control unit query",
                vin: "Vehicle number",
                date: "Date",
                odometer: "Mileage",
                module: "Unit",
                code: "Code",
                state: "State",
                meaning: "Meaning",
                engine_speed: "Engine speed",
                selector: "Selector lever",
                voltage: "Supply voltage",
                none: "no entries",
            },
            Language::German => Labels {
                title: "Steuergeräte-Abfrage",
                vin: "Fahrgestellnummer",
                date: "Datum",
                odometer: "Kilometerstand",
                module: "Steuergerät",
                code: "Fehlercode",
                state: "Zustand",
                meaning: "Bedeutung",
                engine_speed: "Motordrehzahl",
                selector: "Wählhebelstellung",
                voltage: "Versorgungsspannung",
                none: "keine Einträge",
            },
            Language::French => Labels {
                title: "Interrogation des calculateurs",
                vin: "Numéro de châssis",
                date: "Date",
                odometer: "Kilométrage",
                module: "Calculateur",
                code: "Code défaut",
                state: "État",
                meaning: "Signification",
                engine_speed: "Régime moteur",
                selector: "Position du levier",
                voltage: "Tension d'alimentation",
                none: "aucun défaut",
            },
            Language::Spanish => Labels {
                title: "Consulta de unidades de control",
                vin: "Número de bastidor",
                date: "Fecha",
                odometer: "Kilometraje",
                module: "Unidad",
                code: "Código",
                state: "Estado",
                meaning: "Significado",
                engine_speed: "Régimen del motor",
                selector: "Posición de la palanca",
                voltage: "Tensión de alimentación",
                none: "sin averías",
            },
        }
    }
}

/// General meaning of a code; a dash for one that is not listed.
pub fn meaning(code: &str, language: Language) -> &'static str {
    let row: [&str; 4] = match code {
        "P0700" => [
            "gearbox control asks for the lamp",
            "Getriebesteuerung fordert Warnlampe",
            "la commande de boîte demande le voyant",
            "el control del cambio pide el testigo",
        ],
        "P0705" => [
            "range sensor circuit",
            "Stromkreis Fahrstufensensor",
            "circuit du capteur de gamme",
            "circuito del sensor de gama",
        ],
        "P0716" => [
            "input speed sensor A, range",
            "Eingangsdrehzahlsensor A, Bereich",
            "capteur de vitesse d'entrée A, plage",
            "sensor de velocidad de entrada A, rango",
        ],
        "P0717" => [
            "input speed sensor A, no signal",
            "Eingangsdrehzahlsensor A, kein Signal",
            "capteur de vitesse d'entrée A, pas de signal",
            "sensor de velocidad de entrada A, sin señal",
        ],
        "P0718" => [
            "input speed sensor A, intermittent",
            "Eingangsdrehzahlsensor A, sporadisch",
            "capteur de vitesse d'entrée A, intermittent",
            "sensor de velocidad de entrada A, intermitente",
        ],
        "P2766" => [
            "input speed sensor B, range",
            "Eingangsdrehzahlsensor B, Bereich",
            "capteur de vitesse d'entrée B, plage",
            "sensor de velocidad de entrada B, rango",
        ],
        "P2767" => [
            "input speed sensor B, no signal",
            "Eingangsdrehzahlsensor B, kein Signal",
            "capteur de vitesse d'entrée B, pas de signal",
            "sensor de velocidad de entrada B, sin señal",
        ],
        "P2768" => [
            "input speed sensor B, intermittent",
            "Eingangsdrehzahlsensor B, sporadisch",
            "capteur de vitesse d'entrée B, intermittent",
            "sensor de velocidad de entrada B, intermitente",
        ],
        "P0562" => [
            "system voltage low",
            "Bordspannung niedrig",
            "tension de bord basse",
            "tensión del sistema baja",
        ],
        "P0730" => [
            "incorrect gear ratio",
            "falsche Übersetzung",
            "rapport de boîte incorrect",
            "relación de marcha incorrecta",
        ],
        "P0780" => [
            "shift malfunction",
            "Schaltstörung",
            "défaut de passage",
            "fallo de cambio",
        ],
        "P080A" => [
            "clutch position not learned",
            "Kupplungslage nicht gelernt",
            "position d'embrayage non apprise",
            "posición de embrague no aprendida",
        ],
        "P0810" => [
            "clutch position control",
            "Regelung der Kupplungslage",
            "régulation de position d'embrayage",
            "control de posición de embrague",
        ],
        "P0811" => [
            "clutch slips too much",
            "Kupplung rutscht zu stark",
            "glissement d'embrayage excessif",
            "deslizamiento excesivo del embrague",
        ],
        "P081E" => [
            "clutch B slips too much",
            "Kupplung B rutscht zu stark",
            "glissement excessif de l'embrayage B",
            "deslizamiento excesivo del embrague B",
        ],
        "P0884" => [
            "gearbox control supply, intermittent",
            "Versorgung Getriebesteuerung sporadisch",
            "alimentation de la commande, intermittente",
            "alimentación del control, intermitente",
        ],
        "P0893" => [
            "several gears engaged",
            "mehrere Gänge eingelegt",
            "plusieurs rapports engagés",
            "varias marchas engranadas",
        ],
        "P0900" => [
            "clutch actuator circuit open",
            "Kupplungssteller unterbrochen",
            "circuit d'actionneur d'embrayage ouvert",
            "circuito del actuador de embrague abierto",
        ],
        "P0909" => [
            "gate selection control",
            "Regelung der Gassenwahl",
            "régulation de sélection",
            "control de selección",
        ],
        "P073D" => [
            "neutral cannot be engaged",
            "Neutral nicht einlegbar",
            "point mort impossible",
            "no entra el punto muerto",
        ],
        "U0101" => [
            "no message from the gearbox control",
            "keine Botschaft der Getriebesteuerung",
            "pas de message de la commande de boîte",
            "sin mensaje del control del cambio",
        ],
        "C0040" => [
            "right front wheel speed sensor",
            "Raddrehzahlsensor vorn rechts",
            "capteur de roue avant droit",
            "sensor de rueda delantera derecha",
        ],
        _ => ["-"; 4],
    };
    row[language as usize]
}
