//! Lettering: how much room words take, whatever gothic the reader has, and where they stand.

use super::canvas::short;
use super::geometry::{Point, Rect};
use crate::setting::print::Both;
use std::fmt::Write as _;

/// How lettering is cut, by its class in the theme.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Style {
    /// Gothic.
    Plain,
    /// Gothic, a little smaller.
    Small,
    /// Italic of the text.
    Italic,
    /// A bold italic letter that the key explains.
    Key,
}

impl Style {
    const fn class(self) -> &'static str {
        match self {
            Self::Plain => "halo",
            Self::Small => "small halo",
            Self::Italic => "ital halo",
            Self::Key => "key halo",
        }
    }

    /// Its size where it is largest: phones letter drawings larger, and a line must keep clear there too.
    const fn size(self) -> f64 {
        match self {
            Self::Plain => 15.0,
            Self::Small => 14.7,
            Self::Italic => 16.0,
            Self::Key => 19.0,
        }
    }
}

/// Which part of the writing stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    /// Where it begins.
    Start,
    /// Its middle.
    Middle,
    /// Where it ends.
    End,
}

/// A line of lettering at its place.
#[derive(Clone, Debug)]
pub(super) struct Letters {
    pub(super) text: Both,
    style: Style,
    anchor: Anchor,
    at: Point,
}

/// Share of the size that capitals and figures rise above the line of writing, and tails fall below it.
const RISE: f64 = 0.76;
const FALL: f64 = 0.22;

impl Letters {
    pub(super) fn new(text: Both, style: Style, anchor: Anchor, at: Point) -> Self {
        Self { text, style, anchor, at }
    }

    /// Beside `point`, `reach` from it in the direction `turn` (radians, 0 to the right, clockwise).
    pub(super) fn beside(text: Both, style: Style, point: Point, turn: f64, reach: f64) -> Self {
        let (dx, dy) = (turn.cos(), turn.sin());
        let anchor = match dx {
            dx if dx > 0.35 => Anchor::Start,
            dx if dx < -0.35 => Anchor::End,
            _ => Anchor::Middle,
        };
        // Its box touches a circle of that reach: from below with its head, from above with its foot, else with its middle.
        let (rise, fall) = (RISE * style.size(), FALL * style.size());
        let down = (rise - fall) / 2.0 + dy * (rise + fall) / 2.0;
        Self { text, style, anchor, at: (point.0 + dx * reach, point.1 + dy * reach + down) }
    }

    /// The box it fills, in whichever system is the longer.
    pub(super) fn frame(&self) -> Rect {
        let wide = width(&self.text.us, self.style).max(width(&self.text.si, self.style));
        let left = match self.anchor {
            Anchor::Start => self.at.0,
            Anchor::Middle => self.at.0 - wide / 2.0,
            Anchor::End => self.at.0 - wide,
        };
        let size = self.style.size();
        Rect { left, top: self.at.1 - RISE * size, right: left + wide, bottom: self.at.1 + FALL * size }
    }

    pub(super) fn write(&self, out: &mut String, escape: impl Fn(&str) -> String) {
        let anchor = match self.anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let (x, y) = (short(self.at.0), short(self.at.1));
        let _ = write!(out, "<text class=\"{}\" x=\"{x}\" y=\"{y}\"{anchor}>", self.style.class());
        if self.text.us == self.text.si {
            out.push_str(&escape(&self.text.us));
        } else {
            let (us, si) = (escape(&self.text.us), escape(&self.text.si));
            let _ = write!(out, "<tspan class=\"us\">{us}</tspan><tspan class=\"si\">{si}</tspan>");
        }
        out.push_str("</text>");
    }
}

/// How wide `text` is set, at most: by the widths of a plain, uncondensed gothic, since a reader may have no other.
pub(super) fn width(text: &str, style: Style) -> f64 {
    let letter = |c: char| match c {
        '0'..='9' | '\u{2212}' | '+' | '=' => 0.57,
        ' ' | '\u{a0}' | '.' | ',' | ':' | ';' | '/' | '\'' | '\u{2019}' | '(' | ')' | '·' => 0.31,
        'i' | 'j' | 'l' => 0.25,
        'f' | 'r' | 't' | 'I' => 0.34,
        'm' | 'w' | 'M' | 'W' => 0.86,
        '°' => 0.41,
        '%' => 0.9,
        'a'..='z' => 0.56,
        _ => 0.7,
    };
    text.chars().map(letter).sum::<f64>() * style.size() + 1.0
}
