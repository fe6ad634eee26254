//! A small web server for `dist/`, for this machine or for a phone on the same network.

use std::fs;
use std::io::Write;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::path::Path;
use std::thread;

use anyhow::{Context, Result, bail};
use flate2::Compression;
use flate2::write::GzEncoder;
use tiny_http::{Header, Method, Request, Response, Server};

use crate::static_files::{compresses, media_type, resolve};
use crate::workshop::say;

/// Tried first when no port was asked for, then the ones after it.
const FIRST_PORT: u16 = 8080;
const PORTS_TRIED: u16 = 20;

/// A browser opens several connections at once.
const THREADS: usize = 4;

/// Serves a folder until the program is stopped.
///
/// # Errors
/// When the port that was asked for, or every port that was tried, is taken.
pub fn serve(folder: &Path, lan: bool, port: Option<u16>) -> Result<()> {
    let address = if lan {
        Ipv4Addr::UNSPECIFIED
    } else {
        Ipv4Addr::LOCALHOST
    };
    let (server, port) = listen(address, port)?;
    println!("Sideworth on this machine: http://127.0.0.1:{port}/");
    if lan {
        match own_address() {
            Some(own) => println!("On a phone in the same network: http://{own}:{port}/"),
            None => println!("This machine is in no network that a phone could reach it by."),
        }
    }
    println!("Ctrl-C ends it.");
    answering(&server, folder, || {});
    Ok(())
}

/// Serves a folder on this machine for as long as some work takes, which is told the address.
///
/// # Errors
/// When no port is free, or the work fails.
pub fn during<T>(folder: &Path, work: impl FnOnce(&str) -> Result<T>) -> Result<T> {
    let (server, port) = listen(Ipv4Addr::LOCALHOST, Some(0))?;
    answering(&server, folder, || {
        let done = work(&format!("http://127.0.0.1:{port}/"));
        for _ in 0..THREADS {
            server.unblock();
        }
        done
    })
}

/// Answers requests while `meanwhile` runs, and after it until the server is told to stop.
fn answering<T>(server: &Server, folder: &Path, meanwhile: impl FnOnce() -> T) -> T {
    thread::scope(|scope| {
        for _ in 0..THREADS {
            scope.spawn(|| {
                for request in server.incoming_requests() {
                    answer(folder, request);
                }
            });
        }
        meanwhile()
    })
}

fn listen(address: Ipv4Addr, asked: Option<u16>) -> Result<(Server, u16)> {
    let ports = match asked {
        Some(port) => port..=port,
        None => FIRST_PORT..=FIRST_PORT + PORTS_TRIED,
    };
    let last = *ports.end();
    for port in ports {
        match Server::http(SocketAddr::from((address, port))) {
            // Port 0 asks the system for any that is free.
            Ok(server) => {
                let given = server.server_addr().to_ip().map_or(port, |ip| ip.port());
                return Ok((server, given));
            }
            Err(error) if asked.is_some() => bail!(
                "Port {port} cannot be used ({error}); choose another with --port, or give none."
            ),
            Err(_) if port < last => say(&format!("port {port} is taken, trying the next")),
            Err(_) => {}
        }
    }
    bail!("Ports {FIRST_PORT} to {last} are all taken; choose another with --port.")
}

/// The address by which this machine reaches its network. Nothing is sent: a datagram socket only
/// chooses the way it would go.
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let own = socket.local_addr().ok()?.ip();
    (!own.is_loopback() && !own.is_unspecified()).then_some(own)
}

fn answer(folder: &Path, request: Request) {
    let response = match request.method() {
        Method::Get | Method::Head => found(folder, &request)
            .unwrap_or_else(|_| plain(404, "There is nothing at this address.")),
        _ => plain(405, "Only GET and HEAD are answered here."),
    };
    // A browser that has gone away needs no answer.
    let _ = request.respond(response);
}

fn found(folder: &Path, request: &Request) -> Result<Response<std::io::Cursor<Vec<u8>>>> {
    let file = resolve(folder, request.url()).context("no such address")?;
    let mut body = fs::read(&file)?;
    let kind = media_type(&file);
    let mut headers = vec![
        ("Content-Type", kind),
        ("X-Content-Type-Options", "nosniff"),
        // The next build must be seen at once.
        ("Cache-Control", "no-cache"),
    ];
    if compresses(kind) {
        headers.push(("Vary", "Accept-Encoding"));
        if accepts_gzip(request) {
            let mut encoder = GzEncoder::new(Vec::new(), Compression::default());
            encoder.write_all(&body)?;
            body = encoder.finish()?;
            headers.push(("Content-Encoding", "gzip"));
        }
    }
    let mut response = Response::from_data(body);
    for (name, value) in headers {
        if let Ok(header) = Header::from_bytes(name, value) {
            response.add_header(header);
        }
    }
    Ok(response)
}

fn accepts_gzip(request: &Request) -> bool {
    request
        .headers()
        .iter()
        .filter(|header| header.field.equiv("Accept-Encoding"))
        .any(|header| names_gzip(header.value.as_str()))
}

fn names_gzip(accepted: &str) -> bool {
    accepted.split(',').any(|offer| {
        let mut parts = offer.split(';').map(str::trim);
        parts.next() == Some("gzip")
            && !parts.any(|part| matches!(part, "q=0" | "q=0.0" | "q=0.00" | "q=0.000"))
    })
}

fn plain(status: u16, text: &str) -> Response<std::io::Cursor<Vec<u8>>> {
    Response::from_string(text).with_status_code(status)
}

#[cfg(test)]
mod tests {
    use std::io::{Read, Write};
    use std::net::TcpStream;

    use super::*;

    #[test]
    fn gzip_is_sent_only_where_it_is_asked_for() {
        assert!(names_gzip("gzip, deflate, br"));
        assert!(names_gzip("br;q=1.0, gzip;q=0.8"));
        assert!(!names_gzip("br, gzip;q=0"));
        assert!(!names_gzip("identity"));
        assert!(!names_gzip(""));
    }

    #[test]
    fn a_folder_is_served_for_as_long_as_some_work_takes() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
        let text = during(folder, |address| {
            let host = address
                .strip_prefix("http://")
                .and_then(|rest| rest.strip_suffix('/'));
            let mut stream = TcpStream::connect(host.context("an address")?)?;
            write!(
                stream,
                "GET /Cargo.toml HTTP/1.1\r\nConnection: close\r\n\r\n"
            )?;
            let mut text = String::new();
            stream.read_to_string(&mut text)?;
            Ok(text)
        });
        // That it comes to here shows that it was ended, too.
        let text = text.expect("served");
        assert!(text.contains("name = \"xtask\""), "{text}");
    }

    #[test]
    fn a_request_is_answered_from_the_folder_and_from_nowhere_else() {
        let folder = std::env::temp_dir().join(format!("sideworth-serve-{}", std::process::id()));
        fs::create_dir_all(folder.join("dist")).expect("temporary folder");
        fs::write(folder.join("dist/index.html"), "inside").expect("inside");
        fs::write(folder.join("secret.html"), "outside").expect("outside");

        let (server, port) = listen(Ipv4Addr::LOCALHOST, Some(0)).expect("a free port");
        let ask = |path: &str| {
            let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).expect("connect");
            write!(stream, "GET {path} HTTP/1.1\r\nConnection: close\r\n\r\n").expect("ask");
            answer(&folder.join("dist"), server.recv().expect("request"));
            let mut text = String::new();
            stream.read_to_string(&mut text).expect("answer");
            text
        };
        let inside = ask("/");
        let outside = ask("/../secret.html");
        fs::remove_dir_all(&folder).expect("clean up");

        assert!(inside.starts_with("HTTP/1.1 200"), "{inside}");
        assert!(inside.contains("text/html") && inside.ends_with("inside"));
        assert!(outside.starts_with("HTTP/1.1 404"), "{outside}");
        assert!(!outside.contains("outside"));
    }
}
