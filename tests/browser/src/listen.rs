//! Owns a listening port with its thread and its open connections, which close together. Refuses to know what is answered.

use std::collections::HashMap;
use std::net::{Ipv4Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;

/// A listener with its thread and open connections; dropping it closes all of them.
pub(crate) struct Running {
    address: SocketAddr,
    stopping: Arc<AtomicBool>,
    open: Open,
    thread: Option<JoinHandle<()>>,
}

type Open = Arc<Mutex<HashMap<u64, TcpStream>>>;

/// What a connection is answered by.
pub(crate) trait Serve: Send + Sync + 'static {
    fn serve_one(&self, stream: &TcpStream);
}

impl Running {
    pub(crate) fn start(listener: TcpListener, server: Arc<impl Serve>) -> Self {
        let address = listener.local_addr().unwrap_or_else(|_| SocketAddr::from((Ipv4Addr::LOCALHOST, 0)));
        let stopping = Arc::new(AtomicBool::new(false));
        let open = Open::default();
        let thread = std::thread::spawn({
            let (stopping, open) = (Arc::clone(&stopping), Arc::clone(&open));
            move || accept(&listener, &server, &stopping, &open)
        });
        Self { address, stopping, open, thread: Some(thread) }
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.stopping.store(true, Ordering::SeqCst);
        // Wakes the thread out of accept(); the listener closes with it.
        drop(TcpStream::connect(self.address));
        if let Some(thread) = self.thread.take() {
            thread.join().unwrap_or(());
        }
        for stream in self.open.lock().unwrap_or_else(PoisonError::into_inner).values() {
            stream.shutdown(Shutdown::Both).unwrap_or(());
        }
    }
}

fn accept(listener: &TcpListener, server: &Arc<impl Serve>, stopping: &AtomicBool, open: &Open) {
    static NEXT: AtomicU64 = AtomicU64::new(0);
    for stream in listener.incoming() {
        if stopping.load(Ordering::SeqCst) {
            return;
        }
        let Ok(stream) = stream else { continue };
        let Ok(twin) = stream.try_clone() else { continue };
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        open.lock().unwrap_or_else(PoisonError::into_inner).insert(number, twin);
        let (server, open) = (Arc::clone(server), Arc::clone(open));
        std::thread::spawn(move || {
            server.serve_one(&stream);
            // The twin keeps the socket open, so it is closed by name.
            stream.shutdown(Shutdown::Both).unwrap_or(());
            open.lock().unwrap_or_else(PoisonError::into_inner).remove(&number);
        });
    }
}
