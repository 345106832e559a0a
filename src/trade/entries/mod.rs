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
        airflow::airflow_electric(),
        airflow::airflow_furnace(),
        airflow::airflow_per_ton(),
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
