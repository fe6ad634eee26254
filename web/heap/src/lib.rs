//! The allocator of the app and its worker: the one of the standard library,
//! kept from being looked into.
//!
//! A build with a standard library of its own is optimised as a whole, the
//! allocator with it (rustc 1.95). The compiler then knows that a block came
//! from the allocator, takes what lies before the block to be no part of it,
//! and drops the reading of the header that the allocator itself keeps there:
//! giving the block back reads a size of nothing and stops the app. Seen with
//! `decision` at level 3, where the call got the constant 0 for the header. A
//! block that passes through [`black_box`] on its way back is one of which
//! nothing is known.

use core::hint::black_box;
use std::alloc::{GlobalAlloc, Layout, System};

/// The standard library's allocator.
struct Opaque;

#[global_allocator]
static HEAP: Opaque = Opaque;

#[expect(
    unsafe_code,
    reason = "an allocator is made of it; every call goes on as it came"
)]
// SAFETY: all is left to the allocator of the standard library, which gets the
// very blocks and layouts that came in.
unsafe impl GlobalAlloc for Opaque {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        // SAFETY: as promised by the caller.
        unsafe { System.alloc(layout) }
    }

    unsafe fn alloc_zeroed(&self, layout: Layout) -> *mut u8 {
        // SAFETY: as promised by the caller.
        unsafe { System.alloc_zeroed(layout) }
    }

    unsafe fn dealloc(&self, block: *mut u8, layout: Layout) {
        // SAFETY: as promised by the caller.
        unsafe { System.dealloc(black_box(block), layout) }
    }

    unsafe fn realloc(&self, block: *mut u8, layout: Layout, size: usize) -> *mut u8 {
        // SAFETY: as promised by the caller.
        unsafe { System.realloc(black_box(block), layout, size) }
    }
}
