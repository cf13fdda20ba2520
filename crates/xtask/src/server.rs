//! `cargo xtask serve`, and the same server for the tests.

use crate::packed::Coding;
use crate::{address, build, mime, policy, site, workspace};
use anyhow::{Context, Result, anyhow};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD as BASE64;
use sha2::{Digest, Sha256};
use std::fs;
use std::io::ErrorKind;
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread::{self, JoinHandle};

/// Builds the page and serves it until the program is ended.
pub fn serve(port: u16) -> Result<()> {
    build::build(false)?;
    let listener = listen(port)?;
    let found = listener.local_addr()?.port();
    if found != port {
        println!("Port {port} is in use; the next free one is {found}");
    }
    let (url, server) = start(listener, workspace::dist())?;
    println!("Cordonry is at {url}");
    println!("Ctrl+C ends it");
    server
        .join()
        .map_err(|_| anyhow!("the server ended by itself"))?
}

/// Serves a folder on any free port for as long as this program runs, and gives its address.
pub fn background(folder: PathBuf) -> Result<String> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).context("no port is free")?;
    Ok(start(listener, folder)?.0)
}

fn listen(first: u16) -> Result<TcpListener> {
    for port in first..=first.saturating_add(100) {
        match TcpListener::bind((Ipv4Addr::LOCALHOST, port)) {
            Err(error) if error.kind() == ErrorKind::AddrInUse => {}
            other => return other.with_context(|| format!("port {port} cannot be used")),
        }
    }
    Err(anyhow!("no port from {first} on is free"))
}

/// Serves a folder in a thread of its own.
fn start(listener: TcpListener, folder: PathBuf) -> Result<(String, JoinHandle<Result<()>>)> {
    let url = format!("http://{}/", listener.local_addr()?);
    listener.set_nonblocking(true)?;
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_io()
        .build()
        .context("no server could be started")?;
    let folder: Arc<Path> = folder.into();
    let server = thread::spawn(move || {
        runtime.block_on(async {
            let listener = tokio::net::TcpListener::from_std(listener)?;
            let answer = move |method: Method, uri: Uri, asked: HeaderMap| async move {
                reply(&folder, &method, &uri, &asked)
            };
            axum::serve(listener, axum::Router::new().fallback(answer)).await?;
            Ok(())
        })
    });
    Ok((url, server))
}

/// What is answered. For HEAD the body is left out on its way, and its length told.
fn reply(folder: &Path, method: &Method, uri: &Uri, asked: &HeaderMap) -> Response {
    let mut headers = HeaderMap::new();
    let mut set = |name: HeaderName, value: &str| {
        if let Ok(value) = HeaderValue::from_str(value) {
            headers.insert(name, value);
        }
    };
    set(header::CONTENT_SECURITY_POLICY, &policy::header());
    set(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(header::CONTENT_TYPE, mime::of("a.txt"));
    set(header::CACHE_CONTROL, "no-cache");
    if !matches!(*method, Method::GET | Method::HEAD) {
        set(header::ALLOW, "GET, HEAD");
        let words = "Only GET and HEAD are answered here.\n";
        return (StatusCode::METHOD_NOT_ALLOWED, headers, words).into_response();
    }
    let path = address::file(folder, uri.path());
    let Some((path, (coding, bytes))) =
        path.and_then(|path| Some((path.clone(), read(&path, asked)?)))
    else {
        let words = "There is no such file here.\n";
        return (StatusCode::NOT_FOUND, headers, words).into_response();
    };
    set(header::CONTENT_TYPE, mime::of(&path.to_string_lossy()));
    if uri.path().starts_with(&format!("/{}", site::STAMPED)) {
        // An address with a build's stamp has one content for ever.
        set(header::CACHE_CONTROL, "public, max-age=31536000, immutable");
    }
    set(header::VARY, "accept-encoding");
    if let Some(coding) = coding {
        set(header::CONTENT_ENCODING, coding.name());
    }
    let tag = BASE64.encode(&Sha256::digest(&bytes)[..12]);
    let tag = format!("\"{tag}\"");
    set(header::ETAG, &tag);
    if has(asked, header::IF_NONE_MATCH, |known| known == tag) {
        return (StatusCode::NOT_MODIFIED, headers).into_response();
    }
    (StatusCode::OK, headers, bytes).into_response()
}

/// A file's bytes, of a packed copy where there is one that the asker takes.
fn read(path: &Path, asked: &HeaderMap) -> Option<(Option<Coding>, Vec<u8>)> {
    let takes = |coding: &Coding| {
        has(asked, header::ACCEPT_ENCODING, |part| {
            let (name, weight) = part.split_once(';').unwrap_or((part, ""));
            // A weight of naught refuses.
            let weight = weight.trim().strip_prefix("q=").map(str::parse::<f32>);
            name.trim().eq_ignore_ascii_case(coding.name()) && weight != Some(Ok(0.0))
        })
    };
    let packed = (Coding::ALL.into_iter().filter(takes))
        .find_map(|coding| Some((Some(coding), fs::read(coding.beside(path)).ok()?)));
    packed.or_else(|| Some((None, fs::read(path).ok()?)))
}

/// Whether any part of a header that is a list is so.
fn has(headers: &HeaderMap, name: HeaderName, is_so: impl Fn(&str) -> bool) -> bool {
    (headers.get_all(name).iter())
        .filter_map(|value| value.to_str().ok())
        .flat_map(|value| value.split(','))
        .any(|part| is_so(part.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    fn ask(url: &str, request: &str) -> (String, String) {
        send(url, request, "")
    }

    fn ask_with(url: &str, path: &str, headers: &str) -> (String, String) {
        send(url, &format!("GET /{path}"), headers)
    }

    fn send(url: &str, request: &str, headers: &str) -> (String, String) {
        let place = url.trim_start_matches("http://").trim_end_matches('/');
        let mut stream = TcpStream::connect(place).unwrap();
        write!(
            stream,
            "{request} HTTP/1.1\r\nHost: {place}\r\n{headers}Connection: close\r\n\r\n"
        )
        .unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        let (head, body) = answer.split_once("\r\n\r\n").unwrap();
        (head.to_string(), body.to_string())
    }

    #[test]
    fn files_are_served_with_their_headers() {
        let folder = workspace::root().join("crates/xtask/src");
        let url = background(folder.clone()).unwrap();
        let text = fs::read_to_string(folder.join("mime.rs")).unwrap();
        let length = format!("content-length: {}", text.len());

        let (head, body) = ask(&url, "GET /mime.rs?x=1");
        assert!(head.starts_with("HTTP/1.1 200"), "{head}");
        assert_eq!(body, text);
        for line in [
            "content-type: application/octet-stream",
            "cache-control: no-cache",
            "x-content-type-options: nosniff",
            "frame-ancestors 'none'",
            &length,
        ] {
            assert!(head.contains(line), "{line} in {head}");
        }

        let (head, body) = ask(&url, "HEAD /mime.rs");
        assert!(
            head.starts_with("HTTP/1.1 200") && head.contains(&length),
            "{head}"
        );
        assert_eq!(body, "");

        for path in ["/", "/../Cargo.toml", "/%2e%2e/Cargo.toml", "/no-such-file"] {
            assert!(
                ask(&url, &format!("GET {path}"))
                    .0
                    .starts_with("HTTP/1.1 404"),
                "{path}"
            );
        }
        let (head, _) = ask(&url, "DELETE /mime.rs");
        assert!(
            head.starts_with("HTTP/1.1 405") && head.contains("allow: GET, HEAD"),
            "{head}"
        );
    }

    #[test]
    fn packed_copies_are_sent_to_those_who_take_them() {
        let folder = workspace::target().join("tmp/served");
        let own = format!("{}1", site::STAMPED);
        fs::create_dir_all(folder.join(&own)).unwrap();
        for (name, text) in [
            ("a.css", "plain"),
            ("a.css.br", "as brotli"),
            ("a.css.gz", "as gzip"),
            ("b.css", "plain"),
            (&format!("{own}/c.js"), "plain"),
        ] {
            fs::write(folder.join(name), text).unwrap();
        }
        let url = background(folder).unwrap();
        for (path, accepted, coding, body) in [
            ("a.css", "gzip, deflate, br", Some("br"), "as brotli"),
            ("a.css", "gzip;q=1.0, br;q=0", Some("gzip"), "as gzip"),
            ("a.css", "GZIP", Some("gzip"), "as gzip"),
            ("a.css", "identity", None, "plain"),
            ("b.css", "gzip, br", None, "plain"),
        ] {
            let (head, sent) = ask_with(&url, path, &format!("Accept-Encoding: {accepted}\r\n"));
            assert_eq!(sent, body, "{path} {accepted}");
            assert!(head.contains("content-type: text/css"), "{head}");
            assert!(head.contains("vary: accept-encoding"), "{head}");
            match coding {
                Some(coding) => {
                    assert!(
                        head.contains(&format!("content-encoding: {coding}")),
                        "{head}"
                    );
                }
                None => assert!(!head.contains("content-encoding"), "{head}"),
            }
        }
        for (path, rule) in [
            ("a.css".to_string(), "no-cache"),
            (format!("{own}/c.js"), "public, max-age=31536000, immutable"),
        ] {
            let (head, _) = ask_with(&url, &path, "");
            assert!(head.contains(&format!("cache-control: {rule}")), "{head}");
        }
    }

    #[test]
    fn what_is_known_is_not_sent_again() {
        let folder = workspace::root().join("crates/xtask/src");
        let url = background(folder).unwrap();
        let (head, _) = ask(&url, "GET /mime.rs");
        let tag = head.split("etag: ").nth(1).unwrap();
        let tag = tag.split("\r\n").next().unwrap();
        for (known, status, is_empty) in [
            (tag.to_string(), "304", true),
            (format!("\"x\", {tag}"), "304", true),
            ("\"x\"".to_string(), "200", false),
        ] {
            let (head, body) = ask_with(&url, "mime.rs", &format!("If-None-Match: {known}\r\n"));
            assert!(head.starts_with(&format!("HTTP/1.1 {status}")), "{head}");
            assert_eq!(body.is_empty(), is_empty, "{known}");
        }
    }

    #[test]
    fn connections_that_stay_open_hold_up_no_other() {
        let folder = workspace::root().join("crates/xtask/src");
        let url = background(folder).unwrap();
        let place = url.trim_start_matches("http://").trim_end_matches('/');
        let mut open: Vec<TcpStream> = (0..40)
            .map(|_| TcpStream::connect(place).unwrap())
            .collect();
        for stream in &mut open {
            write!(stream, "GET /mime.rs HTTP/1.1\r\nHost: {place}\r\n\r\n").unwrap();
        }
        for stream in open.iter_mut().rev() {
            let mut start = [0; 12];
            stream.read_exact(&mut start).unwrap();
            assert_eq!(&start, b"HTTP/1.1 200");
        }
    }

    #[test]
    fn a_busy_port_gives_the_next() {
        let first = listen(28_123).unwrap();
        let busy = first.local_addr().unwrap().port();
        assert!(listen(busy).unwrap().local_addr().unwrap().port() > busy);
    }
}
