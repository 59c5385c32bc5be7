//! A TCP proxy before a server that cuts connections, stalls them, or loses the answer to a COMMIT.

use anyhow::Result;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, AtomicU64, Ordering};
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};

/// Kinds of trouble, each with its number of times per thousand pieces that are passed on.
#[derive(Debug, Clone, Copy)]
pub struct Trouble {
    /// The connection is cut.
    pub cut: u32,
    /// Nothing is passed on for some time.
    pub stall: u32,
    /// Of those commits that are seen: the server gets it, and the connection is cut before its answer.
    pub lose_commit: u32,
}

/// Number of times that each kind of trouble was made.
#[derive(Debug, Default)]
pub struct Made {
    /// Connections cut.
    pub cut: AtomicU32,
    /// Stalls.
    pub stall: AtomicU32,
    /// Commits whose answer was lost.
    pub lost: AtomicU32,
}

/// A running proxy.
#[derive(Debug)]
pub struct Proxy {
    /// Its port.
    pub port: u16,
    /// Trouble made so far.
    pub made: Arc<Made>,
}

/// Length of a stall.
const STALL: Duration = Duration::from_millis(700);

/// Numbers for chance: a permuted counter, the same for the same seed (SplitMix64, from memory).
#[derive(Debug)]
struct Chance(AtomicU64);

impl Chance {
    fn is_met(&self, of_thousand: u32) -> bool {
        let mut z = self.0.fetch_add(0x9e37_79b9_7f4a_7c15, Ordering::Relaxed);
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % 1000 < u64::from(of_thousand)
    }
}

impl Proxy {
    /// Starts a proxy before a server on this machine, on the present runtime.
    ///
    /// # Errors
    /// When no port can be had.
    pub async fn start(server: u16, trouble: Trouble, seed: u64) -> Result<Proxy> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).await?;
        let port = listener.local_addr()?.port();
        let made = Arc::new(Made::default());
        let chance = Arc::new(Chance(AtomicU64::new(seed)));
        let counts = Arc::clone(&made);
        tokio::spawn(async move {
            while let Ok((client, _)) = listener.accept().await {
                let address = SocketAddr::from((Ipv4Addr::LOCALHOST, server));
                let (chance, made) = (Arc::clone(&chance), Arc::clone(&counts));
                tokio::spawn(async move {
                    if let Ok(server) = TcpStream::connect(address).await {
                        pass(client, server, trouble, &chance, &made).await;
                    }
                });
            }
        });
        Ok(Proxy { port, made })
    }
}

/// Passes bytes on in both directions until one side or chance ends it.
async fn pass(
    mut client: TcpStream,
    mut server: TcpStream,
    trouble: Trouble,
    chance: &Chance,
    made: &Made,
) {
    let (mut up, mut down) = (vec![0; 16_384], vec![0; 16_384]);
    loop {
        tokio::select! {
            read = client.read(&mut up) => {
                let Ok(n @ 1..) = read else { return };
                let is_commit = up[..n].windows(6).any(|w| w == b"COMMIT");
                if server.write_all(&up[..n]).await.is_err() {
                    return;
                }
                if is_commit && chance.is_met(trouble.lose_commit) {
                    made.lost.fetch_add(1, Ordering::Relaxed);
                    // The server has time to do it; its answer goes nowhere.
                    tokio::time::sleep(Duration::from_millis(50)).await;
                    return;
                }
            }
            read = server.read(&mut down) => {
                let Ok(n @ 1..) = read else { return };
                if client.write_all(&down[..n]).await.is_err() {
                    return;
                }
            }
        }
        if chance.is_met(trouble.cut) {
            made.cut.fetch_add(1, Ordering::Relaxed);
            return;
        }
        if chance.is_met(trouble.stall) {
            made.stall.fetch_add(1, Ordering::Relaxed);
            tokio::time::sleep(STALL).await;
        }
    }
}
