"""The one vocabulary of parameter names: the same thing has the same name everywhere, with its unit in the name."""

from typing import Final

from app.packs.own_reckoned import PREFIX

_NAMES: Final = """
true_deg magnetic_deg compass_deg track_true_deg track_magnetic_deg variation_deg deviation_deg card card_state
dip_deg horizontal_nt total_nt latitude_deg longitude_deg date hemisphere heading_deg start_deg target_deg turn
bank_deg rate_deg_s roll_lead_deg rollout_rule allowance_deg seconds speed_change face reading_deg low_deg high_deg
indicator_deg indicator_error_deg minutes limit_deg tas_kt cas_kt ias_kt gs_kt wind_from_deg wind_kt gust_kt wca_deg
drift_deg distance_nm gone_nm left_nm off_nm side relative_bearing_deg bearing_deg runway runway_true_deg time_utc
offset_h eta_utc elevation_ft indicated_ft pressure_altitude_ft density_altitude_ft setting_inhg setting_hpa
actual_inhg actual_hpa oat_c isa_deviation_c region ask annual_change_min printed_year year at_home across_north
across_agonic isogonal_deg next_isogonal_deg spacing_deg fraction printed_variation_min wind_source gps_north
gps_track_deg flight shuffle
shift_deg shift_toward_deg spread_deg
part fault defect serviceable residual_deg steer_deg object before_deg after_deg magnetic_latitude_deg
other_magnetic_latitude_deg system failure direction_source swing
phase cause compass_trend indicator_trend turn_trend asi_trend latitude_a_deg
latitude_b_deg latitude_c_deg latitude_d_deg latitude_e_deg dip_a_deg dip_b_deg dip_c_deg dip_d_deg dip_e_deg
variation_a_deg variation_b_deg variation_c_deg total_a_nt
total_b_nt total_c_nt tas_a_kt tas_b_kt tas_c_kt
square_nm spots relative_bearing_a_deg relative_bearing_b_deg east_nm north_nm east_a_nm north_a_nm east_b_nm
north_b_nm
angle_a_deg angle_b_deg angle_c_deg chart_scale nm_250 mi_250 km_250 nm_500
mi_500 km_500 latitude_min longitude_min
wind_from_a_deg wind_from_b_deg wind_from_c_deg wind_from_d_deg wind_from_e_deg takeoff_min first_pass_min
overhead_min checkpoint_min situation
suction_inhg clock_s later_clock_s compass_bearing_a_deg compass_bearing_b_deg
rate_rule earlier_minutes later_minutes turned_left_deg turned_right_deg planned_turn_deg panel instrument ball mark
push push_h spin
points scatter coefficient_a_deg coefficient_b_deg coefficient_c_deg
opening_deg closing_deg track_error_deg distance_unit
wrong_options explanation formulas
setting_hundredths gap_hundredths level_ft next_level_ft gap_ft error_ft ridge_ft above_station_ft wind_along_kt
usable_l burn_l_h usable_fuel burn_per_h fuel_unit reserve_min
rate_ft_min later_rate_ft_min altitude_kind comparison found_inhg departure_inhg station_inhg side_inhg
destination_inhg
flaps low_ias_kt high_ias_kt up_low_cas_kt up_high_cas_kt down_low_cas_kt down_high_cas_kt white_low_kt white_high_kt
green_low_kt green_high_kt red_kt
"""
VOCABULARY: Final = frozenset(_NAMES.split())


def is_named(name: str) -> bool:
    """Whether a parameter may be called so: by the vocabulary, or as a number of a school's own question."""
    return name in VOCABULARY or name.startswith(PREFIX)
