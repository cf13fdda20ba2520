//! `cargo xtask serve`, and the same server for the tests.

use crate::{address, build, mime, policy, workspace};
use anyhow::{Context, Result, anyhow};
use axum::http::{HeaderName, HeaderValue, Method, StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
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
            let answer =
                move |method: Method, uri: Uri| async move { reply(&folder, &method, &uri) };
            axum::serve(listener, axum::Router::new().fallback(answer)).await?;
            Ok(())
        })
    });
    Ok((url, server))
}

/// What is answered. For HEAD the body is left out on its way, and its length told.
fn reply(folder: &Path, method: &Method, uri: &Uri) -> Response {
    let plain = |status, words: &str| (status, mime::of("a.txt"), words.as_bytes().to_vec());
    let known = matches!(*method, Method::GET | Method::HEAD);
    let (status, kind, body) = if !known {
        plain(
            StatusCode::METHOD_NOT_ALLOWED,
            "Only GET and HEAD are answered here.\n",
        )
    } else {
        let file = address::file(folder, uri.path());
        match file.and_then(|path| Some((mime::of(&path.to_string_lossy()), fs::read(&path).ok()?)))
        {
            Some((kind, bytes)) => (StatusCode::OK, kind, bytes),
            None => plain(StatusCode::NOT_FOUND, "There is no such file here.\n"),
        }
    };
    let mut response = (status, body).into_response();
    let headers = response.headers_mut();
    let mut set = |name: HeaderName, value: &str| {
        if let Ok(value) = HeaderValue::from_str(value) {
            headers.insert(name, value);
        }
    };
    set(header::CONTENT_TYPE, kind);
    set(header::CACHE_CONTROL, "no-cache");
    set(header::CONTENT_SECURITY_POLICY, &policy::header());
    set(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    if !known {
        set(header::ALLOW, "GET, HEAD");
    }
    response
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    fn ask(url: &str, request: &str) -> (String, String) {
        let place = url.trim_start_matches("http://").trim_end_matches('/');
        let mut stream = TcpStream::connect(place).unwrap();
        write!(
            stream,
            "{request} HTTP/1.1\r\nHost: {place}\r\nConnection: close\r\n\r\n"
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
