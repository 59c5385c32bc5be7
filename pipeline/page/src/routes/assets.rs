//! Scripts and styles, embedded.

use axum::extract::Path;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

const SCRIPT: &str = "text/javascript; charset=utf-8";
const STYLE: &str = "text/css; charset=utf-8";

const ASSETS: [(&str, &str, &str); 9] = [
    (
        "icon.svg",
        "image/svg+xml",
        include_str!("../../assets/icon.svg"),
    ),
    ("page.css", STYLE, include_str!("../../assets/page.css")),
    ("page.js", SCRIPT, include_str!("../../assets/page.js")),
    ("trace.js", SCRIPT, include_str!("../../assets/trace.js")),
    ("live.js", SCRIPT, include_str!("../../assets/live.js")),
    (
        "entered.js",
        SCRIPT,
        include_str!("../../assets/entered.js"),
    ),
    (
        "plot.js",
        SCRIPT,
        include_str!("../../assets/uplot/uPlot.iife.min.js"),
    ),
    (
        "plot.css",
        STYLE,
        include_str!("../../assets/uplot/uPlot.min.css"),
    ),
    (
        "plot-license.txt",
        "text/plain; charset=utf-8",
        include_str!("../../assets/uplot/LICENSE"),
    ),
];

pub(crate) async fn asset(Path(name): Path<String>) -> Response {
    match ASSETS.iter().find(|(known, ..)| *known == name) {
        Some((_, kind, text)) => ([(header::CONTENT_TYPE, *kind)], *text).into_response(),
        None => StatusCode::NOT_FOUND.into_response(),
    }
}
