//! Which type a file is served as.

/// The `Content-Type` of a file by the ending of its name. An unknown ending is offered as bytes, never guessed.
pub fn of(name: &str) -> &'static str {
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
    match ending.to_ascii_lowercase().as_str() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "csv" => "text/csv; charset=utf-8",
        "ftl" | "txt" | "md" => "text/plain; charset=utf-8",
        "pdf" => "application/pdf",
        _ => "application/octet-stream",
    }
}

/// Whether files of a type hold words or code, and so grow much smaller when packed.
pub fn is_text_like(kind: &str) -> bool {
    [
        "text/",
        "application/wasm",
        "application/json",
        "application/manifest+json",
        "image/svg+xml",
    ]
    .iter()
    .any(|start| kind.starts_with(start))
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_ending_decides() {
        for (name, expected) in [
            ("index.html", "text/html; charset=utf-8"),
            ("cordonry_page_bg.wasm", "application/wasm"),
            ("start.JS", "text/javascript; charset=utf-8"),
            ("manifest.webmanifest", "application/manifest+json"),
            ("examples/measured-40.csv", "text/csv; charset=utf-8"),
            ("icon.svg", "image/svg+xml"),
            ("words/en.ftl", "text/plain; charset=utf-8"),
            ("no-ending", "application/octet-stream"),
            ("odd.xyz", "application/octet-stream"),
        ] {
            assert_eq!(super::of(name), expected, "{name}");
        }
    }
}
