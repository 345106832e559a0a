//! The entries of the catalogue, a file to a small topic, and the list of them in the order of the reference.
//!
//! What several entries are made of stands in [`asked`] (inputs) and [`psychrometrics`] (equations of moist air).

mod air_pressure;
mod airflow;
mod asked;
mod charge_limit;
mod charging;
mod coil_load;
mod coil_temperature;
mod compression;
mod cycle;
mod cylinder;
mod joints;
mod leak;
mod lines;
mod moist_air;
mod nitrogen;
mod pressure_drop_worth;
mod psychrometrics;
mod refrigerant_property;
mod saturation;
mod sensors;
mod superheat;
mod tube;
mod vacuum;
mod valve_balance;
mod valve_capacity;
mod whole_system;

use super::computation::Computation;

/// Every entry. A new one is a function in a file of its topic and a line here.
pub(super) fn all() -> Vec<Computation> {
    vec![
        air_pressure::atmospheric_pressure(),
        air_pressure::absolute_pressure(),
        air_pressure::vacuum_conversion(),
        air_pressure::altitude_chart_error(),
        saturation::bubble_pressure(),
        saturation::dew_pressure(),
        saturation::bubble_temperature(),
        saturation::dew_temperature(),
        saturation::glide(),
        refrigerant_property::liquid_density(),
        refrigerant_property::vapor_density(),
        refrigerant_property::vapor_volume(),
        refrigerant_property::liquid_enthalpy(),
        refrigerant_property::vapor_enthalpy(),
        refrigerant_property::liquid_entropy(),
        refrigerant_property::vapor_entropy(),
        refrigerant_property::density(),
        refrigerant_property::enthalpy(),
        refrigerant_property::entropy(),
        refrigerant_property::heat_capacity(),
        refrigerant_property::viscosity(),
        coil_temperature::midpoint_temperature(),
        coil_temperature::coil_inlet_temperature(),
        coil_temperature::coil_mean_temperature(),
        superheat::superheat(),
        superheat::subcooling(),
        superheat::superheat_wrong_curve(),
        superheat::subcooling_wrong_curve(),
        valve_balance::txv_spring_pressure(),
        valve_balance::txv_superheat_same_spring(),
        valve_balance::txv_superheat_internal_equalizer(),
        valve_balance::txv_cross_charge(),
        valve_balance::bench_outlet_pressure(),
        valve_balance::mop_bulb_pressure(),
        valve_capacity::txv_capacity_at_pressure_drop(),
        valve_capacity::txv_capacity_at_superheat(),
        valve_capacity::txv_capacity(),
        valve_capacity::liquid_temperature_correction(),
        valve_capacity::valve_pressure_available(),
        valve_capacity::subcooling_needed(),
        cycle::flash_fraction(),
        cycle::flash_fraction_transcritical(),
        cycle::net_refrigerating_effect(),
        cycle::mass_flow(),
        cycle::mass_flow_per_ton(),
        cycle::volumetric_capacity(),
        cycle::displacement_per_ton(),
        cycle::compression_ratio(),
        charging::target_superheat(),
        charging::charge_deviation(),
        charging::subcooling_deviation(),
        airflow::sensible_factor(),
        airflow::total_factor(),
        airflow::sensible_heat(),
        airflow::total_heat(),
        airflow::airflow_electric(),
        airflow::airflow_furnace(),
        airflow::airflow_per_ton(),
        airflow::temperature_split(),
        moist_air::humidity_ratio(),
        moist_air::relative_humidity(),
        moist_air::dew_point(),
        moist_air::wet_bulb(),
        moist_air::moist_enthalpy(),
        moist_air::moist_volume(),
        coil_load::coil_total_capacity(),
        coil_load::condensate_rate(),
        nitrogen::nitrogen_pressure(),
        nitrogen::nitrogen_pressure_real(),
        vacuum::water_boiling_temperature(),
        vacuum::evacuation_residual(),
        vacuum::effective_pump_speed(),
        vacuum::pump_down_time(),
        vacuum::rise_throughput(),
        vacuum::moisture_vapor_volume(),
        lines::line_velocity(),
        lines::line_pressure_drop(),
        lines::liquid_head(),
        lines::line_charge(),
        lines::oil_return_velocity(),
        pressure_drop_worth::pressure_for_saturation_change(),
        pressure_drop_worth::saturation_change_for_pressure_drop(),
        tube::tube_working_pressure(),
        charge_limit::charge_limit_m1(),
        charge_limit::charge_limit_room(),
        charge_limit::min_floor_area(),
        charge_limit::room_concentration(),
        charge_limit::quarter_lfl(),
        charge_limit::rcl_charge(),
        cylinder::cylinder_fill(),
        cylinder::cylinder_liquid_full_temperature(),
        leak::leak_rate_annualizing(),
        leak::leak_rate_rolling(),
        leak::co2_equivalent(),
        joints::torque_conversion(),
        joints::purge_time(),
        joints::galvanic_gap(),
        sensors::thermistor_resistance(),
        sensors::thermistor_temperature(),
        sensors::linear_signal(),
        sensors::linear_signal_voltage(),
        sensors::superheat_error(),
        compression::discharge_temperature(),
        compression::ideal_cop(),
        whole_system::discharge_superheat(),
        whole_system::condensing_over_ambient(),
        whole_system::approach(),
        whole_system::coil_temperature_difference(),
        whole_system::cop(),
        whole_system::heat_rejection(),
    ]
}

#[cfg(test)]
mod tests {
    use crate::quantity::{System, read};
    use crate::trade::roster::refrigerant;
    use crate::trade::{Given, InputKind, Surroundings, Worked, find, reckon};
    use std::collections::BTreeMap;

    /// What a computation says to inputs written as `name=figure; name=figure`.
    fn worked(name: &str, inputs: &str) -> Result<Worked, String> {
        let c = find(name).unwrap();
        let mut given = BTreeMap::new();
        for pair in inputs.split("; ") {
            let (name, text) = pair.split_once('=').unwrap();
            let figure = match c.input(name).unwrap().kind {
                InputKind::Refrigerant => Given::Refrigerant(refrigerant(text).unwrap()),
                InputKind::Quantity(kind) => Given::Written(read(text, Some(kind)).unwrap()),
            };
            given.insert(name.to_owned(), figure);
        }
        reckon(c, &given, &Surroundings::default()).map_err(|error| error.to_string().replace('\u{a0}', " "))
    }

    fn refused(name: &str, inputs: &str) -> String {
        match worked(name, inputs) {
            Ok(worked) => panic!("{name} answered {}", worked.answer_text(System::Us)),
            Err(says) => says,
        }
    }

    #[test]
    fn what_would_mislead_is_refused() {
        let table = [
            (
                "target-superheat",
                "return wet bulb=56 °F; outdoor dry bulb=95 °F",
                "target-superheat: the target is below 5 °F: don't charge by superheat in these conditions",
            ),
            (
                "valve-pressure-available",
                "refrigerant=R-410A; condensing temperature=50 °F; evaporating temperature=40 °F; liquid temperature=48 °F; distributor drop=35 psi",
                "valve-pressure-available: nothing is left for the valve: the liquid cannot reach the coil",
            ),
            (
                "humidity-ratio",
                "dry bulb=67 °F; wet bulb=80 °F",
                "humidity-ratio: the wet bulb (or dew point) is above the dry bulb, which cannot be: a reading is wrong, or they are swapped",
            ),
            (
                "humidity-ratio",
                "dry bulb=67 °F; relative humidity=110 %",
                "relative humidity of 1.1 is outside 0 to 1, where humidity-ratio holds",
            ),
            (
                "humidity-ratio",
                "dry bulb=67 °F; relative humidity=50 %; wet bulb=60 °F",
                "humidity-ratio takes only one of wet bulb (as `52 °F`) or relative humidity (as `0.8`) or dew point (as `52 °F`), and more was given",
            ),
            (
                "humidity-ratio",
                "dry bulb=67 °F",
                "humidity-ratio also needs wet bulb (as `52 °F`) or relative humidity (as `0.8`) or dew point (as `52 °F`); it takes dry bulb, wet bulb, relative humidity, dew point, altitude if it is known",
            ),
            (
                "mop-bulb-pressure",
                "dryout pressure=72.1 psia; dryout temperature=60 °F; bulb temperature=40 °F",
                "mop-bulb-pressure: there is still liquid in a bulb colder than the dryout temperature: its pressure is the saturation pressure",
            ),
            (
                "pump-down-time",
                "volume=1 ft³; speed=1 cfm; start pressure=500 microns; end pressure=1000 microns",
                "pump-down-time: the end pressure is not below the start pressure",
            ),
            (
                "compression-ratio",
                "suction pressure=0 psia; discharge pressure=220 psig",
                "compression-ratio: the formula has no value for these figures",
            ),
            (
                "cylinder-liquid-full-temperature",
                "refrigerant=R-22; mass=1 lb; volume=1 ft³",
                "cylinder-liquid-full-temperature: no temperature from −251.4 °F to 205.0 °F fits these figures",
            ),
        ];
        for (name, inputs, says) in table {
            assert_eq!(refused(name, inputs), says);
        }
    }

    #[test]
    fn what_needs_saying_is_said_beside_the_answer() {
        let noted = [
            ("water-boiling-temperature", "pressure=500 microns", "ice"),
            ("cylinder-liquid-full-temperature", "refrigerant=R-22; mass=52 lb; volume=0.764 ft³", "overfilled"),
            ("linear-signal", "signal=3.5 mA; scale low=0 psig; scale high=500 psig", "fault"),
            ("charge-deviation", "measured=20 °F; target=12 °F", "short of charge"),
            ("subcooling-deviation", "measured=20 °F; target=12 °F", "overcharged"),
            (
                "txv-capacity-at-pressure-drop",
                "capacity=3 ton; rated pressure drop=160 psi; pressure drop=40 psi",
                "flash gas",
            ),
        ];
        for (name, inputs, word) in noted {
            let worked = worked(name, inputs).unwrap();
            assert!(worked.notes.iter().any(|note| note.contains(word)), "{name}: {:?}", worked.notes);
        }
        let silent = worked("water-boiling-temperature", "pressure=5000 microns").unwrap();
        assert!(silent.notes.is_empty());
    }
}
