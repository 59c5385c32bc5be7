//! Room for the samples of a column.

/// Less than this is not worth large pages, bytes.
const WORTH_LARGE_PAGES: usize = 4 << 20;

/// Makes room for `rows_in_all` samples where there is not yet room for `wanted`. Too little memory for a guess is no
/// error.
pub(super) fn make(column: &mut Vec<f32>, wanted: usize, rows_in_all: usize) {
    if column.capacity() < wanted {
        let _ = column.try_reserve_exact(rows_in_all - column.len());
        in_large_pages(column);
    }
}

/// Asks the system to hand over this room in large pages (Linux: 2 MiB), not in thousands of small ones, each of which
/// costs about as much as filling it. Where it does not take the advice nothing changes.
#[cfg(target_os = "linux")]
fn in_large_pages(column: &mut Vec<f32>) {
    use rustix::mm::{Advice, madvise};
    let bytes = column.capacity() * size_of::<f32>();
    if bytes < WORTH_LARGE_PAGES {
        return;
    }
    // From the page in which it begins: room of which only a part has the advice cannot grow in place.
    let start = column.as_mut_ptr().cast::<u8>();
    let before = start.addr() % rustix::param::page_size();
    // SAFETY: the pages are those of the column, and the advice changes no byte of them or of what lies beside it.
    let _ = unsafe {
        let page = start.wrapping_sub(before).cast();
        madvise(page, before + bytes, Advice::LinuxHugepage)
    };
}

#[cfg(not(target_os = "linux"))]
fn in_large_pages(_: &mut Vec<f32>) {}
