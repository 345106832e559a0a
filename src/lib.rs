//! Coldpress: a folder of lessons, refrigerant tables and diagnostic trees becomes a linked, offline handbook.
//!
//! The rooms stand in the order in which data goes through them; each knows only those above it.

pub mod quantity;

pub mod fluid;

pub mod trade;

pub mod handbook;

pub mod reading;

pub mod proofing;

pub mod setting;

pub mod binding;

pub mod serving;

pub mod command;
