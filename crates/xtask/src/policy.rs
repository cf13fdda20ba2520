//! What the page may load and do: its content-security policy, for the server's header and for the page's own words.

/// Holds the page to its own origin. Styles may stand in the page, scripts may not.
const DIRECTIVES: [&str; 8] = [
    "default-src 'self'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
];

/// For the `Content-Security-Policy` header.
pub fn header() -> String {
    format!("{}; frame-ancestors 'none'", meta())
}

/// For the page's `<meta>`, where browsers take no `frame-ancestors`.
pub fn meta() -> String {
    DIRECTIVES.join("; ")
}

/// For the page in one file: nothing is loaded at all, only the scripts with these hashes run, and the helper is made of
/// the page's own words.
pub fn one_file(script_hashes: &[String]) -> String {
    format!(
        "default-src 'none'; script-src {} 'wasm-unsafe-eval'; style-src 'unsafe-inline'; \
         img-src data: blob:; worker-src blob:; object-src 'none'; base-uri 'none'; form-action 'none'",
        script_hashes.join(" ")
    )
}
