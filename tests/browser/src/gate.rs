//! Owns the one way out: the browser is told that this is its proxy for every host but the own machine, so whatever page,
//! worker or browser asks of any other host arrives here, is written down and refused. Lets nothing through.

use crate::error::{Error, Result};
use crate::http::{Answer, read_head};
use crate::listen::{Running, Serve};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::sync::{Arc, Mutex, PoisonError};

pub(crate) struct Gate {
    address: SocketAddr,
    book: Arc<Book>,
    _running: Running,
}

impl Gate {
    pub(crate) fn start() -> Result<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).map_err(Error::io("opening the gate's port"))?;
        let address = listener.local_addr().map_err(Error::io("asking for the gate's port"))?;
        let book = Arc::new(Book::default());
        let running = Running::start(listener, Arc::clone(&book));
        Ok(Self { address, book, _running: running })
    }

    /// The proxy that the browser is told of.
    pub(crate) fn address(&self) -> SocketAddr {
        self.address
    }

    /// What was asked for elsewhere, as `CONNECT host:443` or `GET http://host/path`.
    pub(crate) fn attempts(&self) -> Vec<String> {
        self.book.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

#[derive(Default)]
struct Book(Mutex<Vec<String>>);

impl Serve for Book {
    fn serve_one(&self, stream: &TcpStream) {
        let Some((method, target)) = read_head(stream) else { return };
        self.0.lock().unwrap_or_else(PoisonError::into_inner).push(format!("{method} {target}"));
        Answer::plain(403, "Nothing leaves.").write(stream, false).unwrap_or(());
    }
}
