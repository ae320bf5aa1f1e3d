#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "core/uncertainty/random.hpp"
#include "tests/calc/asked.hpp"
#include "tests/calc/wav_base64.hpp"

namespace brakewright::calc {
namespace {

const char* const kDisc = R"({"outer_mm":140,"inner_mm":70,"thickness_mm":12,"e_gpa":110,"nu":0.26,
    "density_kg_m3":7200,"max_diameters":4})";

/// Three tenths of a second of noise, then a strike that leaves one tone.
std::string tap(double hz, double zeta) {
  Random random(4);
  std::vector<double> samples;
  for (int i = 0; i < 22050 * 2; ++i) {
    const double t = i / 22050.0 - 0.3, w = 2 * std::numbers::pi * hz;
    samples.push_back((t < 0 ? 0 : 0.6 * std::exp(-zeta * w * t) * std::cos(w * t)) + 0.002 * random.normal());
  }
  return wav_base64(samples, 22050);
}

TEST(CalcDiscModes, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("disc-modes", kDisc);
  ASSERT_EQ(answer.at("modes").size(), 10U);
  const Json& umbrella = answer.at("modes").at(0);
  EXPECT_EQ(umbrella.at("diameters"), 0);
  EXPECT_EQ(umbrella.at("circles"), 0);
  EXPECT_NEAR(umbrella.at("lambda2").get<double>(), 12.9444189, 5.1e-8);
  EXPECT_NEAR(umbrella.at("hz").get<double>(), 1474, 1);
  EXPECT_EQ(answer.at("material_source"), "as given");
  EXPECT_EQ(answer.at("outer_radius_mm"), 140);
  EXPECT_EQ(answer.at("inner_radius_mm"), 70);
  EXPECT_TRUE(answer.at("ring").is_null());
}

TEST(CalcDiscModes, SayByHowMuchAHatRaisesTheTones) {
  Json input = Json::parse(kDisc);
  const Json flat = run("disc-modes", input);
  EXPECT_EQ(flat.at("hat_raises"), 1);
  input["hat"] = true;
  const Json hat = run("disc-modes", input);
  const auto lowest_hz = [](const Json& answer) { return answer.at("modes").at(0).at("hz").get<double>(); };
  EXPECT_NEAR(lowest_hz(hat) / lowest_hz(flat), hat.at("hat_raises").get<double>(), 1e-12);
  EXPECT_GT(hat.at("hat_raises"), 1.0);
}

TEST(CalcDiscModes, TheSourceSaysWhichFiguresOfTheMaterialWereAssumed) {
  Json input = Json::parse(kDisc);
  input.erase("density_kg_m3");
  EXPECT_EQ(run("disc-modes", input).at("material_source").get<std::string>().find("density_kg_m3 of grey iron"), 0U);
  input = {{"outer_mm", 140}, {"inner_mm", 70}, {"thickness_mm", 12}};
  EXPECT_EQ(run("disc-modes", input).at("material_source").get<std::string>().find("e_gpa, nu, density_kg_m3 of"), 0U);
}

TEST(CalcDiscModes, ATapIsHeardAndTheModeThatItFitsIsNamed) {
  Json input = Json::parse(kDisc);
  input["inner_edge"] = "free";
  const double plate_hz = run("disc-modes", input).at("modes").at(0).at("hz").get<double>();
  input["recording_wav_base64"] = tap(0.97 * plate_hz, 0.002);
  const Json answer = run("disc-modes", input);
  ASSERT_EQ(answer.at("ring").at("tones").size(), 1U);
  const Json& tone = answer.at("ring").at("tones").at(0);
  EXPECT_NEAR(tone.at("hz").get<double>() / (0.97 * plate_hz), 1, 1e-4);
  EXPECT_NEAR(tone.at("zeta").get<double>(), 0.002, 4e-5);
  EXPECT_EQ(tone.at("diameters"), 2);
  EXPECT_NEAR(tone.at("plate_hz").get<double>(), plate_hz, 1e-9);
}

TEST(CalcDiscModes, MarksOnAFaceAreTracedToTheirFrequency) {
  Json input = Json::parse(kDisc);
  input["marks"] = {{"spacing_mm", 1.0}, {"radius_mm", 120}, {"rpm", 120}};
  const Json marks = run("disc-modes", input).at("marks");
  EXPECT_NEAR(marks.at("hz").get<double>(), 2 * std::numbers::pi * 120 * 2, 1e-9);
  EXPECT_NEAR(marks.at("per_turn").get<double>(), 2 * std::numbers::pi * 120, 1e-9);
  input["marks"]["spacing_mm"] = 8;
  EXPECT_TRUE(run("disc-modes", input).at("marks").at("diameters").is_null());
}

TEST(CalcDiscModes, ADiameterTakenForARadiusPutsTheMarksOffTheRing) {
  Json input = Json::parse(kDisc);
  input["marks"] = {{"spacing_mm", 1.5}, {"radius_mm", 120}, {"rpm", 120}};
  EXPECT_EQ(refusal("disc-modes", input), "accepted");
  input["outer_mm"] = 280;
  input["inner_mm"] = 140;
  EXPECT_EQ(refusal("disc-modes", input), "out_of_range marks.radius_mm");
}

TEST(CalcDiscModes, RefusalsNameTheField) {
  Json input = Json::parse(kDisc);
  input["inner_mm"] = 200;
  EXPECT_EQ(refusal("disc-modes", input), "out_of_range inner_mm");
  input = Json::parse(kDisc);
  input["recording_wav_base64"] = "YWJj";
  EXPECT_EQ(refusal("disc-modes", input), "not_a_recording recording_wav_base64");
  input = Json::parse(kDisc);
  input["marks"] = {{"spacing_mm", 0}, {"radius_mm", 120}, {"rpm", 120}};
  EXPECT_EQ(refusal("disc-modes", input), "out_of_range marks.spacing_mm");
  input["marks"]["spacing_mm"] = 800;
  EXPECT_EQ(refusal("disc-modes", input), "out_of_range marks.spacing_mm");
  input = Json::parse(kDisc);
  input["inner_edge"] = "glued";
  EXPECT_EQ(refusal("disc-modes", input), "out_of_range inner_edge");
}

}  // namespace
}  // namespace brakewright::calc
