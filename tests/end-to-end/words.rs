//! Words of the terminal in the shop's language, and photos with their captions.

use crate::bench::{Bench, Said, call, example_shop};
use crate::jobs::{Files, drag, with_job_file};
use std::path::PathBuf;

/// The example shop in a language.
fn shop_in(bench: &Bench, language: &str) -> PathBuf {
    let shop = std::fs::read_to_string(example_shop()).expect("the example shop");
    let wanted = format!("language = \"{language}\"");
    let changed = shop.replace("language = \"en\"", &wanted);
    assert!(changed.contains(&wanted), "{shop}");
    let path = bench.path("shop.toml");
    std::fs::write(&path, changed).expect("a shop.toml");
    path
}

/// What is said in each language at each step, and never in English.
#[test]
fn the_terminal_speaks_the_language_of_the_shop() {
    let languages = [
        (
            "de",
            [
                "festgestellt: Kupplung 1 trennt nicht",
                "freigegeben: G200",
                "brutto",
                "Bericht 1, Entwurf",
                "ist unterschrieben",
                "bestätigt: Kupplung 1 trennt nicht",
                "Ein Entwurf ist kein Befund",
                "G310 ist nicht freigegeben",
            ],
        ),
        (
            "es",
            [
                "comprobado: El embrague 1 no desembraga",
                "autorizado: G200",
                "brutos",
                "informe 1, borrador",
                "está firmado",
                "confirmado: El embrague 1 no desembraga",
                "Un borrador no es un dictamen",
                "G310 no está autorizado",
            ],
        ),
    ];
    for (language, said) in languages {
        let bench = Bench::new();
        let shop = shop_in(&bench, language);
        let mut files: Files = with_job_file(&drag(0, 1));
        files.insert("empty.csv".into(), Vec::new());
        let job = bench.job("R-50", &files);
        let mut arguments = bench.run_arguments(&job, "out");
        arguments[5] = shop;
        let out = bench.path("out").display().to_string();
        let at = |verb: &[&str]| call([verb, &["--out", &out]].concat());
        let mut all: Vec<Said> = vec![call(&arguments)];
        let by = [
            "--by",
            "C. Invented",
            "--how",
            "telephone",
            "--lines",
            "teardown",
        ];
        all.push(at(&[&["authorise", "R-50"][..], &by].concat()));
        let early = ["complete", "R-50", "--by", "A. Name", "--lines", "G310"];
        at(&early).ends_with(2).says(&[said[7]]);
        all.push(at(&["status"]));
        all.push(at(&["sign", "R-50", "--by", "A. Reviewer"]));
        let found = ["outcome", "R-50", "--found", "confirmed", "--by", "A. Name"];
        all.push(at(&found));
        all.push(at(&["status", "R-50"]));
        let terminal: String = all.iter().map(|s| s.out.as_str()).collect();
        let page = std::fs::read_to_string(bench.path("out").join("index.html")).expect("a page");
        for words in &said[..6] {
            assert!(terminal.contains(words), "{words:?}: {terminal}");
        }
        assert!(page.contains(said[6]) && page.contains(&format!("lang=\"{language}\"")));
        for english in [
            "established",
            "authorised",
            "signed",
            "draft",
            " net;",
            " net ",
            "gross",
            "asked for",
            "set aside:",
            "confirmed",
            "report ",
            "offered",
            "console",
        ] {
            assert!(!terminal.contains(english), "{english:?}: {terminal}");
        }
    }
}

/// Errors of files and lines in the shop's language, their places and remedies included.
#[test]
fn what_is_wrong_with_a_file_is_said_in_the_language_of_the_shop() {
    let languages = [
        (
            "de",
            [
                "die Datei ist leer; speichern Sie",
                "Zeile 2, Schlüssel odometer_km",
                "schreiben Sie 143.5 mit Punkt",
                "das ist ein ZIP-Archiv; entpacken Sie",
            ],
        ),
        (
            "es",
            [
                "el archivo está vacío; guarde",
                "línea 2, clave odometer_km",
                "escriba 143.5 con punto",
                "es un archivo comprimido ZIP; descomprímalo",
            ],
        ),
    ];
    for (language, said) in languages {
        let bench = Bench::new();
        let file = |name: &str, content: &[u8]| {
            let path = bench.path(name);
            std::fs::write(&path, content).expect("a file");
            path
        };
        call([
            "inspect".into(),
            "--shop".into(),
            shop_in(&bench, language),
            file("empty.csv", b""),
            file("job.toml", b"[vehicle]\nodometer_km = 143,5\n"),
            file("a.zip", b"PK\x03\x04--"),
        ])
        .ends_with(1)
        .says(&said);
    }
}

/// A photo that job.toml names is shown; one that is damaged or not there is named, and the report goes on.
#[test]
fn photos_are_shown_or_named() {
    let bench = Bench::new();
    let mut files: Files = with_job_file(&drag(0, 1));
    let photo = include_bytes!("../../report-templates/customer/sample/page-one.png");
    files.insert("plug.png".into(), photo.to_vec());
    let job_file = files.get_mut("job.toml").expect("a job file");
    job_file.extend(
        b"\n[[photo]]\nfile = \"plug.png\"\ncaption = \"The plug that was found loose.\"\n",
    );
    let job = bench.job("R-50", &files);
    let (said, results) = bench.run(&job);
    said.ends_with(0);
    assert!(results.words().contains("The plug that was found loose."));
    files.insert("broken.jpg".into(), b"\xFF\xD8\xFF\xE0 no more".to_vec());
    let job_file = files.get_mut("job.toml").expect("a job file");
    job_file.extend(b"\n[[photo]]\nfile = \"broken.jpg\"\ncaption = \"Gone.\"\n");
    job_file.extend(b"\n[[photo]]\nfile = \"nowhere.jpg\"\ncaption = \"Gone too.\"\n");
    bench.job("R-50", &files);
    let (said, results) = bench.run(&job);
    said.ends_with(1).says(&[
        "broken.jpg: the photo cannot be shown",
        "\"nowhere.jpg\"",
        "plug.png",
    ]);
    let words = results.words();
    assert!(words.contains("The plug that was found loose.") && !words.contains("Gone"));
}
