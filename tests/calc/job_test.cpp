#include <gtest/gtest.h>

#include <cmath>

#include "tests/calc/asked.hpp"

namespace brakewright::calc {
namespace {

Json readings(double mean_mm, std::vector<int> thousandths) {
  Json list = Json::array();
  for (std::size_t i = 0; i < thousandths.size(); ++i) {
    list.push_back({{"angle_deg", 360.0 * static_cast<double>(i) / static_cast<double>(thousandths.size())},
                    {"radius_mm", 120},
                    {"values_mm", {mean_mm + 0.001 * thousandths[i]}}});
  }
  return list;
}

const Json kMicrometer = {
    {"resolution_mm", 0.001}, {"mpe_mm", 0.002}, {"repeatability_mm", 0.001}, {"zero_error_mm", 0}};

Json thickness_input() {
  return {{"readings", readings(22, {0, 1, 2, 1, 0, -1, -2, -1})},
          {"micrometer", kMicrometer},
          {"part_temperature_c", 20},
          {"variation_limit_mm", 0.02},
          {"discard_mm", 20},
          {"machine_to_mm", 20.6},
          {"seed", 7},
          {"draws", 1000}};
}

Json part(const char* name, double mean_mm) {
  return {{"name", name},
          {"limits",
           {{"machine_to", {{"value_mm", 20.6}, {"source", "service information"}}},
            {"discard", {{"value_mm", 20.0}, {"source", "cast on the part"}}},
            {"variation", {{"value_mm", 0.02}, {"source", "service information"}}}}},
          {"readings", readings(mean_mm, {0, 15, 20, 15, 0, -15, -20, -15})},
          {"micrometer", kMicrometer},
          {"arbor_runout",
           {{"outboard", {{"angles_deg", {0, 90, 180, 270}}, {"values_um", {0, 10, 0, -10}}}},
            {"indicator", {{"resolution_um", 1}, {"repeatability_um", 1}}}}},
          {"scoring", {{"outboard_um", 20}, {"inboard_um", 0}, {"u_um", 3}}}};
}

Json job() {
  return {{"parts", {part("left", 22), part("right", 21.9)}},
          {"complaint", "pulsation"},
          {"margin_um", 10},
          {"wear_rate", {{"mm_per_unit", 0.1}, {"unit", "year"}}},
          {"seed", 3},
          {"draws", 1000}};
}

TEST(CalcThickness, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("thickness", thickness_input());
  EXPECT_NEAR(answer.at("mean_mm").get<double>(), 22, 1e-9);
  EXPECT_NEAR(answer.at("min_mm").get<double>(), 21.998, 1e-9);
  EXPECT_EQ(answer.at("min_angle_deg"), 270);
  EXPECT_NEAR(answer.at("max_mm").get<double>(), 22.002, 1e-9);
  EXPECT_NEAR(answer.at("variation_mm").get<double>(), 0.004, 1e-9);
  EXPECT_EQ(answer.at("taper_mm"), 0);
  EXPECT_EQ(answer.at("temperature_shift_mm"), 0);
  EXPECT_EQ(answer.at("variation_verdict"), "within");
  EXPECT_GT(answer.at("p_variation_within"), 0.95);
  EXPECT_LE(answer.at("true_variation_mm").at("low95"), answer.at("true_variation_mm").at("high95"));
  EXPECT_GT(answer.at("u_min_mm"), 0.001);
  EXPECT_EQ(answer.at("harmonics").at(0).at("order"), 1);
  EXPECT_NEAR(answer.at("harmonics").at(0).at("phase_deg").get<double>(), 90, 1);
  EXPECT_TRUE(answer.at("advice").is_array());
}

TEST(CalcThickness, WhatWasNotAskedIsNull) {
  Json input = thickness_input();
  input.erase("variation_limit_mm");
  input["discard_mm"] = nullptr;
  const Json answer = run("thickness", input);
  EXPECT_TRUE(answer.at("p_variation_within").is_null());
  EXPECT_TRUE(answer.at("variation_verdict").is_null());
  EXPECT_TRUE(answer.at("p_min_above_discard").is_null());
  EXPECT_TRUE(answer.at("p_min_above_machine_to").is_number());
}

TEST(CalcThickness, RefusalsNameTheField) {
  Json input = thickness_input();
  input["readings"][3]["values_mm"][0] = "22";
  EXPECT_EQ(refusal("thickness", input), "wrong_type readings[3].values_mm[0]");
  input = thickness_input();
  input["readings"][3].erase("angle_deg");
  EXPECT_EQ(refusal("thickness", input), "missing readings[3].angle_deg");
  input = thickness_input();
  input["micrometer"]["mpe_mm"] = -1;
  EXPECT_EQ(refusal("thickness", input), "out_of_range micrometer.mpe_mm");
  input = thickness_input();
  input["micrometer"]["color"] = 1;
  EXPECT_EQ(refusal("thickness", input), "unknown_field micrometer.color");
  input = thickness_input();
  input["seed"] = 1.5;
  EXPECT_EQ(refusal("thickness", input), "wrong_type seed");
  EXPECT_EQ(refusal("thickness", Json::array()), "wrong_type ");
}

TEST(CalcCleanup, TakesDepthsForTheFaceOrForEachPoint) {
  Json input = {{"thickness_mm", {22, 22, 22, 22}},
                {"outboard_um", {10, 0, -10, 0}},
                {"angles_deg", {0, 90, 180, 270}},
                {"score_outboard_um", 20},
                {"score_inboard_um", {0, 0, 5, 0}},
                {"margin_um", 0},
                {"dial_um_per_mark", 20}};
  const Json answer = run("cleanup", input);
  EXPECT_NEAR(answer.at("outboard_cut_um").get<double>(), 40, 1e-9);
  EXPECT_EQ(answer.at("outboard_marks"), 2);
  // Inboard stands at -10, 0, 10, 0: the groove of 5 lies at its high spot and costs nothing.
  EXPECT_NEAR(answer.at("inboard_cut_um").get<double>(), 20, 1e-9);
  EXPECT_EQ(answer.at("inboard_marks"), 1);
  EXPECT_NEAR(answer.at("final_mm").get<double>(), 22 - 0.040, 1e-9);
  EXPECT_TRUE(answer.at("over_machine_to_mm").is_null());
  EXPECT_TRUE(answer.at("cuts_left").is_null());
  input["machine_to_mm"] = 21.0;
  EXPECT_NEAR(run("cleanup", input).at("over_machine_to_mm").get<double>(), 0.960, 1e-9);
  input["dial_um_per_mark"] = 0;
  EXPECT_EQ(refusal("cleanup", input), "out_of_range dial_um_per_mark");
  input["dial_um_per_mark"] = 20;
  input["score_inboard_um"] = {1, 2};
  EXPECT_EQ(refusal("cleanup", input), "sizes_differ score_inboard_um");
  input["score_inboard_um"] = "deep";
  EXPECT_EQ(refusal("cleanup", input), "wrong_type score_inboard_um");
}

/// Flat faces that each have one pit at the same spot, so that either needs a cut of 45 um.
Json pitted() {
  return {{"thickness_mm", {22, 22, 22, 22}},   {"outboard_um", {0, 0, 0, 0}},       {"angles_deg", {0, 90, 180, 270}},
          {"score_outboard_um", {45, 0, 0, 0}}, {"score_inboard_um", {45, 0, 0, 0}}, {"dial_um_per_mark", 20}};
}

TEST(CalcCleanup, CountsTheInboardMarksByTheInboardDialWhereItIsGiven) {
  Json input = pitted();
  const Json alike = run("cleanup", input);
  EXPECT_EQ(alike.at("inboard_marks"), 3);
  input["dial_inboard_um_per_mark"] = nullptr;
  EXPECT_EQ(run("cleanup", input), alike);
  input["dial_inboard_um_per_mark"] = 50;
  const Json answer = run("cleanup", input);
  EXPECT_EQ(answer.at("outboard_marks"), 3);
  EXPECT_EQ(answer.at("inboard_marks"), 1);
  EXPECT_NEAR(answer.at("final_whole_marks_mm").get<double>(), 22 - 0.060 - 0.050, 1e-9);
  input["dial_inboard_um_per_mark"] = 0;
  EXPECT_EQ(refusal("cleanup", input), "out_of_range dial_inboard_um_per_mark");
}

TEST(CalcRunout, AnswersAndRefuses) {
  Json input = {{"angles_deg", {0, 90, 180, 270}}, {"values_um", {20, 0, -20, 0}}, {"limit_um", 100}, {"draws", 500}};
  const Json answer = run("runout", input);
  EXPECT_EQ(answer.at("runout_um"), 40);
  EXPECT_EQ(answer.at("high_deg"), 0);
  EXPECT_EQ(answer.at("verdict"), "within");
  input["values_um"][2] = 1e9;
  EXPECT_EQ(refusal("runout", input), "out_of_range values_um[2]");
}

TEST(CalcVerdict, JudgesAWholeJob) {
  const Json answer = run("verdict", job());
  EXPECT_EQ(answer.at("action"), "cut");
  EXPECT_GE(answer.at("p"), 0.95);
  EXPECT_TRUE(answer.at("next_measurement").is_null());
  const Json& reason = answer.at("reasons").at(0);
  for (const char* field : {"code", "text", "value", "limit", "source"}) EXPECT_TRUE(reason.contains(field)) << field;
  ASSERT_EQ(answer.at("parts").size(), 2U);
  const Json& left = answer.at("parts").at(0);
  EXPECT_EQ(left.at("name"), "left");
  EXPECT_EQ(left.at("cut_called_for"), "yes");
  EXPECT_TRUE(left.at("cleanup").at("outboard_marks").is_number_integer());
  EXPECT_EQ(left.at("wear_room_cut").at("unit"), "year");
  EXPECT_TRUE(left.at("runout").is_null());
}

TEST(CalcVerdict, CountsTheInboardMarksByTheInboardDialWhereItIsGiven) {
  Json input = job();
  input["lathe"] = {{"dial_um_per_mark", 10}};
  const Json alike = run("verdict", input).at("parts").at(0).at("cleanup");
  input["lathe"]["dial_inboard_um_per_mark"] = 1;
  const Json fine = run("verdict", input).at("parts").at(0).at("cleanup");
  EXPECT_EQ(fine.at("outboard_marks"), alike.at("outboard_marks"));
  EXPECT_EQ(fine.at("inboard_marks"), std::ceil(fine.at("inboard_cut_um").get<double>() - 1e-6));
  EXPECT_GT(fine.at("inboard_marks"), alike.at("inboard_marks"));
  input["lathe"]["dial_inboard_um_per_mark"] = 0;
  EXPECT_EQ(refusal("verdict", input), "out_of_range lathe.dial_inboard_um_per_mark");
}

TEST(CalcVerdict, RefusalsNameTheFieldInItsPart) {
  Json input = job();
  input["parts"][1]["readings"][2]["values_mm"] = Json::array();
  EXPECT_EQ(refusal("verdict", input), "too_few parts[1].readings[2].values_mm");
  input = job();
  input["parts"][0]["limits"]["machine_to"]["value_mm"] = 19;
  EXPECT_EQ(refusal("verdict", input), "out_of_range parts[0].limits.machine_to.value_mm");
  input = job();
  input["parts"][0]["limits"]["minimum"] = {{"value_mm", 20}};
  EXPECT_EQ(refusal("verdict", input), "unknown_field parts[0].limits.minimum");
  input = job();
  input["complaint"] = "sadness";
  EXPECT_EQ(refusal("verdict", input), "out_of_range complaint");
  input = job();
  input["parts"][0]["arbor_runout"]["outboard"]["values_um"] = {1, 2};
  EXPECT_EQ(refusal("verdict", input), "sizes_differ parts[0].arbor_runout.outboard.values_um");
  input = job();
  input["parts"] = Json::array();
  EXPECT_EQ(refusal("verdict", input), "too_few parts");
}

TEST(CalcAfterCut, ComparesBeforeAndAfter) {
  Json input = {{"before", readings(22, {10, 0, -10, 0})},
                {"after", readings(21.9, {0, 0, 0, 0})},
                {"micrometer_before", kMicrometer},
                {"outboard_marks", 3},
                {"inboard_marks", 2},
                {"limits", {{"machine_to", {{"value_mm", 20.6}, {"source", "service information"}}}}},
                {"draws", 1000}};
  const Json answer = run("after-cut", input);
  EXPECT_EQ(answer.at("outcome"), "pass");
  EXPECT_NEAR(answer.at("removed_mean_um").get<double>(), 100, 1e-6);
  EXPECT_NEAR(answer.at("planned_um").get<double>(), 127, 1e-9);
  EXPECT_EQ(answer.at("removed").size(), 4U);
  EXPECT_EQ(answer.at("checks").at(0).at("code"), "machine_to");
  input["dial_inboard_um_per_mark"] = 20;
  EXPECT_NEAR(run("after-cut", input).at("planned_um").get<double>(), 3 * 25.4 + 2 * 20, 1e-9);
  input["dial_inboard_um_per_mark"] = 0;
  EXPECT_EQ(refusal("after-cut", input), "out_of_range dial_inboard_um_per_mark");
  input.erase("dial_inboard_um_per_mark");
  input["after"][1]["values_mm"][0] = nullptr;
  EXPECT_EQ(refusal("after-cut", input), "wrong_type after[1].values_mm[0]");
}

}  // namespace
}  // namespace brakewright::calc
