//! Scan-tool text exports in layouts of our own.

use crate::scan_words::{CodeState, Labels, Language, meaning};

/// Answers of the vehicle to the scan tool.
#[derive(Debug, Clone, Default)]
pub struct ScanReport {
    /// Vehicle number.
    pub vin: String,
    /// Day, as `2026-03-02`.
    pub date: String,
    /// km.
    pub odometer_km: u32,
    /// The codes.
    pub codes: Vec<ScanCode>,
    /// Engine speed, rpm, where live data are given.
    pub engine_rpm: Option<f64>,
    /// Selector position, where live data are given.
    pub selector: Option<char>,
    /// Supply voltage, V, where live data are given.
    pub voltage: Option<f64>,
}

/// One code.
#[derive(Debug, Clone)]
pub struct ScanCode {
    /// The module that reports it.
    pub module: &'static str,
    /// Five characters.
    pub code: &'static str,
    /// Failure type byte, two hexadecimal digits.
    pub failure_type: Option<&'static str>,
    /// Its state.
    pub state: CodeState,
}

/// Layout of a scan text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScanLayout {
    /// Ruled columns with bars.
    Bars,
    /// A letter in whole sentences.
    Letter,
    /// A block for each unit.
    Blocks,
    /// Semicolons, with a status byte in hexadecimal.
    Semicolons,
    /// A numbered list.
    Numbered,
    /// Tabulators, code and failure type as one word.
    Tabs,
    /// Codes under headings of their states.
    ByState,
}

impl ScanLayout {
    /// Every layout.
    pub const ALL: [ScanLayout; 7] = [
        ScanLayout::Bars,
        ScanLayout::Letter,
        ScanLayout::Blocks,
        ScanLayout::Semicolons,
        ScanLayout::Numbered,
        ScanLayout::Tabs,
        ScanLayout::ByState,
    ];

    /// True where the layout shows status bytes instead of words.
    pub fn shows_bytes(self) -> bool {
        matches!(self, ScanLayout::Semicolons | ScanLayout::Tabs)
    }

    /// True where the layout shows failure types.
    pub fn shows_failure_types(self) -> bool {
        !matches!(self, ScanLayout::Letter | ScanLayout::ByState)
    }

    /// The text.
    pub fn write(self, report: &ScanReport, language: Language) -> String {
        let l = language.labels();
        let lines = match self {
            ScanLayout::Bars => bars(report, language, &l),
            ScanLayout::Letter => letter(report, language),
            ScanLayout::Blocks => blocks(report, language, &l),
            ScanLayout::Semicolons => semicolons(report, language, &l),
            ScanLayout::Numbered => numbered(report, language, &l),
            ScanLayout::Tabs => tabs(report, language, &l),
            ScanLayout::ByState => by_state(report, language, &l),
        };
        lines.join("\n") + "\n"
    }
}

fn number(v: f64, digits: usize, language: Language) -> String {
    let text = format!("{v:.digits$}");
    if language == Language::English {
        text
    } else {
        text.replace('.', ",")
    }
}

fn full_code(c: &ScanCode, between: &str) -> String {
    c.failure_type
        .map_or(c.code.to_string(), |ft| format!("{}{between}{ft}", c.code))
}

fn live(r: &ScanReport, language: Language, l: &Labels, between: &str) -> Vec<String> {
    let rpm = r
        .engine_rpm
        .map(|n| format!("{}{between}{n:.0} rpm", l.engine_speed));
    let selector = r.selector.map(|s| format!("{}{between}{s}", l.selector));
    let volts = r
        .voltage
        .map(|v| format!("{}{between}{} V", l.voltage, number(v, 1, language)));
    [rpm, selector, volts].into_iter().flatten().collect()
}

fn bars(r: &ScanReport, language: Language, l: &Labels) -> Vec<String> {
    let mut lines = vec![
        format!("{} / {}", l.title, r.date),
        format!("{}: {}", l.vin, r.vin),
        format!("{}: {} km", l.odometer, r.odometer_km),
        String::new(),
        format!(
            "| {:<12} | {:<10} | {:<12} | {}",
            l.module, l.code, l.state, l.meaning
        ),
        format!("|{:-<14}|{:-<12}|{:-<14}|{:-<30}", "", "", "", ""),
    ];
    lines.extend(r.codes.iter().map(|c| {
        let (code, state) = (full_code(c, "-"), c.state.word(language));
        format!(
            "| {:<12} | {:<10} | {:<12} | {}",
            c.module,
            code,
            state,
            meaning(c.code, language)
        )
    }));
    if r.codes.is_empty() {
        lines.push(format!("| {:<12} | {}", "TCM", l.none));
    }
    lines.push(String::new());
    lines.extend(live(r, language, l, ": "));
    lines
}

fn letter(r: &ScanReport, language: Language) -> Vec<String> {
    let (open, none, read) = match language {
        Language::English => (
            "On {d} I queried the vehicle {v} at {k} km.",
            "No unit had an entry.",
            "{m} reports {c}, {t} ({s}).",
        ),
        Language::German => (
            "Am {d} wurde das Fahrzeug {v} bei {k} km ausgelesen.",
            "Kein Steuergerät hat einen Eintrag.",
            "{m} meldet {c}, {t} ({s}).",
        ),
        Language::French => (
            "Le {d}, lecture du véhicule {v} à {k} km.",
            "Aucun calculateur n'a de défaut.",
            "{m} signale {c}, {t} ({s}).",
        ),
        Language::Spanish => (
            "El {d} se leyó el vehículo {v} con {k} km.",
            "Ninguna unidad tiene averías.",
            "{m} comunica {c}, {t} ({s}).",
        ),
    };
    let first = open
        .replace("{d}", &r.date)
        .replace("{v}", &r.vin)
        .replace("{k}", &r.odometer_km.to_string());
    let mut lines = vec![first];
    lines.extend(r.codes.iter().map(|c| {
        read.replace("{m}", c.module)
            .replace("{c}", c.code)
            .replace("{t}", meaning(c.code, language))
            .replace("{s}", c.state.word(language))
    }));
    if r.codes.is_empty() {
        lines.push(none.into());
    }
    lines.extend(live(r, language, &language.labels(), " "));
    lines
}

fn blocks(r: &ScanReport, language: Language, l: &Labels) -> Vec<String> {
    let mut lines = vec![
        l.title.to_uppercase(),
        format!("{} = {}", l.vin, r.vin),
        format!("{} = {}", l.date, r.date),
    ];
    let mut modules: Vec<&str> = r.codes.iter().map(|c| c.module).collect();
    modules.push("ABS");
    modules.dedup();
    for module in modules {
        lines.push(String::new());
        lines.push(format!("{} {module}:", l.module));
        let mut of_module = r.codes.iter().filter(|c| c.module == module).peekable();
        if of_module.peek().is_none() {
            lines.push(format!("    {}", l.none));
        }
        for c in of_module {
            lines.push(format!("    {} = {}", l.code, full_code(c, ":")));
            lines.push(format!("    {} = {}", l.meaning, meaning(c.code, language)));
            lines.push(format!("    {} = {}", l.state, c.state.word(language)));
        }
    }
    lines.push(String::new());
    lines.extend(live(r, language, l, " = "));
    lines
}

fn semicolons(r: &ScanReport, language: Language, l: &Labels) -> Vec<String> {
    let mut lines = vec![
        format!("{};{}", l.vin, r.vin),
        format!("{};{};km", l.odometer, r.odometer_km),
        format!("{};{};FTB;{};{}", l.module, l.code, l.state, l.meaning),
    ];
    lines.extend(r.codes.iter().map(|c| {
        let (ft, text) = (c.failure_type.unwrap_or("00"), meaning(c.code, language));
        format!(
            "{};{};{ft};0x{:02X};{text}",
            c.module,
            c.code,
            c.state.byte()
        )
    }));
    lines.extend(live(r, language, l, ";"));
    lines
}

fn numbered(r: &ScanReport, language: Language, l: &Labels) -> Vec<String> {
    let mut lines = vec![
        format!("{} {}", l.title, r.date),
        format!("{}: {}", l.vin, r.vin),
    ];
    if r.codes.is_empty() {
        lines.push(l.none.into());
    }
    for (i, c) in r.codes.iter().enumerate() {
        lines.push(format!(
            "{}. {} ({}) - {}",
            i + 1,
            full_code(c, "-"),
            c.module,
            meaning(c.code, language)
        ));
        lines.push(format!("   {}: {}", l.state, c.state.word(language)));
    }
    lines.extend(live(r, language, l, ": "));
    lines
}

fn tabs(r: &ScanReport, language: Language, l: &Labels) -> Vec<String> {
    let mut lines = vec![
        format!("{}\t{}", l.vin, r.vin),
        format!("{}\t{}", l.date, r.date),
        format!("{}\t{}\tstatus\t{}", l.code, l.module, l.meaning),
    ];
    lines.extend(r.codes.iter().map(|c| {
        let (byte, text) = (c.state.byte(), meaning(c.code, language));
        format!("{}\t{}\t{byte:02X}h\t{text}", full_code(c, "-"), c.module)
    }));
    lines.extend(live(r, language, l, "\t"));
    lines
}

fn by_state(r: &ScanReport, language: Language, l: &Labels) -> Vec<String> {
    use CodeState::{Active, Confirmed, History, Pending};
    let mut lines = vec![l.title.to_string(), format!("{} {}", l.vin, r.vin)];
    for state in [Active, Confirmed, Pending, History] {
        let of_state: Vec<&ScanCode> = r.codes.iter().filter(|c| c.state == state).collect();
        if !of_state.is_empty() {
            lines.push(String::new());
            lines.push(format!("* {} *", state.word(language)));
            lines.extend(of_state.iter().map(|c| {
                format!(
                    "  {}  {}  [{}]",
                    c.code,
                    meaning(c.code, language),
                    c.module
                )
            }));
        }
    }
    if r.codes.is_empty() {
        lines.push(l.none.into());
    }
    lines.push(String::new());
    lines.extend(live(r, language, l, ": "));
    lines
}
