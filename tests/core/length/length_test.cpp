#include "core/length/length.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

struct Case {
  const char* text;
  Unit unit;
  std::int64_t nm;
  std::int64_t resolution_nm;
};

void expect_read(const Case& c, Unit default_unit) {
  const TypedLength typed = parse_length(c.text, default_unit).typed;
  EXPECT_EQ(typed.value.nm, c.nm) << c.text;
  EXPECT_EQ(typed.unit, c.unit) << c.text;
  EXPECT_EQ(typed.resolution_nm, c.resolution_nm) << c.text;
  EXPECT_EQ(typed.text, c.text);
}

std::string refusal(const std::string& text) {
  try {
    parse_length(text, Unit::mm);
  } catch (const InputError& error) {
    EXPECT_EQ(error.code(), "not_a_length");
    EXPECT_EQ(error.field(), "");
    return error.what();
  }
  return "";
}

TEST(Length, InchesAreReadInAllTheWaysTheyAreWritten) {
  const Case cases[] = {
      {"0.836", Unit::in, 21234400, 25400},
      {".836\"", Unit::in, 21234400, 25400},
      {"0.836 in", Unit::in, 21234400, 25400},
      {"836 thou", Unit::in, 21234400, 25400},
      {"0,836 IN", Unit::in, 21234400, 25400},
      {"836.5 Thou", Unit::in, 21247100, 2540},
      {"13/16 in", Unit::in, 20637500, 1587500},
      {"13 / 16 inch", Unit::in, 20637500, 1587500},
      {"1-1/8\"", Unit::in, 28575000, 3175000},
      {"1 1/8 in", Unit::in, 28575000, 3175000},
      {"1\xE2\x85\x9B\xE2\x80\xB3", Unit::in, 28575000, 3175000},
      {"1 \xC2\xBD in.", Unit::in, 38100000, 12700000},
      {"\xC2\xBE''", Unit::in, 19050000, 6350000},
      {"-.0005 inches", Unit::in, -12700, 2540},
      {"1", Unit::in, 25400000, 25400000},
      {"17/16", Unit::in, 26987500, 1587500},
      {"-1-1/8 in", Unit::in, -28575000, 3175000},
      {"0.00001 in", Unit::in, 254, 254},
  };
  for (const Case& c : cases) expect_read(c, Unit::in);
}

TEST(Length, MillimetresAreReadWithPointAndComma) {
  const Case cases[] = {
      {"21.23 mm", Unit::mm, 21230000, 10000},
      {"21,23 mm", Unit::mm, 21230000, 10000},
      {"21230 um", Unit::mm, 21230000, 1000},
      {"21230\xC2\xB5m", Unit::mm, 21230000, 1000},
      {"21230 \xCE\xBCm", Unit::mm, 21230000, 1000},
      {"5 microns", Unit::mm, 5000, 1000},
      {"22,354", Unit::mm, 22354000, 1000},
      {"22.354", Unit::mm, 22354000, 1000},
      {"22.", Unit::mm, 22000000, 1000000},
      {"+0.010", Unit::mm, 10000, 1000},
      {"\xE2\x88\x92"
       "0.25",
       Unit::mm, -250000, 10000},
      {"30.71 cm", Unit::mm, 307100000, 100000},
      {"007.5", Unit::mm, 7500000, 100000},
      {"0.000001", Unit::mm, 1, 1},
      {"1000000", Unit::mm, 1000000000000, 1000000},
  };
  for (const Case& c : cases) expect_read(c, Unit::mm);
}

TEST(Length, OuterWhiteSpaceOfAnyKindDoesNotMatter) {
  const TypedLength typed = parse_length(
                                " \t\xC2\xA0"
                                "21.5\xE2\x80\xAF"
                                "mm\r\n",
                                Unit::in)
                                .typed;
  EXPECT_EQ(typed.value.nm, 21500000);
  EXPECT_EQ(typed.text,
            "21.5\xE2\x80\xAF"
            "mm");
}

TEST(Length, WhatCanBeReadInTwoWaysIsRefused) {
  for (const char* text : {"1,234.5", "1.234,5", "1,234,567", "1.2.3", "1..2", "1 234", "1 234.5", "1'234", "1 - 1/8",
                           "1 -1/8", "5 mil", "1 1 1/8", "1-9/8", "1-8/8", "22 5"}) {
    EXPECT_NE(refusal(text).find("accepted are 0.836"), std::string::npos) << text;
  }
}

TEST(Length, WhatIsNoLengthIsRefused) {
  for (const char* text : {"",          "   ",
                           "-",         "+",
                           ".",         ",",
                           "--1",       "+-1",
                           "nan",       "NaN",
                           "inf",       "-Infinity",
                           "1e3",       "2.5E-1",
                           "0x10",      "abc",
                           "12abc",     "5'",
                           "5 ft",      "1/0",
                           "1/1",       "1/",
                           "/2",        "1-",
                           "1/2/3",     "1//2",
                           "mm",        "in",
                           "5 mm 3",    "\xEF\xBC\x95",
                           "\xFF\xFE",  "5 m",
                           "1.5/8",     "\xC2\xBD\xC2\xBD",
                           "1/2 1/2",   "0.836\"\"",
                           "1-\xC3\xA9"}) {
    EXPECT_NE(refusal(text), "") << text;
  }
  EXPECT_NE(refusal(std::string("1\0"
                                "2",
                                3)),
            "");
}

TEST(Length, WhatIsTooFineOrTooLongIsRefused) {
  for (const std::string text :
       {"0.0000001 mm", "0.00000001 in", "0.1234567890123456789012345 mm", "1000000.1 mm", "39370.1 in", "100001 cm",
        "99999999999999999999999 mm", "-1000001 mm", "1/1001 in", "1000001/2 in"}) {
    EXPECT_NE(refusal(text), "") << text;
  }
  EXPECT_NE(refusal(std::string(1000000, '9')), "");
  EXPECT_NE(refusal("1." + std::string(1000000, '0')), "");
  EXPECT_NE(refusal(std::string(1000000, ' ')), "");
}

TEST(Length, AMessageNamesTheMistake) {
  EXPECT_NE(refusal("1,234.5").find("two ways"), std::string::npos);
  EXPECT_NE(refusal("5 furlong").find("no unit"), std::string::npos);
  EXPECT_NE(refusal("").find("nothing is typed"), std::string::npos);
}

TEST(Length, WhatIsNoWholeNanometreGoesToTheNearest) {
  EXPECT_EQ(parse_length("1/128 in", Unit::in).typed.value.nm, 198438);
  EXPECT_EQ(parse_length("-1/128 in", Unit::in).typed.value.nm, -198438);
  EXPECT_EQ(parse_length("0.000001 in", Unit::in).typed.value.nm, 25);
}

constexpr Plausible kRotor{.low = {5'000'000}, .high = {50'000'000}};

TEST(Length, ABareNumberThatOnlyMakesSenseInTheOtherUnitIsAskedAbout) {
  const ParsedLength in_mm = parse_length("0.836", Unit::mm, kRotor);
  EXPECT_EQ(in_mm.ask, Unit::in);
  EXPECT_EQ(in_mm.typed.value.nm, 836000);
  const ParsedLength in_inches = parse_length("21.23", Unit::in, kRotor);
  EXPECT_EQ(in_inches.ask, Unit::mm);
  EXPECT_EQ(in_inches.typed.value.nm, 539242000);
  EXPECT_EQ(parse_length("13/16", Unit::mm, kRotor).ask, Unit::in);
}

TEST(Length, NothingIsAskedOfWhatIsPlainOrHopeless) {
  EXPECT_FALSE(parse_length("21.23", Unit::mm, kRotor).ask);
  EXPECT_FALSE(parse_length("0.836 in", Unit::mm, kRotor).ask);
  EXPECT_FALSE(parse_length("0.836 mm", Unit::mm, kRotor).ask);
  EXPECT_FALSE(parse_length("836", Unit::mm, kRotor).ask);
  EXPECT_FALSE(parse_length("0.1", Unit::mm, kRotor).ask);
  EXPECT_FALSE(parse_length("0.836", Unit::mm).ask);
}

TEST(Length, TheEndsOfThePlausibleRangeBelongToIt) {
  EXPECT_FALSE(parse_length("5", Unit::mm, kRotor).ask);
  EXPECT_FALSE(parse_length("50", Unit::mm, kRotor).ask);
}

TEST(Length, ConversionsKeepTheGaugesResolution) {
  EXPECT_EQ(format({21234400}, Unit::in, 25400), "0.836 in");
  EXPECT_EQ(format({21234400}, Unit::mm, 25400), "21.23 mm");
  EXPECT_EQ(format({21234400}, Unit::mm, 2540), "21.234 mm");
  EXPECT_EQ(format({22354000}, Unit::in, 1000), "0.88008 in");
  EXPECT_EQ(format({22354000}, Unit::mm, 1000), "22.354 mm");
  EXPECT_EQ(format({22000000}, Unit::mm, 1000000), "22 mm");
}

TEST(Length, ShownNumbersRoundToNearestAndHaveNoNegativeZero) {
  EXPECT_EQ(format_number({1999500}, Unit::mm, 1000), "2.000");
  EXPECT_EQ(format_number({1999499}, Unit::mm, 1000), "1.999");
  EXPECT_EQ(format_number({-400}, Unit::mm, 1000), "0.000");
  EXPECT_EQ(format_number({-500}, Unit::mm, 1000), "-0.001");
  EXPECT_EQ(format_number({1}, Unit::mm, 0), "0.000001");
}

TEST(Length, TwoNotesOfOneLimitAgreeWithinTheFinersLastPlace) {
  const auto typed = [](const char* text) { return parse_length(text, Unit::mm).typed; };
  EXPECT_TRUE(compare(typed("1.215 in"), typed("30.86 mm")).agree);
  const Agreement misprint = compare(typed("16.51 in"), typed("419.36 mm"));
  EXPECT_FALSE(misprint.agree);
  EXPECT_EQ(misprint.difference.nm, -6000);
  EXPECT_EQ(misprint.allowed_nm, 5000);
  EXPECT_FALSE(compare(typed("0.87 in"), typed("22.0 mm")).agree);
}

RC_GTEST_PROP(Length, AnyWholeNanometreSurvivesBeingShownAndReadAgain, ()) {
  const auto nm = *rc::gen::inRange<std::int64_t>(-999'999'999'000, 999'999'999'000);
  for (const Unit unit : {Unit::mm, Unit::in}) {
    // 0.0000001 in is 2.54 nm: seven decimals of an inch cannot tell every nanometre, and eight are refused.
    const std::int64_t resolution_nm = unit == Unit::mm ? 1 : 3;
    const auto back = parse_length(format({nm}, unit, resolution_nm), unit).typed;
    RC_ASSERT(std::abs(back.value.nm - nm) <= resolution_nm / 2);
    RC_ASSERT(back.unit == unit);
  }
}

RC_GTEST_PROP(Length, AReadingComesBackToItselfThroughTheOtherUnit, ()) {
  const auto steps = *rc::gen::inRange<std::int64_t>(-100'000'000, 100'000'001);
  const std::int64_t in_step = *rc::gen::element<std::int64_t>(254000, 25400, 2540, 254);
  const std::int64_t mm_step = *rc::gen::element<std::int64_t>(100000, 10000, 1000, 100);
  const Length from_in{steps * in_step / 100};
  const Length typed_in{from_in.nm / in_step * in_step};
  const auto seen_mm = parse_length(format(typed_in, Unit::mm, in_step), Unit::mm).typed.value;
  RC_ASSERT(format(seen_mm, Unit::in, in_step) == format(typed_in, Unit::in, in_step));
  const Length typed_mm{from_in.nm / mm_step * mm_step};
  const auto seen_in = parse_length(format(typed_mm, Unit::in, mm_step), Unit::in).typed.value;
  RC_ASSERT(format(seen_in, Unit::mm, mm_step) == format(typed_mm, Unit::mm, mm_step));
}

RC_GTEST_PROP(Length, AnyTextIsReadOrRefusedAndNeverAnythingElse, (const std::string& text)) {
  try {
    const auto typed = parse_length(text, Unit::mm).typed;
    RC_ASSERT(typed.resolution_nm >= 1);
  } catch (const InputError& error) {
    RC_ASSERT(error.code() == "not_a_length");
  }
}

}  // namespace
}  // namespace brakewright
