//! Hatching: what an area is made of, or whose force it is.

/// A hatching.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Hatch {
    /// Brass: broken pairs.
    Brass,
    /// Steel: close pairs.
    Steel,
    /// Copper: counter-hatched.
    Copper,
    /// Liquid: broken level lines.
    Liquid,
    /// Vapor: dots.
    Vapor,
    /// The bulb's force.
    BulbForce,
    /// The evaporator's force.
    EvaporatorForce,
    /// The spring's force.
    SpringForce,
}

macro_rules! slanted {
    ($name:literal, $size:literal, $turn:literal, $lines:literal) => {
        concat!(
            "<pattern id=\"",
            $name,
            "\" width=\"",
            $size,
            "\" height=\"",
            $size,
            "\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(",
            $turn,
            ")\"><path ",
            $lines,
            "/></pattern>"
        )
    };
}

impl Hatch {
    /// Its name in the drawing.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Brass => "brass",
            Self::Steel => "steel",
            Self::Copper => "copper",
            Self::Liquid => "liquid",
            Self::Vapor => "vapor",
            Self::BulbForce => "bulb",
            Self::EvaporatorForce => "evap",
            Self::SpringForce => "spring",
        }
    }

    /// Its definition.
    pub(super) const fn definition(self) -> &'static str {
        match self {
            Self::Brass => slanted!("brass", "7", "45", "class=\"l3\" d=\"M1 0V7M4.5 0V4.5\""),
            Self::Steel => slanted!("steel", "5", "45", "class=\"l3\" d=\"M1 0V5M2.6 0V5\""),
            Self::Copper => slanted!("copper", "4.5", "-45", "class=\"l3\" d=\"M1 0V4.5M3.2 0V2.6\""),
            Self::BulbForce => slanted!("bulb", "4", "45", "stroke=\"var(--copper)\" d=\"M1 0V4\""),
            Self::EvaporatorForce => slanted!("evap", "4", "-45", "stroke=\"var(--suction)\" d=\"M1 0V4\""),
            Self::SpringForce => slanted!("spring", "4", "90", "stroke=\"var(--verdigris)\" d=\"M1 0V4\""),
            Self::Liquid => {
                "<pattern id=\"liquid\" width=\"12\" height=\"6\" patternUnits=\"userSpaceOnUse\"><path class=\"l3\" d=\"M0 1.5H7M5 4.5H12\"/></pattern>"
            }
            Self::Vapor => {
                "<pattern id=\"vapor\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\"><path class=\"blk\" d=\"M1.3 1.3h1.4v1.4h-1.4zM5.8 5.8h1.4v1.4h-1.4z\"/></pattern>"
            }
        }
    }
}
