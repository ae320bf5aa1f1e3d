#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "calc/base64.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/calc/asked.hpp"
#include "tests/calc/wav_base64.hpp"

namespace brakewright::calc {
namespace {

/// Eight seconds of a tone in noise at 1000 samples a second, 16 bits.
std::string recording(double hz, double size) {
  Random random(9);
  std::vector<double> samples;
  for (int i = 0; i < 8000; ++i) {
    samples.push_back(size * std::cos(2 * std::numbers::pi * hz * i / 1000) + 0.02 * random.normal());
  }
  return wav_base64(samples, 1000);
}

TEST(Base64, GivesBackTheBytesAndRefusesWhatIsNone) {
  const auto text_of = [](const std::string& text) {
    const auto bytes = bytes_of_base64(text, "x");
    return std::string(bytes.begin(), bytes.end());
  };
  for (const char* text : {"", "a", "ab", "abc", "abcd"}) EXPECT_EQ(text_of(base64_of(text)), text);
  EXPECT_EQ(text_of("data:audio/wav;base64,YW\r\nJj"), "abc");
  for (const char* text : {"a", "YW=j", "YW*j", "====", "data:x,YWJj"}) {
    EXPECT_THROW(bytes_of_base64(text, "x"), InputError) << text;
  }
}

TEST(CalcSeparate, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("separate", R"({"positions":[
      {"turn_deg":0,"angles_deg":[0,90,180,270],"values_um":[30,10,-30,-10]},
      {"turn_deg":180,"angles_deg":[0,90,180,270],"values_um":[10,-10,-10,10]}],"max_order":3})");
  EXPECT_EQ(answer.at("order_used"), 1);
  EXPECT_TRUE(answer.at("not_separable").empty());
  EXPECT_NEAR(answer.at("carrier").at(0).at("amplitude_um").get<double>(), 20, 1e-9);
  EXPECT_NEAR(answer.at("part").at(0).at("amplitude_um").get<double>(), std::hypot(10, 10), 1e-9);
  EXPECT_TRUE(answer.at("residual_sd_um").is_number());
}

TEST(CalcSeparate, RefusalsNameTheField) {
  EXPECT_EQ(refusal("separate", R"({"positions":[{"angles_deg":[0],"values_um":[1]}],"max_order":1})"),
            "missing positions[0].turn_deg");
  EXPECT_EQ(refusal("separate", R"({"positions":[{"turn_deg":0,"angles_deg":[0],"values_um":[1,2]}],"max_order":1})"),
            "sizes_differ positions[0].values_um");
}

TEST(CalcIndex, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("index", R"({"hub":[{"order":1,"amplitude_um":30,"phase_deg":0}],
      "part":[{"order":1,"amplitude_um":30,"phase_deg":0}],"positions":4,"radius_mm":130,
      "plates":[{"id":"p","taper_um":10,"diameter_mm":150}],"limit_um":50})");
  EXPECT_EQ(answer.at("best").at("position"), 2);
  EXPECT_NEAR(answer.at("best").at("runout_um").get<double>(), 0, 1e-9);
  EXPECT_TRUE(answer.at("best").at("plate").is_null());
  EXPECT_TRUE(answer.at("best").at("plate_position").is_null());
  EXPECT_EQ(answer.at("all").size(), 5U);
  EXPECT_EQ(answer.at("all").at(4).at("plate"), "p");
}

TEST(CalcIndex, RefusalsNameTheField) {
  EXPECT_EQ(refusal("index", R"({"positions":5})"), "missing hub");
  EXPECT_EQ(refusal("index", R"({"positions":5,"hub":[],"part":[{"order":1.5,"amplitude_um":1,"phase_deg":0}]})"),
            "wrong_type part[0].order");
  EXPECT_EQ(refusal("index", R"({"positions":5,"readings":{"positions":[]}})"), "too_few readings.positions");
}

TEST(CalcHeat, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("heat", R"({"k_w_mk":48,"rho_kg_m3":7200,"c_j_kgk":500,"q0_w_m2":2000000,"t_stop_s":4,
      "half_thickness_mm":5})");
  EXPECT_NEAR(answer.at("rise_surface_max_k").get<double>(), 229.81771, 1e-4);
  EXPECT_NEAR(answer.at("rise_semi_infinite_max_k").get<double>(), 161.85903, 1e-4);
  EXPECT_TRUE(answer.at("before").is_null());
  EXPECT_EQ(answer.at("curve").size(), 41U);
}

TEST(CalcHeat, ACutTakesHalfOfItselfOffEachCheek) {
  const Json answer = run("heat", R"({"t_stop_s":4,"vehicle":{"mass_kg":1400,"speed_km_per_h":100,"front_share":0.7,
      "disc":{"outer_radius_mm":140,"inner_radius_mm":85,"thickness_mm":22,"cheek_thickness_mm":7}},
      "after":{"thickness_mm":21}})");
  EXPECT_NEAR(answer.at("after").at("depth_mm").get<double>(), 6.5, 1e-12);
  EXPECT_EQ(refusal("heat", R"({"t_stop_s":4,"half_thickness_mm":5})"), "missing q0_w_m2");
  EXPECT_EQ(refusal("heat", R"({"t_stop_s":4,"q0_w_m2":1e6,"half_thickness_mm":5,"after":{}})"),
            "missing after.thickness_mm");
}

TEST(CalcPulsation, ARecordingIsListenedTo) {
  Json input = Json::parse(R"({"tyre":"205/55 R16","observations":[{"speed_km_per_h":90}]})");
  input["observations"][0]["recording_wav_base64"] = recording(12.6, 0.1);
  const Json answer = run("pulsation", input);
  EXPECT_NEAR(answer.at("frequencies").at(0).at("hz").get<double>(), 12.6, 0.02);
  EXPECT_EQ(answer.at("recordings").at(0).at("lines").at(0).at("kind"), "tone");
  EXPECT_EQ(answer.at("orders").at(0).at("order"), 1);
  input["observations"][0]["recording_wav_base64"] = recording(12.6, 0);
  const Json silent = run("pulsation", input);
  EXPECT_EQ(silent.at("recordings").at(0).at("text"), "no clear line");
  EXPECT_TRUE(silent.at("orders").empty());
}

TEST(CalcPulsation, RefusalsNameTheField) {
  EXPECT_EQ(refusal("pulsation", R"({"observations":[{"speed_km_per_h":90}]})"), "missing tyre");
  EXPECT_EQ(refusal("pulsation", R"({"tyre":"x","observations":[{"speed_km_per_h":90}]})"), "not_a_tyre tyre");
  EXPECT_EQ(refusal("pulsation", R"({"tyre":"205/55R16","observations":[{"speed_km_per_h":90,"count":3}]})"),
            "missing observations[0].count_s");
  EXPECT_EQ(refusal("pulsation",
                    R"({"tyre":"205/55R16","observations":[{"speed_km_per_h":90,"recording_wav_base64":"YWJj"}]})"),
            "not_a_recording observations[0].recording_wav_base64");
}

TEST(CalcDrum, PlansAreOnOneSideAndSayWhatIsInTheWay) {
  Json input = Json::parse(R"({"parts":[{"readings":[],"gauge":{"resolution_mm":0.01,"mpe_mm":0.01,
      "repeatability_mm":0.005},"limits":{"machine_to":{"value_mm":284.734},"discard":{"value_mm":285.496},
      "out_of_round":{"value_mm":0.1}}}],"plan":{"width_mm":55,"lathe":{"speeds_rpm":[100],
      "feeds_mm_per_rev":[0.1]},"insert":{"nose_radius_mm":0.8,"max_speed_m_per_min":150},"rules":{"ra_target_um":2}},
      "draws":500})");
  for (int i = 0; i < 4; ++i) {
    input["parts"][0]["readings"].push_back(
        {{"depth_mm", 10}, {"angle_deg", 45 * i}, {"values_mm", {283.6 + (i % 2 == 0 ? 0.1 : -0.1)}}});
  }
  const Json answer = run("drum", input);
  EXPECT_EQ(answer.at("action"), "cut");
  const Json& plan = answer.at("plans").at(0);
  double depth = 0;
  for (const Json& pass : plan.at("passes")) depth += pass.at("depth_on_radius_um").get<double>();
  EXPECT_NEAR(depth, answer.at("parts").at(0).at("marks_on_radius_um").get<double>(), 1e-6);
  EXPECT_TRUE(plan.at("in_the_way").is_null());
  input["plan"]["rules"]["ra_target_um"] = 0.01;
  EXPECT_EQ(run("drum", input).at("plans").at(0).at("in_the_way").at("field"), "plan.rules.ra_target_um");
  input["parts"][0]["gauge"]["mpe_mm"] = 5;
  EXPECT_EQ(refusal("drum", input), "out_of_range parts[0].gauge.mpe_mm");
}

}  // namespace
}  // namespace brakewright::calc
