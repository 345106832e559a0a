//! Properties of refrigerants: equations of state, pure and blended; saturation, density, enthalpy, entropy.
//!
//! Takes temperatures and pressures, gives the other properties. Knows no handbook and no file but its own data.
