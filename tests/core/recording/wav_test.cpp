#include "core/recording/wav.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <bit>
#include <cmath>
#include <limits>
#include <string>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

using Bytes = std::vector<std::uint8_t>;

void put(Bytes& bytes, const char* word) { bytes.insert(bytes.end(), word, word + 4); }
void put(Bytes& bytes, std::uint32_t value, int count) {
  for (int i = 0; i < count; ++i) bytes.push_back(static_cast<std::uint8_t>(value >> (8 * i)));
}

struct Shape {
  std::uint16_t kind = 1, channels = 1, bits = 16;
  std::uint32_t rate_hz = 1000;
};

/// A file of these raw samples.
Bytes file_of(const Shape& shape, const std::vector<std::uint32_t>& raw, bool other_chunk = false) {
  const auto size = static_cast<std::uint32_t>(raw.size() * shape.bits / 8);
  Bytes bytes;
  put(bytes, "RIFF");
  put(bytes, 36 + size, 4);
  put(bytes, "WAVE");
  if (other_chunk) {
    put(bytes, "LIST");
    put(bytes, 3, 4);
    put(bytes, 0x00616263, 4);  // three bytes and the one that makes them even
  }
  put(bytes, "fmt ");
  put(bytes, 16, 4);
  put(bytes, shape.kind, 2);
  put(bytes, shape.channels, 2);
  put(bytes, shape.rate_hz, 4);
  put(bytes, shape.rate_hz * shape.channels * (shape.bits / 8U), 4);
  put(bytes, shape.channels * (shape.bits / 8U), 2);
  put(bytes, shape.bits, 2);
  put(bytes, "data");
  put(bytes, size, 4);
  for (const std::uint32_t value : raw) put(bytes, value, shape.bits / 8);
  return bytes;
}

std::string refusal(const Bytes& bytes) {
  try {
    read_wav(bytes);
  } catch (const InputError& error) {
    return error.code();
  }
  return "accepted";
}

TEST(Wav, EveryWidthGivesTheSameWave) {
  const struct {
    std::uint16_t kind, bits;
    std::uint32_t half, less;
  } widths[] = {{1, 8, 192, 64},
                {1, 16, 0x4000, 0xC000},
                {1, 24, 0x400000, 0xC00000},
                {1, 32, 0x40000000, 0xC0000000},
                {3, 32, std::bit_cast<std::uint32_t>(0.5F), std::bit_cast<std::uint32_t>(-0.5F)}};
  for (const auto& width : widths) {
    std::vector<std::uint32_t> raw;
    for (int i = 0; i < 1000; ++i) raw.push_back(i % 2 == 0 ? width.half : width.less);
    const Recording found = read_wav(file_of({.kind = width.kind, .bits = width.bits}, raw, true));
    ASSERT_EQ(found.samples.size(), 1000U) << width.bits;
    EXPECT_EQ(found.rate_hz, 1000);
    EXPECT_DOUBLE_EQ(found.samples[0], 0.5) << width.bits;
    EXPECT_DOUBLE_EQ(found.samples[1], -0.5) << width.bits;
  }
}

TEST(Wav, ChannelsAreAveraged) {
  std::vector<std::uint32_t> raw;
  for (int i = 0; i < 1000; ++i) raw.insert(raw.end(), {0x4000, 0x2000});
  EXPECT_DOUBLE_EQ(read_wav(file_of({.channels = 2}, raw)).samples[7], 0.375);
}

TEST(Wav, AFileThatClaimsMoreThanItHoldsCountsAsFarAsItGoes) {
  Bytes bytes = file_of({}, std::vector<std::uint32_t>(1500, 1));
  bytes.resize(bytes.size() - 401);
  EXPECT_EQ(read_wav(bytes).samples.size(), 1299U);
}

TEST(Wav, WhatIsNoRecordingIsRefusedByItsFault) {
  const std::vector<std::uint32_t> second(1000, 0);
  EXPECT_EQ(refusal({}), "not_a_recording");
  EXPECT_EQ(refusal(Bytes(100, 7)), "not_a_recording");
  EXPECT_EQ(refusal(file_of({.bits = 12}, second)), "not_a_recording");
  EXPECT_EQ(refusal(file_of({.kind = 85}, second)), "not_a_recording");
  EXPECT_EQ(refusal(file_of({.channels = 9}, second)), "out_of_range");
  EXPECT_EQ(refusal(file_of({.rate_hz = 50}, second)), "out_of_range");
  EXPECT_EQ(refusal(file_of({}, {1, 2, 3})), "too_few");
  EXPECT_EQ(refusal(file_of({.kind = 3, .bits = 32}, std::vector<std::uint32_t>(1000, 0x7FC00000))), "not_finite");
  Bytes headless = file_of({}, second);
  headless[36] = 'x';
  EXPECT_EQ(refusal(headless), "not_a_recording");
}

RC_GTEST_PROP(Wav, NoBytesDoMoreThanBeRefused, (const Bytes& noise)) {
  Bytes bytes = file_of({}, std::vector<std::uint32_t>(1000, 77));
  const auto at = *rc::gen::inRange<std::size_t>(0, 60);
  for (std::size_t i = 0; i < noise.size() && at + i < bytes.size(); ++i) bytes[at + i] = noise[i];
  bytes.resize(*rc::gen::inRange<std::size_t>(0, bytes.size() + 1));
  const std::string code = refusal(bytes);
  RC_ASSERT(code == "accepted" || code == "not_a_recording" || code == "out_of_range" || code == "too_few" ||
            code == "not_finite");
}

}  // namespace
}  // namespace brakewright
