#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "calc/calc.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::calc {
namespace {

struct Example {
  const char* name;
  const char* input;
};

const Example kExamples[] = {
    {"finish", R"({"feed_mm_per_rev":0.1,"nose_radius_mm":0.8,"h_min_um":3})"},
    {"force", R"({"depth_mm":0.1,"feed_mm_per_rev":0.1,"nose_radius_mm":0.8,"kc11_n_per_mm2":1160,"mc":0.26,
        "surface_speed_m_per_min":120})"},
    {"cutplan", R"({"ring":{"outer_radius_mm":140,"inner_radius_mm":85,"approach_mm":3},
        "needed_um":{"outboard":150,"inboard":120},"start_min_mm":21.48,"machine_to_mm":20.6,
        "lathe":{"speeds_rpm":[100,150],"feeds_mm_per_rev":[0.05,0.1],"dial_um_per_mark":25.4,
        "dial_inboard_um_per_mark":20},"insert":{"nose_radius_mm":0.8,"max_speed_m_per_min":150},
        "rules":{"rough_max_um":250,"finish_min_um":50,"finish_max_um":130,"ra_target_um":1.6,"ra_factor":1.5}})"},
    {"foresee", R"({"ring":{"outer_radius_mm":140,"inner_radius_mm":85,"approach_mm":3},"start_min_mm":21.48,
        "u_start_min_um":3,"machine_to_mm":20.6,"discard_mm":20,"lathe":{"dial_um_per_mark":25.4,
        "dial_inboard_um_per_mark":20,"dial_sd_um":2.5,"speeds_rpm":[100,150],"feeds_mm_per_rev":[0.1]},
        "insert":{"nose_radius_mm":0.8,"max_speed_m_per_min":150},"material":{"kc11_n_per_mm2":1160,"mc":0.26},
        "rules":{"rough_max_um":250,"finish_min_um":50,"finish_max_um":130,"ra_target_um":1.6,"ra_factor":1.5},
        "confidence":0.95,"passes":[{"outboard_marks":4,"inboard_marks":3,"rpm":150,"feed_mm_per_rev":0.15},
        {"outboard_marks":2,"inboard_marks":2,"rpm":150,"feed_mm_per_rev":0.1}]})"},
    {"diagnose", R"({"signs":{"car_runout_um":60,"car_runout_follows_part":true,"scratch_apart_deg":170,"taper_um":-3,
        "closing_error_um":-1,"ra_um":1.2,"ra_over_kinematic":2.5,"cheek_difference_mm":0.1,"micrometer_offset_um":-2}})"},
    {"dialcheck", R"({"outboard":{"marks":6,"dial_um_per_mark":25.4,"touch_loss_um":20,"u_touch_loss_um":3,
        "removed_um":130,"u_removed_um":4,"touched_all":false},"inboard":{"marks":6,"dial_um_per_mark":25.4,
        "touch_loss_um":20,"u_touch_loss_um":3,"removed_um":110,"u_removed_um":5},"dial_sd_um":2.5,"settings":2,
        "removed_sum_um":240,"u_removed_sum_um":2,"temperature_rise_k":10,"u_temperature_rise_k":2,"thickness_mm":21.5})"},
    {"dialstudy", R"({"dial_um_per_mark":25.4,"dial_inboard_um_per_mark":25.4,"jobs":[
        {"outboard_marks":4,"inboard_marks":8,"settings":2,"depth_um":305,"u_depth_um":3,"days":0},
        {"outboard_marks":9,"inboard_marks":5,"settings":1,"depth_um":350,"u_depth_um":3,"days":7},
        {"outboard_marks":6,"inboard_marks":6,"depth_um":301,"u_depth_um":3,"days":14,"outboard_depth_um":150,
         "u_outboard_depth_um":5,"inboard_depth_um":154,"u_inboard_depth_um":5},
        {"outboard_marks":12,"inboard_marks":4,"depth_um":411,"u_depth_um":3,"days":21},
        {"outboard_marks":5,"inboard_marks":11,"depth_um":402,"u_depth_um":3,"days":28},
        {"outboard_marks":7,"inboard_marks":7,"depth_um":352,"u_depth_um":3,"days":35}]})"},
    {"separate", R"({"positions":[{"turn_deg":0,"angles_deg":[0,60,120,180,240,300],"values_um":[42,30,-8,-40,-31,9]},
        {"turn_deg":144,"angles_deg":[0,60,120,180,240,300],"values_um":[18,-2,-21,-19,1,22]}],"max_order":2,
        "noise_sd_um":1.5,"studs":5})"},
    {"index", R"({"hub":[{"order":1,"amplitude_um":30,"phase_deg":40,"u_amplitude_um":2},
        {"order":2,"amplitude_um":4,"phase_deg":10}],"part":[{"order":1,"amplitude_um":25,"phase_deg":190}],
        "positions":5,"radius_mm":130,"plates":[{"id":"a","taper_um":25,"diameter_mm":150}],"limit_um":20,"u_um":1,
        "refit_u_um":2,"confidence":0.95,"seed":3,"draws":100})"},
    {"heat", R"({"t_stop_s":4,"k_w_mk":48,"rho_kg_m3":7200,"c_j_kgk":500,"vehicle":{"mass_kg":1400,"speed_km_per_h":100,
        "end_speed_km_per_h":10,"front_share":0.7,"heat_share":0.9,"disc":{"outer_radius_mm":140,"inner_radius_mm":85,
        "thickness_mm":22,"cheek_thickness_mm":7}},"before":{"thickness_mm":22},"after":{"thickness_mm":21.2},
        "repeats":{"stops":5,"interval_s":60,"start_c":20,"ambient_c":15,"cooling_low_w_m2k":5,
        "cooling_high_w_m2k":60}})"},
    {"heat", R"({"t_stop_s":4,"q0_w_m2":2000000,"half_thickness_mm":6,"after":{"half_thickness_mm":5.5}})"},
    {"pulsation", R"({"rolling_circumference_mm":1920,"u_rolling_percent":1,"observations":[
        {"speed_km_per_h":90,"u_speed_percent":2,"count":128,"count_s":10},
        {"speed_km_per_h":60,"frequency_hz":8.4,"u_frequency_hz":0.3}],"corners":[{"name":"a","axle":"front",
        "variation":[{"order":1,"amplitude_um":12}],"blind_orders":[2,4],"runout_um":70}],"variation_limit_um":15,
        "speeds_km_per_h":[50,100],"growth":{"runout_um":120,"runout_limit_um":50,"variation_um":2,
        "variation_limit_um":15},"wear":{"thickness_mm":21.2,"u_mm":0.004,"discard_mm":20,"mm_per_unit":0.15,
        "relative_u":0.3},"seed":1})"},
    {"drum", R"({"parts":[{"name":"left","limits":{"nominal":{"value_mm":283.21},"machine_to":{"value_mm":284.734},
        "discard":{"value_mm":285.496},"out_of_round":{"value_mm":0.15},"taper":{"value_mm":0.25},
        "scoring":{"value_mm":0.3}},"readings":[{"depth_mm":5,"angle_deg":0,"values_mm":[283.6]},
        {"depth_mm":5,"angle_deg":45,"values_mm":[283.7]},{"depth_mm":5,"angle_deg":90,"values_mm":[283.62]},
        {"depth_mm":5,"angle_deg":135,"values_mm":[283.55]}],"gauge":{"resolution_mm":0.01,"mpe_mm":0.02,
        "repeatability_mm":0.005,"zero_error_mm":0.01},"part_temperature_c":25,"scoring":{"depth_um":60,"u_um":10}}],
        "lathe":{"dial_um_per_mark":25.4,"dial_repeatability_um":2.5,"mount_runout_um":10},"margin_um":5,
        "confidence":0.95,"wear_rate":{"mm_per_unit":0.1,"relative_u":0.3},"shoe":{"lining_radius_mm":141.6,
        "arc_deg":120},"plan":{"width_mm":55,"approach_mm":2,"lathe":{"speeds_rpm":[60,100],
        "feeds_mm_per_rev":[0.05,0.2]},"insert":{"nose_radius_mm":0.8,"max_speed_m_per_min":150},
        "rules":{"rough_max_um":150,"finish_min_um":25,"finish_max_um":40,"ra_target_um":2,"ra_factor":1.5}},
        "seed":5,"draws":100})"},
    {"disc-modes", R"({"outer_mm":140,"inner_mm":70,"thickness_mm":12,"e_gpa":110,"nu":0.26,"density_kg_m3":7200,
        "max_diameters":2,"max_circles":1,"u_e_gpa":4,"u_thickness_mm":0.1,
        "marks":{"spacing_mm":1.5,"u_spacing_mm":0.1,"radius_mm":120,"rpm":120}})"},
    {"lobes", R"({"k_n_per_m":12000000,"zeta":0.006,"fn_hz":520,"kf_n_per_m2":1500000000,"rpm":[60,150],
        "u_relative":{"k":0.1,"zeta":0.2,"kf":0.2},"zeta_factor":3})"},
    {"lobes", R"({"modes":[{"k_n_per_m":30000000,"zeta":0.04,"fn_hz":300,"weight":-0.5},
        {"k_n_per_m":12000000,"zeta":0.006,"fn_hz":520}],"kf_n_per_m2":1500000000,"rpm":[60,150,9000]})"},
    {"stability", R"({"mass_kg":1.2,"zeta":0.006,"fn_hz":500,"rpm":9000,"depth_mm":0.1,"intervals":40,
        "kf_n_per_m2":1500000000})"},
    {"stability", R"({"mass_kg":0.04,"zeta":0.011,"fn_hz":922,"rpm":5000,"depth_mm":0.5,"intervals":40,"teeth":2,
        "kt_n_per_m2":600000000,"kn_n_per_m2":200000000,"radial_ratio":0.5,"direction":"down"})"},
    {"outlook",
     R"({"outer_radius_mm":140,"inner_radius_mm":85,"thickness_mm":22,"ring":{"by":"tap","hz":1000,"zeta":0.003,
        "u_zeta":0.0003,"band_factor":5},"holder":{"k_n_per_m":20000000,"zeta":0.03,"fn_hz":250},"feed_mm_per_rev":0.1,
        "nose_radius_mm":0.4,"banded":true,"confidence":0.95,"rpm":[80],"depths_mm":[0.1]})"},
    {"twin-limit", R"({"k_tool":30000000,"zeta_tool":0.04,"fn_tool_hz":300,"k_disc":12000000,"zeta_disc":0.006,
        "fn_disc_hz":520,"kf_n_per_m2":1500000000,"u_relative":{"k":0.1,"zeta":0.2,"kf":0.2}})"},
};

void gather_numbers(Json& value, std::vector<Json*>& numbers) {
  if (value.is_number()) numbers.push_back(&value);
  if (value.is_structured()) {
    for (auto& inner : value) gather_numbers(inner, numbers);
  }
}

bool all_finite(const Json& value) {
  if (value.is_number_float()) return std::isfinite(value.get<double>());
  if (!value.is_structured()) return true;
  for (const auto& inner : value) {
    if (!all_finite(inner)) return false;
  }
  return true;
}

TEST(CalcExtremes, WhateverNumbersStandInAnInputTheAnswerIsFiniteOrARefusalThatNamesAField) {
  const double extremes[] = {0,   -1,  1e-320, 1e-100, 1e-12, 1e-9, 1e-6, 1e-3, 0.01,  0.5,   1,      2,    3,
                             1e2, 1e3, 1e4,    1e5,    1e6,   1e9,  1e12, 1e15, 1e100, 1e308, -1e308, -1e5, -0.5};
  Random random(31);
  for (const auto& [name, text] : kExamples) {
    const Json example = Json::parse(text);
    ASSERT_TRUE(all_finite(find(name)->run(example))) << name;
    int answered = 0, refused = 0;
    for (int i = 0; i < 3000; ++i) {
      Json input = example;
      std::vector<Json*> numbers;
      gather_numbers(input, numbers);
      for (std::uint64_t changes = 1 + random.below(3); changes > 0; --changes) {
        *numbers[random.below(numbers.size())] = extremes[random.below(std::size(extremes))];
      }
      try {
        const Json answer = find(name)->run(input);
        ASSERT_TRUE(all_finite(answer)) << name << ' ' << input.dump() << ' ' << answer.dump();
        ++answered;
      } catch (const InputError& error) {
        ASSERT_FALSE(error.field().empty()) << name << ' ' << input.dump();
        ++refused;
      }
    }
    EXPECT_GT(answered, 200) << name;
    EXPECT_GT(refused, 200) << name;
  }
}

}  // namespace
}  // namespace brakewright::calc
