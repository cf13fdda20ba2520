//! `cargo xtask serve`, and the same server for the tests.

use crate::{address, build, mime, policy, workspace};
use anyhow::{Context, Result, anyhow};
use std::fs;
use std::io::{Cursor, ErrorKind};
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread;
use tiny_http::{Header, Method, Request, Response, Server};

/// Enough for one browser's requests at a time, and for a slow one not to hold up the others.
const THREADS: usize = 8;

/// Builds the page and serves it until the program is ended.
pub fn serve(port: u16) -> Result<()> {
    build::build(false)?;
    let listener = listen(port)?;
    let found = listener.local_addr()?.port();
    if found != port {
        println!("Port {port} is in use; the next free one is {found}");
    }
    let (url, workers) = start(listener, workspace::dist())?;
    println!("Cordonry is at {url}");
    println!("Ctrl+C ends it");
    for worker in workers {
        worker
            .join()
            .map_err(|_| anyhow!("the server ended by itself"))?;
    }
    Ok(())
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

fn start(listener: TcpListener, folder: PathBuf) -> Result<(String, Vec<thread::JoinHandle<()>>)> {
    let url = format!("http://{}/", listener.local_addr()?);
    let server = Server::from_listener(listener, None)
        .map_err(|error| anyhow!("no server could be started: {error}"))?;
    let server = Arc::new(server);
    let folder = Arc::new(folder);
    let workers = (0..THREADS)
        .map(|_| {
            let server = Arc::clone(&server);
            let folder = Arc::clone(&folder);
            thread::spawn(move || {
                while let Ok(request) = server.recv() {
                    respond(request, &folder);
                }
            })
        })
        .collect();
    Ok((url, workers))
}

fn respond(request: Request, folder: &Path) {
    let reply = reply(folder, request.method(), request.url());
    let length = reply.body.len();
    let mut response = Response::new(
        reply.status.into(),
        reply
            .headers
            .iter()
            .filter_map(|(name, value)| header(name, value))
            .collect(),
        Cursor::new(reply.body),
        Some(length),
        None,
    )
    .with_chunked_threshold(usize::MAX);
    if reply.status == 405
        && let Some(allow) = header("Allow", "GET, HEAD")
    {
        response.add_header(allow);
    }
    // A browser that went away in between is no fault.
    let _ = request.respond(response);
}

fn header(name: &str, value: &str) -> Option<Header> {
    Header::from_bytes(name, value).ok()
}

struct Reply {
    status: u16,
    headers: Vec<(&'static str, String)>,
    body: Vec<u8>,
}

/// What is answered; for HEAD the body is left out on its way, and its length told.
fn reply(folder: &Path, method: &Method, url: &str) -> Reply {
    let plain = |status, words: &str| (status, mime::of("a.txt"), words.as_bytes().to_vec());
    let (status, kind, body) = if !matches!(method, Method::Get | Method::Head) {
        plain(405, "Only GET and HEAD are answered here.\n")
    } else if let Some(path) = address::file(folder, url) {
        match fs::read(&path) {
            Ok(bytes) => (200, mime::of(&path.to_string_lossy()), bytes),
            Err(_) => plain(404, "There is no such file here.\n"),
        }
    } else {
        plain(404, "There is no such file here.\n")
    };
    let headers = vec![
        ("Content-Type", kind.to_string()),
        ("Cache-Control", "no-cache".to_string()),
        ("Content-Security-Policy", policy::header()),
        ("X-Content-Type-Options", "nosniff".to_string()),
    ];
    Reply {
        status,
        headers,
        body,
    }
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
        let length = format!("Content-Length: {}", text.len());

        let (head, body) = ask(&url, "GET /mime.rs?x=1");
        assert!(head.starts_with("HTTP/1.1 200"), "{head}");
        assert_eq!(body, text);
        for line in [
            "Content-Type: application/octet-stream",
            "Cache-Control: no-cache",
            "X-Content-Type-Options: nosniff",
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
            head.starts_with("HTTP/1.1 405") && head.contains("Allow: GET, HEAD"),
            "{head}"
        );
    }

    #[test]
    fn a_busy_port_gives_the_next() {
        let first = listen(28_123).unwrap();
        let busy = first.local_addr().unwrap().port();
        assert!(listen(busy).unwrap().local_addr().unwrap().port() > busy);
    }
}
