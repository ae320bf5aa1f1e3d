#include <gtest/gtest.h>

#include <cmath>

#include "tests/calc/asked.hpp"

namespace brakewright::calc {
namespace {

TEST(CalcLobes, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("lobes", R"({"k_n_per_m":2e7,"zeta":0.03,"fn_hz":250,"kf_n_per_m2":1.5e9,"rpm":[300,2500]})");
  EXPECT_NEAR(answer.at("limit_mm").at(0).get<double>(), 0.8342394562, 1e-9);
  EXPECT_NEAR(answer.at("limit_mm").at(1).get<double>(), 1.53227212, 1e-8);
  EXPECT_NEAR(answer.at("chatter_hz").at(1).get<double>(), 274.8883147, 1e-6);
  EXPECT_NEAR(answer.at("absolute_limit_mm").get<double>(), 0.824, 1e-12);
  EXPECT_EQ(answer.at("lobe").at(1), 6);
  EXPECT_TRUE(answer.at("banded").is_null());
}

TEST(CalcLobes, SaysWhatTheDampingBandIsWorth) {
  const Json answer = run("lobes", R"({"k_n_per_m":1.2e7,"zeta":0.006,"fn_hz":520,"kf_n_per_m2":1.5e9,"rpm":[120],
      "zeta_factor":4,"u_relative":{"kf":0.2}})");
  EXPECT_NEAR(answer.at("banded").at("worth").get<double>(), 4 * 1.024 / 1.006, 1e-9);
  const Json& band = answer.at("absolute_limit_band_mm");
  EXPECT_NEAR(band.at("high95").get<double>() / band.at("low95").get<double>(), std::exp(4 * 0.2 * 0.98), 1e-3);
}

TEST(CalcLobes, ABandRoundTheDiscDampsOnlyTheModesThatItIsOn) {
  Json input = Json::parse(R"({"modes":[{"k_n_per_m":1.2e7,"zeta":0.006,"fn_hz":520},
      {"k_n_per_m":1.2e7,"zeta":0.006,"fn_hz":5200}],"kf_n_per_m2":1.5e9,"rpm":[120],"zeta_factor":10})");
  const double both = run("lobes", input).at("banded").at("worth");
  input["modes"][1]["banded"] = false;
  const double disc_alone = run("lobes", input).at("banded").at("worth");
  EXPECT_GT(both, 8);
  EXPECT_GT(disc_alone, 1);
  EXPECT_LT(disc_alone, 1.3);
}

TEST(CalcLobes, RefusalsNameTheField) {
  EXPECT_EQ(refusal("lobes", R"({"kf_n_per_m2":1e9,"rpm":[100],"k_n_per_m":1e7,"zeta":0.1})"), "missing fn_hz");
  EXPECT_EQ(refusal("lobes", R"({"kf_n_per_m2":1e9,"rpm":[100,0],"k_n_per_m":1e7,"zeta":0.1,"fn_hz":9})"),
            "out_of_range rpm[1]");
  EXPECT_EQ(refusal("lobes", R"({"kf_n_per_m2":1e9,"rpm":[],"k_n_per_m":1e7,"zeta":0.1,"fn_hz":9})"),
            "out_of_range rpm");
  EXPECT_EQ(refusal("lobes", R"({"kf_n_per_m2":1e9,"rpm":[1],"modes":[{"k_n_per_m":1e7,"zeta":2,"fn_hz":9}]})"),
            "out_of_range modes[0].zeta");
  EXPECT_EQ(refusal("lobes", R"({"kf_n_per_m2":1e9,"rpm":[1],"modes":[]})"), "out_of_range modes");
  Json good = Json::parse(R"({"kf_n_per_m2":1e9,"rpm":[100],"k_n_per_m":1e7,"zeta":0.1,"fn_hz":9})");
  EXPECT_EQ(refusal("lobes", good), "accepted");
  good["zeta_factor"] = 10;
  EXPECT_EQ(refusal("lobes", good), "out_of_range zeta_factor");
  good["zeta_factor"] = nullptr;
  good["u_relative"] = {{"kf", -0.2}};
  EXPECT_EQ(refusal("lobes", good), "out_of_range u_relative.kf");
  good["u_relative"] = {{"kc", 0.2}};
  EXPECT_EQ(refusal("lobes", good), "unknown_field u_relative.kc");
  good["u_relative"] = nullptr;
  good["fn_hz"] = "nine";
  EXPECT_EQ(refusal("lobes", good), "wrong_type fn_hz");
}

TEST(CalcStability, AnswersWithTheFieldsOfTheContract) {
  const Json milled = run("stability", R"({"mass_kg":0.03993,"zeta":0.011,"fn_hz":922,"rpm":5000,"depth_mm":0.5,
      "intervals":40,"teeth":2,"kt_n_per_m2":6e8,"kn_n_per_m2":2e8,"radial_ratio":1,"direction":"down"})");
  EXPECT_NEAR(milled.at("spectral_radius").get<double>(), 1.043681, 1e-6);
  EXPECT_EQ(milled.at("stable"), false);
  const Json turned = run("stability", R"({"mass_kg":1.2,"zeta":0.02,"fn_hz":500,"rpm":9000,"depth_mm":0.01,
      "intervals":200,"kf_n_per_m2":1.5e9})");
  EXPECT_EQ(turned.at("stable"), true);
  EXPECT_EQ(turned.at("enough_intervals"), true);
  EXPECT_GT(turned.at("limit_mm").get<double>(), 0.01);
}

TEST(CalcStability, RefusalsNameTheField) {
  const Json good = Json::parse(R"({"mass_kg":1.2,"zeta":0.02,"fn_hz":500,"rpm":9000,"depth_mm":0.01,"intervals":40})");
  EXPECT_EQ(refusal("stability", good), "missing kf_n_per_m2");
  Json both = good;
  both["kf_n_per_m2"] = 1e9;
  both["teeth"] = 2;
  EXPECT_EQ(refusal("stability", both), "out_of_range teeth");
  Json milled = good;
  milled["teeth"] = 2;
  EXPECT_EQ(refusal("stability", milled), "missing kt_n_per_m2");
}

TEST(CalcTwinLimit, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("twin-limit", R"({"k_tool":3e7,"zeta_tool":0.04,"fn_tool_hz":300,"k_disc":1.2e7,
      "zeta_disc":0.006,"fn_disc_hz":520,"kf_n_per_m2":1.5e9})");
  EXPECT_NEAR(answer.at("disc_mode_mm").get<double>(), 0.048175, 5e-7);
  EXPECT_NEAR(answer.at("tools_only_mm").get<double>(), 1.664, 5e-7);
  EXPECT_NEAR(answer.at("single_side_mm").get<double>(), 0.096123, 5e-7);
  EXPECT_EQ(answer.at("governed_by"), "disc");
  EXPECT_TRUE(answer.at("limit_band_mm").is_null());
  EXPECT_EQ(refusal("twin-limit", R"({"k_tool":3e7,"zeta_tool":0.04,"fn_tool_hz":300,"k_disc":0,
      "zeta_disc":0.006,"fn_disc_hz":520,"kf_n_per_m2":1.5e9})"),
            "out_of_range k_disc");
}

TEST(CalcTwinLimit, TheForcesDoubtIsInTheBandOfTheLesserLimit) {
  Json input = Json::parse(R"({"k_tool":3e7,"zeta_tool":0.04,"fn_tool_hz":300,"k_disc":1.2e7,"zeta_disc":0.006,
      "fn_disc_hz":520,"kf_n_per_m2":1.5e9,"u_relative":{"kf":0.1}})");
  for (const double k_disc : {1.2e7, 1e12}) {
    input["k_disc"] = k_disc;
    const Json answer = run("twin-limit", input);
    const double limit_mm = answer.at("limit_mm"), high_mm = answer.at("limit_band_mm").at("high95");
    EXPECT_NEAR(std::log(high_mm / limit_mm), 0.1959964, 1e-6) << k_disc;
    EXPECT_NEAR(high_mm * answer.at("limit_band_mm").at("low95").get<double>(), limit_mm * limit_mm, 1e-12) << k_disc;
  }
  input["u_relative"] = {{"zeta", 3}};
  EXPECT_EQ(refusal("twin-limit", input), "out_of_range u_relative.zeta");
}

const char* const kOutlook = R"({"outer_radius_mm":140,"inner_radius_mm":85,"thickness_mm":22,
    "ring":{"by":"size","hz":1000,"zeta":0.003,"band_factor":5},"holder":{"k_n_per_m":2e7,"zeta":0.03,"fn_hz":250},
    "feed_mm_per_rev":0.1,"nose_radius_mm":0.4,"rpm":[80,110],"depths_mm":[0,0.1,0.4]})";

TEST(CalcOutlook, SaysWhoSingsFirstAndTheChanceOfEachDepth) {
  const Json answer = run("outlook", kOutlook);
  EXPECT_EQ(answer.at("governed_by"), "disc");
  EXPECT_EQ(answer.at("limit").at("mm"), answer.at("disc").at("mm"));
  EXPECT_EQ(answer.at("limit_mm").size(), 2u);
  EXPECT_EQ(answer.at("p_sings").at(0), 0);
  EXPECT_LT(answer.at("p_sings").at(1), answer.at("p_sings").at(2));
  EXPECT_GT(answer.at("worth").get<double>(), 3);
  EXPECT_LT(answer.at("worth").get<double>(), 6);
}

TEST(CalcOutlook, RefusalsNameTheField) {
  Json input = Json::parse(kOutlook);
  input["ring"]["by"] = "guess";
  EXPECT_EQ(refusal("outlook", input), "out_of_range ring.by");
  input["ring"]["by"] = "tap";
  input["ring"]["tone"] = 3;
  EXPECT_EQ(refusal("outlook", input), "unknown_field ring.tone");
  input = Json::parse(kOutlook);
  input.erase("rpm");
  EXPECT_EQ(refusal("outlook", input), "missing rpm");
}

}  // namespace
}  // namespace brakewright::calc
