//! The static server: the built page, on this machine's loopback address alone.

mod files;

use std::fs::File;
use std::io::ErrorKind;
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use anyhow::{Context, Result, anyhow, bail};
use tiny_http::{Header, Method, Request, Response, Server, StatusCode};

use crate::repo::Repo;
use crate::sh;

/// The first port tried when the reader names none.
const FIRST_PORT: u16 = 8642;
/// How many ports are tried from there.
const PORTS: u16 = 20;
/// A page loads a handful of files at once.
const THREADS: usize = 4;

/// How long a connection may wait for a thread at most.
const WAKE: Duration = Duration::from_millis(50);

/// Sent with every answer. Nothing leaves the device: the page may talk to its own origin only.
const HEADERS: [(&str, &str); 7] = [
    (
        "Content-Security-Policy",
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; \
         connect-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'",
    ),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Embedder-Policy", "require-corp"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("X-Frame-Options", "DENY"),
];

/// Serves the built page until stopped, on `port` or the first free one.
///
/// # Errors
/// When the port is taken or the page was never built.
pub fn serve(repo: &Repo, port: Option<u16>) -> Result<()> {
    let listener = match port {
        Some(port) => listen(port)?
            .with_context(|| format!("port {port} is taken: name another with --port"))?,
        None => first_free()?,
    };
    let page = Page::open(&repo.dist(), listener)?;
    sh::say(&format!(
        "batterboard is at {}   (Ctrl-C stops it)",
        page.address()
    ));
    page.join();
    Ok(())
}

/// A page being served by threads of this process.
pub struct Page {
    port: u16,
    threads: Vec<thread::JoinHandle<()>>,
}

impl Page {
    /// Serves the folder on a port that the system picks.
    ///
    /// # Errors
    /// When the folder is missing or nothing can be listened on.
    pub fn start(folder: &Path) -> Result<Self> {
        Self::open(folder, listen(0)?.context("no port is free")?)
    }

    fn open(folder: &Path, listener: TcpListener) -> Result<Self> {
        let folder = folder.canonicalize().with_context(|| {
            format!(
                "{} is missing: `cargo xtask build` makes it",
                folder.display()
            )
        })?;
        let port = listener.local_addr()?.port();
        let server = Server::from_listener(listener, None)
            .map_err(|error| anyhow!("cannot serve: {error}"))?;
        let server = Arc::new(server);
        let threads = (0..THREADS)
            .map(|_| {
                let (server, folder) = (Arc::clone(&server), folder.clone());
                thread::spawn(move || {
                    server
                        .incoming_requests()
                        .for_each(|request| answer(&folder, request))
                })
            })
            .collect();
        thread::spawn(move || wake(port));
        Ok(Self { port, threads })
    }

    /// Where the page is.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }

    fn join(self) {
        for thread in self.threads {
            // A thread that failed has said so; the others still serve.
            let _ = thread.join();
        }
    }
}

/// Opens and closes a connection again and again, until nobody listens.
///
/// The server (tiny_http 0.12) counts a thread of its pool as idle until it has woken. Of
/// connections that come in one instant some may wait for a thread that another has taken, and
/// would wait until that one closes: a page whose files never come. Any later connection gets a
/// thread of its own, which then takes what waits.
fn wake(port: u16) {
    while TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_ok() {
        thread::sleep(WAKE);
    }
}

/// Listens on the loopback address; `None` when the port is taken.
fn listen(port: u16) -> Result<Option<TcpListener>> {
    match TcpListener::bind((Ipv4Addr::LOCALHOST, port)) {
        Ok(listener) => Ok(Some(listener)),
        Err(error) if error.kind() == ErrorKind::AddrInUse => Ok(None),
        Err(error) => Err(error).with_context(|| format!("cannot listen on port {port}")),
    }
}

fn first_free() -> Result<TcpListener> {
    for port in FIRST_PORT..FIRST_PORT + PORTS {
        match listen(port)? {
            Some(listener) => return Ok(listener),
            None => println!("    port {port} is taken, trying the next"),
        }
    }
    bail!(
        "the ports {FIRST_PORT} to {} are all taken: name another with --port",
        FIRST_PORT + PORTS - 1
    )
}

fn answer(folder: &Path, request: Request) {
    let found = match request.method() {
        Method::Get | Method::Head => files::resolve(folder, request.url()),
        _ => Err(files::Refusal::Method),
    };
    let sent = match found.and_then(|path| {
        File::open(&path)
            .map(|file| (path, file))
            .map_err(|_| files::Refusal::Missing)
    }) {
        Ok((path, file)) => {
            let response = Response::from_file(file)
                .with_header_pair("Content-Type", files::mime(&path))
                .with_header_pair("Cache-Control", files::cache(folder, &path));
            request.respond(with_headers(response))
        }
        Err(refusal) => {
            let (status, text) = refusal.status();
            let mut response = Response::from_string(text).with_status_code(StatusCode(status));
            if status == 405 {
                response = response.with_header_pair("Allow", "GET, HEAD");
            }
            request.respond(with_headers(response))
        }
    };
    // The reader closed the connection: nothing is lost.
    drop(sent);
}

trait WithHeaderPair {
    /// Adds a header; every name and value here is plain ASCII, so none is ever dropped.
    fn with_header_pair(self, name: &str, value: &str) -> Self;
}

impl<R: std::io::Read> WithHeaderPair for Response<R> {
    fn with_header_pair(self, name: &str, value: &str) -> Self {
        match Header::from_bytes(name, value) {
            Ok(header) => self.with_header(header),
            Err(()) => self,
        }
    }
}

fn with_headers<R: std::io::Read>(response: Response<R>) -> Response<R> {
    HEADERS.iter().fold(response, |response, (name, value)| {
        response.with_header_pair(name, value)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;
    use std::io::{Read, Write};

    fn ask(page: &Page, request: &str) -> String {
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, page.port)).unwrap();
        write!(
            stream,
            "{request}\r\nHost: localhost\r\nConnection: close\r\n\r\n"
        )
        .unwrap();
        let mut text = String::new();
        stream.read_to_string(&mut text).unwrap();
        text
    }

    #[test]
    fn files_come_with_their_type_and_a_strict_policy() {
        let tree = Scratch::new("server");
        tree.write("dist/index.html", "<p>hello");
        tree.write("dist/assets/core-1a2b.wasm", "wasm");
        tree.write("secret.txt", "no");
        let page = Page::start(&tree.root().join("dist")).unwrap();

        let home = ask(&page, "GET / HTTP/1.1");
        assert!(
            home.starts_with("HTTP/1.1 200") && home.ends_with("<p>hello"),
            "{home}"
        );
        assert!(
            home.contains("Content-Type: text/html; charset=utf-8"),
            "{home}"
        );
        assert!(home.contains("Cache-Control: no-cache"), "{home}");
        assert_eq!(home.matches("Content-Type: ").count(), 1, "{home}");
        for (name, value) in HEADERS {
            assert!(
                home.contains(&format!("{name}: {value}\r\n")),
                "{name} in {home}"
            );
        }

        let wasm = ask(&page, "GET /assets/core-1a2b.wasm?x=1 HTTP/1.1");
        assert!(
            wasm.contains("Content-Type: application/wasm") && wasm.contains("immutable"),
            "{wasm}"
        );
        let head = ask(&page, "HEAD / HTTP/1.1");
        assert!(
            head.starts_with("HTTP/1.1 200") && !head.contains("hello"),
            "{head}"
        );
        assert!(ask(&page, "POST / HTTP/1.1").starts_with("HTTP/1.1 405"));
        let out = ask(&page, "GET /%2e%2e/secret.txt HTTP/1.1");
        assert!(
            out.starts_with("HTTP/1.1 404") && out.contains("Content-Security-Policy"),
            "{out}"
        );
    }

    /// A browser opens several connections at once and keeps all of them: each is answered.
    #[test]
    fn no_connection_waits_for_another_to_close() {
        let tree = Scratch::new("connections");
        tree.write("dist/index.html", "<p>hello");
        let page = Page::start(&tree.root().join("dist")).unwrap();
        for round in 0..40 {
            let mut kept: Vec<TcpStream> = (0..48)
                .map(|_| TcpStream::connect((Ipv4Addr::LOCALHOST, page.port)).unwrap())
                .collect();
            for stream in &mut kept {
                write!(stream, "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
            }
            for stream in &mut kept {
                stream
                    .set_read_timeout(Some(Duration::from_secs(5)))
                    .unwrap();
                let read = stream.read(&mut [0; 64]);
                assert!(read.is_ok_and(|bytes| bytes > 0), "round {round}");
            }
        }
    }

    #[test]
    fn a_taken_port_is_told_from_a_free_one() {
        let held = listen(0).unwrap().unwrap();
        let port = held.local_addr().unwrap().port();
        assert!(listen(port).unwrap().is_none());
    }

    #[test]
    fn a_page_never_built_says_how_to_build_it() {
        let Err(error) = Page::start(Path::new("/no/such/dist")) else {
            panic!("it started")
        };
        assert!(error.to_string().contains("cargo xtask build"), "{error}");
    }
}
