#include "shop/uuid.hpp"

#include <gtest/gtest.h>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

RandomBytes counting_bytes() {
  return [next = std::uint8_t{0}](std::span<std::uint8_t> bytes) mutable {
    for (auto& byte : bytes) byte = next++;
  };
}

// Outside check: RFC 9562, appendix A.6, example of a UUIDv7 (time 0x017F22E279B0, rand_a 0xCC3, rand_b
// 0x18C4DC0C0C07398F).
TEST(Uuid, VersionSevenIsThatOfTheStandardsExample) {
  const RandomBytes example = [](std::span<std::uint8_t> bytes) {
    const std::array<std::uint8_t, 16> drawn{0,    0,    0,    0,    0,    0,    0x0c, 0xc3,
                                             0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f};
    std::copy(drawn.begin(), drawn.end(), bytes.begin());
  };
  EXPECT_EQ(to_text(make_uuid7(0x017F22E279B0, example)), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
}

TEST(Uuid, LaterOnesSortBehindEarlierOnes) {
  const auto random = counting_bytes();
  EXPECT_LT(make_uuid7(1000, random), make_uuid7(1001, random));
}

TEST(Uuid, TextComesBackToItselfAndCapitalsAreRead) {
  const std::string text = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
  EXPECT_EQ(to_text(parse_uuid(text)), text);
  EXPECT_EQ(to_text(parse_uuid("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")), text);
}

TEST(Uuid, AnythingElseIsRefused) {
  for (const char* text : {"", "017f22e2", "017f22e279b07cc398c4dc0c0c07398f", "017f22e2-79b0-7cc3-98c4-dc0c0c07398",
                           "017f22e2-79b0-7cc3-98c4-dc0c0c07398g", "017f22e2-79b0-7cc3-98c4-dc0c0c07398ff",
                           "{17f22e2-79b0-7cc3-98c4-dc0c0c07398f}", "017f22e2_79b0-7cc3-98c4-dc0c0c07398f"}) {
    EXPECT_THROW(parse_uuid(text), InputError) << text;
  }
}

TEST(Uuid, ATimeOutsideItsFieldIsAProgramsFault) {
  EXPECT_THROW(make_uuid7(-1, counting_bytes()), std::invalid_argument);
  EXPECT_THROW(make_uuid7(std::int64_t{1} << 48, counting_bytes()), std::invalid_argument);
}

}  // namespace
}  // namespace brakewright::shop
